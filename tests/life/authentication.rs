//! The authentication sheet: what it says of the file is so, by other programs.

use super::{NAME, folder, job, names, run, written};
use crate::pages::{closed, printed, text_of};
use std::process::Command;

/// The hash that a program of the system prints of a file.
fn hashed(program: &str, path: &str) -> String {
    let output = Command::new(program).arg(path).output().unwrap_or_else(|_| panic!("{program} is needed (coreutils)"));
    String::from_utf8_lossy(&output.stdout).split_whitespace().next().unwrap_or_default().to_owned()
}

#[test]
fn it_names_the_file_by_its_hashes_and_signs_nothing() {
    let folder = folder("authentication");
    let file = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let (status, out, err) = run(&["issue", &file, "--authentication"]);
    assert_eq!(status, Some(1), "{err}");
    assert_eq!(out.lines().count(), 2, "{out}");
    assert_eq!(names(&folder), [format!("{NAME}-authentication.pdf"), format!("{NAME}.pdf"), "job.yaml".to_owned()]);
    let package = folder.join(format!("{NAME}.pdf")).to_string_lossy().into_owned();
    let bytes = std::fs::read(folder.join(format!("{NAME}-authentication.pdf"))).expect("written");
    let text = closed(&text_of(&bytes));
    let info = printed("pdfinfo", "poppler-utils", &[], &std::fs::read(&package).expect("written"), &[]);
    let pages = info.lines().find_map(|line| line.strip_prefix("Pages:")).expect("pages").trim().to_owned();
    for said in [
        hashed("sha256sum", &package),
        hashed("sha1sum", &package),
        format!("{NAME}.pdf"),
        format!("Pages{pages}"),
        "The program never signs, seals or dates anything".to_owned(),
        "Signature".to_owned(),
        "License number".to_owned(),
    ] {
        assert!(text.contains(&closed(&said)), "{said}: {text}");
    }
    // A page of the same standard, without a form or a signature in it.
    let document = lopdf::Document::load_mem(&bytes).expect("readable");
    assert_eq!(document.get_pages().len(), 1);
    assert!(document.catalog().expect("a catalogue").get(b"AcroForm").is_err());
}
