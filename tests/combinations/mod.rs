//! Which cases act together: absent cases, cases that exclude each other, durations, balance, deflections. Figures by hand.

use latewood::results::{Check, Member, Results};
use latewood::text::Source;

fn results(basis: &str, members: &str) -> Results {
    let job = format!("job: {{title: Cases, number: T-50, date: 2026-02-02}}\nbasis: {{{basis}}}\nmembers:\n{members}");
    let source = Source::read("job", job.as_bytes()).unwrap();
    latewood::check(&source, true).map_err(|f| latewood::cli::snippet::render(&source, &f, false)).unwrap().results
}

/// A 2x12 No.1 over 10 ft, both edges held: S 31.640625 in³, F_b 1000 psi, C_F 1.0; 1 plf makes 1 x 10² / 8 x 12 = 150 lb in.
fn joist(basis: &str, loads: &str) -> Member {
    let member = format!(
        "  - {{mark: J1, use: joist, section: 2x12, material: {{species: Douglas Fir-Larch, grade: No.1}}, spans: [10 ft], braced: {{top: \
         continuous, bottom: continuous}}, loads: [{loads}]}}\n"
    );
    results(&format!("code: american, {basis}"), &member).members.remove(0)
}

fn under<'m>(member: &'m Member, check: &str, combination: &str) -> Option<&'m Check> {
    member.checks.iter().find(|c| c.check == check && c.combination == combination)
}

fn bending(member: &Member, combination: &str) -> f64 {
    under(member, "bending", combination).unwrap_or_else(|| panic!("{combination}")).ratio
}

/// The ratio in bending under so many plf at C_D.
fn due(plf: f64, c_d: f64) -> f64 {
    plf * 150.0 / 31.640_625 / (1000.0 * c_d)
}

fn near(found: f64, due: f64) {
    assert!((found - due).abs() <= 1e-7 * due.abs().max(1e-3), "{found}, by hand {due}");
}

/// Reading 50: wind down and wind up are two cases of one nature. D + 0.6 W is 20 + 120 = 140 plf, 0.6 D + 0.6 up is 12 - 156 = -144
/// plf; both together would be 20 + 120 - 156 = -16. A support has half the span: 140 x 5 = 700 lb, -144 x 5 = -720 lb.
#[test]
fn wind_down_and_wind_up_do_not_relieve_each_other() {
    let loads = "{line: 20 plf, case: dead}, {line: 200 plf, case: wind}, {line: -260 plf, case: up}";
    let member = joist("cases: {up: {like: wind}}", loads);
    near(bending(&member, "D + 0.6 W"), due(140.0, 1.6));
    near(bending(&member, "0.6 D + 0.6 up"), due(144.0, 1.6));
    assert_eq!(member.governing.combination, "0.6 D + 0.6 up");
    let reaction = &member.reactions[0];
    near(reaction.largest.force.value, 700.0);
    assert_eq!(reaction.smallest.combination, "0.6 D + 0.6 up");
    near(reaction.smallest.force.value, -720.0);
}

/// ASCE 7 2.4.1: a live load that pulls upward does not relieve snow and wind. D + 0.75 S + 0.45 W without it is
/// 20 + 75 + 90 = 185 plf at C_D 1.6, worse than D + S, 120 plf at 1.15, and D + 0.6 W, 140 plf at 1.6.
#[test]
fn a_case_that_relieves_is_absent() {
    let loads = "{line: 20 plf, case: dead}, {line: -80 plf, case: live}, {line: 100 plf, case: snow}, {line: 200 plf, case: wind}";
    let member = joist("loading: ASCE7-16", loads);
    near(bending(&member, "D + 0.75 S + 0.45 W"), due(185.0, 1.6));
    assert_eq!(member.governing.combination, "D + 0.75 S + 0.45 W");
}

/// Readings 46 and 50: exclusion holds pair by pair. 20 + 40 + 40 = 100 plf of D, safe and pallet; never a pair that excludes itself.
#[test]
fn cases_that_exclude_others_independently_act_together() {
    let cases = "cases: {rack: {like: live}, safe: {like: live, instead-of: live}, pallet: {like: live, instead-of: rack}}";
    let line = |plf: u32, case: &str| format!("{{line: {plf} plf, case: {case}}}");
    let loads = [line(20, "dead"), line(10, "live"), line(10, "rack"), line(40, "safe"), line(40, "pallet")].join(", ");
    let member = joist(cases, &loads);
    near(bending(&member, "D + safe + pallet"), due(100.0, 1.0));
    let names: Vec<&str> = member.checks.iter().map(|c| c.combination.as_str()).collect();
    assert!(!names.iter().any(|n| n.contains(" L") && n.contains("safe") || n.contains("rack") && n.contains("pallet")), "{names:?}");
    // A chain: the first and the last are not excluded by each other.
    let chain = "cases: {b: {like: live, instead-of: live}, c: {like: live, instead-of: b}}";
    let loads = [line(20, "dead"), line(30, "live"), line(35, "b"), line(30, "c")].join(", ");
    near(bending(&joist(chain, &loads), "D + L + c"), due(80.0, 1.0));
    // A list: one of the three.
    let one_of = "cases: {b: {like: live, instead-of: live}, c: {like: live, instead-of: [live, b]}}";
    let member = joist(one_of, &loads);
    near(bending(&member, "D + b"), due(55.0, 1.0));
    assert!(member.checks.iter().all(|c| !c.combination.contains("b + c") && !c.combination.contains("L + c")));
}

/// Readings 50 and 53: the ten minutes that an own combination was given are those of all its cases together. Without the wind it is
/// 100 + 1.4 x 50 = 170 plf over ten years, C_D 1.0, on a member whose loads all act downward too; with it 170.5 plf at 1.6.
#[test]
fn a_case_that_is_absent_takes_the_given_duration_with_it() {
    let basis = "cases: {storage: {like: live}}, combinations: [{name: goods, factors: {dead: 1.0, storage: 1.4, wind: 0.1}, duration: \
                 ten-minutes}]";
    let member = joist(basis, "{line: 100 plf, case: dead}, {line: 50 plf, case: storage}, {line: 5 plf, case: wind}");
    near(bending(&member, "goods without W"), due(170.0, 1.0));
    near(bending(&member, "goods"), due(170.5, 1.6));
    assert_eq!(member.governing.combination, "goods without W");
}

/// Reading 53: `hoisting` is given as impact, C_D 2.0. Without the hoist the longer of that and the live load's decides: C_D 1.0.
#[test]
fn a_given_duration_holds_where_all_cases_act() {
    let basis = "cases: {hoist: {like: live, duration: impact}}, combinations: [{name: hoisting, factors: {dead: 1.0, live: 1.0, hoist: 1.0}, \
                 duration: impact}]";
    let two = "{line: 20 plf, case: dead}, {line: 50 plf, case: live}";
    near(bending(&joist(basis, two), "hoisting"), due(70.0, 1.0));
    let three = format!("{two}, {{line: 30 plf, case: hoist}}");
    near(bending(&joist(basis, &three), "hoisting"), due(100.0, 2.0));
    // A given duration that is longer than that of the cases holds on all members.
    let long = basis.replace("duration: impact}]", "duration: permanent}]");
    near(bending(&joist(&long, two), "hoisting"), due(70.0, 0.9));
}

const BEAM: &str = "use: beam, section: {width: 100 mm, depth: 300 mm}, material: {class: C24}, self-weight: no, braced: {top: continuous, bottom: \
                    continuous}";

/// Reading 51, EN 1990 Table A1.2(A). 4 m and an overhang of 2 m under G 1 and Q 2 kN/m. Left support: G on the span 1 x 4 / 2 = 2.0, on
/// the overhang -1 x 2 x 1 / 4 = -0.5, Q on the overhang -1.0: 0.9 x 2.0 - 1.1 x 0.5 - 1.5 x 1.0 = -0.25 kN. Right support: nothing
/// lowers it, 0.9 (2.0 + 2.5) = 4.05 kN.
#[test]
fn balance_takes_permanent_load_part_by_part() {
    let member = format!(
        "  - {{mark: B1, {BEAM}, spans: [4 m], overhangs: {{right: 2 m}}, loads: [{{line: 1 kN/m, case: dead}}, {{line: 2 kN/m, case: live}}]}}\n"
    );
    let results = results("code: european", &member);
    let smallest = |support: usize| &results.members[0].reactions[support].smallest;
    assert_eq!((smallest(0).combination.as_str(), smallest(1).combination.as_str()), ("0.9/1.1 G + 1.5 Q", "0.9 G"));
    near(smallest(0).force.value, -0.25);
    near(smallest(1).force.value, 4.05);
}

/// The deflection of the joist under 1 plf: 5 (1/12) 120⁴ / (384 E I), in.
const PER_PLF: f64 = 5.0 / 12.0 * 207_360_000.0 / (384.0 * 1.7e6 * 177.978_515_625);

/// Reading 59. E 1 700 000 psi, I 177.98 in⁴: 1 plf deflects 5 x (1/12) x 120⁴ / (384 E I) = 7.4362e-4 in. Total: 20 x 2 + 50 = 90 plf
/// over L/240 = 0.5 in; live: 50 plf over L/360 = 0.3333 in.
#[test]
fn own_deflections_count_against_total_and_live() {
    let combinations =
        |list: &str| format!("combinations: {{only: yes, list: [{{name: full, factors: {{dead: 1.0, live: 1.0}}}}, {list}]}}");
    let loads = "{line: 20 plf, case: dead}, {line: 50 plf, case: live}";
    let member = joist(&combinations("{name: creep, factors: {dead: 2.0, live: 1.0}, for: deflection}"), loads);
    let of = |what: &str| member.deflections.iter().find(|d| d.what == what && d.limit.is_some()).unwrap();
    near(of("total").ratio.unwrap(), 90.0 * PER_PLF / 0.5);
    near(of("live").ratio.unwrap(), 50.0 * PER_PLF / (120.0 / 360.0));
    assert!(!member.not_checked.iter().any(|text| text.contains("deflection")), "{:?}", member.not_checked);
    // A limit that nothing is checked against is named.
    let member = joist(&combinations("{name: sag, factors: {dead: 1.0}, for: deflection}"), loads);
    assert!(member.unmade.iter().any(|text| text.contains("live")), "{:?}", member.unmade);
}

/// Deflections under wind down and wind up, each alone: 200 and 260 plf of `wind`, not 60.
#[test]
fn deflections_leave_out_what_relieves() {
    let loads = "{line: 20 plf, case: dead}, {line: 200 plf, case: wind}, {line: -260 plf, case: up}";
    let member = joist("cases: {up: {like: wind}}, limits: {floor: {wind: L/180}}", loads);
    let winds = member.deflections.iter().filter(|d| d.what == "wind");
    let worst = winds.map(|d| d.ratio.unwrap()).fold(0.0, f64::max);
    near(worst, 260.0 * PER_PLF / (120.0 / 180.0));
}

/// Reading 56: goods in store are category E, psi_0 1.0 and long-term, beside imposed load of category A.
#[test]
fn a_case_takes_its_own_category() {
    let member = format!(
        "  - {{mark: B1, {BEAM}, spans: [4 m], loads: [{{line: 1 kN/m, case: dead}}, {{line: 2 kN/m, case: store}}, {{line: 1 kN/m, case: snow}}]}}\n"
    );
    let named = |basis: &str, name: &str| {
        let results = results(&format!("code: european, {basis}"), &member);
        results.combinations.into_iter().find(|c| c.name == name).map(|c| c.duration)
    };
    let own = "cases: {store: {like: live, use-category: E}}";
    assert_eq!(named(own, "1.35 G + 1.5 store").as_deref(), Some("long-term"));
    assert_eq!(named(own, "1.35 G + 1.5 S + 1.5 store").as_deref(), Some("short-term"));
    let basis = "cases: {store: {like: live}}";
    assert_eq!(named(basis, "1.35 G + 1.5 store").as_deref(), Some("medium-term"));
    assert_eq!(named(basis, "1.35 G + 1.5 S + 1.05 store").as_deref(), Some("short-term"));
}

/// The quasi-permanent deflection under cases that exclude each other: 1.0 G + 0.3 x 2 kN/m, not + 0.3 x (2 + 2). With k_def 0.6:
/// (1 + 0.6)(1.0 + 0.6) against (1 + 0.6) 1.0 of permanent load alone: 1.6 times as much.
#[test]
fn a_quasi_permanent_deflection_tells_alternatives_apart() {
    let member = format!(
        "  - {{mark: B1, {BEAM}, spans: [4 m], loads: [{{line: 1 kN/m, case: dead}}, {{line: 2 kN/m, case: live}}, {{line: 2 kN/m, case: safe}}]}}\n"
    );
    let results = results("code: european, country: DE, cases: {safe: {like: live, instead-of: live}}", &member);
    let of =
        |name: &str| results.members[0].deflections.iter().find(|d| d.what == "net-final" && d.combination == name).unwrap().value.value;
    near(of("G + 0.3 Q with creep") / of("G with creep"), 1.6);
    near(of("G + 0.3 safe with creep") / of("G with creep"), 1.6);
    assert!(results.members[0].deflections.iter().all(|d| !(d.combination.contains('Q') && d.combination.contains("safe"))));
}

/// Axial force and moment come from the same cases: two live loads on either side of a post make no moment together; one of them alone
/// makes what it makes on a post that never gets the other.
#[test]
fn a_post_takes_force_and_moment_from_one_set_of_cases() {
    let post = |loads: &str| {
        let member = format!(
            "  - {{mark: P1, use: post, section: 6x6, material: {{species: Douglas Fir-Larch, grade: No.1}}, length: 12 ft, ends: {{top: \
             pinned, bottom: pinned}}, self-weight: no, loads: [{{axial: 1000 lbf, case: dead}}{loads}]}}\n"
        );
        results("code: american, cases: {east: {like: live}}", &member).members.remove(0)
    };
    let west = ", {axial: 9000 lbf, case: live, eccentricity: {strong: 2 in}}";
    let east = ", {axial: 9000 lbf, case: east, eccentricity: {strong: -2 in}}";
    let (both, one) = (post(&format!("{west}{east}")), post(west));
    let ratio = |member: &Member, name: &str| under(member, "bending_and_compression", name).unwrap_or_else(|| panic!("{name}")).ratio;
    near(ratio(&both, "D + L"), ratio(&one, "D + L"));
    assert!(under(&both, "bending_and_compression", "D + L + east").is_none());
    // Without any moment: what a centric force of 19 000 lb makes.
    let centric = post(", {axial: 9000 lbf, case: live}, {axial: 9000 lbf, case: east}");
    let compression = |member: &Member| under(member, "compression", "D + L + east").unwrap().ratio;
    near(compression(&both), compression(&centric));
}
