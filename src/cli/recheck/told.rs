//! What was found of a package, in words.

use crate::package::BUILD;
use crate::pdf::{Appended, Kind, Signature, Standing, Unreadable};
use crate::study::{Compared, Difference, Pages, Recheck, Verdict};

/// The most differences of a member, or outside the members, that are printed.
const MOST: usize = 12;

/// The answer, then why, then member by member.
pub(super) fn told(found: &Recheck) -> String {
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
    text.push_str(&appended(&found.appended));
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

/// What something else appended: signatures by the names of their fields, and all that is no part of a signature.
pub(super) fn appended(appended: &[Appended]) -> String {
    let signatures: Vec<String> = appended.iter().rev().flat_map(|one| &one.signatures).map(signature).collect();
    let others = others(appended);
    let mut text = String::new();
    if !signatures.is_empty() {
        let after = if others.is_empty() { "signed after issue, content unchanged" } else { "signed after issue" };
        text.push_str(&format!("\n  {after}: {}; whether a signature is valid, and whose, your PDF reader says", signatures.join(", ")));
    }
    if !others.is_empty() {
        text.push_str("\n  appended after issue, and no signature:");
        for other in others.iter().take(MOST) {
            text.push_str(&format!("\n    {other}"));
        }
        if let Some(more) = others.len().checked_sub(MOST).filter(|more| *more > 0) {
            text.push_str(&format!("\n    and {more} more"));
        }
    }
    text
}

/// What was appended that is no signature; names in it come from the file, and are shown on one line.
pub(super) fn others(appended: &[Appended]) -> Vec<String> {
    let plain = |text: &String| text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(160).collect();
    appended.iter().rev().flat_map(|one| &one.others).map(plain).collect()
}

fn signature(signature: &Signature) -> String {
    let kind = match signature.kind {
        Kind::Signature => "signature",
        Kind::Certification { .. } => "certification",
        Kind::TimeStamp => "time stamp",
    };
    format!("{kind} {}", signature.field)
}

fn pages(found: &Recheck) -> String {
    match &found.pages {
        Pages::Same => format!("issued again, all {} bytes are the same", found.bytes),
        Pages::Differ { at } => format!("issued again by the same build, they differ first at byte {at} of {}", found.bytes),
        Pages::OtherBuild { build, at } => {
            let other = if build.is_empty() { "a build without a name".to_owned() } else { format!("build {build}") };
            format!("made by {other} of this version, this is {BUILD}: it draws other bytes from {at} of {} on", found.bytes)
        }
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
