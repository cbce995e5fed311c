//! Reactions, thrust, and what a member hands down.

use super::{Arranged, HandedDown, LoadSet};
use crate::analysis::Diagram;
use crate::job::model::{Basis, Case, Nature};

impl Arranged {
    /// A reaction square to the member as a vertical force: what is square to the slope keeps its vertical part, what is vertical is
    /// itself again.
    fn vertical(&self, nature: Nature, square: f64) -> f64 {
        if nature == Nature::Wind { square * self.cosine } else { square / self.cosine }
    }

    /// Vertical reactions of one case in a load set, by support.
    pub fn reactions_of(&self, basis: &Basis, case: Case, set: &LoadSet) -> Vec<f64> {
        if let Some(along) = self.along.as_ref().filter(|_| self.bearers.len() == 1) {
            return vec![along.force(&[(case, 1.0)], set)];
        }
        self.upright(basis, case, self.square_reactions(self.standing(), case, set))
    }

    /// Vertical reactions of one case by place (the panels, then the supports between them), whole on each, and by support.
    pub fn reactions_by_place(&self, basis: &Basis, case: Case, arrangement: usize) -> Vec<Vec<f64>> {
        if let Some(along) = self.along.as_ref().filter(|_| self.bearers.len() == 1) {
            return vec![vec![along.force_in(case, arrangement)]];
        }
        let slots = self.slots[arrangement][case.0].iter().filter(|slot| **slot != 0);
        slots.map(|slot| self.upright(basis, case, self.standing()[*slot].reactions.clone())).collect()
    }

    /// The diagrams whose reactions are handed down.
    fn standing(&self) -> &[Diagram] {
        let upright = self.across.as_ref().filter(|_| self.along.is_none()).map(|across| across.upright.as_slice());
        upright.unwrap_or(&self.solved)
    }

    /// Vertical reactions from those of the beam.
    fn upright(&self, basis: &Basis, case: Case, mut sum: Vec<f64>) -> Vec<f64> {
        let upright = self.across.as_ref().filter(|_| self.along.is_none());
        if upright.is_some() {
            return sum;
        }
        // With the tie above it the heel has the vertical force alone, square to the slope V cos θ of it.
        if self.tie_is_up
            && let [heel, ridge] = sum.as_mut_slice()
        {
            (*heel, *ridge) = (*heel / self.cosine, 0.0);
            return sum;
        }
        for reaction in &mut sum {
            *reaction = self.vertical(basis.nature(case), *reaction);
        }
        // All of it goes down at the heel: the board carries nothing.
        if self.leans_on_fellow
            && let [heel, ridge] = sum.as_mut_slice()
        {
            (*heel, *ridge) = (*heel + *ridge, 0.0);
        }
        sum
    }

    /// Reactions of one case as the beam gives them: square to the member, by support.
    fn square_reactions(&self, solved: &[Diagram], case: Case, set: &LoadSet) -> Vec<f64> {
        let mut sum = vec![0.0; self.supports.len()];
        for (place, slot) in self.slots[set.arrangement][case.0].iter().enumerate().filter(|(_, slot)| **slot != 0) {
            let part = self.part(case, place, set);
            for (total, one) in sum.iter_mut().zip(&solved[*slot].reactions) {
                *total += part * one;
            }
        }
        sum
    }

    /// The thrust of one case at the heel of a rafter on a ridge board, both rafters of the pair loaded alike; outward positive.
    ///
    /// Moments about the ridge: the tie, the rise below it, holds what the whole load at the heel turns more than the loads do. With N the
    /// reactions of the simple beam square to the slope: T = N_ridge / sin θ of vertical loads, (N_ridge cos² θ − N_heel sin² θ) / sin θ of
    /// wind, which is square to the slope itself. Where the tie is above the heel the beam has what it presses with on it too.
    pub fn thrust(&self, basis: &Basis, case: Case, set: &LoadSet) -> f64 {
        let square = self.square_reactions(&self.solved, case, set);
        let [heel, ridge] = square.as_slice() else { return 0.0 };
        let sine = libm::sin(self.angle.to_radians());
        if self.tie_is_up && basis.nature(case) == Nature::Wind {
            let tangent = sine / self.cosine;
            return (ridge - heel * tangent * tangent) / sine;
        }
        if basis.nature(case) == Nature::Wind { (ridge * self.cosine * self.cosine - heel * sine * sine) / sine } else { ridge / sine }
    }

    /// Vertical reactions of a combination, by support.
    pub fn reactions(&self, basis: &Basis, factors: &[(Case, f64)], set: &LoadSet) -> Vec<f64> {
        let mut sum = vec![0.0; self.bearers.len()];
        for (case, factor) in factors {
            for (total, one) in sum.iter_mut().zip(self.reactions_of(basis, *case, set)) {
                *total += factor * one;
            }
        }
        sum
    }

    /// What the member hands down: by support and case, the load sets that make it largest and smallest (reading 5); of a case that is
    /// reduced on this member the whole.
    pub fn handed_down(&self, basis: &Basis) -> HandedDown {
        let cases = basis.cases.len();
        let mut handed = HandedDown {
            largest: vec![vec![0.0; cases]; self.bearers.len()],
            smallest: vec![vec![0.0; cases]; self.bearers.len()],
            thrust: None,
        };
        let mut thrust = [vec![0.0; cases], vec![0.0; cases]];
        for case in &self.present {
            for (i, set) in self.sets.iter().filter(|s| !s.points).enumerate() {
                let part = self.parts.iter().find(|(reduced, _)| reduced == case).map_or(1.0, |(_, part)| *part);
                for (support, force) in self.reactions_of(basis, *case, set).into_iter().enumerate() {
                    let force = force / part;
                    let (largest, smallest) = (&mut handed.largest[support][case.0], &mut handed.smallest[support][case.0]);
                    *largest = if i == 0 { force } else { largest.max(force) };
                    *smallest = if i == 0 { force } else { smallest.min(force) };
                }
                if self.leans_on_fellow {
                    let force = self.thrust(basis, *case, set) / part;
                    let [largest, smallest] = &mut thrust;
                    largest[case.0] = if i == 0 { force } else { largest[case.0].max(force) };
                    smallest[case.0] = if i == 0 { force } else { smallest[case.0].min(force) };
                }
            }
        }
        handed.thrust = self.leans_on_fellow.then_some(thrust);
        handed
    }
}
