//! `issue`: check, then write the package.

use super::arguments::{Copy, Issue};
use super::{FAILS, REFUSED, output};
use crate::Checked;
use crate::package::{Build, Templates};
use anyhow::{Context, Result};
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

/// Above so many members the typesetting takes long enough to say that it is going on.
const MANY: usize = 40;

/// Checks a job and writes its package, whole or not at all.
pub(super) fn run(arguments: &Issue) -> Result<u8> {
    let Some(source) = super::source(&arguments.job)? else { return Ok(REFUSED) };
    anyhow::ensure!(arguments.output.as_deref() != Some(Path::new("-")), "a package is not written to the standard output; name a file");
    let checked = match super::checked(&source, false) {
        Ok(checked) => checked,
        Err(faults) => {
            super::show(&source, &faults);
            return Ok(REFUSED);
        }
    };
    let templates = match &arguments.templates {
        Some(folder) => Templates::of_office(folder).with_context(|| format!("templates of {}", folder.display()))?,
        None => Templates::built_in(),
    };
    let build = match arguments.copy {
        Copy::Record => Build::Record,
        Copy::Submittal => Build::Submittal,
    };
    let count = checked.results.members.len();
    let note = (count > MANY && std::io::stderr().is_terminal()).then(|| format!("typesetting {count} sheets …"));
    if let Some(note) = &note {
        eprint!("{note}");
        let _ = std::io::stderr().flush();
    }
    let bytes = crate::package::issue(&checked.job, &checked.results, &source.bytes(), build, &templates);
    if let Some(note) = &note {
        eprint!("\r{}\r", " ".repeat(note.chars().count()));
    }
    let bytes = bytes?;
    let path = arguments.output.clone().unwrap_or_else(|| beside(&arguments.job, &checked.job, arguments.copy));
    let place = output::place(&path, &[&arguments.job])?;
    output::write_whole(&place, &bytes)?;
    output::print(&path.display().to_string())?;
    if arguments.authentication {
        authentication(&path, &checked, &bytes, &templates)?;
    }
    Ok(if checked.results.passes { 0 } else { FAILS })
}

/// Writes the authentication sheet beside the package.
fn authentication(package: &Path, checked: &Checked, bytes: &[u8], templates: &Templates) -> Result<()> {
    let name = package.file_name().unwrap_or_default().to_string_lossy();
    let sheet = crate::package::authentication(&checked.job, &checked.results, &name, bytes, templates)?;
    let stem = package.file_stem().unwrap_or_default().to_string_lossy();
    let path = package.with_file_name(format!("{stem}-authentication.pdf"));
    output::write_whole(&output::place(&path, &[])?, &sheet)?;
    output::print(&path.display().to_string())?;
    Ok(())
}

/// The package's name beside its job file: number and revision, `-submittal` behind.
fn beside(file: &Path, job: &crate::job::model::Job, copy: Copy) -> PathBuf {
    let stem = file.file_stem().map_or_else(|| "job".to_owned(), |s| s.to_string_lossy().into_owned());
    let number = job.about.number.clone().unwrap_or(if stem == "-" { "job".to_owned() } else { stem });
    let tail = if copy == Copy::Submittal { "-submittal" } else { "" };
    let name = format!("{number}-{}{tail}.pdf", job.about.revision);
    // What is in the number must not lead out of the folder.
    let name: String = name.chars().map(|c| if c.is_alphanumeric() || matches!(c, '-' | '.' | '_') { c } else { '-' }).collect();
    file.parent().unwrap_or(Path::new("")).join(name.trim_start_matches('.'))
}
