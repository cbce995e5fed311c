//! Combinations of EN 1990: 6.10, or 6.10a and 6.10b; equilibrium for reactions; characteristic and quasi-permanent.

use super::{European, national, tables, time};
use crate::codes::{self, Combination, Purpose};
use crate::job::model::{Basis, Case, Nature};

/// Variable actions, in the order of the names.
pub(super) const VARIABLE: [Nature; 4] = [Nature::Live, Nature::RoofLive, Nature::Snow, Nature::Wind];

/// The letter of a nature.
pub(super) const fn letter(nature: Nature) -> &'static str {
    match nature {
        Nature::Dead => "G",
        Nature::Live => "Q",
        Nature::RoofLive => "Q_H",
        Nature::Snow => "S",
        Nature::Wind => "W",
        Nature::Seismic => "A_E",
        Nature::Rain => "R",
    }
}

/// Partial factors of strength. EN 1990, Table A1.2(B).
pub(super) struct Partial {
    /// Whether 6.10a and 6.10b stand in place of 6.10.
    pub pair: bool,
    superior: f64,
    inferior: f64,
    variable: f64,
    reduction: f64,
    reference: String,
}

impl Partial {
    /// The expressions that the job asks for, else the nation's, else 6.10.
    pub(super) fn of(basis: &Basis) -> Self {
        let country = national::country(basis);
        let asked: Vec<(&str, &str)> = basis.expressions.iter().map(|e| ("expressions", e.value.as_str())).collect();
        let row = national::row(&tables::SET_B, country, &asked);
        let number = |column: &str| row.as_ref().and_then(|r| r.number(column)).map_or(f64::NAN, |f| f.value);
        let pair = row.as_ref().and_then(|r| r.text("expressions")) == Some("6.10a/b");
        Self {
            pair,
            superior: number("gamma_G_sup"),
            inferior: number("gamma_G_inf"),
            variable: number("gamma_Q"),
            reduction: if pair { number("xi") } else { 1.0 },
            reference: tables::SET_B.heading().to_string(),
        }
    }
}

/// The combinations of the actions that act somewhere in the job. For strength and balance every set of actions stands in the list, so
/// that one with an absent action says nothing that another does not say.
pub(super) fn listed(code: &European, basis: &Basis, acting: &[Case]) -> Vec<Combination> {
    let nature = |case: &Case| basis.nature(*case);
    let acts = |wanted: &Case| acting.iter().any(|case| nature(case) == nature(wanted));
    let said = |c: &Combination| c.own || c.purpose == Purpose::Deflection || c.factors.iter().all(|(case, _)| acts(case));
    of(code, basis).into_iter().filter(said).collect()
}

/// Actions that may act together: every one leads in turn, with every set of the others, since what is favourable is left out.
/// Imposed load on a roof acts neither with snow nor with wind. EN 1991-1-1, 3.3.2(1).
fn groups(led: bool) -> Vec<Vec<Nature>> {
    let mut groups = Vec::new();
    for mask in 1_u32..1 << VARIABLE.len() {
        let set: Vec<Nature> = VARIABLE.into_iter().enumerate().filter(|(i, _)| mask >> i & 1 == 1).map(|(_, n)| n).collect();
        if set.contains(&Nature::RoofLive) && (set.contains(&Nature::Snow) || set.contains(&Nature::Wind)) {
            continue;
        }
        for leading in if led { set.clone() } else { vec![set[0]] } {
            let mut group = vec![leading];
            group.extend(set.iter().copied().filter(|n| *n != leading));
            groups.push(group);
        }
    }
    groups
}

/// Without the last bits that a product leaves behind.
pub(super) fn clean(factor: f64) -> f64 {
    libm::round(factor * 1e9) / 1e9
}

/// Every set of actions with the leading one whole and the others by ψ₀, `factor` on all.
fn led(basis: &Basis, factor: f64) -> Vec<Vec<(Nature, f64)>> {
    let companions = VARIABLE.map(|nature| (nature, national::psi_of(basis, nature, "psi_0")));
    let psi_0 = |nature: Nature| companions.iter().find(|(known, _)| *known == nature).map_or(f64::NAN, |(_, psi)| *psi);
    let part = |(i, nature): (usize, &Nature)| (*nature, clean(factor * if i == 0 { 1.0 } else { psi_0(*nature) }));
    groups(true).iter().map(|group| group.iter().enumerate().map(part).filter(|(_, f)| *f != 0.0).collect()).collect()
}

/// The variable parts of the characteristic combination, and what leads each.
pub(super) fn characteristic(basis: &Basis) -> Vec<Vec<(Nature, f64)>> {
    let mut parts = led(basis, 1.0);
    parts.dedup();
    parts
}

/// All combinations of the basis; the engineer's own behind the code's, or in place of those of strength.
pub(super) fn of(code: &European, basis: &Basis) -> Vec<Combination> {
    let mut combinations: Vec<Combination> = Vec::new();
    let mut add = |number: &str, purpose, natures: &[(Nature, f64)], reference: &str| {
        let spread = codes::spread(basis, natures);
        // The shortest action decides k_mod: one that is away must not lend it to the others.
        let away = |factors: &Vec<(Case, f64)>| codes::outlasting(basis, factors, |case| time::rank_of_case(basis, case));
        for factors in if purpose == Purpose::Strength { spread.iter().flat_map(away).collect() } else { spread } {
            let known = combinations.iter().any(|c| c.factors == factors && c.purpose == purpose);
            if !factors.is_empty() && !known {
                combinations.push(made(code, basis, number, purpose, factors, reference));
            }
        }
    };
    let with =
        |dead: f64, parts: &[(Nature, f64)]| [(Nature::Dead, clean(dead))].into_iter().chain(parts.iter().copied()).collect::<Vec<_>>();
    if !basis.combinations.only {
        let p = Partial::of(basis);
        let mut strength =
            |number: &str, dead: f64, parts: &[(Nature, f64)]| add(number, Purpose::Strength, &with(dead, parts), &p.reference);
        let alone = if p.pair { "6.10a" } else { "6.10" };
        // All permanent loads superior, then all inferior.
        for (dead, reduced) in [(p.superior, p.superior * p.reduction), (p.inferior, p.inferior)] {
            strength(alone, dead, &[]);
            for parts in led(basis, p.variable) {
                strength(if p.pair { "6.10b" } else { "6.10" }, reduced, &parts);
            }
            for group in if p.pair { groups(false) } else { Vec::new() } {
                let part = |nature: &Nature| (*nature, clean(p.variable * national::psi_of(basis, *nature, "psi_0")));
                let parts: Vec<(Nature, f64)> = group.iter().map(part).filter(|(_, f)| *f != 0.0).collect();
                strength("6.10a", dead, &parts);
            }
        }
    }
    let row = tables::SET_A.rows().next();
    let number = |column: &str| row.as_ref().and_then(|r| r.number(column)).map_or(f64::NAN, |f| f.value);
    let reference = tables::SET_A.heading().to_string();
    if !basis.combinations.only {
        for parts in led(basis, number("gamma_Q")) {
            add("EQU", Purpose::Balance, &with(number("gamma_G_inf"), &parts), &reference);
        }
    }
    if !basis.combinations.replaces_deflections() {
        let fullest = |parts: &[(Nature, f64)]| !parts.iter().any(|(n, _)| *n == Nature::RoofLive) || parts.len() == 1;
        let characteristic = characteristic(basis);
        for leading in VARIABLE {
            let of_leading = characteristic.iter().filter(|p| p[0].0 == leading && fullest(p));
            if let Some(parts) = of_leading.max_by_key(|p| p.len()) {
                add("6.14b", Purpose::Deflection, &with(1.0, parts), "EN 1990, (6.14b)");
            }
        }
        let lasting = VARIABLE.map(|n| (n, national::psi_of(basis, n, "psi_2"))).into_iter().filter(|(_, f)| *f != 0.0).collect::<Vec<_>>();
        add("6.16b", Purpose::Deflection, &with(1.0, &lasting), "EN 1990, (6.16b)");
    }
    combinations.extend(own(basis));
    combinations.extend(permanent_alone(code, basis));
    combinations
}

fn made(code: &European, basis: &Basis, number: &str, purpose: Purpose, factors: Vec<(Case, f64)>, reference: &str) -> Combination {
    let class = time::class_of_all(basis, &factors);
    Combination {
        name: codes::name_of(code, basis, &factors),
        number: number.to_owned(),
        purpose,
        time: None,
        duration: None,
        class: class.to_owned(),
        time_printed: if purpose == Purpose::Strength { class.replace('-', " ") } else { String::new() },
        own: false,
        reference: reference.to_owned(),
        factors,
    }
}

fn own(basis: &Basis) -> impl Iterator<Item = Combination> + '_ {
    basis.combinations.list.iter().map(|own| {
        let class = own.duration.as_ref().map_or_else(|| time::class_of_all(basis, &own.factors).to_owned(), |d| d.value.clone());
        Combination {
            name: own.name.clone(),
            number: String::new(),
            purpose: if own.deflection { Purpose::Deflection } else { Purpose::Strength },
            factors: own.factors.clone(),
            time: None,
            duration: own.duration.as_ref().map(|d| d.value.clone()),
            time_printed: if own.deflection { String::new() } else { class.replace('-', " ") },
            class,
            own: true,
            reference: "job file".to_owned(),
        }
    })
}

/// Permanent load alone is tried whatever the engineer's own combinations are.
fn permanent_alone(code: &European, basis: &Basis) -> Option<Combination> {
    let factors = codes::dead_alone(basis)?;
    Some(made(code, basis, "", Purpose::Strength, factors, "EN 1995-1-1, 3.1.3(2)"))
}
