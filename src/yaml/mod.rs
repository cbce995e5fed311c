//! YAML as a located tree: scalars, lists and maps, every one with its place in the file.
//!
//! [`read`] takes the text in two passes. The parser's events come first: they refuse what could hurt (depth, number of entries,
//! anchors, aliases, tags) and give every value its place. Only then does serde_yaml read the values, and the two are joined. A
//! scalar is the text as it was written, without its quotes, so `2x10`, `No.2`, `1e3` and `NO` are never guessed at.

mod fault;
mod join;
mod places;
#[cfg(test)]
mod tests;
mod values;

use crate::text::{Faults, Source, Span};

pub use fault::IDS;

/// The deepest nesting that a file may have.
pub const DEEPEST: usize = 24;
/// The most entries (scalars, lists and maps) that a file may have.
pub const MOST: usize = 200_000;

/// A value and its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// Where it stands; that of its key where nothing is written.
    pub span: Span,
    /// What it is.
    pub value: Value,
}

/// What a node holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Nothing, or `~`.
    Null,
    /// Text as written, without quotes.
    Scalar(String),
    /// A list.
    List(Vec<Node>),
    /// A map, in file order; no key stands in it twice.
    Map(Vec<Entry>),
}

/// A key and its value.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The key as written, without quotes.
    pub key: String,
    /// The place of the key.
    pub key_span: Span,
    /// The value.
    pub node: Node,
}

impl Node {
    /// What it is, in words for a message.
    pub const fn kind(&self) -> &'static str {
        match self.value {
            Value::Null => "nothing",
            Value::Scalar(_) => "a text",
            Value::List(_) => "a list",
            Value::Map(_) => "a map",
        }
    }

    /// The entry of a map under a key.
    pub fn entry(&self, key: &str) -> Option<&Entry> {
        match &self.value {
            Value::Map(entries) => entries.iter().find(|entry| entry.key == key),
            _ => None,
        }
    }
}

/// Reads a file as one located tree.
///
/// The faults are all that could be found. The tree is there whenever reading can go on: a key that is given twice is a fault and
/// keeps its first value; anything else that is wrong with the text as YAML leaves no tree.
pub fn read(source: &Source) -> (Option<Node>, Faults) {
    let (place, mut faults) = places::find(source);
    let Some(place) = place else { return (None, faults) };
    match values::read(source) {
        Ok(values::Unplaced::Null) => {
            faults.push(fault::Fault::Empty.at(Span::default()));
            (None, faults)
        }
        Ok(value) => {
            let before = faults.len();
            let node = join::join(source, place, value, &mut faults);
            (node.filter(|_| faults.len() == before), faults)
        }
        Err(fault) => {
            faults.push(*fault);
            (None, faults)
        }
    }
}
