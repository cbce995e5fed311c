//! Notes of a figure in the margin.

use super::{MARGIN_WIDTH, SMALL_PITCH, in_unit, lines};
use crate::package::markup::Markup;
use crate::package::printing::Printing;
use crate::results::{Section, Value};

/// Between two notes.
const BETWEEN: f64 = 4.5;
/// A section wider than this has its words under it.
const WIDE: f64 = 40.0;

/// A note beside a figure.
#[derive(Debug)]
pub(super) struct Note {
    /// Where it wants to stand, in points from the top.
    at: f64,
    text: Markup,
    tall: f64,
}

impl Note {
    /// A text.
    pub(super) fn text(at: f64, text: Markup) -> Self {
        let tall = height(text.plain(), MARGIN_WIDTH);
        Self { at, text, tall }
    }

    /// The section cut across, to scale, and words beside it, or under it where it is wide.
    pub(super) fn section(at: f64, cut: &Section, printing: Printing, words: &Markup) -> Self {
        let (said, inch) = if printing.in_feet() { ("1 : 24", 72.0 / 24.0) } else { ("1 : 20", 72.0 / 20.0) };
        let points = |v: &Value| in_unit(v, "in") * inch;
        let (wide, deep) = (points(&cut.width), points(&cut.depth));
        let said = format!("Section {said}. ");
        let below = wide > WIDE;
        let words_high = height(&format!("{said}{}", words.plain()), if below { MARGIN_WIDTH } else { MARGIN_WIDTH - wide - 6.0 });
        let text = Markup::ours(format!(
            "#section-note({wide:.2}pt, {deep:.2}pt, {}, below: {below}, [{}{}])",
            cut.plies.max(1),
            Markup::text(&said).source(),
            words.source()
        ));
        Self { at, text, tall: if below { deep + 3.0 + words_high } else { deep.max(words_high) } }
    }
}

/// What a text takes of the margin's height, with what keeps it from the next.
pub(super) fn room(text: &str) -> f64 {
    height(text, MARGIN_WIDTH) + BETWEEN
}

/// How tall a text stands in a column of the margin. What is bold in it is a little wider than its letters say.
fn height(text: &str, column: f64) -> f64 {
    SMALL_PITCH * lines(text, 1.02, column)
}

/// The notes with their tops, each at its height or under the one before it, and where the last one ends.
pub(super) fn settled(notes: Vec<Note>) -> (f64, Vec<(f64, Markup)>) {
    let mut end = 0.0;
    let mut next = 0.0_f64;
    let list = notes
        .into_iter()
        .map(|note| {
            let top = note.at.max(next);
            end = top + note.tall;
            next = end + BETWEEN;
            (top, note.text)
        })
        .collect();
    (end, list)
}
