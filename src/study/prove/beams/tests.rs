//! Formula, printed figure, other solution and solver, each against each.

use super::*;
use std::collections::BTreeSet;

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
        let rooms = [simple::figures, held::figures, overhangs::figures, continuous::figures];
        assert_eq!(rooms.iter().filter(|figures| figures(case).is_some()).count(), 1, "{} is not covered once", case.id);
        let figures = figures(case);
        let named: BTreeSet<&str> = figures.iter().map(|figure| figure.name).collect();
        let printed: BTreeSet<&str> = case.expect.keys().chain(case.recomputed.keys()).map(String::as_str).collect();
        assert_eq!(named, printed, "figures of {}", case.id);
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
                let tolerance = if on_grid { 1e-3 * case.length() } else { half_a_figure(recomputed) };
                compare(case, "recomputed", figure, figure.solved, recomputed, tolerance);
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
