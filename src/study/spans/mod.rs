//! Span tables: the longest span that passes, by material, section and spacing.
//!
//! A table is asked for in the words of a job file. Its spans run between support lines, under loads along the whole member, with the top
//! edge sheathed; the ratio that stops a span is that of the whole check, every combination and every limit, and the span is its root,
//! rounded down in print.

mod asked;
mod longest;

pub use asked::{Asked, Refused, Rounding};
pub use longest::{Line, Longest};

use crate::codes::{Code, Prepared, Shown};
use crate::job::model::{Job, Member};
use crate::results::spans::{SpanCell, SpanRow, SpanTable};
use crate::results::{Value, rounded};
use crate::text::Faults;
use crate::units::{FT, IN, MM, decimals};

/// The version of the table's form.
const FORMAT: u32 = 1;

/// Makes a table.
///
/// # Errors
/// What of it a job file could not say, or the code's tables do not have for any of its sections.
pub fn table(asked: &Asked) -> Result<SpanTable, Box<Refused>> {
    let read = asked.read()?;
    let (code, job, member) = (read.code, &read.job, &read.member);
    let combinations = code.combinations(&job.basis);
    let mut line = Line::of(code, job, &combinations, member);
    let (mut rows, mut assumptions, mut not_checked) = (Vec::new(), Vec::new(), Vec::new());
    let mut without: Vec<Option<Faults>> = read.sections.iter().map(|_| Some(Faults::new())).collect();
    for material in &read.materials {
        let (mut any, mut faults) = (false, Faults::new());
        line.forget();
        for (section, without) in read.sections.iter().zip(&mut without) {
            let mut row = SpanRow { material: String::new(), section: String::new(), cells: Vec::new() };
            for spacing in &read.spacings {
                let one = line.member();
                (one.material, one.section, one.spacing) = (material.clone(), section.clone(), spacing.clone());
                match code.prepare(job, one) {
                    Ok(prepared) => {
                        (any, *without) = (true, None);
                        row.material.clone_from(&prepared.material().name);
                        row.section.clone_from(&prepared.section().name);
                        note(prepared.as_ref(), &mut assumptions, &mut not_checked);
                        row.cells.push(Some(cell(line.longest(prepared.as_ref()), code.shown(), asked.rounding)));
                    }
                    Err(more) => {
                        if let Some(faults) = without {
                            faults.clone_from(&more);
                        }
                        faults = more;
                        row.cells.push(None);
                    }
                }
            }
            if row.cells.iter().any(Option::is_some) {
                rows.push(row);
            }
        }
        if !any {
            return Err(Box::new(Refused { source: read.source.clone(), faults }));
        }
    }
    // A section that no material has is a slip, not a gap in the table.
    if let Some(faults) = without.into_iter().flatten().next() {
        return Err(Box::new(Refused { source: read.source, faults }));
    }
    let basis = &job.basis;
    let method = basis.method.iter().map(|m| m.value.clone());
    Ok(SpanTable {
        format: FORMAT,
        program: super::prove::program(),
        code: code.name().word().to_owned(),
        basis: std::iter::once(basis.edition.value.clone()).chain(method).chain([basis.loading.value.clone()]).collect(),
        role: member.role.word().to_owned(),
        loads: asked.loads.clone(),
        limits: asked.limits.clone(),
        rounding: asked.rounding.words(code.shown().span == &FT).to_owned(),
        spacings: asked.spacings.clone(),
        rows,
        assumptions,
        not_checked,
    })
}

/// What a member takes for granted and what is not checked of it, each once.
fn note(prepared: &dyn Prepared, assumptions: &mut Vec<String>, not_checked: &mut Vec<String>) {
    let add = |list: &mut Vec<String>, text: String| {
        if !list.contains(&text) {
            list.push(text);
        }
    };
    prepared.assumes().iter().for_each(|a| add(assumptions, a.text.clone()));
    prepared.not_checked().into_iter().for_each(|n| add(not_checked, n));
}

fn cell(found: Option<Longest>, shown: Shown, rounding: Rounding) -> SpanCell {
    let Some(found) = found else {
        return SpanCell { span: None, printed: "no bound".to_owned(), governed_by: String::new() };
    };
    let feet = shown.span == &FT;
    let (step, unit) = if feet { (IN.factor, shown.span) } else { (10.0 * MM.factor, shown.span) };
    let steps = found.length / step;
    // A span that is a whole step but for the last bits is that step.
    let whole = match rounding {
        Rounding::Down => libm::floor(steps + 1e-9),
        Rounding::Nearest => libm::round(steps),
    };
    let printed = if feet { feet_and_inches(whole * step) } else { decimals(whole * step / 1000.0, 2) };
    let span = Value { value: rounded(unit.number(found.length)), unit: unit.name.to_owned() };
    SpanCell { span: Some(span), printed, governed_by: found.check.to_owned() }
}

/// A length of whole inches as span tables print it: `13-2`.
pub fn feet_and_inches(length: f64) -> String {
    let inches = libm::round(IN.number(length)) as i64;
    format!("{}-{}", inches / 12, inches % 12)
}

/// What was read of a table that is asked for.
struct Read {
    source: crate::text::Source,
    code: &'static dyn Code,
    job: Job,
    member: Member,
    materials: Vec<crate::job::model::Placed<crate::job::model::MaterialAsked>>,
    sections: Vec<crate::job::model::Placed<crate::job::model::SectionAsked>>,
    spacings: Vec<Option<crate::job::model::Placed<crate::units::Length>>>,
}
