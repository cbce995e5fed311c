//! Members that lean: the worst place of bending about both axes, shear across the depth, deflection both ways.
//!
//! Between two neighbouring breaks (extremes and zeros of either axis) both quantities run one way, so that what is made of them has one
//! peak there at most; it is closed in on where both ends rise inward.

use super::places::{Instance, between};
use super::{NOUGHT, Search};
use crate::analysis::{Diagram, Panel, Quantity, Side};
use crate::codes::{Action, Demand, Utilization};

/// A place, the two values there (along and across the depth), and what is made of them.
#[derive(Clone, Copy)]
pub(super) struct Peak {
    pub at: f64,
    pub strong: f64,
    pub weak: f64,
    pub value: f64,
}

/// Where something made of two diagrams is largest on a panel; `weak` has panels of its own. Not-a-number is larger than all that is one.
pub(super) fn peak(
    strong: &Diagram,
    weak: &Diagram,
    quantity: Quantity,
    panel: &Panel,
    weak_panels: &[Panel],
    value: impl Fn(f64, f64, f64) -> f64,
) -> Option<Peak> {
    let (from, to) = (panel.from, panel.to);
    let mut breaks = vec![from, to];
    let mut turns = |diagram: &Diagram, from: f64, to: f64| {
        let extremes = diagram.extremes(quantity, from, to);
        breaks.extend([from, to, extremes.largest.x, extremes.smallest.x]);
        breaks.extend(diagram.zeros(quantity, from, to));
    };
    turns(strong, from, to);
    for part in weak_panels.iter().filter(|p| p.to > from && p.from < to) {
        turns(weak, part.from.max(from), part.to.min(to));
    }
    breaks.sort_by(f64::total_cmp);
    breaks.dedup_by(|b, a| *b - *a < 1e-9 * (to - from));
    let at = |x: f64, side: Side| {
        let (strong, weak) = (strong.value(quantity, x, side), weak.value(quantity, x, side));
        Peak { at: x, strong, weak, value: value(x, strong, weak) }
    };
    let mut best: Option<Peak> = None;
    let mut offer = |new: Peak| {
        if best.is_none_or(|known| new.value.is_nan() || new.value > known.value * (1.0 + 1e-9)) {
            best = Some(new);
        }
    };
    for pair in breaks.windows(2) {
        let (start, end) = (at(pair[0], Side::Right), at(pair[1], Side::Left));
        let little = NOUGHT * (pair[1] - pair[0]);
        offer(start);
        if at(pair[0] + little, Side::Right).value > start.value && at(pair[1] - little, Side::Left).value > end.value {
            offer(climb(pair[0], pair[1], |x| at(x, Side::Right)));
        }
        offer(end);
    }
    best
}

/// The peak between two places, by golden section.
fn climb(mut from: f64, mut to: f64, at: impl Fn(f64) -> Peak) -> Peak {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    const STEPS: usize = 48;
    let (mut left, mut right) = (at(to - GOLDEN * (to - from)), at(from + GOLDEN * (to - from)));
    for _ in 0..STEPS {
        if left.value < right.value {
            from = left.at;
            left = right;
            right = at(from + GOLDEN * (to - from));
        } else {
            to = right.at;
            right = left;
            left = at(to - GOLDEN * (to - from));
        }
    }
    if left.value < right.value || right.value.is_nan() { right } else { left }
}

impl Search<'_> {
    /// In every panel the place where a check of both moments is worst.
    pub(super) fn both_moments(&self, at: &Instance<'_>, check: usize, visit: &mut impl FnMut(usize, Demand)) {
        let (Some(weak), Some(across)) = (at.across, &self.arranged.across) else { return };
        let zeros = self.zero_moments(at);
        for (i, panel) in self.arranged.panels.iter().enumerate() {
            let (top, bottom) = (self.held(i, true), self.held(i, false));
            let loaded = self.loaded(at, i, &[top, bottom]);
            let demand = |x: f64, strong: f64, weak: f64| {
                let held = if strong < 0.0 { bottom } else { top };
                Demand { between: between(&zeros, x), ..self.demand(at, i, x, Action::Moments { strong, weak, held, loaded }) }
            };
            // Without moments, and where the check does not apply, nothing is asked; what has no finite ratio is the peak.
            let ratio = |x: f64, strong: f64, weak: f64| {
                let asked = (strong != 0.0 || weak != 0.0).then(|| self.prepared.ratio(check, &demand(x, strong, weak)));
                asked.flatten().map_or(0.0, Utilization::value)
            };
            let found = peak(at.diagram, weak, Quantity::Moment, panel, &across.panels, ratio);
            if let Some(peak) = found.filter(|p| p.strong != 0.0 || p.weak != 0.0) {
                visit(panel.number, demand(peak.at, peak.strong, peak.weak));
            }
        }
    }

    /// In every panel the largest shear across the depth.
    pub(super) fn side_shears(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        let (Some(weak), Some(across)) = (at.across, &self.arranged.across) else { return };
        for (i, panel) in self.arranged.panels.iter().enumerate() {
            let extremes = weak.extremes(Quantity::Shear, panel.from, panel.to);
            let worst = if extremes.largest.value >= -extremes.smallest.value { extremes.largest } else { extremes.smallest };
            let near = |x: &f64| (x - worst.x).abs();
            let nearest = across.supports.iter().enumerate().min_by(|(_, a), (_, b)| near(a).total_cmp(&near(b)));
            if worst.value != 0.0 {
                let support = nearest.map_or(0, |(j, _)| j + 1);
                visit(panel.number, self.demand(at, i, worst.x, Action::SideShear { force: worst.value.abs(), support }));
            }
        }
    }
}
