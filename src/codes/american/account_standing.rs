//! The account of factors of a post, stud or tie.

#![allow(non_snake_case)]

use super::account::{factor, psi_or_million};
use super::glued::Layup;
use super::member::Member;
use super::notation;
use super::standing::Standing;
use crate::codes::{Account, AccountColumn, AccountRow, Time, Worked};
use crate::equation::{Letter, Step};
use crate::units::Ratio;

/// A property: its letter, reference value, where its adjusted value is worked, and its factors.
struct Property {
    letter: &'static Letter,
    reference: String,
    adjusted: Option<String>,
    /// C_D or λ, C_M, C_t, C_F, C_i; then K_F and φ.
    factors: [Option<Ratio>; 6],
    timed: bool,
}

/// F_b, F_t, F_c, F_v and E_min, of those that a check uses.
pub(super) fn of(standing: &Standing, governing: &[(&str, &Worked, &Time)]) -> Account {
    let base = &standing.base;
    let m = &base.member;
    let step = |symbol: &str| -> Option<&Step> {
        governing.iter().find_map(|(_, worked, _)| worked.steps.iter().rev().find(|s| s.symbol == symbol))
    };
    let all = match base.layup() {
        None => of_sawn(m, &step),
        Some(layup) => of_glued(m, layup, &step),
    };
    let used: Vec<Property> = all.into_iter().filter(|p| p.adjusted.is_some()).collect();
    let time =
        governing.iter().find(|(name, ..)| matches!(*name, "compression" | "bending_and_compression" | "tension")).or(governing.first());
    Account {
        unit: "psi",
        rows: rows(standing, &used, time.map(|(.., t)| *t), &step),
        columns: used
            .into_iter()
            .map(|p| AccountColumn {
                symbol: p.letter.plain,
                typst: p.letter.typst,
                words: p.letter.words,
                reference: p.reference,
                adjusted: p.adjusted.unwrap_or_default(),
            })
            .collect(),
        reference: base.material.table.clone(),
        remark: match base.layup() {
            Some(Layup::Laminated { .. }) => "E_x,min and E_y,min in 10⁶ psi",
            _ => "E_min in 10⁶ psi",
        },
        adjusted_reference: base.layup().map_or("NDS Table 4.3.1", Layup::table),
    }
}

/// A line's value as printed, of the first letter of a list that was worked.
fn printed<'s>(step: &impl Fn(&str) -> Option<&'s Step>, symbols: &[&str]) -> Option<String> {
    symbols.iter().find_map(|symbol| step(symbol)).map(|s| s.printed.clone())
}

fn million<'s>(step: &impl Fn(&str) -> Option<&'s Step>, symbol: &str) -> Option<String> {
    step(symbol).map(|s| psi_or_million(s.value * crate::units::PSI.factor))
}

/// Factors C_M, C_t, C_F, C_i, K_F, φ of a property.
type Factors = [Option<Ratio>; 6];

impl Property {
    fn strength(letter: &'static Letter, value: f64, adjusted: Option<String>, factors: Factors) -> Self {
        Self { letter, reference: psi_or_million(value), adjusted, factors, timed: true }
    }

    fn modulus(letter: &'static Letter, value: f64, adjusted: Option<String>, factors: Factors) -> Self {
        Self { timed: false, ..Self::strength(letter, value, adjusted, factors) }
    }
}

fn of_sawn<'s>(m: &Member, step: &impl Fn(&str) -> Option<&'s Step>) -> Vec<Property> {
    let some = Some::<Ratio>;
    let (b, t) = (notation::F_b.letter(), notation::F_t.letter());
    vec![
        Property::strength(
            b,
            m.F_b.value(),
            printed(step, &["F'_b", "F_b*", "F'_b2"]),
            [m.C_M_b, m.C_t_b, m.C_F_b, m.C_i_b, m.K_F_b, m.phi_b].map(some),
        ),
        Property::strength(t, m.F_t.value(), printed(step, &["F'_t"]), [m.C_M_t, m.C_t_t, m.C_F_t, m.C_i_t, m.K_F_t, m.phi_t].map(some)),
        Property::strength(
            notation::F_c.letter(),
            m.F_c.value(),
            printed(step, &["F'_c"]),
            [m.C_M_c, m.C_t_c, m.C_F_c, m.C_i_c, m.K_F_c, m.phi_c].map(some),
        ),
        Property::strength(
            notation::F_v.letter(),
            m.F_v.value(),
            printed(step, &["F'_v", "F'_vy"]),
            [some(m.C_M_v), some(m.C_t_v), None, some(m.C_i_v), some(m.K_F_v), some(m.phi_v)],
        ),
        Property::modulus(
            notation::E_min.letter(),
            m.E_min.value(),
            million(step, "E'_min"),
            [some(m.C_M_E), some(m.C_t_E), None, some(m.C_i_E), some(m.K_F_E), some(m.phi_E)],
        ),
    ]
}

/// Of glued members: bending about both axes, and the modulus of each axis.
fn of_glued<'s>(m: &Member, layup: Layup, step: &impl Fn(&str) -> Option<&'s Step>) -> Vec<Property> {
    let laminated = matches!(layup, Layup::Laminated { .. });
    let with =
        |wet: Ratio, hot: Ratio, format: Ratio, resistance: Ratio| [Some(wet), Some(hot), None, None, Some(format), Some(resistance)];
    let bending = with(m.C_M_b, m.C_t_b, m.K_F_b, m.phi_b);
    let stiffness = with(m.C_M_E, m.C_t_E, m.K_F_E, m.phi_E);
    let strong = if laminated { (notation::F_bx_neg.letter(), m.F_bx_neg) } else { (notation::F_b.letter(), m.F_b) };
    vec![
        Property::strength(strong.0, strong.1.value(), printed(step, &["F'_bx", "F'_b", "F_b*"]), bending),
        Property::strength(notation::F_by.letter(), m.F_by.value(), printed(step, &["F'_by"]), bending),
        Property::strength(notation::F_t.letter(), m.F_t.value(), printed(step, &["F'_t"]), with(m.C_M_t, m.C_t_t, m.K_F_t, m.phi_t)),
        Property::strength(notation::F_c.letter(), m.F_c.value(), printed(step, &["F'_c"]), with(m.C_M_c, m.C_t_c, m.K_F_c, m.phi_c)),
        Property::strength(
            notation::F_v.letter(),
            m.F_v.value(),
            printed(step, &["F'_v", "F'_vy"]),
            with(m.C_M_v, m.C_t_v, m.K_F_v, m.phi_v),
        ),
        Property::modulus(notation::E_min.letter(), m.E_min.value(), million(step, "E'_min"), stiffness),
        Property::modulus(notation::E_x_min.letter(), m.E_x_min.value(), million(step, "E'_x,min"), stiffness),
        Property::modulus(notation::E_y_min.letter(), m.E_y_min.value(), million(step, "E'_y,min"), stiffness),
    ]
}

fn rows<'s>(standing: &Standing, used: &[Property], time: Option<&Time>, step: &impl Fn(&str) -> Option<&'s Step>) -> Vec<AccountRow> {
    let base = &standing.base;
    let because = |letter: &Letter| base.facts.of(letter).map(|fact| fact.because.clone()).unwrap_or_default();
    let row = |letter: &Letter, name, values: Vec<Option<String>>, because: String, reference: &str| AccountRow {
        symbol: letter.plain,
        typst: letter.typst,
        words: letter.words,
        name,
        values,
        because,
        reference: reference.to_owned(),
    };
    let by = |index: usize| used.iter().map(|p| p.factors[index].map(factor)).collect::<Vec<_>>();
    let only = |letter: &Letter, value: Option<String>| -> Vec<Option<String>> {
        used.iter().map(|p| if p.letter.plain == letter.plain { value.clone() } else { None }).collect()
    };
    let (duration, why) = time.map_or_else(|| ("1.0".to_owned(), String::new()), |t| (factor(Ratio::new(t.factor)), t.because.clone()));
    let timed: Vec<Option<String>> = used.iter().map(|p| p.timed.then(|| duration.clone())).collect();
    let mut rows = Vec::new();
    if base.lrfd {
        rows.push(row(notation::K_F_b.letter(), "format conversion", by(4), "LRFD".to_owned(), "NDS Table N1"));
        rows.push(row(notation::PHI.letter(), "resistance", by(5), "LRFD".to_owned(), "NDS Table N2"));
        rows.push(row(notation::lambda.letter(), "time effect", timed, why, "NDS Table N3"));
    } else {
        rows.push(row(notation::C_D.letter(), "load duration", timed, why, "NDS Table 2.3.2"));
    }
    rows.push(row(notation::C_M_b.letter(), "wet service", by(0), because(notation::C_M_b.letter()), "NDS 4.3.3"));
    rows.push(row(notation::C_t_b.letter(), "temperature", by(1), because(notation::C_t_b.letter()), "NDS 4.3.4"));
    let worked = |symbol: &str| step(symbol).map(|s| (factor(Ratio::new(s.value)), s.because.clone()));
    let bent = |value: String| used.iter().map(|p| matches!(p.letter.plain, "F_b" | "F_bx-").then(|| value.clone())).collect();
    if let Some((value, because)) = worked("C_L") {
        let from = || step("l_u").map(|s| format!("free length of the edge {} {}", s.printed, s.unit)).unwrap_or_default();
        let because = if because.is_empty() { from() } else { because };
        rows.push(row(notation::C_L.letter(), "beam stability", bent(value), because, "NDS 3.3.3"));
    }
    if let Some((value, because)) = worked("C_P") {
        let text = if because.is_empty() { slenderness(standing) } else { because };
        rows.push(row(notation::C_P.letter(), "column stability", only(notation::F_c.letter(), Some(value)), text, "NDS 3.7.1"));
    }
    if let Some(layup) = base.layup() {
        rows.extend(rows_of_glued(standing, layup, used, &row, &worked));
        return rows;
    }
    rows.push(row(notation::C_F_c.letter(), "size", by(2), because(notation::C_F_c.letter()), "NDS 4.3.6"));
    if step("F'_b2").is_some() {
        let value = Some(factor(base.member.C_fu_y));
        let text = because(notation::C_fu_y.letter());
        rows.push(row(notation::C_fu_y.letter(), "flat use, weak axis", only(notation::F_b.letter(), value), text, "NDS 4.3.7"));
    }
    rows.push(row(notation::C_i_b.letter(), "incising", by(3), because(notation::C_i_b.letter()), "NDS 4.3.8"));
    if used.iter().any(|p| p.letter.plain == "F_b") {
        let value = Some(factor(base.member.C_r));
        rows.push(row(
            notation::C_r.letter(),
            "repetitive",
            only(notation::F_b.letter(), value),
            because(notation::C_r.letter()),
            "NDS 4.3.9",
        ));
    }
    rows
}

/// A row from its letter, name, values, reason and clause.
type Row<'r> = &'r dyn Fn(&Letter, &'static str, Vec<Option<String>>, String, &str) -> AccountRow;
/// A factor's worked value, and why it has it.
type Found<'r> = &'r dyn Fn(&str) -> Option<(String, String)>;

/// What glued members have in place of size, incising and flat use of sawn lumber.
fn rows_of_glued(standing: &Standing, layup: Layup, used: &[Property], row: Row<'_>, worked: Found<'_>) -> Vec<AccountRow> {
    let (base, m) = (&standing.base, &standing.base.member);
    let because = |letter: &Letter| base.facts.of(letter).map(|fact| fact.because.clone()).unwrap_or_default();
    let bent = |symbols: &[&str], value: String| -> Vec<Option<String>> {
        used.iter().map(|p| symbols.contains(&p.letter.plain).then(|| value.clone())).collect()
    };
    let (strong, laminated) = (["F_b", "F_bx-"], matches!(layup, Layup::Laminated { .. }));
    let mut rows = Vec::new();
    if let Some((value, why)) = worked("C_V") {
        let why = if why.is_empty() { "whole length; the lesser of C_L and C_V counts".to_owned() } else { why };
        let clause = if laminated { "NDS 5.3.6" } else { "NDS 8.3.6" };
        rows.push(row(notation::C_V.letter(), "volume", bent(&strong, value), why, clause));
    }
    let is_used = |symbols: &[&str]| used.iter().any(|p| symbols.contains(&p.letter.plain));
    if laminated && is_used(&strong) {
        for (letter, name, value, clause) in
            [(notation::C_c.letter(), "curvature", m.C_c, "NDS 5.3.8"), (notation::C_I.letter(), "stress interaction", m.C_I, "NDS 5.3.9")]
        {
            rows.push(row(letter, name, bent(&strong, factor(value)), because(letter), clause));
        }
    }
    if laminated && is_used(&["F_by"]) {
        let letter = notation::C_fu_y.letter();
        rows.push(row(letter, "flat use, weak axis", bent(&["F_by"], factor(m.C_fu_y)), because(letter), "NDS 5.3.7"));
    }
    if !laminated && is_used(&strong) {
        rows.push(row(notation::C_r.letter(), "repetitive", bent(&strong, factor(m.C_r)), because(notation::C_r.letter()), "NDS 8.3.7"));
    }
    rows
}

/// The slenderness ratio that governs, in words.
fn slenderness(standing: &Standing) -> String {
    let x = &standing.axial;
    if standing.asked.joined.is_some() && standing.weak.held.is_none() {
        return format!("the smaller of both axes, K_f {} about the weak one", factor(x.K_f));
    }
    let of = |axis: &super::lengths::Effective, d: f64| if axis.held.is_some() { 0.0 } else { axis.factor * axis.length / d };
    let (strong, weak) = (of(&standing.strong, x.d_1.value()), of(&standing.weak, x.d_2.value()));
    let (ratio, axis) = if strong >= weak { (strong, "strong") } else { (weak, "weak") };
    if matches!(standing.base.layup(), Some(Layup::Laminated { .. })) && standing.strong.held.is_none() && standing.weak.held.is_none() {
        return "the axis that buckles first".to_owned();
    }
    format!("slenderness {} about the {axis} axis", crate::units::decimals(ratio, 1))
}
