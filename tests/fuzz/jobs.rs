//! Job files mutated line by line: read or refused without a panic, and what is accepted has results that agree with themselves.

use crate::random::{Random, seed, trials};
use latewood::results::Results;
use latewood::text::Source;
use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;

/// Values by kind: three times of four a value is replaced by another of its kind, so that many mutants are accepted.
const KINDS: &[&[&str]] = &[
    &[
        "0 ft",
        "-3 ft",
        "1e-9 mm",
        "1e9 ft",
        "24 in",
        "400 mm",
        "2 m",
        "12'-6\"",
        "3-1/2 in",
        "16 ft",
        "7 ft 3 in",
        "600 mm",
        "18 in",
        "59 ft",
    ],
    &["0 psf", "-40 psf", "1e8 psf", "5 kPa", "20 psf", "1 psf", "-0.5 kN/m2", "100 psf"],
    &["100 plf", "-2 kN/m", "0 plf", "1e7 plf", "20 kN/m", "[0 plf, 90 plf]", "-55 plf"],
    &["6000 lbf", "-6000 lbf", "12 kN", "0 lbf", "1e12 N", "800 lbf", "-1.5 kN"],
    &["dead", "live", "snow", "wind", "roof-live", "seismic", "rain"],
    &["sheathed", "continuous", "none", "{at: 4 ft}", "{at: [2 ft, 4 ft]}", "{at: mid}", "{at: 600 mm}"],
    &["2x4", "2x6", "2x8", "2x10", "2x12", "4x12", "6x12", "2x99", "3x10"],
    &["yes", "no", "wet", "dry"],
    &["mid", "0 ft", "3 ft", "1000 mm"],
    &["1", "2", "3", "0", "12", "-1", "1e300", "-0.0", "0.5"],
    &["tie", "post", "stud", "rafter", "beam", "joist", "header"],
    &["LRFD", "ASD", "american", "european", "NDS-2018", "ASCE7-22"],
    &["L/360", "L/1", "L/100000", "none"],
    &["C16", "C24", "GL24h", "No.1", "No.2", "Select Structural", "Stud"],
    &["nan", "inf", "", "~", "[]", "{}", "90 deg", "12:12", "100 F", "40 C", "2026-02-30", "\u{e9}"],
];

/// A value of the same kind as one that stands there, if it has a kind; now and then any other.
fn value(random: &mut Random, old: &str) -> &'static str {
    let unit = |text: &str| text.rsplit(' ').next().unwrap_or_default().trim_matches(|c: char| !c.is_ascii_alphabetic()).to_owned();
    let of_kind = |kind: &&&[&str]| kind.iter().any(|known| *known == old || (known.contains(' ') && unit(known) == unit(old)));
    let kind = KINDS.iter().find(of_kind).filter(|_| random.below(4) > 0).copied();
    let kind = kind.unwrap_or_else(|| random.one::<&[&str]>(KINDS));
    random.one::<&str>(kind)
}

/// Lines that are put in below a line, at its depth.
const LINES: &[&str] = &[
    "hangers: [1]",
    "system: yes",
    "plies: 3",
    "notches: [{at: left, side: bottom, depth: 1 in, length: 4 in}]",
    "overhangs: {left: 2 ft, right: 3 ft}",
    "bearing: 1-1/2 in",
    "limits: none",
    "braced: none",
    "tilt: 15 deg",
    "moisture: wet",
    "spans: [4 ft, 12 ft, 6 ft]",
    "ends: {top: free, bottom: fixed}",
    "conditions: {moisture: wet, incised: yes, flat: yes}",
    "ridge: board",
];

fn examples() -> Vec<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut paths: Vec<_> = ["examples", "tests/jobs"]
        .iter()
        .flat_map(|folder| std::fs::read_dir(root.join(folder)).expect("a folder").map(|entry| entry.expect("an entry").path()))
        .filter(|path| path.extension().is_some_and(|extension| extension == "yaml"))
        .collect();
    paths.sort();
    paths.iter().map(|path| std::fs::read_to_string(path).expect("text")).collect()
}

/// A job with fewer members than the example has, so that many can be tried.
fn shortened(random: &mut Random, text: &str) -> String {
    let lines: Vec<&str> = text.lines().filter(|line| !line.trim_start().starts_with('#')).collect();
    let starts: Vec<usize> =
        (0..lines.len()).filter(|i| lines[*i].starts_with("  - mark:") || lines[*i].starts_with("  - {mark:")).collect();
    if starts.len() < 3 || random.below(3) > 0 {
        return lines.join("\n");
    }
    let first = random.below(starts.len());
    let (begin, end) = (starts[first], starts.get(first + 1 + random.below(2)).copied().unwrap_or(lines.len()));
    lines[..starts[0]].iter().chain(&lines[begin..end]).copied().collect::<Vec<_>>().join("\n")
}

/// One change of one line.
fn mutate(random: &mut Random, text: &str, other: &str) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let at = random.below(lines.len());
    let indent = lines[at].len() - lines[at].trim_start().len();
    match random.below(16) {
        0 => drop(lines.remove(at)),
        1 => lines.insert(at, lines[at].clone()),
        2 => {
            let to = random.below(lines.len());
            lines.swap(at, to);
        }
        3 => lines.insert(at + 1, format!("{}{}", " ".repeat(indent), random.one(LINES))),
        4 => {
            let others: Vec<&str> = other.lines().collect();
            lines.insert(at, (*random.one(&others)).to_owned());
        }
        // The value of the line's first key, or of one in its flow map.
        5..=12 => {
            let places: Vec<usize> = lines[at].match_indices(": ").map(|(i, _)| i + 2).collect();
            if !places.is_empty() {
                let from = *random.one(&places);
                let to = lines[at][from..].find([',', '}', ']']).map_or(lines[at].len(), |end| from + end);
                let value = value(random, lines[at][from..to].trim());
                lines[at].replace_range(from..to, value);
            }
        }
        // A number within the line.
        13 | 14 => {
            let places: Vec<usize> = lines[at].char_indices().filter(|(_, c)| c.is_ascii_digit()).map(|(i, _)| i).collect();
            if !places.is_empty() {
                let place = *random.one(&places);
                let digits = *random.one(&["0", "1", "9", "77", "-", ".", "e9", ""]);
                lines[at].replace_range(place..=place, digits);
            }
        }
        _ => lines[at] = format!("{}{}", " ".repeat(random.below(9)), lines[at].trim_start()),
    }
    lines.join("\n") + "\n"
}

/// What must hold of an accepted job, in words where it does not.
fn disagreement(text: &str, results: &Results) -> Option<String> {
    let json = serde_json::to_vec(results).ok()?;
    match Results::read(&json) {
        Err(why) => return Some(format!("its results cannot be read back: {why}")),
        Ok(again) if again != *results => return Some("its results are not the same when read back".to_owned()),
        Ok(_) => {}
    }
    let source = Source::read("again.yaml", text.as_bytes()).ok()?;
    let again = latewood::check(&source, false).ok()?.results;
    if serde_json::to_vec(&again).ok()? != json {
        return Some("a second check gives other bytes".to_owned());
    }
    for member in &results.members {
        for check in &member.checks {
            if check.passes != (check.ratio <= 1.0 + 1e-9) || check.ratio < 0.0 {
                return Some(format!("{}: {} has ratio {} and passes: {}", member.mark, check.check, check.ratio, check.passes));
            }
        }
        let mut by_case: BTreeMap<&str, f64> = BTreeMap::new();
        for reaction in &member.reactions {
            for (case, force) in &reaction.by_case {
                *by_case.entry(case).or_default() += force.value;
            }
        }
        if let Some((case, sum)) = by_case.iter().find(|(_, sum)| !sum.is_finite()) {
            return Some(format!("{}: reactions of {case} sum to {sum}", member.mark));
        }
    }
    None
}

/// What one mutant is: refused, accepted, or what is wrong with the answer.
fn outcome(text: &str) -> Result<bool, String> {
    let Ok(source) = Source::read("mutated.yaml", text.as_bytes()) else { return Ok(false) };
    let checked = catch_unwind(AssertUnwindSafe(|| latewood::check(&source, false))).map_err(|_| "a panic".to_owned())?;
    match checked {
        Err(faults) if faults.is_empty() => Err("refused without an error".to_owned()),
        Err(_) => Ok(false),
        Ok(checked) if checked.results.members.len() != checked.job.members.len() => Err("a member is missing from the results".to_owned()),
        Ok(checked) => disagreement(text, &checked.results).map_or(Ok(true), Err),
    }
}

#[test]
fn mutated_jobs_are_refused_or_checked() {
    let examples = examples();
    let mut random = Random(seed(20_260_301));
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("mutated-jobs");
    std::fs::create_dir_all(&folder).expect("a folder");
    let (mut accepted, mut refused, mut wrong) = (0, 0, Vec::new());
    for trial in 0..trials(150) {
        let (example, other) = (random.one(&examples), random.one(&examples));
        let mut text = shortened(&mut random, example);
        for _ in 0..=random.below(3) {
            text = mutate(&mut random, &text, other);
        }
        match outcome(&text) {
            Ok(true) => accepted += 1,
            Ok(false) => refused += 1,
            Err(why) => {
                let file = folder.join(format!("{trial}.yaml"));
                std::fs::write(&file, &text).expect("written");
                wrong.push(format!("{}: {why}", file.display()));
            }
        }
    }
    println!("{accepted} accepted, {refused} refused, {} wrong", wrong.len());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(accepted > 0 && refused > 0, "{accepted} accepted, {refused} refused");
}
