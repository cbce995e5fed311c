//! The office folder: issued packages, and an index of them.
//!
//! ```text
//! FOLDER/index.jsonl            one line an issue, in the order of filing; what programs read, and what counts
//! FOLDER/index.txt              the same as a table for people; made anew from the lines at each filing
//! FOLDER/packages/NUMBER/….pdf  the packages, byte for byte; a stamped copy lies beside the package that it was made of
//! FOLDER/index.lock             held while somebody files
//! ```
//!
//! An index line is written after its package is on the disk, in one piece, with its line end last, and is synced before it is reported. So a
//! line that a kill cut short has no end: readers pass it over, and the next to file takes it away. A package that is stamped later gets a
//! second line, which stands for the first. Filing holds a lock of the operating
//! system, which ends with its process. Any number of processes may read meanwhile. A line that was damaged harms the one entry that it
//! was: it is named, and the index can be made anew from the packages.

mod entry;
mod index;
mod question;
mod rebuild;
#[cfg(test)]
mod tests;

pub use entry::{Cell, Entry, Facts, Filed, MemberInShort, Superseded, fingerprint};
pub use index::{Damaged, Index};
pub use question::{Answer, Question, in_order};
pub use rebuild::Rebuilt;

use crate::pdf::{self, Stamp, Standing, Unreadable};
use std::path::{Path, PathBuf};

/// An office folder.
#[derive(Clone, Debug)]
pub struct Archive {
    folder: PathBuf,
}

/// Why something was not filed or not found.
#[derive(Debug)]
pub enum Error {
    /// A file or folder of the archive.
    World {
        /// Which.
        path: PathBuf,
        /// Why.
        why: std::io::Error,
    },
    /// Not an archive: it has no index.
    NoArchive(PathBuf),
    /// The package cannot be read.
    Unreadable(Unreadable),
    /// The package carries no results: a submittal, or not ours.
    NothingAttached,
    /// Its digest does not hold.
    Altered,
    /// Something was appended to it that is no signature: this.
    Appended(String),
    /// Its results cannot be read by this version.
    Results(String),
    /// Another package with this job number and revision is filed.
    Taken {
        /// Job number.
        number: String,
        /// Revision.
        revision: String,
        /// The file of the other.
        file: String,
    },
}

impl std::fmt::Display for Error {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::World { path, why } => write!(f, "{}: {why}", path.display()),
            Self::NoArchive(path) => write!(f, "{} is no archive: it has no index.jsonl", path.display()),
            Self::Unreadable(why) => write!(f, "{why}"),
            Self::NothingAttached => f.write_str("it carries no results; file the record copy (a submittal carries nothing)"),
            Self::Altered => f.write_str("it was altered since it was written; `latewood recheck` says more"),
            Self::Appended(what) => write!(f, "something was appended to it that is no signature: {what}"),
            Self::Results(why) => write!(f, "its results cannot be read by this version: {why}"),
            Self::Taken { number, revision, file } => {
                write!(
                    f,
                    "revision {revision} of job {number} is filed with other bytes, as {file}; a changed package needs a new revision"
                )
            }
        }
    }
}

impl std::error::Error for Error {}

impl Archive {
    /// An archive in a folder that may not be there yet.
    pub fn at(folder: impl Into<PathBuf>) -> Self {
        Self { folder: folder.into() }
    }

    /// An archive that is there.
    ///
    /// # Errors
    /// [`Error::NoArchive`].
    pub fn open(folder: impl Into<PathBuf>) -> Result<Self, Error> {
        let archive = Self::at(folder);
        if archive.index().is_file() { Ok(archive) } else { Err(Error::NoArchive(archive.folder)) }
    }

    /// The index: its entries, and the lines of it that are damaged.
    ///
    /// # Errors
    /// The index cannot be read.
    pub fn read(&self) -> Result<Index, Error> {
        index::read(&self.index())
    }

    /// The index with those entries only whose job numbers are in a range, both ends taken in; numbers in the order of [`in_order`]. For
    /// work that is split over machines.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub fn between(&self, from: Option<&str>, to: Option<&str>) -> Result<Index, Error> {
        let inside = |entry: &Entry| {
            from.is_none_or(|from| in_order(from, &entry.number).is_le()) && to.is_none_or(|to| in_order(&entry.number, to).is_le())
        };
        let mut index = self.read()?;
        index.entries.retain(inside);
        Ok(index)
    }

    /// Where the package of an entry is.
    pub fn package(&self, entry: &Entry) -> PathBuf {
        self.path(&entry.file)
    }

    /// Where a file of the archive is, by its name in the index.
    pub fn path(&self, file: &str) -> PathBuf {
        self.folder.join(file)
    }

    /// Every package that lies in the archive, in the index or not, in the order of names.
    ///
    /// # Errors
    /// A folder of the archive cannot be read.
    pub fn lying(&self) -> Result<Vec<PathBuf>, Error> {
        let listed =
            |folder: &Path| -> std::io::Result<Vec<PathBuf>> { std::fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect() };
        let world = |path: &Path| {
            let path = path.to_owned();
            move |why| Error::World { path, why }
        };
        let packages = self.folder.join("packages");
        let mut found = Vec::new();
        for job in listed(&packages).map_err(world(&packages))? {
            if job.is_dir() {
                found.extend(listed(&job).map_err(world(&job))?.into_iter().filter(|path| path.extension().is_some_and(|e| e == "pdf")));
            }
        }
        found.sort();
        Ok(found)
    }

    /// Files a package. When this answers, package and entry are on the disk. The same bytes may be filed again: nothing happens.
    ///
    /// A stamped package is filed as two: the issue that it was made of, whose bytes it begins with, and the stamped copy beside it.
    ///
    /// # Errors
    /// The package carries no results or was altered, another one has its number and revision, or the folder cannot be written.
    pub fn file(&self, bytes: &[u8], facts: &Facts) -> Result<Filed, Error> {
        let (issued, stamp) = under(bytes);
        let entry = Entry::of(issued, facts)?;
        if [issued, bytes].iter().any(|bytes| matches!(pdf::standing(bytes), Standing::Altered | Standing::Missing)) {
            return Err(Error::Altered);
        }
        for layer in pdf::layers(bytes).iter().filter(|layer| layer.stamp.is_none()) {
            if let Some(what) = pdf::appended(layer).others.into_iter().next() {
                return Err(Error::Appended(what));
            }
        }
        make(&self.folder)?;
        let lock = index::lock(&self.folder.join("index.lock"))?;
        let Index { mut entries, damaged } = if self.index().exists() { self.read()? } else { Index::default() };
        let known = entries.iter().position(|known| known.number == entry.number && known.revision == entry.revision);
        let (at, before) = match known {
            Some(at) if entries[at].package == entry.package => (at, true),
            Some(at) => return Err(taken(entry, entries[at].file.clone())),
            None => {
                // The entry of this issue may be the one that a damaged line was.
                if let Some(other) = self.lying_of(&entry).filter(|_| !damaged.is_empty()) {
                    return Err(taken(entry, other));
                }
                self.put(&entry.file, issued)?;
                index::append(&self.index(), &entry)?;
                entries.push(entry);
                (entries.len() - 1, false)
            }
        };
        let filed = match (stamp, entries[at].superseded.clone()) {
            (None, _) if before => Filed::Before(entries[at].clone()),
            (None, _) => Filed::Now(entries[at].clone()),
            (Some(_), Some(copy)) if copy.package == fingerprint(bytes) => Filed::Before(entries[at].clone()),
            (Some(_), Some(copy)) => return Err(taken(entries.swap_remove(at), copy.file)),
            (Some(stamp), None) => {
                let (entry, copy) = entries[at].clone().superseded(bytes, &stamp);
                self.put(&copy.file, bytes)?;
                index::append(&self.index(), &entry)?;
                entries[at] = entry.clone();
                Filed::Stamped(entry, copy)
            }
        };
        // The table says again what the lines say: where it cannot be written the entry stands all the same.
        let _ = index::put(&self.folder.join("index.txt"), entry::table(&entries).as_bytes());
        drop(lock);
        Ok(filed)
    }

    /// Another package of the same revision of the same job that lies where this one goes.
    fn lying_of(&self, entry: &Entry) -> Option<String> {
        let (folder, name) = entry.file.rsplit_once('/')?;
        // The name ends in the hash of the package.
        let start = &name[..=name.rfind('-')?];
        let names = std::fs::read_dir(self.folder.join(folder)).ok()?.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
        let other = |other: &String| other.starts_with(start) && other != name && !other.ends_with("-superseded.pdf");
        names.filter(other).min().map(|other| format!("{folder}/{other}"))
    }

    /// Writes a package of the archive whole.
    fn put(&self, file: &str, bytes: &[u8]) -> Result<(), Error> {
        let path = self.folder.join(file);
        if let Some(folder) = path.parent() {
            make(folder)?;
        }
        index::put(&path, bytes)
    }

    fn index(&self) -> PathBuf {
        self.folder.join("index.jsonl")
    }
}

fn make(folder: &Path) -> Result<(), Error> {
    std::fs::create_dir_all(folder).map_err(|why| Error::World { path: folder.to_owned(), why })
}

/// The package under stamps of this program, and the stamp that was put on last.
fn under(mut bytes: &[u8]) -> (&[u8], Option<Stamp>) {
    let mut last = None;
    while let Some((length, stamp)) = pdf::stamped(bytes) {
        last = last.or(Some(stamp));
        bytes = &bytes[..length];
    }
    (bytes, last)
}

fn taken(entry: Entry, file: String) -> Error {
    Error::Taken { number: entry.number, revision: entry.revision, file }
}
