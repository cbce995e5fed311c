//! Files that appear whole or not at all, and text for the terminal.

use anyhow::{Context, Result};
use std::io::Write;
use std::path::Path;
#[cfg(feature = "paper")]
use std::path::PathBuf;

/// Where a file is to be written: links are followed, and only a regular file is ever replaced.
///
/// # Errors
/// A folder, a device or a pipe stands there, or the file is one of those that were read.
#[cfg(feature = "paper")]
pub(super) fn place(path: &Path, read: &[&Path]) -> Result<PathBuf> {
    let Ok(there) = path.canonicalize() else { return Ok(path.to_owned()) };
    anyhow::ensure!(there.is_file(), "{} is not a regular file; name another", path.display());
    let itself = read.iter().any(|input| input.canonicalize().is_ok_and(|input| input == there));
    anyhow::ensure!(!itself, "{} is the file itself that was read; name another", path.display());
    Ok(there)
}

/// Writes a file through a temporary one beside it: synced, then renamed over what was there.
///
/// # Errors
/// The folder is not there or not writable, the disk is full. What stood at `path` before is then untouched.
pub(super) fn write_whole(path: &Path, bytes: &[u8]) -> Result<()> {
    let folder = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let failed = || format!("cannot write {}", path.display());
    // The error names a temporary file that nobody asked for: its kind is enough.
    let made = tempfile::Builder::new().prefix(".latewood-").tempfile_in(folder);
    let mut file = made.map_err(|error| std::io::Error::from(error.kind())).with_context(failed)?;
    file.write_all(bytes).with_context(failed)?;
    file.as_file().sync_all().with_context(failed)?;
    // A temporary file is its owner's alone; a package is an ordinary file.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        file.as_file().set_permissions(std::fs::Permissions::from_mode(0o644)).with_context(failed)?;
    }
    file.persist(path).with_context(failed)?;
    Ok(())
}

/// Prints a text and its line end; a reader that hangs up early is not an error.
pub(super) fn print(text: &str) -> Result<u8> {
    let mut out = std::io::stdout().lock();
    match writeln!(out, "{}", text.trim_end_matches('\n')) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(error).context("cannot print"),
        _ => Ok(0),
    }
}
