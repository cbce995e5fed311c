//! The checker's brief: what goes in, nothing of what came out, and room for somebody else's numbers.

use super::sheet::{identity, in_words};
use super::{Scene, given, sheet_label};
use crate::job::model::Member as Entry;
use crate::package::drawing::{self, Figure, Size};
use crate::package::markup::Markup;
use crate::package::words;
use crate::results::Member;
use serde::Serialize;

/// The first page of a brief.
#[derive(Debug, Serialize)]
pub(in crate::package) struct BriefCover {
    title: String,
    rows: Vec<[String; 2]>,
    sheets: Vec<[String; 3]>,
    many: bool,
    fingerprint: String,
    program: String,
    caution: &'static str,
}

/// More sheets than this, and their lines stand closer.
const MANY: usize = 24;

impl BriefCover {
    pub(in crate::package) fn of(scene: &Scene) -> Self {
        let (about, results) = (&scene.job.about, scene.results);
        let codes: Vec<String> = results.standards.iter().map(|s| s.short.clone()).collect();
        let method = if results.job.method.is_empty() { String::new() } else { format!("; method {}", results.job.method) };
        let rows = [
            ("Job number", given(about.number.as_ref())),
            ("Site", given(about.site.as_ref())),
            ("Firm", given(about.firm.as_ref())),
            ("Governing codes", format!("{}{method}", codes.join("; "))),
            ("Revision", format!("{}, {}", about.revision, about.date)),
            ("Prepared by", given(about.prepared_by.as_ref())),
        ];
        let sheets = scene.members().map(|(entry, member)| {
            let spacing = entry.spacing.as_ref().map(|s| format!(" at {}", scene.printing.spacing(s.value))).unwrap_or_default();
            let what = format!("{} {}{spacing}, {}", words::capital(&member.role), member.section.name, member.material.name);
            [member.mark.clone(), sheet_label(&member.mark), what]
        });
        Self {
            title: about.title.clone(),
            rows: rows.map(|(label, value)| [label.to_owned(), value]).to_vec(),
            sheets: sheets.collect(),
            many: results.members.len() > MANY,
            fingerprint: results.fingerprint.job.trim_start_matches("sha256:").to_owned(),
            program: format!("{} {}", results.program.name, results.program.version),
            caution: words::CAUTION,
        }
    }
}

/// A member's page of a brief.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Brief {
    mark: String,
    label: String,
    identity: String,
    aside: Vec<String>,
    figure: Figure,
    alt: String,
    above: Markup,
    text: String,
    supports: Vec<[String; 2]>,
    checks: Vec<String>,
    not_checked: Markup,
}

impl Brief {
    /// `job_text` is the job file: the member's part of it is printed as it stands.
    pub(in crate::package) fn of(scene: &Scene, entry: &Entry, member: &Member, job_text: &str) -> Self {
        let bare = bare(member);
        let mut checks: Vec<&str> = member.checks.iter().map(|c| c.check.as_str()).collect();
        checks.sort_by_key(|check| (words::rank(check), *check));
        checks.dedup();
        Self {
            mark: member.mark.clone(),
            label: sheet_label(&member.mark),
            identity: identity(scene, entry, member),
            aside: entry.place.iter().cloned().chain(entry.drawing.iter().map(|d| format!("Drawing {d}"))).collect(),
            figure: drawing::member(scene.results, entry, &bare, Size::Low, scene.room().0, &scene.lexicon),
            alt: in_words(scene, &bare),
            above: scene.lexicon.set(&above(member)),
            text: as_written(job_text, entry),
            supports: member.reactions.iter().map(|r| [r.support.to_string(), r.received_by.clone()]).collect(),
            checks: checks.into_iter().map(|check| words::capital(&words::check(check))).collect(),
            not_checked: scene.lexicon.set(&member.not_checked.join("; ")),
        }
    }
}

/// The member without anything that was computed: no diagrams, no reactions' forces, no loads that others hand down, no own weight.
fn bare(member: &Member) -> Member {
    let mut bare = member.clone();
    bare.diagrams.clear();
    bare.envelopes.clear();
    bare.loads.retain(|load| load.from_member.is_empty() && load.because != OWN_WEIGHT);
    for reaction in &mut bare.reactions {
        reaction.by_case.clear();
        reaction.handed_down.clear();
        reaction.handed_down_smallest.clear();
    }
    bare
}

/// How a member's own weight is named among its loads.
const OWN_WEIGHT: &str = "own weight";

/// What counts among the loads and is not drawn, for the checker to find first: reactions of members above, and the own weight.
fn above(member: &Member) -> String {
    let mut found: Vec<String> = Vec::new();
    let mut say = |what: String| {
        if !found.contains(&what) {
            found.push(what);
        }
    };
    for load in member.loads.iter().filter(|load| !load.from_member.is_empty()) {
        let support = load.from_support.map(|s| format!(" at its support {s}")).unwrap_or_default();
        say(format!("the reaction of {}{support}", load.from_member));
    }
    if member.loads.iter().any(|load| load.because == OWN_WEIGHT) {
        say(format!("the {}’s own weight", member.role));
    }
    if found.is_empty() { String::new() } else { format!("Not drawn, to be found first: {}.", words::list(&found)) }
}

/// The member's lines of the job file, without the indent that all of them have.
fn as_written(job_text: &str, entry: &Entry) -> String {
    let whole = job_text.get(entry.span.start..entry.span.end).unwrap_or_default();
    let before = &job_text[..entry.span.start.min(job_text.len())];
    let indent = before.rsplit('\n').next().map_or(0, |line| line.chars().count());
    let mut lines: Vec<&str> = whole
        .lines()
        .enumerate()
        .map(|(i, line)| {
            let blanks = line.chars().take_while(|c| *c == ' ').count();
            line[if i == 0 { 0 } else { blanks.min(indent) }..].trim_end()
        })
        .collect();
    // Remarks between this member and the next are of neither.
    while lines.last().is_some_and(|line| line.is_empty() || line.trim_start().starts_with('#')) {
        lines.pop();
    }
    lines.iter().flat_map(|line| hung(line)).collect::<Vec<_>>().join("\n")
}

/// Characters of the job file's type that a line of both kinds of paper holds.
const HELD: usize = 100;

/// A line that is too long in several, broken at blanks, the later ones further in than the first.
fn hung(line: &str) -> Vec<String> {
    let blanks = line.chars().take_while(|c| *c == ' ').count();
    let mut lines = vec![" ".repeat(blanks)];
    let mut used = blanks;
    for word in line.trim_start().split_inclusive(' ') {
        let long = word.trim_end().chars().count();
        if used + long > HELD && used > blanks {
            lines.push(" ".repeat(blanks + 4));
            used = blanks + 4;
        }
        if let Some(last) = lines.last_mut() {
            last.push_str(word);
        }
        used += word.chars().count();
    }
    lines.into_iter().map(|line| line.trim_end().to_owned()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_line_hangs_and_loses_nothing() {
        let long = format!("  - {{note: {}}}", "word ".repeat(40));
        let lines = hung(&long);
        assert!(lines.len() == 3 && lines.iter().all(|line| line.chars().count() <= HELD));
        assert!(lines[0].starts_with("  - ") && lines[1..].iter().all(|line| line.starts_with("      word")));
        let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        assert_eq!(words(&lines.join(" ")), words(&long));
        assert_eq!(hung("mark: J1"), ["mark: J1"]);
        assert_eq!(hung(""), [""]);
    }
}
