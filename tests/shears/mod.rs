//! Shear along members: what counts next to supports, on spans and overhangs; and the closed forms that stand for diagrams. Figures are
//! worked by hand from statics.

use latewood::results::{Check, Results};
use latewood::text::Source;

fn job(code: &str, members: &str) -> Results {
    let job = format!("job: {{title: Shears, number: T-1, date: 2026-02-02}}\nbasis: {{code: {code}}}\nmembers:\n{members}\n");
    let source = Source::read("job", job.as_bytes()).unwrap();
    latewood::check(&source, true).unwrap_or_else(|f| panic!("{}\n{job}", latewood::cli::snippet::render(&source, &f, false))).results
}

/// A beam of Douglas Fir-Larch No.2, F_v 180 psi, C_D 1.0 with live load.
fn american(section: &str, rest: &str) -> Results {
    let material = "material: {species: Douglas Fir-Larch, grade: No.2}";
    job(
        "american",
        &format!("  - {{mark: B1, use: beam, section: {section}, {material}, self-weight: no, braced: {{top: continuous}}, {rest}}}"),
    )
}

/// A beam of C24, 100 x 200 mm.
fn european(rest: &str) -> Results {
    let section = "section: {width: 100 mm, depth: 200 mm}, material: {class: C24}";
    job(
        "european",
        &format!("  - {{mark: B1, use: beam, {section}, self-weight: no, braced: {{top: continuous, bottom: continuous}}, {rest}}}"),
    )
}

fn worst<'a>(results: &'a Results, check: &str, combination: &str) -> &'a Check {
    let of = results.member("B1").unwrap().checks.iter().filter(|c| c.check == check && c.what.is_empty() && c.combination == combination);
    of.max_by(|a, b| a.ratio.total_cmp(&b.ratio)).unwrap_or_else(|| panic!("no {check} under {combination}"))
}

fn step(check: &Check, symbol: &str) -> f64 {
    check.steps.iter().rev().find(|s| s.symbol == symbol).unwrap_or_else(|| panic!("no {symbol} in {}", check.check)).value
}

/// Ratio of 1.5 V over b d F_v.
fn by_hand(force: f64, b: f64, d: f64) -> f64 {
    1.5 * force / (b * d) / 180.0
}

fn same(found: f64, due: f64) {
    assert!((found - due).abs() <= 1e-7 * due.abs(), "{found} and not {due}");
}

/// 6000 lbf on a 10 ft span at d from the face of a bearing l long, l/2 + d from its line: V = P (1 - x/L) whole, in every pair.
#[test]
fn a_load_at_d_from_the_face_counts_whole() {
    let sections = [("4x6", 5.5), ("4x8", 7.25), ("4x10", 9.25), ("4x12", 11.25)];
    for (section, d) in sections {
        for bearing in [1.5, 2.5, 3.5, 4.5, 5.5] {
            let x = 0.5 * bearing + d;
            for place in [x, x - 0.003] {
                let results = american(
                    section,
                    &format!("spans: [10 ft], bearing: {bearing} in, loads: [{{point: 6000 lbf, case: live, at: {place} in}}]"),
                );
                same(worst(&results, "shear", "L").ratio, by_hand(6000.0 * (1.0 - place / 120.0), 3.5, d));
            }
        }
    }
    for place in ["13 in", "1 ft 1 in", "1.0833333333333333 ft"] {
        let results =
            american("4x12", &format!("spans: [10 ft], bearing: 3-1/2 in, loads: [{{point: 6000 lbf, case: live, at: {place}}}]"));
        assert!((worst(&results, "shear", "L").ratio - 1.132).abs() < 5e-4);
    }
    // Nearer than d by 5.25 in: 6 in from the face, 7.75 in from the line, it counts 6/11.25.
    let results = american("4x12", "spans: [10 ft], bearing: 3-1/2 in, loads: [{point: 6000 lbf, case: live, at: 7.75 in}]");
    same(worst(&results, "shear", "L").ratio, by_hand(6000.0 * (1.0 - 7.75 / 120.0) * 6.0 / 11.25, 3.5, 11.25));
}

/// Span 10 ft, overhang 4 ft; 3000 down at 1 ft from the support, 2000 up at the tip: V is 2000 - 3000 = -1000 next to the support and 2000 on
/// the outer 3 ft. Moment over the support 2000 x 4 - 3000 x 1 = 5000 lbf ft: 500 lbf in the span, no support is pulled.
#[test]
fn the_outer_half_of_an_overhang_is_looked_at() {
    let loads = "loads: [{point: 3000 lbf, case: live, at: 11 ft}, {point: -2000 lbf, case: live, at: 14 ft}]";
    let results = american("4x12", &format!("spans: [10 ft], overhangs: {{right: 4 ft}}, bearing: 3-1/2 in, {loads}"));
    let check = worst(&results, "shear", "L");
    assert_eq!(check.span, Some(2));
    same(check.ratio, by_hand(2000.0, 3.5, 11.25));
    let mirrored = "loads: [{point: 3000 lbf, case: live, at: 3 ft}, {point: -2000 lbf, case: live, at: 0 ft}]";
    let results = american("4x12", &format!("spans: [10 ft], overhangs: {{left: 4 ft}}, bearing: 3-1/2 in, {mirrored}"));
    same(worst(&results, "shear", "L").ratio, by_hand(2000.0, 3.5, 11.25));
    let loads = "loads: [{point: 3 kN, case: live, at: 3.3 m}, {point: -2 kN, case: live, at: 4.2 m}]";
    let results = european(&format!("spans: [3 m], overhangs: {{right: 1.2 m}}, bearing: 100 mm, {loads}"));
    same(step(worst(&results, "shear", "1.5 Q"), "V_d"), 3.0);
}

/// V counts over the whole of an overhang: 500 plf on 4 ft, 2000 lbf at the support line.
#[test]
fn on_an_overhang_nothing_is_left_out() {
    let loads = "loads: [{line: 500 plf, case: dead, from: 10 ft, to: 14 ft}]";
    let results = american("4x12", &format!("spans: [10 ft], overhangs: {{right: 4 ft}}, bearing: 3-1/2 in, {loads}"));
    let checks = &results.member("B1").unwrap().checks;
    let overhang = checks.iter().find(|c| c.check == "shear" && c.span == Some(2)).unwrap();
    // Dead load alone: C_D 0.9.
    same(overhang.ratio, by_hand(2000.0, 3.5, 11.25) / 0.9);
}

/// Loads that pull upward within a span leave more shear in the other half than at the support: 1000 plf down on the left half of 10 ft, and
/// 3000 lbf up at 7 ft: R_left = 5000 x 7.5/10 - 900 = 2850; V from 5 to 7 ft 2850 - 5000 = -2150, then +850.
#[test]
fn between_the_sections_everything_counts() {
    let loads = "loads: [{line: 1000 plf, case: live, from: 0 ft, to: 5 ft}, {point: -3000 lbf, case: live, at: 7 ft}]";
    let results = american("4x12", &format!("spans: [10 ft], bearing: [36 in, 3-1/2 in], {loads}"));
    // The left section lies 18 + 11.25 = 29.25 in from the line: V there 2850 - 1000 x 29.25/12 = 412.5 lbf.
    same(worst(&results, "shear", "L").ratio, by_hand(2150.0, 3.5, 11.25));
}

/// A joist in a hanger on the side, 4 in from the support line: its 1500 lbf count whole, V = 1500 (1 - 4/120). On the top they count for
/// (4 - 1.75)/11.25 of that.
#[test]
fn what_is_hung_on_the_side_is_never_left_out() {
    let members = |hangers: &str, every: &str| {
        let material = "material: {species: Douglas Fir-Larch, grade: No.2}";
        format!(
            "  - {{mark: J1, use: joist, section: 2x10, spacing: 16 in, {material}, spans: [10 ft], self-weight: no, {hangers}loads: [{{point: 3000 lbf, \
             case: live, at: mid}}]}}\n  - {{mark: B1, use: beam, section: 4x12, {material}, spans: [10 ft], bearing: 3-1/2 in, self-weight: no, \
             braced: {{top: continuous}}, loads: [{{reaction: J1, support: 2, {every}}}]}}"
        )
    };
    let ratio = |hangers: &str, every: &str| worst(&job("american", &members(hangers, every)), "shear", "L").ratio;
    let whole = 1500.0 * (1.0 - 4.0 / 120.0);
    same(ratio("hangers: [2], ", "at: 4 in"), by_hand(whole, 3.5, 11.25));
    same(ratio("", "at: 4 in"), by_hand(whole * 2.25 / 11.25, 3.5, 11.25));
    // Spread, 1500 lbf every 16 in = 1125 plf: 5625 lbf at the support line, 13 in less on the top.
    same(ratio("hangers: [2], ", "every: 16 in"), by_hand(5625.0, 3.5, 11.25));
    same(ratio("hangers: [1], ", "every: 16 in"), by_hand(1125.0 / 12.0 * (60.0 - 13.0), 3.5, 11.25));
    let timber = "section: {width: 100 mm, depth: 200 mm}, material: {class: C24}, self-weight: no, braced: {top: continuous}";
    let members = |hangers: &str| {
        format!(
            "  - {{mark: J1, use: joist, {timber}, spans: [3 m], {hangers}loads: [{{point: 8 kN, case: live, at: mid}}]}}\n  - {{mark: B1, use: beam, \
             {timber}, spans: [3 m], bearing: 100 mm, loads: [{{reaction: J1, support: 2, at: 0.2 m}}, {{line: 1 kN/m, case: live}}]}}"
        )
    };
    let shear = |hangers: &str| step(worst(&job("european", &members(hangers)), "shear", "1.5 Q"), "V_d");
    // 4 kN at 0.2 m of 3 m, within h of the bearing's edge, and 1.5 kN of even load.
    same(shear("hangers: [2], "), 1.5 * (4.0 * (1.0 - 0.2 / 3.0) + 1.5));
    // On the top it is left out there; at the other support 4 x 0.2/3 kN stay.
    same(shear(""), 1.5 * (1.5 + 4.0 * 0.2 / 3.0));
}

/// Loads left out count net at one place: 10 kN down and 10 kN up are nothing, and the even load's 1.5 x 2 x 3/2 = 4.5 kN are left.
#[test]
fn loads_left_out_count_net_at_one_place() {
    let pair = "{point: 10 kN, case: live, at: 0.2 m}, {point: -10 kN, case: live, at: 0.2 m}";
    let results = european(&format!("spans: [3 m], bearing: 100 mm, loads: [{{line: 2 kN/m, case: live}}, {pair}]"));
    same(step(worst(&results, "shear", "1.5 Q"), "V_d"), 4.5);
    // Of 10 kN down and 4 kN up 6 kN are left out: at the other support their 6 x 0.2/3 stay, 1.5 x 0.4 kN.
    let pair = "{point: 10 kN, case: live, at: 0.2 m}, {point: -4 kN, case: live, at: 0.2 m}";
    let results = european(&format!("spans: [3 m], bearing: 100 mm, loads: [{{line: 2 kN/m, case: live}}, {pair}]"));
    same(step(worst(&results, "shear", "1.5 Q"), "V_d"), 4.5 + 1.5 * 0.4);
    let loads = "loads: [{line: 200 plf, case: live}, {point: 6000 lbf, case: live, at: 6 in}, {point: -6000 lbf, case: live, at: 6 in}]";
    let results = american("4x12", &format!("spans: [10 ft], bearing: 3-1/2 in, {loads}"));
    same(worst(&results, "shear", "L").ratio, by_hand(200.0 / 12.0 * (60.0 - 13.0), 3.5, 11.25));
}

/// Past a load that counts in part next to a support the shear counts whole: 6000 lbf up at mid-span, 3400 down at 12.9 in from the line (11.15 in from the face). R_left =
/// 3400 x 107.1/120 - 3000 = 34.5. Left out in part, the load would count 3034.5 x 11.15/11.25 and leave V = 7.5; whole, V beyond it is
/// 34.5 - 3400 = -3365.5, and that is what the span has.
#[test]
fn past_a_load_near_a_support_the_shear_counts_whole() {
    let loads = "loads: [{point: -6000 lbf, case: live, at: mid}, {point: 3400 lbf, case: live, at: 12.9 in}]";
    let results = american("4x12", &format!("spans: [10 ft], bearing: 3-1/2 in, {loads}"));
    same(worst(&results, "shear", "L").ratio, by_hand(3365.5, 3.5, 11.25));
}

/// At notched ends shear belongs to the notch; the whole depth begins at the notch's corner. 200 plf on 10 ft, notches 2 in long on a bearing of
/// 3-1/2 in: their corner is 2 - 1.75 = 0.25 in from the line, the face 1.75 in.
#[test]
fn at_a_notched_end_shear_belongs_to_the_notch() {
    let notches = "notches: [{at: left, side: bottom, depth: 1 in, length: 2 in}, {at: right, side: bottom, depth: 1 in, length: 2 in}]";
    let results = american("4x12", &format!("spans: [10 ft], bearing: 3-1/2 in, {notches}, loads: [{{line: 200 plf, case: live}}]"));
    same(worst(&results, "shear", "L").ratio, by_hand(200.0 / 12.0 * (60.0 - 1.75), 3.5, 11.25));
    let left = 10.25;
    same(worst(&results, "notch", "L").ratio, by_hand(1000.0, 3.5, left) * (11.25 / left) * (11.25 / left));
}

/// Even load 2 kN/m on 4 m, 3 kN up at mid-span: R = 4 - 1.5 = 2.5 kN; M is largest 1.25 m from the support, 2.5²/(2 x 2) = 1.5625 kN m, and 1.0 at
/// mid-span.
#[test]
fn loads_that_act_opposite_ways_have_no_closed_form() {
    let results = european("spans: [4 m], loads: [{line: 2 kN/m, case: live}, {point: -3 kN, case: live, at: mid}]");
    let bending = worst(&results, "bending", "1.5 Q");
    let w = 100.0 * 200.0 * 200.0 / 6.0;
    same(step(bending, "sigma_m,d"), 1.5 * 1.5625e6 / w);
    same(step(worst(&results, "shear", "1.5 Q"), "V_d"), 1.5 * 2.5);
    let both = european("spans: [4 m], loads: [{line: 2 kN/m, case: live}, {point: 3 kN, case: live, at: mid}]");
    let line = worst(&both, "bending", "1.5 Q").steps.iter().find(|s| s.symbol == "M_y,d").cloned().expect("the closed form");
    same(line.value, 1.5 * (4.0 + 3.0));
    // 100 plf on 12 ft, 700 lbf up at mid-span: R = 250 lbf, M = 250²/(2 x 100) = 312.5 lbf ft, at mid-span 1800 - 2100 = -300.
    let results = american("4x12", "spans: [12 ft], loads: [{line: 100 plf, case: live}, {point: -700 lbf, case: live, at: mid}]");
    same(step(worst(&results, "bending", "L"), "f_b"), 312.5 * 12.0 / (3.5 * 11.25 * 11.25 / 6.0));
}

/// A moment at the tip of an overhang is the same all along it: l_ef 2.0 times its length, and 2 h for loads on the top edge.
#[test]
fn a_moment_at_the_tip_takes_twice_the_overhang() {
    let rest = "spans: [3 m], overhangs: {right: 1.5 m}, loads: [{moment: 3 kN m, case: live, at: 4.5 m}]";
    let section = "section: {width: 50 mm, depth: 200 mm}, material: {class: C24}, self-weight: no";
    let results = job("european", &format!("  - {{mark: B1, use: beam, {section}, {rest}}}"));
    let member = results.member("B1").unwrap();
    let overhang = member.checks.iter().find(|c| c.check == "bending" && c.span == Some(2) && c.combination == "1.5 Q").unwrap();
    assert_eq!(step(overhang, "l_ef"), 2.0 * 1500.0 + 2.0 * 200.0);
    assert!(member.assumed.contains_key("overhang moment"), "{:?}", member.assumed);
    // A point load at the tip keeps its row.
    let rest = "spans: [3 m], overhangs: {right: 1.5 m}, loads: [{point: 3 kN, case: live, at: 4.5 m}]";
    let results = job("european", &format!("  - {{mark: B1, use: beam, {section}, {rest}}}"));
    let checks = &results.member("B1").unwrap().checks;
    let overhang = checks.iter().find(|c| c.check == "bending" && c.span == Some(2) && c.combination == "1.5 Q").unwrap();
    assert_eq!(step(overhang, "l_ef"), 0.8 * 1500.0 + 2.0 * 200.0);
}

/// Joists at 3 ft on a span of 10 ft with an overhang of 3 ft, 1000 lbf each. One row with one at mid-span stands at 2, 5, 8 and 11 ft: R = 1500 - 100 =
/// 1400, M(5) = 1400 x 5 - 1000 x 3 = 4000 lbf ft. One at the tip: 1, 4, 7, 10 and 13 ft. Spread, 1000/3 plf: R = 1516.7, M = R²/(2 w) = 3450.4.
#[test]
fn a_row_of_reactions_is_one_row() {
    let material = "material: {species: Douglas Fir-Larch, grade: No.2}";
    let members = format!(
        "  - {{mark: J1, use: joist, section: 2x10, spacing: 3 ft, {material}, spans: [10 ft], self-weight: no, loads: [{{point: 2000 lbf, case: dead, at: \
         mid}}]}}\n  - {{mark: B1, use: beam, section: 4x12, {material}, spans: [10 ft], overhangs: {{right: 3 ft}}, self-weight: no, braced: {{top: \
         continuous, bottom: continuous}}, loads: [{{reaction: J1, support: 2, every: 3 ft}}]}}"
    );
    let results = job("american", &members);
    let checks = &results.member("B1").unwrap().checks;
    let modulus = 3.5 * 11.25 * 11.25 / 6.0;
    let on = |span| checks.iter().find(|c| c.check == "bending" && c.span == Some(span) && c.combination == "D").unwrap();
    same(step(on(1), "f_b"), 4000.0 * 12.0 / modulus);
    assert_eq!(on(1).load_set, "J1 as concentrated loads, one at mid-span of span 1");
    same(step(on(2), "f_b"), 3000.0 * 12.0 / modulus);
    assert_eq!(on(2).load_set, "J1 as concentrated loads, one at the tip");
}

/// Over an inner bearing of 100 mm, a load 80 mm to the right of its line: 30 mm clear, so 15 mm more on that side, and 30 mm on the other.
#[test]
fn a_bearing_grows_on_the_side_where_there_is_room() {
    for (place, inner) in [(3080, "l_in"), (2920, "l_out")] {
        let results = european(&format!(
            "spans: [3 m, 3 m], bearing: 100 mm, loads: [{{line: 2 kN/m, case: dead}}, {{point: 5 kN, case: dead, at: {place} mm}}]"
        ));
        let checks = &results.member("B1").unwrap().checks;
        let bearing = checks.iter().find(|c| c.check == "bearing" && c.support == Some(2)).unwrap();
        assert_eq!((step(bearing, "l_ef").round(), step(bearing, inner).round(), step(bearing, "k_c,90")), (145.0, 15.0, 1.0));
    }
}
