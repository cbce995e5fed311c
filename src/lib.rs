//! latewood turns a job file into a calculation package for a light-frame wood structure.
//!
//! The story in seven steps, each a room of this crate:
//!
//! 1. **Read.** [`yaml::read`] makes a tree of the text in which every value knows its place.
//! 2. **Job.** [`job::read`] makes a [`Job`] of the tree: ids resolved, the load path sorted, all faults told at once.
//! 3. **Prepare.** A [`codes::Code`] resolves each member against its tables: section, material, factors.
//! 4. **Analyse.** [`analysis`] solves each member's beam exactly, by load case and panel.
//! 5. **Check.** [`codes::walk`] goes down the load path, tries every combination, load set and place, and has the worst worked on an
//!    [`equation::Tape`], so that the printed line and the computed number come from one expression.
//! 6. **Results.** [`results::document`] is the versioned document of all that was found.
//! 7. **Package.** [`package`] draws the pages from job and results, and [`pdf`] typesets them.
//!
//! [`read`] does steps 1 to 3, [`check`] goes on to 6, and [`package::issue`] does 7. Nothing here judges a building: what a package says and does
//! not say is on its cover.
//!
//! ```
//! let job = r#"
//! job: {title: A shed, date: 2026-01-05}
//! basis: {code: american}
//! areas:
//!   floor: {dead: 10 psf, live: 40 psf}
//! members:
//!   - mark: J1
//!     use: joist
//!     section: 2x10
//!     material: {species: Douglas Fir-Larch, grade: No.2}
//!     spacing: 16 in
//!     spans: [12 ft]
//!     braced: {top: sheathed}
//!     loads: [{area: floor}]
//! "#;
//! let source = latewood::text::Source::read("shed.yaml", job.as_bytes()).map_err(|_| "not text")?;
//! let checked = latewood::check(&source, false).map_err(|faults| format!("{faults:?}"))?;
//! assert!(checked.results.member("J1").is_some_and(|j1| j1.verdict.passes()));
//! # Ok::<(), String>(())
//! ```
#![forbid(unsafe_code)]
#![deny(missing_docs)]

pub mod analysis;
#[cfg(feature = "paper")]
pub mod archive;
pub mod cli;
pub mod codes;
mod cores;
mod disk;
pub mod equation;
pub mod job;
#[cfg(feature = "paper")]
pub mod package;
#[cfg(feature = "paper")]
pub mod pdf;
pub mod results;
pub mod study;
pub mod table;
pub mod text;
pub mod units;
pub mod yaml;

use codes::{Code, Prepared};
use job::model::Job;
use results::Results;
use text::{Faults, Source};

/// A job that can be checked: read, and every member resolved against its code's tables.
pub struct Ready {
    /// The job.
    pub job: Job,
    /// Its code.
    pub code: &'static dyn Code,
    /// Its members, against the code's tables.
    pub prepared: Vec<Box<dyn Prepared>>,
}

/// A job and what was found.
#[derive(Debug)]
pub struct Checked {
    /// The job.
    pub job: Job,
    /// The results.
    pub results: Results,
}

/// Reads a job file and resolves it against its code.
///
/// # Errors
/// Every fault of the file, those of the grammar and those of the code's tables, in file order.
pub fn read(source: &Source) -> Result<Ready, Faults> {
    let reading = job::read(source);
    let (mut faults, more) = if reading.faults.is_empty() {
        match ready(reading) {
            Ok(ready) => return Ok(ready),
            // A fault of the tables may hide others.
            Err(faults) => (faults, codes::wrong(&job::read(source))),
        }
    } else {
        (reading.faults.clone(), codes::wrong(&reading))
    };
    faults.extend(more);
    Err(text::in_order(faults))
}

/// A job without faults, against its code.
fn ready(reading: job::Reading) -> Result<Ready, Faults> {
    let job = reading.whole()?;
    let code = codes::of(&job.basis).ok_or_else(|| job::not_covered_code(&job.basis))?;
    let prepared = codes::prepare(code, &job)?;
    Ok(Ready { job, code, prepared })
}

/// Reads and checks a job. With `all`, every combination that lost is worked out too.
///
/// # Errors
/// As [`read`]; a member that cannot be solved is a bug of the program, which asks to be reported.
pub fn check(source: &Source, all: bool) -> Result<Checked, Faults> {
    let Ready { job, code, prepared } = read(source)?;
    let combinations = code.combinations(&job.basis);
    let walked = codes::walk(code, &job, prepared, &combinations, all)?;
    let results = results::document(code, &job, source, &walked);
    Ok(Checked { job, results })
}
