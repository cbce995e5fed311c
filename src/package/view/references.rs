//! References: standards, cells read, clauses, how the numbers were made.

use super::Scene;
use super::basis::links;
use crate::package::markup::Markup;
use crate::package::words;
use crate::results::Reference;
use serde::Serialize;

/// What the references say.
#[derive(Debug, Serialize)]
pub(in crate::package) struct References {
    standards: Vec<[String; 3]>,
    cells: Vec<Cell>,
    clauses: Vec<Clauses>,
    confirmed: Vec<String>,
    program: String,
    fingerprint: String,
}

#[derive(Debug, Serialize)]
struct Cell {
    table: String,
    row: Markup,
    values: Markup,
    members: Markup,
    status: Markup,
}

#[derive(Debug, Serialize)]
struct Clauses {
    check: String,
    list: Markup,
}

impl References {
    pub(in crate::package) fn of(scene: &Scene) -> Self {
        let results = scene.results;
        let confirmed = (scene.job.about.confirmed.iter())
            .map(|c| format!("{}, compared with the printed standard by {}, {}", c.table.value, c.by, c.date));
        let hash = results.fingerprint.job.trim_start_matches("sha256:");
        let short = match (hash.get(..4), hash.len().checked_sub(4).and_then(|n| hash.get(n..))) {
            (Some(a), Some(b)) if hash.len() > 8 => format!("{a}…{b}"),
            _ => hash.to_owned(),
        };
        Self {
            standards: results.standards.iter().map(|s| [s.short.clone(), s.title.clone(), s.used_for.clone()]).collect(),
            cells: cells(scene),
            clauses: clauses(scene),
            confirmed: confirmed.collect(),
            program: format!("{} {}", results.program.name, results.program.version),
            fingerprint: short,
        }
    }
}

/// Cells of one row of a table, with one status, stand in one line.
fn cells(scene: &Scene) -> Vec<Cell> {
    let mut lines: Vec<(&Reference, Vec<String>, Vec<String>)> = Vec::new();
    for reference in &scene.results.references {
        let value = if reference.column.is_empty() {
            scene.printing.as_read(&reference.value)
        } else {
            format!("{} {}", reference.column, scene.printing.as_read(&reference.value))
        };
        match lines.iter_mut().find(|(first, ..)| {
            first.table == reference.table
                && first.row == reference.row
                && first.status == reference.status
                && first.source == reference.source
        }) {
            Some((_, values, marks)) => {
                values.push(value);
                marks.extend(reference.members.iter().filter(|m| !marks.contains(m)).cloned().collect::<Vec<_>>());
            }
            None => lines.push((reference, vec![value], reference.members.clone())),
        }
    }
    let all = scene.results.members.len();
    let line = |(first, values, marks): (&Reference, Vec<String>, Vec<String>)| Cell {
        table: first.table.clone(),
        row: scene.lexicon.set(&first.row),
        values: scene.lexicon.set(&values.join(", ")),
        members: if marks.len() == all && all > 1 { Markup::text("all") } else { links(&marks) },
        status: if first.status == "read" {
            Markup::text("read")
        } else {
            Markup::ours(format!("*{}*", Markup::text(&first.status).source()))
        },
    };
    lines.into_iter().map(line).collect()
}

/// The clauses that the lines of each kind of check cite, in the order of reading.
fn clauses(scene: &Scene) -> Vec<Clauses> {
    let mut found: Vec<(String, Vec<String>)> = Vec::new();
    for check in scene.results.members.iter().flat_map(|m| &m.checks) {
        let at = found.iter().position(|(kind, _)| *kind == check.check).unwrap_or_else(|| {
            found.push((check.check.clone(), Vec::new()));
            found.len() - 1
        });
        let cited = std::iter::once(&check.clause).chain(check.steps.iter().filter(|s| s.equation.is_some()).map(|s| &s.reference));
        for clause in cited.filter(|c| c.chars().any(|l| l.is_ascii_digit())) {
            if !found[at].1.contains(clause) {
                found[at].1.push(clause.clone());
            }
        }
    }
    found.sort_by_key(|(kind, _)| words::rank(kind));
    found
        .into_iter()
        .map(|(kind, mut list)| {
            list.sort_by_key(|clause| natural(clause));
            Clauses { check: words::capital(&words::check(&kind)), list: scene.lexicon.set(&list.join(", ")) }
        })
        .collect()
}

/// A key that sorts 3.10 after 3.9.
fn natural(text: &str) -> Vec<(bool, u64, String)> {
    let mut parts: Vec<(bool, u64, String)> = Vec::new();
    for c in text.chars() {
        match (c.to_digit(10), parts.last_mut()) {
            (Some(d), Some((true, n, _))) => *n = n.saturating_mul(10).saturating_add(u64::from(d)),
            (Some(d), _) => parts.push((true, u64::from(d), String::new())),
            (None, Some((false, _, word))) => word.push(c),
            (None, _) => parts.push((false, 0, c.to_string())),
        }
    }
    parts
}
