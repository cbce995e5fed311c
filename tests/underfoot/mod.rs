//! Posts and studs that stand on a member: what their feet do to its top. NDS 3.10.2 and 3.10.4; the figures are worked by hand.

use latewood::results::{Check, Results};
use latewood::text::Source;
use latewood::units::decimals;

/// A 6x12 of Douglas Fir-Larch No.1, 10 ft long, F_c,perp 625 psi, under a post that brings down 15,000 lbf of live load.
fn beam(section: &str, post: &str, arrives: &str, lines: &str) -> Results {
    let job = format!(
        "job: {{title: A foot, date: 2026-01-05}}\nbasis: {{code: american}}\nmembers:\n  - {{mark: P1, use: post, section: {post}, self-weight: no, \
         material: {{species: Douglas Fir-Larch, grade: No.1}}, length: 8 ft, loads: [{{axial: 15000 lbf, case: live}}]}}\n  - {{mark: B1, use: beam, \
         section: {section}, material: {{species: Douglas Fir-Larch, grade: No.1}}, spans: [10 ft], braced: {{top: continuous}}, self-weight: no, {lines}\
         loads: [{{reaction: P1, support: 1, {arrives}}}]}}\n"
    );
    let source = Source::read("foot", job.as_bytes()).unwrap();
    latewood::check(&source, false).unwrap_or_else(|f| panic!("{}", latewood::cli::snippet::render(&source, &f, false))).results
}

fn under(results: &Results) -> &Check {
    results.member("B1").unwrap().checks.iter().find(|c| c.check == "bearing" && c.what == "on the top").unwrap()
}

fn step(check: &Check, symbol: &str) -> f64 {
    check.steps.iter().find(|s| s.symbol == symbol).unwrap_or_else(|| panic!("no {symbol}")).value
}

/// 15,000 / 5.5² = 495.87 psi; C_b = 5.875 / 5.5; 625 x C_b = 667.61 psi.
#[test]
fn a_square_post_on_a_beam() {
    let results = beam("6x12", "6x6", "at: 4 ft", "");
    let check = under(&results);
    assert!((check.ratio - 15_000.0 / 30.25 / (625.0 * 5.875 / 5.5)).abs() < 1e-9, "{}", check.ratio);
    assert_eq!((check.support, check.span, check.place.as_str()), (None, Some(1), "under P1, at 4.00 ft"));
    assert!(results.member("B1").unwrap().assumed.contains_key("foot"));
}

/// The factor counts where the foot ends 3 in or more from the end of the member, and is shorter than 6 in.
#[test]
fn near_an_end_and_long_feet_have_no_factor() {
    let factor = |arrives: &str, post: &str| step(under(&beam("8x12", post, arrives, "")), "C_b");
    assert!((factor("at: 5.75 in", "6x6") - 5.875 / 5.5).abs() < 1e-9);
    assert_eq!(factor("at: 5.74 in", "6x6"), 1.0);
    assert_eq!(factor("at: 114.26 in", "6x6"), 1.0);
    assert_eq!(factor("at: 4 ft, bearing: [6 in, 5-1/2 in]", "6x6"), 1.0);
    assert!((factor("at: 4 ft, bearing: [5 in, 5-1/2 in]", "6x6") - 5.375 / 5.0).abs() < 1e-9);
}

/// How a post is turned decides over the factor, and over how much of it stands on a narrow beam; what is not said is taken the worse way.
#[test]
fn the_worse_of_two_ways_counts() {
    for (section, along_depth, along_width) in [
        ("8x12", [5.5, 3.5], [3.5, 5.5]),
        // Only 3.5 in of the width stand on a 4x.
        ("4x12", [5.5, 3.5], [3.5, 3.5]),
    ] {
        let by_hand = |[long, wide]: [f64; 2]| 15_000.0 / (long * wide) / (625.0 * (long + 0.375) / long);
        let of = |said: &str| under(&beam(section, "4x6", &format!("at: 4 ft{said}"), "")).ratio;
        let (depth, width, unsaid) = (of(", bearing: 5-1/2 in"), of(", bearing: 3-1/2 in"), of(""));
        assert!((depth - by_hand(along_depth)).abs() < 1e-9 && (width - by_hand(along_width)).abs() < 1e-9, "{section}: {depth}, {width}");
        assert!((unsaid - depth.max(width)).abs() < 1e-12, "{section}: {unsaid}");
    }
}

/// Studs in a row press one by one: a stud at 16 in on a wall of 900 plf brings 1200 lbf to 1.5 x 3.5 in.
#[test]
fn a_row_of_studs_presses_stud_by_stud() {
    let job = "job: {title: A wall, date: 2026-01-05}\nbasis: {code: american}\nmembers:\n  - {mark: S1, use: stud, section: 2x4, spacing: 16 in, self-weight: no, \
               material: {species: Hem-Fir, grade: No.2}, length: 8 ft, braced: {weak: sheathed}, loads: [{axial: 1200 lbf, case: live}]}\n  - {mark: B1, \
               use: beam, section: 4x12, material: {species: Hem-Fir, grade: No.2}, spans: [6 ft], braced: {top: continuous}, self-weight: no, \
               loads: [{reaction: S1, support: 1, every: 16 in}]}\n";
    let source = Source::read("wall", job.as_bytes()).unwrap();
    let results = latewood::check(&source, false).unwrap().results;
    let check = under(&results);
    // The row may end at the end of the beam: no factor.
    assert!((check.ratio - 1200.0 / (1.5 * 3.5) / 405.0).abs() < 1e-9, "{}", check.ratio);
    assert_eq!(check.place, "under each S1");
}

/// A live load that a beam bears in part by its own area still stands whole on its top; and no load duration enters across the grain.
#[test]
fn what_is_reduced_for_the_beam_is_whole_under_the_post() {
    let whole = under(&beam("6x12", "6x6", "at: mid", "")).ratio;
    let job = |loads: &str| {
        format!(
            "job: {{title: A foot, date: 2026-01-05}}\nbasis: {{code: american}}\nareas: {{floor: {{live: 40 psf}}}}\nmembers:\n  - {{mark: P1, use: post, \
             section: 6x6, self-weight: no, material: {{species: Douglas Fir-Larch, grade: No.1}}, length: 8 ft, loads: [{{axial: 15000 lbf, case: live}}]}}\n  - \
             {{mark: B1, use: beam, section: 6x12, material: {{species: Douglas Fir-Larch, grade: No.1}}, spans: [10 ft], braced: {{top: continuous}}, \
             self-weight: no, {loads}}}\n"
        )
    };
    let reduced = job("live-reduction: {tributary: 500 ft2, element: interior-beam, occupancy: ordinary, floors: 1}, \
         loads: [{area: floor, width: 1 ft}, {reaction: P1, support: 1, at: mid}]");
    let source = Source::read("reduced", reduced.as_bytes()).unwrap();
    match latewood::check(&source, false) {
        Ok(checked) => assert!((under(&checked.results).ratio - whole).abs() < 1e-9),
        // A code that refuses to reduce what comes down as a force has nothing to keep whole.
        Err(faults) => assert!(faults.iter().all(|f| f.id == "not-by-area"), "{faults:?}"),
    }
}

/// The ratio under a foot grows as the force does, whatever else is on the beam, and ends the reserve where it is the worst.
#[test]
fn the_reserve_ends_at_the_foot() {
    let results = beam("6x12", "4x4", "at: 6 in", "bearing: 12 in, limits: {live: none, total: none}, ");
    let (member, check) = (results.member("B1").unwrap(), under(&results));
    assert!(check.governs, "{:?}", member.governing);
    let reserve = member.reserve.iter().find(|r| r.case == "live").unwrap();
    assert_eq!(reserve.governed_by, "bearing");
    let factor = reserve.factor.unwrap();
    assert!((factor * check.ratio - 1.0).abs() < 1e-9, "{} x {}", decimals(factor, 12), check.ratio);
}

/// A beam that is wider than the post under it bears on less than its width: the register asks for what makes up for it.
#[test]
fn a_post_narrower_than_its_beam_is_said() {
    let open = |post: &str| {
        let job = format!(
            "job: {{title: A head, date: 2026-01-05}}\nbasis: {{code: american}}\nmembers:\n  - {{mark: B1, use: beam, section: 6x12, bearing: 5-1/2 in, \
             material: {{species: Douglas Fir-Larch, grade: No.1}}, spans: [10 ft], braced: {{top: continuous}}, loads: [{{line: 300 plf, case: live}}]}}\n  - \
             {{mark: P1, use: post, section: {post}, material: {{species: Douglas Fir-Larch, grade: No.1}}, length: 8 ft, loads: [{{reaction: B1, support: 1}}]}}\n"
        );
        let source = Source::read("head", job.as_bytes()).unwrap();
        let results = latewood::check(&source, false).unwrap().results;
        results.assumptions.iter().any(|a| a.open && a.text.contains("on P1, which is narrower") && a.members == ["B1"])
    };
    assert!(open("4x4"));
    assert!(!open("4x6") && !open("6x6"));
}
