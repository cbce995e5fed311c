//! What the supports of a member rest on, as its entry names it.

use super::fault::Fault;
use super::keys::{Kind, Part};
use super::model::Placed;
use super::reader::{Form, Reader};
use crate::yaml::{Node, Value};

/// A support of a member and all that it rests on: one thing, or several that each carry a part of a row.
pub(super) struct Support<'n> {
    /// From 1.
    pub number: usize,
    /// In file order; empty where nothing is named.
    pub on: Vec<Rest<'n>>,
}

/// One thing that a support rests on.
pub(super) struct Rest<'n> {
    /// A mark, the id of a deferred part, or the name of something outside of the job.
    pub name: Placed<String>,
    /// How it rests there, where the entry is a map; its `mark` is then that of a member.
    pub how: Option<Form<'n>>,
}

impl Rest<'_> {
    /// Whether the entry says more than the mark.
    pub fn says_how(&self) -> bool {
        self.how.as_ref().is_some_and(|form| Part::RestsOn.keys().any(|key| key.name != "mark" && form.says(key.name)))
    }
}

/// Reads the entries; one for each support is due.
pub(super) fn read<'n>(reader: &mut Reader, form: &Form<'n>, supports: Option<usize>) -> Vec<Support<'n>> {
    let Some(node) = form.node("rests-on") else { return Vec::new() };
    let before = reader.faults.len();
    let items = reader.list(node, "rests-on", &Kind::Text);
    if let Some(supports) = supports.filter(|supports| items.len() != *supports && reader.faults.len() == before) {
        let due = format!("one for each of the {supports} supports");
        reader.fault(&Fault::WrongCount { what: "rests-on", given: items.len(), due }, node.span);
    }
    items.iter().enumerate().map(|(i, item)| Support { number: i + 1, on: support(reader, item) }).collect()
}

fn support<'n>(reader: &mut Reader, node: &'n Node) -> Vec<Rest<'n>> {
    match &node.value {
        Value::Null => Vec::new(),
        Value::List(items) if items.is_empty() => {
            let wanted = "a name, a mark, or `~` where nothing is to be named".to_owned();
            reader.fault(&Fault::WrongShape { found: "an empty list", what: "an entry of `rests-on`".into(), wanted }, node.span);
            Vec::new()
        }
        Value::List(items) => items.iter().filter_map(|item| rest(reader, item)).collect(),
        _ => rest(reader, node).into_iter().collect(),
    }
}

fn rest<'n>(reader: &mut Reader, node: &'n Node) -> Option<Rest<'n>> {
    match &node.value {
        Value::Scalar(text) if !text.trim().is_empty() => {
            Some(Rest { name: Placed { value: text.trim().to_owned(), span: node.span }, how: None })
        }
        Value::Map(_) => {
            let form = reader.form(node, Part::RestsOn)?;
            let name = reader.placed_text(&form, "mark")?;
            Some(Rest { name, how: Some(form) })
        }
        _ => {
            let wanted = "a name, a mark, or a map such as `{mark: B1, at: 4 ft}`".to_owned();
            let found = if matches!(node.value, Value::Scalar(_)) { "an empty text" } else { node.kind() };
            reader.fault(&Fault::WrongShape { found, what: "an entry of `rests-on`".into(), wanted }, node.span);
            None
        }
    }
}
