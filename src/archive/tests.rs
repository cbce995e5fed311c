//! Packages made here by hand: a PDF with two attachments is all that the archive reads of one.

use super::{Archive, Error, Facts, Filed, MemberInShort, Question, in_order};
use crate::pdf;
use crate::results::Verdict;
use crate::text::Source;
use lopdf::xref::XrefType;
use lopdf::{Dictionary, Document, Object, Stream, StringFormat, dictionary};
use std::cmp::Ordering;
use std::io::Write;

const JOB: &str = include_str!("../../examples/three-failures.yaml");

/// A record of the example under another number and revision, as far as the archive reads one.
fn package(number: &str, revision: &str) -> Vec<u8> {
    titled("Three failures", number, revision)
}

/// The same with a title of its own.
fn titled(title: &str, number: &str, revision: &str) -> Vec<u8> {
    let source = Source::read("job.yaml", JOB.as_bytes()).unwrap_or_else(|f| panic!("{f:?}"));
    let mut results = crate::check(&source, false).unwrap_or_else(|f| panic!("{f:?}")).results;
    title.clone_into(&mut results.job.title);
    number.clone_into(&mut results.job.number);
    revision.clone_into(&mut results.job.revision);
    let mut document = Document::with_version("1.7");
    // A package has a plain table.
    document.reference_table.cross_reference_type = XrefType::CrossReferenceTable;
    let mut names = Vec::new();
    for (name, bytes) in [("job.yaml", JOB.as_bytes().to_vec()), ("results.json", serde_json::to_vec(&results).expect("JSON"))] {
        let stream = document.add_object(Stream::new(Dictionary::new(), bytes));
        let text = Object::String(name.as_bytes().to_vec(), StringFormat::Literal);
        names.push(text.clone());
        let specification = document.add_object(dictionary! { "Type" => "Filespec", "F" => text, "EF" => dictionary! { "F" => stream } });
        names.push(specification.into());
    }
    let pages = document.add_object(dictionary! { "Type" => "Pages", "Kids" => Vec::<Object>::new(), "Count" => 0 });
    let catalog = document.add_object(dictionary! {
        "Type" => "Catalog", "Pages" => pages, "Names" => dictionary! { "EmbeddedFiles" => dictionary! { "Names" => names } },
    });
    document.trailer.set("Root", catalog);
    let mut bytes = Vec::new();
    document.save_to(&mut bytes).expect("a PDF");
    pdf::kept(bytes, None).expect("a digest")
}

fn facts(date: &str, keep_until: Option<&str>) -> Facts {
    Facts { date: date.to_owned(), keep_until: keep_until.map(str::to_owned) }
}

fn filled() -> (tempfile::TempDir, Archive) {
    let folder = tempfile::tempdir().expect("a folder");
    let archive = Archive::at(folder.path().join("office"));
    for (number, revision, date, until) in [
        ("26-9", "A", "2026-01-05", Some("2029-01-05")),
        ("26-10", "A", "2026-02-05", None),
        ("26-9", "B", "2026-03-05", Some("2029-03-05")),
    ] {
        let filed = archive.file(&package(number, revision), &facts(date, until)).unwrap_or_else(|why| panic!("{why}"));
        assert!(matches!(filed, Filed::Now(_)));
    }
    (folder, archive)
}

fn asked(archive: &Archive, question: &Question) -> Vec<String> {
    let (answers, _) = archive.ask(question).unwrap_or_else(|why| panic!("{why}"));
    answers.into_iter().map(|answer| format!("{} {}", answer.entry.number, answer.entry.revision)).collect()
}

#[test]
fn an_office_gets_its_answers() {
    let (_folder, archive) = filled();
    let all = ["26-9 A", "26-10 A", "26-9 B"];
    assert_eq!(asked(&archive, &Question::default()), all);
    let text = |text: &str| Some(text.to_owned());
    assert_eq!(asked(&archive, &Question { table: text("supplement 2018 table 4A"), ..Question::default() }), all);
    assert_eq!(asked(&archive, &Question { table: text("Table 12Z"), ..Question::default() }), Vec::<String>::new());
    assert_eq!(asked(&archive, &Question { edition: text("nds-2018"), ..Question::default() }), all);
    assert_eq!(asked(&archive, &Question { edition: text("NDS-2024"), ..Question::default() }), Vec::<String>::new());
    assert_eq!(asked(&archive, &Question { program: text(env!("CARGO_PKG_VERSION")), ..Question::default() }), all);
    assert_eq!(asked(&archive, &Question { program: text("0.0.9"), ..Question::default() }), Vec::<String>::new());
    assert_eq!(asked(&archive, &Question { job: text("26-9"), newest: true, ..Question::default() }), ["26-9 B"]);
    assert_eq!(asked(&archive, &Question { newest: true, ..Question::default() }), ["26-10 A", "26-9 B"]);
    assert_eq!(asked(&archive, &Question { past: text("2029-02-01"), ..Question::default() }), ["26-9 A"]);
    // The example's three members fail, as its story says.
    let (above, _) = archive.ask(&Question { above: Some(1.0), ..Question::default() }).expect("answers");
    assert!(above.len() == 3 && above.iter().all(|answer| answer.because.len() == 3), "{above:?}");
    assert_eq!(archive.between(Some("26-10"), None).expect("entries").entries.len(), 1);
    assert_eq!(archive.between(None, Some("26-9")).expect("entries").entries.len(), 2);
}

#[test]
fn what_is_filed_lies_there_byte_for_byte() {
    let (_folder, archive) = filled();
    for entry in archive.read().expect("entries").entries {
        let bytes = std::fs::read(archive.package(&entry)).expect("the package");
        assert!(bytes == package(&entry.number, &entry.revision) && super::fingerprint(&bytes) == entry.package);
    }
    let table = std::fs::read_to_string(archive.folder.join("index.txt")).expect("a table");
    assert_eq!(table.lines().count(), 4);
}

#[test]
fn the_same_bytes_are_filed_once_and_others_under_one_revision_are_refused() {
    let (_folder, archive) = filled();
    let again = archive.file(&package("26-9", "A"), &facts("2026-01-05", None));
    assert!(matches!(again, Ok(Filed::Before(_))));
    let other = pdf::kept(package("26-9", "A"), None).expect("a second digest");
    assert!(matches!(archive.file(&other, &facts("2026-01-05", None)), Err(Error::Taken { .. })));
    // Something was appended that is no signature: the package under it is whole, and is not filed with it.
    let mut other = package("26-9", "A");
    let tail = other.windows(9).rposition(|part| part == b"startxref").expect("the end of a PDF");
    let tail = [b"\n% signed\n", &other[tail..], b"\n"].concat();
    other.extend(tail);
    assert!(matches!(archive.file(&other, &facts("2026-01-05", None)), Err(Error::Appended(_))));
    let mut altered = package("26-9", "C");
    let word = altered.windows(7).position(|part| part == b"Douglas").expect("a job file");
    altered[word] = b'd';
    assert!(matches!(archive.file(&altered, &facts("2026-01-05", None)), Err(Error::Altered)));
    assert_eq!(archive.read().expect("entries").entries.len(), 3);
    assert!(matches!(archive.file(b"no PDF", &facts("2026-01-05", None)), Err(Error::Unreadable(_))));
}

#[test]
fn a_line_cut_short_is_none_and_a_broken_one_is_told() {
    let (_folder, archive) = filled();
    let index = archive.folder.join("index.jsonl");
    let whole = std::fs::read(&index).expect("the index");
    let last = whole[..whole.len() - 1].iter().rposition(|byte| *byte == b'\n').expect("lines") + 1;
    for cut in [last + 1, last + 200, whole.len() - 1] {
        std::fs::write(&index, &whole[..cut]).expect("written");
        assert_eq!(archive.read().expect("readable").entries.len(), 2, "cut at {cut}");
        // The next to file takes the rest away.
        assert!(matches!(archive.file(&package("26-9", "B"), &facts("2026-03-05", Some("2029-03-05"))), Ok(Filed::Now(_))));
        assert!(std::fs::read(&index).expect("the index") == whole, "cut at {cut}");
    }
    std::fs::OpenOptions::new().append(true).open(&index).expect("opened").write_all(b"{\"number\": 1}\n").expect("written");
    let read = archive.read().expect("readable");
    assert_eq!((read.entries.len(), read.damaged.iter().map(|damaged| damaged.line).collect::<Vec<_>>()), (3, vec![4]));
    assert!(matches!(Archive::open(archive.folder.join("nowhere")), Err(Error::NoArchive(_))));
}

/// The second of three lines is not JSON any longer.
fn damaged() -> (tempfile::TempDir, Archive, String) {
    let (folder, archive) = filled();
    let index = archive.folder.join("index.jsonl");
    let whole = std::fs::read_to_string(&index).expect("the index");
    let lines: Vec<&str> = whole.lines().collect();
    let harmed = lines[1].replacen("\"revision\"", "revision", 1);
    std::fs::write(&index, [lines[0], &harmed, lines[2], ""].join("\n")).expect("written");
    (folder, archive, whole)
}

#[test]
fn a_damaged_line_harms_one_entry() {
    let (_folder, archive, _) = damaged();
    let (answers, lines) = archive.ask(&Question::default()).expect("answers");
    assert_eq!(answers.iter().map(|answer| answer.entry.revision.as_str()).collect::<Vec<_>>(), ["A", "B"]);
    assert!(lines.len() == 1 && lines[0].to_string().starts_with("line 2 of index.jsonl is damaged: "), "{lines:?}");
    // Filing goes on. What the damaged line was is not filed a second time with other bytes, and its own bytes get their line again.
    assert!(matches!(archive.file(&package("26-11", "A"), &facts("2026-04-05", None)), Ok(Filed::Now(_))));
    let other = titled("Other failures", "26-10", "A");
    assert!(matches!(archive.file(&other, &facts("2026-02-05", None)), Err(Error::Taken { .. })));
    assert!(matches!(archive.file(&package("26-10", "A"), &facts("2026-02-05", None)), Ok(Filed::Now(_))));
    assert_eq!(asked(&archive, &Question::default()), ["26-9 A", "26-9 B", "26-11 A", "26-10 A"]);
}

#[test]
fn an_index_made_anew_is_the_one_that_was_filed() {
    // What the packages say of themselves here: one date each, as the caller's facts have it; no retention date.
    let of_package = |bytes: &[u8]| {
        let entry = super::Entry::of(bytes, &Facts::default()).map_err(|why| why.to_string())?;
        Ok(facts(
            match (&*entry.number, &*entry.revision) {
                ("26-9", "A") => "2026-01-05",
                ("26-10", "A") => "2026-02-05",
                _ => "2026-03-05",
            },
            None,
        ))
    };
    // Byte for byte from a whole index and from a damaged one, whose own line keeps its date; both tables too.
    for (_folder, archive, whole) in [
        {
            let (folder, archive) = filled();
            let whole = std::fs::read_to_string(archive.index()).expect("the index");
            (folder, archive, whole)
        },
        damaged(),
    ] {
        let table = std::fs::read_to_string(archive.folder.join("index.txt")).expect("a table");
        let rebuilt = archive.rebuild(of_package).unwrap_or_else(|why| panic!("{why}"));
        assert!(rebuilt.left_out.is_empty() && rebuilt.without_package.is_empty(), "{rebuilt:?}");
        let now = std::fs::read_to_string(archive.index()).expect("the index");
        let sorted = |text: &str| {
            let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
            lines.sort();
            lines
        };
        assert_eq!(sorted(&now), sorted(&whole));
        assert_eq!(sorted(&std::fs::read_to_string(archive.folder.join("index.txt")).expect("a table")), sorted(&table));
    }
    let (_folder, archive) = filled();
    let whole = std::fs::read(archive.index()).expect("the index");
    archive.rebuild(of_package).expect("rebuilt");
    assert!(std::fs::read(archive.index()).expect("the index") == whole, "the order of filing is kept");
    // Without the old index: in the order of dates; retention dates that only the index had are gone.
    std::fs::remove_file(archive.index()).expect("removed");
    let rebuilt = archive.rebuild(of_package).expect("rebuilt");
    assert_eq!(asked(&archive, &Question::default()), ["26-9 A", "26-10 A", "26-9 B"]);
    assert!(rebuilt.entries.iter().all(|entry| entry.keep_until.is_none()));
}

#[test]
fn what_has_no_entry_and_what_has_no_package_is_said() {
    let (_folder, archive) = filled();
    let entries = archive.read().expect("readable").entries;
    std::fs::remove_file(archive.package(&entries[0])).expect("removed");
    std::fs::write(archive.package(&entries[1]).with_file_name("notes.pdf"), b"no package").expect("written");
    std::fs::copy(archive.package(&entries[2]), archive.package(&entries[2]).with_file_name("copy.pdf")).expect("copied");
    let rebuilt = archive.rebuild(|_| Ok(facts("2026-01-05", None))).expect("rebuilt");
    assert_eq!(rebuilt.without_package, [entries[0].clone()], "that it was filed stays known");
    let names: Vec<&str> = rebuilt.left_out.iter().map(|(name, _)| name.as_str()).collect();
    assert!(names.len() == 2 && names.contains(&"packages/26-10/notes.pdf"), "{names:?}");
    assert_eq!(rebuilt.entries.len(), 3);
}

#[test]
fn a_line_is_a_line_whatever_a_title_holds() {
    let (_folder, archive) = filled();
    let index = archive.index();
    let text = std::fs::read_to_string(&index).expect("the index");
    let (first, rest) = text.split_once('\n').expect("lines");
    let mut entry: super::Entry = serde_json::from_str(first).expect("an entry");
    entry.title = "A\u{1b}[2J\nB\u{9b}1m".to_owned();
    entry.members[0].mark = "J\r1".to_owned();
    entry.members[0].ratio = 9.0;
    std::fs::write(&index, format!("{}\n{rest}", serde_json::to_string(&entry).expect("JSON"))).expect("written");
    assert!(matches!(archive.file(&package("26-11", "A"), &facts("2026-04-05", None)), Ok(Filed::Now(_))));
    let table = std::fs::read_to_string(archive.folder.join("index.txt")).expect("a table");
    assert_eq!(table.lines().count(), 5, "a head and four issues: {table:?}");
    assert!(!table.contains(|c: char| c.is_control() && c != '\n') && table.contains(r"A\u{1b}[2J\u{a}B\u{9b}1m"), "{table:?}");
    assert!(table.contains(r"9.000 J\u{d}1"), "{table:?}");
}

#[test]
fn many_may_file_at_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let archive = Archive::at(folder.path());
    std::thread::scope(|scope| {
        for thread in 0..4 {
            let archive = &archive;
            scope.spawn(move || {
                for n in 0..5 {
                    let mark = format!("{}", char::from(b'B' + thread * 5 + n));
                    let filed = archive.file(&package("26-9", &mark), &facts("2026-01-05", None));
                    assert!(matches!(filed, Ok(Filed::Now(_))), "{mark}");
                }
            });
        }
    });
    assert_eq!(archive.read().expect("entries").entries.len(), 20);
}

#[test]
fn job_numbers_are_sorted_as_people_do() {
    let order = |a, b| in_order(a, b);
    assert_eq!(order("26-9", "26-10"), Ordering::Less);
    assert_eq!(order("26-010", "26-10"), Ordering::Equal);
    assert_eq!(order("26-9", "26-9"), Ordering::Equal);
    assert_eq!(order("26-9a", "26-9"), Ordering::Greater);
    assert_eq!(order("", "1"), Ordering::Less);
}

/// A line that was filed before there were three verdicts, and one of a member that is not checked: its ratio is above every limit.
#[test]
fn verdicts_of_the_index() {
    let old = r#"{"mark": "J1", "check": "bending", "ratio": 1.2, "passes": false}"#;
    let member: MemberInShort = serde_json::from_str(old).expect("an old line");
    assert_eq!(member.verdict, Verdict::Fails);
    let member: MemberInShort = serde_json::from_str(&old.replace("false", "true")).expect("an old line");
    assert_eq!(member.verdict, Verdict::Passes);
    let again: MemberInShort = serde_json::from_str(&serde_json::to_string(&member).expect("JSON")).expect("a line");
    assert_eq!(again, member);
    // No finite ratio is `null`, is read again, and is above every limit.
    let none = serde_json::to_string(&MemberInShort { ratio: f64::INFINITY, ..member }).expect("JSON");
    assert!(none.contains("\"ratio\":null"), "{none}");
    assert_eq!(serde_json::from_str::<MemberInShort>(&none).expect("a line").ratio, f64::INFINITY);
    let (_folder, archive) = filled();
    let mut entry = archive.read().expect("entries").entries.remove(0);
    entry.members = vec![MemberInShort { mark: "N".into(), check: "none".into(), ratio: 0.0, verdict: Verdict::NotChecked }];
    let above = Question { above: Some(1.0), ..Question::default() };
    assert_eq!(super::question::answer(&above, &entry).map(|answer| answer.because), Some(vec!["N NOT CHECKED".to_owned()]));
    entry.members[0].verdict = Verdict::Passes;
    assert_eq!(super::question::answer(&above, &entry), None);
}
