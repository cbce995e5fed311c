//! What must hold of posts whatever their numbers are: near and beyond the critical stress, long and short, turned by a right angle.

use latewood::results::Results;

/// Results of a job of one post with these lines in its entry and these loads.
fn post(lines: &str, loads: &str) -> Results {
    let job = format!(
        "job: {{title: A post, date: 2026-01-05}}\nbasis: {{code: american}}\nmembers:\n  - mark: P1\n    use: post\n    section: 4x6\n    \
         material: {{species: Douglas Fir-Larch, grade: No.1}}\n    self-weight: no\n    length: 14 ft\n{lines}    loads: [{loads}]\n"
    );
    let source = latewood::text::Source::read("post", job.as_bytes()).unwrap();
    latewood::check(&source, false).unwrap_or_else(|faults| panic!("{job}\n{faults:?}")).results
}

/// The worst ratio of a check; none where it was not made.
fn ratio(results: &Results, check: &str) -> Option<f64> {
    results.members[0].checks.iter().filter(|c| c.check == check).map(|c| c.ratio).reduce(f64::max)
}

#[test]
fn compression_beyond_the_critical_stress_fails_and_is_never_negative() {
    let mut last = 0.0;
    for step in 1..50 {
        let force = f64::from(step) * 4000.0;
        for side in ["strong", "weak"] {
            let loads = format!("{{axial: {force} lbf, case: live}}, {{line: 10 plf, case: live, about: {side}}}");
            let results = post("", &loads);
            let (alone, both) = (ratio(&results, "compression").unwrap(), ratio(&results, "bending_and_compression").unwrap());
            assert!(both.is_finite() && both > 0.0, "{both} under {force} lbf");
            assert!(alone <= 1.0 || both > 1.0, "{alone} alone, {both} with bending about the {side} axis under {force} lbf");
            let steps = &results.members[0].checks.iter().find(|c| c.check == "bending_and_compression").unwrap().steps;
            assert!(steps.iter().all(|step| step.value >= 0.0), "a negative line under {force} lbf");
            if side == "weak" {
                assert!(alone > last, "{alone} under {force} lbf, {last} under less");
                last = alone;
            }
        }
    }
}

/// Sums of 3.9.2 go up with the load, also through the critical stresses of buckling along the member and sideways, where the equation has
/// no value.
#[test]
fn more_load_never_gives_a_smaller_ratio() {
    let slender = "    effective-length: {strong: 30 ft, weak: 20 ft}\n";
    let cases = [
        ("", "{axial: 100 lbf, case: live}, {line: 3 plf, case: live, about: weak}", "bending_and_compression"),
        (slender, "{axial: 100 lbf, case: live}, {line: 2 plf, case: live}", "bending_and_compression"),
        (
            slender,
            "{axial: 100 lbf, case: live}, {line: 1 plf, case: live}, {line: 1 plf, case: live, about: weak}",
            "bending_and_compression",
        ),
        ("", "{line: 30 plf, case: live}, {line: 1 plf, case: live, about: weak}", "biaxial_bending"),
    ];
    for (lines, loads, check) in cases {
        let (mut last, mut passes, mut beyond) = (0.0, 0, 0);
        for step in (1..120).step_by(3) {
            let scaled: Vec<String> = loads
                .split(' ')
                .map(|word| word.parse::<f64>().map_or_else(|_| word.to_owned(), |number| (number * f64::from(step)).to_string()))
                .collect();
            let found = ratio(&post(lines, &scaled.join(" ")), check).unwrap();
            assert!(found.is_finite() && found >= last, "{check} {found} at {step} times {loads}, {last} below");
            (passes, beyond) = (passes + u32::from(found <= 1.0), beyond + u32::from(found > 10.0));
            last = found;
        }
        assert!(beyond > 5 && passes > 0, "{check}: {passes} pass, {beyond} past ten, of {loads}");
    }
}

#[test]
fn both_axes_of_a_square_post_are_alike() {
    let square = |about: &str, eccentric: &str| {
        let job = format!(
            "job: {{title: A post, date: 2026-01-05}}\nbasis: {{code: american}}\nmembers:\n  - mark: P1\n    use: post\n    section: 6x6\n    \
             material: {{species: Douglas Fir-Larch, grade: No.1}}\n    self-weight: no\n    length: 12 ft\n    loads:\n      - \
             {{axial: 5000 lbf, case: live, eccentricity: {{{eccentric}: 1 in}}}}\n      - {{line: 20 plf, case: live, about: {about}}}\n"
        );
        let source = latewood::text::Source::read("post", job.as_bytes()).unwrap();
        ratio(&latewood::check(&source, false).unwrap().results, "bending_and_compression").unwrap()
    };
    assert!((square("strong", "strong") - square("weak", "weak")).abs() < 1e-9);
    assert!((square("strong", "weak") - square("weak", "strong")).abs() < 1e-3);
}

#[test]
fn eccentric_forces_that_cancel_still_bend() {
    let results = post("", "{axial: 3000 lbf, case: dead, eccentricity: {strong: 1 in}}, {axial: -5000 lbf, case: wind}");
    // 0.6 D + 0.6 W pulls, D + 0.6 W is nought along the member: 3000 lbf in on 3.5 x 5.5^2 / 6 in3 are 170.0 psi.
    let bending = results.members[0].checks.iter().find(|c| c.check == "bending").unwrap();
    assert_eq!(bending.combination, "D + 0.6 W");
    assert!((bending.demand.value - 3000.0 / (3.5 * 5.5 * 5.5 / 6.0)).abs() < 1e-6, "{:?}", bending.demand);
}

#[test]
fn braces_shorten_the_axis_they_stand_in() {
    let free = post("", "{axial: 5000 lbf, case: live}");
    let weak = post("    braced: {weak: {at: mid}}\n", "{axial: 5000 lbf, case: live}");
    let strong = post("    braced: {strong: {at: mid}}\n", "{axial: 5000 lbf, case: live}");
    let throughout = post("    braced: {weak: sheathed, strong: continuous}\n", "{axial: 5000 lbf, case: live}");
    let of = |results: &Results| ratio(results, "compression").unwrap();
    assert!(of(&weak) < of(&free) && (of(&strong) - of(&free)).abs() < 1e-12);
    // F_c 1500 psi with its size factor of 1.1, nothing taken off.
    assert!((of(&throughout) - 5000.0 / (3.5 * 5.5) / 1650.0).abs() < 1e-9);
    assert_eq!(ratio(&throughout, "slenderness"), None);
}

#[test]
fn by_hand_lengths_are_final_and_a_free_end_takes_its_factor() {
    let fixed = post("    ends: {top: free, bottom: fixed}\n", "{axial: 500 lbf, case: live}");
    let by_hand = post("    effective-length: {strong: 352.8 in, weak: 352.8 in}\n", "{axial: 500 lbf, case: live}");
    let of = |results: &Results| ratio(results, "compression").unwrap();
    assert!((of(&fixed) - of(&by_hand)).abs() < 1e-9, "2.1 x 14 ft is 352.8 in");
}

/// A force on a bracket goes down the column whole and bends it by 3 a l_p P / l² at mid-height (15.4.2): 3 x 7 x 96 x 2000 / 168² is
/// 142.86 lbf, M = 142.86 x 14 / 4 = 500 lbf ft, on 3.5 x 5.5² / 6 in3 340.0 psi.
#[test]
fn a_bracket_bends_as_a_side_load_at_mid_height() {
    for (axis, modulus, symbol) in [("strong", 3.5 * 5.5 * 5.5 / 6.0, "f_b1"), ("weak", 5.5 * 3.5 * 3.5 / 6.0, "f_b2")] {
        let results = post("", &format!("{{axial: 2000 lbf, case: live, eccentricity: {{{axis}: 7 in, at: 8 ft}}}}"));
        let check = results.members[0].checks.iter().find(|c| c.check == "bending_and_compression").unwrap();
        let step = |symbol: &str| check.steps.iter().find(|s| s.symbol == symbol).unwrap().value;
        assert!((step("P") - 2000.0).abs() < 1e-9);
        assert!((step(symbol) - 500.0 * 12.0 / modulus).abs() < 1e-6, "{axis}");
        assert!(check.steps.iter().any(|s| s.reference == "NDS Eq. 3.9-3"), "not that of an eccentric force");
    }
}

/// The same of glued columns under factored loads, whose critical stresses carry format conversion and resistance factors: through them and far
/// beyond, a sum of 3.9 grows with the load, has a value, and fails where 3.9.2 asks for less than the critical stress. Each line of it is
/// finite and not negative.
#[test]
fn factored_loads_on_glued_columns_fail_with_a_reason_and_never_fall() {
    let glued = |held: &str, loads: &str| {
        let job = format!(
            "job: {{title: A post, date: 2026-01-05}}\nbasis: {{code: american, method: LRFD}}\nmembers:\n  - mark: P1\n    use: post\n    section: 5-1/8x9\n    \
             material: {{combination: 24F-V4}}\n    self-weight: no\n    length: 22 ft\n{held}    loads: [{loads}]\n"
        );
        let source = latewood::text::Source::read("post", job.as_bytes()).unwrap();
        latewood::check(&source, false).unwrap_or_else(|faults| panic!("{job}\n{faults:?}")).results
    };
    let braced = "    braced: {weak: {at: mid}}\n";
    let cases = [
        ("", "{axial: FORCE, case: live}, {line: SIDE, case: live}"),
        (braced, "{axial: FORCE, case: live}, {line: SIDE, case: live, about: weak}"),
        (braced, "{axial: FORCE, case: live, eccentricity: {strong: 1 in}}"),
        (braced, "{axial: FORCE, case: live, eccentricity: {strong: 1 in, weak: 0.5 in}}, {line: SIDE, case: live}"),
    ];
    for (held, loads) in cases {
        let (mut last, mut passes, mut beyond) = (0.0, 0, 0);
        // Steps are fine about the critical load, 40 to 60 kip here, and coarse past it.
        for kips in (2..40).step_by(6).chain(40..62).chain((64..200).step_by(17)) {
            let (force, side) = (format!("{kips} kip"), format!("{} plf", 2 * kips));
            let results = glued(held, &loads.replace("FORCE", &force).replace("SIDE", &side));
            let check = results.members[0]
                .checks
                .iter()
                .filter(|c| c.check == "bending_and_compression")
                .max_by(|a, b| a.ratio.total_cmp(&b.ratio))
                .unwrap();
            assert!(check.ratio.is_finite() && check.ratio >= last, "{} at {kips} kip, {last} below: {loads}", check.ratio);
            assert!(check.steps.iter().all(|s| s.value.is_finite() && s.value >= 0.0), "a line without a value at {kips} kip: {loads}");
            let value = |letter: &str| check.steps.iter().find(|s| s.symbol == letter).map(|s| s.value);
            let past = ["F_cE1", "F_cE2"].iter().any(|letter| value(letter).zip(value("f_c")).is_some_and(|(most, f_c)| f_c >= most));
            let bound = check.steps.iter().any(|s| s.because.contains("critical stress") || s.because.contains("not below"));
            assert!(!past || check.ratio > 1.0, "{} passes past the critical stress at {kips} kip: {loads}", check.ratio);
            assert!(check.ratio <= 30.0 || bound, "{} without a reason at {kips} kip: {loads}", check.ratio);
            (passes, beyond) = (passes + u32::from(check.ratio <= 1.0), beyond + u32::from(check.ratio > 10.0));
            last = check.ratio;
        }
        assert!(passes > 0 && beyond > 3, "{passes} pass, {beyond} past ten, of {loads}");
    }
}

/// NDS 3.6.3 has the net section in compression where it is in the part that may buckle; where the holes are is not known. 0.6 D + 0.6 W =
/// 0.6 (300 - 1500) = -720 lbf on 1.5 x (5.5 - 0.75) = 7.125 in2: 101.05 psi (on the gross 8.25 in2 87.27 psi).
#[test]
fn holes_count_in_compression_too() {
    let job = "job: {title: A tie, date: 2026-01-05}\nbasis: {code: american}\nmembers:\n  - {mark: T1, use: tie, section: 2x6, material: {species: \
               Douglas Fir-Larch, grade: No.2}, length: 6 ft, holes: 3/4 in, self-weight: no, loads: [{axial: 300 lbf, case: dead}, {axial: -1500 lbf, case: wind}]}\n";
    let source = latewood::text::Source::read("tie", job.as_bytes()).unwrap();
    let results = latewood::check(&source, false).unwrap_or_else(|faults| panic!("{faults:?}")).results;
    let pressed = results.members[0].checks.iter().find(|c| c.check == "compression").expect("checked");
    assert!((pressed.demand.value - 720.0 / 7.125).abs() < 0.005, "{}", pressed.demand.value);
}
