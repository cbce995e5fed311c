//! The choices, written into a copy of the job file: only the texts of section, plies and grade change.

use super::{Choice, Sized, choices};
use crate::job::model::{Job, MaterialAsked, Member};
use crate::text::{Source, Span};
use crate::yaml::{self, Entry, Node, Value};

/// A text to be put in place of another.
struct Edit {
    span: Span,
    text: String,
}

/// The job file with the choices in it; comments, blanks and everything else stay as they are. None where nothing is changed.
pub fn written(source: &Source, job: &Job, sized: &[Sized]) -> Option<String> {
    let (tree, _) = yaml::read(source);
    let members = match &tree.as_ref()?.entry("members")?.node.value {
        Value::List(members) => members,
        _ => return None,
    };
    let mut edits = Vec::new();
    for one in sized {
        let (Some(chosen), Some(node)) = (&one.chosen, members.get(one.member)) else { continue };
        member(source, node, &job.members[one.member], &chosen.choice, &mut edits);
    }
    edits.sort_by_key(|edit| edit.span);
    let mut text = source.text().to_owned();
    for edit in edits.iter().rev() {
        text.replace_range(edit.span.start..edit.span.end, &edit.text);
    }
    (!edits.is_empty()).then_some(text)
}

/// What changes in a member's entry.
fn member(source: &Source, node: &Node, member: &Member, choice: &Choice, edits: &mut Vec<Edit>) {
    let Some(section) = node.entry("section") else { return };
    if choice.section != member.section.value {
        edits.push(Edit { span: bare(source, section.node.span), text: choices::in_words(&choice.section) });
    }
    if choice.plies != member.plies.value {
        match node.entry("plies") {
            Some(plies) => edits.push(Edit { span: bare(source, plies.node.span), text: choice.plies.to_string() }),
            None => edits.push(added(source, section, &format!("plies: {}", choice.plies))),
        }
    }
    let (Some((key, new)), Some((_, old))) = (word_of(&choice.material), word_of(&member.material.value)) else { return };
    if let Some(entry) = node.entry("material").and_then(|material| material.node.entry(key)).filter(|_| new != old) {
        edits.push(Edit { span: bare(source, entry.node.span), text: new.to_owned() });
    }
}

/// The key of a material that names its grade, and the grade.
fn word_of(material: &MaterialAsked) -> Option<(&'static str, &str)> {
    match material {
        MaterialAsked::Graded { grade, .. } => Some(("grade", &grade.value)),
        MaterialAsked::Class(word) => Some(("class", &word.value)),
        MaterialAsked::Combination { name, .. } => Some(("combination", &name.value)),
        MaterialAsked::Custom { .. } => None,
    }
}

/// A span without the blanks at its ends.
fn bare(source: &Source, span: Span) -> Span {
    let text = source.at(span);
    let start = span.start + (text.len() - text.trim_start().len());
    Span::new(start, start + text.trim().len())
}

/// A key to stand beside another: on its line in a flow map, else on a line of its own under it, past a comment.
fn added(source: &Source, beside: &Entry, key: &str) -> Edit {
    let text = source.text();
    let end = bare(source, beside.node.span).end;
    let line = text[..beside.key_span.start].rfind('\n').map_or(0, |i| i + 1);
    let before = &text[line..beside.key_span.start];
    if before.chars().any(|c| !matches!(c, ' ' | '-')) {
        return Edit { span: Span::new(end, end), text: format!(", {key}") };
    }
    let line_end = text[end..].find('\n').map_or(text.len(), |i| end + i);
    let (at, line_break) = if text[..line_end].ends_with('\r') { (line_end - 1, "\r\n") } else { (line_end, "\n") };
    Edit { span: Span::new(at, at), text: format!("{line_break}{}{key}", " ".repeat(before.chars().count())) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_key_is_added_in_the_manner_of_the_entry() {
        let added_to = |text: &str| {
            let source = Source::read("job", text.as_bytes()).unwrap();
            let tree = yaml::read(&source).0.unwrap();
            let Value::List(items) = &tree.entry("members").unwrap().node.value else { panic!("a list") };
            let edit = added(&source, items[0].entry("section").unwrap(), "plies: 2");
            let mut text = text.to_owned();
            text.replace_range(edit.span.start..edit.span.end, &edit.text);
            text
        };
        let flow = "members:\n  - {mark: B, section: 2x10, use: beam} # é\n";
        assert_eq!(added_to(flow), flow.replace("2x10,", "2x10, plies: 2,"));
        let block = "members:\n  - mark: B # é\n    section: 2x10   # as drawn\n    use: beam\n";
        assert_eq!(added_to(block), block.replace("drawn\n", "drawn\n    plies: 2\n"));
        let first = "members:\r\n  - section: 2x10\r\n    mark: B\r\n";
        assert_eq!(added_to(first), first.replace("2x10\r\n", "2x10\r\n    plies: 2\r\n"));
        let last = "members:\n  - mark: B\n    section: 2x10";
        assert_eq!(added_to(last), format!("{last}\n    plies: 2"));
    }
}
