//! The critical places of a member under a combination in a load set.

use super::{NOUGHT, Search};
use crate::analysis::{Diagram, Extremes, Panel, Quantity, Side};
use crate::codes::{Action, Clear, Demand, Held, LoadSet, Loaded, Places};
use crate::job::model::Case;

/// A combination in a load set, solved.
pub(super) struct Instance<'a> {
    pub factors: &'a [(Case, f64)],
    pub set: &'a LoadSet,
    pub diagram: &'a Diagram,
    /// Across the depth, on a member that leans.
    pub across: Option<&'a Diagram>,
    pub vertical: &'a [f64],
    pub time: f64,
}
impl Search<'_> {
    /// Every demand of a combination in a load set: check, place, demand.
    pub(super) fn demands(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, usize, Demand)) {
        for (check, about) in self.prepared.resolved().checks.iter().enumerate() {
            match about.places {
                Places::Moments => self.moments(at, &mut |place, demand| visit(check, place, demand)),
                Places::BothMoments => self.both_moments(at, check, &mut |place, demand| visit(check, place, demand)),
                Places::SideShears => self.side_shears(at, &mut |place, demand| visit(check, place, demand)),
                Places::Shears => self.shears(at, &mut |place, demand| visit(check, place, demand)),
                Places::Bearings => self.bearings(at, &mut |place, demand| visit(check, place, demand)),
                Places::Underfoot => self.underfoot(at, &mut |place, demand| visit(check, place, demand)),
                Places::Notches => self.notches(at, &mut |place, demand| visit(check, place, demand)),
                Places::Whole => self.whole(at, &mut |place, demand| visit(check, place, demand)),
                Places::Foot => self.foot(at, &mut |place, demand| visit(check, place, demand)),
                // What does not hang on a combination is looked at once.
                Places::Deflections | Places::Floors => {}
            }
        }
    }

    pub(super) fn demand(&self, at: &Instance<'_>, panel: usize, x: f64, action: Action) -> Demand {
        let statics = self.arranged.statics(at.factors, at.set).giving(&action);
        Demand {
            time: at.time,
            statics,
            panel: self.arranged.panels[panel].number,
            single: self.arranged.single(),
            at: x,
            between: 0.0,
            action,
        }
    }

    /// Where the moment about the strong axis is nought, the ends of the member among them; nothing where the code does not ask.
    pub(super) fn zero_moments(&self, at: &Instance<'_>) -> Vec<f64> {
        if !self.prepared.resolved().looks.zero_moments {
            return Vec::new();
        }
        let last = self.arranged.panels.last().map_or(0.0, |p| p.to);
        let mut zeros = at.diagram.zeros(Quantity::Moment, 0.0, last);
        zeros.extend([0.0, last]);
        zeros.sort_by(f64::total_cmp);
        zeros
    }

    fn moments(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        let extremes: Vec<Extremes> =
            self.arranged.panels.iter().map(|panel| at.diagram.extremes(Quantity::Moment, panel.from, panel.to)).collect();
        let zeros = self.zero_moments(at);
        let least = NOUGHT * extremes.iter().map(|e| e.largest.value.max(-e.smallest.value)).fold(0.0, f64::max);
        for (i, (panel, extremes)) in self.arranged.panels.iter().zip(&extremes).enumerate() {
            for (extreme, sign) in [(extremes.largest, 1.0), (extremes.smallest, -1.0)] {
                if extreme.value * sign > least {
                    let held = self.held(i, extreme.value > 0.0);
                    let loaded = self.loaded(at, i, &[held]);
                    let demand = self.demand(at, i, extreme.x, Action::Moment { moment: extreme.value, held, loaded });
                    visit(panel.number, Demand { between: between(&zeros, extreme.x), ..demand });
                }
            }
        }
    }

    /// How the edge that a moment compresses is held within a panel.
    pub(super) fn held(&self, panel: usize, top: bool) -> Held {
        let [of_top, of_bottom] = self.arranged.held[panel];
        if top { of_top } else { of_bottom }
    }

    /// How a panel is loaded, where the code asks and an edge may turn over, told from the diagram: even loads make the shear fall evenly
    /// from one end to the other.
    pub(super) fn loaded(&self, at: &Instance<'_>, panel: usize, held: &[Held]) -> Loaded {
        let panel = &self.arranged.panels[panel];
        if !self.prepared.resolved().looks.loaded || held.iter().all(|held| matches!(held, Held::Throughout(_))) {
            return Loaded { upward: false, evenly: false, overhang: panel.overhang, turned: false };
        }
        let shear = |x: f64, side| at.diagram.value(Quantity::Shear, x, side);
        let (left, right) = (shear(panel.from, Side::Right), shear(panel.to, Side::Left));
        // What stands on the free end of an overhang has no shear beyond it.
        let on_end = match panel.overhang {
            true if panel.number == 0 => -left,
            true => right,
            false => 0.0,
        };
        let pieces = || at.diagram.pieces.iter().filter(|p| p.from >= panel.from - 1e-6 && p.to <= panel.to + 1e-6);
        let load = pieces().next().map_or(0.0, |p| p.load.0[0]);
        let near = |a: f64, b: f64, size: f64| (a - b).abs() <= 1e-6 * size.abs();
        let size = left.abs().max(right.abs());
        let same = pieces().all(|p| near(p.load.0[0], load, load) && p.load.0[1..].iter().all(|c| *c == 0.0));
        let joined = pieces().zip(pieces().skip(1)).all(|(a, b)| near(a.shear.at(a.to - a.from), b.shear.at(0.0), size));
        let even = load != 0.0 && same && joined && near(on_end, 0.0, size);
        Loaded { upward: left - right + on_end < -NOUGHT * size, evenly: even, overhang: panel.overhang, turned: self.turned(at, panel) }
    }

    /// Whether a moment is applied to an overhang: the moment jumps there, or is not zero at the free end.
    fn turned(&self, at: &Instance<'_>, panel: &Panel) -> bool {
        if !panel.overhang {
            return false;
        }
        let e = at.diagram.extremes(Quantity::Moment, panel.from, panel.to);
        let least = NOUGHT * e.largest.value.max(-e.smallest.value);
        let (free, side) = if panel.number == 0 { (panel.from, Side::Right) } else { (panel.to, Side::Left) };
        let inside = |x: f64| x > panel.from + 1e-6 && x < panel.to - 1e-6;
        let jump = |x: f64| at.diagram.value(Quantity::Moment, x, Side::Right) - at.diagram.value(Quantity::Moment, x, Side::Left);
        let jumps = at.diagram.pieces.iter().map(|p| p.from).filter(|x| inside(*x)).any(|x| jump(x).abs() > least);
        jumps || at.diagram.value(Quantity::Moment, free, side).abs() > least
    }

    /// Half the bearing length of a support; nought where none is given.
    pub(super) fn face(&self, support: usize) -> f64 {
        self.member.bearing.as_ref().and_then(|b| b.get(support - 1)).map_or(0.0, |l| 0.5 * l.value.value())
    }

    fn bearings(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        let Some(bearing) = &self.member.bearing else { return };
        let last = self.arranged.panels.last().map_or(0.0, |p| p.to);
        // A member that leans bears along its depth.
        let forces = if at.across.is_some() { &at.diagram.reactions } else { at.vertical };
        for (i, (line, force)) in self.arranged.supports.iter().zip(forces).enumerate() {
            let Some(length) = bearing.get(i).map(|l| l.value.value()) else { continue };
            if *force > 0.0 {
                // The bearing length is level, the places run along the member.
                let to_end = (line.min(last - line) * self.arranged.cosine - 0.5 * length).max(0.0);
                let angle = 90.0 - self.arranged.angle;
                let clear = if self.prepared.resolved().looks.clear { self.clear(at, i, length) } else { Clear::default() };
                let action = Action::Bearing { force: *force, support: i + 1, length, to_end, clear, angle };
                let panel = self.arranged.panels.iter().position(|p| p.to >= *line).unwrap_or(0);
                visit(i + 1, self.demand(at, panel, *line, action));
            }
        }
    }

    /// Under what stands on the member, where it presses.
    fn underfoot(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        for (i, upon) in self.arranged.upon.iter().enumerate() {
            let force = upon.force(at.factors, at.set);
            if force > 0.0 {
                let action = Action::Underfoot { force, load: upon.load, to_end: upon.to_end, angle: 90.0 - self.arranged.angle };
                let panel = self.arranged.panels.iter().position(|p| p.to >= upon.at - 1e-6).unwrap_or(0);
                visit(i + 1, self.demand(at, panel, upon.at, action));
            }
        }
    }

    /// From a bearing to the nearest point load or the nearest other bearing on each side, level; a point load shows as a jump of the shear.
    /// What acts over the bearing itself leaves no room on either side.
    fn clear(&self, at: &Instance<'_>, support: usize, length: f64) -> Clear {
        let line = self.arranged.supports[support];
        let most = at.diagram.reactions.iter().map(|r| r.abs()).fold(0.0, f64::max);
        let reaction = |x: f64| self.arranged.supports.iter().position(|s| (s - x).abs() < 1e-6 * x.max(1.0));
        let [mut left, mut right] = [f64::INFINITY; 2];
        let mut offer = |x: f64, face: f64| {
            let clear = ((x - line).abs() * self.arranged.cosine - 0.5 * length - face).max(0.0);
            if x < line || clear == 0.0 {
                left = left.min(clear);
            }
            if x >= line || clear == 0.0 {
                right = right.min(clear);
            }
        };
        for (other, place) in self.arranged.supports.iter().enumerate().filter(|(i, _)| *i != support) {
            offer(*place, self.face(other + 1));
        }
        let first = at.diagram.pieces.first().map_or(0.0, |p| p.from);
        let last = at.diagram.pieces.last().map_or(0.0, |p| p.to);
        for x in at.diagram.pieces.iter().map(|p| p.from).chain([last]) {
            let before = if x > first { at.diagram.value(Quantity::Shear, x, Side::Left) } else { 0.0 };
            let after = if x < last { at.diagram.value(Quantity::Shear, x, Side::Right) } else { 0.0 };
            let force = reaction(x).map_or(0.0, |i| at.diagram.reactions[i]) - (after - before);
            if force.abs() > NOUGHT * most {
                offer(x, 0.0);
            }
        }
        let outer_is_left = line - first <= last - line;
        if outer_is_left { Clear { outer: left, inner: right } } else { Clear { outer: right, inner: left } }
    }
}

/// The length between the neighbouring points of zero moment; nought where none are known. At such a
/// point itself, where the moment jumps, the longer side.
pub(super) fn between(zeros: &[f64], x: f64) -> f64 {
    let near = 1e-9 * zeros.last().copied().unwrap_or(0.0);
    let before = zeros.iter().rev().find(|zero| **zero < x - near);
    let after = zeros.iter().find(|zero| **zero > x + near);
    let jump = zeros.iter().any(|zero| (zero - x).abs() <= near);
    match (before, after) {
        (Some(before), Some(after)) if jump => (x - before).max(after - x),
        (Some(before), Some(after)) => after - before,
        (Some(before), None) => x - before,
        (None, Some(after)) => after - x,
        (None, None) => 0.0,
    }
}
