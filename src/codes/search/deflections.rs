//! Deflections against their limits, in every panel.

use super::both::peak;
use super::{Deflected, Found, Lost, Search};
use crate::analysis::{Quantity, Side};
use crate::codes::{Action, DeflectionCase, Demand, LoadSet, NO_PARTS, Part, Parts, Places, Statics, Time};
use crate::job::model::{Case, DeflectionLimit, Nature};

/// The largest deflection of a panel so far: mm, where, in which load set; its parts along and across the depth of a member that leans.
#[derive(Clone, Copy)]
struct Best {
    value: f64,
    at: f64,
    set: usize,
    parts: Option<(f64, f64)>,
}

impl Search<'_> {
    /// All deflections, and of each panel the one that is worst against its limit, worked.
    pub(super) fn deflections(&self) -> (Vec<Deflected>, Vec<Found>) {
        let (rigidity, rigidity_across) = (self.prepared.rigidity(), self.prepared.rigidity_across());
        let checks = self.prepared.checks();
        let check = checks.iter().position(|c| c.places == Places::Deflections);
        let (mut deflected, mut found): (Vec<Deflected>, Vec<Found>) = (Vec::new(), Vec::new());
        for case in self.prepared.deflections(&self.arranged.present) {
            let mut best: Vec<Option<Best>> = vec![None; self.arranged.panels.len()];
            for (j, set) in self.sets_of(&case.factors) {
                let diagram = self.arranged.deflected(&case.factors, set);
                let across = self.arranged.deflected_across(&case.factors, set);
                for (i, panel) in self.arranged.panels.iter().enumerate() {
                    let mut offer = |value: f64, at: f64, parts| {
                        if best[i].is_none_or(|b| value.abs() > b.value.abs() * (1.0 + 1e-9)) {
                            best[i] = Some(Best { value, at, set: j, parts });
                        }
                    };
                    if let (Some(weak), Some(across)) = (&across, &self.arranged.across) {
                        let both = |_, strong: f64, weak: f64| libm::hypot(strong / rigidity, weak / rigidity_across);
                        if let Some(peak) = peak(&diagram, weak, Quantity::Deflection, panel, &across.panels, both) {
                            offer(peak.value, peak.at, Some((peak.strong / rigidity, peak.weak / rigidity_across)));
                        }
                        continue;
                    }
                    let extremes = diagram.extremes(Quantity::Deflection, panel.from, panel.to);
                    for extreme in [extremes.largest, extremes.smallest] {
                        offer(extreme.value / rigidity, extreme.x, None);
                    }
                }
            }
            for (panel, best) in self.arranged.panels.iter().zip(best) {
                let Some(Best { value, at, set, parts }) = best.filter(|b| b.value.abs() > 0.0) else { continue };
                let length = (panel.to - panel.from) * if panel.overhang { 2.0 } else { 1.0 };
                let limit = match case.limit {
                    Some(DeflectionLimit::SpanOver(n)) => Some((length / n, Some((n, length)))),
                    Some(DeflectionLimit::Length(l)) => Some((l.value(), None)),
                    Some(DeflectionLimit::Off) | None => None,
                };
                if let (Some(check), Some((limit, limit_as))) = (check, limit) {
                    let set = &self.arranged.sets[set];
                    let (what, leading, overhang) = (case.what, case.leading, panel.overhang);
                    let by_nature = self.parts(&case, set, at);
                    let action = Action::Deflection { deflection: value, parts, limit, limit_as, what, by_nature, leading, overhang };
                    let demand = Demand {
                        time: 1.0,
                        statics: if panel.overhang || parts.is_some() {
                            Statics::Diagram
                        } else {
                            self.arranged.statics(&case.factors, set)
                        },
                        panel: panel.number,
                        single: self.arranged.single(),
                        at,
                        between: 0.0,
                        action,
                    };
                    let time = Time { factor: 1.0, because: case.reference.clone() };
                    if let Some(ratio) = self.prepared.ratio(check, &demand) {
                        found.push(Found {
                            about: checks[check],
                            place: panel.number,
                            combination: case.combination.clone(),
                            load_set: set.words.clone(),
                            mask: set.mask,
                            demand,
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
        found.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
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
    fn parts(&self, case: &DeflectionCase, set: &LoadSet, at: f64) -> Parts {
        let mut parts = NO_PARTS;
        for (part, nature) in parts.iter_mut().zip(Nature::ALL) {
            let of_nature = case.factors.iter().map(|(case, _)| *case).filter(|c| self.job.basis.cases[c.0].nature == nature);
            let factors: Vec<(Case, f64)> = of_nature.map(|c| (c, 1.0)).collect();
            if !factors.is_empty() {
                let value = self.arranged.deflected(&factors, set).value(Quantity::Deflection, at, Side::Left);
                // Closed forms are those of mid-span; where other actions draw the place aside, the diagram has it.
                let statics = match self.arranged.panels.as_slice() {
                    [panel] if (at - 0.5 * (panel.from + panel.to)).abs() < 1e-6 * panel.to => self.arranged.statics(&factors, set),
                    _ => Statics::Diagram,
                };
                *part = Part { deflection: value / self.prepared.rigidity(), statics };
            }
        }
        parts
    }

    fn deflection_lost(&self, found: &Found) -> Lost {
        let what = match found.demand.action {
            Action::Deflection { what, .. } => what,
            _ => "",
        };
        let place =
            if self.arranged.single() { String::new() } else { format!(", {}", self.place_in_words(Places::Deflections, found.place)) };
        Lost { what: format!("{what}, {}{place}", found.combination), ratio: found.ratio }
    }
}
