//! The account of factors of a post, stud or tie.

#![allow(non_snake_case)]

use super::account::{factor, psi_or_million};
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
    let adjusted = |symbol: &str| step(symbol).map(|s| s.printed.clone());
    let property = |letter, value: f64, adjusted: Option<String>, factors, timed| Property {
        letter,
        reference: psi_or_million(value),
        adjusted,
        factors,
        timed,
    };
    let all = [
        property(
            notation::F_b.letter(),
            m.F_b.value(),
            adjusted("F'_b").or_else(|| adjusted("F_b*")).or_else(|| adjusted("F'_b2")),
            [Some(m.C_M_b), Some(m.C_t_b), Some(m.C_F_b), Some(m.C_i_b), Some(m.K_F_b), Some(m.phi_b)],
            true,
        ),
        property(
            notation::F_t.letter(),
            m.F_t.value(),
            adjusted("F'_t"),
            [Some(m.C_M_t), Some(m.C_t_t), Some(m.C_F_t), Some(m.C_i_t), Some(m.K_F_t), Some(m.phi_t)],
            true,
        ),
        property(
            notation::F_c.letter(),
            m.F_c.value(),
            adjusted("F'_c"),
            [Some(m.C_M_c), Some(m.C_t_c), Some(m.C_F_c), Some(m.C_i_c), Some(m.K_F_c), Some(m.phi_c)],
            true,
        ),
        property(
            notation::F_v.letter(),
            m.F_v.value(),
            adjusted("F'_v").or_else(|| adjusted("F'_vy")),
            [Some(m.C_M_v), Some(m.C_t_v), None, Some(m.C_i_v), Some(m.K_F_v), Some(m.phi_v)],
            true,
        ),
        property(
            notation::E_min.letter(),
            m.E_min.value(),
            step("E'_min").map(|s| psi_or_million(s.value * crate::units::PSI.factor)),
            [Some(m.C_M_E), Some(m.C_t_E), None, Some(m.C_i_E), Some(m.K_F_E), Some(m.phi_E)],
            false,
        ),
    ];
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
        remark: "E_min in 10⁶ psi",
        adjusted_reference: "NDS Table 4.3.1",
    }
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
    if let Some((value, because)) = worked("C_L") {
        let from = || step("l_u").map(|s| format!("free length of the edge {} {}", s.printed, s.unit)).unwrap_or_default();
        let because = if because.is_empty() { from() } else { because };
        rows.push(row(notation::C_L.letter(), "beam stability", only(notation::F_b.letter(), Some(value)), because, "NDS 3.3.3"));
    }
    if let Some((value, because)) = worked("C_P") {
        let text = if because.is_empty() { slenderness(standing) } else { because };
        rows.push(row(notation::C_P.letter(), "column stability", only(notation::F_c.letter(), Some(value)), text, "NDS 3.7.1"));
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

/// The slenderness ratio that governs, in words.
fn slenderness(standing: &Standing) -> String {
    let x = &standing.axial;
    if standing.asked.joined.is_some() && standing.weak.held.is_none() {
        return format!("the smaller of both axes, K_f {} about the weak one", factor(x.K_f));
    }
    let of = |axis: &super::lengths::Effective, d: f64| if axis.held.is_some() { 0.0 } else { axis.factor * axis.length / d };
    let (strong, weak) = (of(&standing.strong, x.d_1.value()), of(&standing.weak, x.d_2.value()));
    let (ratio, axis) = if strong >= weak { (strong, "strong") } else { (weak, "weak") };
    format!("slenderness {} about the {axis} axis", crate::units::decimals(ratio, 1))
}
