//! A member that cannot be solved is a bug that is told, never a member less in the package.

use super::{AMERICAN, FIR, job, source};
use latewood::Ready;
use latewood::codes;
use latewood::study::size::{Wanted, size};
use latewood::text::Diagnostic;
use latewood::units::Length;

/// B2 receives the reaction of B1; B3 stands alone.
fn ready() -> Ready {
    let beam = |mark: &str, loads: &str| {
        format!("  - {{mark: {mark}, use: beam, section: 4x10, {FIR}, spans: [10 ft], braced: {{top: sheathed}}, loads: [{loads}]}}\n")
    };
    let line = "{line: 100 plf, case: live}";
    let members = [beam("B1", line), beam("B2", "{reaction: B1, support: 1, at: 5 ft}"), beam("B3", line)].concat();
    let source = source(&job(AMERICAN, &members));
    latewood::read(&source).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// Walks it, in place of `latewood::check`: no file brings such a job about.
fn walked(ready: Ready) -> Result<usize, Vec<Diagnostic>> {
    let Ready { job, code, prepared } = ready;
    codes::walk(code, &job, prepared, &code.combinations(&job.basis), false).map(|walked| walked.len())
}

fn is_told(told: &[Diagnostic], says: &str) {
    let [bug] = told else { panic!("one bug: {told:?}") };
    assert!(bug.message.contains(says), "{}", bug.message);
    assert!(bug.helps.iter().any(|help| help.contains("please report it")), "{:?}", bug.helps);
}

#[test]
fn a_member_that_cannot_be_solved_is_a_bug() {
    for bad in [f64::NAN, 0.0, -1.0, f64::INFINITY] {
        let mut ready = ready();
        ready.job.members[2].spans.spans[0].value = Length::new(bad);
        let told = size(ready.code, &ready.job, &ready.prepared, &Wanted::default()).map(|sized| sized.len()).unwrap_err();
        is_told(&told, "B3 cannot be solved: ");
        is_told(&walked(ready).unwrap_err(), "B3 cannot be solved: ");
    }
}

#[test]
fn a_member_that_the_load_path_leaves_out_is_a_bug() {
    assert_eq!(walked(ready()), Ok(3));
    let mut less = ready();
    less.job.path.retain(|member| *member != 2);
    is_told(&walked(less).unwrap_err(), "B3 cannot be solved: it is not on the load path");
    // Receiver before giver: the reaction would be lost.
    let mut turned = ready();
    turned.job.path = vec![1, 0, 2];
    is_told(&walked(turned).unwrap_err(), "B2 cannot be solved: B1 has not handed down its reactions");
}
