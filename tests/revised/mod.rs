//! A package reissued, checked by another, filed; and filing killed at random moments.
//!
//! `LATEWOOD_TRIALS` raises how often the program is killed.

use latewood::archive::{Archive, fingerprint};
use latewood::package::{Build, Issue, Templates};
use latewood::results::Reissue;
use latewood::study::change::{self, Former};
use latewood::text::Source;
use latewood::units::decimals;
use latewood::{Checked, check, pdf};
use lopdf::xref::XrefType;
use lopdf::{Dictionary, Document, Object, Stream, StringFormat, dictionary};
use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::LazyLock;
use std::time::{Duration, Instant};

const JOB: &str = include_str!("../pages/job.yaml");

struct Made {
    text: String,
    checked: Checked,
    reissue: Option<Reissue>,
}

fn made(text: String, former: Option<&Made>) -> Made {
    let source = Source::read("job.yaml", text.as_bytes()).unwrap_or_else(|f| panic!("{f:?}"));
    let checked = check(&source, false).unwrap_or_else(|f| panic!("{f:#?}"));
    let reissue = former.map(|former| {
        let attached = serde_json::to_vec_pretty(&former.checked.results).expect("JSON");
        let former =
            Former::of(&[("job.yaml".into(), former.text.clone().into()), ("results.json".into(), attached)]).expect("a former issue");
        change::between(&former, &source, &checked).unwrap_or_else(|why| panic!("{why}"))
    });
    Made { text, checked, reissue }
}

fn pdf_of(made: &Made, build: Build) -> Vec<u8> {
    let Checked { job, results } = &made.checked;
    let issue =
        Issue { job, results, job_file: made.text.as_bytes(), build, templates: &Templates::built_in(), reissue: made.reissue.as_ref() };
    issue.pdf().unwrap_or_else(|bug| panic!("{bug}"))
}

fn edited(text: &str, edits: &[(&str, &str)]) -> String {
    edits.iter().fold(text.to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replacen(from, to, 1)
    })
}

/// What makes revision C of revision B.
const REVISION_C: [(&str, &str); 2] = [
    ("revision: B", "revision: C"),
    ("note: \"#emph[beam] moved\"}", "note: \"#emph[beam] moved\"}\n    - {mark: C, date: 2026-02-03, note: y}"),
];
static FORMER: LazyLock<Made> = LazyLock::new(|| made(JOB.to_owned(), None));
static REISSUE: LazyLock<Made> = LazyLock::new(|| {
    let text = edited(JOB, &[REVISION_C[0], REVISION_C[1], ("live: 40 psf", "live: 50 psf")]);
    made(format!("{text}{REMARKS}"), Some(&FORMER))
});
const REMARKS: &str = r##"comments:
  - {number: 7.2, comment: "What is #eval(1) in B1?", reply: A name., mark: B1}
  - {number: 7.3, comment: Who designs the hangers?}
checker:
  by: C. Second
  date: 2026-02-05
  numbers:
    - {mark: B1, check: bending, ratio: 0.111, demand: 500 psi}
"##;

fn text_of(bytes: &[u8]) -> String {
    super::pages::text_of(bytes)
}

fn closed(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn the_change_sheet_says_every_number_that_changed() {
    let bytes = pdf_of(&REISSUE, Build::Record);
    let reissue = REISSUE.reissue.as_ref().expect("a reissue");
    let pages: Vec<String> = text_of(&bytes).split('\u{c}').map(str::to_owned).collect();
    let sheet: String = pages.iter().filter(|page| page.contains("Changes-")).map(|page| closed(page)).collect();
    assert!(!reissue.changed.is_empty() && sheet.contains("Changes,revisionBtoC"));
    for input in &reissue.inputs {
        for said in [&input.former, &input.now].into_iter().flatten() {
            assert!(sheet.contains(&closed(said)), "{said}");
        }
    }
    for member in &reissue.changed {
        for ratio in [member.former.ratio, member.now.ratio] {
            assert!(sheet.contains(&decimals(ratio, 3)), "{} {ratio}", member.mark);
        }
        // Parts as printed sum to the whole as printed.
        let places = |ratio: f64| (ratio * 1000.0).round();
        let mut at = member.former.ratio;
        for part in &member.parts {
            let difference = places(part.ratio) - places(at);
            let sign = if difference < 0.0 { "−" } else { "+" };
            assert!(sheet.contains(&format!("{sign}{}", decimals(difference.abs() / 1000.0, 3))), "{}", member.mark);
            at = part.ratio;
        }
        assert_eq!(at, member.now.ratio);
    }
    let attached: BTreeMap<String, Vec<u8>> = pdf::attachments(&bytes).expect("readable").into_iter().collect();
    assert_eq!(attached.get("former-job.yaml").map(Vec::as_slice), Some(JOB.as_bytes()));
    assert!(attached.contains_key("former-results.json"));
    let cover = closed(&pages[0]);
    assert!(cover.contains(&closed("revision B, 2026-01-05, as a whole")) || cover.contains(&closed("revision B")), "{cover}");
    let all = closed(&text_of(&bytes));
    for said in ["What is #eval(1) in B1?", "7.3", "Two calculations side by side", "C. Second", "0.111"] {
        assert!(all.contains(&closed(said)), "{said}");
    }
}

#[test]
fn changed_sheets_carry_the_revision_and_a_mark_that_went_is_listed() {
    let text = edited(JOB, &[REVISION_C[0], REVISION_C[1], ("mark: H1", "mark: H9"), ("Jack studs under H1", "Jack studs")]);
    let reissue = made(text, Some(&FORMER));
    let title = closed(&reissue.checked.job.about.title);
    let pages: Vec<String> = text_of(&pdf_of(&reissue, Build::Submittal)).split('\u{c}').map(closed).collect();
    let marked = |mark: &str| {
        let head = format!("{title}{mark}-1");
        let page = pages.iter().find(|page| page.contains(&head)).unwrap_or_else(|| panic!("no sheet {mark}"));
        page.contains(&format!("{head}C"))
    };
    assert!(marked("H9") && !marked("J1"), "the new sheet carries the revision, the unchanged one does not");
    let changes: String = pages.iter().filter(|page| page.contains("Changes-1")).cloned().collect();
    for said in ["New: H9-1", "Withdrawn: H1"] {
        assert!(changes.contains(&closed(said)), "{said}: {changes}");
    }
    // Its id is not used again.
    assert!(!pages.iter().any(|page| page.contains(&format!("{title}H1-1"))));
}

#[test]
fn every_reply_leads_to_a_page_that_is_there() {
    let text = text_of(&pdf_of(&REISSUE, Build::Submittal));
    let pages: Vec<&str> = text.split('\u{c}').collect();
    let replies = pages.iter().find(|page| page.contains("Replies to comments") && page.contains("A name.")).expect("a table of replies");
    let (_, place) = replies.split_once("A name.").expect("the reply");
    let mut words = place.split_whitespace().skip_while(|word| *word != "page").skip(1);
    let page: usize = words.next().and_then(|word| word.parse().ok()).expect("a page");
    assert!(pages[page - 1].contains("B1-1"), "page {page} is not that of B1");
}

#[test]
fn a_brief_holds_all_that_goes_in_and_nothing_of_what_came_out() {
    let bytes = pdf_of(&FORMER, Build::Checking);
    let text = text_of(&bytes);
    let plain = closed(&text);
    assert_eq!(pdf::attachments(&bytes), Ok(Vec::new()));
    for member in &FORMER.checked.results.members {
        assert!(plain.contains(&format!("mark:{}", member.mark)), "{}", member.mark);
        for check in &member.checks {
            assert!(!text.contains(&decimals(check.ratio, 3)), "{} {}", member.mark, check.check);
            let demand = latewood::units::figures(check.demand.value, 4);
            assert!(demand.len() < 4 || !text.contains(&demand), "{} {} {demand}", member.mark, check.check);
        }
        for reaction in &member.reactions {
            for force in reaction.by_case.values().map(|force| decimals(force.value, 0)).filter(|force| force.len() > 2) {
                assert!(!text.contains(&format!(" {force} ")), "{} {force}", member.mark);
            }
        }
    }
    assert!(!text.contains("FAILS") && !plain.contains("governs:"));
}

fn kills() -> u64 {
    std::env::var("LATEWOOD_TRIALS").ok().and_then(|text| text.parse().ok()).unwrap_or(8)
}

/// A number below `most`, the same in every run.
fn draw(state: &mut u64, most: u64) -> u64 {
    *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    (*state >> 33) % most.max(1)
}

/// A record as far as the archive reads one.
fn small_package(revision: &str) -> Vec<u8> {
    let mut results = FORMER.checked.results.clone();
    revision.clone_into(&mut results.job.revision);
    let mut document = Document::with_version("1.7");
    // A package has a plain table.
    document.reference_table.cross_reference_type = XrefType::CrossReferenceTable;
    let mut names = Vec::new();
    for (name, bytes) in [("job.yaml", JOB.as_bytes().to_vec()), ("results.json", serde_json::to_vec(&results).expect("JSON"))] {
        let stream = document.add_object(Stream::new(Dictionary::new(), bytes));
        let text = Object::String(name.as_bytes().to_vec(), StringFormat::Literal);
        names.push(text.clone());
        names.push(document.add_object(dictionary! { "F" => text, "EF" => dictionary! { "F" => stream } }).into());
    }
    let pages = document.add_object(dictionary! { "Type" => "Pages", "Kids" => Vec::<Object>::new(), "Count" => 0 });
    let files = dictionary! { "EmbeddedFiles" => dictionary! { "Names" => names } };
    let catalog = document.add_object(dictionary! { "Type" => "Catalog", "Pages" => pages, "Names" => files });
    document.trailer.set("Root", catalog);
    let mut bytes = Vec::new();
    document.save_to(&mut bytes).expect("a PDF");
    with_digest(bytes)
}

/// The digest as the manual describes it: SHA-256 of every byte but its own letters, in a comment before the last `startxref`.
fn with_digest(mut bytes: Vec<u8>) -> Vec<u8> {
    let (tail, comment) = (&b"startxref\n"[..], &b"%latewood sha256 "[..]);
    let at = bytes.windows(tail.len()).rposition(|part| part == tail).expect("the end of a PDF");
    bytes.splice(at..at, [comment, b"\n"].concat());
    let letters = at + comment.len();
    let digest = pdf::sha256(&bytes);
    bytes.splice(letters..letters, digest.into_bytes());
    bytes
}

fn program(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_latewood"));
    command.current_dir(folder).args(arguments).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

#[test]
fn a_kill_loses_nothing_that_was_reported_as_filed() {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    let write = |name: &str| std::fs::write(folder.join(format!("{name}.pdf")), small_package(name)).expect("written");
    write("first");
    let begun = Instant::now();
    let first = program(folder, &["archive", "office", "file", "first.pdf"]).output().expect("it runs");
    assert!(first.status.success(), "{}", String::from_utf8_lossy(&first.stderr));
    let whole = begun.elapsed().as_micros() as u64;
    let mut reported = vec!["first".to_owned()];
    let mut state = 7;
    let mut cut = 0;
    for round in 0..kills() {
        let names = [format!("r{round}a"), format!("r{round}b")];
        names.iter().for_each(|name| write(name));
        let arguments = ["archive", "office", "file", &format!("{}.pdf", names[0]), &format!("{}.pdf", names[1])].map(str::to_owned);
        let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
        let mut child = program(folder, &arguments).spawn().expect("it runs");
        std::thread::sleep(Duration::from_micros(draw(&mut state, 2 * whole)));
        child.kill().expect("killed");
        let output = child.wait_with_output().expect("it ended");
        cut += u32::from(!output.status.success());
        let said = String::from_utf8_lossy(&output.stdout).into_owned();
        reported.extend(names.into_iter().filter(|name| said.contains(&format!("filed {name}.pdf as"))));
        if !folder.join("office/index.jsonl").exists() {
            continue;
        }
        let archive = Archive::open(folder.join("office")).expect("an archive");
        let index = archive.read().unwrap_or_else(|why| panic!("after kill {round}: {why}"));
        assert_eq!(index.damaged, [], "after kill {round}");
        let entries = index.entries;
        for name in &reported {
            let entry = entries.iter().find(|entry| entry.revision == *name).unwrap_or_else(|| panic!("kill {round} lost {name}"));
            let bytes = std::fs::read(archive.package(entry)).expect("the package");
            assert!(fingerprint(&bytes) == entry.package, "kill {round} harmed {name}");
        }
    }
    assert!(cut > 0 || kills() < 8, "no process was killed in time");
    // What was cut short can be filed afterwards.
    let last = program(folder, &["archive", "office", "file", "r0a.pdf", "r0b.pdf"]).output().expect("it runs");
    assert!(last.status.success(), "{}", String::from_utf8_lossy(&last.stderr));
}
