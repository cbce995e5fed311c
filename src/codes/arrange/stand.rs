//! How loads stand: spread or as points, on one panel, near a support.

use super::{Applied, Shape};
use crate::analysis::{Load as Acting, Panel};

/// An arrangement of received reactions.
#[derive(Clone, Copy)]
pub(super) struct Arrangement {
    /// Received reactions at their smallest; else at their largest.
    pub smallest: bool,
    /// Received reactions as concentrated loads: rows with one at mid-span, or at the tip, of this panel; none: spread.
    pub row: Option<usize>,
}

/// All arrangements that make a difference, the one with reactions at their largest, spread, first.
///
/// Where a span holds fewer than six of the loads, they are placed as rows over all that they cover, with one at each mid-span and each
/// tip in turn (readings 5 and 60).
pub(super) fn arrangements(applied: &[Applied], panels: &[Panel]) -> Vec<Arrangement> {
    let mut all = vec![Arrangement { smallest: false, row: None }];
    if applied.iter().any(|a| a.smallest.is_some()) {
        all.push(Arrangement { smallest: true, row: None });
    }
    let rows: Vec<(f64, f64, f64)> = applied.iter().filter_map(row).collect();
    if !panels.iter().any(|panel| rows.iter().any(|row| few(panel, *row))) {
        return all;
    }
    let mut anchors: Vec<usize> = Vec::new();
    for (i, panel) in panels.iter().enumerate().filter(|(_, panel)| rows.iter().any(|row| covered(panel, *row) > 0.0)) {
        let same = |other: &usize| rows.iter().all(|(.., every)| is_whole((anchor(&panels[*other]) - anchor(panel)) / every));
        if !anchors.iter().any(same) {
            anchors.push(i);
        }
    }
    let spread = all.clone();
    all.extend(anchors.into_iter().flat_map(|panel| spread.iter().map(move |spread| Arrangement { row: Some(panel), ..*spread })));
    all
}

/// Where one of a row stands in its turn: mid-span, or the tip of an overhang.
fn anchor(panel: &Panel) -> f64 {
    match (panel.overhang, panel.number) {
        (true, 0) => panel.from,
        (true, _) => panel.to,
        _ => 0.5 * (panel.from + panel.to),
    }
}

fn is_whole(number: f64) -> bool {
    (number - libm::round(number)).abs() < 1e-9
}

/// A load along a line.
pub(super) const fn line(from: f64, to: f64, start: f64, end: f64) -> Acting {
    Acting::Line { from, to, start, end }
}

/// Whether a load is nought.
pub(super) fn is_nothing(load: &Acting) -> bool {
    match load {
        Acting::Line { from, to, start, end } => (*start == 0.0 && *end == 0.0) || from == to,
        Acting::Point { force, .. } => *force == 0.0,
        Acting::Moment { moment, .. } => *moment == 0.0,
    }
}

/// What received reactions at a spacing cover, from and to, and the spacing; none of any other load.
fn row(applied: &Applied) -> Option<(f64, f64, f64)> {
    match (applied.load, applied.every) {
        (Acting::Line { from, to, .. }, Some(every)) => Some((from, to, every)),
        _ => None,
    }
}

/// How much of a panel a row covers.
fn covered(panel: &Panel, (from, to, _): (f64, f64, f64)) -> f64 {
    panel.to.min(to) - panel.from.max(from)
}

/// Whether a panel holds fewer than six of a row (reading 5).
fn few(panel: &Panel, row: (f64, f64, f64)) -> bool {
    let covered = covered(panel, row);
    covered > 0.0 && covered / row.2 < 6.0 - 1e-9
}

/// The load as it stands in an arrangement.
pub(super) fn standing(applied: &Applied, arrangement: Arrangement, panels: &[Panel]) -> Vec<Acting> {
    let load = match &applied.smallest {
        Some(smallest) if arrangement.smallest => *smallest,
        _ => applied.load,
    };
    let (Some(panel), Some(every), Acting::Line { from, to, start, .. }) = (arrangement.row, applied.every, load) else {
        return vec![load];
    };
    let first = anchor(&panels[panel]);
    let stretches = panels.iter().map(|p| (p.from.max(from), p.to.min(to))).filter(|(a, b)| b > a);
    let mut acting: Vec<Acting> = Vec::new();
    for (a, b) in stretches {
        if (b - a) / every > MOST_OF_A_ROW {
            acting.push(line(a, b, start, start));
            continue;
        }
        let lowest = libm::ceil((a - first) / every - 1e-9) as i64;
        let highest = libm::floor((b - first) / every + 1e-9) as i64;
        for at in (lowest..=highest).map(|k| (first + k as f64 * every).clamp(a, b)) {
            // One over a support ends one panel and begins the next.
            let again = matches!(acting.last(), Some(Acting::Point { at: last, .. }) if (at - last).abs() <= SAME_PLACE);
            if !again {
                acting.push(Acting::Point { at, force: start * every });
            }
        }
    }
    acting
}

/// On a span or overhang that holds more of a row than this, it stays spread: no different in any figure that is printed.
const MOST_OF_A_ROW: f64 = 100.0;

/// Places nearer than this are one place, mm: sums of spans and a place given by itself differ in their last bits.
pub(super) const SAME_PLACE: f64 = 1e-6;

/// The supports between two panels.
pub(super) fn joints(panels: &[Panel]) -> Vec<f64> {
    panels.iter().skip(1).map(|p| p.from).collect()
}

/// The load, if it is a point or a moment over this support between two panels.
pub(super) fn over(load: &Acting, joint: f64) -> Option<Acting> {
    match *load {
        Acting::Point { at, .. } | Acting::Moment { at, .. } => ((at - joint).abs() <= SAME_PLACE).then_some(*load),
        Acting::Line { .. } => None,
    }
}

/// The part of a load that stands on a panel; what is [`over`] a support between two panels is no one panel's.
pub(super) fn within(load: &Acting, panel: &Panel, panels: &[Panel]) -> Option<Acting> {
    let at_joint = || joints(panels).into_iter().any(|joint| over(load, joint).is_some());
    let holds = |at: f64| at >= panel.from - SAME_PLACE && at <= panel.to + SAME_PLACE && !at_joint();
    match *load {
        Acting::Line { from, to, start, end } => {
            let (a, b) = (from.max(panel.from), to.min(panel.to));
            let at = |x: f64| start + (end - start) * (x - from) / (to - from);
            (b > a).then(|| if start == end { line(a, b, start, start) } else { line(a, b, at(a), at(b)) })
        }
        Acting::Point { at, .. } | Acting::Moment { at, .. } => holds(at).then_some(*load),
    }
}

/// What of the loads of a case a closed form covers.
pub(super) fn shape(loads: &[Acting], panels: &[Panel]) -> Shape {
    let [panel] = panels else { return Shape { other: true, ..Shape::default() } };
    let mut shape = Shape::default();
    let same = |a: f64, b: f64| (a - b).abs() <= 1e-9 * panel.to;
    for load in loads {
        match *load {
            Acting::Line { from, to, start, end } if same(from, panel.from) && same(to, panel.to) && start == end => shape.uniform += start,
            Acting::Point { at, force } if same(at, 0.5 * (panel.from + panel.to)) => shape.mid += force,
            _ => shape.other |= !is_nothing(load),
        }
    }
    shape
}
