//! What can be wrong with a text as YAML.

use super::{DEEPEST, MOST};
use crate::text::{Diagnostic, Label, Severity, Span, fault_ids};

/// A fault of the text, with what its message needs.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Fault {
    Empty,
    Syntax { parser_says: String },
    Tab,
    TabAfter,
    TwoDocuments,
    Anchor,
    Tag,
    KeyTwice { key: String },
    KeyNotText,
    TooDeep,
    TooMany,
    Unclear,
}

fault_ids! {
    Self::Empty => "empty-file",
    Self::Syntax { .. } => "yaml",
    Self::Tab | Self::TabAfter => "tab",
    Self::TwoDocuments => "two-documents",
    Self::Anchor => "anchor",
    Self::Tag => "tag",
    Self::KeyTwice { .. } => "key-twice",
    Self::KeyNotText => "key-not-text",
    Self::TooDeep => "too-deep",
    Self::TooMany => "too-many",
    Self::Unclear => "unclear",
}

impl Fault {
    fn message(&self) -> String {
        match self {
            Self::Empty => "the file holds nothing".into(),
            Self::Syntax { parser_says } => format!("not YAML: {parser_says}"),
            Self::Tab => "a tab stands where spaces must".into(),
            Self::TabAfter => "a tab stands where a space must".into(),
            Self::TwoDocuments => "a second document begins here".into(),
            Self::Anchor => "anchors and aliases (`&`, `*`) are not used in a job file".into(),
            Self::Tag => "tags (`!`) are not used in a job file".into(),
            Self::KeyTwice { key } => format!("`{key}` is given twice"),
            Self::KeyNotText => "a key is not plain text".into(),
            Self::TooDeep => format!("nested more than {DEEPEST} deep"),
            Self::TooMany => format!("more than {MOST} entries"),
            Self::Unclear => "this can be read as YAML in two ways".into(),
        }
    }

    fn help(&self) -> &'static str {
        match self {
            Self::Empty => "a job file has the parts `job`, `basis` and `members`; `latewood init` writes one to start from",
            Self::Syntax { .. } => {
                "look for a bracket, quote or indent that is missing here or just above; put text that holds `: ` or ` #` in quotes"
            }
            Self::Tab => "indent with spaces",
            Self::TabAfter => "put a space between the sign and what follows it",
            Self::TwoDocuments => "a job file is one document: take out the `---`, or keep one file a job",
            Self::Anchor => "write the value out; put text that begins with `&` or `*` in quotes",
            Self::Tag => "put text that begins with `!` in quotes",
            Self::KeyTwice { .. } => "keep one of the two",
            Self::KeyNotText => "a key is a word followed by a colon; put text that begins with `{`, `[` or `?` in quotes",
            Self::TooDeep => "no part of a job file needs this; look for brackets that are not closed",
            Self::TooMany => "split the job into several files",
            Self::Unclear => "put this value in quotes",
        }
    }

    /// The fault at its place.
    pub(super) fn at(&self, span: Span) -> Diagnostic {
        Diagnostic::new(self.id(), Severity::Error, self.message(), Label::bare(span)).with_help(self.help().to_owned())
    }
}
