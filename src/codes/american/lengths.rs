//! Effective lengths of columns: ends, braces, lengths decided by hand. NDS 3.7.1.2, Appendix G (reading 10).

use super::fault::Fault;
use super::tables;
use crate::codes::{Holder, Read, every};
use crate::job::model::{Axis, Bracing, EndHeld, Member, Placed, Standing};
use crate::text::Faults;
use crate::units::Length;

/// The effective length about one axis.
#[derive(Clone, Debug)]
pub(super) struct Effective {
    /// Held throughout: nothing buckles about this axis. Why.
    pub held: Option<&'static str>,
    /// Effective length factor.
    pub factor: f64,
    /// What it multiplies, mm.
    pub length: f64,
    /// Where the factor stands.
    pub reference: &'static str,
    /// Why the factor is what it is.
    pub because_factor: String,
    /// Why the length is what it is.
    pub because_length: &'static str,
}

/// The effective length of a member about an axis.
///
/// # Errors
/// A free end that the table of factors has no row for, and no length decided by hand.
pub(super) fn about(member: &Member, standing: &Standing, axis: Axis, read: &mut Vec<Read>) -> Result<Effective, Faults> {
    let length = member.spans.length().value();
    let (bracing, by_hand) = match axis {
        Axis::Strong => (&standing.strong, &standing.effective_strong),
        Axis::Weak => (&standing.weak, &standing.effective_weak),
    };
    if let Some(Placed { value, .. }) = by_hand {
        return Ok(whole(value.value(), "decided by hand", "effective length decided by hand"));
    }
    let places = match bracing {
        Bracing::Sheathed => return Ok(throughout("held by sheathing")),
        Bracing::Continuous => return Ok(throughout("held throughout")),
        Bracing::None => Vec::new(),
        Bracing::Places(places) => places.iter().map(|p| p.value()).collect(),
        Bracing::Every(spacing) => every(spacing.value(), length),
    };
    let inner: Vec<f64> = places.into_iter().filter(|x| *x > 1e-6 * length && *x < length * (1.0 - 1e-6)).collect();
    if inner.is_empty() {
        let found = factor(standing.bottom, standing.top);
        let Some((factor, because)) = found.map(|f| keep(f, standing.bottom, standing.top, read)) else {
            return Err(vec![Fault::NoEndFactor { ends: in_words(standing) }.at(member.mark.span)]);
        };
        return Ok(Effective {
            held: None,
            factor,
            length,
            reference: "NDS Table G1",
            because_factor: because,
            because_length: "whole length, no brace between the ends",
        });
    }
    between(member, standing, inner, length, read)
}

/// Between braces the gap counts; a gap that ends at a free end takes its end factor.
fn between(member: &Member, standing: &Standing, mut places: Vec<f64>, length: f64, read: &mut Vec<Read>) -> Result<Effective, Faults> {
    places.extend([0.0, length]);
    places.sort_by(f64::total_cmp);
    let last = places.len() - 2;
    let mut worst = whole(0.0, "between braces", "largest gap between braces");
    for (i, pair) in places.windows(2).enumerate() {
        let gap = pair[1] - pair[0];
        let free = (i == 0 && standing.bottom == EndHeld::Free) || (i == last && standing.top == EndHeld::Free);
        if !free && gap > worst.factor * worst.length {
            worst = whole(gap, "between braces", "largest gap between braces");
        }
        if free {
            let Some(found) = factor(EndHeld::Fixed, EndHeld::Free) else {
                return Err(vec![Fault::NoEndFactor { ends: in_words(standing) }.at(member.mark.span)]);
            };
            let (factor, because_factor) = keep(found, EndHeld::Fixed, EndHeld::Free, read);
            if factor * gap > worst.factor * worst.length {
                let because_length = "from the last brace to the free end";
                worst = Effective { held: None, factor, length: gap, reference: "NDS Table G1", because_factor, because_length };
            }
        }
    }
    Ok(worst)
}

fn whole(length: f64, because_factor: &str, because_length: &'static str) -> Effective {
    let because_factor = because_factor.to_owned();
    Effective { held: None, factor: 1.0, length, reference: "NDS 3.7.1.2", because_factor, because_length }
}

fn throughout(because: &'static str) -> Effective {
    Effective { held: Some(because), ..whole(0.0, because, because) }
}

fn factor(one: EndHeld, other: EndHeld) -> Option<crate::table::Found<f64>> {
    let row = |a: EndHeld, b: EndHeld| tables::END_FACTORS.row(&[("end", a.word()), ("other_end", b.word())]);
    row(one, other).or_else(|| row(other, one)).and_then(|row| row.number("K_e"))
}

fn keep(found: crate::table::Found<f64>, one: EndHeld, other: EndHeld, read: &mut Vec<Read>) -> (f64, String) {
    let value = Read::keep(Some(found), read);
    let ends = if one == other { format!("both ends {}", one.word()) } else { format!("{} and {}", one.word(), other.word()) };
    (value, ends)
}

fn in_words(standing: &Standing) -> String {
    format!("{} at the top and {} at the foot", standing.top.word(), standing.bottom.word())
}

/// The largest gap between points that hold the member sideways, for bending about the strong axis; none: held throughout.
pub(super) fn unbraced(member: &Member, standing: &Standing) -> Result<Length, &'static str> {
    let length = member.spans.length().value();
    let mut places = match &standing.weak {
        Bracing::Sheathed => return Err(Holder::Sheathing.because()),
        Bracing::Continuous => return Err(Holder::Other.because()),
        Bracing::None => Vec::new(),
        Bracing::Places(places) => places.iter().map(|p| p.value()).collect(),
        Bracing::Every(spacing) => every(spacing.value(), length),
    };
    places.extend([0.0, length]);
    places.sort_by(f64::total_cmp);
    Ok(Length::new(places.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max)))
}
