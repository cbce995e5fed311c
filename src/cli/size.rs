//! `size`: the lightest sections that pass, or the cheapest, written into a copy of the job file.

use super::arguments::{Size, Varied};
use super::output::{self, Guard};
use super::{FAILS, REFUSED};
use crate::codes::{Kind, Verdict};
use crate::results::ratio;
use crate::study::size::{self, Sized, Tried, Vary, Wanted};
use crate::text::{Source, nearest};
use crate::units::decimals;
use anyhow::{Context, Result};

/// Sizes a job and prints what was chosen.
pub(super) fn run(arguments: &Size) -> Result<u8> {
    let Some(source) = super::source(&arguments.job)? else { return Ok(REFUSED) };
    let ready = match crate::read(&source) {
        Ok(ready) => ready,
        Err(faults) => {
            super::show(&source, &faults);
            return Ok(REFUSED);
        }
    };
    let job = &ready.job;
    super::warn(&source, job);
    for mark in &arguments.member {
        if !job.members.iter().any(|m| m.mark.value == *mark) {
            let meant = nearest(mark, job.members.iter().map(|m| m.mark.value.as_str()));
            let hint = meant.map(|m| format!("; did you mean {m}?")).unwrap_or_default();
            anyhow::bail!("no member {mark} in {}{hint}", source.name());
        }
    }
    let faults = size::unknown_prices(ready.code, job);
    if !faults.is_empty() {
        super::show(&source, &faults);
        return Ok(REFUSED);
    }
    let vary = Vary { grade: arguments.vary.contains(&Varied::Grade), plies: arguments.vary.contains(&Varied::Plies) };
    let wanted = Wanted { marks: arguments.member.clone(), vary, among: arguments.section.clone() };
    let sized = match size::size(ready.code, job, &ready.prepared, &wanted) {
        Ok(sized) => sized,
        Err(bugs) => {
            super::show(&source, &bugs);
            return Ok(REFUSED);
        }
    };
    let priced = job.prices.is_some();
    let mut text = table(job, &sized, priced);
    let changed = size::written(&source, job, &sized);
    let mut fails = sized.iter().any(|one| one.chosen.is_none());
    if let Some(path) = &arguments.output {
        let text = changed.as_deref().unwrap_or(source.text());
        let guard = Guard { replace: arguments.replace.into(), read: &[&arguments.job] };
        output::write(path, text.as_bytes(), guard)?;
    }
    text.push_str(&told(&sized, priced));
    // The file as written is what counts: it is read and checked again.
    let again = Source::read(source.name(), changed.as_deref().unwrap_or(source.text()).as_bytes());
    let again = again
        .ok()
        .and_then(|source| crate::check(&source, false).ok())
        .context("the sized job cannot be read again; please report this")?;
    let of = |verdict: Verdict| -> Vec<&str> {
        again.results.members.iter().filter(|m| m.verdict == verdict).map(|m| m.mark.as_str()).collect()
    };
    for (marks, are) in [(of(Verdict::Fails), "still FAIL"), (of(Verdict::NotChecked), "are NOT CHECKED")] {
        if !marks.is_empty() {
            fails = true;
            text.push_str(&format!("With these sections {} of the job {are}: {}.\n", marks.len(), marks.join(", ")));
        }
    }
    match &arguments.output {
        Some(path) => text.push_str(&format!("{} written; nothing but section, plies and grade was changed in it.\n", path.display())),
        None if changed.is_some() => text.push_str("Nothing was written; name a file with --output.\n"),
        None => {}
    }
    output::print(&text)?;
    Ok(if fails { FAILS } else { 0 })
}

/// A row a member.
fn table(job: &crate::job::model::Job, sized: &[Sized], priced: bool) -> String {
    let mut header = vec!["Mark", "In the file", "Ratio", "Chosen", "Ratio", "Governs", "Next one down, fails in"];
    if priced {
        header.push("Price");
    }
    let mut rows: Vec<Vec<String>> = vec![header.into_iter().map(str::to_owned).collect()];
    for one in sized {
        let mark = job.members[one.member].mark.value.clone();
        let mut row = vec![mark, named(&one.was), ratio(one.was.ratio.value())];
        match &one.chosen {
            Some(chosen) => row.extend([named(chosen), ratio(chosen.ratio.value()), check(chosen)]),
            None if one.not_checked => row.extend(["NOT CHECKED".to_owned(), String::new(), String::new()]),
            None if one.tried == 0 => row.extend(["nothing to choose from".to_owned(), String::new(), String::new()]),
            None => row.extend(["none passes".to_owned(), String::new(), String::new()]),
        }
        row.push(one.next_down.as_ref().map_or_else(
            || "nothing lighter".to_owned(),
            |next| format!("{}: {} {}", named(next), check(next), ratio(next.ratio.value())),
        ));
        if priced {
            row.push(one.chosen.as_ref().and_then(|c| c.choice.price).map(|p| decimals(p, 2)).unwrap_or_default());
        }
        rows.push(row);
    }
    output::columns(&rows, &[2, 4])
}

fn named(tried: &Tried) -> String {
    format!("{} {}", tried.section, tried.material)
}

/// The check that governs, in words.
fn check(tried: &Tried) -> String {
    tried.check.map_or("none", Kind::word).replace('_', " ")
}

/// How many, and by what.
fn told(sized: &[Sized], priced: bool) -> String {
    let tried: usize = sized.iter().map(|one| one.tried).sum();
    let by = if priced { "the cheapest of the price list" } else { "the lightest (least wood)" };
    let count = if sized.len() == 1 { "1 member".to_owned() } else { format!("{} members", sized.len()) };
    if tried == 0 {
        return format!("\n{count}: the catalogue has no such sections for them; list sizes under `prices` to choose from.\n");
    }
    format!("\n{count} sized down the load path, {by} that passes; {tried} choices tried, every lighter one fails.\n")
}
