//! The verification report.

use crate::job::model::Date;
use crate::package::words;
use crate::results::proof::{Case, Figure, Kind, Law, Proof};
use crate::units::{decimals, figures};
use serde::Serialize;

/// What the report says.
#[derive(Debug, Serialize)]
pub(in crate::package) struct ProofView {
    year: u16,
    month: u8,
    day: u8,
    program: String,
    finding: String,
    kinds: Vec<[String; 5]>,
    /// What short names of sources stand for, one a line.
    abbreviations: Vec<[String; 2]>,
    laws: Vec<LawRow>,
    parts: Vec<KindPart>,
    cells: Vec<CellPart>,
    not_checked: Vec<[String; 2]>,
    tables: Vec<[String; 5]>,
    #[serde(skip)]
    status: String,
}

#[derive(Debug, Serialize)]
struct LawRow {
    table: String,
    title: String,
    cells: String,
    agree: String,
    copy: String,
}

/// The cases of one kind.
#[derive(Debug, Serialize)]
struct KindPart {
    title: &'static str,
    /// What its column of expected values is called.
    expected: &'static str,
    cases: Vec<CasePart>,
}

#[derive(Debug, Serialize)]
struct CasePart {
    id: String,
    title: String,
    source: String,
    status: String,
    fault: String,
    rows: Vec<Row>,
}

#[derive(Debug, Serialize)]
struct CellPart {
    table: String,
    title: String,
    source: String,
    notes: String,
    rows: Vec<Row>,
}

/// A figure or a cell: what, expected, computed, difference, tolerance; the verdict is said where it is not agreement.
#[derive(Debug, Serialize)]
struct Row {
    what: String,
    under: String,
    letter: String,
    expected: String,
    computed: String,
    difference: String,
    tolerance: String,
    differs: bool,
    because: String,
}

fn none_or(number: usize) -> String {
    if number == 0 { "none".to_owned() } else { words::count(number) }
}

impl ProofView {
    pub(in crate::package) fn of(proof: &Proof, date: Date) -> Self {
        let c = &proof.counts;
        let known = match c.cells_known {
            0 => String::new(),
            n => format!(", {} of them as the model behind its table is known to", words::count(n)),
        };
        let outside = match c.kinds.iter().find(|of| of.kind == Kind::Published) {
            Some(of) => format!("{} of them were printed by sources that were read, {} cases", of.figures, of.cases),
            None => "none of them was printed by a source".to_owned(),
        };
        let finding = format!(
            "{} figures of {} cases were computed on this machine, from job files or by the functions themselves: {} outside the tolerance. {outside}; the \
             others are closed forms, our own arithmetic or recalled, and stand apart below. {} cells of {} span tables that are \
             law were recomputed: {} from the printed inch{known}. What could not be checked, and which values of our reference tables \
             stand from memory, is said here too.",
            c.figures,
            c.cases,
            none_or(c.figures_outside),
            c.cells,
            proof.laws.len(),
            match c.cells_differing {
                0 => "none differs".to_owned(),
                1 => "one differs".to_owned(),
                n => format!("{} differ", words::count(n)),
            },
        );
        let standing = |t: &crate::results::proof::Standing| {
            [t.code.clone(), t.table.clone(), t.read.to_string(), t.computed.to_string(), t.from_memory.to_string()]
        };
        Self {
            year: date.year,
            month: date.month,
            day: date.day,
            program: format!("{} {}", proof.program.name, proof.program.version),
            finding,
            kinds: kinds(proof),
            abbreviations: proof.abbreviations.iter().map(|a| [a.short.clone(), a.meaning.clone()]).collect(),
            laws: proof.laws.iter().map(law).collect(),
            parts: Kind::ALL.iter().map(|kind| part(proof, *kind)).filter(|part| !part.cases.is_empty()).collect(),
            cells: proof.laws.iter().map(cells).collect(),
            not_checked: proof.not_checked.iter().map(|n| [n.what.clone(), n.reason.clone()]).collect(),
            tables: proof.tables.iter().map(standing).collect(),
            status: match (proof.agrees, c.cells_differing) {
                (false, _) => "DIFFERENCES FOUND".to_owned(),
                (true, 0) => "Everything that could be checked agrees".to_owned(),
                (true, n) => format!("All agrees but {} cells known to differ", words::count(n)),
            },
        }
    }

    /// The status line of every page.
    pub(in crate::package) fn status(&self) -> String {
        self.status.clone()
    }
}

/// How much there is of each kind, the cells of laws last.
fn kinds(proof: &Proof) -> Vec<[String; 5]> {
    let c = &proof.counts;
    let law = ("tabulated law", proof.laws.len(), c.cells, c.cells_differing, "cells of tables that are law");
    let rows = c.kinds.iter().map(|of| (of.kind.name(), of.cases, of.figures, of.outside, of.kind.meaning())).chain([law]);
    rows.map(|(name, cases, figures, outside, meaning)| {
        [words::capital(name), cases.to_string(), figures.to_string(), outside.to_string(), meaning.to_owned()]
    })
    .collect()
}

fn part(proof: &Proof, kind: Kind) -> KindPart {
    let (title, expected) = match kind {
        Kind::Published => ("Published cases", "Published"),
        Kind::ClosedForm => ("Closed forms", "By the form"),
        Kind::OwnArithmetic => ("Own arithmetic", "By hand"),
        Kind::FromMemory => ("From memory", "Recalled"),
    };
    KindPart { title, expected, cases: proof.cases.iter().filter(|case| case.kind == kind).map(case).collect() }
}

fn law(law: &Law) -> LawRow {
    LawRow {
        table: law.table.clone(),
        title: law.title.clone(),
        cells: law.cells.len().to_string(),
        agree: law.agreeing().to_string(),
        copy: law.status.clone(),
    }
}

fn case(case: &Case) -> CasePart {
    CasePart {
        id: case.id.clone(),
        title: case.title.clone(),
        source: case.source.clone(),
        status: case.status.clone(),
        fault: case.fault.clone(),
        rows: case.figures.iter().map(|f| figure(f, case.kind)).collect(),
    }
}

fn figure(f: &Figure, of_case: Kind) -> Row {
    let place = if f.place.is_empty() { String::new() } else { format!(", {}", f.place) };
    let number = |value: f64| figures(value, 6).trim_end_matches('0').trim_end_matches('.').to_owned();
    let plain = |value: f64| if value.fract() == 0.0 { decimals(value, 0) } else { number(value) };
    Row {
        what: {
            let other = if f.kind == of_case { String::new() } else { format!(", {}", f.kind.name()) };
            format!("{} {}{place}{other}", f.member, words::check(&f.check)).trim().to_owned()
        },
        under: f.combination.clone(),
        letter: f.symbol.clone(),
        expected: format!("{} {}", plain(f.expected), f.unit),
        computed: f.computed.map_or_else(|| "none".to_owned(), |v| figures(v, 6)),
        difference: f.difference.map(|d| figures(d, 2)).unwrap_or_default(),
        tolerance: figures(f.tolerance, 2),
        differs: !f.agrees,
        because: f.because.clone(),
    }
}

fn cells(law: &Law) -> CellPart {
    let row = |c: &crate::results::proof::Cell| Row {
        what: c.what.clone(),
        under: words::check(&c.governed_by),
        letter: String::new(),
        expected: c.printed.clone(),
        computed: format!("{} {}", decimals(c.computed, 2), c.unit),
        difference: c.difference.map(|d| decimals(d, 2)).unwrap_or_default(),
        tolerance: c.rounded.clone(),
        differs: !c.agrees,
        because: c.because.clone(),
    };
    CellPart {
        table: law.table.clone(),
        title: law.title.clone(),
        source: law.source.clone(),
        notes: law.notes.clone(),
        rows: law.cells.iter().map(row).collect(),
    }
}
