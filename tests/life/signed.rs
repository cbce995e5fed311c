//! A package that was signed: real signatures by pyHanko, which also validates them; and what else may be appended to a file.

use super::{A, B, SUBMITTAL, folder, job, names, run, written};
use latewood::pdf::{self, Kind, Press, Standing};
use latewood::study::{NotSuperseded, Unfit, Verdict, recheck, supersede};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::LazyLock;

/// Where `.ci/test` puts Python with pyHanko.
const PYTHON: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/target/signing/bin/python");
const SCRIPT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/life/signing/sign.py");

/// Key and certificate are made once for all tests.
static FOLDER: LazyLock<PathBuf> = LazyLock::new(|| {
    let folder = folder("signing");
    script(&folder, "sign", &A, "first");
    folder
});

/// Python with pyHanko.
pub(super) fn python() -> &'static str {
    assert!(Path::new(PYTHON).exists(), "Python with pyHanko is needed (bash .ci/test installs it): {PYTHON}");
    PYTHON
}

fn script(folder: &Path, what: &str, file: &[u8], name: &str) -> (Vec<u8>, String) {
    let source = written(folder, &format!("{name}-{what}-in.pdf"), file);
    let target = folder.join(format!("{name}-{what}.pdf"));
    let output = Command::new(python()).args([SCRIPT, what, &source]).arg(&target).output().expect("Python runs");
    assert!(output.status.success(), "{what}: {}", String::from_utf8_lossy(&output.stderr));
    (std::fs::read(target).unwrap_or_default(), String::from_utf8_lossy(&output.stdout).into_owned())
}

/// A file after some updates, one after another.
fn updated(file: &[u8], name: &str, updates: &[&str]) -> Vec<u8> {
    updates.iter().fold(file.to_vec(), |file, what| script(&FOLDER, what, &file, name).0)
}

fn judged(file: &[u8]) -> (Verdict, Vec<String>, Vec<String>) {
    let found = recheck(file, &mut Press::warm()).expect("a package");
    let signatures = found.appended.iter().rev().flat_map(|one| &one.signatures).map(|signature| signature.field.clone());
    (found.verdict(), signatures.collect(), found.appended.iter().flat_map(|one| one.others.clone()).collect())
}

#[test]
fn a_signed_package_is_a_good_package() {
    let folder = folder("signed");
    for (update, kind) in [("sign", Kind::Signature), ("seal", Kind::Signature), ("certify", Kind::Certification { locked: true })] {
        let signed = updated(&A, "good", &[update]);
        assert!(signed.starts_with(&A) && pdf::standing(&signed) == Standing::Appended { to: A.len() });
        let found = recheck(&signed, &mut Press::warm()).expect("a package");
        assert_eq!((found.verdict(), found.bytes), (Verdict::Same, A.len()), "{update}: {:?}", found.appended);
        assert_eq!(found.appended[0].signatures[0].kind, kind);
        // Another program finds the signature good and nothing changed after it.
        let (_, said) = script(&FOLDER, "validate", &signed, "good");
        assert_eq!(said.trim(), "Seal intact NONE ENTIRE_FILE", "{update}");
        let (status, out, err) = run(&["recheck", &written(&folder, "a.pdf", &signed)]);
        assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
        assert!(out.contains("same; job #1") && out.contains("signed after issue, content unchanged: "), "{out}");
        assert_eq!(run(&["extract", &folder.join("a.pdf").to_string_lossy()]).1, job("A", "2026-01-05"));
    }
}

#[test]
fn signatures_time_stamps_and_data_for_validation_follow_one_another() {
    let all = updated(&A, "chain", &["seal", "countersign", "time", "validation"]);
    let (verdict, signatures, others) = judged(&all);
    assert_eq!((verdict, others), (Verdict::Same, Vec::new()));
    assert!(signatures.len() == 3 && signatures[..2] == ["Seal", "Checker"], "{signatures:?}");
    let (_, said) = script(&FOLDER, "validate", &all, "chain");
    assert!(said.lines().count() == 3 && said.lines().all(|line| line.contains(" intact ")), "{said}");
    // A field that was laid out first and signed later.
    let (verdict, signatures, others) = judged(&updated(&A, "field", &["field", "seal-field"]));
    assert_eq!((verdict, signatures, others), (Verdict::Same, vec!["Seal".to_owned()], Vec::new()));
    // A stamp over a signature, and a signature over a stamp.
    let over = supersede(&updated(&A, "over", &["seal"]), &B).expect("stamped");
    assert_eq!(judged(&over), (Verdict::Same, vec!["Seal".to_owned()], Vec::new()));
    let under = updated(&supersede(&A, &B).expect("stamped"), "under", &["seal"]);
    assert_eq!(judged(&under), (Verdict::Same, vec!["Seal".to_owned()], Vec::new()));
}

#[test]
fn whatever_else_is_appended_is_named() {
    // What is named makes a package differ, whatever was signed before.
    let (verdict, signatures, others) = judged(&updated(&A, "differs", &["seal", "content"]));
    assert_eq!((verdict, signatures.as_slice()), (Verdict::Differs, &["Seal".to_owned()][..]));
    assert_eq!(others, ["the content of page 1 is changed"]);
    let signed = updated(&A, "before", &["sign"]);
    for (what, named) in [
        ("content", "the content of page 1 is changed"),
        ("attachment", "the attachment results.json is changed"),
        ("names", "the list of attachments and names is changed: /Names"),
        ("annotation", "an annotation is put on page 1: FreeText"),
        ("cover", "an annotation is put on page 1: Square"),
        ("action", "/OpenAction of the catalog is changed"),
        ("outline", "of the outline"),
        ("metadata", "the document information is changed: /Title"),
        ("xmp", "the metadata is changed: creator"),
        ("over", "cover more than a quarter of page 1"),
        ("field", "an update in which nothing is signed"),
    ] {
        // Before anything is signed, and after.
        for (file, known) in [(&*A, 0), (&signed, 1)] {
            if known == 1 && (what == "over" || what == "field") {
                continue;
            }
            let tampered = updated(file, &format!("tampered-{known}"), &[what]);
            let found = pdf::appended(&pdf::layers(&tampered)[0]);
            assert!(!found.only_signs() && found.others.iter().any(|other| other.contains(named)), "{what}: {found:?}");
            assert_eq!(found.signatures.len(), known + usize::from(what == "over"), "{what}");
        }
    }
}

#[test]
fn what_was_appended_never_changes_what_is_taken_out() {
    let folder = folder("signed-extract");
    for what in ["attachment", "names"] {
        let tampered = updated(&A, "taken", &["seal", what]);
        assert!(pdf::attachments(&tampered) == pdf::attachments(&A), "{what}");
        let path = written(&folder, &format!("{what}.pdf"), &tampered);
        assert_eq!(run(&["extract", &path]).1, job("A", "2026-01-05"));
        // Not stamped, not taken for the newer one, not filed.
        assert!(matches!(supersede(&tampered, &B), Err(NotSuperseded::Appended(..))));
        let office = folder.join("office").to_string_lossy().into_owned();
        let (status, out, err) = run(&["archive", &office, "file", &path]);
        assert!(status == Some(2) && out.is_empty() && err.contains("appended to it that is no signature"), "{out}{err}");
    }
    assert_eq!(names(&folder), ["attachment.pdf", "names.pdf"]);
}

#[test]
fn a_signed_package_is_stamped_and_filed_and_its_signature_is_said() {
    let folder = folder("signed-stamped");
    let b = written(&folder, "b.pdf", &B);
    for (update, said) in [("seal", "changed after it was signed"), ("certify", "certification broken")] {
        let signed = updated(&A, "stamped", &[update]);
        let a = written(&folder, &format!("{update}.pdf"), &signed);
        let (status, out, err) = run(&["supersede", &a, "--by", &b]);
        assert!(status == Some(0) && out.lines().count() == 1, "{out}");
        assert!(err.starts_with("note: ") && err.lines().count() == 1 && err.contains("is signed (Seal)") && err.contains(said), "{err}");
        let stamped = std::fs::read(folder.join(format!("{update}-superseded.pdf"))).expect("written");
        assert!(stamped.starts_with(&signed));
        assert!(script(&FOLDER, "validate-broken", &stamped, "stamped").1.starts_with("Seal intact"), "{update}");
    }
    let office = folder.join("office");
    let seal = folder.join("seal.pdf").to_string_lossy().into_owned();
    assert_eq!(run(&["archive", &office.to_string_lossy(), "file", &seal]).0, Some(0));
    let (status, out, _) = run(&["recheck", "--archive", &office.to_string_lossy()]);
    assert!(status == Some(0) && out.contains("1 package: 1 same"), "{out}");
    // A submittal is what is sent: signed, it says so too.
    let signed = updated(&SUBMITTAL, "submittal", &["seal"]);
    let Err(Unfit::CarriesNothing(_, appended)) = recheck(&signed, &mut Press::warm()) else { panic!("it carries something") };
    assert!(appended[0].only_signs(), "{appended:?}");
    let (status, out, _) = run(&["recheck", &written(&folder, "s.pdf", &signed)]);
    assert!(status == Some(2) && out.contains("signed after issue, content unchanged"), "{out}");
}
