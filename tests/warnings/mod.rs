//! Unusual input: calculated, told at its place, open until somebody confirms it. `NAME.txt` is all that a person is told of `NAME.yaml`.
//!
//! `REPLACE=1` writes the `.txt` files again; then read what changed.

use latewood::cli::snippet;
use latewood::text::Source;
use std::path::{Path, PathBuf};

fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/warnings").join(name)
}

fn text(name: &str) -> String {
    std::fs::read_to_string(file(name)).expect("a readable file")
}

fn checked(text: &str) -> (Source, latewood::Checked) {
    let source = Source::read("job.yaml", text.as_bytes()).expect("text");
    let checked = latewood::check(&source, false).unwrap_or_else(|faults| panic!("{faults:?}"));
    (source, checked)
}

#[test]
fn every_warning_is_told_to_the_letter() {
    for name in ["inch-pound", "metric"] {
        let (source, checked) = checked(&text(&format!("{name}.yaml")));
        let warnings: Vec<_> = checked.job.warnings.iter().map(latewood::job::Warning::diagnostic).collect();
        let told = snippet::render(&source, &warnings, false);
        let expected = file(&format!("{name}.txt"));
        if std::env::var_os("REPLACE").is_some() {
            std::fs::write(&expected, &told).expect("a writable folder");
        }
        assert_eq!(told, std::fs::read_to_string(&expected).unwrap_or_default());
    }
}

#[test]
fn a_warning_is_an_open_item_until_it_is_confirmed_as_it_stands() {
    let job = text("metric.yaml");
    let (_, open) = checked(&job);
    let warning = open.results.warnings.iter().find(|w| w.kind == "long-span").expect("18.29 m");
    // B1 stands from line 16 on, its spans in line 20; the second of them at column 22.
    assert_eq!((warning.line, warning.column, warning.confirmed), (20, 22, false));
    assert_eq!((warning.key.as_str(), warning.members.as_slice()), ("long-span B1 2 18.29 m", ["B1".to_owned()].as_slice()));
    let about = |results: &latewood::results::Results| results.open.iter().filter(|item| item.kind == "warning").count();
    assert_eq!(about(&open.results), open.results.warnings.len());

    let confirmed = format!("date: 2026-05-04, confirmed: [{{warning: {}, by: A. Writer, date: 2026-05-05}}]", warning.key);
    let (_, done) = checked(&job.replace("date: 2026-05-04", &confirmed));
    let warning = done.results.warnings.iter().find(|w| w.kind == "long-span").expect("still told");
    assert_eq!((warning.confirmed, warning.confirmed_by.as_str()), (true, "A. Writer, 2026-05-05"));
    assert_eq!(about(&done.results), about(&open.results) - 1);
    assert!(done.results.assumptions.iter().any(|a| a.text.ends_with("Confirmed by A. Writer, 2026-05-05.") && a.members == ["B1"]));
    // The verdict and every ratio are those of before.
    assert_eq!(done.results.members, open.results.members);

    // A longer span is another warning: the confirmation confirms nothing, and says so.
    let (_, longer) = checked(&job.replace("date: 2026-05-04", &confirmed).replace("18.29 m]", "19 m]"));
    let kinds: Vec<(&str, bool)> = longer.results.warnings.iter().map(|w| (w.kind.as_str(), w.confirmed)).collect();
    assert!(kinds.contains(&("long-span", false)) && kinds.contains(&("nothing-to-confirm", false)), "{kinds:?}");
}

#[test]
fn an_ordinary_building_has_no_warnings() {
    for example in ["cider-house.yaml", "sail-loft.yaml", "alpine-school.yaml", "three-failures.yaml"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(example);
        let (_, checked) = checked(&std::fs::read_to_string(path).expect("an example"));
        assert_eq!(checked.job.warnings, [], "{example}");
    }
}

#[test]
fn the_terminal_shows_open_warnings_and_keeps_its_exit_status() {
    let run = |arguments: &[&str]| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_latewood")).args(arguments).output().expect("the program runs");
        (output.status.code(), String::from_utf8_lossy(&output.stderr).into_owned(), output.stdout)
    };
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let plain =
        text("metric.yaml").replace("[18.28 m, 18.29 m]", "[4 m, 4 m]").replace("live: 24.0 kPa", "live: 2 kPa").replace("16 in", "400 mm");
    let odd = plain.replace("live: 2 kPa", "live: 24 kPa");
    let paths = [("plain.yaml", plain), ("odd.yaml", odd)].map(|(name, text)| {
        let path = folder.join(format!("warnings-{name}"));
        std::fs::write(&path, text).expect("a writable folder");
        path.to_string_lossy().into_owned()
    });
    let (quiet, told) = (run(&["check", &paths[0]]), run(&["check", &paths[1]]));
    assert_eq!(quiet.0, told.0);
    assert_eq!(quiet.1, "");
    assert!(told.1.contains("warning[large-load]") && told.1.contains("odd.yaml:6:17") && told.1.ends_with(": 1 warning\n"), "{}", told.1);
    let json: serde_json::Value = serde_json::from_slice(&run(&["check", &paths[1], "--format", "json"]).2).expect("JSON alone");
    assert_eq!(json["warnings"][0]["line"], 6);
}
