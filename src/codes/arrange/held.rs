//! How the edges of a member are held against turning over.

use crate::analysis::Panel;
use crate::codes::{Held, Holder};
use crate::job::model::{Bracing, Member};

/// How the top and the bottom edge are held within every panel: supports and points of the bracing divide it.
pub(super) fn edges(member: &Member, panels: &[Panel], supports: &[f64], cosine: f64) -> Vec<[Held; 2]> {
    let length = panels.last().map_or(0.0, |p| p.to);
    panels.iter().map(|panel| [&member.top, &member.bottom].map(|bracing| edge(bracing, panel, supports, length, cosine))).collect()
}

fn edge(bracing: &Bracing, panel: &Panel, supports: &[f64], length: f64, cosine: f64) -> Held {
    let mut points: Vec<f64> = match bracing {
        Bracing::Sheathed => return Held::Throughout(Holder::Sheathing),
        Bracing::Continuous => return Held::Throughout(Holder::Other),
        Bracing::None => Vec::new(),
        Bracing::Places(places) => places.iter().map(|p| p.value() / cosine).collect(),
        Bracing::Every(spacing) => every(spacing.value() / cosine, length),
    };
    points.extend(supports);
    points.retain(|x| *x >= panel.from - 1e-6 && *x <= panel.to + 1e-6);
    // The free end of an overhang is an end of the gap, held or not.
    points.extend([panel.from, panel.to]);
    points.sort_by(f64::total_cmp);
    Held::Gap(points.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max))
}

/// Places at a spacing from the left end or the foot; what stands closer than a thousandth of the length is taken to stand so far apart,
/// which is on the safe side.
pub(in crate::codes) fn every(spacing: f64, length: f64) -> Vec<f64> {
    let spacing = spacing.max(length / 1000.0);
    (1..=(length / spacing) as usize).map(|k| k as f64 * spacing).collect()
}

#[cfg(test)]
mod tests {
    use super::every;

    #[test]
    fn braces_however_close_are_a_thousand_at_most() {
        assert_eq!(every(1200.0, 3600.0), [1200.0, 2400.0, 3600.0]);
        assert_eq!(every(5000.0, 3600.0), Vec::<f64>::new());
        let closest = every(1e-12, 3600.0);
        assert!((999..=1000).contains(&closest.len()) && closest.iter().all(|at| (3.6..=3600.0).contains(at)));
    }
}
