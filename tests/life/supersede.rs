//! The stamp: on every page, appended, and nothing under it touched.

use super::{A, B, folder, issued, job, names, run, written};
use crate::pages::{closed, printed, text_of};
use latewood::package::Build;
use latewood::pdf::{self, Press, Standing};
use latewood::study::{NotSuperseded, Verdict, recheck, supersede};
use std::sync::LazyLock;

static STAMPED: LazyLock<Vec<u8>> = LazyLock::new(|| supersede(&A, &B).expect("stamped"));

#[test]
fn the_issued_bytes_are_an_unchanged_beginning() {
    assert!(STAMPED.starts_with(&A) && STAMPED.len() > A.len());
    assert_eq!(pdf::standing(&STAMPED), Standing::Whole);
    assert!(supersede(&A, &B).is_ok_and(|again| again == *STAMPED), "the same input gives the same bytes");
}

#[test]
fn every_page_says_by_which_revision_and_when() {
    let pages: Vec<String> = text_of(&STAMPED).split('\u{c}').map(closed).filter(|page| !page.is_empty()).collect();
    assert_eq!(pages.len(), pdf::page_count(&A).expect("readable"));
    for (i, page) in pages.iter().enumerate() {
        // Once in the line at the head, once across the page.
        assert!(page.contains(&closed("SUPERSEDED by #1 revision B of 2026-02-03")), "page {}: {page}", i + 1);
    }
}

#[test]
fn attachments_outline_tags_and_conformance_survive() {
    assert_eq!(pdf::attachments(&STAMPED), pdf::attachments(&A));
    let said = printed("qpdf", "qpdf", &["--check"], &STAMPED, &[]);
    assert!(said.contains("No syntax or stream encoding errors"), "{said}");
    // Two pages of one size share one stamp; all fonts of the stamp are in the file, none of the fourteen of old.
    let fonts = printed("pdffonts", "poppler-utils", &[], &STAMPED, &[]);
    for font in fonts.lines().skip(2) {
        let embedded = font.split_whitespace().rev().nth(4);
        assert_eq!(embedded, Some("yes"), "{font}");
    }
    let info = printed("pdfinfo", "poppler-utils", &[], &STAMPED, &[]);
    assert!(info.lines().any(|line| line.starts_with("Tagged:") && line.ends_with("yes")), "{info}");
    let (before, after) = (lopdf::Document::load_mem(&A).expect("readable"), lopdf::Document::load_mem(&STAMPED).expect("readable"));
    let titles =
        |document: &lopdf::Document| document.get_toc().map(|toc| toc.toc.into_iter().map(|entry| entry.title).collect::<Vec<_>>());
    assert_eq!(titles(&before).expect("an outline"), titles(&after).expect("an outline"));
    for key in [&b"StructTreeRoot"[..], b"Metadata", b"OutputIntents", b"MarkInfo", b"Lang", b"PageLabels", b"AF", b"ViewerPreferences"] {
        assert_eq!(before.catalog().unwrap().get(key).ok(), after.catalog().unwrap().get(key).ok(), "{}", String::from_utf8_lossy(key));
    }
    // The first half of the file identifier stays, the second is new.
    let id = |document: &lopdf::Document| document.trailer.get(b"ID").and_then(lopdf::Object::as_array).cloned().expect("an identifier");
    assert_eq!(id(&before)[0], id(&after)[0]);
    assert_ne!(id(&before)[1], id(&after)[1]);
    // The stamp is no part of the tagged text.
    assert!(!printed("pdfinfo", "poppler-utils", &["-struct-text"], &STAMPED, &[]).contains("SUPERSEDED"));
}

#[test]
fn a_stamped_package_is_judged_by_what_lies_under_it() {
    let found = recheck(&STAMPED, &mut Press::new()).expect("a package");
    assert_eq!((found.verdict(), found.bytes), (Verdict::Same, A.len()));
    assert_eq!(found.stamps.len(), 1);
    assert!(found.stamps[0].genuine && found.stamps[0].stamp.small.contains("revision B of 2026-02-03"));
    // A stamp that says something else than this program would draw, with a digest that holds.
    let mut other = found.stamps[0].stamp.clone();
    other.small = "by nothing".into();
    assert_eq!(recheck(&pdf::stamp(&A, &other).expect("stamped"), &mut Press::new()).expect("a package").verdict(), Verdict::Same);
    // A second stamp over the first: both are there, and the issued bytes are still a beginning.
    let twice = pdf::stamp(&STAMPED, &other).expect("stamped");
    assert!(twice.starts_with(&STAMPED));
    let found = recheck(&twice, &mut Press::new()).expect("a package");
    assert_eq!((found.verdict(), found.stamps.len()), (Verdict::Same, 2));
    let document = lopdf::Document::load_mem(&twice).expect("readable");
    for page in document.get_pages().into_values() {
        let drawn = String::from_utf8_lossy(&document.get_page_content(page)).into_owned();
        assert!(drawn.contains("/Stamp0 Do") && drawn.contains("/Stamp1 Do"), "each under a name of its own");
    }
}

#[test]
fn what_does_not_replace_it_is_refused() {
    assert!(matches!(supersede(&A, &A), Err(NotSuperseded::NotLater(_))));
    assert!(matches!(supersede(&B, &A), Err(NotSuperseded::NotLater(_))));
    assert!(matches!(supersede(&STAMPED, &B), Err(NotSuperseded::Stamped(_))));
    let other = issued(&job("B", "2026-02-03").replace("number: \"#1\"", "number: \"#2\""), Build::Record);
    assert!(matches!(supersede(&A, &other), Err(NotSuperseded::OtherJob(..))));
}

#[test]
fn it_is_written_beside_the_old_package_which_stays() {
    let folder = folder("supersede");
    let (a, b) = (written(&folder, "1-A.pdf", &A), written(&folder, "1-B.pdf", &B));
    let (status, out, err) = run(&["supersede", &a, "--by", &b]);
    assert_eq!((status, err.as_str()), (Some(0), ""));
    assert!(out.trim_end().ends_with("1-A-superseded.pdf"), "{out}");
    assert_eq!(std::fs::read(folder.join("1-A-superseded.pdf")).expect("written"), *STAMPED);
    assert_eq!((std::fs::read(&a).expect("there"), std::fs::read(&b).expect("there")), (A.clone(), B.clone()));
    for output in [&a, &b] {
        assert_eq!(run(&["supersede", &a, "--by", &b, "--output", output]).0, Some(2), "over one of the two");
    }
    assert_eq!(names(&folder), ["1-A-superseded.pdf", "1-A.pdf", "1-B.pdf"]);
    assert_eq!(run(&["extract", &folder.join("1-A-superseded.pdf").to_string_lossy()]).1, job("A", "2026-01-05"));
    let (status, out, _) = run(&["recheck", &folder.join("1-A-superseded.pdf").to_string_lossy()]);
    assert_eq!(status, Some(0));
    assert!(out.contains("stamped: SUPERSEDED by #1 revision B of 2026-02-03"), "{out}");
}
