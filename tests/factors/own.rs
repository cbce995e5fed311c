//! Values of the engineer's own: which size factor they take, and which values are asked for.

use super::{check, refused, value};

/// A 2x14 or shallower beam of own values with these further keys.
fn own(section: &str, keys: &str) -> String {
    format!(
        "use: beam, section: {section}, self-weight: no, braced: {{top: continuous}}, loads: [{{line: 20 plf, case: dead}}], material: {{custom: \
         Salvaged pine, kind: sawn, source: grading report 7{keys}, values: {{F_b: 1200 psi, F_v: 165 psi, F_c_perp: 480 psi, E: 1400 ksi, \
         E_min: 510 ksi}}}}"
    )
}

/// Supplement Table 4A as of No.2: C_F on F_b 1.1 of 2x10, 1.0 of 2x12, 0.9 of 2x14. An own value takes what is below 1 alone; a tabulated
/// one takes all; one that holds for 9-1/4 in takes 1.0/1.1 = 0.909 in a 2x12 and 0.9/1.1 = 0.818 in a 2x14, and no more than 1 in a 2x8
/// (1.2/1.1). F'_b is 1200 x 0.9 (C_D of dead load alone) times that.
#[test]
fn own_values_of_sawn_lumber_take_the_size_factor_below_one() {
    let held = ", depth: 9-1/4 in";
    for (section, keys, factor) in [
        ("2x10", "", 1.0),
        ("2x12", "", 1.0),
        ("2x14", "", 0.9),
        ("2x10", ", size-factor: table", 1.1),
        ("2x14", ", size-factor: table", 0.9),
        ("2x8", held, 1.0),
        ("2x10", held, 1.0),
        ("2x12", held, 1.0 / 1.1),
        ("2x14", held, 0.9 / 1.1),
    ] {
        let results = check(&own(section, keys));
        let adjusted = value(&results, "bending", "D", "F'_b");
        assert!((adjusted - 1080.0 * factor).abs() < 1e-6, "{section}{keys}: {adjusted}");
        assert!(results.assumptions.iter().any(|a| a.text.starts_with("Engineer-supplied values")), "{section}{keys}");
    }
}

/// NDS 4.3.6.2: a value that holds for 15-1/2 in takes (12/19.5)^(1/9) / (12/15.5)^(1/9) = (15.5/19.5)^(1/9) = 0.9748 in a 6x20, and 1 in a
/// 6x14, which a plain own value takes (12/13.5)^(1/9) = 0.987 in.
#[test]
fn own_values_of_timbers_hold_for_their_depth() {
    let timber = |section: &str, keys: &str| own(section, keys).replace("kind: sawn", "kind: timber");
    let held = ", depth: 15-1/2 in";
    for (section, keys, factor) in [
        ("6x14", "", libm::pow(12.0 / 13.5, 1.0 / 9.0)),
        ("6x14", held, 1.0),
        ("6x20", held, libm::pow(15.5 / 19.5, 1.0 / 9.0)),
        ("6x12", "", 1.0),
    ] {
        let adjusted = value(&check(&timber(section, keys)), "bending", "D", "F'_b");
        assert!((adjusted - 1080.0 * factor).abs() < 1e-6, "{section}{keys}: {adjusted} is not 1080 x {factor}");
    }
}

/// A 5-1/2 x 11-1/2 in timber is of Beams & Stringers (more than 2 in between its sides, NDS 4.1.3.3), whose grades lose on the wide face
/// (Supplement Table 4D: F_b 0.86, 0.74, 1.00; E 1.00, 0.90, 1.00). Which grade an own value is like is not known: leaning, F'_b2 = 1200 x
/// 0.9 (C_D) x 0.74 = 799.2 psi. A 5-1/2 x 7-1/2 in one is of Posts & Timbers: 1080 psi.
#[test]
fn own_values_of_stringers_lose_on_the_wide_face() {
    for (depth, by_hand) in [("11-1/2 in", 1200.0 * 0.9 * 0.74), ("7-1/2 in", 1200.0 * 0.9)] {
        let section = format!("{{width: 5-1/2 in, depth: {depth}}}, tilt: 20 deg");
        let results = check(&own(&section, "").replace("kind: sawn", "kind: timber"));
        let adjusted = value(&results, "biaxial_bending", "D", "F'_b2");
        assert!((adjusted - by_hand).abs() < 1e-6, "{depth}: {adjusted} is not {by_hand}");
    }
}

/// Table 4A: C_M on F_b is 0.85 unless F_b C_F is at most 1150 psi. An own value of 1200 psi for a 2x14 has its size in it, so that the 0.9
/// taken for safety does not bring it under 1150: F'_b = 1200 x 0.9 (C_D) x 0.85 x 0.9 (C_F) = 826.2 psi. As a tabulated value F_b C_F is
/// 1080 psi, and nothing is lost by water: 1200 x 0.9 x 0.9 = 972 psi.
#[test]
fn an_own_value_is_exempt_from_wet_service_by_itself() {
    for (keys, by_hand) in [("", 1200.0 * 0.9 * 0.85 * 0.9), (", size-factor: table", 1200.0 * 0.9 * 0.9)] {
        let wet = own("2x14", keys).replace("self-weight", "conditions: {moisture: wet}, self-weight");
        let adjusted = value(&check(&wet), "bending", "D", "F'_b");
        assert!((adjusted - by_hand).abs() < 1e-6, "{keys}: {adjusted} is not {by_hand}");
    }
}

/// C_F of tension and compression of a 2x6 as No.2 are 1.3 and 1.1: not of an own value.
#[test]
fn own_values_of_columns_take_no_size_factor_above_one() {
    let post = |keys: &str| {
        let job = format!(
            "job: {{title: Own, number: T-11, date: 2026-02-02}}\nbasis: {{code: american}}\nmembers:\n  - {{mark: P1, use: post, section: 2x6, \
             length: 4 ft, self-weight: no, braced: {{weak: continuous, strong: continuous}}, loads: [{{axial: 1000 lbf, case: live}}], material: \
             {{custom: Own, kind: sawn, source: report 7{keys}, values: {{F_b: 1000 psi, F_t: 600 psi, F_v: 150 psi, F_c_perp: 400 psi, F_c: \
             1200 psi, E: 1400 ksi, E_min: 510 ksi}}}}}}\n"
        );
        let source = latewood::text::Source::read("job", job.as_bytes()).unwrap();
        latewood::check(&source, true).unwrap().results
    };
    assert!((value(&post(""), "compression", "L", "F'_c") - 1200.0).abs() < 1e-9);
    assert!((value(&post(", size-factor: table"), "compression", "L", "F'_c") - 1320.0).abs() < 1e-9);
}

#[test]
fn what_size_a_value_holds_for_is_said_once_and_of_own_values_alone() {
    assert!(refused(&own("2x10", ", size-factor: table, depth: 9-1/4 in")).contains("keep one of them"));
    let graded =
        "use: beam, section: 2x10, material: {species: Hem-Fir, grade: No.2, size-factor: table}, loads: [{line: 20 plf, case: dead}]";
    assert!(refused(graded).contains("only values of a `custom` material"));
    assert!(
        refused(&own("2x10", ", size-factor: table").replace("kind: sawn", "kind: glulam")).contains("does not apply to glued members")
    );
}

/// A custom glulam beam 5-1/8 x 12 in on one span with these further values, these braces and this load.
fn glulam(values: &str, braced: &str, load: &str) -> String {
    format!(
        "use: beam, section: 5-1/8x12, self-weight: no, braced: {{{braced}}}, loads: [{load}], material: {{custom: Own, kind: glulam, source: \
         sheet 7, values: {{F_b: 2400 psi, F_v: 265 psi, F_c_perp: 650 psi, E: 1.8e6 psi, E_min: 0.95e6 psi{values}}}}}"
    )
}

/// F_bx of the other face, E_y,min and F_c are asked for where a check reads them, and never stand for one another.
#[test]
fn values_of_glulam_are_asked_for_where_a_check_reads_them() {
    let (down, up) = ("{line: 200 plf, case: dead}", "{line: 200 plf, case: dead}, {line: -300 plf, case: wind}");
    let held = "top: continuous, bottom: continuous";
    check(&glulam("", held, down));
    check(&glulam("", "top: continuous", down));
    assert!(refused(&glulam("", "top: none", down)).contains("does not give `E_y_min`"));
    assert!(refused(&glulam("", held, up)).contains("does not give `F_b_neg`"));
    assert!(refused(&glulam(", F_b_neg: 1450 psi", "top: continuous", up)).contains("does not give `E_y_min`"));
    // (D - 0.6 W) lifts: 0.6 x 200 - 0.6 x 300 = -60 plf stretches the top: F_bx- 1450 x 1.6.
    let results = check(&glulam(", F_b_neg: 1450 psi, E_y_min: 0.8e6 psi", held, up));
    assert!((value(&results, "bending", "0.6 D + 0.6 W", "F'_bx") - 1450.0 * 1.6).abs() < 1e-6);
}

/// The 0.8e6 psi of the weak axis are those of lateral buckling, not the 0.95e6 of the strong one: l_u 10 ft, l_e = 1.63 x 120 + 3 x 12 =
/// 231.6 in (l_u/d = 10), R_B² = 231.6 x 12 / 5.125² = 105.81, F_bE = 1.2 x 0.8e6 / 105.81 = 9072.7 psi.
#[test]
fn lateral_buckling_of_glulam_takes_the_modulus_of_its_weak_axis() {
    let results = check(&glulam(", E_y_min: 0.8e6 psi", "top: none", "{line: 200 plf, case: dead}"));
    let by_hand = 1.2 * 0.8e6 / (231.6 * 12.0 / (5.125 * 5.125));
    assert!((value(&results, "bending", "D", "F_bE") - by_hand).abs() < 1e-6 * by_hand);
}

/// Shear about the weak axis of glulam and of composites is a value of its own: it is not that of the strong axis.
#[test]
fn weak_axis_values_do_not_come_from_the_strong_axis() {
    let flat = glulam(", F_by: 1450 psi, E_y: 1.6e6 psi", "top: continuous", "{line: 200 plf, case: dead}")
        .replace("self-weight", "conditions: {flat: yes}, self-weight");
    let told = refused(&flat);
    assert!(told.contains("does not give `F_vy`") && told.contains("does not give `F_c_perp_y`"), "{told}");
    let given = flat.replace("E_y: 1.6e6 psi", "E_y: 1.6e6 psi, F_vy: 230 psi, F_c_perp_y: 560 psi");
    assert!((value(&check(&given), "shear", "D", "F'_v") - 230.0 * 0.9).abs() < 1e-9);
}

/// A composite as deep as its report's depth needs no exponent; F_c only columns and sloping bearings read.
#[test]
fn no_value_is_asked_for_that_no_check_reads() {
    check(&own("2x10", ""));
    let sloped = own("2x10", "").replace("use: beam", "use: rafter, slope: 6:12, bearing: 3 in");
    let told = refused(&sloped);
    assert!(told.contains("does not give `F_c`") && told.contains("bearing at an angle to the grain"), "{told}");
}

/// A wet sole plate of composite is refused as a wet composite member is: its report holds for dry service.
#[test]
fn a_wet_sole_plate_of_composite_is_refused() {
    let stud = |moisture: &str, plate: &str| {
        format!(
            "job: {{title: Plate, number: T-12, date: 2026-02-02}}\nbasis: {{code: american}}\nmembers:\n  - {{mark: S1, use: stud, section: 2x6, \
             length: 8 ft, spacing: 16 in, braced: {{weak: sheathed}}, conditions: {{moisture: {moisture}}}, material: {{species: Hem-Fir, grade: \
             No.2}}, loads: [{{axial: 1000 lbf, case: live}}], plate: {{section: {{width: 1-1/2 in, depth: 5-1/2 in}}, material: {plate}}}}}\n"
        )
    };
    let composite = "{custom: Strand lumber, kind: composite, source: report 7, values: {F_c_perp: 435 psi}}";
    let run = |job: &str| {
        let source = latewood::text::Source::read("job", job.as_bytes()).unwrap();
        latewood::check(&source, true).map_err(|faults| latewood::cli::snippet::render(&source, &faults, false))
    };
    assert!(run(&stud("dry", composite)).is_ok());
    assert!(run(&stud("wet", composite)).unwrap_err().contains("wet service of structural composite lumber is not covered"));
    // Hem-Fir, Supplement Table 4A: 405 psi x 0.67 wet.
    let sawn = run(&stud("wet", "{species: Hem-Fir, grade: No.2}")).unwrap().results;
    let plate = sawn.members[0].checks.iter().find(|check| check.what == "of the plate").unwrap();
    assert!((plate.capacity.value - 405.0 * 0.67).abs() < 1e-6, "{:?}", plate.capacity);
}
