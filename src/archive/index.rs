//! The index on the disk: whole lines, appended under a lock.

use super::{Entry, Error};
use crate::disk;
use std::collections::BTreeMap;
use std::fs::{File, OpenOptions};
use std::io::{Read, Seek, SeekFrom, Write as _};
use std::path::Path;

fn world(path: &Path) -> impl FnOnce(std::io::Error) -> Error {
    let path = path.to_owned();
    move |why| Error::World { path, why }
}

/// Waits for the lock, and holds it as long as what is given lives; a process that is killed lets go of it.
pub(super) fn lock(path: &Path) -> Result<File, Error> {
    let file = OpenOptions::new().create(true).truncate(false).write(true).open(path).map_err(world(path))?;
    file.lock().map_err(world(path))?;
    Ok(file)
}

/// A whole line of the index that is no entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Damaged {
    /// Its number, from 1.
    pub line: usize,
    /// What is wrong with it.
    pub why: String,
    /// The hash of a package and its retention date, where both can still be read in it.
    pub(super) kept: Option<(String, String)>,
}

impl std::fmt::Display for Damaged {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "line {} of index.jsonl is damaged: {}; its issue is not among the answers", self.line, self.why)
    }
}

/// The index as it was read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Index {
    /// All entries, in the order of filing.
    pub entries: Vec<Entry>,
    /// The lines that are none.
    pub damaged: Vec<Damaged>,
}

/// All entries; a last line without its end was never reported as filed, and is none. A later line about the same package stands for the
/// earlier one, in its place. A damaged line harms the one entry that it was.
pub(super) fn read(path: &Path) -> Result<Index, Error> {
    let bytes = std::fs::read(path).map_err(world(path))?;
    let whole = bytes.iter().rposition(|byte| *byte == b'\n').map_or(0, |end| end + 1);
    let lines = bytes[..whole].split(|byte| *byte == b'\n').enumerate().filter(|(_, line)| !line.is_empty());
    let mut index = Index::default();
    let mut known = BTreeMap::new();
    for (i, line) in lines {
        let entry: Entry = match serde_json::from_slice(line) {
            Ok(entry) => entry,
            Err(why) => {
                index.damaged.push(Damaged { line: i + 1, why: why.to_string(), kept: kept(&String::from_utf8_lossy(line)) });
                continue;
            }
        };
        match known.get(&entry.package) {
            Some(at) => index.entries[*at] = entry,
            None => {
                known.insert(entry.package.clone(), index.entries.len());
                index.entries.push(entry);
            }
        }
    }
    Ok(index)
}

/// The hash of its package and the retention date in a damaged line.
fn kept(line: &str) -> Option<(String, String)> {
    let value = |key: &str| line.split_once(&format!("\"{key}\":\""))?.1.split_once('"').map(|(value, _)| value.to_owned());
    let is_date = |text: &str| {
        text.len() == 10 && text.bytes().enumerate().all(|(i, b)| if i == 4 || i == 7 { b == b'-' } else { b.is_ascii_digit() })
    };
    let (package, date) = (value("package")?, value("keep_until")?);
    (package.starts_with("sha256:") && package.len() == 71 && is_date(&date)).then_some((package, date))
}

/// Writes an index anew, whole; the caller holds the lock.
pub(super) fn write(path: &Path, entries: &[Entry]) -> Result<(), Error> {
    let mut bytes = Vec::new();
    for entry in entries {
        serde_json::to_writer(&mut bytes, entry).map_err(|why| Error::World { path: path.to_owned(), why: why.into() })?;
        bytes.push(b'\n');
    }
    put(path, &bytes)
}

/// Appends an entry; the caller holds the lock.
pub(super) fn append(path: &Path, entry: &Entry) -> Result<(), Error> {
    let mut file = OpenOptions::new().create(true).truncate(false).read(true).write(true).open(path).map_err(world(path))?;
    let mut bytes = Vec::new();
    file.read_to_end(&mut bytes).map_err(world(path))?;
    let whole = bytes.iter().rposition(|byte| *byte == b'\n').map_or(0, |end| end + 1) as u64;
    // What a kill cut short.
    file.set_len(whole).map_err(world(path))?;
    file.seek(SeekFrom::Start(whole)).map_err(world(path))?;
    let mut line = serde_json::to_vec(entry).map_err(|why| Error::World { path: path.to_owned(), why: why.into() })?;
    line.push(b'\n');
    let written = file.write_all(&line).and_then(|()| file.sync_all());
    if written.is_err() {
        // A full disk: half a line is taken away again.
        let _ = file.set_len(whole);
    }
    written.map_err(world(path))?;
    sync_folder_of(path)
}

/// Writes a file whole, and its name to the disk.
pub(super) fn put(path: &Path, bytes: &[u8]) -> Result<(), Error> {
    disk::write(path, bytes).map_err(world(path))?;
    sync_folder_of(path)
}

/// A new name is on the disk only when its folder is.
fn sync_folder_of(path: &Path) -> Result<(), Error> {
    let folder = path.parent().unwrap_or(Path::new("."));
    if cfg!(unix) {
        File::open(folder).and_then(|folder| folder.sync_all()).map_err(world(folder))?;
    }
    Ok(())
}
