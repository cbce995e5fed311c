//! Files that appear whole or not at all, and text for the terminal.

use super::arguments::SheetFormat;
use crate::disk;
use crate::job::model::Date;
use anyhow::{Context, Result};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Where a file is to be written: links are followed, and only a regular file is ever replaced.
///
/// # Errors
/// A folder, a device or a pipe stands there, or the file is one of those that were read.
pub(super) fn place(path: &Path, read: &[&Path]) -> Result<PathBuf> {
    let Ok(there) = path.canonicalize() else { return Ok(path.to_owned()) };
    anyhow::ensure!(there.is_file(), "{} is not a regular file; name another", path.display());
    let itself = read.iter().any(|input| input.canonicalize().is_ok_and(|input| input == there));
    anyhow::ensure!(!itself, "{} is the file itself that was read; name another", path.display());
    Ok(there)
}

/// Writes a file whole: it is there as a whole, or what stood there before.
///
/// # Errors
/// The folder is not there or not writable, the disk is full. What stood at `path` before is then untouched.
pub(super) fn write_whole(path: &Path, bytes: &[u8]) -> Result<()> {
    disk::write(path, bytes).with_context(|| format!("cannot write {}", path.display()))
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
pub(super) fn print_or_write(bytes: &[u8], path: Option<&Path>, is_pdf: bool) -> Result<u8> {
    match path {
        Some(path) => {
            write_whole(&place(path, &[])?, bytes)?;
            print(&path.display().to_string())
        }
        None => {
            anyhow::ensure!(!is_pdf, "a PDF is not written to the standard output; name a file with --output");
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
