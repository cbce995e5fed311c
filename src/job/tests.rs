use super::model::*;
use super::*;
use crate::units::{FT, IN, PSF};

const JOB: &str = "\
job: {title: Boat shed at Tarn End, date: 2026-05-04}
basis:
  code: american
  cases:
    stores: {like: live, duration: ten-years, instead-of: live}
build-ups:
  floor-dead:
    - {layer: Plywood 5/8 in, weight: 1.8 psf}
    - {layer: Joists, weight: 2.6 psf}
areas:
  floor: {dead: floor-dead, live: 40 psf, stores: 60 psf}
members:
  - mark: B1
    use: beam
    section: 4x12
    material: {species: Douglas Fir-Larch, grade: No.1}
    clear-spans: [10 ft, 8 ft]
    overhangs: {right: 1 ft}
    bearing: [3 in, 6 in, 4 in]
    braced: {top: {at: 16 in}, bottom: {at: mid}}
    loads:
      - {reaction: J1, support: 2, every: 16 in, to: 10 ft}
  - mark: J1
    use: joist
    section: {width: 1-1/2 in, depth: 9.25 in}
    material: {species: Douglas Fir-Larch, grade: No.2}
    spacing: 16 in
    spans: [13 ft 6 in]
    loads: [{area: floor}]
";

fn source(text: &str) -> Source {
    Source::read("job.yaml", text.as_bytes()).expect("text is UTF-8")
}

fn whole(text: &str) -> Job {
    read(&source(text)).whole().expect("a job without faults")
}

fn ids(text: &str) -> Vec<&'static str> {
    read(&source(text)).faults.iter().map(|fault| fault.id).collect()
}

#[test]
fn a_job_is_read_and_its_path_sorted() {
    let job = whole(JOB);
    assert_eq!(job.path, [1, 0]);
    assert_eq!(job.about.date.to_string(), "2026-05-04");
    assert_eq!((job.basis.edition.value.as_str(), job.basis.loading.value.as_str()), ("NDS-2018", "ASCE7-16"));
    let stores = &job.basis.cases[7];
    assert_eq!(
        (stores.name.as_str(), stores.nature, stores.instead_of.as_slice()),
        ("stores", Nature::Live, [Nature::Live.case()].as_slice())
    );
    let floor = &job.areas[0].loads;
    assert!((floor[0].load.number_in(&PSF) - 4.4).abs() < 1e-12);
    assert_eq!((floor[0].build_up, floor[2].case), (Some(0), Case(7)));
    assert_eq!(job.members[1].section.value, SectionAsked::Size { width: IN.of(1.5), depth: IN.of(9.25) });
    let LoadKind::Reaction { from_member, support, arrives: Arrival::Every { to, .. }, .. } = &job.members[0].loads[0].kind else {
        panic!("not a row of reactions: {:?}", job.members[0].loads)
    };
    assert_eq!((*from_member, *support, *to), (1, 2, FT.of(10.0)));
}

#[test]
fn clear_spans_become_spans_between_the_middles_of_bearings() {
    let beam = &whole(JOB).members[0];
    let inches: Vec<f64> = beam.spans.spans.iter().map(|span| span.value.number_in(&IN)).collect();
    // 120 + 3/2 + 6/2 and 96 + 6/2 + 4/2; the overhang 12 + 4/2.
    for (read, due) in
        inches.iter().zip([124.5, 101.0]).chain([(&beam.spans.right.number_in(&IN), 14.0), (&beam.spans.left.number_in(&IN), 0.0)])
    {
        assert!((read - due).abs() < 1e-9, "{read} is not {due}");
    }
    assert!(beam.spans.from_clear);
    assert_eq!(beam.bottom, Bracing::Places(vec![beam.spans.length() / 2.0]));
}

#[test]
fn every_default_taken_is_told_once_with_its_members() {
    let defaults = whole(JOB).defaults;
    let of = |start: &str| {
        defaults.iter().filter(|taken| taken.text.starts_with(start)).map(|taken| taken.members.join(" ")).collect::<Vec<_>>()
    };
    for start in [
        "Edition NDS-2018",
        "Allowable stress design",
        "Loading standard ASCE7-16",
        "Dry in service",
        "Sustained temperature",
        "Revision A",
        "Issued for review",
    ] {
        assert_eq!(of(start), [""], "{start}");
    }
    assert_eq!(of("One ply"), ["B1 J1"]);
    assert_eq!(of("The top edge"), ["J1"]);
    assert_eq!(of("No bearing lengths"), ["J1"]);
    assert_eq!(of("Own weight is held"), ["J1"]);
    let newer = whole(&JOB.replace("code: american", "code: american\n  edition: NDS-2024"));
    assert_eq!(newer.basis.loading.value, "ASCE7-22");
}

#[test]
fn a_slip_is_told_once() {
    assert_eq!(ids(&JOB.replace("    spans:", "    spanns:")), ["unknown-key"]);
    assert_eq!(ids(&JOB.replace("    spacing:", "    spacng:")), ["unknown-key"]);
    assert_eq!(ids(&JOB.replace("area: floor", "aera: floor")), ["unknown-key"]);
    assert_eq!(ids(&JOB.replace("code: american", "code: amercian")), ["unknown-word"]);
}

#[test]
fn text_is_kept_as_it_was_written() {
    let title = "No.1 {*bold*} $x$ #panic() <é…> 2x10";
    assert_eq!(whole(&JOB.replace("Boat shed at Tarn End", &format!("'{title}'"))).about.title, title);
}

#[test]
fn what_another_code_knows_makes_no_noise() {
    let other = JOB
        .replace("code: american", "code: canadian\n  importance: high\n  use-category: storage")
        .replace("species: Douglas Fir-Larch, grade: No.2", "species: S-P-F, grade: No.2");
    assert_eq!(ids(&other), ["not-covered"]);
}

#[test]
fn a_second_code_has_defaults_of_its_own() {
    let other = JOB
        .replace("code: american", "code: european\n  service-class: 2\n  snow-altitude: high")
        .replace("species: Douglas Fir-Larch, grade: No.1", "class: GL24h")
        .replace("species: Douglas Fir-Larch, grade: No.2", "class: C24");
    let job = whole(&other);
    assert_eq!((job.basis.edition.value.as_str(), job.basis.loading.value.as_str()), ("EN1995-2014", "EN1990"));
    assert!(job.basis.method.is_none() && job.basis.snow_high);
    assert_eq!(job.about.paper, model::Paper::A4);
    assert_eq!(ids(&other.replace("class: C24", "species: Hem-Fir, grade: No.2")), ["key-of-other-code", "key-of-other-code"]);
}

#[test]
fn the_schema_names_every_part_that_it_refers_to() {
    let text = schema().to_string();
    let schema = schema();
    let definitions = schema["$defs"].as_object().expect("definitions");
    for reference in text.split("#/$defs/").skip(1).filter_map(|rest| rest.split('"').next()) {
        assert!(definitions.contains_key(reference), "{reference}");
    }
    assert_eq!(definitions["member"]["properties"]["spans"]["type"], "array");
    assert_eq!(definitions["file"]["required"], serde_json::json!(["job", "basis", "members"]));
    let of_table: usize = definitions.values().filter_map(|part| part["properties"].as_object()).map(serde_json::Map::len).sum();
    assert_eq!(of_table, keys::KEYS.len());
}
