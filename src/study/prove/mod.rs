//! Published cases and tables that are law, run on the machine where it stands: expected, computed, difference, tolerance, verdict.
//!
//! The files are those that the tests run, embedded: `cases/*.yaml` and `laws/*.csv` of each code. What a file cannot be asked for, and
//! values that stand in our tables from memory, are part of the report.

mod cases;
mod laws;

use crate::codes;
use crate::results::Program;
use crate::results::proof::{Counts, NotChecked, Proof, Standing};

include!(concat!(env!("OUT_DIR"), "/proofs.rs"));

/// The version of the report's form.
const FORMAT: u32 = 1;

/// Runs everything.
pub fn prove() -> Proof {
    let (mut cases, mut laws, mut not_checked) = (Vec::new(), Vec::new(), Vec::new());
    for (code, file, text) in CASES {
        cases::run(code, file, text, &mut cases, &mut not_checked);
    }
    for (code, file, text) in LAWS {
        laws::run(code, file, text, &mut laws, &mut not_checked);
    }
    let figures = || cases.iter().flat_map(|c| &c.figures);
    let cells = || laws.iter().flat_map(|l| &l.cells);
    let counts = Counts {
        cases: cases.len(),
        figures: figures().count(),
        figures_outside: figures().filter(|f| !f.agrees).count(),
        cells: cells().count(),
        cells_differing: cells().filter(|c| !c.agrees).count(),
        cells_known: cells().filter(|c| c.known).count(),
    };
    let tables = standing();
    for table in tables.iter().filter(|t| t.from_memory > 0) {
        let values = if table.from_memory == 1 { "one value stands".to_owned() } else { format!("{} values stand", table.from_memory) };
        not_checked
            .push(NotChecked { what: table.table.clone(), reason: format!("{values} from memory, not compared with the printed page") });
    }
    Proof {
        format: FORMAT,
        program: program(),
        agrees: cases.iter().all(crate::results::proof::Case::agrees) && counts.cells_differing == counts.cells_known,
        counts,
        cases,
        laws,
        not_checked,
        tables,
    }
}

/// The program as a document names it.
pub(super) fn program() -> Program {
    Program { name: env!("CARGO_PKG_NAME").to_owned(), version: env!("CARGO_PKG_VERSION").to_owned() }
}

/// How many values of each table were read, computed, or stand from memory.
fn standing() -> Vec<Standing> {
    let of = |code: &'static dyn codes::Code, table: &crate::table::Table| {
        let mut standing =
            Standing { code: code.name().word().to_owned(), table: table.heading().to_string(), read: 0, computed: 0, from_memory: 0 };
        for row in table.rows() {
            for found in table.columns().iter().filter_map(|column| row.number(column)) {
                match found.cell.status.word() {
                    "read" => standing.read += 1,
                    "computed" => standing.computed += 1,
                    _ => standing.from_memory += 1,
                }
            }
        }
        standing
    };
    codes::ALL.iter().flat_map(|code| code.tables().into_iter().map(|table| of(*code, table))).collect()
}
