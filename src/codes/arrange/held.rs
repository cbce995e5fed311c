//! How the edges of a member are held against turning over.

use crate::analysis::Panel;
use crate::codes::Held;
use crate::job::model::{Bracing, Member};

/// How the top and the bottom edge are held within every panel: supports and points of the bracing divide it.
pub(super) fn edges(member: &Member, panels: &[Panel], supports: &[f64], cosine: f64) -> Vec<[Held; 2]> {
    let length = panels.last().map_or(0.0, |p| p.to);
    panels.iter().map(|panel| [&member.top, &member.bottom].map(|bracing| edge(bracing, panel, supports, length, cosine))).collect()
}

fn edge(bracing: &Bracing, panel: &Panel, supports: &[f64], length: f64, cosine: f64) -> Held {
    let mut points: Vec<f64> = match bracing {
        Bracing::Sheathed => return Held::Throughout(true),
        Bracing::Continuous => return Held::Throughout(false),
        Bracing::None => Vec::new(),
        Bracing::Places(places) => places.iter().map(|p| p.value() / cosine).collect(),
        Bracing::Every(spacing) => {
            let step = spacing.value() / cosine;
            (0..=(length / step) as usize).map(|k| k as f64 * step).collect()
        }
    };
    points.extend(supports);
    points.retain(|x| *x >= panel.from - 1e-6 && *x <= panel.to + 1e-6);
    // The free end of an overhang is an end of the gap, held or not.
    points.extend([panel.from, panel.to]);
    points.sort_by(f64::total_cmp);
    Held::Gap(points.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max))
}
