//! What rests on what, drawn: a heavy level stroke a member, a line a reaction.

use super::canvas::{Anchor, Canvas, Stroke, width_of};
use super::graph::{self, Item, Link};
use crate::package::markup::Markup;
use crate::package::printing::Printing;
use crate::package::words;
use crate::results::{Member, Reaction};

/// Members in one drawing; with more, one drawing a branch.
const MOST: usize = 30;
/// Under a row: the mark, the forces, the short lines to the ground.
const UNDER: f64 = 40.0;
/// Between two level lines.
const TRACK: f64 = 5.0;

/// One drawing of a load path.
#[derive(Debug, serde::Serialize)]
pub(in crate::package) struct Branch {
    /// What it shows, where it does not show all.
    title: String,
    height: f64,
    body: Markup,
    alt: String,
}

/// The load path of these members on paper so wide: one drawing, or one a branch.
pub(in crate::package) fn path(members: &[Member], printing: Printing, paper: f64) -> Vec<Branch> {
    let all: Vec<usize> = (0..members.len()).collect();
    if all.len() <= MOST {
        return if all.is_empty() { Vec::new() } else { vec![draw(members, &all, String::new(), printing, paper)] };
    }
    let on: Vec<Vec<usize>> = members.iter().map(|m| receivers(members, m)).collect();
    let roots = all.iter().filter(|i| on[**i].is_empty());
    roots
        .map(|root| {
            let mut branch = vec![*root];
            loop {
                let more: Vec<usize> =
                    all.iter().copied().filter(|i| !branch.contains(i) && on[*i].iter().any(|b| branch.contains(b))).collect();
                if more.is_empty() {
                    break;
                }
                branch.extend(more);
            }
            branch.sort_unstable();
            let title = format!("What comes down on {}", members[*root].mark);
            draw(members, &branch, title, printing, paper)
        })
        .collect()
}

/// The members that a member rests on.
fn receivers(members: &[Member], member: &Member) -> Vec<usize> {
    let mut found: Vec<usize> = member
        .reactions
        .iter()
        .flat_map(|r| received(r).into_iter().filter_map(|mark| members.iter().position(|m| m.mark == mark)))
        .collect();
    found.sort_unstable();
    found.dedup();
    found
}

/// The marks of the members that receive a reaction.
fn received(reaction: &Reaction) -> Vec<&str> {
    reaction.received_by_kind("member").collect()
}

/// What receives a reaction and is no member of the job: on a short line of its own, or beside the line to a member.
fn others(reaction: &Reaction) -> String {
    if reaction.receivers.is_empty() {
        return "not given".to_owned();
    }
    let names: Vec<&str> = reaction.receivers.iter().filter(|r| r.kind != "member").map(|r| r.name.as_str()).collect();
    names.join(", ")
}

/// Whether a reaction goes to the ground or to others alone.
fn ends(reaction: &Reaction) -> bool {
    received(reaction).is_empty()
}

/// A member as drawn: its supports from its middle, the text under it.
struct Bar {
    text: String,
    supports: Vec<f64>,
    forces: Vec<String>,
    /// What is not a member and receives a part of a row that members receive too, in words.
    also: Vec<String>,
    left: f64,
    right: f64,
}

impl Bar {
    fn of(member: &Member, printing: Printing) -> Self {
        let text = format!("\u{2002}{}", member.section.name);
        let forces: Vec<String> = member.reactions.iter().map(|r| printing.value(&r.largest.force)).collect();
        let grounds: Vec<f64> = member.reactions.iter().map(|r| if ends(r) { width_of(&others(r)) } else { 6.0 }).collect();
        let and = |r: &Reaction| if ends(r) || others(r).is_empty() { String::new() } else { format!("and {}", others(r)) };
        let also: Vec<String> = member.reactions.iter().map(and).collect();
        let beside = |i: usize| width_of(&forces[i]).max(width_of(&also[i]));
        let mut supports = vec![0.0];
        for i in 1..grounds.len() {
            let names = (grounds[i - 1] + grounds[i]) / 2.0 + 8.0;
            let words = if i == 1 { width_of(&member.mark) * 1.1 + width_of(&text) + 14.0 } else { beside(i - 1) + 12.0 };
            supports.push(supports[i - 1] + names.max(words).max(34.0));
        }
        let middle = supports.last().copied().unwrap_or(0.0) / 2.0;
        let side = |i: Option<usize>| i.map_or(10.0, |i| (beside(i) + 7.0).max(grounds[i] / 2.0 + 4.0));
        let left = middle + side((!grounds.is_empty()).then_some(0));
        let words = if supports.len() == 1 { width_of(&member.mark) * 1.1 + width_of(&text) + 14.0 } else { 0.0 };
        let right = middle + side(grounds.len().checked_sub(1)).max(words);
        supports.iter_mut().for_each(|s| *s -= middle);
        Self { text, supports, forces, also, left, right }
    }
}

fn draw(members: &[Member], shown: &[usize], title: String, printing: Printing, paper: f64) -> Branch {
    let shown: Vec<&Member> = shown.iter().map(|i| &members[*i]).collect();
    let bars: Vec<Bar> = shown.iter().map(|m| Bar::of(m, printing)).collect();
    let on: Vec<Vec<usize>> = shown
        .iter()
        .map(|m| m.reactions.iter().flat_map(received).filter_map(|mark| shown.iter().position(|s| s.mark == mark)).collect())
        .collect();
    let rows = graph::rows(&on, &bars.iter().map(|b| b.left + b.right).collect::<Vec<_>>(), paper);
    let mut items: Vec<Item> = bars.iter().zip(&rows).map(|(b, row)| Item { left: b.left, right: b.right, row: *row, x: 0.0 }).collect();
    let mut links = Vec::new();
    // A line that passes rows takes a little room in each of them.
    for (i, member) in shown.iter().enumerate() {
        for (k, reaction) in member.reactions.iter().enumerate() {
            for mark in received(reaction) {
                let Some(j) = shown.iter().position(|s| s.mark == mark) else { continue };
                let mut upper = (i, bars[i].supports[k]);
                for row in (rows[j] + 1..rows[i]).rev() {
                    items.push(Item { left: 5.0, right: 5.0, row, x: 0.0 });
                    links.push(Link { upper: upper.0, leaves: upper.1, lower: items.len() - 1 });
                    upper = (items.len() - 1, 0.0);
                }
                links.push(Link { upper: upper.0, leaves: upper.1, lower: j });
            }
        }
    }
    graph::place(&mut items, &links, paper);
    let mut canvas = Canvas::default();
    let height = Drawing { shown: &shown, bars: &bars, items: &items, links: &links }.draw(&mut canvas);
    Branch { title, height, body: canvas.done(), alt: in_words(&shown) }
}

struct Drawing<'a> {
    shown: &'a [&'a Member],
    bars: &'a [Bar],
    items: &'a [Item],
    links: &'a [Link],
}

impl Drawing<'_> {
    fn draw(&self, canvas: &mut Canvas) -> f64 {
        let top = self.items.iter().map(|i| i.row).max().unwrap_or(0);
        let landings = self.landings();
        // Level lines lie in the gap above the row they lead to.
        let mut level: Vec<f64> = vec![6.0; top + 1];
        let mut track: Vec<usize> = vec![0; self.links.len()];
        let mut y = 6.0;
        for row in (0..=top).rev() {
            level[row] = y;
            if row == 0 {
                break;
            }
            let gap: Vec<usize> = (0..self.links.len()).filter(|l| self.items[self.links[*l].lower].row == row - 1).collect();
            let bent: Vec<usize> = gap.into_iter().filter(|l| (self.start(*l) - landings[*l]).abs() > 0.5).collect();
            let lanes = graph::tracks(&bent.iter().map(|l| (self.start(*l), landings[*l])).collect::<Vec<_>>());
            for (l, lane) in bent.iter().zip(&lanes) {
                track[*l] = *lane;
            }
            y += UNDER + lanes.iter().max().map_or(0.0, |most| (*most as f64 + 1.0) * TRACK) + 14.0;
        }
        for (l, link) in self.links.iter().enumerate() {
            let (row, last) = (self.items[link.lower].row, link.lower < self.bars.len());
            let (from, to) = (level[row + 1], level[row]);
            let (x1, x2) = (self.start(l), landings[l]);
            let bend = to - 12.0 - (track[l] as f64) * TRACK;
            if (x1 - x2).abs() <= 0.5 {
                canvas.line((x2, from), (x2, to - 1.0), Stroke::Thick(0.5));
            } else {
                canvas.line((x1, from), (x1, bend), Stroke::Thick(0.5));
                canvas.line((x1, bend), (x2, bend), Stroke::Thick(0.5));
                canvas.line((x2, bend), (x2, to - 1.0), Stroke::Thick(0.5));
            }
            if last {
                canvas.arrow(x2, to - 6.0, to - 1.2, 0.5);
            } else {
                canvas.line((x2, to - 1.0), (x2, to), Stroke::Thick(0.5));
            }
        }
        for (i, bar) in self.bars.iter().enumerate() {
            self.bar(canvas, i, bar, level[self.items[i].row]);
        }
        level[0] + UNDER
    }

    /// Where a line leaves its upper end.
    fn start(&self, link: usize) -> f64 {
        let l = self.links[link];
        self.items[l.upper].x + l.leaves
    }

    /// Where each line arrives: straight down where the receiver is under it, else on the receiver's near end; never two at one place.
    fn landings(&self) -> Vec<f64> {
        let mut landings: Vec<f64> = (0..self.links.len())
            .map(|l| {
                let lower = self.links[l].lower;
                match self.bars.get(lower) {
                    Some(bar) => {
                        let half = bar.supports.last().copied().unwrap_or(0.0);
                        self.start(l).clamp(self.items[lower].x - half, self.items[lower].x + half)
                    }
                    None => self.items[lower].x,
                }
            })
            .collect();
        const APART: f64 = 7.0;
        for lower in 0..self.bars.len() {
            let mut here: Vec<usize> = (0..self.links.len()).filter(|l| self.links[*l].lower == lower).collect();
            here.sort_by(|a, b| landings[*a].total_cmp(&landings[*b]).then(self.start(*a).total_cmp(&self.start(*b))));
            let shifted: Vec<f64> = here.iter().enumerate().map(|(n, l)| landings[*l] - n as f64 * APART).collect();
            for (n, (l, x)) in here.iter().zip(graph::in_order(&shifted)).enumerate() {
                landings[*l] = x + n as f64 * APART;
            }
        }
        landings
    }

    fn bar(&self, canvas: &mut Canvas, i: usize, bar: &Bar, y: f64) {
        let member = self.shown[i];
        let x = self.items[i].x;
        let (first, last) = (bar.supports.first().copied().unwrap_or(0.0), bar.supports.last().copied().unwrap_or(0.0));
        canvas.line((x + first - 4.0, y), (x + last + 4.0, y), Stroke::Thick(2.2));
        let middle = if bar.supports.len() > 2 { (bar.supports[0] + bar.supports[1]) / 2.0 } else { (first + last) / 2.0 };
        // A post stands on one point: its name stands beside the line that leaves it.
        if bar.supports.len() == 1 {
            canvas.named((x + 8.0, y + 9.0), &member.mark, &bar.text, Anchor::Left);
        } else {
            canvas.named((x + middle, y + 9.0), &member.mark, &bar.text, Anchor::Centre);
        }
        for (k, reaction) in member.reactions.iter().enumerate() {
            let at = x + bar.supports[k];
            let (anchor, beside) = if k == 0 { (Anchor::Right, -3.5) } else { (Anchor::Left, 3.5) };
            if !ends(reaction) {
                canvas.text((at + beside, y + 20.0), &bar.forces[k], anchor, true);
                if !bar.also[k].is_empty() {
                    canvas.text((at + beside, y + 28.0), &bar.also[k], anchor, true);
                }
            } else {
                canvas.arrow(at, y + 1.0, y + 19.0, 0.5);
                canvas.line((at - 6.0, y + 20.0), (at + 6.0, y + 20.0), Stroke::Thick(0.5));
                canvas.text((at + beside, y + 12.0), &bar.forces[k], anchor, false);
                canvas.text((at, y + 27.5), &others(reaction), Anchor::Centre, true);
            }
        }
    }
}

/// Every pair in words.
fn in_words(shown: &[&Member]) -> String {
    let one = |member: &&Member| {
        let on: Vec<String> = member
            .reactions
            .iter()
            .map(|r| {
                let names: Vec<String> = r.receivers.iter().map(|receiver| receiver.name.clone()).collect();
                if names.is_empty() { others(r) } else { words::list(&names) }
            })
            .collect();
        let mut on_once = on.clone();
        on_once.dedup();
        format!("{} rests on {}", member.mark, words::list(&on_once))
    };
    format!("Load path. {}.", shown.iter().map(one).collect::<Vec<_>>().join("; "))
}
