//! All errors of a job file come in one pass: none hides another, and none is told twice.

mod mistakes;

use super::random;
use latewood::text::{Diagnostic, Source};
use mistakes::MISTAKES;
use std::collections::BTreeSet;

const JOB: &str = include_str!("job.yaml");

fn faults(job: &str) -> Vec<Diagnostic> {
    let source = Source::read("job.yaml", job.as_bytes()).expect("text");
    latewood::read(&source).err().unwrap_or_default()
}

/// What is told: id and line.
fn told(job: &str) -> BTreeSet<(&'static str, usize)> {
    let line = |fault: &Diagnostic| job[..fault.primary.span.start].matches('\n').count() + 1;
    faults(job).iter().map(|fault| (fault.id, line(fault))).collect()
}

fn with(job: &str, (from, to): (&str, &str)) -> String {
    assert_eq!(job.matches(from).count(), 1, "{from}");
    job.replace(from, to)
}

#[test]
fn the_job_itself_has_no_errors() {
    assert_eq!(faults(JOB), []);
}

#[test]
fn two_mistakes_are_told_as_each_of_them_alone() {
    let alone: Vec<_> = MISTAKES.iter().map(|mistake| told(&with(JOB, *mistake))).collect();
    for (one, (_, to)) in alone.iter().zip(MISTAKES) {
        assert!((1..=2).contains(&one.len()), "{to}: {one:?}");
    }
    // All pairs take a while; one in five is looked at unless more trials are asked for.
    let every = if random::trials(0) > 0 { 1 } else { 5 };
    let mut looked_at = 0;
    for (i, first) in MISTAKES.iter().enumerate() {
        for (j, second) in MISTAKES.iter().enumerate().skip(i + 1).filter(|(j, _)| (3 * i + j) % every == 0) {
            let both = with(&with(JOB, *first), *second);
            let due: BTreeSet<_> = alone[i].union(&alone[j]).copied().collect();
            assert_eq!(told(&both), due, "{} and {}", first.1, second.1);
            looked_at += 1;
        }
    }
    assert!(looked_at > 200, "{looked_at}");
}

#[test]
fn all_mistakes_at_once_are_told_at_once() {
    let job = MISTAKES.iter().fold(JOB.to_owned(), |job, mistake| with(&job, *mistake));
    let due: BTreeSet<_> = MISTAKES.iter().flat_map(|mistake| told(&with(JOB, *mistake))).collect();
    // A grade of no species is looked for in the tables of several; everything else is told as it is alone.
    assert_eq!(told(&job), due);
}

#[test]
fn ten_mistakes_in_ten_entries_come_in_one_pass() {
    // Ten beams; one mistake in each but the last: of the reader, of the tables of sizes and values, of clauses.
    let wrong = [
        ("spans: [12 ft]", "spans: [12]"),
        ("section: 2x10", "section: 2x11"),
        ("grade: No.2", "grade: No.7"),
        ("species: Hem-Fir", "species: Hemfir pine"),
        ("area: floor", "area: flor"),
        ("use: joist", "use: joists"),
        ("spacing: 16 in", "spaced: 16 in"),
        ("depth: 1 in", "depth: 4 in"),
        ("temperature: 90 F", "temperature: 190 F"),
        ("bearing: 2 in", "bearing: [2 in]"),
    ];
    let ids: Vec<&str> = faults(&joists(&wrong)).iter().map(|fault| fault.id).collect();
    assert_eq!(
        ids,
        [
            "no-unit",
            "no-such-section",
            "unknown-grade",
            "unknown-species",
            "unknown-name",
            "unknown-word",
            "unknown-key",
            "notch-too-deep",
            "too-hot",
            "wrong-count"
        ]
    );
}

/// A joist for each of these, written with it.
fn joists(wrong: &[(&str, &str)]) -> String {
    let mut job =
        "job: {title: Joists, date: 2026-01-05}\nbasis: {code: american}\nareas: {floor: {dead: 10 psf, live: 40 psf}}\nmembers:\n"
            .to_owned();
    for (i, mistake) in wrong.iter().enumerate() {
        let joist = format!(
            "  - mark: J{}\n    use: joist\n    section: 2x10\n    material: {{species: Hem-Fir, grade: No.2}}\n    spacing: 16 in\n    \
             spans: [12 ft]\n    bearing: 2 in\n    conditions: {{temperature: 90 F}}\n    notches: [{{at: left, depth: 1 in, length: 2 in}}]\n    \
             loads: [{{area: floor}}]\n",
            i + 1
        );
        job.push_str(&with(&joist, *mistake));
    }
    job
}

#[test]
fn several_mistakes_inside_one_entry_come_in_one_pass() {
    let job = joists(&[("use: joist", "use: joist")]);
    let wrong = [
        ("spans: [12 ft]", "span: 12"),
        ("section: 2x10", "size: 2x11"),
        ("species: Hem-Fir, grade: No.2", "species: Hemfir pine, grade: No.7"),
        ("depth: 1 in", "depth: 9 in"),
        ("spacing: 16 in", "oc: 16"),
        ("temperature: 90 F", "temperature: 190 F, moisture: damp"),
        ("area: floor", "area: flor"),
    ];
    let job = wrong.iter().fold(job, |job, mistake| with(&job, *mistake));
    let mut ids: Vec<&str> = faults(&job).iter().map(|fault| fault.id).collect();
    ids.sort_unstable();
    let mut due = vec!["unknown-key", "list-due", "no-unit", "unknown-key", "no-such-section", "unknown-species", "unknown-grade"];
    // The section is not known, but 9 in at the end is more than a quarter of any (NDS 4.4.3).
    due.extend(["unknown-key", "no-unit", "too-hot", "unknown-word", "unknown-name", "notch-too-deep"]);
    due.sort_unstable();
    assert_eq!(ids, due);
}

#[test]
fn a_key_without_a_value_is_an_error_at_that_key() {
    // Every line of the job that has a key and its value, without the value.
    let mut looked_at = 0;
    for line in JOB.lines().filter(|line| !line.contains('{')) {
        let Some((key, _)) = line.split_once(": ").filter(|(_, value)| !value.is_empty()) else { continue };
        for nothing in ["", " ~", " \"\""] {
            let job = JOB.replacen(&format!("{line}\n"), &format!("{key}:{nothing}\n"), 1);
            let name = key.trim_start_matches([' ', '-']);
            let found = faults(&job);
            let at_key = found.iter().any(|fault| {
                let Diagnostic { id, primary, .. } = fault;
                // Keys of areas and layers are names; what stands under them has a shape.
                (*id == "empty-value" && job[primary.span.start..].starts_with(name)) || *id == "wrong-shape"
            });
            assert!(at_key, "{key}:{nothing} {found:?}");
        }
        looked_at += 1;
    }
    assert!(looked_at > 60, "{looked_at}");
    let named = with(JOB, ("  issued-for: permit", "  checked-by:\n  checked-on:\n  issued-for: permit"));
    assert_eq!(faults(&named), [], "the checker's name is left empty until somebody checked");
}

#[test]
fn words_of_the_trade_are_known_in_hints() {
    let hints = [
        ("    length: 9 ft", "    height: 9 ft", "length"),
        ("    section: 6x6", "    size: 6x6", "section"),
        ("    spans: [20 ft]", "    span: [20 ft]", "spans"),
        ("    spacing: 24 in", "    on-center: 24 in", "spacing"),
        ("    spacing: 24 in", "    oc: 24 in", "spacing"),
        ("    slope: 6:12", "    pitch: 6:12", "slope"),
        ("    plies: 2", "    studs: 2", "plies"),
        ("  - mark: G1", "  - name: G1", "mark"),
        ("  - mark: G1", "  - id: G1", "mark"),
        ("    use: post", "    type: post", "use"),
        ("    rests-on: [wall W1", "    supports: [wall W1", "rests-on"),
        ("        width: 4 ft", "        tributary: 4 ft", "width"),
        ("    section: 6x6\n    material: {", "    section: 6x6\n    wood: {", "material"),
    ];
    for (from, to, key) in hints {
        let found = faults(&with(JOB, (from, to)));
        let ids: Vec<&str> = found.iter().map(|fault| fault.id).collect();
        assert_eq!(ids, ["unknown-key"], "{to}: {found:?}");
        assert!(found[0].helps[0].contains(&format!("`{key}`")), "{to}: {:?}", found[0].helps);
    }
    // A grade at the member's level belongs inside the material, which is there.
    let found = faults(&with(JOB, ("    length: 9 ft", "    grade: No.1\n    length: 9 ft")));
    assert_eq!(found.len(), 1);
    assert!(found[0].helps[0].starts_with("`grade` belongs inside `material`"), "{:?}", found[0].helps);
}
