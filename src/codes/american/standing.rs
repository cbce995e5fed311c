//! Posts, studs and ties, resolved against the American tables.

#![allow(non_snake_case)]

use super::fault::Fault;
use super::glued::Layup;
use super::lengths::{self, Effective};
use super::loaded::{Axial, Loaded, Manner, Sense};
use super::needs::Needs;
use super::prepared::{self, Bending};
use super::{STANDING_CHECKS, account_standing, assumptions_standing, built_up, effective, material, notation, section, tables};
use crate::codes::{
    Account, Action, Combination, DeflectionCase, Demand, Kind, Leading, LeftOut, Looks, Prepared, Read, Resolved, Statics, Time,
    Utilization, Worked,
};
use crate::equation::{Facts, Step, Tape};
use crate::job::model::{Arrival, Axis, Case, Eccentricity, EndHeld, Job, Load, LoadKind, Member as Entry, Standing as Asked, Use};
use crate::text::Faults;
use crate::units::{Force, Length, Moment, Ratio, Stress, decimals};

/// A post, stud or tie, prepared.
pub(super) struct Standing {
    pub base: Bending,
    pub asked: Asked,
    pub axial: Axial,
    pub strong: Effective,
    pub weak: Effective,
    /// Free length of the compression edge; none: held throughout, and why.
    pub unbraced: Result<Length, &'static str>,
    facts: Facts,
    /// Whether its foot stands on a member that spans, which has the bearing on its sheet.
    on_member: bool,
}

/// Resolves a post, stud or tie.
///
/// # Errors
/// Everything in its entry that the tables and clauses do not allow.
pub(super) fn prepare(job: &Job, entry: &Entry, asked: &Asked) -> Result<Standing, Faults> {
    let mut faults = lying(entry);
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut base = prepared::prepare(job, entry)?;
    let m = &base.member;
    let plies = entry.plies.value;
    if m.F_t.value().is_nan() {
        faults.push(Fault::MissingValue { key: "F_t", why: "tension along the grain" }.at(entry.material.span));
    }
    eccentricities(entry, m.d, m.b, &mut faults);
    let K_f = built_up::factor(entry, asked, m.b, &mut base.resolved.read, &mut faults);
    base.notes.extend(built_up::fasteners(entry, asked, base.member.b, base.member.d, &mut base.resolved.read));
    let mut read = Vec::new();
    let mut about = |axis| lengths::about(entry, asked, axis, &mut read).map_err(|more| faults.extend(more)).ok();
    let (strong, weak) = (about(Axis::Strong), about(Axis::Weak));
    faults.dedup();
    let c = tables::COLUMNS.row(&[("material", if base.glued.is_some() { "glulam" } else { "sawn" })]);
    let mut number = |column: &str| Read::keep(c.as_ref().and_then(|row| row.number(column)), &mut read);
    let (c, slender) = (number("c"), number("slenderness"));
    let plate = plate(entry, asked, &base, &mut read, &mut faults);
    let (Some(strong), Some(weak)) = (strong, weak) else { return Err(faults) };
    if !faults.is_empty() {
        return Err(faults);
    }
    let loose = entry.plies.value > 1 && asked.joined.is_none();
    let d_2 = if loose { base.member.b / f64::from(plies) } else { base.member.b };
    let (F_c_perp_plate, C_M_plate, of_plate) = plate.unwrap_or((Stress::new(0.0), Ratio::new(1.0), String::new()));
    let axial = Axial {
        // Blank until a place gives them.
        P: Force::new(f64::NAN),
        M_e1: Moment::new(f64::NAN),
        M_e2: Moment::new(f64::NAN),
        l_1: Length::new(strong.length),
        l_2: Length::new(weak.length),
        K_e1: Ratio::new(strong.factor),
        K_e2: Ratio::new(weak.factor),
        d_1: base.member.d,
        d_2,
        c: Ratio::new(c),
        K_f: Ratio::new(K_f),
        slender_most: Ratio::new(slender),
        d_h: asked.holes.unwrap_or(Length::new(0.0)),
        F_c_perp_plate,
        C_M_plate,
    };
    base.resolved.read.extend(read);
    base.resolved.assumes = assumptions_standing::of(job, entry, asked, &base);
    base.resolved.checks = STANDING_CHECKS.iter().map(|check| check.about).collect();
    base.resolved.looks = Looks::default();
    let mut facts = facts(entry, asked, &strong, &weak, loose, base.layup());
    facts.state(&notation::F_c_perp_plate, of_plate, "plate");
    let unbraced = lengths::unbraced(entry, asked);
    let below = stands_on(job, entry);
    if !below.is_empty() {
        let marks = below.join(", ");
        base.notes
            .push(format!("The bearing under its foot is on the sheet of {marks}: the wood that it presses across the grain is there."));
    }
    Ok(Standing { base, asked: asked.clone(), axial, strong, weak, unbraced, facts, on_member: !below.is_empty() })
}

/// The members that span on which a post or stud stands.
fn stands_on<'j>(job: &'j Job, entry: &Entry) -> Vec<&'j str> {
    let takes = |load: &Load| load.kind.giver().is_some_and(|giver| job.members[giver].mark == entry.mark);
    let spanning = job.members.iter().filter(|other| entry.role.is_upright() && other.standing.is_none());
    spanning.filter(|other| other.loads.iter().any(takes)).map(|other| other.mark.value.as_str()).collect()
}

/// Sections given the wrong way round.
fn lying(entry: &Entry) -> Faults {
    let mut faults = Faults::new();
    if entry.plies.value == 1 && section::resolve(entry).is_ok_and(|size| !size.width.at_most(size.depth)) {
        faults.push(Fault::WiderThanDeep { laminated: section::is_laminated(entry) }.at(entry.section.span));
    }
    if let Some(asked) = entry.conditions.flat {
        faults.push(Fault::FlatColumn.at(asked));
    }
    faults
}

/// Forces that stand outside of the section.
fn eccentricities(entry: &Entry, d: Length, b: Length, faults: &mut Faults) {
    let of = |load: &Load| -> Option<Eccentricity> {
        match &load.kind {
            LoadKind::Axial { eccentricity, .. } | LoadKind::Reaction { arrives: Arrival::Head { eccentricity, .. }, .. } => {
                Some(eccentricity.clone())
            }
            _ => None,
        }
    };
    let on_bracket = |eccentricity: &Eccentricity| eccentricity.at.is_some();
    if entry.standing.as_ref().is_some_and(Asked::has_free_end) && entry.loads.iter().filter_map(of).any(|e| on_bracket(&e)) {
        faults.push(Fault::NotCoveredYet { what: "a bracket on a column with a free end".to_owned() }.at(entry.mark.span));
    }
    for eccentricity in entry.loads.iter().filter_map(of).filter(|e| !on_bracket(e)) {
        for (given, size) in [(eccentricity.strong, d), (eccentricity.weak, b)] {
            if let Some(given) = given
                && given.value.value().abs() > 0.5 * size.value() * (1.0 + 1e-9)
            {
                let most = format!("{} in", section::inches(0.5 * size));
                faults.push(Fault::OutsideSection { most }.at(given.span));
            }
        }
    }
}

/// Bearing value and wet service factor of the plate, and the table of the first; a foot wider than the plate is refused.
fn plate(entry: &Entry, asked: &Asked, base: &Bending, read: &mut Vec<Read>, faults: &mut Faults) -> Option<(Stress, Ratio, String)> {
    let plate = asked.plate.as_ref()?;
    let flat = Entry { section: plate.section.clone(), material: plate.material.clone(), self_weight: false, ..entry.clone() };
    let size = section::resolve(&flat).map_err(|more| faults.extend(more)).ok()?;
    let material = material::resolve(&flat, &size, Needs::of_plate()).map_err(|more| faults.extend(more)).ok()?;
    let least = crate::units::min(base.member.b, base.member.d);
    let wider = if entry.role == Use::Stud { base.member.d } else { least };
    if !wider.at_most(size.depth) {
        let (foot, plate_width) = (section::inches(wider), section::inches(size.depth));
        faults.push(Fault::WiderThanBearing { foot, plate: plate_width }.at(plate.section.span));
    }
    read.extend(material.read.iter().filter(|r| r.cell.column.starts_with("F_c_perp")).cloned());
    // Wet service counts for the plate as for the member, by the table of the plate's own material; one without a factor is used dry.
    let wet = || material::wet_row(&material).and_then(|row| row.bare("F_c_perp"));
    let Some(own) = (if base.wet { wet() } else { Some(1.0) }) else {
        faults.push(Fault::NotOfComposite { what: "wet service" }.at(plate.material.span));
        return None;
    };
    Some((material.values.F_c_perp, Ratio::new(own), material.about.table))
}

/// Where the values come from that the checks of columns start from.
fn facts(entry: &Entry, asked: &Asked, strong: &Effective, weak: &Effective, loose: bool, layup: Option<Layup>) -> Facts {
    let mut facts = Facts::default();
    facts.state(&notation::K_e1, strong.reference, strong.because_factor.clone());
    facts.state(&notation::K_e2, weak.reference, weak.because_factor.clone());
    facts.state(&notation::l_1, "job file", strong.because_length);
    facts.state(&notation::l_2, "job file", weak.because_length);
    facts.state(&notation::d_1, "section", "depth, about the strong axis");
    facts.state(&notation::d_2, "section", if loose { "one ply: nothing joins them" } else { "width, about the weak axis" });
    let made_of = match layup {
        None => "sawn lumber",
        Some(Layup::Laminated { .. }) => "glued laminated timber",
        Some(Layup::Composite { .. }) => "structural composite lumber",
    };
    facts.state(&notation::c, "NDS 3.7.1.5", made_of);
    facts.state(&notation::L_0, "NDS 5.3.6", "whole length, the most that lies between points of zero moment");
    facts.state(&notation::slender_most, "NDS 3.7.1.4", "most in service");
    if let Some(joined) = asked.joined {
        facts.state(&notation::K_f, "NDS 15.3.2.4", format!("{} built-up column", joined.word()));
    }
    facts.state(&notation::d_h, "job file", "width of the holes in one section");
    facts.state(&notation::C_M_plate, "NDS 4.3.3", "plate");
    let force = if entry.role == Use::Tie { "force along the tie" } else { "force at the foot, own weight in it" };
    facts.state(&notation::P, "statics", force);
    facts.state(&notation::M_e1, "statics", "force times its distance from the axis");
    facts.state(&notation::M_e2, "statics", "force times its distance from the axis");
    facts.state(&notation::M_x, "statics", "largest about the strong axis, by side loads");
    facts.state(&notation::M_y, "statics", "largest about the weak axis, by side loads");
    facts
}

impl Standing {
    /// A demand in the code's letters.
    fn loaded(&self, demand: &Demand) -> (Loaded, Manner) {
        let (mut q, mut how) = self.base.asked(demand);
        if let Statics::MidPoint { .. } = demand.statics {
            how.statics = Statics::Diagram;
        }
        q.L_0 = self.base.entry.spans.length();
        // Which face is the top of a post is not said, and a tie is turned round by wind: the edge that may be stretched less counts.
        if let Some(Layup::Laminated { hogging, .. }) = &mut how.layup {
            *hogging = true;
        }
        match self.unbraced {
            Err(because) => how.held = Some(because),
            Ok(gap) => {
                q.l_u = gap;
                how.effective = effective::length(&row_of(demand), gap.value(), self.base.member.d.value());
            }
        }
        let mut x = self.axial;
        let mut manner = Manner {
            how,
            sense: Sense::Nothing,
            side: [false; 2],
            sideways: false,
            eccentric: [false; 2],
            held_1: self.strong.held.is_some(),
            held_2: self.weak.held.is_some(),
            built_up: self.asked.joined.is_some(),
            holed: self.asked.holes.is_some(),
            plate: self.asked.plate.is_some(),
        };
        const LEAST: f64 = 1e-6;
        if let Action::Shear { force, .. } = demand.action {
            manner.sideways = force > LEAST;
        }
        if let Action::Along { force, strong, weak } = demand.action {
            x.P = Force::new(force.abs());
            x.M_e1 = Moment::new(strong.eccentric);
            x.M_e2 = Moment::new(weak.eccentric);
            q.M_x = Moment::new(strong.side);
            q.M_y = Moment::new(weak.side);
            manner.sense = if force > LEAST {
                Sense::Press
            } else if force < -LEAST {
                Sense::Pull
            } else {
                Sense::Nothing
            };
            manner.side = [strong.side > LEAST, weak.side > LEAST];
            manner.eccentric = [strong.eccentric > LEAST, weak.eccentric > LEAST];
            // Where forces cancel each other their moments need not: they bend the member like side loads.
            if manner.sense == Sense::Nothing && (manner.eccentric[0] || manner.eccentric[1]) {
                q.M_x = Moment::new(strong.side + strong.eccentric);
                q.M_y = Moment::new(weak.side + weak.eccentric);
                manner.side = [manner.bends_1(), manner.bends_2()];
                manner.eccentric = [false; 2];
                manner.how.statics = Statics::Diagram;
            }
        }
        (Loaded { m: self.base.member, q, x }, manner)
    }

    fn facts_of(&self, demand: &Demand, time: &Time) -> Facts {
        let mut facts = self.base.facts_of(demand, time);
        facts.extend(&self.facts);
        if let Ok(gap) = self.unbraced {
            let because = if gap.value() < self.base.entry.spans.length().value() * (1.0 - 1e-9) {
                "largest gap between braces about the weak axis"
            } else {
                "whole length, no brace about the weak axis"
            };
            facts.state(&notation::l_u, "NDS 3.3.3.4", because);
        }
        facts
    }
}

impl Prepared for Standing {
    fn resolved(&self) -> &Resolved {
        &self.base.resolved
    }

    fn not_checked(&self) -> Vec<String> {
        let mut list = Vec::new();
        if self.base.entry.role != Use::Tie && self.asked.plate.is_none() && !self.on_member {
            list.push("bearing of what is under the foot (no plate is given)");
        }
        if !self.base.feet.is_empty() {
            list.push("bearing of what stands on it");
        }
        if self.asked.joined.is_some() {
            list.push("nails or bolts that join the plies (NDS 15.3.3, 15.3.4)");
        }
        if self.asked.top == EndHeld::Fixed || self.asked.bottom == EndHeld::Fixed {
            list.push("what fixes an end against turning");
        }
        list.extend(["fastening of the ends", "notches and holes", "racking, and what holds the ends in place"]);
        if self.base.entry.role == Use::Tie && self.asked.holes.is_some() {
            list.retain(|what| *what != "notches and holes");
        }
        list.into_iter().map(str::to_owned).collect()
    }

    fn unmade(&self, present: &[Case]) -> Vec<String> {
        self.base.unmade(present)
    }

    fn notes(&self, _: &[f64]) -> Vec<String> {
        self.base.notes.clone()
    }

    /// Nothing is left out of the shear of a side load (reading 17).
    fn left_out(&self, _: usize) -> LeftOut {
        LeftOut::Nothing
    }

    fn time(&self, combination: &Combination, present: &[(Case, f64)]) -> Time {
        self.base.time(combination, present)
    }

    fn deflections(&self, present: &[Case]) -> Vec<DeflectionCase> {
        self.base.deflections(present)
    }

    fn ratio(&self, check: usize, demand: &Demand) -> Option<Utilization> {
        let (loaded, manner) = self.loaded(demand);
        (STANDING_CHECKS[check].ratio)(&loaded, &manner).map(|ratio| Utilization::new(ratio.value()))
    }

    fn worked(&self, check: usize, demand: &Demand, time: &Time) -> Worked {
        let row = &STANDING_CHECKS[check];
        let (loaded, manner) = self.loaded(demand);
        let tape = Tape::new();
        (row.worked)(&loaded.traced(&tape), &manner);
        let mut remarks = Vec::new();
        if row.about.kind == Kind::Slenderness {
            let material = if self.base.glued.is_some() { "glulam" } else { "sawn" };
            let most = tables::COLUMNS.row(&[("material", material)]).and_then(|r| r.number("slenderness_construction"));
            let most = most.map_or(f64::NAN, |f| f.value);
            remarks.push(format!("During construction the ratio may be up to {} (NDS 3.7.1.4).", decimals(most, 0)));
        }
        if row.about.clause == "NDS 3.10.1" {
            let parts = (loaded.x.P / loaded.m.A / super::compression::crushing(&loaded, &manner)).value();
            if parts > 0.75 {
                remarks.push("Above 0.75 F_c*: a rigid bearing plate or the like has to spread the force (NDS 3.10.1.3).".to_owned());
            }
        }
        row.written(once(tape.steps(&self.facts_of(demand, time), &super::SETS)), remarks)
    }

    fn read_for(&self, combination: &Combination, demand: &Demand, worked: &Worked) -> Vec<Read> {
        let mut read = self.base.read_for(combination, demand, worked);
        if let Ok(gap) = self.unbraced
            && worked.steps.iter().any(|step| step.symbol == "l_e")
        {
            read.extend(effective::read(&row_of(demand), gap.value(), self.base.member.d.value()));
        }
        read
    }

    fn account(&self, leading: &Leading<'_>) -> Account {
        account_standing::of(self, leading)
    }
}

/// The demand by which the row of Table 3.3.3 is found: an eccentric force bends the member in another way than its side loads do.
fn row_of(demand: &Demand) -> Demand {
    match demand.action {
        Action::Along { strong, .. } if strong.eccentric > 0.0 => Demand { statics: Statics::Diagram, ..*demand },
        _ => *demand,
    }
}

/// A line that two parts of a check need is printed where it stands first.
fn once(steps: Vec<Step>) -> Vec<Step> {
    let mut kept: Vec<Step> = Vec::with_capacity(steps.len());
    for step in steps {
        let known =
            kept.iter().any(|k| k.symbol == step.symbol && k.equation == step.equation && k.value.to_bits() == step.value.to_bits());
        if !known {
            kept.push(step);
        }
    }
    kept
}
