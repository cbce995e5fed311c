//! How loads stand: spread or as points, on one panel, near a support.

use super::{Applied, Beside, Shape};
use crate::analysis::{Load as Acting, Panel};

/// An arrangement of received reactions.
#[derive(Clone, Copy)]
pub(super) struct Arrangement {
    /// Received reactions at their smallest; else at their largest.
    pub smallest: bool,
    /// Received reactions as single points where a span holds few of them.
    pub points: bool,
}

/// All arrangements that make a difference, the one with reactions at their largest, spread, first.
pub(super) fn arrangements(applied: &[Applied], panels: &[Panel]) -> Vec<Arrangement> {
    let mut all = vec![Arrangement { smallest: false, points: false }];
    if applied.iter().any(|a| a.smallest.is_some()) {
        all.push(Arrangement { smallest: true, points: false });
    }
    if applied.iter().any(|a| a.every.is_some_and(|every| few_somewhere(a, every, panels))) {
        let spread = all.clone();
        all.extend(spread.into_iter().map(|spread| Arrangement { points: true, ..spread }));
    }
    all
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

/// Whether some span that the load covers holds fewer than six of the points (reading 5).
fn few_somewhere(applied: &Applied, every: f64, panels: &[Panel]) -> bool {
    let Acting::Line { from, to, .. } = applied.load else { return false };
    panels.iter().any(|p| few(p, from, to, every))
}

fn few(panel: &Panel, from: f64, to: f64, every: f64) -> bool {
    let covered = panel.to.min(to) - panel.from.max(from);
    covered > 0.0 && covered / every < 6.0 - 1e-9
}

/// The load as it stands in an arrangement.
pub(super) fn standing(applied: &Applied, arrangement: Arrangement, panels: &[Panel]) -> Vec<Acting> {
    let load = match &applied.smallest {
        Some(smallest) if arrangement.smallest => *smallest,
        _ => applied.load,
    };
    let (true, Some(every), Acting::Line { from, to, start, .. }) = (arrangement.points, applied.every, load) else {
        return vec![load];
    };
    let mut acting = Vec::new();
    for panel in panels {
        let (a, b) = (panel.from.max(from), panel.to.min(to));
        if b <= a {
            continue;
        }
        if !few(panel, from, to, every) {
            acting.push(line(a, b, start, start));
            continue;
        }
        // One at mid-span, or at the free end of an overhang, then at the spacing to both sides.
        let first = match (panel.overhang, panel.number) {
            (true, 0) => panel.from,
            (true, _) => panel.to,
            _ => 0.5 * (panel.from + panel.to),
        };
        let lowest = libm::ceil((a - first) / every - 1e-9) as i64;
        let highest = libm::floor((b - first) / every + 1e-9) as i64;
        for k in lowest..=highest {
            acting.push(Acting::Point { at: (first + k as f64 * every).clamp(a, b), force: start * every });
        }
    }
    acting
}

/// Places nearer than this are one place, mm: sums of spans and a place given by itself differ in their last bits.
const SAME_PLACE: f64 = 1e-6;

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

/// Point loads between a support's face and the section beside it: at the part that counts, and whole.
pub(super) fn near_points(loads: &[Acting], side: &Beside, reach: f64) -> (Vec<Acting>, Vec<Acting>) {
    let (mut part, mut whole) = (Vec::new(), Vec::new());
    if side.left_out > 0.0 {
        let near = |l: &&Acting| matches!(l, Acting::Point { at, force } if *force > 0.0 && (0.0..side.left_out).contains(&((at - side.line) * side.sign)));
        return (part, loads.iter().filter(near).copied().collect());
    }
    let face = (side.section - side.line).abs() - reach;
    for load in loads {
        if let Acting::Point { at, force } = *load {
            let from_line = (at - side.line) * side.sign;
            if from_line >= 0.0 && from_line < face + reach && reach > 0.0 {
                let x = (from_line - face).max(0.0);
                part.push(Acting::Point { at, force: force * x / reach });
                whole.push(Acting::Point { at, force });
            }
        }
    }
    (part, whole)
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
