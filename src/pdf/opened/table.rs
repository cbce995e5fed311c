//! The cross-reference tables of a PDF (ISO 32000-1, 7.5.4 to 7.5.6): one for the file as it was written and one for each update.
//!
//! Packages of this program and what is rightly appended to them have plain tables. Compressed ones, in which a few bytes can stand for
//! any number of objects, are refused, and so is a table whose entries do not lie in its own part of the file.

use super::super::attachments::Unreadable;
use super::syntax::{Cursor, is_space};
use lopdf::{Dictionary, Object};
use std::collections::BTreeMap;

/// Updates of a file: a signature, its time stamp, a stamp of this program are one each.
const MOST: usize = 64;
/// The largest object number (ISO 32000-1, Annex C).
const LARGEST: usize = 8_388_607;

/// What a table says of an object number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::pdf) enum Entry {
    /// There is no such object any more.
    Free,
    /// It begins at this byte.
    Used {
        /// The byte.
        at: usize,
        /// Its generation.
        generation: u16,
    },
}

/// The file as it was written, or one update of it.
#[derive(Clone, Debug)]
pub(in crate::pdf) struct Section {
    /// Where its table begins.
    pub at: usize,
    /// Where it ends, behind its `%%EOF`.
    pub end: usize,
    /// Its objects by number.
    pub entries: BTreeMap<u32, Entry>,
    /// Its trailer.
    pub trailer: Dictionary,
}

/// All sections of a file, the oldest first.
pub(super) fn sections(bytes: &[u8]) -> Result<Vec<Section>, Unreadable> {
    let mut sections: Vec<Section> = Vec::new();
    let mut at = last(bytes)?;
    loop {
        let section = section(bytes, at)?;
        if sections.last().is_some_and(|later| section.end > later.at) {
            return Err(Unreadable("its updates are not one behind another".into()));
        }
        let before = section.trailer.get(b"Prev").and_then(Object::as_i64).ok();
        sections.push(section);
        match before.map(usize::try_from) {
            None => break,
            Some(Ok(before)) if before < at => at = before,
            Some(_) => return Err(Unreadable("its cross-reference leads in a circle".into())),
        }
        if sections.len() == MOST {
            return Err(Unreadable(format!("it has more than {MOST} updates")));
        }
    }
    sections.reverse();
    let mut begin = 0;
    for section in &sections {
        let inside = |entry: &Entry| matches!(entry, Entry::Used { at, .. } if !(begin..section.at).contains(at));
        if section.entries.values().any(inside) {
            return Err(Unreadable("its cross-reference leads out of its own part of the file".into()));
        }
        begin = section.end;
    }
    Ok(sections)
}

/// Where the last table begins: what the end of the file says.
fn last(bytes: &[u8]) -> Result<usize, Unreadable> {
    let end = bytes.iter().rposition(|byte| !is_space(*byte)).map_or(0, |at| at + 1);
    let unreadable = || Unreadable("it does not end as a PDF does".into());
    let before = bytes[..end].strip_suffix(b"%%EOF").ok_or_else(unreadable)?.trim_ascii_end();
    let digits = before.iter().rev().take_while(|byte| byte.is_ascii_digit()).count();
    let (before, digits) = before.split_at(before.len() - digits);
    if !before.trim_ascii_end().ends_with(b"startxref") {
        return Err(unreadable());
    }
    let at = std::str::from_utf8(digits).ok().and_then(|digits| digits.parse().ok());
    at.filter(|at| *at < bytes.len()).ok_or_else(unreadable)
}

fn section(bytes: &[u8], at: usize) -> Result<Section, Unreadable> {
    let mut cursor = Cursor::at(bytes, at);
    let compressed = |_| Unreadable("its cross-reference is compressed or broken, which that of a package is not".into());
    cursor.word("xref").map_err(compressed)?;
    let mut entries = BTreeMap::new();
    cursor.space();
    while cursor.word("trailer").is_err() {
        let first = cursor.number()?;
        cursor.blank();
        let count = cursor.number()?;
        if first.checked_add(count).is_none_or(|end| end > LARGEST) {
            return Err(Unreadable("its cross-reference names more objects than a PDF may have".into()));
        }
        for number in first..first + count {
            cursor.blank();
            let entry = entry(&mut cursor)?;
            let number = u32::try_from(number).unwrap_or_default();
            if entries.insert(number, entry).is_some() {
                return Err(Unreadable(format!("its cross-reference names object {number} twice")));
            }
        }
        cursor.space();
    }
    let Object::Dictionary(trailer) = cursor.object()? else { return Err(Unreadable("it has no trailer".into())) };
    for (key, what) in [(&b"Encrypt"[..], "it is encrypted"), (b"XRefStm", "it has a second cross-reference, which is compressed")] {
        if trailer.has(key) {
            return Err(Unreadable(what.into()));
        }
    }
    cursor.space();
    cursor.word("startxref")?;
    cursor.blank();
    if cursor.number()? != at {
        return Err(Unreadable("its cross-reference does not say where it stands".into()));
    }
    cursor.blank();
    // Some programs append their update without a new line.
    if !cursor.takes(b"%%EOF") {
        return Err(Unreadable("its cross-reference is followed by no end".into()));
    }
    Ok(Section { at, end: cursor.place(), entries, trailer })
}

fn entry(cursor: &mut Cursor) -> Result<Entry, Unreadable> {
    let at = cursor.number()?;
    cursor.blank();
    let generation = cursor.number()?;
    cursor.blank();
    if cursor.word("f").is_ok() {
        return Ok(Entry::Free);
    }
    cursor.word("n")?;
    let generation = u16::try_from(generation).map_err(|_| Unreadable("a generation that is too large".into()))?;
    Ok(Entry::Used { at, generation })
}
