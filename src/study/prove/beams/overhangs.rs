//! One span with one overhang or two.

use super::{Case, Figure, exact, rounded, uniform};
use crate::analysis::Load;

pub(super) fn figures(case: &Case) -> Option<Vec<Figure>> {
    let g = |name: &str| case.given(name);
    let (l, a) = (case.given.get("L_ft")?, case.given.get("a_overhang_ft").or_else(|| case.given.get("a_each_ft"))?);
    let (l, a) = (*l, *a);
    let right = |loads: &[Load]| case.solve(l + a, &[(0.0, false), (l, false)], loads);
    let root3 = 3f64.sqrt();
    Some(match case.id.as_str() {
        "oh-uniform" => {
            let w = g("w_plf");
            let s = right(&[uniform(0.0, l + a, w)]);
            let m = s.largest_moment(0.0, l);
            let x = l / 2.0;
            let (l2, a2, x2) = (l * l, a * a, x * x);
            let middle = w * x * (l2 * l2 - 2.0 * l2 * x2 + l * x2 * x - 2.0 * a2 * l2 + 2.0 * a2 * x2) / (24.0 * l);
            vec![
                exact("R1", s.reaction(1), w * (l2 - a2) / (2.0 * l)),
                exact("R2", s.reaction(2), w * (l + a) * (l + a) / (2.0 * l)),
                exact("M1", m.value, w * (l + a) * (l + a) * (l - a) * (l - a) / (8.0 * l2)),
                exact("x_M1", m.x, l / 2.0 * (1.0 - a2 / l2)),
                exact("M2", s.moment(l), -w * a2 / 2.0),
                exact("d_mid", s.deflection(x), s.shown * middle),
                exact("d_tip", s.deflection(l + a), s.shown * w * a * (4.0 * a2 * l - l2 * l + 3.0 * a2 * a) / 24.0),
            ]
        }
        "oh-uniform-on-overhang" => {
            let w = g("w_plf");
            let s = right(&[uniform(l, l + a, w)]);
            let up = s.smallest_deflection();
            debug_assert!((up.x - l / root3).abs() <= 1e-9 * l);
            vec![
                exact("R1", s.reaction(1), -w * a * a / (2.0 * l)),
                exact("R2", s.reaction(2), w * a * (2.0 * l + a) / (2.0 * l)),
                exact("M2", s.moment(l), -w * a * a / 2.0),
                rounded("d_up", up.value, -s.shown * 0.03208 * w * a * a * l * l),
                exact("d_tip", s.deflection(l + a), s.shown * w * a * a * a * (4.0 * l + 3.0 * a) / 24.0),
            ]
        }
        "oh-point-end" => {
            let p = g("P_lb");
            let s = right(&[Load::Point { at: l + a, force: p }]);
            vec![
                exact("R1", s.reaction(1), -p * a / l),
                exact("R2", s.reaction(2), p * (l + a) / l),
                exact("M2", s.moment(l), -p * a),
                exact("d_up", s.smallest_deflection().value, -s.shown * p * a * l * l / (9.0 * root3)),
                exact("d_tip", s.deflection(l + a), s.shown * p * a * a * (l + a) / 3.0),
            ]
        }
        "oh-both" => {
            let w = g("w_plf");
            let whole = l + 2.0 * a;
            let s = case.solve(whole, &[(a, false), (a + l, false)], &[uniform(0.0, whole, w)]);
            let m = s.largest_moment(0.0, whole);
            debug_assert!((m.x - whole / 2.0).abs() <= 1e-9 * whole);
            let tip = w * a * (3.0 * a * a * a + 6.0 * a * a * l - l * l * l) / 24.0;
            debug_assert!((s.deflection(whole) - s.deflection(0.0)).abs() <= 1e-9 * (s.shown * tip).abs());
            vec![
                exact("R1", s.reaction(1), w * (l / 2.0 + a)),
                exact("M_sup", s.moment(a), -w * a * a / 2.0),
                exact("M_mid", m.value, w * l * l / 8.0 - w * a * a / 2.0),
                exact("d_mid", s.deflection(whole / 2.0), s.shown * w * l * l * (5.0 * l * l - 24.0 * a * a) / 384.0),
                exact("d_tip", s.deflection(0.0), s.shown * tip),
            ]
        }
        _ => return None,
    })
}
