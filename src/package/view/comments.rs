//! A reviewer's comments and the replies, each with the place that shows it.

use super::{Scene, sheet_label};
use crate::package::markup::{Markup, literal};
use crate::package::words;
use serde::Serialize;

/// What is said of the comments.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Comments {
    sentence: String,
    rows: Vec<Row>,
}

#[derive(Debug, Serialize)]
struct Row {
    number: String,
    comment: Markup,
    reply: Markup,
    place: Markup,
}

impl Comments {
    /// None where nobody commented.
    pub(super) fn of(scene: &Scene) -> Option<Self> {
        let comments = &scene.job.comments;
        if comments.is_empty() {
            return None;
        }
        let open = comments.iter().filter(|comment| comment.reply.is_none()).count();
        let replies = match open {
            0 => "each has its reply".to_owned(),
            1 => "one is still open".to_owned(),
            n => format!("{} are still open", words::count(n)),
        };
        let rows = comments
            .iter()
            .map(|comment| {
                let from = comment.from.as_ref().map(|from| format!(" ({from})")).unwrap_or_default();
                Row {
                    number: comment.number.clone(),
                    comment: scene.lexicon.set(&format!("{}{from}", comment.comment)),
                    reply: comment.reply.as_ref().map_or_else(|| Markup::ours("*open*".to_owned()), |reply| scene.lexicon.set(reply)),
                    place: place(comment.mark.as_ref().map(|mark| mark.value.as_str()), comment.part),
                }
            })
            .collect();
        Some(Self { sentence: format!("{}; {replies}.", words::capital(&words::counted(comments.len(), "comment"))), rows })
    }
}

/// Where to look, with its page.
fn place(mark: Option<&str>, part: Option<&'static str>) -> Markup {
    let sheet = mark.map(|mark| {
        let label = literal(&sheet_label(mark));
        format!("#to({label}, ids-of({label})), #page-of({label})")
    });
    let part = part.map(|part| {
        let label = if part == "assumptions" { "register" } else { part };
        format!("{}, #page-of({})", words::capital(part), literal(label))
    });
    let places: Vec<String> = sheet.into_iter().chain(part).collect();
    Markup::ours(if places.is_empty() { "–".to_owned() } else { places.join("; ") })
}
