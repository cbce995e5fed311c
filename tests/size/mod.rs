//! Sizing: the choice passes, everything lighter fails, weights go down the load path, and the job file keeps its comments.

use latewood::job::model::SectionAsked;
use latewood::study::size::{Sized, Vary, Wanted, size, written};
use latewood::text::Source;
use std::path::Path;

fn example() -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/cider-house.yaml")).unwrap()
}

fn sized(text: &str, wanted: &Wanted) -> (Vec<Sized>, String) {
    let source = Source::read("job.yaml", text.as_bytes()).unwrap();
    let ready = latewood::read(&source).unwrap_or_else(|f| panic!("{}", latewood::cli::snippet::render(&source, &f, false)));
    let sized = size(ready.code, &ready.job, &ready.prepared, wanted).unwrap();
    let new = written(&source, &ready.job, &sized).unwrap_or_else(|| text.to_owned());
    (sized, new)
}

fn results(text: &str) -> latewood::results::Results {
    let source = Source::read("job.yaml", text.as_bytes()).unwrap();
    latewood::check(&source, false).unwrap_or_else(|f| panic!("{}", latewood::cli::snippet::render(&source, &f, false))).results
}

/// The lines of a text without those that a choice may change.
fn rest(text: &str) -> Vec<&str> {
    text.lines().filter(|l| !["section:", "plies:", "grade:"].iter().any(|key| l.contains(key))).collect()
}

#[test]
fn what_is_written_passes_as_computed_and_nothing_else_changes() {
    let text = example();
    let vary = Vary { grade: false, plies: true };
    for wanted in [Wanted::default(), Wanted { vary, ..Wanted::default() }] {
        let (sized, new) = sized(&text, &wanted);
        assert_eq!(sized.len(), 15);
        let results = results(&new);
        for one in &sized {
            let member = &results.members[one.member];
            let chosen = one.chosen.as_ref().unwrap_or(&one.was);
            assert!(member.verdict.passes(), "{}: {:?}", member.mark, member.governing);
            assert!(
                (member.governing.ratio - chosen.ratio.value()).abs() < 1e-9,
                "{}: {} and {}",
                member.mark,
                member.governing.ratio,
                chosen.ratio.value()
            );
            assert_eq!(member.section.name, chosen.section, "{}", member.mark);
            if let Some(next) = &one.next_down {
                assert!(next.ratio.value() > 1.0 && next.choice.area() <= chosen.choice.area(), "{}: {next:?}", member.mark);
            }
        }
        assert_eq!(rest(&text), rest(&new));
        assert_eq!(text.matches('#').count(), new.matches('#').count());
    }
}

#[test]
fn every_lighter_section_of_the_catalogue_fails() {
    let text = example();
    let wanted = Wanted { marks: vec!["B1".to_owned()], ..Wanted::default() };
    let (sized, new) = sized(&text, &wanted);
    let [one] = sized.as_slice() else { panic!("one member") };
    let chosen = one.chosen.as_ref().unwrap();
    let at = new.find("mark: B1\n").unwrap();
    let old = format!("section: {}\n", chosen.section);
    let source = Source::read("job.yaml", text.as_bytes()).unwrap();
    let ready = latewood::read(&source).unwrap();
    let mut lighter = 0;
    for offer in ready.code.sections(&ready.job.basis, &ready.job.members[one.member]) {
        let SectionAsked::Named(name) = &offer.section else { continue };
        if offer.width * offer.depth >= chosen.choice.area() - 1e-6 {
            continue;
        }
        let tried = format!("{}{}", &new[..at], new[at..].replacen(&old, &format!("section: {name}\n"), 1));
        let source = Source::read("job.yaml", tried.as_bytes()).unwrap();
        // What the tables do not have in this grade is no choice.
        if let Ok(checked) = latewood::check(&source, false) {
            assert!(!checked.results.member("B1").unwrap().verdict.passes(), "{name} is lighter and passes");
            lighter += 1;
        }
    }
    assert!(lighter > 10, "{lighter} lighter sections");
}

#[test]
fn a_price_list_decides_where_there_is_one() {
    let text = "job: {title: Prices, date: 2026-01-05}\nbasis: {code: american}\nareas: {floor: {dead: 10 psf, live: 40 psf}}\n\
        prices:\n  per: 1 ft\n  list:   # of a yard\n    - {section: 2x8, grade: No.2, price: 1.10}\n    - {section: 2x10, grade: No.2, price: 2.50}\n    \
        - {section: 2x12, price: 1.90}\nmembers:\n  - mark: J1\n    use: joist\n    section: 2x10 # as drawn\n    material: {species: Hem-Fir, grade: No.1}\n    \
        spacing: 16 in\n    spans: [12 ft]\n    braced: {top: sheathed}\n    loads: [{area: floor}]\n";
    let wanted = Wanted { vary: Vary { grade: true, plies: false }, ..Wanted::default() };
    let (sized, new) = sized(text, &wanted);
    let chosen = sized[0].chosen.as_ref().unwrap();
    // 2x8 is too weak, 2x10 dearer than 2x12; of the grades of 2x12 at one price the weakest that passes.
    assert_eq!((chosen.section.as_str(), chosen.choice.price), ("2x12", Some(1.9)));
    assert!(new.contains("section: 2x12 # as drawn\n"), "{new}");
    assert!(results(&new).verdict.passes());
}

/// The European example: what is chosen passes as computed, and is a customary section of its wood.
#[test]
fn european_members_are_sized_from_their_series() {
    let text = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/alpine-school.yaml")).unwrap();
    let (sized, new) = sized(&text, &Wanted::default());
    let results = results(&new);
    for one in &sized {
        let member = &results.members[one.member];
        let chosen = one.chosen.as_ref().unwrap_or(&one.was);
        assert!(
            member.verdict.passes() && (member.governing.ratio - chosen.ratio.value()).abs() < 1e-9,
            "{}: {:?}",
            member.mark,
            member.governing
        );
    }
    // Oak has no series.
    let without: Vec<&str> = sized.iter().filter(|one| one.chosen.is_none()).map(|one| results.members[one.member].mark.as_str()).collect();
    assert_eq!(without, ["B5"]);
}

/// A floor that is too slow for 7.3.3 is not checked, and so is no choice; a country chooses from its own series.
#[test]
fn a_floor_outside_the_rules_is_not_chosen() {
    let text = "job: {title: Floor, number: S-1, date: 2026-05-04}\nbasis: {code: european, country: GB}\nmembers:\n  - mark: J1\n    use: joist\n    \
        section: 47x195\n    material: {class: C24}\n    spacing: 400 mm\n    spans: [5.2 m]\n    bearing: 75 mm\n    braced: {top: sheathed}\n    \
        floor: {width: 5 m, decking: {thickness: 22 mm, E: 2500 N/mm2}}\n    loads: [{line: 0.2 kN/m, case: dead}, {line: 0.3 kN/m, case: live}]\n";
    assert!(results(text).members[0].not_checked[0].starts_with("vibration"));
    let (sized, new) = sized(text, &Wanted::default());
    let [one] = sized.as_slice() else { panic!("one member") };
    let results = results(&new);
    assert!(results.members[0].checks.iter().any(|c| c.check == "vibration" && c.passes), "{:?}", one.chosen);
    let source = Source::read("job.yaml", text.as_bytes()).unwrap();
    let ready = latewood::read(&source).unwrap();
    let names: Vec<SectionAsked> = ready.code.sections(&ready.job.basis, &ready.job.members[0]).into_iter().map(|o| o.section).collect();
    assert!(names.contains(&SectionAsked::Named("47x195".to_owned())) && !names.contains(&SectionAsked::Named("60x100".to_owned())));
}
