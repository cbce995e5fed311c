//! Deflection limits, and the deflections that they look at. EN 1995-1-1, 2.2.3 and 7.2 (reading 26).

use super::combinations::{characteristic, led};
use super::member::Wanted;
use super::{European, national, tables};
use crate::codes::{self, DeflectionCase, Read, Title, unmade};
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

    /// The deflections of the cases that load a member. Cases that exclude each other are all in one: the search tells them apart.
    pub(super) fn cases(&self, basis: &Basis, k_def: f64, present: &[Case]) -> Vec<DeflectionCase> {
        let dead: Vec<(Case, f64)> = present.iter().filter(|c| basis.nature(**c) == Nature::Dead).map(|c| (*c, 1.0)).collect();
        let mut listed = Listed { deflect: self, basis, k_def, dead: &dead, cases: Vec::new() };
        if !basis.combinations.replaces_deflections() {
            // Of each set of variable actions that act here, and what leads it; the empty set stands for spans that all others relieve.
            let mut sets: Vec<Led> = vec![(None, Vec::new())];
            for group in characteristic() {
                let here: Vec<(Case, f64)> = led(basis, &group, 1.0).into_iter().filter(|(c, _)| present.contains(c)).collect();
                let leads = here.iter().any(|(c, _)| basis.nature(*c) == group[0]);
                if leads && !sets.iter().any(|(_, known)| *known == here) {
                    sets.push((Some(group[0]), here));
                }
            }
            listed.characteristic(&sets);
            if self.quasi {
                listed.quasi_permanent(present);
            }
        }
        if let Some(limit) = self.wind {
            let winds: Vec<(Case, f64)> = present.iter().filter(|c| basis.nature(**c) == Nature::Wind).map(|c| (*c, 1.0)).collect();
            listed.add(DeflectionOf::Wind, winds.clone(), winds, "", Some(Nature::Wind), Some(limit));
        }
        listed.own(present);
        listed.cases
    }
}

/// The deflections of a member as they are listed.
struct Listed<'a> {
    deflect: &'a Deflect,
    basis: &'a Basis,
    k_def: f64,
    dead: &'a [(Case, f64)],
    cases: Vec<DeflectionCase>,
}

impl Listed<'_> {
    fn add(
        &mut self,
        what: DeflectionOf,
        factors: Vec<(Case, f64)>,
        shown: Vec<(Case, f64)>,
        after: &'static str,
        leading: Option<Nature>,
        limit: Option<DeflectionLimit>,
    ) {
        if factors.is_empty() {
            return;
        }
        self.cases.push(DeflectionCase {
            what,
            combination: codes::titled(&European, self.basis, &shown, after),
            title: Title::Factors { shown, after },
            leading,
            limit,
            camber: if what == DeflectionOf::NetFinal { self.deflect.camber } else { 0.0 },
            reference: self.deflect.reference(what).to_owned(),
            by_nature: !factors.iter().any(|(case, _)| national::has_own_category(self.basis, *case)),
            factors,
            within: None,
        });
    }

    fn with_dead(&self, variable: &[(Case, f64)]) -> Vec<(Case, f64)> {
        self.dead.iter().chain(variable).copied().collect()
    }

    /// Permanent loads with their creep, and these.
    fn with_creep(&self, variable: impl Iterator<Item = (Case, f64)>) -> Vec<(Case, f64)> {
        self.dead.iter().map(|(c, _)| (*c, 1.0 + self.k_def)).chain(variable).collect()
    }

    /// Those of the characteristic combination: at once, of the variable actions alone, final.
    fn characteristic(&mut self, sets: &[Led]) {
        let deflect = self.deflect;
        for (leading, variable) in sets {
            let factors = self.with_dead(variable);
            self.add(DeflectionOf::Instant, factors.clone(), factors, "", *leading, deflect.instant);
            if let (Some(limit), false) = (deflect.live, variable.is_empty()) {
                self.add(DeflectionOf::Live, variable.clone(), variable.clone(), "", *leading, Some(limit));
            }
        }
        for (leading, variable) in sets {
            // The variable action at once, whole or by psi_0, and its quasi-permanent part with creep.
            let psi_2 = |case: Case| national::psi_of_case(self.basis, case, "psi_2");
            let crept = variable.iter().map(|(case, at_once)| (*case, at_once + psi_2(*case) * self.k_def));
            let (factors, shown) = (self.with_creep(crept), self.with_dead(variable));
            self.add(DeflectionOf::Final, factors.clone(), shown.clone(), CREPT, *leading, deflect.fin);
            if !deflect.quasi {
                self.add(DeflectionOf::NetFinal, factors, shown, CREPT, *leading, deflect.net_final);
            }
        }
    }

    /// The net final one of the quasi-permanent combination.
    fn quasi_permanent(&mut self, present: &[Case]) {
        let psi_2 = |c: &Case| (*c, national::psi_of_case(self.basis, *c, "psi_2"));
        let variable = |c: &&Case| self.basis.nature(**c) != Nature::Dead;
        let quasi: Vec<(Case, f64)> = present.iter().filter(variable).map(psi_2).filter(|(_, psi)| *psi != 0.0).collect();
        for part in [quasi, Vec::new()] {
            let factors = self.with_creep(part.iter().map(|(c, psi)| (*c, psi * (1.0 + self.k_def))));
            let shown = self.with_dead(&part);
            self.add(DeflectionOf::NetFinal, factors, shown, CREPT, None, self.deflect.net_final);
        }
    }

    /// The engineer's own: as given against the limit at once or, without one, the final one; without permanent loads against that of the
    /// variable ones (reading 59).
    fn own(&mut self, present: &[Case]) {
        for own in self.basis.combinations.list.iter().filter(|c| c.deflection) {
            let given: Vec<(Case, f64)> = own.factors.iter().copied().filter(|(c, _)| present.contains(c)).collect();
            let variable = given.iter().copied().filter(|(c, _)| self.basis.nature(*c) != Nature::Dead).collect();
            let of = [
                (DeflectionOf::Own, given.clone(), self.deflect.instant.or(self.deflect.fin)),
                (DeflectionOf::Live, variable, self.deflect.live),
            ];
            for (what, factors, limit) in of {
                if !factors.is_empty() && (what == DeflectionOf::Own || limit.is_some()) {
                    let name = codes::own_name(&European, self.basis, &own.name, &given, &factors);
                    self.cases.push(DeflectionCase {
                        what,
                        combination: name.clone(),
                        title: Title::Own(name),
                        factors,
                        leading: None,
                        limit,
                        camber: 0.0,
                        reference: self.deflect.reference(what).to_owned(),
                        by_nature: false,
                        within: None,
                    });
                }
            }
        }
    }
}

/// Behind the name of a deflection with its creep.
const CREPT: &str = "with creep";
