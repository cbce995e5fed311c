//! From job and results to sources, and to a PDF.

use super::carried::{JOB, OFFICE, RESULTS, TEMPLATES};
use super::templates::Filler;
use super::view::{self, Scene};
use super::{Build, Sources, Templates};
use crate::job::model::Job;
use crate::pdf::{self, Bug, File, Laid, Options, Press, Sheet, Standard};
use crate::results::Results;
use crate::text::{Diagnostic, Faults, Label, Severity, Source, Span};

/// The package of a job as PDF bytes; the same input gives the same bytes.
///
/// `job_file` is the job file byte for byte: it is attached to a record. To make packages again and again, keep a [`Press`] and use
/// [`issue_on`].
///
/// # Errors
/// A [`Bug`] of a template, ours or the office's, with its name and line.
pub fn issue(job: &Job, results: &Results, job_file: &[u8], build: Build, templates: &Templates) -> Result<Vec<u8>, Bug> {
    issue_on(&mut Press::new(), job, results, job_file, build, templates)
}

/// [`issue`] on a press that may be warm; the bytes are the same.
///
/// Each sheet is set in the form that should fit its pages best, laid out, and set once more where what was found asks for another form.
///
/// # Errors
/// Those of [`issue`].
pub fn issue_on(
    press: &mut Press,
    job: &Job,
    results: &Results,
    job_file: &[u8],
    build: Build,
    templates: &Templates,
) -> Result<Vec<u8>, Bug> {
    let mut pages = Pages::of(job, results, job_file, build, templates)?;
    for _ in 0..ROUNDS {
        let laid = press.lay(&pages.sheets, &pages.files)?;
        let changed = pages.set.iter_mut().map(|set| set.settle(&laid)).fold(false, |any, changed| any | changed);
        if !changed {
            return laid.pdf(&pages.options);
        }
        pages.fill()?;
    }
    press.pdf(&pages.sheets, &pages.files, &pages.options)
}

/// The package of a job as Typst sources, one a sheet, with what they attach, as they are first laid out.
///
/// # Errors
/// A [`Bug`] of a template: unknown name, wrong syntax.
pub fn sources(job: &Job, results: &Results, job_file: &[u8], build: Build, templates: &Templates) -> Result<Sources, Bug> {
    let Pages { sheets, files, options, .. } = Pages::of(job, results, job_file, build, templates)?;
    Ok(Sources { sheets, files, options })
}

/// Times that sheets may be set again.
const ROUNDS: usize = 2;

/// The sources of a package, and the member sheets among them that may be set in another form.
struct Pages<'a> {
    filler: Filler<'a>,
    sheets: Vec<Sheet>,
    set: Vec<Set>,
    files: Vec<File>,
    options: Options,
}

/// A member's sheet, in the form in which it is set now.
struct Set {
    draft: view::Draft,
    heights: view::Heights,
    form: view::Form,
    /// Which of the sources it is.
    source: usize,
    changed: bool,
}

impl<'a> Pages<'a> {
    fn of(job: &Job, results: &Results, job_file: &[u8], build: Build, templates: &'a Templates) -> Result<Self, Bug> {
        let scene = Scene::of(job, results);
        let filler = templates.filler()?;
        let mut sheets = vec![
            filler.fill("job.typ", "/job.typ", view::Frame::of(&scene))?,
            templates.style(),
            filler.fill("cover.typ", "/cover.typ", view::Cover::of(&scene))?,
            filler.fill("contents.typ", "/contents.typ", view::Contents::of(&scene))?,
            filler.fill("summary.typ", "/summary.typ", view::Summary::of(&scene))?,
            filler.fill("basis.typ", "/basis.typ", view::Basis::of(&scene))?,
            filler.fill("path.typ", "/path.typ", view::Path::of(&scene))?,
        ];
        let mut set = Vec::new();
        for (entry, member) in scene.members() {
            let draft = view::Draft::of(&scene, entry, member);
            let heights = draft.heights();
            let form = heights.best();
            sheets.push(filler.fill("sheet.typ", &format!("/sheets/{}.typ", member.mark), draft.set(form))?);
            set.push(Set { draft, heights, form, source: sheets.len(), changed: false });
        }
        sheets.push(filler.fill("references.typ", "/references.typ", view::References::of(&scene))?);
        let files = match build {
            Build::Record => attached(results, job_file, templates)?,
            Build::Submittal => Vec::new(),
        };
        let office: Vec<String> = files.iter().filter(|f| f.path.starts_with(&format!("/{OFFICE}"))).map(|f| f.path.clone()).collect();
        let main = view::Main::of(&scene, build, sheets[2..].iter().map(|part| part.path.clone()).collect(), office);
        sheets.insert(0, filler.fill("package.typ", "/main.typ", main)?);
        Ok(Self { filler, sheets, set, files, options: options(results, build) })
    }

    /// Sets the sheets that changed their form.
    fn fill(&mut self) -> Result<(), Bug> {
        for set in self.set.iter().filter(|set| set.changed) {
            let path = self.sheets[set.source].path.clone();
            self.sheets[set.source] = self.filler.fill("sheet.typ", &path, set.draft.set(set.form))?;
        }
        Ok(())
    }
}

impl Set {
    /// Learns how tall the parts came out, and chooses again; says whether the form changed.
    fn settle(&mut self, laid: &Laid) -> bool {
        let places = self.draft.places();
        let labels = places.iter().map(|(_, label)| label.clone()).skip(1).chain([self.draft.end()]);
        for ((part, label), next) in places.iter().zip(labels) {
            if let (Some(from), Some(to)) = (laid.place(label), laid.place(&next))
                && from.page == to.page
            {
                // A sheet begins at the head of its page.
                let top = if *part == view::Part::Front { view::TOP } else { from.y };
                self.heights.learn(*part, self.form, to.y - top);
            }
        }
        let form = self.heights.best();
        self.changed = form != self.form;
        self.form = form;
        self.changed
    }
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
fn attached(results: &Results, job_file: &[u8], templates: &Templates) -> Result<Vec<File>, Bug> {
    let results = serde_json::to_vec_pretty(results).map_err(|error| Bug::plain(format!("the results cannot be written: {error}")))?;
    let mut files = vec![
        File { path: format!("/{JOB}"), bytes: job_file.to_vec() },
        File { path: format!("/{RESULTS}"), bytes: results },
        File { path: format!("/{TEMPLATES}"), bytes: templates.fingerprint().into_bytes() },
    ];
    files.extend(templates.own_files());
    Ok(files)
}

pub(super) fn options(results: &Results, build: Build) -> Options {
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
