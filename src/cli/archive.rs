//! `archive`: file issued packages in an office folder, and ask it.

use super::arguments::{ArchiveWhat, Ask, Format};
use super::{REFUSED, output};
use crate::archive::{Answer, Archive, Damaged, Facts, Filed, Question};
use crate::job::model::Date;
use crate::job::profile::Profile;
use crate::pdf;
use crate::text::{Source, in_json, on_one_line};
use anyhow::{Context, Result};
use std::path::{Path, PathBuf};

/// Files packages, or answers a question.
pub(super) fn run(folder: &Path, what: &ArchiveWhat) -> Result<u8> {
    match what {
        ArchiveWhat::File { packages, keep_until } => file(folder, packages, *keep_until),
        ArchiveWhat::Ask(question) => ask(folder, question),
        ArchiveWhat::Rebuild => rebuild(folder),
    }
}

/// One line a package, printed when it is on the disk.
fn file(folder: &Path, packages: &[PathBuf], keep_until: Option<Date>) -> Result<u8> {
    let archive = Archive::at(folder);
    for package in packages {
        let said = || package.display().to_string();
        let bytes = super::package(package)?;
        let facts = facts(&bytes, keep_until).with_context(said)?;
        match archive.file(&bytes, &facts).with_context(said)? {
            Filed::Now(entry) => output::print(&format!("filed {} as {}", package.display(), entry.file))?,
            Filed::Stamped(entry, copy) => {
                output::print(&format!("filed {} as {}, stamped copy of {}", package.display(), copy.file, entry.file))?
            }
            Filed::Before(entry) => output::print(&format!("{} was filed before, as {}", package.display(), entry.file))?,
        };
    }
    Ok(0)
}

/// What the package's own job file says of its date and of the place it is for.
fn facts(bytes: &[u8], keep_until: Option<Date>) -> Result<Facts> {
    let files = pdf::attachments(bytes)?;
    let Some((name, text)) = files.into_iter().find(|(name, _)| name == "job.yaml") else {
        anyhow::bail!("it carries no job file; file the record copy (a submittal carries nothing)");
    };
    let source = Source::read(name, &text).map_err(|refused| anyhow::anyhow!("its job file cannot be read: {}", refused.1.message))?;
    let reading = crate::job::read(&source);
    let (Some(about), Some(jurisdiction)) = (reading.about(), reading.jurisdiction()) else {
        anyhow::bail!("its job file cannot be read by this version");
    };
    let date = about.date;
    let years = Profile::of(jurisdiction).retention_years.as_ref().map(|rule| rule.value);
    let keep_until = keep_until.or_else(|| date.after_years(years?));
    Ok(Facts { date: date.to_string(), keep_until: keep_until.map(|day| day.to_string()) })
}

fn ask(folder: &Path, asked: &Ask) -> Result<u8> {
    let archive = Archive::open(folder)?;
    let question = Question {
        table: asked.table.clone(),
        cell: asked.cell.clone(),
        edition: asked.edition.clone(),
        program: asked.program.clone(),
        above: asked.above,
        job: asked.job.clone(),
        newest: asked.newest,
        past: asked.past.map(|day| day.to_string()),
    };
    let (answers, damaged) = archive.ask(&question)?;
    match asked.format {
        Format::Json => output::print(&in_json(&serde_json::to_string_pretty(&answers)?))?,
        Format::Table => output::print(&table(&answers))?,
    };
    Ok(named(&damaged))
}

/// Names the damaged lines of an index on the standard error; the exit status that they make.
pub(super) fn named(damaged: &[Damaged]) -> u8 {
    for line in damaged {
        eprintln!("error: {line}");
    }
    if damaged.is_empty() {
        return 0;
    }
    eprintln!("`latewood archive FOLDER rebuild` makes the index anew from the packages");
    REFUSED
}

/// Makes the index anew, and says what has no entry.
fn rebuild(folder: &Path) -> Result<u8> {
    anyhow::ensure!(folder.join("packages").is_dir(), "{} is no archive: it has no folder packages", folder.display());
    let rebuilt = Archive::at(folder).rebuild(|bytes| facts(bytes, None).map_err(|why| format!("{why:#}")))?;
    for (file, why) in &rebuilt.left_out {
        output::print(&format!("left out {}: {}", on_one_line(file), on_one_line(why)))?;
    }
    for entry in &rebuilt.without_package {
        output::print(&on_one_line(&format!(
            "kept {} {}: its package {} is not there or was altered",
            entry.number, entry.revision, entry.file
        )))?;
    }
    let issues = if rebuilt.entries.len() == 1 { "1 issue".to_owned() } else { format!("{} issues", rebuilt.entries.len()) };
    output::print(&format!("{issues} in the index of {}", folder.display()))?;
    Ok(if rebuilt.left_out.is_empty() && rebuilt.without_package.is_empty() { 0 } else { REFUSED })
}

/// A paragraph an issue: which it is, where it lies, and what in it answers.
fn table(answers: &[Answer]) -> String {
    let mut text = String::new();
    for Answer { entry, because } in answers {
        let kept = entry.keep_until.as_ref().map_or_else(|| "not known until when to keep".to_owned(), |day| format!("keep until {day}"));
        let number = if entry.number.is_empty() { "no number" } else { &entry.number };
        let of = format!("{number} {}, {}: {} ({}, {}; {kept})", entry.revision, entry.date, entry.title, entry.edition, entry.program);
        let superseded = entry.superseded.iter().map(|copy| format!("superseded {} ({})", copy.says, copy.file));
        let lines = std::iter::once(entry.file.clone()).chain(superseded).chain(because.iter().cloned());
        text.push_str(&format!("{}\n", on_one_line(&of)));
        for line in lines {
            text.push_str(&format!("    {}\n", on_one_line(&line)));
        }
    }
    text.push_str(&match answers.len() {
        0 => "No issue answers.".to_owned(),
        1 => "1 issue.".to_owned(),
        n => format!("{n} issues."),
    });
    text
}
