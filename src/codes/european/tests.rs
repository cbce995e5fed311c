//! Laws of the European checks: linear demand, factors within their bounds and continuous, k_mod by the shortest action, uplift.

use super::bending;
use super::member::Size;
use crate::results::Results;
use crate::text::Source;
use crate::units::Length;
use proptest::prelude::*;

fn results(job: &str) -> Results {
    let source = Source::read("job.yaml", job.as_bytes()).unwrap();
    crate::check(&source, true).unwrap_or_else(|faults| panic!("{faults:?}\n{job}")).results
}

/// A job of one beam.
fn beam(class: &str, breadth: f64, depth: f64, span: f64, top: &str, loads: &str) -> String {
    format!(
        "job: {{title: Laws, number: L, date: 2026-01-05}}\nbasis: {{code: european}}\nmembers:\n  - mark: B1\n    use: beam\n    \
         section: {{width: {breadth} mm, depth: {depth} mm}}\n    material: {{class: {class}}}\n    spans: [{span} m]\n    \
         bearing: 100 mm\n    self-weight: no\n    braced: {{top: {top}}}\n    loads: [{loads}]\n"
    )
}

fn ratio(results: &Results, check: &str, combination: &str) -> f64 {
    let of_check = results.members[0].checks.iter().filter(|c| c.check == check && c.combination == combination);
    of_check.map(|c| c.ratio).fold(f64::NAN, f64::max)
}

fn step(results: &Results, check: &str, combination: &str, symbol: &str) -> f64 {
    let found = results.members[0].checks.iter().find(|c| c.check == check && c.combination == combination);
    let found = found.unwrap_or_else(|| panic!("no {check} under {combination}"));
    found.steps.iter().rev().find(|s| s.symbol == symbol).unwrap_or_else(|| panic!("no {symbol} in {check} under {combination}")).value
}

const GLULAM: Size = Size::Power { reference: 600.0, exponent: 0.1, most: 1.1, clause: "" };
const SOLID: Size = Size::Power { reference: 150.0, exponent: 0.2, most: 1.3, clause: "" };

#[test]
fn size_factors_meet_their_ends() {
    let at = |depth: f64, size| bending::size::<()>(Length::new(depth), size).value();
    // At the reference depth the power is 1; where the power reaches the most, both are one value.
    for (size, reference, most, exponent) in [(SOLID, 150.0, 1.3, 0.2), (GLULAM, 600.0, 1.1, 0.1)] {
        assert!((at(reference, size) - 1.0).abs() < 1e-12);
        let meets = reference / libm::pow(most, 1.0 / exponent);
        assert!((at(meets * (1.0 + 1e-9), size) - at(meets * (1.0 - 1e-9), size)).abs() < 1e-8);
        assert_eq!(at(0.5 * meets, size), most);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(16) })]

    #[test]
    fn size_factors_stay_within_their_bounds_and_fall_with_depth(a in 40.0..600.0, b in 40.0..600.0) {
        let (less, more) = (f64::min(a, b), f64::max(a, b));
        for (size, most) in [(SOLID, 1.3), (GLULAM, 1.1)] {
            let at = |depth: f64| bending::size::<()>(Length::new(depth), size).value();
            prop_assert!(at(less) >= at(more) && at(less) <= most);
        }
    }

    /// Twice the load is twice the demand, in every check of every combination; and the factors do not move.
    #[test]
    fn demand_is_linear_in_the_load(
        dead in 0.2..3.0, live in 0.2..3.0, span in 2.0..6.0, depth in 150.0..400.0, times in 1.1..3.0,
    ) {
        let loads = |f: f64| format!("{{line: {} kN/m, case: dead}}, {{line: {} kN/m, case: live}}", f * dead, f * live);
        let one = results(&beam("C24", 80.0, depth, span, "none", &loads(1.0)));
        let more = results(&beam("C24", 80.0, depth, span, "none", &loads(times)));
        for (a, b) in one.members[0].checks.iter().zip(&more.members[0].checks) {
            prop_assert_eq!((&a.check, &a.combination), (&b.check, &b.combination));
            prop_assert!((b.ratio - times * a.ratio).abs() <= 1e-7 * b.ratio, "{} {}: {} {}", a.check, a.combination, a.ratio, b.ratio);
        }
    }

    /// The same load lasting longer is never borne better.
    #[test]
    fn ratios_rise_with_duration(live in 0.5..4.0, span in 2.0..6.0) {
        let of = |word: &str| {
            let job = beam("GL28h", 100.0, 300.0, span, "continuous", &format!("{{line: {live} kN/m, case: own}}"));
            let job = job.replace("{code: european}", &format!("{{code: european, cases: {{own: {{like: live, duration: {word}}}}}}}"));
            let results = results(&job);
            ["bending", "shear", "bearing"].map(|check| ratio(&results, check, "1.5 own"))
        };
        let all = ["instantaneous", "short-term", "medium-term", "long-term", "permanent"].map(of);
        for pair in all.windows(2) {
            prop_assert!(pair[0].iter().zip(&pair[1]).all(|(shorter, longer)| shorter < longer), "{pair:?}");
        }
    }

    /// k_crit lies between 0 and 1 and falls as the free length grows.
    #[test]
    fn buckling_is_bounded_and_falls(class in prop::sample::select(vec!["C24", "D40", "GL24h"]), span in 2.0..16.0) {
        let (here, farther) = (buckled(class, span).0, buckled(class, 1.3 * span).0);
        prop_assert!(0.0 < farther && farther <= here && here <= 1.0);
    }
}

/// k_crit of a beam 60 x 300 mm held at its ends, its relative slenderness, and its effective length over its free length and depth.
fn buckled(class: &str, span: f64) -> (f64, f64) {
    let results = results(&beam(class, 60.0, 300.0, span, "none", "{line: 1 kN/m, case: live}"));
    (step(&results, "bending", "1.5 Q", "k_crit"), step(&results, "bending", "1.5 Q", "lambda_rel,m"))
}

/// The branches of (6.34) as the program works them: a hair to either side of 0.75 and of 1.4 they differ by no more than the standard's own
/// figures do. By hand: 1.56 - 0.75 x 0.75 = 0.9975 against 1, 0.0025; 1.56 - 0.75 x 1.4 = 0.51 against 1/1.4² = 0.510204, 0.0002.
#[test]
fn branches_of_buckling_meet() {
    for class in ["C24", "D40", "GL24h"] {
        // The effective length is 0.9 of the span and 2 h of 300 mm; the slenderness is as its root.
        let of_one = buckled(class, 4.0).1 / (0.9 * 4.0_f64 + 0.6).sqrt();
        for (joint, low, high) in [(0.75, 0.0024, 0.0026), (1.4, 0.0002, 0.00021)] {
            let at = |slenderness: f64| buckled(class, ((slenderness / of_one) * (slenderness / of_one) - 0.6) / 0.9);
            let [before, after] = [at(joint * (1.0 - 1e-7)), at(joint * (1.0 + 1e-7))];
            assert!(before.1 < joint && after.1 > joint && after.1 - before.1 < 1e-6, "{class}: {before:?} {after:?}");
            let step = (before.0 - after.0).abs();
            assert!((low..high).contains(&step), "{class} at {joint}: {before:?} {after:?}");
        }
    }
}

#[test]
fn the_shortest_action_decides_and_permanent_load_alone_governs() {
    let loads = "{line: 6 kN/m, case: dead}, {line: 1.2 kN/m, case: snow}";
    let results = results(&beam("C24", 100.0, 200.0, 2.0, "continuous", loads));
    let bending = results.members[0].checks.iter().find(|c| c.check == "bending" && c.leading).unwrap();
    assert_eq!(bending.combination, "1.35 G");
    // q_d over k_mod is 13.5 against 11.0.
    let (alone, with_snow) = (ratio(&results, "bending", "1.35 G"), ratio(&results, "bending", "1.35 G + 1.5 S"));
    assert!((alone / with_snow - 13.5 / 11.0).abs() < 1e-9);
}

#[test]
fn favourable_variable_actions_are_left_out_before_k_mod_is_chosen() {
    // Wind that lifts must not lend its k_mod to snow.
    let loads = "{line: 1 kN/m, case: dead}, {line: 3 kN/m, case: snow}, {line: -0.2 kN/m, case: wind}";
    let job = beam("C24", 100.0, 200.0, 3.0, "continuous", loads).replace("{code: european}", "{code: european, country: GB}");
    let results = results(&job);
    let bending = results.members[0].checks.iter().find(|c| c.check == "bending" && c.leading).unwrap();
    assert_eq!(bending.combination, "1.35 G + 1.5 S");
    assert_eq!(step(&results, "bending", "1.35 G + 1.5 S", "k_mod"), 0.9);
}

/// A load of an instant beside the imposed load of its floor lends it nothing: by hand (1.35 x 0.4 + 1.5 x 0.8) 4² / 8 = 3.48 kN m on
/// 45 x 195, 12.20 N/mm², over 24 x 0.8 / 1.3.
#[test]
fn an_instant_lends_its_k_mod_to_no_longer_action() {
    let loads = "{line: 0.4 kN/m, case: dead}, {line: 0.8 kN/m, case: live}, {line: 0.01 kN/m, case: hoist}";
    let cases = "{code: european, cases: {hoist: {like: live, duration: instantaneous}}}";
    let job = beam("C24", 45.0, 195.0, 4.0, "continuous", loads).replace("{code: european}", cases);
    let results = results(&job);
    let bending = results.members[0].checks.iter().find(|c| c.check == "bending" && c.leading).unwrap();
    assert_eq!(bending.combination, "1.35 G + 1.5 Q");
    let by_hand = 3.48e6 / (45.0 * 195.0 * 195.0 / 6.0) / (24.0 * 0.8 / 1.3);
    assert!((bending.ratio / by_hand - 1.0).abs() < 1e-9, "{}", bending.ratio);
    assert_eq!(step(&results, "bending", "1.35 G + 1.5 Q + 1.5 hoist", "k_mod"), 1.1);
}

/// Permanent load 0.5, suction 1.0 kPa over 50 m² net 0.9 x 25 - 1.5 x 50 = -52.5 kN, as the hall of the TU Delft open textbook has it
/// under Dutch rules; equilibrium has the same 0.9.
#[test]
fn uplift_is_that_of_equilibrium() {
    let results = results(&beam("GL24h", 200.0, 600.0, 10.0, "continuous", "{line: 5 kN/m, case: dead}, {line: -10 kN/m, case: wind}"));
    for reaction in &results.members[0].reactions {
        assert_eq!(reaction.smallest.combination, "0.9 G + 1.5 W");
        assert!((reaction.smallest.force.value + 52.5).abs() < 1e-9);
        assert_eq!(reaction.largest.combination, "1.35 G");
    }
    // Strength takes the inferior value of set B.
    assert!(results.members[0].checks.iter().filter(|c| c.check == "bending").any(|c| c.combination == "G + 1.5 W"));
    assert!(results.members[0].checks.iter().all(|c| !c.combination.starts_with("0.9")));
}

/// The point load beside a bearing is left out of the shear; an even load is not.
#[test]
fn point_loads_within_h_of_a_bearing_are_left_out_of_the_shear() {
    let shear = |loads: &str| step(&results(&beam("C24", 100.0, 200.0, 3.0, "continuous", loads)), "shear", "1.5 Q", "V_d");
    let even = "{line: 2 kN/m, case: live}";
    let near = format!("{even}, {{point: 4 kN, case: live, at: 0.2 m}}");
    let far = format!("{even}, {{point: 4 kN, case: live, at: 0.26 m}}");
    // Half a bearing and h: 50 + 200 mm.
    assert!((shear(even) - 4.5).abs() < 1e-9);
    assert!((shear(&near) - 4.5 - 6.0 * 0.2 / 3.0).abs() < 1e-9, "at the other support its own part stays");
    assert!((shear(&far) - 4.5 - 6.0 * (1.0 - 0.26 / 3.0)).abs() < 1e-9);
}

/// Net final deflection by hand: C24, 80 x 200 mm, 4 m, 1 kN/m permanent and 2 kN/m of category A, service class 2.
#[test]
fn creep_counts_action_by_action() {
    let job = beam("C24", 80.0, 200.0, 4.0, "continuous", "{line: 1 kN/m, case: dead}, {line: 2 kN/m, case: live}");
    let results = results(&job.replace("{code: european}", "{code: european, service-class: 2, use-category: A}"));
    let (b, h, l, e, g) = (80.0_f64, 200.0_f64, 4000.0_f64, 11_000.0, 690.0);
    let i = b * h * h * h / 12.0;
    let unit = 5.0 * l * l * l * l / (384.0 * e * i) + 1.2 * l * l / (8.0 * g * b * h);
    let by_hand = unit * (1.0 + 0.8) + 2.0 * unit * (1.0 + 0.3 * 0.8);
    let found = results.members[0].deflections.iter().find(|d| d.what == "final" && d.combination == "G + Q with creep").unwrap();
    assert!((found.value.value - by_hand).abs() < 1e-9 * by_hand);
    let instant = results.members[0].deflections.iter().find(|d| d.what == "instant" && d.combination == "G + Q").unwrap();
    assert!((instant.value.value - 3.0 * unit).abs() < 1e-9 * unit);
}

/// At an end that is flush 30 mm count on the inner side only; over an inner support on both; a load within 2 h takes k_c,90 away.
#[test]
fn bearings_count_thirty_millimetres_where_there_is_wood() {
    let job = beam("C24", 100.0, 200.0, 3.0, "continuous", "{line: 2 kN/m, case: live}").replace("[3 m]", "[3 m, 3 m]");
    let results_of = |job: &str| results(job);
    let both = results_of(&job);
    let at = |results: &Results, support: usize, symbol: &str| {
        let found = results.members[0].checks.iter().find(|c| c.check == "bearing" && c.support == Some(support)).unwrap();
        found.steps.iter().find(|s| s.symbol == symbol).map(|s| s.value).unwrap()
    };
    assert_eq!((at(&both, 1, "l_ef"), at(&both, 2, "l_ef"), at(&both, 1, "k_c,90")), (130.0, 160.0, 1.5));
    let close = job.replace("case: live}", "case: live}, {point: 1 kN, case: live, at: 0.4 m}");
    let close = results_of(&close);
    assert_eq!((at(&close, 1, "k_c,90"), at(&close, 1, "l_1,in")), (1.0, 350.0));
    assert_eq!(at(&close, 3, "k_c,90"), 1.5);
}

/// A joist of a floor; `floor` and `loads` as the job file has them.
fn floor_joist(spans: &str, floor: &str, loads: &str) -> String {
    let job = beam("C24", 47.0, 195.0, 3.6, "sheathed", loads);
    job.replace("use: beam", &format!("use: joist\n    spacing: 400 mm\n    floor: {floor}")).replace("[3.6 m]", spans)
}

const FLOOR: &str = "{width: 5 m, decking: {thickness: 22 mm, E: 2500 MPa}, a: 1.8 mm, b: 100, share: 0.4}";
const EVEN: &str = "{line: 0.2 kN/m, case: dead}, {line: 0.6 kN/m, case: live}";

/// A letter of either check of vibration.
fn of_vibration(results: &Results, symbol: &str) -> f64 {
    let steps = results.members[0].checks.iter().filter(|c| c.check == "vibration").flat_map(|c| &c.steps);
    steps.filter(|s| s.symbol == symbol).map(|s| s.value).next().unwrap_or_else(|| panic!("no {symbol}"))
}

fn vibration_left_out(job: &str) -> String {
    let results = results(job);
    assert!(results.members[0].checks.iter().all(|c| c.check != "vibration"), "{job}");
    results.members[0].not_checked.iter().filter(|text| text.starts_with("vibration")).cloned().collect::<Vec<_>>().join("; ")
}

/// Of a member on two supports f_1 is 17.75 over the root of its deflection in mm under its mass: sqrt(5/384 g) pi/2.
#[test]
fn the_first_frequency_is_that_of_the_deflection_under_the_mass() {
    let results = results(&floor_joist("[3.6 m]", FLOOR, EVEN));
    let f_1 = of_vibration(&results, "f_1");
    let (l, i): (f64, f64) = (3600.0, 47.0 * 195.0 * 195.0 * 195.0 / 12.0);
    let w = 5.0 * 0.2 * l * l * l * l / (384.0 * 11_000.0 * i);
    let by_hand = std::f64::consts::FRAC_PI_2 * (5.0 / 384.0 * 9810.0_f64).sqrt() / w.sqrt();
    assert!((f_1 - by_hand).abs() < 1e-6, "{f_1} {by_hand}");
}

#[test]
fn a_floor_outside_the_rules_is_said_and_never_passed() {
    let slow = vibration_left_out(&floor_joist("[5.6 m]", FLOOR, EVEN));
    assert!(slow.contains("Hz, not above 8 Hz"), "{slow}");
    let stiff = FLOOR.replace("thickness: 22 mm", "thickness: 220 mm");
    assert!(vibration_left_out(&floor_joist("[3.6 m]", &stiff, EVEN)).contains("no stiffer along"));
    let missing = vibration_left_out(&floor_joist("[3.6 m]", "{a: 1 mm}", EVEN));
    assert!(missing.contains("`width`, `decking` or `stiffness-across`, `b`"), "{missing}");
    let uneven = vibration_left_out(&floor_joist("[3.6 m]", FLOOR, "{point: 1 kN, case: dead, at: mid}"));
    assert!(uneven.contains("`mass`"), "{uneven}");
    assert!(vibration_left_out(&beam("C24", 47.0, 195.0, 3.6, "sheathed", EVEN).replace("beam", "joist")).contains("no `floor`"));
}

/// A span that 7.3.3 is not made for does not take the other's check away.
#[test]
fn each_span_of_a_floor_is_looked_at_alone() {
    let results = results(&floor_joist("[3.6 m, 5.6 m]", FLOOR, EVEN));
    let member = &results.members[0];
    assert!(member.not_checked.iter().any(|text| text.starts_with("vibration in span 2")));
    let spans: Vec<Option<usize>> = member.checks.iter().filter(|c| c.check == "vibration").map(|c| c.span).collect();
    assert_eq!(spans, [Some(1), Some(1)]);
}

/// Two spans under British rules: nine tenths of the end span, cubed, and 1.10 for 1.05.
#[test]
fn british_end_spans_are_shortened() {
    let floor = "{width: 5 m, decking: {thickness: 22 mm, E: 2500 MPa}}";
    let of = |spans: &str| {
        let job = floor_joist(spans, floor, EVEN).replace("{code: european}", "{code: european, country: GB}");
        of_vibration(&results(&job), "w")
    };
    let (one, two) = (of("[3.6 m]"), of("[3.6 m, 3.6 m]"));
    assert!((two / one - 0.729 * 1.10 / 1.05).abs() < 1e-9);
}

/// 160 − 40 w would be less than nothing; Figure 7.2 ends at 50.
#[test]
fn the_velocity_of_a_floor_that_gives_too_much_is_a_number() {
    let floor = "{width: 5 m, decking: {thickness: 12 mm, E: 1500 MPa}, mass: 12 kg/m2, share: 1}";
    let job = floor_joist("[3.6 m]", floor, EVEN).replace("{code: european}", "{code: european, country: GB}");
    let results = results(&job.replace("depth: 195 mm", "depth: 130 mm"));
    assert!(of_vibration(&results, "w") > 4.0);
    assert_eq!(of_vibration(&results, "b"), 50.0);
    assert!(of_vibration(&results, "v_max") > 0.0);
}
