//! The text of a file and places in it.

use super::{Diagnostic, Label, Severity};

/// A place in a source: bytes from `start` up to `end`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// The byte after the last.
    pub end: usize,
}

impl Span {
    /// The bytes from `start` up to `end`.
    pub const fn new(start: usize, end: usize) -> Self {
        Self { start, end }
    }
}

/// A file's name and text.
///
/// Always valid UTF-8, no larger than [`Source::LARGEST`]. A byte order mark is not part of the text, but is kept, so that what was
/// read can be given back byte for byte.
#[derive(Clone, Debug)]
pub struct Source {
    name: String,
    text: String,
    marked: bool,
}

/// The byte order mark.
const MARK: &str = "\u{feff}";

impl Source {
    /// The most bytes a source may have: 4 MiB, far more than a job file of a thousand members.
    pub const LARGEST: usize = 4 << 20;

    /// Takes a file's bytes as text.
    ///
    /// # Errors
    /// A diagnostic if the file is larger than [`Source::LARGEST`] or is not UTF-8 (with the place of the first wrong byte, on the
    /// text before it, which comes back as the source to show it in).
    pub fn read(name: impl Into<String>, bytes: &[u8]) -> Result<Self, Box<(Self, Diagnostic)>> {
        let name = name.into();
        if bytes.len() > Self::LARGEST {
            let fault = plain("file-too-large", "the file is too large to be a job file", Span::default())
                .with_help(format!("a job file has at most {} MiB; this one has more", Self::LARGEST >> 20));
            return Err(Box::new((Self { name, text: String::new(), marked: false }, fault)));
        }
        let marked = bytes.starts_with(MARK.as_bytes());
        let bytes = bytes.strip_prefix(MARK.as_bytes()).unwrap_or(bytes);
        match std::str::from_utf8(bytes) {
            Ok(text) => Ok(Self { name, text: text.to_owned(), marked }),
            Err(wrong) => {
                let good = wrong.valid_up_to();
                let text = String::from_utf8_lossy(&bytes[..good]).into_owned();
                let fault = plain("not-utf8", "the file is not UTF-8 text from here on", Span::new(good, good))
                    .with_help("save the file in the UTF-8 encoding".to_owned());
                Err(Box::new((Self { name, text, marked }, fault)))
            }
        }
    }

    /// The file's name as it was given.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The whole text, without a byte order mark.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The bytes as they were read, with the byte order mark if there was one.
    pub fn bytes(&self) -> Vec<u8> {
        let mark = if self.marked { MARK } else { "" };
        [mark.as_bytes(), self.text.as_bytes()].concat()
    }

    /// The text at a place; empty where the place lies outside the text.
    pub fn at(&self, span: Span) -> &str {
        self.text.get(span.start..span.end).unwrap_or_default()
    }

    /// Line and column of a byte, both from 1; columns count characters.
    pub fn line_column(&self, byte: usize) -> (usize, usize) {
        let before = self.text.get(..byte).unwrap_or(&self.text);
        let line = before.matches('\n').count() + 1;
        let start = before.rfind('\n').map_or(0, |i| i + 1);
        (line, before[start..].chars().count() + 1)
    }
}

fn plain(id: &'static str, message: &str, span: Span) -> Diagnostic {
    Diagnostic::new(id, Severity::Error, message.to_owned(), Label::bare(span))
}
