//! Which cases relieve which: a variable load is favourable where its effect is against the others', and is absent there (reading 50).
//!
//! Every effect is a sum over the cases, so that it is largest with the cases of one sign and smallest with those of the other. The signs
//! along a member change at a few places only: as many sets of absent cases as there are stretches of equal sign, not as many as there are
//! subsets. Where a check takes two effects together (posts, members that lean) every subset of the cases that are against one another
//! is tried; the job file bounds their number.

use super::{NOUGHT, Search};
use crate::analysis::{Diagram, Load as Acting, Panel, Quantity, Side};
use crate::codes::LoadSet;
use crate::job::model::{Case, Nature, Use};

/// The sets of absent cases that are worth a look, by load set.
pub(super) struct Relief {
    pub by_set: Vec<Vec<Vec<Case>>>,
}

/// What a member is looked at for.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Aim {
    Strength,
    Deflection,
}

/// Signs of an effect, case by case in the order of the member's cases.
type Row = Vec<i8>;

impl Search<'_> {
    /// The sets of absent cases for every load set of the member.
    pub(super) fn relief(&self, aim: Aim) -> Relief {
        let variable: Vec<Case> = self.arranged.present.iter().copied().filter(|case| self.is_variable(*case)).collect();
        // What is left without all of them has the smallest reactions.
        let all = || if aim == Aim::Strength { vec![variable.clone()] } else { Vec::new() };
        let simple = self.loads_go_one_way();
        let by_set = self.arranged.sets.iter().map(|set| match variable.as_slice() {
            [] => Vec::new(),
            _ if simple => all(),
            [_] => vec![variable.clone()],
            _ => self.absences(aim, set),
        });
        Relief { by_set: by_set.collect() }
    }

    pub(super) fn is_variable(&self, case: Case) -> bool {
        self.job.basis.nature(case) != Nature::Dead
    }

    /// Whether a member is one simple span on which every load acts downward: then no load relieves another.
    fn loads_go_one_way(&self) -> bool {
        let arranged = self.arranged;
        let simple = arranged.panels.len() == 1 && !arranged.panels[0].overhang && arranged.supports.len() == 2;
        let alone = arranged.across.is_none() && arranged.along.is_none() && !arranged.tie_is_up;
        simple && alone && arranged.applied.iter().all(|a| acts_down(&a.load) && a.smallest.as_ref().is_none_or(acts_down))
    }

    /// The sets of absent cases in one load set.
    fn absences(&self, aim: Aim, set: &LoadSet) -> Vec<Vec<Case>> {
        let cases = &self.arranged.present;
        let mut rows: Vec<Row> = Vec::new();
        match aim {
            Aim::Strength => self.strength_rows(set, &mut rows),
            Aim::Deflection => self.deflection_rows(set, &mut rows),
        }
        rows.sort_unstable();
        rows.dedup();
        if self.arranged.across.is_some() || self.arranged.along.is_some() {
            return self.all_of(&self.opposed(&rows, self.is_pulled(aim, set)));
        }
        let mut absences: Vec<Vec<Case>> = Vec::new();
        for row in &rows {
            for sign in [-1, 1] {
                let signed = cases.iter().zip(row).filter(|(case, s)| **s == sign && self.is_variable(**case));
                let absent: Vec<Case> = signed.map(|(case, _)| *case).collect();
                if !absent.is_empty() && !absences.contains(&absent) {
                    absences.push(absent);
                }
            }
        }
        absences
    }

    /// Whether some case pulls at the member along its length: tension relieves the edge that bending compresses.
    fn is_pulled(&self, aim: Aim, set: &LoadSet) -> bool {
        let pull = if self.member.role == Use::Tie { 1.0 } else { -1.0 };
        let along = self.arranged.along.as_ref().filter(|_| aim == Aim::Strength);
        along.is_some_and(|along| self.arranged.present.iter().any(|case| pull * along.force(&[(*case, 1.0)], set) > 0.0))
    }

    /// Variable cases of which some effect is against that of another case; all of them where `every` says so.
    fn opposed(&self, rows: &[Row], every: bool) -> Vec<Case> {
        let cases = &self.arranged.present;
        let against = |i: usize| every || rows.iter().any(|row| row[i] != 0 && row.contains(&-row[i]));
        cases.iter().enumerate().filter(|(i, case)| self.is_variable(**case) && against(*i)).map(|(_, case)| *case).collect()
    }

    /// All subsets of these cases but the empty one, and the set of all variable cases.
    fn all_of(&self, opposed: &[Case]) -> Vec<Vec<Case>> {
        let subset = |mask: usize| opposed.iter().enumerate().filter(|(i, _)| mask >> i & 1 == 1).map(|(_, case)| *case).collect();
        let mut all: Vec<Vec<Case>> = (1..1_usize << opposed.len()).map(subset).collect();
        let every: Vec<Case> = self.arranged.present.iter().copied().filter(|case| self.is_variable(*case)).collect();
        if !all.contains(&every) {
            all.push(every);
        }
        all
    }

    /// Signs of moments, shears, reactions and forces along and under the member.
    fn strength_rows(&self, set: &LoadSet, rows: &mut Vec<Row>) {
        let (arranged, cases) = (self.arranged, &self.arranged.present);
        let down: Vec<Diagram> = cases.iter().map(|case| arranged.combined(&[(*case, 1.0)], set)).collect();
        let both_ways = !arranged.applied.iter().filter(|a| self.is_variable(a.case)).all(|a| acts_down(&a.load));
        for panel in &arranged.panels {
            stretches(&down, Quantity::Moment, panel, rows);
            // Under loads that all act downward the shear falls from one end of a panel to the other: its ends say all.
            if both_ways {
                stretches(&down, Quantity::Shear, panel, rows);
            }
            for (x, side) in [(panel.from, Side::Right), (panel.to, Side::Left)] {
                rows.push(signs(down.iter().map(|d| d.value(Quantity::Shear, x, side))));
            }
        }
        for side in &arranged.beside {
            rows.push(signs(down.iter().map(|d| d.value(Quantity::Shear, side.section(), side.inward()))));
        }
        if let Some(across) = &arranged.across {
            let aside: Vec<Diagram> = cases.iter().filter_map(|case| arranged.combined_across(&[(*case, 1.0)], set)).collect();
            for panel in &across.panels {
                stretches(&aside, Quantity::Moment, panel, rows);
                stretches(&aside, Quantity::Shear, panel, rows);
            }
        }
        let reactions: Vec<Vec<f64>> = cases.iter().map(|case| arranged.reactions_of(&self.job.basis, *case, set)).collect();
        for support in 0..arranged.bearers.len() {
            rows.push(signs(reactions.iter().map(|of_case| of_case[support])));
        }
        for upon in &arranged.upon {
            rows.push(signs(cases.iter().map(|case| upon.force(&[(*case, 1.0)], set))));
        }
        if let Some(along) = &arranged.along {
            rows.push(signs(cases.iter().map(|case| along.force(&[(*case, 1.0)], set))));
            for axis in [0, 1] {
                let turns: Vec<[f64; 2]> = cases.iter().map(|case| along.turns(*case, set, axis)).collect();
                for way in [0, 1] {
                    rows.push(signs(turns.iter().map(|turn| if turn[way] == 0.0 { turn[1 - way] } else { turn[way] })));
                }
            }
        }
    }

    fn deflection_rows(&self, set: &LoadSet, rows: &mut Vec<Row>) {
        let (arranged, cases) = (self.arranged, &self.arranged.present);
        let down: Vec<Diagram> = cases.iter().map(|case| arranged.deflected(&[(*case, 1.0)], set)).collect();
        for panel in &arranged.panels {
            stretches(&down, Quantity::Deflection, panel, rows);
        }
        if let Some(across) = &arranged.across {
            let aside: Vec<Diagram> = cases.iter().filter_map(|case| arranged.deflected_across(&[(*case, 1.0)], set)).collect();
            for panel in &across.panels {
                stretches(&aside, Quantity::Deflection, panel, rows);
            }
        }
    }
}

/// Signs; what is next to nothing beside the largest has none.
fn signs(values: impl Iterator<Item = f64>) -> Row {
    let values: Vec<f64> = values.collect();
    let least = NOUGHT * values.iter().fold(0.0, |most: f64, value| most.max(value.abs()));
    values
        .iter()
        .map(|value| {
            if *value > least {
                1
            } else if *value < -least {
                -1
            } else {
                0
            }
        })
        .collect()
}

/// The signs of a quantity on every stretch of a panel on which no case changes its sign.
fn stretches(diagrams: &[Diagram], quantity: Quantity, panel: &Panel, rows: &mut Vec<Row>) {
    let mut breaks = vec![panel.from, panel.to];
    for diagram in diagrams {
        breaks.extend(diagram.zeros(quantity, panel.from, panel.to));
    }
    breaks.sort_by(f64::total_cmp);
    let near = 1e-6 * (panel.to - panel.from);
    breaks.dedup_by(|b, a| *b - *a < near);
    for pair in breaks.windows(2) {
        let x = 0.5 * (pair[0] + pair[1]);
        rows.push(signs(diagrams.iter().map(|diagram| diagram.value(quantity, x, Side::Left))));
    }
}

/// Whether a load acts downward throughout and turns nothing.
fn acts_down(load: &Acting) -> bool {
    match load {
        Acting::Line { start, end, .. } => *start >= 0.0 && *end >= 0.0,
        Acting::Point { force, .. } => *force >= 0.0,
        Acting::Moment { moment, .. } => *moment == 0.0,
    }
}
