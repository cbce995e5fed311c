//! The terminal: arguments, one file a command, faults shown in their place.
//!
//! Exit status: 0 all members pass, 1 a member fails (a package is written all the same), 2 bad input or a fault of the world.

#[cfg(feature = "paper")]
mod apart;
#[cfg(feature = "paper")]
mod archive;
mod arguments;
mod catalogue;
mod check;
#[cfg(feature = "paper")]
mod extract;
mod init;
#[cfg(feature = "paper")]
mod issue;
mod output;
mod prove;
#[cfg(feature = "paper")]
mod recheck;
#[cfg(feature = "paper")]
mod replace;
mod size;
pub mod snippet;
mod spans;
#[cfg(feature = "paper")]
mod supersede;
#[cfg(feature = "paper")]
mod watch;

use crate::text::Source;
use anyhow::{Context, Result};
use arguments::{Arguments, Command};
use clap::{CommandFactory, Parser};
use std::io::{IsTerminal, Read, Write};
use std::path::Path;

/// The exit status of a job with a failing member.
pub const FAILS: u8 = 1;
/// The exit status of bad input or a fault of the world.
pub const REFUSED: u8 = 2;

/// Runs the program on the arguments of the process; the answer is its exit status.
pub fn run() -> u8 {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            // Help and version are not errors; clap prints either to where it belongs.
            let status = if error.use_stderr() { REFUSED } else { 0 };
            let _ = error.print();
            return status;
        }
    };
    match carry_out(arguments.command) {
        Ok(status) => status,
        Err(error) => {
            eprintln!("error: {error:#}");
            REFUSED
        }
    }
}

fn carry_out(command: Command) -> Result<u8> {
    match command {
        Command::Init { code, file } => init::run(&code, &file),
        Command::Check(arguments) => check::run(&arguments),
        #[cfg(feature = "paper")]
        Command::Issue(arguments) if arguments.watch => watch::run(&arguments),
        #[cfg(feature = "paper")]
        Command::Issue(arguments) => issue::run(&arguments),
        #[cfg(feature = "paper")]
        Command::Extract(arguments) => extract::run(&arguments),
        #[cfg(feature = "paper")]
        Command::Recheck(arguments) => recheck::run(&arguments),
        #[cfg(feature = "paper")]
        Command::Supersede(arguments) => supersede::run(&arguments),
        #[cfg(feature = "paper")]
        Command::Archive { folder, what } => archive::run(&folder, &what),
        #[cfg(feature = "paper")]
        Command::TypesetApart => apart::run(),
        Command::Size(arguments) => size::run(&arguments),
        Command::Spans(arguments) => spans::run(&arguments),
        Command::Prove(arguments) => prove::run(&arguments),
        Command::Catalogue => catalogue::run(),
        Command::Schema { what } => {
            let schema = match what {
                arguments::Described::Job => crate::job::schema(),
                arguments::Described::Results => crate::results::schema(),
            };
            output::print(&serde_json::to_string_pretty(&schema)?)
        }
        Command::Completions { shell } => {
            let mut script = Vec::new();
            clap_complete::generate(shell, &mut Arguments::command(), "latewood", &mut script);
            output::print(&String::from_utf8_lossy(&script))
        }
        Command::Man => {
            let mut page = Vec::new();
            clap_mangen::Man::new(Arguments::command()).render(&mut page)?;
            output::print(&String::from_utf8_lossy(&page))
        }
    }
}

/// Reads a job file, or the standard input for `-`. A fault of the text itself is shown and gives none.
fn source(path: &Path) -> Result<Option<Source>> {
    Ok(as_text(path, &job_file(path)?))
}

/// The bytes of a job file, or of the standard input for `-`; one more than a job file may have at the most.
fn job_file(path: &Path) -> Result<Vec<u8>> {
    let most = Source::LARGEST as u64 + 1;
    let mut bytes = Vec::new();
    if path == Path::new("-") {
        std::io::stdin().take(most).read_to_end(&mut bytes).context("cannot read the standard input")?;
    } else {
        let file = std::fs::File::open(path).with_context(|| format!("cannot open {}", path.display()))?;
        anyhow::ensure!(!file.metadata().is_ok_and(|m| m.is_dir()), "{} is a folder; name a job file", path.display());
        file.take(most).read_to_end(&mut bytes).with_context(|| format!("cannot read {}", path.display()))?;
    }
    Ok(bytes)
}

/// The text of a job file. A fault of the text itself is shown and gives none.
fn as_text(path: &Path, bytes: &[u8]) -> Option<Source> {
    Source::read(path.display().to_string(), bytes).map_err(|refused| show(&refused.0, &[refused.1])).ok()
}

/// Checks a job; what the package could not print is among the faults, all in file order.
fn checked(source: &Source, all: bool) -> std::result::Result<crate::Checked, crate::text::Faults> {
    #[cfg(feature = "paper")]
    let mut faults = crate::package::unprintable(source);
    #[cfg(not(feature = "paper"))]
    let mut faults = crate::text::Faults::new();
    match crate::check(source, all) {
        Ok(checked) if faults.is_empty() => {
            warn(source, &checked.job);
            return Ok(checked);
        }
        Ok(_) => {}
        Err(more) => faults.extend(more),
    }
    faults.sort_by_key(|fault| fault.primary.span);
    Err(faults)
}

/// A press that has templates of an office's own typeset apart, by this program.
#[cfg(feature = "paper")]
fn apart(press: crate::pdf::Press) -> crate::pdf::Press {
    // Where the program cannot tell which file it is, none can be started, and that is reported.
    press.apart(std::env::current_exe().unwrap_or_default(), None)
}

/// Reads a package; what is a pipe or a device is not even opened.
#[cfg(feature = "paper")]
fn package(path: &Path) -> Result<Vec<u8>> {
    /// The most bytes: a package of a thousand members has a fifth of them.
    const MOST: u64 = 1 << 28;
    let about = std::fs::metadata(path).with_context(|| format!("cannot open {}", path.display()))?;
    anyhow::ensure!(about.is_file(), "{} is not a file; name a package", path.display());
    anyhow::ensure!(about.len() <= MOST, "{} is too large to be a package", path.display());
    let file = std::fs::File::open(path).with_context(|| format!("cannot open {}", path.display()))?;
    let mut bytes = Vec::new();
    file.take(MOST).read_to_end(&mut bytes).with_context(|| format!("cannot read {}", path.display()))?;
    Ok(bytes)
}

/// Shows, on the standard error, warnings about a job that nobody has confirmed.
fn warn(source: &Source, job: &crate::job::model::Job) {
    let open: Vec<_> = job.warnings.iter().filter(|warning| warning.confirmed.is_none()).map(crate::job::Warning::diagnostic).collect();
    if !open.is_empty() {
        show(source, &open);
    }
}

/// Shows faults on the standard error.
fn show(source: &Source, faults: &[crate::text::Diagnostic]) {
    let colour = std::io::stderr().is_terminal();
    let _ = std::io::stderr().write_all(snippet::render(source, faults, colour).as_bytes());
}
