//! The load path: drawings and the reaction schedule.

use super::height::{self, Lines};
use super::{Column, Columns, Scene, sheet_label};
use crate::package::drawing::{self, Branch};
use crate::package::markup::{Markup, inserted, literal};
use crate::package::words;
use crate::results::{Member, Reaction, Receiver, Value};
use serde::Serialize;
use std::collections::BTreeMap;

/// What the load path's pages say.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Path {
    unit: String,
    dead_letter: String,
    branches: Vec<Branch>,
    rows: Vec<Row>,
    schedule: Columns,
    foot: String,
}

#[derive(Debug, Serialize)]
struct Row {
    mark: Markup,
    support: String,
    dead: String,
    others: Markup,
    largest: [Markup; 2],
    smallest: [Markup; 2],
    received: Markup,
    lines: Lines,
}

impl Row {
    fn reads_like(&self, other: &Self) -> bool {
        let cells = |row: &Self| -> Vec<String> {
            [&row.others]
                .into_iter()
                .chain(&row.largest)
                .chain(&row.smallest)
                .map(|m| m.source().to_owned())
                .chain([row.dead.clone()])
                .collect()
        };
        cells(self) == cells(other)
    }
}

impl Path {
    pub(in crate::package) fn of(scene: &Scene) -> Self {
        let members = &scene.results.members;
        let reactions = || members.iter().flat_map(|m| m.reactions.iter());
        let uplift = reactions().any(|r| r.smallest.force.value < 0.0);
        let differs = reactions().any(|r| !r.handed_down.is_empty() || !r.handed_down_smallest.is_empty());
        let reduced = members.iter().any(|m| !m.reduced.is_empty());
        let brackets = match (differs, reduced) {
            (true, false) => " In brackets what is handed down: the pattern that makes it largest, and smallest.",
            (true, true) => {
                " In brackets what is handed down: the pattern that makes it largest, and smallest; where live load is reduced on the member, the whole."
            }
            (false, _) => "",
        };
        let dead_letter = words::case(scene.results, "dead").to_owned();
        let mut rows: Vec<Row> = members.iter().flat_map(|m| rows(scene, m)).collect();
        let widths = [
            height::column(rows.iter().map(|row| row.dead.as_str()).chain([dead_letter.as_str()])),
            height::column(rows.iter().map(|row| row.largest[1].plain())),
            height::column(rows.iter().map(|row| row.smallest[1].plain())),
        ];
        let schedule = schedule(scene, widths);
        for row in &mut rows {
            let columns = &schedule.columns;
            let long =
                [(&row.others, columns[3]), (&row.largest[0], columns[4]), (&row.smallest[0], columns[6]), (&row.received, columns[8])];
            let cells = long.into_iter().map(|(cell, room)| (cell.plain(), room));
            row.lines = height::row(cells.chain([(row.support.as_str(), columns[1])]));
        }
        Self {
            unit: reactions().next().map(|r| r.largest.force.unit.clone()).unwrap_or_default(),
            dead_letter,
            branches: drawing::path(members, scene.printing, scene.width()),
            rows,
            schedule,
            foot: format!("Each case on all spans.{brackets} Up is negative{}.", if uplift { "" } else { ": none here" }),
        }
    }
}

/// The reaction schedule with these columns of dead load and of the largest and the smallest force: mark, support, dead load, other cases, a
/// combination and its force twice, who receives.
fn schedule(scene: &Scene, [dead, largest, smallest]: [f64; 3]) -> Columns {
    let columns = [
        Column::Wide(scene.marks()),
        Column::Wide(30.0),
        Column::Wide(dead),
        Column::Share(1.35),
        Column::Wide(70.0),
        Column::Wide(largest),
        Column::Wide(66.0),
        Column::Wide(smallest),
        Column::Share(1.0),
    ];
    Columns::of(scene.width(), columns, &[6.0, 6.0, 12.0, 6.0, 6.0, 12.0, 6.0, 14.0])
}

/// A row a support; supports that read alike share one.
fn rows(scene: &Scene, member: &Member) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    // What pulls along a tie is said on its sheet; across it there is nothing to hand down.
    let idle = |reaction: &&Reaction| member.role == "tie" && reaction.largest.force.value == 0.0 && reaction.smallest.force.value == 0.0;
    for reaction in member.reactions.iter().filter(|reaction| !idle(reaction)) {
        let row = row(scene, member, reaction, rows.is_empty());
        match rows.last_mut() {
            Some(last) if last.reads_like(&row) => {
                last.support = format!("{}, {}", last.support, row.support);
                if last.received.source() != row.received.source() {
                    let plain = format!("{}; {}", last.received.plain(), row.received.plain());
                    let both = format!("{}{}{}", last.received.source(), inserted("; "), row.received.source());
                    last.received = Markup::ours(both).read_as(plain);
                }
            }
            _ => rows.push(row),
        }
    }
    rows
}

fn row(scene: &Scene, member: &Member, reaction: &Reaction, first: bool) -> Row {
    let (dead, others) = by_case(scene, reaction);
    let in_combination =
        |c: &crate::results::InCombination| [scene.lexicon.set(&c.combination), Markup::text(&scene.printing.value(&c.force))];
    Row {
        mark: if first {
            Markup::ours(format!("#to({}, strong({}));", literal(&sheet_label(&member.mark)), literal(&member.mark)))
        } else {
            Markup::text("")
        },
        support: reaction.support.to_string(),
        dead,
        others: scene.lexicon.set(&others),
        largest: in_combination(&reaction.largest),
        smallest: in_combination(&reaction.smallest),
        received: received(scene, reaction),
        lines: Lines::ONE,
    }
}

/// Dead load, and the other cases with what is handed down in brackets where it differs.
pub(super) fn by_case(scene: &Scene, reaction: &Reaction) -> (String, String) {
    let results = scene.results;
    let mut cases: Vec<(&String, &Value)> = reaction.by_case.iter().collect();
    cases.sort_by_key(|(case, _)| words::case_rank(results, case));
    let handed = |from: &BTreeMap<String, Value>, case: &str| from.get(case).map(|v| scene.printing.value(v));
    let said = |case: &str, value: &Value| {
        let brackets: Vec<String> =
            [handed(&reaction.handed_down, case), handed(&reaction.handed_down_smallest, case)].into_iter().flatten().collect();
        // Of a case that is reduced on this member both are the whole.
        let brackets = if reaction.handed_down.get(case) == reaction.handed_down_smallest.get(case) {
            &brackets[..brackets.len().min(1)]
        } else {
            &brackets
        };
        let plain = scene.printing.value(value);
        if brackets.is_empty() { plain } else { format!("{plain} ({})", brackets.join(", ")) }
    };
    let dead = cases.iter().find(|(case, _)| *case == "dead").map_or_else(|| "–".to_owned(), |(case, v)| said(case, v));
    let others: Vec<String> = cases
        .iter()
        .filter(|(case, _)| *case != "dead")
        .map(|(case, v)| format!("{}\u{a0}{}", words::case(results, case), said(case, v)))
        .collect();
    (dead, others.join("; "))
}

/// What receives a reaction, members with their page.
pub(super) fn received(scene: &Scene, reaction: &Reaction) -> Markup {
    if reaction.receivers.is_empty() {
        return Markup::ours("*not given*".to_owned()).read_as("not given".to_owned());
    }
    let one = |receiver: &Receiver| match receiver.kind.as_str() {
        "member" => {
            let label = literal(&sheet_label(&receiver.name));
            // The page is not known yet, but for its width.
            let plain = format!("{} page 100", receiver.name);
            Markup::ours(format!("#to({label}, {}) #page-of({label})", literal(&receiver.name))).read_as(plain)
        }
        _ => scene.lexicon.set(&receiver.name),
    };
    let all: Vec<Markup> = reaction.receivers.iter().map(one).collect();
    let plain: Vec<&str> = all.iter().map(Markup::plain).collect();
    let sources: Vec<&str> = all.iter().map(Markup::source).collect();
    Markup::ours(sources.join(&inserted(", "))).read_as(plain.join(", "))
}
