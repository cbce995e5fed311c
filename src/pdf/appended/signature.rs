//! A signature: what it is, and that it is of the whole file up to its own end.

use super::super::attachments::Unreadable;
use super::super::opened::{Opened, Section};
use lopdf::{Dictionary, Object, ObjectId};

/// What kind of signature it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Somebody's.
    Signature,
    /// Somebody's who says what may be appended after it.
    Certification {
        /// Nothing at all may be.
        locked: bool,
    },
    /// That of a time-stamping authority.
    TimeStamp,
}

/// A signature in a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signature {
    /// The name of its field.
    pub field: String,
    /// Its kind.
    pub kind: Kind,
}

/// Reads a signature of an update.
pub(super) fn read(opened: &Opened, section: &Section, bytes: &[u8], field: &str, value: ObjectId) -> Result<Signature, Unreadable> {
    let Object::Dictionary(signature) = opened.get(value)? else { return Err(Unreadable("it is missing".into())) };
    covers_all(opened, section, bytes, &signature, value)?;
    let name = |key: &[u8]| signature.get(key).and_then(Object::as_name).ok();
    let stamps_time = name(b"Type") == Some(b"DocTimeStamp") || name(b"SubFilter") == Some(b"ETSI.RFC3161");
    let kind = match locked(opened, &signature)? {
        _ if stamps_time => Kind::TimeStamp,
        Some(locked) => Kind::Certification { locked },
        None => Kind::Signature,
    };
    Ok(Signature { field: field.to_owned(), kind })
}

/// It is of every byte up to the end of its own update but its own number.
fn covers_all(opened: &Opened, section: &Section, bytes: &[u8], signature: &Dictionary, value: ObjectId) -> Result<(), Unreadable> {
    let none = || Unreadable("it does not sign every byte before it".into());
    let range = opened.array(signature, b"ByteRange")?;
    let range: Vec<usize> = range.iter().filter_map(|n| usize::try_from(n.as_i64().ok()?).ok()).collect();
    let [0, before, behind, rest] = range.as_slice() else { return Err(none()) };
    let (own, end) = (opened.range(value)?, behind.saturating_add(*rest));
    let gap = bytes.get(*before..*behind).ok_or_else(none)?;
    let digits = gap.strip_prefix(b"<").and_then(|gap| gap.strip_suffix(b">")).ok_or_else(none)?;
    let is_number = digits.iter().all(u8::is_ascii_hexdigit);
    let tail = bytes.get(section.end..end).ok_or_else(none)?;
    let inside = own.start <= *before && *behind <= own.end;
    if is_number && inside && tail.iter().all(u8::is_ascii_whitespace) { Ok(()) } else { Err(none()) }
}

/// Of a certification: whether nothing may be appended after it.
fn locked(opened: &Opened, signature: &Dictionary) -> Result<Option<bool>, Unreadable> {
    for reference in opened.array(signature, b"Reference")? {
        let Object::Dictionary(reference) = opened.follow(&reference)? else { continue };
        if reference.get(b"TransformMethod").and_then(Object::as_name).ok() == Some(b"DocMDP") {
            let given = opened.dictionary(&reference, b"TransformParams")?.unwrap_or_default();
            return Ok(Some(given.get(b"P").and_then(Object::as_i64).ok() == Some(1)));
        }
    }
    Ok(None)
}
