//! Reactions from the top of a building to the ground: given once, at either end, and never lost on the way.

use latewood::results::{Member, Results};
use latewood::text::Source;
use proptest::prelude::*;

const HEAD: &str = "job: {title: Path, date: 2026-05-04}
basis: {code: american}
areas: {floor: {dead: 10 psf, live: 40 psf}}
members:
";

fn results(members: &str) -> Results {
    let source = Source::read("path.yaml", format!("{HEAD}{members}").as_bytes()).expect("text");
    latewood::check(&source, false).unwrap_or_else(|faults| panic!("{faults:?}\n{members}")).results
}

/// The messages of all errors of a job.
fn refused(members: &str) -> Vec<String> {
    let source = Source::read("path.yaml", format!("{HEAD}{members}").as_bytes()).expect("text");
    let faults = latewood::check(&source, false).err().unwrap_or_default();
    faults.into_iter().map(|fault| fault.id.to_owned()).collect()
}

fn member<'r>(results: &'r Results, mark: &str) -> &'r Member {
    results.member(mark).unwrap_or_else(|| panic!("no {mark}"))
}

/// Dead and live load of a support, lbf, each on all spans.
fn reaction(results: &Results, mark: &str, support: usize) -> [f64; 2] {
    let reaction = &member(results, mark).reactions[support - 1];
    ["dead", "live"].map(|case| reaction.by_case.get(case).map_or(0.0, |force| force.value))
}

/// The joist of these tests: 12 ft, 16 in on center. 10 psf x 4/3 ft x 12 ft / 2 = 80 lbf dead and 40 psf: 320 lbf live at each end.
fn joist(rests_on: &str) -> String {
    format!(
        "  - {{mark: J1, use: joist, section: 2x10, material: {{species: Hem-Fir, grade: No.2}}, spacing: 16 in, spans: [12 ft], braced: {{top: sheathed}}, loads: [{{area: floor}}], rests-on: {rests_on}}}\n"
    )
}

fn beam(mark: &str, rest: &str) -> String {
    format!(
        "  - {{mark: {mark}, use: beam, section: 4x12, material: {{species: Douglas Fir-Larch, grade: No.1}}, self-weight: no, {rest}}}\n"
    )
}

fn post(mark: &str, rest: &str) -> String {
    format!(
        "  - {{mark: {mark}, use: post, section: 6x6, material: {{species: Douglas Fir-Larch, grade: No.1}}, length: 9 ft, self-weight: no, {rest}}}\n"
    )
}

fn stud(mark: &str, rest: &str) -> String {
    format!(
        "  - {{mark: {mark}, use: stud, section: 2x6, material: {{species: Hem-Fir, grade: No.2}}, spacing: 16 in, length: 8 ft, braced: {{weak: sheathed}}, {rest}}}\n"
    )
}

/// A beam that the posts and studs of these tests stand on.
const GLUED: &str = "section: {width: 5-1/8 in, depth: 15 in}, material: {combination: 24F-V4}";

fn close(found: [f64; 2], hand: [f64; 2]) {
    for (found, hand) in found.into_iter().zip(hand) {
        assert!((found - hand).abs() < 1e-6 * hand.abs().max(1.0), "{found} by the program, {hand} by hand");
    }
}

#[test]
fn a_load_reaches_the_ground_by_rests_on_alone() {
    // J1 80/320 lbf at 16 in: 60/240 plf on B1, 10 ft: 300/1200 lbf at each end. B1 stands on P1 and, at its mid-span, on B2, 8 ft: half of
    // that at each end of B2, 150/600 lbf. P1 stands on B3, 12 ft, 3 ft from its left end: 3/4 and 1/4 of 300/1200.
    let job = joist("[wall W1, B1]")
        + &beam("B1", "spans: [10 ft], rests-on: [P1, {mark: B2, at: 4 ft}]")
        + &beam("B2", "spans: [8 ft], rests-on: [pier, pier]")
        + &beam("B3", "spans: [12 ft], rests-on: [footing F1, footing F2]")
        + &post("P1", "rests-on: [{mark: B3, at: 3 ft}]");
    let results = results(&job);
    close(reaction(&results, "J1", 2), [80.0, 320.0]);
    close(reaction(&results, "B1", 1), [300.0, 1200.0]);
    close(reaction(&results, "P1", 1), [300.0, 1200.0]);
    close(reaction(&results, "B2", 2), [150.0, 600.0]);
    close(reaction(&results, "B3", 1), [225.0, 900.0]);
    close(reaction(&results, "B3", 2), [75.0, 300.0]);
    // Equilibrium: what B2 and B3 and the wall give to the ground is what acts on the joists over the 10 ft of B1.
    let ground = [("B2", 1), ("B2", 2), ("B3", 1), ("B3", 2)].map(|(mark, support)| reaction(&results, mark, support)[1]);
    assert!((ground.iter().sum::<f64>() - 240.0 * 10.0).abs() < 1e-6);
    for (mark, support, by) in
        [("J1", 1, "wall W1"), ("J1", 2, "B1"), ("B1", 1, "P1"), ("B1", 2, "B2"), ("P1", 1, "B3"), ("B3", 1, "footing F1")]
    {
        assert_eq!(member(&results, mark).reactions[support - 1].received_by, by, "{mark}");
    }
    assert!(results.assumptions.iter().any(|a| a.text.contains("at the spacing of the supported members") && a.members == ["J1"]));
}

#[test]
fn a_row_rests_partly_on_a_wall_and_partly_on_the_header_in_it() {
    // The header takes the row over its own 6 ft: 60/240 plf, 180/720 lbf at each end; the stud of the wall, 16 in apart like the joists, one of
    // them.
    let job = joist("[[wall W1, H1, S1], ledger]") + &beam("H1", "spans: [6 ft], rests-on: [jack, jack]") + &stud("S1", "rests-on: [sill]");
    let results = results(&job);
    close(reaction(&results, "H1", 1), [180.0, 720.0]);
    close(reaction(&results, "S1", 1), [80.0, 320.0]);
    let reaction = &member(&results, "J1").reactions[0];
    assert_eq!((reaction.received_by.as_str(), reaction.receiver.as_str()), ("wall W1, H1, S1", "member"));
    let kinds: Vec<&str> = reaction.receivers.iter().map(|receiver| receiver.kind.as_str()).collect();
    assert_eq!(kinds, ["named", "member", "member"]);
    // From 1 ft to 4 ft only: 3 ft x 60/240 plf, whose middle is 2.5 ft from the left: 105/420 and 75/300 lbf.
    let part = joist("[[wall W1, {mark: H1, from: 1 ft, to: 4 ft}], ledger]") + &beam("H1", "spans: [6 ft], rests-on: [jack, jack]");
    let part = self::results(&part);
    close(self::reaction(&part, "H1", 1), [105.0, 420.0]);
}

#[test]
fn a_post_at_each_end_takes_the_larger_end() {
    // 80 plf dead over the left 3 ft of 9 ft: 80 x 3 = 240 lbf, 200 lbf at the left end and 40 lbf at the right; a live load of 900 lbf 6 ft from
    // the left: 300 lbf at the left, 600 lbf at the right. Each P1 takes 200 lbf dead and 600 lbf live.
    let loads = "loads: [{line: 80 plf, case: dead, to: 3 ft}, {point: 900 lbf, case: live, at: 6 ft}]";
    let job = beam("B1", &format!("spans: [9 ft], rests-on: [P1, P1], {loads}")) + &post("P1", "rests-on: [pier]");
    let results = results(&job);
    close(reaction(&results, "P1", 1), [200.0, 600.0]);
    assert_eq!(member(&results, "B1").reactions.iter().map(|r| r.received_by.as_str()).collect::<Vec<_>>(), ["P1", "P1"]);
    let words: Vec<&str> = member(&results, "P1").loads.iter().map(|load| load.because.as_str()).collect();
    assert_eq!(words, ["reaction B1, support 1, the largest of 2", "reaction B1, support 2, the largest of 2"]);
    // A row of joists across one beam at both ends is not the same: the middle one of three carries both, the outer ones one each.
    assert_eq!(refused(&(joist("[B1, B1]") + &beam("B1", "spans: [9 ft], rests-on: [pier, pier]"))), ["rests-on-both"]);
}

#[test]
fn rows_from_both_sides_count_twice() {
    // 2 x 60/240 plf over 10 ft: 600/2400 lbf at each end.
    let job = joist("[wall, {mark: B1, sides: 2}]") + &beam("B1", "spans: [10 ft], rests-on: [pier, pier]");
    close(reaction(&results(&job), "B1", 1), [600.0, 2400.0]);
}

#[test]
fn both_ends_may_say_the_same_and_neither_counts_twice() {
    let listed = beam("B1", "spans: [10 ft], rests-on: [pier, pier], loads: [{reaction: J1, support: 2, every: 16 in}]");
    for rests_on in ["[wall, B1]", "[wall, ~]", "[wall, {mark: B1}]", "[wall, [B1, wall]]"] {
        close(reaction(&results(&(joist(rests_on) + &listed)), "B1", 1), [300.0, 1200.0]);
    }
    assert_eq!(refused(&(joist("[wall, wall]") + &listed)), ["rests-on-elsewhere"]);
    assert_eq!(refused(&(joist("[wall, {mark: B1, every: 24 in}]") + &listed)), ["rests-on-twice"]);
    // The other support is listed, this one is not.
    assert_eq!(refused(&(joist("[B1, ~]") + &listed)), ["rests-on-both"]);
    assert_eq!(refused(&joist("[wall, J1]")), ["rests-on-itself"]);
}

#[test]
fn a_circle_by_rests_on_is_refused() {
    let job = beam("B1", "spans: [10 ft], rests-on: [{mark: B2, at: 2 ft}, pier]")
        + &beam("B2", "spans: [10 ft], rests-on: [pier, {mark: B1, at: 2 ft}]");
    assert_eq!(refused(&job), ["circle"]);
}

/// The same reaction given at the end of the giver, J1, B1 or S1, and at the end of the receiver X1.
fn two_ways(giver: &str, how: &str, receiver: &str) -> (String, String) {
    let write = |named: &str, listed: &str| {
        let under = |mark: &str| if giver == mark { named.to_owned() } else { "pier".to_owned() };
        let loads = "loads: [{line: 70 plf, case: dead}, {point: 900 lbf, case: snow, at: 14 ft}]";
        joist(&format!("[wall, {}]", under("J1")))
            + &beam("B1", &format!("spans: [11 ft, 7 ft], rests-on: [pier, {}, pier], {loads}", under("B1")))
            + &stud("S1", &format!("rests-on: [{}], loads: [{{axial: 700 lbf, case: snow}}]", under("S1")))
            + &receiver.replace("LISTED", listed)
    };
    let support = if giver == "S1" { 1 } else { 2 };
    let listed = format!(", loads: [{{reaction: {giver}, support: {support}{how}}}]");
    (write(&format!("{{mark: X1{how}}}"), ""), write("~", &listed))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn given_at_either_end_the_results_are_the_same(
        every in 6u32..40, at in 1u32..11, (from, to) in (0u32..5, 6u32..11), kind in 0usize..6, off in 0u32..3,
    ) {
        let lying = format!("  - {{mark: X1, {GLUED}, use: beam, spans: [12 ft], rests-on: [pier, pier]LISTED}}\n");
        let upright = post("X1", "rests-on: [pier]LISTED").replace("self-weight: no", "self-weight: yes");
        let (giver, how, receiver) = match kind {
            0 => ("J1", format!(", every: {every} in"), lying),
            1 => ("J1", format!(", every: {every} in, from: {from} ft, to: {to} ft"), lying),
            2 => ("B1", format!(", at: {at} ft"), lying),
            3 => ("B1", format!(", eccentricity: {{strong: {off} in}}"), upright),
            // Its feet press on the top of the beam too.
            4 => ("S1", format!(", every: {every} in, bearing: 5-1/2 in"), lying),
            _ => ("J1", format!(", every: {every} in"), stud("X1", "rests-on: [sill]LISTED")),
        };
        let (short, long) = two_ways(giver, &how, &receiver);
        prop_assert_eq!(results(&short).members, results(&long).members);
    }
}

#[test]
fn a_row_of_studs_on_a_beam_presses_on_its_top() {
    let job = stud("S1", "rests-on: [X1], loads: [{axial: 700 lbf, case: snow}]")
        + &format!("  - {{mark: X1, {GLUED}, use: beam, spans: [12 ft], rests-on: [pier, pier], self-weight: no}}\n");
    let results = results(&job);
    // 700 lbf every 16 in over 12 ft: 700 x 9 / 2 = 3150 lbf at each end.
    assert!((member(&results, "X1").reactions[0].by_case["snow"].value - 3150.0).abs() < 1e-6);
    assert!(member(&results, "X1").checks.iter().any(|check| check.what == "on the top"), "{:?}", member(&results, "X1").checks);
}

/// A member of a random building: what it is, its length, how far down the list each support finds what it rests on (0: the ground), where
/// on it, its loads.
type Random = (usize, u32, [usize; 2], [u32; 2], u32, u32);

fn random() -> impl Strategy<Value = Random> {
    (0usize..4, 6u32..14, [0usize..4, 0usize..4], [0u32..6, 0u32..6], 10u32..200, 100u32..900)
}

/// The building, and all live load on it, lbf. Every member is alone in its place, every span a single one.
fn building(all: &[Random]) -> (String, f64) {
    let (mut text, mut total) = (String::new(), 0.0);
    let stands = |i: usize| all[i].0 == 0;
    for (i, &(kind, length, below, at, line, force)) in all.iter().enumerate() {
        let under = |side: usize| {
            let other = i + below[side];
            // Two supports do not rest on one member.
            let apart = side == 0 || below[0] != below[1];
            match () {
                () if below[side] == 0 || other >= all.len() || !apart => "ground".to_owned(),
                () if stands(other) => format!("M{other}"),
                () => format!("{{mark: M{other}, at: {} ft}}", at[side]),
            }
        };
        let wood = "material: {species: Douglas Fir-Larch, grade: No.1}, self-weight: no";
        let (what, rests_on, loads) = match kind {
            0 => (format!("post, section: 8x8, length: {length} ft"), under(0), format!("{{axial: {force} lbf, case: live}}")),
            1 => (
                format!("tie, section: 4x12, length: {length} ft"),
                format!("{}, {}", under(0), under(1)),
                format!("{{point: {force} lbf, case: live, at: {} ft}}", at[0]),
            ),
            _ => (
                format!("beam, section: 6x16, spans: [{length} ft]"),
                format!("{}, {}", under(0), under(1)),
                format!("{{point: {force} lbf, case: live, at: {} ft}}, {{line: {line} plf, case: live}}", at[0]),
            ),
        };
        total += f64::from(force) + if kind > 1 { f64::from(line * length) } else { 0.0 };
        text.push_str(&format!("  - {{mark: M{i}, use: {what}, {wood}, rests-on: [{rests_on}], loads: [{loads}]}}\n"));
    }
    (text, total)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn all_that_acts_reaches_the_ground(all in proptest::collection::vec(random(), 2..9)) {
        let (job, total) = building(&all);
        let results = results(&job);
        let ground = results.members.iter().flat_map(|member| &member.reactions).filter(|reaction| reaction.receiver != "member");
        let found: f64 = ground.filter_map(|reaction| reaction.by_case.get("live")).map(|force| force.value).sum();
        prop_assert!((found - total).abs() < 1e-6 * total, "{} of {} lbf reach the ground\n{}", found, total, job);
    }
}
