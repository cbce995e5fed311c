//! What a job costs: `check`, `size` and `issue` in process and as whole processes; a hundred members; a large span table.

use divan::{Bencher, black_box};
use latewood::study::size::{self, Wanted};
use latewood::study::spans::{self, Asked};
use latewood::text::Source;
use std::process::{Command, Stdio};

fn main() {
    divan::main();
}

fn example() -> String {
    concat!(env!("CARGO_MANIFEST_DIR"), "/examples/cider-house.yaml").to_owned()
}

fn source(text: &str) -> Source {
    Source::read("job.yaml", text.as_bytes()).expect("a job file")
}

/// The example's members over and over under other marks, up to a hundred.
fn hundred() -> String {
    let text = std::fs::read_to_string(example()).expect("the example");
    let (head, members) = text.split_once("members:\n").expect("members");
    let mut all = format!("{head}members:\n");
    for copy in 0..7 {
        let mut part = members.to_owned();
        for mark in ["RB1", "R1", "R2", "C1", "J1", "J2", "J3", "J4", "T1", "B1", "B2", "B3", "H1", "H2", "H3"] {
            part = part.replace(&format!("mark: {mark}\n"), &format!("mark: {mark}.{copy}\n"));
            part = part.replace(&format!("reaction: {mark},"), &format!("reaction: {mark}.{copy},"));
        }
        all.push_str(&part);
    }
    all.replace("members: [R1]", "members: []")
}

fn whole_process(arguments: &[&str]) -> bool {
    Command::new(env!("CARGO_BIN_EXE_latewood")).args(arguments).stdout(Stdio::null()).status().is_ok()
}

#[divan::bench]
fn check_example(bencher: Bencher) {
    let source = source(&std::fs::read_to_string(example()).expect("the example"));
    bencher.bench_local(|| latewood::check(black_box(&source), false).map(|c| c.results.members.len()).ok());
}

/// The European example: more combinations, deflections with creep by action.
#[divan::bench]
fn check_european_example(bencher: Bencher) {
    let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/examples/alpine-school.yaml")).expect("the example");
    let source = source(&text);
    bencher.bench_local(|| latewood::check(black_box(&source), false).map(|c| c.results.members.len()).ok());
}

#[divan::bench]
fn check_hundred_members(bencher: Bencher) {
    let source = source(&hundred());
    bencher.bench_local(|| latewood::check(black_box(&source), false).map(|c| c.results.members.len()).ok());
}

/// Fifteen members over the whole catalogue of dressed sizes.
#[divan::bench]
fn size_example(bencher: Bencher) {
    let source = source(&std::fs::read_to_string(example()).expect("the example"));
    bencher.bench_local(|| {
        let ready = latewood::read(black_box(&source)).ok()?;
        Some(size::size(ready.code, &ready.job, &ready.prepared, &Wanted::default()).ok()?.len())
    });
}

/// Twenty materials, ten sections, fifty spacings: ten thousand cells.
#[divan::bench(sample_count = 5)]
fn span_table_of_ten_thousand_cells(bencher: Bencher) {
    let pair = |key: &str, value: &str| [key.to_owned(), value.to_owned()];
    let materials = ["Douglas Fir-Larch", "Hem-Fir", "Spruce-Pine-Fir (South)", "Redwood", "Western Woods"].iter().flat_map(|species| {
        ["Select Structural", "No.1", "No.2", "No.3"].map(|grade| vec![pair("species", species), pair("grade", grade)])
    });
    let asked = Asked {
        basis: vec![pair("code", "american")],
        role: "joist".to_owned(),
        materials: materials.collect(),
        sections: ["2x4", "2x5", "2x6", "2x8", "2x10", "2x12", "3x8", "3x10", "4x8", "4x10"].map(str::to_owned).to_vec(),
        spacings: (0..50).map(|i| format!("{} in", 12.0 + 0.25 * f64::from(i))).collect(),
        loads: vec![pair("dead", "10 psf"), pair("live", "40 psf")],
        ..Asked::default()
    };
    bencher.bench_local(|| spans::table(black_box(&asked)).map(|table| table.rows.len()).ok());
}

#[divan::bench]
fn check_example_whole_process(bencher: Bencher) {
    let job = example();
    bencher.bench_local(|| whole_process(&["check", &job]));
}

#[cfg(feature = "paper")]
mod paper {
    use super::*;
    use latewood::package::{self, Build, Issue, Templates};
    use latewood::pdf::Press;

    fn target(name: &str) -> String {
        std::env::temp_dir().join(name).to_string_lossy().into_owned()
    }

    fn issued(press: &mut Press, text: &str) -> usize {
        let checked = latewood::check(&source(text), false).expect("a job");
        let templates = Templates::built_in();
        let issue = Issue {
            job: &checked.job,
            results: &checked.results,
            job_file: text.as_bytes(),
            build: Build::Record,
            templates: &templates,
            reissue: None,
        };
        issue.pdf_on(press).map_or(0, |bytes| bytes.len())
    }

    #[divan::bench(sample_count = 20)]
    fn issue_example_whole_process(bencher: Bencher) {
        let (job, output) = (example(), target("latewood-bench.pdf"));
        bencher.bench_local(|| whole_process(&["issue", &job, "--output", &output]));
    }

    #[divan::bench(sample_count = 5)]
    fn issue_hundred_members_whole_process(bencher: Bencher) {
        let (job, output) = (target("latewood-bench.yaml"), target("latewood-bench-100.pdf"));
        std::fs::write(&job, hundred()).expect("a temporary file");
        bencher.bench_local(|| whole_process(&["issue", &job, "--output", &output]));
    }

    /// What the typesetter alone takes for the pages of the example, from nothing: beside the next one.
    #[divan::bench(sample_count = 10)]
    fn typesetter_alone_on_the_example(bencher: Bencher) {
        let text = std::fs::read_to_string(example()).expect("the example");
        let checked = latewood::check(&source(&text), false).expect("a job");
        let made = package::sources(&checked.job, &checked.results, text.as_bytes(), Build::Record, &Templates::built_in());
        let made = made.map_err(|bug| bug.to_string()).expect("our own templates");
        bencher
            .with_inputs(|| typst::comemo::evict(0))
            .bench_local_values(|()| Press::new().pdf(&made.sheets, &made.files, &made.options).map_or(0, |bytes| bytes.len()));
    }

    #[divan::bench(sample_count = 10)]
    fn issue_example(bencher: Bencher) {
        let text = std::fs::read_to_string(example()).expect("the example");
        bencher.with_inputs(|| typst::comemo::evict(0)).bench_local_values(|()| issued(&mut Press::new(), &text));
    }

    /// One load of one member of a hundred changed, on a press that has just issued the others.
    #[divan::bench(sample_count = 5)]
    fn one_of_a_hundred_changed_on_a_warm_press(bencher: Bencher) {
        let (before, mut press, mut load) = (hundred(), Press::warm(), 55);
        issued(&mut press, &before);
        bencher.bench_local(|| {
            load += 1;
            issued(&mut press, &before.replacen("line: 55 plf", &format!("line: {load} plf"), 1))
        });
    }
}
