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
    let all = of(code, basis);
    let (own, code_s): (Vec<Combination>, Vec<Combination>) = all.into_iter().partition(|c| c.own);
    let (deflection, others): (Vec<Combination>, Vec<Combination>) = code_s.into_iter().partition(|c| c.purpose == Purpose::Deflection);
    let every: Vec<Case> = (0..basis.cases.len()).map(Case).collect();
    let mut listed = codes::reduce(code, basis, &others, acting);
    listed.extend(codes::reduce(code, basis, &deflection, &every));
    listed.extend(own);
    listed
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

/// Every set of actions, the leading one first.
pub(super) fn characteristic() -> Vec<Vec<Nature>> {
    groups(true)
}

/// The factors of a set of actions: the cases of the leading nature whole, the others by ψ₀ of their category, `factor` on all.
pub(super) fn led(basis: &Basis, group: &[Nature], factor: f64) -> Vec<(Case, f64)> {
    let leads = |case: Case| group.first() == Some(&basis.nature(case));
    let psi_0 = |case| if leads(case) { 1.0 } else { national::psi_of_case(basis, case, "psi_0") };
    codes::spread(basis, group.iter().copied(), |case| clean(factor * psi_0(case)))
}

/// All combinations of the basis; the engineer's own behind the code's, or in place of those of strength.
pub(super) fn of(code: &European, basis: &Basis) -> Vec<Combination> {
    let mut combinations: Vec<Combination> = Vec::new();
    let mut add = |number: &str, purpose, dead: f64, parts: Vec<(Case, f64)>, superior: Option<f64>, reference: &str| {
        let factors: Vec<(Case, f64)> = codes::spread(basis, [Nature::Dead], |_| clean(dead)).into_iter().chain(parts).collect();
        let known = combinations.iter().any(|c| c.factors == factors && c.purpose == purpose);
        if !factors.is_empty() && !known {
            combinations.push(made(code, basis, number, purpose, factors, superior, reference));
        }
    };
    if !basis.combinations.only {
        let p = Partial::of(basis);
        let mut strength = |number: &str, dead: f64, parts| add(number, Purpose::Strength, dead, parts, None, &p.reference);
        let alone = if p.pair { "6.10a" } else { "6.10" };
        // All permanent loads superior, then all inferior.
        for (dead, reduced) in [(p.superior, p.superior * p.reduction), (p.inferior, p.inferior)] {
            strength(alone, dead, Vec::new());
            for group in groups(true) {
                strength(if p.pair { "6.10b" } else { "6.10" }, reduced, led(basis, &group, p.variable));
            }
            for group in if p.pair { groups(false) } else { Vec::new() } {
                let part = |case| clean(p.variable * national::psi_of_case(basis, case, "psi_0"));
                strength("6.10a", dead, codes::spread(basis, group, part));
            }
        }
    }
    let row = tables::SET_A.rows().next();
    let number = |column: &str| row.as_ref().and_then(|r| r.number(column)).map_or(f64::NAN, |f| f.value);
    let reference = tables::SET_A.heading().to_string();
    if !basis.combinations.only {
        for group in groups(true) {
            let parts = led(basis, &group, number("gamma_Q"));
            add("EQU", Purpose::Balance, number("gamma_G_inf"), parts, Some(number("gamma_G_sup")), &reference);
        }
    }
    if !basis.combinations.replaces_deflections() {
        let fullest = |group: &[Nature]| !group.contains(&Nature::RoofLive) || group.len() == 1;
        let groups = characteristic();
        for leading in VARIABLE {
            let of_leading = groups.iter().filter(|group| group[0] == leading && fullest(group));
            if let Some(group) = of_leading.max_by_key(|group| led(basis, group, 1.0).len()) {
                add("6.14b", Purpose::Deflection, 1.0, led(basis, group, 1.0), None, "EN 1990, (6.14b)");
            }
        }
        let lasting = codes::spread(basis, VARIABLE, |case| national::psi_of_case(basis, case, "psi_2"));
        add("6.16b", Purpose::Deflection, 1.0, lasting, None, "EN 1990, (6.16b)");
    }
    combinations.extend(own(basis));
    combinations.extend(permanent_alone(code, basis));
    combinations
}

fn made(
    code: &European,
    basis: &Basis,
    number: &str,
    purpose: Purpose,
    factors: Vec<(Case, f64)>,
    superior: Option<f64>,
    reference: &str,
) -> Combination {
    let class = time::class_of_all(basis, &factors);
    Combination {
        name: codes::name_with(code, basis, &factors, superior),
        number: number.to_owned(),
        purpose,
        time: None,
        duration: None,
        class: class.to_owned(),
        time_printed: if purpose == Purpose::Strength { class.replace('-', " ") } else { String::new() },
        own: false,
        complete: true,
        superior,
        reference: reference.to_owned(),
        factors,
    }
}

/// A combination with the duration of the cases that it has.
pub(super) fn timed(basis: &Basis, combination: Combination) -> Combination {
    let class = time::class_in(basis, &combination, &combination.factors).0.to_owned();
    let time_printed = if combination.time_printed.is_empty() { String::new() } else { class.replace('-', " ") };
    Combination { class, time_printed, ..combination }
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
            complete: true,
            superior: None,
            reference: "job file".to_owned(),
        }
    })
}

/// Permanent load alone is tried whatever the engineer's own combinations are.
fn permanent_alone(code: &European, basis: &Basis) -> Option<Combination> {
    let factors = codes::dead_alone(basis)?;
    Some(made(code, basis, "", Purpose::Strength, factors, None, "EN 1995-1-1, 3.1.3(2)"))
}
