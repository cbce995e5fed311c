//! Plateaus, jumps, intervals, and beams that cannot stand.

use crate::analysis::{Beam, Diagram, Envelope, Load, Panel, Quantity, Side, Support, Unstable};

fn beam(length: f64, supports: &[f64]) -> Beam {
    Beam::new(length, supports.iter().map(|&at| Support { at, fixed: false }).collect()).expect("a stable beam")
}

fn point(at: f64, force: f64) -> Load {
    Load::Point { at, force }
}

#[test]
fn a_plateau_over_several_pieces_gives_its_middle() {
    let others = vec![point(2100.0, 5.0), point(2900.0, 5.0)];
    let cases = beam(6000.0, &[0.0, 6000.0]).solve_all(&[vec![point(2000.0, 3e3), point(4000.0, 3e3)], others]);
    assert_eq!(cases[0].pieces.len(), 5);
    let largest = cases[0].extremes(Quantity::Moment, 0.0, 6000.0).largest;
    assert!((largest.x - 3000.0).abs() < 3e-6 && (largest.value - 6e6).abs() < 6e-3, "{largest:?}");
}

#[test]
fn a_symmetric_span_turns_in_the_middle_wherever_its_breaks_are() {
    let length = 13.5 * 304.8;
    let load = Load::Line { from: 0.0, to: length, start: 1.1, end: 1.1 };
    let cases = beam(length, &[0.0, length]).solve_all(&[vec![load], vec![point(0.37 * length, 1.0), point(length / 2.0, 1.0)]]);
    for quantity in [Quantity::Moment, Quantity::Deflection] {
        let largest = cases[0].extremes(quantity, 0.0, length).largest;
        assert!((largest.x / length - 0.5).abs() < 1e-9, "{quantity:?} {largest:?}");
    }
}

#[test]
fn of_equal_peaks_the_first_is_given() {
    let spans = [0.0, 3000.0, 6000.0];
    let diagram = beam(6000.0, &spans).solve(&[Load::Line { from: 0.0, to: 6000.0, start: 2.0, end: 2.0 }]);
    let largest = diagram.extremes(Quantity::Moment, 0.0, 6000.0).largest;
    assert!((largest.x - 1125.0).abs() < 1e-6, "3/8 of the first span, not {}", largest.x);
}

#[test]
fn an_interval_sees_a_jump_at_its_end_from_inside() {
    let diagram = beam(4000.0, &[0.0, 4000.0]).solve(&[point(1000.0, 400.0)]);
    let shear = |from, to| {
        let extremes = diagram.extremes(Quantity::Shear, from, to);
        (extremes.largest.value.round(), extremes.smallest.value.round())
    };
    assert_eq!(shear(0.0, 1000.0), (300.0, 300.0));
    assert_eq!(shear(1000.0, 4000.0), (-100.0, -100.0));
    assert_eq!(shear(1000.0, 1000.0), (300.0, -100.0));
    assert_eq!(shear(500.0, 2000.0), (300.0, -100.0));
    assert_eq!(diagram.zeros(Quantity::Shear, 0.0, 4000.0), [1000.0]);
    assert_eq!(diagram.zeros(Quantity::Moment, 0.0, 4000.0), [0.0, 4000.0]);
}

#[test]
fn a_load_on_a_support_goes_into_its_reaction_only() {
    let diagram = beam(4000.0, &[0.0, 4000.0]).solve(&[point(4000.0, 700.0), point(0.0, 300.0)]);
    assert_eq!(diagram.reactions, [300.0, 700.0]);
    let moment = diagram.extremes(Quantity::Moment, 0.0, 4000.0);
    assert_eq!((moment.largest.value, moment.largest.x, moment.smallest.value), (0.0, 2000.0, 0.0));
    assert_eq!(diagram.zeros(Quantity::Moment, 0.0, 4000.0), [0.0, 4000.0]);
}

#[test]
fn places_within_rounding_of_each_other_are_one_break() {
    let support = 12.0 * 25.4 * 10.0;
    let diagram = beam(6096.0, &[0.0, support, 6096.0]).solve(&[
        Load::Line { from: 0.0, to: 3048.0 + 1e-9, start: 1.0, end: 1.0 },
        point(6096.0 + 1e-9, 10.0),
        Load::Line { from: 3048.0 - 1e-9, to: 6096.0, start: 2.0, end: 2.0 },
    ]);
    assert_eq!(diagram.pieces.len(), 2);
    let inner = diagram.value(Quantity::Shear, 3048.0 + 1e-9, Side::Left);
    assert_eq!(inner, diagram.value(Quantity::Shear, 3048.0, Side::Left));
}

#[test]
fn panels_are_numbered_from_the_left() {
    let panel = |number, from, to, overhang| Panel { number, from, to, overhang };
    let both = [panel(0, 0.0, 500.0, true), panel(1, 500.0, 3000.0, false), panel(2, 3000.0, 4000.0, true)];
    assert_eq!(beam(4000.0, &[500.0, 3000.0]).panels(), both);
    assert_eq!(beam(4000.0, &[0.0, 4000.0]).panels(), [panel(1, 0.0, 4000.0, false)]);
    let cantilever = Beam::new(900.0, vec![Support { at: 0.0, fixed: true }]).expect("a stable beam");
    assert_eq!(cantilever.panels(), [panel(1, 0.0, 900.0, true)]);
}

#[test]
fn beams_that_cannot_stand_are_refused() {
    let refused = |length: f64, supports: &[f64]| {
        Beam::new(length, supports.iter().map(|&at| Support { at, fixed: false }).collect()).expect_err("refused")
    };
    assert_eq!(refused(1000.0, &[]), Unstable::Free);
    assert_eq!(refused(1000.0, &[500.0]), Unstable::Free);
    assert_eq!(refused(1000.0, &[500.0, 500.0]), Unstable::Order { at: 500.0 });
    assert_eq!(refused(1000.0, &[500.0, 100.0]), Unstable::Order { at: 100.0 });
    assert_eq!(refused(1000.0, &[0.0, 1001.0]), Unstable::Outside { at: 1001.0 });
    assert!(matches!(refused(1000.0, &[0.0, f64::NAN]), Unstable::Outside { .. }));
    assert_eq!(refused(0.0, &[0.0]), Unstable::Length { length: 0.0 });
    assert!(!beam(1000.0, &[0.0, 1000.0]).carries(&point(1000.1, 1.0)));
    assert!(!beam(1000.0, &[0.0, 1000.0]).carries(&point(f64::NAN, 1.0)));
}

#[test]
fn an_envelope_shows_both_sides_of_a_jump() {
    let cases = beam(4000.0, &[0.0, 4000.0]).solve_all(&[vec![point(1000.0, 400.0)], vec![point(3000.0, -400.0)]]);
    let envelope = Envelope::of(&cases, Quantity::Shear, &[0.0, 1000.0, 2000.0]);
    let rounded: Vec<_> = envelope.bounds.iter().map(|b| (b.x, b.largest.round(), b.smallest.round())).collect();
    assert_eq!(rounded, [(0.0, 300.0, -100.0), (1000.0, 300.0, -100.0), (1000.0, -100.0, -100.0), (2000.0, -100.0, -100.0)]);
    assert!(Envelope::of(&[], Quantity::Shear, &[0.0]).bounds.is_empty());
}

#[test]
fn nothing_combined_is_nothing() {
    let nothing = Diagram::combine(&[]);
    assert_eq!(nothing.value(Quantity::Moment, 10.0, Side::Left), 0.0);
    assert_eq!(nothing.extremes(Quantity::Moment, 0.0, 10.0).largest.value, 0.0);
    assert!(nothing.zeros(Quantity::Moment, 0.0, 10.0).is_empty());
}
