//! The cover.

use super::{NOT_GIVEN, Scene, given, height, sheet_label};
use crate::job::model::Purpose;
use crate::job::profile::{Profile, YesNo};
use crate::package::markup::{Markup, inserted, literal};
use crate::package::{printing, words};
use crate::results::Member;
use serde::Serialize;

/// What the cover says.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Cover {
    title: String,
    subtitle: String,
    rows: Vec<Row>,
    warnings: Vec<String>,
    revisions: Vec<[String; 3]>,
    caution: &'static str,
    fingerprint: String,
    program: String,
    license: &'static str,
    /// What the place asks a preliminary issue to say.
    legend: String,
    seal: bool,
    /// Of the seal's box, in points: a long title or many revisions take some of it.
    seal_height: f64,
}

/// A label, its value, a note in the margin.
#[derive(Debug, Serialize)]
struct Row {
    label: &'static str,
    value: Markup,
    note: Markup,
}

impl Cover {
    pub(in crate::package) fn of(scene: &Scene) -> Self {
        let (about, results) = (&scene.job.about, scene.results);
        let place = Profile::of(&scene.job.basis.jurisdiction);
        let preliminary = about.issued_for == Purpose::Review;
        Self {
            title: about.title.clone(),
            subtitle: format!("Structural calculations: wood members under {}", loads(scene)),
            rows: rows(scene),
            warnings: warnings(scene),
            revisions: revisions(scene),
            caution: words::CAUTION,
            fingerprint: results.fingerprint.job.trim_start_matches("sha256:").to_owned(),
            program: format!("{} {}", results.program.name, results.program.version),
            license: "License number",
            legend: if preliminary {
                place.preliminary_legend.as_ref().map(|rule| rule.value.clone()).unwrap_or_default()
            } else {
                String::new()
            },
            seal_height: seal_height(scene),
            seal: !preliminary || place.preliminary_seal_space.as_ref().is_none_or(|rule| rule.value == YesNo::Yes),
        }
    }
}

/// The height of the seal's box: whole under a title of three lines and three revisions, never less than a seal needs.
fn seal_height(scene: &Scene) -> f64 {
    let title = height::lines(&scene.job.about.title, TITLE * height::SURELY_BOLD, scene.width());
    let revisions = scene.job.about.revisions.len() as f64;
    (190.0 - 29.0 * (title - 3.0).max(0.0) - 10.0 * (revisions - 3.0).max(0.0)).max(130.0)
}

/// Letters of the cover's title against those of small text.
const TITLE: f64 = 25.0 / 8.0;

/// The cases that act, in words.
fn loads(scene: &Scene) -> String {
    let results = scene.results;
    let mut cases: Vec<&str> = results.members.iter().flat_map(|m| m.loads.iter().map(|l| l.case.as_str())).collect();
    cases.sort_by_key(|case| words::case_rank(results, case));
    cases.dedup();
    let names: Vec<String> = cases.iter().map(|case| case.replace('-', " ")).collect();
    if names.is_empty() { "no load".to_owned() } else { format!("{} load", words::list(&names)) }
}

fn rows(scene: &Scene) -> Vec<Row> {
    let (about, results) = (&scene.job.about, scene.results);
    let plain = |label, value: String| Row { label, value: Markup::text(&value), note: Markup::ours(String::new()) };
    let noted = |label, value: Markup, note: &str| Row { label, value, note: Markup::ours(note.to_owned()) };
    let dated = |who: &Option<String>, when: String| who.as_ref().map_or_else(|| NOT_GIVEN.to_owned(), |name| format!("{name}{when}"));
    let mut codes: Vec<String> = results.standards.iter().map(|s| s.short.clone()).collect();
    if !results.job.method.is_empty() {
        codes.push(format!("method {}", results.job.method));
    }
    let checked = match &about.checked_by {
        Some(name) => Markup::text(&format!("{name}, {}", about.checked_on.map_or_else(|| "date not given".to_owned(), |d| d.to_string()))),
        None => Markup::ours(format!("{}*Not independently checked.*", inserted("not given. "))),
    };
    vec![
        plain("Job number", given(about.number.as_ref())),
        plain("Site", given(about.site.as_ref())),
        plain("Client", given(about.client.as_ref())),
        plain("Firm", given(about.firm.as_ref())),
        noted("Covers", Markup::text(&covers(scene)), "Contents, #page-of(\"contents\")"),
        noted(
            "Governing codes",
            Markup::text(&if codes.is_empty() { NOT_GIVEN.to_owned() } else { codes.join("; ") }),
            "Basis, #page-of(\"basis\")",
        ),
        plain("Issued for", about.issued_for.word().to_owned()),
        noted("Result", result(scene), "Summary, #page-of(\"summary\")"),
        plain("Revision", format!("{}, {}", about.revision, about.date)),
        plain("Supersedes", supersedes(scene)),
        plain("Prepared by", dated(&about.prepared_by, format!(", {}", about.date))),
        Row { label: "Checked by", value: checked, note: Markup::ours(String::new()) },
    ]
}

/// `3 members, marks J1 to H1: joists, beams, headers`.
fn covers(scene: &Scene) -> String {
    let members = &scene.results.members;
    let mut uses: Vec<(String, usize)> = Vec::new();
    for member in members {
        match uses.iter_mut().find(|(role, _)| *role == member.role) {
            Some((_, n)) => *n += 1,
            None => uses.push((member.role.clone(), 1)),
        }
    }
    let uses: Vec<String> =
        uses.into_iter().map(|(role, n)| if n == 1 { format!("a {role}") } else { format!("{} {role}s", words::count(n)) }).collect();
    match (members.first(), members.last()) {
        (Some(first), Some(last)) if members.len() > 1 => {
            format!("{} members, marks {} to {}: {}", members.len(), first.mark, last.mark, uses.join(", "))
        }
        (Some(only), _) => format!("one member, {}: {}", only.mark, uses.join(", ")),
        _ => "no member".to_owned(),
    }
}

fn result(scene: &Scene) -> Markup {
    let members = &scene.results.members;
    let failing: Vec<_> = members.iter().filter(|m| m.verdict.fails()).collect();
    let unchecked: Vec<_> = members.iter().filter(|m| m.verdict.is_not_checked()).collect();
    if failing.is_empty() && unchecked.is_empty() {
        let most = members.iter().max_by(|a, b| a.governing.ratio.total_cmp(&b.governing.ratio));
        let fullest = most.map(|m| {
            format!(
                " The highest ratio is that of {}, {} {}.",
                m.mark,
                words::check(&m.governing.check),
                printing::ratio(m.governing.ratio)
            )
        });
        return Markup::text(&format!(
            "{} checked, none fails.{}",
            words::capital(&words::counted(members.len(), "member")),
            fullest.unwrap_or_default()
        ));
    }
    let link = |m: &Member| format!("#to({}, {});", literal(&sheet_label(&m.mark)), literal(&m.mark));
    let failed = |m: &&Member| {
        let why = format!(" fails in {}, {}", words::check(&m.governing.check), printing::ratio(m.governing.ratio));
        format!("{}{}", link(m), inserted(&why))
    };
    let lists = [
        failing.iter().map(failed).collect::<Vec<_>>().join(&inserted("; ")),
        unchecked.iter().map(|m| link(m)).collect::<Vec<_>>().join(&inserted(", ")),
    ];
    let framed = scene.results.tally().into_iter().zip(lists.iter().filter(|list| !list.is_empty()));
    let framed: Vec<String> = framed.map(|(word, list)| format!("#fails(word: {})#h(5pt){list}", literal(&word))).collect();
    let rest = members.len() - failing.len() - unchecked.len();
    let rest = if rest == 0 {
        String::new()
    } else {
        inserted(&format!("; {} {}", words::counted(rest, "other"), if rest == 1 { "passes" } else { "pass" }))
    };
    Markup::ours(format!("{}{rest}{}", framed.join(&inserted("; ")), inserted(".")))
}

/// The revision table: rows of the former table that the job file no longer has first.
fn revisions(scene: &Scene) -> Vec<[String; 3]> {
    let about = &scene.job.about;
    let kept = scene.reissue.iter().flat_map(|reissue| &reissue.kept_revisions);
    let mut rows: Vec<[String; 3]> = kept.map(|row| [row.mark.clone(), row.date.clone(), row.note.clone()]).collect();
    rows.extend(about.revisions.iter().map(|row| [row.mark.clone(), row.date.to_string(), row.note.clone()]));
    if scene.reissue.is_some() && rows.iter().all(|row| row[0] != about.revision) {
        rows.push([about.revision.clone(), about.date.to_string(), NOT_GIVEN.to_owned()]);
    }
    rows
}

fn supersedes(scene: &Scene) -> String {
    let about = &scene.job.about;
    if let Some(reissue) = scene.reissue {
        let (number, former) = (about.number.clone().unwrap_or_default(), &reissue.former);
        let hash = former.job.trim_start_matches("sha256:").get(..12).unwrap_or_default();
        let said = format!("{number} revision {}, {}, as a whole (its job file: sha256 {hash}…)", former.revision, former.date);
        return said.trim_start().to_owned();
    }
    let at = about.revisions.iter().position(|r| r.mark == about.revision);
    match at.and_then(|i| i.checked_sub(1)).and_then(|i| about.revisions.get(i)) {
        Some(before) => format!("{} revision {}, {}, as a whole", about.number.clone().unwrap_or_default(), before.mark, before.date)
            .trim_start()
            .to_owned(),
        None => "nothing".to_owned(),
    }
}

fn warnings(scene: &Scene) -> Vec<String> {
    let (about, results) = (&scene.job.about, scene.results);
    let mut warnings = Vec::new();
    if let (Some(a), Some(b)) = (&about.prepared_by, &about.checked_by)
        && a.trim().eq_ignore_ascii_case(b.trim())
    {
        warnings.push("Prepared and checked by the same person: this is not an independent check.".to_owned());
    }
    if about.issued_for == Purpose::Permit && !results.open.is_empty() {
        let n = results.open.len();
        warnings.push(format!("Issued for permit with {} open; they stand on the summary.", words::counted(n, "item")));
    }
    warnings
}
