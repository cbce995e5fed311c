//! Documents of one template: the verification report and span tables, in the look of a package.

use super::Templates;
use super::view::{Frame, ProofView, SpanTableView};
use crate::job::model::{Date, Paper};
use crate::pdf::{Bug, Options, Press, Standard};
use crate::results::Program;
use crate::results::proof::Proof;
use crate::results::spans::SpanTable;
use serde::Serialize;

/// The verification report as a PDF; `date` is the reader's, never the clock's.
///
/// # Errors
/// A [`Bug`] of a template.
pub fn proof(proof: &Proof, date: Date) -> Result<Vec<u8>, Bug> {
    let view = ProofView::of(proof, date);
    let frame = Frame::of_document("Verification report".to_owned(), view.status(), date, Paper::Letter);
    typeset("proof.typ", &view, &frame, format!("verification report {date}"), &proof.program)
}

/// A span table as a PDF.
///
/// # Errors
/// A [`Bug`] of a template.
pub fn span_table(table: &SpanTable, date: Date) -> Result<Vec<u8>, Bug> {
    let view = SpanTableView::of(table, date);
    let paper = if table.code == "european" { Paper::A4 } else { Paper::Letter };
    let frame = Frame::of_document(view.title().to_owned(), view.status(), date, paper);
    typeset("span-table.typ", &view, &frame, format!("span table {date}"), &table.program)
}

fn typeset(template: &str, view: &impl Serialize, frame: &Frame, ident: String, program: &Program) -> Result<Vec<u8>, Bug> {
    let templates = Templates::built_in();
    let filler = templates.filler()?;
    let sheets = [filler.fill(template, "/main.typ", view)?, filler.fill("job.typ", "/job.typ", frame)?, templates.style()];
    let creator = format!("{} {}", program.name, program.version);
    let options = Options { standard: Standard::Submittal, ident, creator, note: None };
    Press::new().pdf(&sheets, &[], &options)
}
