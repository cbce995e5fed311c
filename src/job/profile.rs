//! Profiles of places: what authorities ask for differently, as data files that name their sources.
//!
//! A profile holds only what was read in a source that it names; what it leaves out is as everywhere. Nothing is drawn from a profile that
//! a calculation hangs on.

use serde::Deserialize;
use std::sync::LazyLock;

/// A rule of a place, with where it was read.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rule<T> {
    /// What it says.
    pub value: T,
    /// Where.
    pub source: String,
    /// `read`, `from memory`, `common practice, no source`.
    pub status: String,
}

/// A place's habits.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Profile {
    /// The word of the job file.
    pub name: String,
    /// The place in words.
    pub words: String,
    /// What the cover of an issue for review says.
    pub preliminary_legend: Option<Rule<String>>,
    /// Whether the cover of an issue for review has room for a seal; left out: it has.
    pub preliminary_seal_space: Option<Rule<YesNo>>,
    /// A package's name, with `{number}` and `{revision}` in it; left out: as everywhere.
    pub file_name: Option<Rule<String>>,
    /// Page size where the job file names none.
    pub paper: Option<Rule<String>>,
    /// For how many years a package is kept, counted here from its date.
    pub retention_years: Option<Rule<u16>>,
}

/// `yes` or `no`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs)]
pub enum YesNo {
    Yes,
    No,
}

/// Names of all profiles, the neutral one first.
pub const NAMES: &[&str] = &["neutral", "british-columbia", "florida", "ireland", "quebec", "texas", "washington"];

const FILES: [&str; 7] = [
    include_str!("profiles/neutral.yaml"),
    include_str!("profiles/british-columbia.yaml"),
    include_str!("profiles/florida.yaml"),
    include_str!("profiles/ireland.yaml"),
    include_str!("profiles/quebec.yaml"),
    include_str!("profiles/texas.yaml"),
    include_str!("profiles/washington.yaml"),
];

static PROFILES: LazyLock<Vec<Profile>> = LazyLock::new(|| FILES.iter().filter_map(|file| serde_yaml::from_str(file).ok()).collect());

impl Profile {
    /// The profile of a name; the neutral one where no place has it.
    pub fn of(name: &str) -> &'static Self {
        PROFILES.iter().find(|profile| profile.name == name).unwrap_or(&PROFILES[0])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_profile_can_be_read_and_names_its_sources() {
        for (name, file) in NAMES.iter().zip(FILES) {
            let profile: Profile = serde_yaml::from_str(file).unwrap_or_else(|why| panic!("{name}: {why}"));
            assert_eq!(profile.name, *name);
            let Profile { preliminary_legend, preliminary_seal_space, file_name, paper, retention_years, .. } = profile;
            let sources = [
                preliminary_legend.map(|rule| (rule.source, rule.status)),
                preliminary_seal_space.map(|rule| (rule.source, rule.status)),
                file_name.map(|rule| (rule.source, rule.status)),
                paper.map(|rule| (rule.source, rule.status)),
                retention_years.map(|rule| (rule.source, rule.status)),
            ];
            let mut held = 0;
            for (source, status) in sources.into_iter().flatten() {
                assert!(!source.is_empty() && ["read", "from memory", "common practice, no source"].contains(&status.as_str()), "{name}");
                held += 1;
            }
            assert!(held > 0, "{name} holds nothing");
        }
        assert_eq!(Profile::of("neutral").name, "neutral");
        assert_eq!(Profile::of("no such place").name, "neutral");
    }
}
