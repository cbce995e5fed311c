//! Laws that every solution must keep, on random beams under random loads. No figures from anywhere: statics and symmetry.

use crate::analysis::{Beam, Diagram, Load, Quantity, Side, Support};
use proptest::{collection::vec, prelude::*};

/// How far rounding may move a result, in sizes of what it is summed from.
const ROUNDING: f64 = 1e-9;

const ALL: [Quantity; 3] = [Quantity::Shear, Quantity::Moment, Quantity::Deflection];

/// One to six supports, each fixed or not, with an overhang on either side or none.
fn beams() -> impl Strategy<Value = Beam> {
    let overhang = || prop_oneof![Just(0.0), 200.0..1500.0];
    (overhang(), vec((600.0..6000.0, any::<bool>()), 0..6), any::<bool>(), overhang()).prop_map(|(left, spans, fixed, right)| {
        let mut supports = vec![Support { at: left, fixed: fixed || spans.is_empty() }];
        for (span, fixed) in spans {
            supports.push(Support { at: supports[supports.len() - 1].at + span, fixed });
        }
        let last = supports[supports.len() - 1].at;
        let length = if last + right > 0.0 { last + right } else { 1000.0 };
        Beam::new(length, supports).expect("a stable beam")
    })
}

/// Places as parts of the length, often at a support or an end.
fn load(beam: &Beam) -> impl Strategy<Value = Load> + use<> {
    let mut special: Vec<f64> = beam.supports().iter().map(|s| s.at).collect();
    special.extend([0.0, beam.length()]);
    let length = beam.length();
    // A load a hair beside a fixed support does next to nothing, and most of that is rounding: so near it stands on the support.
    let near = special.clone();
    let free = (0.0..1.0).prop_map(move |part: f64| {
        let at = part * length;
        near.iter().copied().find(|s| (s - at).abs() < length / 1000.0).unwrap_or(at)
    });
    let place = move || prop_oneof![3 => free.clone(), 1 => prop::sample::select(special.clone())];
    let intensity = -5.0..5.0;
    prop_oneof![
        (place(), place(), intensity.clone(), intensity).prop_map(|(a, b, start, end)| Load::Line {
            from: a.min(b),
            to: a.max(b),
            start,
            end
        }),
        (place(), -5e3..5e3).prop_map(|(at, force)| Load::Point { at, force }),
        (place(), -5e6..5e6).prop_map(|(at, moment)| Load::Moment { at, moment }),
    ]
}

fn loaded() -> impl Strategy<Value = (Beam, Vec<Load>)> {
    beams().prop_flat_map(|beam| {
        let loads = vec(load(&beam), 1..7);
        (Just(beam), loads)
    })
}

fn size(diagram: &Diagram, quantity: Quantity) -> f64 {
    diagram.size(quantity, 0.0, diagram.length())
}

/// The resultant of a load, and its clockwise moment about the left end.
fn resultant(load: &Load) -> (f64, f64) {
    match *load {
        Load::Line { from, to, start, end } => {
            let (b, even, wedge) = (to - from, start * (to - from), 0.5 * (end - start) * (to - from));
            (even + wedge, even * (from + b / 2.0) + wedge * (from + 2.0 * b / 3.0))
        }
        Load::Point { at, force } => (force, force * at),
        Load::Moment { moment, .. } => (0.0, moment),
    }
}

fn mirrored(load: &Load, length: f64) -> Load {
    match *load {
        Load::Line { from, to, start, end } => Load::Line { from: length - to, to: length - from, start: end, end: start },
        Load::Point { at, force } => Load::Point { at: length - at, force },
        Load::Moment { at, moment } => Load::Moment { at: length - at, moment: -moment },
    }
}

/// The places of the breaks, the middles between them, and those of an even division.
fn places(diagram: &Diagram, count: u16) -> Vec<f64> {
    let middles = diagram.pieces.iter().flat_map(|piece| [piece.from, 0.5 * (piece.from + piece.to), piece.to]);
    middles.chain((0..=count).map(|i| diagram.length() * f64::from(i) / f64::from(count))).collect()
}

/// How far shear and moment jump at a place: by the reaction less the point loads, by the moments applied and that of a fixed support.
fn jumps(beam: &Beam, loads: &[Load], diagram: &Diagram, x: f64) -> (f64, f64) {
    let near = |at: f64| (at - x).abs() <= 1e-8 * beam.length();
    let (mut shear, mut moment) = (0.0, 0.0);
    for (i, _) in beam.supports().iter().enumerate().filter(|(_, support)| near(support.at)) {
        (shear, moment) = (shear + diagram.reactions[i], moment + diagram.fixing_moments[i]);
    }
    for load in loads {
        match *load {
            Load::Point { at, force } if near(at) => shear -= force,
            Load::Moment { at, moment: applied } if near(at) => moment += applied,
            Load::Line { .. } | Load::Point { .. } | Load::Moment { .. } => {}
        }
    }
    (shear, moment)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    #[test]
    fn reactions_balance_the_loads((beam, loads) in loaded()) {
        let diagram = beam.solve(&loads);
        let (mut force, mut moment, mut forces, mut moments) = (0.0, 0.0, 0.0, 0.0);
        for (f, m) in loads.iter().map(resultant) {
            (force, moment, forces, moments) = (force + f, moment + m, forces + f64::abs(f), moments + f64::abs(m));
        }
        for (i, support) in beam.supports().iter().enumerate() {
            let (reaction, fixing) = (diagram.reactions[i], diagram.fixing_moments[i]);
            prop_assert!(support.fixed || fixing == 0.0);
            (force, moment) = (force - reaction, moment - reaction * support.at + fixing);
            (forces, moments) = (forces + reaction.abs(), moments + (reaction * support.at).abs() + fixing.abs());
        }
        prop_assert!(force.abs() <= ROUNDING * forces, "{force} of {forces}");
        prop_assert!(moment.abs() <= ROUNDING * moments, "{moment} of {moments}");
    }

    #[test]
    fn free_ends_carry_only_what_acts_on_them((beam, loads) in loaded()) {
        let diagram = beam.solve(&loads);
        for (end, sign) in [(0.0, 1.0), (beam.length(), -1.0)] {
            if beam.supports().iter().any(|s| s.at == end) {
                continue;
            }
            let (mut force, mut moment) = (0.0, 0.0);
            for load in &loads {
                match *load {
                    Load::Point { at, force: f } if at == end => force += f,
                    Load::Moment { at, moment: m } if at == end => moment += m,
                    _ => {}
                }
            }
            let (shear, bending) = (diagram.value(Quantity::Shear, end, Side::Left), diagram.value(Quantity::Moment, end, Side::Left));
            prop_assert!((shear + sign * force).abs() <= ROUNDING * size(&diagram, Quantity::Shear));
            prop_assert!((bending - sign * moment).abs() <= ROUNDING * size(&diagram, Quantity::Moment));
        }
    }

    #[test]
    fn pieces_join_and_supports_hold((beam, loads) in loaded()) {
        let diagram = beam.solve(&loads);
        // What is applied over a support goes straight into it, and is no part of the diagram's size.
        let applied = loads.iter().fold((0.0, 0.0), |(forces, moments), load| match *load {
            Load::Point { force, .. } => (forces + f64::abs(force), moments),
            Load::Moment { moment, .. } => (forces, moments + f64::abs(moment)),
            Load::Line { .. } => (forces, moments),
        });
        let (sizes, slope) = (ALL.map(|q| size(&diagram, q)), size(&diagram, Quantity::Deflection) / beam.length());
        prop_assert_eq!((diagram.pieces[0].from, diagram.length()), (0.0, beam.length()));
        for pair in diagram.pieces.windows(2) {
            let (left, right, h) = (&pair[0], &pair[1], pair[0].to - pair[0].from);
            prop_assert_eq!(left.to, right.from);
            prop_assert!((left.deflection.at(h) - right.deflection.at(0.0)).abs() <= ROUNDING * sizes[2]);
            // Shear and moment jump by what acts at the break, and by nothing else.
            let (shear, moment) = jumps(&beam, &loads, &diagram, right.from);
            prop_assert!((right.shear.at(0.0) - left.shear.at(h) - shear).abs() <= ROUNDING * (sizes[0] + applied.0), "shear at {}", right.from);
            prop_assert!((right.moment.at(0.0) - left.moment.at(h) - moment).abs() <= ROUNDING * (sizes[1] + applied.1), "moment at {}", right.from);
            prop_assert!((left.slope.at(h) - right.slope.at(0.0)).abs() <= ROUNDING * (slope + left.slope.sway(h) + left.slope.0[0].abs()));
        }
        for piece in &diagram.pieces {
            let h = piece.to - piece.from;
            prop_assert_eq!(piece.shear.derivative(), piece.load.negated());
            for x in [0.0, 0.5 * h, h] {
                prop_assert!((piece.moment.derivative().at(x) - piece.shear.at(x)).abs() <= ROUNDING * sizes[0]);
                prop_assert!((piece.slope.derivative().at(x) + piece.moment.at(x)).abs() <= ROUNDING * sizes[1]);
                let slopes = piece.slope.0[0].abs() + piece.slope.sway(h);
                prop_assert!((piece.deflection.derivative().at(x) - piece.slope.at(x)).abs() <= ROUNDING * slopes);
            }
        }
        for support in beam.supports() {
            for side in [Side::Left, Side::Right] {
                prop_assert!(diagram.value(Quantity::Deflection, support.at, side).abs() <= ROUNDING * sizes[2]);
            }
            if let (true, Some(piece)) = (support.fixed, diagram.pieces.iter().find(|piece| piece.to == support.at)) {
                let h = piece.to - piece.from;
                prop_assert!(piece.slope.at(h).abs() <= ROUNDING * (slope + piece.slope.0[0].abs() + piece.slope.sway(h)));
            }
        }
    }

    #[test]
    fn a_combination_is_the_solution_of_all_loads_together(
        (beam, first, second) in beams().prop_flat_map(|b| (vec(load(&b), 0..5), vec(load(&b), 0..5), Just(b)).prop_map(|(f, s, b)| (b, f, s))),
        factor in -2.0..2.0,
    ) {
        let scaled = second.iter().map(|load| match *load {
            Load::Line { from, to, start, end } => Load::Line { from, to, start: factor * start, end: factor * end },
            Load::Point { at, force } => Load::Point { at, force: factor * force },
            Load::Moment { at, moment } => Load::Moment { at, moment: factor * moment },
        });
        let together: Vec<Load> = first.iter().copied().chain(scaled).collect();
        let cases = beam.solve_all(&[first, second]);
        let (combined, whole) = (Diagram::combine(&[(1.0, &cases[0]), (factor, &cases[1])]), beam.solve(&together));
        for quantity in ALL {
            let size = size(&cases[0], quantity) + 2.0 * size(&cases[1], quantity);
            for x in places(&whole, 20) {
                for side in [Side::Left, Side::Right] {
                    prop_assert!((combined.value(quantity, x, side) - whole.value(quantity, x, side)).abs() <= ROUNDING * size);
                }
            }
        }
        let forces: f64 = cases.iter().flat_map(|case| &case.reactions).map(|r| 2.0 * r.abs()).sum();
        for (one, other) in combined.reactions.iter().zip(&whole.reactions) {
            prop_assert!((one - other).abs() <= ROUNDING * forces);
        }
    }

    #[test]
    fn maxwell_reciprocity(beam in beams(), a in 0.0..1.0, b in 0.0..1.0) {
        let (a, b): (f64, f64) = (a * beam.length(), b * beam.length());
        let cases = beam.solve_all(&[vec![Load::Point { at: a, force: 1.0 }], vec![Load::Point { at: b, force: 1.0 }]]);
        let (one, other) = (cases[0].value(Quantity::Deflection, b, Side::Left), cases[1].value(Quantity::Deflection, a, Side::Left));
        let size = cases.iter().map(|case| size(case, Quantity::Deflection)).fold(0.0, f64::max);
        prop_assert!((one - other).abs() <= ROUNDING * size, "{one} {other}");
        prop_assert!(cases[0].value(Quantity::Deflection, a, Side::Left) >= -ROUNDING * size, "a load moves its own place with it");
    }

    #[test]
    fn a_mirror_changes_only_the_side((beam, loads) in loaded()) {
        let length = beam.length();
        let supports = beam.supports().iter().rev().map(|s| Support { at: length - s.at, ..*s }).collect();
        let mirror = Beam::new(length, supports).expect("a stable beam");
        let mirror_loads: Vec<Load> = loads.iter().map(|load| mirrored(load, length)).collect();
        let (diagram, image) = (beam.solve(&loads), mirror.solve(&mirror_loads));
        for (quantity, sign) in ALL.into_iter().zip([-1.0, 1.0, 1.0]) {
            for x in places(&diagram, 20) {
                for (side, other) in [(Side::Left, Side::Right), (Side::Right, Side::Left)] {
                    let (here, there) = (diagram.value(quantity, x, side), sign * image.value(quantity, length - x, other));
                    prop_assert!((here - there).abs() <= ROUNDING * size(&diagram, quantity), "{quantity:?} at {x}: {here} {there}");
                }
            }
        }
        let forces: f64 = diagram.reactions.iter().map(|r| r.abs()).sum();
        for (one, other) in diagram.reactions.iter().zip(image.reactions.iter().rev()) {
            prop_assert!((one - other).abs() <= ROUNDING * forces);
        }
    }

    #[test]
    fn extremes_bound_every_value_and_are_attained((beam, loads) in loaded(), a in 0.0..1.0, b in 0.0..1.0) {
        let diagram = beam.solve(&loads);
        let (from, to) = (beam.length() * f64::min(a, b), beam.length() * f64::max(a, b));
        for quantity in ALL {
            let extremes = diagram.extremes(quantity, from, to);
            prop_assert_eq!(extremes, diagram.extremes(quantity, to, from));
            let rounding = 1e-11 * size(&diagram, quantity);
            for x in (0..=200).map(|i| from + (to - from) * f64::from(i) / 200.0) {
                let value = diagram.value(quantity, x, Side::Right);
                prop_assert!(value <= extremes.largest.value + rounding && value >= extremes.smallest.value - rounding);
            }
            for at in [extremes.largest, extremes.smallest] {
                prop_assert!((from..=to).contains(&at.x));
                let sides = [Side::Left, Side::Right].map(|side| diagram.value(quantity, at.x, side));
                prop_assert!(sides.iter().any(|value| (value - at.value).abs() <= rounding), "{quantity:?} {at:?} {sides:?}");
            }
        }
    }

    #[test]
    fn between_zeros_the_sign_stays((beam, loads) in loaded()) {
        let diagram = beam.solve(&loads);
        for quantity in ALL {
            let zeros = diagram.zeros(quantity, 0.0, beam.length());
            prop_assert!(zeros.windows(2).all(|pair| pair[0] < pair[1]));
            let nothing = ROUNDING * size(&diagram, quantity);
            for x in &zeros {
                let (left, right) = (diagram.value(quantity, *x, Side::Left), diagram.value(quantity, *x, Side::Right));
                prop_assert!(left.abs() <= nothing || right.abs() <= nothing || left * right < 0.0, "{quantity:?} at {x}: {left} {right}");
            }
            let ends: Vec<f64> = [0.0].into_iter().chain(zeros).chain([beam.length()]).collect();
            for pair in ends.windows(2) {
                let inside = (1..20).map(|i| diagram.value(quantity, pair[0] + (pair[1] - pair[0]) * f64::from(i) / 20.0, Side::Left));
                let (low, high) = inside.fold((0.0, 0.0), |(low, high), v| (f64::min(low, v), f64::max(high, v)));
                prop_assert!(low >= -nothing || high <= nothing, "{quantity:?} between {pair:?}: {low} {high}");
            }
        }
    }
}
