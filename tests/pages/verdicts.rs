//! A member that is not checked says so on cover, contents, summary and sheet, in words and in a frame.

use super::{closed, text_of};
use latewood::package::{self, Build, Templates};
use latewood::text::Source;

const JOB: &str = "
job: {title: Shed, number: T-9, date: 2026-02-02, issued-for: permit}
basis:
  code: american
  combinations: {only: yes, list: [{name: D, factors: {dead: 1.0}}, {name: D + L, factors: {dead: 1.0, live: 1.0}}]}
areas: {floor: {dead: 10 psf, live: 40 psf}, none: {dead: 0 psf}}
members:
  - {mark: J1, use: joist, section: 2x10, material: {species: Hem-Fir, grade: No.2}, spacing: 16 in, spans: [12 ft], braced: {top: sheathed}, loads: [{area: floor}]}
  - {mark: J2, use: joist, section: 2x10, material: {species: Hem-Fir, grade: No.2}, spacing: 16 in, spans: [12 ft], loads: [{area: none}]}
  - {mark: J3, use: joist, section: 2x10, material: {species: Hem-Fir, grade: No.2}, spacing: 16 in, spans: [12 ft], braced: {top: sheathed}, limits: {live: none, total: none}, loads: [{area: floor}, {line: 9000 plf, case: snow}]}
";

#[test]
fn what_is_not_checked_is_said_on_every_page_that_speaks_of_it() {
    let source = Source::read("job.yaml", JOB.as_bytes()).unwrap_or_else(|f| panic!("{f:?}"));
    let checked = latewood::check(&source, false).unwrap_or_else(|f| panic!("{f:?}"));
    let (job, results) = (&checked.job, &checked.results);
    let package = package::issue(job, results, JOB.as_bytes(), Build::Record, &Templates::built_in()).unwrap_or_else(|bug| panic!("{bug}"));
    let text = text_of(&package);
    let pages: Vec<String> = text.split('\u{c}').map(closed).collect();
    let page = |start: &str| pages.iter().find(|page| page.contains(start)).unwrap_or_else(|| panic!("{start}: {text}"));
    assert!(page("Jobnumber").contains("2NOTCHECKEDJ2,J3;oneotherpasses."), "{text}");
    assert!(page("Howtoreadasheet").matches("NOTCHECKED").count() >= 2, "{text}");
    let summary = page("Everyratio");
    assert!(summary.contains("2NOTCHECKEDJ2,joist:noloadactsonit,page"), "{summary}");
    assert!(summary.contains("J3,joist:nostrengthcombinationincludestheloadcasesnow,page"), "{summary}");
    assert!(summary.contains("J2isnotchecked:noloadactsonit."), "{summary}");
    assert!(page("J2Joistat16in.").contains("NOTCHECKEDNoloadactsonit."), "{text}");
    let sheet = page("J3Joistat16in.");
    assert!(sheet.contains("NOTCHECKEDNostrengthcombinationincludestheloadcasesnow."), "{sheet}");
    assert!(!text.contains("none fails") && text.contains("2 NOT CHECKED; not independently checked"), "{text}");
}
