//! The verification report: what was compared, what could not be, and how our tables stand; the cases and cells themselves are in
//! `proof_rows`.

use super::proof_rows::{CellPart, KindPart, capital_of_a_sentence, lexicon_of};
use crate::job::model::Date;
use crate::package::markup::Markup;
use crate::package::words;
use crate::results::proof::{Kind, Law, Proof, Standing};
use serde::Serialize;

/// What the report says.
#[derive(Debug, Serialize)]
pub(in crate::package) struct ProofView {
    year: u16,
    month: u8,
    day: u8,
    program: String,
    finding: String,
    kinds: Vec<KindRow>,
    /// What short names of sources stand for, one a line.
    abbreviations: Vec<[String; 2]>,
    laws: Vec<LawRow>,
    parts: Vec<KindPart>,
    cells: Vec<CellPart>,
    not_checked: Vec<[Markup; 2]>,
    /// How many values stand from memory.
    memory: String,
    tables: Vec<TableRow>,
    #[serde(skip)]
    status: String,
}

/// How much there is of a kind, and where it stands; nowhere where there is none of it.
#[derive(Debug, Serialize)]
struct KindRow {
    name: String,
    counts: [String; 3],
    meaning: &'static str,
    label: String,
}

#[derive(Debug, Serialize)]
struct LawRow {
    table: String,
    title: String,
    cells: String,
    agree: String,
    copy: String,
    label: String,
}

/// How our copy of a table stands.
#[derive(Debug, Serialize)]
struct TableRow {
    code: String,
    table: String,
    counts: [String; 3],
    remark: String,
}

fn none_or(number: usize) -> String {
    if number == 0 { "none".to_owned() } else { words::count(number) }
}

/// What of the cells of laws differs, and whether that is known.
fn differing(proof: &Proof) -> String {
    let (differ, known) = (proof.counts.cells_differing, proof.counts.cells_known);
    let fit = "as the model behind their table is known to";
    match (differ, known) {
        (0, _) => "none differs from the printed inch".to_owned(),
        (1, 1) => format!("one differs from the printed inch, {fit}"),
        (1, _) => "one differs from the printed inch".to_owned(),
        (all, 0) => format!("{} differ from the printed inch", words::count(all)),
        (all, known) if all == known => format!("{} differ from the printed inch, {fit}", words::count(all)),
        (all, known) => format!("{} differ from the printed inch, {} of them {fit}", words::count(all), words::count(known)),
    }
}

impl ProofView {
    pub(in crate::package) fn of(proof: &Proof, date: Date) -> Self {
        let c = &proof.counts;
        let lexicon = lexicon_of(proof);
        let outside = match c.kinds.iter().find(|of| of.kind == Kind::Published) {
            Some(of) => format!("{} of them were printed by sources that were read, {} cases", of.figures, of.cases),
            None => "none of them was printed by a source".to_owned(),
        };
        let finding = format!(
            "{} figures of {} cases were computed on this machine, from job files or by the functions themselves: {} outside the tolerance. {outside}; the \
             others are closed forms, our own arithmetic or recalled, and stand apart below. {} cells of {} span tables that are \
             law were recomputed: {}. What could not be checked, and which values of our reference tables stand from memory, is said here too.",
            c.figures,
            c.cases,
            none_or(c.figures_outside),
            c.cells,
            words::count(proof.laws.len()),
            differing(proof),
        );
        // Values from memory stand under their tables at the end, once.
        let of_a_table = |what: &str| proof.tables.iter().any(|t| t.table == what && t.from_memory > 0);
        let not_checked = proof.not_checked.iter().filter(|n| !(of_a_table(&n.what) && n.reason.contains("from memory")));
        Self {
            year: date.year(),
            month: date.month(),
            day: date.day(),
            program: format!("{} {}", proof.program.name, proof.program.version),
            finding,
            kinds: kinds(proof),
            abbreviations: proof.abbreviations.iter().map(|a| [a.short.clone(), a.meaning.clone()]).collect(),
            laws: proof.laws.iter().enumerate().map(|(i, law)| of_law(i, law)).collect(),
            parts: Kind::ALL.iter().map(|kind| KindPart::of(proof, *kind, &lexicon)).filter(|part| !part.is_empty()).collect(),
            cells: proof.laws.iter().enumerate().map(|(i, law)| CellPart::of(law, label_of_law(i), &lexicon)).collect(),
            not_checked: not_checked
                .map(|n| [lexicon.set(&capital_of_a_sentence(&n.what)), lexicon.set(&capital_of_a_sentence(&n.reason))])
                .collect(),
            memory: memory(&proof.tables),
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
fn kinds(proof: &Proof) -> Vec<KindRow> {
    let c = &proof.counts;
    let label = if proof.laws.is_empty() { String::new() } else { label_of_law(0) };
    let law = ("tabulated law", proof.laws.len(), c.cells, c.cells_differing, "cells of tables that are law", label);
    let of_kind = |of: &crate::results::proof::OfKind| {
        let label = if of.cases > 0 { KindPart::label(of.kind).to_owned() } else { String::new() };
        (of.kind.name(), of.cases, of.figures, of.outside, of.kind.meaning(), label)
    };
    let row = |(name, cases, figures, outside, meaning, label): (&str, usize, usize, usize, &'static str, String)| KindRow {
        name: words::capital(name),
        counts: [cases, figures, outside].map(|n| n.to_string()),
        meaning,
        label,
    };
    c.kinds.iter().map(of_kind).chain([law]).map(row).collect()
}

fn label_of_law(index: usize) -> String {
    format!("law-{}", index + 1)
}

fn of_law(index: usize, law: &Law) -> LawRow {
    LawRow {
        table: law.table.clone(),
        title: law.title.clone(),
        cells: law.cells.len().to_string(),
        agree: law.agreeing().to_string(),
        copy: law.status.clone(),
        label: label_of_law(index),
    }
}

/// How many values of all tables stand from memory.
fn memory(tables: &[Standing]) -> String {
    let all: usize = tables.iter().map(|t| t.read + t.computed + t.from_memory).sum();
    let recalled: usize = tables.iter().map(|t| t.from_memory).sum();
    let held = tables.iter().filter(|t| t.from_memory > 0).count();
    format!(
        "{recalled} of the {all} values of our reference tables stand from memory and were not compared with the printed page; {held} tables hold some"
    )
}

fn standing(of: &Standing) -> TableRow {
    let mut remarks = Vec::new();
    if of.fixed > 0 {
        remarks.push(format!("{} from memory are the only ones that give what a law prints", of.fixed));
    }
    if of.recalled_twice > 0 {
        remarks.push(format!("{} recalled in two ways, by two readings", of.recalled_twice));
    }
    if of.read + of.computed + of.from_memory == 0 {
        remarks.push("words only, no numbers".to_owned());
    }
    TableRow {
        code: of.code.clone(),
        table: of.table.clone(),
        counts: [of.read, of.computed, of.from_memory].map(|n| n.to_string()),
        remark: remarks.join("; "),
    }
}
