//! What departments, boards and archives ask of a calculation package, and what this one claims to give: a test a claim.
//!
//! The README's table of claims names these tests. Pages are read by poppler, objects by lopdf: neither wrote them.

use super::{CHECKED, JOB, RECORD, SUBMITTAL, closed, text_of};
use lopdf::{Dictionary, Document, Object};
use std::collections::BTreeSet;
use std::sync::LazyLock;

static PAGES: LazyLock<Vec<String>> = LazyLock::new(|| pages(&SUBMITTAL));
static DOCUMENT: LazyLock<Document> = LazyLock::new(|| Document::load_mem(&SUBMITTAL).expect("readable"));
static OF_RECORD: LazyLock<Document> = LazyLock::new(|| Document::load_mem(&RECORD).expect("readable"));

/// The pages as they are printed, one text each, without white space.
pub(super) fn pages(bytes: &[u8]) -> Vec<String> {
    text_of(bytes).split('\u{c}').map(closed).filter(|page| !page.is_empty()).collect()
}

/// The pages of a part, by the id at their head.
pub(super) fn of(part: &str) -> String {
    let id = closed(part);
    let has = |page: &&String| page.contains(&format!("{id}-")) || page.contains(&id);
    PAGES.iter().filter(has).cloned().collect()
}

pub(super) fn says(text: &str, said: &str) -> bool {
    text.contains(&closed(said))
}

fn dictionaries(document: &Document) -> impl Iterator<Item = &Dictionary> {
    document.objects.values().filter_map(|object| match object {
        Object::Dictionary(entries) => Some(entries),
        Object::Stream(stream) => Some(&stream.dict),
        _ => None,
    })
}

fn is(entries: &Dictionary, key: &[u8], name: &[u8]) -> bool {
    entries.get(key).and_then(Object::as_name).is_ok_and(|found| found == name)
}

fn structure<'a>(document: &'a Document, kind: &'static [u8]) -> Vec<&'a Dictionary> {
    dictionaries(document).filter(|entries| is(entries, b"Type", b"StructElem") && is(entries, b"S", kind)).collect()
}

#[test]
fn the_cover_has_a_value_for_every_field() {
    let cover = &PAGES[0];
    let about = &CHECKED.job.about;
    for field in ["Job number", "Site", "Client", "Firm", "Covers", "Governing codes", "Issued for", "Result", "Revision", "Supersedes"] {
        assert!(says(cover, field), "{field}");
    }
    for given in [&about.number, &about.site, &about.client, &about.firm, &about.prepared_by, &about.checked_by].into_iter().flatten() {
        assert!(says(cover, given), "{given}");
    }
    // A field that the job file leaves out is said to be.
    let without = JOB.replace("  firm: An invented office\n", "").replace("  client: \"- not a list\"\n", "");
    let source = latewood::text::Source::read("job.yaml", without.as_bytes()).expect("text");
    let checked = latewood::check(&source, false).unwrap_or_else(|faults| panic!("{faults:?}"));
    let templates = latewood::package::Templates::built_in();
    let build = latewood::package::Build::Submittal;
    let bytes = latewood::package::issue(&checked.job, &checked.results, without.as_bytes(), build, &templates).expect("a package");
    assert_eq!(pages(&bytes)[0].matches("notgiven").count(), 2);
}

#[test]
fn the_contents_lead_to_pages_that_carry_their_heading() {
    let contents = &PAGES[1];
    assert!(says(contents, "Contents"));
    let titles = OF_RECORD.get_toc().expect("an outline").toc;
    assert!(titles.len() >= 6 + CHECKED.results.members.len());
    for entry in &titles {
        let page = &PAGES[entry.page - 1];
        assert!(says(page, &entry.title.replace('\u{a0}', " ")), "{} is not on page {}", entry.title, entry.page);
    }
    // Every member's line names the page that its sheet begins on.
    for member in &CHECKED.results.members {
        let first = PAGES.iter().position(|page| page.contains(&format!("{}-1", member.mark)) && !page.contains("Howtoreadasheet"));
        assert!(first.is_some(), "{} has no sheet", member.mark);
    }
}

#[test]
fn every_page_has_title_number_revision_date_and_status() {
    let about = &CHECKED.job.about;
    for (i, page) in PAGES.iter().enumerate() {
        for said in [
            about.title.clone(),
            about.number.clone().unwrap_or_default(),
            format!("Revision {}, {}", about.revision, about.date),
            format!("page {} of {}", i + 1, PAGES.len()),
            format!("Issued for {}", about.issued_for.word()),
        ] {
            assert!(says(page, &said), "page {}: {said}", i + 1);
        }
    }
}

#[test]
fn codes_are_named_with_their_edition() {
    let results = &CHECKED.results;
    let (cover, last) = (&PAGES[0], of("References"));
    for standard in &results.standards {
        // Columns stand beside each other: a title that is broken is found by its words.
        assert!(says(cover, &standard.short) && standard.title.split(' ').all(|word| says(&last, word)), "{}", standard.short);
        assert!(standard.title.chars().filter(char::is_ascii_digit).count() >= 4 || standard.short.chars().any(|c| c.is_ascii_digit()));
    }
    // No check cites a standard that is not named.
    let known: Vec<&str> = results.standards.iter().filter_map(|standard| standard.short.split(' ').next()).collect();
    for check in results.members.iter().flat_map(|member| &member.checks) {
        for step in &check.steps {
            let cited = step.reference.split(' ').next().unwrap_or_default();
            let is_standard = cited.len() > 2 && cited.chars().all(|c| c.is_ascii_uppercase());
            assert!(!is_standard || known.contains(&cited), "{} is not among {known:?}", step.reference);
        }
    }
}

#[test]
fn every_combination_that_governs_is_listed() {
    let basis = of("Basis");
    for member in &CHECKED.results.members {
        for check in &member.checks {
            assert!(says(&basis, &check.combination), "{} {}: {}", member.mark, check.check, check.combination);
        }
    }
}

#[test]
fn every_reaction_is_received_and_scheduled() {
    let path = of("Path");
    for member in &CHECKED.results.members {
        for reaction in &member.reactions {
            assert!(!reaction.received_by.is_empty(), "{} support {}", member.mark, reaction.support);
            assert!(says(&path, &reaction.received_by), "{} support {}", member.mark, reaction.support);
        }
    }
}

#[test]
fn assumptions_are_in_the_register_and_on_the_sheets_both_ways() {
    let basis = of("Basis");
    let register: BTreeSet<&str> = CHECKED.results.assumptions.iter().map(|assumption| assumption.id.as_str()).collect();
    for id in &register {
        assert!(says(&basis, id), "{id}");
    }
    let mut named = BTreeSet::new();
    for page in PAGES.iter() {
        for (at, _) in page.match_indices("A-") {
            let digits: String = page[at + 2..].chars().take_while(char::is_ascii_digit).collect();
            // Two numbers that stand together without a space between are read as one: the register has one of them then.
            if let Some(id) = (1..=digits.len()).rev().map(|n| format!("A-{}", &digits[..n])).find(|id| register.contains(id.as_str())) {
                named.insert(id);
            }
        }
    }
    assert_eq!(named.len(), register.len());
}

#[test]
fn every_factor_is_shown_also_where_it_is_one_with_its_reason() {
    for member in &CHECKED.results.members {
        let sheet = of(&member.mark);
        for row in &member.account.rows {
            assert!(!row.because.is_empty() && !row.reference.is_empty(), "{} {}", member.mark, row.symbol);
            assert!(says(&sheet, &row.name) && says(&sheet, &row.because), "{} {}", member.mark, row.symbol);
        }
        assert!(member.account.rows.iter().any(|row| row.values.iter().any(|value| value == "1.0")), "{}", member.mark);
    }
}

#[test]
fn the_printed_numbers_give_the_printed_ratio() {
    let mut lines = 0;
    for member in &CHECKED.results.members {
        for check in member.checks.iter().filter(|check| check.leading) {
            let printed = |side: &latewood::results::Side| {
                let same = |step: &&latewood::equation::Step| step.symbol == side.symbol && step.unit == side.unit;
                check.steps.iter().rev().find(same).and_then(|step| step.printed.replace(',', "").parse::<f64>().ok())
            };
            let ratio = check.steps.last().and_then(|step| step.printed.parse::<f64>().ok());
            if let (Some(demand), Some(capacity), Some(ratio)) = (printed(&check.demand), printed(&check.capacity), ratio) {
                // Half a unit of the third figure, and what four printed figures of each side can be off.
                assert!(
                    (demand / capacity - ratio).abs() <= 0.0005 + 0.001 * ratio,
                    "{} {}: {demand} / {capacity}",
                    member.mark,
                    check.check
                );
                assert_eq!(ratio <= 1.0, check.passes, "{} {}", member.mark, check.check);
                lines += 1;
            }
        }
    }
    assert!(lines >= 12, "{lines} lines");
}

#[test]
fn every_line_of_a_check_has_its_clause() {
    for member in &CHECKED.results.members {
        for check in &member.checks {
            assert!(!check.clause.is_empty());
            for step in &check.steps {
                assert!(!step.reference.is_empty(), "{} {} {}", member.mark, check.check, step.symbol);
            }
        }
    }
}

#[test]
fn the_summary_has_one_row_a_member() {
    let summary = of("Summary");
    for member in &CHECKED.results.members {
        assert!(says(&summary, &member.section.name) && says(&summary, &member.governing.combination), "{}", member.mark);
    }
}

#[test]
fn program_version_and_hash_of_the_input_are_printed() {
    let results = &CHECKED.results;
    let hash = latewood::pdf::sha256(JOB.as_bytes());
    assert_eq!(results.fingerprint.job, format!("sha256:{hash}"));
    assert!(says(&PAGES[0], &hash) && says(&PAGES[0], &format!("latewood {}", results.program.version)));
}

#[test]
fn limits_of_deflection_are_listed_with_who_chose_them() {
    let basis = of("Basis");
    assert!(says(&basis, "Deflection limits") && says(&basis, "Chosen by"));
    for member in &CHECKED.results.members {
        for deflection in &member.deflections {
            assert!(deflection.limit_as.is_empty() || says(&basis, &deflection.limit_as), "{} {}", member.mark, deflection.limit_as);
        }
    }
}

#[test]
fn what_is_not_covered_is_said() {
    let basis = of("Basis");
    for said in ["Not included:", "the lateral system", "connections", "fire", "foundations"] {
        assert!(says(&basis, said), "{said}");
    }
    for part in &CHECKED.job.about.deferred {
        assert!(says(&basis, &part.id) && says(&basis, &part.text), "{}", part.id);
    }
    for member in &CHECKED.results.members {
        assert!(says(&of(&member.mark), "Not checked:") || member.not_checked.is_empty(), "{}", member.mark);
    }
}

#[test]
fn room_is_kept_for_seal_and_stamp_and_neither_is_drawn() {
    for said in ["Seal and signature", "License number", "Expires", "Signed on", "Room for the authority’s stamp"] {
        assert!(says(&PAGES[0], said), "{said}");
    }
    for document in [&*DOCUMENT, &*OF_RECORD] {
        assert!(!dictionaries(document).any(|entries| is(entries, b"Subtype", b"Image")), "an image");
        assert!(!dictionaries(document).any(|entries| is(entries, b"Type", b"Sig") || is(entries, b"FT", b"Sig")), "a signature");
    }
}

#[test]
fn pages_are_known_by_member_in_every_revision() {
    let later = JOB.replace("  revision: B", "  revision: C").replace("live: 40 psf", "live: 30 psf").replace(
        "    - {mark: B, date: 2026-02-03, note: \"#emph[beam] moved\"}",
        "    - {mark: B, date: 2026-02-03, note: x}\n    - {mark: C, date: 2026-02-03, note: y}",
    );
    let source = latewood::text::Source::read("job.yaml", later.as_bytes()).expect("text");
    let checked = latewood::check(&source, false).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (templates, build) = (latewood::package::Templates::built_in(), latewood::package::Build::Submittal);
    let bytes = latewood::package::issue(&checked.job, &checked.results, later.as_bytes(), build, &templates).expect("a package");
    let ids = |pages: &[String]| -> BTreeSet<String> {
        let heads = CHECKED.results.members.iter().map(|member| format!("{}-1", member.mark));
        heads.filter(|id| pages.iter().any(|page| page.contains(id))).collect()
    };
    assert_eq!(ids(&pages(&bytes)), ids(&PAGES));
    assert!(pages(&bytes).iter().all(|page| page.contains("RevisionC,")));
}

#[test]
fn the_file_is_plain() {
    for document in [&*DOCUMENT, &*OF_RECORD] {
        assert!(document.trailer.get(b"Encrypt").is_err(), "encrypted");
        let catalog = document.catalog().expect("a catalogue");
        for key in [&b"Collection"[..], b"OCProperties", b"AcroForm", b"OpenAction", b"AA"] {
            assert!(catalog.get(key).is_err(), "{}", String::from_utf8_lossy(key));
        }
        for entries in dictionaries(document) {
            let script = is(entries, b"S", b"JavaScript") || is(entries, b"S", b"Launch") || entries.has(b"JS");
            let media = is(entries, b"S", b"Movie") || is(entries, b"S", b"Sound") || is(entries, b"Subtype", b"RichMedia");
            assert!(!script && !media);
        }
    }
    // Nothing is embedded in a submittal.
    assert!(!dictionaries(&DOCUMENT).any(|entries| is(entries, b"Type", b"EmbeddedFile") || entries.has(b"EF")));
    assert!(SUBMITTAL.len() < 10 << 20);
}

#[test]
fn pages_are_of_one_size_and_upright() {
    let size = |page: &Dictionary| page.get(b"MediaBox").and_then(Object::as_array).cloned().expect("a size");
    let all: Vec<&Dictionary> = DOCUMENT.get_pages().into_values().map(|id| DOCUMENT.get_dictionary(id).expect("a page")).collect();
    assert!(all.iter().all(|page| size(page) == size(all[0])));
    assert!(all.iter().all(|page| page.get(b"Rotate").and_then(Object::as_i64).unwrap_or(0) == 0));
    let sides: Vec<f32> = size(all[0]).iter().map(|side| side.as_float().expect("a number")).collect();
    assert!(sides == [0.0, 0.0, 612.0, 792.0], "Letter, portrait: {sides:?}");
}

#[test]
fn fonts_are_embedded_and_text_can_be_read_on_every_page() {
    let descriptors: Vec<&Dictionary> = dictionaries(&DOCUMENT).filter(|entries| is(entries, b"Type", b"FontDescriptor")).collect();
    assert!(!descriptors.is_empty());
    for font in descriptors {
        assert!([&b"FontFile"[..], b"FontFile2", b"FontFile3"].iter().any(|key| font.has(key)));
    }
    for font in dictionaries(&DOCUMENT).filter(|entries| is(entries, b"Subtype", b"Type0")) {
        assert!(font.has(b"ToUnicode"));
    }
    assert!(PAGES.iter().all(|page| page.chars().count() > 200));
    assert_eq!(PAGES.len(), DOCUMENT.get_pages().len());
}

#[test]
fn both_builds_are_archival_and_accessible_as_far_as_objects_say() {
    for document in [&*DOCUMENT, &*OF_RECORD] {
        let catalog = document.catalog().expect("a catalogue");
        let entry = |key: &[u8]| catalog.get_deref(key, document).unwrap_or_else(|_| panic!("no {}", String::from_utf8_lossy(key)));
        // ISO 19005: an output intent, metadata; ISO 14289-1: marked, with a language, its title shown, a tree of structure.
        assert!(!entry(b"OutputIntents").as_array().expect("a list").is_empty());
        entry(b"Metadata");
        entry(b"StructTreeRoot");
        assert!(entry(b"MarkInfo").as_dict().and_then(|info| info.get(b"Marked")).and_then(Object::as_bool).expect("marked"));
        assert!(entry(b"Lang").as_str().is_ok_and(|language| language.starts_with(b"en")));
        let shown = entry(b"ViewerPreferences").as_dict().and_then(|shown| shown.get(b"DisplayDocTitle")).and_then(Object::as_bool);
        assert!(shown.expect("the title is shown"));
        for page in document.get_pages().into_values() {
            let page = document.get_dictionary(page).expect("a page");
            assert!(!page.has(b"Annots") || is(page, b"Tabs", b"S"), "the order of tabs");
        }
        let cells = structure(document, b"TH");
        assert!(cells.len() > 20, "{} header cells", cells.len());
        for kind in [&b"Formula"[..], b"Figure"] {
            let all = structure(document, kind);
            assert!(!all.is_empty());
            assert!(all.iter().all(|entries| entries.get(b"Alt").and_then(Object::as_str).is_ok_and(|words| !words.is_empty())));
        }
    }
}

#[test]
fn headings_do_not_skip_a_level() {
    // The outline mirrors them; its first entry is of the first level.
    let levels: Vec<usize> = OF_RECORD.get_toc().expect("an outline").toc.iter().map(|entry| entry.level).collect();
    assert_eq!(levels.first(), Some(&1));
    assert!(levels.windows(2).all(|pair| pair[1] <= pair[0] + 1), "{levels:?}");
}
