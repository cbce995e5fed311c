//! Span tables: the longest span that passes, by material, section and spacing.
//!
//! A table is asked for in the words of a job file. Its spans run between support lines, under loads along the whole member, with the top
//! edge sheathed; the ratio that stops a span is that of the whole check, every combination and every limit, and the span is its root,
//! rounded down in print.

mod asked;
mod longest;

pub use asked::{Asked, Refused, Rounding};
pub use longest::{Line, Longest, Reach};

use crate::codes::{Code, Combination, Shown};
use crate::cores;
use crate::job::model::{Job, MaterialAsked, Member, Placed, SectionAsked};
use crate::results::spans::{SpanCell, SpanRow, SpanTable};
use crate::results::{Program, Value, rounded};
use crate::text::Faults;
use crate::units::{FT, IN, Length, MM, decimals};

/// The version of the table's form.
const FORMAT: u32 = 1;

/// Makes a table; all cores work at its materials.
///
/// # Errors
/// What of it a job file could not say, or the code's tables do not have for any of its sections.
pub fn table(asked: &Asked) -> Result<SpanTable, Box<Refused>> {
    let read = asked.read()?;
    let (code, job) = (read.code, &read.job);
    let combinations = code.combinations(&job.basis);
    let parts = cores::each(&read.materials, |material| of_material(&read, &combinations, material, asked.rounding));
    let refused = |faults: &Faults| Err(Box::new(Refused { source: read.source.clone(), faults: faults.clone() }));
    let parts = match parts.into_iter().collect::<Result<Vec<_>, Faults>>() {
        Ok(parts) => parts,
        Err(bug) => return refused(&bug),
    };
    if let Some(faults) = parts.iter().find_map(OfMaterial::without_any) {
        return refused(faults);
    }
    // A section that no material has is a slip, not a gap in the table.
    for section in 0..read.sections.len() {
        if let Some(faults) = parts.iter().map(|part| part.without[section].as_ref()).reduce(Option::and).flatten() {
            return refused(faults);
        }
    }
    let (mut rows, mut assumptions, mut not_checked) = (Vec::new(), Vec::new(), Vec::new());
    for part in parts {
        rows.extend(part.rows);
        part.assumptions.iter().for_each(|text| add(&mut assumptions, text));
        part.not_checked.iter().for_each(|text| add(&mut not_checked, text));
    }
    let basis = &job.basis;
    let method = basis.method.iter().map(|m| m.value.clone());
    Ok(SpanTable {
        format: FORMAT,
        program: Program::this(),
        code: code.name().word().to_owned(),
        basis: std::iter::once(basis.edition.value.clone()).chain(method).chain([basis.loading.value.clone()]).collect(),
        role: read.member.role.word().to_owned(),
        loads: asked.loads.clone(),
        limits: asked.limits.clone(),
        rounding: asked.rounding.words(code.shown().span == &FT).to_owned(),
        spacings: asked.spacings.clone(),
        rows,
        assumptions,
        not_checked,
    })
}

/// A material's part of a table.
struct OfMaterial {
    rows: Vec<SpanRow>,
    assumptions: Vec<String>,
    not_checked: Vec<String>,
    /// By section: why the code's tables do not have it in this material.
    without: Vec<Option<Faults>>,
}

impl OfMaterial {
    /// Why the code's tables have none of the sections in this material.
    fn without_any(&self) -> Option<&Faults> {
        self.rows.is_empty().then(|| self.without.iter().flatten().last()).flatten()
    }
}

fn of_material(
    read: &Read,
    combinations: &[Combination],
    material: &Placed<MaterialAsked>,
    rounding: Rounding,
) -> Result<OfMaterial, Faults> {
    let (code, job) = (read.code, &read.job);
    let mut line = Line::of(code, job, combinations, &read.member);
    let mut part = OfMaterial { rows: Vec::new(), assumptions: Vec::new(), not_checked: Vec::new(), without: Vec::new() };
    for section in &read.sections {
        let mut row = SpanRow { material: String::new(), section: String::new(), cells: Vec::new() };
        let mut without = None;
        for spacing in &read.spacings {
            let one = line.member();
            (one.material, one.section, one.spacing) = (material.clone(), section.clone(), spacing.clone());
            match code.prepare(job, one) {
                Ok(prepared) => {
                    row.material.clone_from(&prepared.resolved().material.name);
                    row.section.clone_from(&prepared.resolved().section.name);
                    prepared.resolved().assumes.iter().for_each(|a| add(&mut part.assumptions, &a.text));
                    prepared.not_checked().iter().for_each(|text| add(&mut part.not_checked, text));
                    let reach = line.longest(prepared.as_ref())?;
                    if let Reach::NotChecked(why) = &reach {
                        let of = format!("{} {}", row.section, row.material);
                        why.iter().for_each(|why| add(&mut part.not_checked, &format!("{of}: {why}")));
                    }
                    row.cells.push(Some(cell(&reach, code.shown(), rounding)));
                }
                Err(faults) => {
                    without = Some(faults);
                    row.cells.push(None);
                }
            }
        }
        let any = row.cells.iter().any(Option::is_some);
        part.without.push(without.filter(|_| !any));
        part.rows.extend(any.then_some(row));
    }
    Ok(part)
}

/// Adds a text that is not there yet.
fn add(list: &mut Vec<String>, text: &str) {
    if !list.iter().any(|known| known == text) {
        list.push(text.to_owned());
    }
}

fn cell(reach: &Reach, shown: Shown, rounding: Rounding) -> SpanCell {
    let without = |printed: &str| SpanCell { span: None, printed: printed.to_owned(), governed_by: String::new() };
    let found = match reach {
        Reach::To(found) => found,
        Reach::NoBound => return without("no bound"),
        Reach::NonePasses => return without("none passes"),
        Reach::NotChecked(_) => return without("not checked"),
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
    SpanCell { span: Some(span), printed, governed_by: found.check.word().to_owned() }
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
    materials: Vec<Placed<MaterialAsked>>,
    sections: Vec<Placed<SectionAsked>>,
    spacings: Vec<Option<Placed<Length>>>,
}
