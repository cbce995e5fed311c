//! The factors of Table 4.3.1 that do not depend on the demand, each with its cell and its reason.

#![allow(non_snake_case)]

mod faces;
mod size;

use super::fault::Fault;
use super::layup::{self, Glued, Volume};
use super::limits::Deflect;
use super::material::{self, Class, Resolved as Material};
use super::member::Member;
use super::section::Resolved as Section;
use super::{edition, notation, tables};
use crate::codes::Read;
use crate::equation::{Facts, Symbol};
use crate::job::model::{Bracing, HoldsFor, Job, Member as Entry, Moisture, Use};
use crate::table::{Found, Row};
use crate::text::Faults;
use crate::units::{IN, Length, PSI, Ratio, Stress, sq, trimmed};
use std::borrow::Cow;

/// A member's factors, settled.
pub(super) struct Settled {
    pub member: Member,
    pub facts: Facts,
    pub read: Vec<Read>,
    pub deflect: Deflect,
}

/// Greatest slenderness ratio of a beam. NDS 3.3.3.7.
pub(super) const SLENDERNESS_MOST: f64 = 50.0;

/// Collects cells and faults while factors are read.
struct Reader<'a> {
    entry: &'a Entry,
    section: &'a Section,
    material: &'a Material,
    wet: bool,
    facts: Facts,
    read: Vec<Read>,
    faults: Faults,
}

/// Factors by property: F_b, F_v, F_t, F_c⊥, F_c, E and E_min; that on F_t is read of posts, studs and ties only.
#[derive(Clone, Copy)]
struct ByProperty {
    b: Ratio,
    v: Ratio,
    t: Ratio,
    perp: Ratio,
    c: Ratio,
    E: Ratio,
}

const ONE: Ratio = Ratio::new(1.0);
const ONES: ByProperty = ByProperty { b: ONE, v: ONE, t: ONE, perp: ONE, c: ONE, E: ONE };

impl Reader<'_> {
    fn keep(&mut self, found: Option<Found<f64>>) -> Ratio {
        Ratio::new(Read::keep(found, &mut self.read))
    }

    fn row(&mut self, row: Option<Row<'_>>) -> ByProperty {
        let standing = self.entry.standing.is_some();
        let mut column = |name: &str| {
            let found = row.as_ref().and_then(|r| r.number(name));
            self.keep(found)
        };
        let t = if standing { column("F_t") } else { ONE };
        ByProperty { b: column("F_b"), v: column("F_v"), t, perp: column("F_c_perp"), c: column("F_c"), E: column("E") }
    }

    fn state<const N: usize>(
        &mut self,
        symbols: [&'static Symbol<crate::units::Dimensionless>; N],
        reference: &'static str,
        because: impl Into<Cow<'static, str>>,
    ) {
        let because = because.into();
        for symbol in symbols {
            self.facts.state(symbol, reference, because.clone());
        }
    }

    /// C_M. NDS 4.3.3; the exemptions of Tables 4A to 4C look at the value with its size factor, which an own value that holds for the
    /// member's size has in it already (reading 65).
    fn wet(&mut self, C_F_b: Ratio, C_F_c: Ratio) -> ByProperty {
        let letters = [&notation::C_M_b, &notation::C_M_v, &notation::C_M_t, &notation::C_M_perp, &notation::C_M_c, &notation::C_M_E];
        if !self.wet {
            let clause = match self.material.class {
                Class::Laminated => "NDS 5.3.3",
                Class::Composite => "NDS 8.3.3",
                _ => "NDS 4.3.3",
            };
            self.state(letters, clause, "dry in service");
            return ONES;
        }
        if self.material.class == Class::Composite {
            self.faults.push(Fault::NotOfComposite { what: "wet service" }.at(self.entry.mark.span));
            return ONES;
        }
        if self.material.class == Class::Laminated {
            self.state(letters, "NDS 5.3.3", "wet in service: 16 % or more");
            return self.row(material::wet_row(self.material));
        }
        let row = material::wet_row(self.material);
        let mut factors = self.row(row);
        let exempt = |column: &str, value: Stress| {
            let most: Stress = row.as_ref()?.quantity(column)?.value;
            value.at_most(most).then(|| trimmed(PSI.number(most.value()), 4))
        };
        self.state(letters, "NDS 4.3.3", "wet in service");
        let sized = self.material.holds_for == Some(HoldsFor::Member);
        let (C_F_b, C_F_c) = if sized { (ONE, ONE) } else { (C_F_b, C_F_c) };
        if let Some(most) = exempt("F_b_exempt_to", self.material.values.F_b * C_F_b) {
            factors.b = ONE;
            self.facts.state(&notation::C_M_b, "NDS 4.3.3", format!("wet, but F_b C_F is {most} psi or less"));
        }
        if let Some(most) = exempt("F_c_exempt_to", self.material.values.F_c * C_F_c) {
            factors.c = ONE;
            self.facts.state(&notation::C_M_c, "NDS 4.3.3", format!("wet, but F_c C_F is {most} psi or less"));
        }
        factors
    }

    /// C_t. NDS 2.3.3.
    fn temperature(&mut self, job: &Job) -> ByProperty {
        let placed = self.entry.conditions.temperature.as_ref().unwrap_or(&job.basis.temperature);
        let degrees = placed.value.value();
        let moisture = if self.wet { "wet" } else { "dry" };
        let row = tables::TEMPERATURE.row_at(&[("moisture", moisture)], &[("temperature", degrees)]);
        let letters = [&notation::C_t_b, &notation::C_t_v, &notation::C_t_t, &notation::C_t_perp, &notation::C_t_c, &notation::C_t_E];
        let Some(found) = row else {
            self.faults.push(Fault::TooHot { temperature: degrees }.at(placed.span));
            return ONES;
        };
        let band = found.text("temperature").unwrap_or_default().replace(" F", " °F");
        self.state(letters, "NDS Table 2.3.3", band);
        // In the lowest band nothing is lost, and nothing need be read.
        if found.bare("temperature_above").is_none() { ONES } else { self.row(Some(found)) }
    }

    /// C_i. NDS 4.3.8.
    fn incising(&mut self) -> ByProperty {
        let letters = [&notation::C_i_b, &notation::C_i_v, &notation::C_i_t, &notation::C_i_perp, &notation::C_i_c, &notation::C_i_E];
        let Some(asked) = self.entry.conditions.incised else {
            self.state(letters, "NDS 4.3.8", "not incised");
            return ONES;
        };
        if self.material.glued.is_some() {
            self.faults.push(Fault::NotForGlued { what: "the incising factor" }.at(asked));
            return ONES;
        }
        if self.material.class.is_timber() {
            self.faults.push(Fault::NotForTimbers { what: "the incising factor" }.at(asked));
            return ONES;
        }
        self.state(letters, "NDS Table 4.3.8", "incised");
        self.row(tables::INCISING.row(&[("pattern", "incised")]))
    }

    /// C_r, with its conditions from the job file (reading 21). NDS 4.3.9.
    fn repetitive(&mut self) -> Ratio {
        let row = tables::REPETITIVE.rows().next();
        let most: Option<Length> = row.as_ref().and_then(|r| r.quantity("spacing_to")).map(|f| f.value);
        let close = self.entry.spacing.as_ref().is_some_and(|s| most.is_some_and(|m| s.value.at_most(m)));
        let edge = self.entry.standing.as_ref().map_or(&self.entry.top, |standing| &standing.weak);
        let joined = matches!(edge, Bracing::Sheathed | Bracing::Continuous);
        let repetitive = matches!(self.entry.role, Use::Joist | Use::Rafter | Use::Stud);
        let plies = self.entry.plies.value >= 3;
        let timber = self.material.class.is_timber();
        if self.material.class == Class::Laminated {
            if let Some(asked) = self.entry.system.as_ref().filter(|said| said.value) {
                let why = "it does not apply to glued laminated timber";
                self.faults.push(Fault::RepetitiveNotAllowed { why }.at(asked.span));
            }
            return ONE;
        }
        let composite = self.material.class == Class::Composite;
        let near = format!("at {} in or less", most.map_or_else(String::new, |most| trimmed(most.number_in(&IN), 4)));
        let (applies, because) = match self.entry.system.as_ref().map(|said| (said.value, said.span)) {
            Some((true, asked)) if timber => {
                self.faults.push(Fault::RepetitiveNotAllowed { why: "it does not apply to timbers 5x5 and larger" }.at(asked));
                (false, String::new())
            }
            Some((true, _)) => (true, "conditions met by other means, says the job file".to_owned()),
            Some((false, _)) => (false, "not taken, says the job file".to_owned()),
            None if timber => (false, "not for timbers".to_owned()),
            None if plies => (true, "three plies or more in contact".to_owned()),
            None if repetitive && close && joined && self.entry.role == Use::Stud => (true, format!("{near}, joined by the sheathing")),
            None if repetitive && close && joined => (true, format!("{near}, top edge joined")),
            None if repetitive && !close => (false, format!("not {near}")),
            None if repetitive => (false, "top edge not joined throughout".to_owned()),
            None => (false, "single member".to_owned()),
        };
        if composite {
            self.facts.state(&notation::C_r, "NDS 8.3.7", because);
            let row = tables::REPETITIVE.row(&[("member", "structural composite lumber")]);
            return if applies { self.keep(row.and_then(|r| r.number("F_b"))) } else { ONE };
        }
        self.facts.state(&notation::C_r, "NDS 4.3.9", because);
        if applies { self.keep(row.and_then(|r| r.number("F_b"))) } else { ONE }
    }

    /// What is said of the letters that only glued members have.
    fn state_glued(&mut self, glued: &Glued) {
        let memory = if glued.balanced { "balanced layup" } else { "layup not balanced" };
        self.state([&notation::C_c], "NDS 5.3.8", "straight");
        self.state([&notation::C_I], "NDS 5.3.9", "not tapered");
        for letter in [&notation::F_bx_pos, &notation::F_bx_neg] {
            self.facts.state(letter, self.material.about.table.clone(), memory);
        }
    }

    /// K_F and φ of LRFD. NDS Appendix N.
    fn formats(&mut self, lrfd: bool) -> (ByProperty, ByProperty) {
        if !lrfd {
            return (ONES, ONES);
        }
        let mut of = |factor: &str| {
            let row = tables::LRFD.row(&[("factor", factor)]);
            let mut all = self.row(row);
            all.E = self.keep(row.and_then(|r| r.number("E_min")));
            all
        };
        let (conversion, resistance) = (of("K_F"), of("phi"));
        let letters = [&notation::K_F_b, &notation::K_F_v, &notation::K_F_t, &notation::K_F_perp, &notation::K_F_c, &notation::K_F_E];
        self.state(letters, "NDS Table N1", "format conversion, LRFD");
        self.state(
            [&notation::phi_b, &notation::phi_v, &notation::phi_t, &notation::phi_c, &notation::phi_E],
            "NDS Table N2",
            "resistance, LRFD",
        );
        (conversion, resistance)
    }
}

/// Settles every factor of a member.
///
/// # Errors
/// Conditions that a factor's clause does not allow, or that its table does not hold.
pub(super) fn settle(job: &Job, entry: &Entry, section: &Section, material: &Material) -> Result<Settled, Faults> {
    let wet = job.moisture(entry) == Moisture::Wet;
    let mut reader = Reader { entry, section, material, wet, facts: Facts::default(), read: Vec::new(), faults: Faults::new() };
    let (C_F_b, C_F_c) = reader.size();
    let C_F_t = reader.size_in_tension();
    let C_M = reader.wet(C_F_b, C_F_c);
    let C_t = reader.temperature(job);
    let (C_fu_b, C_fu_E) = reader.flat();
    let sideways = reader.across(C_F_b);
    let C_i = reader.incising();
    let C_r = reader.repetitive();
    let (K_F, phi) = reader.formats(edition::is_lrfd(&job.basis));
    let plies = f64::from(entry.plies.value);
    // Laid flat, the faces change places; plies lie side by side either way.
    let (b, d) =
        if entry.conditions.flat.is_some() { (plies * section.depth, section.width) } else { (plies * section.width, section.depth) };
    let A = b * d;
    let S = b * sq(d) / 6.0;
    let I = b * d * sq(d) / 12.0;
    // Sideways nothing holds plies together: each bends for itself.
    let S_y = plies * d * sq(b / plies) / 6.0;
    let I_y = plies * d * (b / plies) * sq(b / plies) / 12.0;
    let v = reader.treated(material.values);
    let flat = entry.conditions.flat.is_some();
    if let Some(glued) = &material.glued {
        reader.state_glued(glued);
    }
    let b_most = layup::volume_row(&material.species).and_then(|r| r.quantity("b_most")).map_or(b, |f| f.value);
    let d_size = match material.glued.as_ref().map(|g| g.volume) {
        Some(Volume::Exponent(_, depth)) => depth,
        _ => d,
    };
    let member = Member {
        b,
        d,
        A,
        S,
        I,
        S_y,
        I_y,
        F_b: v.F_b,
        F_by: v.F_by,
        F_vy: v.F_vy,
        E_y: v.E_y,
        F_bx_pos: v.F_b,
        F_bx_neg: v.F_b_neg,
        F_vx: v.F_v,
        E_x: v.E,
        E_x_min: v.E_min,
        E_y_min: v.E_y_min,
        C_c: ONE,
        C_I: ONE,
        b_most,
        d_size,
        F_v: v.F_v,
        F_t: v.F_t,
        F_c: v.F_c,
        F_c_perp: if flat { v.F_c_perp_y } else { v.F_c_perp },
        E: v.E,
        E_min: v.E_min,
        C_M_b: C_M.b,
        C_M_v: C_M.v,
        C_M_t: C_M.t,
        C_M_c: C_M.c,
        C_M_perp: C_M.perp,
        C_M_E: C_M.E,
        C_t_b: C_t.b,
        C_t_v: C_t.v,
        C_t_t: C_t.t,
        C_t_c: C_t.c,
        C_t_perp: C_t.perp,
        C_t_E: C_t.E,
        C_F_b,
        C_F_t,
        C_F_c,
        C_fu_b,
        C_fu_E,
        C_i_b: C_i.b,
        C_i_v: C_i.v,
        C_i_t: C_i.t,
        C_i_c: C_i.c,
        C_i_perp: C_i.perp,
        C_i_E: C_i.E,
        C_r,
        C_F_y: sideways.C_F,
        C_fu_y: sideways.C_fu,
        C_fu_Ey: sideways.C_fu_E,
        C_r_y: ONE,
        K_F_b: K_F.b,
        K_F_v: K_F.v,
        K_F_t: K_F.t,
        K_F_c: K_F.c,
        K_F_perp: K_F.perp,
        K_F_E: K_F.E,
        phi_b: phi.b,
        phi_v: phi.v,
        phi_t: phi.t,
        phi_c: phi.c,
        phi_E: phi.E,
    };
    let mut read = reader.read;
    let deflect = Deflect::of(job, entry, wet, material.class == Class::Laminated && entry.tilt.is_none() && !flat, &mut read);
    if reader.faults.is_empty() && member.has_gap() {
        reader.faults.push(Fault::NoFactor { section: section.name.clone() }.at(entry.section.span));
    }
    if !reader.faults.is_empty() {
        return Err(reader.faults);
    }
    Ok(Settled { member, facts: reader.facts, read, deflect })
}
