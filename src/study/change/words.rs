//! What a place of a job file is called on paper.

use super::edits::Reach;
use crate::yaml::{Node, Value};

/// A place of a job file.
#[derive(Clone, Debug)]
pub(super) struct Here {
    pub path: String,
    pub mark: String,
    pub of: String,
    pub item: String,
    pub reach: Reach,
    /// Keys that lead here, in so far as `of` does not say them.
    last: String,
}

impl Here {
    /// A part of the file.
    pub(super) fn part(key: &str) -> Self {
        let of = if matches!(key, "areas" | "build-ups" | "members") { String::new() } else { key.to_owned() };
        Self { path: key.to_owned(), mark: String::new(), of, item: String::new(), reach: Reach::All, last: key.to_owned() }
    }

    /// A key of the map that stands here.
    pub(super) fn key(&self, key: &str) -> Self {
        let mut here = Self { path: format!("{}.{key}", self.path), last: key.to_owned(), ..self.clone() };
        match self.path.as_str() {
            "areas" => (here.of, here.reach) = (format!("area {key}"), Reach::Area(key.to_owned())),
            "build-ups" => (here.of, here.reach) = (format!("build-up {key}"), Reach::BuildUp(key.to_owned())),
            _ => here.item = joined(&self.item, &key.replace('-', " ")),
        }
        here
    }

    /// A member.
    pub(super) fn member(&self, mark: &str) -> Self {
        Self {
            path: format!("{}.{mark}", self.path),
            mark: mark.to_owned(),
            of: mark.to_owned(),
            item: String::new(),
            reach: Reach::Member(mark.to_owned()),
            last: String::new(),
        }
    }

    /// A member that is new, or withdrawn.
    pub(super) fn whole(self, new: bool) -> Self {
        Self { item: if new { "new member" } else { "withdrawn" }.to_owned(), ..self }
    }

    /// Whether this is a list whose entries are told by their place, whatever they name.
    pub(super) fn is_by_place(&self) -> bool {
        self.last == "rests-on"
    }

    /// An entry of a list that has a name.
    pub(super) fn named(&self, name: &str) -> Self {
        self.under(name, &format!("{} {name}", singular(&self.last)))
    }

    /// An entry of a list by its place.
    pub(super) fn numbered(&self, index: usize, of: usize) -> Self {
        let one = singular(&self.last);
        self.under(&(index + 1).to_string(), &if of == 1 { one } else { format!("{one} {}", index + 1) })
    }

    /// An entry of a list by what it is: a load by its kind, anything else by its place.
    pub(super) fn entry(&self, index: usize, node: Option<&Node>) -> Self {
        let named = node.filter(|_| self.last == "loads").map(kind);
        self.under(&(index + 1).to_string(), &named.unwrap_or_else(|| format!("{} {}", singular(&self.last), index + 1)))
    }

    /// A deeper place, which says the list's own name no more.
    fn under(&self, step: &str, words: &str) -> Self {
        let list = self.last.replace('-', " ");
        let before = self.item.strip_suffix(&list).unwrap_or(&self.item).trim_end_matches([' ', ',']);
        Self { path: format!("{}.{step}", self.path), item: joined(before, words), last: String::new(), ..self.clone() }
    }
}

fn joined(before: &str, words: &str) -> String {
    if before.is_empty() { words.to_owned() } else { format!("{before}, {words}") }
}

/// One of what a list holds.
fn singular(list: &str) -> String {
    match list {
        "build-ups" => "build-up".to_owned(),
        "notches" => "notch".to_owned(),
        "rests-on" => "rests on, support".to_owned(),
        list => list.strip_suffix('s').unwrap_or(list).replace('-', " "),
    }
}

/// What a load is, so that the same load of two files is known again.
pub(super) fn kind(load: &Node) -> String {
    let case = super::text(load, "case").map(|case| format!(", {case}")).unwrap_or_default();
    if let Some(name) = super::text(load, "area") {
        return format!("load of area {name}");
    }
    if let Some(mark) = super::text(load, "reaction") {
        let support = super::text(load, "support").map(|n| format!(" at its support {n}")).unwrap_or_default();
        return format!("reaction of {mark}{support}");
    }
    if let Some(mark) = super::text(load, "thrust") {
        return format!("thrust of {mark}");
    }
    let kinds = [("line", "line load"), ("point", "point load"), ("moment", "moment"), ("axial", "axial load")];
    kinds.iter().find(|(key, _)| load.entry(key).is_some()).map_or_else(|| "entry".to_owned(), |(_, words)| format!("{words}{case}"))
}

/// A value as it is said on paper.
pub(super) fn said(node: &Node) -> String {
    match &node.value {
        Value::Null => "nothing".to_owned(),
        Value::Scalar(text) => text.clone(),
        Value::List(items) => items.iter().map(said).collect::<Vec<_>>().join(", "),
        // A member as a whole stands on its sheet.
        Value::Map(_) if node.entry("mark").is_some() && node.entry("use").is_some() => {
            let word = |key| node.entry(key).map(|entry| said(&entry.node)).unwrap_or_default();
            format!("{} {}", word("use"), word("section"))
        }
        Value::Map(entries) => {
            entries.iter().map(|entry| format!("{} {}", entry.key.replace('-', " "), said(&entry.node))).collect::<Vec<_>>().join(", ")
        }
    }
}
