//! The life of a package: issued, extracted, rechecked, superseded; altered, cut off, killed on the way.
//!
//! `LATEWOOD_TRIALS` raises how often something is altered or killed at random; a run of all is a thousand and two hundred.

mod altered;
mod authentication;
mod filed;
mod hostile;
mod killed;
mod recheck;
mod replaced;
mod signed;
mod supersede;
mod watch;
mod world;

use latewood::Checked;
use latewood::package::{self, Build, Templates};
use latewood::text::Source;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::LazyLock;

/// The name of its package beside the job file: `#` cannot stand in one, so that a hash of `#1` and `A` stands behind (sha256sum).
const NAME: &str = "-1-A-ea43725d";

/// A small job: three members, one of which fails.
const JOB: &str = include_str!("../pages/job.yaml");

/// Its package as revision A, and as revision B of a month later.
static A: LazyLock<Vec<u8>> = LazyLock::new(|| issued(&job("A", "2026-01-05"), Build::Record));
static B: LazyLock<Vec<u8>> = LazyLock::new(|| issued(&job("B", "2026-02-03"), Build::Record));
static SUBMITTAL: LazyLock<Vec<u8>> = LazyLock::new(|| issued(&job("A", "2026-01-05"), Build::Submittal));

/// The job as a revision of a day.
fn job(revision: &str, date: &str) -> String {
    let list = "    - {mark: A, date: 2026-01-05, note: First issue}\n    - {mark: B, date: 2026-02-03, note: \"#emph[beam] moved\"}\n";
    assert!(JOB.contains(list));
    let job = JOB.replace("  date: 2026-02-03", &format!("  date: {date}")).replace("  revision: B", &format!("  revision: {revision}"));
    let job = job.replace(list, &format!("    - {{mark: {revision}, date: {date}, note: \"#emph[beam] moved\"}}\n"));
    assert!(job.contains(date) && job.contains(&format!("  revision: {revision}\n")));
    job
}

fn checked(job: &str) -> Checked {
    let source = Source::read("job.yaml", job.as_bytes()).expect("text");
    latewood::check(&source, false).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn issued(job: &str, build: Build) -> Vec<u8> {
    let Checked { job: read, results } = checked(job);
    package::issue(&read, &results, job.as_bytes(), build, &Templates::built_in()).unwrap_or_else(|bug| panic!("{bug}"))
}

/// An empty folder for a test.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("life-{name}"));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder");
    folder
}

fn written(folder: &Path, name: &str, bytes: &[u8]) -> String {
    let path = folder.join(name);
    std::fs::write(&path, bytes).expect("written");
    path.to_string_lossy().into_owned()
}

fn latewood(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_latewood"));
    command.args(arguments).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// Exit status, standard output, standard error.
fn run(arguments: &[&str]) -> (Option<i32>, String, String) {
    let Output { status, stdout, stderr } = latewood(arguments).output().expect("the program runs");
    (status.code(), String::from_utf8_lossy(&stdout).into_owned(), String::from_utf8_lossy(&stderr).into_owned())
}

fn names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).expect("a folder");
    let mut names: Vec<String> = entries.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn a_job_file_comes_back_byte_for_byte() {
    let folder = folder("extract");
    // A byte order mark and line ends of two bytes are part of the file.
    let job = format!("\u{feff}{}", job("A", "2026-01-05").replace('\n', "\r\n"));
    let file = written(&folder, "job.yaml", job.as_bytes());
    let package = folder.join("a.pdf").to_string_lossy().into_owned();
    assert_eq!(run(&["issue", &file, "--output", &package]).0, Some(1), "the header fails, and is issued all the same");
    let (status, out, _) = run(&["extract", &package]);
    assert_eq!((status, out.as_bytes()), (Some(0), job.as_bytes()));
    let again = folder.join("again.yaml").to_string_lossy().into_owned();
    assert_eq!(run(&["extract", &package, "--output", &again]).0, Some(0));
    assert_eq!(std::fs::read(&again).expect("written"), job.as_bytes());
    // Not over the package itself.
    assert_eq!(run(&["extract", &package, "--output", &package]).0, Some(2));
    // The hash on the cover and in the results is that of the file.
    let attached = latewood::pdf::attachments(&std::fs::read(&package).expect("there")).expect("readable");
    let results = attached.iter().find(|(name, _)| name == "results.json").map(|(_, bytes)| String::from_utf8_lossy(bytes).into_owned());
    assert!(results.expect("attached").contains(&latewood::pdf::sha256(job.as_bytes())));
}

#[test]
fn a_submittal_carries_nothing_and_says_so() {
    let folder = folder("submittal");
    let package = written(&folder, "a-submittal.pdf", &SUBMITTAL);
    let record = written(&folder, "b.pdf", &B);
    for arguments in [&["extract", &package][..], &["recheck", &package], &["supersede", &package, "--by", &record]] {
        let (status, out, err) = run(arguments);
        assert_eq!(status, Some(2), "{arguments:?}");
        assert!(format!("{out}{err}").contains("a submittal"), "{out}{err}");
        assert!(format!("{out}{err}").contains("carries nothing"), "{out}{err}");
    }
    assert_eq!(names(&folder), ["a-submittal.pdf", "b.pdf"]);
}

#[test]
fn what_is_not_a_package_is_refused() {
    let folder = folder("foreign");
    let record = written(&folder, "b.pdf", &B);
    let (file, office) =
        (written(&folder, "job.yaml", job("C", "2026-03-05").as_bytes()), folder.join("office").to_string_lossy().into_owned());
    let other = "%PDF-1.4\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n2 0 obj\n<</Type/Pages/Kids[]/Count 0>>\nendobj\nxref\n0 3\n\
        0000000000 65535 f \n0000000009 00000 n \n0000000054 00000 n \ntrailer\n<</Size 3/Root 1 0 R>>\nstartxref\n101\n%%EOF";
    for (name, bytes) in [("other.pdf", other.as_bytes()), ("text.pdf", b"not a PDF"), ("empty.pdf", b""), ("cut.pdf", &A[..A.len() / 2])] {
        let path = written(&folder, name, bytes);
        for arguments in [
            &["extract", &path][..],
            &["recheck", &path],
            &["supersede", &path, "--by", &record],
            &["supersede", &record, "--by", &path],
            &["archive", &office, "file", &path],
            &["issue", &file, "--after", &path],
        ] {
            let (status, out, err) = run(arguments);
            assert_eq!(status, Some(2), "{arguments:?}: {out}{err}");
            assert!(!err.contains("panicked") && format!("{out}{err}").contains(name), "{out}{err}");
        }
        std::fs::remove_file(path).expect("removed");
    }
    assert_eq!(names(&folder), ["b.pdf", "job.yaml"], "nothing is written");
    for missing in [&["extract", "no-such.pdf"][..], &["recheck", "no-such.pdf"], &["recheck", "."]] {
        assert_eq!(run(missing).0, Some(2), "{missing:?}");
    }
}

#[test]
fn a_package_has_a_name_that_authorities_take() {
    let folder = folder("names");
    for (number, copy, name) in [
        ("26-114", "record", "26-114-A.pdf"),
        ("26-114", "submittal", "26-114-A-submittal.pdf"),
        ("Nº 7/b: \\\"Mühle\\\" & Co?", "record", "Nº-7-b---Mühle----Co--A-HASH.pdf"),
        ("../../etc/x", "record", "-.-..-etc-x-A-HASH.pdf"),
        (&"7".repeat(80), "submittal", &format!("{}-A-HASH-submittal.pdf", "7".repeat(35))),
    ] {
        let file =
            written(&folder, "job.yaml", job("A", "2026-01-05").replace("number: \"#1\"", &format!("number: \"{number}\"")).as_bytes());
        let (_, out, err) = run(&["issue", &file, "--for", copy]);
        let path = PathBuf::from(out.trim_end());
        // What is behind a name that had to be changed: the number and the revision hashed, so that no two jobs share one.
        let hash = latewood::pdf::sha256(format!("{}\0A", number.replace("\\\"", "\"")).as_bytes());
        let name = &name.replace("HASH", &hash[..8]);
        assert_eq!((path.parent(), path.file_name()), (Some(&*folder), Some(std::ffi::OsStr::new(name))), "{number}: {err}");
        assert!(name.chars().count() <= 60 && path.is_file());
        std::fs::remove_file(path).expect("removed");
    }
}
