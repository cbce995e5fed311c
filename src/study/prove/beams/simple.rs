//! Simple spans.

use super::{Case, Figure, exact, rounded, solved, uniform};
use crate::analysis::{Load, Quantity, Side};

pub(super) fn figures(case: &Case) -> Option<Vec<Figure>> {
    let g = |name: &str| case.given(name);
    let span = |l: f64, loads: &[Load]| case.solve(l, &[(0.0, false), (l, false)], loads);
    let root3 = 3f64.sqrt();
    Some(match case.id.as_str() {
        "ss-uniform" => {
            let (w, l) = (g("w_plf"), g("L_ft"));
            let s = span(l, &[uniform(0.0, l, w)]);
            let (m, d) = (s.largest_moment(0.0, l), s.largest_deflection());
            debug_assert!((m.x - l / 2.0).abs() <= 1e-9 * l && (d.x - l / 2.0).abs() <= 1e-9 * l);
            vec![
                exact("R1", s.reaction(1), w * l / 2.0),
                exact("M_max", m.value, w * l * l / 8.0),
                exact("d_max", d.value, s.shown * 5.0 * w * l * l * l * l / 384.0),
            ]
        }
        "ss-partial" => {
            let (w, l, a, b, c) = (g("w_plf"), g("L_ft"), g("a_ft"), g("b_loaded_ft"), g("c_ft"));
            let s = span(l, &[uniform(a, a + b, w)]);
            let r1 = w * b * (2.0 * c + b) / (2.0 * l);
            let m = s.largest_moment(0.0, l);
            vec![
                exact("R1", s.reaction(1), r1),
                exact("R2", s.reaction(2), w * b * (2.0 * a + b) / (2.0 * l)),
                exact("M_max", m.value, r1 * (a + r1 / (2.0 * w))),
                exact("x_M", m.x, a + r1 / w),
                solved("d_max", s.largest_deflection().value),
            ]
        }
        "ss-partial-end" => {
            let (w, l, a) = (g("w_plf"), g("L_ft"), g("a_ft"));
            let s = span(l, &[uniform(0.0, a, w)]);
            let r1 = w * a * (2.0 * l - a) / (2.0 * l);
            let b = 2.0 * l - a;
            let (x, y) = (4.0, 8.0);
            let d4 = w * x * (a * a * b * b - 2.0 * a * x * x * b + l * x * x * x) / (24.0 * l);
            let d8 = w * a * a * (l - y) * (4.0 * y * l - 2.0 * y * y - a * a) / (24.0 * l);
            vec![
                exact("R1", s.reaction(1), r1),
                exact("R2", s.reaction(2), w * a * a / (2.0 * l)),
                exact("M_max", s.largest_moment(0.0, l).value, r1 * r1 / (2.0 * w)),
                exact("d_at_4ft", s.deflection(x), s.shown * d4),
                exact("d_at_8ft", s.deflection(y), s.shown * d8),
            ]
        }
        "ss-tri-one-end" => {
            let (w, l) = (g("w_max_kN_per_m"), g("L_m"));
            let s = span(l, &[Load::Line { from: 0.0, to: l, start: 0.0, end: w }]);
            let total = w * l / 2.0;
            let (m, d) = (s.largest_moment(0.0, l), s.largest_deflection());
            vec![
                exact("R1", s.reaction(1), total / 3.0),
                exact("R2", s.reaction(2), 2.0 * total / 3.0),
                exact("M_max", m.value, 2.0 * total * l / (9.0 * root3)),
                exact("x_M", m.x, l / root3),
                rounded("d_max", d.value, s.shown * 0.01304 * total * l * l * l),
                exact("x_d", d.x, l * (1.0 - (8f64 / 15.0).sqrt()).sqrt()),
            ]
        }
        "ss-tri-centre" => {
            let (w, l) = (g("w_max_kN_per_m"), g("L_m"));
            let rising = Load::Line { from: 0.0, to: l / 2.0, start: 0.0, end: w };
            let falling = Load::Line { from: l / 2.0, to: l, start: w, end: 0.0 };
            let s = span(l, &[rising, falling]);
            let total = w * l / 2.0;
            vec![
                exact("R1", s.reaction(1), total / 2.0),
                exact("M_max", s.largest_moment(0.0, l).value, total * l / 6.0),
                exact("d_max", s.largest_deflection().value, s.shown * total * l * l * l / 60.0),
            ]
        }
        "ss-point-centre" => {
            let (p, l) = (g("P_lb"), g("L_ft"));
            let s = span(l, &[Load::Point { at: l / 2.0, force: p }]);
            vec![
                exact("R1", s.reaction(1), p / 2.0),
                exact("M_max", s.largest_moment(0.0, l).value, p * l / 4.0),
                exact("d_max", s.largest_deflection().value, s.shown * p * l * l * l / 48.0),
            ]
        }
        "ss-point-any" => {
            let (p, l, a) = (g("P_lb"), g("L_ft"), g("a_ft"));
            let b = l - a;
            let s = span(l, &[Load::Point { at: a, force: p }]);
            let d = s.largest_deflection();
            let largest = p * a * b * (a + 2.0 * b) * (3.0 * a * (a + 2.0 * b)).sqrt() / (27.0 * l);
            vec![
                exact("R1", s.reaction(1), p * b / l),
                exact("M_max", s.largest_moment(0.0, l).value, p * a * b / l),
                exact("d_max", d.value, s.shown * largest),
                exact("x_d", d.x, (a * (a + 2.0 * b) / 3.0).sqrt()),
                exact("d_load", s.deflection(a), s.shown * p * a * a * b * b / (3.0 * l)),
            ]
        }
        "ss-two-points" => {
            let (p, l, a) = (g("P_each_lb"), g("L_ft"), g("a_ft"));
            let s = span(l, &[Load::Point { at: a, force: p }, Load::Point { at: l - a, force: p }]);
            let m = s.largest_moment(0.0, l);
            debug_assert!((m.x - l / 2.0).abs() <= 1e-9 * l, "the middle of the plateau, not {}", m.x);
            vec![
                exact("R1", s.reaction(1), p),
                exact("M_max", m.value, p * a),
                exact("d_max", s.largest_deflection().value, s.shown * p * a * (3.0 * l * l - 4.0 * a * a) / 24.0),
            ]
        }
        "ss-two-unequal" => {
            let (p1, p2, l, a, b) = (g("P1_lb"), g("P2_lb"), g("L_ft"), g("a_from_left_ft"), g("b_from_right_ft"));
            let s = span(l, &[Load::Point { at: a, force: p1 }, Load::Point { at: l - b, force: p2 }]);
            let (r1, r2) = ((p1 * (l - a) + p2 * b) / l, (p1 * a + p2 * (l - b)) / l);
            vec![
                exact("R1", s.reaction(1), r1),
                exact("R2", s.reaction(2), r2),
                exact("M1", s.moment(a), r1 * a),
                exact("M2", s.moment(l - b), r2 * b),
                solved("d_max", s.largest_deflection().value),
            ]
        }
        "ss-end-moment" => {
            let (m0, l) = (g("M0_kNm"), g("L_m"));
            let s = span(l, &[Load::Moment { at: 0.0, moment: m0 }]);
            let d = s.largest_deflection();
            let end = s.diagram.pieces.last().expect("a piece");
            let slopes = (s.diagram.pieces[0].slope.at(0.0), end.slope.at(end.to - end.from));
            debug_assert!((slopes.0 - m0 * l / 3.0).abs() < 1e-9 && (slopes.1 + m0 * l / 6.0).abs() < 1e-9);
            vec![
                exact("R1", s.reaction(1), -m0 / l),
                exact("R2", s.reaction(2), m0 / l),
                exact("M_max", s.largest_moment(0.0, l).value, m0),
                exact("d_max", d.value, s.shown * m0 * l * l / (9.0 * root3)),
                exact("x_d", d.x, l * (1.0 - 1.0 / root3)),
            ]
        }
        "ss-moment-any" => {
            let (m0, l, a) = (g("M0_clockwise_kNm"), g("L_m"), g("a_m"));
            let s = span(l, &[Load::Moment { at: a, moment: m0 }]);
            vec![
                exact("R1", s.reaction(1), -m0 / l),
                exact("M_left", s.diagram.value(Quantity::Moment, a, Side::Left), -m0 * a / l),
                exact("M_right", s.diagram.value(Quantity::Moment, a, Side::Right), m0 * (1.0 - a / l)),
                exact("d_a", s.deflection(a), s.shown * m0 * a * (l - a) * (l - 2.0 * a) / (3.0 * l)),
            ]
        }
        "ss-uniform-end-moments" => {
            let (w, l, m1, m2) = (g("w_plf"), g("L_ft"), g("M1_ftlb"), g("M2_ftlb"));
            let s = span(l, &[uniform(0.0, l, w), Load::Moment { at: 0.0, moment: m1 }, Load::Moment { at: l, moment: -m2 }]);
            let r1 = w * l / 2.0 + (m2 - m1) / l;
            let middle = 5.0 * w * l * l * l * l / 384.0 + (m1 + m2) * l * l / 16.0;
            vec![
                exact("R1", s.reaction(1), r1),
                exact("M_max", s.largest_moment(0.0, l).value, m1 + r1 * r1 / (2.0 * w)),
                exact("d_mid", s.deflection(l / 2.0), s.shown * middle),
            ]
        }
        _ => return None,
    })
}
