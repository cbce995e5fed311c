//! Supports that look as if a member of the job carried them, and none does.

use super::Warning;
use super::words::Words;
use crate::job::model::{Arrival, Job, Load, LoadKind, Member, Placed, Use};

pub(super) fn warnings(job: &Job) -> Vec<Warning> {
    let mut all = Vec::new();
    for (index, giver) in job.members.iter().enumerate() {
        for (support, names) in (1..).zip(&giver.rests_on) {
            all.extend(names.iter().filter_map(|name| names_a_member(job, giver, support, name)));
        }
        let supports = if giver.role.is_upright() { 1 } else { giver.spans.spans.len() + 1 };
        all.extend((1..=supports).filter_map(|support| one_of_a_row(job, (index, giver), support)));
        all.extend(pull_along(job, index, giver));
    }
    all
}

/// A name with a mark in it, `post P1`, is that of something outside of the job: P1 receives nothing by it.
fn names_a_member(job: &Job, giver: &Member, support: usize, name: &Placed<String>) -> Option<Warning> {
    let marks = || job.members.iter().map(|member| member.mark.value.as_str());
    if marks().any(|mark| mark == name.value) {
        return None;
    }
    let mut words = name.value.split(|c: char| !c.is_ascii_alphanumeric() && c != '.');
    let mark = words.find_map(|word| marks().find(|mark| mark.eq_ignore_ascii_case(word)))?;
    let from = &giver.mark.value;
    let text =
        format!("{from}, support {support}, rests on `{}`: {mark} is a member of this job and does not receive it there.", name.value);
    let help = format!("write `{mark}` alone, and the reaction is handed on to it");
    Some(Warning::new("mark-in-name", &format!("{from} {support} {}", name.value), text, &help, name.span).of(&[from, mark]))
}

/// A tie whose reaction is received: that is its reaction across its length, never the pull along it.
fn pull_along(job: &Job, index: usize, tie: &Member) -> Option<Warning> {
    let pulled = tie.role == Use::Tie && tie.loads.iter().any(|load| matches!(load.kind, LoadKind::Axial { .. }));
    let here = |load: &&Load| matches!(&load.kind, LoadKind::Reaction { from_member, .. } if *from_member == index);
    let (receiver, load) = job.members.iter().filter(|_| pulled).find_map(|member| Some((member, member.loads.iter().find(here)?)))?;
    let (mark, from) = (&receiver.mark.value, &tie.mark.value);
    let text = format!("{mark} receives what loads {from} across its length, not the pull along it.");
    let help = format!("give {mark} the pull as a load of its own, or confirm that something else takes it");
    Some(Warning::new("pull-not-received", &format!("{mark} {from}"), text, &help, load.span).of(&[mark, from]))
}

/// A row that is received once, at one place or by one post, and by nothing else.
fn one_of_a_row(job: &Job, (index, giver): (usize, &Member), support: usize) -> Option<Warning> {
    let spacing = giver.spacing.as_ref()?;
    let here =
        |load: &&Load| matches!(&load.kind, LoadKind::Reaction { from_member, support: s, .. } if *from_member == index && *s == support);
    let received: Vec<(&Member, &Load)> =
        job.members.iter().flat_map(|member| member.loads.iter().filter(here).map(move |load| (member, load))).collect();
    let single = |(member, load): &(&Member, &Load)| match &load.kind {
        LoadKind::Reaction { arrives: Arrival::At(_), .. } => true,
        LoadKind::Reaction { arrives: Arrival::Head { every: None, .. }, .. } => member.spacing.is_none(),
        _ => false,
    };
    let marks = |name: &str| received.iter().any(|(member, _)| member.mark.value == name);
    let elsewhere = giver.rests_on.get(support - 1).is_some_and(|names| names.iter().any(|name| !marks(&name.value)));
    let [(first, load), ..] = received.as_slice() else { return None };
    if elsewhere || !received.iter().all(single) {
        return None;
    }
    let (mark, from, apart) = (&first.mark.value, &giver.mark.value, Words::of(job).spacing(spacing.value.value()));
    let text = format!("{from} is repeated at {apart}; of support {support} only single reactions are received, by {mark}.");
    let help = format!("write `every: {apart}` where the row rests on {mark}, or name under `rests-on` what else carries it");
    Some(Warning::new("one-of-row", &format!("{from} {support} {mark}"), text, &help, load.span).of(&[from, mark]))
}
