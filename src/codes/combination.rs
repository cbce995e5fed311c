//! Combinations of load cases.

use super::Code;
use crate::job::model::{Basis, Case, Nature, alternatives};
use crate::units::fewest;

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
    /// Whether all of its cases act: none was left out since it was written.
    pub complete: bool,
    /// Of a combination for balance, the factor of a permanent load where that lowers the reaction looked at; in `factors` is the one
    /// where it raises it.
    pub superior: Option<f64>,
    /// Where it stands.
    pub reference: String,
}

/// The name of a set of factors: `D + 0.75 L + 0.75 S`.
pub fn name(code: &dyn Code, basis: &Basis, factors: &[(Case, f64)]) -> String {
    name_with(code, basis, factors, None)
}

/// The same; of a combination for balance with both factors of the permanent loads: `0.9/1.1 G + 1.5 W`.
pub fn name_with(code: &dyn Code, basis: &Basis, factors: &[(Case, f64)], superior: Option<f64>) -> String {
    let mut text = String::new();
    for (case, factor) in factors {
        let size = factor.abs();
        let letter = code.letter(basis, *case);
        let superior = superior.filter(|_| basis.nature(*case) == Nature::Dead);
        text.push_str(match (text.is_empty(), *factor < 0.0) {
            (true, false) => "",
            (true, true) => "-",
            (false, false) => " + ",
            (false, true) => " - ",
        });
        if let Some(superior) = superior {
            text.push_str(&format!("{}/{} {letter}", fewest(size, 1..=6), fewest(superior, 1..=6)));
        } else if size == 1.0 {
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
    (most > 0.0).then(|| spread(basis, [Nature::Dead], |_| most))
}

/// The factors of all cases of these natures, in their order; cases whose factor is zero are left out. Cases that exclude each other are
/// all among them: [`reduce`] tells them apart.
pub fn spread(basis: &Basis, natures: impl IntoIterator<Item = Nature>, factor: impl Fn(Case) -> f64) -> Vec<(Case, f64)> {
    let cases = |nature: Nature| (0..basis.cases.len()).map(Case).filter(move |case| basis.nature(*case) == nature);
    let factors = natures.into_iter().flat_map(cases).map(|case| (case, factor(case)));
    factors.filter(|(_, factor)| *factor != 0.0).collect()
}

/// Factors of the largest sets of their cases in which no two exclude each other (readings 46 and 50).
pub fn together(basis: &Basis, factors: &[(Case, f64)]) -> Vec<Vec<(Case, f64)>> {
    let cases: Vec<Case> = factors.iter().map(|(case, _)| *case).collect();
    let of_set = |set: Vec<Case>| factors.iter().copied().filter(|(case, _)| set.contains(case)).collect();
    alternatives(&basis.cases, &cases).into_iter().map(of_set).collect()
}

impl Combination {
    /// The combination with these of its cases only; `here` are those of its cases that act at all where it is looked at.
    pub fn with(&self, code: &dyn Code, basis: &Basis, here: &[(Case, f64)], factors: Vec<(Case, f64)>) -> Self {
        let name =
            if self.own { own_name(code, basis, &self.name, here, &factors) } else { name_with(code, basis, &factors, self.superior) };
        let complete = self.complete && factors.len() == self.factors.len();
        code.timed(basis, Self { name, factors, complete, ..self.clone() })
    }
}

/// The name of the engineer's own combination with the cases that are left out of it: `storage full without L`.
pub fn own_name(code: &dyn Code, basis: &Basis, name: &str, here: &[(Case, f64)], factors: &[(Case, f64)]) -> String {
    let absent = here.iter().filter(|(case, _)| !factors.iter().any(|(c, _)| c == case));
    let absent: Vec<&str> = absent.map(|(case, _)| code.letter(basis, *case)).collect();
    if absent.is_empty() { name.to_owned() } else { format!("{name} without {}", absent.join(", ")) }
}

/// The combinations as they act where only some cases do: absent cases are dropped, cases that exclude each other are told apart, what is
/// then the same is one.
///
/// A combination that is left empty falls out. The standard's number goes with the combination that was written for these cases. Of two that become the same with different time factors, the smaller factor stays.
pub fn reduce(code: &dyn Code, basis: &Basis, all: &[Combination], present: &[Case]) -> Vec<Combination> {
    let mut kept: Vec<Combination> = Vec::new();
    // Whether a combination kept was written for the cases that are left of it.
    let mut whole: Vec<bool> = Vec::new();
    for combination in all {
        let here: Vec<(Case, f64)> = combination.factors.iter().copied().filter(|(case, _)| present.contains(case)).collect();
        let complete = combination.factors.iter().all(|(case, _)| present.contains(case) || case.0 >= Nature::ALL.len());
        for factors in together(basis, &here).into_iter().filter(|factors| !factors.is_empty()) {
            let same = |k: &Combination| !k.own && !combination.own && k.factors == factors && k.purpose == combination.purpose;
            match kept.iter().position(same) {
                Some(at) => {
                    let known = &mut kept[at];
                    if let (Some(a), Some(b)) = (known.time, combination.time) {
                        known.time = Some(a.min(b));
                    }
                    if complete && !whole[at] && !known.number.is_empty() {
                        known.number.clone_from(&combination.number);
                        whole[at] = true;
                    }
                }
                None => {
                    kept.push(combination.with(code, basis, &here, factors));
                    whole.push(complete);
                }
            }
        }
    }
    kept
}
