//! Three verdicts: a member of which nothing was checked, or not what was asked for, never passes.

mod blanks;
mod bugs;
mod ratios;

use latewood::results::{Member, Results, Verdict};
use latewood::study::change::{self, Former};
use latewood::text::Source;
use std::process::{Command, Stdio};

const AMERICAN: &str = "{code: american}";
/// Own combinations in the place of the code's, none of which has snow.
const NO_SNOW: &str =
    "{code: american, combinations: {only: yes, list: [{name: D, factors: {dead: 1.0}}, {name: D + L, factors: {dead: 1.0, live: 1.0}}]}}";
const FIR: &str = "material: {species: Douglas Fir-Larch, grade: No.2}";
const PINE: &str = "material: {class: C24}";

fn job(basis: &str, members: &str) -> String {
    format!(
        "job: {{title: Verdicts, number: T-1, date: 2026-02-02}}\nbasis: {basis}\nareas: {{floor: {{dead: 0 psf}}}}\nmembers:\n{members}\n"
    )
}

fn source(text: &str) -> Source {
    Source::read("job.yaml", text.as_bytes()).unwrap_or_else(|fault| panic!("{fault:?}"))
}

fn results(text: &str) -> Results {
    latewood::check(&source(text), false).unwrap_or_else(|faults| panic!("{text}\n{faults:#?}")).results
}

fn one(basis: &str, member: &str) -> Member {
    let mut results = results(&job(basis, &format!("  - {{mark: M, {member}}}")));
    assert_eq!(results.verdict, results.members[0].verdict);
    results.members.remove(0)
}

/// A job that is checked as a user does: standard output and exit status.
fn checked(text: &str) -> (String, Option<i32>) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("job.yaml");
    std::fs::write(&path, text).unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_latewood")).arg("check").arg(&path).stdin(Stdio::null()).output().unwrap();
    (String::from_utf8(output.stdout).unwrap(), output.status.code())
}

#[test]
fn what_is_not_checked_does_not_pass() {
    let beam = |loads: &str| {
        format!("use: beam, section: 4x10, {FIR}, spans: [10 ft], braced: {{top: sheathed}}, self-weight: no, loads: [{loads}]")
    };
    let dead = "{line: 10 plf, case: dead}";
    let live = "{line: 100 plf, case: live}";
    let snow = "{line: 5000 plf, case: snow}";
    let european = "use: beam, section: 63x220, material: {class: C24}, spans: [3 m], braced: {top: sheathed}";
    for (basis, member, why) in [
        // 5000 plf of snow on a 2x10 of 20 ft, in no combination.
        (
            NO_SNOW,
            format!("use: beam, section: 2x10, {FIR}, spans: [20 ft], limits: {{live: none, total: none}}, loads: [{dead}, {snow}]"),
            "no strength combination includes the load case snow",
        ),
        (NO_SNOW, beam("{line: 50 plf, case: snow}"), "no strength combination includes the load case snow"),
        (AMERICAN, beam("{area: floor, width: 4 ft}"), "no load acts on it"),
        (AMERICAN, beam("{line: 0 plf, case: live}"), "no load acts on it"),
        // A limit on the live load's deflection, and no combination of it.
        (
            "{code: american, combinations: {only: yes, list: [{name: D + L, factors: {dead: 1.0, live: 1.0}}, {name: long, factors: {dead: 2.0}, for: \
             deflection}]}}",
            beam(&format!("{dead}, {live}")),
            "deflection limit (live): no combination to compare with it",
        ),
        (AMERICAN, format!("use: tie, section: 2x6, {FIR}, length: 10 ft, loads: [{{axial: 0 lbf, case: dead}}]"), "no load acts on it"),
        (
            NO_SNOW,
            format!(
                "use: post, section: 4x4, {FIR}, length: 8 ft, loads: [{{axial: 500 lbf, case: dead}}, {{axial: 90000 lbf, case: snow}}]"
            ),
            "no strength combination includes the load case snow",
        ),
        // EN 1995-1-1 has no rule for shear at a notch away from the supports.
        (
            "{code: european}",
            format!(
                "{european}, notches: [{{at: 1.5 m, side: bottom, depth: 40 mm, length: 50 mm}}], loads: [{{line: 1 kN/m, case: live}}]"
            ),
            "shear at notches away from the supports (no rule in EN 1995-1-1)",
        ),
    ] {
        let member = one(basis, &member);
        assert_eq!(member.verdict, Verdict::NotChecked, "{why}: {:?}", member.governing);
        assert!(member.unmade.iter().any(|said| said == why), "{why}: {:?}", member.unmade);
    }
}

/// EN 1995-1-1, 7.3.3: a floor of 6 m on 63 x 220 vibrates at less than 8 Hz, for which the clause has no rule.
#[test]
fn a_floor_that_the_clause_is_not_made_for_is_not_checked() {
    let floor = |span: &str, more: &str| {
        format!(
            "use: joist, section: 63x220, {PINE}, spacing: 400 mm, spans: [{span}], braced: {{top: sheathed}}, limits: {{instant: none, final: none, \
             net-final: none}}, {more} loads: [{{line: 0.8 kN/m, case: dead}}, {{line: 0.2 kN/m, case: live}}]"
        )
    };
    let asked = "floor: {width: 5 m, decking: {thickness: 22 mm, E: 3500 MPa}, a: 1.5 mm, b: 120},";
    assert_eq!(one("{code: european}", &floor("6 m", "")).verdict, Verdict::Passes);
    assert_eq!(one("{code: european}", &floor("3 m", asked)).verdict, Verdict::Passes);
    let far = one("{code: european}", &floor("6 m", asked));
    assert!(far.verdict == Verdict::NotChecked && far.unmade[0].contains("not above 8 Hz"), "{:?} {:?}", far.verdict, far.unmade);
}

#[test]
fn what_is_checked_passes_or_fails() {
    let beam = |live: f64, more: &str| {
        format!(
            "use: beam, section: 4x10, {FIR}, spans: [10 ft], braced: {{top: sheathed}}, loads: [{{line: {live} plf, case: live}}], {more}"
        )
    };
    assert_eq!(one(AMERICAN, &beam(100.0, "")).verdict, Verdict::Passes);
    assert_eq!(one(AMERICAN, &beam(9000.0, "")).verdict, Verdict::Fails);
    // A load that lifts the beam bends it: it is checked, and needs no bearing.
    assert_eq!(one(AMERICAN, &beam(-100.0, "bearing: 3 in")).verdict, Verdict::Passes);
    // Nothing is asked of the deflection: strength alone counts.
    assert_eq!(one(AMERICAN, &beam(100.0, "limits: {live: none, total: none}")).verdict, Verdict::Passes);
    assert_eq!(one(NO_SNOW, &beam(100.0, "limits: {live: none, total: none}")).verdict, Verdict::Passes);
}

#[test]
fn a_job_takes_the_worst_and_says_so() {
    let member = |mark: &str, case: &str, load: f64| {
        format!(
            "  - {{mark: {mark}, use: beam, section: 2x10, {FIR}, spans: [20 ft], limits: {{live: none, total: none}}, loads: [{{line: {load} plf, case: \
             {case}}}]}}"
        )
    };
    let (passes, unchecked, fails) = (member("P", "dead", 10.0), member("N", "snow", 5000.0), member("F", "dead", 5000.0));
    let (out, status) = checked(&job(NO_SNOW, &unchecked));
    assert_eq!(status, Some(1), "{out}");
    assert!(out.contains("1 member, 1 NOT CHECKED.") && !out.contains("no ratio above 1"), "{out}");
    let row = out.lines().find(|line| line.starts_with("N ")).unwrap();
    assert!(row.chars().take(80).collect::<String>().contains("NOT CHECKED"), "{row}");
    assert!(out.contains("N is not checked: no strength combination includes the load case snow (N)"), "{out}");
    for (members, verdict, said) in [
        (vec![&passes], Verdict::Passes, "1 member, no ratio above 1."),
        (vec![&passes, &unchecked], Verdict::NotChecked, "2 members, 1 NOT CHECKED."),
        (vec![&unchecked, &passes, &fails], Verdict::Fails, "3 members, 1 FAILS, 1 NOT CHECKED."),
    ] {
        let text = job(NO_SNOW, &members.iter().map(|m| m.as_str()).collect::<Vec<_>>().join("\n"));
        let (out, status) = checked(&text);
        assert_eq!((results(&text).verdict, status), (verdict, Some(i32::from(verdict != Verdict::Passes))), "{out}");
        assert!(out.contains(said), "{out}");
    }
}

#[test]
fn nothing_is_sized_by_what_is_not_checked() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("job.yaml");
    let member = format!(
        "  - {{mark: N, use: joist, section: 2x10, {FIR}, spacing: 16 in, spans: [20 ft], loads: [{{line: 5000 plf, case: snow}}]}}"
    );
    std::fs::write(&path, job(NO_SNOW, &member)).unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_latewood")).arg("size").arg(&path).stdin(Stdio::null()).output().unwrap();
    let out = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.code() == Some(1) && out.contains("NOT CHECKED") && !out.contains("2x2"), "{out}");
}

/// A document of form 1, written by version 0.1.0: J1 passes in it, J2 fails.
#[test]
fn results_of_form_1_are_read() {
    let json = include_bytes!("format-1.json");
    let former = Results::read(json).unwrap();
    let verdicts: Vec<(&str, Verdict)> = former.members.iter().map(|m| (m.mark.as_str(), m.verdict)).collect();
    assert_eq!((former.format, former.verdict, verdicts), (2, Verdict::Fails, vec![("J1", Verdict::Passes), ("J2", Verdict::Fails)]));
    // A reissue in which J2 is deep enough, and J1 has a load that no combination has.
    let old = include_str!("format-1.yaml");
    let new = old.replacen("revision: A", "revision: B", 1).replacen("section: 2x6", "section: 2x12", 1);
    let new = new.replace("[12 ft]", "[12 ft]\n    limits: {live: none, total: none}");
    let new = new.replace("  floor: {dead: 10 psf, live: 40 psf}", "  floor: {dead: 10 psf, live: 40 psf}\n  none: {dead: 0 psf}");
    let new = new.replacen("loads: [{area: floor}]", "loads: [{area: none}]", 1);
    let former = Former::read(old.as_bytes().to_vec(), json.to_vec()).unwrap();
    let source = source(&new);
    let reissue = change::between(&former, &source, &latewood::check(&source, false).unwrap()).unwrap();
    let moved: Vec<(&str, Verdict, Verdict)> = reissue.changed.iter().map(|m| (m.mark.as_str(), m.former.verdict, m.now.verdict)).collect();
    assert_eq!(moved, [("J1", Verdict::Passes, Verdict::NotChecked), ("J2", Verdict::Fails, Verdict::Passes)]);
    assert!(Results::read(br#"{"format": 3, "program": {"name": "latewood", "version": "9"}}"#).is_err());
}

#[test]
fn the_schema_knows_the_verdicts() {
    let schema = latewood::results::schema().to_string();
    for word in ["\"passes\"", "\"not_checked\"", "\"fails\"", "\"verdict\""] {
        assert!(schema.contains(word), "{word}");
    }
}
