//! Live load reduced by the area that a member bears. ASCE 7 section 4.7 (floors) and 4.8 (roofs).
//!
//! Only what the job file asks for, and only the cases `live` and `roof-live`: a case of the engineer's own is never reduced. The reduced load
//! is the member's own; what it hands down is whole again, for the member below has an area of its own.

#![allow(non_snake_case)]

use super::fault::Fault;
use super::{SETS, notation, tables};
use crate::codes::{Read, Reduced};
use crate::equation::{Facts, Tape, Trace};
use crate::job::model::{Job, LiveReduction, LoadKind, Member as Entry, Nature, RoofLiveReduction};
use crate::table::{Found, Row};
use crate::text::{Faults, Span};
use crate::units::{Area, AreaLoad, FT, FT2, Length, PSF, Ratio, max, min, quantity, sqrt};
use crate::{eq, given};

given! {
    /// What the reduction of floors starts from.
    Floor { L_o: AreaLoad, A_T: Area, K_LL: Ratio, A_from: Area, least: Ratio }
}

given! {
    /// What the reduction of roofs starts from.
    Roof { L_o: AreaLoad, A_T: Area, F: Ratio, A_from: Area, A_to: Area, F_from: Ratio, F_to: Ratio, L_least: AreaLoad }
}

/// The live load of floors that a member is designed for, and its part of the whole.
pub fn floor<T: Trace>(g: &Floor<T>, clause: &'static str) -> Ratio<T> {
    let &Floor { L_o, A_T, K_LL, A_from, least } = g;
    eq!(A_I = K_LL * A_T; "ASCE 7 4.7.2");
    if !A_I.at_least(A_from) {
        eq!(part = L_o.one(); "ASCE 7 4.7.2"; "too small an area: nothing is taken off");
        return part;
    }
    let side: Length<T> = quantity(A_I, 15.0, &FT);
    eq!(L_A = L_o * (0.25 + side / sqrt(A_I)); "ASCE 7 Eq. 4.7-1");
    eq!(L_red = max(L_A, least * L_o); clause; "the larger of the formula and the least that stays");
    eq!(part = L_red / L_o; "ASCE 7 4.7.2");
    part
}

/// The roof live load that a member is designed for, and its part of the whole.
pub fn roof<T: Trace>(g: &Roof<T>) -> Ratio<T> {
    let &Roof { L_o, A_T, F, A_from, A_to, F_from, F_to, L_least } = g;
    let R_1 = if A_T.at_most(A_from) {
        eq!(R_1 = A_T.one(); "ASCE 7 4.8.2"; "200 ft² at most");
        R_1
    } else {
        let A = if A_T.at_least(A_to) { A_to } else { A_T };
        let thousand: Area<T> = quantity(A, 1000.0, &FT2);
        eq!(R_1 = 1.2 - A / thousand; "ASCE 7 4.8.2");
        R_1
    };
    let R_2 = if F.at_most(F_from) {
        eq!(R_2 = F.one(); "ASCE 7 4.8.2"; "4 in 12 at most");
        R_2
    } else {
        let F = if F.at_least(F_to) { F_to } else { F };
        eq!(R_2 = 1.2 - 0.05 * F; "ASCE 7 4.8.2");
        R_2
    };
    eq!(L_red = max(L_o * R_1 * R_2, L_least); "ASCE 7 Eq. 4.8-1");
    eq!(part = L_red / L_o; "ASCE 7 4.8.2");
    part
}

/// The reductions that a member asks for.
pub(super) fn of(job: &Job, entry: &Entry, faults: &mut Faults) -> Vec<Reduced> {
    let live = entry.live_reduction.as_ref().and_then(|asked| floors_of(job, entry, asked, faults));
    let roof = entry.roof_live_reduction.as_ref().and_then(|asked| roof_of(job, entry, asked, faults));
    live.into_iter().chain(roof).collect()
}

fn floors_of(job: &Job, entry: &Entry, asked: &LiveReduction, faults: &mut Faults) -> Option<Reduced> {
    let before = faults.len();
    let column = asked.element.value.ends_with("column");
    if column != entry.role.is_upright() && asked.element.value != "other" {
        faults.push(Fault::ElementIsNot { element: asked.element.value, role: entry.role.word() }.at(asked.element.span));
    }
    let (_, heaviest) = unit_loads(job, entry, Nature::Live, asked.tributary.span, faults)?;
    let element = tables::LIVE_ELEMENTS.row(&[("element", asked.element.value)]);
    let limits = tables::LIVE_LIMITS.row(&[("floors", if asked.floors > 1 { "two or more" } else { "one" })])?;
    let load_to: AreaLoad = limits.quantity("load_to")?.value;
    let heavy = asked.occupancy.value == "garage" || !heaviest.at_most(load_to);
    if asked.occupancy.value == "assembly" {
        faults.push(Fault::NotReduced { what: "live load of assembly", clause: "4.7.5" }.at(asked.occupancy.span));
    } else if heavy && asked.floors == 1 {
        let garage = asked.occupancy.value == "garage";
        let what = if garage { "live load of a garage on one floor" } else { "live load above 100 psf on one floor" };
        let span = if garage { asked.occupancy.span } else { asked.tributary.span };
        faults.push(Fault::NotReduced { what, clause: if garage { "4.7.4" } else { "4.7.3" } }.at(span));
    }
    if faults.len() > before {
        return None;
    }
    let element = element?;
    let (K_LL, least) = (element.number("K_LL")?, limits.number(if heavy { "heavy" } else { "least" })?);
    let area_from: Found<Area> = limits.quantity("area_from")?;
    let given = Floor {
        L_o: heaviest,
        A_T: asked.tributary.value,
        K_LL: Ratio::new(K_LL.value),
        A_from: area_from.value,
        least: Ratio::new(least.value),
    };
    let clause = match (heavy, asked.occupancy.value) {
        (true, "garage") => "ASCE 7 4.7.4",
        (true, _) => "ASCE 7 4.7.3",
        (false, _) => "ASCE 7 4.7.2",
    };
    let mut facts = given_facts();
    facts.state(&notation::K_LL, "ASCE 7 Table 4.7-1", element.text("about").unwrap_or_default());
    let bears = if asked.floors > 1 {
        format!("least that stays under {} floors", asked.floors)
    } else {
        "least that stays under one floor".to_owned()
    };
    facts.state(&notation::least, clause, bears);
    facts.state(&notation::A_from, "ASCE 7 4.7.2", "least area that reduces");
    let read = vec![Read::plain(K_LL), Read::plain(least)];
    Some(worked(Nature::Live, heaviest, floor(&given, clause).value(), read, &facts, |tape| {
        floor(&given.traced(tape), clause);
    }))
}

fn roof_of(job: &Job, entry: &Entry, asked: &RoofLiveReduction, faults: &mut Faults) -> Option<Reduced> {
    let (lightest, heaviest) = unit_loads(job, entry, Nature::RoofLive, asked.tributary.span, faults)?;
    let row = tables::ROOF_LIVE.rows().next()?;
    let whole: AreaLoad = row.quantity("whole")?.value;
    if !(lightest.at_least(whole) && heaviest.at_most(whole)) {
        faults.push(Fault::NotTheWholeRoofLoad.at(asked.tributary.span));
        return None;
    }
    let rise = 12.0 * libm::tan(asked.slope.angle.value().to_radians());
    let number = |column: &str| row.number(column).map_or(f64::NAN, |found| found.value);
    let area = |row: &Row, column: &str| row.quantity(column).map_or(Area::new(f64::NAN), |found| found.value);
    let least: Found<AreaLoad> = row.quantity("lowest")?;
    let given = Roof {
        L_o: heaviest,
        A_T: asked.tributary.value,
        F: Ratio::new(rise),
        A_from: area(&row, "area_from"),
        A_to: area(&row, "area_to"),
        F_from: Ratio::new(number("rise_from")),
        F_to: Ratio::new(number("rise_to")),
        L_least: least.value,
    };
    let mut facts = given_facts();
    facts.state(&notation::F, "job file", format!("rise in inches per foot, slope {}", asked.slope.text));
    facts.state(&notation::A_to, "ASCE 7 4.8.2", "area beyond which no more is taken off");
    facts.state(&notation::F_to, "ASCE 7 4.8.2", "rise beyond which no more is taken off");
    facts.state(&notation::L_least, "ASCE 7 4.8.2", "least that stays");
    let read = vec![Read::shown(least, &PSF)];
    Some(worked(Nature::RoofLive, heaviest, roof(&given).value(), read, &facts, |tape| {
        roof(&given.traced(tape));
    }))
}

fn given_facts() -> Facts {
    let mut facts = Facts::default();
    facts.state(&notation::L_o, "job file", "unreduced, the heaviest of the areas that it bears");
    facts.state(&notation::A_T, "job file", "tributary area");
    facts
}

fn worked(nature: Nature, whole: AreaLoad, part: f64, read: Vec<Read>, facts: &Facts, write: impl Fn(&Tape)) -> Reduced {
    let tape = Tape::new();
    write(&tape);
    Reduced { case: nature.case(), whole: whole.value(), part, steps: tape.steps(facts, &SETS), read }
}

/// The lightest and the heaviest area load of the case that reach a member, down the load path; all of the case must be area loads.
fn unit_loads(job: &Job, entry: &Entry, nature: Nature, span: Span, faults: &mut Faults) -> Option<(AreaLoad, AreaLoad)> {
    let case = nature.case();
    let mut found: Option<(AreaLoad, AreaLoad)> = None;
    for member in job.down_to(entry) {
        for load in &member.loads {
            if let LoadKind::Area { area, .. } = load.kind {
                for one in job.areas[area].loads.iter().filter(|one| one.case == case && !one.load.is_zero()) {
                    found = Some(match found {
                        None => (one.load, one.load),
                        Some((low, high)) => (min(low, one.load), max(high, one.load)),
                    });
                }
            }
            if load.kind.case() == Some(case) {
                let what = match load.kind {
                    LoadKind::Line { .. } => "a line load",
                    LoadKind::Point { .. } => "a point load",
                    LoadKind::Moment { .. } => "a moment",
                    _ => "an axial load",
                };
                let (mark, case) = (member.mark.value.clone(), job.basis.cases[case.0].name.clone());
                faults.push(Fault::NotByArea { what, mark, case }.at(span));
                return None;
            }
        }
    }
    if found.is_none() {
        faults.push(Fault::NothingToReduce { case: job.basis.cases[case.0].name.clone() }.at(span));
    }
    found
}
