//! ASCE 7 combinations, from the tables of the edition.

use super::{American, edition, lookup, time};
use crate::codes::{self, Combination, Purpose, Read};
use crate::job::model::{Basis, Case, Nature};
use crate::table::{Row, Table};
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

/// Factors by nature of every row of a table of combinations, dead load first, with the row's number.
fn rows(table: &Table) -> impl Iterator<Item = (String, Vec<(Nature, f64)>)> + '_ {
    table.rows().map(|row| {
        let factors = Nature::ALL.iter().filter_map(|n| Some((*n, row.bare(column(*n))?))).filter(|(_, f)| *f != 0.0).collect();
        (row.text("number").unwrap_or_default().to_owned(), factors)
    })
}

/// The cells of a combination's factors, of the cases that stand in it.
pub(super) fn cells(basis: &Basis, lrfd: bool, combination: &Combination) -> Vec<Read> {
    let factors = || combination.factors.iter().map(|(case, factor)| (column(basis.nature(*case)), *factor));
    let written = |row: &Row<'_>| {
        row.text("number") == Some(&combination.number) && factors().all(|(column, factor)| row.bare(column) == Some(factor))
    };
    let row = lookup::combinations(&basis.loading.value, lrfd).rows().find(written).filter(|_| !combination.own);
    let Some(row) = row else { return Vec::new() };
    factors().filter_map(|(column, _)| row.number(column)).map(Read::plain).collect()
}

/// All strength combinations of the basis; the engineer's own behind the code's, or in their place.
pub(super) fn of(code: &American, basis: &Basis) -> Vec<Combination> {
    let lrfd = edition::is_lrfd(basis);
    let mut combinations: Vec<Combination> = Vec::new();
    if !basis.combinations.only {
        let table = lookup::combinations(&basis.loading.value, lrfd);
        for (number, mut natures) in rows(table) {
            // ASCE 7 2.3.1 exception: the companion live load may be halved where the engineer asks for it.
            if let Some(companion) = basis.live_companion.as_ref().filter(|_| lrfd) {
                natures.iter_mut().filter(|(n, f)| *n == Nature::Live && *f == 1.0).for_each(|(_, f)| *f = companion.value.value());
            }
            let factor = |case| natures.iter().find(|(nature, _)| *nature == basis.nature(case)).map_or(0.0, |(_, factor)| *factor);
            let factors = codes::spread(basis, natures.iter().map(|(nature, _)| *nature), factor);
            combinations.push(made(code, basis, &number, factors, table.cited()));
        }
    }
    let own = basis.combinations.list.iter().map(|own| Combination {
        name: own.name.clone(),
        number: String::new(),
        purpose: if own.deflection { Purpose::Deflection } else { Purpose::Strength },
        class: own.duration.as_ref().map_or_else(|| time::class_of_all(basis, &own.factors).to_owned(), |d| d.value.clone()),
        factors: own.factors.clone(),
        time: lrfd.then(|| time::effect_of(basis, "2", &own.factors)),
        duration: own.duration.as_ref().map(|d| d.value.clone()),
        time_printed: match &own.duration {
            Some(given) => time::class(&given.value).map(time::spoken).unwrap_or_default(),
            None if own.deflection => String::new(),
            None => printed(basis, &own.factors, lrfd.then(|| time::effect_of(basis, "2", &own.factors))),
        },
        own: true,
        complete: true,
        superior: None,
        reference: "job file".to_owned(),
    });
    combinations.extend(own);
    // Dead load alone is tried whatever the engineer's own combinations are (reading 18).
    if let Some(factors) = codes::dead_alone(basis) {
        let alone = made(code, basis, "1", factors, "rule 18");
        combinations.push(Combination { number: String::new(), class: "permanent".to_owned(), ..alone });
    }
    combinations
}

/// A strength combination of the code's own, with the time effect of its number.
fn made(code: &American, basis: &Basis, number: &str, factors: Vec<(Case, f64)>, reference: &str) -> Combination {
    let lambda = edition::is_lrfd(basis).then(|| time::effect_of(basis, number, &factors));
    Combination {
        name: codes::name_of(code, basis, &factors),
        number: number.to_owned(),
        purpose: Purpose::Strength,
        time: lambda,
        duration: None,
        class: time::class_of_all(basis, &factors).to_owned(),
        time_printed: printed(basis, &factors, lambda),
        own: false,
        complete: true,
        superior: None,
        reference: reference.to_owned(),
        factors,
    }
}

/// The combinations without the cases that act nowhere in the job, each with the load duration of what is left of it.
pub(super) fn listed(code: &American, basis: &Basis, acting: &[Case]) -> Vec<Combination> {
    let all = of(code, basis);
    let mut listed = codes::reduce(code, basis, &all, acting);
    let silent = |own: &&Combination| own.own && !listed.iter().any(|known| known.own && known.name == own.name);
    let silent: Vec<Combination> = all.iter().filter(silent).cloned().collect();
    listed.extend(silent);
    listed
}

/// A combination with the load duration of the cases that it has. One of the engineer's own keeps the duration that it was given while
/// all of its cases act, and of that and the one of its cases the longer where they do not (reading 53).
pub(super) fn timed(basis: &Basis, combination: Combination) -> Combination {
    let lrfd = edition::is_lrfd(basis);
    let class = time::class_in(basis, &combination, &combination.factors).0.to_owned();
    if combination.own {
        let time_printed = if combination.duration.is_some() { time::spoken(&class) } else { combination.time_printed.clone() };
        return Combination { class, time_printed, ..combination };
    }
    let lambda = lrfd.then(|| time::of(basis, lrfd, &combination, &combination.factors, false).time().factor);
    let time_printed = printed(basis, &combination.factors, lambda);
    Combination { class, time: lambda, time_printed, ..combination }
}

fn printed(basis: &Basis, factors: &[(Case, f64)], lambda: Option<f64>) -> String {
    match lambda {
        Some(lambda) => format!("λ {}", decimals(lambda, 2)),
        None => format!("C_D {}", decimals(time::duration_factor(time::class_of_all(basis, factors)), 2)),
    }
}

/// The transient part of the ASD gravity combinations, without dead load, wind and earthquake: what deflection limits look at
/// (reading 23).
pub(super) fn transient(basis: &Basis) -> Vec<Vec<(Nature, f64)>> {
    let mut parts: Vec<Vec<(Nature, f64)>> = Vec::new();
    for (_, natures) in rows(lookup::combinations(&basis.loading.value, false)) {
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
