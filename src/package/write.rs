//! From job and results to sources, and to a PDF.

use super::view::{self, Scene};
use super::{Build, Sources, Templates};
use crate::job::model::Job;
use crate::pdf::{self, Bug, File, Options, Press, Standard};
use crate::results::Results;
use crate::text::{Diagnostic, Faults, Label, Severity, Source, Span};

/// The package of a job as PDF bytes; the same input gives the same bytes.
///
/// `job_text` is the job file as it was read: it is attached to a record. To make packages again and again, keep a [`Press`] and give
/// it the [`sources`].
///
/// # Errors
/// A [`Bug`] of a template, ours or the office's, with its name and line.
pub fn issue(job: &Job, results: &Results, job_text: &str, build: Build, templates: &Templates) -> Result<Vec<u8>, Bug> {
    let Sources { sheets, files, options } = sources(job, results, job_text, build, templates)?;
    Press::new().pdf(&sheets, &files, &options)
}

/// The package of a job as Typst sources, one a sheet, with what they attach.
///
/// # Errors
/// A [`Bug`] of a template: unknown name, wrong syntax.
pub fn sources(job: &Job, results: &Results, job_text: &str, build: Build, templates: &Templates) -> Result<Sources, Bug> {
    let scene = Scene::of(job, results);
    let filler = templates.filler()?;
    let mut parts = vec![
        filler.fill("cover.typ", "/cover.typ", view::Cover::of(&scene))?,
        filler.fill("contents.typ", "/contents.typ", view::Contents::of(&scene))?,
        filler.fill("summary.typ", "/summary.typ", view::Summary::of(&scene))?,
        filler.fill("basis.typ", "/basis.typ", view::Basis::of(&scene))?,
        filler.fill("path.typ", "/path.typ", view::Path::of(&scene))?,
    ];
    for (entry, member) in scene.members() {
        parts.push(filler.fill("sheet.typ", &format!("/sheets/{}.typ", member.mark), view::Sheet::of(&scene, entry, member))?);
    }
    parts.push(filler.fill("references.typ", "/references.typ", view::References::of(&scene))?);
    let files = match build {
        Build::Record => attached(results, job_text, templates)?,
        Build::Submittal => Vec::new(),
    };
    let office: Vec<String> = files.iter().filter(|f| f.path.starts_with("/templates/")).map(|f| f.path.clone()).collect();
    let main = view::Main::of(&scene, build, parts.iter().map(|part| part.path.clone()).collect(), office);
    let mut sheets = vec![
        filler.fill("package.typ", "/main.typ", main)?,
        filler.fill("job.typ", "/job.typ", view::Frame::of(&scene))?,
        templates.style(),
    ];
    sheets.append(&mut parts);
    Ok(Sources { sheets, files, options: options(results, build) })
}

/// What the fonts of the package cannot print, each character once, at the place where it first stands in the job file.
pub fn unprintable(source: &Source) -> Faults {
    let place = |c: char| source.text().find(c).map(|at| Span { start: at, end: at + c.len_utf8() });
    let fault = |c: char| {
        let label = Label::bare(place(c)?);
        let message = format!("the fonts of the package have no character {c:?} (U+{:04X})", u32::from(c));
        Some(Diagnostic::new("unprintable", Severity::Error, message, label).with_help("write it with letters that they have".to_owned()))
    };
    pdf::lacking(source.text()).into_iter().filter_map(fault).collect()
}

/// What a record carries.
fn attached(results: &Results, job_text: &str, templates: &Templates) -> Result<Vec<File>, Bug> {
    let results = serde_json::to_vec_pretty(results).map_err(|error| Bug::plain(format!("the results cannot be written: {error}")))?;
    let mut files = vec![
        File { path: "/job.yaml".into(), bytes: job_text.as_bytes().to_vec() },
        File { path: "/results.json".into(), bytes: results },
        File { path: "/templates.sha256".into(), bytes: templates.fingerprint().into_bytes() },
    ];
    files.extend(templates.own_files());
    Ok(files)
}

fn options(results: &Results, build: Build) -> Options {
    let job = &results.job;
    let named = if job.number.is_empty() { &job.title } else { &job.number };
    Options {
        standard: match build {
            Build::Record => Standard::Record,
            Build::Submittal => Standard::Submittal,
        },
        ident: format!("job {named} revision {}", job.revision),
        creator: format!("{} {}", results.program.name, results.program.version),
    }
}
