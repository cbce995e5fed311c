//! What the feet of posts and studs cover of the member that they stand on. NDS 3.10.2, 3.10.4.

use super::fault::Fault;
use super::{effective, section};
use crate::codes::Origin;
use crate::codes::assumed::Assuming;
use crate::job::model::{Arrival, Footprint, Job, Load, LoadKind, Member};
use crate::text::Faults;
use crate::units::{Length, min};

/// A foot on a member.
#[derive(Clone, Debug)]
pub(super) struct Foot {
    /// Which of the member's loads it is.
    load: usize,
    /// Length along the member and width across it, of what stands on it: in one way, or in both where the job file does not say which.
    ways: Vec<[Length; 2]>,
    /// What is said of it on the sheet, by way.
    remarks: Vec<String>,
    /// Whether a plate of another material lies under it.
    on_plate: bool,
}

impl Foot {
    /// The way of all that bears the least: length, width, and why its bearing-area factor is 1, if it is.
    pub(super) fn worst(feet: &[Self], load: usize, to_end: f64) -> Option<(&Self, usize, Option<&'static str>)> {
        let foot = feet.iter().find(|foot| foot.load == load)?;
        let bears = |way: usize| {
            let [along, across] = foot.ways[way];
            let plain = effective::plain_bearing(along.value(), to_end - 0.5 * along.value());
            let more = if plain.is_some() { 0.0 } else { effective::BEARING_AREA.added };
            ((along.value() + more) * across.value(), plain)
        };
        let way = (0..foot.ways.len()).min_by(|a, b| bears(*a).0.total_cmp(&bears(*b).0))?;
        Some((foot, way, bears(way).1))
    }

    /// Length along the member, width across it.
    pub(super) fn way(&self, way: usize) -> [Length; 2] {
        self.ways[way]
    }

    /// What is said of it.
    pub(super) fn remark(&self, way: usize) -> &str {
        &self.remarks[way]
    }
}

/// The feet on a member that is `b` wide.
pub(super) fn of(job: &Job, entry: &Member, b: Length, faults: &mut Faults) -> Vec<Foot> {
    let mut feet = Vec::new();
    for (load, one) in entry.loads.iter().enumerate() {
        let LoadKind::Reaction { from_member, arrives, footprint, .. } = &one.kind else { continue };
        let giver = &job.members[*from_member];
        // What a post bears on its head is not across its grain.
        if matches!(arrives, Arrival::Head { .. }) {
            continue;
        }
        let stands = giver.role.is_upright();
        if let (false, Some(footprint)) = (stands, footprint) {
            faults.push(Fault::BearsItself { mark: giver.mark.value.clone() }.at(footprint.along.span));
        }
        // A section that no table has is told of where it is asked for.
        if let (true, Ok(size)) = (stands, section::resolve(giver)) {
            let sides = [f64::from(giver.plies.value) * size.width, size.depth];
            feet.extend(foot(load, &giver.mark.value, sides, footprint.as_ref(), b, faults));
        }
    }
    feet
}

fn foot(load: usize, mark: &str, [width, depth]: [Length; 2], said: Option<&Footprint>, b: Length, faults: &mut Faults) -> Option<Foot> {
    let same = |one: Length, other: Length| (one.value() - other.value()).abs() < 1e-6 * other.value();
    let on_plate = said.is_some_and(|said| said.across.is_some());
    let ways = match said {
        Some(Footprint { along, across: Some(across) }) => vec![[along.value, *across]],
        Some(Footprint { along, .. }) if same(along.value, depth) => vec![[depth, width]],
        Some(Footprint { along, .. }) if same(along.value, width) => vec![[width, depth]],
        Some(Footprint { along, .. }) => {
            let sides = [width, depth].map(|side| format!("{} in", section::inches(side)));
            faults.push(Fault::NoSuchSide { mark: mark.to_owned(), sides }.at(along.span));
            return None;
        }
        None if same(width, depth) => vec![[width, depth]],
        None => vec![[depth, width], [width, depth]],
    };
    let remark = |[along, across]: &[Length; 2]| {
        let what = if on_plate { format!("The plate under {mark} is") } else { format!("{mark} stands with") };
        let (long, wide) = (section::inches(*along), section::inches(*across));
        let turned = match (said, ways.len()) {
            (None, 2) => "; how it is turned is not said: of its two ways the one that bears less",
            _ => "",
        };
        let part = if across.at_most(b) { String::new() } else { format!(", of which {} in are on the member", section::inches(b)) };
        format!("{what} {long} in along the member and {wide} in across it{part}{turned}.")
    };
    let remarks = ways.iter().map(remark).collect();
    Some(Foot { load, ways: ways.into_iter().map(|[along, across]| [along, min(across, b)]).collect(), remarks, on_plate })
}

/// Posts that a member of this width bears on and that are narrower than it, however they are turned.
pub(super) fn narrow<'j>(job: &'j Job, entry: &Member, b: Length) -> Vec<&'j str> {
    let takes = |load: &Load| load.kind.giver().is_some_and(|giver| job.members[giver].mark == entry.mark);
    let posts = job.members.iter().filter(|other| other.role.is_upright() && other.loads.iter().any(takes));
    let is_narrow = |post: &&Member| {
        section::resolve(post).is_ok_and(|size| {
            let sides = [f64::from(post.plies.value) * size.width, size.depth];
            sides.iter().all(|side| side.value() < b.value() * (1.0 - 1e-6))
        })
    };
    posts.filter(is_narrow).map(|post| post.mark.value.as_str()).collect()
}

/// What is taken of the feet on a member.
pub(super) fn assumptions(feet: &[Foot], said: &mut Assuming<'_>) {
    if feet.iter().any(|foot| !foot.on_plate) {
        let text = "A post or stud that stands on a member presses with its whole end, as far as the member is wide, on the member's top; a sole \
             plate that spreads it is not counted. Where it is not said how it is turned the way that bears less is taken.";
        said.confirm("foot", text, Origin::Default);
    }
    if feet.iter().any(|foot| foot.on_plate) {
        let text = "A bearing plate between a post and the member that it stands on is rigid and spreads the force over all of it; it is by others.";
        said.ask("bearing plate", text, Origin::JobFile);
    }
}
