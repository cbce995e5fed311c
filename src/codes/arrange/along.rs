//! Posts, studs and ties: how they are held against side loads, and the forces along them by load set.

use super::stand::Arrangement;
use super::{Acting, Applied, LoadSet, Way};
use crate::analysis::Support;
use crate::codes::Pattern;
use crate::job::model::{Case, EndHeld, Member};

/// Where a member is held: its support lines; of a post, stud or tie the ends that are not free.
///
/// A fixed end counts as pinned against side loads, which is never less in moment; where the other end is free it is what holds the member.
pub(super) fn supports(member: &Member, cosine: f64) -> Vec<Support> {
    let Some(standing) = &member.standing else {
        return member.spans.supports().iter().map(|at| Support { at: at.value() / cosine, fixed: false }).collect();
    };
    let fixed = standing.has_free_end();
    let ends = [(standing.bottom, 0.0), (standing.top, member.spans.length().value())];
    ends.into_iter().filter(|(held, _)| *held != EndHeld::Free).map(|(_, at)| Support { at, fixed }).collect()
}

/// Moments of the forces of a case about an axis: of those that turn one way, and of those that turn the other.
#[derive(Clone, Copy, Debug, Default)]
struct Turning {
    positive: f64,
    negative: f64,
}

/// Forces along a member and their moments about its axes, by arrangement and case; N and N mm.
#[derive(Debug)]
pub struct Along {
    forces: Vec<Vec<f64>>,
    turning: Vec<Vec<[Turning; 2]>>,
    /// The part of each case that stays where it relieves.
    rest: Vec<f64>,
}

impl Along {
    /// Adds up the forces of every arrangement and case.
    pub(super) fn new(applied: &[Applied], arrangements: &[Arrangement], patterns: &[Pattern]) -> Self {
        let of = |arrangement: &Arrangement, case: usize| {
            let (mut sum, mut turning) = (0.0, [Turning::default(); 2]);
            for one in applied.iter().filter(|a| a.way == Way::Along && a.case == Case(case)) {
                let load = one.smallest.filter(|_| arrangement.smallest).unwrap_or(one.load);
                let Acting::Point { force, .. } = load else { continue };
                sum += force;
                for (about, arm) in turning.iter_mut().zip(one.eccentricity) {
                    let moment = force * arm;
                    if moment > 0.0 {
                        about.positive += moment;
                    } else {
                        about.negative += moment;
                    }
                }
            }
            (sum, turning)
        };
        let by_case = |arrangement| (0..patterns.len()).map(|case| of(arrangement, case)).unzip();
        let (forces, turning) = arrangements.iter().map(by_case).unzip();
        let rest = patterns.iter().map(|pattern| if let Pattern::Sets { rest } = pattern { *rest } else { 1.0 }).collect();
        Self { forces, turning, rest }
    }

    /// The force of a combination in a load set; compression positive on posts and studs, tension on ties.
    pub fn force(&self, factors: &[(Case, f64)], set: &LoadSet) -> f64 {
        factors.iter().map(|(case, factor)| factor * self.forces[set.arrangement][case.0]).sum()
    }

    /// The force of one case in an arrangement of received reactions.
    pub fn force_in(&self, case: Case, arrangement: usize) -> f64 {
        self.forces[arrangement][case.0]
    }

    /// The moments of the eccentric forces of a case about an axis (0 strong, 1 weak): of those that turn one way, and of those that turn
    /// the other.
    pub fn turns(&self, case: Case, set: &LoadSet, axis: usize) -> [f64; 2] {
        let Turning { positive, negative } = self.turning[set.arrangement][case.0][axis];
        [positive, negative]
    }

    /// The largest moment of eccentric forces about an axis (0 strong, 1 weak), of either sign, always positive.
    ///
    /// A case that has forces on both sides of the axis and comes and goes acts on one side only, where that is more; its force along the
    /// member stays whole. A case on one side acts whole: where its absence is worse it is absent from the combination, force and all.
    pub fn eccentric(&self, factors: &[(Case, f64)], set: &LoadSet, axis: usize) -> f64 {
        let (mut most, mut least) = (0.0, 0.0);
        for (case, factor) in factors {
            let Turning { positive, negative } = self.turning[set.arrangement][case.0][axis];
            let both_sides = positive != 0.0 && negative != 0.0;
            let rest = if both_sides { self.rest[case.0] } else { 1.0 };
            let ways = [positive + negative, positive + rest * negative, rest * positive + negative].map(|m| m * factor);
            most += ways.into_iter().fold(f64::NEG_INFINITY, f64::max);
            least += ways.into_iter().fold(f64::INFINITY, f64::min);
        }
        f64::max(most, -least)
    }
}
