//! From job and results to sources, and to a PDF.

use super::carried::{self, BUILD, FORMER_JOB, FORMER_RESULTS, JOB, OFFICE, PROGRAM, RESULTS, TEMPLATES};
use super::templates::Filler;
use super::view::{self, Scene};
use super::{Build, IssueLabel, Sources, Templates, apart};
use crate::cores;
use crate::job::model::Job;
use crate::pdf::{self, Bug, File, Laid, Options, Press, Sheet, Standard};
use crate::results::{Reissue, Results};
use crate::text::{Diagnostic, Faults, Label, Severity, Source, Span};
use serde::Serialize;

/// What a package is made of.
#[derive(Clone, Copy, Debug)]
pub struct Issue<'a> {
    /// The job.
    pub job: &'a Job,
    /// What was found.
    pub results: &'a Results,
    /// The job file byte for byte: it is attached to a record.
    pub job_file: &'a [u8],
    /// Which of its copies.
    pub build: Build,
    /// The templates.
    pub templates: &'a Templates,
    /// What it changes of an earlier issue; none for a first one.
    pub reissue: Option<&'a Reissue>,
}

impl Issue<'_> {
    /// The package as PDF bytes; the same input gives the same bytes.
    ///
    /// # Errors
    /// A [`Bug`] of a template, ours or the office's, with its name and line.
    pub fn pdf(&self) -> Result<Vec<u8>, Bug> {
        self.pdf_on(&mut Press::new())
    }

    /// [`pdf`](Self::pdf) on a press that may be warm; the bytes are the same.
    ///
    /// Each sheet is set in the form that should fit its pages best, laid out, and set once more where what was found asks for another form.
    ///
    /// # Errors
    /// Those of [`pdf`](Self::pdf).
    pub fn pdf_on(&self, press: &mut Press) -> Result<Vec<u8>, Bug> {
        self.pdf_of_build(press, BUILD)
    }

    /// [`pdf_on`](Self::pdf_on) with the name of another build in it: what that one has issued, if it draws as this one does.
    ///
    /// # Errors
    /// Those of [`pdf`](Self::pdf).
    pub fn pdf_of_build(&self, press: &mut Press, build: &str) -> Result<Vec<u8>, Bug> {
        if let Some(answer) = apart::typeset(self, press, build, None) {
            return answer;
        }
        let mut pages = Pages::of(self, build)?;
        for round in 1..=ROUNDS {
            let laid = press.lay(&pages.sheets, &pages.files)?;
            let changed = pages.set.iter_mut().map(|set| set.settle(&laid, round == ROUNDS)).fold(false, |any, changed| any | changed);
            if !changed {
                return laid.pdf(&pages.options);
            }
            pages.fill()?;
        }
        press.pdf(&pages.sheets, &pages.files, &pages.options)
    }

    /// The package as Typst sources, one a sheet, with what they attach, as they are first laid out.
    ///
    /// # Errors
    /// A [`Bug`] of a template: unknown name, wrong syntax.
    pub fn sources(&self) -> Result<Sources, Bug> {
        let Pages { sheets, files, options, .. } = Pages::of(self, BUILD)?;
        Ok(Sources { sheets, files, options })
    }
}

/// The package of a job as PDF bytes, without an earlier issue; to make packages again and again, keep a [`Press`] and use [`issue_on`].
///
/// # Errors
/// As [`Issue::pdf`].
pub fn issue(job: &Job, results: &Results, job_file: &[u8], build: Build, templates: &Templates) -> Result<Vec<u8>, Bug> {
    issue_on(&mut Press::new(), job, results, job_file, build, templates)
}

/// [`issue`] on a press that may be warm; the bytes are the same.
///
/// # Errors
/// As [`Issue::pdf`].
pub fn issue_on(
    press: &mut Press,
    job: &Job,
    results: &Results,
    job_file: &[u8],
    build: Build,
    templates: &Templates,
) -> Result<Vec<u8>, Bug> {
    Issue { job, results, job_file, build, templates, reissue: None }.pdf_on(press)
}

/// The package of a job as Typst sources, without an earlier issue, as they are first laid out.
///
/// # Errors
/// As [`Issue::sources`].
pub fn sources(job: &Job, results: &Results, job_file: &[u8], build: Build, templates: &Templates) -> Result<Sources, Bug> {
    Issue { job, results, job_file, build, templates, reissue: None }.sources()
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
    fn of(issue: &Issue<'a>, build: &str) -> Result<Self, Bug> {
        let scene = Scene::of(issue.job, issue.results, issue.reissue, issue.build);
        let mut pages = Self {
            filler: issue.templates.filler()?,
            sheets: Vec::new(),
            set: Vec::new(),
            files: if issue.build == Build::Record { attached(issue, build)? } else { Vec::new() },
            options: options(issue.job, issue.results, issue.build),
        };
        pages.put("job.typ", "/job.typ", view::Frame::of(&scene))?;
        pages.sheets.push(issue.templates.style());
        if issue.build == Build::Checking {
            pages.brief(&scene, issue.job_file)?
        } else {
            pages.whole(&scene)?
        }
        let office: Vec<String> =
            pages.files.iter().filter(|f| f.path.starts_with(&format!("/{OFFICE}"))).map(|f| f.path.clone()).collect();
        let main = view::Main::of(&scene, issue.build, pages.sheets[2..].iter().map(|part| part.path.clone()).collect(), office);
        pages.sheets.insert(0, pages.filler.fill("package.typ", "/main.typ", main)?);
        Ok(pages)
    }

    fn put(&mut self, template: &str, path: &str, view: impl Serialize) -> Result<(), Bug> {
        self.sheets.push(self.filler.fill(template, path, view)?);
        Ok(())
    }

    /// The pages of a package, in order.
    fn whole(&mut self, scene: &Scene) -> Result<(), Bug> {
        self.put("cover.typ", "/cover.typ", view::Cover::of(scene))?;
        self.put("contents.typ", "/contents.typ", view::Contents::of(scene))?;
        self.put("summary.typ", "/summary.typ", view::Summary::of(scene))?;
        self.put("basis.typ", "/basis.typ", view::Basis::of(scene))?;
        self.put("path.typ", "/path.typ", view::Path::of(scene))?;
        if let Some(since) = view::Since::of(scene) {
            self.put("since.typ", "/since.typ", since)?;
        }
        let members: Vec<_> = scene.members().collect();
        let drawn = cores::each(&members, |(entry, member)| {
            let draft = view::Draft::of(scene, entry, member);
            let heights = draft.heights();
            let form = heights.best();
            let sheet = self.filler.fill("sheet.typ", &format!("/sheets/{}.typ", member.mark), draft.set(form))?;
            Ok((sheet, draft, heights, form))
        });
        for one in drawn {
            let (sheet, draft, heights, form) = one?;
            self.sheets.push(sheet);
            // The main source will stand before all others.
            self.set.push(Set { draft, heights, form, source: self.sheets.len(), changed: false });
        }
        self.put("references.typ", "/references.typ", view::References::of(scene))
    }

    /// The pages of a checker's brief: all that goes in, nothing of what came out.
    fn brief(&mut self, scene: &Scene, job_file: &[u8]) -> Result<(), Bug> {
        let job_text = String::from_utf8_lossy(job_file);
        // Places in the text are counted behind a byte order mark.
        let job_text = job_text.strip_prefix('\u{feff}').unwrap_or(&job_text);
        self.put("brief-cover.typ", "/cover.typ", view::BriefCover::of(scene))?;
        self.put("basis.typ", "/basis.typ", view::Basis::of(scene))?;
        for (entry, member) in scene.members() {
            self.put("brief.typ", &format!("/sheets/{}.typ", member.mark), view::Brief::of(scene, entry, member, job_text))?;
        }
        Ok(())
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
    /// Learns how tall the parts came out, and chooses again, in the last round where it can among what was laid out; says whether
    /// the form changed.
    fn settle(&mut self, laid: &Laid, last: bool) -> bool {
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
        if let (Some(from), Some(to)) = (laid.place(self.draft.head()), laid.place(&self.draft.end())) {
            self.heights.took(self.form, to.page - from.page, to.y - view::TOP);
        }
        let form = self.heights.after(self.form, last);
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
fn attached(issue: &Issue, build: &str) -> Result<Vec<File>, Bug> {
    let results =
        serde_json::to_vec_pretty(issue.results).map_err(|error| Bug::plain(format!("the results cannot be written: {error}")))?;
    let mut files = vec![
        File { path: format!("/{JOB}"), bytes: issue.job_file.to_vec() },
        File { path: format!("/{RESULTS}"), bytes: results },
        File { path: format!("/{TEMPLATES}"), bytes: issue.templates.fingerprint().into_bytes() },
        File { path: format!("/{PROGRAM}"), bytes: carried::program(&issue.results.program, build).into_bytes() },
    ];
    if let Some(reissue) = issue.reissue {
        files.push(File { path: format!("/{FORMER_JOB}"), bytes: reissue.former_job.clone().into_bytes() });
        files.push(File { path: format!("/{FORMER_RESULTS}"), bytes: reissue.former_results.clone() });
    }
    files.extend(issue.templates.own_files());
    Ok(files)
}

pub(super) fn options(job: &Job, results: &Results, build: Build) -> Options {
    let label = IssueLabel::of(build.into(), job, results);
    let job = &results.job;
    let named = if job.number.is_empty() { &job.title } else { &job.number };
    Options {
        standard: match build {
            Build::Record => Standard::Record,
            Build::Submittal | Build::Checking => Standard::Submittal,
        },
        ident: format!("job {named} revision {}", job.revision),
        creator: format!("{} {}", results.program.name, results.program.version),
        note: label.note(),
    }
}
