//! What an area load becomes: on hips and valleys, whose tributary width grows along them, and where live load is reduced by the area.

use latewood::results::{Check, Member, Results};
use latewood::text::Source;

fn tried(areas: &str, members: &str) -> Result<Results, String> {
    let job = format!(
        "job: {{title: Areas, number: T-11, date: 2026-02-02}}\nbasis: {{code: american}}\nareas: {{{areas}}}\nmembers:\n{members}"
    );
    let source = Source::read("job", job.as_bytes()).unwrap();
    latewood::check(&source, true).map(|checked| checked.results).map_err(|f| latewood::cli::snippet::render(&source, &f, false))
}

fn check(areas: &str, members: &str) -> Results {
    tried(areas, members).unwrap_or_else(|f| panic!("{f}"))
}

fn found<'a>(member: &'a Member, name: &str, combination: &str) -> &'a Check {
    let of = |c: &&Check| c.check == name && c.combination == combination;
    member.checks.iter().filter(of).max_by(|a, b| a.ratio.total_cmp(&b.ratio)).unwrap_or_else(|| panic!("no {name} under {combination}"))
}

fn step(check: &Check, symbol: &str) -> f64 {
    check.steps.iter().rev().find(|s| s.symbol == symbol).unwrap_or_else(|| panic!("no {symbol}")).value
}

/// A hip in plan: jack rafters hand it half of what lies between it and both eaves, a triangle that is half as wide as the hip is long at its
/// top. Statics of a triangular load w on the plan length L: w L / 6 and w L / 3, moment w L²/(9 √3) at L/√3; dead load is per area
/// of the roof, which is steeper than the hip; a slope of n in 12 is n in 17 along it, 12 √2 being 16.97.
#[test]
fn a_hip_takes_a_triangle_from_both_sides() {
    for rise in [4.0_f64, 6.0, 9.0, 12.0] {
        let length = 16.0 * std::f64::consts::SQRT_2;
        let along = 12.0 * std::f64::consts::SQRT_2;
        let member = |load: &str| {
            format!(
                "  - {{mark: HR1, use: rafter, section: 6x14, material: {{species: Douglas Fir-Larch, grade: No.1}}, slope: \"{rise}:{along}\", \
                 spans: [{length} ft], loads: [{load}]}}\n"
            )
        };
        let results = check(
            "roof: {dead: 14 psf, snow: 30 psf}",
            &member(&format!("{{area: roof, width: [0 ft, {} ft], slope: \"{rise}:12\"}}", length / 2.0)),
        );
        let (hip, roof) = (libm::atan2(rise, along), libm::atan2(rise, 12.0));
        let dead = 14.0 / libm::cos(roof) * length / 2.0;
        let snow = 30.0 * length / 2.0;
        let member_of = &results.members[0];
        for (support, part) in [(0, 6.0), (1, 3.0)] {
            let by_case = &member_of.reactions[support].by_case;
            assert!((by_case["dead"].value - dead * length / part).abs() < 1e-6 * dead * length, "{rise}: {by_case:?}");
            assert!((by_case["snow"].value - snow * length / part).abs() < 1e-6 * snow * length, "{rise}: {by_case:?}");
        }
        let bending = found(member_of, "bending", "D + S");
        let moment = (dead + snow) * length * length / (9.0 * libm::sqrt(3.0));
        assert!((step(bending, "M") - moment).abs() < 1e-7 * moment, "{rise}: {} and {moment}", step(bending, "M"));
        assert!((bending.at.value * libm::cos(hip) - length / libm::sqrt(3.0)).abs() < 1e-6, "{rise}: at {}", bending.at.value);
    }
}

/// The whole of what lies on the triangle is what jack rafters, each worked as a member, hand down together.
#[test]
fn jack_rafters_hand_a_hip_what_its_triangle_says() {
    // Very many jacks of both slopes stand for the surface: half of each, every inch along 12 ft of eaves.
    let (eaves, rise) = (12.0_f64, 7.0_f64);
    let jack = |length: f64| -> f64 {
        let member = format!(
            "  - {{mark: J, use: rafter, section: 2x6, material: {{species: Hem-Fir, grade: No.2}}, spacing: 6 in, slope: \"{rise}:12\", spans: \
             [{length} ft], loads: [{{area: roof}}]}}\n"
        );
        check("roof: {dead: 12 psf, snow: 25 psf}", &member).members[0].reactions[1].by_case.values().map(|v| v.value).sum()
    };
    let jacks: f64 = (0..24).map(|i| 2.0 * jack(0.5 * f64::from(i) + 0.25)).sum();
    let length = eaves * std::f64::consts::SQRT_2;
    let hip = format!(
        "  - {{mark: HR1, use: rafter, section: 4x12, material: {{species: Hem-Fir, grade: No.2}}, slope: \"{rise}:{}\", spans: [{length} ft], \
         loads: [{{area: roof, width: [0 ft, {} ft], slope: \"{rise}:12\"}}]}}\n",
        12.0 * std::f64::consts::SQRT_2,
        length / 2.0
    );
    let results = check("roof: {dead: 12 psf, snow: 25 psf}", &hip);
    let sum: f64 = results.members[0].reactions.iter().flat_map(|r| r.by_case.values()).map(|v| v.value).sum();
    assert!((sum - jacks).abs() < 1e-9 * sum, "{sum} on the hip, {jacks} by the jacks");
}

const FLOOR: &str = "floor: {dead: 10 psf, live: 40 psf}";

/// A beam that asks for a reduction, and a post under it that asks for its own.
fn framed(live: &str, beam: &str, post: &str) -> Result<Results, String> {
    let material = "material: {species: Douglas Fir-Larch, grade: No.1}";
    tried(
        &format!("floor: {{dead: 10 psf, live: {live}}}"),
        &format!(
            "  - {{mark: J1, use: joist, section: 2x12, spacing: 12 in, spans: [10 ft], {material}, loads: [{{area: floor}}]}}\n  \
             - {{mark: B1, use: beam, section: 6x16, spans: [20 ft], {material}, {beam} loads: [{{reaction: J1, support: 1, every: 12 in}}, \
             {{reaction: J1, support: 2, every: 12 in}}]}}\n  \
             - {{mark: P1, use: post, section: 8x8, length: 9 ft, {material}, {post} loads: [{{reaction: B1, support: 1}}, {{reaction: B1, support: 2}}]}}\n"
        ),
    )
}

fn asked(area: &str, element: &str, more: &str) -> String {
    format!("live-reduction: {{tributary: {area}, element: {element}, occupancy: ordinary{more}}},")
}

/// 0.25 + 15 / √(K_LL A_T), at areas whose root is a whole number: nothing at 400 ft², a half at 3600, the least beyond; under two
/// floors 0.4 at 10,000 ft² and no less.
#[test]
fn live_load_is_reduced_by_the_area() {
    for (area, element, more, part) in [
        ("399 ft2", "other", "", 1.0),
        ("400 ft2", "other", "", 1.0),
        ("450 ft2", "interior-beam", "", 0.75),
        ("1250 ft2", "interior-beam", "", 0.55),
        ("1800 ft2", "edge-beam", "", 0.5),
        ("5000 ft2", "interior-beam", "", 0.5),
        ("5000 ft2", "interior-beam", ", floors: 2", 0.4),
        ("20000 ft2", "interior-beam", ", floors: 2", 0.4),
    ] {
        let results = framed("40 psf", &asked(area, element, more), "").unwrap();
        let reduced = &results.members[1].reduced[0];
        assert!((reduced.factor - part).abs() < 1e-9, "{area}: {}", reduced.factor);
        assert!((reduced.to.value - 40.0 * part).abs() < 1e-7, "{area}: {:?}", reduced.to);
    }
    // 42 m² are 452 ft²: the area is read in any unit.
    let metric = framed("40 psf", &asked("41.806368 m2", "interior-beam", ""), "").unwrap();
    assert!((metric.members[1].reduced[0].factor - 0.75).abs() < 1e-9);
}

/// The member's own moments and reactions are reduced, in proportion; what it hands down is whole, and the member below reduces by its own area.
#[test]
fn a_reduction_is_the_members_own() {
    let whole = framed("40 psf", "", "").unwrap();
    let beam = framed("40 psf", &asked("450 ft2", "interior-beam", ""), "").unwrap();
    let both = framed("40 psf", &asked("450 ft2", "interior-beam", ""), &asked("900 ft2", "interior-column", "")).unwrap();
    let live = |results: &Results, member: usize| results.members[member].reactions[0].by_case["live"].value;
    assert!((live(&beam, 1) - 0.75 * live(&whole, 1)).abs() < 1e-6);
    assert!((beam.members[1].reactions[0].handed_down["live"].value - live(&whole, 1)).abs() < 1e-6);
    assert!((live(&beam, 2) - live(&whole, 2)).abs() < 1e-6, "what stands below is loaded whole");
    assert!((live(&both, 2) - 0.5 * live(&whole, 2)).abs() < 1e-6, "and reduces by its own area");
    let moment = |results: &Results, combination: &str| step(found(&results.members[1], "bending", combination), "M");
    let dead = moment(&whole, "D");
    let due = dead + 0.75 * (moment(&whole, "D + L") - dead);
    assert!((moment(&beam, "D + L") - due).abs() < 1e-7 * due, "{} and {due}", moment(&beam, "D + L"));
    assert!((moment(&beam, "D") - dead).abs() < 1e-9 * dead);
    let text = |results: &Results| results.assumptions.iter().map(|a| format!("{} {:?}\n", a.text, a.members)).collect::<String>();
    assert!(text(&whole).contains("Live load is not reduced") && !text(&whole).contains("is reduced for the area"));
    assert!(text(&both).contains("is reduced for the area"));
}

/// What the standard does not reduce is refused; heavy loads and garages keep 0.8 under several floors.
#[test]
fn what_may_not_be_reduced_is_refused() {
    let heavy = framed("125 psf", &asked("450 ft2", "interior-beam", ", floors: 2"), "").unwrap();
    assert!((heavy.members[1].reduced[0].factor - 0.8).abs() < 1e-9);
    for (live, beam, word) in [
        ("125 psf", asked("450 ft2", "interior-beam", ""), "not-reduced"),
        ("40 psf", asked("450 ft2", "interior-beam", "").replace("ordinary", "assembly"), "not-reduced"),
        ("40 psf", asked("450 ft2", "interior-beam", "").replace("ordinary", "garage"), "not-reduced"),
        ("40 psf", asked("450 ft2", "interior-column", ""), "element-is-not"),
        ("0 psf", asked("450 ft2", "interior-beam", ""), "nothing-to-reduce"),
    ] {
        let refused = framed(live, &beam, "").unwrap_err();
        assert!(refused.contains(word), "{refused}");
    }
}

/// R_1 = 1.2 − 0.001 A_T and R_2 = 1.2 − 0.05 F, each between 0.6 and 1, and 12 psf at least.
#[test]
fn roof_live_load_is_reduced_by_area_and_slope() {
    for (area, slope, load) in [
        (150.0, "2:12", 20.0),
        (200.0, "4:12", 20.0),
        (300.0, "4:12", 18.0),
        (300.0, "8:12", 14.4),
        (600.0, "3:12", 12.0),
        (900.0, "3:12", 12.0),
        (100.0, "12:12", 12.0),
        (500.0, "10:12", 12.0),
    ] {
        let member = format!(
            "  - {{mark: B1, use: beam, section: 6x12, spans: [12 ft], material: {{species: Hem-Fir, grade: No.1}}, roof-live-reduction: \
             {{tributary: {area} ft2, slope: {slope}}}, loads: [{{area: roof, width: 8 ft, slope: {slope}}}]}}\n"
        );
        let results = check("roof: {dead: 10 psf, roof-live: 20 psf}", &member);
        let reduced = &results.members[0].reduced[0];
        assert!((reduced.to.value - load).abs() < 1e-7, "{area}, {slope}: {:?}", reduced.to);
        let line = results.members[0].loads.iter().find(|l| l.case == "roof-live").unwrap();
        assert!((line.start.value - 8.0 * load).abs() < 1e-6, "{area}, {slope}: {:?}", line.start);
    }
}

/// A level beam under a roof: dead load is per area of the slope, snow on plan.
#[test]
fn dead_load_on_a_slope_is_more_on_plan() {
    let member = "  - {mark: RB1, use: beam, section: 6x12, spans: [12 ft], material: {species: Hem-Fir, grade: No.1}, self-weight: no, \
                  loads: [{area: roof, width: 10 ft, slope: \"9:12\"}]}\n";
    let results = check("roof: {dead: 12 psf, snow: 30 psf}", member);
    let start = |case: &str| results.members[0].loads.iter().find(|l| l.case == case).unwrap().start.value;
    // 3-4-5: the cosine is 0.8.
    assert!((start("dead") - 12.0 * 10.0 / 0.8).abs() < 1e-7 && (start("snow") - 300.0).abs() < 1e-7);
    let level = check(FLOOR, &member.replace("roof", "floor").replace(", slope: \"9:12\"", ""));
    assert!((level.members[0].loads[0].start.value - 100.0).abs() < 1e-7);
}
