//! Shear: in every panel the whole length between its shear sections, and next to every support what the code leaves of it.

use super::Search;
use super::places::Instance;
use crate::analysis::{At, Quantity, Side};
use crate::codes::{Action, Demand};

impl Search<'_> {
    /// In every panel: the reduced shear next to a support, where something is left out there, and the largest shear on the rest.
    ///
    /// Next to a support that pulls the member down nothing is left out. At a notched end shear belongs to the check of the notch, and
    /// the whole section begins at its corner (reading 62).
    pub(super) fn shears(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        for (index, panel) in self.arranged.panels.iter().enumerate() {
            let (mut from, mut to) = (panel.from, panel.to);
            let mut most: Option<f64> = None;
            for (i, side) in self.arranged.beside.iter().enumerate().filter(|(_, side)| side.panel == index) {
                let section = if let Some(notch) = self.notch_at(side.support) {
                    side.line + side.sign * self.corner(notch, side.support).max(self.face(side.support))
                } else if at.diagram.reactions[side.support - 1] < 0.0 {
                    continue;
                } else {
                    let Some(found) = self.arranged.reduced_shear(at.diagram, at.factors, at.set, i) else { continue };
                    most = Some(most.unwrap_or(0.0).max(found.force));
                    let face = if found.reduced { self.face(side.support) } else { 0.0 };
                    visit(panel.number, self.shear(at, index, At { x: found.at, value: found.force }, side.support, face, found.reduced));
                    side.section()
                };
                if side.sign > 0.0 {
                    from = section;
                } else {
                    to = section;
                }
            }
            if to <= from {
                continue;
            }
            let largest = self.largest_shear(at, from, to);
            if most.is_none_or(|most| largest.value > most * (1.0 + 1e-9)) {
                let near = |(_, line): &(usize, &f64)| (*line - largest.x).abs();
                let nearest = self.arranged.supports.iter().enumerate().min_by(|a, b| near(a).total_cmp(&near(b)));
                visit(panel.number, self.shear(at, index, largest, nearest.map_or(1, |(i, _)| i + 1), 0.0, false));
            }
        }
    }

    /// The largest shear on a stretch, always positive; of equals the one at an end of it, from the left.
    fn largest_shear(&self, at: &Instance<'_>, from: f64, to: f64) -> At {
        let ends = [(from, Side::Right), (to, Side::Left)].map(|(x, side)| At { x, value: at.diagram.value(Quantity::Shear, x, side) });
        let extremes = at.diagram.extremes(Quantity::Shear, from, to);
        let all = ends.into_iter().chain([extremes.largest, extremes.smallest]).map(|found| At { value: found.value.abs(), ..found });
        let worse = |best: At, next: At| if next.value > best.value * (1.0 + 1e-9) { next } else { best };
        all.reduce(worse).unwrap_or(At { x: from, value: 0.0 })
    }

    fn shear(&self, at: &Instance<'_>, panel: usize, found: At, support: usize, face: f64, reduced: bool) -> Demand {
        let from_line = self.arranged.supports.get(support - 1).map_or(0.0, |line| (found.x - line).abs());
        self.demand(at, panel, found.x, Action::Shear { force: found.value, support, from_line, face, reduced })
    }
}
