//! The critical places of a member under a combination in a load set.

use super::{NOUGHT, Search};
use crate::analysis::{Diagram, Extremes, Quantity, Side};
use crate::codes::arrange::inward;
use crate::codes::{Action, Demand, Held, LoadSet, Loaded, Notched, Places, Statics};
use crate::job::model::{Case, End, Notch, NotchPlace};

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
        let statics = self.arranged.statics(at.factors, at.set);
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
            return Loaded { upward: false, evenly: false, overhang: panel.overhang };
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
        Loaded { upward: left - right + on_end < -NOUGHT * size, evenly: even, overhang: panel.overhang }
    }

    fn shears(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        for (i, side) in self.arranged.beside.iter().enumerate() {
            let uplift = at.diagram.reactions[side.support - 1] < 0.0;
            let notched = self.notch_at(side.support).is_some();
            let full = at.diagram.value(Quantity::Shear, side.line, inward(side));
            let reduced = side.section != side.line && !uplift && !notched;
            let near = || self.arranged.near(at.factors, at.set, i);
            let left_out = if side.left_out > 0.0 && !uplift && !notched { near() } else { 0.0 };
            let force = if reduced { at.diagram.value(Quantity::Shear, side.section, inward(side)) + near() } else { full + left_out };
            let face = if side.section == side.line { 0.0 } else { self.face(side.support) };
            let section = if reduced { side.section } else { side.line };
            let reduced = reduced || left_out != 0.0;
            let action = Action::Shear { force: force.abs(), full: full.abs(), support: side.support, face, reduced };
            let mut demand = self.demand(at, side.panel, section, action);
            let section = if left_out == 0.0 { section } else { side.line + side.sign * side.left_out };
            if left_out != 0.0 {
                demand.statics = Statics::Diagram;
            }
            // Loads that pull upward within the span may leave more shear there than beside the support.
            let panel = &self.arranged.panels[side.panel];
            let (a, b) = if side.sign > 0.0 { (section, 0.5 * (panel.from + panel.to)) } else { (0.5 * (panel.from + panel.to), section) };
            if b > a {
                let extremes = at.diagram.extremes(Quantity::Shear, a, b);
                for extreme in [extremes.largest, extremes.smallest] {
                    if extreme.value.abs() > force.abs() * (1.0 + 1e-9) {
                        let force = extreme.value.abs();
                        let action = Action::Shear { force, full: full.abs(), support: side.support, face, reduced: false };
                        demand = Demand { at: extreme.x, statics: Statics::Diagram, action, ..demand };
                    }
                }
            }
            visit(panel.number, demand);
        }
    }

    /// Half the bearing length of a support; nought where none is given.
    fn face(&self, support: usize) -> f64 {
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
                let clear = if self.prepared.resolved().looks.clear { self.clear(at, i, length) } else { 0.0 };
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

    /// From a bearing to the nearest point load or the nearest other bearing, level; a point load shows as a jump of the shear.
    fn clear(&self, at: &Instance<'_>, support: usize, length: f64) -> f64 {
        let line = self.arranged.supports[support];
        let most = at.diagram.reactions.iter().map(|r| r.abs()).fold(0.0, f64::max);
        let reaction = |x: f64| self.arranged.supports.iter().position(|s| (s - x).abs() < 1e-6 * x.max(1.0));
        let mut clear = f64::INFINITY;
        for (other, place) in self.arranged.supports.iter().enumerate().filter(|(i, _)| *i != support) {
            clear = clear.min((place - line).abs() * self.arranged.cosine - 0.5 * length - self.face(other + 1));
        }
        let first = at.diagram.pieces.first().map_or(0.0, |p| p.from);
        let last = at.diagram.pieces.last().map_or(0.0, |p| p.to);
        for x in at.diagram.pieces.iter().map(|p| p.from).chain([last]) {
            let before = if x > first { at.diagram.value(Quantity::Shear, x, Side::Left) } else { 0.0 };
            let after = if x < last { at.diagram.value(Quantity::Shear, x, Side::Right) } else { 0.0 };
            let force = reaction(x).map_or(0.0, |i| at.diagram.reactions[i]) - (after - before);
            if force.abs() > NOUGHT * most {
                clear = clear.min((x - line).abs() * self.arranged.cosine - 0.5 * length);
            }
        }
        clear.max(0.0)
    }

    /// The notch over an end support.
    fn notch_at(&self, support: usize) -> Option<&Notch> {
        self.member.notches.iter().find(|n| match n.at {
            NotchPlace::End(End::Left) => support == 1 && self.member.spans.left.is_zero(),
            NotchPlace::End(End::Right) => support == self.arranged.supports.len() && self.member.spans.right.is_zero(),
            NotchPlace::At(_) => false,
        })
    }

    fn notches(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        for side in &self.arranged.beside {
            let Some(notch) = self.notch_at(side.support) else { continue };
            let force = at.diagram.value(Quantity::Shear, side.line, inward(side)).abs();
            let upward = at.diagram.reactions[side.support - 1] < 0.0;
            let long = notch.length.value() / self.arranged.cosine;
            let face = self.face(side.support);
            let (beyond, from_line) = ((long - 2.0 * face).max(0.0), (long - face).max(0.0));
            let notch = Notched { tension: notch.bottom != upward, depth: notch.depth.value.value(), beyond, from_line };
            let action = Action::Notch { force, support: side.support, bent: None, notch };
            visit(side.support, self.demand(at, side.panel, side.line, action));
        }
        if self.prepared.resolved().looks.inner_notches {
            self.inner_notches(at, visit);
        }
    }

    /// Notches between the ends, with the largest shear and moment along them. Over a support the edge that it bears counts as stretched.
    fn inner_notches(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        let last = self.arranged.panels.last().map_or(0.0, |p| p.to);
        for (i, notch) in self.member.notches.iter().enumerate() {
            let NotchPlace::At(place) = &notch.at else { continue };
            let (x, half) = (place.value.value() / self.arranged.cosine, 0.5 * notch.length.value() / self.arranged.cosine);
            let (from, to) = ((x - half).max(0.0), (x + half).min(last));
            let most = |quantity| {
                let e = at.diagram.extremes(quantity, from, to);
                if e.largest.value.abs() >= e.smallest.value.abs() { e.largest.value } else { e.smallest.value }
            };
            let (force, moment) = (most(Quantity::Shear).abs(), most(Quantity::Moment));
            let over_support = notch.bottom && self.arranged.supports.iter().any(|s| (from..=to).contains(s));
            let tension = over_support || notch.bottom == (moment > 0.0);
            let panel = self.arranged.panels.iter().position(|p| p.to >= x).unwrap_or(0);
            let notched = Notched { tension, depth: notch.depth.value.value(), beyond: f64::INFINITY, from_line: x };
            let bent = Some((moment, self.held(panel, moment > 0.0)));
            let action = Action::Notch { force, support: 0, bent, notch: notched };
            let demand = self.demand(at, panel, x, action);
            visit(self.arranged.supports.len() + i + 1, Demand { statics: Statics::Diagram, ..demand });
        }
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
