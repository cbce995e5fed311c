//! Deflections against their limits, in every panel.

use super::both::peak;
use super::{Deflected, Found, Lost, Search};
use crate::analysis::{Panel, Quantity};
use crate::codes::{Action, DeflectionCase, Demand, LoadSet, NO_PARTS, Part, Parts, Places, Statics, Time};
use crate::job::model::{Case, DeflectionLimit, Nature};

/// What a deflection may be, mm, and how it was said.
pub(super) type Limit = (f64, Option<(f64, f64)>);

/// The largest deflection of a panel so far: mm, where, in which load set; its parts along and across the depth of a member that leans.
#[derive(Clone, Copy)]
pub(super) struct Best {
    pub value: f64,
    pub at: f64,
    pub set: usize,
    pub parts: Option<(f64, f64)>,
}

impl Best {
    /// What is not a number is larger than all that is.
    fn is_larger(&self, other: &Self) -> bool {
        self.value.is_nan() || self.value.abs() > other.value.abs() * (1.0 + 1e-9)
    }
}

/// The largest deflections of every panel in one load set.
pub(super) struct Largest {
    pub set: usize,
    pub of_panels: Vec<Option<Best>>,
}

/// What a deflection may be in a panel, and how it was said: the denominator and the length it divides.
pub(super) fn limit_of(case: &DeflectionCase, panel: &Panel) -> Option<Limit> {
    let length = (panel.to - panel.from) * if panel.overhang { 2.0 } else { 1.0 };
    match case.limit {
        Some(DeflectionLimit::SpanOver(n)) => Some((length / n, Some((n, length)))),
        Some(DeflectionLimit::Length(l)) => Some((l.value(), None)),
        Some(DeflectionLimit::Off) | None => None,
    }
}

impl Search<'_> {
    /// The largest deflections of a case, in every load set that makes a difference to it.
    pub(super) fn largest_of(&self, case: &DeflectionCase) -> Vec<Largest> {
        let in_set = |(set, _)| Largest { set, of_panels: self.largest_deflections(&case.factors, set) };
        self.sets_within(&case.factors, case.within.as_deref()).map(in_set).collect()
    }

    /// All deflections, and of each panel the one that is worst against its limit, worked.
    pub(super) fn deflections(&self, cases: &[DeflectionCase], largest: &[Vec<Largest>]) -> (Vec<Deflected>, Vec<Found>) {
        let checks = &self.prepared.resolved().checks;
        let check = checks.iter().position(|c| c.places == Places::Deflections);
        let (mut deflected, mut found): (Vec<Deflected>, Vec<Found>) = (Vec::new(), Vec::new());
        for (case, largest) in cases.iter().zip(largest) {
            let mut best: Vec<Option<Best>> = vec![None; self.arranged.panels.len()];
            for in_set in largest {
                for (known, new) in best.iter_mut().zip(&in_set.of_panels) {
                    if new.is_some_and(|new| known.is_none_or(|known| new.is_larger(&known))) {
                        *known = *new;
                    }
                }
            }
            for (panel, best) in self.arranged.panels.iter().zip(best) {
                let Some(best) = best.filter(|b| b.value != 0.0) else { continue };
                let Best { value, at, set, .. } = best;
                let limit = limit_of(case, panel);
                if let (Some(check), Some(limit)) = (check, limit) {
                    let set = &self.arranged.sets[set];
                    let demand = self.deflected(case, &case.factors, panel, best, limit);
                    let time = Time { factor: 1.0, because: case.reference.clone() };
                    if let Some(ratio) = self.prepared.ratio(check, &demand) {
                        found.push(Found {
                            about: checks[check],
                            place: panel.number,
                            combination: case.combination.clone(),
                            load_set: set.words.clone(),
                            mask: set.mask,
                            demand,
                            made_of: self.made_of(&demand, &case.factors, set),
                            ratio,
                            worked: self.prepared.worked(check, &demand, &time),
                            time,
                            read: Vec::new(),
                            leading: false,
                            others: Vec::new(),
                        });
                    }
                }
                deflected.push(Deflected { case: case.clone(), panel: panel.number, at, value, limit });
            }
        }
        // Of each panel the worst stands among the checks; all stand among the deflections.
        found.sort_by_key(|one| std::cmp::Reverse(one.ratio));
        let mut seen = Vec::new();
        let rest: Vec<Lost> = found.iter().skip(1).map(|f| self.deflection_lost(f)).collect();
        found.retain(|f| {
            let new = !seen.contains(&f.place);
            seen.push(f.place);
            new
        });
        if let Some(first) = found.first_mut() {
            first.leading = true;
            first.others = rest;
        }
        (deflected, found)
    }

    /// What each nature adds, unfactored, at a place in a load set.
    fn parts(&self, case: &DeflectionCase, grown: &[(Case, f64)], set: &LoadSet, at: f64) -> Parts {
        let mut parts = NO_PARTS;
        for (part, nature) in parts.iter_mut().zip(Nature::ALL) {
            let of_nature = case.factors.iter().zip(grown).filter(|((c, _), _)| self.job.basis.nature(*c) == nature);
            // As given, or grown by as much as its factor is.
            let factors: Vec<(Case, f64)> =
                of_nature.map(|((c, as_given), (_, now))| (*c, if now == as_given { 1.0 } else { now / as_given })).collect();
            if !factors.is_empty() {
                let value = self.arranged.deflection_at(&factors, set, at);
                // Closed forms are those of mid-span; where other actions draw the place aside, the diagram has it.
                let statics = match self.arranged.panels.as_slice() {
                    [panel] if (at - 0.5 * (panel.from + panel.to)).abs() < 1e-6 * panel.to => self.arranged.statics(&factors, set),
                    _ => Statics::Diagram,
                };
                *part = Part { deflection: value / self.prepared.resolved().rigidity, statics };
            }
        }
        parts
    }

    /// The largest deflection of every panel in one load set.
    pub(super) fn largest_deflections(&self, factors: &[(Case, f64)], set: usize) -> Vec<Option<Best>> {
        let (rigidity, rigidity_across) = (self.prepared.resolved().rigidity, self.prepared.resolved().rigidity_across);
        let diagram = self.arranged.deflected(factors, &self.arranged.sets[set]);
        let across = self.arranged.deflected_across(factors, &self.arranged.sets[set]);
        let of_panel = |panel: &Panel| {
            if let (Some(weak), Some(across)) = (&across, &self.arranged.across) {
                let both = |_, strong: f64, weak: f64| libm::hypot(strong / rigidity, weak / rigidity_across);
                let peak = peak(&diagram, weak, Quantity::Deflection, panel, &across.panels, both)?;
                let parts = Some((seen(peak.strong / rigidity), seen(peak.weak / rigidity_across)));
                return Some(Best { value: peak.value, at: peak.at, set, parts });
            }
            let extremes = diagram.extremes(Quantity::Deflection, panel.from, panel.to);
            let [down, up] = [extremes.largest, extremes.smallest].map(|e| Best { value: e.value / rigidity, at: e.x, set, parts: None });
            Some(if up.is_larger(&down) { up } else { down })
        };
        self.arranged.panels.iter().map(of_panel).collect()
    }

    /// The demand of a deflection under these factors.
    pub(super) fn deflected(
        &self,
        case: &DeflectionCase,
        factors: &[(Case, f64)],
        panel: &Panel,
        best: Best,
        (limit, limit_as): Limit,
    ) -> Demand {
        let Best { value, at, set, parts } = best;
        let (what, leading, overhang) = (case.what, case.leading, panel.overhang);
        let by_nature = if self.prepared.resolved().looks.parts && case.by_nature {
            self.parts(case, factors, &self.arranged.sets[set], at)
        } else {
            NO_PARTS
        };
        let action = Action::Deflection { deflection: value, parts, limit, limit_as, what, by_nature, leading, overhang };
        let closed_form = !panel.overhang && parts.is_none();
        Demand {
            time: 1.0,
            statics: if closed_form { self.arranged.statics(factors, &self.arranged.sets[set]) } else { Statics::Diagram },
            panel: panel.number,
            single: self.arranged.single(),
            at,
            between: 0.0,
            action,
        }
    }

    fn deflection_lost(&self, found: &Found) -> Lost {
        let what = match found.demand.action {
            Action::Deflection { what, .. } => what.word(),
            _ => "",
        };
        let place =
            if self.arranged.single() { String::new() } else { format!(", {}", self.place_in_words(Places::Deflections, found.place)) };
        Lost { what: format!("{what}, {}{place}", found.combination), ratio: found.ratio }
    }
}

/// A deflection as it can be seen: at a support, rounding leaves some 1e-16 mm of it.
fn seen(deflection: f64) -> f64 {
    if deflection.abs() < 1e-9 { 0.0 } else { deflection }
}
