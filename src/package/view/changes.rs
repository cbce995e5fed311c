//! The change sheet of a reissue.

use super::{Scene, sheet_label};
use crate::package::markup::{Markup, inserted, literal};
use crate::package::{printing, words};
use crate::results::Verdict;
use crate::results::reissue::{Cause, ChangedMember, ChangedReaction, Governed, Input, Reissue, is_check};
use crate::units::decimals;
use serde::Serialize;

/// What the change sheet says.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Changes {
    former: String,
    now: String,
    sentence: Markup,
    fingerprints: [String; 2],
    /// The column of marks, in points.
    marks: f64,
    inputs: Vec<Row>,
    order: String,
    others: String,
    reasons: String,
    results: Vec<Outcome>,
    unchanged: Markup,
    walked: Vec<Walked>,
    walked_foot: String,
    kinds: Vec<String>,
    ratios: Vec<Ratios>,
    unit: String,
    reactions: Vec<Reacted>,
    sheets: Markup,
}

/// An input that changed.
#[derive(Debug, Serialize)]
struct Row {
    number: usize,
    of: Markup,
    item: String,
    former: String,
    now: String,
    why: String,
}

/// A member's governing ratio, then and now.
#[derive(Debug, Serialize)]
struct Outcome {
    mark: Markup,
    check: Markup,
    verdict: &'static str,
    former: String,
    now: String,
    /// `none` where no check was made.
    drawn: Markup,
    was: Markup,
    label: String,
}

/// The way of a ratio from then to now.
#[derive(Debug, Serialize)]
struct Walked {
    mark: Markup,
    former: String,
    parts: Vec<[String; 2]>,
    now: String,
    reached: Markup,
}

#[derive(Debug, Serialize)]
struct Ratios {
    mark: Markup,
    cells: Vec<String>,
}

#[derive(Debug, Serialize)]
struct Reacted {
    mark: Markup,
    support: String,
    case: Markup,
    former: String,
    now: String,
    received: Markup,
}

/// What stands where there was nothing, or is nothing any more.
const NOTHING: &str = "–";
/// Decimals of a ratio on this sheet.
const PLACES: usize = 3;
/// Longer values are cut: they stand in the job file.
const LONGEST: usize = 90;

impl Changes {
    /// None where this is a first issue.
    pub(super) fn of(scene: &Scene) -> Option<Self> {
        let reissue = scene.reissue?;
        let mut kinds: Vec<&str> = reissue.changed.iter().flat_map(|m| m.checks.iter().map(|c| c.check.as_str())).collect();
        kinds.sort_by_key(|kind| (words::rank(kind), *kind));
        kinds.dedup();
        let short = |hash: &str| {
            let hex = hash.trim_start_matches("sha256:");
            format!("{}…{}", hex.get(..4).unwrap_or_default(), hex.get(hex.len().saturating_sub(4)..).unwrap_or_default())
        };
        let reactions = reissue.changed.iter().flat_map(|m| &m.reactions);
        Some(Self {
            former: reissue.former.revision.clone(),
            now: reissue.now.revision.clone(),
            sentence: sentence(reissue),
            marks: scene.marks(),
            fingerprints: [short(&reissue.former.job), short(&reissue.now.job)],
            inputs: reissue.inputs.iter().enumerate().map(|(i, input)| row(scene, i + 1, input)).collect(),
            order: order(reissue),
            others: others(reissue),
            reasons: reissue.reasons.iter().map(|r| format!("{}: {} ({})", r.of, r.why, r.who)).collect::<Vec<_>>().join("; "),
            results: reissue.changed.iter().map(|m| outcome(scene, m)).collect(),
            unchanged: marks(&reissue.unchanged),
            walked: reissue.changed.iter().filter(|m| m.former.ratio != m.now.ratio).map(|m| walked(scene, reissue, m)).collect(),
            walked_foot: walked_foot(reissue),
            ratios: ratios(reissue, &kinds),
            kinds: kinds.iter().map(|kind| words::capital(&words::check(kind))).collect(),
            unit: reactions.flat_map(|r| r.now.iter().chain(&r.former)).next().map(|v| v.unit.clone()).unwrap_or_default(),
            reactions: reissue.changed.iter().flat_map(|m| reacted(scene, m)).collect(),
            sheets: sheets(reissue),
        })
    }
}

fn link(mark: &str) -> Markup {
    Markup::ours(format!("#to({}, strong({}));", literal(&sheet_label(mark)), literal(mark)))
}

fn marks(list: &[String]) -> Markup {
    Markup::ours(list.iter().map(|mark| format!("#to({}, {});", literal(&sheet_label(mark)), literal(mark))).collect::<Vec<_>>().join(", "))
}

/// What replaces what, how much changed, and which members fail now.
fn sentence(reissue: &Reissue) -> Markup {
    let (former, now) = (&reissue.former, &reissue.now);
    let dated = if former.date.is_empty() { String::new() } else { format!(" of {}", former.date) };
    let inputs = match reissue.inputs.len() {
        0 => "No input that a calculation hangs on changed".to_owned(),
        n => format!("{} changed", words::capital(&words::counted(n, "input"))),
    };
    let results = match (reissue.changed.len(), reissue.unchanged.len()) {
        (0, _) => ", and no result did.".to_owned(),
        (n, 0) => {
            format!(", and with {} the results of all {} members.", if reissue.inputs.len() == 1 { "it" } else { "them" }, words::count(n))
        }
        (n, rest) => format!(
            ", and with {} the results of {}; the other {} as before.",
            if reissue.inputs.len() == 1 { "it" } else { "them" },
            words::counted(n, "member"),
            if rest == 1 { "one is".to_owned() } else { format!("{} are", words::count(rest)) }
        ),
    };
    let text = format!("Revision {} replaces revision {}{dated}, as a whole. {inputs}{results}", now.revision, former.revision);
    let mut source = inserted(&text);
    for member in reissue.changed.iter().filter(|m| m.former.verdict != m.now.verdict) {
        let said = format!(" {} and now {}.", was(member.former.verdict), is_now(member.now.verdict));
        source.push_str(&format!(" {}{said}", link(&member.mark).source()));
    }
    Markup::ours(source)
}

const fn was(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Passes => "passed",
        Verdict::NotChecked => "was not checked",
        Verdict::Fails => "failed",
    }
}

const fn is_now(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Passes => "passes",
        Verdict::NotChecked => "#strong[is not checked]",
        Verdict::Fails => "#strong[fails]",
    }
}

fn row(scene: &Scene, number: usize, input: &Input) -> Row {
    let cut = |text: &Option<String>| match text {
        None => NOTHING.to_owned(),
        Some(text) if text.chars().count() > LONGEST => format!("{}…", text.chars().take(LONGEST).collect::<String>()),
        Some(text) => text.clone(),
    };
    let known = scene.results.member(&input.mark).is_some();
    Row {
        number,
        of: if known { link(&input.mark) } else { Markup::ours(format!("#strong({})", literal(&input.of))) },
        item: input.item.clone(),
        former: cut(&input.former),
        now: cut(&input.now),
        why: [&input.why, &input.who].into_iter().filter(|text| !text.is_empty()).cloned().collect::<Vec<_>>().join("; "),
    }
}

/// In which order the inputs were taken over, and which together.
fn order(reissue: &Reissue) -> String {
    let together: Vec<String> = reissue
        .steps
        .iter()
        .filter(|step| step.len() > 1)
        .map(|step| {
            let list: Vec<String> = step.iter().map(|i| (i + 1).to_string()).collect();
            format!("{} are valid only together and were taken as one", words::list(&list))
        })
        .collect();
    let together = if together.is_empty() { String::new() } else { format!(" {}.", together.join("; ")) };
    format!("In the order of the job file.{together}")
}

fn others(reissue: &Reissue) -> String {
    let said = |text: &Option<String>| text.clone().unwrap_or_else(|| "not given".to_owned());
    let list: Vec<String> = reissue
        .others
        .iter()
        .map(|input| {
            let item = if input.item.is_empty() { input.of.clone() } else { format!("{}, {}", input.of, input.item) };
            let text = format!("{item}: {} (was {})", said(&input.now), said(&input.former));
            if text.chars().count() > 2 * LONGEST { item } else { text }
        })
        .collect();
    list.join("; ")
}

fn outcome(scene: &Scene, member: &ChangedMember) -> Outcome {
    let (former, now) = (&member.former, &member.now);
    let check =
        |g: &Governed| if g.is_governed() { format!("{}, {}", words::check(&g.check), g.combination) } else { words::NO_CHECK.to_owned() };
    let both = if check(former) == check(now) { check(now) } else { format!("{}; was {}", check(now), check(former)) };
    let places = places([former.ratio, now.ratio]);
    Outcome {
        mark: link(&member.mark),
        check: scene.lexicon.set(&both),
        verdict: now.verdict.mark(),
        former: printed(former, places),
        now: printed(now, places),
        drawn: drawn(now),
        was: drawn(former),
        label: sheet_label(&member.mark),
    }
}

/// Three decimals, or as many more as a ratio needs that fails but would read as 1.
fn places(ratios: impl IntoIterator<Item = f64>) -> usize {
    let enough = |ratio: f64, n: usize| !printing::fails(ratio) || decimals(ratio, n).parse::<f64>().is_ok_and(|read| read > 1.0);
    ratios.into_iter().map(|ratio| (PLACES..=9).find(|n| enough(ratio, *n)).unwrap_or(PLACES)).max().unwrap_or(PLACES)
}

fn printed(governed: &Governed, places: usize) -> String {
    match governed.ratio {
        _ if !governed.is_governed() => NOTHING.to_owned(),
        ratio if ratio.is_finite() => decimals(ratio, places),
        _ => "no number".to_owned(),
    }
}

/// A ratio on its scale mark, as the style sheet takes it.
fn drawn(governed: &Governed) -> Markup {
    printing::on_scale(governed.is_governed().then_some(governed.ratio))
}

/// Each part is the difference of ratios as printed, so that the printed parts sum to the printed whole.
fn walked(scene: &Scene, reissue: &Reissue, member: &ChangedMember) -> Walked {
    let ratios = member.parts.iter().map(|part| part.ratio);
    let places = places(ratios.chain([member.former.ratio, member.now.ratio]));
    let scale = (0..places).fold(1.0, |scale, _| scale * 10.0);
    let whole = |ratio: f64| (ratio * scale).round();
    let (mut at, mut check) = (member.former.ratio, &member.former.check);
    let mut parts = Vec::new();
    for part in &member.parts {
        let difference = (whole(part.ratio) - whole(at)) / scale;
        let mut said = format!("{}{}", if difference < 0.0 { "−" } else { "+" }, decimals(difference.abs(), places));
        if part.check != *check {
            let governs = if is_check(&part.check) { format!("{} governs", words::check(&part.check)) } else { words::NO_CHECK.to_owned() };
            said.push_str(&format!(" ({governs})"));
        }
        parts.push([cause(reissue, part.cause), said]);
        (at, check) = (part.ratio, &part.check);
    }
    Walked {
        mark: link(&member.mark),
        former: printed(&member.former, places),
        parts,
        now: printed(&member.now, places),
        reached: reached(scene, member),
    }
}

fn cause(reissue: &Reissue, cause: Cause) -> String {
    match cause {
        Cause::Program => "program".to_owned(),
        Cause::Step(step) => {
            let numbers: Vec<String> = reissue.steps.get(step).into_iter().flatten().map(|i| (i + 1).to_string()).collect();
            numbers.join(" and ")
        }
    }
}

/// Where the change came from: the member's own keys, or the ways that led to it.
fn reached(scene: &Scene, member: &ChangedMember) -> Markup {
    if member.own {
        return Markup::text("its own input");
    }
    let ways: Vec<String> = member.chains.iter().map(|way| way.join(", ")).collect();
    scene.lexicon.set(&if ways.is_empty() { NOTHING.to_owned() } else { ways.join("; ") })
}

fn walked_foot(reissue: &Reissue) -> String {
    if !reissue.not_walked.is_empty() {
        return format!("The ratios were not walked from one issue to the other: {}.", reissue.not_walked);
    }
    let program = if reissue.changed.iter().any(|m| m.parts.iter().any(|p| p.cause == Cause::Program)) {
        format!(
            " Program: {} finds this from the former job file, where {} had found another ratio.",
            reissue.now.program, reissue.former.program
        )
    } else {
        String::new()
    };
    format!(
        "Each input was put in place of the former one, in the order above, and the members were computed again; the parts sum to the whole. In another order the parts may differ.{program}"
    )
}

fn ratios(reissue: &Reissue, kinds: &[&str]) -> Vec<Ratios> {
    let said = |ratio: Option<f64>| ratio.map_or_else(|| NOTHING.to_owned(), printing::ratio);
    reissue
        .changed
        .iter()
        .filter(|member| !member.checks.is_empty())
        .map(|member| Ratios {
            mark: link(&member.mark),
            cells: kinds
                .iter()
                .map(|kind| match member.checks.iter().find(|check| check.check == *kind) {
                    Some(check) => format!("{}\u{2002}{}", said(check.former), said(check.now)),
                    None => String::new(),
                })
                .collect(),
        })
        .collect()
}

/// A row a support, its cases side by side; supports that read alike share one.
fn reacted(scene: &Scene, member: &ChangedMember) -> Vec<Reacted> {
    let results = scene.results;
    let mut rows: Vec<Reacted> = Vec::new();
    let mut supports: Vec<usize> = member.reactions.iter().map(|r| r.support).collect();
    supports.dedup();
    for support in supports {
        let mut reactions: Vec<&ChangedReaction> = member.reactions.iter().filter(|r| r.support == support).collect();
        reactions.sort_by_key(|r| words::case_rank(results, &r.case));
        let forces = |value: fn(&ChangedReaction) -> Option<&crate::results::Value>| {
            let list: Vec<String> =
                reactions.iter().map(|r| value(r).map_or_else(|| NOTHING.to_owned(), |v| scene.printing.value(v))).collect();
            list.join("; ")
        };
        let cases: Vec<String> = reactions.iter().map(|r| words::case(results, &r.case).to_owned()).collect();
        let row = Reacted {
            mark: if rows.is_empty() { link(&member.mark) } else { Markup::text("") },
            support: support.to_string(),
            case: scene.lexicon.set(&cases.join("; ")),
            former: forces(|r| r.former.as_ref()),
            now: forces(|r| r.now.as_ref()),
            received: received(scene, reactions[0]),
        };
        match rows.last_mut() {
            Some(last) if last.former == row.former && last.now == row.now && last.case.source() == row.case.source() => {
                last.support = format!("{}, {}", last.support, row.support);
                if last.received.source() != row.received.source() {
                    last.received = Markup::ours(format!("{}{}{}", last.received.source(), inserted("; "), row.received.source()));
                }
            }
            _ => rows.push(row),
        }
    }
    rows
}

fn received(scene: &Scene, reaction: &ChangedReaction) -> Markup {
    match reaction.receiver.as_str() {
        "nobody" => Markup::ours("*not given*".to_owned()),
        _ => scene.lexicon.set(&reaction.received_by),
    }
}

/// Which sheets changed, by their ids, which stay from revision to revision.
fn sheets(reissue: &Reissue) -> Markup {
    let mut said = Vec::new();
    let changed: Vec<String> = reissue
        .changed
        .iter()
        .map(|m| m.mark.clone())
        .chain(reissue.unchanged.iter().filter(|mark| reissue.touches(mark)).cloned())
        .collect();
    let ids = |list: &[String]| {
        let ids = list.iter().map(|mark| format!("#to({label}, ids-of({label}))", label = literal(&sheet_label(mark))));
        ids.collect::<Vec<_>>().join(", ")
    };
    said.push(format!("Changed: {}.", if changed.is_empty() { "none".to_owned() } else { ids(&changed) }));
    said.push(format!("New: {}.", if reissue.added.is_empty() { "none".to_owned() } else { ids(&reissue.added) }));
    let gone = reissue.withdrawn.iter().map(|w| inserted(&format!("{} ({} {})", w.mark, w.role, w.section)));
    let gone = if reissue.withdrawn.is_empty() {
        "none".to_owned()
    } else {
        format!("{}; these ids are not used again", gone.collect::<Vec<_>>().join(", "))
    };
    said.push(format!("Withdrawn: {gone}."));
    Markup::ours(format!("{} Changed and new sheets carry the revision in a triangle in their margin.", said.join(" ")))
}
