//! What vibration asks of a floor: what the job file gives, what the nation chooses, and what is missing. EN 1995-1-1, 7.3.3.

#![allow(non_snake_case)]

use super::fault::Fault;
use super::member::{Asked, Member};
use super::vibration::{self, Floor};
use super::{national, notation, tables};
use crate::codes::Read;
use crate::codes::assumed;
use crate::equation::{Facts, OfDimension};
use crate::job::model::{self, Job, LoadKind, Member as Entry, Nature, StiffAcross, Use};
use crate::table::Row;
use crate::text::Faults;
use crate::units::{AreaLoad, HZ, KG_PER_M2, KN, Length, LineLoad, M_PER_NS2, MM, N_M2_PER_M, Ratio, SECOND, decimals, figures};

/// What the clause itself is called.
const CLAUSE: &str = "EN 1995-1-1, 7.3.3";

/// The vibration of a floor, settled for a member.
#[derive(Clone, Debug, Default)]
pub(super) struct Vibration {
    rules: Option<Rules>,
    /// What is not checked, and why.
    pub not_checked: Vec<String>,
}

#[derive(Clone, Debug)]
struct Rules {
    floor: Floor,
    /// The clause is for frequencies above this.
    hertz_above: f64,
    a: (Length, String),
    b: Option<(f64, String)>,
    nation: Option<British>,
    /// Numbers of the member's spans from first to last.
    spans: usize,
}

/// The numbers of the British rule.
#[derive(Clone, Copy, Debug)]
struct British {
    a: f64,
    span_to: f64,
    a_over: f64,
    a_power: f64,
    a_knee: f64,
    b_less: [f64; 2],
    b_more: [f64; 2],
    b_least: f64,
    amplified: [f64; 2],
    end_span: f64,
    inner_span: f64,
}

/// What a floor's vibration is settled from, and into.
pub(super) struct Settling<'a> {
    pub job: &'a Job,
    pub entry: &'a Entry,
    /// Own weight, N/mm.
    pub weight: f64,
    pub member: &'a mut Member,
    pub facts: &'a mut Facts,
    pub read: &'a mut Vec<Read>,
}

impl Settling<'_> {
    /// Settles what can be settled.
    ///
    /// # Errors
    /// Limits laxer than any that the standard knows.
    pub(super) fn settle(mut self) -> Result<Vibration, Faults> {
        let not_checked = |why: &str| Vibration { rules: None, not_checked: vec![format!("vibration ({CLAUSE}: {why})")] };
        let entry = self.entry;
        if entry.role == Use::Rafter {
            return Ok(Vibration::default());
        }
        let Some(given) = &entry.floor else {
            return Ok(not_checked(match entry.role {
                Use::Joist => "no `floor` is given, with its width, decking and limits",
                _ if !assumed::bears_live(self.job, entry) => return Ok(Vibration::default()),
                _ => "the floor that it is part of is not checked with it",
            }));
        };
        let country = national::country(&self.job.basis);
        let row = national::row(&tables::VIBRATION, country, &[]);
        let Some(row) = row.filter(national::is_sure) else {
            return Ok(not_checked("the nation's choice is not held for sure"));
        };
        lax(given, &row)?;
        if entry.spans.has_overhang() {
            return Ok(not_checked("a member that overhangs is no floor held at its edges"));
        }
        if entry.tilt.is_some() {
            return Ok(not_checked("a member that leans is no floor"));
        }
        let nation = British::of(&row);
        let even = permanent(self.job, entry, self.weight);
        let mut missing = Vec::new();
        let mut lacks = |there: bool, what: &str| {
            if !there {
                missing.push(what.to_owned())
            }
        };
        lacks(given.width.is_some(), "`width`");
        lacks(given.across.is_some(), "`decking` or `stiffness-across`");
        lacks(given.a.is_some() || nation.is_some(), "`a`");
        lacks(given.b.is_some() || nation.is_some(), "`b`");
        lacks(given.mass.is_some() || even.is_some_and(|g| g.value() > 0.0), "`mass` (the permanent load is not one even load)");
        let (Some(spacing), true) = (&entry.spacing, missing.is_empty()) else {
            return Ok(not_checked(&format!("`floor` lacks {}", missing.join(", "))));
        };
        let floor = Floor {
            british: nation.is_some() && given.share.is_none(),
            loaded: given.mass.is_none(),
            decked: matches!(given.across, Some(StiffAcross::Decking { .. })),
        };
        let rules = Rules {
            floor,
            hertz_above: row.number("hertz_above").map_or(f64::NAN, |f| f.value),
            a: given.a.as_ref().map_or((Length::new(0.0), String::new()), |a| (a.value, "limit a of the job file, under 1 kN".to_owned())),
            b: given.b.as_ref().map(|b| (b.value.value(), "limit b of the job file".to_owned())),
            nation,
            spans: entry.spans.spans.len(),
        };
        self.give(given, spacing.value, even, &row);
        Ok(rules.applied(self.member, entry))
    }

    /// Gives the member its letters.
    fn give(&mut self, given: &model::Floor, spacing: Length, even: Option<LineLoad>, row: &Row<'_>) {
        let Self { member: m, facts, read, .. } = self;
        let job = "job file";
        m.s = spacing;
        m.s_number = Ratio::new(spacing.number_in(&MM));
        facts.state(&notation::s, job, "centre to centre");
        facts.state(&notation::s_number, CLAUSE, "s in mm");
        m.b_floor = given.width.unwrap_or(Length::new(f64::NAN));
        facts.state(&notation::b_floor, job, "width of the floor");
        match given.across {
            Some(StiffAcross::Decking { thickness, modulus }) => {
                (m.t_d, m.E_d) = (thickness, modulus);
                facts.state(&notation::t_d, job, "thickness of the decking");
                facts.state(&notation::E_d, job, "the decking, across the joists");
                m.EI_b = vibration::across(m, Floor { british: false, loaded: true, decked: true });
            }
            Some(StiffAcross::Stated(stiffness)) => m.EI_b = stiffness,
            None => {}
        }
        facts.state(&notation::EI_b, job, "stiffness across the joists");
        m.EI_b_number = Ratio::new(1000.0 * N_M2_PER_M.number(m.EI_b.value()) * 1000.0);
        facts.state(&notation::EI_b_number, CLAUSE, "the same in N mm2/m");
        m.g_floor = AreaLoad::new(even.map_or(0.0, |g| g.value() / spacing.value()));
        facts.state(&notation::g_floor, "loads", "permanent loads over the spacing");
        m.m_floor = given.mass.map_or(m.m_floor, |mass| KG_PER_M2.of(mass.value() / 9.81e-6));
        facts.state(&notation::m_floor, job, "mass of the floor");
        let damping = national::read(Some(row), "damping");
        let zeta = given.damping.map(Ratio::value).or(damping.as_ref().map(|d| d.value)).unwrap_or(f64::NAN);
        m.zeta = SECOND.of(zeta);
        let whose = match row.text("country") {
            _ if given.damping.is_some() => "modal damping ratio of the job file".to_owned(),
            Some("recommended") | None => "modal damping ratio, recommended value".to_owned(),
            Some(country) => format!("modal damping ratio, choice of {country}"),
        };
        facts.state(&notation::zeta, "EN 1995-1-1, 7.3.1(3)", whose);
        m.F_1 = KN.of(1.0);
        facts.state(&notation::F_1, CLAUSE, "a single force, anywhere on the floor");
        let strut = national::read(Some(row), "strutted").filter(|_| given.strutted);
        m.k_strut = Ratio::new(strut.as_ref().map_or(1.0, |s| s.value));
        facts.state(&notation::k_strut, CLAUSE, if given.strutted { "strutted, says the job file" } else { "not strutted" });
        m.k_share = given.share.unwrap_or(Ratio::new(1.0));
        let because = if given.share.is_some() {
            "share of one joist, says the job file"
        } else {
            "no share is given: one joist takes all, on the safe side"
        };
        facts.state(&notation::k_share, job, because);
        read.extend(national::read(Some(row), "hertz_above").into_iter().chain(damping.filter(|_| given.damping.is_none())).chain(strut));
    }
}

/// A limit that is laxer than any of Figure 7.2.
fn lax(given: &model::Floor, row: &Row<'_>) -> Result<(), Faults> {
    let mut faults = Faults::new();
    let most = row.quantity("a_most").map_or(Length::new(f64::NAN), |f| f.value);
    let least = row.number("b_least").map_or(f64::NAN, |f| f.value);
    if let Some(a) = given.a.as_ref().filter(|a| !a.value.at_most(most)) {
        faults.push(Fault::LaxLimit { key: "a", bound: format!("at most {} mm", decimals(most.number_in(&MM), 0)) }.at(a.span));
    }
    if let Some(b) = given.b.as_ref().filter(|b| !b.value.at_least(least)) {
        faults.push(Fault::LaxLimit { key: "b", bound: format!("at least {}", decimals(least, 0)) }.at(b.span));
    }
    if faults.is_empty() { Ok(()) } else { Err(faults) }
}

impl British {
    /// The rule, where a nation's row has one.
    fn of(row: &Row<'_>) -> Option<Self> {
        let number = |column: &str| row.number(column).map(|f| f.value);
        let millimetres = |column: &str| row.quantity::<<Length as OfDimension>::D>(column).map(|f| f.value.number_in(&MM));
        Some(Self {
            a: millimetres("a")?,
            span_to: millimetres("span_to")?,
            a_over: number("a_over")?,
            a_power: number("a_power")?,
            a_knee: millimetres("a_knee")?,
            b_less: [number("b_less")?, number("b_less_per_mm")?],
            b_more: [number("b_more")?, number("b_more_per_mm")?],
            b_least: number("b_least")?,
            amplified: [number("amplified")?, number("amplified_continuous")?],
            end_span: number("end_span")?,
            inner_span: number("inner_span")?,
        })
    }

    /// The limit a of a span, mm, and how it comes about.
    fn limit_a(&self, span: f64) -> (f64, String) {
        if span <= self.span_to * (1.0 + 1e-9) {
            return (self.a, format!("choice of GB: spans up to {} m", decimals(0.001 * self.span_to, 0)));
        }
        (self.a_over / libm::pow(span, self.a_power), format!("choice of GB: {}/l^{}, l in mm", decimals(self.a_over, 0), self.a_power))
    }

    /// The limit b of a floor that gives `w` mm under 1 kN.
    fn limit_b(&self, w: f64) -> (f64, String) {
        let [from, by] = if w <= self.a_knee { self.b_less } else { self.b_more };
        if from - by * w < self.b_least {
            // Floors that give so much fail in (7.3); the figure goes no further.
            return (self.b_least, "least of EN 1995-1-1, Figure 7.2".to_owned());
        }
        (from - by * w, format!("choice of GB: {} − {} w, w = {} mm", decimals(from, 0), decimals(by, 0), figures(w, 4)))
    }
}

impl Rules {
    /// The rules on a member; spans that the clause is not for are named.
    fn applied(self, member: &Member, entry: &Entry) -> Vibration {
        let mut not_checked = Vec::new();
        for (i, span) in entry.spans.spans.iter().enumerate() {
            let mut asked = super::asked::of_every_place(1.0);
            asked.l = span.value;
            if let Some(why) = self.outside(member, &asked) {
                let place = if self.spans == 1 { String::new() } else { format!(" in span {}", i + 1) };
                not_checked.push(format!("vibration{place} ({CLAUSE}: {why})"));
            }
        }
        Vibration { rules: Some(self), not_checked }
    }

    /// Why the clause is not for a span; none where it is.
    fn outside(&self, member: &Member, asked: &Asked) -> Option<String> {
        let f_1 = vibration::first(member, asked, self.floor);
        let (along, across) = (vibration::along(member), vibration::across(member, self.floor));
        if f_1.at_most(HZ.of(self.hertz_above)) || f_1.value().is_nan() {
            let (is, above) = (decimals(f_1.number_in(&HZ), 1), decimals(self.hertz_above, 0));
            return Some(format!("fundamental frequency {is} Hz, not above {above} Hz: a special investigation is required"));
        }
        across.at_least(along).then(|| "the floor is no stiffer along the joists than across".to_owned())
    }
}

impl Vibration {
    /// Whether any span of it is checked.
    pub(super) fn is_checked(&self) -> bool {
        self.rules.as_ref().is_some_and(|rules| self.not_checked.len() < rules.spans)
    }

    /// Whether 7.3.3 is not made for a span, though all that it asks for is known.
    pub(super) fn is_outside(&self, member: &Member, span: f64) -> bool {
        let mut asked = super::asked::of_every_place(1.0);
        asked.l = Length::new(span);
        self.rules.as_ref().is_some_and(|rules| rules.outside(member, &asked).is_some())
    }

    /// Fills in what a span is asked for; none where 7.3.3 is not checked there.
    pub(super) fn ask(&self, member: &Member, span: f64, place: usize, asked: &mut Asked) -> Option<Floor> {
        let rules = self.rules.as_ref()?;
        asked.l = Length::new(span);
        if rules.outside(member, asked).is_some() {
            return None;
        }
        asked.l_eq = asked.l;
        asked.k_amp = Ratio::new(1.0);
        if let Some(nation) = &rules.nation {
            let (part, amplified) = match (rules.spans, place) {
                (1, _) => (1.0, nation.amplified[0]),
                (spans, place) if place == 1 || place == spans => (nation.end_span, nation.amplified[1]),
                _ => (nation.inner_span, nation.amplified[1]),
            };
            asked.l_eq = part * asked.l;
            asked.k_amp = Ratio::new(amplified);
        }
        asked.a_F = rules.limit_a(span).0;
        asked.b_v = M_PER_NS2.of(rules.limit_b(vibration::deflection(member, asked, rules.floor)).0);
        Some(rules.floor)
    }

    /// What is said of the letters of a span.
    pub(super) fn state(&self, member: &Member, span: f64, place: usize, facts: &mut Facts) {
        let Some(rules) = &self.rules else { return };
        let mut asked = super::asked::of_every_place(1.0);
        self.ask(member, span, place, &mut asked);
        facts.state(&notation::a_F, CLAUSE, rules.limit_a(span).1);
        facts.state(&notation::b_v, CLAUSE, rules.limit_b(vibration::deflection(member, &asked, rules.floor)).1);
        let said = match (rules.spans, place) {
            (1, _) => "single span",
            (spans, place) if place == 1 || place == spans => "end span",
            _ => "inner span",
        };
        facts.state(&notation::l_eq, CLAUSE, format!("{said}, choice of GB"));
        facts.state(&notation::k_amp, CLAUSE, format!("shear of solid joists, {said}, choice of GB"));
    }
}

impl Rules {
    fn limit_a(&self, span: f64) -> (Length, String) {
        match &self.nation {
            Some(nation) if self.a.1.is_empty() => {
                let (a, because) = nation.limit_a(span);
                (MM.of(a), because)
            }
            _ => self.a.clone(),
        }
    }

    /// The limit b of a floor that gives so much under a single force.
    fn limit_b(&self, given_way: Length) -> (f64, String) {
        let by_rule = || Some(self.nation.as_ref()?.limit_b(given_way.number_in(&MM)));
        self.b.clone().or_else(by_rule).unwrap_or((f64::NAN, String::new()))
    }
}

/// The permanent load of a member where it is one even load over its whole length, its own weight with it; else none.
fn permanent(job: &Job, entry: &Entry, weight: f64) -> Option<LineLoad> {
    let length = entry.spans.length();
    let whole = |from: Length, to: Length| from.at_most(Length::new(1e-6)) && to.at_least(length);
    let is_dead = |case: model::Case| job.basis.nature(case) == Nature::Dead;
    let mut sum = LineLoad::new(weight);
    for load in &entry.loads {
        match &load.kind {
            LoadKind::Area { area, width, from, to, slope } => {
                let of_area = job.areas[*area].loads.iter().filter(|one| is_dead(one.case));
                for one in of_area {
                    let spacing = entry.spacing.as_ref().map(|s| [s.value; 2]);
                    let [start, end] = width.or(spacing).filter(|_| whole(*from, *to))?;
                    if start != end || slope.is_some() {
                        return None;
                    }
                    sum = sum + one.load * start;
                }
            }
            LoadKind::Line { case, start, end, from, to, .. } if is_dead(*case) => {
                if !whole(*from, *to) || (*start - *end).value() != 0.0 {
                    return None;
                }
                sum = sum + *start;
            }
            LoadKind::Point { case, .. } | LoadKind::Moment { case, .. } | LoadKind::Axial { case, .. } if is_dead(*case) => return None,
            LoadKind::Reaction { .. } | LoadKind::Thrust { .. } => return None,
            LoadKind::Line { .. } | LoadKind::Point { .. } | LoadKind::Moment { .. } | LoadKind::Axial { .. } => {}
        }
    }
    Some(sum)
}
