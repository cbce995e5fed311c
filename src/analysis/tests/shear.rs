//! Beams that yield to shear too, against the closed forms of Timoshenko's beam: bending by the usual formula, shear by the unit load,
//! and what is held more than once by setting the deflection at the redundant support to nought.

use crate::analysis::{Beam, Load, Quantity, Side, Support};
use proptest::{collection::vec, prelude::*};

const L: f64 = 4200.0;
/// 1.2 EI/(G A) of a joist 220 mm deep with E/G 16, roughly.
const SHEAR: f64 = 77_000.0;

fn uniform(from: f64, to: f64, w: f64) -> Load {
    Load::Line { from, to, start: w, end: w }
}

fn beam(length: f64, supports: &[(f64, bool)]) -> Beam {
    let supports = supports.iter().map(|&(at, fixed)| Support { at, fixed }).collect();
    Beam::new(length, supports).expect("a stable beam").with_shear(SHEAR)
}

fn deflection(beam: &Beam, loads: &[Load], x: f64) -> f64 {
    beam.solve(loads).value(Quantity::Deflection, x, Side::Left)
}

fn power(x: f64, n: u32) -> f64 {
    (0..n).fold(1.0, |product, _| product * x)
}

fn same(value: f64, formula: f64) {
    assert!((value - formula).abs() <= 1e-9 * formula.abs(), "{value} against {formula}");
}

#[test]
fn statically_determinate_beams_add_shear_to_bending() {
    let (w, p) = (1.3, 2500.0);
    let simple = beam(L, &[(0.0, false), (L, false)]);
    same(deflection(&simple, &[uniform(0.0, L, w)], L / 2.0), 5.0 * w * power(L, 4) / 384.0 + SHEAR * w * L * L / 8.0);
    same(deflection(&simple, &[Load::Point { at: L / 2.0, force: p }], L / 2.0), p * power(L, 3) / 48.0 + SHEAR * p * L / 4.0);
    let (a, b) = (L / 3.0, 2.0 * L / 3.0);
    same(deflection(&simple, &[Load::Point { at: a, force: p }], a), p * a * a * b * b / (3.0 * L) + SHEAR * p * a * b / L);
    let cantilever = beam(L, &[(0.0, true)]);
    same(deflection(&cantilever, &[uniform(0.0, L, w)], L), w * power(L, 4) / 8.0 + SHEAR * w * L * L / 2.0);
    same(deflection(&cantilever, &[Load::Point { at: L, force: p }], L), p * power(L, 3) / 3.0 + SHEAR * p * L);
    let at_left = beam(L, &[(L, true)]);
    same(deflection(&at_left, &[Load::Point { at: 0.0, force: p }], 0.0), p * power(L, 3) / 3.0 + SHEAR * p * L);
}

#[test]
fn the_largest_deflection_is_found_where_the_axis_is_level() {
    let simple = beam(L, &[(0.0, false), (L, false)]);
    let at = simple.solve(&[uniform(0.0, L, 1.0)]).extremes(Quantity::Deflection, 0.0, L).largest;
    same(at.value, 5.0 * power(L, 4) / 384.0 + SHEAR * L * L / 8.0);
    assert!((at.x - L / 2.0).abs() <= 1e-6);
}

#[test]
fn what_is_held_more_than_once_shares_by_both_flexibilities() {
    let w = 1.3;
    let propped = beam(L, &[(0.0, true), (L, false)]).solve(&[uniform(0.0, L, w)]);
    same(propped.reactions[1], (w * power(L, 4) / 8.0 + SHEAR * w * L * L / 2.0) / (power(L, 3) / 3.0 + SHEAR * L));
    let two = beam(2.0 * L, &[(0.0, false), (L, false), (2.0 * L, false)]).solve(&[uniform(0.0, 2.0 * L, w)]);
    let whole = 2.0 * L;
    let free = 5.0 * w * power(whole, 4) / 384.0 + SHEAR * w * whole * whole / 8.0;
    same(two.reactions[1], free / (power(whole, 3) / 48.0 + SHEAR * whole / 4.0));
    let fixed = beam(L, &[(0.0, true), (L, true)]).solve(&[uniform(0.0, L, w)]);
    same(fixed.value(Quantity::Moment, 0.0, Side::Right), -w * L * L / 12.0);
    same(fixed.value(Quantity::Deflection, L / 2.0, Side::Left), w * power(L, 4) / 384.0 + SHEAR * w * L * L / 8.0);
}

#[test]
fn a_beam_without_shear_flexibility_is_the_usual_beam() {
    let supports = [(300.0, false), (L, false), (7000.0, false)];
    let loads = [uniform(0.0, 8000.0, 2.0), Load::Point { at: 5000.0, force: 3e3 }, Load::Moment { at: 1000.0, moment: 2e6 }];
    let usual = Beam::new(8000.0, supports.iter().map(|&(at, fixed)| Support { at, fixed }).collect()).expect("a stable beam");
    assert_eq!(usual.solve(&loads), usual.clone().with_shear(0.0).solve(&loads));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    #[test]
    fn supports_hold_pieces_join_and_displacements_are_reciprocal(
        spans in vec(600.0..6000.0, 1..5), overhang in prop_oneof![Just(0.0), 200.0..1500.0], shear in 0.0..4e5, a in 0.0..1.0, b in 0.0..1.0,
    ) {
        let mut supports = vec![Support { at: overhang, fixed: false }];
        for span in spans {
            supports.push(Support { at: supports[supports.len() - 1].at + span, fixed: false });
        }
        let length = supports[supports.len() - 1].at;
        let beam = Beam::new(length, supports).expect("a stable beam").with_shear(shear);
        let (a, b): (f64, f64) = (a * length, b * length);
        let solved = beam.solve_all(&[vec![Load::Point { at: a, force: 1.0 }], vec![Load::Point { at: b, force: 1.0 }]]);
        let size = solved.iter().map(|d| d.size(Quantity::Deflection, 0.0, length)).fold(0.0, f64::max);
        for diagram in &solved {
            for support in beam.supports() {
                prop_assert!(diagram.value(Quantity::Deflection, support.at, Side::Left).abs() <= 1e-9 * size);
            }
            for pair in diagram.pieces.windows(2) {
                let h = pair[0].to - pair[0].from;
                prop_assert!((pair[0].deflection.at(h) - pair[1].deflection.at(0.0)).abs() <= 1e-9 * size);
                // The section turns on without a jump; the axis may bend sharply where the shear jumps.
                let turned = pair[1].slope.at(0.0) - pair[0].slope.at(h) - shear * (pair[1].shear.at(0.0) - pair[0].shear.at(h));
                prop_assert!(turned.abs() <= 1e-9 * size / 600.0 + 1e-9 * shear, "{turned}");
            }
        }
        let one = solved[0].value(Quantity::Deflection, b, Side::Left);
        let other = solved[1].value(Quantity::Deflection, a, Side::Left);
        prop_assert!((one - other).abs() <= 1e-9 * size, "{one} {other}");
    }
}
