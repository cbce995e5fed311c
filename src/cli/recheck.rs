//! `recheck`: packages recomputed from what they carry, on all cores.

use super::arguments::Recheck as Arguments;
use super::{FAILS, REFUSED, output};
use crate::pdf::{Press, Standing, Unreadable};
use crate::study::{Compared, Difference, Pages, Recheck, Unfit, Verdict, recheck};
use anyhow::Result;
use std::collections::BTreeMap;
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;

/// The most differences of a member, or outside the members, that are printed.
const MOST: usize = 12;

/// What is said of a package, and its exit status.
type Answer = (String, u8);

/// Rechecks packages; what is found is printed in the order in which they were named.
pub(super) fn run(arguments: &Arguments) -> Result<u8> {
    let packages = &arguments.packages;
    let cores = std::thread::available_parallelism().map_or(1, usize::from).min(packages.len());
    let next = AtomicUsize::new(0);
    let (sender, receiver) = mpsc::channel::<(usize, Answer)>();
    std::thread::scope(|scope| {
        for _ in 0..cores {
            let (sender, next) = (sender.clone(), &next);
            scope.spawn(move || {
                let mut press = Press::new();
                while let Some((i, path)) = taken(packages, next) {
                    if sender.send((i, answer(path, &mut press))).is_err() {
                        break;
                    }
                }
            });
        }
        drop(sender);
        print(&receiver, packages.len())
    })
}

/// The next package that nobody works on.
fn taken<'a>(packages: &'a [PathBuf], next: &AtomicUsize) -> Option<(usize, &'a Path)> {
    let i = next.fetch_add(1, Ordering::Relaxed);
    Some((i, packages.get(i)?.as_path()))
}

/// Prints answers as soon as those before them are there; the worst status of all.
fn print(answers: &mpsc::Receiver<(usize, Answer)>, all: usize) -> Result<u8> {
    let shows = all > 1 && std::io::stderr().is_terminal();
    let (mut waiting, mut printed, mut worst) = (BTreeMap::new(), 0, 0);
    for (done, (i, answer)) in answers.iter().enumerate() {
        waiting.insert(i, answer);
        if shows {
            eprint!("\r\u{1b}[K");
        }
        while let Some((text, status)) = waiting.remove(&printed) {
            output::print(&text)?;
            worst = worst.max(status);
            printed += 1;
        }
        if shows && done + 1 < all {
            eprint!("{} of {all} packages", done + 1);
            let _ = std::io::stderr().flush();
        }
    }
    Ok(worst)
}

fn answer(path: &Path, press: &mut Press) -> Answer {
    let name = path.display();
    let bytes = match super::package(path) {
        Ok(bytes) => bytes,
        Err(error) => return (format!("error: {error:#}"), REFUSED),
    };
    match recheck(&bytes, press) {
        Ok(found) => {
            let status = if found.verdict() == Verdict::Same { 0 } else { FAILS };
            (format!("{name}: {}", told(&found)), status)
        }
        Err(Unfit::Foreign) => (format!("{name}: not a package of this program"), REFUSED),
        Err(Unfit::CarriesNothing(Standing::Altered)) => {
            (format!("{name}: ALTERED: its digest does not hold; a submittal carries nothing to recheck it from"), FAILS)
        }
        Err(Unfit::CarriesNothing(standing)) => {
            let holds = if standing == Standing::Whole { "its digest holds" } else { "something was appended to it" };
            (format!("{name}: a submittal carries nothing to recheck it from; {holds}"), REFUSED)
        }
        Err(Unfit::Unreadable(Unreadable(why))) => (format!("{name}: cannot be rechecked: {why}"), REFUSED),
    }
}

/// The answer, then why, then member by member.
fn told(found: &Recheck) -> String {
    let mut text = match found.verdict() {
        Verdict::Same => "same",
        Verdict::Differs => "DIFFERS",
        Verdict::Altered => "ALTERED",
    }
    .to_owned();
    if let Some(job) = &found.job {
        text.push_str(&format!("; job {}, revision {} of {}", job.number, job.revision, job.date));
    }
    for over in &found.stamps {
        text.push_str(&format!("\n  stamped: {} {}", over.stamp.large, over.stamp.small));
        if !over.genuine {
            text.push_str(", but not as this program stamps");
        }
    }
    if found.appended > 0 {
        let bytes = found.appended;
        text.push_str(&format!("\n  appended by something else: {bytes} bytes, such as a signature; they are not judged here"));
    }
    text.push_str(match found.standing {
        Standing::Altered => "\n  digest: does not hold",
        Standing::Missing => "\n  digest: lost",
        Standing::Whole | Standing::Appended { .. } => "\n  digest: holds",
    });
    text.push_str(&format!("\n  pages: {}", pages(found)));
    members(&mut text, &found.members);
    if !found.elsewhere.is_empty() {
        text.push_str("\n  outside the members:");
        list(&mut text, &found.elsewhere);
    }
    text
}

fn pages(found: &Recheck) -> String {
    match &found.pages {
        Pages::Same => format!("issued again, all {} bytes are the same", found.bytes),
        Pages::Differ { at } => format!("issued again, they differ first at byte {at} of {}", found.bytes),
        Pages::OtherVersion => {
            let made = found.program.as_ref().map(|program| format!("{} {}", program.name, program.version)).unwrap_or_default();
            format!("made by {made}, this is {}: not compared", env!("CARGO_PKG_VERSION"))
        }
        Pages::NotIssued(why) => format!("cannot be issued again: {why}"),
        Pages::NotRead(Unreadable(why)) => format!("what it carries cannot be read: {why}"),
    }
}

/// Those that differ, each with where; those that are the same on one line.
fn members(text: &mut String, members: &[Compared]) {
    for member in members.iter().filter(|member| !member.differences.is_empty()) {
        text.push_str(&format!("\n  {} differs:", member.mark));
        list(text, &member.differences);
    }
    let same: Vec<&str> = members.iter().filter(|member| member.differences.is_empty()).map(|member| member.mark.as_str()).collect();
    if !same.is_empty() {
        text.push_str(&format!("\n  the same: {}", same.join(", ")));
    }
}

fn list(text: &mut String, differences: &[Difference]) {
    for Difference { at, before, after } in differences.iter().take(MOST) {
        text.push_str(&format!("\n    {at}: {before}, now {after}"));
    }
    if let Some(more) = differences.len().checked_sub(MOST).filter(|more| *more > 0) {
        text.push_str(&format!("\n    and {more} more"));
    }
}
