//! The laws of the equation room: one expression, several forms, one number.

use super::{Coherent, Facts, Tape};
use crate::units::{FT, IN, LBF, LBF_FT, Length, Modulus, Moment, NONE, PSI, Ratio, Stress, sq, sqrt};
use crate::{eq, given, notation};
use proptest::prelude::*;

mod letters {
    #![allow(non_upper_case_globals)]
    use super::*;
    notation! {
        M: Moment = "M", "M", "M", &LBF_FT;
        S: Modulus = "S", "S", "S", &crate::units::IN3;
        b: Length = "b", "b", "b", &IN;
        d: Length = "d", "d", "d", &IN;
        l_e: Length = "l_e", "l_e", "l e", &IN;
        F: Stress = "F", "F", "F", &PSI;
        E: Stress = "E", "E", "E", &PSI;
        C: Ratio = "C", "C", "C", &NONE;
        f_b: Stress = "f_b", "f_b", "f b", &PSI;
        R_B: Ratio = "R_B", "R_B", "R B", &NONE;
        F_bE: Stress = "F_bE", "F_(b E)", "F b E", &PSI;
        r: Ratio = "r", "r", "r", &NONE;
        alpha: Ratio = "alpha", "alpha", "alpha", &NONE;
        C_L: Ratio = "C_L", "C_L", "C L", &NONE;
        ratio: Ratio = "ratio", "\"ratio\"", "ratio", &NONE;
    }
}
use letters as notation;

#[allow(non_snake_case)]
mod check {
    use super::*;
    given! {
        /// A bending check in small.
        Beam { M: Moment, S: Modulus, b: Length, d: Length, l_e: Length, F: Stress, E: Stress, C: Ratio }
    }

    pub fn bending<T: super::super::Trace>(m: &Beam<T>) -> Ratio<T> {
        let &Beam { M, S, b, d, l_e, F, E, C } = m;
        eq!(f_b = M / S; "3.3.2");
        eq!(R_B = sqrt(l_e * d / sq(b)); "3.3.3.6");
        eq!(F_bE = 1.20 * E / sq(R_B); "3.3.3.8");
        eq!(r = F_bE / (F * C); "3.3.3.8");
        eq!(alpha = (1.0 + r) / 1.9; "3.3.3.8");
        eq!(C_L = alpha - sqrt(sq(alpha) - r / 0.95); "3.3.3.8");
        eq!(ratio = f_b / (F * C * C_L); "3.3.1");
        ratio
    }
}
use check::{Beam, bending};

const SETS: [Coherent; 2] = [Coherent { length: &IN, force: &LBF }, Coherent { length: &FT, force: &LBF }];

fn beam(moment: f64, l_e: f64, stress: f64) -> Beam {
    Beam {
        M: LBF_FT.of(moment),
        S: crate::units::IN3.of(21.390_625),
        b: IN.of(1.5),
        d: IN.of(9.25),
        l_e: IN.of(l_e),
        F: PSI.of(stress),
        E: PSI.of(580_000.0),
        C: Ratio::new(1.15),
    }
}

#[test]
fn a_line_prints_as_a_reviewer_would_write_it() {
    let tape = Tape::new();
    bending(&beam(1579.5, 96.0, 900.0).traced(&tape));
    let mut facts = Facts::default();
    facts.state(&letters::C, "NDS Table 2.3.2", "snow");
    let steps = tape.steps(&facts, &SETS);
    let of = |symbol: &str| steps.iter().find(|s| s.symbol == symbol).unwrap();
    let f_b = of("f_b");
    let equation = f_b.equation.as_ref().unwrap();
    assert_eq!((equation.plain.as_str(), equation.substituted.as_str()), ("M / S", "1579.5 x 12 / 21.39"));
    assert_eq!((f_b.printed.as_str(), f_b.unit.as_str()), ("886.1", "psi"));
    // The standard's 1.20 stays 1.20, and a comma groups thousands.
    assert!(of("F_bE").equation.as_ref().unwrap().typst.starts_with("frac(1.20 thin E, R_B^2)"));
    assert!(of("F_bE").equation.as_ref().unwrap().substituted.contains("580,000"));
    assert_eq!((of("C").reference.as_str(), of("C").printed.as_str()), ("NDS Table 2.3.2", "1.15"));
    assert!(f_b.equation.as_ref().unwrap().words.starts_with("f b equals M over S, equals 1579.5 times 12 over 21.39"));
}

/// Works a substituted line with a calculator of its own: numbers, + - * / ^ sqrt and brackets.
fn calculator(line: &str) -> f64 {
    let text = line.replace(',', "").replace(" x ", "*").replace(' ', "");
    let (value, rest) = sum(&text);
    assert!(rest.is_empty(), "{line}: {rest}");
    value
}
fn sum(mut text: &str) -> (f64, &str) {
    let (mut value, rest) = product(text);
    text = rest;
    while let Some(sign) = text.chars().next().filter(|c| matches!(c, '+' | '-')) {
        let (next, rest) = product(&text[1..]);
        value = if sign == '+' { value + next } else { value - next };
        text = rest;
    }
    (value, text)
}
fn product(mut text: &str) -> (f64, &str) {
    let (mut value, rest) = power(text);
    text = rest;
    while let Some(sign) = text.chars().next().filter(|c| matches!(c, '*' | '/')) {
        let (next, rest) = power(&text[1..]);
        value = if sign == '*' { value * next } else { value / next };
        text = rest;
    }
    (value, text)
}
fn power(text: &str) -> (f64, &str) {
    let (base, rest) = atom(text);
    match rest.strip_prefix("^2") {
        Some(rest) => (base * base, rest),
        None => (base, rest),
    }
}
fn atom(text: &str) -> (f64, &str) {
    if let Some(inner) = text.strip_prefix("sqrt(") {
        let (value, rest) = sum(inner);
        return (value.sqrt(), &rest[1..]);
    }
    if let Some(inner) = text.strip_prefix('(') {
        let (value, rest) = sum(inner);
        return (value, &rest[1..]);
    }
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    (text[..end].parse().unwrap(), &text[end..])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn plain_and_traced_are_equal_to_the_last_bit(moment in 1.0..20_000.0f64, l_e in 1.0..400.0f64, stress in 100.0..3000.0f64) {
        let beam = beam(moment, l_e, stress);
        let tape = Tape::new();
        let (plain, traced) = (bending(&beam), bending(&beam.traced(&tape)));
        prop_assert_eq!(plain.number_in(&NONE).to_bits(), traced.number_in(&NONE).to_bits());
    }

    #[test]
    fn a_printed_line_gives_its_printed_result(moment in 1.0..20_000.0f64, l_e in 1.0..400.0f64, stress in 100.0..3000.0f64) {
        reworks(moment, l_e, stress);
    }
}

fn reworks(moment: f64, l_e: f64, stress: f64) {
    let tape = Tape::new();
    bending(&beam(moment, l_e, stress).traced(&tape));
    for step in tape.steps(&Facts::default(), &SETS) {
        let Some(equation) = step.equation.filter(|e| !e.unrounded) else { continue };
        let places = step.printed.split_once('.').map_or(0, |(_, f)| f.len());
        let again = format!("{:.places$}", calculator(&equation.substituted));
        assert_eq!(again, step.printed.replace(',', ""), "{} = {}", step.symbol, equation.substituted);
    }
}

/// One in many thousands: seven figures say the slenderness but for a ten-billionth, and that decides the last figure of the result.
#[test]
fn a_result_at_the_edge_of_its_last_figure_is_worked_from_what_is_printed() {
    reworks(18_509.874_942_326_97, 389.672_517_455_470_9, 100.0);
}
