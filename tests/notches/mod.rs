//! Notches: the shear and the moment along them in closed form, on what is left of the section.

use latewood::results::{Check, Member};
use latewood::text::Source;

fn tried(member: &str) -> Result<Member, String> {
    let material = if member.contains("5-1/8 in") {
        "material: {combination: 24F-1.8E}"
    } else {
        "material: {species: Douglas Fir-Larch, grade: No.2}"
    };
    let job = format!(
        "job: {{title: Notches, number: T-12, date: 2026-02-02}}\nbasis: {{code: american}}\nmembers:\n  - {{mark: J1, {material}, {member}}}\n"
    );
    let source = Source::read("job", job.as_bytes()).unwrap();
    let results = latewood::check(&source, true).map_err(|f| latewood::cli::snippet::render(&source, &f, false))?.results;
    Ok(results.members.into_iter().next().unwrap())
}

fn found<'a>(member: &'a Member, demand: &str) -> &'a Check {
    let of = |c: &&Check| c.check == "notch" && c.combination == "D + L" && c.demand.symbol == demand;
    member.checks.iter().find(of).unwrap_or_else(|| panic!("no notch with {demand}"))
}

const JOIST: &str = "use: joist, section: 2x10, spacing: 16 in, spans: [12 ft], braced: {top: sheathed}, loads: [{line: 20 plf, case: dead}, {line: 60 plf, \
                     case: live}]";

/// w 80 plf over 12 ft, a notch 3 in long around 3 ft: V at its outer edge is w (L/2 − x), M at its inner edge w x (L − x)/2.
#[test]
fn a_notch_in_the_span_is_checked_on_what_is_left() {
    let (w, span, d, depth, b) = (80.0_f64, 144.0_f64, 9.25_f64, 1.5_f64, 1.5_f64);
    let (near, far) = (36.0 - 1.5, 36.0 + 1.5);
    let shear = w / 12.0 * (span / 2.0 - near);
    let moment = w / 12.0 * far * (span - far) / 2.0;
    let left = d - depth;
    for (side, part) in [("bottom", (left / d) * (left / d)), ("top", 1.0)] {
        let member = tried(&format!("{JOIST}, notches: [{{at: 3 ft, side: {side}, depth: 1-1/2 in, length: 3 in}}]")).unwrap();
        let by_shear = found(&member, "V");
        let due = shear / (2.0 / 3.0 * 180.0 * b * left * part);
        assert!((by_shear.ratio - due).abs() < 1e-7 * due, "{side}: {} and {due}", by_shear.ratio);
        assert_eq!((by_shear.support, by_shear.span), (None, Some(1)));
        // F_b 900 psi, C_F 1.1, C_r 1.15.
        let by_moment = found(&member, "f_b");
        let due = 6.0 * moment / (b * left * left) / (900.0 * 1.1 * 1.15);
        assert!((by_moment.ratio - due).abs() < 1e-7 * due, "{side}: {} and {due}", by_moment.ratio);
        assert_eq!(by_moment.place, "at the notch at 3.00 ft");
        assert!(!member.not_checked.iter().any(|what| what.contains("notch")));
    }
}

/// Over a support the edge that it bears counts as stretched, whatever the moment: the seat cut of a rafter with a tail.
#[test]
fn a_seat_cut_under_a_tail_is_a_notch_between_the_ends() {
    let member = tried(
        "use: rafter, section: 2x8, spacing: 24 in, slope: 5:12, spans: [10 ft], overhangs: {left: 18 in}, braced: {top: sheathed}, notches: [{at: 18 \
         in, side: bottom, depth: 1-1/8 in, length: 2-1/4 in}], loads: [{line: 30 plf, case: dead}, {line: 50 plf, case: live}]",
    )
    .unwrap();
    let check = found(&member, "V");
    let step = |symbol: &str| check.steps.iter().find(|s| s.symbol == symbol).unwrap();
    assert!(step("V'_r").reference.ends_with("(a)"), "{:?}", step("V'_r").reference);
}

/// NDS 4.4.3: a sixth of the depth, outside of the middle third, no longer than a third of the depth, not in the stretched edge of thick lumber.
#[test]
fn notches_that_the_standard_does_not_have_are_refused() {
    for (notch, word) in [
        ("{at: 3 ft, side: bottom, depth: 1-5/8 in, length: 3 in}", "notch-too-deep"),
        ("{at: 5 ft, side: top, depth: 1 in, length: 3 in}", "notch-in-middle"),
        ("{at: 3 ft, side: top, depth: 1 in, length: 3-1/4 in}", "notch-too-long"),
    ] {
        let refused = tried(&format!("{JOIST}, notches: [{notch}]")).unwrap_err();
        assert!(refused.contains(word), "{refused}");
    }
    let thick = |spans: &str, side: &str| {
        tried(&format!(
            "use: beam, section: 4x10, spans: {spans}, notches: [{{at: 2 ft, side: {side}, depth: 1 in, length: 3 in}}], loads: [{{line: 60 plf, case: live}}]"
        ))
    };
    assert!(thick("[12 ft]", "bottom").unwrap_err().contains("notch-in-tension"));
    assert!(thick("[12 ft, 12 ft]", "top").unwrap_err().contains("notch-in-tension"));
    assert!(thick("[12 ft]", "top").is_ok());
}

/// w 80 plf on 12 ft, a notch 6 in long without a bearing length: M at its corner is w x (L - x)/2 = 2760 lbf in. One that ends at the face of a
/// bearing of 3-1/2 in has no bending.
#[test]
fn a_notch_that_reaches_into_the_span_bends_at_its_end() {
    let member = tried(&format!("{JOIST}, notches: [{{at: left, side: bottom, depth: 2 in, length: 6 in}}]")).unwrap();
    let check = found(&member, "f_b");
    let due = 6.0 * 2760.0 / (1.5 * 7.25 * 7.25) / (900.0 * 1.1 * 1.15);
    assert!((check.ratio - due).abs() < 1e-7 * due, "{} and {due}", check.ratio);
    let member =
        tried(&format!("{JOIST}, bearing: 3-1/2 in, notches: [{{at: left, side: bottom, depth: 2 in, length: 3-1/2 in}}]")).unwrap();
    assert!(member.checks.iter().all(|c| c.what != "net section"));
}

/// Of glued laminated timber the volume factor at a notch takes the length between the points of zero moment: the span.
#[test]
fn a_notched_glulam_has_its_volume_factor() {
    let member = tried(
        "use: beam, section: {width: 5-1/8 in, depth: 24 in}, spans: [30 ft], bearing: 3-1/2 in, braced: {top: continuous}, notches: [{at: left, side: \
         bottom, depth: 2 in, length: 12 in}], loads: [{line: 300 plf, case: dead}, {line: 600 plf, case: live}]",
    )
    .unwrap();
    let step = |check: &Check, symbol: &str| check.steps.iter().find(|s| s.symbol == symbol).unwrap_or_else(|| panic!("no {symbol}")).value;
    let bending = member.checks.iter().find(|c| c.check == "bending" && c.combination == "D + L").unwrap();
    let at_notch = found(&member, "f_b");
    assert!((step(at_notch, "C_V") - step(bending, "C_V")).abs() < 1e-9, "{} and {}", step(at_notch, "C_V"), step(bending, "C_V"));
}

/// A notch at an end that reaches into the middle third is in the middle third.
#[test]
fn the_middle_third_begins_where_the_notch_ends() {
    let refused = tried(&format!("{JOIST}, notches: [{{at: left, side: bottom, depth: 1 in, length: 49 in}}]")).unwrap_err();
    assert!(refused.contains("notch-in-middle"), "{refused}");
    assert!(tried(&format!("{JOIST}, notches: [{{at: left, side: bottom, depth: 1 in, length: 47 in}}]")).is_ok());
    let refused = tried(&format!("{JOIST}, notches: [{{at: 3 ft 11 in, side: top, depth: 1 in, length: 3 in}}]")).unwrap_err();
    assert!(refused.contains("notch-in-middle"), "{refused}");
}

/// 40 plf along a rafter of 45 degrees over 10 ft on plan: V = 40 cos 45 x 10/cos 45 / 2 = 200 lbf. The notch on top is 4 in long along it: V_r is
/// 2/3 F_v b (d - (d - d_n)/d_n e) with e = 4 in.
#[test]
fn on_a_rafter_the_length_of_a_notch_is_along_it() {
    let rafter = "use: rafter, section: 2x8, spacing: 24 in, slope: 12:12, spans: [10 ft], braced: {top: sheathed}, notches: [{at: left, side: top, \
                  depth: 1 in, length: 4 in}], loads: [{line: 40 plf, case: dead}]";
    let member = tried(rafter).unwrap();
    let check = member.checks.iter().find(|c| c.check == "notch" && c.demand.symbol == "V" && c.combination == "D").unwrap();
    let due = 200.0 / (2.0 / 3.0 * 180.0 * 0.9 * 1.5 * (7.25 - 1.0 / 6.25 * 4.0));
    assert!((check.ratio - due).abs() < 1e-7 * due, "{} and {due}", check.ratio);
}

fn european(rest: &str) -> Member {
    let job = format!(
        "job: {{title: Notches, number: T-13, date: 2026-02-02}}\nbasis: {{code: european}}\nmembers:\n  - {{mark: J1, use: beam, section: {{width: 100 \
         mm, depth: 200 mm}}, material: {{class: C24}}, self-weight: no, bearing: 100 mm, braced: {{top: continuous, bottom: continuous}}, {rest}}}\n"
    );
    let source = Source::read("job", job.as_bytes()).unwrap();
    latewood::check(&source, true).unwrap().results.members.into_iter().next().unwrap()
}

/// 6 kN/m imposed on 3 m, a notch 50 mm deep, 300 mm long: its corner is 250 mm from the line, M = 1.5 x 6 x 0.25 (3 - 0.25)/2 = 3.09375 kN m on 150
/// mm, 8.25 N/mm2, against 0.8 x 24/1.3. The shear strength at it is no other than for a shorter notch of the same corner.
#[test]
fn bending_at_a_notch_is_checked_under_every_code() {
    let member =
        european("spans: [3 m], loads: [{line: 6 kN/m, case: live}], notches: [{at: left, side: bottom, depth: 50 mm, length: 300 mm}]");
    let check = member.checks.iter().find(|c| c.what == "net section" && c.combination == "1.5 Q").unwrap();
    let due = 6.0 * 3.09375e6 / (100.0 * 150.0 * 150.0) / (0.8 * 24.0 / 1.3);
    assert!((check.ratio - due).abs() < 1e-7 * due, "{} and {due}", check.ratio);
}

/// 4 kN/m permanent on 3 m and an overhang of 1 m, a notch 30 mm deep and 200 mm long over the support between them. V is 4 kN on the overhang, 6 + 2/3
/// kN in the span; M is -2 kN m. By (6.62) with alpha 170/200, x 100 mm on both sides; bending on 170 mm.
#[test]
fn a_notch_over_a_support_is_checked_on_both_sides() {
    let rest = "spans: [3 m], overhangs: {left: 1 m}, loads: [{line: 4 kN/m, case: dead}]";
    let member = european(&format!("{rest}, notches: [{{at: 1 m, side: bottom, depth: 30 mm, length: 200 mm}}]"));
    let worst = |what: &str| {
        let of = member.checks.iter().filter(|c| c.check == "notch" && c.what == what && c.combination == "1.35 G");
        of.map(|c| c.ratio).fold(f64::NAN, f64::max)
    };
    let alpha = 0.85_f64;
    let k_v = 5.0 / (200.0_f64.sqrt() * ((alpha * (1.0 - alpha)).sqrt() + 0.8 * 100.0 / 200.0 * (1.0 / alpha - alpha * alpha).sqrt()));
    let due = 1.5 * 1.35 * (6000.0 + 2000.0 / 3.0) / (67.0 * 170.0) / (k_v * 0.6 * 4.0 / 1.3);
    assert!((worst("") - due).abs() < 1e-7 * due, "{} and {due}", worst(""));
    let due = 6.0 * 1.35 * 2e6 / (100.0 * 170.0 * 170.0) / (0.6 * 24.0 / 1.3);
    assert!((worst("net section") - due).abs() < 1e-7 * due, "{} and {due}", worst("net section"));
    assert!(member.not_checked.iter().all(|what| !what.contains("notch")), "{:?}", member.not_checked);
    let member = european(&format!("{rest}, notches: [{{at: 2 m, side: bottom, depth: 30 mm, length: 200 mm}}]"));
    assert!(member.not_checked.iter().any(|what| what.starts_with("shear at notches away from the supports")));
    assert!(member.checks.iter().all(|c| c.check != "notch" || c.what == "net section"));
}
