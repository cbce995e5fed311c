//! Reserve: a job whose loads of one case are multiplied by the case's factor has a governing ratio of 1; with less it passes, with
//! more it fails.

use latewood::results::{Member, Results};
use latewood::text::Source;

/// Members that carry loads of every kind; `D*90` stands for 90 times the factor on the dead load.
const MEMBERS: [&str; 9] = [
    "{mark: M, use: joist, section: 2x10, material: {species: Douglas Fir-Larch, grade: No.2}, spacing: 16 in, spans: [12 ft], bearing: 1-1/2 in, \
     braced: {top: sheathed}, loads: [{line: D*12 plf, case: dead}, {line: L*50 plf, case: live}]}",
    "{mark: M, use: beam, self-weight: no, section: 4x12, material: {species: Hem-Fir, grade: No.1}, spans: [9 ft, 7 ft], overhangs: {right: 3 ft}, \
     bearing: 3-1/2 in, loads: [{line: D*90 plf, case: dead}, {line: L*160 plf, case: live}, {line: S*120 plf, case: snow}]}",
    "{mark: M, use: rafter, slope: 6:12, section: 2x8, material: {species: Spruce-Pine-Fir, grade: No.1/No.2}, spacing: 24 in, spans: [11 ft], \
     overhangs: {left: 18 in}, bearing: 3-1/2 in, braced: {top: sheathed, bottom: {at: 4 ft}}, \
     loads: [{line: D*24 plf, case: dead}, {line: S*50 plf, case: snow}, {line: W*-30 plf, case: wind}]}",
    "{mark: M, use: rafter, slope: 3:12, section: 2x6, material: {species: Douglas Fir-Larch, grade: No.2}, spacing: 24 in, spans: [8 ft], \
     braced: {top: sheathed}, limits: {wind: L/240}, loads: [{line: D*18 plf, case: dead}, {line: W*-55 plf, case: wind}]}",
    "{mark: M, use: beam, self-weight: no, section: 6x12, material: {species: Douglas Fir-Larch, grade: No.1}, spans: [12 ft], bearing: 2 in, \
     braced: {top: {at: 4 ft}}, loads: [{point: L*2400 lbf, case: live, at: mid}, {line: [D*60 plf, D*220 plf], case: dead}]}",
    "{mark: M, use: header, self-weight: no, section: 2x10, plies: 2, material: {species: Southern Pine, grade: No.2}, spans: [5 ft], \
     bearing: 1-1/2 in, loads: [{line: D*310 plf, case: dead}, {line: L*420 plf, case: live}, {line: S*480 plf, case: snow}]}",
    "{mark: M, use: joist, section: 2x8, material: {species: Hem-Fir, grade: No.2}, spacing: 16 in, spans: [10 ft], bearing: 3 in, \
     braced: {top: sheathed}, notches: [{at: left, side: bottom, depth: 1 in, length: 3 in}], \
     loads: [{line: D*20 plf, case: dead}, {line: L*53 plf, case: live}]}",
    "{mark: M, use: beam, self-weight: no, section: 2x12, material: {species: Douglas Fir-Larch, grade: No.2}, spans: [14 ft], \
     loads: [{line: D*60 plf, case: dead}, {line: L*90 plf, case: live}]}",
    "{mark: M, use: beam, self-weight: no, section: 4x8, material: {species: Douglas Fir-Larch, grade: No.1}, spans: [6 ft, 6 ft, 6 ft], \
     bearing: 3-1/2 in, braced: {top: {at: 2 ft}}, loads: [{line: D*100 plf, case: dead}, {point: L*900 lbf, case: live, at: 3 ft}]}",
];

const CASES: [(&str, &str); 4] = [("dead", "D"), ("live", "L"), ("snow", "S"), ("wind", "W")];

/// A job with one member, the loads of one case multiplied by a factor.
fn job(member: &str, method: &str, grown: (&str, f64)) -> Results {
    let mut text = member.to_owned();
    for (case, letter) in CASES {
        let by = if case == grown.0 { grown.1 } else { 1.0 };
        while let Some(at) = text.find(&format!("{letter}*")) {
            let end = at + text[at..].find(' ').unwrap();
            let number: f64 = text[at + 2..end].parse().unwrap();
            text.replace_range(at..end, &format!("{:.14}", number * by));
        }
    }
    let job = format!("job: {{title: Reserve, date: 2026-01-05}}\nbasis: {{code: american, method: {method}}}\nmembers:\n  - {text}\n");
    let source = Source::read("reserve", job.as_bytes()).unwrap();
    latewood::check(&source, false).unwrap_or_else(|f| panic!("{}", latewood::cli::snippet::render(&source, &f, false))).results
}

fn member(results: &Results) -> &Member {
    results.member("M").unwrap()
}

#[test]
fn a_case_grown_by_its_reserve_brings_the_governing_ratio_to_one() {
    let (mut tried, mut failing) = (0, 0);
    for (text, method) in MEMBERS.iter().flat_map(|m| [(m, "ASD"), (m, "LRFD")]) {
        let as_is = job(text, method, ("none", 1.0));
        for reserve in &member(&as_is).reserve {
            let Some(factor) = reserve.factor else { panic!("{text} {}: without bound", reserve.case) };
            let grown = |by: f64| job(text, method, (&reserve.case, by));
            assert_eq!(factor < 1.0, !member(&as_is).verdict.passes(), "{text} {}: {factor}", reserve.case);
            if factor == 0.0 {
                assert!(!member(&grown(1e-5)).verdict.passes(), "{text} {}", reserve.case);
                continue;
            }
            let at = grown(factor);
            let g = &member(&at).governing;
            assert!((g.ratio - 1.0).abs() < 1e-6, "{text} {method} {}: {} at {factor}", reserve.case, g.ratio);
            assert_eq!(g.check, reserve.governed_by, "{text} {method} {}", reserve.case);
            assert!(!member(&grown(factor * (1.0 + 1e-6))).verdict.passes(), "{text} {method} {}: passes past its reserve", reserve.case);
            // It never fails on the way.
            let by = if factor >= 1.0 { 0.5 * (1.0 + factor) } else { factor * (1.0 - 1e-6) };
            assert!(member(&grown(by)).verdict.passes(), "{text} {method} {}: fails at {by}", reserve.case);
            tried += 1;
            failing += usize::from(factor < 1.0);
        }
    }
    assert!(tried >= 36 && failing >= 3, "{tried} reserves, {failing} of them below 1");
}

/// 2x10 at 12 ft under 50 plf of live load, closed form: the deflection limit L/360 alone stops the live load.
#[test]
fn a_reserve_by_hand() {
    let results = job(
        "{mark: M, use: joist, section: 2x10, material: {species: Douglas Fir-Larch, grade: No.2}, spacing: 16 in, spans: [12 ft], \
         braced: {top: sheathed}, limits: {total: none}, loads: [{line: L*50 plf, case: live}]}",
        "ASD",
        ("none", 1.0),
    );
    // F'_b = 900 x 1.1 x 1.15 psi; M = w L2/8; S = 21.390625 in3. Deflection 5 w L4/384 E I, I = 98.9316 in4, E = 1.6e6 psi.
    let bending: f64 = 900.0 * 1.1 * 1.15 * 21.390_625 * 8.0 / (144.0 * 144.0) * 12.0 / 50.0;
    let inertia = 1.5 * 9.25 * 9.25 * 9.25 / 12.0;
    let deflection = 144.0 / 360.0 * 384.0 * 1.6e6 * inertia / (5.0 * 144.0 * 144.0 * 144.0 * 144.0) * 12.0 / 50.0;
    let found = &member(&results).reserve;
    assert_eq!((found.len(), found[0].case.as_str()), (1, "live"));
    let expected = bending.min(deflection);
    assert!((found[0].factor.unwrap() - expected).abs() < 1e-9 * expected, "{found:?}, by hand {expected}");
    assert_eq!(found[0].governed_by, if bending < deflection { "bending" } else { "deflection" });
}
