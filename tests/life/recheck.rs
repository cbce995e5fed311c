//! Recheck: same, otherwise and where, made by another version.

use super::{A, B, checked, folder, job, names, run, written};
use latewood::Checked;
use latewood::package::{self, Build, Issue, Templates};
use latewood::pdf::{Press, Standing};
use latewood::study::{Pages, Unfit, Verdict, recheck};

/// The name of a build that is not this one.
const OTHER: &str = "0123456789abcdef";

/// A package whose results were rewritten before it was set, as another version of the program would have written them.
fn with_results(rewrite: impl Fn(&mut serde_json::Value)) -> Vec<u8> {
    let file = job("A", "2026-01-05");
    let Checked { job, results } = checked(&file);
    let mut made = package::sources(&job, &results, file.as_bytes(), Build::Record, &Templates::built_in()).expect("our own templates");
    let attached = made.files.iter_mut().find(|file| file.path == "/results.json").expect("attached");
    let mut results = serde_json::from_slice(&attached.bytes).expect("JSON");
    rewrite(&mut results);
    attached.bytes = serde_json::to_vec_pretty(&results).expect("JSON");
    Press::new().pdf(&made.sheets, &made.files, &made.options).expect("our own templates")
}

#[test]
fn a_package_as_it_was_issued_is_the_same() {
    let found = recheck(&A, &mut Press::new()).expect("a package");
    assert_eq!((found.verdict(), found.standing, &found.pages), (Verdict::Same, Standing::Whole, &Pages::Same));
    let marks: Vec<&str> = found.members.iter().map(|member| member.mark.as_str()).collect();
    assert_eq!(marks, ["J1", "B1", "H1"]);
    assert!(found.members.iter().all(|member| member.differences.is_empty()) && found.elsewhere.is_empty());
}

/// A package of form 1 says `passes` where this one says `verdict`: its members are the same all the same.
#[test]
fn results_of_form_1_are_compared() {
    let passes = |entries: &mut serde_json::Map<String, serde_json::Value>| {
        let verdict = entries.remove("verdict").expect("a verdict");
        entries.insert("passes".into(), (verdict == "passes").into());
    };
    let rewritten = |alter: fn(&mut serde_json::Value)| {
        with_results(|results| {
            let entries = results.as_object_mut().expect("a document");
            entries.insert("format".into(), 1.into());
            passes(entries);
            results["members"].as_array_mut().expect("members").iter_mut().for_each(|m| passes(m.as_object_mut().expect("a member")));
            alter(results);
        })
    };
    let found = recheck(&rewritten(|_| {}), &mut Press::new()).expect("a package");
    assert!(found.members.iter().all(|member| member.differences.is_empty()) && found.elsewhere.is_empty(), "{found:#?}");
    let found = recheck(&rewritten(|results| results["members"][0]["passes"] = false.into()), &mut Press::new()).expect("a package");
    assert_eq!(found.members[0].differences.len(), 1, "{:?}", found.members[0]);
}

#[test]
fn another_build_of_the_same_version_may_draw_otherwise_and_is_not_called_altered() {
    let file = job("A", "2026-01-05");
    let Checked { job, results } = checked(&file);
    let (build, templates) = (Build::Record, Templates::built_in());
    let issue = Issue { job: &job, results: &results, job_file: file.as_bytes(), build, templates: &templates, reissue: None };
    // It draws as this one does: every byte is compared.
    let alike = issue.pdf_of_build(&mut Press::new(), OTHER).expect("our own templates");
    let found = recheck(&alike, &mut Press::new()).expect("a package");
    assert_eq!((found.verdict(), &found.pages), (Verdict::Same, &Pages::Same));
    // It does not: that is said, and the digest stands for it.
    let mut made = issue.sources().expect("our own templates");
    let program = made.files.iter_mut().find(|file| file.path == "/program.txt").expect("attached");
    program.bytes = format!("latewood {}\nbuild {OTHER}\n", env!("CARGO_PKG_VERSION")).into_bytes();
    let sheet = made.sheets.iter_mut().find(|sheet| sheet.path == "/references.typ").expect("a page");
    sheet.text.push_str("\nAnother build drew this.\n");
    let other = Press::new().pdf(&made.sheets, &made.files, &made.options).expect("our own templates");
    let found = recheck(&other, &mut Press::new()).expect("a package");
    assert_eq!((found.verdict(), found.standing), (Verdict::Same, Standing::Whole));
    assert!(matches!(&found.pages, Pages::OtherBuild { build, .. } if build == OTHER), "{:?}", found.pages);
    let folder = folder("build");
    let (_, out, _) = run(&["recheck", &written(&folder, "a.pdf", &other)]);
    assert!(out.contains(&format!("made by build {OTHER} of this version")) && !out.contains("ALTERED"), "{out}");
    // An altered byte of it is found all the same.
    let mut altered = other;
    let middle = altered.len() / 2;
    altered[middle] ^= 1;
    assert_eq!(recheck(&altered, &mut Press::new()).map(|found| found.verdict()), Ok(Verdict::Altered));
}

#[test]
fn another_version_is_told_what_changed() {
    let bytes = with_results(|results| {
        results["program"]["version"] = "0.0.9".into();
        results["members"][1]["governing"]["ratio"] = 0.123.into();
    });
    let found = recheck(&bytes, &mut Press::new()).expect("a package");
    assert_eq!((found.verdict(), found.standing, &found.pages), (Verdict::Differs, Standing::Whole, &Pages::OtherVersion));
    let differing: Vec<&str> = found.members.iter().filter(|m| !m.differences.is_empty()).map(|m| m.mark.as_str()).collect();
    assert_eq!(differing, ["B1"]);
    assert_eq!(found.members[1].differences[0].at, "governing, ratio");
    assert_eq!(found.members[1].differences[0].before, "0.123");
    // Nothing but the version is other: the same.
    let bytes = with_results(|results| results["program"]["version"] = "0.0.9".into());
    assert_eq!(recheck(&bytes, &mut Press::new()).expect("a package").verdict(), Verdict::Same);
}

#[test]
fn results_that_are_not_those_of_the_job_are_found_though_the_digest_holds() {
    let bytes = with_results(|results| results["members"][2]["checks"][0]["ratio"] = 0.5.into());
    let found = recheck(&bytes, &mut Press::new()).expect("a package");
    assert_eq!((found.verdict(), found.standing), (Verdict::Altered, Standing::Whole));
    assert!(matches!(found.pages, Pages::Differ { .. }));
    assert!(found.members[2].differences.iter().any(|d| d.at.ends_with("ratio") && d.before == "0.5"), "{:?}", found.members[2]);
}

#[test]
fn a_newer_form_is_not_guessed_at() {
    let bytes = with_results(|results| {
        results["format"] = 99.into();
        results["program"]["version"] = "9.9.9".into();
    });
    let Err(Unfit::Unreadable(why)) = recheck(&bytes, &mut Press::new()) else { panic!("a newer form is read") };
    assert!(why.to_string().contains("latewood 9.9.9") && why.to_string().contains("form 99"), "{why}");
    let folder = folder("newer");
    let (newer, b) = (written(&folder, "newer.pdf", &bytes), written(&folder, "b.pdf", &B));
    assert_eq!(run(&["recheck", &newer]).0, Some(2));
    let (status, _, err) = run(&["supersede", &newer, "--by", &b]);
    assert_eq!(status, Some(2));
    assert!(err.contains("form 99"), "{err}");
    let office = folder.join("office").to_string_lossy().into_owned();
    let file = written(&folder, "job.yaml", job("B", "2026-02-03").as_bytes());
    for arguments in [&["archive", &office, "file", &newer][..], &["issue", &file, "--after", &newer]] {
        let (status, out, err) = run(arguments);
        assert!(status == Some(2) && out.is_empty() && err.contains("latewood 9.9.9 in form 99"), "{out}{err}");
    }
    assert_eq!(names(&folder), ["b.pdf", "job.yaml", "newer.pdf"], "nothing is written");
    // The job file itself has no form: it is given back.
    assert_eq!(run(&["extract", &newer]).1, job("A", "2026-01-05"));
}

#[test]
fn many_packages_are_answered_in_the_order_in_which_they_were_named() {
    let folder = folder("many");
    let mut altered = A.clone();
    altered[A.len() / 3] ^= 1;
    let paths: Vec<String> = [("a.pdf", &*A), ("x.pdf", &altered), ("b.pdf", &*B), ("y.pdf", &b"none".to_vec()), ("a2.pdf", &*A)]
        .iter()
        .map(|(name, bytes)| written(&folder, name, bytes))
        .collect();
    let all: Vec<&str> = std::iter::once("recheck").chain(paths.iter().map(String::as_str)).collect();
    let (status, out, err) = run(&all);
    assert_eq!((status, err.as_str()), (Some(2), ""), "the worst status; no progress where nobody looks");
    let heads: Vec<String> = out.lines().filter(|line| !line.starts_with(' ')).map(str::to_owned).collect();
    assert_eq!(heads.len(), 5, "{out}");
    for (head, (path, says)) in heads.iter().zip(paths.iter().zip(["same", "ALTERED", "same", "not", "same"])) {
        assert!(head.starts_with(path.as_str()) && head.contains(says), "{head}");
    }
    assert_eq!(run(&["recheck", &paths[0], &paths[2]]).0, Some(0));
    assert_eq!(run(&["recheck", &paths[0], &paths[1]]).0, Some(1));
}

#[test]
fn an_update_that_cannot_be_read_is_named() {
    let update = |offset: usize, entry: usize, prev: &str| {
        let body = format!("\n9999 0 obj\n<<>>\nendobj\nxref\n9999 1\n{entry:010} 00000 n \ntrailer\n<</Size 10000{prev}>>\nstartxref\n");
        [A.as_slice(), format!("{body}{offset}\n%%EOF\n").as_bytes()].concat()
    };
    let (object, table) = (A.len() + 1, A.len() + 29);
    // A table that is nowhere, one that leads into the package, one that leads in a circle.
    for signed in [update(1, 0, ""), update(table, 100, ""), update(table, object, &format!("/Prev {table}"))] {
        let found = recheck(&signed, &mut Press::new()).expect("a package under it");
        assert_eq!((found.verdict(), found.standing), (Verdict::Differs, Standing::Appended { to: A.len() }));
        assert_eq!((found.appended[0].bytes, &found.pages), (signed.len() - A.len(), &Pages::Same));
        assert!(found.appended[0].others[0].starts_with("an update that cannot be read"), "{:?}", found.appended);
    }
}
