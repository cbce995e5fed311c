//! Loss of balance, support by support: the smallest reactions (reading 51).

use super::{Reacted, Search, reduce};
use crate::codes::{Combination, Pattern, Purpose};
use crate::job::model::{Case, Nature};

/// The smallest reaction of a support under a combination.
struct Smallest {
    force: f64,
    /// The cases that act.
    factors: Vec<(Case, f64)>,
    /// Whether permanent load on some part of the member raises it, and on some part lowers it.
    raises: bool,
    lowers: bool,
}

impl Search<'_> {
    /// The combinations for balance as they act on the member.
    pub(super) fn balance(&self, combinations: &[Combination]) -> Vec<Combination> {
        let balance: Vec<Combination> = combinations.iter().filter(|c| c.purpose == Purpose::Balance).cloned().collect();
        reduce(self.code, &self.job.basis, &balance, &self.arranged.present)
    }

    /// Keeps the smallest reactions under these combinations: on every support permanent load part by part at the factor that is worse for
    /// it, variable load where it lowers it. What is left of the combinations that were found so is the answer.
    pub(super) fn note_balance(&self, balance: &[Combination], reactions: &mut [Reacted]) -> Vec<Combination> {
        let mut arrangements: Vec<usize> = self.arranged.sets.iter().filter(|set| !set.points).map(|set| set.arrangement).collect();
        arrangements.dedup();
        let mut worst: Vec<Combination> = Vec::new();
        for (support, reacted) in reactions.iter_mut().enumerate() {
            let mut found: Option<Combination> = None;
            for combination in balance {
                for arrangement in &arrangements {
                    let smallest = self.smallest(combination, support, *arrangement);
                    if smallest.force < reacted.smallest.1 - super::NOUGHT * smallest.force.abs() {
                        let left = self.left(combination, &smallest);
                        reacted.smallest = (left.name.clone(), smallest.force);
                        found = Some(left);
                    }
                }
            }
            worst.extend(found.filter(|left| !worst.contains(left)));
        }
        worst
    }

    fn smallest(&self, combination: &Combination, support: usize, arrangement: usize) -> Smallest {
        let arranged = self.arranged;
        let mut sum = Smallest { force: 0.0, factors: Vec::new(), raises: false, lowers: false };
        for (case, factor) in &combination.factors {
            let nature = self.job.basis.nature(*case);
            let parts: Vec<f64> = arranged.reactions_by_place(&self.job.basis, *case, arrangement).iter().map(|r| r[support]).collect();
            let lowering: f64 = if nature == Nature::Dead {
                let at = |part: &f64| part * if *part < 0.0 { combination.superior.unwrap_or(*factor) } else { *factor };
                sum.raises |= parts.iter().any(|part| *part > 0.0);
                sum.lowers |= parts.iter().any(|part| *part < 0.0);
                parts.iter().map(at).sum()
            } else {
                let acting = match self.code.pattern(nature) {
                    Pattern::Sets { rest } => parts.iter().map(|part| if *part < 0.0 { *part } else { rest * part }).sum(),
                    Pattern::All => parts.iter().sum::<f64>(),
                };
                f64::min(0.0, factor * acting)
            };
            sum.force += lowering;
            if nature == Nature::Dead || lowering < 0.0 {
                sum.factors.push((*case, *factor));
            }
        }
        sum
    }

    /// What acts of a combination where it was found to be worst, by its name.
    fn left(&self, combination: &Combination, found: &Smallest) -> Combination {
        let basis = &self.job.basis;
        let mixed = found.lowers && found.raises;
        let lowering = combination.superior.filter(|_| found.lowers && !found.raises);
        let at = |(case, factor): &(Case, f64)| {
            let permanent = basis.nature(*case) == Nature::Dead;
            (*case, lowering.filter(|_| permanent).unwrap_or(*factor))
        };
        let factors: Vec<(Case, f64)> = found.factors.iter().map(at).collect();
        let of_one_factor = Combination { superior: combination.superior.filter(|_| mixed), ..combination.clone() };
        of_one_factor.with(self.code, basis, &combination.factors, factors)
    }
}
