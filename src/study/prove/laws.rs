//! Span tables that are law, recomputed cell by cell by the call that makes span tables.
//!
//! A cell is one member of a job file. Its span is the one at which the governing ratio is 1, rounded to the nearest inch as the law
//! rounds. A law's own sums were rounded before: a span within 0.02 in of a half inch goes either way.

use super::in_a_line;
use crate::codes;
use crate::results::proof::{Cell, Law, NotChecked};
use crate::results::rounded;
use crate::study::spans::{Line, Reach, feet_and_inches};
use crate::table::{Row, Table};
use crate::text::Source;
use crate::units::{FT, IN, decimals};

/// So near to a half inch either neighbour will do, inches.
const TIE: f64 = 0.02;

/// Recomputes the cells of a file.
pub(super) fn run(code: &str, file: &str, text: &str, laws: &mut Vec<Law>, not_checked: &mut Vec<NotChecked>) {
    let table = match Table::parse(file, text) {
        Ok(table) => table,
        Err(fault) => {
            not_checked.push(NotChecked { what: format!("{code}/{file}"), reason: fault.to_string() });
            return;
        }
    };
    let heading = table.heading();
    let (mut cells, mut unknown) = (Vec::new(), 0);
    for row in table.rows() {
        let Some(job) = job_of(code, &row) else {
            unknown += 1;
            continue;
        };
        match longest(&job) {
            Ok(found) => cells.push(cell(&row, found)),
            Err(reason) => not_checked.push(NotChecked { what: format!("{heading}: {}", words(&row)), reason }),
        }
    }
    if unknown > 0 {
        not_checked.push(NotChecked { what: heading.to_string(), reason: format!("{unknown} cells: the load model is not known") });
    }
    laws.push(Law {
        table: heading.to_string(),
        title: heading.title.clone(),
        code: code.to_owned(),
        source: heading.source.clone(),
        status: heading.status.clone(),
        notes: heading.notes.clone(),
        cells,
    });
}

/// The job file of a cell; none where its loads are not known.
fn job_of(code: &str, row: &Row<'_>) -> Option<String> {
    let text = |column: &str| row.text(column).unwrap_or_default();
    let (species, grade, case) = (text("species"), text("grade"), text("case"));
    let material = match (row.text("F_b"), row.text("F_v"), row.text("E")) {
        // What no check of a joist asks for that is held throughout and has no bearing lengths stands as 1 psi.
        (Some(bending), Some(shear), Some(modulus)) => format!(
            "{{custom: {species} {grade}, kind: sawn, size-factor: table, source: the law's own values, values: {{F_b: {bending} psi, F_v: {shear} psi, \
             F_c_perp: 1 psi, E: {modulus} psi, E_min: 1 psi}}}}"
        ),
        _ => format!("{{species: {species}, grade: {grade}}}"),
    };
    let loads = match row.text("line") {
        Some(line) => format!("[{{line: {line} plf, case: {case}}}]"),
        None => format!("[{{line: {} plf, case: dead}}, {{line: {} plf, case: {case}}}]", plf(row, "dead")?, plf(row, "live")?),
    };
    let spacing = row.text("spacing").map(|s| format!("spacing: {s} in, ")).unwrap_or_default();
    Some(format!(
        "job: {{title: A cell of a span table, date: 2026-01-05}}\nbasis: {{code: {code}}}\nmembers:\n  - {{mark: T, use: {}, section: {}, plies: {}, \
         material: {material}, {spacing}spans: [10 ft], braced: {{top: sheathed}}, self-weight: no, limits: {{live: {}, total: none}}, loads: {loads}}}\n",
        text("use"),
        text("section"),
        text("plies"),
        text("limit"),
    ))
}

/// A load on an area times the spacing, plf.
fn plf(row: &Row<'_>, column: &str) -> Option<f64> {
    let (load, spacing) = (row.number(column)?.value, row.number("spacing")?.value);
    Some(load * spacing / 12.0)
}

/// The longest span of the job's one member, inches, and the check that stops it.
fn longest(job: &str) -> Result<(f64, &'static str), String> {
    let source = Source::read("cell", job.as_bytes()).map_err(|refused| in_a_line(&[refused.1]))?;
    let crate::Ready { job, code, .. } = crate::read(&source).map_err(|faults| in_a_line(&faults))?;
    let member = job.members.first().ok_or("no member")?;
    let prepared = code.prepare(&job, member).map_err(|faults| in_a_line(&faults))?;
    let combinations = code.combinations(&job.basis);
    let found = Line::of(code as &dyn codes::Code, &job, &combinations, member).longest(prepared.as_ref());
    match found.map_err(|faults| in_a_line(&faults))? {
        Reach::To(found) => Ok((IN.number(found.length), found.check.word())),
        Reach::NoBound => Err("no check ever stops it".to_owned()),
        Reach::NonePasses => Err("it fails however short it is".to_owned()),
        Reach::NotChecked(why) => Err(why.join("; ")),
    }
}

fn cell(row: &Row<'_>, (found, check): (f64, &'static str)) -> Cell {
    let found = rounded(found);
    let number = |column: &str| row.number(column).map(|f| f.value);
    let (printed, most) = (number("span"), number("most"));
    let near = |printed: f64| {
        let nearest = (libm::round(found) - printed).abs() < 0.5;
        nearest || ((found - printed).abs() - 0.5).abs() < TIE
    };
    // What the law does not print beyond its longest span is at least that long, rounded.
    let agrees = match most {
        Some(most) => found >= most - 0.5,
        None => printed.is_some_and(near),
    };
    let told = |inches: f64| feet_and_inches(IN.factor * libm::round(inches));
    let mut because = row.text("note").unwrap_or_default().to_owned();
    let difference = printed.filter(|_| most.is_none()).map(|p| rounded(found - p));
    let beyond = difference.map(|d| d.abs() - 0.5).filter(|_| !agrees);
    let known = beyond.zip(number("beyond")).is_some_and(|(by, most)| by <= most + 0.005);
    if let Some(by) = beyond {
        let cause = if known { ", as the fit behind the table is known to" } else { "" };
        let remark = format!("misses the printed inch by {} in{cause}", decimals(by, 2));
        because = if because.is_empty() { remark } else { format!("{because}; {remark}") };
    }
    Cell {
        what: words(row),
        printed: match (printed, most) {
            (Some(printed), None) => told(printed),
            (_, Some(most)) => format!("{} or more", told(most)),
            (None, None) => String::new(),
        },
        computed: found,
        rounded: told(found),
        difference,
        unit: IN.name.to_owned(),
        governed_by: check.to_owned(),
        agrees,
        known,
        because,
    }
}

/// The row in words.
fn words(row: &Row<'_>) -> String {
    let text = |column: &str| row.text(column);
    let mut said = vec![format!("{} {}", text("species").unwrap_or_default(), text("grade").unwrap_or_default())];
    let plies = text("plies").filter(|p| *p != "1").map(|p| format!("{p}-")).unwrap_or_default();
    let spacing = text("spacing").map(|s| format!(" at {s} in")).unwrap_or_default();
    said.push(format!("{plies}{}{spacing}", text("section").unwrap_or_default()));
    if let (Some(live), Some(dead)) = (text("live"), text("dead")) {
        said.push(format!("{} {live} psf", text("case").unwrap_or("live").replace('-', " ")));
        said.push(format!("dead {dead} psf"));
    }
    if let (Some(supporting), Some(snow), Some(width)) = (text("supporting"), text("ground_snow"), row.number("building_width")) {
        said.push(format!("{supporting}, ground snow {snow} psf, {} ft wide", FT.number(FT.factor * width.value)));
    }
    said.extend(text("limit").filter(|l| *l != "none").map(str::to_owned));
    said.join(", ")
}
