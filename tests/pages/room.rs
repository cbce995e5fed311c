//! Names of any length have room: no word lies on another, none leaves its page; the page number keeps its line.

use super::{closed, printed, text_of};
use latewood::package::{self, Build, Templates};
use latewood::text::Source;
use std::process::{Command, Stdio};

const LONG: &str = "
job: {title: Long names, number: T-80, date: 2026-03-18}
basis:
  code: american
  cases:
    unbalanced-drifted-snow-leeward-side: {like: snow, instead-of: snow}
    equipment-on-wheels: {like: live}
  combinations: [{name: goods stacked high, factors: {dead: 1.0, equipment-on-wheels: 1.0, snow: 0.75}, duration: ten-years}]
members:
  - {mark: B1, use: beam, section: 4x10, material: {species: Douglas Fir-Larch, grade: No.2}, spans: [10 ft], bearing: 3 in, braced: {top: sheathed}, rests-on: [existing concrete block wall to be verified by the geotechnical engineer of record, wall W2], loads: [{line: 10 plf, case: dead}, {line: 100 plf, case: equipment-on-wheels}, {line: 100 plf, case: snow}, {line: 120 plf, case: unbalanced-drifted-snow-leeward-side}]}
";

/// On A4, with all that a status line can say.
const MUCH_OPEN: &str = "
job: {title: Much is open, number: T-79, date: 2026-03-18, issued-for: permit}
basis:
  code: european
  cases: {archive: {like: live, use-category: E}}
members:
  - {mark: B1, use: beam, section: {width: 63 mm, depth: 220 mm}, material: {class: C24}, spans: [6 m], braced: {top: sheathed}, loads: [{line: 5 kN/m, case: live}, {line: 1 kN/m, case: archive}]}
  - {mark: B2, use: beam, section: {width: 63 mm, depth: 220 mm}, material: {class: C24}, spans: [6 m], braced: {top: sheathed}, self-weight: no, loads: [{line: 0 kN/m, case: live}]}
";

fn package_of(text: &str) -> Vec<u8> {
    let source = Source::read("job.yaml", text.as_bytes()).unwrap_or_else(|f| panic!("{f:?}"));
    let checked = latewood::check(&source, false).unwrap_or_else(|f| panic!("{f:?}"));
    package::issue(&checked.job, &checked.results, text.as_bytes(), Build::Record, &Templates::built_in())
        .unwrap_or_else(|bug| panic!("{bug}"))
}

/// A word of a page and its box: left, top, right, bottom.
type Word = (String, [f64; 4]);

/// The size of a page and its words.
fn words(page: &str) -> ([f64; 2], Vec<Word>) {
    let number = |line: &str, name: &str| -> f64 {
        let rest = line.split_once(&format!(" {name}=\"")).unwrap_or_else(|| panic!("{name}: {line}")).1;
        rest.split('"').next().and_then(|n| n.parse().ok()).unwrap_or_else(|| panic!("{name}: {line}"))
    };
    let size = page.lines().next().map(|line| ["width", "height"].map(|name| number(line, name))).expect("a size");
    let word = |line: &str| {
        let said = line.split_once('>').map_or("", |(_, rest)| rest.trim_end_matches("</word>"));
        (said.to_owned(), ["xMin", "yMin", "xMax", "yMax"].map(|name| number(line, name)))
    };
    (size, page.lines().filter(|line| line.contains("<word ")).map(word).collect())
}

#[test]
fn no_word_lies_on_another_or_leaves_its_page() {
    for job in [LONG, MUCH_OPEN] {
        let boxes = printed("pdftotext", "poppler-utils", &["-bbox"], &package_of(job), &["-"]);
        for page in boxes.split("<page").skip(1) {
            let ([wide, high], words) = words(page);
            for (i, (word, [left, top, right, bottom])) in words.iter().enumerate() {
                assert!(*left > 10.0 && *right < wide - 10.0 && *top > 10.0 && *bottom < high - 10.0, "{word} leaves its page");
                for (other, [l, t, r, b]) in &words[i + 1..] {
                    // Boxes are as tall as a font's tallest letters; lines of a text may share a little of that.
                    let (across, down) = (right.min(*r) - left.max(*l), bottom.min(*b) - top.max(*t));
                    assert!(across < 3.0 || down < 5.0, "{word} and {other} lie on one another: {across} by {down} points");
                }
            }
        }
    }
}

#[test]
fn the_page_number_keeps_its_line() {
    let text = text_of(&package_of(MUCH_OPEN));
    let pages: Vec<&str> = text.trim_end_matches('\u{c}').split('\u{c}').collect();
    for (i, page) in pages.iter().enumerate() {
        let number = format!("page {} of {}", i + 1, pages.len());
        assert!(page.contains(&number), "no {number}: {page}");
        assert!(page.contains("1 FAILS; 1 NOT CHECKED; not independently checked"), "{page}");
    }
    // The category of a case of the engineer's own stands with its name.
    assert!(closed(pages[1]).contains("loadcasearchive,likelive,categoryE"), "{}", pages[1]);
}

#[test]
fn own_combinations_and_cases_say_what_they_are() {
    let text = closed(&text_of(&package_of(LONG)));
    assert!(text.contains("goodsstackedhigh:D+0.75S+equipment-on-wheels"), "{text}");
    assert!(text.contains("likesnow,notwithS"), "{text}");
}

#[test]
fn a_change_from_not_checked_shows_no_ratio_that_nobody_found() {
    let folder = tempfile::tempdir().unwrap();
    let member = "{mark: J1, use: joist, section: 2x10, material: {species: Hem-Fir, grade: No.2}, spacing: 16 in, spans: [12 ft], braced: {top: sheathed}, loads: [LOADS]}";
    let job = |revision: &str, loads: &str| {
        format!(
            "job: {{title: Shed, number: T-81, date: 2026-02-02, revision: {revision}}}\nbasis: {{code: american}}\nmembers:\n  - {}\n",
            member.replace("LOADS", loads)
        )
    };
    for (name, text) in
        [("a.yaml", job("A", "{line: 0 plf, case: live}")), ("b.yaml", job("B", "{line: 13 plf, case: dead}, {line: 53 plf, case: live}"))]
    {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    let issue = |arguments: &[&str]| {
        let run = Command::new(env!("CARGO_BIN_EXE_latewood"))
            .current_dir(folder.path())
            .arg("issue")
            .args(arguments)
            .stdin(Stdio::null())
            .output();
        let output = run.unwrap();
        assert!(output.status.code().is_some_and(|code| code < 2), "{}", String::from_utf8_lossy(&output.stderr));
    };
    issue(&["a.yaml", "-o", "a.pdf"]);
    issue(&["b.yaml", "--after", "a.pdf", "-o", "b.pdf"]);
    let text = text_of(&std::fs::read(folder.path().join("b.pdf")).unwrap());
    let sheet = text.split('\u{c}').find(|page| page.contains("What came of it")).unwrap();
    assert!(sheet.contains("was no check") && sheet.contains("J1 was not checked and now passes."), "{sheet}");
    assert!(!sheet.contains("0.000"), "{sheet}");
}
