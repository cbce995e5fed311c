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

#[cfg(test)]
mod tests {
    use crate::pdf::{Bug, Options, Press, Sheet, Standard};
    use lopdf::{Dictionary, Document};

    /// A document of two pages: a heading on the second, a link to this label on the first.
    fn linked_to(label: &str) -> Result<Document, Bug> {
        let head = "#set document(title: \"Two pages\", date: datetime(year: 2026, month: 1, day: 5))\n#set text(font: \"XCharter\", lang: \"en\")";
        let text = format!("{head}\n#link(\"{label}\")[there]\n#pagebreak()\n= There <there>\n");
        let options = Options { standard: Standard::Submittal, ident: "two pages".to_owned(), creator: "a test".to_owned(), note: None };
        let bytes = Press::new().pdf(&[Sheet { path: "/main.typ".to_owned(), text, origins: Vec::new() }], &[], &options)?;
        Ok(Document::load_mem(&bytes).expect("a PDF"))
    }

    #[test]
    fn a_link_leads_to_the_page_of_its_label() {
        let document = linked_to("there").unwrap_or_else(|bug| panic!("{bug}"));
        let pages: Vec<_> = document.get_pages().into_values().collect();
        let links = document.get_page_annotations(pages[0]).expect("annotations");
        let [link] = links.as_slice() else { panic!("{links:?}") };
        let to = link.get(b"Dest").expect("a destination");
        // The place of a heading has a name.
        let under = |of: &Dictionary, key: &[u8]| document.dereference(of.get(key).expect("a key")).expect("an object").1.clone();
        let names = under(document.catalog().expect("a catalog"), b"Names");
        let places = under(names.as_dict().expect("a dictionary"), b"Dests");
        let list = under(places.as_dict().expect("a dictionary"), b"Names");
        let [name, place] = list.as_array().expect("pairs").as_slice() else { panic!("{list:?}") };
        assert_eq!(to, name);
        let place = document.dereference(place).expect("an object").1.as_array().expect("a place");
        assert_eq!(place[0].as_reference().expect("a page"), pages[1]);
    }

    #[test]
    fn a_link_that_leads_nowhere_is_a_bug_and_no_file() {
        let bug = linked_to("nowhere").map(|_| ()).expect_err("a bug").to_string();
        assert!(bug.contains("\"nowhere\""), "{bug}");
    }
}
