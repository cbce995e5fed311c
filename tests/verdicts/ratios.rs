//! A ratio that is not a number fails, in every check, search and document; it is lost nowhere.

use super::{AMERICAN, FIR, NO_SNOW, job, source};
use latewood::Ready;
use latewood::codes::{
    Account, Combination, DeflectionCase, Demand, Kind, Leading, LeftOut, Prepared, Read, Resolved, Time, Utilization, Worked, walk,
};
use latewood::job::model::Case;
use latewood::results::{self, Results, Verdict, document};
use latewood::study::spans::{Line, Reach};
use std::path::Path;

type Changed = dyn Fn(usize, Utilization) -> Utilization + Send + Sync;

/// A member whose checks give other ratios than they find.
struct Altered {
    inner: Box<dyn Prepared>,
    changed: Box<Changed>,
}

impl Altered {
    fn of(inner: Box<dyn Prepared>, changed: impl Fn(usize, Utilization) -> Utilization + Send + Sync + 'static) -> Box<dyn Prepared> {
        Box::new(Self { inner, changed: Box::new(changed) })
    }
}

impl Prepared for Altered {
    fn ratio(&self, check: usize, demand: &Demand) -> Option<Utilization> {
        self.inner.ratio(check, demand).map(|ratio| (self.changed)(check, ratio))
    }
    fn resolved(&self) -> &Resolved {
        self.inner.resolved()
    }
    fn not_checked(&self) -> Vec<String> {
        self.inner.not_checked()
    }
    fn unmade(&self, present: &[Case]) -> Vec<String> {
        self.inner.unmade(present)
    }
    fn notes(&self, reactions: &[f64]) -> Vec<String> {
        self.inner.notes(reactions)
    }
    fn left_out(&self, support: usize) -> LeftOut {
        self.inner.left_out(support)
    }
    fn time(&self, combination: &Combination, present: &[(Case, f64)]) -> Time {
        self.inner.time(combination, present)
    }
    fn deflections(&self, present: &[Case]) -> Vec<DeflectionCase> {
        self.inner.deflections(present)
    }
    fn is_outside(&self, demand: &Demand) -> bool {
        self.inner.is_outside(demand)
    }
    fn read_for(&self, combination: &Combination, demand: &Demand, worked: &Worked) -> Vec<Read> {
        self.inner.read_for(combination, demand, worked)
    }
    fn worked(&self, check: usize, demand: &Demand, time: &Time) -> Worked {
        self.inner.worked(check, demand, time)
    }
    fn account(&self, leading: &Leading<'_>) -> Account {
        self.inner.account(leading)
    }
}

fn ready(text: &str) -> Ready {
    latewood::read(&source(text)).unwrap_or_else(|faults| panic!("{text}\n{faults:#?}"))
}

/// The results of a job in which a row of the list of checks gives not-a-number wherever it applies.
fn with_a_gap(text: &str, row: usize) -> Results {
    let Ready { job, code, prepared } = ready(text);
    let gap = move |check, ratio| if check == row { Utilization::new(f64::NAN) } else { ratio };
    let prepared = prepared.into_iter().map(|inner| Altered::of(inner, gap)).collect();
    let walked = walk(code, &job, prepared, &code.combinations(&job.basis), false).unwrap();
    document(code, &job, &source(text), &walked)
}

#[test]
fn a_check_that_gives_no_number_fails_its_member_and_stays_so_on_disk() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut failed = 0;
    for file in ["tests/jobs/purlins.yaml", "tests/jobs/feet.yaml", "tests/jobs/columns.yaml", "examples/alpine-school.yaml"] {
        let text = std::fs::read_to_string(root.join(file)).unwrap();
        let whole = latewood::check(&source(&text), false).unwrap().results;
        let lists: Vec<_> = ready(&text).prepared.iter().map(|member| member.resolved().checks.clone()).collect();
        for row in 0..lists.iter().map(Vec::len).max().unwrap() {
            let gap = with_a_gap(&text, row);
            for ((before, after), list) in whole.members.iter().zip(&gap.members).zip(&lists) {
                let applies = list.get(row).filter(|about| {
                    before.checks.iter().any(|c| c.check == about.kind.word() && c.what == about.what && c.clause == about.clause)
                });
                let Some(about) = applies else { continue };
                let (mark, kind) = (&after.mark, about.kind.word());
                assert_eq!(after.verdict, Verdict::Fails, "{file} {mark} {kind}");
                assert_eq!((after.governing.check.as_str(), after.governing.ratio), (kind, f64::INFINITY), "{file} {mark}");
                let worst = results::worst(&after.checks).unwrap();
                assert!(worst.check == kind && !worst.passes && results::fails(worst.ratio), "{file} {mark} {kind}");
                failed += 1;
            }
            // No finite ratio is `null` in the document, and fails when it is read again.
            let written = serde_json::to_vec(&gap).unwrap();
            let again = Results::read(&written).unwrap();
            assert_eq!(serde_json::to_vec(&again).unwrap(), written, "{file} {row}");
            assert!(again.members.iter().zip(&gap.members).all(|(a, b)| a.governing.ratio == b.governing.ratio), "{file} {row}");
        }
    }
    assert!(failed > 100, "{failed}");
}

#[test]
fn the_schema_says_what_no_finite_ratio_is() {
    let schema = results::schema();
    for definition in ["Governing", "Check", "Other"] {
        let ratio = &schema["$defs"][definition]["properties"]["ratio"];
        assert_eq!(ratio["type"], serde_json::json!(["number", "null"]), "{definition}");
        assert!(ratio["description"].as_str().unwrap().contains("no finite ratio, it fails"), "{definition}");
    }
}

/// How far the one member of a job may span, its ratios altered.
fn reach(basis: &str, loads: &str, changed: impl Fn(usize, Utilization) -> Utilization + Send + Sync + 'static) -> Reach {
    let member = format!(
        "  - {{mark: J, use: joist, section: 2x10, {FIR}, spacing: 16 in, spans: [10 ft], braced: {{top: sheathed}}, self-weight: no, loads: [{loads}]}}"
    );
    let Ready { job, code, mut prepared } = ready(&job(basis, &member));
    let prepared = Altered::of(prepared.remove(0), changed);
    Line::of(code, &job, &code.combinations(&job.basis), &job.members[0]).longest(prepared.as_ref()).unwrap()
}

#[test]
fn a_span_without_bound_is_one_that_was_checked() {
    let line = "{line: 60 plf, case: live}";
    let as_found = |_: usize, ratio: Utilization| ratio;
    let why = |reach: Reach| match reach {
        Reach::NotChecked(why) => why.join("; "),
        other => panic!("{other:?}"),
    };
    assert_eq!(why(reach(AMERICAN, "{line: 0 plf, case: live}", as_found)), "no load acts on it");
    let snow = "{line: 60 plf, case: snow}";
    assert_eq!(why(reach(NO_SNOW, snow, as_found)), "no strength combination includes the load case snow");
    assert_eq!(why(reach(AMERICAN, line, |_, _| Utilization::NOTHING)), "no check applies to its loads");
    assert_eq!(reach(AMERICAN, line, |_, _| Utilization::new(f64::NAN)), Reach::NonePasses);
    assert_eq!(reach(AMERICAN, line, |_, _| Utilization::new(0.5)), Reach::NoBound);
    // Bending is worst at 10 ft and never reaches 1: the deflection stops the span all the same.
    let Reach::To(stopped) = reach(AMERICAN, line, |check, ratio| if check == 0 { Utilization::new(0.9) } else { ratio }) else {
        panic!("the deflection stops it")
    };
    let Reach::To(free) = reach(AMERICAN, line, |check, ratio| if check == 0 { Utilization::NOTHING } else { ratio }) else {
        panic!("the deflection stops it")
    };
    assert!(stopped.check == Kind::Deflection && (stopped.length / free.length - 1.0).abs() < 1e-9, "{stopped:?} {free:?}");
}
