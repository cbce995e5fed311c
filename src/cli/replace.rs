//! Whether a package may be written over another: nothing that somebody may have sent or signed is lost.

use super::output::Ruling;
use crate::package::{Carried, IssueLabel};
use crate::pdf::{self, Standing};
use crate::results::{Member, Results, ratio};

/// The most members that are named.
const NAMED: usize = 3;

/// What is to be written.
#[derive(Clone, Copy, Debug)]
pub(super) struct Next<'a> {
    /// Which issue it is.
    pub label: &'a IssueLabel,
    /// What was found.
    pub results: &'a Results,
    /// Whether the job file is watched: then each save writes over the last, regardless of the purpose.
    pub watches: bool,
}

/// Whether what is there may be written over.
pub(super) fn ruling(there: &[u8], next: Next) -> Ruling {
    let standing = pdf::standing(there);
    let elsewhere = "name another file with --output";
    match standing {
        Standing::Missing => return Err(format!("is there and is no package of this program: {elsewhere}")),
        Standing::Altered => return Err(format!("is a package that was altered since it was issued: {elsewhere}")),
        Standing::Whole | Standing::Appended { .. } => {}
    }
    if pdf::stamped(there).is_some() {
        return Err(format!("is a stamped copy of a package: {elsewhere}"));
    }
    let Some(label) = IssueLabel::carried(there) else {
        return Err(format!("does not say which issue it is (another document, or an earlier version wrote it): {elsewhere}"));
    };
    let what = format!("is the {} of {}", label.document.words(), label.issue());
    if !label.is_same_issue(next.label) {
        return Err(format!("{what}, not of {}: {elsewhere}", next.label.issue()));
    }
    if label.document != next.label.document {
        return Err(format!("{what}, not its {}: {elsewhere}", next.label.document.words()));
    }
    let revised = format!("give the job {}", next_revision(&label.revision));
    if matches!(standing, Standing::Appended { .. }) {
        return Err(format!("{what}, and something was appended to it after it was issued, such as a signature: {revised}"));
    }
    let differs = difference(&label, there, next);
    if label.is_for_review() || next.watches {
        return Ok(format!("issued for {} before; {differs}", label.issued_for));
    }
    Err(format!("{what}, was issued for {} and may have been sent; {differs}: {revised}", label.issued_for))
}

/// What differs between the package that is there and the next one.
fn difference(label: &IssueLabel, there: &[u8], next: Next) -> String {
    let job = if label.job == next.label.job { "the job file is the same" } else { "the job file differs" };
    let results = if label.results == next.label.results {
        "the results are the same".to_owned()
    } else {
        let former = Carried::of(there).ok().flatten().and_then(|carried| carried.results().ok());
        match former.map(|former| moved(&next.results.members, &former)).filter(|moved| !moved.is_empty()) {
            Some(moved) => format!("the results differ: {moved}"),
            None => "the results differ".to_owned(),
        }
    };
    if job.ends_with("same") && results.ends_with("same") {
        return "job file and results are the same, the pages differ".to_owned();
    }
    format!("{job}, {results}")
}

/// The members whose governing ratio prints otherwise than before, the first few of them; empty where none does.
pub(super) fn moved(members: &[Member], former: &Results) -> String {
    let moved = |member: &Member| {
        let now = ratio(member.governing.ratio);
        match former.member(&member.mark) {
            Some(before) => {
                let before = ratio(before.governing.ratio);
                (before != now).then(|| format!("{} {before} → {now}", member.mark))
            }
            None => Some(format!("{} is new, {now}", member.mark)),
        }
    };
    some(members.iter().filter_map(moved).collect())
}

/// The first few of a list.
pub(super) fn some(mut list: Vec<String>) -> String {
    let more = list.len().saturating_sub(NAMED);
    list.truncate(NAMED);
    if more > 0 {
        list.push(format!("{more} more"));
    }
    list.join(", ")
}

/// The revision after this one, where it can be told.
fn next_revision(revision: &str) -> String {
    let next = match revision.as_bytes() {
        [letter @ (b'A'..=b'Y' | b'a'..=b'y')] => Some(char::from(letter + 1).to_string()),
        digits if digits.len() < 9 && digits.iter().all(u8::is_ascii_digit) => {
            revision.parse::<u32>().ok().map(|number| format!("{:0width$}", number + 1, width = revision.len()))
        }
        _ => None,
    };
    next.map_or_else(|| "a new revision".to_owned(), |next| format!("a new revision (such as {next})"))
}

#[cfg(test)]
mod tests {
    use super::next_revision;

    #[test]
    fn the_next_revision_is_named_where_it_is_known() {
        for (revision, next) in [("A", "(such as B)"), ("y", "(such as z)"), ("3", "(such as 4)"), ("09", "(such as 10)")] {
            assert!(next_revision(revision).ends_with(next), "{revision}");
        }
        for revision in ["Z", "", "A1", "R.2", "999999999"] {
            assert_eq!(next_revision(revision), "a new revision", "{revision}");
        }
    }
}
