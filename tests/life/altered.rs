//! A byte altered at random, a file cut off anywhere: found each time, never a panic, nothing written.

use super::{A, B, SUBMITTAL, folder, names, run, written};
use crate::random::{Random, trials};
use latewood::package::Carried;
use latewood::pdf::{Press, Standing, standing};
use latewood::study::{NotSuperseded, Unfit, Verdict, recheck, supersede};

/// Of so many trials one is rechecked whole, which issues the package again; the others are read and refused, which takes no time.
const WHOLE: usize = 20;

/// What each command makes of bytes that are not what was issued.
fn is_found(bytes: &[u8], press: &mut Press, trial: usize, what: &str) {
    assert!(!matches!(standing(bytes), Standing::Whole), "{what}");
    if trial.is_multiple_of(WHOLE) {
        match recheck(bytes, press) {
            Ok(found) => assert_ne!(found.verdict(), Verdict::Same, "{what}"),
            Err(Unfit::Foreign | Unfit::CarriesNothing(..) | Unfit::Unreadable(_)) => {}
        }
    }
    assert!(supersede(bytes, &B).is_err() && supersede(&A, bytes).is_err(), "{what}");
    let _ = Carried::of(bytes);
}

#[test]
fn a_byte_altered_anywhere_is_found() {
    let (mut random, mut press) = (Random(20_260_105), Press::warm());
    for trial in 0..trials(40) {
        let (at, bit) = (random.below(A.len()), random.below(8));
        let mut bytes = A.clone();
        bytes[at] ^= 1 << bit;
        is_found(&bytes, &mut press, trial, &format!("byte {at}, bit {bit}"));
    }
}

#[test]
fn a_byte_altered_at_the_end_is_found() {
    let mut press = Press::warm();
    let tail = A.len() - 160;
    for at in tail..A.len() {
        let mut bytes = A.clone();
        bytes[at] ^= 1;
        is_found(&bytes, &mut press, at, &format!("byte {at}"));
    }
}

#[test]
fn a_file_that_was_cut_off_is_found() {
    let (mut random, mut press) = (Random(7), Press::warm());
    for trial in 0..trials(40) {
        let end = random.below(A.len());
        is_found(&A[..end], &mut press, trial, &format!("cut off at {end}"));
    }
}

#[test]
fn an_altered_stamp_is_found() {
    let stamped = supersede(&A, &B).expect("stamped");
    let (mut random, mut press) = (Random(11), Press::warm());
    for _ in 0..=trials(40) / WHOLE {
        let mut bytes = stamped.clone();
        let at = A.len() + random.below(stamped.len() - A.len());
        bytes[at] ^= 1 << random.below(8);
        match recheck(&bytes, &mut press) {
            // What lies under the stamp still holds: that is said, and that something was appended.
            Ok(found) => assert_ne!(found.verdict(), Verdict::Same, "byte {at}"),
            Err(why) => panic!("byte {at}: {why:?}"),
        }
    }
}

#[test]
fn an_altered_submittal_is_found() {
    let mut bytes = SUBMITTAL.clone();
    bytes[SUBMITTAL.len() / 2] ^= 1;
    assert_eq!(standing(&SUBMITTAL), Standing::Whole);
    assert_eq!(recheck(&SUBMITTAL, &mut Press::warm()), Err(Unfit::CarriesNothing(Standing::Whole, Vec::new())));
    assert_eq!(standing(&bytes), Standing::Altered);
    assert!(matches!(supersede(&bytes, &B), Err(NotSuperseded::Altered(_))));
}

#[test]
fn an_altered_package_gives_nothing_out() {
    let folder = folder("altered");
    let mut bytes = A.clone();
    bytes[A.len() / 2] ^= 4;
    let (altered, b) = (written(&folder, "a.pdf", &bytes), written(&folder, "b.pdf", &B));
    let job = folder.join("job.yaml").to_string_lossy().into_owned();
    for arguments in [&["extract", &altered, "--output", &job][..], &["supersede", &altered, "--by", &b]] {
        let (status, out, err) = run(arguments);
        assert_eq!((status, out.as_str()), (Some(2), ""));
        assert!(err.contains("was altered"), "{err}");
    }
    let (status, out, _) = run(&["recheck", &altered]);
    assert_eq!(status, Some(1));
    assert!(out.contains("ALTERED") && out.contains("does not hold"), "{out}");
    assert_eq!(names(&folder), ["a.pdf", "b.pdf"]);
}
