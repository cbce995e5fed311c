//! How much room texts and tables will take, nearly: enough to choose how a sheet is set before it is laid out. Where its parts really
//! stand, the typesetter tells afterwards; then [`super::plan`] looks again.

use crate::package::drawing::width_of;
pub(super) use crate::package::drawing::{lines, lines_of};
use serde::{Serialize, Serializer};

pub(super) use crate::package::drawing::SMALL_PITCH;
/// Baseline to baseline of text, as the style sheet has it.
pub(super) const PITCH: f64 = 12.6;
/// Text of 9.5 points against small text of 8.
pub(super) const TEXT: f64 = 9.5 / 8.0;
/// Bold text of 9.5 points: its letters are wider.
pub(super) const BOLD: f64 = 1.06 * TEXT;
/// Bold letters against plain ones where they must surely fit.
pub(super) const SURELY_BOLD: f64 = 1.09;
/// What an estimated width of small text is multiplied by where it must surely fit, and where it surely does not.
const SURELY: f64 = 1.06;
const HARDLY: f64 = 0.98;

/// Lines of a row of a table, as they are estimated at least and at most; where the two differ the typesetter measures the row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Lines {
    least: u32,
    likely: u32,
    most: u32,
}

impl Lines {
    /// A row whose every cell has one line.
    pub(super) const ONE: Self = Self { least: 1, likely: 1, most: 1 };

    /// What all but the first add to the height of the row, in points, as is likely.
    pub(super) fn further(self) -> f64 {
        SMALL_PITCH * f64::from(self.likely - 1)
    }

    /// The same with a line for a name over it.
    pub(super) fn under_a_name(self) -> Self {
        Self { least: self.least + 1, likely: self.likely + 1, most: self.most + 1 }
    }
}

impl Serialize for Lines {
    /// The number of lines; 0 where it has to be measured.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(if self.least == self.most { self.most } else { 0 })
    }
}

/// The lines of a row of a table, from its cells in small text and the room that each has.
pub(super) fn row<'a>(cells: impl IntoIterator<Item = (&'a str, f64)>) -> Lines {
    let (mut least, mut likely, mut most) = (1.0_f64, 1.0_f64, 1.0_f64);
    for (text, room) in cells {
        // A word may break after a hyphen; one that is wider than its column does, or runs out of it.
        let parts = if text.contains('-') { text.replace('-', "- ") } else { String::new() };
        let fewest =
            |size: f64| if parts.is_empty() { lines(text, size, room) } else { lines(text, size, room).min(lines(&parts, size, room)) };
        let too_wide = text.split_ascii_whitespace().map(|word| SURELY * width_of(word)).filter(|wide| *wide > room);
        let further: f64 = too_wide.map(|wide| (wide / room.max(1.0)).ceil()).sum();
        most = most.max(lines(text, SURELY, room) + further);
        likely = likely.max(lines(text, 1.0, room) + further);
        least = least.max(fewest(HARDLY));
    }
    Lines { least: least as u32, likely: likely as u32, most: most as u32 }
}

/// A column of a table that surely holds each of these texts on one line, in points.
pub(super) fn column<'a>(texts: impl IntoIterator<Item = &'a str>) -> f64 {
    texts.into_iter().map(|text| SURELY * width_of(text) + 1.0).fold(0.0, f64::max).ceil()
}
