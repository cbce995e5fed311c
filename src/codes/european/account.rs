//! The account of factors: characteristic value, every factor, design value.

#![allow(non_snake_case)]

use super::notation;
use super::prepared::{Bending, stress};
use crate::codes::account::factor;
use crate::codes::{Account, AccountColumn, AccountRow, Kind, Leading, Time};
use crate::equation::Letter;
use crate::units::{Ratio, trimmed};

/// f_m,k, f_v,k, f_c,90,k and E_0,mean.
pub(super) fn of(bending: &Bending, leading: &Leading<'_>) -> Account {
    let m = &bending.member;
    let design = |kind, symbols: [&str; 2]| {
        symbols.iter().find_map(|symbol| leading.step(kind, symbol)).map_or_else(|| "–".to_owned(), |s| s.printed.clone())
    };
    let columns = [
        (notation::f_mk.letter(), stress(m.f_mk.value()), design(Kind::Bending, ["k_crit f_m,d", "f_m,d"])),
        (notation::f_vk.letter(), stress(m.f_vk.value()), design(Kind::Shear, ["f_v,d", "f_v,d"])),
        (notation::f_c90k.letter(), stress(m.f_c90k.value()), design(Kind::Bearing, ["k_c,90 f_c,90,d", "f_c,90,d"])),
        (notation::E_mean.letter(), stress(m.E_mean.value()), stress(m.E_mean.value())),
    ];
    Account {
        unit: "N/mm²",
        columns: columns.map(|(letter, reference, adjusted)| AccountColumn { letter, reference, adjusted }).into(),
        rows: factors(bending, leading),
        reference: bending.resolved.material.table.clone(),
        remark: "",
        adjusted_reference: "EN 1995-1-1, (2.14)",
    }
}

/// Of f_m, f_v, f_c,90 and E.
fn factors(bending: &Bending, leading: &Leading<'_>) -> Vec<AccountRow> {
    let m = &bending.member;
    let because = |letter: &Letter| bending.facts.of(letter).map(|f| f.because.to_string()).unwrap_or_default();
    let time = |kind| leading.time(kind).map(|time| factor(time.factor));
    let [bent, sheared, borne] = [Kind::Bending, Kind::Shear, Kind::Bearing].map(|kind| leading.time(kind));
    let why = Time::reasons(&[("f_m,k", bent), ("f_v,k", sheared), ("f_c,90,k", borne)]);
    let inverse = |r: Ratio| Some(format!("1/{}", factor(r.value())));
    let elsewhere = |r: Ratio, letter: &Letter, what: &str| format!("{}, {what}; {}", factor(r.value()), because(letter));
    let one = |r: Ratio| Some(factor(r.value()));
    // A factor that a check works out for itself; else its reason why not.
    let found = |kind, symbol, otherwise: &str| match leading.step(kind, symbol) {
        Some(s) => (Some(factor(s.value)), s.because.clone()),
        None => (Some("1.0".to_owned()), otherwise.to_owned()),
    };
    let from =
        |kind, symbol, what: &str| leading.step(kind, symbol).map(|s| format!("{what} {} {}", s.printed, s.unit)).unwrap_or_default();
    let or = |text: String, other: String| if text.is_empty() { other } else { text };
    let row = |letter, name, values: [Option<String>; 4], because, reference: &str| AccountRow {
        letter,
        name,
        values: values.to_vec(),
        because,
        reference: reference.to_owned(),
    };
    let (k_h, size) = found(Kind::Bending, "k_h", "no bending");
    let (k_crit, buckling) = found(Kind::Bending, "k_crit", "no bending");
    let (k_c90, bears) = found(Kind::Bearing, "k_c,90", "bearing is not checked");
    vec![
        row(
            notation::gamma_M.letter(),
            "partial factor",
            [inverse(m.gamma_M), inverse(m.gamma_M), inverse(m.gamma_M), None],
            because(notation::gamma_M.letter()),
            "EN 1995-1-1, Table 2.3",
        ),
        row(
            notation::k_mod.letter(),
            "time, moisture",
            [time(Kind::Bending), time(Kind::Shear), time(Kind::Bearing), None],
            why,
            "EN 1995-1-1, Table 3.1",
        ),
        row(
            notation::k_h.letter(),
            "size",
            [k_h, None, None, None],
            or(size, format!("depth {} mm", trimmed(m.h.value(), 4))),
            "EN 1995-1-1, 3.2, 3.3",
        ),
        row(
            notation::k_sys.letter(),
            "system strength",
            [one(m.k_sys), one(m.k_sys), one(m.k_sys), None],
            because(notation::k_sys.letter()),
            "EN 1995-1-1, 6.6",
        ),
        row(
            notation::k_crit.letter(),
            "lateral buckling",
            [k_crit, None, None, None],
            or(buckling, from(Kind::Bending, "lambda_rel,m", "relative slenderness")),
            "EN 1995-1-1, 6.3.3",
        ),
        row(
            notation::k_cr.letter(),
            "cracks",
            [None, None, None, None],
            elsewhere(m.k_cr, notation::k_cr.letter(), "in the breadth b_ef"),
            "EN 1995-1-1, 6.1.7",
        ),
        row(notation::k_c90.letter(), "bearing", [None, None, k_c90, None], bears, "EN 1995-1-1, 6.1.5"),
        row(
            notation::k_def.letter(),
            "creep",
            [None, None, None, None],
            elsewhere(m.k_def, notation::k_def.letter(), "in deflections"),
            "EN 1995-1-1, Table 3.2",
        ),
    ]
}
