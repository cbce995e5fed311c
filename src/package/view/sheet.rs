//! A member's sheet.

use super::checks::{self, Check};
use super::formula;
use super::height::{self, BOLD, Lines, PITCH, SMALL_PITCH, TEXT};
use super::lessened::{self, Lessened};
use super::plan::{Form, Heights, Part, Pieces, Turn};
use super::{Scene, briefly, sheet_label};
use crate::job::model::Member as Entry;
use crate::package::drawing::{self, Figure, MARGIN_WIDTH, Size, width_of};
use crate::package::markup::{Lexicon, Markup, inserted, letter_as_seen};
use crate::package::printing::raised;
use crate::package::{printing, words};
use crate::results::{Account, Check as Found, Member, Utilization};
use serde::Serialize;
use std::collections::BTreeMap;

/// What a sheet says, however it is set.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Draft {
    mark: String,
    label: String,
    identity: String,
    aside: Vec<String>,
    finding: Finding,
    #[serde(skip)]
    figures: [Figure; 3],
    alt: String,
    handed_down: Vec<HandedDown>,
    handed_columns: [f64; 2],
    dead_letter: String,
    handed_unit: String,
    section: Markup,
    section_reference: Markup,
    account: Factors,
    lessened: Vec<Lessened>,
    checks: Vec<Check>,
    not_checked: Markup,
    reserve: Markup,
    assumed: Markup,
    notes: Vec<Markup>,
    /// The notes are too tall to stay on one page.
    breaks: bool,
    #[serde(skip)]
    text: f64,
    #[serde(skip)]
    page: f64,
}

/// A sheet in the form in which it is set.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Sheet<'a> {
    #[serde(flatten)]
    draft: &'a Draft,
    form: Form,
    /// The check before which a page is turned.
    turns_before: Option<usize>,
    figure: &'a Figure,
    /// How the finding ends.
    rest: &'a Markup,
}

#[derive(Debug, Serialize)]
struct Finding {
    /// `FAILS`, `NOT CHECKED`; empty where the member passes.
    verdict: &'static str,
    bold: String,
    /// The rest of the sentence, longest first.
    #[serde(skip)]
    rests: Vec<Markup>,
    /// `none` where no check was made.
    ratio: Markup,
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
    lines: Lines,
}

#[derive(Debug, Serialize)]
struct Factors {
    unit: String,
    /// What the first and the last row are called.
    names: [String; 2],
    columns: Vec<Column>,
    rows: Vec<Factor>,
    reference: Markup,
    remark: Markup,
    adjusted_reference: Markup,
    /// Lines of the reference values' row and of the adjusted values' row.
    ends: [Lines; 2],
}

#[derive(Debug, Serialize)]
struct Column {
    letter: Markup,
    reference: String,
    adjusted: String,
    /// In points, with room for the longest of its values.
    width: f64,
}

#[derive(Debug, Serialize)]
struct Factor {
    letter: Markup,
    name: String,
    values: Vec<String>,
    because: Markup,
    reference: Markup,
    lines: Lines,
}

impl Draft {
    pub(in crate::package) fn of(scene: &Scene, entry: &Entry, member: &Member) -> Self {
        let lexicon = &scene.lexicon;
        let (text, page) = scene.room();
        let at_supports = drawing::shows_reactions(scene.results, member, scene.printing, text);
        let mut handed_down = if at_supports { Vec::new() } else { handed_down(scene, member) };
        let handed_columns = combination_columns(&handed_down);
        handed_down.iter_mut().for_each(|row| row.count(text, handed_columns));
        let mut draft = Self {
            mark: member.mark.clone(),
            label: sheet_label(&member.mark),
            identity: identity(scene, entry, member),
            aside: entry.place.iter().cloned().chain(entry.drawing.iter().map(|d| format!("Drawing {d}"))).collect(),
            finding: finding(lexicon, member),
            figures: Size::ALL.map(|size| drawing::member(scene.results, entry, member, size, text, lexicon)),
            alt: in_words(scene, member),
            handed_columns,
            handed_down,
            dead_letter: words::case(scene.results, "dead").to_owned(),
            handed_unit: member.reactions.first().map(|r| r.largest.force.unit.clone()).unwrap_or_default(),
            section: section(scene, member),
            section_reference: lexicon.set(&briefly(scene, &member.section.reference)),
            account: account(scene, &member.account, text),
            lessened: lessened::of(scene, member),
            checks: checks::of(scene, member),
            not_checked: lexicon.set(&not_checked(member).join("; ")),
            reserve: super::reserve::line(scene, member),
            assumed: assumed(lexicon, member),
            notes: member.notes.iter().map(|note| lexicon.set(note)).collect(),
            breaks: false,
            text,
            page,
        };
        draft.breaks = draft.tail() > page / 2.0;
        draft
    }

    /// The sheet in a form.
    pub(in crate::package) fn set(&self, form: Form) -> Sheet<'_> {
        let turns_before = if let Turn::Check(i) = form.turn { Some(i) } else { None };
        Sheet { draft: self, form, turns_before, figure: &self.figures[form.size as usize], rest: self.rest(form) }
    }

    /// Of the finding's endings the longest that leaves it on one line; none does: the longest, or the shortest where room is wanted.
    fn rest(&self, form: Form) -> &Markup {
        let rests = &self.finding.rests;
        let room = self.text - 8.0 - framed_width(self.finding.verdict) - 1.06 * TEXT * width_of(&self.finding.bold);
        let fits = |rest: &&Markup| TEXT * width_of(rest.plain()) < room;
        let last = if form.size == Size::Low { rests.len() - 1 } else { 0 };
        rests.iter().find(fits).unwrap_or(&rests[last])
    }

    /// How much room its parts will take, nearly.
    pub(in crate::package) fn heights(&self) -> Heights {
        let verdict = framed(self.finding.verdict);
        let line = |form| {
            let said = [(verdict.as_str(), BOLD), (self.finding.bold.as_str(), BOLD), (self.rest(form).plain(), TEXT)];
            height::lines_of(&said, self.text) * PITCH
        };
        let identity = height::lines_of(&[(&self.mark, TITLE), (&self.identity, TEXT)], self.text - 9.0);
        let aside: f64 = self.aside.iter().map(|line| height::lines(line, 1.0, MARGIN_WIDTH)).sum();
        let title = 10.8 + (11.5 + PITCH * (identity - 1.0)).max(5.4 + SMALL_PITCH * (aside - 1.0));
        // A heading after it keeps further off.
        let below = if self.handed_down.is_empty() { 9.0 } else { 11.0 };
        let front = |size: Size| {
            let form = Form { size, ..Form::USUAL };
            title + line(form) + 8.0 + self.figures[size as usize].height() + below
        };
        let checks = |check: &Check| {
            let whole = check.pieces(self.text);
            [whole.clone(), check.in_short(self.text).map_or(whole, |height| Pieces(vec![(height, 0)]))]
        };
        let handed_down = self.handed_down.iter().map(HandedDown::height).sum::<f64>();
        let account = self.account.height()
            + PITCH * (height::lines(self.section.plain(), TEXT, self.text) - 1.0)
            + self.lessened.iter().map(Lessened::height).sum::<f64>()
            + if self.handed_down.is_empty() { 0.0 } else { 29.0 + handed_down };
        Heights {
            front: Size::ALL.map(front),
            account: (account, self.lessened.iter().map(Lessened::steps).sum()),
            checks: self.checks.iter().map(checks).collect(),
            tail: self.tail(),
            page: self.page,
            found: BTreeMap::new(),
            taken: BTreeMap::new(),
        }
    }

    /// How tall its notes will be.
    fn tail(&self) -> f64 {
        let notes = self.notes.iter().map(|n| height::lines(n.plain(), TEXT, self.text) * PITCH + 2.0).sum::<f64>();
        let (not_checked, reserve) = (format!("{}.", self.not_checked.plain()), format!("{}.", self.reserve.plain()));
        let left = [("Not checked:", BOLD), (not_checked.as_str(), TEXT), ("Reserve:", BOLD), (reserve.as_str(), TEXT)];
        let assumed = [("Assumed:", BOLD / TEXT), (self.assumed.plain(), 1.0)];
        height::lines_of(&left, self.text) * PITCH + notes + height::lines_of(&assumed, self.text) * SMALL_PITCH + 7.3
    }

    /// Where its parts stand, by label; the end is the last.
    pub(in crate::package) fn places(&self) -> Vec<(Part, String)> {
        let label = |what: &str| format!("{}/{what}", self.label);
        let checks = (0..self.checks.len()).map(|i| (Part::Check(i), label(&i.to_string())));
        let account = [(Part::Front, self.label.clone()), (Part::Account, label("account"))];
        account.into_iter().chain(checks).chain([(Part::Tail, label("tail"))]).collect()
    }

    /// The label of its head.
    pub(in crate::package) fn head(&self) -> &str {
        &self.label
    }

    /// The label of its end.
    pub(in crate::package) fn end(&self) -> String {
        format!("{}/end", self.label)
    }
}

/// What is as wide as the word of a failure in its frame.
pub(super) const FAILS: &str = "FAILS mm";
/// The bold mark of a title of 17 points against small text of 8.
const TITLE: f64 = 1.08 * 17.0 / 8.0;
/// Columns of the table of reactions beside those of the other cases and of combinations, with the gaps between them.
const BESIDE_CASES: f64 = 174.0;
/// The widest column of combinations; a longer name takes two lines.
const COMBINATION: f64 = 66.0;

/// The columns of the largest and of the smallest combination, as wide as they need, in points.
fn combination_columns(rows: &[HandedDown]) -> [f64; 2] {
    let widest = |of: fn(&HandedDown) -> &Markup| height::column(rows.iter().map(|row| of(row).plain())).clamp(28.0, COMBINATION);
    [widest(|row| &row.largest[0]), widest(|row| &row.smallest[0])]
}

impl HandedDown {
    /// Counts the lines of its row, with these columns of combinations in a column of text so wide.
    fn count(&mut self, text: f64, columns: [f64; 2]) {
        let combinations = [&self.largest[0], &self.smallest[0]].into_iter().zip(columns);
        let cells = combinations.chain([(&self.others, text - BESIDE_CASES - columns[0] - columns[1]), (&self.received, MARGIN_WIDTH)]);
        self.lines = height::row(cells.map(|(cell, room)| (cell.plain(), room)));
    }

    fn height(&self) -> f64 {
        9.8 + self.lines.further()
    }
}

impl Factors {
    /// How tall the account will be, with the line of the section over it.
    fn height(&self) -> f64 {
        if self.columns.is_empty() {
            return 2.0 * PITCH;
        }
        38.2 + self.rows.iter().map(|f| f.lines).chain(self.ends).map(|lines| SMALL_PITCH + lines.further()).sum::<f64>()
    }
}

/// `Header. Two 2x8 (3 × 7-1/4 in), Douglas Fir-Larch No.2`
pub(super) fn identity(scene: &Scene, entry: &Entry, member: &Member) -> String {
    let spacing = entry.spacing.as_ref().map(|s| format!(" at {}", scene.printing.spacing(s.value))).unwrap_or_default();
    let size = if member.section.size.is_empty() { String::new() } else { format!(" ({})", member.section.size) };
    format!("{}{spacing}. {}{size}, {}", words::capital(&member.role), words::capital(&member.section.name), member.material.name)
}

/// A verdict in its frame, as wide as the frame is; empty where there is none.
fn framed(verdict: &str) -> String {
    if verdict.is_empty() { String::new() } else { format!("{verdict} mm") }
}

/// The width of a verdict in its frame, in points.
fn framed_width(verdict: &str) -> f64 {
    if verdict.is_empty() { 0.0 } else { 40.0 + 1.06 * TEXT * (width_of(verdict) - width_of("FAILS")) }
}

fn finding(lexicon: &Lexicon, member: &Member) -> Finding {
    let g = &member.governing;
    let (name, ratio) = (words::check(&g.check), printing::ratio(g.ratio));
    let check = member.checks.iter().find(|c| c.governs);
    let unmade = format!("{}.", words::capital(&member.unmade.join("; ")));
    let Some(check) = check else {
        let (verdict, printed) = (member.verdict.mark(), printing::governing(member));
        return Finding { verdict, bold: unmade, rests: vec![Markup::text("")], ratio: printing::drawn_governing(member), printed };
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
        let governs = format!("{} {verb}: {ratio}", words::capital(&name));
        if member.verdict.passes() { governs } else { format!("{unmade} Of the checks made: {name} {verb}: {ratio}") }
    };
    Finding {
        verdict: member.verdict.mark(),
        bold,
        rests: [3, 2, 1].map(|n| lexicon.set(&then(n))).to_vec(),
        ratio: printing::drawn_governing(member),
        printed: ratio,
    }
}

/// The other kinds of checks, each with its largest ratio, largest first.
fn others(member: &Member, governing: &str) -> Vec<(String, f64)> {
    let mut list: Vec<(String, Utilization)> = Vec::new();
    // Slenderness is a limit, not a strength: it is named where it fails.
    for check in member.checks.iter().filter(|c| c.check != governing && (c.check != "slenderness" || !c.passes)) {
        let (name, ratio) = (words::check(&check.check), Utilization::new(check.ratio));
        match list.iter_mut().find(|(known, _)| *known == name) {
            Some((_, known)) => *known = ratio.max(*known),
            None => list.push((name, ratio)),
        }
    }
    list.sort_by_key(|(_, ratio)| std::cmp::Reverse(*ratio));
    list.into_iter().map(|(name, ratio)| (name, ratio.value())).collect()
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
            lines: Lines::ONE,
        }
    };
    member.reactions.iter().map(row).collect()
}

/// `b 1.5 in, d 9.25 in, A 13.875 in², … Douglas Fir-Larch No.2.`
fn section(scene: &Scene, member: &Member) -> Markup {
    let section = &member.section;
    // A code that has another letter for the depth names it among the properties.
    let depth = if section.properties.iter().any(|p| p.symbol == "h") { "h" } else { "d" };
    let sides = [("b", scene.printing.as_read(&section.width)), (depth, scene.printing.as_read(&section.depth))];
    let properties = section.properties.iter().map(|p| {
        let unit = if p.value.unit.is_empty() { String::new() } else { format!(" {}", raised(&p.value.unit)) };
        (p.symbol.as_str(), format!("{}{unit}", scene.printing.number(&p.printed)))
    });
    let missing = sides.iter().filter(|(s, _)| !section.properties.iter().any(|p| p.symbol == *s)).map(|(s, v)| (*s, v.clone()));
    let list = missing.chain(properties);
    let said: Vec<Markup> = list
        .map(|(symbol, value)| {
            let letter = format!("#m(\"{}\", ${}$)", symbol.replace('_', " "), subscripted(symbol));
            Markup::ours(format!("{letter}{}", inserted(&format!(" {value}")))).read_as(format!("{} {value}", letter_as_seen(symbol)))
        })
        .collect();
    let plies = if section.plies > 1 { format!(" All {} plies together.", words::count(section.plies as usize)) } else { String::new() };
    let ending = Markup::text(&format!(". {}.{plies}", member.material.name));
    Markup::joined(&[Markup::joined(&said, ", "), ending], "")
}

/// A plain symbol as a formula: letters stand apart, or they would be read as one word.
fn subscripted(symbol: &str) -> String {
    let apart = |text: &str| text.chars().filter(char::is_ascii_alphanumeric).map(String::from).collect::<Vec<_>>().join(" ");
    match symbol.split_once('_') {
        Some((base, sub)) => format!("{}_({})", apart(base), apart(sub)),
        None => apart(symbol),
    }
}

fn account(scene: &Scene, account: &Account, text: f64) -> Factors {
    let lexicon = &scene.lexicon;
    let letter = |words: &str, typst: &str| Markup::ours(format!("m({}, ${typst}$)", crate::package::markup::literal(words)));
    let dash = |value: &String| if value.is_empty() { "–".to_owned() } else { scene.printing.number(value) };
    // The adjusted value is set bold.
    let width = |i: usize, reference: &str, adjusted: &str| {
        let values = account.rows.iter().filter_map(|r| r.values.get(i)).map(|v| width_of(v));
        let widest = values.chain([width_of(reference), 1.1 * width_of(adjusted), 18.0]).fold(0.0, f64::max);
        (widest * 1.04 + 1.0).ceil()
    };
    let columns: Vec<Column> = (account.columns.iter().enumerate())
        .map(|(i, c)| {
            let (reference, adjusted) = (dash(&c.reference), dash(&c.adjusted));
            let width = width(i, &reference, &adjusted).max(0.95 * formula::extent(&c.typst).width);
            Column { letter: letter(&c.words, &c.typst), reference, adjusted, width }
        })
        .collect();
    let left = text - 92.0 - columns.iter().map(|c| c.width + 9.0).sum::<f64>() - 9.0;
    let lines = |because: &Markup, reference: &Markup, name: &str| {
        height::row([(because.plain(), left), (reference.plain(), MARGIN_WIDTH), (name, 70.0)])
    };
    let (reference, remark) = (lexicon.set(&briefly(scene, &account.reference)), lexicon.set(&account.remark));
    let adjusted_reference = lexicon.set(&account.adjusted_reference);
    let names = scene.results.value_names.clone();
    Factors {
        unit: account.unit.clone(),
        ends: [lines(&remark, &reference, &names[0]), lines(&Markup::text(""), &adjusted_reference, &names[1])],
        names,
        rows: (account.rows.iter())
            .map(|r| {
                let (because, reference) = (lexicon.set(&r.because), lexicon.set(&briefly(scene, &r.reference)));
                Factor {
                    letter: letter(&r.words, &r.typst),
                    name: r.name.clone(),
                    values: r.values.iter().map(dash).collect(),
                    lines: lines(&because, &reference, &r.name),
                    because,
                    reference,
                }
            })
            .collect(),
        columns,
        reference,
        remark,
        adjusted_reference,
    }
}

/// What is not checked; where another finding stands at the head of the sheet, also what keeps the member from being fully checked.
fn not_checked(member: &Member) -> Vec<String> {
    let unmade = member.unmade.iter().filter(|what| member.verdict.fails() && !member.not_checked.contains(what));
    unmade.chain(&member.not_checked).cloned().collect()
}

/// Topics with the numbers of their assumptions.
fn assumed(lexicon: &Lexicon, member: &Member) -> Markup {
    let list: Vec<String> = member.assumed.iter().map(|(topic, id)| format!("{topic} {id}")).collect();
    lexicon.set(&list.join("; "))
}

/// The figure in words: member, spans, loads with values; then the extremes of each curve.
pub(super) fn in_words(scene: &Scene, member: &Member) -> String {
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
    let curves = if curves.is_empty() { String::new() } else { format!(" {}.", curves.join(". ")) };
    format!("Member {} to scale; spans {}. Loads: {}.{curves}{broken}", member.mark, words::list(&spans), loads.join("; "))
}

/// Whether a check is the worst of its kind.
pub(super) fn leads(check: &Found) -> bool {
    check.leading || check.governs
}
