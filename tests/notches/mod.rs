//! Notches between the ends: the shear and the moment along them in closed form, on what is left of the section.

use latewood::results::{Check, Member};
use latewood::text::Source;

fn tried(member: &str) -> Result<Member, String> {
    let job = format!(
        "job: {{title: Notches, number: T-12, date: 2026-02-02}}\nbasis: {{code: american}}\nmembers:\n  - {{mark: J1, material: {{species: Douglas \
         Fir-Larch, grade: No.2}}, {member}}}\n"
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
