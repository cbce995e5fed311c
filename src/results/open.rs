//! What is open before a package can be sealed.

use super::{OpenItem, Results, ratio};
use crate::codes::Code;
use crate::job::model::Job;
use crate::units::figures;

/// Failures, members that are not checked, the missing checker, open assumptions, parts left to others, tables from memory, missing data of the site.
pub(super) fn items(code: &dyn Code, job: &Job, results: &Results) -> Vec<OpenItem> {
    let mut items = Vec::new();
    let mut say = |kind: &str, text: String, at: Vec<String>| items.push(OpenItem { kind: kind.to_owned(), text, at });
    for member in results.members.iter().filter(|m| m.verdict.fails()) {
        let g = &member.governing;
        say(
            "failure",
            format!("{} fails in {}, {} under {}.", member.mark, g.check.replace('_', " "), ratio(g.ratio), g.combination),
            vec![member.mark.clone()],
        );
    }
    for member in results.members.iter().filter(|m| !m.unmade.is_empty()) {
        let whole = if member.verdict.fails() { "fully " } else { "" };
        let text = format!("{} is not {whole}checked: {}.", member.mark, member.unmade.join("; "));
        say("not_checked", text, vec![member.mark.clone()]);
    }
    for warning in results.warnings.iter().filter(|warning| !warning.confirmed) {
        let at = if warning.members.is_empty() { vec!["basis".to_owned()] } else { warning.members.clone() };
        let confirm = if warning.kind == "nothing-to-confirm" { "" } else { " Verify and confirm." };
        say("warning", format!("Unusual input, line {} of the job file: {}{confirm}", warning.line, warning.message), at);
    }
    if job.about.checked_by.is_none() {
        say("checker", "No checker is named; nobody has checked the package.".to_owned(), vec!["cover".to_owned()]);
    } else if job.about.checked_by == job.about.prepared_by {
        say("checker", "The checker is the person who prepared the package.".to_owned(), vec!["cover".to_owned()]);
    }
    let open: Vec<&super::Assumption> = results.assumptions.iter().filter(|a| a.open).collect();
    if !open.is_empty() {
        let count = if open.len() == 1 { "One assumption waits".to_owned() } else { format!("{} assumptions wait", open.len()) };
        say("assumption", format!("{count} for confirmation."), open.iter().map(|a| a.id.clone()).collect());
    }
    if !job.about.deferred.is_empty() {
        let n = job.about.deferred.len();
        let count = if n == 1 { "One part is".to_owned() } else { format!("{n} parts are") };
        say("deferred", format!("{count} left to others."), job.about.deferred.iter().map(|d| d.id.clone()).collect());
    }
    let waiting: Vec<&str> = job.comments.iter().filter(|comment| comment.reply.is_none()).map(|comment| comment.number.as_str()).collect();
    match waiting.as_slice() {
        [] => {}
        [one] => say("comment", format!("Comment {one} has no reply."), vec!["comments".to_owned()]),
        many => say("comment", format!("Comments {} have no reply.", many.join(", ")), vec!["comments".to_owned()]),
    }
    for member in &results.members {
        for reaction in member.reactions.iter().filter(|r| r.receiver == "nobody") {
            let force = &reaction.largest.force;
            let what = if force.value == 0.0 { String::new() } else { format!("{} {} at ", figures(force.value, 4), force.unit) };
            let text = format!("What receives {what}support {} of {} is not given.", reaction.support, member.mark);
            say("support", text, vec![member.mark.clone()]);
        }
    }
    for (table, cells) in from_memory(results) {
        let confirmed = job.about.confirmed.iter().any(|c| is_same_table(&c.table.value, &table));
        if !confirmed {
            let count = if cells == 1 { String::new() } else { format!(" ({cells} values)") };
            say(
                "table",
                format!("{table}{count}: used here from memory; compare with the printed standard, then name who did under `confirmed`."),
                vec!["references".to_owned()],
            );
        }
    }
    let missing: Vec<&str> = missing_site(code, job);
    if !missing.is_empty() {
        say("site", format!("Data of the site not given: {}.", missing.join(", ").to_lowercase()), vec!["basis".to_owned()]);
    }
    let unsourced: Vec<&str> = job.basis.site.iter().filter(|s| s.source.is_none()).map(|s| s.item.as_str()).collect();
    if !unsourced.is_empty() {
        say("site", format!("Data of the site without a source: {}.", unsourced.join(", ")), vec!["basis".to_owned()]);
    }
    items
}

/// Items of the site's data that the code asks for and the job file does not give.
pub(super) fn missing_site(code: &dyn Code, job: &Job) -> Vec<&'static str> {
    let known = |words: &[&str]| {
        job.basis.site.iter().any(|given| {
            let item = given.item.to_lowercase();
            words.iter().any(|word| item.contains(word))
        })
    };
    code.site_items(job).into_iter().filter(|(_, words)| !known(words)).map(|(item, _)| item).collect()
}

/// Tables with values from memory, and how many of them were used.
fn from_memory(results: &Results) -> Vec<(String, usize)> {
    let mut tables: Vec<(String, usize)> = Vec::new();
    for reference in results.references.iter().filter(|r| r.status == "from memory") {
        match tables.iter_mut().find(|(t, _)| *t == reference.table) {
            Some((_, n)) => *n += 1,
            None => tables.push((reference.table.clone(), 1)),
        }
    }
    tables
}

/// Letters' case and blanks do not tell tables apart.
fn is_same_table(a: &str, b: &str) -> bool {
    let plain = |t: &str| t.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
    plain(a) == plain(b)
}
