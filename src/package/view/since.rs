//! What happened since the former issue: changes, a reviewer's comments, an independent checker's numbers.

use super::Scene;
use super::changes::Changes;
use super::checker::SideBySide;
use super::comments::Comments;
use serde::Serialize;

/// What these pages say; they stand between the load path and the sheets.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Since {
    /// The id of the pages, after what stands first on them.
    id: &'static str,
    changes: Option<Changes>,
    comments: Option<Comments>,
    checker: Option<SideBySide>,
}

/// A line of the contents.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Entry {
    name: &'static str,
    label: &'static str,
    what: String,
}

impl Since {
    /// None where nothing happened.
    pub(in crate::package) fn of(scene: &Scene) -> Option<Self> {
        let (changes, comments, checker) = (Changes::of(scene), Comments::of(scene), SideBySide::of(scene));
        let id = match (&changes, &comments, &checker) {
            (Some(_), ..) => "Changes",
            (None, Some(_), _) => "Comments",
            (None, None, Some(_)) => "Check",
            (None, None, None) => return None,
        };
        Some(Self { id, changes, comments, checker })
    }
}

/// The lines of the contents for these pages.
pub(super) fn contents(scene: &Scene) -> Vec<Entry> {
    let mut entries = Vec::new();
    if let Some(reissue) = scene.reissue {
        let what = format!("revision {} to {}: inputs, ratios and reactions then and now", reissue.former.revision, reissue.now.revision);
        entries.push(Entry { name: "Changes", label: "changes", what });
    }
    if !scene.job.comments.is_empty() {
        entries.push(Entry { name: "Comments", label: "comments", what: "a reviewer's comments, with the replies".to_owned() });
    }
    if scene.job.checker.is_some() {
        entries.push(Entry { name: "Check", label: "checker", what: "an independent checker's numbers beside ours".to_owned() });
    }
    entries
}
