//! What is at a path before something is written there.

use super::whole::{self, Over};
use std::fs::{File, FileType, Metadata, OpenOptions};
use std::io::{Error, ErrorKind, Read, Result, Write};
use std::path::{Path, PathBuf};

/// The most links that are followed one after another; more are a circle (the limit of Linux, path_resolution(7)).
const MOST_LINKS: usize = 40;
/// Folders whose entries are the open files of a process. A path in one of them is written into, whatever it leads to.
const OPEN_FILES: [&str; 2] = ["/dev/fd", "/proc/self/fd"];

/// Where bytes are written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Place {
    /// Nothing is there: a file is created, and never over one that appeared meanwhile.
    New(PathBuf),
    /// A regular file, at the end of all links: it is replaced by a rename in its own folder and keeps its mode.
    File(PathBuf),
    /// A pipe, a device or an open file of this process: it is written into.
    Stream(PathBuf),
    /// The standard output.
    StandardOutput,
}

impl Place {
    /// What is at a path. `-` is the standard output.
    ///
    /// # Errors
    /// A folder or a socket, links in a circle, a folder that may not be searched.
    pub fn of(path: &Path) -> Result<Self> {
        if path == Path::new("-") {
            return Ok(Self::StandardOutput);
        }
        let mut at = path.to_owned();
        for _ in 0..MOST_LINKS {
            if let Some(open) = open_file(&at) {
                return Ok(open);
            }
            match at.read_link() {
                Ok(to) => at = at.parent().unwrap_or(Path::new("")).join(to),
                Err(_) => return Self::without_links(at),
            }
        }
        Err(Error::other("its links lead in a circle"))
    }

    fn without_links(path: PathBuf) -> Result<Self> {
        match path.metadata() {
            Ok(about) if about.is_file() => Ok(Self::File(path)),
            Ok(about) if is_stream(about.file_type()) => Ok(Self::Stream(path)),
            Ok(about) if about.is_dir() => Err(Error::other("it is a folder")),
            Ok(_) => Err(Error::other("it is not a regular file")),
            Err(why) if why.kind() == ErrorKind::NotFound => Ok(Self::New(path)),
            Err(why) => Err(why),
        }
    }

    /// The file that is replaced.
    pub fn file(&self) -> Option<&Path> {
        match self {
            Self::File(path) => Some(path),
            _ => None,
        }
    }

    /// Whether the file that is replaced may not be written.
    pub fn is_read_only(&self) -> bool {
        self.file().and_then(|path| path.metadata().ok()).is_some_and(|about| about.permissions().readonly())
    }

    /// What the file that is replaced holds; none where it holds more than `most` bytes.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn contents(&self, most: u64) -> Result<Option<Vec<u8>>> {
        let Some(path) = self.file() else { return Ok(None) };
        let file = File::open(path)?;
        if file.metadata().is_ok_and(|about: Metadata| about.len() > most) {
            return Ok(None);
        }
        let mut bytes = Vec::new();
        file.take(most).read_to_end(&mut bytes)?;
        Ok(Some(bytes))
    }

    /// Writes: a file whole or not at all, a stream from its beginning to its end.
    ///
    /// # Errors
    /// The folder is not there or not writable, the disk is full. A file is then as it was before.
    pub fn write(&self, bytes: &[u8]) -> Result<()> {
        match self {
            Self::New(path) => whole::put(path, bytes, Over::Nothing),
            Self::File(path) => whole::put(path, bytes, Over::Kept),
            Self::Stream(path) => OpenOptions::new().append(true).open(path)?.write_all(bytes),
            Self::StandardOutput => {
                let mut out = std::io::stdout().lock();
                out.write_all(bytes).and_then(|()| out.flush())
            }
        }
    }
}

/// A path that names an open file of this process.
fn open_file(path: &Path) -> Option<Place> {
    let text = path.to_str()?;
    let number = match text {
        "/dev/stdout" => "1",
        "/dev/stderr" => "2",
        _ => OPEN_FILES.iter().find_map(|folder| text.strip_prefix(folder)?.strip_prefix('/'))?,
    };
    Some(if number == "1" { Place::StandardOutput } else { Place::Stream(path.to_owned()) })
}

#[cfg(unix)]
fn is_stream(kind: FileType) -> bool {
    use std::os::unix::fs::FileTypeExt;
    kind.is_fifo() || kind.is_char_device()
}

#[cfg(not(unix))]
fn is_stream(_: FileType) -> bool {
    false
}
