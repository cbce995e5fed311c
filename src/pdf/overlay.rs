//! The drawing of a stamp: one page of printpdf's.

use super::attachments::Unreadable;
use super::stamp::Stamp;
use super::world;
use lopdf::Document;
use printpdf::{
    Color, FontId, Greyscale, Line, LinePoint, Mm, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfPage, PdfSaveOptions, Point, Pt,
    TextItem, TextMatrix, TextRenderingMode,
};

/// Of the line from corner to corner, how much the large letters take.
const SPAN: f32 = 0.72;
/// The most that the large letters are high, in points; the small ones are as high as they fit.
const LARGE: f32 = 96.0;
const SMALL: f32 = 30.0;
/// The line at the head of the page: size, place from the left and from the top.
const LINE: f32 = 9.0;
const LINE_LEFT: f32 = 60.0;
const LINE_TOP: f32 = 25.0;

/// A font in which text can be measured.
struct Face {
    font: ParsedFont,
    handle: PdfFontHandle,
}

impl Face {
    /// How long a text is at a size, in points.
    fn length(&self, text: &str, size: f32) -> f32 {
        let advance = |c: char| self.font.lookup_glyph_index(u32::from(c)).and_then(|glyph| self.font.get_glyph_width(glyph));
        let units: f32 = text.chars().map(|c| f32::from(advance(c).unwrap_or(self.font.units_per_em))).sum();
        units * size / f32::from(self.font.units_per_em)
    }
}

/// Where the overlay's own axes lie on the page: along the line of the letters, and up from it.
struct Slant {
    x: f32,
    y: f32,
    cos: f32,
    sin: f32,
}

impl Slant {
    fn at(&self, along: f32, up: f32) -> Point {
        Point { x: Pt(self.x + self.cos * along - self.sin * up), y: Pt(self.y + self.sin * along + self.cos * up) }
    }
}

/// The overlay for a page of this size, in points.
pub(super) fn drawn(stamp: &Stamp, width: f32, height: f32) -> Result<Document, Unreadable> {
    let mut document = PdfDocument::new("stamp");
    let bold = world::bold().ok_or_else(|| Unreadable("there is no bold face for the stamp".into()))?;
    let font = ParsedFont::from_bytes(bold, 0, &mut Vec::new()).ok_or_else(|| Unreadable("the bold face cannot be read".into()))?;
    // A name of its own: printpdf would draw one by lot, and the same stamp has to give the same bytes.
    let id = FontId("StampFace".into());
    document.resources.fonts.map.insert(id.clone(), PdfFont::new(font.clone()));
    let face = Face { font, handle: PdfFontHandle::External(id) };
    let black = || Color::Greyscale(Greyscale::new(0.0, None));
    let mut ops = vec![Op::SaveGraphicsState, Op::SetOutlineColor { col: black() }, Op::SetFillColor { col: black() }];
    slanted(&mut ops, &face, stamp, width, height);
    let line = format!("{} {}", stamp.large, stamp.small);
    let size = LINE.min(LINE * (width - 2.0 * LINE_LEFT) / face.length(&line, LINE));
    let upright = Slant { x: LINE_LEFT, y: height - LINE_TOP, cos: 1.0, sin: 0.0 };
    write(&mut ops, &face, &upright, &line, size, 0.0, TextRenderingMode::Fill);
    ops.push(Op::RestoreGraphicsState);
    let page = PdfPage::new(Mm(width / 72.0 * 25.4), Mm(height / 72.0 * 25.4), ops);
    Ok(document.with_pages(vec![page]).to_lopdf_document(&PdfSaveOptions::default(), &mut Vec::new()))
}

/// The large and the small words in outline from corner to corner, in a frame.
fn slanted(ops: &mut Vec<Op>, face: &Face, stamp: &Stamp, width: f32, height: f32) {
    let diagonal = libm::hypotf(width, height);
    let slant = Slant { x: width / 2.0, y: height / 2.0, cos: width / diagonal, sin: height / diagonal };
    let room = SPAN * diagonal;
    let large = LARGE.min(room / face.length(&stamp.large, 1.0));
    let small = SMALL.min(room / face.length(&stamp.small, 1.0));
    for (text, size, up, outline) in [(&stamp.large, large, 0.0, 1.2), (&stamp.small, small, -1.15 * small, 0.6)] {
        ops.push(Op::SetOutlineThickness { pt: Pt(outline) });
        write(ops, face, &slant, text, size, up, TextRenderingMode::Stroke);
    }
    let half = face.length(&stamp.large, large).max(face.length(&stamp.small, small)) / 2.0 + 0.25 * large;
    let (top, bottom) = (0.95 * large, -1.75 * small);
    let corners = [(-half, bottom), (half, bottom), (half, top), (-half, top)];
    let points = corners.iter().map(|(along, up)| LinePoint { p: slant.at(*along, *up), bezier: false }).collect();
    ops.extend([Op::SetOutlineThickness { pt: Pt(1.6) }, Op::DrawLine { line: Line { points, is_closed: true } }]);
}

/// A text on a slant, in its middle where that is turned, else from its beginning.
fn write(ops: &mut Vec<Op>, face: &Face, slant: &Slant, text: &str, size: f32, up: f32, mode: TextRenderingMode) {
    let along = if slant.sin > 0.0 { -face.length(text, size) / 2.0 } else { 0.0 };
    let start = slant.at(along, up);
    ops.extend([
        Op::StartTextSection,
        Op::SetFont { font: face.handle.clone(), size: Pt(size) },
        Op::SetTextRenderingMode { mode },
        Op::SetTextMatrix { matrix: TextMatrix::Raw([slant.cos, slant.sin, -slant.sin, slant.cos, start.x.0, start.y.0]) },
        Op::ShowText { items: vec![TextItem::Text(text.to_owned())] },
        Op::EndTextSection,
    ]);
}
