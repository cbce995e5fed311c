//! Two job files as one tree, in which each place that differs can be taken as it was or as it is.

use crate::yaml::{Node, Value};
use std::collections::BTreeSet;

/// A node of both files.
#[derive(Clone, Debug)]
pub(super) enum Merged {
    /// The same in both.
    Same(Node),
    /// A map that differs somewhere under its keys.
    Map(Vec<(String, Merged)>),
    /// A list that differs somewhere.
    List(Vec<Merged>),
    /// A place that differs as a whole: its number, what stood there and what stands there.
    Edit { id: usize, former: Option<Node>, now: Option<Node> },
}

impl Merged {
    /// As YAML in flow form, with the edits that are taken; none where nothing stands here then.
    pub(super) fn write(&self, taken: &[bool], into: &mut String) -> bool {
        match self {
            Self::Same(node) => written(node, into),
            Self::Edit { id, former, now } => match if taken[*id] { now } else { former } {
                Some(node) => written(node, into),
                None => return false,
            },
            Self::Map(entries) => map(entries.iter().map(|(key, node)| (key.as_str(), node)), into, |node, into| node.write(taken, into)),
            Self::List(items) => list(items.iter(), into, |node, into| node.write(taken, into)),
        }
        true
    }
}

/// The members of both files and all else that calculations hang on.
#[derive(Clone, Debug, Default)]
pub(super) struct Mixture {
    /// Parts of the file but for its members.
    pub parts: Vec<(String, Merged)>,
    /// Members by mark, in the order of the present file, those withdrawn last.
    pub members: Vec<(String, Merged)>,
}

impl Mixture {
    /// The job file with the edits that are taken, and these members alone.
    pub(super) fn write(&self, taken: &[bool], only: &BTreeSet<String>) -> String {
        let mut text = String::new();
        let members = || self.members.iter().filter(|(mark, _)| only.contains(mark)).map(|(_, member)| member);
        let parts = self.parts.iter().map(|(key, node)| (key.as_str(), Some(node))).chain([("members", None)]);
        map(parts, &mut text, |part, into| match part {
            Some(node) => node.write(taken, into),
            None => {
                list(members(), into, |node, into| node.write(taken, into));
                true
            }
        });
        text
    }
}

/// Scalars are quoted, so that they are read back as they were written whatever they hold.
fn written(node: &Node, into: &mut String) {
    match &node.value {
        Value::Null => into.push('~'),
        Value::Scalar(text) => into.push_str(&quoted(text)),
        Value::List(items) => list(items.iter(), into, |item, into| {
            written(item, into);
            true
        }),
        Value::Map(entries) => map(entries.iter().map(|entry| (entry.key.as_str(), &entry.node)), into, |node, into| {
            written(node, into);
            true
        }),
    }
}

fn quoted(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}

fn list<T>(items: impl Iterator<Item = T>, into: &mut String, write: impl Fn(T, &mut String) -> bool) {
    into.push('[');
    let mut first = true;
    for item in items {
        let before = into.len();
        into.push_str(if first { "" } else { ", " });
        if write(item, into) {
            first = false;
        } else {
            into.truncate(before);
        }
    }
    into.push(']');
}

fn map<'a, T>(entries: impl Iterator<Item = (&'a str, T)>, into: &mut String, write: impl Fn(T, &mut String) -> bool) {
    into.push('{');
    let mut first = true;
    for (key, item) in entries {
        let before = into.len();
        into.push_str(if first { "" } else { ", " });
        into.push_str(&quoted(key));
        into.push_str(": ");
        if write(item, into) {
            first = false;
        } else {
            into.truncate(before);
        }
    }
    into.push('}');
}
