//! The program as it is called: exit status, what is printed where, nothing half-written.

use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_latewood")).args(arguments).stdin(Stdio::null()).output().expect("the program runs")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

fn example(name: &str) -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name).to_string_lossy().into_owned()
}

#[test]
fn the_exit_status_says_pass_fail_or_refused() {
    assert_eq!(run(&["check", &example("cider-house.yaml")]).status.code(), Some(0));
    assert_eq!(run(&["check", &example("three-failures.yaml")]).status.code(), Some(1));
    let missing = run(&["check", "no-such-job.yaml"]);
    assert_eq!(missing.status.code(), Some(2));
    assert!(text(&missing.stderr).starts_with("error: cannot open no-such-job.yaml"));
    assert_eq!(run(&["check", "--no-such-option"]).status.code(), Some(2));
}

#[test]
fn bad_bytes_are_refused_with_their_reason() {
    let folder = folder("bad-bytes");
    let write = |name: &str, bytes: &[u8]| {
        let path = folder.join(name);
        std::fs::write(&path, bytes).unwrap();
        path.to_string_lossy().into_owned()
    };
    for (name, bytes, says) in [
        ("large.yaml", vec![b'#'; 50 << 20], "too large"),
        ("latin1.yaml", b"job:\n  title: Sch\xe4fer\n".to_vec(), "not UTF-8"),
        ("empty.yaml", Vec::new(), "empty"),
    ] {
        let output = run(&["check", &write(name, &bytes)]);
        assert_eq!(output.status.code(), Some(2), "{name}");
        assert!(text(&output.stderr).contains(says), "{name}: {}", text(&output.stderr));
        assert!(output.stdout.is_empty());
    }
    let as_file = run(&["check", &folder.to_string_lossy()]);
    assert_eq!(as_file.status.code(), Some(2));
    assert!(text(&as_file.stderr).contains("is a folder"), "{}", text(&as_file.stderr));
}

#[test]
fn a_byte_order_mark_and_line_ends_of_two_bytes_are_fine() {
    let folder = folder("line-ends");
    let job = std::fs::read_to_string(example("three-failures.yaml")).unwrap();
    let path = folder.join("job.yaml");
    std::fs::write(&path, format!("\u{feff}{}", job.replace('\n', "\r\n"))).unwrap();
    let (plain, marked) = (run(&["check", &example("three-failures.yaml")]), run(&["check", &path.to_string_lossy()]));
    assert_eq!(text(&plain.stdout), text(&marked.stdout));
}

#[test]
fn the_starter_passes_and_is_never_written_over_a_file() {
    let folder = folder("init");
    let path = folder.join("job.yaml").to_string_lossy().into_owned();
    assert_eq!(run(&["init", &path]).status.code(), Some(0));
    assert_eq!(run(&["check", &path]).status.code(), Some(0), "{}", text(&run(&["check", &path]).stderr));
    let european = folder.join("european.yaml").to_string_lossy().into_owned();
    assert_eq!(run(&["init", "--code", "european", &european]).status.code(), Some(0));
    assert_eq!(run(&["check", &european]).status.code(), Some(0), "{}", text(&run(&["check", &european]).stderr));
    let again = run(&["init", &path]);
    assert_eq!(again.status.code(), Some(2));
    assert!(text(&again.stderr).contains("is there already"));
}

#[test]
fn json_is_the_results_document() {
    let output = run(&["check", &example("cider-house.yaml"), "--format", "json", "--member", "J1"]);
    let results: latewood::results::Results = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!((results.format, results.members.len(), results.members[0].mark.as_str()), (2, 1, "J1"));
    for what in ["job", "results"] {
        let schema: serde_json::Value = serde_json::from_slice(&run(&["schema", what]).stdout).unwrap();
        assert!(schema.get("properties").or(schema.get("$defs")).is_some(), "{what}");
    }
}

#[test]
fn the_other_commands_print() {
    for arguments in [&["catalogue"][..], &["completions", "bash"], &["man"], &["--version"], &["help", "check"]] {
        let output = run(arguments);
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
        assert!(output.stdout.len() > 10, "{arguments:?}");
    }
    assert!(text(&run(&["catalogue"]).stdout).contains("from memory"));
}

#[test]
fn sizes_span_tables_and_proofs_are_printed_and_written() {
    let folder = folder("tools");
    let copy = folder.join("sized.yaml").to_string_lossy().into_owned();
    let sized = run(&["size", &example("three-failures.yaml"), "--vary", "plies", "--output", &copy]);
    assert!(text(&sized.stdout).contains("sized down the load path"), "{}{}", text(&sized.stdout), text(&sized.stderr));
    assert_eq!(run(&["check", &copy]).status.code(), sized.status.code());
    let job = example("three-failures.yaml");
    let itself = run(&["size", &job, "--output", &job]);
    assert_eq!(itself.status.code(), Some(2));
    assert!(text(&itself.stderr).contains("is the file itself"));
    let mark = run(&["size", &job, "--member", "no-such"]);
    assert!(mark.status.code() == Some(2) && text(&mark.stderr).contains("no member no-such"));

    let asked = ["spans", "--species", "Hem-Fir", "--grade", "No.1,No.2", "--section", "2x8,2x10", "--spacing", "16 in,24 in"];
    let loads = ["--load", "dead=10 psf,live=40 psf", "--limit", "live=L/360,total=none"];
    let table = run(&[&asked[..], &loads[..]].concat());
    assert_eq!(table.status.code(), Some(0), "{}", text(&table.stderr));
    assert!(text(&table.stdout).contains("rounded down to the inch"));
    let csv = run(&[&asked[..], &loads[..], &["--format", "csv"]].concat());
    assert_eq!(text(&csv.stdout).lines().count(), 1 + 8, "{}", text(&csv.stdout));
    let refused = run(&[&asked[..], &["--load", "dead=10"]].concat());
    assert_eq!(refused.status.code(), Some(2));
    assert!(text(&refused.stderr).contains("has no unit"), "{}", text(&refused.stderr));

    let report = folder.join("proof.json");
    let proved = run(&["prove", "--output", &report.to_string_lossy()]);
    let proof: latewood::results::proof::Proof = serde_json::from_slice(&std::fs::read(&report).unwrap()).unwrap();
    assert_eq!(proved.status.code(), Some(if proof.agrees { 0 } else { 1 }));
}

#[cfg(feature = "paper")]
#[test]
fn a_package_appears_whole_or_not_at_all() {
    let folder = folder("issue");
    let target = folder.join("package.pdf");
    let good = run(&["issue", &example("three-failures.yaml"), "--output", &target.to_string_lossy()]);
    assert_eq!(good.status.code(), Some(1), "{}", text(&good.stderr));
    let before = std::fs::read(&target).unwrap();
    assert!(before.starts_with(b"%PDF-"));
    // A job with a fault leaves the earlier package alone, and nothing else behind.
    let job = folder.join("bad.yaml");
    std::fs::write(&job, "job: {title: x}\n").unwrap();
    assert_eq!(run(&["issue", &job.to_string_lossy(), "--output", &target.to_string_lossy()]).status.code(), Some(2));
    assert_eq!(std::fs::read(&target).unwrap(), before);
    let nowhere = folder.join("not-there/package.pdf");
    let unwritable = run(&["issue", &example("three-failures.yaml"), "--output", &nowhere.to_string_lossy()]);
    assert_eq!(unwritable.status.code(), Some(2));
    assert!(text(&unwritable.stderr).starts_with("error: cannot write"), "{}", text(&unwritable.stderr));
    // Only a regular file is replaced, and never the job file.
    std::fs::write(&job, std::fs::read(example("three-failures.yaml")).unwrap()).unwrap();
    let itself = run(&["issue", &job.to_string_lossy(), "--output", &job.to_string_lossy()]);
    assert_eq!(itself.status.code(), Some(2));
    assert!(text(&itself.stderr).contains("is the file itself that was read"), "{}", text(&itself.stderr));
    let device = run(&["issue", &job.to_string_lossy(), "--output", "/dev/null"]);
    assert_eq!(device.status.code(), Some(1), "{}", text(&device.stderr));
    assert!(!Path::new("/dev/null").metadata().unwrap().is_file(), "a device is never renamed over");
    let mut names: Vec<_> = std::fs::read_dir(&folder).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    assert_eq!(names, ["bad.yaml", "package.pdf"]);
}
