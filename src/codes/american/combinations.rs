//! ASCE 7 combinations, from the tables of the edition.

use super::{American, edition, lookup, time};
use crate::codes::{self, Combination, Purpose};
use crate::job::model::{Basis, Nature, OwnCombination};
use crate::units::decimals;

/// The letter of a nature as ASCE 7 has it.
pub(super) const fn letter(nature: Nature) -> &'static str {
    match nature {
        Nature::Dead => "D",
        Nature::Live => "L",
        Nature::RoofLive => "L_r",
        Nature::Snow => "S",
        Nature::Wind => "W",
        Nature::Seismic => "E",
        Nature::Rain => "R",
    }
}

/// The column of a nature in the tables of combinations.
const fn column(nature: Nature) -> &'static str {
    match nature {
        Nature::RoofLive => "Lr",
        other => letter(other),
    }
}

/// Factors by nature of every row of a table of combinations, dead load first, with the row's number and time effect.
fn rows(table: &crate::table::Table) -> impl Iterator<Item = (String, Vec<(Nature, f64)>, Option<f64>, String)> + '_ {
    table.rows().map(|row| {
        let factors = Nature::ALL.iter().filter_map(|n| row.number(column(*n)).map(|f| (*n, f.value))).filter(|(_, f)| *f != 0.0).collect();
        let number = row.text("number").unwrap_or_default().to_owned();
        (number, factors, row.number("time_effect").map(|f| f.value), table.heading().to_string())
    })
}

/// All strength combinations of the basis; the engineer's own behind the code's, or in their place.
pub(super) fn of(code: &American, basis: &Basis) -> Vec<Combination> {
    let lrfd = edition::is_lrfd(basis);
    let mut combinations: Vec<Combination> = Vec::new();
    if !basis.combinations.only {
        for (number, mut natures, lambda, reference) in rows(lookup::combinations(&basis.loading.value, lrfd)) {
            // ASCE 7 2.3.1 exception: the companion live load may be halved where the engineer asks for it.
            if let Some(companion) = basis.live_companion.as_ref().filter(|_| lrfd) {
                natures.iter_mut().filter(|(n, f)| *n == Nature::Live && *f == 1.0).for_each(|(_, f)| *f = companion.value.value());
            }
            for factors in codes::spread(basis, &natures) {
                let name = codes::name_of(code, basis, &factors);
                combinations.push(Combination {
                    time_printed: printed(basis, lrfd, &factors, lambda),
                    class: time::class_of_all(basis, &factors).to_owned(),
                    name,
                    number: number.clone(),
                    purpose: Purpose::Strength,
                    factors,
                    time: lambda,
                    duration: None,
                    own: false,
                    reference: reference.clone(),
                });
            }
        }
    }
    let own = basis.combinations.list.iter().map(|own| Combination {
        name: own.name.clone(),
        number: String::new(),
        purpose: if own.deflection { Purpose::Deflection } else { Purpose::Strength },
        class: own.duration.as_ref().map_or_else(|| time::class_of_all(basis, &own.factors).to_owned(), |d| d.value.clone()),
        factors: own.factors.clone(),
        time: lrfd.then(|| lookup::time_effect("2")),
        duration: own.duration.as_ref().map(|d| d.value.clone()),
        time_printed: own.duration.as_ref().and_then(|d| time::class(&d.value)).map(time::spoken).unwrap_or_default(),
        own: true,
        reference: "job file".to_owned(),
    });
    combinations.extend(own);
    // Dead load alone is tried whatever the engineer's own combinations are (reading 18).
    if basis.combinations.only {
        let dead = |c: &&OwnCombination| !c.deflection;
        let most = basis.combinations.list.iter().filter(dead).flat_map(|c| &c.factors);
        let most = most.filter(|(case, _)| basis.cases[case.0].nature == Nature::Dead).map(|(_, f)| *f).fold(0.0, f64::max);
        if most > 0.0 {
            let factors = codes::spread(basis, &[(Nature::Dead, most)]).swap_remove(0);
            combinations.push(Combination {
                name: codes::name_of(code, basis, &factors),
                number: String::new(),
                purpose: Purpose::Strength,
                time_printed: printed(basis, lrfd, &factors, Some(lookup::time_effect("1"))),
                class: "permanent".to_owned(),
                factors,
                time: lrfd.then(|| lookup::time_effect("1")),
                duration: None,
                own: false,
                reference: "reading 18".to_owned(),
            });
        }
    }
    combinations
}

fn printed(basis: &Basis, lrfd: bool, factors: &[(crate::job::model::Case, f64)], lambda: Option<f64>) -> String {
    if lrfd {
        return lambda.map(|l| format!("λ {}", decimals(l, 2))).unwrap_or_default();
    }
    format!("C_D {}", decimals(time::duration_factor(time::class_of_all(basis, factors)), 2))
}

/// The transient part of the ASD gravity combinations, without dead load, wind and earthquake: what deflection limits look at
/// (reading 23).
pub(super) fn transient(basis: &Basis) -> Vec<Vec<(Nature, f64)>> {
    let mut parts: Vec<Vec<(Nature, f64)>> = Vec::new();
    for (_, natures, ..) in rows(lookup::combinations(&basis.loading.value, false)) {
        if natures.iter().any(|(n, _)| matches!(n, Nature::Wind | Nature::Seismic)) {
            continue;
        }
        let part: Vec<(Nature, f64)> = natures.into_iter().filter(|(n, _)| *n != Nature::Dead).collect();
        if !part.is_empty() && !parts.contains(&part) {
            parts.push(part);
        }
    }
    parts
}
