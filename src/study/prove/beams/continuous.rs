//! Two, three and four spans.

use super::{Case, Figure, Solved, exact, rounded, solved, uniform};
use crate::analysis::Load;

pub(super) fn figures(case: &Case) -> Option<Vec<Figure>> {
    if case.id == "two-unequal-uniform" {
        return Some(unequal(case));
    }
    let (spans, load): (u8, _) = match case.id.split_once('-')? {
        ("two", load) => (2, load),
        ("three", load) => (3, load),
        ("four", load) => (4, load),
        _ => return None,
    };
    let l = case.given("L_ft");
    let solve = |loads: &[Load]| {
        let supports: Vec<_> = (0..=spans).map(|i| (f64::from(i) * l, false)).collect();
        case.solve(f64::from(spans) * l, &supports, loads)
    };
    let on = |loaded: &[f64]| {
        let w = case.given("w_plf");
        let loads: Vec<Load> = loaded.iter().map(|i| uniform(i * l, (i + 1.0) * l, w)).collect();
        (solve(&loads), w * l, w * l * l)
    };
    let sagging = |s: &Solved, i: f64| s.largest_moment(i * l, (i + 1.0) * l).value;
    Some(match (spans, load) {
        (2, "equal-both") => {
            let (s, wl, wl2) = on(&[0.0, 1.0]);
            vec![
                exact("R1", s.reaction(1), 3.0 * wl / 8.0),
                exact("R2", s.reaction(2), 10.0 * wl / 8.0),
                exact("M_sup", s.moment(l), -wl2 / 8.0),
                exact("M_pos", sagging(&s, 0.0), 9.0 * wl2 / 128.0),
                rounded("d_max", s.largest_deflection().value, s.shown * wl2 * l * l / 185.0),
            ]
        }
        (2, "equal-one") => {
            let (s, wl, wl2) = on(&[0.0]);
            vec![
                exact("R1", s.reaction(1), 7.0 * wl / 16.0),
                exact("R2", s.reaction(2), 5.0 * wl / 8.0),
                exact("R3", s.reaction(3), -wl / 16.0),
                exact("M_sup", s.moment(l), -wl2 / 16.0),
                exact("M_pos", sagging(&s, 0.0), 49.0 * wl2 / 512.0),
                rounded("d_max", s.largest_deflection().value, s.shown * 0.0092 * wl2 * l * l),
            ]
        }
        (2, "equal-point-centre") => {
            let p = case.given("P_lb");
            let s = solve(&[Load::Point { at: l / 2.0, force: p }]);
            vec![
                exact("R1", s.reaction(1), 13.0 * p / 32.0),
                exact("R2", s.reaction(2), 11.0 * p / 16.0),
                exact("R3", s.reaction(3), -3.0 * p / 32.0),
                exact("M_sup", s.moment(l), -3.0 * p * l / 32.0),
                exact("M_load", s.moment(l / 2.0), 13.0 * p * l / 64.0),
                rounded("d_max", s.largest_deflection().value, s.shown * 0.015 * p * l * l * l),
            ]
        }
        (2, "equal-point-any") => {
            let (p, a) = (case.given("P_lb"), case.given("a_ft"));
            let b = l - a;
            let s = solve(&[Load::Point { at: a, force: p }]);
            let r1 = p * b * (4.0 * l * l - a * (l + a)) / (4.0 * l * l * l);
            vec![
                exact("R1", s.reaction(1), r1),
                exact("R2", s.reaction(2), p * a * (2.0 * l * l + b * (l + a)) / (2.0 * l * l * l)),
                exact("R3", s.reaction(3), -p * a * b * (l + a) / (4.0 * l * l * l)),
                exact("M_sup", s.moment(l), -p * a * b * (l + a) / (4.0 * l * l)),
                exact("M_load", s.moment(a), r1 * a),
                solved("d_max", s.largest_deflection().value),
            ]
        }
        (3, "all") => {
            let (s, wl, wl2) = on(&[0.0, 1.0, 2.0]);
            vec![
                exact("R1", s.reaction(1), 0.4 * wl),
                exact("R2", s.reaction(2), 1.1 * wl),
                exact("M_end", sagging(&s, 0.0), 0.08 * wl2),
                exact("M_sup", s.moment(l), -0.1 * wl2),
                exact("M_mid", sagging(&s, 1.0), 0.025 * wl2),
                rounded("d_max", s.largest_deflection().value, s.shown * 0.0069 * wl2 * l * l),
            ]
        }
        (3, "two-adjacent") => {
            let (s, wl, wl2) = on(&[0.0, 1.0]);
            vec![
                rounded("R1", s.reaction(1), 0.383 * wl),
                exact("R2", s.reaction(2), 1.2 * wl),
                exact("R3", s.reaction(3), 0.45 * wl),
                rounded("R4", s.reaction(4), -0.0333 * wl),
                rounded("M1", sagging(&s, 0.0), 0.0735 * wl2),
                rounded("M2", sagging(&s, 1.0), 0.0534 * wl2),
                rounded("M_sup2", s.moment(l), -0.1167 * wl2),
                rounded("M_sup3", s.moment(2.0 * l), -0.0333 * wl2),
                rounded("d_max", s.largest_deflection().value, s.shown * 0.0059 * wl2 * l * l),
            ]
        }
        (3, "outer") => {
            let (s, wl, wl2) = on(&[0.0, 2.0]);
            vec![
                exact("R1", s.reaction(1), 0.45 * wl),
                exact("R2", s.reaction(2), 0.55 * wl),
                rounded("M_pos", sagging(&s, 2.0), 0.1013 * wl2),
                exact("M_sup", s.moment(l), -0.05 * wl2),
                rounded("d_max", s.largest_deflection().value, s.shown * 0.0099 * wl2 * l * l),
            ]
        }
        (4, "all") => {
            let (s, wl, wl2) = on(&[0.0, 1.0, 2.0, 3.0]);
            vec![
                exact("R1", s.reaction(1), 11.0 / 28.0 * wl),
                exact("R2", s.reaction(2), 32.0 / 28.0 * wl),
                exact("R3", s.reaction(3), 26.0 / 28.0 * wl),
                exact("M_sup2", s.moment(l), -3.0 / 28.0 * wl2),
                exact("M_sup3", s.moment(2.0 * l), -2.0 / 28.0 * wl2),
                rounded("M1", sagging(&s, 0.0), 0.0772 * wl2),
                rounded("M2", sagging(&s, 1.0), 0.0364 * wl2),
                rounded("d_max", s.largest_deflection().value, s.shown * 0.0065 * wl2 * l * l),
            ]
        }
        (4, "alternate") => {
            let (s, wl, wl2) = on(&[0.0, 2.0]);
            vec![
                rounded("R1", s.reaction(1), 0.446 * wl),
                rounded("R2", s.reaction(2), 0.572 * wl),
                rounded("R3", s.reaction(3), 0.464 * wl),
                rounded("R4", s.reaction(4), 0.572 * wl),
                rounded("R5", s.reaction(5), -0.0536 * wl),
                rounded("M1", sagging(&s, 0.0), 0.0996 * wl2),
                rounded("M3", sagging(&s, 2.0), 0.0805 * wl2),
                rounded("M_sup2", s.moment(l), -0.0536 * wl2),
                rounded("M_sup3", s.moment(2.0 * l), -0.0357 * wl2),
                rounded("M_sup4", s.moment(3.0 * l), -0.0536 * wl2),
                rounded("d_max", s.largest_deflection().value, s.shown * 0.0097 * wl2 * l * l),
            ]
        }
        _ => return None,
    })
}

fn unequal(case: &Case) -> Vec<Figure> {
    let (w, l1, l2) = (case.given("w_plf"), case.given("l1_ft"), case.given("l2_ft"));
    let s = case.solve(l1 + l2, &[(0.0, false), (l1, false), (l1 + l2, false)], &[uniform(0.0, l1 + l2, w)]);
    let support = -w * (l1 * l1 * l1 + l2 * l2 * l2) / (8.0 * (l1 + l2));
    let (r1, r3) = (support / l1 + w * l1 / 2.0, support / l2 + w * l2 / 2.0);
    vec![
        exact("R1", s.reaction(1), r1),
        exact("R3", s.reaction(3), r3),
        exact("R2", s.reaction(2), w * (l1 + l2) - r1 - r3),
        exact("M_sup", s.moment(l1), support),
        exact("M_pos_span2", s.largest_moment(l1, l1 + l2).value, r3 * r3 / (2.0 * w)),
        solved("d_max", s.largest_deflection().value),
    ]
}
