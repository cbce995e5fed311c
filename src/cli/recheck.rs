//! `recheck`: packages recomputed from what they carry, on all cores; those that are named, or those of an archive.

mod told;

use super::arguments::Recheck as Arguments;
use super::{FAILS, REFUSED, output};
use crate::archive::{Archive, Entry, fingerprint};
use crate::pdf::{Press, Standing, Unreadable};
use crate::study::{Unfit, Verdict, recheck};
use crate::text::on_one_line;
use anyhow::Result;
use std::collections::BTreeMap;
use std::io::{IsTerminal, Write};
use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;
use told::told;

/// A package that is to be rechecked.
struct Asked {
    name: String,
    path: PathBuf,
    /// Its hash in the index of an archive.
    filed: Option<String>,
}

/// What came of a package, from the best to the worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    Same,
    Differs,
    Altered,
    Unfit,
    Missing,
}

impl Kind {
    fn status(self) -> u8 {
        match self {
            Self::Same => 0,
            Self::Differs | Self::Altered => FAILS,
            Self::Unfit | Self::Missing => REFUSED,
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Differs => "DIFFERS",
            Self::Altered => "ALTERED",
            Self::Unfit => "cannot be rechecked",
            Self::Missing => "missing",
        }
    }
}

/// What is said of a package.
type Answer = (String, Kind);

/// Rechecks packages; what is found is printed in the order in which they were named or filed.
pub(super) fn run(arguments: &Arguments) -> Result<u8> {
    let Some(folder) = &arguments.archive else {
        let named = |path: &PathBuf| Asked { name: path.display().to_string(), path: path.clone(), filed: None };
        let counts = all(&arguments.packages.iter().map(named).collect::<Vec<_>>())?;
        return Ok(worst(&counts));
    };
    let archive = Archive::open(folder)?;
    let (from, to) = (arguments.from.as_deref(), arguments.to.as_deref());
    let index = archive.between(from, to)?;
    let asked = filed(&archive, index.entries)?;
    let mut counts = all(&asked)?;
    if from.is_none() && to.is_none() {
        strangers(&archive, &asked)?;
    }
    counts.retain(|_, count| *count > 0);
    let parts: Vec<String> = counts.iter().map(|(kind, count)| format!("{count} {}", kind.word())).collect();
    let packages = if asked.len() == 1 { "1 package".to_owned() } else { format!("{} packages", asked.len()) };
    output::print(&if parts.is_empty() { packages } else { format!("{packages}: {}", parts.join(", ")) })?;
    Ok(worst(&counts).max(super::archive::named(&index.damaged)))
}

/// The packages of entries of an archive, and their stamped copies. A revision that is filed twice is reported.
fn filed(archive: &Archive, entries: Vec<Entry>) -> Result<Vec<Asked>> {
    let mut asked: Vec<Asked> = Vec::new();
    let mut known = BTreeMap::new();
    for entry in entries {
        let issue = if entry.number.is_empty() { entry.title.clone() } else { entry.number.clone() };
        let name = on_one_line(&format!("{issue} {}", entry.revision));
        if let Some(before) = known.insert((entry.number.clone(), entry.revision.clone()), entry.file.clone()) {
            output::print(&format!("{name}: filed twice, as {before} and as {}", entry.file))?;
        }
        asked.push(Asked { name: format!("{name}, {}", entry.file), path: archive.package(&entry), filed: Some(entry.package) });
        if let Some(copy) = entry.superseded {
            let path = archive.path(&copy.file);
            asked.push(Asked { name: format!("{name}, {}", copy.file), path, filed: Some(copy.package) });
        }
    }
    Ok(asked)
}

/// Says which packages lie in an archive and are in no line of its index: a filing that was cut short leaves one.
fn strangers(archive: &Archive, asked: &[Asked]) -> Result<()> {
    for path in archive.lying()? {
        if !asked.iter().any(|asked| asked.path == path) {
            output::print(&format!("{}: lies there, and is in no line of the index; file it again", path.display()))?;
        }
    }
    Ok(())
}

/// Rechecks all on all cores; how many came out how.
fn all(asked: &[Asked]) -> Result<BTreeMap<Kind, usize>> {
    let cores = std::thread::available_parallelism().map_or(1, usize::from).min(asked.len());
    let next = AtomicUsize::new(0);
    let (sender, receiver) = mpsc::channel::<(usize, Answer)>();
    std::thread::scope(|scope| {
        for _ in 0..cores {
            let (sender, next) = (sender.clone(), &next);
            scope.spawn(move || {
                let mut press = super::apart(Press::warm());
                while let Some((i, package)) = taken(asked, next) {
                    if sender.send((i, answer(package, &mut press))).is_err() {
                        break;
                    }
                }
            });
        }
        drop(sender);
        print(&receiver, asked.len())
    })
}

/// The next package that nobody works on.
fn taken<'a>(asked: &'a [Asked], next: &AtomicUsize) -> Option<(usize, &'a Asked)> {
    let i = next.fetch_add(1, Ordering::Relaxed);
    Some((i, asked.get(i)?))
}

/// Prints answers as soon as those before them are there.
fn print(answers: &mpsc::Receiver<(usize, Answer)>, all: usize) -> Result<BTreeMap<Kind, usize>> {
    let shows = all > 1 && std::io::stderr().is_terminal();
    let (mut waiting, mut printed, mut counts) = (BTreeMap::new(), 0, BTreeMap::new());
    for (done, (i, answer)) in answers.iter().enumerate() {
        waiting.insert(i, answer);
        if shows {
            eprint!("\r\u{1b}[K");
        }
        while let Some((text, kind)) = waiting.remove(&printed) {
            output::print(&text)?;
            *counts.entry(kind).or_default() += 1;
            printed += 1;
        }
        if shows && done + 1 < all {
            eprint!("{} of {all} packages", done + 1);
            let _ = std::io::stderr().flush();
        }
    }
    Ok(counts)
}

fn worst(counts: &BTreeMap<Kind, usize>) -> u8 {
    counts.keys().next_back().map_or(0, |kind| kind.status())
}

fn answer(asked: &Asked, press: &mut Press) -> Answer {
    let Asked { name, path, filed } = asked;
    if filed.is_some() && !path.exists() {
        return (format!("{name}: missing: the index names it, and it is not there"), Kind::Missing);
    }
    let bytes = match super::package(path) {
        Ok(bytes) => bytes,
        Err(error) => return (format!("error: {error:#}"), Kind::Unfit),
    };
    let (text, kind) = judged(&bytes, press, filed.is_some());
    match filed {
        Some(hash) if fingerprint(&bytes) != *hash && kind < Kind::Altered => {
            (format!("{name}: ALTERED: not the bytes that were filed; by itself: {text}"), Kind::Altered)
        }
        _ => (format!("{name}: {text}"), kind),
    }
}

/// What a package is; of one that is the same no more is said than that, where that is enough.
fn judged(bytes: &[u8], press: &mut Press, in_short: bool) -> Answer {
    match recheck(bytes, press) {
        Ok(found) => match found.verdict() {
            Verdict::Same if in_short => ("same".to_owned(), Kind::Same),
            Verdict::Same => (told(&found), Kind::Same),
            Verdict::Differs => (told(&found), Kind::Differs),
            Verdict::Altered => (told(&found), Kind::Altered),
        },
        Err(Unfit::Foreign) => ("not a package of this program".to_owned(), Kind::Unfit),
        Err(Unfit::CarriesNothing(Standing::Altered, _)) => {
            ("ALTERED: its digest does not hold; a submittal carries nothing to recheck it from".to_owned(), Kind::Altered)
        }
        Err(Unfit::CarriesNothing(_, appended)) => {
            let others = told::others(&appended);
            let kind = if others.is_empty() { Kind::Unfit } else { Kind::Differs };
            let over = told::appended(&appended);
            (format!("a submittal carries nothing to recheck it from; its digest holds{over}"), kind)
        }
        Err(Unfit::Unreadable(Unreadable(why))) => (format!("cannot be rechecked: {why}"), Kind::Unfit),
    }
}
