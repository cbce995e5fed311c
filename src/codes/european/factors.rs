//! The factors that do not depend on the demand, each with its cell and its reason.

#![allow(non_snake_case)]

use super::fault::Fault;
use super::material::{Class, Resolved as Material};
use super::member::{Member, Size};
use super::section::Resolved as Section;
use super::{national, notation, tables, time};
use crate::codes::Read;
use crate::equation::Facts;
use crate::job::model::{Basis, Bracing, HoldsFor, Job, Member as Entry, Nature};
use crate::table::Row;
use crate::text::Faults;
use crate::units::{AreaLoad, AreaMass, Force, KG_PER_M3, Length, MM, Q, Ratio, Seconds, Stress, WidthRigidity, sq, trimmed};

/// A member's factors, settled.
pub(super) struct Settled {
    pub member: Member,
    pub facts: Facts,
    pub read: Vec<Read>,
    pub rules: Rules,
}

/// What the clauses ask of a demand, settled once for a member.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rules {
    pub service_class: u8,
    pub class: Class,
    pub size: Size,
    pub size_weak: Size,
    /// How far a bearing counts beyond its edge.
    pub added: f64,
    /// The longest bearing whose factor counts; none: of any length.
    pub bearing_to: Option<f64>,
    /// Whether the factor of bearings is more than 1 at all.
    pub bears: bool,
    /// Whether the shear modulus for stability stands in the table.
    pub shear_modulus: bool,
}

struct Reader<'a> {
    job: &'a Job,
    entry: &'a Entry,
    material: &'a Material,
    facts: Facts,
    read: Vec<Read>,
    faults: Faults,
}

impl Reader<'_> {
    fn basis(&self) -> &Basis {
        &self.job.basis
    }

    /// A number of a row, kept for the references page.
    fn keep(&mut self, row: Option<&Row<'_>>, column: &str) -> Option<f64> {
        let read = national::read(row, column)?;
        let value = read.value;
        self.read.push(read);
        Some(value)
    }

    /// The service class; the tables must hold the material in it.
    fn service_class(&mut self) -> u8 {
        let placed = self.entry.conditions.service_class.as_ref().or(self.job.basis.service_class.as_ref());
        let class = placed.map_or(1, |p| p.value);
        let material = self.material.class.material();
        if time::k_mod(material, class, "permanent").is_none() {
            let said = if self.material.class == Class::Glulam { "glued laminated timber" } else { "laminated veneer lumber" };
            let span = placed.map_or(self.entry.material.span, |p| p.span);
            self.faults.push(Fault::ServiceClass { material: said, class }.at(span));
        }
        class
    }

    fn gamma_M(&mut self) -> f64 {
        let country = national::country(self.basis());
        let row = national::row(&tables::GAMMA_M, country, &[("material", self.material.class.material())]);
        let because = format!("{}, {}", self.material.class.material(), said(row.as_ref()));
        self.facts.state(&notation::gamma_M, "EN 1995-1-1, Table 2.3", because);
        self.keep(row.as_ref(), "gamma_M").unwrap_or(f64::NAN)
    }

    /// k_sys with its conditions from the job file (reading 29).
    fn k_sys(&mut self) -> f64 {
        let row = tables::K_SYS.rows().next();
        let most: Option<Length> = row.as_ref().and_then(|r| r.quantity("spacing_to")).map(|f| f.value);
        let close = self.entry.spacing.as_ref().is_some_and(|s| most.is_some_and(|m| s.value.at_most(m)));
        let joined = matches!(self.entry.top, Bracing::Sheathed | Bracing::Continuous);
        let near = most.map_or_else(String::new, |most| trimmed(most.number_in(&MM), 5));
        let (applies, because) = match self.entry.system.as_ref().map(|said| said.value) {
            Some(true) => (true, "conditions met by other means, says the job file".to_owned()),
            Some(false) => (false, "not taken, says the job file".to_owned()),
            None if self.entry.spacing.is_none() => (false, "no spacing: single member".to_owned()),
            None if !close => (false, format!("spacing above {near} mm")),
            None if !joined => (false, "top edge not joined throughout".to_owned()),
            None => (true, format!("at {near} mm or less, top edge joined")),
        };
        self.facts.state(&notation::k_sys, "EN 1995-1-1, 6.6", because);
        if applies { self.keep(row.as_ref(), "k_sys").unwrap_or(f64::NAN) } else { 1.0 }
    }

    /// k_cr: a value, or a stress over f_v,k.
    fn k_cr(&mut self) -> f64 {
        let country = national::country(self.basis());
        let row = national::row(&tables::K_CR, country, &[("material", self.material.class.cracks())]);
        let over: Option<Stress> = row.as_ref().and_then(|r| r.quantity("over_f_v")).map(|f| f.value);
        let (value, because) = match over {
            Some(over) => {
                self.keep(row.as_ref(), "over_f_v");
                let most = self.keep(row.as_ref(), "most").unwrap_or(1.0);
                let f_vk = self.material.values.f_vk;
                ((over / f_vk).value().min(most), format!("{:.1}/f_v,k, {}", over.value(), said(row.as_ref())))
            }
            None => {
                (self.keep(row.as_ref(), "k_cr").unwrap_or(f64::NAN), format!("{}, {}", self.material.class.cracks(), said(row.as_ref())))
            }
        };
        self.facts.state(&notation::k_cr, "EN 1995-1-1, 6.1.7(2)", because);
        value
    }

    fn k_n(&mut self) -> f64 {
        let material = self.material.class.material();
        self.facts.state(&notation::k_n, "EN 1995-1-1, 6.5.2 (6.63)", material);
        let row = tables::NOTCH.row(&[("material", material)]);
        if self.entry.notches.is_empty() {
            row.and_then(|r| r.number("k_n")).map_or(f64::NAN, |f| f.value)
        } else {
            self.keep(row.as_ref(), "k_n").unwrap_or(f64::NAN)
        }
    }

    fn k_def(&mut self, service_class: u8) -> f64 {
        let service = service_class.to_string();
        let row = tables::K_DEF.row(&[("material", self.material.class.material()), ("service_class", &service)]);
        let green = self.entry.conditions.green == Some(true);
        let because = if green { ", green when installed: 1.0 more (3.2(4))" } else { "" };
        self.facts.state(&notation::k_def, "EN 1995-1-1, Table 3.2", format!("service class {service_class}{because}"));
        self.keep(row.as_ref(), "k_def").unwrap_or(f64::NAN) + if green { 1.0 } else { 0.0 }
    }

    /// Companion factors, in the order Q, H, S, W; those of actions that load the member are kept for the references page.
    fn psi(&mut self, column: &str, used: &[Nature]) -> [Ratio; 4] {
        super::combinations::VARIABLE.map(|nature| {
            let row = national::psi(self.basis(), nature);
            let value = row.as_ref().and_then(|r| r.number(column)).map_or(f64::NAN, |f| f.value);
            if used.contains(&nature) {
                self.keep(row.as_ref(), column);
            }
            Ratio::new(value)
        })
    }

    fn state_psi(&mut self) {
        let said = |nature| {
            let word = national::action(&self.job.basis, nature);
            if word.len() == 1 { format!("category {word}") } else { word.to_owned() }
        };
        let [q, h, s, w] = super::combinations::VARIABLE.map(said);
        let table = "EN 1990, Table A1.1";
        let facts = &mut self.facts;
        facts.state(&notation::psi_0_Q, table, q.clone());
        facts.state(&notation::psi_2_Q, table, q);
        facts.state(&notation::psi_0_H, table, h.clone());
        facts.state(&notation::psi_2_H, table, h);
        facts.state(&notation::psi_0_S, table, s.clone());
        facts.state(&notation::psi_2_S, table, s);
        facts.state(&notation::psi_0_W, table, w.clone());
        facts.state(&notation::psi_2_W, table, w);
    }

    /// w_c of a member on two supports; of any other its shape is not known by one number. EN 1995-1-1, 7.2.
    fn camber(&mut self) -> Length {
        let Some(camber) = &self.entry.camber else {
            self.facts.state(&notation::w_c, "job file", "no camber is given");
            return Length::new(0.0);
        };
        if self.entry.spans.panels() > 1 || self.entry.tilt.is_some() {
            let what = "a camber of a member that leans, or has overhangs or several spans,".to_owned();
            let help = "leave it out: the net final deflection is the final one then";
            self.faults.push(Fault::NotCoveredYet { what, help }.at(camber.span));
        }
        self.facts.state(&notation::w_c, "job file", "camber");
        camber.value
    }

    /// k_h on a bending depth: of own values all of it where they are tabulated ones, else what it is below 1 from the depth that they hold
    /// for (reading 65).
    fn size(&mut self, depth: Length) -> Size {
        let here = self.size_of_table(depth);
        let factor = here.of(depth.number_in(&MM));
        let part = match self.material.own {
            None | Some(HoldsFor::Table(_)) => return here,
            Some(HoldsFor::Member) => factor,
            Some(HoldsFor::Depth(of, _)) => factor / self.size_of_table(of).of(of.number_in(&MM)),
        };
        match self.material.own {
            _ if part > 1.0 => Size::One(here.clause(), "above 1, not taken of an own value"),
            Some(HoldsFor::Depth(..)) if part < 1.0 => Size::Part(part, here.clause()),
            _ => here,
        }
    }

    /// k_h as the code has it.
    fn size_of_table(&mut self, depth: Length) -> Size {
        let class = self.material.class;
        let row = tables::K_H.row(&[("material", class.material())]);
        let clause = match class {
            Class::Softwood | Class::Hardwood => "EN 1995-1-1, 3.2(3) (3.1)",
            Class::Glulam => "EN 1995-1-1, 3.3(3) (3.2)",
            Class::Lvl => "EN 1995-1-1, 3.4(3) (3.3)",
        };
        let Some(row) = row else { return Size::One(clause, "") };
        let reference: Option<Length> = row.quantity("depth_reference").map(|f| f.value);
        let heavy = row.quantity("density_to").is_some_and(|f| !self.material.values.rho_k.at_most(f.value));
        let deep = reference.is_none_or(|r| depth.at_least(r)) && row.text("below_one") != Some("yes");
        let exponent = self.material.values.s.or_else(|| row.number("exponent").map(|f| f.value));
        match (reference, exponent, row.number("most")) {
            _ if heavy => Size::One(clause, "characteristic density above 700 kg/m3"),
            _ if deep && class == Class::Glulam => Size::One(clause, "depth at least 600 mm"),
            _ if deep => Size::One(clause, "depth at least 150 mm"),
            (Some(reference), None, _) => {
                if self.material.own != Some(HoldsFor::Member) || !depth.at_most(reference) {
                    let why = "exponent s of the size effect, as its maker declares it for (300 mm / h)^s";
                    self.faults.push(Fault::MissingValue { key: "size_exponent", why }.at(self.entry.material.span));
                }
                Size::One(clause, "above 1, not taken of an own value")
            }
            (Some(reference), Some(exponent), Some(most)) => {
                self.read.extend(["depth_reference", "exponent", "most"].iter().filter_map(|column| national::read(Some(&row), column)));
                Size::Power { reference: reference.number_in(&MM), exponent, most: most.value, clause }
            }
            _ => Size::One(clause, ""),
        }
    }
}

/// Whose choice a row is.
fn said(row: Option<&Row<'_>>) -> String {
    match row.and_then(|row| row.text("country")) {
        Some("recommended") | None => "recommended value".to_owned(),
        Some(country) => format!("choice of {country}"),
    }
}

/// Settles every factor of a member on which these natures of load act.
///
/// # Errors
/// Conditions that the tables do not hold.
pub(super) fn settle(job: &Job, entry: &Entry, section: &Section, material: &Material, used: &[Nature]) -> Result<Settled, Faults> {
    let mut reader = Reader { job, entry, material, facts: Facts::default(), read: Vec::new(), faults: Faults::new() };
    let plies = f64::from(entry.plies.value);
    // Laid flat, the faces change places; plies lie side by side either way.
    let (one, h) = if entry.conditions.flat.is_some() { (section.depth, section.width) } else { (section.width, section.depth) };
    let b = plies * one;
    if let Some(asked) = entry.conditions.flat.filter(|_| material.class != Class::Softwood && material.class != Class::Hardwood) {
        let help = "lay it on edge, or give solid timber";
        reader.faults.push(Fault::NotCoveredYet { what: "a flat member of glued laminated timber".to_owned(), help }.at(asked));
    }
    let (camber, service_class) = (reader.camber(), reader.service_class());
    if !reader.faults.is_empty() {
        return Err(reader.faults);
    }
    let gamma_M = reader.gamma_M();
    let k_sys = reader.k_sys();
    let k_cr = reader.k_cr();
    let k_n = reader.k_n();
    let k_def = reader.k_def(service_class);
    let psi_0 = reader.psi("psi_0", used);
    let psi_2 = reader.psi("psi_2", used);
    reader.state_psi();
    // The size effect is that of one ply (reading 8).
    let (size, size_weak) = (reader.size(h), reader.size(one));
    if !reader.faults.is_empty() {
        return Err(reader.faults);
    }
    let bearing = tables::BEARING.row(&[("material", material.class.bears())]);
    let added = reader.keep(bearing.as_ref(), "added").unwrap_or(0.0);
    let k_c90 = reader.keep(bearing.as_ref(), "k_c_90").unwrap_or(1.0);
    let bearing_to = bearing.as_ref().and_then(|r| r.number("length_to")).map(|f| f.value);
    reader.facts.state(&notation::k_c90, "EN 1995-1-1, 6.1.5(4)", "discrete supports, clear distance at least 2 h");
    let k_m = tables::K_M.rows().next().and_then(|r| r.number("k_m")).map_or(f64::NAN, |f| f.value);
    reader.facts.state(&notation::k_m, "EN 1995-1-1, 6.1.6(2)", "rectangular section");
    for letter in
        [&notation::f_mk, &notation::f_vk, &notation::f_c0k, &notation::f_c90k, &notation::E_05, &notation::E_mean, &notation::G_mean]
    {
        reader.facts.state(letter, material.about.table.clone(), material.about.row.clone());
    }
    let v = material.values;
    let ratio = Ratio::new;
    let member = Member {
        b,
        b_1: one,
        h,
        h_number: ratio(h.number_in(&MM)),
        A: b * h,
        W_y: b * sq(h) / 6.0,
        W_z: h * sq(b) / 6.0,
        I_y: b * h * sq(h) / 12.0,
        pi: ratio(std::f64::consts::PI),
        f_mk: v.f_mk,
        f_vk: v.f_vk,
        f_c0k: v.f_c0k,
        f_c90k: v.f_c90k,
        E_mean: v.E_mean,
        E_05: v.E_05,
        G_mean: v.G_mean,
        // Of a table without it the check works it out.
        G_05: v.G_05.unwrap_or(Stress::new(f64::NAN)),
        gamma_M: ratio(gamma_M),
        k_sys: ratio(k_sys),
        k_cr: ratio(k_cr),
        k_c90: ratio(k_c90),
        k_n: ratio(k_n),
        k_m: ratio(k_m),
        k_def: ratio(k_def),
        psi_0_Q: psi_0[0],
        psi_0_H: psi_0[1],
        psi_0_S: psi_0[2],
        psi_0_W: psi_0[3],
        psi_2_Q: psi_2[0],
        psi_2_H: psi_2[1],
        psi_2_S: psi_2[2],
        psi_2_W: psi_2[3],
        w_c: camber,
        s: Length::new(0.0),
        s_number: ratio(0.0),
        b_floor: Length::new(0.0),
        E_d: Stress::new(0.0),
        t_d: Length::new(0.0),
        EI_b: WidthRigidity::new(0.0),
        EI_b_number: ratio(0.0),
        g_floor: AreaLoad::new(0.0),
        m_floor: AreaMass::new(0.0),
        zeta: Seconds::new(0.0),
        F_1: Force::new(0.0),
        k_strut: ratio(1.0),
        k_share: ratio(1.0),
    };
    let rules = Rules {
        service_class,
        class: material.class,
        size,
        size_weak,
        added,
        bearing_to,
        bears: k_c90 > 1.0,
        shear_modulus: v.G_05.is_some(),
    };
    Ok(Settled { member, facts: reader.facts, read: reader.read, rules })
}

/// The own weight of a member, N/mm: mean density times 9.81 m/s² (reading 9).
pub(super) fn weight(material: &Material, member: &Member) -> f64 {
    (material.values.rho_mean * member.A).value()
}

/// A density as it is printed, kg/m³.
pub(super) fn density(material: &Material) -> f64 {
    KG_PER_M3.number(Q::value(material.values.rho_mean))
}

/// How many depths the effective length grows by, and the part of the free length that it takes. EN 1995-1-1, Table 6.1 (reading 28).
pub(super) mod effective {
    use super::tables;
    use crate::codes::{Demand, Loaded, Statics};
    use std::sync::LazyLock;

    /// Member and loading of the rows of Table 6.1.
    const ROWS: [(&str, &str); 6] = [
        ("overhang", "uniform"),
        ("overhang", "point at the free end or any other"),
        ("simple span", "uniform"),
        ("simple span", "point at mid-span"),
        ("simple span", "constant moment or any other"),
        ("overhang", "moment"),
    ];

    /// The same rows with their part of the length, read once: every ratio of a moment asks for one of them.
    static PARTS: LazyLock<[(f64, &str); ROWS.len()]> = LazyLock::new(|| {
        ROWS.map(|(member, loading)| {
            let row = tables::EFFECTIVE_LENGTH.row(&[("member", member), ("loading", loading)]);
            (row.and_then(|r| r.bare("l")).unwrap_or(f64::NAN), row.and_then(|r| r.text("loading")).unwrap_or_default())
        })
    });

    /// The part of the length between supports, with its row in words.
    pub fn part(demand: &Demand, loaded: Loaded) -> (f64, &'static str) {
        PARTS[match (loaded.overhang, demand.statics) {
            (true, _) if loaded.turned => 5,
            (true, _) if loaded.evenly => 0,
            (true, _) => 1,
            (false, Statics::Uniform { .. } | Statics::Both { .. }) if demand.single => 2,
            (false, Statics::MidPoint { .. }) if demand.single => 3,
            (false, _) => 4,
        }]
    }

    /// The part of an overhang's length under a moment on it (reading 54).
    pub fn turned() -> f64 {
        PARTS[5].0
    }

    /// Depths more on the top edge, fewer where the load pulls upward; none fewer where nothing would be left.
    pub fn depths(loaded: Loaded, part: f64, gap: f64, depth: f64) -> f64 {
        match loaded.upward {
            false => 2.0,
            true if part * gap > 0.5 * depth => -0.5,
            true => 0.0,
        }
    }
}
