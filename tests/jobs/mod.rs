//! Golden results: every job here and every example, rewritten only by `REPLACE=1` and then read in the diff.

use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

fn files(folder: &str) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(root().join(folder)).unwrap().map(|f| f.unwrap().path()).collect();
    files.retain(|f| f.extension().is_some_and(|e| e == "yaml"));
    files.sort();
    files
}

/// The results as one would read them in a diff: what governs, every check at every place (the worst of its kind first), every reaction.
fn digest(path: &Path) -> String {
    let bytes = std::fs::read(path).unwrap();
    let source = latewood::text::Source::read(path.file_name().unwrap().to_string_lossy(), &bytes).unwrap();
    let results = latewood::check(&source, false).unwrap_or_else(|f| panic!("{}: {f:?}", path.display())).results;
    let mut text = String::new();
    for member in &results.members {
        let g = &member.governing;
        text.push_str(&format!("{}: {} {:.4} under {} {}", member.mark, g.check, g.ratio, g.combination, member.verdict.mark()));
        text.truncate(text.trim_end().len());
        text.push('\n');
        for check in &member.checks {
            let what = if check.what.is_empty() { String::new() } else { format!(", {}", check.what) };
            let (name, ratio, place) = (&check.check, check.ratio, &check.place);
            let indent = if check.leading { "  " } else { "    " };
            let line = format!("{indent}{name}{what} {ratio:.4}, {place}, {} {}", check.combination, check.load_set);
            text.push_str(line.trim_end());
            text.push('\n');
        }
        for reaction in &member.reactions {
            let cases: Vec<String> = reaction.by_case.iter().map(|(case, v)| format!("{case} {:.1}", v.value)).collect();
            text.push_str(&format!("  support {}: {} -> {}\n", reaction.support, cases.join(", "), reaction.received_by));
        }
    }
    for item in &results.open {
        text.push_str(&format!("open: {}\n", item.text));
    }
    text
}

#[test]
fn results_are_as_they_were_read() {
    let mut wrong = Vec::new();
    for path in files("examples").into_iter().chain(files("tests/jobs")) {
        let golden = root().join("tests/jobs").join(path.with_extension("txt").file_name().unwrap());
        let found = digest(&path);
        if std::env::var_os("REPLACE").is_some() {
            std::fs::write(&golden, &found).unwrap();
        }
        if std::fs::read_to_string(&golden).unwrap_or_default() != found {
            wrong.push(format!("{} differs from {}:\n{found}", path.display(), golden.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn reactions_of_every_job_balance_its_loads() {
    for path in files("examples").into_iter().chain(files("tests/jobs")) {
        let source = latewood::text::Source::read("job", &std::fs::read(&path).unwrap()).unwrap();
        let checked = latewood::check(&source, false).unwrap();
        for (member, entry) in checked.results.members.iter().zip(&checked.job.members) {
            if entry.slope.is_some() {
                continue;
            }
            // A member that leans: vertical are the parts of what acts along its depth and across it.
            let lean = entry.tilt.as_ref().map_or(0.0, |t| t.value.value()).to_radians();
            for (case, sum) in member.loads.iter().fold(std::collections::BTreeMap::new(), |mut sums, load| {
                let length = load.to.value - load.from.value;
                // What acts along a post or stud goes down it; what acts square to it, or along a tie, does not.
                let upright = match (load.kind == "axial", entry.role.is_upright()) {
                    (along, stands) if along != stands => 0.0,
                    (true, true) => 1.0,
                    _ if load.across => libm::sin(lean),
                    _ => libm::cos(lean),
                };
                *sums.entry(load.case.clone()).or_insert(0.0) += upright
                    * match load.kind.as_str() {
                        "line" => 0.5 * (load.start.value + load.end.value) * length,
                        "point" | "axial" => load.start.value,
                        _ => 0.0,
                    };
                sums
            }) {
                let up: f64 = member.reactions.iter().map(|r| r.by_case.get(&case).map_or(0.0, |v| v.value)).sum();
                assert!((up - sum).abs() < 1e-6 * sum.abs().max(1.0), "{} {case}: {up} up, {sum} down", member.mark);
            }
        }
    }
}

/// The sail loft: what the roof and the floor weigh comes down through posts of two storeys, and every reaction ends on a member or in the ground.
#[test]
fn a_load_path_reaches_the_ground_through_posts() {
    let results = results_of(&std::fs::read_to_string(root().join("examples/sail-loft.yaml")).unwrap());
    let reaction = |mark: &str, support: usize, case: &str| {
        let reaction = &results.members.iter().find(|m| m.mark == mark).unwrap().reactions[support - 1];
        reaction.handed_down.get(case).or(reaction.by_case.get(case)).map_or(0.0, |v| v.value)
    };
    for (ridge, upper, floor, lower) in
        [(("RB1", 1), "P1", ("B1", 1), "P4"), (("RB1", 2), "P2", ("B1", 2), "P5"), (("RB1", 3), "P3", ("B1", 3), "P6")]
    {
        for case in ["snow", "roof-live", "wind"] {
            assert!((reaction(ridge.0, ridge.1, case) - reaction(upper, 1, case)).abs() < 1e-6, "{upper} {case}");
            assert!((reaction(upper, 1, case) - reaction(lower, 1, case)).abs() < 1e-6, "{lower} {case}");
        }
        assert!((reaction(floor.0, floor.1, "live") - reaction(lower, 1, "live")).abs() < 1e-6, "{lower} live");
    }
    for member in &results.members {
        assert!(member.verdict.passes(), "{}", member.mark);
        for reaction in &member.reactions {
            assert!(reaction.receiver != "nobody", "{} support {}", member.mark, reaction.support);
            let ends = ["footing", "foundation", "wall", "as at support 1", "porch", "bracket"];
            assert!(reaction.receiver == "member" || ends.iter().any(|end| reaction.received_by.contains(end)), "{}", reaction.received_by);
        }
    }
}

/// The closed form that a check is printed from, and the polynomials of its diagram, are the same beam.
#[test]
fn closed_forms_agree_with_the_solver() {
    let (mut moments, mut places) = (0, 0);
    for path in files("examples").into_iter().chain(files("tests/jobs")) {
        let source = latewood::text::Source::read("job", &std::fs::read(&path).unwrap()).unwrap();
        let results = latewood::check(&source, false).unwrap().results;
        for member in &results.members {
            for diagram in &member.diagrams {
                for extreme in &diagram.extremes {
                    let on =
                        |p: &&latewood::results::Piece| p.from.value - 1e-6 <= extreme.at.value && extreme.at.value <= p.to.value + 1e-6;
                    let value = |p: &latewood::results::Piece| {
                        p.polynomial.iter().rev().fold(0.0, |sum, c| sum * (extreme.at.value - p.from.value) + c)
                    };
                    let most = diagram.extremes.iter().map(|e| e.value.abs()).fold(0.0, f64::max);
                    let near = diagram.pieces.iter().filter(on).any(|p| (value(p) - extreme.value).abs() <= 1e-7 * most);
                    assert!(near, "{} {} at {}: {}", member.mark, diagram.quantity, extreme.at.value, extreme.value);
                    places += 1;
                }
            }
            let bending = member.checks.iter().find(|c| c.check == "bending" && c.leading);
            let step = bending.and_then(|c| c.steps.iter().find(|s| s.symbol == "M" && s.equation.is_some()));
            let moment = member.diagrams.iter().find(|d| d.quantity == "moment");
            if let (Some(step), Some(moment)) = (step, moment) {
                let most = moment.extremes.iter().map(|e| e.value.abs()).fold(0.0, f64::max);
                assert!((step.value - most).abs() <= 1e-8 * most, "{}: {} by formula, {most} by the solver", member.mark, step.value);
                moments += 1;
            }
        }
    }
    assert!(moments >= 5 && places >= 50, "{moments} moments, {places} places");
}

/// A moment over an inner support acts with the load of either span beside it. Two equal spans, w on one and M over the support between:
/// M turns half of itself into each span, w holds w L²/16 there (three-moment equation), and the largest moment is R²/2w.
#[test]
fn a_moment_over_a_support_belongs_to_both_spans() {
    let (w, span) = (100.0_f64, 10.0_f64);
    let moment = 0.5 * w * span * span;
    let end = 0.5 * moment - w * span * span / 16.0;
    let reaction = 0.5 * w * span + end / span;
    let largest = reaction * reaction / (2.0 * w);
    for (sign, loaded) in [(1.0, 2), (-1.0, 1)] {
        let text = format!(
            "job: {{title: Two spans, date: 2026-05-04}}
basis: {{code: american}}
members:
  - mark: B1
    use: beam
    section: 4x12
    material: {{species: Douglas Fir-Larch, grade: No.1}}
    spans: [{span} ft, {span} ft]
    braced: {{top: continuous, bottom: continuous}}
    self-weight: no
    loads:
      - {{line: {w} plf, case: live}}
      - {{moment: {} lbf.ft, case: live, at: {span} ft}}
",
            sign * moment
        );
        let results = results_of(&text);
        let drawn = results.members[0].envelopes.iter().find(|e| e.quantity == "moment").unwrap();
        let (from, to) = (span * f64::from(loaded - 1), span * f64::from(loaded));
        let found = drawn.extremes.iter().filter(|e| e.at.value > from && e.at.value < to).map(|e| e.value).fold(0.0, f64::max);
        assert!((found - largest).abs() < 1e-6 * largest, "span {loaded}: {found} is not {largest}");
    }
}

fn results_of(text: &str) -> latewood::results::Results {
    let source = latewood::text::Source::read("job.yaml", text.as_bytes()).unwrap();
    latewood::check(&source, false).unwrap_or_else(|f| panic!("{f:?}")).results
}

/// NDS Table N3: live load of storage has 0.7, of occupancy 0.8, of impact 1.25, of wood treated with preservatives 1.0 then; one case of
/// storage among others decides. Without lateral buckling the strength is in proportion.
#[test]
fn a_live_load_says_what_it_is_of() {
    let factor = |cases: &str, loads: &str, conditions: &str| {
        let results = results_of(&format!(
            "job: {{title: Store, date: 2026-05-04}}
basis: {{code: american, method: LRFD, cases: {{{cases}}}}}
members:
  - mark: J1
    use: joist
    section: 2x10
    material: {{species: Hem-Fir, grade: No.2}}
    spans: [10 ft]
    braced: {{top: continuous}}
    conditions: {{{conditions}}}
    loads: [{{line: 1 plf, case: dead}}, {loads}]
"
        ));
        let check = results.members[0].checks.iter().find(|c| c.check == "bending" && c.leading).unwrap();
        assert!(check.combination.starts_with("1.2 D + 1.6 "), "{}", check.combination);
        let lambda = check.steps.iter().find(|s| s.symbol == "lambda").unwrap().value;
        let cell = results.references.iter().find(|r| r.table == "NDS 2018 Table N3" && r.value.value == lambda);
        assert_eq!(
            cell.map(|c| (c.status.as_str(), c.column.as_str())),
            Some((if lambda == 1.0 { "from memory" } else { "read" }, "lambda"))
        );
        (lambda, results.assumptions.iter().any(|a| a.text.contains("Table N3")))
    };
    let goods = "goods: {like: live, use-category: storage}";
    let crane = "hoist: {like: live, duration: impact}";
    assert_eq!(factor("", "{line: 80 plf, case: live}", ""), (0.8, true));
    assert_eq!(factor("people: {like: live, use-category: occupancy}", "{line: 80 plf, case: people}", ""), (0.8, false));
    assert_eq!(factor(goods, "{line: 80 plf, case: goods}", ""), (0.7, false));
    assert_eq!(factor(goods, "{line: 80 plf, case: live}, {line: 8 plf, case: goods}", ""), (0.7, true));
    assert_eq!(factor(crane, "{line: 80 plf, case: hoist}", "").0, 1.25);
    assert_eq!(factor(crane, "{line: 80 plf, case: hoist}", "incised: yes").0, 1.0);
    assert_eq!(factor(crane, "{line: 80 plf, case: hoist}, {line: 8 plf, case: live}", "").0, 0.8);
}

/// ASCE 7-16 2.4.1 and 2.4.5: a combination without a case that acts nowhere keeps the number that it was written under, also where
/// a case of the engineer's own stands beside the standard's.
#[test]
fn combinations_keep_their_numbers() {
    let results = results_of(&std::fs::read_to_string(root().join("examples/cider-house.yaml")).unwrap());
    let number = |name: &str| results.combinations.iter().find(|c| c.name == name).map(|c| c.number.as_str());
    assert_eq!(number("D + L + barrels"), Some("2"));
    assert_eq!(number("D + 0.75 L + 0.75 barrels + 0.75 S"), Some("4"));
    assert_eq!(number("D + 0.6 W"), Some("5"));
    assert_eq!(number("0.6 D + 0.6 W"), Some("7"));
    assert!(results.combinations.iter().all(|c| !c.factors.contains_key("rain") && !c.factors.contains_key("seismic")));
}

/// Readings 14 and 59: `only` leaves the code's deflection combinations out where the list has some of its own, which count against the
/// limit on the total as given and against the one on live load without dead load; and a member under a load that no strength combination
/// has is not checked.
#[test]
fn combinations_of_the_engineers_own_stand_alone() {
    let results = results_of(
        "job: {title: Shed, date: 2026-05-04}
basis:
  code: american
  combinations:
    only: yes
    list:
      - {name: full, factors: {dead: 1.0, live: 1.0}}
      - {name: creep, factors: {dead: 2.0, live: 1.0}, for: deflection}
members:
  - mark: J1
    use: joist
    section: 2x10
    material: {species: Hem-Fir, grade: No.2}
    spans: [10 ft]
    loads: [{line: 20 plf, case: dead}, {line: 50 plf, case: live}, {line: 90 plf, case: snow}]
",
    );
    let limited: Vec<&str> = results.members[0].deflections.iter().filter(|d| d.limit.is_some()).map(|d| d.combination.as_str()).collect();
    assert_eq!(limited, ["creep", "creep without D"]);
    assert!(results.members[0].unmade.contains(&"no strength combination includes the load case snow".to_owned()));
    assert!(results.open.iter().any(|o| o.kind == "not_checked" && o.at == ["J1"]));
}

/// Whoever reads the document finds the factors of each combination that it names, and on which members they hold.
#[test]
fn every_combination_that_is_named_is_listed() {
    let mut named = 0;
    for path in files("tests/jobs").into_iter().chain(files("examples")) {
        let source = latewood::text::Source::read("job", &std::fs::read(&path).unwrap()).unwrap();
        let results = latewood::check(&source, false).unwrap().results;
        for member in &results.members {
            let known = |name: &str, purposes: &[&str]| {
                results.combinations.iter().any(|c| {
                    c.name == name && purposes.contains(&c.purpose.as_str()) && (c.members.is_empty() || c.members.contains(&member.mark))
                })
            };
            let mut asked: Vec<(&str, &[&str])> = Vec::new();
            for check in &member.checks {
                let purpose: &[&str] = if check.check == "deflection" { &["deflection"] } else { &["strength"] };
                asked.extend((check.check != "vibration").then_some((check.combination.as_str(), purpose)));
            }
            asked.extend(member.deflections.iter().map(|d| (d.combination.as_str(), &["deflection"][..])));
            let forces = member.reactions.iter().flat_map(|r| [&r.largest, &r.smallest]);
            asked.extend(forces.map(|f| (f.combination.as_str(), &["strength", "balance"][..])));
            for (name, purposes) in asked {
                assert!(known(name, purposes), "{}: {} names `{name}` ({purposes:?})", path.display(), member.mark);
                named += 1;
            }
        }
    }
    assert!(named > 1000, "{named}");
}

/// Who reads the document asks for a check by its name; why it is left out stands in the notes, with the length that would do.
#[test]
fn a_bearing_without_length_is_not_checked_by_its_name() {
    for (basis, member) in [
        ("american", "section: 4x10, material: {species: Hem-Fir, grade: No.2}, spans: [9 ft], loads: [{line: 100 plf, case: live}]"),
        ("european", "section: 63x220, material: {class: C24}, spans: [3 m], loads: [{line: 1 kN/m, case: live}]"),
    ] {
        let job = |bearing: &str| {
            format!(
                "job: {{title: Bearings, number: T-12, date: 2026-02-02}}\nbasis: {{code: {basis}}}\nmembers:\n  - {{mark: B1, use: beam, \
                 {member}{bearing}}}\n"
            )
        };
        let without = &results_of(&job("")).members[0];
        assert!(without.not_checked.iter().any(|what| what == "bearing"), "{:?}", without.not_checked);
        assert!(without.checks.iter().all(|c| c.check != "bearing"));
        assert!(without.notes.iter().any(|note| note.contains("would do for the largest reaction")), "{:?}", without.notes);
        let with = &results_of(&job(", bearing: 50 mm")).members[0];
        assert!(with.not_checked.iter().all(|what| what != "bearing") && with.checks.iter().any(|c| c.check == "bearing"));
    }
}
