//! Published cases, closed forms of beam theory, figures of handbooks and tables that are law, run on the machine where it stands:
//! expected, computed, difference, tolerance, verdict; and what stands behind each figure.
//!
//! The files are those that the tests run, embedded: `cases/*.yaml` and `laws/*.csv` of each code, `beams/formulas.yaml`,
//! `handbook/checks.yaml`. What a file cannot be asked for, and values that stand in our tables from memory, are part of the report.

mod beams;
mod cases;
mod handbook;
mod laws;

use crate::codes;
use crate::results::Program;
use crate::results::proof::{Abbreviation, Case, Counts, Kind, NotChecked, OfKind, Proof, Standing};
use crate::table::{Status, Table};
use crate::text::Diagnostic;

include!(concat!(env!("OUT_DIR"), "/proofs.rs"));

/// The version of the report's form.
const FORMAT: u32 = 1;

/// Runs everything.
pub fn prove() -> Proof {
    let (mut cases, mut laws, mut not_checked) = (Vec::new(), Vec::new(), Vec::new());
    let mut abbreviations: Vec<Abbreviation> = Vec::new();
    for (code, file, text) in CASES {
        abbreviations.extend(cases::run(code, file, text, &mut cases, &mut not_checked));
    }
    beams::run(&mut cases);
    handbook::run(&mut cases, &mut not_checked);
    for (code, file, text) in LAWS {
        laws::run(code, file, text, &mut laws, &mut not_checked);
    }
    let figures = || cases.iter().flat_map(|c| &c.figures);
    let cells = || laws.iter().flat_map(|l| &l.cells);
    let counts = Counts {
        cases: cases.len(),
        figures: figures().count(),
        kinds: Kind::ALL.map(|kind| of_kind(&cases, kind)).to_vec(),
        figures_outside: figures().filter(|f| !f.agrees).count(),
        cells: cells().count(),
        cells_differing: cells().filter(|c| !c.agrees).count(),
        cells_known: cells().filter(|c| c.known).count(),
    };
    let tables = standing();
    not_checked.extend(tables.iter().filter(|t| t.from_memory > 0).map(|t| NotChecked { what: t.table.clone(), reason: reason(t) }));
    Proof {
        format: FORMAT,
        program: Program::this(),
        agrees: cases.iter().all(crate::results::proof::Case::agrees) && counts.cells_differing == counts.cells_known,
        counts,
        cases,
        laws,
        abbreviations,
        not_checked,
        tables,
    }
}

/// How much of one kind there is.
fn of_kind(cases: &[Case], kind: Kind) -> OfKind {
    let figures = || cases.iter().flat_map(|c| &c.figures).filter(|f| f.kind == kind);
    OfKind {
        kind,
        cases: cases.iter().filter(|c| c.kind == kind).count(),
        figures: figures().count(),
        outside: figures().filter(|f| !f.agrees).count(),
    }
}

/// What is wrong with a job, in one line.
fn in_a_line(faults: &[Diagnostic]) -> String {
    faults.iter().map(|fault| fault.message.as_str()).collect::<Vec<_>>().join("; ")
}

/// Why a table is not confirmed.
fn reason(table: &Standing) -> String {
    let count = |number: usize| if number == 1 { "one value stands".to_owned() } else { format!("{number} values stand") };
    let mut text = format!("{} from memory, not compared with the printed page", count(table.from_memory));
    if table.fixed > 0 {
        text.push_str(&format!("; {} of them the only ones that give what a law prints", table.fixed));
    }
    if table.recalled_twice > 0 {
        text.push_str(&format!("; {} of them recalled in two ways, by two readings", table.recalled_twice));
    }
    text
}

/// How many values of each table were read, computed, or stand from memory, and which nobody could confirm.
fn standing() -> Vec<Standing> {
    codes::ALL.iter().flat_map(|code| code.tables().into_iter().map(|table| of_table(code.name().word(), table))).collect()
}

fn of_table(code: &str, table: &Table) -> Standing {
    let (mut read, mut computed, mut from_memory, mut fixed, mut recalled_twice) = (0, 0, 0, 0, 0);
    let mut unconfirmed = Vec::new();
    for row in table.rows() {
        let mut open = Vec::new();
        // Which sizes a row is for is not one of its values.
        let of_size = |column: &str| column.starts_with("thickness_") || column.starts_with("width_");
        for found in table.columns().iter().filter_map(|column| row.number(column)) {
            match found.cell.status {
                Status::Read(_) | Status::Part(_) => read += 1,
                Status::Computed => computed += 1,
                Status::Fixed => (from_memory, fixed) = (from_memory + 1, fixed + 1),
                Status::Twice(ways) => {
                    (from_memory, recalled_twice) = (from_memory + 1, recalled_twice + 1);
                    open.push(format!("{} ({ways})", found.cell.column));
                }
                Status::Memory | Status::Unsure => {
                    from_memory += 1;
                    open.extend(Some(found.cell.column).filter(|column| !of_size(column)));
                }
            }
        }
        if !open.is_empty() {
            unconfirmed.push(format!("{}: {}", row.name(), open.join(", ")));
        }
    }
    let table = table.heading().to_string();
    Standing { code: code.to_owned(), table, read, computed, from_memory, fixed, recalled_twice, unconfirmed }
}
