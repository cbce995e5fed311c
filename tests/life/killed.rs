//! Killed at a random moment: what stood there before, or the whole new file, and never anything between.

use super::{A, B, folder, job, latewood, names, written};
use crate::random::{Random, trials};
use latewood::study::supersede;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

/// How long a command takes when nobody kills it.
fn time(mut command: Command) -> Duration {
    let start = Instant::now();
    let output = command.output().expect("the program runs");
    assert!(matches!(output.status.code(), Some(0 | 1)), "{}", String::from_utf8_lossy(&output.stderr));
    start.elapsed()
}

/// Starts a command again and again and kills it at a random moment; after each, the file is one of these.
fn kill(command: impl Fn() -> Command, file: &Path, may_be: &[&[u8]], random: &mut Random) {
    let whole = time(command());
    let (mut before, mut after) = (0, 0);
    for trial in 0..trials(6) {
        let _ = std::fs::remove_file(file);
        let old = trial % 2 == 0;
        if old {
            std::fs::write(file, may_be[0]).expect("written");
        }
        let moment = Duration::from_micros(random.below(usize::try_from(whole.as_micros()).expect("fits") * 11 / 10 + 1) as u64);
        let mut child = command().spawn().expect("the program runs");
        std::thread::sleep(moment);
        let _ = child.kill();
        let _ = child.wait();
        match std::fs::read(file) {
            Ok(bytes) => {
                assert!(may_be.iter().any(|known| *known == bytes), "half a file after {moment:?}");
                if bytes == may_be[0] { before += 1 } else { after += 1 }
            }
            Err(_) => assert!(!old, "the old file is gone after {moment:?}"),
        }
    }
    println!("{}: {before} left as it was, {after} written, the rest not begun", file.display());
}

/// What a kill may leave beside the file: a temporary one, by its name hidden and ours.
fn tidy(folder: &Path, known: &[&str]) {
    for name in names(folder) {
        assert!(known.contains(&name.as_str()) || (name.starts_with(".latewood-") && name.ends_with(".part")), "{name} was left behind");
    }
}

#[test]
fn issue_killed_at_any_moment() {
    let folder = folder("killed-issue");
    let file = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let target = folder.join("a.pdf");
    let command = || latewood(&["issue", &file, "--replace", "--output", &target.to_string_lossy()]);
    kill(command, &target, &[&B, &A], &mut Random(3));
    tidy(&folder, &["job.yaml", "a.pdf"]);
}

#[test]
fn supersede_killed_at_any_moment() {
    let folder = folder("killed-supersede");
    let (a, b) = (written(&folder, "a.pdf", &A), written(&folder, "b.pdf", &B));
    let target = folder.join("a-superseded.pdf");
    let stamped = supersede(&A, &B).expect("stamped");
    kill(|| latewood(&["supersede", &a, "--replace", "--by", &b]), &target, &[&B, &stamped], &mut Random(5));
    assert_eq!((std::fs::read(&a).expect("there"), std::fs::read(&b).expect("there")), (A.clone(), B.clone()));
    tidy(&folder, &["a.pdf", "b.pdf", "a-superseded.pdf"]);
}
