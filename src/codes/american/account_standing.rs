//! The account of factors of a post, stud or tie.

#![allow(non_snake_case)]

use super::account::{lesser, of_temperature, psi_or_million};
use super::glued::Layup;
use super::member::Member;
use super::notation;
use super::standing::Standing;
use crate::codes::account::factor;
use crate::codes::{Account, AccountColumn, AccountRow, Leading, Time};
use crate::equation::{Letter, Step};
use crate::units::Ratio;

/// A property: its letter, reference value, the letters that its adjusted value goes by, and its factors.
struct Property {
    letter: &'static Letter,
    reference: String,
    symbols: &'static [&'static str],
    /// C_D or λ, C_M, C_t, C_F, C_i; then K_F and φ.
    factors: [Option<Ratio>; 6],
    timed: bool,
}

/// F_b, F_t, F_c, F_v, E and E_min, of those that a check uses.
pub(super) fn of(standing: &Standing, leading: &Leading<'_>) -> Account {
    let base = &standing.base;
    let m = &base.member;
    let all = match base.layup() {
        None => of_sawn(m),
        Some(layup) => of_glued(m, layup),
    };
    // The adjusted value, and the duration of the combination that it was worked for.
    let worked = |p: &Property| p.symbols.iter().find_map(|symbol| leading.any(symbol));
    let used: Vec<(Property, &Step, &Time)> = all.into_iter().filter_map(|p| worked(&p).map(|(step, time)| (p, step, time))).collect();
    let with_moduli = used.iter().any(|(p, ..)| !p.timed);
    let columns = used.iter().map(|(p, step, _)| AccountColumn {
        letter: p.letter,
        reference: p.reference.clone(),
        adjusted: if p.timed { step.printed.clone() } else { psi_or_million(step.value * crate::units::PSI.factor) },
    });
    Account {
        unit: "psi",
        columns: columns.collect(),
        rows: rows(standing, used, leading),
        reference: base.resolved.material.table.clone(),
        remark: if with_moduli { "moduli in 10⁶ psi" } else { "" },
        adjusted_reference: base.layup().map_or("NDS Table 4.3.1", Layup::table),
    }
}

/// Factors C_M, C_t, C_F, C_i, K_F, φ of a property.
type Factors = [Option<Ratio>; 6];

impl Property {
    fn strength(letter: &'static Letter, value: f64, symbols: &'static [&'static str], factors: Factors) -> Self {
        Self { letter, reference: psi_or_million(value), symbols, factors, timed: true }
    }

    fn modulus(letter: &'static Letter, value: f64, symbols: &'static [&'static str], factors: Factors) -> Self {
        Self { timed: false, ..Self::strength(letter, value, symbols, factors) }
    }
}

fn of_sawn(m: &Member) -> Vec<Property> {
    let some = Some::<Ratio>;
    let (b, t) = (notation::F_b.letter(), notation::F_t.letter());
    // Format conversion and resistance are of E_min alone.
    let stiffness = |[format, resistance]: [Option<Ratio>; 2]| [some(m.C_M_E), some(m.C_t_E), None, some(m.C_i_E), format, resistance];
    vec![
        Property::strength(b, m.F_b.value(), &["F'_b", "F_b*", "F'_b2"], [m.C_M_b, m.C_t_b, m.C_F_b, m.C_i_b, m.K_F_b, m.phi_b].map(some)),
        Property::strength(t, m.F_t.value(), &["F'_t"], [m.C_M_t, m.C_t_t, m.C_F_t, m.C_i_t, m.K_F_t, m.phi_t].map(some)),
        Property::strength(
            notation::F_c.letter(),
            m.F_c.value(),
            &["F'_c"],
            [m.C_M_c, m.C_t_c, m.C_F_c, m.C_i_c, m.K_F_c, m.phi_c].map(some),
        ),
        Property::strength(
            notation::F_v.letter(),
            m.F_v.value(),
            &["F'_v", "F'_vy"],
            [some(m.C_M_v), some(m.C_t_v), None, some(m.C_i_v), some(m.K_F_v), some(m.phi_v)],
        ),
        Property::modulus(notation::E.letter(), m.E.value(), &["E'"], stiffness([None; 2])),
        Property::modulus(notation::E_y.letter(), m.E_y.value(), &["E'_y"], stiffness([None; 2])),
        Property::modulus(notation::E_min.letter(), m.E_min.value(), &["E'_min"], stiffness([some(m.K_F_E), some(m.phi_E)])),
    ]
}

/// Of glued members: bending about both axes, and the modulus of each axis.
fn of_glued(m: &Member, layup: Layup) -> Vec<Property> {
    let laminated = matches!(layup, Layup::Laminated { .. });
    let with =
        |wet: Ratio, hot: Ratio, format: Ratio, resistance: Ratio| [Some(wet), Some(hot), None, None, Some(format), Some(resistance)];
    let bending = with(m.C_M_b, m.C_t_b, m.K_F_b, m.phi_b);
    let stiffness = with(m.C_M_E, m.C_t_E, m.K_F_E, m.phi_E);
    let unfactored = [Some(m.C_M_E), Some(m.C_t_E), None, None, None, None];
    let plain = if laminated { (notation::E_x.letter(), m.E_x) } else { (notation::E.letter(), m.E) };
    let strong = if laminated { (notation::F_bx_neg.letter(), m.F_bx_neg) } else { (notation::F_b.letter(), m.F_b) };
    vec![
        Property::strength(strong.0, strong.1.value(), &["F'_bx", "F'_b", "F_b*"], bending),
        Property::strength(notation::F_by.letter(), m.F_by.value(), &["F'_by"], bending),
        Property::strength(notation::F_t.letter(), m.F_t.value(), &["F'_t"], with(m.C_M_t, m.C_t_t, m.K_F_t, m.phi_t)),
        Property::strength(notation::F_c.letter(), m.F_c.value(), &["F'_c"], with(m.C_M_c, m.C_t_c, m.K_F_c, m.phi_c)),
        Property::strength(notation::F_v.letter(), m.F_v.value(), &["F'_v"], with(m.C_M_v, m.C_t_v, m.K_F_v, m.phi_v)),
        Property::strength(notation::F_vy.letter(), m.F_vy.value(), &["F'_vy"], with(m.C_M_v, m.C_t_v, m.K_F_v, m.phi_v)),
        Property::modulus(plain.0, plain.1.value(), &["E'"], unfactored),
        Property::modulus(notation::E_y.letter(), m.E_y.value(), &["E'_y"], unfactored),
        Property::modulus(notation::E_min.letter(), m.E_min.value(), &["E'_min"], stiffness),
        Property::modulus(notation::E_x_min.letter(), m.E_x_min.value(), &["E'_x,min"], stiffness),
        Property::modulus(notation::E_y_min.letter(), m.E_y_min.value(), &["E'_y,min"], stiffness),
    ]
}

fn rows(standing: &Standing, used: Vec<(Property, &Step, &Time)>, leading: &Leading<'_>) -> Vec<AccountRow> {
    let step = |symbol: &str| leading.any(symbol).map(|(step, _)| step);
    let base = &standing.base;
    let because = |letter: &Letter| base.facts.of(letter).map(|fact| fact.because.to_string()).unwrap_or_default();
    let row = |letter, name, values: Vec<Option<String>>, because, reference: &str| AccountRow {
        letter,
        name,
        values,
        because,
        reference: reference.to_owned(),
    };
    let times: Vec<Option<&Time>> = used.iter().map(|(p, _, time)| p.timed.then_some(*time)).collect();
    // Of sawn lumber one letter stands for both axes: the column is of the one whose value it has.
    let weak_alone = used.iter().any(|(p, step, _)| p.letter.plain == "F_b" && step.symbol == "F'_b2");
    let used: &[Property] = &used.into_iter().map(|(p, ..)| p).collect::<Vec<_>>();
    let by = |index: usize| used.iter().map(|p| p.factors[index].map(|r| factor(r.value()))).collect::<Vec<_>>();
    let only = |letter: &Letter, value: Option<String>| -> Vec<Option<String>> {
        used.iter().map(|p| if p.letter.plain == letter.plain { value.clone() } else { None }).collect()
    };
    let timed: Vec<Option<String>> = times.iter().map(|time| time.map(|t| factor(t.factor))).collect();
    let why = Time::reasons(&used.iter().map(|p| p.letter.plain).zip(times).collect::<Vec<_>>());
    let mut rows = Vec::new();
    if base.lrfd {
        rows.push(row(notation::K_F_b.letter(), "format conversion", by(4), "LRFD".to_owned(), "NDS Table N1"));
        rows.push(row(notation::PHI.letter(), "resistance", by(5), "LRFD".to_owned(), "NDS Table N2"));
        rows.push(row(notation::lambda.letter(), "time effect", timed, why, "NDS Table N3"));
    } else {
        rows.push(row(notation::C_D.letter(), "load duration", timed, why, "NDS Table 2.3.2"));
    }
    let wet = base.facts.of(notation::C_M_b.letter()).map(|fact| fact.reference.clone()).unwrap_or_default();
    rows.push(row(notation::C_M_b.letter(), "wet service", by(0), because(notation::C_M_b.letter()), &wet));
    rows.push(row(notation::C_t_b.letter(), "temperature", by(1), because(notation::C_t_b.letter()), of_temperature(base.layup())));
    // A factor that was worked out is that of the check which the value of its column is from.
    let worked = |of: &[&str], symbol: &str| leading.beside(of, symbol).map(|s| (factor(s.value), s.because.clone()));
    let bending = used.iter().find(|p| matches!(p.letter.plain, "F_b" | "F_bx-")).map_or(&[][..], |p| p.symbols);
    let bent = |value: Option<String>| used.iter().map(|p| value.clone().filter(|_| matches!(p.letter.plain, "F_b" | "F_bx-"))).collect();
    let stability = worked(bending, "C_L").map(|(value, because)| {
        let from =
            || leading.beside(bending, "l_u").map(|s| format!("free length of the edge {} {}", s.printed, s.unit)).unwrap_or_default();
        (value, if because.is_empty() { from() } else { because })
    });
    let volume = worked(bending, "C_V").map(|(value, why)| (value, if why.is_empty() { "whole length".to_owned() } else { why }));
    let [stability, volume] = match (stability, volume) {
        (Some(stability), Some(volume)) => lesser(stability, volume).map(Some),
        (stability, volume) => [stability, volume].map(|found| found.map(|(value, why)| (Some(value), why))),
    };
    if let Some((value, because)) = stability {
        rows.push(row(notation::C_L.letter(), "beam stability", bent(value), because, "NDS 3.3.3"));
    }
    if let Some((value, because)) = worked(&["F'_c"], "C_P") {
        let text = if because.is_empty() { slenderness(standing) } else { because };
        rows.push(row(notation::C_P.letter(), "column stability", only(notation::F_c.letter(), Some(value)), text, "NDS 3.7.1"));
    }
    if let Some(layup) = base.layup() {
        if let Some((value, because)) = volume {
            rows.push(row(notation::C_V.letter(), "volume", bent(value), because, layup.of_volume()));
        }
        rows.extend(rows_of_glued(standing, layup, used, leading.beside(&["F'_v", "F'_vy"], "C_vr"), &row));
        return rows;
    }
    let size = used.iter().map(|p| if weak_alone && p.letter.plain == "F_b" { Some(base.member.C_F_y) } else { p.factors[2] });
    let size = size.map(|found| found.map(|r| factor(r.value()))).collect();
    rows.push(row(notation::C_F_c.letter(), "size", size, because(notation::C_F_c.letter()), "NDS 4.3.6"));
    if weak_alone {
        let value = Some(factor(base.member.C_fu_y.value()));
        let text = because(notation::C_fu_y.letter());
        rows.push(row(notation::C_fu_y.letter(), "flat use, weak axis", only(notation::F_b.letter(), value), text, "NDS 4.3.7"));
    }
    let flat = |p: &Property| match p.letter.plain {
        "F_b" => step("F'_b").map(|_| factor(base.member.C_fu_b.value())),
        "E_y" => Some(factor(base.member.C_fu_Ey.value())),
        "E" | "E_min" => Some(factor(base.member.C_fu_E.value())),
        _ => None,
    };
    let flat: Vec<Option<String>> = used.iter().map(flat).collect();
    if flat.iter().any(Option::is_some) {
        rows.push(row(notation::C_fu_b.letter(), "flat use", flat, because(notation::C_fu_b.letter()), "NDS 4.3.7"));
    }
    rows.push(row(notation::C_i_b.letter(), "incising", by(3), because(notation::C_i_b.letter()), "NDS 4.3.8"));
    if used.iter().any(|p| p.letter.plain == "F_b") {
        let of_axis = if weak_alone { (base.member.C_r_y, notation::C_r_y.letter()) } else { (base.member.C_r, notation::C_r.letter()) };
        let value = Some(factor(of_axis.0.value()));
        rows.push(row(notation::C_r.letter(), "repetitive", only(notation::F_b.letter(), value), because(of_axis.1), "NDS 4.3.9"));
    }
    rows
}

/// A row from its letter, name, values, reason and clause.
type Row<'r> = &'r dyn Fn(&'static Letter, &'static str, Vec<Option<String>>, String, &str) -> AccountRow;

/// What glued members have in place of size, incising and flat use of sawn lumber.
fn rows_of_glued(standing: &Standing, layup: Layup, used: &[Property], shear: Option<&Step>, row: Row<'_>) -> Vec<AccountRow> {
    let (base, m) = (&standing.base, &standing.base.member);
    let because = |letter: &Letter| base.facts.of(letter).map(|fact| fact.because.to_string()).unwrap_or_default();
    let bent = |symbols: &[&str], value: String| -> Vec<Option<String>> {
        used.iter().map(|p| symbols.contains(&p.letter.plain).then(|| value.clone())).collect()
    };
    let (strong, laminated) = (["F_b", "F_bx-"], matches!(layup, Layup::Laminated { .. }));
    let mut rows = Vec::new();
    if let Some(step) = shear {
        rows.push(row(
            notation::C_vr.letter(),
            "shear reduction",
            bent(&["F_v", "F_vy"], factor(step.value)),
            step.because.clone(),
            "NDS 5.3.10",
        ));
    }
    let is_used = |symbols: &[&str]| used.iter().any(|p| symbols.contains(&p.letter.plain));
    if laminated && is_used(&strong) {
        for (letter, name, value, clause) in
            [(notation::C_c.letter(), "curvature", m.C_c, "NDS 5.3.8"), (notation::C_I.letter(), "stress interaction", m.C_I, "NDS 5.3.9")]
        {
            rows.push(row(letter, name, bent(&strong, factor(value.value())), because(letter), clause));
        }
    }
    if laminated && is_used(&["F_by"]) {
        let letter = notation::C_fu_y.letter();
        rows.push(row(letter, "flat use, weak axis", bent(&["F_by"], factor(m.C_fu_y.value())), because(letter), "NDS 5.3.7"));
    }
    if !laminated && is_used(&strong) {
        rows.push(row(
            notation::C_r.letter(),
            "repetitive",
            bent(&strong, factor(m.C_r.value())),
            because(notation::C_r.letter()),
            "NDS 8.3.7",
        ));
    }
    rows
}

/// The slenderness ratio that governs, in words.
fn slenderness(standing: &Standing) -> String {
    let x = &standing.axial;
    if standing.asked.joined.is_some() && standing.weak.held.is_none() {
        return format!("the smaller of both axes, K_f {} about the weak one", factor(x.K_f.value()));
    }
    let of = |axis: &super::lengths::Effective, d: f64| if axis.held.is_some() { 0.0 } else { axis.factor * axis.length / d };
    let (strong, weak) = (of(&standing.strong, x.d_1.value()), of(&standing.weak, x.d_2.value()));
    let (ratio, axis) = if strong >= weak { (strong, "strong") } else { (weak, "weak") };
    if matches!(standing.base.layup(), Some(Layup::Laminated { .. })) && standing.strong.held.is_none() && standing.weak.held.is_none() {
        return "the axis that buckles first".to_owned();
    }
    format!("slenderness {} about the {axis} axis", crate::units::decimals(ratio, 1))
}
