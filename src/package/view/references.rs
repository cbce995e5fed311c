//! References: standards, cells read, clauses, how the numbers were made.

use super::Scene;
use super::basis::links;
use super::height::{self, Lines};
use crate::package::markup::{Markup, inserted, literal};
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
    lines: Lines,
}

/// Columns of the table of values, as the template has them; that of the rows has what is left, [`BESIDE_ROW`] less.
const TABLE: f64 = 96.0;
const VALUES: f64 = 150.0;
const MEMBERS: f64 = 58.0;
const STATUS: f64 = 54.0;
const BESIDE_ROW: f64 = TABLE + VALUES + MEMBERS + STATUS + 4.0 * 7.0;

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
    let mut lines: Vec<(&Reference, Vec<Markup>, Vec<String>)> = Vec::new();
    for reference in &scene.results.references {
        let value = scene.printing.as_read(&reference.value);
        let plain = format!("{} {value}", reference.column);
        let value = Markup::ours(format!("{} {}", column(&reference.column), inserted(&value))).read_as(plain);
        match lines
            .iter_mut()
            .find(|(first, ..)| first.table == reference.table && first.row == reference.row && first.status == reference.status)
        {
            Some((_, values, marks)) => {
                values.push(value);
                marks.extend(reference.members.iter().filter(|m| !marks.contains(m)).cloned().collect::<Vec<_>>());
            }
            None => lines.push((reference, vec![value], reference.members.clone())),
        }
    }
    let place = |mark: &String| scene.results.members.iter().position(|m| m.mark == *mark);
    lines.iter_mut().for_each(|(.., marks)| marks.sort_by_key(place));
    lines.sort_by_cached_key(|(first, ..)| (natural(&first.table), natural(&first.row)));
    let tables: Vec<String> = lines.iter().map(|(first, ..)| first.table.clone()).collect();
    let all = scene.results.members.len();
    let line = |(i, (first, values, marks)): (usize, (&Reference, Vec<Markup>, Vec<String>))| {
        // A table's name stands at its first row.
        let table = if i > 0 && tables[i - 1] == first.table { String::new() } else { first.table.clone() };
        let row = scene.lexicon.set(&first.row);
        let values = Markup::joined(&values, ", ");
        let members = if marks.len() == all && all > 1 { Markup::text("all") } else { links(&marks) };
        let status = if let Some(by) = confirmed_by(scene, &first.table) {
            Markup::text(&format!("{}, confirmed by {by}", first.status))
        } else if first.status == "read" {
            Markup::text("read")
        } else {
            Markup::ours(format!("*{}*", Markup::text(&first.status).source())).read_as(first.status.clone())
        };
        let room = scene.width() - BESIDE_ROW;
        let sides = [(row.plain(), room), (values.plain(), VALUES), (members.plain(), MEMBERS), (status.plain(), STATUS)];
        let lines = height::row(sides.into_iter().chain([(table.as_str(), TABLE)]));
        Cell { table, row, values, members, status, lines }
    };
    lines.into_iter().enumerate().map(line).collect()
}

/// Who compared a table with the printed standard.
fn confirmed_by<'a>(scene: &'a Scene, table: &str) -> Option<&'a str> {
    scene.job.about.confirmed.iter().find(|c| c.table.value.eq_ignore_ascii_case(table)).map(|c| c.by.as_str())
}

/// The head of a column: a symbol is set as one.
fn column(text: &str) -> String {
    let is_letter = |base: &str| base.len() == 1 || ["alpha", "beta", "gamma", "lambda", "psi", "rho"].contains(&base);
    let is_symbol = text.split('_').next().is_some_and(is_letter) && text.chars().all(|c| c.is_ascii_alphanumeric() || c == '_');
    if !is_symbol {
        return inserted(text);
    }
    let mut parts = text.split('_');
    let base = parts.next().unwrap_or_default();
    let foot: Vec<String> = parts.map(|part| if part == "perp" { part.to_owned() } else { format!("\"{part}\"") }).collect();
    let formula = if foot.is_empty() { base.to_owned() } else { format!("{base}_({})", foot.join(" ")) };
    format!("#m({}, ${formula}$)", literal(&text.replace('_', " ")))
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
