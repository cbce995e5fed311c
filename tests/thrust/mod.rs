//! Rafters on a ridge board against the statics of a pair of them: a three-hinged frame with a tie between its feet.

use latewood::results::Results;

/// Results of a rafter on a ridge board and its tie.
fn pair(slope: &str, overhang: &str, loads: &str, tie: &str) -> Results {
    let job = format!(
        "job: {{title: A pair, date: 2026-01-05}}\nbasis: {{code: american}}\nareas: {{roof: {{dead: 15 psf, snow: 30 psf, wind: 20 psf}}}}\n\
         members:\n  - {{mark: R1, use: rafter, section: 2x12, material: {{species: Hem-Fir, grade: No.1}}, spacing: 24 in, slope: {slope}, \
         spans: [14 ft], {overhang}ridge: board, braced: {{top: sheathed}}, loads: [{loads}]}}\n  - {{mark: T1, use: tie, section: 2x8, \
         material: {{species: Hem-Fir, grade: No.1}}, spacing: 16 in, length: 28 ft, loads: [{{thrust: R1{tie}}}]}}\n"
    );
    let source = latewood::text::Source::read("pair", job.as_bytes()).unwrap();
    latewood::check(&source, false).unwrap_or_else(|faults| panic!("{job}\n{faults:?}")).results
}

fn thrust(results: &Results, case: &str) -> f64 {
    results.members[0].reactions[0].thrust[case].value
}

fn heel(results: &Results, case: &str) -> f64 {
    results.members[0].reactions[0].by_case[case].value
}

/// An even load on plan: H = w L / (2 tan θ), and all of it goes down at the heel. Steep and flat.
#[test]
fn an_even_load_by_hand() {
    for (slope, tangent) in [("3:12", 0.25), ("6:12", 0.5), ("12:12", 1.0), ("18:12", 1.5)] {
        let results = pair(slope, "", "{line: 60 plf, case: snow}", "");
        let whole = 60.0 * 14.0;
        assert!((heel(&results, "snow") - whole).abs() < 1e-6, "{slope}");
        assert!((thrust(&results, "snow") - whole / (2.0 * tangent)).abs() < 1e-6, "{slope}");
        assert!(results.members[0].reactions[1].by_case["snow"].value.abs() < 1e-9, "{slope}");
    }
}

/// A force P at a quarter of the run: moments about the ridge give H = P x / (L tan θ), x from the heel.
#[test]
fn a_force_on_the_rafter_by_hand() {
    let results = pair("8:12", "", "{point: 900 lbf, case: live, at: 3.5 ft}", "");
    assert!((thrust(&results, "live") - 900.0 * 3.5 / (14.0 * 8.0 / 12.0)).abs() < 1e-6);
    assert!((heel(&results, "live") - 900.0).abs() < 1e-6);
}

/// Wind p square to both slopes, s long: moments of one half about the ridge, p s² / 2 = V L − T h with V = p s cos θ, so that
/// T = p s (cos² θ − 1/2) / sin θ.
#[test]
fn wind_square_to_the_slope_by_hand() {
    for (slope, angle) in [("4:12", 4.0_f64 / 12.0), ("12:12", 1.0), ("16:12", 16.0 / 12.0)] {
        let (cosine, sine) = (1.0 / (1.0 + angle * angle).sqrt(), angle / (1.0 + angle * angle).sqrt());
        let push = 20.0 * 2.0 * 14.0 / cosine;
        let results = pair(slope, "", "{area: roof}", "");
        assert!((heel(&results, "wind") - push * cosine).abs() < 1e-6, "{slope}");
        assert!((thrust(&results, "wind") - push * (cosine * cosine - 0.5) / sine).abs() < 1e-6, "{slope}");
    }
}

/// What hangs over the wall turns the other way: H = w (L² − a²) / (2 L tan θ).
#[test]
fn an_overhang_at_the_heel_takes_thrust_off() {
    let results = pair("6:12", "overhangs: {left: 2 ft}, ", "{line: 60 plf, case: dead}", "");
    // Dead load along the slope.
    let along = 60.0 * 1.25_f64.sqrt();
    assert!((thrust(&results, "dead") - along * (14.0 * 14.0 - 4.0) / (2.0 * 14.0 * 0.5)).abs() < 1e-6);
    assert!((heel(&results, "dead") - along * 16.0).abs() < 1e-6);
}

/// The tie takes what the rafters hand it: one of them, or a row over its own spacing.
#[test]
fn the_tie_is_pulled_by_the_thrust() {
    let pull = |tie: &str| {
        let results = pair("6:12", "", "{line: 60 plf, case: snow}", tie);
        let check = results.members[1].checks.iter().find(|c| c.check == "tension").unwrap();
        (check.steps.iter().find(|s| s.symbol == "P").unwrap().value, check.combination.clone())
    };
    assert_eq!(pull("").1, "S");
    assert!((pull("").0 - 840.0).abs() < 1e-6);
    assert!((pull(", every: 24 in").0 - 840.0 * 16.0 / 24.0).abs() < 1e-6);
}

/// A tie above the heel pulls harder. IRC R802.5.2 multiplies the heel joint's force for ceiling joists at H_C of the ridge's height H_R by
/// 1.5, 1.33, 1.25, 1.2 and 1.11 (from memory); statics gives H_R / (H_R - H_C).
#[test]
fn a_raised_tie_pulls_as_the_code_has_it() {
    // The rise is 7 ft.
    let low = thrust(&pair("6:12", "", "{line: 60 plf, case: snow}", ""), "snow");
    for (part, factor) in [(1.0 / 3.0, 1.5), (0.25, 1.33), (0.2, 1.25), (1.0 / 6.0, 1.2), (0.1, 1.11)] {
        let raised = format!("tie-above: {} ft, ", 7.0 * part);
        let results = pair("6:12", &raised, "{line: 60 plf, case: snow}", "");
        let found = thrust(&results, "snow") / low;
        assert!((found - factor).abs() < 0.0051 && (found * (1.0 - part) - 1.0).abs() < 1e-9, "{part}: {found}");
        assert!((heel(&results, "snow") - 840.0).abs() < 1e-6, "{part}");
        let tension = results.members[1].checks.iter().find(|c| c.check == "tension").unwrap();
        assert!((tension.steps.iter().find(|s| s.symbol == "P").unwrap().value - low / (1.0 - part)).abs() < 1e-6, "{part}");
    }
}

/// Below the tie nothing but the vertical force at the heel, w L, holds the rafter; above it the tie does too: with x of the run L from the heel
/// M = w L² (x - x²/2 - k (x - r)), k = 1 / (2 (1 - r)), largest at x = 1 - k or, where that is below the tie, at the tie.
#[test]
fn a_raised_tie_bends_the_rafter() {
    let moment = |results: &Results, combination: &str| {
        let check = results.members[0].checks.iter().find(|c| c.check == "bending" && c.combination == combination).unwrap();
        (check.steps.iter().find(|s| s.symbol == "M").unwrap().value, check.at.value)
    };
    for slope in [4.0, 6.0, 12.0] {
        let rise = 14.0 * slope / 12.0;
        for part in [0.1, 0.25, 1.0 / 3.0] {
            let raised = format!("tie-above: {} ft, ", rise * part);
            let results = pair(&format!("{slope}:12"), &raised, "{line: 60 plf, case: snow}", "");
            let tangent: f64 = slope / 12.0;
            let stretch = (1.0 + tangent * tangent).sqrt();
            let (found, at) = moment(&results, "S");
            let k = 0.5 / (1.0 - part);
            let x = f64::max(part, 1.0 - k);
            let by_hand = 60.0 * 14.0 * 14.0 * (x - 0.5 * x * x - k * (x - part));
            assert!((found - by_hand).abs() < 1e-6 * by_hand, "{slope}, {part}: {found}, {by_hand}");
            assert!((at - x * 14.0 * stretch).abs() < 1e-6, "{slope}, {part}: at {at}");
        }
    }
}

/// Wind p square to both slopes with the tie at r of the rise: moments of one half about the ridge, T (1 - r) = T at the heel.
#[test]
fn wind_on_a_pair_with_a_raised_tie() {
    for (slope, tangent) in [("4:12", 4.0_f64 / 12.0), ("9:12", 0.75), ("16:12", 4.0 / 3.0)] {
        let (cosine, sine) = (1.0 / (1.0 + tangent * tangent).sqrt(), tangent / (1.0 + tangent * tangent).sqrt());
        let push = 20.0 * 2.0 * 14.0 / cosine;
        let results = pair(slope, &format!("tie-above: {} ft, ", 14.0 * tangent * 0.25), "{area: roof}", "");
        assert!((heel(&results, "wind") - push * cosine).abs() < 1e-6, "{slope}");
        assert!((thrust(&results, "wind") - push * (cosine * cosine - 0.5) / sine / 0.75).abs() < 1e-6, "{slope}");
    }
}

/// Snow half off the tail makes more thrust than snow on all of it: w (L² - a²/2) / (2 L tan θ) over 1 - r, the tie's press with it.
#[test]
fn a_raised_tie_follows_the_pattern_of_the_loads() {
    let results = pair("6:12", "overhangs: {left: 2 ft}, tie-above: 1.75 ft, ", "{line: 60 plf, case: snow}", "");
    let by_hand = 60.0 * (14.0 * 14.0 - 0.5 * 4.0) / (2.0 * 14.0 * 0.5) / 0.75;
    assert!((thrust(&results, "snow") - by_hand).abs() < 1e-6, "{}, {by_hand}", thrust(&results, "snow"));
    assert!((heel(&results, "snow") - 60.0 * 16.0).abs() < 1e-6);
}
