//! `check`: a table for people, the results document for programs.

use super::arguments::{Check, Format};
use super::{FAILS, REFUSED, output};
use crate::results::{Member, Results, ratio};
use crate::text::nearest;
use anyhow::Result;

/// Checks a job and prints what was found.
pub(super) fn run(arguments: &Check) -> Result<u8> {
    let Some(source) = super::source(&arguments.job)? else { return Ok(REFUSED) };
    let checked = match super::checked(&source, arguments.all_combinations) {
        Ok(checked) => checked,
        Err(faults) => {
            super::show(&source, &faults);
            return Ok(REFUSED);
        }
    };
    let mut results = checked.results;
    for mark in &arguments.member {
        if results.member(mark).is_none() {
            let meant = nearest(mark, results.members.iter().map(|m| m.mark.as_str()));
            let hint = meant.map(|m| format!("; did you mean {m}?")).unwrap_or_default();
            anyhow::bail!("no member {mark} in {}{hint}", source.name());
        }
    }
    if !arguments.member.is_empty() {
        results.keep(&checked.job, &arguments.member);
    }
    match arguments.format {
        Format::Json => output::print(&serde_json::to_string_pretty(&results)?)?,
        Format::Table => output::print(&table(&results))?,
    };
    Ok(if results.verdict.passes() { 0 } else { FAILS })
}

/// A row a member, its verdict within a window of 80 columns; then what is open.
fn table(results: &Results) -> String {
    let header = ["Mark", "Use", "Section", "Ratio", "", "Governs", "Where", "Load combination", "Material"].map(str::to_owned);
    let rows: Vec<Vec<String>> = std::iter::once(header).chain(results.members.iter().map(row)).map(Vec::from).collect();
    let mut text = output::columns(&rows, &[3]);
    text.push_str(&format!("\n{}.\n", count(results)));
    if !results.open.is_empty() {
        text.push_str("\nOpen before a package of this job can be sealed:\n");
        for item in &results.open {
            text.push_str(&format!("  {} ({})\n", item.text.trim_end_matches('.'), item.at.join(", ")));
        }
    }
    text
}

/// `3 members, 1 FAILS, 1 NOT CHECKED`.
fn count(results: &Results) -> String {
    let count = match results.members.len() {
        1 => "1 member".to_owned(),
        n => format!("{n} members"),
    };
    match results.tally().as_slice() {
        [] => format!("{count}, no ratio above 1"),
        said => format!("{count}, {}", said.join(", ")),
    }
}

fn row(member: &Member) -> [String; 9] {
    let g = &member.governing;
    let place = match (g.span, g.support) {
        (Some(span), None) => place_of(member, span),
        (_, Some(support)) => format!("support {support}"),
        _ => String::new(),
    };
    [
        member.mark.clone(),
        member.role.clone(),
        member.section.name.clone(),
        if member.is_governed() { ratio(g.ratio) } else { "–".to_owned() },
        member.verdict.mark().to_owned(),
        g.check.replace('_', " "),
        place,
        g.combination.clone(),
        member.material.name.clone(),
    ]
}

/// A span, or an overhang by its side.
fn place_of(member: &Member, span: usize) -> String {
    if matches!(member.role.as_str(), "stud" | "post" | "tie") {
        return "whole length".to_owned();
    }
    match span {
        0 => "left overhang".to_owned(),
        n if n >= member.reactions.len() => "right overhang".to_owned(),
        n => format!("span {n}"),
    }
}
