//! A package mutated where a reader looks: numbers after its keys, objects moved about, ends cut off. It is read or refused, never a panic.

use crate::random::{Random, seed, trials};
use latewood::package::{self, Build, Carried, Templates};
use latewood::pdf::{attachments, page_count, stamped, standing};
use latewood::text::Source;

/// What a reader of a PDF goes by.
const KEYS: &[&str] = &[
    "/Length ",
    "/Size ",
    "/Prev ",
    "/Root ",
    "/First ",
    "/N ",
    "/W",
    "/Index",
    "/Type",
    "/Kids",
    "/Count ",
    "/EF",
    "/Names",
    "/Filter",
    "startxref\n",
    "endobj",
    "endstream",
    "stream\n",
    " 0 R",
    " 0 obj",
    "<<",
    ">>",
    "trailer",
    "%%EOF",
];

/// What stands there instead.
const VALUES: &[&str] = &[
    "0 ",
    "-1 ",
    "1 ",
    "99999999999 ",
    "4294967296 ",
    "9223372036854775807 ",
    "[",
    "]",
    "<<",
    ">>",
    "(",
    " 1 0 R ",
    "null ",
    "/FlateDecode ",
    "",
];

fn mutate(random: &mut Random, bytes: &mut Vec<u8>) {
    match random.below(6) {
        0 => bytes.truncate(random.below(bytes.len())),
        1 => {
            let (from, length, to) = (random.below(bytes.len()), random.below(4096), random.below(bytes.len()));
            let piece: Vec<u8> = bytes[from..].iter().take(length).copied().collect();
            bytes.splice(to..to, piece);
        }
        2 => {
            let from = random.below(bytes.len());
            let to = (from + random.below(4096)).min(bytes.len());
            bytes.drain(from..to);
        }
        _ => {
            let key = random.one(KEYS).as_bytes();
            let places: Vec<usize> = bytes.windows(key.len()).enumerate().filter(|(_, w)| *w == key).map(|(i, _)| i).collect();
            if !places.is_empty() {
                let at = random.one(&places) + key.len();
                let to = (at + random.below(12)).min(bytes.len());
                bytes.splice(at..to, random.one(VALUES).bytes());
            }
        }
    }
}

#[test]
fn mutated_packages_are_read_or_refused() {
    let job = include_str!("../pages/job.yaml");
    let checked = latewood::check(&Source::read("job.yaml", job.as_bytes()).expect("text"), false).expect("a job without errors");
    let whole = package::issue(&checked.job, &checked.results, job.as_bytes(), Build::Record, &Templates::built_in()).expect("issued");
    let mut random = Random(seed(20_260_302));
    for _ in 0..trials(60) {
        let mut bytes = whole.clone();
        for _ in 0..=random.below(3) {
            if !bytes.is_empty() {
                mutate(&mut random, &mut bytes);
            }
        }
        let _ = (standing(&bytes), attachments(&bytes), page_count(&bytes), stamped(&bytes), Carried::of(&bytes));
    }
}
