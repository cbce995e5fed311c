//! A member's sheet.

use super::checks::{self, Check};
use super::{Scene, briefly, sheet_label};
use crate::job::model::Member as Entry;
use crate::package::drawing::{self, Figure, Size};
use crate::package::markup::{Lexicon, Markup, inserted};
use crate::package::printing::raised;
use crate::package::{printing, words};
use crate::results::{Account, Check as Found, Member};
use serde::Serialize;

/// What a sheet says.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Sheet {
    mark: String,
    label: String,
    identity: String,
    aside: Vec<String>,
    finding: Finding,
    figures: Vec<Figure>,
    alt: String,
    handed_down: Vec<HandedDown>,
    handed_unit: String,
    section: Markup,
    section_reference: Markup,
    account: Factors,
    checks: Vec<Check>,
    lines_all: usize,
    lines_long: usize,
    not_checked: Markup,
    reserve: String,
    assumed: Markup,
    notes: Vec<Markup>,
}

#[derive(Debug, Serialize)]
struct Finding {
    fails: bool,
    bold: String,
    /// The rest of the sentence, longest first.
    rests: Vec<Markup>,
    ratio: f64,
    printed: String,
}

#[derive(Debug, Serialize)]
struct HandedDown {
    support: String,
    dead: String,
    others: Markup,
    largest: [Markup; 2],
    smallest: [Markup; 2],
    received: Markup,
}

#[derive(Debug, Serialize)]
struct Factors {
    unit: String,
    columns: Vec<Column>,
    rows: Vec<Factor>,
    reference: Markup,
    remark: Markup,
    adjusted_reference: Markup,
}

#[derive(Debug, Serialize)]
struct Column {
    letter: Markup,
    reference: String,
    adjusted: String,
}

#[derive(Debug, Serialize)]
struct Factor {
    letter: Markup,
    name: String,
    values: Vec<String>,
    because: Markup,
    reference: Markup,
}

impl Sheet {
    pub(in crate::package) fn of(scene: &Scene, entry: &Entry, member: &Member) -> Self {
        let lexicon = &scene.lexicon;
        let figure = |size: &Size| drawing::member(scene.results, entry, member, *size, scene.columns().0, lexicon);
        let checks = checks::of(scene, member);
        let at_supports = drawing::shows_reactions(scene.results, member, scene.printing, scene.columns().0);
        let handed = if at_supports { Vec::new() } else { handed_down(scene, member) };
        Self {
            mark: member.mark.clone(),
            label: sheet_label(&member.mark),
            identity: identity(scene, entry, member),
            aside: entry.place.iter().cloned().chain(entry.drawing.iter().map(|d| format!("Drawing {d}"))).collect(),
            finding: finding(lexicon, member),
            figures: Size::ALL.iter().map(figure).collect(),
            alt: in_words(scene, member),
            handed_down: handed,
            handed_unit: member.reactions.first().map(|r| r.largest.force.unit.clone()).unwrap_or_default(),
            section: section(scene, member),
            section_reference: lexicon.set(&briefly(scene, &member.section.reference)),
            account: account(scene, &member.account),
            lines_all: checks.iter().map(Check::lines).sum(),
            lines_long: checks.iter().filter(|c| !c.takes_one_line()).map(Check::lines).sum(),
            checks,
            not_checked: lexicon.set(&member.not_checked.join("; ")),
            reserve: reserve(scene, member),
            assumed: assumed(lexicon, member),
            notes: member.notes.iter().map(|note| lexicon.set(note)).collect(),
        }
    }
}

/// `Header. Two 2x8 (3 × 7-1/4 in), Douglas Fir-Larch No.2`
fn identity(scene: &Scene, entry: &Entry, member: &Member) -> String {
    let spacing = entry.spacing.as_ref().map(|s| format!(" at {}", scene.printing.spacing(s.value))).unwrap_or_default();
    let size = if member.section.size.is_empty() { String::new() } else { format!(" ({})", member.section.size) };
    format!("{}{spacing}. {}{size}, {}", words::capital(&member.role), words::capital(&member.section.name), member.material.name)
}

fn finding(lexicon: &Lexicon, member: &Member) -> Finding {
    let g = &member.governing;
    let (name, ratio) = (words::check(&g.check), printing::ratio(g.ratio));
    let check = member.checks.iter().find(|c| c.governs);
    let Some(check) = check else {
        let rest = if member.loads.is_empty() { "No load acts on this member; nothing was checked." } else { "No check governs." };
        return Finding { fails: !member.passes, bold: String::new(), rests: vec![Markup::text(rest)], ratio: 0.0, printed: ratio };
    };
    let set = if check.load_set.is_empty() { String::new() } else { format!(" with {}", check.load_set) };
    let place = if check.place.is_empty() { String::new() } else { format!(", {}", check.place) };
    let head = format!("{place}, {}{set}", check.combination);
    let others = others(member, &g.check);
    let then = |n: usize| {
        let failing: Vec<String> =
            others.iter().filter(|(_, r)| printing::fails(*r)).map(|(name, r)| format!("{name} {}", printing::ratio(*r))).collect();
        let passing: Vec<String> = others
            .iter()
            .filter(|(_, r)| !printing::fails(*r))
            .map(|(name, r)| format!("{name} {}", printing::ratio(*r)))
            .take(n)
            .collect();
        let also = if failing.is_empty() { String::new() } else { format!("; also {}", words::list(&failing)) };
        if passing.is_empty() { format!("{head}{also}.") } else { format!("{head}{also}; then {}.", passing.join(", ")) }
    };
    let bold = if printing::fails(g.ratio) {
        format!("in {name}: {ratio}")
    } else {
        let verb = if name.contains(" and ") { "govern" } else { "governs" };
        format!("{} {verb}: {ratio}", words::capital(&name))
    };
    Finding {
        fails: !member.passes,
        bold,
        rests: [3, 2, 1].map(|n| lexicon.set(&then(n))).to_vec(),
        ratio: printing::drawn(g.ratio),
        printed: ratio,
    }
}

/// The other kinds of checks, each with its largest ratio, largest first.
fn others(member: &Member, governing: &str) -> Vec<(String, f64)> {
    let mut list: Vec<(String, f64)> = Vec::new();
    // Slenderness is a limit, not a strength: it is named where it fails.
    for check in member.checks.iter().filter(|c| c.check != governing && (c.check != "slenderness" || !c.passes)) {
        let name = words::check(&check.check);
        match list.iter_mut().find(|(known, _)| *known == name) {
            Some((_, ratio)) => *ratio = ratio.max(check.ratio),
            None => list.push((name, check.ratio)),
        }
    }
    list.sort_by(|a, b| b.1.total_cmp(&a.1));
    list
}

fn handed_down(scene: &Scene, member: &Member) -> Vec<HandedDown> {
    let row = |r: &crate::results::Reaction| {
        let (dead, others) = super::path::by_case(scene, r);
        HandedDown {
            support: r.support.to_string(),
            dead,
            others: scene.lexicon.set(&others),
            largest: [scene.lexicon.set(&r.largest.combination), Markup::text(&scene.printing.value(&r.largest.force))],
            smallest: [scene.lexicon.set(&r.smallest.combination), Markup::text(&scene.printing.value(&r.smallest.force))],
            received: super::path::received(scene, r),
        }
    };
    member.reactions.iter().map(row).collect()
}

/// `b 1.5 in, d 9.25 in, A 13.875 in², … Douglas Fir-Larch No.2.`
fn section(scene: &Scene, member: &Member) -> Markup {
    let section = &member.section;
    let sides = [("b", scene.printing.as_read(&section.width)), ("d", scene.printing.as_read(&section.depth))];
    let properties = section.properties.iter().map(|p| {
        let unit = if p.value.unit.is_empty() { String::new() } else { format!(" {}", raised(&p.value.unit)) };
        (p.symbol.as_str(), format!("{}{unit}", scene.printing.number(&p.printed)))
    });
    let missing = sides.iter().filter(|(s, _)| !section.properties.iter().any(|p| p.symbol == *s)).map(|(s, v)| (*s, v.clone()));
    let list = missing.chain(properties);
    let said: Vec<String> = list
        .map(|(symbol, value)| format!("#m(\"{}\", ${}$){}", symbol.replace('_', " "), subscripted(symbol), inserted(&format!(" {value}"))))
        .collect();
    let plies = if section.plies > 1 { format!(" All {} plies together.", words::count(section.plies as usize)) } else { String::new() };
    Markup::ours(format!("{}{}", said.join(&inserted(", ")), inserted(&format!(". {}.{plies}", member.material.name))))
}

/// A plain symbol as a formula: letters stand apart, or they would be read as one word.
fn subscripted(symbol: &str) -> String {
    let apart = |text: &str| text.chars().filter(char::is_ascii_alphanumeric).map(String::from).collect::<Vec<_>>().join(" ");
    match symbol.split_once('_') {
        Some((base, sub)) => format!("{}_({})", apart(base), apart(sub)),
        None => apart(symbol),
    }
}

fn account(scene: &Scene, account: &Account) -> Factors {
    let lexicon = &scene.lexicon;
    let letter = |words: &str, typst: &str| Markup::ours(format!("m({}, ${typst}$)", crate::package::markup::literal(words)));
    let dash = |value: &String| if value.is_empty() { "–".to_owned() } else { value.clone() };
    Factors {
        unit: account.unit.clone(),
        columns: (account.columns.iter())
            .map(|c| Column { letter: letter(&c.words, &c.typst), reference: dash(&c.reference), adjusted: dash(&c.adjusted) })
            .collect(),
        rows: (account.rows.iter())
            .map(|r| Factor {
                letter: letter(&r.words, &r.typst),
                name: r.name.clone(),
                values: r.values.iter().map(dash).collect(),
                because: lexicon.set(&r.because),
                reference: lexicon.set(&briefly(scene, &r.reference)),
            })
            .collect(),
        reference: lexicon.set(&briefly(scene, &account.reference)),
        remark: lexicon.set(&account.remark),
        adjusted_reference: lexicon.set(&account.adjusted_reference),
    }
}

fn reserve(scene: &Scene, member: &Member) -> String {
    let one = |r: &crate::results::Reserve| {
        let case = words::case(scene.results, &r.case);
        match r.factor {
            Some(factor) => format!("{case} {} times that given, then {}", printing::ratio(factor), words::check(&r.governed_by)),
            None => format!("{case} without bound"),
        }
    };
    member.reserve.iter().map(one).collect::<Vec<_>>().join("; ")
}

/// Topics with the numbers of their assumptions.
fn assumed(lexicon: &Lexicon, member: &Member) -> Markup {
    let list: Vec<String> = member.assumed.iter().map(|(topic, id)| format!("{topic} {id}")).collect();
    lexicon.set(&list.join("; "))
}

/// The figure in words: member, spans, loads with values; then the extremes of each curve.
fn in_words(scene: &Scene, member: &Member) -> String {
    let printing = scene.printing;
    let entry = scene.job.members.iter().find(|e| e.mark.value == member.mark);
    let spans: Vec<String> = entry.map(|e| e.spans.spans.iter().map(|s| printing.length(s.value)).collect()).unwrap_or_default();
    let loads: Vec<String> = (member.loads.iter())
        .map(|l| {
            let value = if l.start == l.end {
                printing.with_unit(&l.start)
            } else {
                format!("{} to {}", printing.value(&l.start), printing.with_unit(&l.end))
            };
            let place = if l.from == l.to {
                format!("at {}", printing.with_unit(&l.from))
            } else {
                format!("from {} to {}", printing.value(&l.from), printing.with_unit(&l.to))
            };
            format!("{} {value} {place}, {}", l.case.replace('-', " "), l.because)
        })
        .collect();
    let curves: Vec<String> = (member.diagrams.iter())
        .map(|d| {
            let set = if d.load_set.is_empty() { String::new() } else { format!(" with {}", d.load_set) };
            let list: Vec<String> =
                d.extremes.iter().map(|e| format!("{} at {}", printing.rounded(e.value, &d.unit), printing.with_unit(&e.at))).collect();
            format!("{} in {}, {}{set}: {}", words::capital(&d.quantity), d.unit, d.combination, list.join(", "))
        })
        .collect();
    let broken = if member.envelopes.is_empty() { "" } else { " Broken lines: the largest and smallest of all load sets." };
    format!("Member {} to scale; spans {}. Loads: {}. {}.{broken}", member.mark, words::list(&spans), loads.join("; "), curves.join(". "))
}

/// Whether a check is the worst of its kind.
pub(super) fn leads(check: &Found) -> bool {
    check.leading || check.governs
}
