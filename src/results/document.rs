//! From what was found to the document.

use super::{
    BuildUp, Combination, FORMAT, Fingerprint, JobInShort, LetterMeaning, LoadCase, Program, Reference, Results, Standard, Value, Warning,
    member, open, register,
};
use crate::codes::{self, Code, Pattern, Purpose, Verdict, Walked};
use crate::cores;
use crate::job::model::{Case, Job};
use crate::text::Source;
use crate::units::{self, FT, Unit};
use sha2::{Digest, Sha256};

/// A number rounded to ten figures, so that last bits never show as a change.
pub fn rounded(value: f64) -> f64 {
    units::rounded(value, 10)
}

/// A number in N and mm in a unit.
pub(super) fn value(number: f64, unit: &Unit) -> Value {
    Value { value: rounded(unit.number(number)), unit: unit.name.to_owned() }
}

/// `sha256:…` of a text.
pub fn fingerprint(text: &[u8]) -> String {
    use std::fmt::Write as _;
    Sha256::digest(text).iter().fold("sha256:".to_owned(), |mut hex, byte| {
        let _ = write!(hex, "{byte:02x}");
        hex
    })
}

/// The document of a job that was walked through.
pub fn document(code: &dyn Code, job: &Job, source: &Source, walked: &[Walked]) -> Results {
    let acting = acting(job, walked);
    let register = register::Register::of(job, walked);
    let members: Vec<super::Member> = cores::each(walked, |w| member::of(code, job, w, walked, &register));
    let references = references(job, walked);
    let mut results = Results {
        format: FORMAT,
        program: Program::this(),
        job: JobInShort {
            title: job.about.title.clone(),
            number: job.about.number.clone().unwrap_or_default(),
            revision: job.about.revision.clone(),
            date: job.about.date.to_string(),
            code: job.basis.code.value.word().to_owned(),
            edition: job.basis.edition.value.clone(),
            method: job.basis.method.as_ref().map(|m| m.value.clone()).unwrap_or_default(),
            loading: job.basis.loading.value.clone(),
            units: if code.shown().span.name == FT.name { "inch-pound" } else { "metric" }.to_owned(),
        },
        fingerprint: Fingerprint { job: fingerprint(&source.bytes()) },
        verdict: Verdict::of_all(members.iter().map(|m| m.verdict)),
        build_ups: job.build_ups.iter().map(|b| BuildUp { name: b.name.clone(), sum: value(b.sum().value(), code.shown().area) }).collect(),
        combinations: combinations(code, job, &acting, walked),
        references,
        standards: code
            .cites(&job.basis)
            .into_iter()
            .map(|c| Standard {
                short: c.short.to_owned(),
                brief: c.brief.to_owned(),
                title: c.title.to_owned(),
                used_for: c.used_for.to_owned(),
                note: c.note.to_owned(),
            })
            .collect(),
        assumptions: register.entries().to_vec(),
        open: Vec::new(),
        warnings: warnings(job, source),
        conditions: code.conditions(&job.basis),
        value_names: code.value_names().map(str::to_owned),
        letters: (code.letters().iter())
            .map(|l| LetterMeaning { words: l.plain.to_owned(), typst: l.typst.to_owned(), meaning: l.meaning.to_owned() })
            .collect(),
        cases: cases(code, job, &acting, walked),
        members,
    };
    results.open = open::items(code, job, &results);
    results
}

/// Warnings about the job file, with their places in it.
fn warnings(job: &Job, source: &Source) -> Vec<Warning> {
    let one = |warning: &crate::job::Warning| {
        let (line, column) = source.line_column(warning.span.start);
        Warning {
            kind: warning.kind.to_owned(),
            key: warning.key.clone(),
            message: warning.text.clone(),
            line,
            column,
            members: warning.members.clone(),
            confirmed: warning.confirmed.is_some(),
            confirmed_by: warning.confirmed.as_ref().map(|(by, date)| format!("{by}, {date}")).unwrap_or_default(),
        }
    };
    job.warnings.iter().map(one).collect()
}

/// The combinations of the basis, then what members make of them that does not stand there, once each, with the members' marks.
fn combinations(code: &dyn Code, job: &Job, acting: &[Case], walked: &[Walked]) -> Vec<Combination> {
    let mut listed: Vec<Combination> = code.combinations_listed(&job.basis, acting).iter().map(|c| combination(job, c)).collect();
    let of_basis = listed.len();
    for one in walked {
        let mark = &job.members[one.member].mark.value;
        for taken in one.checked.combinations.iter().map(|c| combination(job, c)) {
            let same = |c: &Combination| c.name == taken.name && c.purpose == taken.purpose && c.factors == taken.factors;
            match listed.iter().position(same) {
                Some(at) if at < of_basis || listed[at].members.contains(mark) => {}
                Some(at) => listed[at].members.push(mark.clone()),
                None => listed.push(Combination { members: vec![mark.clone()], ..taken }),
            }
        }
    }
    listed
}

fn combination(job: &Job, combination: &codes::Combination) -> Combination {
    let names = combination.factors.iter().map(|(case, factor)| (job.basis.cases[case.0].name.clone(), *factor));
    Combination {
        name: combination.name.clone(),
        number: combination.number.clone(),
        purpose: match combination.purpose {
            Purpose::Strength => "strength",
            Purpose::Balance => "balance",
            Purpose::Deflection => "deflection",
        }
        .to_owned(),
        factors: names.collect(),
        duration: combination.class.clone(),
        duration_factor: combination.time_printed.clone(),
        reference: combination.reference.clone(),
        members: Vec::new(),
    }
}

/// Cells read, one entry a cell, in the order in which members first used them.
fn references(job: &Job, walked: &[Walked]) -> Vec<Reference> {
    let mut references: Vec<Reference> = Vec::new();
    for one in walked {
        let mark = &job.members[one.member].mark.value;
        for read in one.prepared.resolved().read.iter().chain(one.checked.found.iter().flat_map(|f| &f.read)) {
            let cell = &read.cell;
            match references.iter_mut().find(|r| r.table == cell.table && r.row == cell.row && r.column == cell.column) {
                Some(known) if !known.members.contains(mark) => known.members.push(mark.clone()),
                Some(_) => {}
                None => references.push(Reference {
                    table: cell.table.clone(),
                    cell: format!("{}: {}", cell.row, cell.column),
                    row: cell.row.clone(),
                    column: cell.column.clone(),
                    value: Value { value: rounded(read.value), unit: read.unit.to_owned() },
                    status: cell.status.word().to_owned(),
                    source: cell.said.clone(),
                    members: vec![mark.clone()],
                }),
            }
        }
    }
    // By member in job order, whichever of its checks read the cell first.
    let place = |mark: &String| job.members.iter().position(|m| m.mark.value == *mark);
    references.iter_mut().for_each(|r| r.members.sort_by_key(place));
    references
}

/// The cases that load a member or stand among the area loads.
fn acting(job: &Job, walked: &[Walked]) -> Vec<Case> {
    let loads = |case: Case| walked.iter().any(|w| w.arranged.present.contains(&case));
    let given = |case: Case| job.areas.iter().flat_map(|area| &area.loads).any(|load| load.case == case);
    (0..job.basis.cases.len()).map(Case).filter(|case| loads(*case) || given(*case)).collect()
}

/// The same with the code's letters.
fn cases(code: &dyn Code, job: &Job, acting: &[Case], walked: &[Walked]) -> Vec<LoadCase> {
    let acts = |case: Case| walked.iter().any(|w| w.arranged.present.contains(&case));
    (acting.iter().copied())
        .map(|case| {
            let own = &job.basis.cases[case.0];
            let like = own.nature.word();
            let category = own.use_category.as_ref().map_or_else(String::new, |category| format!(", category {}", category.value));
            let others: Vec<&str> = own.instead_of.iter().map(|other| code.letter(&job.basis, *other)).collect();
            let without = if others.is_empty() { String::new() } else { format!(", not with {}", others.join(" or ")) };
            LoadCase {
                name: own.name.clone(),
                letter: code.letter(&job.basis, case).to_owned(),
                meaning: if own.name == like {
                    format!("{} load", like.replace('-', " "))
                } else {
                    format!("load case {}, like {like}{category}{without}", own.name)
                },
                acts: acts(case),
                by_span: code.pattern(own.nature) == Pattern::Sets { rest: 0.0 },
            }
        })
        .collect()
}
