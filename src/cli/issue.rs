//! `issue`: check, then write the package.

use super::arguments::{Copy, Issue};
use super::{FAILS, REFUSED, output};
use crate::Checked;
use crate::archive::Archive;
use crate::job::profile::Profile;
use crate::package::{Build, Issue as Issued, Templates};
use crate::pdf::{self, Press, Standing};
use crate::results::{Reissue, Results};
use crate::study::change::{self, Former};
use crate::text::{Faults, Source};
use anyhow::{Context, Result};
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
    for path in [Some(&written.package), written.authentication.as_ref()].into_iter().flatten() {
        output::print(&path.display().to_string())?;
    }
    Ok(if written.results.verdict.passes() { 0 } else { FAILS })
}

/// Where packages of one job file are issued, again and again: what was read and laid out once is kept.
pub(super) struct Desk<'a> {
    arguments: &'a Issue,
    press: Press,
    former: Option<(PathBuf, Former)>,
}

/// A package that was written.
pub(super) struct Written {
    /// Its file.
    pub package: PathBuf,
    /// The file of its authentication sheet, where one was asked for.
    pub authentication: Option<PathBuf>,
    /// What was found.
    pub results: Results,
}

impl<'a> Desk<'a> {
    pub(super) fn new(arguments: &'a Issue) -> Self {
        Self { arguments, press: if arguments.watch { Press::warm() } else { Press::new() }, former: None }
    }

    /// Checks a job and writes its package; the faults of a job file that has some, and nothing written.
    ///
    /// # Errors
    /// Those of the world, and bugs of templates.
    pub(super) fn issue(&mut self, source: &Source) -> Result<std::result::Result<Written, Faults>> {
        let arguments = self.arguments;
        anyhow::ensure!(
            arguments.output.as_deref() != Some(Path::new("-")),
            "a package is not written to the standard output; name a file"
        );
        let checked = match super::checked(source, false) {
            Ok(checked) => checked,
            Err(faults) => return Ok(Err(faults)),
        };
        let templates = match &arguments.templates {
            Some(folder) => Templates::of_office(folder).with_context(|| format!("templates of {}", folder.display()))?,
            None => Templates::built_in(),
        };
        let build = match arguments.copy {
            Copy::Record => Build::Record,
            Copy::Submittal => Build::Submittal,
            Copy::Checking => Build::Checking,
        };
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
        let package = arguments.output.clone().unwrap_or_else(|| beside(&arguments.job, &checked.job, arguments.copy));
        output::write_whole(&output::place(&package, &[&arguments.job])?, &bytes)?;
        let authentication = arguments.authentication.then(|| authentication(&package, &checked, &bytes, &templates)).transpose()?;
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

/// Writes the authentication sheet beside the package.
fn authentication(package: &Path, checked: &Checked, bytes: &[u8], templates: &Templates) -> Result<PathBuf> {
    let name = package.file_name().unwrap_or_default().to_string_lossy();
    let sheet = crate::package::authentication(&checked.job, &checked.results, &name, bytes, templates)?;
    let stem = package.file_stem().unwrap_or_default().to_string_lossy();
    let path = package.with_file_name(format!("{stem}-authentication.pdf"));
    output::write_whole(&output::place(&path, &[])?, &sheet)?;
    Ok(path)
}

/// The newest package of a job in an archive, its own revision left out.
fn newest_in(folder: &Path, checked: &Checked) -> Result<PathBuf> {
    let (archive, job) = (Archive::open(folder)?, &checked.results.job);
    let entries = archive.entries()?.into_iter().filter(|entry| entry.number == job.number && entry.revision != job.revision);
    // Of one day's issues the one that was filed last.
    let newest = entries.reduce(|newest, entry| if entry.date < newest.date { newest } else { entry });
    let newest = newest.with_context(|| format!("no other issue of job {} is filed there", job.number))?;
    Ok(archive.package(&newest))
}

/// The most characters of a package's name: some authorities take no more.
const LONGEST: usize = 60;

/// The package's name beside its job file: number and revision, `-submittal` or `-checking` behind. A long number is cut.
fn beside(file: &Path, job: &crate::job::model::Job, copy: Copy) -> PathBuf {
    let stem = file.file_stem().map_or_else(|| "job".to_owned(), |s| s.to_string_lossy().into_owned());
    let number = job.about.number.clone().unwrap_or(if stem == "-" { "job".to_owned() } else { stem });
    let tail = match copy {
        Copy::Record => "",
        Copy::Submittal => "-submittal",
        Copy::Checking => "-checking",
    };
    let pattern = Profile::of(&job.basis.jurisdiction).file_name.as_ref().map_or("{number}-{revision}", |rule| &rule.value);
    let rest = format!("{}{tail}.pdf", pattern.replace("{revision}", &job.about.revision));
    let room = LONGEST.saturating_sub(rest.replace("{number}", "").chars().count());
    let name = rest.replace("{number}", &number.chars().take(room).collect::<String>());
    // What is in the number must not lead out of the folder.
    let name: String = name.chars().map(|c| if c.is_alphanumeric() || matches!(c, '-' | '.' | '_') { c } else { '-' }).collect();
    file.parent().unwrap_or(Path::new("")).join(name.trim_start_matches('.'))
}
