//! Posts, studs and ties: the force along the member with the largest moments that act with it.

use super::Search;
use super::places::Instance;
use crate::analysis::{Diagram, Quantity};
use crate::codes::{Action, Bent, Demand};
use crate::job::model::Use;

impl Search<'_> {
    /// The member as a whole: the greatest moments of the two axes are taken together, wherever they are (reading 10).
    pub(super) fn whole(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        if let Some((action, x)) = self.pressed(at) {
            let panel = self.arranged.panels.first().map_or(1, |p| p.number);
            visit(panel, self.demand(at, 0, x, action));
        }
    }

    /// The foot of a post or stud, where it presses.
    pub(super) fn foot(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        let Some((Action::Along { force, .. }, _)) = self.pressed(at) else { return };
        if force > 0.0 && self.member.role.is_upright() {
            let action = Action::Along { force, strong: Bent::default(), weak: Bent::default() };
            visit(1, self.demand(at, 0, 0.0, action));
        }
    }

    /// Force and moments, and the place of the largest moment about the strong axis; none on members that span.
    fn pressed(&self, at: &Instance<'_>) -> Option<(Action, f64)> {
        let along = self.arranged.along.as_ref()?;
        let length = self.arranged.panels.last().map_or(0.0, |p| p.to);
        let largest = |diagram: &Diagram| {
            let extremes = diagram.extremes(Quantity::Moment, 0.0, length);
            if extremes.largest.value >= -extremes.smallest.value { extremes.largest } else { extremes.smallest }
        };
        let strong = largest(at.diagram);
        let weak = at.across.map_or(0.0, |diagram| largest(diagram).value);
        let pull = if self.member.role == Use::Tie { -1.0 } else { 1.0 };
        let force = pull * along.force(at.factors, at.set);
        let bent = |side: f64, axis| Bent { side: side.abs(), eccentric: along.eccentric(at.factors, at.set, axis) };
        Some((Action::Along { force, strong: bent(strong.value, 0), weak: bent(weak, 1) }, strong.x))
    }
}
