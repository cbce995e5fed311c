//! An earlier package, stamped as replaced by a later one.

use crate::job::model::order_of_marks;
use crate::package::{Carried, Head};
use crate::pdf::{self, Signature, Stamp, Standing, Unreadable};
use crate::results::JobInShort;
use std::cmp::Ordering;

/// Which of the two packages a fault is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The one that is replaced.
    Old,
    /// The one that replaces it.
    New,
}

/// Why a package is not stamped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotSuperseded {
    /// It cannot be read, or is not a package of this program.
    Unreadable(Which, Unreadable),
    /// It carries no results that would say which job and revision it is of: a submittal.
    CarriesNothing(Which),
    /// Its digest does not hold.
    Altered(Which),
    /// Something was appended to it that is no signature: this.
    Appended(Which, String),
    /// It is stamped already.
    Stamped(Stamp),
    /// The two are of different jobs, named here.
    OtherJob(String, String),
    /// The new one does not come after the old one, for this reason.
    NotLater(String),
}

impl NotSuperseded {
    /// The package that is at fault, where it is one of the two.
    pub fn which(&self) -> Option<Which> {
        match self {
            Self::Unreadable(which, _) | Self::CarriesNothing(which) | Self::Altered(which) => Some(*which),
            Self::Appended(which, _) => Some(*which),
            Self::Stamped(_) => Some(Which::Old),
            Self::OtherJob(..) | Self::NotLater(_) => None,
        }
    }
}

impl std::fmt::Display for NotSuperseded {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unreadable(_, why) => write!(f, "{why}"),
            Self::CarriesNothing(_) => {
                f.write_str("a submittal carries nothing, not even which revision it is; name the record of the same issue")
            }
            Self::Altered(_) => f.write_str("it was altered since it was written; `latewood recheck` says more"),
            Self::Appended(_, what) => write!(f, "something was appended to it that is no signature: {what}"),
            Self::Stamped(stamp) => write!(f, "it is stamped already: {} {}", stamp.large, stamp.small),
            Self::OtherJob(old, new) => write!(f, "the two are of different jobs: {old} and {new}"),
            Self::NotLater(why) => f.write_str(why),
        }
    }
}

impl std::error::Error for NotSuperseded {}

/// The old package with a stamp on every page that says by which revision, and of which date, it is replaced.
///
/// The old bytes are an unchanged beginning of the answer. The date is that of the new package's job, never the clock's.
///
/// # Errors
/// [`NotSuperseded`] where one of the two is not a whole package of this program, or the new one does not replace the old one.
pub fn supersede(old: &[u8], new: &[u8]) -> Result<Vec<u8>, NotSuperseded> {
    let before = head(old, Which::Old)?.job;
    let after = head(new, Which::New)?.job;
    if let Some(stamp) = pdf::layers(old).into_iter().find_map(|layer| layer.stamp) {
        return Err(NotSuperseded::Stamped(stamp));
    }
    if named(&before) != named(&after) {
        return Err(NotSuperseded::OtherJob(named(&before).to_owned(), named(&after).to_owned()));
    }
    later(&before, &after)?;
    let number = if after.number.is_empty() { String::new() } else { format!("{} ", after.number) };
    let stamp = Stamp {
        large: "SUPERSEDED".into(),
        small: format!("by {number}revision {} of {}", after.revision, after.date),
        by: super::program(),
    };
    pdf::stamp(old, &stamp).map_err(|why| NotSuperseded::Unreadable(Which::Old, why))
}

/// What a package says of itself, where it is whole. A signature after it does no harm.
fn head(bytes: &[u8], which: Which) -> Result<Head, NotSuperseded> {
    let unreadable = |why| NotSuperseded::Unreadable(which, why);
    let carried = match (pdf::standing(bytes), Carried::of(bytes)) {
        (Standing::Altered, _) | (Standing::Missing, Ok(Some(_))) => return Err(NotSuperseded::Altered(which)),
        (Standing::Missing, Ok(None)) => return Err(unreadable(Unreadable("it was not written by this program".into()))),
        (_, Ok(None)) => return Err(NotSuperseded::CarriesNothing(which)),
        (_, carried) => carried.map_err(unreadable)?,
    };
    let carried = carried.ok_or(NotSuperseded::CarriesNothing(which))?;
    carried.known().map_err(unreadable)?;
    for layer in pdf::layers(bytes).iter().filter(|layer| layer.stamp.is_none()) {
        if let Some(what) = pdf::appended(layer).others.into_iter().next() {
            return Err(NotSuperseded::Appended(which, what));
        }
    }
    Ok(carried.head)
}

/// The signatures of a package, the first first: a stamp over them is an update after them.
pub fn signatures(package: &[u8]) -> Vec<Signature> {
    let appended = pdf::layers(package).into_iter().rev().filter(|layer| layer.stamp.is_none());
    appended.flat_map(|layer| pdf::appended(&layer).signatures).collect()
}

/// The number of a job; its title where it has none.
fn named(job: &JobInShort) -> &str {
    if job.number.is_empty() { &job.title } else { &job.number }
}

/// The later of two revisions has another mark, no earlier date, and a mark that comes later where the two can be compared.
fn later(before: &JobInShort, after: &JobInShort) -> Result<(), NotSuperseded> {
    let refused = |why: String| Err(NotSuperseded::NotLater(why));
    let (old, new) = (&before.revision, &after.revision);
    if old == new {
        return refused(format!("both are revision {old}"));
    }
    if after.date < before.date {
        return refused(format!("revision {new} is of {}, before revision {old} of {}", after.date, before.date));
    }
    match order_of_marks(old, new) {
        Some(Ordering::Less) => Ok(()),
        None if after.date > before.date => Ok(()),
        None => refused(format!("revisions {old} and {new} are of the same day: which is the later one cannot be told")),
        Some(_) => refused(format!("revision {new} does not come after revision {old}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn job(revision: &str, date: &str) -> JobInShort {
        let text = |text: &str| text.to_owned();
        JobInShort {
            title: text("A shed"),
            number: text("1"),
            revision: text(revision),
            date: text(date),
            code: text("american"),
            edition: String::new(),
            method: String::new(),
            loading: String::new(),
            units: String::new(),
        }
    }

    #[test]
    fn a_later_revision_is_known() {
        for (old, new, dates, is_later) in [
            ("A", "B", ["2026-01-05", "2026-02-03"], true),
            ("A", "B", ["2026-01-05", "2026-01-05"], true),
            ("Z", "AA", ["2026-01-05", "2026-01-05"], true),
            ("9", "10", ["2026-01-05", "2026-01-05"], true),
            ("P1", "P2", ["2026-01-05", "2026-01-05"], true),
            ("C", "0", ["2026-01-05", "2026-02-03"], true),
            ("C", "0", ["2026-01-05", "2026-01-05"], false),
            ("A", "A", ["2026-01-05", "2026-02-03"], false),
            ("B", "A", ["2026-01-05", "2026-02-03"], false),
            ("A", "B", ["2026-02-03", "2026-01-05"], false),
        ] {
            assert_eq!(later(&job(old, dates[0]), &job(new, dates[1])).is_ok(), is_later, "{old} {new} {dates:?}");
        }
    }
}
