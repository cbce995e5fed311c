//! What every code takes for granted of a member, and the register of it.

use super::{Assumed, Origin};
use crate::job::model::{Bracing, Case, Job, LoadKind, Member, Nature, Use};

const TOP_FREE: &str = "The top edge is held at supports only.";
const BOTTOM_FREE: &str = "The bottom edge is held at supports only.";

/// The assumptions of a member as they are collected: a code says its own, and has said what holds under all codes.
pub(super) struct Assuming<'a> {
    job: &'a Job,
    member: &'a Member,
    /// Who confirms what is not said otherwise.
    preparer: &'a str,
    list: Vec<Assumed>,
}

impl<'a> Assuming<'a> {
    /// Nothing yet.
    pub(super) fn of(job: &'a Job, member: &'a Member) -> Self {
        let preparer = job.about.prepared_by.as_deref().unwrap_or("engineer of record");
        Self { job, member, preparer, list: Vec::new() }
    }

    /// What has been collected.
    pub(super) fn list(self) -> Vec<Assumed> {
        self.list
    }

    /// Takes over what has been said already.
    pub(super) fn take(&mut self, assumed: impl IntoIterator<Item = Assumed>) {
        self.list.extend(assumed);
    }

    /// Something that nobody has to confirm.
    pub(super) fn say(&mut self, topic: &'static str, text: &str, from: Origin) {
        self.add(topic, text, from, "", false);
    }

    /// Something that the preparer answers for.
    pub(super) fn confirm(&mut self, topic: &'static str, text: &str, from: Origin) {
        self.add(topic, text, from, self.preparer, false);
    }

    /// Something that is open until the preparer has confirmed it.
    pub(super) fn ask(&mut self, topic: &'static str, text: &str, from: Origin) {
        self.add(topic, text, from, self.preparer, true);
    }

    /// Something that is open, and another's to confirm.
    pub(super) fn leave(&mut self, topic: &'static str, text: &str, from: Origin) {
        self.add(topic, text, from, "", true);
    }

    fn add(&mut self, topic: &'static str, text: &str, from: Origin, confirm: &str, open: bool) {
        self.list.push(Assumed { topic, text: text.to_owned(), from, confirm: confirm.to_owned(), open });
    }

    /// Whether the reader took a sentence as a default for the member.
    fn source_of(&self, text: &str) -> Origin {
        let taken = self.job.defaults.iter().any(|d| d.text == text && d.members.contains(&self.member.mark.value));
        if taken { Origin::Default } else { Origin::JobFile }
    }

    /// How the edges are held; the bottom edge where something may compress it and nothing holds it.
    pub(super) fn edges(&mut self) {
        match &self.member.top {
            Bracing::Sheathed => self.confirm("top edge", "Sheathing fixed to the top edge holds it throughout.", Origin::JobFile),
            Bracing::Continuous => {
                self.confirm("top edge", "The top edge is held throughout, by other means than sheathing.", Origin::JobFile)
            }
            Bracing::None => self.confirm("top edge", TOP_FREE, self.source_of(TOP_FREE)),
            Bracing::Every(_) | Bracing::Places(_) => {
                self.confirm("top edge", "The top edge is held at the points shown on the sheet.", Origin::JobFile)
            }
        }
        if self.member.spans.panels() > 1 && matches!(self.member.bottom, Bracing::None) {
            self.confirm("bottom edge", BOTTOM_FREE, self.source_of(BOTTOM_FREE));
        }
    }

    /// Notches; `cut` says how those are that are given.
    pub(super) fn notches(&mut self, cut: &str) {
        if self.member.notches.is_empty() {
            self.confirm("notches", "No notches; no holes.", Origin::Default);
        } else {
            self.confirm("notches", cut, Origin::JobFile);
        }
    }

    /// Bearings; `given` says what is taken of those that are given, and `from` where that is settled.
    pub(super) fn bearings(&mut self, given: &str, from: Origin) {
        if self.member.bearing.is_some() {
            return self.confirm("bearing", given, from);
        }
        let text = "No bearing lengths given: bearing is not checked, and the support line stands for the face of the support.";
        self.ask("bearing", text, Origin::Default);
    }

    /// How received reactions are taken; `points`: tried as single points too.
    pub(super) fn handed_down(&mut self, points: bool) {
        if !self.member.loads.iter().any(|l| matches!(l.kind, LoadKind::Reaction { .. } | LoadKind::Thrust { .. })) {
            return;
        }
        let text = "A received reaction is, by case, that of the load set that makes it largest, then smallest; all stand so together.";
        let tried = " Where a span holds fewer than six of them, they are tried as rows of concentrated loads too, with one at each mid-span and tip in turn.";
        self.say("handed down", &format!("{text}{}", if points { tried } else { "" }), Origin::Reading(5));
    }

    /// The roof loads that a roof member's own loads leave out; `words`: what the code calls roof live load and snow that is not even.
    pub(super) fn roof_loads(&mut self, words: [&str; 2]) {
        let natures: Vec<Nature> = natures_of(self.job, self.member).collect();
        if self.member.role != Use::Rafter && !natures.iter().any(|n| matches!(n, Nature::Snow | Nature::RoofLive)) {
            return;
        }
        let [roof_live, snow] = words;
        let missing: Vec<&str> = [
            (!natures.contains(&Nature::Wind)).then_some("wind, uplift among it,"),
            (!natures.contains(&Nature::RoofLive)).then_some(roof_live),
            own_snow(self.job, self.member).is_empty().then_some(snow),
        ]
        .into_iter()
        .flatten()
        .collect();
        let text = match missing.as_slice() {
            [] => return,
            [one] => format!("No {} is given: it does not govern, or is added by others.", one.trim_end_matches(',')),
            [head @ .., last] => format!("No {} and no {last} is given: they do not govern, or are added by others.", head.join(" no ")),
        };
        self.ask("roof loads", &text, Origin::Default);
    }
}

/// Whether live load comes to a member, by its own loads or down the load path.
pub(super) fn bears_live(job: &Job, entry: &Member) -> bool {
    job.down_to(entry).any(|member| natures_of(job, member).any(|nature| nature == Nature::Live))
}

/// The natures of a member's own loads.
pub(super) fn natures_of<'j>(job: &'j Job, member: &'j Member) -> impl Iterator<Item = Nature> + 'j {
    job.own_cases(member).map(|case| job.basis.nature(case))
}

/// Names of the engineer's own cases of snow that load a member itself.
pub(super) fn own_snow<'a>(job: &'a Job, member: &Member) -> Vec<&'a str> {
    let mut own: Vec<Case> = job.own_cases(member).filter(|case| case.0 >= Nature::ALL.len()).collect();
    own.sort_unstable();
    own.dedup();
    let cases = own.into_iter().map(|case| &job.basis.cases[case.0]);
    cases.filter(|case| case.nature == Nature::Snow).map(|case| case.name.as_str()).collect()
}

/// Whether the top of a member may be in tension: over an inner support, on an overhang, or under a load that acts upward.
pub(super) fn may_hog(job: &Job, member: &Member) -> bool {
    member.spans.panels() > 1 || !member.tie_up.is_zero() || may_lift(job, member)
}

/// Whether an edge that may be in compression is not held throughout.
pub(super) fn may_turn_over(job: &Job, member: &Member) -> bool {
    !member.top.is_throughout() || (may_hog(job, member) && !member.bottom.is_throughout())
}

/// Whether a load may act upward on a member: one of its own, or the reaction of a member above that may lift.
fn may_lift(job: &Job, member: &Member) -> bool {
    let own = |one: &Member| {
        one.loads.iter().any(|load| match &load.kind {
            LoadKind::Line { start, end, .. } => start.value() < 0.0 || end.value() < 0.0,
            LoadKind::Point { force, .. } | LoadKind::Axial { force, .. } => force.value() < 0.0,
            LoadKind::Moment { .. } => true,
            LoadKind::Area { area, .. } => job.areas[*area].loads.iter().any(|one| one.load.value() < 0.0),
            LoadKind::Thrust { .. } | LoadKind::Reaction { .. } => false,
        })
    };
    own(member) || job.down_to(member).skip(1).any(|above| own(above) || above.spans.panels() > 1)
}
