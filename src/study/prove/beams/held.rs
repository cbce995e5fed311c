//! Beams with fixed ends: cantilevers with the wall on either side, propped, and fixed at both ends.

use super::{Case, Figure, exact, rounded, solved, uniform};
use crate::analysis::Load;

pub(super) fn figures(case: &Case) -> Option<Vec<Figure>> {
    let g = |name: &str| case.given(name);
    let root5 = 5f64.sqrt();
    Some(match case.id.as_str() {
        "cant-uniform" => {
            let (w, l) = (g("w_plf"), g("L_ft"));
            let s = case.solve(l, &[(0.0, true)], &[uniform(0.0, l, w)]);
            debug_assert!((s.diagram.fixing_moments[0] - s.moment(0.0)).abs() < 1e-9, "the wall turns the beam's end anticlockwise");
            vec![
                exact("R", s.reaction(1), w * l),
                exact("M_fix", s.moment(0.0), -w * l * l / 2.0),
                exact("d_tip", s.deflection(l), s.shown * w * l * l * l * l / 8.0),
            ]
        }
        "cant-point-end" => {
            let (p, l) = (g("P_lb"), g("L_ft"));
            let s = case.solve(l, &[(l, true)], &[Load::Point { at: 0.0, force: p }]);
            debug_assert!((s.diagram.fixing_moments[0] + s.moment(l)).abs() < 1e-9, "the wall turns the beam's end clockwise");
            vec![
                exact("R", s.reaction(1), p),
                exact("M_fix", s.moment(l), -p * l),
                exact("d_tip", s.deflection(0.0), s.shown * p * l * l * l / 3.0),
            ]
        }
        "cant-point-any" => {
            let (p, l, b) = (g("P_lb"), g("L_ft"), g("b_from_wall_ft"));
            let s = case.solve(l, &[(0.0, true)], &[Load::Point { at: b, force: p }]);
            vec![
                exact("M_fix", s.moment(0.0), -p * b),
                exact("d_tip", s.deflection(l), s.shown * p * b * b * (3.0 * l - b) / 6.0),
                exact("d_load", s.deflection(b), s.shown * p * b * b * b / 3.0),
            ]
        }
        "cant-tri" => {
            let (w, l) = (g("w_at_wall_kN_per_m"), g("L_m"));
            let s = case.solve(l, &[(l, true)], &[Load::Line { from: 0.0, to: l, start: 0.0, end: w }]);
            let total = w * l / 2.0;
            vec![
                exact("R", s.reaction(1), total),
                exact("M_fix", s.moment(l), -total * l / 3.0),
                exact("d_tip", s.deflection(0.0), s.shown * total * l * l * l / 15.0),
            ]
        }
        "prop-uniform" => {
            let (w, l) = (g("w_kN_per_m"), g("L_m"));
            let s = case.solve(l, &[(0.0, false), (l, true)], &[uniform(0.0, l, w)]);
            let (m, d) = (s.largest_moment(0.0, l), s.largest_deflection());
            debug_assert!((m.x - 0.375 * l).abs() <= 1e-9 * l);
            vec![
                exact("R_pin", s.reaction(1), 3.0 * w * l / 8.0),
                exact("R_fix", s.reaction(2), 5.0 * w * l / 8.0),
                exact("M_fix", s.moment(l), -w * l * l / 8.0),
                exact("M_pos", m.value, 9.0 * w * l * l / 128.0),
                rounded("d_max", d.value, s.shown * w * l * l * l * l / 185.0),
                rounded("x_d", d.x, 0.4215 * l),
            ]
        }
        "prop-point-centre" => {
            let (p, l) = (g("P_kN"), g("L_m"));
            let s = case.solve(l, &[(0.0, false), (l, true)], &[Load::Point { at: l / 2.0, force: p }]);
            let d = s.largest_deflection();
            debug_assert!((d.x - l / root5).abs() <= 1e-9 * l);
            vec![
                exact("R_pin", s.reaction(1), 5.0 * p / 16.0),
                exact("R_fix", s.reaction(2), 11.0 * p / 16.0),
                exact("M_fix", s.moment(l), -3.0 * p * l / 16.0),
                exact("M_load", s.moment(l / 2.0), 5.0 * p * l / 32.0),
                exact("d_max", d.value, s.shown * p * l * l * l / (48.0 * root5)),
                exact("d_load", s.deflection(l / 2.0), s.shown * 7.0 * p * l * l * l / 768.0),
            ]
        }
        "prop-point-any" => {
            let (p, l, a) = (g("P_kN"), g("L_m"), g("a_m"));
            let b = l - a;
            let s = case.solve(l, &[(0.0, false), (l, true)], &[Load::Point { at: a, force: p }]);
            let pin = p * b * b * (a + 2.0 * l) / (2.0 * l * l * l);
            vec![
                exact("R_pin", s.reaction(1), pin),
                exact("M_fix", s.moment(l), -p * a * b * (a + l) / (2.0 * l * l)),
                exact("M_load", s.moment(a), pin * a),
                exact("d_load", s.deflection(a), s.shown * p * a * a * b * b * b * (3.0 * l + a) / (12.0 * l * l * l)),
            ]
        }
        "fix-uniform" => {
            let (w, l) = (g("w_kN_per_m"), g("L_m"));
            let s = case.solve(l, &[(0.0, true), (l, true)], &[uniform(0.0, l, w)]);
            vec![
                exact("R1", s.reaction(1), w * l / 2.0),
                exact("M_end", s.moment(0.0), -w * l * l / 12.0),
                exact("M_mid", s.moment(l / 2.0), w * l * l / 24.0),
                exact("d_max", s.largest_deflection().value, s.shown * w * l * l * l * l / 384.0),
            ]
        }
        "fix-point-centre" => {
            let (p, l) = (g("P_kN"), g("L_m"));
            let s = case.solve(l, &[(0.0, true), (l, true)], &[Load::Point { at: l / 2.0, force: p }]);
            vec![
                exact("R1", s.reaction(1), p / 2.0),
                exact("M_end", s.moment(l), -p * l / 8.0),
                exact("M_mid", s.moment(l / 2.0), p * l / 8.0),
                exact("d_max", s.largest_deflection().value, s.shown * p * l * l * l / 192.0),
            ]
        }
        "fix-point-any" => {
            let (p, l, a) = (g("P_kN"), g("L_m"), g("a_m"));
            let b = l - a;
            let s = case.solve(l, &[(0.0, true), (l, true)], &[Load::Point { at: a, force: p }]);
            let d = s.largest_deflection();
            let c = 3.0 * a + b;
            debug_assert!((d.x - 2.0 * a * l / c).abs() <= 1e-9 * l);
            vec![
                exact("R1", s.reaction(1), p * b * b * c / (l * l * l)),
                exact("M1", s.moment(0.0), -p * a * b * b / (l * l)),
                exact("M2", s.moment(l), -p * a * a * b / (l * l)),
                exact("M_load", s.moment(a), 2.0 * p * a * a * b * b / (l * l * l)),
                exact("d_load", s.deflection(a), s.shown * p * a * a * a * b * b * b / (3.0 * l * l * l)),
                exact("d_max", d.value, s.shown * 2.0 * p * a * a * a * b * b / (3.0 * c * c)),
            ]
        }
        "fix-tri" => {
            let (w, l) = (g("w_max_kN_per_m"), g("L_m"));
            let s = case.solve(l, &[(0.0, true), (l, true)], &[Load::Line { from: 0.0, to: l, start: 0.0, end: w }]);
            vec![
                exact("R1", s.reaction(1), 3.0 * w * l / 20.0),
                exact("R2", s.reaction(2), 7.0 * w * l / 20.0),
                exact("M1", s.moment(0.0), -w * l * l / 30.0),
                exact("M2", s.moment(l), -w * l * l / 20.0),
                solved("d_max", s.largest_deflection().value),
            ]
        }
        _ => return None,
    })
}
