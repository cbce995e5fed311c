//! The lists of loads that are solved: by arrangement, case and place, each that is not empty once.

use super::raised::RaisedTie;
use super::stand::{Arrangement, joints, over, shape, standing, within};
use super::{Acting, Applied, Beside, Shape, Way};
use crate::analysis::Panel;
use crate::job::model::Case;

/// Something by arrangement, case and place: the panels, then the supports between them.
pub(super) type ByPlace<T> = Vec<Vec<Vec<T>>>;

/// Which list of loads is meant: those that bend the member about its strong axis and about its weak axis stand under one number.
/// The first has no loads.
pub(super) struct Slots {
    /// Loads along the depth.
    pub down: Vec<Vec<Acting>>,
    /// Loads across it.
    pub across: Vec<Vec<Acting>>,
    /// What stands at a place.
    pub at: ByPlace<usize>,
    /// By arrangement and case, what of it a closed form covers.
    pub shapes: Vec<Vec<Shape>>,
}

/// What the lists are made of.
pub(super) struct Setting<'a> {
    pub applied: &'a [Applied],
    pub panels: &'a [Panel],
    pub beside: &'a [Beside],
    pub raised: Option<&'a RaisedTie<'a>>,
}

impl Slots {
    /// The lists of all arrangements and so many cases.
    pub fn of(setting: &Setting<'_>, arrangements: &[Arrangement], cases: usize) -> Self {
        let mut slots = Self { down: vec![Vec::new()], across: vec![Vec::new()], at: Vec::new(), shapes: Vec::new() };
        for arrangement in arrangements {
            let (mut at, mut shapes) = (Vec::new(), Vec::new());
            for case in (0..cases).map(Case) {
                let of = |way: Way| -> Vec<Acting> {
                    let here = setting.applied.iter().filter(|a| a.case == case && a.way == way);
                    here.flat_map(|a| standing(a, *arrangement, setting.panels)).collect()
                };
                let (down, across) = (of(Way::Down), of(Way::Across));
                let all = shape(&down, setting.panels);
                shapes.push(Shape { other: all.other || setting.raised.is_some(), ..all });
                at.push(slots.case(setting, case, &down, &across));
            }
            slots.at.push(at);
            slots.shapes.push(shapes);
        }
        slots
    }

    /// The lists of one case by place.
    fn case(&mut self, setting: &Setting<'_>, case: Case, down: &[Acting], across: &[Acting]) -> Vec<usize> {
        let panels = setting.panels;
        let by_place = |loads: &[Acting]| -> Vec<Vec<Acting>> {
            let on_panels = panels.iter().map(|panel| loads.iter().filter_map(|l| within(l, panel, panels)).collect());
            let on_joints = joints(panels).into_iter().map(|joint| loads.iter().filter_map(|l| over(l, joint)).collect());
            on_panels.chain(on_joints).collect()
        };
        let mut at = Vec::new();
        for (mut down, across) in by_place(down).into_iter().zip(by_place(across)) {
            down.extend(setting.raised.and_then(|tie| tie.press(case, &down)));
            at.push(self.keep(down, across));
        }
        at
    }

    fn keep(&mut self, down: Vec<Acting>, across: Vec<Acting>) -> usize {
        if down.is_empty() && across.is_empty() {
            return 0;
        }
        self.down.push(down);
        self.across.push(across);
        self.down.len() - 1
    }
}
