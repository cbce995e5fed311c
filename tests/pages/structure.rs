//! Rules of PDF/A and PDF/UA that can be tested by parsing, by clause, on both builds and on what is written beside them.
//!
//! Clauses of ISO 19005-2 (which ISO 19005-3 takes over) and ISO 14289-1 are cited from memory. No full validator was run: rules that
//! need a font program or a colour profile to be interpreted are left to the typesetter, which enforces both standards when it writes.

use super::{CHECKED, JOB, RECORD, SUBMITTAL, pdf_of};
use latewood::package::{self, Build, Issue, Named, Templates};
use latewood::pdf::Press;
use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, ObjectId};
use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;
use std::sync::LazyLock;

/// Every kind of PDF of a package, by name.
static FILES: LazyLock<Vec<(&str, Vec<u8>)>> = LazyLock::new(|| {
    let (job, results) = (&CHECKED.job, &CHECKED.results);
    let sheet = {
        let (build, templates) = (Build::Record, Templates::built_in());
        let issue = Issue { job, results, job_file: JOB.as_bytes(), build, templates: &templates, reissue: None };
        let named = Named::of("package.pdf", &RECORD).expect("a PDF");
        package::authentication(&issue, &named, &mut Press::new()).expect("our own template")
    };
    vec![("record", RECORD.clone()), ("submittal", SUBMITTAL.clone()), ("checking", pdf_of(Build::Checking)), ("authentication", sheet)]
});

fn documents() -> impl Iterator<Item = (&'static str, Document)> {
    FILES.iter().map(|(name, bytes)| (*name, Document::load_mem(bytes).expect("readable")))
}

fn dictionaries(document: &Document) -> impl Iterator<Item = &Dictionary> {
    document.objects.values().filter_map(|object| match object {
        Object::Dictionary(entries) => Some(entries),
        Object::Stream(stream) => Some(&stream.dict),
        _ => None,
    })
}

fn name<'a>(entries: &'a Dictionary, key: &[u8]) -> &'a [u8] {
    entries.get(key).and_then(Object::as_name).unwrap_or_default()
}

/// What is painted: a text with its font's name, its size on the page and its codes, or a line or an area.
struct Painted {
    font: String,
    size: f32,
    codes: Vec<u8>,
    marked: bool,
}

/// Paints a page in the mind: what stands on it, whether it is marked as content or artifact, which levels its inks have.
fn painted(document: &Document, page: ObjectId) -> (Vec<Painted>, BTreeSet<String>) {
    let fonts: BTreeMap<Vec<u8>, String> = document
        .get_page_fonts(page)
        .expect("fonts")
        .into_iter()
        .map(|(known, font)| (known, String::from_utf8_lossy(name(font, b"BaseFont")).into_owned()))
        .collect();
    let content = Content::decode(&document.get_page_content(page)).expect("content");
    let (mut all, mut inks) = (Vec::new(), BTreeSet::new());
    let (mut scale, mut kept) = (1.0, Vec::new());
    let (mut font, mut size, mut upright, mut marks) = (String::new(), 0.0, 1.0, Vec::new());
    for Operation { operator, operands } in content.operations {
        let number = |i: usize| operands.get(i).and_then(|operand| operand.as_float().ok()).unwrap_or_default();
        // How much a matrix lengthens what stands upright.
        let tall = || libm::hypotf(number(2), number(3));
        let mut paint =
            |codes| all.push(Painted { font: font.clone(), size: size * upright * scale, codes, marked: marks.contains(&true) });
        match operator.as_str() {
            "q" => kept.push(scale),
            "Q" => scale = kept.pop().expect("balanced"),
            "cm" => scale *= tall(),
            "BT" => upright = 1.0,
            "Tm" => upright = tall(),
            "Tf" => {
                font = operands[0].as_name().ok().and_then(|known| fonts.get(known)).cloned().expect("a font of the page");
                size = number(1);
            }
            "BDC" | "BMC" => {
                let artifact = operands[0].as_name().is_ok_and(|tag| tag == b"Artifact");
                let tagged = operands.get(1).and_then(|list| list.as_dict().ok()).is_some_and(|list| list.has(b"MCID"));
                marks.push(artifact || tagged);
            }
            "EMC" => drop(marks.pop().expect("balanced")),
            "Tj" | "TJ" => paint(codes(&operands)),
            "S" | "s" | "f" | "F" | "f*" | "B" | "B*" | "b" | "b*" | "sh" | "Do" => paint(Vec::new()),
            "g" | "G" | "rg" | "RG" | "k" | "K" | "sc" | "SC" | "scn" | "SCN" => {
                inks.extend((0..operands.len()).map(number).map(|level| format!("{level}")));
            }
            _ => {}
        }
    }
    (all, inks)
}

/// The codes of the glyphs that are shown.
fn codes(operands: &[Object]) -> Vec<u8> {
    operands
        .iter()
        .flat_map(|operand| match operand {
            Object::String(bytes, _) => bytes.clone(),
            Object::Array(parts) => parts.iter().filter_map(|part| part.as_str().ok()).flatten().copied().collect(),
            _ => Vec::new(),
        })
        .collect()
}

#[test]
fn the_file_is_laid_out_as_an_archive_wants_it() {
    for (kind, bytes) in FILES.iter() {
        // ISO 19005-2, 6.1.2: the header, then a comment of four bytes that are no letters.
        let mut lines = bytes.split(|byte| *byte == b'\n');
        assert_eq!(lines.next(), Some(&b"%PDF-1.7"[..]), "{kind}");
        let second = lines.next().expect("a second line");
        assert!(second.starts_with(b"%") && second.len() > 4 && second[1..5].iter().all(|byte| *byte > 127), "{kind}");
        let document = Document::load_mem(bytes).expect("readable");
        // 6.1.3: an identifier, no encryption; nothing after the end of the file.
        let id = document.trailer.get(b"ID").and_then(Object::as_array).expect("an identifier");
        assert!(id.len() == 2 && id.iter().all(|half| half.as_str().is_ok_and(|half| half.len() >= 8)), "{kind}");
        assert!(document.trailer.get(b"Encrypt").is_err() && bytes.ends_with(b"%%EOF"), "{kind}");
        for entries in dictionaries(&document) {
            // 6.1.7: nothing is fetched from outside, no compression that is not free.
            let filters = entries.get(b"Filter").map(|filter| format!("{filter:?}")).unwrap_or_default();
            assert!(!filters.contains("LZW") && !filters.contains("Crypt"), "{kind}: {filters}");
            assert!(!(entries.has(b"Length") && (entries.has(b"F") || entries.has(b"FFilter"))), "{kind}: a stream outside the file");
            // 6.2.9, 6.2.10: no PostScript, nothing transparent.
            assert!(name(entries, b"Subtype") != b"PS" && !entries.has(b"PS"), "{kind}");
            for key in [&b"ca"[..], b"CA"] {
                assert!(entries.get(key).and_then(Object::as_float).is_ok_and(|a| a == 1.0) || !entries.has(key), "{kind}: transparent");
            }
            assert!(!entries.has(b"SMask") || name(entries, b"SMask") == b"None", "{kind}: transparent");
            assert!(!entries.has(b"BM") || matches!(name(entries, b"BM"), b"Normal" | b"Compatible"), "{kind}: transparent");
            // 6.5.1: links and nothing that runs.
            if name(entries, b"Type") == b"Action" {
                assert!(matches!(name(entries, b"S"), b"GoTo" | b"URI"), "{kind}: {entries:?}");
            }
        }
    }
}

#[test]
fn what_it_says_of_itself_agrees_in_both_places() {
    for (kind, document) in documents() {
        // ISO 19005-2, 6.6.2 to 6.6.4; ISO 14289-1, 5.
        let metadata =
            document.catalog().expect("a catalogue").get_deref(b"Metadata", &document).and_then(Object::as_stream).expect("metadata");
        assert!(!metadata.dict.has(b"Filter"), "{kind}: readable without a decoder");
        let xmp = String::from_utf8(metadata.content.clone()).expect("text");
        let part = if kind == "record" { 3 } else { 2 };
        for said in [format!("<pdfaid:part>{part}<"), "<pdfaid:conformance>A<".to_owned(), "<pdfuaid:part>1<".to_owned()] {
            assert!(xmp.contains(&said), "{kind}: {said}");
        }
        let info = document.trailer.get_deref(b"Info", &document).and_then(Object::as_dict).expect("a dictionary of information");
        let creator = info.get(b"Creator").and_then(Object::as_str).map(String::from_utf8_lossy).expect("a creator").into_owned();
        assert!(xmp.contains(&format!("<xmp:CreatorTool>{creator}<")), "{kind}: {creator}");
        assert!(info.has(b"Title") && xmp.contains("<dc:title>"), "{kind}");
        // 6.2.3: one output intent with its profile, for what is black and white here.
        let intents = document.catalog().unwrap().get_deref(b"OutputIntents", &document).and_then(Object::as_array).expect("intents");
        assert_eq!(intents.len(), 1, "{kind}");
        let intent = document.dereference(&intents[0]).expect("there").1.as_dict().expect("an intent");
        assert_eq!(name(intent, b"S"), b"GTS_PDFA1", "{kind}");
        assert!(intent.get_deref(b"DestOutputProfile", &document).and_then(Object::as_stream).is_ok(), "{kind}");
    }
}

#[test]
fn fonts_are_whole_subsets_and_every_code_has_a_glyph() {
    for (kind, document) in documents() {
        let mut fonts = 0;
        for entries in dictionaries(&document).filter(|entries| name(entries, b"Type") == b"Font") {
            fonts += 1;
            // ISO 32000-1, 9.6.4: a subset has six capitals before its name.
            let base = name(entries, b"BaseFont");
            assert!(base.len() > 7 && base[..6].iter().all(u8::is_ascii_uppercase) && base[6] == b'+', "{kind}: not a subset");
            match name(entries, b"Subtype") {
                // ISO 19005-2, 6.2.11.3: composite fonts with codes that are glyphs, readable as text (6.2.11.7).
                b"Type0" => assert!(name(entries, b"Encoding") == b"Identity-H" && entries.has(b"ToUnicode"), "{kind}"),
                b"CIDFontType2" => assert!(entries.has(b"CIDToGIDMap"), "{kind}"),
                b"CIDFontType0" => assert!(entries.has(b"W"), "{kind}"),
                other => panic!("{kind}: a font of kind {}", String::from_utf8_lossy(other)),
            }
        }
        assert!(fonts >= 4, "{kind}: {fonts} fonts");
        for page in document.get_pages().into_values() {
            for text in painted(&document, page).0 {
                // 6.2.11.8: the glyph for what is missing is never shown.
                assert!(text.codes.chunks(2).all(|code| code != [0, 0]), "{kind}: a glyph is missing");
            }
        }
    }
}

#[test]
fn all_that_is_painted_is_content_or_artifact() {
    for (kind, document) in documents() {
        for (number, page) in document.get_pages() {
            // ISO 14289-1, 7.1.
            let bare = painted(&document, page).0.iter().filter(|thing| !thing.marked).count();
            assert_eq!(bare, 0, "{kind}, page {number}: {bare} things are neither tagged nor artifacts");
            let page = document.get_dictionary(page).expect("a page");
            assert!(page.has(b"StructParents"), "{kind}, page {number}");
        }
        let root = document.catalog().unwrap().get_deref(b"StructTreeRoot", &document).and_then(Object::as_dict).expect("structure");
        assert!(root.has(b"ParentTree") && root.has(b"K"), "{kind}");
    }
}

#[test]
fn header_cells_say_what_they_head_and_links_say_where_they_lead() {
    for (kind, document) in documents() {
        let elements = || dictionaries(&document).filter(|entries| name(entries, b"Type") == b"StructElem");
        // ISO 14289-1, 7.5.
        let cells: Vec<&Dictionary> = elements().filter(|entries| name(entries, b"S") == b"TH").collect();
        assert!(!cells.is_empty(), "{kind}");
        for cell in cells {
            assert!(format!("{:?}", cell.get(b"A")).contains("Scope"), "{kind}: {cell:?}");
        }
        // A row stands in a table, a cell in a row.
        for (part, within) in [(&b"TH"[..], &[&b"TR"[..]][..]), (b"TD", &[b"TR"]), (b"TR", &[b"Table", b"THead", b"TBody", b"TFoot"])] {
            for entries in elements().filter(|entries| name(entries, b"S") == part) {
                let parent = entries.get_deref(b"P", &document).and_then(Object::as_dict).expect("a parent");
                assert!(
                    within.contains(&name(parent, b"S")),
                    "{kind}: {} in {}",
                    String::from_utf8_lossy(part),
                    String::from_utf8_lossy(name(parent, b"S"))
                );
            }
        }
        // 7.18.5, and ISO 19005-2, 6.3.2: a link is described, is part of the structure, and is printed.
        for link in dictionaries(&document).filter(|entries| name(entries, b"Subtype") == b"Link") {
            assert!(link.has(b"StructParent") && link.has(b"Contents"), "{kind}: {link:?}");
            assert!(
                link.get(b"F").and_then(Object::as_i64).is_ok_and(|flags| flags & 4 == 4 && flags & 0b10_0011 == 0),
                "{kind}: {link:?}"
            );
        }
        for figure in elements().filter(|entries| matches!(name(entries, b"S"), b"Figure" | b"Formula")) {
            assert!(figure.get(b"Alt").and_then(Object::as_str).is_ok_and(|words| !words.is_empty()), "{kind}: {figure:?}");
        }
    }
}

#[test]
fn text_is_large_enough_and_black_on_white() {
    for (kind, document) in documents() {
        let mut smallest = f32::INFINITY;
        for (number, page) in document.get_pages() {
            let (things, inks) = painted(&document, page);
            // Nothing is told by colour, and no grey is lost on a photocopier.
            assert!(inks.iter().all(|ink| ink == "0" || ink == "1"), "{kind}, page {number}: {inks:?}");
            for text in things.iter().filter(|thing| !thing.codes.is_empty()) {
                // Sub- and superscripts of formulas are smaller; nothing else is under 8 pt.
                let least = if text.font.contains("Math") { 5.0 } else { 7.99 };
                assert!(text.size >= least, "{kind}, page {number}: {} at {} pt", text.font, text.size);
                smallest = smallest.min(text.size);
            }
        }
        assert!(smallest.is_finite(), "{kind}");
    }
}

#[test]
fn another_reader_shows_every_page_without_a_complaint() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    for (kind, bytes) in FILES.iter() {
        let path = folder.path().join("package.pdf");
        std::fs::write(&path, bytes).expect("written");
        let run = Command::new("mutool").args(["draw", "-F", "text", "-o", "-"]).arg(&path).output();
        let output = run.unwrap_or_else(|_| panic!("mutool is needed: install the Debian package mupdf-tools"));
        // Debian builds it without colour profiles.
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        let complaints: Vec<&str> =
            said.lines().filter(|line| !line.is_empty() && !line.contains("ICC support is not available")).collect();
        assert!(output.status.success() && complaints.is_empty(), "{kind}: {complaints:?}");
        let text = String::from_utf8_lossy(&output.stdout);
        let pages = Document::load_mem(bytes).expect("readable").get_pages().len();
        assert_eq!(text.matches('\u{c}').count(), pages, "{kind}");
        let plain: String = text.split_whitespace().collect();
        assert!((1..=pages).all(|page| plain.contains(&format!("page{page}of{pages}"))), "{kind}");
        if matches!(*kind, "record" | "submittal") {
            for member in &CHECKED.results.members {
                assert!(plain.contains(&latewood::results::ratio(member.governing.ratio)), "{kind}: {}", member.mark);
            }
        }
    }
}
