//! The summary: whether the job works, on one page.

use super::height::{self, Lines, PITCH, SMALL_PITCH, TEXT};
use super::{Column, Columns, Scene, front, sheet_label};
use crate::job::model::{MaterialAsked, Member as Entry};
use crate::package::drawing::{MARGIN_WIDTH, width_of};
use crate::package::markup::{Markup, inserted, literal};
use crate::package::{printing, words};
use crate::results::Verdict;
use crate::results::{Member, OpenItem, worst};
use serde::Serialize;

/// What the summary says.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Summary {
    failures: Vec<Failure>,
    rest: Markup,
    rows: Vec<Row>,
    /// In points: of the spans, of the combinations.
    table: Columns,
    /// Of marks, and between the columns of ratios, in points.
    marks: f64,
    apart: f64,
    /// From 0 to 1 on a scale mark, in points.
    scale: f64,
    spans_note: &'static str,
    kinds: Vec<Kind>,
    ratios: Vec<Ratios>,
    open: Vec<Open>,
    #[serde(flatten)]
    setting: Setting,
    not_included: Markup,
}

/// How close a summary is set.
#[derive(Clone, Copy, Debug, Serialize)]
struct Setting {
    /// Room above and below the rows of both tables, in points.
    rows_apart: [f64; 2],
    /// Whether its lists are set small.
    small: bool,
}

/// From the widest on: it takes the first in which it fits its page.
const SETTINGS: [Setting; 4] = [
    Setting { rows_apart: [3.1, 2.3], small: false },
    Setting { rows_apart: [2.6, 2.0], small: false },
    Setting { rows_apart: [2.2, 1.7], small: true },
    Setting { rows_apart: [1.2, 0.8], small: true },
];

/// A member that fails or is not checked.
#[derive(Debug, Serialize)]
struct Failure {
    /// How many have its verdict, on the first of them; else empty.
    word: String,
    sentence: Markup,
    /// `none` where no check was made.
    ratio: Markup,
    printed: String,
}

#[derive(Debug, Serialize)]
struct Row {
    mark: Markup,
    what: String,
    spans: String,
    check: String,
    clause: String,
    combination: Markup,
    /// `FAILS`, `NOT CHECKED`; empty where it passes.
    verdict: &'static str,
    /// `none` where no check was made.
    ratio: Markup,
    printed: String,
    label: String,
    lines: Lines,
}

#[derive(Debug, Serialize)]
struct Ratios {
    mark: Markup,
    cells: Vec<Cell>,
}

#[derive(Debug, Serialize)]
struct Cell {
    printed: String,
    governs: bool,
    fails: bool,
}

/// A kind of check, and its column.
#[derive(Debug, Serialize)]
struct Kind {
    name: String,
    width: f64,
}

/// What is open, by its number; several tables from memory are one sentence with a number each.
#[derive(Debug, Serialize)]
struct Open {
    number: String,
    text: Markup,
    at: Markup,
}

/// The gap between columns of ratios.
const APART: f64 = 6.0;

/// The table of members with these columns of spans and of combinations: mark, what it is, spans, the governing check, combination, scale
/// mark, page.
fn table(scene: &Scene, [spans, combination]: [f64; 2]) -> Columns {
    let columns = [
        Column::Wide(scene.marks()),
        Column::Share(1.0),
        Column::Wide(spans),
        Column::Wide(108.0),
        Column::Wide(combination),
        Column::Wide(SCALE * 1.3 + 25.0),
        Column::Wide(22.0),
    ];
    Columns::of(scene.width(), columns, &[6.0, 8.0, 8.0, 6.0, 8.0, 4.0])
}

/// From 0 to 1 on a scale mark.
const SCALE: f64 = 42.0;

impl Row {
    /// What stands in the column of the governing check.
    fn said(&self) -> String {
        let mark = if self.verdict.is_empty() { String::new() } else { format!("  {}  ", self.verdict) };
        format!("{}, {}{mark}", self.check, self.clause)
    }
}

impl Summary {
    pub(in crate::package) fn of(scene: &Scene) -> Self {
        let members = &scene.results.members;
        let mut kinds: Vec<&str> = members.iter().flat_map(|m| m.checks.iter().map(|c| c.check.as_str())).collect();
        kinds.sort_by_key(|kind| (words::rank(kind), *kind));
        kinds.dedup();
        let ratios =
            members.iter().map(|m| Ratios { mark: link(&m.mark), cells: kinds.iter().map(|kind| cell(m, kind)).collect() }).collect();
        let mut rows: Vec<Row> = scene.members().map(|(entry, member)| row(scene, entry, member)).collect();
        let widest = |text: fn(&Row) -> &str, most: f64| height::column(rows.iter().map(text)).clamp(24.0, most);
        let widths = [widest(|r| &r.spans, 62.0), widest(|r| r.combination.plain(), 80.0)];
        let table = table(scene, widths);
        for row in &mut rows {
            let said = row.said();
            let cells = [row.what.as_str(), &row.spans, &said, row.combination.plain()];
            row.lines = height::row(cells.into_iter().zip(table.columns[1..].iter().copied()));
        }
        let mut summary = Self {
            failures: failures(scene),
            rest: rest(scene),
            table,
            marks: scene.marks(),
            scale: SCALE,
            apart: APART,
            rows,
            spans_note: if scene.printing.in_feet() { "Spans in feet and inches" } else { "Spans in mm" },
            kinds: columns(&kinds, scene.width() - scene.marks()),
            ratios,
            open: together(&scene.results.open).iter().map(|(number, item)| open(scene, number, item)).collect(),
            setting: SETTINGS[0],
            not_included: scene.lexicon.set(&words::capital(&super::basis::not_included(scene))),
        };
        let (text, page) = scene.room();
        let fits = |setting: &&Setting| TOO_TALL * summary.height(**setting, text) < page;
        summary.setting = SETTINGS.iter().find(fits).copied().unwrap_or(summary.setting);
        summary
    }

    /// How tall it will be in a column of text so wide, nearly.
    fn height(&self, setting: Setting, text: f64) -> f64 {
        let Setting { rows_apart: [members, ratios], small } = setting;
        // A line of its own is as tall as its capitals.
        let sentence = |markup: &Markup, size: f64, pitch: f64, wide: f64| {
            CAPITAL * 8.0 * size + pitch * (height::lines(markup.plain(), size, wide) - 1.0).max(0.0)
        };
        let list =
            |markup: &Markup, wide: f64| if small { sentence(markup, 1.0, SMALL_PITCH, wide) } else { sentence(markup, TEXT, PITCH, wide) };
        let failures: f64 = self.failures.iter().map(|failure| sentence(&failure.sentence, TEXT, PITCH, text) + 11.0).sum();
        let rows: f64 = self.rows.iter().map(|row| 9.0 + 2.0 * members + row.lines.further()).sum();
        let kinds = self.ratios.len() as f64 * (CAPITAL * 8.0 + 2.0 * ratios);
        let two_lines = self.kinds.iter().any(|kind| width_of(&kind.name) > kind.width);
        let heads = 2.0 * HEAD + if two_lines { SMALL_PITCH } else { 0.0 };
        let beside = |open: &Open| SMALL_PITCH * height::lines(open.at.plain(), 1.0, MARGIN_WIDTH) - 5.0;
        let open: f64 = self.open.iter().map(|open| list(&open.text, text - NUMBER).max(beside(open)) + 5.6).sum();
        let lists = open + list(&self.not_included, text);
        TITLE + failures + sentence(&self.rest, TEXT, PITCH, text) + 10.0 + heads + rows + kinds + FOOT + 3.0 * HEADING + lists
    }
}

/// What its estimated height is multiplied by: it comes out 3 to 7 in a hundred too large.
const TOO_TALL: f64 = 0.97;
/// The column of numbers of what is open, `number-w` of the style.
const NUMBER: f64 = 34.0;
/// The height of capitals in ems.
const CAPITAL: f64 = 0.676;
/// Heights of a page's title, of a heading with the room about it, of a table's head, and of the two lines under a table.
const TITLE: f64 = 34.0;
const HEADING: f64 = 23.0;
const HEAD: f64 = 14.0;
const FOOT: f64 = 23.0;

/// Columns of the table of ratios: each as wide as its head asks for in two lines, what is left shared.
fn columns(kinds: &[&str], room: f64) -> Vec<Kind> {
    let names: Vec<String> = kinds.iter().map(|kind| words::capital(&words::check(kind))).collect();
    let word = |name: &String| name.split(' ').map(|word| 1.03 * width_of(word)).fold(0.58 * width_of(name), f64::max);
    let asked: f64 = names.iter().map(word).sum();
    let left = (room - APART * names.len() as f64 - asked).max(0.0) / names.len().max(1) as f64;
    names.into_iter().map(|name| Kind { width: word(&name) + left, name }).collect()
}

fn link(mark: &str) -> Markup {
    Markup::ours(format!("#to({}, strong({}));", literal(&sheet_label(mark)), literal(mark)))
}

/// Those that fail, then those that are not checked; the first of each with their number.
fn failures(scene: &Scene) -> Vec<Failure> {
    let of = |verdict: Verdict| scene.results.members.iter().filter(move |m| m.verdict == verdict);
    let mut words = scene.results.tally().into_iter();
    let mut all = Vec::new();
    for list in [of(Verdict::Fails).map(failure).collect::<Vec<_>>(), of(Verdict::NotChecked).map(unchecked).collect()] {
        let first = all.len();
        all.extend(list);
        if let Some(first) = all.get_mut(first) {
            first.word = words.next().unwrap_or_default();
        }
    }
    all
}

/// A member that is not checked, and why.
fn unchecked(member: &Member) -> Failure {
    let label = literal(&sheet_label(&member.mark));
    let words = format!(", {}: {}, ", member.role, member.unmade.join("; "));
    Failure {
        word: String::new(),
        sentence: Markup::ours(format!("{}{}#page-of({label}).", link(&member.mark).source(), inserted(&words)))
            .read_as(format!("{}{words}page 10.", member.mark)),
        ratio: printing::drawn_governing(member),
        printed: printing::governing(member),
    }
}

fn failure(member: &Member) -> Failure {
    let g = &member.governing;
    let others: Vec<String> = failing_checks(member).into_iter().filter(|c| *c != g.check).map(|c| words::check(&c)).collect();
    let also = if others.is_empty() { String::new() } else { format!("; also {}", words::list(&others)) };
    let words = format!(", {}: {} {}, {}{also}, ", member.role, words::check(&g.check), printing::ratio(g.ratio), g.combination);
    let label = literal(&sheet_label(&member.mark));
    Failure {
        word: String::new(),
        sentence: Markup::ours(format!("{}{}#page-of({label}).", link(&member.mark).source(), inserted(&words)))
            .read_as(format!("{}{words}page 10.", member.mark)),
        ratio: printing::drawn_governing(member),
        printed: printing::ratio(g.ratio),
    }
}

/// Kinds of checks in which a member fails.
fn failing_checks(member: &Member) -> Vec<String> {
    let mut kinds: Vec<String> = member.checks.iter().filter(|c| !c.passes).map(|c| c.check.clone()).collect();
    kinds.sort_by_key(|kind| words::rank(kind));
    kinds.dedup();
    kinds
}

/// The sentence on those that pass.
fn rest(scene: &Scene) -> Markup {
    let passing: Vec<&Member> = scene.results.members.iter().filter(|m| m.verdict.passes()).collect();
    let others = scene.results.members.len() - passing.len();
    let Some(fullest) = passing.iter().max_by(|a, b| a.governing.ratio.total_cmp(&b.governing.ratio)) else { return Markup::text("") };
    let who = match (others, passing.len()) {
        (0, 1) => "The member passes its checks.".to_owned(),
        (0, n) => format!("All {} members pass their checks.", words::count(n)),
        (_, 1) => "The other member passes.".to_owned(),
        (_, n) => format!("The other {} members pass.", words::count(n)),
    };
    let g = &fullest.governing;
    let said = format!(", {} {}, ", words::check(&g.check), printing::ratio(g.ratio));
    Markup::ours(format!(
        "{}{}{}#page-of({}).",
        inserted(&format!("{who} The highest ratio is that of ")),
        link(&fullest.mark).source(),
        inserted(&said),
        literal(&sheet_label(&fullest.mark))
    ))
}

fn row(scene: &Scene, entry: &Entry, member: &Member) -> Row {
    let spans = &entry.spans;
    let ends = [(spans.left, true), (spans.right, false)];
    let mut list: Vec<String> = spans.spans.iter().map(|s| scene.printing.short_length(s.value)).collect();
    list.extend(
        ends.iter()
            .filter(|(length, _)| length.value() > 0.0)
            .map(|(length, left)| format!("{}{}", scene.printing.short_length(*length), if *left { " l" } else { " r" })),
    );
    let g = &member.governing;
    // Of a deflection the limit says where it comes from.
    let limit = |c: &crate::results::Check| {
        c.steps.iter().find(|s| c.check == "deflection" && s.symbol == c.capacity.symbol).map(|s| s.reference.clone())
    };
    let clause = member.checks.iter().find(|c| c.governs).map(|c| limit(c).unwrap_or_else(|| c.clause.clone())).unwrap_or_default();
    Row {
        mark: link(&member.mark),
        what: format!("{} {}, {}", member.role, front::size(scene, entry, member), grade(entry)),
        spans: list.join(", "),
        check: if member.is_governed() { words::check(&g.check) } else { words::NO_CHECK.to_owned() },
        clause,
        combination: scene.lexicon.set(&g.combination),
        verdict: member.verdict.mark(),
        ratio: printing::drawn_governing(member),
        printed: printing::governing(member),
        label: sheet_label(&member.mark),
        lines: Lines::ONE,
    }
}

/// The grade, class or name of a material, without its species.
fn grade(entry: &Entry) -> &str {
    match &entry.material.value {
        MaterialAsked::Graded { grade, .. } => &grade.value,
        MaterialAsked::Class(name) | MaterialAsked::Combination { name, .. } => &name.value,
        MaterialAsked::Custom { name, .. } => name,
    }
}

/// The largest ratio of a kind.
fn cell(member: &Member, kind: &str) -> Cell {
    let worst = worst(member.checks.iter().filter(|c| c.check == kind));
    match worst {
        Some(check) => Cell { printed: printing::ratio(check.ratio), governs: kind == member.governing.check, fails: !check.passes },
        None => Cell { printed: "–".to_owned(), governs: false, fails: false },
    }
}

/// Items with their numbers; those that say the same of several tables are one sentence, which names each table with its number.
fn together(items: &[OpenItem]) -> Vec<(String, OpenItem)> {
    let same = |a: &OpenItem, b: &OpenItem| a.kind == "table" && b.kind == "table" && a.at == b.at;
    let mut first = 1;
    let group = |group: &[OpenItem]| {
        let (from, to) = (first, first + group.len() - 1);
        first = to + 1;
        let sentence = group.first().and_then(|item| item.text.split_once(": "));
        match (group, sentence) {
            ([item, _, ..], Some((_, said))) => {
                let table = |(number, item): (usize, &OpenItem)| {
                    format!("({number}) {}", item.text.split_once(": ").map_or(item.text.as_str(), |(table, _)| table))
                };
                let tables: Vec<String> = (from..).zip(group).map(table).collect();
                let text = format!("{}: {}.", words::capital(said.trim_end_matches('.')), tables.join("; "));
                vec![(format!("{from}–{to}"), OpenItem { text, ..item.clone() })]
            }
            _ => (from..).zip(group).map(|(number, item)| (number.to_string(), item.clone())).collect(),
        }
    };
    items.chunk_by(same).flat_map(group).collect()
}

fn open(scene: &Scene, number: &str, item: &OpenItem) -> Open {
    let mut places: Vec<String> = Vec::new();
    for at in &item.at {
        let place = match at.as_str() {
            "cover" => "#to(\"cover\", \"cover\");".to_owned(),
            "basis" => "#page-of(\"basis\")".to_owned(),
            "comments" => "#page-of(\"comments\")".to_owned(),
            "references" => "References, #page-of(\"references\")".to_owned(),
            mark if scene.results.member(mark).is_some() => format!("{}, #page-of({})", link(mark).source(), literal(&sheet_label(mark))),
            id => scene.lexicon.set(id).source().to_owned(),
        };
        places.push(place);
    }
    Open {
        number: number.to_owned(),
        text: scene.lexicon.set(&item.text),
        at: Markup::ours(places.join(&inserted(", "))).read_as(format!("{}, page 10", item.at.join(", "))),
    }
}
