//! The file name of a package: job number and revision, in letters that every file system and authority takes.

use super::Build;
use crate::job::model::About;
use crate::job::profile::Profile;
use crate::pdf;

/// The most characters of a package's name: some authorities take no more.
const LONGEST: usize = 60;
/// Digits of the hash behind a name that is not the number and revision themselves.
const DIGITS: usize = 8;
/// What stands behind the names of other files of an issue; a revision of such a name must not look like one of them.
const TAILS: [&str; 4] = ["submittal", "checking", "authentication", "superseded"];

/// The name of a package's file. `stem` stands for the number of a job that has none.
///
/// Two jobs or revisions never share a name: where number and revision cannot stand as they are, because of a character, their length or
/// a dash that would leave open where one ends, eight digits of a hash of both stand behind them.
pub fn file_name(about: &About, jurisdiction: &str, build: Build, stem: &str) -> String {
    let (number, revision) = (about.number.as_deref().unwrap_or(stem), about.revision.as_str());
    let tail = match build {
        Build::Record => "",
        Build::Submittal => "-submittal",
        Build::Checking => "-checking",
    };
    let pattern = Profile::of(jurisdiction).file_name.as_ref().map_or("{number}-{revision}", |rule| &rule.value);
    let fixed = pattern.replace("{number}", "").replace("{revision}", "").chars().count() + tail.len() + ".pdf".len();
    let room = LONGEST.saturating_sub(fixed);
    let length = number.chars().count() + revision.chars().count();
    let (number, revision) = if is_plain(number) && is_plain_revision(revision) && length <= room {
        (number.to_owned(), revision.to_owned())
    } else {
        let hash = &pdf::sha256(format!("{number}\0{revision}").as_bytes())[..DIGITS];
        let room = room.saturating_sub(DIGITS + 1);
        let revision: String = replaced(revision).chars().take(room / 2).collect();
        let number: String = replaced(number).chars().take(room - revision.chars().count()).collect();
        (number, format!("{revision}-{hash}"))
    };
    format!("{}{tail}.pdf", pattern.replace("{number}", &number).replace("{revision}", &revision))
}

/// Whether a number can stand as it is, and is not taken for one with a hash behind it.
fn is_plain(number: &str) -> bool {
    !number.is_empty() && replaced(number) == number
}

/// Whether a revision can stand as it is behind a dash.
fn is_plain_revision(revision: &str) -> bool {
    let is_hash = revision.len() == DIGITS && revision.bytes().all(|byte| byte.is_ascii_hexdigit());
    is_plain(revision) && !revision.contains('-') && !is_hash && !TAILS.contains(&revision)
}

/// A text without what could lead out of a folder or hide a file.
fn replaced(text: &str) -> String {
    let plain = |(at, c): (usize, char)| if c.is_alphanumeric() || matches!(c, '-' | '_') || (c == '.' && at > 0) { c } else { '-' };
    text.chars().enumerate().map(plain).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    fn name(number: Option<&str>, revision: &str, build: Build) -> String {
        let text = include_str!("../../examples/three-failures.yaml");
        let source = crate::text::Source::read("job.yaml", text.as_bytes()).unwrap_or_else(|f| panic!("{f:?}"));
        let job = crate::job::read(&source).whole().unwrap_or_else(|f| panic!("{f:?}"));
        let about = About { number: number.map(str::to_owned), revision: revision.to_owned(), ..job.about };
        file_name(&about, "neutral", build, "office-file")
    }

    #[test]
    fn a_plain_number_is_its_own_name() {
        for (number, revision, build, expected) in [
            (Some("26-114"), "A", Build::Record, "26-114-A.pdf"),
            (Some("26-114"), "A", Build::Submittal, "26-114-A-submittal.pdf"),
            (Some("26.114_b"), "2", Build::Checking, "26.114_b-2-checking.pdf"),
            (None, "A", Build::Record, "office-file-A.pdf"),
        ] {
            assert_eq!(name(number, revision, build), expected);
        }
    }

    #[test]
    fn no_two_issues_share_a_name() {
        let long = ["7".repeat(80), "7".repeat(81), format!("{}8", "7".repeat(79)), "7".repeat(54), "7".repeat(55)];
        let numbers = ["a/b", "a-b", "a b", "a:b", "a\\b", "../a", "..-a", ".a", "-a", "26", "26-A", "26-1", "№ 7", "N 7", "\u{1b}x", "x"];
        let revisions = ["A", "1-A", "B/1", "B-1", "submittal", "A-submittal", "12345678"];
        let mut known = BTreeMap::new();
        for number in numbers.into_iter().chain(long.iter().map(String::as_str)) {
            for revision in revisions {
                for build in [Build::Record, Build::Submittal, Build::Checking] {
                    let name = name(Some(number), revision, build);
                    assert!(name.chars().count() <= LONGEST && !name.starts_with('.') && !name.contains(['/', '\\', '\u{1b}']), "{name}");
                    let issue = format!("{number:?} {revision} {build:?}");
                    assert_eq!(known.insert(name.clone(), issue.clone()), None, "{name} of {issue}");
                }
            }
        }
        // A number that is written as the name of another with its hash is not that name.
        let taken = name(Some("a/b"), "A", Build::Record);
        assert_ne!(name(Some(taken.trim_end_matches(".pdf")), "A", Build::Record), taken);
    }
}
