//! Rows of reactions that are received at another spacing than they are given.

use super::Warning;
use super::words::Words;
use crate::job::model::{Arrival, Job, Load, LoadKind, Member};

/// Spacings nearer than this part are the same: 400 mm and 15-3/4 in are, 400 mm and 16 in are not.
const SAME: f64 = 0.005;

pub(super) fn warnings(job: &Job) -> Vec<Warning> {
    let words = Words::of(job);
    let mut all = Vec::new();
    for receiver in &job.members {
        for load in &receiver.loads {
            let found = match &load.kind {
                LoadKind::Reaction { from_member, support, arrives, .. } => {
                    let what = format!("the reaction of {} at support {support}", job.members[*from_member].mark.value);
                    received(words, &job.members[*from_member], receiver, load, arrives, &what)
                }
                LoadKind::Thrust { from_member, every } => {
                    let giver = &job.members[*from_member];
                    let what = format!("the thrust of {}", giver.mark.value);
                    spacing(words, giver, receiver, load, every.map(|every| every.value()), &what)
                }
                _ => None,
            };
            all.extend(found);
        }
    }
    all
}

/// A row that is received at another spacing, or whose spacing is more than any span of the receiver.
fn received(words: Words, giver: &Member, receiver: &Member, load: &Load, arrives: &Arrival, what: &str) -> Option<Warning> {
    match arrives {
        Arrival::At(_) => None,
        Arrival::Head { every, .. } => spacing(words, giver, receiver, load, every.map(|every| every.value()), what),
        Arrival::Every { spacing: every, .. } => {
            let longest = receiver.spans.spans.iter().map(|span| span.value.value()).fold(0.0, f64::max);
            if every.value() > longest {
                let mark = &receiver.mark.value;
                let text = format!(
                    "{mark} receives {what} every {}, which is more than its longest span, {}.",
                    words.spacing(every.value()),
                    words.span(longest)
                );
                let place = format!("{mark} {} {}", giver.mark.value, words.spacing(every.value()));
                let help = "give `every` as the distance between the supported members, or `at` for a single one";
                return Some(Warning::new("every-above-span", &place, text, help, load.span).of(&[mark]));
            }
            spacing(words, giver, receiver, load, Some(every.value()), what)
        }
    }
}

/// A spacing that is not the giver's own; none is that of the receiver, which then takes one reaction each.
fn spacing(words: Words, giver: &Member, receiver: &Member, load: &Load, every: Option<f64>, what: &str) -> Option<Warning> {
    let own = giver.spacing.as_ref()?.value.value();
    let taken = every.or_else(|| Some(receiver.spacing.as_ref()?.value.value()))?;
    if (taken - own).abs() <= SAME * own {
        return None;
    }
    let (mark, from) = (&receiver.mark.value, &giver.mark.value);
    let (taken, own) = (words.spacing(taken), words.spacing(own));
    let text = match every {
        Some(_) => format!("{mark} receives {what} every {taken}, but {from} is spaced at {own}."),
        None => format!("Each {mark}, spaced at {taken}, receives {what} once, but {from} is spaced at {own}."),
    };
    let help = format!("write `every: {own}`, the spacing of {from}");
    Some(Warning::new("spacing-differs", &format!("{mark} {from} {taken} {own}"), text, &help, load.span).of(&[mark]))
}
