//! Reactions of members that name, under `rests-on`, the members that carry them; both ends of a reaction must agree.
//!
//! A mark under a support hands the reaction on as if the member of that mark listed it in its loads. Where it lists it, nothing is
//! handed on a second time.

use super::fault::Fault;
use super::loads::{self, Around};
use super::members::{Draft, Given, Link};
use super::model::{Arrival, Load, LoadKind, Placed, Use};
use super::reader::Reader;
use super::rests_on::{Rest, Support};
use super::taken::Taken;
use crate::text::Span;
use std::collections::{BTreeMap, BTreeSet};

/// What is taken where a row names the member that carries it and nothing else.
const OWN_SPACING: &str =
    "Reactions act on the supporting member at the spacing of the supported members, over its full length where no part of it is given.";

/// A reaction on its way to the member that carries it.
struct Handing<'d, 'n> {
    giver: usize,
    support: usize,
    receiver: usize,
    rest: &'d Rest<'n>,
}

/// Who lists, in its loads, reactions of whom: by giver and support, receivers with the place of their load.
type Listed = BTreeMap<(usize, usize), Vec<(usize, Span)>>;

/// Hands on what supports rest on, as loads of the members named there and as links.
pub(super) fn hand_on(reader: &mut Reader, drafts: &mut [Draft], links: &mut Vec<Link>, given: &Given, taken: &mut Taken) {
    let listed = listed(links);
    let mut loads: Vec<(usize, Load)> = Vec::new();
    // By giver and receiver the load of a post or stud.
    let mut ends: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    for giver in 0..drafts.len() {
        for support in &drafts[giver].rests_on {
            elsewhere(reader, drafts, giver, support, &listed);
            let mut seen = BTreeSet::new();
            for rest in &support.on {
                if !seen.insert(rest.name.value.as_str()) {
                    reader.fault(&Fault::RestsOnRepeated { name: rest.name.value.clone(), support: support.number }, rest.name.span);
                    continue;
                }
                let Some(receiver) = receiver(reader, given, (giver, &drafts[giver].mark), rest) else { continue };
                let handing = Handing { giver, support: support.number, receiver, rest };
                if is_listed(reader, drafts, &handing, &listed) {
                    continue;
                }
                // A post or stud is not under two supports: each end rests on one of its own.
                let upright = drafts[receiver].role.is_some_and(Use::is_upright) && !rest.says_how();
                if let Some(at) = ends.get(&(giver, receiver)).filter(|_| upright) {
                    links.push(handing.link());
                    if let LoadKind::Reaction { or_supports, .. } = &mut loads[*at].1.kind {
                        or_supports.push(support.number);
                    }
                    continue;
                }
                if !is_one_end(reader, drafts, &handing, links) {
                    continue;
                }
                links.push(handing.link());
                if let Some(load) = load(reader, drafts, &handing, given, taken) {
                    if upright {
                        ends.insert((giver, receiver), loads.len());
                    }
                    loads.extend(std::iter::repeat_n((receiver, load), sides(reader, rest)));
                }
            }
        }
    }
    for (receiver, load) in loads {
        drafts[receiver].member.rest.loads.push(load);
    }
    let carrying: BTreeSet<usize> = links.iter().map(|link| link.receiver).collect();
    for (index, draft) in drafts.iter_mut().enumerate() {
        if let Some((fault, span)) = draft.unloaded.take().filter(|_| !carrying.contains(&index)) {
            reader.fault(&fault, span);
        }
    }
}

impl Handing<'_, '_> {
    fn link(&self) -> Link {
        let span = self.rest.name.span;
        let support = u32::try_from(self.support).ok().map(|value| Placed { value, span });
        Link { giver: self.giver, receiver: self.receiver, span, support, thrust: false }
    }
}

fn listed(links: &[Link]) -> Listed {
    let mut listed = Listed::new();
    for link in links.iter().filter(|link| !link.thrust) {
        if let Some(support) = &link.support {
            listed.entry((link.giver, support.value as usize)).or_default().push((link.receiver, link.span));
        }
    }
    listed
}

/// Tells of members that list the reaction of a support which rests on something else.
fn elsewhere(reader: &mut Reader, drafts: &[Draft], giver: usize, support: &Support, listed: &Listed) {
    let Some(first) = support.on.first() else { return };
    let on: Vec<String> = support.on.iter().map(|rest| rest.name.value.clone()).collect();
    let mut told = BTreeSet::new();
    for (receiver, span) in listed.get(&(giver, support.number)).into_iter().flatten() {
        let mark = &drafts[*receiver].mark;
        if !on.contains(mark) && told.insert(*receiver) {
            let (giver, receiver) = (drafts[giver].mark.clone(), mark.clone());
            let fault = Fault::RestsOnElsewhere { giver, support: support.number, on: on.clone(), receiver };
            reader.told(fault.at(first.name.span).with_place(*span, "received here"));
        }
    }
}

/// The member that an entry names, where it names one.
fn receiver(reader: &mut Reader, given: &Given, (giver, mark): (usize, &str), rest: &Rest) -> Option<usize> {
    let found = given.marks.find(&rest.name.value);
    if found == Some(giver) {
        reader.fault(&Fault::RestsOnItself { mark: mark.to_owned() }, rest.name.span);
        return None;
    }
    if found.is_none() && rest.how.is_some() {
        reader.unknown_name(&rest.name.value, "member", given.marks.all(), rest.name.span);
    }
    found
}

/// Whether the receiver lists the reaction itself; then nothing more is to be said of it at this end.
fn is_listed(reader: &mut Reader, drafts: &[Draft], handing: &Handing, listed: &Listed) -> bool {
    let receivers = listed.get(&(handing.giver, handing.support)).into_iter().flatten();
    let Some((_, span)) = receivers.into_iter().find(|(receiver, _)| *receiver == handing.receiver) else { return false };
    if handing.rest.says_how() {
        let fault = Fault::RestsOnTwice { support: handing.support, receiver: drafts[handing.receiver].mark.clone() };
        reader.told(fault.at(handing.rest.name.span).with_place(*span, "received here"));
    }
    true
}

/// Whether the receiver takes one support of the giver only, or is told where it takes each: else it is not known whether one member
/// carries both.
fn is_one_end(reader: &mut Reader, drafts: &[Draft], handing: &Handing, links: &[Link]) -> bool {
    if handing.rest.how.as_ref().is_some_and(|form| form.says("at") || form.says("every")) {
        return true;
    }
    let same = links.iter().filter(|link| link.giver == handing.giver && link.receiver == handing.receiver && !link.thrust);
    let Some((support, span)) = same.filter_map(|link| Some((link.support.as_ref()?.value as usize, link.span))).next() else {
        return true;
    };
    let fault = Fault::RestsOnBoth {
        giver: drafts[handing.giver].mark.clone(),
        receiver: drafts[handing.receiver].mark.clone(),
        supports: [support, handing.support],
    };
    reader.told(fault.at(handing.rest.name.span).with_place(span, "the other one"));
    false
}

/// How often the reaction acts: twice where equal members rest there from both sides.
fn sides(reader: &mut Reader, rest: &Rest) -> usize {
    let word = rest.how.as_ref().and_then(|form| reader.word(form, "sides"));
    if word.is_some_and(|word| word.value == "2") { 2 } else { 1 }
}

/// The reaction as a load of the member that carries it.
fn load(reader: &mut Reader, drafts: &[Draft], handing: &Handing, given: &Given, taken: &mut Taken) -> Option<Load> {
    let (giver, receiver) = (&drafts[handing.giver], &drafts[handing.receiver]);
    let (span, form) = (handing.rest.name.span, handing.rest.how.as_ref());
    let role = receiver.role?;
    if let Some(form) = form {
        reader.check_use(form, role);
    }
    if role == Use::Post && giver.is_row {
        let (giver, post) = (giver.mark.clone(), receiver.mark.clone());
        reader.fault(&Fault::RowOnPost { giver, support: handing.support, post }, span);
        return None;
    }
    let around = Around {
        cases: given.cases,
        areas: given.areas,
        marks: given.marks,
        member: handing.receiver,
        role,
        length: receiver.length,
        spaced: receiver.is_row,
        leans: receiver.leans,
    };
    // A row across members that are repeated themselves is not the plain case of a row on one.
    let repeated = receiver.is_row && !role.is_upright();
    let row = giver.spacing.filter(|_| !repeated);
    let arrives = match loads::arrival(reader, form, &around, row, span) {
        Ok(arrives) => arrives?,
        // The spacing is there and could not be read, which has been told.
        Err(_) if giver.is_row && !repeated => return None,
        Err(both @ true) => {
            reader.fault(&Fault::HowReactionArrives { both }, span);
            return None;
        }
        Err(_) => {
            let (giver, receiver) = (giver.mark.clone(), receiver.mark.clone());
            reader.fault(&Fault::RestsOnPlace { giver, receiver, repeated }, span);
            return None;
        }
    };
    let is_row = matches!(arrives, Arrival::Every { .. } | Arrival::Head { every: Some(_), .. });
    if is_row && !form.is_some_and(|form| form.says("every")) {
        taken.member(&giver.mark, OWN_SPACING);
    }
    let footprint = match form.and_then(|form| form.node("bearing")) {
        Some(node) => Some(loads::footprint(reader, node)?),
        None => None,
    };
    let (from_member, support) = (handing.giver, handing.support);
    let kind = LoadKind::Reaction { from_member, support, or_supports: Vec::new(), arrives, footprint };
    Some(Load { kind, span })
}
