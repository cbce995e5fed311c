//! Every factor of the American tables in every value that it multiplies, by hand: Douglas Fir-Larch Select Structural 2x12 (Supplement
//! Table 4A: F_b 1500, F_t 1000, F_v 180, F_c,perp 625, F_c 1700, E 1.9e6, E_min 0.69e6 psi; C_F 1.0 on all) and 24F-V4 (Table 5A: F_bx+
//! 2400, F_by 1450, F_vx 265, F_vy 230 psi), unless another is named.

use latewood::results::Results;

const LUMBER: &str = "section: 2x12, material: {species: Douglas Fir-Larch, grade: Select Structural}";
const GLULAM: &str = "section: 5-1/8x12, material: {combination: 24F-V4}";
const HOIST: &str = "cases: {hoist: {like: live, duration: impact}}";

/// A job of one member with this in its basis.
fn job(basis: &str, member: &str) -> Results {
    let text = format!(
        "job: {{title: Factors, number: T-13, date: 2026-02-02}}\nbasis: {{code: american{basis}}}\nmembers:\n  - {{mark: B1, self-weight: no, \
         {member}}}\n"
    );
    let source = latewood::text::Source::read("job", text.as_bytes()).unwrap();
    latewood::check(&source, true).unwrap_or_else(|f| panic!("{}", latewood::cli::snippet::render(&source, &f, false))).results
}

/// The last line of a letter in a check under a combination.
fn of(results: &Results, check: &str, combination: &str, symbol: &str) -> f64 {
    let mut found = results.members[0].checks.iter().filter(|c| c.check == check && c.combination == combination);
    let step = found.find_map(|check| check.steps.iter().rev().find(|step| step.symbol == symbol));
    step.unwrap_or_else(|| panic!("no {symbol} in {check} under {combination}")).value
}

#[track_caller]
fn is(found: f64, by_hand: f64) {
    assert!((found / by_hand - 1.0).abs() < 1e-9, "{found}, by hand {by_hand}");
}

fn beam(wood: &str, loads: &str) -> String {
    format!("use: beam, {wood}, spans: [10 ft], bearing: 3 in, braced: {{top: {{at: 5 ft}}}}, loads: [{loads}]")
}

/// A beam that leans: bent and sheared about both axes.
fn purlin(wood: &str, loads: &str) -> String {
    beam(wood, loads).replace("use: beam", "use: beam, tilt: 20 deg")
}

fn tie(loads: &str) -> String {
    format!("use: tie, {LUMBER}, length: 10 ft, loads: [{loads}]")
}

fn post(loads: &str) -> String {
    format!("use: post, {LUMBER}, length: 6 ft, loads: [{loads}]")
}

const DEAD: &str = "{line: 50 plf, case: dead}";
const ALONG: &str = "{axial: 1000 lbf, case: dead}";
const BOTH: &str = "{line: 20 plf, case: dead}, {line: 40 plf, case: live}";

/// NDS Table 2.3.3 and Table 4A's C_M: F_b 0.85 (1500 psi is above 1150), F_v 0.97, F_c,perp 0.67, F_c 0.8 (1700 is above 750), F_t 1.0, E
/// and E_min 0.9. Dead load alone: C_D 0.9, on strengths along the grain.
#[test]
fn temperature_and_moisture_take_their_part_of_every_property() {
    // Moisture, degrees; C_t of F_b, F_v, F_c,perp and F_c; of F_t, E and E_min.
    for (moisture, degrees, strength, stiffness) in [
        ("dry", 100, 1.0, 1.0),
        ("dry", 110, 0.8, 0.9),
        ("dry", 140, 0.7, 0.9),
        ("wet", 100, 1.0, 1.0),
        ("wet", 110, 0.7, 0.9),
        ("wet", 140, 0.5, 0.9),
    ] {
        let basis = format!(", moisture: {moisture}, temperature: {degrees} F");
        let wet = |factor: f64| if moisture == "wet" { factor } else { 1.0 };
        let bent = job(&basis, &beam(LUMBER, DEAD));
        is(of(&bent, "bending", "D", "F_b*"), 1500.0 * 0.9 * wet(0.85) * strength);
        is(of(&bent, "bending", "D", "E'_min"), 690_000.0 * wet(0.9) * stiffness);
        is(of(&bent, "shear", "D", "F'_v"), 180.0 * 0.9 * wet(0.97) * strength);
        is(of(&bent, "bearing", "D", "F'_c,perp"), 625.0 * wet(0.67) * strength);
        let live = job(&basis, &beam(LUMBER, BOTH));
        is(of(&live, "deflection", "L", "E'"), 1_900_000.0 * wet(0.9) * stiffness);
        is(of(&job(&basis, &tie(ALONG)), "tension", "D", "F'_t"), 1000.0 * 0.9 * stiffness);
        let pressed = job(&basis, &post(ALONG));
        is(of(&pressed, "compression", "D", "F_c*"), 1700.0 * 0.9 * wet(0.8) * strength);
        is(of(&pressed, "compression", "D", "E'_min"), 690_000.0 * wet(0.9) * stiffness);
        let across = job(&basis, &purlin(LUMBER, DEAD));
        is(of(&across, "shear", "D", "F'_vy"), 180.0 * 0.9 * wet(0.97) * strength);
        // C_fu 1.2 of 2 in thick, 10 in and wider.
        is(of(&across, "biaxial_bending", "D", "F'_b2"), 1500.0 * 0.9 * wet(0.85) * strength * 1.2);
    }
}

/// Supplement Table 5A, C_M: F_b 0.8, F_v 0.875, F_c,perp 0.53, E 0.833; with the C_t of Table 2.3.3.
#[test]
fn temperature_and_moisture_take_their_part_of_glulam() {
    for (moisture, degrees, strength, stiffness) in [("dry", 140, 0.7, 0.9), ("wet", 110, 0.7, 0.9), ("wet", 140, 0.5, 0.9)] {
        let basis = format!(", moisture: {moisture}, temperature: {degrees} F");
        let wet = |factor: f64| if moisture == "wet" { factor } else { 1.0 };
        let bent = job(&basis, &beam(GLULAM, DEAD));
        is(of(&bent, "bending", "D", "F_b*"), 2400.0 * 0.9 * wet(0.8) * strength);
        is(of(&bent, "bending", "D", "E'_y,min"), 850_000.0 * wet(0.833) * stiffness);
        is(of(&bent, "shear", "D", "F'_v"), 265.0 * 0.9 * wet(0.875) * strength);
        is(of(&bent, "bearing", "D", "F'_c,perp"), 650.0 * wet(0.53) * strength);
        let across = job(&basis, &purlin(GLULAM, DEAD));
        is(of(&across, "shear", "D", "F'_vy"), 230.0 * 0.9 * wet(0.875) * strength);
        // C_fu of 5.3.7: (12/5.125)^(1/9).
        let flat = libm::pow(12.0 / 5.125, 1.0 / 9.0);
        is(of(&across, "biaxial_bending", "D", "F'_by"), 1450.0 * 0.9 * wet(0.8) * strength * flat);
    }
}

/// Supplement Table 4A: wet, C_M is 1.0 on F_b where F_b C_F is 1150 psi or less, on F_c where F_c C_F is 750 psi or less. Hem-Fir No.2, F_b
/// 850: 2x12 850, 2x8 x 1.2 = 1020, 2x4 x 1.5 = 1275; Hem-Fir No.3, F_c 725: 2x12 725, 2x8 x 1.05 = 761.25.
#[test]
fn weak_wood_is_exempt_from_the_wet_service_factor() {
    let of_grade = |use_: &str, section: &str, grade: &str, loads: &str| {
        format!("use: {use_}, section: {section}, material: {{species: Hem-Fir, grade: {grade}}}, loads: [{loads}]")
    };
    for (section, size, exempt) in [("2x12", 1.0, true), ("2x8", 1.2, true), ("2x4", 1.5, false)] {
        let member = format!("{}, spans: [4 ft], braced: {{top: continuous}}", of_grade("beam", section, "No.2", DEAD));
        let wet_factor = if exempt { 1.0 } else { 0.85 };
        is(of(&job(", moisture: wet", &member), "bending", "D", "F'_b"), 850.0 * 0.9 * size * wet_factor);
    }
    for (section, size, exempt) in [("2x12", 1.0, true), ("2x8", 1.05, false)] {
        let member = format!("{}, length: 4 ft", of_grade("post", section, "No.3", ALONG));
        let wet_factor = if exempt { 1.0 } else { 0.8 };
        is(of(&job(", moisture: wet", &member), "compression", "D", "F_c*"), 725.0 * 0.9 * size * wet_factor);
    }
}

/// NDS Table 4.3.8: 0.8 on strengths along the grain, 1.0 across it, 0.95 on E and E_min; on columns and ties too.
#[test]
fn incising_takes_its_part_of_columns_and_ties() {
    let incised = |member: String| format!("{member}, conditions: {{incised: yes}}");
    let bent = job("", &incised(beam(LUMBER, DEAD)));
    is(of(&bent, "bending", "D", "F_b*"), 1500.0 * 0.9 * 0.8);
    is(of(&bent, "shear", "D", "F'_v"), 180.0 * 0.9 * 0.8);
    is(of(&bent, "bearing", "D", "F'_c,perp"), 625.0);
    is(of(&job("", &incised(beam(LUMBER, BOTH))), "deflection", "L", "E'"), 1_900_000.0 * 0.95);
    is(of(&job("", &incised(tie(ALONG))), "tension", "D", "F'_t"), 1000.0 * 0.9 * 0.8);
    let pressed = job("", &incised(post(ALONG)));
    is(of(&pressed, "compression", "D", "F_c*"), 1700.0 * 0.9 * 0.8);
    is(of(&pressed, "compression", "D", "E'_min"), 690_000.0 * 0.95);
    is(of(&pressed, "bearing", "D", "F_c*"), 1700.0 * 0.9 * 0.8);
    let side = job("", &incised(post(&format!("{ALONG}, {{line: 10 plf, case: dead, about: weak}}"))));
    is(of(&side, "bending_and_compression", "D", "F'_b2"), 1500.0 * 0.9 * 1.2 * 0.8);
    is(of(&side, "shear", "D", "F'_vy"), 180.0 * 0.9 * 0.8);
}

/// NDS Tables N1 to N3, 1.2 D + 1.6 L: K_F 2.54, 2.70, 2.88, 2.40, 1.67, 1.76 with φ 0.85, 0.80, 0.75, 0.90, 0.90, 0.85; λ 0.8, not across
/// the grain and not on E_min.
#[test]
fn load_and_resistance_factors_are_in_every_value() {
    const BASIS: &str = ", method: LRFD";
    const NAME: &str = "1.2 D + 1.6 L";
    let along = "{axial: 500 lbf, case: dead}, {axial: 900 lbf, case: live}";
    let bent = job(BASIS, &beam(LUMBER, BOTH));
    is(of(&bent, "bending", NAME, "F_b*"), 1500.0 * 2.54 * 0.85 * 0.8);
    is(of(&bent, "bending", NAME, "E'_min"), 690_000.0 * 1.76 * 0.85);
    is(of(&bent, "shear", NAME, "F'_v"), 180.0 * 2.88 * 0.75 * 0.8);
    is(of(&bent, "bearing", NAME, "F'_c,perp"), 625.0 * 1.67 * 0.9);
    is(of(&job(BASIS, &tie(along)), "tension", NAME, "F'_t"), 1000.0 * 2.7 * 0.8 * 0.8);
    is(of(&job(BASIS, &post(along)), "compression", NAME, "F_c*"), 1700.0 * 2.4 * 0.9 * 0.8);
    let across = job(BASIS, &purlin(LUMBER, BOTH));
    is(of(&across, "biaxial_bending", NAME, "F'_b2"), 1500.0 * 2.54 * 0.85 * 0.8 * 1.2);
    is(of(&across, "shear", NAME, "F'_vy"), 180.0 * 2.88 * 0.75 * 0.8);
    let glued = job(BASIS, &beam(GLULAM, BOTH));
    is(of(&glued, "bending", NAME, "F_b*"), 2400.0 * 2.54 * 0.85 * 0.8);
    is(of(&glued, "shear", NAME, "F'_v"), 265.0 * 2.88 * 0.75 * 0.8);
    is(of(&glued, "bending", NAME, "E'_y,min"), 850_000.0 * 1.76 * 0.85);
    let glued_across = job(BASIS, &purlin(GLULAM, BOTH));
    is(of(&glued_across, "biaxial_bending", NAME, "F'_by"), 1450.0 * 2.54 * 0.85 * 0.8 * libm::pow(12.0 / 5.125, 1.0 / 9.0));
    is(of(&glued_across, "shear", NAME, "F'_vy"), 230.0 * 2.88 * 0.75 * 0.8);
    // C_V of 120 in: (21/10)^0.1 (12/12)^0.1 (5.125/5.125)^0.1 is above 1.
    let held = beam(GLULAM, BOTH).replace("{at: 5 ft}", "continuous");
    is(of(&job(BASIS, &held), "bending", NAME, "F'_bx"), 2400.0 * 2.54 * 0.85 * 0.8);
    let plate = "use: stud, section: 2x6, length: 8 ft, spacing: 16 in, braced: {weak: sheathed}, material: {species: Hem-Fir, grade: No.2}, \
                 plate: {section: 2x6, material: {species: Hem-Fir, grade: No.2}}";
    let stud = job(BASIS, &format!("{plate}, loads: [{along}]"));
    is(of(&stud, "bearing", NAME, "F'_c,perp"), 405.0 * 1.67 * 0.9);
}

/// NDS 2.3.2 and Table N3: impact 2.0, on treated members 1.6; by LRFD 1.25, on treated members 1.0 (reading 64).
#[test]
fn impact_on_treated_members_is_capped() {
    let loads = "{line: 20 plf, case: dead}, {line: 40 plf, case: hoist}";
    let held = beam(LUMBER, loads).replace("{at: 5 ft}", "continuous");
    let retardant = "conditions: {retardant: {source: report 9, F_b: 1.0, F_t: 1.0, F_v: 1.0, F_c_perp: 1.0, F_c: 1.0, E: 1.0}}";
    for (treatment, incising, duration, lambda) in
        [("", 1.0, 2.0, 1.25), (", conditions: {incised: yes}", 0.8, 1.6, 1.0), (&format!(", {retardant}"), 1.0, 1.6, 1.0)]
    {
        let member = format!("{held}{treatment}");
        is(of(&job(&format!(", {HOIST}"), &member), "bending", "D + hoist", "F'_b"), 1500.0 * duration * incising);
        let lrfd = job(&format!(", method: LRFD, {HOIST}"), &member);
        let factors = 2.54 * 0.85 * lambda * incising;
        is(of(&lrfd, "bending", "1.2 D + 1.6 hoist", "F'_b"), 1500.0 * factors);
    }
}

/// NDS 5.3.10: C_vr 0.72 of a member subject to impact, under whatever combination, by both methods, treated or not.
#[test]
fn shear_of_glulam_under_impact_is_reduced() {
    let loads = "{line: 20 plf, case: dead}, {line: 40 plf, case: hoist}";
    let asd = job(&format!(", {HOIST}"), &beam(GLULAM, loads));
    is(of(&asd, "shear", "D + hoist", "F'_v"), 265.0 * 2.0 * 0.72);
    is(of(&asd, "shear", "D", "F'_v"), 265.0 * 0.9 * 0.72);
    let lrfd = job(&format!(", method: LRFD, {HOIST}"), &beam(GLULAM, loads));
    is(of(&lrfd, "shear", "1.2 D + 1.6 hoist", "F'_v"), 265.0 * 2.88 * 0.75 * 1.25 * 0.72);
    let across = job(&format!(", {HOIST}"), &purlin(GLULAM, loads));
    is(of(&across, "shear", "D + hoist", "F'_vy"), 230.0 * 2.0 * 0.72);
    is(of(&job("", &beam(GLULAM, BOTH)), "shear", "D + L", "F'_v"), 265.0);
}

/// Wind that lifts shears the member as well: 0.6 x 20 - 0.6 x 100 = -48 plf on 10 ft, 240 lbf at a hanger, 3 x 240 / (2 x 1.5 x 11.25) =
/// 21.33 psi over 180 x 1.6.
#[test]
fn uplift_shears() {
    let loads = "{line: 20 plf, case: dead}, {line: -100 plf, case: wind}";
    let results = job("", &beam(LUMBER, loads).replace("bearing: 3 in", "bearing: 3 in, hangers: [1, 2]"));
    is(of(&results, "shear", "0.6 D + 0.6 W", "f_v"), 3.0 * 240.0 / (2.0 * 1.5 * 11.25));
    is(of(&results, "shear", "0.6 D + 0.6 W", "ratio"), 3.0 * 240.0 / (2.0 * 1.5 * 11.25) / (180.0 * 1.6));
}
