//! Deflection limits of the building code, and the deflections that they look at. IBC Table 1604.3, NDS 3.5 (reading 23).

use super::{American, combinations, tables};
use crate::codes::{self, DeflectionCase, Read, Title, unmade};
use crate::job::model::{Basis, Case, Ceiling, DeflectionLimit, DeflectionOf, Job, LimitedUse, Member, Nature};

/// The limits of a member and how its dead load counts.
pub(super) struct Deflect {
    live: DeflectionLimit,
    total: DeflectionLimit,
    wind: Option<DeflectionLimit>,
    /// The part of the wind load that `wind` looks at.
    wind_part: f64,
    /// The part of the dead load in `total`.
    dead: f64,
    /// The creep factor of NDS 3.5.2.
    creep: f64,
    /// Whether a camber is suggested: of laminated timber that stands upright.
    camber: bool,
    /// Whether the job file gives the limit on `live`, on `total`.
    given: (bool, bool),
}

/// A camber is suggested as so many times the deflection under dead load.
const CAMBER: f64 = 1.5;

/// The limit under wind, and the part of the wind that it looks at: that of the job file and all of it, else that of the wall's finish and
/// what note f of the table allows.
fn wall(member: &Member, given: Option<DeflectionLimit>, read: &mut Vec<Read>) -> (Option<DeflectionLimit>, f64) {
    let finish = member.standing.as_ref().and_then(|standing| standing.finish).filter(|_| given.is_none());
    let row = finish.and_then(|finish| tables::DEFLECTION.row(&[("use", "wall"), ("ceiling", finish.word())]));
    let Some(row) = row else { return (given, 1.0) };
    let part = tables::DEFLECTION_WIND.rows().next().and_then(|row| row.number("W"));
    (Some(DeflectionLimit::SpanOver(Read::keep(row.number("snow_or_wind"), read))), Read::keep(part, read))
}

impl Deflect {
    /// The limits of a member: its own, else those of the basis, else the code's.
    pub(super) fn of(job: &Job, member: &Member, wet: bool, camber: bool, read: &mut Vec<Read>) -> Self {
        let row = match (member.role.limited_as(), member.ceiling) {
            (LimitedUse::Roof, Some(Ceiling::None)) => tables::DEFLECTION.row(&[("use", "roof"), ("ceiling", "none")]),
            (LimitedUse::Roof, _) => tables::DEFLECTION.row(&[("use", "roof"), ("ceiling", "nonplaster")]),
            (LimitedUse::Floor, _) => tables::DEFLECTION.row(&[("use", "floor")]),
            (LimitedUse::Wall, _) => None,
        };
        let given = |what| job.limit(member, what);
        let mut default = |column: &str| {
            let found = row.as_ref().and_then(|r| r.number(column));
            found.map_or(DeflectionLimit::Off, |found| DeflectionLimit::SpanOver(Read::keep(Some(found), read)))
        };
        let live = given(DeflectionOf::Live).unwrap_or_else(|| default("live"));
        let total = given(DeflectionOf::Total).unwrap_or_else(|| default("total"));
        let (wind, wind_part) = wall(member, given(DeflectionOf::Wind), read);
        let green = member.conditions.green == Some(true);
        let condition = if wet || green { "unseasoned or wet" } else { "seasoned, dry" };
        let mut number = |table: &crate::table::Table, column: &str| {
            Read::keep(table.row(&[("condition", condition)]).and_then(|row| row.number(column)), read)
        };
        Self {
            live,
            total,
            wind,
            wind_part,
            dead: number(&tables::DEFLECTION_CREEP, "D"),
            creep: number(&tables::CREEP, "K_cr"),
            camber,
            given: (given(DeflectionOf::Live).is_some(), given(DeflectionOf::Total).is_some()),
        }
    }

    /// Where a limit stands.
    pub(super) fn reference(&self, what: DeflectionOf) -> &'static str {
        let given = match what {
            DeflectionOf::Live => self.given.0,
            DeflectionOf::Total => self.given.1,
            DeflectionOf::Wind => self.wind_part == 1.0,
            _ => true,
        };
        if given { "limit of the job file" } else { "IBC Table 1604.3" }
    }

    /// Limits that nothing is checked against, of the cases that load a member.
    pub(super) fn unmade(&self, basis: &Basis, present: &[Case]) -> Vec<String> {
        let limits = [(DeflectionOf::Live, Some(self.live)), (DeflectionOf::Total, Some(self.total)), (DeflectionOf::Wind, self.wind)];
        let variable = |nature| combinations::transient(basis).iter().flatten().any(|(known, _)| *known == nature);
        unmade::limits(basis, present, variable, &limits, &self.cases(basis, present))
    }

    /// The deflections of the cases that load a member: `live`, `total`, `wind` where a limit asks for it, and `long-term` without limit.
    /// Cases that exclude each other are all in one: the search tells them apart.
    pub(super) fn cases(&self, basis: &Basis, present: &[Case]) -> Vec<DeflectionCase> {
        let of = |nature| present.iter().copied().filter(move |c| basis.nature(*c) == nature);
        let mut listed = Listed { deflect: self, basis, dead: of(Nature::Dead).collect(), cases: Vec::new() };
        let transients = transients(basis, present);
        // The engineer's own deflection combinations stand in the place of the code's where the list says `only` (reading 14).
        listed.code(&transients, basis.combinations.replaces_deflections());
        if let Some(limit) = self.wind {
            listed.add(
                DeflectionOf::Wind,
                of(Nature::Wind).map(|c| (c, self.wind_part)).collect(),
                Some(limit),
                self.reference(DeflectionOf::Wind),
            );
        }
        listed.own(present);
        listed.cases
    }
}

/// The transient parts of the combinations that load a member; what is everywhere less than another of the same cases never governs.
fn transients(basis: &Basis, present: &[Case]) -> Vec<Vec<(Case, f64)>> {
    let mut all: Vec<Vec<(Case, f64)>> = Vec::new();
    for part in combinations::transient(basis) {
        let factor = |case: Case| part.iter().find(|(nature, _)| *nature == basis.nature(case)).map_or(0.0, |(_, factor)| *factor);
        let factors = codes::spread(basis, part.iter().map(|(nature, _)| *nature), factor);
        let factors: Vec<(Case, f64)> = factors.into_iter().filter(|(c, _)| present.contains(c)).collect();
        if !factors.is_empty() && !all.contains(&factors) {
            all.push(factors);
        }
    }
    let less =
        |a: &[(Case, f64)], b: &[(Case, f64)]| a != b && a.len() == b.len() && a.iter().zip(b).all(|(x, y)| x.0 == y.0 && x.1 <= y.1);
    let kept = |t: &&Vec<(Case, f64)>| !all.iter().any(|other| less(t, other));
    all.iter().filter(kept).cloned().collect()
}

/// The deflections of a member as they are listed.
struct Listed<'a> {
    deflect: &'a Deflect,
    basis: &'a Basis,
    dead: Vec<Case>,
    cases: Vec<DeflectionCase>,
}

impl Listed<'_> {
    fn add(&mut self, what: DeflectionOf, factors: Vec<(Case, f64)>, limit: Option<DeflectionLimit>, reference: &str) {
        if factors.is_empty() {
            return;
        }
        self.cases.push(DeflectionCase {
            what,
            combination: codes::name_of(&American, self.basis, &factors),
            title: Title::Factors { shown: factors.clone(), after: "" },
            factors,
            leading: None,
            limit,
            camber: 0.0,
            reference: reference.to_owned(),
            by_nature: true,
            within: None,
        });
    }

    fn with_dead(&self, part: f64, transient: &[(Case, f64)]) -> Vec<(Case, f64)> {
        self.dead.iter().map(|c| (*c, part)).chain(transient.iter().copied()).collect()
    }

    /// Those of the code; `instead`: the engineer's own stand in place of those that are limited.
    fn code(&mut self, transients: &[Vec<(Case, f64)>], instead: bool) {
        let deflect = self.deflect;
        for transient in transients.iter().filter(|_| !instead) {
            self.add(DeflectionOf::Live, transient.clone(), Some(deflect.live), deflect.reference(DeflectionOf::Live));
        }
        // Dead load alone stands for the spans that every other load relieves.
        let none: &[(Case, f64)] = &[];
        let totals: Vec<&[(Case, f64)]> = transients.iter().map(Vec::as_slice).chain([none]).collect();
        // Without dead load, an equal limit says nothing new.
        let says_more = !self.dead.is_empty() || deflect.total != deflect.live;
        for transient in totals.iter().filter(|_| !instead && says_more) {
            self.add(
                DeflectionOf::Total,
                self.with_dead(deflect.dead, transient),
                Some(deflect.total),
                deflect.reference(DeflectionOf::Total),
            );
        }
        if self.dead.is_empty() {
            return;
        }
        for transient in &totals {
            self.add(DeflectionOf::LongTerm, self.with_dead(deflect.creep, transient), None, "NDS 3.5.2");
        }
        if deflect.camber {
            self.add(DeflectionOf::Camber, self.with_dead(CAMBER, none), None, "common practice, no source");
        }
    }

    /// The engineer's own: as given against the limit on the total, without dead load against that on the transient part (reading 59).
    fn own(&mut self, present: &[Case]) {
        for own in self.basis.combinations.list.iter().filter(|c| c.deflection) {
            let given: Vec<(Case, f64)> = own.factors.iter().copied().filter(|(c, _)| present.contains(c)).collect();
            let transient: Vec<(Case, f64)> = given.iter().copied().filter(|(c, _)| self.basis.nature(*c) != Nature::Dead).collect();
            let of = [(DeflectionOf::Total, given.clone(), self.deflect.total), (DeflectionOf::Live, transient, self.deflect.live)];
            for (what, factors, limit) in of.into_iter().filter(|(_, factors, _)| !factors.is_empty()) {
                let name = codes::own_name(&American, self.basis, &own.name, &given, &factors);
                self.cases.push(DeflectionCase {
                    what,
                    combination: name.clone(),
                    title: Title::Own(name),
                    factors,
                    leading: None,
                    limit: Some(limit),
                    camber: 0.0,
                    reference: "job file".to_owned(),
                    by_nature: true,
                    within: None,
                });
            }
        }
    }
}
