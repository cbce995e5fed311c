//! More rows of what departments, boards and archives ask for: loads, hand-downs, material, conditions, parts by others, places.

use super::claims::{of, pages, says};
use super::{CHECKED, JOB, SUBMITTAL, closed, text_of};
use latewood::package::{self, Build, Templates};
use latewood::results::Load;
use latewood::text::Source;
use latewood::units::{decimals, figures};
use latewood::{Checked, check};
use std::sync::LazyLock;

/// The lines of the summary.
static LINES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let text = text_of(&SUBMITTAL);
    let page = text.split('\u{c}').find(|page| page.contains("Every ratio")).expect("a summary");
    page.lines().map(str::to_owned).collect()
});

/// The pages of the job with some of its text replaced, and what was found in it.
fn with(edits: &[(&str, &str)], build: Build) -> (Vec<String>, Checked) {
    let text = edits.iter().fold(JOB.to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replace(from, to)
    });
    let source = Source::read("job.yaml", text.as_bytes()).expect("text");
    let checked = check(&source, false).unwrap_or_else(|faults| panic!("{faults:?}"));
    let bytes = package::issue(&checked.job, &checked.results, text.as_bytes(), build, &Templates::built_in()).expect("a package");
    (pages(&bytes), checked)
}

/// `area floor, 40 psf x 16 in`: the two numbers.
fn product(load: &Load) -> Option<(f64, f64)> {
    let (_, product) = load.because.strip_prefix("area ")?.split_once(", ")?;
    let (pressure, width) = product.split_once(" x ")?;
    let number = |text: &str| text.split(' ').next()?.parse::<f64>().ok();
    Some((number(pressure)?, number(width)?))
}

#[test]
fn every_load_has_a_magnitude_a_unit_and_a_source_and_is_the_area_load_times_its_width() {
    let basis = of("Basis");
    let mut products = 0;
    for member in &CHECKED.results.members {
        let sheet = of(&member.mark);
        assert!(!member.loads.is_empty());
        for load in &member.loads {
            let value = &load.start;
            assert!(!value.unit.is_empty() && !load.because.is_empty(), "{} {}", member.mark, load.case);
            let printed = [1, 0].map(|places| format!("{}{}", decimals(value.value, places), value.unit));
            assert!(printed.iter().any(|printed| says(&sheet, printed)), "{} {}: {printed:?}", member.mark, load.case);
            if let Some((pressure, width)) = product(load) {
                products += 1;
                assert_eq!(value.unit, "plf");
                assert!((pressure * width / 12.0 - value.value).abs() < 1e-6 * value.value, "{} {}", member.mark, load.because);
                assert!(says(&basis, &decimals(pressure, 1)), "{pressure} psf is not in the table of loads");
            }
        }
    }
    assert!(products >= 2);
    // A build-up is added up line by line to the load that it gives.
    for (layer, weight) in [("Boards *3/4* in", "3.0"), ("Joists", "2.6"), ("sum", "5.6")] {
        assert!(says(&basis, &format!("{layer}{weight}")), "{layer}");
    }
}

#[test]
fn what_a_member_hands_down_is_named_on_both_sheets() {
    let mut handed = 0;
    for member in &CHECKED.results.members {
        for load in member.loads.iter().filter(|load| !load.from_member.is_empty()) {
            handed += 1;
            let giver = CHECKED.results.member(&load.from_member).expect("a member");
            assert!(says(&of(&member.mark), &giver.mark), "{} does not name {}", member.mark, giver.mark);
            let support = load.from_support.expect("a support");
            let reaction = giver.reactions.iter().find(|reaction| reaction.support == support).expect("a reaction");
            assert_eq!(reaction.received_by, member.mark);
            assert!(says(&of(&giver.mark), &member.mark), "{} does not say where it rests", giver.mark);
        }
    }
    assert!(handed >= 4, "{handed}");
}

#[test]
fn values_of_tables_are_reproduced_with_their_cell_and_standing() {
    let references = of("References");
    for cell in &CHECKED.results.references {
        let value = figures(cell.value.value, 4);
        let value = if value.contains('.') { value.trim_end_matches('0').trim_end_matches('.').to_owned() } else { value };
        let printed = latewood::units::grouped(&value, ",");
        assert!(says(&references, &printed), "{} {}: {printed}", cell.table, cell.cell);
        // Rows are broken between columns that stand beside each other: a row is found by its words.
        assert!(
            cell.row.split(' ').filter(|word| word.chars().all(char::is_alphanumeric)).all(|word| says(&references, word)),
            "{}",
            cell.row
        );
        assert!(says(&references, &cell.status), "{} {}", cell.table, cell.cell);
    }
}

#[test]
fn the_summary_gives_ratio_check_and_page() {
    let all: Vec<String> = text_of(&SUBMITTAL).split('\u{c}').map(closed).collect();
    for member in &CHECKED.results.members {
        let page = all.iter().position(|page| page.contains(&format!("{}-1{}", member.mark, member.mark)));
        let page = 1 + page.expect("a sheet");
        let row = LINES.iter().find(|line| {
            let words: Vec<&str> = line.split_whitespace().collect();
            words.first() == Some(&member.mark.as_str()) && words.last() == Some(&page.to_string().as_str())
        });
        let row = row.unwrap_or_else(|| panic!("no row leads from {} to page {page}", member.mark));
        let ratio = latewood::results::ratio(member.governing.ratio);
        // A member that deflection governs is known by that word.
        for said in [&ratio, &member.governing.check.replace('_', " "), &member.section.name] {
            assert!(row.contains(said.as_str()), "{said} is not in: {row}");
        }
        assert_eq!(row.contains("FAILS"), member.verdict.fails());
    }
}

#[test]
fn every_sheet_names_the_conditions_of_the_wood() {
    for member in &CHECKED.results.members {
        let sheet = of(&member.mark);
        for condition in ["load duration", "wet service", "temperature", "incising", "edge", "notches", "Bearing", "vibration", "holes"] {
            assert!(says(&sheet, condition), "{} does not say: {condition}", member.mark);
        }
    }
    assert!(says(&of("Basis"), "fire"), "fire is named in the scope");
}

#[test]
fn forces_left_to_others_are_listed_with_the_part() {
    let basis = of("Basis");
    let mut listed = 0;
    for member in &CHECKED.results.members {
        for reaction in &member.reactions {
            let Some(part) = CHECKED.job.about.deferred.iter().find(|part| part.id == reaction.received_by) else { continue };
            listed += 1;
            let said = format!(
                "{}, support {}: {} {}",
                member.mark,
                reaction.support,
                reaction.largest.combination,
                decimals(reaction.largest.force.value, 0)
            );
            assert!(says(&basis, &part.id) && says(&basis, &said), "{said}");
        }
    }
    assert_eq!(listed, 2);
}

#[test]
fn a_value_from_outside_the_code_names_its_report() {
    let custom = "material: {custom: Old pine, kind: sawn, source: \"Report 7 of a laboratory, 2026-01-30\", values: {F_b: 1200 psi, F_t: 650 psi, \
                  F_v: 165 psi, F_c_perp: 480 psi, F_c: 1400 psi, E: 1400 ksi, E_min: 510 ksi, G: 0.55}}";
    let (pages, _) = with(&[("material: {species: Douglas Fir-Larch, grade: No.1}", custom)], Build::Submittal);
    let count = pages.iter().filter(|page| says(page, "Report 7 of a laboratory")).count();
    assert!(count >= 1, "the report is named nowhere");
}

#[test]
fn a_package_that_nobody_checked_says_so_on_every_page() {
    let (pages, _) = with(&[("  checked-by: a. preparer\n  checked-on: 2026-02-03\n", "")], Build::Submittal);
    assert!(pages.iter().all(|page| says(page, "not independently checked")), "a page does not say that nobody checked it");
    assert!(says(&pages[0], "Checked by not given. Not independently checked."), "{}", pages[0]);
}

#[test]
fn places_differ_as_their_rules_do() {
    // What these boards ask of a preliminary issue, as read in the sources that the profiles name: one wants no seal, the other wants it.
    let of_place = |place: &str| {
        with(
            &[
                ("basis: {code: american}", &format!("basis: {{code: american, jurisdiction: {place}}}")),
                ("issued-for: permit", "issued-for: review"),
            ],
            Build::Submittal,
        )
        .0
    };
    let (texas, washington, neutral) = (of_place("texas"), of_place("washington"), of_place("neutral"));
    assert!(!says(&texas[0], "Seal and signature") && says(&texas[0], "Not for construction; not sealed."));
    assert!(says(&washington[0], "Seal and signature") && says(&washington[0], "PRELIMINARY."));
    assert!(
        !says(&neutral[0], "PRELIMINARY") && !says(&neutral[0], "Not for construction"),
        "nothing of any authority without being asked"
    );
}

#[test]
fn a_brief_names_the_member_above_and_no_force() {
    let (pages, checked) = with(&[], Build::Checking);
    let sheet = pages.iter().find(|page| says(page, "mark: H1")).expect("a page");
    assert!(says(sheet, "Not drawn, to be found first: the reaction of B1 at its support 1 and the header’s own weight."), "{sheet}");
    let weight = checked.results.member("H1").and_then(|h1| h1.loads.iter().find(|load| load.because == "own weight")).expect("a load");
    assert!(!says(sheet, &format!("{} plf", decimals(weight.start.value, 1))));
}
