//! Closed forms of beam theory against the solver: every entry of `formulas.yaml`, which names a source for each.
//!
//! A formula without rounded coefficients is written out here and must agree to 1e-9; its figures in the file (`expect`) to
//! the six figures printed there. A formula with rounded coefficients, such as 1/185 or 0.0069, must give the printed figures, and
//! the solver may differ from it by the tolerance the file states for it (0.1 % or 1 %). `recomputed` is an independent
//! direct-stiffness solution and must agree to its six figures; only its places (`x_…`) were looked for on a grid, and are compared
//! to a thousandth of the length.

mod continuous;
mod held;
mod overhangs;
mod simple;
#[cfg(test)]
mod tests;

use crate::analysis::{At, Beam, Diagram, Load, Quantity, Side, Support};
use crate::results::proof;
use crate::results::rounded as rounded_off;
use serde::Deserialize;
use std::collections::BTreeMap;

/// An entry of the file.
#[derive(Deserialize)]
struct Case {
    id: String,
    title: String,
    source: String,
    status: String,
    given: BTreeMap<String, f64>,
    expect: BTreeMap<String, f64>,
    recomputed: BTreeMap<String, f64>,
    tolerance: String,
}

/// A figure as solved, with what the formula gives for it.
struct Figure {
    name: &'static str,
    solved: f64,
    formula: Formula,
}

enum Formula {
    Exact(f64),
    Rounded(f64),
    /// The file has no formula for it, only the other solution.
    Absent,
}

fn exact(name: &'static str, solved: f64, formula: f64) -> Figure {
    Figure { name, solved, formula: Formula::Exact(formula) }
}

fn rounded(name: &'static str, solved: f64, formula: f64) -> Figure {
    Figure { name, solved, formula: Formula::Rounded(formula) }
}

fn solved(name: &'static str, solved: f64) -> Figure {
    Figure { name, solved, formula: Formula::Absent }
}

/// A solved entry, in the file's own units: lb and ft with deflections in inches, or kN and m with deflections in millimetres.
struct Solved {
    diagram: Diagram,
    length: f64,
    /// Makes a deflection for EI = 1 one as the file shows it.
    shown: f64,
}

impl Case {
    /// A given value; not a number where the entry has none, so that nothing agrees.
    fn given(&self, name: &str) -> f64 {
        self.given.get(name).copied().unwrap_or(f64::NAN)
    }

    /// `supports`: place, and whether fixed.
    fn solve(&self, length: f64, supports: &[(f64, bool)], loads: &[Load]) -> Solved {
        let beam = Beam::new(length, supports.iter().map(|&(at, fixed)| Support { at, fixed }).collect());
        let diagram = beam.expect("the beams of the file are held").solve(loads);
        let shown = match self.given.get("E_psi") {
            Some(e) => 12.0 * 144.0 / (e * self.given("I_in4")),
            None => 1000.0 / (self.given("E_MPa") * self.given("I_mm4") * 1e-9),
        };
        Solved { diagram, length, shown }
    }

    fn tolerance(&self) -> f64 {
        self.tolerance.trim_end_matches(" %").parse().map_or(0.0, |percent: f64| percent / 100.0)
    }

    fn length(&self) -> f64 {
        self.given.iter().find(|(name, _)| name.starts_with('L')).map_or(0.0, |(_, &length)| length)
    }

    /// The unit that a figure is printed in, by its first letter.
    fn unit(&self, name: &str) -> &'static str {
        let pounds = self.given.contains_key("E_psi");
        match (name.as_bytes().first(), pounds) {
            (Some(b'R' | b'V'), true) => "lbf",
            (Some(b'R' | b'V'), false) => "kN",
            (Some(b'M'), true) => "lbf ft",
            (Some(b'M'), false) => "kN m",
            (Some(b'd'), true) => "in",
            (Some(b'd'), false) => "mm",
            (_, true) => "ft",
            (_, false) => "m",
        }
    }
}

impl Solved {
    fn reaction(&self, support: usize) -> f64 {
        self.diagram.reactions[support - 1]
    }

    fn moment(&self, x: f64) -> f64 {
        self.diagram.value(Quantity::Moment, x, Side::Left)
    }

    fn deflection(&self, x: f64) -> f64 {
        self.shown * self.diagram.value(Quantity::Deflection, x, Side::Left)
    }

    fn largest_moment(&self, from: f64, to: f64) -> At {
        self.diagram.extremes(Quantity::Moment, from, to).largest
    }

    fn largest_deflection(&self) -> At {
        let at = self.diagram.extremes(Quantity::Deflection, 0.0, self.length).largest;
        At { value: self.shown * at.value, ..at }
    }

    fn smallest_deflection(&self) -> At {
        let at = self.diagram.extremes(Quantity::Deflection, 0.0, self.length).smallest;
        At { value: self.shown * at.value, ..at }
    }
}

/// A line load of one intensity.
fn uniform(from: f64, to: f64, w: f64) -> Load {
    Load::Line { from, to, start: w, end: w }
}

/// Half a unit in the sixth figure.
fn half_a_figure(value: f64) -> f64 {
    let exponent = libm::floor(libm::log10(value.abs()) + 1e-12);
    // A figure half-way between two, such as 1378.125, was rounded either way.
    0.500001 * libm::pow(10.0, exponent - 5.0)
}

fn cases() -> Vec<Case> {
    serde_yaml::from_str(include_str!("formulas.yaml")).expect("a list of cases")
}

/// The figures of an entry; none where no room knows it.
fn figures(case: &Case) -> Vec<Figure> {
    let rooms = [simple::figures, held::figures, overhangs::figures, continuous::figures];
    rooms.iter().find_map(|figures| figures(case)).unwrap_or_default()
}

/// Solves every beam of the file and compares its figures with the printed ones.
pub(super) fn run(into: &mut Vec<proof::Case>) {
    into.extend(cases().into_iter().map(|case| {
        let figures = figures(&case);
        let fault = if figures.is_empty() { "no beam is made of this entry".to_owned() } else { String::new() };
        let kind = if case.status.starts_with("read") { proof::Kind::ClosedForm } else { proof::Kind::FromMemory };
        let figures = figures.iter().filter_map(|figure| compared(&case, figure, kind)).collect();
        let Case { id, title, source, status, .. } = case;
        proof::Case { id, code: "beam theory".to_owned(), title, source, kind, status, fault, figures }
    }));
}

/// A figure beside the printed one, or beside that of the other solution where no formula is printed.
fn compared(case: &Case, figure: &Figure, kind: proof::Kind) -> Option<proof::Figure> {
    let printed = case.expect.get(figure.name);
    let expected = *printed.or_else(|| case.recomputed.get(figure.name))?;
    let (tolerance, because) = match (&figure.formula, printed) {
        (Formula::Rounded(_), Some(_)) => (case.tolerance() * expected.abs(), "the coefficient of the formula is rounded"),
        (_, None) if figure.name.starts_with("x_") => (1e-3 * case.length(), "found on a grid by another solution"),
        (_, None) => (half_a_figure(expected), "by another solution; no formula is printed"),
        _ => (half_a_figure(expected), ""),
    };
    let difference = figure.solved - expected;
    let follows_formula = match figure.formula {
        Formula::Exact(formula) => (figure.solved - formula).abs() <= 1e-9 * formula.abs(),
        Formula::Rounded(formula) => (figure.solved - formula).abs() <= case.tolerance() * formula.abs(),
        Formula::Absent => true,
    };
    Some(proof::Figure {
        // What only another solution of our own gives is our own.
        kind: if printed.is_none() { proof::Kind::OwnArithmetic } else { kind },
        member: String::new(),
        check: "beam_theory".to_owned(),
        combination: String::new(),
        place: String::new(),
        symbol: figure.name.to_owned(),
        typst: String::new(),
        words: String::new(),
        unit: case.unit(figure.name).to_owned(),
        expected,
        computed: Some(rounded_off(figure.solved)),
        difference: Some(rounded_off(difference)),
        tolerance: rounded_off(tolerance),
        agrees: follows_formula && difference.abs() <= tolerance,
        because: because.to_owned(),
    })
}
