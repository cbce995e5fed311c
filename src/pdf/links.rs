//! Links inside a document, settled once it is laid out.
//!
//! A link to a label asks the typesetter for the label's place while it lays out, when nothing has a place yet: all that holds such a
//! link would be laid out a second time. So a source links to the label's name as if that were an address, and the name gives way to
//! the place here, when every place is known.

use super::bug::Bug;
use typst::foundations::Label;
use typst::introspection::Introspector;
use typst::layout::{Frame, FrameItem};
use typst::model::{Destination, Document};
use typst::utils::PicoStr;
use typst_layout::{Page, PagedDocument};

/// The document with every link led to the label of its name.
///
/// # Errors
/// A [`Bug`] that names a label which nothing has.
pub(super) fn settled(document: &PagedDocument) -> Result<PagedDocument, Bug> {
    let place = |name: &str| {
        let label = Label::new(PicoStr::intern(name))?;
        document.introspector().query_label(label).ok()?.location()
    };
    let mut missing = None;
    let mut settle = |to: &mut Destination| {
        if let Destination::Url(name) = to {
            match place(name) {
                Some(location) => *to = Destination::Location(location),
                None => missing = Some(name.to_string()),
            }
        }
    };
    let pages = (document.pages().iter())
        .map(|page| {
            let mut page: Page = page.clone();
            each_link(&mut page.frame, &mut settle);
            page
        })
        .collect();
    match missing {
        Some(name) => Err(Bug::plain(format!("a page links to {name:?}, and nothing has that label"))),
        None => Ok(PagedDocument::new(pages, document.info().clone())),
    }
}

/// Hands over the destination of each link of a frame; a frame without any stays shared with the typesetter's own copy.
fn each_link(frame: &mut Frame, settle: &mut impl FnMut(&mut Destination)) {
    if !links(frame) {
        return;
    }
    frame.retain(|item| {
        match item {
            FrameItem::Link(to, _) => settle(to),
            FrameItem::Group(group) => each_link(&mut group.frame, settle),
            _ => {}
        }
        true
    });
}

fn links(frame: &Frame) -> bool {
    frame.items().any(|(_, item)| match item {
        FrameItem::Link(..) => true,
        FrameItem::Group(group) => links(&group.frame),
        _ => false,
    })
}
