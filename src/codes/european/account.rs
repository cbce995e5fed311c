//! The account of factors: characteristic value, every factor, design value.

#![allow(non_snake_case)]

use super::notation;
use super::prepared::{Bending, stress};
use crate::codes::{Account, AccountColumn, AccountRow, Time, Worked};
use crate::equation::{Letter, Step};
use crate::units::{Ratio, decimals, figures};

/// A factor by property: f_m, f_v, f_c,90, E; none where the clause has none.
struct Factor {
    letter: &'static Letter,
    name: &'static str,
    values: [Option<String>; 4],
    because: String,
    reference: &'static str,
}

/// f_m,k, f_v,k, f_c,90,k and E_0,mean.
pub(super) fn of(bending: &Bending, governing: &[(&str, &Worked, &Time)]) -> Account {
    let m = &bending.member;
    let step = |check: &str, symbol: &str| -> Option<&Step> {
        let (_, worked, _) = governing.iter().find(|(name, ..)| *name == check)?;
        worked.steps.iter().rev().find(|s| s.symbol == symbol)
    };
    let design = |check: &str, symbols: [&str; 2]| {
        symbols.iter().find_map(|symbol| step(check, symbol)).map_or_else(|| "–".to_owned(), |s| s.printed.clone())
    };
    let columns = [
        (notation::f_mk.letter(), stress(m.f_mk.value()), design("bending", ["k_crit f_m,d", "f_m,d"])),
        (notation::f_vk.letter(), stress(m.f_vk.value()), design("shear", ["f_v,d", "f_v,d"])),
        (notation::f_c90k.letter(), stress(m.f_c90k.value()), design("bearing", ["k_c,90 f_c,90,d", "f_c,90,d"])),
        (notation::E_mean.letter(), stress(m.E_mean.value()), stress(m.E_mean.value())),
    ];
    Account {
        unit: "N/mm²",
        columns: columns
            .into_iter()
            .map(|(letter, reference, adjusted)| AccountColumn {
                symbol: letter.plain,
                typst: letter.typst,
                words: letter.words,
                reference,
                adjusted,
            })
            .collect(),
        rows: factors(bending, governing, &step)
            .into_iter()
            .map(|f| AccountRow {
                symbol: f.letter.plain,
                typst: f.letter.typst,
                words: f.letter.words,
                name: f.name,
                values: f.values.to_vec(),
                because: f.because,
                reference: f.reference.to_owned(),
            })
            .collect(),
        reference: bending.resolved.material.table.clone(),
        remark: "",
        adjusted_reference: "EN 1995-1-1, (2.14)",
    }
}

fn factors<'w>(bending: &Bending, governing: &[(&str, &Worked, &Time)], step: &impl Fn(&str, &str) -> Option<&'w Step>) -> Vec<Factor> {
    let m = &bending.member;
    let because = |letter: &Letter| bending.facts.of(letter).map(|f| f.because.to_string()).unwrap_or_default();
    let time = |check: &str| governing.iter().find(|(name, ..)| *name == check).map(|(.., time)| factor(time.factor));
    let of_check = |check: &str| governing.iter().find(|(name, ..)| *name == check).map(|(.., time)| *time);
    let why = Time::reasons(&[("f_m,k", of_check("bending")), ("f_v,k", of_check("shear")), ("f_c,90,k", of_check("bearing"))]);
    let inverse = |r: Ratio| Some(format!("1/{}", factor(r.value())));
    let elsewhere = |r: Ratio, letter: &Letter, what: &str| format!("{}, {what}; {}", factor(r.value()), because(letter));
    let one = |r: Ratio| Some(factor(r.value()));
    // A factor that a check works out for itself; else its reason why not.
    let found = |check: &str, symbol: &str, otherwise: &str| match step(check, symbol) {
        Some(s) => (Some(factor(s.value)), s.because.clone()),
        None => (Some("1.0".to_owned()), otherwise.to_owned()),
    };
    let from =
        |check: &str, symbol: &str, what: &str| step(check, symbol).map(|s| format!("{what} {} {}", s.printed, s.unit)).unwrap_or_default();
    let or = |text: String, other: String| if text.is_empty() { other } else { text };
    let row = |letter, name, values, because: String, reference| Factor { letter, name, values, because, reference };
    let (k_h, size) = found("bending", "k_h", "no bending");
    let (k_crit, buckling) = found("bending", "k_crit", "no bending");
    let (k_c90, bears) = found("bearing", "k_c,90", "bearing is not checked");
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
            [time("bending"), time("shear"), time("bearing"), None],
            why,
            "EN 1995-1-1, Table 3.1",
        ),
        row(
            notation::k_h.letter(),
            "size",
            [k_h, None, None, None],
            or(size, format!("depth {} mm", figures(m.h.value(), 4))),
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
            or(buckling, from("bending", "lambda_rel,m", "relative slenderness")),
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

/// A factor as printed: at least one place, at most four figures.
fn factor(number: f64) -> String {
    let text = (1..=4).map(|places| decimals(number, places)).find(|t| t.parse::<f64>().is_ok_and(|v| (v - number).abs() < 1e-9));
    text.unwrap_or_else(|| figures(number, 4))
}
