//! The office folder: issued packages, and an index of them.
//!
//! ```text
//! FOLDER/index.jsonl            one line an issue, in the order of filing; what programs read, and what counts
//! FOLDER/index.txt              the same as a table for people; made anew from the lines at each filing
//! FOLDER/packages/NUMBER/….pdf  the packages, byte for byte
//! FOLDER/index.lock             held while somebody files
//! ```
//!
//! An index line is written after its package is on the disk, in one piece, with its line end last, and is synced before it is reported. So a
//! line that a kill cut short has no end: readers pass it over, and the next to file takes it away. Filing holds a lock of the operating
//! system, which ends with its process. Any number of processes may read meanwhile.

mod entry;
mod index;
mod question;
#[cfg(test)]
mod tests;

pub use entry::{Cell, Entry, Facts, Filed, MemberInShort, fingerprint};
pub use question::{Answer, Question, in_order};

use crate::pdf::Unreadable;
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
    /// A whole line of the index that is none.
    Damaged {
        /// Its number, from 1.
        line: usize,
        /// What is wrong with it.
        why: String,
    },
    /// The package cannot be read.
    Unreadable(Unreadable),
    /// The package carries no results: a submittal, or not ours.
    NothingAttached,
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
            Self::Damaged { line, why } => write!(f, "line {line} of index.jsonl is damaged: {why}; put back a copy of the file"),
            Self::Unreadable(why) => write!(f, "{why}"),
            Self::NothingAttached => f.write_str("it carries no results; file the record copy (a submittal carries nothing)"),
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

    /// All entries, in the order of filing.
    ///
    /// # Errors
    /// The index cannot be read, or a whole line of it is damaged.
    pub fn entries(&self) -> Result<Vec<Entry>, Error> {
        index::read(&self.index())
    }

    /// The entries with job numbers in a range, both ends taken in; numbers in the order of [`in_order`]. For work that is split over machines.
    ///
    /// # Errors
    /// As [`Self::entries`].
    pub fn between(&self, from: Option<&str>, to: Option<&str>) -> Result<Vec<Entry>, Error> {
        let inside = |entry: &Entry| {
            from.is_none_or(|from| in_order(from, &entry.number).is_le()) && to.is_none_or(|to| in_order(&entry.number, to).is_le())
        };
        Ok(self.entries()?.into_iter().filter(inside).collect())
    }

    /// Where the package of an entry is.
    pub fn package(&self, entry: &Entry) -> PathBuf {
        self.folder.join(&entry.file)
    }

    /// Files a package. When this answers, package and entry are on the disk. The same bytes may be filed again: nothing happens.
    ///
    /// # Errors
    /// The package carries no results, another one has its number and revision, or the folder cannot be written.
    pub fn file(&self, bytes: &[u8], facts: &Facts) -> Result<Filed, Error> {
        let entry = Entry::of(bytes, facts)?;
        make(&self.folder)?;
        let lock = index::lock(&self.folder.join("index.lock"))?;
        let mut entries = if self.index().exists() { self.entries()? } else { Vec::new() };
        if let Some(known) = entries.iter().find(|known| known.number == entry.number && known.revision == entry.revision) {
            return if known.package == entry.package {
                Ok(Filed::Before(known.clone()))
            } else {
                Err(Error::Taken { number: entry.number, revision: entry.revision, file: known.file.clone() })
            };
        }
        let path = self.package(&entry);
        if let Some(folder) = path.parent() {
            make(folder)?;
        }
        index::put(&path, bytes)?;
        index::append(&self.index(), &entry)?;
        entries.push(entry.clone());
        // The table says again what the lines say: where it cannot be written the entry stands all the same.
        let _ = index::put(&self.folder.join("index.txt"), entry::table(&entries).as_bytes());
        drop(lock);
        Ok(Filed::Now(entry))
    }

    fn index(&self) -> PathBuf {
        self.folder.join("index.jsonl")
    }
}

fn make(folder: &Path) -> Result<(), Error> {
    std::fs::create_dir_all(folder).map_err(|why| Error::World { path: folder.to_owned(), why })
}
