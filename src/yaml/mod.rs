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
    pub fn kind(&self) -> &'static str {
        match self.value {
            Value::Null => "nothing",
            Value::Scalar(ref text) if text.trim().is_empty() => "an empty text",
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

/// The deepest entry or item of a tree that a place lies in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Deepest<'a> {
    /// Positions in lists and maps on the way to it.
    pub way: Vec<usize>,
    /// Its key, if it is an entry of a map.
    pub key: Option<&'a str>,
    /// From its key, or from its value, to its end.
    pub span: Span,
}

impl Node {
    /// The deepest entry or item that a place lies in; none where it is the whole tree's.
    pub(crate) fn deepest(&self, place: Span) -> Option<Deepest<'_>> {
        let (mut node, mut way, mut found) = (self, Vec::new(), None);
        loop {
            let at = match &node.value {
                Value::Map(entries) => entries.partition_point(|entry| entry.key_span.start <= place.start),
                Value::List(items) => items.partition_point(|item| item.span.start <= place.start),
                Value::Null | Value::Scalar(_) => 0,
            };
            let Some(at) = at.checked_sub(1) else { break };
            let (key, span, child) = match &node.value {
                Value::Map(entries) => {
                    let Entry { key, key_span, node } = &entries[at];
                    (Some(key.as_str()), Span::new(key_span.start, node.span.end.max(key_span.end)), node)
                }
                Value::List(items) => (None, items[at].span, &items[at]),
                Value::Null | Value::Scalar(_) => break,
            };
            if place.end > span.end {
                break;
            }
            way.push(at);
            found = Some((key, span));
            node = child;
        }
        found.map(|(key, span)| Deepest { way, key, span })
    }

    /// Takes out what stands at the end of a way; its key, or its place in the list, stays.
    pub(crate) fn erase(&mut self, way: &[usize]) {
        let mut node = self;
        for at in way {
            let child = match &mut node.value {
                Value::Map(entries) => entries.get_mut(*at).map(|entry| &mut entry.node),
                Value::List(items) => items.get_mut(*at),
                Value::Null | Value::Scalar(_) => None,
            };
            let Some(child) = child else { return };
            node = child;
        }
        node.value = Value::Null;
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
