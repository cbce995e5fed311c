//! The load sets: which panels carry what comes and goes, and how received reactions stand.

use super::apply::Frame;
use super::stand::Arrangement;
use super::{Applied, LoadSet};
use crate::analysis::Panel;
use crate::units::decimals;

/// All load sets, the one with everything on first.
pub(super) fn all(arrangements: &[Arrangement], panels: &[Panel], patterned: bool, frame: &Frame<'_>, applied: &[Applied]) -> Vec<LoadSet> {
    let all: u64 = (1 << panels.len()) - 1;
    let masks: Vec<u64> = if patterned && panels.len() > 1 { (1..=all).rev().collect() } else { vec![all] };
    let givers = || {
        let mut marks: Vec<&str> = applied
            .iter()
            .filter(|a| a.every.is_some())
            .filter_map(|a| a.from)
            .map(|(m, _)| frame.job.members[m].mark.value.as_str())
            .collect();
        marks.dedup();
        marks.join(", ")
    };
    let mut sets = Vec::new();
    for (i, arrangement) in arrangements.iter().enumerate() {
        for mask in &masks {
            let mut words = Vec::new();
            if *mask != all && frame.words {
                words.push(loaded(*mask, panels));
            }
            if arrangement.smallest && frame.words {
                words.push("received reactions at their smallest".to_owned());
            }
            if let Some(panel) = arrangement.row.filter(|_| frame.words) {
                words.push(format!("{} as concentrated loads, one at {}", givers(), anchored(&panels[panel], panels)));
            }
            sets.push(LoadSet { arrangement: i, mask: *mask, points: arrangement.row.is_some(), words: words.join("; ") });
        }
    }
    sets
}

/// Where a row of received reactions has one of its loads, in words.
fn anchored(panel: &Panel, panels: &[Panel]) -> String {
    let both = panels.iter().filter(|p| p.overhang).count() == 2;
    match (panel.overhang, panel.number) {
        (true, 0) if both => "the left tip".to_owned(),
        (true, _) if both => "the right tip".to_owned(),
        (true, _) => "the tip".to_owned(),
        _ if panels.len() == 1 => "mid-span".to_owned(),
        (_, number) => format!("mid-span of span {}", decimals(number as f64, 0)),
    }
}

/// `load that comes and goes on spans 1 and 2`, in the words that the sheet prints.
fn loaded(mask: u64, panels: &[Panel]) -> String {
    let on: Vec<&Panel> = panels.iter().enumerate().filter(|(i, _)| mask >> i & 1 == 1).map(|(_, p)| p).collect();
    let spans: Vec<String> = on.iter().filter(|p| !p.overhang).map(|p| decimals(p.number as f64, 0)).collect();
    let mut parts = Vec::new();
    match spans.as_slice() {
        [] => {}
        [one] => parts.push(format!("span {one}")),
        [head @ .., last] => parts.push(format!("spans {} and {last}", head.join(", "))),
    }
    let both = panels.iter().filter(|p| p.overhang).count() == 2;
    for overhang in on.iter().filter(|p| p.overhang) {
        parts.push(match (both, overhang.number) {
            (true, 0) => "the left overhang".to_owned(),
            (true, _) => "the right overhang".to_owned(),
            _ => "the overhang".to_owned(),
        });
    }
    format!("variable load on {}", parts.join(" and "))
}
