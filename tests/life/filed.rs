//! The archive and what happens to packages in it: stamped copies beside their issue, and a recheck of all that is filed.

use super::{A, B, folder, job, names, run, written};
use latewood::archive::Archive;
use latewood::package::Build;
use latewood::study::supersede;
use std::path::Path;

/// An archive with both revisions of the job and one issue of another.
fn office(name: &str) -> std::path::PathBuf {
    let folder = folder(name);
    let other = super::issued(&job("A", "2026-01-05").replace("number: \"#1\"", "number: \"#12\""), Build::Record);
    let packages = [("a.pdf", &*A), ("b.pdf", &*B), ("c.pdf", &other)].map(|(name, bytes)| written(&folder, name, bytes));
    let office = folder.join("office").to_string_lossy().into_owned();
    let (status, _, err) = run(&["archive", &office, "file", &packages[0], &packages[1], &packages[2]]);
    assert_eq!(status, Some(0), "{err}");
    folder
}

fn rechecked(folder: &Path, more: &[&str]) -> (Option<i32>, Vec<String>) {
    let office = folder.join("office").to_string_lossy().into_owned();
    let (status, out, err) = run(&[&["recheck", "--archive", &office][..], more].concat());
    assert_eq!(err, "", "no progress where nobody looks");
    (status, out.lines().map(str::to_owned).collect())
}

#[test]
fn a_stamped_copy_lies_beside_its_issue() {
    let folder = office("stamped");
    let place = folder.join("office");
    let stamped = supersede(&A, &B).expect("stamped");
    let copy = written(&folder, "a-superseded.pdf", &stamped);
    let (status, out, err) = run(&["archive", &place.to_string_lossy(), "file", &copy]);
    assert!(status == Some(0) && out.contains("stamped copy of"), "{out}{err}");
    let (status, out, _) = run(&["archive", &place.to_string_lossy(), "file", &copy]);
    assert!(status == Some(0) && out.contains("was filed before"), "{out}");
    // One entry an issue still; both files are there byte for byte.
    let archive = Archive::open(&place).expect("an archive");
    let entries = archive.read().expect("readable").entries;
    assert_eq!(entries.len(), 3);
    let superseded = entries[0].superseded.as_ref().expect("said");
    assert_eq!(superseded.says, "by #1 revision B of 2026-02-03");
    assert!(std::fs::read(archive.package(&entries[0])).expect("there") == *A);
    assert!(std::fs::read(archive.path(&superseded.file)).expect("there") == stamped);
    let (_, out, _) = run(&["archive", &place.to_string_lossy(), "ask", "--job", "#1"]);
    assert!(out.contains("superseded by #1 revision B") && out.ends_with("2 issues.\n"), "{out}");
    assert!(std::fs::read_to_string(place.join("index.txt")).expect("a table").contains("by #1 revision B of 2026-02-03"));
    // Filed into an empty archive the issue is cut out from under its stamp.
    let empty = folder.join("other").to_string_lossy().into_owned();
    assert_eq!(run(&["archive", &empty, "file", &copy]).0, Some(0));
    let archive = Archive::open(&empty).expect("an archive");
    let entries = archive.read().expect("readable").entries;
    assert!(entries.len() == 1 && std::fs::read(archive.package(&entries[0])).expect("there") == *A);
    // Made anew the index says the same, also where it is lost: the issues were filed in the order of their dates, #12 before #1.
    let archive = Archive::open(&place).expect("an archive");
    let before = archive.read().expect("readable");
    let (status, out, err) = run(&["archive", &place.to_string_lossy(), "rebuild"]);
    assert!(status == Some(0) && out == format!("3 issues in the index of {}\n", place.display()), "{out}{err}");
    assert_eq!(archive.read().expect("readable"), before);
    std::fs::remove_file(place.join("index.jsonl")).expect("removed");
    assert_eq!(run(&["archive", &place.to_string_lossy(), "rebuild"]).0, Some(0));
    let sorted = |mut index: latewood::archive::Index| {
        index.entries.sort_by(|a, b| a.file.cmp(&b.file));
        index
    };
    assert_eq!(sorted(archive.read().expect("readable")), sorted(before));
    // The stamped copy is rechecked with the issue.
    let (status, lines) = rechecked(&folder, &[]);
    assert_eq!((status, lines.last().map(String::as_str)), (Some(0), Some("4 packages: 4 same")), "{lines:?}");
}

#[test]
fn a_whole_archive_is_rechecked_and_in_parts() {
    let folder = office("rechecked");
    let (status, lines) = rechecked(&folder, &[]);
    assert_eq!((status, lines.len()), (Some(0), 4), "{lines:?}");
    assert!(lines[0].starts_with("#1 A, packages/") && lines[0].ends_with(": same"), "{lines:?}");
    assert_eq!(lines[3], "3 packages: 3 same");
    // 1 comes before 12; the parts are the whole.
    for (range, count) in [(&["--to", "#1"][..], 2), (&["--from", "#2"], 1), (&["--from", "#2", "--to", "#9"], 0)] {
        let (status, lines) = rechecked(&folder, range);
        assert_eq!((status, lines.len()), (Some(0), count + 1), "{lines:?}");
    }
    assert_eq!(run(&["recheck", "--from", "#2"]).0, Some(2), "a range is one of an archive");
    assert_eq!(run(&["recheck"]).0, Some(2));
    assert_eq!(run(&["recheck", "--archive", &folder.to_string_lossy()]).0, Some(2), "no archive");
}

#[test]
fn what_is_missing_altered_or_strange_in_an_archive_is_said_and_the_rest_goes_on() {
    let folder = office("harmed");
    let archive = Archive::open(folder.join("office")).expect("an archive");
    let entries = archive.read().expect("readable").entries;
    std::fs::remove_file(archive.package(&entries[0])).expect("removed");
    // A package that is whole, and is not the one that was filed.
    std::fs::write(archive.package(&entries[1]), &*A).expect("written");
    // One that a kill left without its line, or somebody put there.
    let stranger = archive.package(&entries[2]).with_file_name("stranger.pdf");
    std::fs::write(&stranger, &*B).expect("written");
    let (status, lines) = rechecked(&folder, &[]);
    assert_eq!(status, Some(2));
    assert!(lines[0].ends_with("missing: the index names it, and it is not there"), "{lines:?}");
    assert!(lines[1].contains("ALTERED: not the bytes that were filed; by itself: same"), "{lines:?}");
    assert!(lines[2].ends_with(": same"), "{lines:?}");
    assert!(lines[3].contains("stranger.pdf: lies there, and is in no line of the index"), "{lines:?}");
    assert_eq!(lines[4], "3 packages: 1 same, 1 ALTERED, 1 missing");
    // The same revision twice, as when two archives were put together by hand: said, and both are rechecked.
    let index = folder.join("office/index.jsonl");
    let text = std::fs::read_to_string(&index).expect("the index");
    let line = text.lines().nth(2).expect("a third line").replace(&entries[2].package, &entries[1].package.replace('0', "1"));
    std::fs::write(&index, format!("{text}{line}\n")).expect("written");
    let (_, lines) = rechecked(&folder, &["--from", "#12"]);
    assert!(lines[0].contains("#12 A: filed twice"), "{lines:?}");
    assert_eq!(lines.last().map(String::as_str), Some("2 packages: 1 same, 1 ALTERED"));
}

#[test]
fn a_damaged_line_harms_one_issue_and_is_named_by_every_command() {
    let folder = office("damaged");
    let index = folder.join("office/index.jsonl");
    let text = std::fs::read_to_string(&index).expect("the index");
    let lines: Vec<&str> = text.lines().collect();
    std::fs::write(&index, format!("{}\n{}\n{}\n", lines[0], lines[1].replacen(':', ";", 1), lines[2])).expect("written");
    let office = folder.join("office").to_string_lossy().into_owned();
    let (status, out, err) = run(&["archive", &office, "ask"]);
    assert_eq!(status, Some(2), "{out}");
    assert!(out.contains("#1 A, 2026-01-05") && out.contains("#12 A, ") && out.ends_with("2 issues.\n"), "{out}");
    assert!(err.starts_with("error: line 2 of index.jsonl is damaged: ") && err.contains("rebuild"), "{err}");
    let (status, out, err) = run(&["recheck", "--archive", &office]);
    assert!(status == Some(2) && out.ends_with("2 packages: 2 same\n") && err.contains("line 2 of index.jsonl"), "{out}{err}");
    // The newest issue may be the damaged one: none is taken for it.
    let next = written(&folder, "job.yaml", job("C", "2026-03-05").as_bytes());
    let (status, _, err) = run(&["issue", &next, "--after", &office]);
    assert!(status == Some(2) && err.contains("line 2 of index.jsonl") && err.contains("name the package itself"), "{err}");
    assert_eq!(run(&["archive", &office, "rebuild"]).0, Some(0));
    let (status, out, err) = run(&["archive", &office, "ask"]);
    assert!(status == Some(0) && out.ends_with("3 issues.\n") && err.is_empty(), "{out}{err}");
    assert_eq!(run(&["archive", &folder.to_string_lossy(), "rebuild"]).0, Some(2), "no archive");
}

#[test]
fn an_altered_package_is_not_filed() {
    let folder = folder("altered-filed");
    let mut bytes = A.clone();
    bytes[A.len() / 2] ^= 4;
    let altered = written(&folder, "a.pdf", &bytes);
    let office = folder.join("office").to_string_lossy().into_owned();
    let (status, out, err) = run(&["archive", &office, "file", &altered]);
    assert!(status == Some(2) && out.is_empty() && err.contains("a.pdf"), "{out}{err}");
    let (status, _, err) = run(&["issue", &written(&folder, "job.yaml", job("B", "2026-02-03").as_bytes()), "--after", &altered]);
    assert!(status == Some(2) && err.contains("--after") && !err.contains("panicked"), "{err}");
    assert_eq!(names(&folder), ["a.pdf", "job.yaml"], "no folder is made for what is refused");
}
