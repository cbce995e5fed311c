//! Notches: shear at each, and bending of what is left of the section along it.

use super::Search;
use super::places::{Instance, between};
use crate::analysis::{At, Quantity};
use crate::codes::{Action, Bends, Beside, Demand, Notched};
use crate::job::model::{End, Notch, NotchPlace};

impl Search<'_> {
    /// The notch over an end support.
    pub(super) fn notch_at(&self, support: usize) -> Option<&Notch> {
        self.member.notches.iter().find(|n| match n.at {
            NotchPlace::End(End::Left) => support == 1 && self.member.spans.left.is_zero(),
            NotchPlace::End(End::Right) => support == self.arranged.supports.len() && self.member.spans.right.is_zero(),
            NotchPlace::At(_) => false,
        })
    }

    /// From a support line to the corner of the notch at that end of the member; negative where it ends before the line (reading 16: a
    /// notch is measured along the member from its end, half a bearing beyond the line).
    pub(super) fn corner(&self, notch: &Notch, support: usize) -> f64 {
        notch.length.value() - self.face(support)
    }

    pub(super) fn notches(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        for side in &self.arranged.beside {
            if let Some(notch) = self.notch_at(side.support) {
                self.end_notch(at, side, notch, visit);
            }
        }
        for (i, notch) in self.member.notches.iter().enumerate() {
            if let NotchPlace::At(place) = &notch.at {
                let place_number = self.arranged.supports.len() + i + 1;
                self.inner_notch(at, notch, place.value.value() / self.arranged.cosine, &mut |demand| visit(place_number, demand));
            }
        }
    }

    /// A notch over an end support: the shear at the support line; where it reaches past the bearing, the moment up to its corner
    /// (reading 55).
    fn end_notch(&self, at: &Instance<'_>, side: &Beside, notch: &Notch, visit: &mut impl FnMut(usize, Demand)) {
        let force = at.diagram.value(Quantity::Shear, side.line, side.inward()).abs();
        let upward = at.diagram.reactions[side.support - 1] < 0.0;
        let (corner, face) = (self.corner(notch, side.support), self.face(side.support));
        let beyond = (corner - face).max(0.0);
        let bends = || self.bends(at, side.panel, side.line, side.line + side.sign * corner);
        let (bends, between) = (beyond > 0.0).then(bends).unzip();
        let notched = Notched {
            tension: notch.bottom != upward,
            depth: notch.depth.value.value(),
            beyond,
            from_line: corner.max(0.0),
            at_support: true,
        };
        let action = Action::Notch { force, support: side.support, bends, notch: notched };
        let demand = self.demand(at, side.panel, side.line, action);
        visit(side.support, Demand { between: between.unwrap_or(0.0), ..demand });
    }

    /// A notch around a place, panel by panel, with the largest shear and moment along it. Over a support both sides are looked at, and
    /// the edge that the support presses on counts as the tension edge.
    fn inner_notch(&self, at: &Instance<'_>, notch: &Notch, place: f64, visit: &mut impl FnMut(Demand)) {
        let half = 0.5 * notch.length.value();
        for (i, panel) in self.arranged.panels.iter().enumerate() {
            let (from, to) = ((place - half).max(panel.from), (place + half).min(panel.to));
            if to <= from {
                continue;
            }
            let e = at.diagram.extremes(Quantity::Shear, from, to);
            let force = e.largest.value.abs().max(e.smallest.value.abs());
            let (bends, between) = self.bends(at, i, from, to);
            let support = self.notched_support(i, from, to);
            let upward = support.is_some_and(|side| at.diagram.reactions[side.support - 1] < 0.0);
            let by_support = support.is_some() && notch.bottom != upward;
            let corner = support.map(|side| ((from - side.line) * side.sign).max((to - side.line) * side.sign));
            let notched = Notched {
                tension: by_support || notch.bottom == (bends.moment > 0.0),
                depth: notch.depth.value.value(),
                beyond: f64::INFINITY,
                from_line: corner.unwrap_or(place),
                at_support: support.is_some(),
            };
            let x = support.map_or(place.clamp(from, to), |side| side.line);
            let action = Action::Notch { force, support: 0, bends: Some(bends), notch: notched };
            visit(Demand { between, ..self.demand(at, i, x, action) });
        }
    }

    /// The support whose bearing a notch overlaps, seen from a panel.
    fn notched_support(&self, panel: usize, from: f64, to: f64) -> Option<&Beside> {
        let overlaps = |side: &&Beside| {
            let near = ((from - side.line) * side.sign).min((to - side.line) * side.sign);
            near <= self.face(side.support) + 1e-6
        };
        self.arranged.beside.iter().filter(|side| side.panel == panel).find(overlaps)
    }

    /// The largest moment on a stretch of a panel, and the length between the points of zero moment around it.
    fn bends(&self, at: &Instance<'_>, panel: usize, from: f64, to: f64) -> (Bends, f64) {
        let e = at.diagram.extremes(Quantity::Moment, from, to);
        let At { x, value: moment } = if e.largest.value.abs() >= e.smallest.value.abs() { e.largest } else { e.smallest };
        let held = self.held(panel, moment > 0.0);
        (Bends { moment, held, loaded: self.loaded(at, panel, &[held]) }, between(&self.zero_moments(at), x))
    }
}
