//! Two job files as one tree, in which each place that differs can be taken as it was or as it is.

use crate::text::Span;
use crate::yaml::{Entry, Node, Value};
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
    /// What stands here with the edits that are taken; none where nothing does then.
    pub(super) fn taken(&self, taken: &[bool]) -> Option<Node> {
        let value = match self {
            Self::Same(node) => return Some(node.clone()),
            Self::Edit { id, former, now } => return if taken[*id] { now.clone() } else { former.clone() },
            Self::Map(entries) => Value::Map(entries.iter().filter_map(|(key, node)| Some(entry(key, node.taken(taken)?))).collect()),
            Self::List(items) => Value::List(items.iter().filter_map(|node| node.taken(taken)).collect()),
        };
        Some(unplaced(value))
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
        let members = self.members.iter().filter(|(mark, _)| only.contains(mark)).filter_map(|(_, member)| member.taken(taken));
        let members = unplaced(Value::List(members.map(|member| without_absent(member, only)).collect()));
        let mut parts: Vec<Entry> = self.parts.iter().filter_map(|(key, part)| Some(entry(key, part.taken(taken)?))).collect();
        parts.push(entry("members", members));
        let mut text = String::new();
        written(&unplaced(Value::Map(parts)), &mut text);
        text
    }
}

fn unplaced(value: Value) -> Node {
    Node { span: Span::default(), value }
}

fn entry(key: &str, node: Node) -> Entry {
    Entry { key: key.to_owned(), key_span: Span::default(), node }
}

/// A member that rests on members which are left out: they are names of supports then, whatever place on them is given.
fn without_absent(mut member: Node, only: &BTreeSet<String>) -> Node {
    if let Value::Map(entries) = &mut member.value {
        for entry in entries.iter_mut().filter(|entry| entry.key == "rests-on") {
            named_alone(&mut entry.node, only);
        }
    }
    member
}

fn named_alone(node: &mut Node, only: &BTreeSet<String>) {
    if let Some(mark) = super::text(node, "mark").filter(|mark| !only.contains(*mark)) {
        node.value = Value::Scalar(mark.to_owned());
    } else if let Value::List(items) = &mut node.value {
        items.iter_mut().for_each(|item| named_alone(item, only));
    }
}

/// A node as YAML in flow form. Scalars are quoted, so that they are read back as they were written whatever they hold.
fn written(node: &Node, into: &mut String) {
    match &node.value {
        Value::Null => into.push('~'),
        Value::Scalar(text) => into.push_str(&quoted(text)),
        Value::List(items) => {
            for (i, item) in items.iter().enumerate() {
                into.push_str(if i == 0 { "[" } else { ", " });
                written(item, into);
            }
            into.push_str(if items.is_empty() { "[]" } else { "]" });
        }
        Value::Map(entries) => {
            for (i, entry) in entries.iter().enumerate() {
                into.push_str(if i == 0 { "{" } else { ", " });
                into.push_str(&quoted(&entry.key));
                into.push_str(": ");
                written(&entry.node, into);
            }
            into.push_str(if entries.is_empty() { "{}" } else { "}" });
        }
    }
}

fn quoted(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}
