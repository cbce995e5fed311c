//! Faults of the world: a disk that is full, a folder in which nothing may be written. A clear error, and nothing written.

use super::{A, B, NAME, folder, job, names, run, written};
use std::path::Path;
use std::process::{Command, Output, Stdio};

/// Runs the program under what a shell sets before, or by another program.
fn under(before: &str, arguments: &[&str]) -> Output {
    let script = format!("{before} \"$0\" \"$@\"");
    let mut command = Command::new("bash");
    command.args(["-c", &script, env!("CARGO_BIN_EXE_latewood")]).args(arguments).stdin(Stdio::null());
    command.output().expect("bash is there")
}

fn refused(output: &Output, says: &str) {
    let (out, err) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert_eq!(output.status.code(), Some(2), "{out}{err}");
    assert!(out.is_empty() && err.starts_with("error: ") && err.lines().count() == 1, "{out}{err}");
    assert!(err.contains(says), "{says}: {err}");
}

/// Files may not grow past 8 KiB: to the program as a disk that is full in the middle of a file.
const FULL: &str = "trap '' XFSZ; ulimit -f 8;";

#[test]
fn a_full_disk_leaves_what_was_there() {
    let folder = folder("full");
    let (a, b) = (written(&folder, "a.pdf", &A), written(&folder, "b.pdf", &B));
    let file = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let there = written(&folder, "there.pdf", b"what was there");
    refused(&under(FULL, &["issue", &file, "--replace", "--output", &there]), "cannot write");
    refused(&under(FULL, &["supersede", &a, "--replace", "--by", &b, "--output", &there]), "cannot write");
    refused(&under(FULL, &["issue", &file]), NAME);
    assert_eq!(std::fs::read(&there).expect("there"), b"what was there");
    assert_eq!(names(&folder), ["a.pdf", "b.pdf", "job.yaml", "there.pdf"], "nothing is left behind");
}

#[test]
fn a_full_disk_loses_nothing_of_an_archive() {
    let folder = folder("full-archive");
    let (a, b) = (written(&folder, "a.pdf", &A), written(&folder, "b.pdf", &B));
    let office = folder.join("office").to_string_lossy().into_owned();
    assert_eq!(run(&["archive", &office, "file", &a]).0, Some(0));
    let index = std::fs::read(folder.join("office/index.jsonl")).expect("the index");
    refused(&under(FULL, &["archive", &office, "file", &b]), "b.pdf");
    assert!(std::fs::read(folder.join("office/index.jsonl")).expect("the index") == index);
    // The package has room and its line has not: half a line is taken away again.
    let room = index.len().div_ceil(1024) * 1024;
    std::fs::write(folder.join("office/index.jsonl"), [index.repeat(1 + B.len() / index.len()), Vec::new()].concat()).expect("written");
    let long = std::fs::metadata(folder.join("office/index.jsonl")).expect("there").len();
    let blocks = long.div_ceil(1024);
    assert!(blocks * 1024 > B.len() as u64 && room > 0);
    refused(&under(&format!("trap '' XFSZ; ulimit -f {blocks};"), &["archive", &office, "file", &b]), "index.jsonl");
    assert_eq!(std::fs::metadata(folder.join("office/index.jsonl")).expect("there").len(), long);
    assert_eq!(run(&["archive", &office, "file", &b]).0, Some(0), "with room it is filed");
}

/// What makes the owner's own lack of a right count, also where the tests run as root: without the power to pass over modes.
fn as_anybody() -> &'static str {
    let root = Command::new("id").arg("-u").output().is_ok_and(|output| output.stdout == b"0\n");
    if root { "setpriv --bounding-set=-dac_override,-dac_read_search" } else { "" }
}

#[test]
#[cfg(unix)]
fn a_folder_that_may_only_be_read_stays_as_it_is() {
    use std::os::unix::fs::PermissionsExt;
    let set = |folder: &Path, mode| std::fs::set_permissions(folder, std::fs::Permissions::from_mode(mode)).expect("set");
    let folder = folder("read-only");
    let (a, b) = (written(&folder, "a.pdf", &A), written(&folder, "b.pdf", &B));
    let file = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let office = folder.join("office");
    assert_eq!(run(&["archive", &office.to_string_lossy(), "file", &a]).0, Some(0));
    let locked = folder.join("locked");
    std::fs::create_dir(&locked).expect("a folder");
    set(&locked, 0o555);
    set(&office, 0o555);
    let run = |arguments: &[&str]| under(as_anybody(), arguments);
    let into = |name: &str| locked.join(name).to_string_lossy().into_owned();
    let office = office.to_string_lossy().into_owned();
    refused(&run(&["issue", &file, "--output", &into("a.pdf")]), "ermission denied");
    refused(&run(&["supersede", &a, "--by", &b, "--output", &into("b.pdf")]), "ermission denied");
    refused(&run(&["extract", &a, "--output", &into("job.yaml")]), "ermission denied");
    refused(&run(&["archive", &into("office"), "file", &a]), "ermission denied");
    // It can still be asked and rechecked.
    for arguments in [&["archive", &office, "ask"][..], &["recheck", "--archive", &office]] {
        assert_eq!(run(arguments).status.code(), Some(0), "{arguments:?}");
    }
    set(&locked, 0o755);
    set(Path::new(&office), 0o755);
    assert_eq!(names(&locked), Vec::<String>::new());
}

#[test]
fn a_folder_that_is_not_there_is_named() {
    let folder = folder("nowhere");
    let file = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let target = folder.join("no-such/a.pdf").to_string_lossy().into_owned();
    refused(&under("", &["issue", &file, "--output", &target]), "no-such/a.pdf");
    assert_eq!(names(&folder), ["job.yaml"]);
}
