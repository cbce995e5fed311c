//! Every closed form of `beam_formulas.yaml`, which names a source for each, against the solver.
//!
//! A formula without rounded coefficients is written out here and must agree to 1e-9; its figures in the file (`expect`) to
//! the six figures printed there. A formula with rounded coefficients, such as 1/185 or 0.0069, must give the printed figures, and
//! the solver may differ from it by the tolerance the file states for it (0.1 % or 1 %). `recomputed` is an independent
//! direct-stiffness solution and must agree to its six figures; only its places (`x_…`) were looked for on a grid, and are compared
//! to a thousandth of the length.

mod continuous;
mod edges;
mod held;
mod overhangs;
mod shear;
mod simple;

use crate::analysis::{At, Beam, Diagram, Load, Quantity, Side, Support};
use std::collections::{BTreeMap, BTreeSet};

/// An entry of the file.
#[derive(serde::Deserialize)]
struct Case {
    id: String,
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
    fn given(&self, name: &str) -> f64 {
        self.given[name]
    }

    /// `supports`: place, and whether fixed.
    fn solve(&self, length: f64, supports: &[(f64, bool)], loads: &[Load]) -> Solved {
        let beam = Beam::new(length, supports.iter().map(|&(at, fixed)| Support { at, fixed }).collect());
        let diagram = beam.expect("a stable beam").solve(loads);
        let shown = match self.given.get("E_psi") {
            Some(e) => 12.0 * 144.0 / (e * self.given("I_in4")),
            None => 1000.0 / (self.given("E_MPa") * self.given("I_mm4") * 1e-9),
        };
        Solved { diagram, length, shown }
    }

    fn tolerance(&self) -> f64 {
        let percent: f64 = self.tolerance.trim_end_matches(" %").parse().expect("a percentage");
        percent / 100.0
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
    let scientific = format!("{value:e}");
    let (_, exponent) = scientific.split_once('e').expect("an exponent");
    let exponent: i32 = exponent.parse().expect("a whole number");
    // A figure half-way between two, such as 1378.125, was rounded either way.
    0.500001 * format!("1e{}", exponent - 5).parse::<f64>().expect("a power of ten")
}

fn cases() -> Vec<Case> {
    serde_yaml::from_str(include_str!("beam_formulas.yaml")).expect("a list of cases")
}

fn figures(case: &Case) -> Vec<Figure> {
    let rooms = [simple::figures, held::figures, overhangs::figures, continuous::figures];
    let mut found: Vec<_> = rooms.iter().filter_map(|figures| figures(case)).collect();
    assert_eq!(found.len(), 1, "{} is not covered once", case.id);
    found.remove(0)
}

#[test]
fn every_closed_form_agrees() {
    let cases = cases();
    let ids: BTreeSet<&str> = cases.iter().map(|case| case.id.as_str()).collect();
    assert_eq!((cases.len(), ids.len()), (37, 37), "entries in the file");
    let mut wrong = Vec::new();
    let mut compare = |case: &Case, with: &str, figure: &Figure, value: f64, reference: f64, tolerance: f64| {
        let difference = (value - reference).abs();
        if difference.is_nan() || difference > tolerance {
            wrong.push(format!("{} {} {with}: {value} against {reference}", case.id, figure.name));
        }
    };
    for case in &cases {
        let figures = figures(case);
        let named: BTreeSet<&str> = figures.iter().map(|figure| figure.name).collect();
        let printed: BTreeSet<&str> = case.expect.keys().chain(case.recomputed.keys()).map(String::as_str).collect();
        assert_eq!(named, printed, "figures of {}", case.id);
        let length = case.given.iter().find(|(name, _)| name.starts_with('L')).map_or(0.0, |(_, &length)| length);
        for figure in &figures {
            match (&figure.formula, case.expect.get(figure.name)) {
                (&Formula::Exact(formula), Some(&expect)) => {
                    compare(case, "formula", figure, figure.solved, formula, 1e-9 * formula.abs());
                    compare(case, "expect", figure, figure.solved, expect, half_a_figure(expect));
                }
                (&Formula::Rounded(formula), Some(&expect)) => {
                    compare(case, "formula as printed", figure, formula, expect, half_a_figure(expect));
                    compare(case, "expect", figure, figure.solved, expect, case.tolerance() * expect.abs());
                }
                (Formula::Absent, None) => {}
                _ => panic!("{} {}: a formula and an expected figure go together", case.id, figure.name),
            }
            if let Some(&recomputed) = case.recomputed.get(figure.name) {
                let on_grid = figure.name.starts_with("x_");
                let tolerance = if on_grid { 1e-3 * length } else { half_a_figure(recomputed) };
                compare(case, "recomputed", figure, figure.solved, recomputed, tolerance);
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
