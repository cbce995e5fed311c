//! Reactions between members: supports in range, no circles, indices of the members that are kept.

use super::fault::Fault;
use super::members::{Draft, Link};
use super::model::{About, Placed, Ridge};
use super::path;
use super::reader::Reader;

/// An id such as `X-1` under a support is that of a part left to others.
fn part(reader: &mut Reader, name: &Placed<String>, about: Option<&About>) {
    let Some(about) = about else { return };
    let is_id = name.value.strip_prefix("X-").is_some_and(|n| !n.is_empty() && n.bytes().all(|b| b.is_ascii_digit()));
    if is_id && !about.deferred.iter().any(|part| part.id == name.value) {
        let known = about.deferred.iter().map(|part| part.id.clone()).collect();
        reader.fault(&Fault::UnknownName { name: name.value.clone(), thing: "part left to others", known, nearest: None }, name.span);
    }
}

/// Checks the links, and sorts the load path; none where reactions go round in a circle.
pub(super) fn resolve(reader: &mut Reader, drafts: &[Draft], links: &[Link], about: Option<&About>) -> Option<Vec<usize>> {
    for link in links {
        let giver = &drafts[link.giver];
        let on_board = giver.member.rest.ridge == Ridge::Board;
        if link.thrust && giver.role.is_some() && !on_board && !giver.member.unread.contains(&"ridge") {
            reader.fault(&Fault::NoThrust { mark: giver.mark.clone() }, link.span);
        }
        if let Some(support) = link.support.as_ref().filter(|s| on_board && giver.supports == Some(s.value as usize)) {
            reader.fault(&Fault::RidgeCarriesNothing { mark: giver.mark.clone() }, support.span);
        }
        if let (Some(supports), Some(support)) = (giver.supports, &link.support)
            && support.value as usize > supports
        {
            let fault = Fault::NoSuchSupport { mark: giver.mark.clone(), support: support.value, supports };
            reader.fault(&fault, support.span);
        }
    }
    for rest in drafts.iter().flat_map(|draft| &draft.rests_on).flat_map(|support| &support.on) {
        part(reader, &rest.name, about);
    }
    let pairs: Vec<(usize, usize)> = links.iter().map(|link| (link.giver, link.receiver)).collect();
    match path::sort(drafts.len(), &pairs) {
        Ok(path) => Some(path),
        Err(circles) => {
            circles.iter().for_each(|circle| tell(reader, circle, drafts, links));
            None
        }
    }
}

fn tell(reader: &mut Reader, circle: &[usize], drafts: &[Draft], links: &[Link]) {
    let mut marks: Vec<String> = circle.iter().map(|member| drafts[*member].mark.clone()).collect();
    marks.extend(marks.first().cloned());
    let mut places = circle.iter().enumerate().filter_map(|(i, giver)| {
        let receiver = circle[(i + 1) % circle.len()];
        links.iter().find(|link| (link.giver, link.receiver) == (*giver, receiver))
    });
    let words = |link: &Link| format!("`{}` rests on `{}` here", drafts[link.giver].mark, drafts[link.receiver].mark);
    let Some(first) = places.next() else { return };
    let mut diagnostic = Fault::Circle { marks }.at(first.span);
    diagnostic.primary.words = words(first);
    // The message names every mark; of a long circle the first places will do.
    for link in places.take(20) {
        diagnostic = diagnostic.with_place(link.span, words(link));
    }
    reader.told(diagnostic);
}
