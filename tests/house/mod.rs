//! The house: what each room may know, how long a file is, what must not be left over.

use std::path::{Path, PathBuf};

/// A room and the rooms that it may use.
const ROOMS: [(&str, &[&str]); 16] = [
    ("text", &[]),
    ("disk", &[]),
    ("cores", &[]),
    ("units", &["text"]),
    ("equation", &["units"]),
    ("table", &["text", "units"]),
    ("yaml", &["text"]),
    ("job", &["yaml", "table", "units", "text"]),
    ("analysis", &[]),
    ("codes", &["job", "analysis", "table", "equation", "units", "text", "cores"]),
    ("results", &["codes", "job", "analysis", "equation", "units", "text", "cores"]),
    ("package", &["results", "job", "units", "text", "equation", "pdf", "cores"]),
    ("pdf", &["text", "cores"]),
    ("archive", &["results", "pdf", "text", "disk"]),
    ("study", &["text", "units", "equation", "table", "yaml", "job", "analysis", "codes", "results", "package", "pdf", "archive", "cores"]),
    (
        "cli",
        &[
            "text", "disk", "units", "equation", "table", "yaml", "job", "analysis", "codes", "results", "package", "pdf", "archive",
            "study",
        ],
    ),
];

/// The most lines of a file; past that it is two ideas.
const LONGEST: usize = 500;

fn sources(folder: &Path, into: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, into);
        } else if path.extension().is_some_and(|e| e == "rs") {
            into.push(path);
        }
    }
}

fn files() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut paths = Vec::new();
    sources(&root, &mut paths);
    paths.sort();
    paths
        .into_iter()
        .map(|p| (p.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/"), std::fs::read_to_string(&p).unwrap()))
        .collect()
}

#[test]
fn rooms_know_only_what_they_may() {
    let mut breaches = Vec::new();
    for (path, text) in files() {
        let Some((room, _)) = path.split_once('/') else { continue };
        let Some((_, may)) = ROOMS.iter().find(|(name, _)| *name == room) else {
            breaches.push(format!("{path}: a room that the house does not have"));
            continue;
        };
        let test = path.contains("test") || path.contains("laws");
        for line in text.lines().filter(|l| !l.trim_start().starts_with("//")) {
            for part in line.split("crate::").skip(1) {
                let used: String = part.chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '_').collect();
                let known = ROOMS.iter().any(|(name, _)| *name == used);
                if known && used != room && !may.contains(&used.as_str()) && !test {
                    breaches.push(format!("{path}: {room} must not know {used}: {}", line.trim()));
                }
            }
        }
    }
    assert!(breaches.is_empty(), "{}", breaches.join("\n"));
}

#[test]
fn files_are_one_idea_and_nothing_is_left_over() {
    let mut wrong = Vec::new();
    for (path, text) in files() {
        if text.lines().count() > LONGEST {
            wrong.push(format!("{path} has {} lines", text.lines().count()));
        }
        for mark in ["todo!", "unimplemented!", "dbg!(", "TODO", "FIXME"] {
            if text.contains(mark) {
                wrong.push(format!("{path}: {mark}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_top_level_is_as_it_should_be() {
    let allowed =
        ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "LICENSE", "src", "templates", "fonts", "examples", "tests", "target"];
    for entry in std::fs::read_dir(env!("CARGO_MANIFEST_DIR")).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(name.starts_with('.') || allowed.contains(&name.as_str()), "{name} on the top level");
    }
}

#[test]
fn the_manual_names_commands_that_are_there() {
    let readme = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")).unwrap();
    let known = [
        "init",
        "check",
        "issue",
        "archive",
        "extract",
        "recheck",
        "supersede",
        "size",
        "spans",
        "prove",
        "catalogue",
        "schema",
        "completions",
        "man",
        "--version",
        "--help",
    ];
    let mut named = 0;
    for line in readme.lines() {
        for (i, _) in line.match_indices("latewood ") {
            let before = line[..i].chars().last();
            if before != Some('`') {
                continue;
            }
            let word: String = line[i + 9..].chars().take_while(|c| !c.is_whitespace() && *c != '`').collect();
            assert!(known.contains(&word.as_str()), "README names `latewood {word}`");
            named += 1;
        }
    }
    assert!(named >= 3, "README names {named} commands");
}
