//! How much a job file may hold: every bound on its contents, with its reason.
//!
//! The bytes of a file ([`Source::LARGEST`](crate::text::Source::LARGEST)) and its entries ([`yaml::MOST`](crate::yaml::MOST)) are
//! bounded before it is read.

use super::fault::Fault;
use super::reader::Reader;
use crate::text::Span;
use crate::yaml::{Entry, Node, Value};

/// Characters of the job's title and of each other entry of `job` on one line: they stand in the head of every page, which the typesetter
/// sets again and again; 16,000 characters took it seven seconds.
pub const HEAD: usize = 200;
/// Characters of a job number or a revision: they stand in file names and in the frame of every page.
pub const NUMBER: usize = 100;
/// Characters of a member's mark: it is part of page ids and stands in the columns of every table.
pub const MARK: usize = 24;
/// Characters of any other text or name: two pages of a note or of a reply.
pub const TEXT: usize = 5_000;
/// Loads of one member: the sheet draws and names each of them, and its text for readers without sight, which names them all, may have
/// 32,767 bytes (PDF/A-3, ISO 19005-3, 6.1.13).
pub const LOADS: usize = 200;
/// Spans and overhangs of one member: every set of them is loaded, 4095 of twelve.
pub const PANELS: usize = 12;
/// Trials of one member: combinations times sets of loaded spans times spans. So many take a few seconds.
pub const TRIALS: usize = 300_000;

/// The entries of `job` that stand in the head of a page.
const IN_HEAD: [&str; 6] = ["title", "site", "client", "firm", "prepared-by", "checked-by"];

/// Tells of all that is longer than it may be.
pub(super) fn check(reader: &mut Reader, file: &Node) {
    texts(reader, file);
    if let Some(Entry { node, .. }) = file.entry("job") {
        for key in IN_HEAD {
            text_of(reader, node, key, HEAD);
        }
        for key in ["number", "revision"] {
            text_of(reader, node, key, NUMBER);
        }
        for revision in node.entry("revisions").map_or(&[][..], list) {
            text_of(reader, revision, "mark", NUMBER);
        }
    }
    for member in file.entry("members").map_or(&[][..], list) {
        text_of(reader, member, "mark", MARK);
        if let Some(loads) = member.entry("loads")
            && list(loads).len() > LOADS
        {
            too_much(reader, "loads of one member", list(loads).len(), LOADS, loads.key_span);
        }
    }
}

fn list(entry: &Entry) -> &[Node] {
    if let Value::List(items) = &entry.node.value { items } else { &[] }
}

/// A text under a key.
fn text_of(reader: &mut Reader, map: &Node, key: &'static str, most: usize) {
    if let Some(Entry { node: Node { value: Value::Scalar(text), span }, .. }) = map.entry(key)
        && (most + 1..=TEXT).contains(&text.chars().count())
    {
        too_much(reader, &format!("characters of `{key}`"), text.chars().count(), most, *span);
    }
}

/// Every text and every key.
fn texts(reader: &mut Reader, node: &Node) {
    let mut one = |text: &str, span: Span| {
        let length = if text.len() > TEXT { text.chars().count() } else { 0 };
        if length > TEXT {
            too_much(reader, "characters of one text", length, TEXT, span);
        }
    };
    match &node.value {
        Value::Null => {}
        Value::Scalar(text) => one(text, node.span),
        Value::List(items) => items.iter().for_each(|item| texts(reader, item)),
        Value::Map(entries) => {
            for entry in entries {
                one(&entry.key, entry.key_span);
            }
            entries.iter().for_each(|entry| texts(reader, &entry.node));
        }
    }
}

fn too_much(reader: &mut Reader, what: &str, given: usize, most: usize, span: Span) {
    reader.fault(&Fault::TooMuch { what: what.to_owned(), given, most }, span);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::Source;

    /// The ids of what is told of a job whose joist has these loads, title and mark.
    fn told(title: &str, mark: &str, loads: usize) -> Vec<&'static str> {
        let load = "{point: 10 lbf, case: live, at: mid}";
        let file = format!(
            "job: {{title: {title}, date: 2026-01-05}}\nbasis: {{code: american}}\nmembers:\n  - mark: {mark}\n    use: joist\n    section: 2x10\n    \
             material: {{species: Douglas Fir-Larch, grade: No.2}}\n    spans: [12 ft]\n    loads: [{}]\n",
            vec![load; loads].join(", ")
        );
        let source = Source::read("job.yaml", file.as_bytes()).expect("text");
        crate::job::read(&source).faults.iter().map(|fault| fault.id).collect()
    }

    #[test]
    fn a_bound_itself_is_allowed_and_one_more_is_not() {
        assert_eq!(told(&"t".repeat(HEAD), &"M".repeat(MARK), LOADS), Vec::<&str>::new());
        assert_eq!(told(&"t".repeat(HEAD + 1), "J1", 1), ["too-much"]);
        assert_eq!(told("t", &"M".repeat(MARK + 1), 1), ["too-much"]);
        assert_eq!(told("t", "J1", LOADS + 1), ["too-much"]);
        // Characters, not bytes.
        assert_eq!(told(&"ü".repeat(HEAD), "J1", 1), Vec::<&str>::new());
        // A text over the bound of every text is told once.
        assert_eq!(told(&"t".repeat(16_000), &"M".repeat(500), 1_000), ["too-much"; 3]);
    }

    #[test]
    fn the_manual_has_every_bound() {
        let manual = include_str!("../../README.md");
        let grouped = |number: usize| crate::units::grouped(&number.to_string(), ",");
        for bound in [HEAD, NUMBER, MARK, TEXT, LOADS, PANELS, TRIALS, crate::yaml::MOST] {
            assert!(manual.contains(&format!("| {} |", grouped(bound))), "{bound}");
        }
        assert!(manual.contains(&format!("| {} MiB |", Source::LARGEST >> 20)));
    }
}
