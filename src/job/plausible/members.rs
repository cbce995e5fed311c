//! Spans, loads and limits of unusual size.

use super::words::Words;
use super::{Warning, limit};
use crate::job::model::{Case, DeflectionLimit, Job, Limits, LoadKind, Member, Nature};
use crate::text::Span;

pub(super) fn warnings(job: &Job) -> Vec<Warning> {
    let words = Words::of(job);
    let mut all = areas(job, words);
    for member in &job.members {
        all.extend(spans(member, words));
        all.extend(negative(job, member, words));
        let longest = member.spans.spans.iter().map(|span| span.value.value()).fold(0.0, f64::max);
        let mark = &member.mark.value;
        all.extend(limits(&member.limits, mark, longest).map(|warning| warning.of(&[mark])));
    }
    for (of, given) in &job.basis.limits {
        let members = job.members.iter().filter(|member| member.role.limited_as() == *of);
        let longest = members.flat_map(|member| &member.spans.spans).map(|span| span.value.value()).fold(0.0, f64::max);
        all.extend(limits(given, &format!("basis {}", of.word()), longest));
    }
    all
}

/// Loads of these natures act downward; a negative one is lifting its member.
const fn is_gravity(nature: Nature) -> bool {
    matches!(nature, Nature::Dead | Nature::Live | Nature::RoofLive | Nature::Snow | Nature::Rain)
}

fn areas(job: &Job, words: Words) -> Vec<Warning> {
    let mut all = Vec::new();
    for area in &job.areas {
        for one in &area.loads {
            let (case, load) = (&job.basis.cases[one.case.0].name, one.load.value());
            let place = format!("{} {case} {}", area.name, words.area(load));
            if load.abs() > limit("area load") {
                let most = words.area(limit("area load"));
                let text = format!("Area load {}, {case}: {} is above {most}.", area.name, words.area(load));
                all.push(Warning::new("large-load", &place, text, "compare the value and its unit with the source of the load", one.span));
            }
            if load < 0.0 && is_gravity(job.basis.nature(one.case)) {
                let text = format!("Area load {}, {case}: {} acts upward.", area.name, words.area(load));
                all.push(Warning::new("negative-load", &place, text, UPWARD, one.span));
            }
        }
    }
    all
}

const UPWARD: &str = "downward is positive; uplift belongs to wind or seismic";

/// Loads of gravity that act upward, of members that lie; on posts and studs a side load has no downward sense.
fn negative(job: &Job, member: &Member, words: Words) -> Vec<Warning> {
    let upward = |case: Case, least: f64| least < 0.0 && is_gravity(job.basis.nature(case)) && !member.role.is_upright();
    let mark = &member.mark.value;
    let one = |case: Case, said: String, kind: &str, span: Span| {
        let name = &job.basis.cases[case.0].name;
        let text = format!("{mark}: the {kind} {said}, {name}, acts upward.");
        Warning::new("negative-load", &format!("{mark} {name} {said}"), text, UPWARD, span).of(&[mark])
    };
    let of = |load: &crate::job::model::Load| match &load.kind {
        LoadKind::Line { case, start, end, .. } => {
            let least = start.value().min(end.value());
            upward(*case, least).then(|| one(*case, words.line(least), "line load", load.span))
        }
        LoadKind::Point { case, force, .. } => {
            upward(*case, force.value()).then(|| one(*case, words.force(force.value()), "point load", load.span))
        }
        _ => None,
    };
    member.loads.iter().filter_map(of).collect()
}

fn spans(member: &Member, words: Words) -> Vec<Warning> {
    let mark = &member.mark.value;
    let spans = &member.spans.spans;
    let mut all = Vec::new();
    for (number, span) in (1..).zip(spans).filter(|(_, span)| span.value.value() > limit("span")) {
        let said = words.span(span.value.value());
        let text = format!("{mark}, span {number}: {said} is above {}.", words.span(limit("span")));
        let help = "compare the span and its unit with the drawing";
        all.push(Warning::new("long-span", &format!("{mark} {number} {said}"), text, help, span.span).of(&[mark]));
    }
    let by_length = |a: &&crate::job::model::Placed<crate::units::Length>, b: &&crate::job::model::Placed<crate::units::Length>| {
        a.value.value().total_cmp(&b.value.value())
    };
    if let (Some(least), Some(most)) = (spans.iter().min_by(by_length), spans.iter().max_by(by_length))
        && most.value.value() > limit("ratio of spans") * least.value.value()
    {
        let (short, long) = (words.span(least.value.value()), words.span(most.value.value()));
        let text = format!("{mark} has spans of {short} and {long}: more than {} to 1.", limit("ratio of spans"));
        let help = "compare the spans and their units with the drawing; the short span may lift off its support";
        all.push(Warning::new("unequal-spans", &format!("{mark} {short} {long}"), text, help, least.span).of(&[mark]));
    }
    all
}

/// Deflection limits that are looser than is usual, `longest` the longest span that they are for.
fn limits<'l>(limits: &'l Limits, place: &'l str, longest: f64) -> impl Iterator<Item = Warning> + 'l {
    let usual = limit("deflection limit");
    limits.0.iter().filter_map(move |(of, given)| {
        let divisor = match given {
            DeflectionLimit::SpanOver(divisor) => *divisor,
            DeflectionLimit::Length(length) if longest > 0.0 => longest / length.value(),
            DeflectionLimit::Length(_) | DeflectionLimit::Off => return None,
        };
        (divisor < usual).then(|| {
            let said = format!("L/{}", crate::units::trimmed(divisor, 3));
            let text = format!("The deflection limit `{}` of {place} is {said}, looser than L/{usual}.", of.value.word());
            let help = "compare it with the limits of the building code, such as `L/240`";
            Warning::new("loose-limit", &format!("{place} {} {said}", of.value.word()), text, help, of.span)
        })
    })
}
