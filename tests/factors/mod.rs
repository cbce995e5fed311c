//! Conditions of single factors of the American code, each with and without.

mod account;
mod european;
mod matrix;
mod own;

use latewood::results::Results;

/// What is told of a member that is refused.
fn refused(member: &str) -> String {
    let told = std::panic::catch_unwind(|| check(member)).expect_err("refused");
    told.downcast_ref::<String>().cloned().unwrap_or_default()
}

fn check(member: &str) -> Results {
    let job = format!(
        "job: {{title: Factors, number: T-09, date: 2026-02-02}}\nbasis: {{code: american}}\nareas: {{floor: {{dead: 10 psf, live: 40 psf}}}}\n\
         members:\n  - {{mark: B1, spans: [10 ft], {member}}}\n"
    );
    let source = latewood::text::Source::read("job", job.as_bytes()).unwrap();
    latewood::check(&source, true).unwrap_or_else(|f| panic!("{}", latewood::cli::snippet::render(&source, &f, false))).results
}

fn value(results: &Results, check: &str, combination: &str, symbol: &str) -> f64 {
    let found = results.members[0].checks.iter().find(|c| c.check == check && c.combination == combination).unwrap();
    found.steps.iter().rev().find(|s| s.symbol == symbol).unwrap_or_else(|| panic!("no {symbol}")).value
}

/// NDS 4.3.9: dimension lumber, 24 in apart at the most, joined by what spreads the load (reading 21).
#[test]
fn the_repetitive_factor_asks_for_all_its_conditions() {
    let joist = "use: joist, material: {species: Hem-Fir, grade: No.2}, loads: [{area: floor}]";
    let timber = "use: joist, section: 6x10, material: {species: Hem-Fir, grade: No.2}, loads: [{area: floor}]";
    for (member, factor) in [
        (format!("{joist}, section: 2x10, spacing: 16 in, braced: {{top: sheathed}}"), 1.15),
        (format!("{joist}, section: 2x10, spacing: 24 in, braced: {{top: continuous}}"), 1.15),
        (format!("{joist}, section: 2x10, spacing: 24.1 in, braced: {{top: sheathed}}"), 1.0),
        (format!("{joist}, section: 2x10, spacing: 16 in"), 1.0),
        (format!("{joist}, section: 2x10, spacing: 16 in, braced: {{top: {{at: 2 ft}}}}"), 1.0),
        (format!("{joist}, section: 2x10, spacing: 16 in, braced: {{top: sheathed}}, system: no"), 1.0),
        (format!("{joist}, section: 2x10, spacing: 30 in, system: yes"), 1.15),
        (format!("{joist}, section: 2x10, plies: 3, spacing: 30 in"), 1.15),
        (format!("{joist}, section: 2x10, plies: 2, spacing: 30 in"), 1.0),
        (format!("{timber}, spacing: 16 in, braced: {{top: sheathed}}"), 1.0),
    ] {
        let results = check(&member);
        assert_eq!(value(&results, "bending", "D + L", "C_r"), factor, "{member}");
    }
}

/// NDS 2.3.4: the treater's factors multiply what the treatment weakens, each its own.
#[test]
fn a_treatment_against_fire_takes_its_part_of_every_value() {
    let plain = "use: beam, section: 4x10, material: {species: Hem-Fir, grade: No.2}, bearing: 3 in, self-weight: no, braced: {top: {at: 5 ft}}, \
                 loads: [{line: 60 plf, case: dead}, {line: 200 plf, case: live}]";
    let treated = format!(
        "{plain}, conditions: {{retardant: {{source: evaluation report, F_b: 0.88, F_t: 0.9, F_v: 0.93, F_c_perp: 0.95, F_c: 0.94, E: 0.96}}}}"
    );
    let (plain, treated) = (check(plain), check(&treated));
    for (name, symbol, part) in
        [("bending", "F_b*", 0.88), ("bending", "E'_min", 0.96), ("shear", "F'_v", 0.93), ("bearing", "F'_c,perp", 0.95)]
    {
        let ratio = value(&treated, name, "D + L", symbol) / value(&plain, name, "D + L", symbol);
        assert!((ratio - part).abs() < 1e-9, "{symbol}: {ratio}");
    }
    let deflection = |r: &Results| r.members[0].deflections.iter().find(|d| d.what == "live").unwrap().value.value;
    assert!((deflection(&plain) / deflection(&treated) - 0.96).abs() < 1e-9);
}

/// NDS 5.3.6: L runs between the points of zero moment around the section. On one span with two equal overhangs they are where
/// w x (x - 2a) = w (L + 2a) (x - a), in closed form.
#[test]
fn the_volume_factor_takes_the_length_between_points_of_zero_moment() {
    let results = check(
        "use: beam, section: 8-3/4x36, material: {combination: 24F-V8}, overhangs: {left: 3 ft, right: 3 ft}, self-weight: no, \
         braced: {top: continuous, bottom: continuous}, loads: [{line: 500 plf, case: dead}]",
    );
    let (span, overhang) = (10.0_f64, 3.0_f64);
    let half = (span * span / 4.0 - overhang * overhang).sqrt();
    let at = |place: usize| {
        let found = results.members[0].checks.iter().find(|c| c.check == "bending" && c.span == Some(place)).unwrap();
        found.steps.iter().find(|s| s.symbol == "L_0").map(|s| s.value)
    };
    // Over a support: from the free end to the first point of zero moment in the span.
    let (inner, outer) = (2.0 * half, overhang + span / 2.0 - half);
    let found: Vec<f64> = (0..3).filter_map(at).collect();
    for length in &found {
        assert!((length - inner).abs() < 1e-7 || (length - outer).abs() < 1e-7, "{length}: neither {inner} nor {outer}");
    }
    assert!(!found.is_empty());
    let cv = value(&results, "bending", "D", "C_V");
    let used = found.iter().any(|l| (libm::pow(21.0 / l * 12.0 / 36.0 * 5.125 / 8.75, 0.1).min(1.0) - cv).abs() < 1e-6);
    assert!(used, "C_V {cv}");
}

/// NDS Table 2.3.2 and 2.3.2.2: a load of the shortest duration must not lend it to the live load beside it. D + L by hand:
/// (20 + 50) x 10² / 8 x 12 / 31.64 = 331.9 psi on No.1, 1000 psi at C_D 1.0; with the hoist 336.6 psi at 2.0.
#[test]
fn a_short_load_lends_its_duration_to_no_other() {
    let joist = "use: joist, section: 2x12, material: {species: Douglas Fir-Larch, grade: No.1}, braced: {top: continuous}, \
                 loads: [{line: 20 plf, case: dead}, {line: 50 plf, case: live}, {line: 1 plf, case: hoist}]";
    let job = |duration: &str, method: &str| {
        let text = format!(
            "job: {{title: Hoist, number: T-10, date: 2026-02-02}}\nbasis: {{code: american, method: {method}, cases: {{hoist: {{like: live, \
             duration: {duration}}}}}}}\nmembers:\n  - {{mark: B1, spans: [10 ft], {joist}}}\n"
        );
        let source = latewood::text::Source::read("job", text.as_bytes()).unwrap();
        latewood::check(&source, true).unwrap().results
    };
    let worst = |results: &Results| {
        let bending = results.members[0].checks.iter().find(|c| c.check == "bending" && c.leading).unwrap();
        (bending.combination.clone(), bending.ratio)
    };
    for duration in ["impact", "ten-minutes", "seven-days", "two-months"] {
        let (combination, ratio) = worst(&job(duration, "ASD"));
        assert_eq!(combination, "D + L");
        assert!((ratio - 70.0 * 150.0 / 31.640_625 / 1000.0).abs() < 1e-9, "{duration}: {ratio}");
    }
    // Longer than the live load, it stands without it at its own C_D, 0.9: (20 + 1) x 150 / 31.64 / 900.
    let results = job("permanent", "ASD");
    assert_eq!(worst(&results).0, "D + L + hoist");
    let alone = results.members[0].checks.iter().find(|c| c.check == "bending" && c.combination == "D + hoist").unwrap();
    assert!((alone.ratio - 21.0 * 150.0 / 31.640_625 / 900.0).abs() < 1e-9);
    // Appendix N gives λ by the combination: nothing to add.
    assert!(job("impact", "LRFD").members[0].checks.iter().all(|c| c.combination != "1.2 D + 1.6 L"));
}

/// NDS 8.3.6 with a report whose exponent is not given: no gain up to its depth, refused beyond.
#[test]
fn a_composite_without_its_exponent_gains_nothing() {
    let lumber = |depth: &str, exponent: &str| {
        format!(
            "use: beam, section: {{width: 3.5 in, depth: {depth} in}}, self-weight: no, braced: {{top: continuous}}, \
             material: {{custom: Veneer lumber, kind: composite, source: report 1, values: {{F_b: 2900 psi, F_v: 285 psi, F_c_perp: 750 psi, \
             F_c: 2500 psi, E: 2000 ksi, E_min: 1016 ksi{exponent}}}}}, loads: [{{line: 100 plf, case: dead}}]"
        )
    };
    for (depth, exponent, factor) in [("9.5", "", 1.0), ("12", "", 1.0), ("9.5", ", size_exponent: 0.136", libm::pow(12.0 / 9.5, 0.136))] {
        let results = check(&lumber(depth, exponent));
        let adjusted = value(&results, "bending", "D", "F'_b");
        assert!((adjusted - 2900.0 * 0.9 * factor).abs() < 1e-6, "{depth}{exponent}: {adjusted}");
    }
    assert!(refused(&lumber("14", "")).contains("does not give `size_exponent`"));
}

/// Supplement Table 4A: the column of 4 in is for what is dressed from it; a full 3 in keeps the lesser factor of 2 and 3 in.
#[test]
fn a_full_three_inches_is_no_four() {
    for (width, factor) in [("1-1/2 in", 1.1), ("2-1/2 in", 1.1), ("2-3/4 in", 1.1), ("3 in", 1.1), ("3-1/2 in", 1.2)] {
        let member = format!(
            "use: beam, section: {{width: {width}, depth: 9-1/4 in}}, material: {{species: Hem-Fir, grade: No.2}}, self-weight: no, \
             braced: {{top: continuous}}, loads: [{{line: 100 plf, case: dead}}]"
        );
        assert_eq!(value(&check(&member), "bending", "D", "C_F"), factor, "{width}");
    }
}
