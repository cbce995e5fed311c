//! A file written beside its place, synced, renamed over what was there.

use std::fs::{File, Metadata};
use std::io::{Error, Result, Write};
use std::path::Path;
use std::time::Duration;
#[cfg(unix)]
use std::{fs::Permissions, os::unix::fs::PermissionsExt};

/// The name of a file that is being written: between these stand letters by lot.
const BEFORE: &str = ".latewood-";
const BEHIND: &str = ".part";
/// A file that is being written is never as old as this.
const LEFT: Duration = Duration::from_secs(3600);
/// The mode that a new file is asked for; the umask takes from it.
#[cfg(unix)]
const ORDINARY: u32 = 0o666;

/// What a file may be put over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Over {
    /// Nothing may be there.
    Nothing,
    /// What is there is replaced, and its mode kept.
    Kept,
}

/// Writes a file whole, over what is there.
///
/// # Errors
/// Those of [`put`].
#[cfg(any(feature = "paper", test))]
pub fn write(path: &Path, bytes: &[u8]) -> Result<()> {
    put(path, bytes, Over::Kept)
}

/// Writes a file whole, over nothing or over what is there; what stood there before is gone only when the new one is there.
///
/// # Errors
/// The folder is not there or not writable, the disk is full. What stood at `path` before is then untouched.
pub(super) fn put(path: &Path, bytes: &[u8], over: Over) -> Result<()> {
    let folder = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let before = if over == Over::Kept { path.symlink_metadata().ok().filter(Metadata::is_file) } else { None };
    let mut builder = tempfile::Builder::new();
    builder.prefix(BEFORE).suffix(BEHIND);
    // A temporary file is its owner's alone; what is written here is an ordinary file, as the umask has it, and never open to more
    // people than the one that it replaces.
    #[cfg(unix)]
    builder.permissions(before.as_ref().map_or_else(|| Permissions::from_mode(ORDINARY), |about| about.permissions()));
    // The error names a temporary file that nobody asked for: its kind is enough.
    let mut file = builder.tempfile_in(folder).map_err(|error| Error::from(error.kind()))?;
    // Ends with the process. A disk without locks has none to respect either.
    let _ = file.as_file().try_lock();
    file.write_all(bytes)?;
    #[cfg(unix)]
    if let Some(about) = &before {
        file.as_file().set_permissions(about.permissions())?;
    }
    file.as_file().sync_all()?;
    let _ = tidy(folder, file.path());
    match over {
        Over::Nothing => file.persist_noclobber(path),
        Over::Kept => file.persist(path),
    }
    .map_err(|why| why.error)?;
    Ok(())
}

/// Takes away what runs that were killed left in a folder: files of such a name, long older than ours by the disk's own clock, that
/// nobody holds. Where that cannot be told a file stays.
fn tidy(folder: &Path, ours: &Path) -> Result<()> {
    let now = ours.metadata()?.modified()?;
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name();
        let is_one = name.to_str().is_some_and(|name| name.starts_with(BEFORE) && name.ends_with(BEHIND));
        if !is_one || !entry.file_type()?.is_file() {
            continue;
        }
        let path = entry.path();
        if now.duration_since(entry.metadata()?.modified()?).is_ok_and(|age| age > LEFT)
            && File::options().write(true).open(&path)?.try_lock().is_ok()
        {
            std::fs::remove_file(&path)?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::SystemTime;

    /// A file whose clock stands so much before another's.
    fn left(path: &Path, before: Duration) -> File {
        let file = File::create(path).expect("made");
        let now: SystemTime = file.metadata().and_then(|about| about.modified()).expect("a time");
        file.set_modified(now - before).expect("set");
        file
    }

    #[test]
    fn what_a_killed_run_left_is_taken_away_and_nothing_else() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = |name: &str| folder.path().join(name);
        drop(left(&path(".latewood-killed.part"), 2 * LEFT));
        drop(left(&path(".latewood-young.part"), LEFT / 2));
        drop(left(&path(".latewood-notes"), 2 * LEFT));
        drop(left(&path("package.part"), 2 * LEFT));
        let held = left(&path(".latewood-held.part"), 2 * LEFT);
        held.lock().expect("locked");
        std::fs::create_dir(path(".latewood-folder.part")).expect("made");
        write(&path("new"), b"whole").expect("written");
        let mut names: Vec<String> = std::fs::read_dir(folder.path())
            .expect("a folder")
            .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        let stay = [".latewood-folder.part", ".latewood-held.part", ".latewood-notes", ".latewood-young.part", "new", "package.part"];
        assert_eq!(names, stay);
        assert_eq!(std::fs::read(path("new")).expect("there"), b"whole");
    }

    #[test]
    fn what_cannot_be_written_leaves_what_was_there() {
        let folder = tempfile::tempdir().expect("a folder");
        assert!(write(&folder.path().join("no-such/file"), b"x").is_err());
        std::fs::create_dir(folder.path().join("a-folder")).expect("made");
        assert!(write(&folder.path().join("a-folder"), b"x").is_err(), "not over a folder");
        assert_eq!(std::fs::read_dir(folder.path()).expect("a folder").count(), 1);
    }
}
