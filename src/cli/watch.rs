//! `issue --watch`: the package issued again whenever its job file is saved.
//!
//! What is watched are the bytes themselves, read some times a second: a job file is small, no clock or notice of a file system has to be
//! trusted (network drives have neither), an editor may save over the file or put another in its place, and a save that changes nothing
//! does nothing. A file is taken when it reads the same twice, so that none is taken half written. The typesetter stays warm.

use super::arguments::Issue;
use super::issue::{Desk, Written};
use super::output;
use super::replace::{moved, some};
use super::{as_text, job_file, show};
use crate::codes::Verdict;
use crate::package::Templates;
use crate::results::{Member, Results, ratio};
use anyhow::{Result, ensure};
use std::io::Write;
use std::path::Path;
use std::time::{Duration, Instant};

/// Between two looks.
const PAUSE: Duration = Duration::from_millis(25);

/// What is watched, as it stood at one moment.
#[derive(PartialEq)]
struct Look {
    /// The job file; none where it cannot be read, as while an editor puts another in its place.
    job: Option<Vec<u8>>,
    /// The office's templates by name; none where they cannot be read.
    templates: Option<Vec<(String, String)>>,
}

/// Issues, and issues again until the process is ended.
pub(super) fn run(arguments: &Issue) -> Result<u8> {
    ensure!(arguments.job != Path::new("-"), "--watch needs a job file that can be saved, not the standard input");
    job_file(&arguments.job)?;
    let mut desk = Desk::new(arguments);
    let mut last: Option<Results> = None;
    let mut look = settled(arguments, None);
    loop {
        let line = issued(arguments, &look, &mut desk, &mut last);
        let mut out = std::io::stdout().lock();
        // Nobody reads any longer.
        if writeln!(out, "{line}").and_then(|()| out.flush()).is_err() {
            return Ok(0);
        }
        drop(out);
        look = settled(arguments, Some(&look));
    }
}

/// Waits for something else than what was there, and for it to stay.
fn settled(arguments: &Issue, former: Option<&Look>) -> Look {
    let mut before = Look::at(arguments);
    loop {
        std::thread::sleep(PAUSE);
        let now = Look::at(arguments);
        if now == before && Some(&now) != former {
            return now;
        }
        before = now;
    }
}

impl Look {
    fn at(arguments: &Issue) -> Self {
        let templates = arguments.templates.as_ref().and_then(|folder| Templates::in_folder(folder).ok());
        Self { job: job_file(&arguments.job).ok(), templates }
    }
}

/// Issues what was looked at, and says in a line what came of it; faults are shown before.
fn issued(arguments: &Issue, look: &Look, desk: &mut Desk, last: &mut Option<Results>) -> String {
    let begun = Instant::now();
    let name = arguments.job.display();
    let Some(bytes) = &look.job else { return format!("{name} is not there; an earlier package stays as it was") };
    let Some(source) = as_text(&arguments.job, bytes) else { return format!("{name} is no text; an earlier package stays as it was") };
    match desk.issue(&source) {
        Ok(Ok(written)) => {
            let line = told(&written, last.as_ref(), begun.elapsed());
            *last = Some(written.results);
            line
        }
        Ok(Err(faults)) => {
            show(&source, &faults);
            let count = if faults.len() == 1 { "1 mistake".to_owned() } else { format!("{} mistakes", faults.len()) };
            format!("{count} in {name}; an earlier package stays as it was")
        }
        Err(error) => {
            eprintln!("error: {error:#}");
            "not issued; an earlier package stays as it was".to_owned()
        }
    }
}

/// The package, the time it took, who fails or is fullest, and which ratios moved since the last time.
fn told(written: &Written, last: Option<&Results>, took: Duration) -> String {
    let members = &written.results.members;
    let (package, became) = &written.package;
    let mut line = format!("{} in {:.2} s: ", package.display(), took.as_secs_f64());
    let of = |verdict: Verdict| members.iter().filter(move |member| member.verdict == verdict);
    let failing: Vec<String> = of(Verdict::Fails).map(said).collect();
    let unchecked: Vec<String> = of(Verdict::NotChecked).map(|member| member.mark.clone()).collect();
    let mut parts = Vec::new();
    if !failing.is_empty() {
        parts.push(format!("{} of {} FAIL: {}", failing.len(), members.len(), some(failing)));
    }
    if !unchecked.is_empty() {
        parts.push(format!("{} of {} NOT CHECKED: {}", unchecked.len(), members.len(), some(unchecked)));
    }
    match members.iter().max_by(|a, b| a.governing.ratio.total_cmp(&b.governing.ratio)) {
        Some(fullest) if parts.is_empty() => line.push_str(&format!("{} pass, the fullest {}", members.len(), said(fullest))),
        None => line.push_str("no members"),
        Some(_) => line.push_str(&parts.join("; ")),
    }
    let moved = last.map(|last| moved(members, last)).unwrap_or_default();
    match (moved.is_empty(), became) {
        (false, _) => line.push_str(&format!("; changed: {moved}")),
        (true, output::Written::Replaced(why)) if last.is_none() => line.push_str(&format!("; written over, {why}")),
        (true, output::Written::Unchanged) => line.push_str("; the package is unchanged"),
        (true, _) => {}
    }
    line
}

fn said(member: &Member) -> String {
    format!("{} {} {}", member.mark, ratio(member.governing.ratio), member.governing.check.replace('_', " "))
}
