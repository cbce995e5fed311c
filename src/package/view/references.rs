//! References: standards, cells read, clauses, how the numbers were made.

use super::basis::links;
use super::height::{self, Lines};
use super::{Column, Columns, Scene};
use crate::package::letters::Letter;
use crate::package::markup::{Markup, inserted, letter_as_seen, literal};
use crate::package::words;
use crate::results::Reference;
use serde::Serialize;

/// What the references say.
#[derive(Debug, Serialize)]
pub(in crate::package) struct References {
    standards: Vec<[String; 3]>,
    table: Columns,
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

/// What a row stands in under its table's name.
const INDENT: f64 = 8.0;

/// The table of values: row, values, members, the standing of our copy.
fn table(scene: &Scene) -> Columns {
    Columns::of(scene.width(), [Column::Share(1.0), Column::Wide(172.0), Column::Wide(92.0), Column::Wide(70.0)], &[8.0; 3])
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
            table: table(scene),
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
        let value = value(scene, &reference.column, &scene.printing.as_read(&reference.value));
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
    let mut columns = self::table(scene).columns;
    columns[0] -= INDENT;
    let tables: Vec<String> = lines.iter().map(|(first, ..)| first.table.clone()).collect();
    let line = |(i, (first, values, marks)): (usize, (&Reference, Vec<Markup>, Vec<String>))| {
        // A table's name stands over its first row.
        let table = if i > 0 && tables[i - 1] == first.table { String::new() } else { first.table.clone() };
        let row = scene.lexicon.set(&row(&first.row));
        let values = Markup::joined(&values, ", ");
        let members = used_on(scene, &marks);
        let status = if let Some(by) = confirmed_by(scene, &first.table) {
            Markup::text(&format!("{}, confirmed by {by}", first.status))
        } else if first.status == "read" {
            Markup::text("read")
        } else {
            Markup::ours(format!("*{}*", Markup::text(&first.status).source())).read_as(first.status.clone())
        };
        let sides = [&row, &values, &members, &status].map(Markup::plain);
        let counted = height::row(sides.into_iter().zip(&columns).map(|(text, wide)| (text, *wide)));
        let lines = if table.is_empty() { counted } else { counted.under_a_name() };
        Cell { table, row, values, members, status, lines }
    };
    lines.into_iter().enumerate().map(line).collect()
}

/// The members that a value is used on; nearly all are said by those that are left.
fn used_on(scene: &Scene, marks: &[String]) -> Markup {
    let rest: Vec<String> = scene.results.members.iter().map(|m| m.mark.clone()).filter(|mark| !marks.contains(mark)).collect();
    match rest.len() {
        0 if marks.len() > 1 => Markup::text("all"),
        n if n > 0 && 4 * n <= marks.len() => Markup::joined(&[Markup::text("all but"), links(&rest)], " "),
        _ => links(marks),
    }
}

/// Who compared a table with the printed standard.
fn confirmed_by<'a>(scene: &'a Scene, table: &str) -> Option<&'a str> {
    scene.job.about.confirmed.iter().find(|c| c.table.value.eq_ignore_ascii_case(table)).map(|c| c.by.as_str())
}

/// A column's head with a value of it: `F_b 900 psi`, a symbol set as one; that of a load case as everywhere.
fn value(scene: &Scene, column: &str, value: &str) -> Markup {
    if scene.results.cases.iter().any(|case| case.letter == column) {
        return scene.lexicon.set(&format!("{column} {value}"));
    }
    if let Some(letter) = Letter::of_column(column) {
        let set = format!("#m({}, ${}$){}", literal(&letter.words), letter.typst, inserted(&format!(" {value}")));
        return Markup::ours(set).read_as(format!("{} {value}", letter_as_seen(column)));
    }
    Markup::text(&match words::COLUMNS.iter().find(|(known, ..)| *known == column) {
        Some((_, before, after)) => format!("{before}{value}{after}"),
        None => format!("{} {value}", column.replace('_', " ")),
    })
}

/// A row's name as the standard has it: words that the job file joins by strokes stand apart.
fn row(name: &str) -> String {
    let part = |part: &str| match words::ROWS.iter().find(|(known, _)| *known == part) {
        Some((_, said)) => (*said).to_owned(),
        None => part.to_owned(),
    };
    name.split(", ").map(part).collect::<Vec<_>>().join(", ")
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
            Clauses { check: words::capital(&words::check(&kind)), list: scene.lexicon.set(&by_standard(scene, &list)) }
        })
        .collect()
}

/// Clauses with the name of their standard before the first of them: `NDS: 3.3.1; Eq. 3.3-5. IBC: Table 1604.3`.
fn by_standard(scene: &Scene, clauses: &[String]) -> String {
    let mut found: Vec<(&str, Vec<&str>)> = Vec::new();
    for clause in clauses {
        let (standard, rest) = parted(scene, clause);
        match found.iter_mut().find(|(known, _)| *known == standard) {
            Some((_, all)) => all.push(rest),
            None => found.push((standard, vec![rest])),
        }
    }
    let said =
        |(standard, all): &(&str, Vec<&str>)| if standard.is_empty() { all.join("; ") } else { format!("{standard}: {}", all.join("; ")) };
    found.iter().map(said).collect::<Vec<_>>().join(". ")
}

/// A clause's standard, by its short name or the first word of it, and the rest.
fn parted<'a>(scene: &Scene, clause: &'a str) -> (&'a str, &'a str) {
    let names = scene.results.standards.iter().flat_map(|s| [s.short.as_str(), s.short.split(' ').next().unwrap_or_default()]);
    let parts = |name: &str| clause.strip_prefix(name).and_then(|rest| rest.strip_prefix(", ").or_else(|| rest.strip_prefix(' ')));
    let longest = names.filter(|name| parts(name).is_some()).max_by_key(|name| name.len());
    longest.and_then(|name| Some((&clause[..name.len()], parts(name)?))).unwrap_or(("", clause))
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
