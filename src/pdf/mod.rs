//! Paper: Typst sources in, an archival PDF out; attachments out of a PDF again; and a stamp over one, appended.
//!
//! This room does not know what is on a page. A [`Press`] holds the fonts and the last sources, so that a second package after a
//! small change costs a tenth of the first. Nothing is read from disk, clock or network: a source reaches only what it was handed.
//! The same sources and files give the same bytes.
//!
//! - **record:** PDF/A-3a with PDF/UA-1, files attached;
//! - **submittal:** PDF/A-2a with PDF/UA-1, nothing attached.
//!
//! Typst enforces both when it writes; no full validator is run here. Every file keeps a digest of itself ([`standing`]), and a stamp
//! leaves the bytes under it as they were ([`stamp()`]).

mod appended;
mod attachments;
mod bug;
mod coverage;
mod digest;
mod layers;
mod limits;
mod links;
mod metrics;
mod opened;
mod overlay;
mod press;
mod stamp;
mod world;

pub use appended::{Appended, Kind, Signature, appended};
pub use attachments::{Unreadable, attachments, page_count};
pub use bug::Bug;
pub use coverage::lacking;
#[cfg(test)]
pub(crate) use digest::kept;
pub use digest::{Standing, note, sha1, sha256, standing};
pub use layers::{Layer, issued, layers};
pub use limits::Limits;
pub use metrics::{Face, advance, grown, ink, lean};
pub use press::{Laid, Place, Press};
pub use stamp::{Stamp, stamp, stamped};

use std::ops::Range;

/// One text of a document: where it stands, and which template wrote which part of it.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Its path in the document's own little file system: `/main.typ`.
    pub path: String,
    /// Typst source.
    pub text: String,
    /// Parts of `text` and where they come from, in order; empty for a source that no template wrote.
    pub origins: Vec<Origin>,
}

/// A part of a source and the template line that wrote it.
#[derive(Clone, Debug)]
pub struct Origin {
    /// The part of the source.
    pub range: Range<usize>,
    /// The template.
    pub template: String,
    /// Its line, from 1.
    pub line: usize,
}

/// A file that sources may attach or read.
#[derive(Clone, Debug)]
pub struct File {
    /// Its path: `/job.yaml`.
    pub path: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// For whom a PDF is written, which decides the standard it conforms to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standard {
    /// PDF/A-3a with PDF/UA-1: attachments allowed.
    Record,
    /// PDF/A-2a with PDF/UA-1: no attachments.
    Submittal,
}

/// What a PDF says about itself.
#[derive(Clone, Debug)]
pub struct Options {
    /// The standard.
    pub standard: Standard,
    /// What names this document and no other, the same each time it is made: number and revision of the job.
    pub ident: String,
    /// The program that made it, with its version.
    pub creator: String,
    /// A line of its own for a comment at its end, covered by the digest.
    pub note: Option<String>,
}
