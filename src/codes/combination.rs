//! Combinations of load cases.

use super::Code;
use crate::job::model::{Basis, Case, Nature};
use crate::units::fewest;
use std::collections::BTreeSet;

/// What a combination is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// Strength.
    Strength,
    /// Loss of balance alone: what it does to the reactions is looked at, nothing else.
    Balance,
    /// Deflection.
    Deflection,
}

/// A combination: factors by case.
#[derive(Clone, Debug, PartialEq)]
pub struct Combination {
    /// Its name as printed; for the code's own, its cases with their factors.
    pub name: String,
    /// Its number in the loading standard, or empty.
    pub number: String,
    /// What it is for.
    pub purpose: Purpose,
    /// Factors by case, in the order of the name.
    pub factors: Vec<(Case, f64)>,
    /// What the standard's table adds to it (the time effect factor of LRFD).
    pub time: Option<f64>,
    /// The duration that the engineer gave it, a word that the code knows.
    pub duration: Option<String>,
    /// The class of its load duration with all its cases, a word of the code.
    pub class: String,
    /// Its load duration as the basis page prints it: `C_D 1.15`.
    pub time_printed: String,
    /// Whether it is the engineer's own.
    pub own: bool,
    /// Where it stands.
    pub reference: String,
}

/// The name of a set of factors: `D + 0.75 L + 0.75 S`.
pub fn name(code: &dyn Code, basis: &Basis, factors: &[(Case, f64)]) -> String {
    let mut text = String::new();
    for (case, factor) in factors {
        let size = factor.abs();
        let letter = code.letter(basis, *case);
        text.push_str(match (text.is_empty(), *factor < 0.0) {
            (true, false) => "",
            (true, true) => "-",
            (false, false) => " + ",
            (false, true) => " - ",
        });
        if size == 1.0 {
            text.push_str(letter);
        } else {
            text.push_str(&format!("{} {letter}", fewest(size, 1..=6)));
        }
    }
    text
}

/// Dead load alone, at the largest factor that the engineer's own strength combinations give it, where these stand in place of the
/// code's; none where they give it none.
pub(super) fn dead_alone(basis: &Basis) -> Option<Vec<(Case, f64)>> {
    let own = basis.combinations.list.iter().filter(|own| basis.combinations.only && !own.deflection).flat_map(|own| &own.factors);
    let most = own.filter(|(case, _)| basis.nature(*case) == Nature::Dead).map(|(_, factor)| *factor).fold(0.0, f64::max);
    (most > 0.0).then(|| spread(basis, &[(Nature::Dead, most)]).swap_remove(0))
}

/// Spreads factors by nature over the job's cases: the cases of one nature act together, but a case that stands instead of another
/// takes its place in a combination of its own (reading 46).
pub fn spread(basis: &Basis, by_nature: &[(Nature, f64)]) -> Vec<Vec<(Case, f64)>> {
    let mut all: Vec<Vec<(Case, f64)>> = vec![Vec::new()];
    for (nature, factor) in by_nature {
        let of_nature = || (0..basis.cases.len()).map(Case).filter(|c| basis.nature(*c) == *nature);
        let together: Vec<Case> = of_nature().filter(|c| basis.cases[c.0].instead_of.is_none()).collect();
        let mut choices = vec![together.clone()];
        for other in of_nature() {
            if let Some(replaced) = basis.cases[other.0].instead_of {
                let mut choice: Vec<Case> = together.iter().copied().filter(|c| *c != replaced).collect();
                choice.push(other);
                choices.push(choice);
            }
        }
        all = all
            .iter()
            .flat_map(|head| {
                choices.iter().map(|choice| {
                    let mut factors = head.clone();
                    factors.extend(choice.iter().map(|case| (*case, *factor)));
                    factors
                })
            })
            .collect();
    }
    all
}

/// The factors, and beside them those in which the shorter loads of a nature are away: a short load's duration must not serve one of the
/// same nature that lasts longer (a hoist beside the live load of its floor). `rank` orders cases by duration, the longest first.
pub fn outlasting(basis: &Basis, factors: &[(Case, f64)], rank: impl Fn(Case) -> usize) -> Vec<Vec<(Case, f64)>> {
    let mut all = vec![factors.to_vec()];
    for nature in Nature::ALL {
        let of_nature = |case: Case| basis.nature(case) == nature;
        let ranks: BTreeSet<usize> = factors.iter().filter(|(case, _)| of_nature(*case)).map(|(case, _)| rank(*case)).collect();
        let shorter = ranks.iter().rev().skip(1);
        let without = |longest: usize| {
            let kept = |head: &Vec<(Case, f64)>| head.iter().copied().filter(|(c, _)| !of_nature(*c) || rank(*c) <= longest).collect();
            all.iter().map(kept).collect::<Vec<Vec<(Case, f64)>>>()
        };
        let fewer: Vec<_> = shorter.flat_map(|longest| without(*longest)).collect();
        all.extend(fewer);
    }
    all
}

/// The combinations as they act on a member that only some cases load: absent cases are dropped, what is then the same is one.
///
/// A combination that is left empty falls out. The standard's number goes with the combination that was written for these cases. Of two that become the same with different time factors, the smaller factor stays.
pub fn reduce(code: &dyn Code, basis: &Basis, all: &[Combination], present: &[Case]) -> Vec<Combination> {
    let mut kept: Vec<Combination> = Vec::new();
    // Whether a combination kept was written for the cases that are left of it.
    let mut whole: Vec<bool> = Vec::new();
    for combination in all {
        let factors: Vec<(Case, f64)> = combination.factors.iter().copied().filter(|(case, _)| present.contains(case)).collect();
        if factors.is_empty() {
            continue;
        }
        let name = if combination.own { combination.name.clone() } else { name(code, basis, &factors) };
        let complete = combination.factors.iter().all(|(case, _)| present.contains(case) || case.0 >= Nature::ALL.len());
        let reduced = Combination { name, factors, ..combination.clone() };
        let same = |k: &Combination| !k.own && !reduced.own && k.factors == reduced.factors && k.purpose == reduced.purpose;
        match kept.iter().position(same) {
            Some(at) => {
                let known = &mut kept[at];
                if let (Some(a), Some(b)) = (known.time, reduced.time) {
                    known.time = Some(a.min(b));
                }
                if complete && !whole[at] && !known.number.is_empty() {
                    known.number.clone_from(&reduced.number);
                    whole[at] = true;
                }
            }
            None => {
                kept.push(reduced);
                whole.push(complete);
            }
        }
    }
    kept
}
