//! Deflection limits, and the deflections that they look at. EN 1995-1-1, 2.2.3 and 7.2 (reading 26).

use super::combinations::characteristic;
use super::member::Wanted;
use super::{European, national, tables};
use crate::codes::{self, DeflectionCase, Read, unmade};
use crate::job::model::{Basis, Case, DeflectionLimit, DeflectionOf, Job, Member, Nature};
use crate::table::Row;

/// The limits of a member.
pub(super) struct Deflect {
    instant: Option<DeflectionLimit>,
    live: Option<DeflectionLimit>,
    net_final: Option<DeflectionLimit>,
    fin: Option<DeflectionLimit>,
    wind: Option<DeflectionLimit>,
    /// Whether the net final deflection is that of the quasi-permanent combination.
    pub quasi: bool,
    /// Camber, mm.
    camber: f64,
    /// Limits that the job file gives.
    given: Vec<DeflectionOf>,
}

/// Variable actions with their factors, and what leads them.
type Led = (Option<Nature>, Vec<(Case, f64)>);

/// How a deflection is worked out; `quasi`: the net final one is that of the quasi-permanent combination.
pub(super) fn wanted(what: DeflectionOf, quasi: bool) -> Wanted {
    match what {
        DeflectionOf::Instant => Wanted::Instant,
        DeflectionOf::Live | DeflectionOf::Wind => Wanted::Variable,
        DeflectionOf::Final => Wanted::Final,
        DeflectionOf::NetFinal if quasi => Wanted::QuasiPermanent,
        DeflectionOf::NetFinal => Wanted::NetFinal,
        _ => Wanted::Own,
    }
}

impl Deflect {
    /// The limits of a member: its own, else those of the basis, else the nation's or the code's. `total` is read as final.
    pub(super) fn of(job: &Job, member: &Member, read: &mut Vec<Read>) -> Self {
        let row = national::row(&tables::LIMITS, national::country(&job.basis), &[]);
        let mut given = Vec::new();
        let mut settle = |what, asked: Option<DeflectionLimit>, column: &str| {
            if asked.is_some() {
                given.push(what);
                return asked.filter(|limit| *limit != DeflectionLimit::Off);
            }
            let found = national::read(row.as_ref(), column)?;
            let over = found.value;
            read.push(found);
            Some(DeflectionLimit::SpanOver(over))
        };
        let one = |what| job.limit(member, what);
        let [live, wind] = [DeflectionOf::Live, DeflectionOf::Wind].map(|what| settle(what, one(what), "none"));
        Self {
            instant: settle(DeflectionOf::Instant, one(DeflectionOf::Instant), "instant"),
            net_final: settle(DeflectionOf::NetFinal, one(DeflectionOf::NetFinal), "net_final"),
            fin: settle(DeflectionOf::Final, one(DeflectionOf::Final).or_else(|| one(DeflectionOf::Total)), "final"),
            live,
            wind,
            quasi: row.as_ref().and_then(|r: &Row<'_>| r.text("net_final_under")) == Some("quasi-permanent")
                && one(DeflectionOf::NetFinal).is_none(),
            camber: member.camber.as_ref().map_or(0.0, |camber| camber.value.value()),
            given,
        }
    }

    /// Where a limit stands.
    pub(super) fn reference(&self, what: DeflectionOf) -> &'static str {
        if self.given.contains(&what) || what == DeflectionOf::Own { "limit of the job file" } else { "EN 1995-1-1, Table 7.2" }
    }

    /// Limits that nothing is checked against, of the cases that load a member.
    pub(super) fn unmade(&self, basis: &Basis, k_def: f64, present: &[Case]) -> Vec<String> {
        let limits = [
            (DeflectionOf::Instant, self.instant),
            (DeflectionOf::Live, self.live),
            (DeflectionOf::Final, self.fin),
            (DeflectionOf::NetFinal, self.net_final),
            (DeflectionOf::Wind, self.wind),
        ];
        unmade::limits(basis, present, |nature| nature != Nature::Dead, &limits, &self.cases(basis, k_def, present))
    }

    /// The deflections of the cases that load a member.
    pub(super) fn cases(&self, basis: &Basis, k_def: f64, present: &[Case]) -> Vec<DeflectionCase> {
        let mut cases: Vec<DeflectionCase> = Vec::new();
        let dead: Vec<(Case, f64)> = present.iter().filter(|c| basis.nature(**c) == Nature::Dead).map(|c| (*c, 1.0)).collect();
        // Of each set of variable actions that act here, and what leads it; the empty set stands for spans that all others relieve.
        let mut sets: Vec<Led> = vec![(None, Vec::new())];
        for part in characteristic(basis) {
            for factors in codes::spread(basis, &part) {
                let here: Vec<(Case, f64)> = factors.into_iter().filter(|(c, _)| present.contains(c)).collect();
                let leads = here.iter().any(|(c, _)| basis.nature(*c) == part[0].0);
                if leads && !sets.iter().any(|(_, known)| *known == here) {
                    sets.push((Some(part[0].0), here));
                }
            }
        }
        let name = |factors: &[(Case, f64)]| codes::name_of(&European, basis, factors);
        let with_dead = |variable: &[(Case, f64)]| dead.iter().chain(variable).copied().collect::<Vec<_>>();
        let mut add = |what: DeflectionOf, combination: String, leading, factors: Vec<(Case, f64)>, limit| {
            if !factors.is_empty() {
                let camber = if what == DeflectionOf::NetFinal { self.camber } else { 0.0 };
                cases.push(DeflectionCase {
                    what,
                    combination,
                    leading,
                    factors,
                    limit,
                    camber,
                    reference: self.reference(what).to_owned(),
                });
            }
        };
        let creeping = |leading: Option<Nature>, (case, psi_0): &(Case, f64)| {
            let nature = basis.nature(*case);
            let psi_2 = national::psi_of(basis, nature, "psi_2");
            let at_once = if leading == Some(nature) { 1.0 } else { *psi_0 };
            (*case, at_once + psi_2 * k_def)
        };
        let lasting: Vec<(Case, f64)> = dead.iter().map(|(c, _)| (*c, 1.0 + k_def)).collect();
        if !basis.combinations.replaces_deflections() {
            for (leading, variable) in &sets {
                let factors = with_dead(variable);
                add(DeflectionOf::Instant, name(&factors), *leading, factors, self.instant);
                if let (Some(limit), false) = (self.live, variable.is_empty()) {
                    add(DeflectionOf::Live, name(variable), *leading, variable.clone(), Some(limit));
                }
            }
            for (leading, variable) in &sets {
                let with_creep = || lasting.iter().copied().chain(variable.iter().map(|one| creeping(*leading, one))).collect::<Vec<_>>();
                let said = format!("{} with creep", name(&with_dead(variable)));
                add(DeflectionOf::Final, said.clone(), *leading, with_creep(), self.fin);
                if !self.quasi {
                    add(DeflectionOf::NetFinal, said, *leading, with_creep(), self.net_final);
                }
            }
            if self.quasi {
                let psi_2 = |c: Case| national::psi_of(basis, basis.nature(c), "psi_2");
                let variable = |c: &&Case| basis.nature(**c) != Nature::Dead && psi_2(**c) != 0.0;
                let quasi: Vec<(Case, f64)> = present.iter().filter(variable).map(|c| (*c, psi_2(*c))).collect();
                for part in [quasi, Vec::new()] {
                    let crept = part.iter().map(|(c, f)| (*c, f * (1.0 + k_def)));
                    let factors: Vec<(Case, f64)> = lasting.iter().copied().chain(crept).collect();
                    add(DeflectionOf::NetFinal, format!("{} with creep", name(&with_dead(&part))), None, factors, self.net_final);
                }
            }
        }
        if let Some(limit) = self.wind {
            let winds: Vec<(Case, f64)> = present.iter().filter(|c| basis.nature(**c) == Nature::Wind).map(|c| (*c, 1.0)).collect();
            add(DeflectionOf::Wind, name(&winds), Some(Nature::Wind), winds, Some(limit));
        }
        for own in basis.combinations.list.iter().filter(|c| c.deflection) {
            let factors: Vec<(Case, f64)> = own.factors.iter().copied().filter(|(c, _)| present.contains(c)).collect();
            add(DeflectionOf::Own, own.name.clone(), None, factors, self.instant.or(self.fin));
        }
        cases
    }
}
