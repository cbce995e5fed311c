//! Every `NAME.yaml` here is a job file with faults, and `NAME.txt` is all that a person is told of them.
//!
//! `REPLACE=1` writes the `.txt` files again; then read what changed.

use latewood::cli::snippet;
use latewood::codes::{american, european};
use latewood::text::Source;
use latewood::{job, yaml};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

fn files() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/faults");
    let entries = std::fs::read_dir(&folder).expect("tests/faults is a folder");
    let mut files: Vec<PathBuf> =
        entries.map(|entry| entry.expect("an entry").path()).filter(|p| p.extension().is_some_and(|e| e == "yaml")).collect();
    files.extend(["many.yaml", "only-the-code.yaml", "only-the-code-back.yaml"].map(|name| folder.join(name)));
    files.sort();
    files
}

/// The examples with only `code:` changed: name, example, its code, the other code.
const CODE_CHANGED: [(&str, &str, &str, &str); 2] = [
    ("only-the-code.yaml", "cider-house.yaml", "american", "european"),
    ("only-the-code-back.yaml", "alpine-school.yaml", "european", "american"),
];

/// The text of a file. Three are made here and not kept: one with too many entries, and the examples with only `code:` changed.
fn source(path: &Path) -> Source {
    let name = path.file_name().expect("a file").to_string_lossy().into_owned();
    let bytes = if name == "many.yaml" {
        format!("members: [{}1]\n", "1, ".repeat(yaml::MOST)).into_bytes()
    } else if let Some((example, code, other)) =
        CODE_CHANGED.iter().find(|(of, ..)| *of == name).map(|(_, example, code, other)| (example, code, other))
    {
        let example = path.ancestors().nth(3).map(|root| root.join("examples").join(example)).expect("the root");
        let text = std::fs::read_to_string(example).expect("an example");
        let (from, to) = (format!("code: {code}"), format!("code: {other}"));
        assert!(text.contains(&from));
        text.replace(&from, &to).into_bytes()
    } else {
        std::fs::read(path).expect("a readable file")
    };
    Source::read(name, &bytes).expect("UTF-8 text of a bearable size")
}

/// Reads every file and compares what is told, to the letter; every fault that there is must be told by one of them.
pub fn run() {
    let replace = std::env::var_os("REPLACE").is_some();
    let mut told = BTreeSet::new();
    let mut differing = Vec::new();
    for path in files() {
        let source = source(&path);
        let Err(faults) = latewood::read(&source) else { panic!("{} has no faults", source.name()) };
        let text = snippet::render(&source, &faults, false);
        assert_eq!(snippet::lines(&source, &faults).lines().count(), faults.len());
        told.extend(faults.iter().map(|fault| fault.id));
        let expected = path.with_extension("txt");
        if replace {
            std::fs::write(&expected, &text).expect("a writable folder");
        } else if std::fs::read_to_string(&expected).unwrap_or_default() != text {
            differing.push(format!("--- {} now says\n{text}", source.name()));
        }
    }
    assert!(differing.is_empty(), "{}", differing.join("\n"));
    let all = || yaml::IDS.iter().chain(job::IDS).chain(american::FAULTS).chain(european::FAULTS).copied();
    let known: BTreeSet<&str> = all().collect();
    assert_eq!(told.difference(&known).collect::<Vec<_>>(), Vec::<&&str>::new(), "ids that no list has");
    let without: Vec<&str> = all().filter(|id| !told.contains(id)).collect();
    assert_eq!(without, Vec::<&str>::new(), "faults that no file here has");
}

/// Job files cut, repeated and mutated are faulty or not, but never make the reader panic.
pub fn hostile() {
    for path in files() {
        let source = source(&path);
        // The large one has nothing to cut.
        let text = source.text();
        if text.len() > 8192 {
            continue;
        }
        let cut = (0..text.len()).step_by(7).filter(|i| text.is_char_boundary(*i));
        for at in cut {
            let (before, after) = text.split_at(at);
            for mutated in [
                before.to_owned(),
                after.to_owned(),
                format!("{before}\u{e9}{after}"),
                format!("{before}: {after}"),
                format!("{before}-1e308 ft{after}"),
            ] {
                try_one(&mutated);
            }
            let line = after.lines().next().unwrap_or_default();
            try_one(&format!("{before}{line}\n{after}"));
        }
        try_one(&text.repeat(2));
    }
}

fn try_one(text: &str) {
    let Ok(source) = Source::read("mutated.yaml", text.as_bytes()) else { return };
    let reading = job::read(&source);
    let faults = reading.faults.clone();
    assert!(!faults.is_empty() || reading.whole().is_ok(), "nothing is said of\n{text}");
    // What the codes are tried with in place of values that could not be read must not make them panic either.
    let faults = if text.len().is_multiple_of(16) { latewood::read(&source).err().unwrap_or(faults) } else { faults };
    for fault in faults.iter().take(3) {
        assert!(!snippet::render(&source, std::slice::from_ref(fault), false).is_empty());
    }
}
