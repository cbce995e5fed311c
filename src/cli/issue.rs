//! `issue`: check, then write the package.

use super::arguments::{Copy, Issue};
use super::output::{self, Guard};
use super::replace::{self, Next};
use super::{FAILS, REFUSED};
use crate::Checked;
use crate::archive::Archive;
use crate::package::{Build, Document, Issue as Issued, IssueLabel, Named, Templates};
use crate::pdf::{self, Press, Standing};
use crate::results::{Reissue, Results};
use crate::study::change::{self, Former};
use crate::text::{Faults, Source};
use anyhow::{Context, Result, ensure};
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

/// Above so many members the typesetting takes long enough to say that it is going on.
const MANY: usize = 40;

/// Checks a job and writes its package, whole or not at all.
pub(super) fn run(arguments: &Issue) -> Result<u8> {
    let Some(source) = super::source(&arguments.job)? else { return Ok(REFUSED) };
    let written = match Desk::new(arguments).issue(&source)? {
        Ok(written) => written,
        Err(faults) => {
            super::show(&source, &faults);
            return Ok(REFUSED);
        }
    };
    for (path, became) in std::iter::once(&written.package).chain(&written.authentication) {
        output::tell(path, became)?;
    }
    Ok(if written.results.verdict.passes() { 0 } else { FAILS })
}

/// Where packages of one job file are issued, again and again: what was read and laid out once is kept.
pub(super) struct Desk<'a> {
    arguments: &'a Issue,
    press: Press,
    former: Option<(PathBuf, Former)>,
}

/// A file, and what became of it.
pub(super) type Put = (PathBuf, output::Written);

/// A package that was written.
pub(super) struct Written {
    /// Its file, and what became of it.
    pub package: Put,
    /// The file of its authentication sheet, where one was asked for.
    pub authentication: Option<Put>,
    /// What was found.
    pub results: Results,
}

impl<'a> Desk<'a> {
    pub(super) fn new(arguments: &'a Issue) -> Self {
        Self { arguments, press: super::apart(if arguments.watch { Press::warm() } else { Press::new() }), former: None }
    }

    /// Checks a job and writes its package; the faults of a job file that has some, and nothing written.
    ///
    /// # Errors
    /// Those of the world, and bugs of templates.
    pub(super) fn issue(&mut self, source: &Source) -> Result<std::result::Result<Written, Faults>> {
        let arguments = self.arguments;
        let checked = match super::checked(source, false) {
            Ok(checked) => checked,
            Err(faults) => return Ok(Err(faults)),
        };
        let templates = match &arguments.templates {
            Some(folder) => Templates::of_office(folder).with_context(|| format!("templates of {}", folder.display()))?,
            None => Templates::built_in(),
        };
        let build = build(arguments.copy);
        let count = checked.results.members.len();
        let note = (count > MANY && std::io::stderr().is_terminal()).then(|| format!("typesetting {count} sheets …"));
        if let Some(note) = &note {
            eprint!("{note}");
            let _ = std::io::stderr().flush();
        }
        let reissue = arguments.after.as_deref().map(|after| self.reissue(after, source, &checked)).transpose()?;
        let issue = Issued {
            job: &checked.job,
            results: &checked.results,
            job_file: &source.bytes(),
            build,
            templates: &templates,
            reissue: reissue.as_ref(),
        };
        let bytes = issue.pdf_on(&mut self.press);
        if let Some(note) = &note {
            eprint!("\r{}\r", " ".repeat(note.chars().count()));
        }
        let bytes = bytes?;
        let (package, authentication) = put(arguments, &checked, &bytes, &issue, &mut self.press)?;
        Ok(Ok(Written { package, authentication, results: checked.results }))
    }

    /// What a job changes of an earlier package.
    ///
    /// # Errors
    /// The package cannot be read, was altered, carries nothing, or is not an earlier issue of this job.
    fn reissue(&mut self, after: &Path, source: &Source, checked: &Checked) -> Result<Reissue> {
        let said = || format!("--after {}", after.display());
        let path = if after.is_dir() { newest_in(after, checked).with_context(said)? } else { after.to_owned() };
        let former = match self.former.take() {
            Some((known, former)) if known == path => former,
            _ => {
                let bytes = super::package(&path).with_context(said)?;
                let standing = pdf::standing(&bytes);
                anyhow::ensure!(
                    standing != Standing::Altered,
                    "{}: it was altered since it was written; `latewood recheck` says more",
                    said()
                );
                Former::of(&pdf::attachments(&bytes).with_context(said)?).with_context(said)?
            }
        };
        let reissue = change::between(&former, source, checked).with_context(said);
        self.former = Some((path, former));
        reissue
    }
}

/// Writes a package, and the authentication sheet where one is asked for; neither where one of them may not be written.
fn put(arguments: &Issue, checked: &Checked, bytes: &[u8], issue: &Issued, press: &mut Press) -> Result<(Put, Option<Put>)> {
    let build = build(arguments.copy);
    let path = arguments.output.clone().unwrap_or_else(|| beside(&arguments.job, &checked.job, build));
    let label = IssueLabel::of(build.into(), &checked.job, &checked.results);
    let of_sheet = label.clone().with(Document::AuthenticationSheet);
    let guard = Guard { replace: arguments.replace.into(), read: &[&arguments.job] };
    let next = |label| Next { label, results: &checked.results, watches: arguments.watch };
    let package = output::ready(&path, bytes, guard, |there| replace::ruling(there, next(&label)))?;
    ensure!(
        !(package.is_standard_output() && std::io::stdout().is_terminal()),
        "a package is not written into a terminal; name a file with --output"
    );
    if !arguments.authentication {
        return Ok(((path, package.write()?), None));
    }
    ensure!(package.is_file(), "an authentication sheet names the file of its package; name one with --output");
    let sheet = authentication(&path, bytes, issue, press)?;
    let beside = with_stem(&path, "-authentication.pdf");
    let sheet = output::ready(&beside, &sheet, guard, |there| replace::ruling(there, next(&of_sheet)))?;
    Ok(((path, package.write()?), Some((beside, sheet.write()?))))
}

/// The authentication sheet of a package.
fn authentication(package: &Path, bytes: &[u8], issue: &Issued, press: &mut Press) -> Result<Vec<u8>> {
    let name = package.file_name().unwrap_or_default().to_string_lossy();
    Ok(crate::package::authentication(issue, &Named::of(&name, bytes)?, press)?)
}

/// A file beside another, with something behind the name in place of its ending.
pub(super) fn with_stem(path: &Path, behind: &str) -> PathBuf {
    let stem = path.file_stem().map_or_else(|| "package".into(), std::ffi::OsStr::to_os_string);
    path.with_file_name([stem, behind.into()].into_iter().collect::<std::ffi::OsString>())
}

/// The package's place beside its job file.
fn beside(file: &Path, job: &crate::job::model::Job, build: Build) -> PathBuf {
    let stem = file.file_stem().map_or_else(|| "job".to_owned(), |s| s.to_string_lossy().into_owned());
    let stem = if stem == "-" { "job" } else { &stem };
    file.parent().unwrap_or(Path::new("")).join(crate::package::file_name(&job.about, &job.basis.jurisdiction, build, stem))
}

fn build(copy: Copy) -> Build {
    match copy {
        Copy::Record => Build::Record,
        Copy::Submittal => Build::Submittal,
        Copy::Checking => Build::Checking,
    }
}

/// The newest package of a job in an archive, its own revision left out.
fn newest_in(folder: &Path, checked: &Checked) -> Result<PathBuf> {
    let (archive, job) = (Archive::open(folder)?, &checked.results.job);
    let index = archive.read()?;
    if let Some(damaged) = index.damaged.first() {
        anyhow::bail!(
            "{damaged}, and may be the newest; name the package itself, or make the index anew with `latewood archive FOLDER rebuild`"
        );
    }
    let entries = index.entries.into_iter().filter(|entry| entry.number == job.number && entry.revision != job.revision);
    // Of one day's issues the one that was filed last.
    let newest = entries.reduce(|newest, entry| if entry.date < newest.date { newest } else { entry });
    let newest = newest.with_context(|| format!("no other issue of job {} is filed there", job.number))?;
    Ok(archive.package(&newest))
}
