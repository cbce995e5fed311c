//! The shipped example, changed: every part of the walk is held against a job file that was edited by hand.

use super::{Former, Refused, between};
use crate::results::Verdict;
use crate::results::reissue::{Cause, ChangedMember, Reissue};
use crate::text::Source;
use crate::{Checked, check};
use std::collections::BTreeSet;

const JOB: &str = include_str!("../../../examples/cider-house.yaml");

fn checked(text: &str) -> (Source, Checked) {
    let source = Source::read("job.yaml", text.as_bytes()).unwrap_or_else(|f| panic!("{f:?}"));
    let checked = check(&source, false).unwrap_or_else(|f| panic!("{f:#?}"));
    (source, checked)
}

fn former(text: &str) -> Former {
    let (_, found) = checked(text);
    let attached = serde_json::to_vec(&found.results).expect("JSON");
    Former::of(&[("job.yaml".into(), text.into()), ("results.json".into(), attached)]).unwrap_or_else(|why| panic!("{why}"))
}

/// The text with each left side, which stands in it once, replaced by its right side.
fn edited(text: &str, edits: &[(&str, &str)]) -> String {
    edits.iter().fold(text.to_owned(), |text, (from, to)| {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text.replace(from, to)
    })
}

fn revised(text: &str) -> String {
    let first = "    - {mark: A, date: 2026-05-11, note: First issue}\n";
    let second = format!("{first}    - {{mark: B, date: 2026-06-01, note: Second issue}}\n");
    edited(text, &[("  revision: A\n", "  revision: B\n"), (first, &second)])
}

fn reissue(old: &str, new: &str) -> Reissue {
    let (source, now) = checked(new);
    between(&former(old), &source, &now).unwrap_or_else(|why| panic!("{why}"))
}

fn ratio(text: &str, mark: &str) -> f64 {
    checked(text).1.results.member(mark).unwrap_or_else(|| panic!("{mark}")).governing.ratio
}

fn ratios_of(member: &ChangedMember) -> Vec<f64> {
    member.parts.iter().map(|part| part.ratio).collect()
}

const SNOW: (&str, &str) = ("roof-live: 20 psf, snow: 27 psf, wind: -17 psf}", "roof-live: 20 psf, snow: 36 psf, wind: -17 psf}");
const WINDOW: (&str, &str) = ("    spans: [4 ft 6 in]\n", "    spans: [6 ft]\n");

#[test]
fn a_load_and_a_span_are_two_parts_each_as_if_edited_by_hand() {
    let new = revised(&edited(JOB, &[SNOW, WINDOW]));
    let change = reissue(JOB, &new);
    let said: Vec<_> = change.inputs.iter().map(|i| (i.of.as_str(), i.item.as_str(), i.former.as_deref(), i.now.as_deref())).collect();
    assert_eq!(said, [("area roof", "snow", Some("27 psf"), Some("36 psf")), ("H2", "span", Some("4 ft 6 in"), Some("6 ft"))]);
    assert_eq!(change.steps, [[0], [1]]);
    // H2 carries the rafters: both changes move it.
    let h2 = change.changed("H2").expect("H2 changed");
    assert_eq!(ratios_of(h2), [ratio(&edited(JOB, &[SNOW]), "H2"), ratio(&new, "H2")]);
    assert!(h2.own && h2.former.ratio == ratio(JOB, "H2") && h2.now.ratio == ratio(&new, "H2"));
    // The rafter and the ridge are moved by the snow alone; the ridge's own keys are as they were.
    let rb1 = change.changed("RB1").expect("RB1 changed");
    assert_eq!((rb1.own, &rb1.chains), (false, &vec![vec!["area roof".to_owned(), "R1".to_owned()]]));
    assert_eq!(rb1.parts.iter().map(|part| part.cause).collect::<Vec<_>>(), [Cause::Step(0)]);
    assert_eq!(ratios_of(rb1), [ratio(&new, "RB1")]);
    assert!(change.unchanged.contains(&"B2".to_owned()) && change.changed("B2").is_none());
}

#[test]
fn the_parts_of_every_member_end_at_its_present_ratio() {
    let edits = [
        SNOW,
        WINDOW,
        ("    spans: [12 ft 9 in]\n", "    spans: [13 ft 9 in]\n"),
        ("    section: 6x14\n", "    section: 6x16\n"),
        ("  gallery: {dead: 8 psf, live: 100 psf}", "  gallery: {dead: 9 psf, live: 100 psf}"),
        ("    conditions: {moisture: wet, incised: yes}\n    braced: {top: continuous}", "    braced: {top: continuous}"),
        ("    {layer: Slates, weight: 7.5 psf}", "    {layer: Slates, weight: 8.5 psf}"),
    ];
    let edits: Vec<_> = edits.into_iter().filter(|(from, _)| JOB.matches(from).count() == 1).collect();
    assert!(edits.len() >= 6);
    let change = reissue(JOB, &revised(&edited(JOB, &edits)));
    assert!(change.changed.len() >= 8, "{:?}", change.changed.iter().map(|m| &m.mark).collect::<Vec<_>>());
    for member in &change.changed {
        let last = member.parts.last().map_or(member.former.ratio, |part| part.ratio);
        assert_eq!(last, member.now.ratio, "{}", member.mark);
        assert!(member.own || !member.chains.is_empty() || member.parts.is_empty(), "{} changed out of nothing", member.mark);
    }
}

#[test]
fn only_what_differs_is_told() {
    // Other order of members, of keys, of words that say the same, and remarks.
    let (head, members) = JOB.split_once("members:\n").expect("members");
    let at = members.find("  - mark: C1").expect("C1");
    let end = members.find("  # ---- tasting").expect("tasting");
    let moved = format!("{head}members:\n{}{}{}", &members[at..end], &members[..at], &members[end..]);
    let moved = edited(&moved, &[("{dead: 5 psf, live: 20 psf}", "{live: 20 psf, dead: 5 psf} # as before")]);
    let change = reissue(JOB, &revised(&moved));
    assert_eq!((change.inputs.len(), change.changed.len(), change.steps.len()), (0, 0, 0));
    assert_eq!(change.unchanged.len(), 15);
    assert_eq!(change.kept_revisions.iter().map(|row| row.mark.as_str()).collect::<Vec<_>>(), Vec::<&str>::new());
}

#[test]
fn what_is_valid_only_together_is_one_step() {
    // One span has two bearings and rests on two supports, two spans have three of each: none of the lists may change alone.
    let single = edited(
        JOB,
        &[
            (
                "    spans: [6 ft 6 in, 6 ft 6 in]\n    bearing: [3-1/2 in, 5-1/2 in, 3-1/2 in]\n",
                "    spans: [6 ft 6 in]\n    bearing: [3-1/2 in, 5-1/2 in]\n",
            ),
            ("rests-on: [gallery post, gallery post, gallery post]", "rests-on: [gallery post, gallery post]"),
            WINDOW,
        ],
    );
    let change = reissue(JOB, &revised(&single));
    let said: Vec<_> = change.inputs.iter().map(|i| (i.mark.as_str(), i.item.as_str())).collect();
    assert_eq!(said, [("H2", "span"), ("B3", "spans"), ("B3", "bearing"), ("B3", "rests on")]);
    assert_eq!(change.steps, [vec![0], vec![1, 2, 3]]);
    assert_eq!(change.not_walked, "");
}

#[test]
fn what_has_to_wait_for_another_is_a_step_after_it() {
    // The span cannot shrink before the load at its far end has moved.
    let shorter = edited(
        JOB,
        &[
            ("    spans: [7 ft, 8 ft 3 in]\n", "    spans: [7 ft, 6 ft 3 in]\n"),
            ("from: 16 ft 9 in, to: 17 ft 3 in}", "from: 14 ft 9 in, to: 15 ft 3 in}"),
        ],
    );
    let change = reissue(JOB, &revised(&shorter));
    let said: Vec<_> = change.inputs.iter().map(|i| (i.mark.as_str(), i.item.as_str())).collect();
    assert_eq!(said, [("J2", "span 2"), ("J2", "line load, dead, from"), ("J2", "line load, dead, to")]);
    assert_eq!(change.steps, [[1], [2], [0]]);
}

#[test]
fn a_member_that_rests_on_another_by_its_place_is_walked_without_what_else_it_rests_on() {
    // B2 rests on HB1, J1 on B2 and on W9 alike: where the depth of HB1 changes alone, W9 is not computed again.
    let member = |mark: &str, rest: &str| {
        format!(
            "  - {{mark: {mark}, use: beam, section: 4x12, material: {{species: Douglas Fir-Larch, grade: No.1}}, spans: [9 ft], {rest}}}\n"
        )
    };
    let job = |section: &str, first: &str| {
        format!(
            "job: {{title: T, number: 1, date: 2026-03-18, revision: {}}}\nbasis: {{code: american}}\nmembers:\n{}{}{}{}",
            if section == "4x12" { "A" } else { "B" },
            member("B2", "rests-on: [{mark: HB1, at: 3 ft}, pier]"),
            member("HB1", "rests-on: [pier, pier]").replace("4x12", section),
            member("W9", "rests-on: [pier, pier]"),
            member("J1", &format!("rests-on: [{first}], loads: [{{line: 90 plf, case: live}}]")),
        )
    };
    let (former_job, now_job) =
        (job("4x12", "{mark: B2, at: 2 ft}, {mark: W9, at: 2 ft}"), job("4x14", "{mark: B2, at: 2 ft}, {mark: W9, at: 2 ft}"));
    let change = reissue(&former_job, &now_job);
    assert_eq!(change.changed.iter().map(|c| c.mark.as_str()).collect::<Vec<_>>(), ["HB1"]);
    assert_eq!((change.not_walked.as_str(), change.steps.clone()), ("", vec![vec![0]]));
    // A place on W9 alone reaches W9 alone; supports that change places are two inputs.
    let moved = job("4x14", "{mark: B2, at: 2 ft}, {mark: W9, at: 4 ft}");
    let change = reissue(&former_job, &moved);
    let said: Vec<_> = change.inputs.iter().map(|i| (i.mark.as_str(), i.item.as_str())).collect();
    assert_eq!(said, [("HB1", "section"), ("J1", "rests on, support 2, at")]);
    assert_eq!(change.steps, vec![vec![0], vec![1]]);
    assert_eq!(change.changed.iter().map(|c| c.mark.as_str()).collect::<BTreeSet<_>>(), BTreeSet::from(["HB1", "W9"]));
    let swapped = job("4x14", "{mark: W9, at: 2 ft}, {mark: B2, at: 2 ft}");
    assert_eq!(reissue(&former_job, &swapped).inputs.len(), 3);
}

#[test]
fn members_that_come_and_go_are_listed() {
    let at = JOB.find("  - mark: C1").expect("C1");
    let end = JOB.find("  # ---- tasting").expect("tasting");
    let new = JOB[at..end].replace("C1", "C9");
    let change = reissue(JOB, &revised(&format!("{}{new}{}", &JOB[..at], &JOB[end..])));
    assert_eq!((change.added.as_slice(), change.withdrawn.len()), (["C9".to_owned()].as_slice(), 1));
    assert_eq!(change.withdrawn[0].mark, "C1");
    assert!(change.touches("C9") && !change.touches("B2") && change.changed.is_empty());
}

#[test]
fn a_new_failure_stands_first() {
    let change = reissue(JOB, &revised(&edited(JOB, &[SNOW, ("    spans: [6 ft 6 in, 6 ft 6 in]\n", "    spans: [12 ft, 12 ft]\n")])));
    let first = &change.changed[0];
    assert_eq!((first.mark.as_str(), first.former.verdict, first.now.verdict), ("B3", Verdict::Passes, Verdict::Fails));
    assert!(change.changed[1].now.verdict.passes());
}

#[test]
fn another_job_and_the_same_revision_are_refused() {
    let (source, now) = checked(JOB);
    assert_eq!(between(&former(JOB), &source, &now).err(), Some(Refused::SameRevision(now.results.job.revision.clone())));
    let other = edited(&revised(JOB), &[("  number: 26-114\n", "  number: 26-115\n")]);
    let (source, now) = checked(&other);
    assert!(matches!(between(&former(JOB), &source, &now), Err(Refused::OtherJob { .. })));
    assert_eq!(Former::of(&[("job.yaml".into(), JOB.into())]).err(), Some(Refused::NothingAttached));
}

#[test]
fn results_of_another_version_are_a_cause_of_their_own() {
    let mut issued = former(JOB);
    issued.results.program.version = "0.0.9".into();
    let h2 = issued.results.members.iter_mut().find(|m| m.mark == "H2").expect("H2");
    h2.governing.ratio -= 0.01;
    let before = h2.governing.ratio;
    let (source, now) = checked(&revised(&edited(JOB, &[WINDOW])));
    let change = between(&issued, &source, &now).unwrap_or_else(|why| panic!("{why}"));
    let h2 = change.changed("H2").expect("H2 changed");
    assert_eq!(h2.former.ratio, before);
    assert_eq!(h2.parts.iter().map(|part| part.cause).collect::<Vec<_>>(), [Cause::Program, Cause::Step(0)]);
}
