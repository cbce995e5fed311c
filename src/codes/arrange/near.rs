//! Loads between a support and the shear section next to it, and the shear that is left when the code's rule is applied to them.
//!
//! Loads count net at one place, in each combination: only what presses down is left out (reading 52). What is hung on the side never is.

use super::beside::{AT_SECTION, Beside, LeftOut};
use super::slots::Setting;
use super::stand::{Arrangement, SAME_PLACE, standing, within};
use super::{Acting, Arranged, LoadSet, Way};
use crate::analysis::{Diagram, Panel, Quantity};
use crate::job::model::Case;

/// Concentrated loads at one place, by case; N, down positive.
struct Place {
    at: f64,
    /// The part of a load on the top that counts.
    part: f64,
    on_top: Vec<f64>,
    hung: Vec<f64>,
    /// The shear of a unit load here: at the support line, and at the section.
    unit: [f64; 2],
}

/// The loads between one end of a panel and its section.
pub(super) struct Near {
    /// From the support on.
    places: Vec<Place>,
    /// What lines hung on the side come to between the support line and the section, by case; N.
    hung_lines: Vec<f64>,
}

/// The loads near every end of a panel, by arrangement.
pub(super) struct AllNear(Vec<Vec<Near>>);

/// The largest shear between a support and the section next to it.
#[derive(Clone, Copy, Debug)]
pub struct Reduced {
    /// N, always positive.
    pub force: f64,
    /// Where.
    pub at: f64,
    /// Whether something was left out.
    pub reduced: bool,
}

impl AllNear {
    /// Collects the loads of so many cases.
    pub fn of(setting: &Setting<'_>, arrangements: &[Arrangement], cases: usize) -> Self {
        let of_side =
            |arrangement: Arrangement| setting.beside.iter().map(move |side| Near::of(setting, arrangement, side, cases)).collect();
        Self(arrangements.iter().map(|arrangement| of_side(*arrangement)).collect())
    }

    /// A unit load for every place: their diagrams go to [`AllNear::solved`].
    pub fn units(&self) -> Vec<Vec<Acting>> {
        let places = self.0.iter().flatten().flat_map(|near| &near.places);
        places.map(|place| vec![Acting::Point { at: place.at, force: 1.0 }]).collect()
    }

    /// Takes the shears of the unit loads.
    pub fn solved(&mut self, beside: &[Beside], units: &[Diagram]) {
        let mut units = units.iter();
        for of_sides in &mut self.0 {
            for (side, near) in beside.iter().zip(of_sides) {
                for (place, diagram) in near.places.iter_mut().zip(&mut units) {
                    place.unit = [side.line, side.section()].map(|x| diagram.value(Quantity::Shear, x, side.inward()));
                }
            }
        }
    }
}

impl Near {
    fn of(setting: &Setting<'_>, arrangement: Arrangement, side: &Beside, cases: usize) -> Self {
        let mut near = Self { places: Vec::new(), hung_lines: vec![0.0; cases] };
        if side.left_out == LeftOut::Nothing {
            return near;
        }
        let (from, to) = (side.line.min(side.section()), side.line.max(side.section()));
        let zone = Panel { number: 0, from, to, overhang: false };
        for applied in setting.applied.iter().filter(|a| a.way == Way::Down) {
            for load in standing(applied, arrangement, setting.panels) {
                match load {
                    Acting::Point { at, force } => {
                        let from_line = (at - side.line) * side.sign;
                        if from_line > SAME_PLACE && from_line <= side.left_out.length() + AT_SECTION {
                            near.add(at, side.left_out.part(from_line), (applied.case, applied.hung, force), cases);
                        }
                    }
                    Acting::Line { .. } if applied.hung => {
                        if let Some(Acting::Line { from, to, start, end }) = within(&load, &zone, &[]) {
                            near.hung_lines[applied.case.0] += 0.5 * (start + end) * (to - from);
                        }
                    }
                    Acting::Line { .. } | Acting::Moment { .. } => {}
                }
            }
        }
        near.places.sort_by(|a, b| ((a.at - b.at) * side.sign).total_cmp(&0.0));
        near
    }

    fn add(&mut self, at: f64, part: f64, (case, hung, force): (Case, bool, f64), cases: usize) {
        let known = self.places.iter().position(|place| (place.at - at).abs() <= SAME_PLACE);
        let known = known.unwrap_or_else(|| {
            self.places.push(Place { at, part, on_top: vec![0.0; cases], hung: vec![0.0; cases], unit: [0.0; 2] });
            self.places.len() - 1
        });
        let place = &mut self.places[known];
        let by_case = if hung { &mut place.hung } else { &mut place.on_top };
        by_case[case.0] += force;
    }
}

impl Place {
    /// What acts here all in all, and how much of it is left out; nothing where the net force is upward.
    fn net(&self, weights: &[(Case, f64)]) -> (f64, f64) {
        let sum = |by_case: &[f64]| weights.iter().map(|(case, weight)| weight * by_case[case.0]).sum::<f64>();
        let (on_top, all) = (sum(&self.on_top), sum(&self.on_top) + sum(&self.hung));
        (all, (1.0 - self.part) * on_top.min(all).max(0.0))
    }
}

impl Arranged {
    /// The largest shear between a support and the section next to it, with what the code leaves out there; none where nothing is left
    /// out in this combination, so that V counts from the support line on. It is never above the whole shear (reading 52).
    pub fn reduced_shear(&self, diagram: &Diagram, factors: &[(Case, f64)], set: &LoadSet, side: usize) -> Option<Reduced> {
        let (near, side) = (&self.near.0[set.arrangement][side], &self.beside[side]);
        let weights: Vec<(Case, f64)> = factors.iter().map(|(case, factor)| (*case, self.part(*case, side.panel, set) * factor)).collect();
        match side.left_out {
            LeftOut::Nothing => None,
            LeftOut::WithinDepth { .. } => Some(near.at_section(diagram, &weights, side)),
            LeftOut::Concentrated { .. } => near.without_concentrated(diagram, &weights, side),
        }
    }
}

impl Near {
    /// The shear at the section: all loads between it and the support stand beyond it with the part that counts.
    fn at_section(&self, diagram: &Diagram, weights: &[(Case, f64)], side: &Beside) -> Reduced {
        let section = side.section();
        let mut shear = diagram.value(Quantity::Shear, section, side.inward());
        for place in &self.places {
            let (all, left_out) = place.net(weights);
            if all > 0.0 {
                shear += (all - left_out) * place.unit[0] - all * place.unit[1];
            }
        }
        let hung: f64 = weights.iter().map(|(case, weight)| weight * self.hung_lines[case.0]).sum();
        shear += side.sign * hung.max(0.0);
        let whole = largest(diagram, side.line, section, 0.0);
        if shear.abs() <= whole.force * (1.0 + 1e-9) { Reduced { force: shear.abs(), at: section, reduced: true } } else { whole }
    }

    /// The largest shear when the concentrated loads between it and the section are left out.
    fn without_concentrated(&self, diagram: &Diagram, weights: &[(Case, f64)], side: &Beside) -> Option<Reduced> {
        let removed: Vec<(f64, f64)> = self.places.iter().map(|place| (place.at, place.net(weights).1 * place.unit[0])).collect();
        if removed.iter().all(|(_, shear)| *shear == 0.0) {
            return None;
        }
        let mut from = side.line;
        let mut best: Option<Reduced> = None;
        for (i, to) in removed.iter().map(|(at, _)| *at).chain([side.section()]).enumerate() {
            let beyond: f64 = removed[i..].iter().map(|(_, shear)| shear).sum();
            let (whole, less) = (largest(diagram, from, to, 0.0), largest(diagram, from, to, beyond));
            let here = if less.force < whole.force { less } else { whole };
            if (to - from) * side.sign > 0.0 && best.is_none_or(|best| here.force > best.force * (1.0 + 1e-9)) {
                best = Some(here);
            }
            from = to;
        }
        best
    }
}

/// The largest shear of either sign on a stretch, less a part that is the same all along it.
fn largest(diagram: &Diagram, from: f64, to: f64, less: f64) -> Reduced {
    let extremes = diagram.extremes(Quantity::Shear, from, to);
    let [most, least] =
        [extremes.largest, extremes.smallest].map(|e| Reduced { force: (e.value - less).abs(), at: e.x, reduced: less != 0.0 });
    if most.force >= least.force { most } else { least }
}
