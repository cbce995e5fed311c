//! Files that appear whole or not at all, and text for the terminal.

use super::arguments::SheetFormat;
use crate::disk::Place;
use crate::job::model::Date;
use anyhow::{Context, Result, bail, ensure};
use std::io::Write;
use std::path::{Path, PathBuf};

/// What a command may do to a file that is there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Guard<'a> {
    /// Whether it writes over them all.
    pub replace: Replace,
    /// The files that were read: none of them is ever written over.
    pub read: &'a [&'a Path],
}

/// Whether a command writes over a file that is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Replace {
    /// `--replace` was given.
    Given,
    /// It was not.
    NotGiven,
    /// The command has no such option.
    Never,
}

impl From<bool> for Replace {
    fn from(given: bool) -> Self {
        if given { Self::Given } else { Self::NotGiven }
    }
}

/// A file that is there may be written over for this reason, or may not for that one.
pub(super) type Ruling = std::result::Result<String, String>;

/// What became of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Written {
    /// It was not there.
    New,
    /// It held these very bytes, and was not touched.
    Unchanged,
    /// It was written over; why that was allowed, and what differs.
    Replaced(String),
    /// It went into a pipe, a device or the standard output.
    Sent,
}

/// A file that may be written, and how; nothing is written yet.
#[derive(Debug)]
pub(super) struct Ready<'a> {
    path: PathBuf,
    place: Place,
    bytes: &'a [u8],
    written: Written,
}

/// The most bytes of a file that is compared with what is written over it; a larger one is not a file of this program.
const MOST: u64 = 1 << 30;

/// Finds out whether a file may be written. Every command that writes a file a user names asks here.
///
/// Links are followed. A pipe or a device is written into. A file that holds these bytes stays as it is. Any other is written over with
/// `--replace` only, or where `rule` says so of its bytes; one that may not be written is never left to the rule.
///
/// # Errors
/// It may not; the error tells how to go on.
pub(super) fn ready<'a>(path: &Path, bytes: &'a [u8], guard: Guard, rule: impl Fn(&[u8]) -> Ruling) -> Result<Ready<'a>> {
    let place = Place::of(path).with_context(|| cannot_write(path))?;
    let ready = |written| Ok(Ready { path: path.to_owned(), place: place.clone(), bytes, written });
    let there = match &place {
        Place::New(_) => return ready(Written::New),
        Place::Stream(_) | Place::StandardOutput => return ready(Written::Sent),
        Place::File(there) => there.canonicalize().with_context(|| cannot_write(path))?,
    };
    let itself = guard.read.iter().any(|input| input.canonicalize().is_ok_and(|input| input == there));
    ensure!(!itself, "{} is the file itself that was read; name another", path.display());
    let before = place.contents(MOST);
    if matches!(&before, Ok(Some(before)) if before == bytes) {
        return ready(Written::Unchanged);
    }
    if guard.replace == Replace::Given {
        return ready(Written::Replaced("as --replace says".to_owned()));
    }
    let offer = if guard.replace == Replace::Never { "" } else { ", or write over it with --replace" };
    let refused = |why: String| format!("{} {why}{offer}", path.display());
    ensure!(!place.is_read_only(), refused("is there and is read-only: name another file".to_owned()));
    match before {
        Ok(Some(before)) => match rule(&before) {
            Ok(why) => ready(Written::Replaced(why)),
            Err(why) => bail!(refused(why)),
        },
        Ok(None) => bail!(refused("is there and is too large to be a file of this program: name another file".to_owned())),
        Err(why) => bail!(refused(format!("is there and cannot be read ({why}): name another file"))),
    }
}

fn cannot_write(path: &Path) -> String {
    format!("cannot write {}", path.display())
}

impl Ready<'_> {
    /// Writes.
    ///
    /// # Errors
    /// The folder is not there or not writable, the disk is full. What stood there before is then untouched.
    pub fn write(self) -> Result<Written> {
        if self.written != Written::Unchanged {
            self.place.write(self.bytes).with_context(|| cannot_write(&self.path))?;
        }
        Ok(self.written)
    }

    /// Whether it goes to the standard output, which then holds nothing else.
    #[cfg(feature = "paper")]
    pub fn is_standard_output(&self) -> bool {
        self.place == Place::StandardOutput
    }

    /// Whether it is a file, new or not.
    #[cfg(feature = "paper")]
    pub fn is_file(&self) -> bool {
        matches!(self.place, Place::New(_) | Place::File(_))
    }
}

/// Writes a file that is no package, and prints its name: over another file with `--replace` only.
///
/// # Errors
/// Those of [`ready`] and [`Ready::write`].
pub(super) fn write(path: &Path, bytes: &[u8], guard: Guard) -> Result<Written> {
    ready(path, bytes, guard, |_| Err("is there and holds something else: name another file".to_owned()))?.write()
}

/// Prints the name of a file that was written, and says on the standard error what became of one that was there.
///
/// # Errors
/// It cannot be printed.
pub(super) fn tell(path: &Path, written: &Written) -> Result<u8> {
    match written {
        Written::New | Written::Sent => {}
        Written::Unchanged => eprintln!("{}: unchanged, it held the same bytes", path.display()),
        Written::Replaced(why) => eprintln!("{}: written over, {why}", path.display()),
    }
    match Place::of(path) {
        Ok(Place::StandardOutput) => Ok(0),
        _ => print(&path.display().to_string()),
    }
}

/// Prints a text and its line end; a reader that hangs up early is not an error.
pub(super) fn print(text: &str) -> Result<u8> {
    let mut out = std::io::stdout().lock();
    match writeln!(out, "{}", text.trim_end_matches('\n')) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(error).context("cannot print"),
        _ => Ok(0),
    }
}

/// The form of a document: as asked for, else by the ending of its file, else for the terminal.
pub(super) fn format(asked: Option<SheetFormat>, path: Option<&Path>) -> SheetFormat {
    let by_ending = || match path.and_then(Path::extension).and_then(|e| e.to_str()) {
        Some("csv") => SheetFormat::Csv,
        Some("json") => SheetFormat::Json,
        Some("pdf") => SheetFormat::Pdf,
        _ => SheetFormat::Table,
    };
    asked.unwrap_or_else(by_ending)
}

/// The date that a PDF must have.
pub(super) fn dated(date: Option<Date>) -> Result<Date> {
    date.context("a PDF carries a date, and this program never asks the clock: give --date, such as --date 2026-03-18")
}

/// Prints a document, or writes it whole to a file and prints its name.
///
/// # Errors
/// A PDF without a file; a file that cannot be written.
pub(super) fn print_or_write(bytes: &[u8], path: Option<&Path>, replace: bool, is_pdf: bool) -> Result<u8> {
    match path {
        Some(path) => tell(path, &write(path, bytes, Guard { replace: replace.into(), read: &[] })?),
        None => {
            ensure!(!is_pdf, "a PDF is not printed in the terminal; name a file with --output");
            print(&String::from_utf8_lossy(bytes))
        }
    }
}

/// Rows as columns of even width, the first row the header; `right` are columns of numbers.
pub(super) fn columns(rows: &[Vec<String>], right: &[usize]) -> String {
    let count = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |i: usize| rows.iter().filter_map(|r| r.get(i)).map(|c| c.chars().count()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..count).map(width).collect();
    let mut text = String::new();
    for row in rows {
        for (i, cell) in row.iter().enumerate() {
            let pad = " ".repeat(widths[i] - cell.chars().count());
            text.push_str(&if right.contains(&i) { format!("{pad}{cell}  ") } else { format!("{cell}{pad}  ") });
        }
        text.truncate(text.trim_end().len());
        text.push('\n');
    }
    text
}
