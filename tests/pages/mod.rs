//! The pages: what is written, as text and as PDF.
//!
//! Page images hang on a viewer's version: they are looked at, not tested. `qpdf` and `poppler-utils` are packages of the system;
//! a test that needs one fails with its name where it is missing.

mod asked;
mod claims;
mod numbers;
mod room;
mod structure;
mod verdicts;

use latewood::package::{self, Build, Sources, Templates};
use latewood::pdf::{self, Press};
use latewood::text::Source;
use latewood::{Checked, check};
use std::path::Path;
use std::process::Command;
use std::sync::LazyLock;

const JOB: &str = include_str!("job.yaml");

static CHECKED: LazyLock<Checked> = LazyLock::new(|| {
    let source = Source::read("job.yaml", JOB.as_bytes()).unwrap_or_else(|f| panic!("{f:?}"));
    check(&source, false).unwrap_or_else(|f| panic!("{f:?}"))
});
static RECORD: LazyLock<Vec<u8>> = LazyLock::new(|| pdf_of(Build::Record));
static SUBMITTAL: LazyLock<Vec<u8>> = LazyLock::new(|| pdf_of(Build::Submittal));

fn pdf_of(build: Build) -> Vec<u8> {
    let Checked { job, results } = &*CHECKED;
    package::issue(job, results, JOB.as_bytes(), build, &Templates::built_in()).unwrap_or_else(|bug| panic!("{bug}"))
}

fn sources(templates: &Templates) -> Result<Sources, pdf::Bug> {
    let Checked { job, results } = &*CHECKED;
    package::sources(job, results, JOB.as_bytes(), Build::Record, templates)
}

/// What a program of the system prints about a file; `package` is where it comes from.
pub(crate) fn printed(program: &str, package: &str, before: &[&str], bytes: &[u8], after: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let path = folder.path().join("package.pdf");
    std::fs::write(&path, bytes).expect("the file is written");
    let run = Command::new(program).args(before).arg(&path).args(after).output();
    let output = run.unwrap_or_else(|_| panic!("{program} is needed: install the Debian package {package}"));
    assert!(output.status.success(), "{program}: {}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).into_owned()
}

pub(crate) fn text_of(bytes: &[u8]) -> String {
    printed("pdftotext", "poppler-utils", &["-layout"], bytes, &["-"])
}

/// A text without any white space: a line may break anywhere.
pub(crate) fn closed(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    assert!(pdf_of(Build::Record) == *RECORD);
    let (Checked { job, results }, mut press) = (&*CHECKED, Press::new());
    for _ in 0..2 {
        let again = package::issue_on(&mut press, job, results, JOB.as_bytes(), Build::Record, &Templates::built_in());
        assert!(again.is_ok_and(|bytes| bytes == *RECORD), "a press that is warm changes bytes");
    }
}

#[test]
fn a_record_gives_its_attachments_back_byte_for_byte() {
    let attached = pdf::attachments(&RECORD).expect("readable");
    let file = |name: &str| attached.iter().find(|(known, _)| known == name).map(|(_, bytes)| bytes.as_slice());
    assert_eq!(file("job.yaml"), Some(JOB.as_bytes()));
    let results = serde_json::to_vec_pretty(&CHECKED.results).expect("JSON");
    assert!(file("results.json") == Some(results.as_slice()));
    assert_eq!(file("templates.sha256"), Some(Templates::built_in().fingerprint().as_bytes()));
    assert_eq!(file("program.txt"), Some(format!("latewood {}\nbuild {}\n", env!("CARGO_PKG_VERSION"), package::BUILD).as_bytes()));
    assert_eq!(attached.len(), 4);
}

#[test]
fn a_submittal_carries_nothing() {
    assert_eq!(pdf::attachments(&SUBMITTAL), Ok(Vec::new()));
}

#[test]
fn what_is_no_pdf_is_said_to_be_none() {
    assert!(pdf::attachments(b"not a PDF").is_err());
    assert!(pdf::attachments(&RECORD[..RECORD.len() / 2]).is_err());
}

#[test]
fn both_builds_claim_their_standards() {
    for (bytes, part) in [(&*RECORD, "3"), (&*SUBMITTAL, "2")] {
        let raw = String::from_utf8_lossy(bytes);
        assert!(raw.contains(&format!("<pdfaid:part>{part}</pdfaid:part>")));
        assert!(raw.contains("<pdfaid:conformance>A</pdfaid:conformance>"));
        assert!(raw.contains("<pdfuaid:part>1</pdfuaid:part>"));
    }
}

#[test]
fn both_builds_are_sound_files() {
    for bytes in [&*RECORD, &*SUBMITTAL] {
        let said = printed("qpdf", "qpdf", &["--check"], bytes, &[]);
        assert!(said.contains("No syntax or stream encoding errors"), "{said}");
    }
}

#[test]
fn text_of_the_job_file_is_printed_as_it_stands() {
    let text = closed(&text_of(&SUBMITTAL));
    for said in [
        r##"*x* $x$ #panic() \ [..] `y` _z_ <l> @r // "q" {{ 7 * 7 }} {% raw %}"##,
        "= Not a heading",
        "- not a list",
        "#emph[beam] moved",
        "Boards *3/4* in",
        "Grid $1$",
        "wall #W1",
        "A note with a #let x = 1",
    ] {
        assert!(text.contains(&closed(said)), "{said} is not printed as it stands");
    }
}

#[test]
fn every_ratio_is_printed() {
    let text = text_of(&SUBMITTAL);
    for member in &CHECKED.results.members {
        for shown in member.checks.iter().filter(|c| c.leading) {
            // Past 0.995 more places are shown; two places are then a beginning of them.
            let ratio = format!("{:.2}", shown.ratio);
            assert!(text.contains(&ratio), "{} {} {ratio} is nowhere", member.mark, shown.check);
        }
    }
    assert!(CHECKED.results.members.iter().any(|m| m.verdict.fails()) && text.contains("1 FAILS"));
}

#[test]
fn the_cover_warns() {
    let text = closed(&text_of(&SUBMITTAL));
    for said in [
        "this is not an independent check",
        "Issued for permit with",
        "#1 revision A, 2026-01-05, as a whole",
        "Nothing is sealed until a person seals it",
    ] {
        assert!(text.contains(&closed(said)), "{said}");
    }
}

#[test]
fn every_page_says_which_it_is_and_what_it_is_not() {
    let pages: Vec<String> = text_of(&SUBMITTAL).split('\u{c}').filter(|p| !p.trim().is_empty()).map(closed).collect();
    for (i, page) in pages.iter().enumerate() {
        assert!(page.contains(&format!("page{}of{}", i + 1, pages.len())), "page {}", i + 1);
        assert!(page.contains(&closed("Revision B, 2026-02-03")) && page.contains("Calculationaid."), "page {}", i + 1);
    }
    assert!(pages.iter().any(|page| page.contains("B1-1")));
}

#[test]
fn the_outline_leads_to_every_sheet() {
    let document = lopdf::Document::load_mem(&RECORD).expect("readable");
    let titles: Vec<String> = document.get_toc().expect("an outline").toc.into_iter().map(|entry| entry.title).collect();
    for mark in ["J1", "B1", "H1"] {
        assert!(titles.iter().any(|title| title.starts_with(mark)), "{mark} is not in the outline: {titles:?}");
    }
    for part in ["Contents", "Summary", "Basis of design", "Assumptions", "Load path", "References"] {
        assert!(titles.iter().any(|title| title == part), "{part} is not in the outline: {titles:?}");
    }
}

#[test]
fn a_fault_of_an_office_template_names_its_line() {
    let fault = |text: &str| {
        let templates = Templates::with_office([("cover.typ".to_owned(), text.to_owned())]);
        let made = sources(&templates).and_then(|s| Press::new().pdf(&s.sheets, &s.files, &s.options));
        made.err().map(|bug| bug.to_string()).unwrap_or_default()
    };
    assert!(fault("one\n{{ nothing_so_named }}\n").contains("template cover.typ, line 2"));
    assert!(fault("one\n{% if %}\n").contains("template cover.typ, line 2"));
    assert!(fault("= One\n\n#unknown-function()\n").contains("template cover.typ, line 3"));
    assert!(fault("= One\n{{ title }}\n#read(\"/etc/passwd\")\n").contains("template cover.typ, line 3"));
    assert!(fault("= One\n#image(\"/job.png\")").contains("template cover.typ, line 2"));
}

#[test]
fn an_office_template_is_attached_whole() {
    let ours = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/references.typ")).expect("our template");
    let own = format!("{ours}\nOur office's own line.\n");
    let templates = Templates::with_office([("references.typ".to_owned(), own.clone())]);
    let Checked { job, results } = &*CHECKED;
    let bytes = package::issue(job, results, JOB.as_bytes(), Build::Record, &templates).expect("a package");
    let attached = pdf::attachments(&bytes).expect("readable");
    assert!(attached.iter().any(|(name, bytes)| name.ends_with("references.typ") && *bytes == own.as_bytes()));
    assert!(text_of(&bytes).contains("Our office’s own line.") || text_of(&bytes).contains("Our office's own line."));
}

#[test]
fn a_character_without_a_glyph_is_refused_at_its_place() {
    let source = Source::read("job.yaml", "job: {title: 木の家}".as_bytes()).unwrap_or_else(|f| panic!("{f:?}"));
    let faults = package::unprintable(&source);
    assert!(!faults.is_empty() && faults.iter().all(|fault| source.at(fault.primary.span).chars().count() == 1));
    assert_eq!(package::unprintable(&Source::read("job.yaml", JOB.as_bytes()).unwrap_or_else(|f| panic!("{f:?}"))), []);
}
