//! A member's part of the document.

mod camber;
mod receivers;
mod statics;
mod thrust;

use self::receivers::in_short;
use super::document::{rounded, value};
use super::register::Register;
use super::{
    Account, AccountColumn, AccountRow, Check, Deflection, Diagram, Envelope, Extreme, Governing, InCombination, Load, Material, Member,
    Other, Piece, Property, Reaction, Reduced, Reserve, Section, Side, Value,
};
use crate::analysis::{self, Quantity};
use crate::codes::{self, Action, Code, Deflected, Drawn, Found, Places, Shown, Statics, Utilization, Walked, Way};
use crate::job::model::{Case, Job};
use crate::units::{Unit, decimals, figures, trimmed};
use std::collections::BTreeMap;

/// The results of one member.
pub(super) fn of(code: &dyn Code, job: &Job, walked: &Walked, all: &[Walked], register: &Register) -> Member {
    let entry = &job.members[walked.member];
    let scene = Scene { code, shown: code.shown(), job, walked, all };
    let checked = &walked.checked;
    let counts = |f: &Found| !f.ratio.is_nothing() && (!f.about.only_failing || !f.ratio.passes());
    let governing = checked.found.iter().position(|f| f.leading && counts(f));
    let mut notes = entry.notes.clone();
    let reactions: Vec<f64> = checked.reactions.iter().map(|r| r.largest.1).collect();
    notes.extend(walked.prepared.notes(&reactions));
    notes.extend(scene.uplift());
    notes.extend(scene.camber());
    notes.extend(scene.single_points());
    notes.extend(scene.side_forces());
    notes.extend(scene.thrust());
    let leading = codes::Leading(checked.found.iter().filter(|f| f.leading).map(|f| (f.about.kind, &f.worked, &f.time)).collect());
    Member {
        mark: entry.mark.value.clone(),
        role: entry.role.word().to_owned(),
        verdict: checked.verdict(),
        unmade: checked.unmade.clone(),
        section: scene.section(),
        material: {
            let m = &walked.prepared.resolved().material;
            Material { name: m.name.clone(), table: m.table.clone(), cell: m.row.clone() }
        },
        governing: governing.map_or_else(nothing, |i| scene.governing(&checked.found[i])),
        loads: walked.arranged.applied.iter().map(|a| scene.load(a)).collect(),
        reduced: walked.prepared.resolved().reduced.iter().map(|r| scene.reduced(r)).collect(),
        reserve: checked.reserve.iter().map(|r| scene.reserve(r)).collect(),
        reactions: (0..checked.reactions.len()).map(|i| scene.reaction(i)).collect(),
        account: account(walked.prepared.account(&leading)),
        checks: checked.found.iter().enumerate().map(|(i, f)| scene.check(f, governing == Some(i))).collect(),
        deflections: checked.deflections.iter().map(|d| scene.deflection(d)).collect(),
        diagrams: checked.drawn.iter().map(|d| scene.diagram(d)).collect(),
        envelopes: checked.drawn.iter().filter(|d| d.all.len() > 1).map(|d| scene.envelope(d)).collect(),
        load_sets: walked.arranged.sets.len(),
        assumed: register.topics_of(walked.member),
        notes,
        not_checked: walked.prepared.not_checked(),
    }
}

/// Whether it is of a notch between the ends.
fn is_inner_notch(found: &Found) -> bool {
    matches!(found.demand.action, Action::Notch { support: 0, .. })
}

/// A member of which nothing was checked.
fn nothing() -> Governing {
    Governing { check: Governing::NONE.to_owned(), span: None, support: None, combination: String::new(), ratio: 0.0 }
}

struct Scene<'a> {
    code: &'a dyn Code,
    shown: Shown,
    job: &'a Job,
    walked: &'a Walked,
    all: &'a [Walked],
}

impl Scene<'_> {
    fn section(&self) -> Section {
        let s = &self.walked.prepared.resolved().section;
        let property = |(symbol, number, unit): &(&'static str, f64, &'static Unit)| Property {
            symbol: (*symbol).to_owned(),
            printed: printed(unit.number(*number)),
            value: value(*number, unit),
        };
        Section {
            name: s.name.clone(),
            size: s.size.clone(),
            width: value(s.width, self.shown.section),
            depth: value(s.depth, self.shown.section),
            plies: s.plies,
            reference: s.reference.clone(),
            properties: s.properties.iter().map(property).collect(),
        }
    }

    fn places(found: &Found) -> (Option<usize>, Option<usize>) {
        match found.about.places {
            Places::Bearings | Places::Foot => (None, Some(found.place)),
            Places::Underfoot => (Some(found.demand.panel), None),
            Places::Notches => (Some(found.demand.panel), Some(found.place).filter(|_| !is_inner_notch(found))),
            Places::Moments
            | Places::BothMoments
            | Places::Shears
            | Places::SideShears
            | Places::Whole
            | Places::Deflections
            | Places::Floors => (Some(found.place), None),
        }
    }

    fn governing(&self, found: &Found) -> Governing {
        let (span, support) = Self::places(found);
        Governing {
            check: found.about.kind.word().to_owned(),
            span,
            support,
            combination: found.combination.clone(),
            ratio: rounded(found.ratio.value()),
        }
    }

    fn load(&self, applied: &codes::Applied) -> Load {
        let span = self.shown.span;
        let (kind, from, to, start, end) = match applied.load {
            analysis::Load::Line { from, to, start, end } => ("line", from, to, value(start, self.shown.line), value(end, self.shown.line)),
            analysis::Load::Point { at, force } => ("point", at, at, value(force, self.shown.force), value(force, self.shown.force)),
            analysis::Load::Moment { at, moment } => ("moment", at, at, value(moment, self.shown.moment), value(moment, self.shown.moment)),
        };
        Load {
            case: self.job.basis.cases[applied.case.0].name.clone(),
            kind: if applied.way == Way::Along { "axial" } else { kind }.to_owned(),
            from: value(from, span),
            to: value(to, span),
            start,
            end,
            because: applied.because.clone(),
            across: applied.way == Way::Across,
            from_member: applied.from.map(|(m, _)| self.job.members[m].mark.value.clone()).unwrap_or_default(),
            from_support: applied.from.map(|(_, s)| s),
        }
    }

    fn case(&self, case: Case) -> String {
        self.job.basis.cases[case.0].name.clone()
    }

    fn reduced(&self, reduced: &codes::Reduced) -> Reduced {
        Reduced {
            case: self.case(reduced.case),
            from: value(reduced.whole, self.shown.area),
            to: value(reduced.whole * reduced.part, self.shown.area),
            factor: rounded(reduced.part),
            steps: reduced.steps.clone(),
        }
    }

    fn reserve(&self, reserved: &codes::Reserved) -> Reserve {
        let check = reserved.check.map(|i| self.walked.prepared.resolved().checks[i].kind.word());
        Reserve { case: self.case(reserved.case), factor: reserved.factor.map(rounded), governed_by: check.unwrap_or_default().to_owned() }
    }

    fn reaction(&self, support: usize) -> Reaction {
        let entry = &self.job.members[self.walked.member];
        let reacted = &self.walked.checked.reactions[support];
        let force = |f: f64| value(f, self.shown.force);
        let differing = |handed: &[Vec<f64>]| -> BTreeMap<String, Value> {
            let differs = |(case, all): &&(Case, f64)| (handed[support][case.0] - all).abs() > 1e-6 * all.abs().max(1e-3);
            reacted.by_case.iter().filter(differs).map(|(case, _)| (self.case(*case), force(handed[support][case.0]))).collect()
        };
        let receivers = self.receivers(support);
        let (received_by, receiver) = in_short(&receivers);
        Reaction {
            support: support + 1,
            at: value(reacted.at, self.shown.span),
            bearing: entry.bearing.as_ref().and_then(|b| b.get(support)).map(|b| value(b.value.value(), self.shown.section)),
            by_case: reacted.by_case.iter().map(|(case, f)| (self.case(*case), force(*f))).collect(),
            largest: InCombination { combination: reacted.largest.0.clone(), force: force(reacted.largest.1) },
            smallest: InCombination { combination: reacted.smallest.0.clone(), force: force(reacted.smallest.1) },
            handed_down: differing(&self.walked.handed.largest),
            handed_down_smallest: differing(&self.walked.handed.smallest),
            thrust: self.thrust_of(support),
            received_by,
            receiver,
            receivers,
        }
    }

    /// Supports that lift in some combination.
    fn uplift(&self) -> Option<String> {
        let lifting: Vec<String> = (self.walked.checked.reactions.iter().enumerate())
            .filter(|(_, r)| r.smallest.1 < -1e-6)
            .map(|(i, r)| {
                let force = self.shown.force;
                format!("support {}: {} {} under {}", i + 1, figures(force.number(-r.smallest.1), 3), force.name, r.smallest.0)
            })
            .collect();
        (!lifting.is_empty()).then(|| format!("Net uplift at {}; its anchorage is not checked here.", lifting.join("; at ")))
    }

    /// What the side supports of a member that leans take.
    fn side_forces(&self) -> Option<String> {
        let (force, span) = (self.shown.force, self.shown.span);
        let forces: Vec<String> = (self.walked.checked.side_forces.iter())
            .filter(|side| side.force > 0.0)
            .map(|side| {
                let (at, most) = (decimals(span.number(side.at), 2), figures(force.number(side.force), 3));
                format!("{at} {}: {most} {} under {}", span.name, force.name, side.combination)
            })
            .collect();
        (!forces.is_empty()).then(|| {
            format!(
                "Side supports take, across the depth, at {}. Their fastening, and what takes these forces on, is by others.",
                forces.join("; at ")
            )
        })
    }

    /// Bearings under a larger force than the schedule has, because received reactions stand as single points there.
    fn single_points(&self) -> Option<String> {
        let force = self.shown.force;
        let larger = self.walked.checked.found.iter().find_map(|f| match f.demand.action {
            Action::Bearing { force: tried, support, .. } => {
                let scheduled = self.walked.checked.reactions[support - 1].largest.1;
                (tried > scheduled * 1.001).then_some((support, tried, scheduled))
            }
            _ => None,
        })?;
        let shown = |f: f64| figures(force.number(f), 4);
        let (support, tried, scheduled) = larger;
        Some(format!(
            "Bearing at support {support} is checked for {} {unit}, received reactions as single points; the schedule has {} {unit}, spread.",
            shown(tried),
            shown(scheduled),
            unit = force.name
        ))
    }

    fn check(&self, found: &Found, governs: bool) -> Check {
        let side = |symbol: &str| {
            let step = found.worked.steps.iter().rev().find(|s| s.symbol == symbol);
            step.map_or_else(
                || Side { symbol: symbol.to_owned(), value: 0.0, unit: String::new() },
                |s| Side { symbol: symbol.to_owned(), value: s.value, unit: s.unit.clone() },
            )
        };
        let (span, support) = Self::places(found);
        Check {
            check: found.about.kind.word().to_owned(),
            what: found.about.what.to_owned(),
            clause: found.about.clause.to_owned(),
            combination: found.combination.clone(),
            load_set: found.load_set.clone(),
            span,
            support,
            at: value(found.demand.at, self.shown.span),
            place: self.place(found),
            demand: side(found.worked.demand),
            capacity: side(found.worked.capacity),
            ratio: rounded(found.ratio.value()),
            passes: found.ratio.passes(),
            governs,
            leading: found.leading,
            steps: self.steps(found),
            others: found.others.iter().map(|l| Other { what: l.what.clone(), ratio: rounded(l.ratio.value()) }).collect(),
            remarks: found.worked.remarks.clone(),
        }
    }

    /// Where, in words.
    fn place(&self, found: &Found) -> String {
        let at = |x: f64| format!("{} {}", decimals(self.shown.span.number(x), 2), self.shown.span.name);
        let panel = self.walked.arranged.panels.iter().find(|p| p.number == found.demand.panel);
        let span = || match panel {
            _ if found.demand.single => String::new(),
            Some(p) if p.overhang => " on the overhang".to_owned(),
            _ => format!(" in span {}", found.demand.panel),
        };
        let x = found.demand.at;
        let over = self.walked.arranged.supports.iter().position(|s| (s - x).abs() < 1e-6 * x.max(1.0));
        match (&found.demand.action, found.demand.statics) {
            (Action::Deflection { .. }, _) if self.is_free_end(found.demand.panel, x) => "at the free end".to_owned(),
            (Action::Moment { .. } | Action::Deflection { .. }, Statics::Uniform { .. } | Statics::MidPoint { .. }) => {
                "at mid-span".to_owned()
            }
            (Action::Moment { .. } | Action::Moments { .. }, _) if over.is_some() => format!("over support {}", over.unwrap_or(0) + 1),
            (Action::Moment { .. } | Action::Moments { .. }, _) => format!("at {}{}", at(x), span()),
            (Action::Deflection { .. }, _) => format!("at {}{}", at(x), span()),
            (Action::Shear { support, .. }, _) if over.is_some() => format!("at support {support}{}", span()),
            (Action::Shear { support, reduced: true, face, from_line, .. }, _)
                if (from_line - face - self.walked.prepared.resolved().section.depth).abs() < 1e-6 =>
            {
                format!("at d from the face of support {support}{}", span())
            }
            (Action::Shear { .. }, _) => format!("at {}{}", at(x), span()),
            (Action::Along { .. }, _) if found.about.places == Places::Foot => "at the foot".to_owned(),
            (Action::Along { .. }, _) => "over the whole length".to_owned(),
            (Action::Floor { .. }, _) if found.demand.single => "on the span".to_owned(),
            (Action::Floor { .. }, _) => format!("on span {}", found.demand.panel),
            (Action::SideShear { support, .. }, _) => format!("beside side support {support}"),
            (Action::Notch { support: 0, .. }, _) if over.is_some() => format!("at the notch over support {}", over.unwrap_or(0) + 1),
            (Action::Notch { support: 0, .. }, _) => format!("at the notch at {}{}", at(x), span()),
            (Action::Underfoot { load, .. }, _) => {
                let upon = self.walked.arranged.upon.iter().find(|u| u.load == *load);
                let mark = upon.map_or("", |u| self.job.members[u.giver].mark.value.as_str());
                if upon.is_some_and(|u| u.row) { format!("under each {mark}") } else { format!("under {mark}, at {}{}", at(x), span()) }
            }
            (Action::Bearing { support, .. } | Action::Notch { support, .. }, _) => format!("at support {support}"),
        }
    }

    /// Whether a place is the free end of an overhang.
    fn is_free_end(&self, panel: usize, x: f64) -> bool {
        let panel = self.walked.arranged.panels.iter().find(|p| p.number == panel && p.overhang);
        panel.is_some_and(|p| (x - if p.number == 0 { p.from } else { p.to }).abs() < 1e-6 * (p.to - p.from))
    }

    fn deflection(&self, d: &Deflected) -> Deflection {
        let section = self.shown.section;
        let limit_as = match d.limit {
            Some((_, Some((n, _)))) => {
                let overhang = self.walked.arranged.panels.iter().any(|p| p.number == d.panel && p.overhang);
                format!("{}L/{}", if overhang { "2" } else { "" }, printed(n))
            }
            Some((limit, None)) => format!("{} {}", printed(section.number(limit)), section.name),
            None => String::new(),
        };
        Deflection {
            what: d.case.what.word().to_owned(),
            combination: d.case.combination.clone(),
            span: d.panel,
            at: value(d.at, self.shown.span),
            value: value(d.net(), section),
            limit: d.limit.map(|(l, _)| value(l, section)),
            limit_as,
            ratio: d.limit.map(|(l, _)| rounded(Utilization::new(d.net().abs() / l).value())),
            reference: d.case.reference.clone(),
        }
    }

    /// The unit of a diagram, and what its numbers are divided by (a deflection is still times EI).
    fn scale(&self, quantity: Quantity) -> (&'static str, &'static Unit, f64) {
        match quantity {
            Quantity::Shear => ("shear", self.shown.force, 1.0),
            Quantity::Moment => ("moment", self.shown.moment, 1.0),
            Quantity::Deflection => ("deflection", self.shown.section, self.walked.prepared.resolved().rigidity),
        }
    }

    fn diagram(&self, drawn: &Drawn) -> Diagram {
        let (name, unit, over) = self.scale(drawn.quantity);
        let span = self.shown.span;
        // What each term comes to at the far end of its piece; a term that is nothing beside the largest is left of a difference.
        let terms = |piece: &analysis::Piece| -> Vec<f64> {
            let length = piece.to - piece.from;
            let mut power = 1.0;
            let term = |c: &f64| {
                let term = (power * c).abs();
                power *= length;
                term
            };
            piece.polynomial(drawn.quantity).0.iter().map(term).collect()
        };
        let most = drawn.diagram.pieces.iter().flat_map(terms).fold(0.0, f64::max);
        let pieces = drawn.diagram.pieces.iter().map(|piece| {
            let mut power = 1.0;
            let coefficients: Vec<f64> = (piece.polynomial(drawn.quantity).0.iter().zip(terms(piece)))
                .map(|(c, term)| {
                    let shown = if term > NOTHING * most { rounded(unit.number(c / over) * power) } else { 0.0 };
                    power *= span.factor;
                    shown
                })
                .collect();
            let used = coefficients.iter().rposition(|c| *c != 0.0).map_or(1, |i| i + 1);
            Piece { from: value(piece.from, span), to: value(piece.to, span), polynomial: coefficients[..used].to_vec() }
        });
        let panels = &self.walked.arranged.panels;
        Diagram {
            combination: drawn.combination.clone(),
            load_set: drawn.load_set.clone(),
            quantity: name.to_owned(),
            unit: unit.name.to_owned(),
            pieces: pieces.collect(),
            extremes: self.extremes(std::slice::from_ref(&drawn.diagram), drawn.quantity),
            off_panels: (0..panels.len()).filter(|i| drawn.mask >> i & 1 == 0).map(|i| panels[i].number).collect(),
        }
    }

    /// Extremes worth a label: of every panel the largest and the smallest that are not nearly nought; of the shear both ends of every span.
    fn extremes(&self, diagrams: &[analysis::Diagram], quantity: Quantity) -> Vec<Extreme> {
        let (_, unit, over) = self.scale(quantity);
        let mut found: Vec<(f64, f64)> = Vec::new();
        for panel in &self.walked.arranged.panels {
            let (mut high, mut low) = ((panel.from, 0.0_f64), (panel.from, 0.0_f64));
            for diagram in diagrams {
                let e = diagram.extremes(quantity, panel.from, panel.to);
                if e.largest.value > high.1 * (1.0 + 1e-9) {
                    high = (e.largest.x, e.largest.value);
                }
                if e.smallest.value < low.1 * (1.0 + 1e-9) {
                    low = (e.smallest.x, e.smallest.value);
                }
            }
            found.extend([high, low]);
        }
        let most = found.iter().map(|(_, v)| v.abs()).fold(0.0, f64::max);
        found.retain(|(_, v)| v.abs() > 0.02 * most);
        found.sort_by(|a, b| a.0.total_cmp(&b.0));
        // The moment over a support is an extreme of both spans beside it.
        found.dedup_by(|a, b| (a.0 - b.0).abs() < 1e-6 && (a.1 - b.1).abs() < 1e-9 * most);
        found.into_iter().map(|(x, v)| Extreme { at: value(x, self.shown.span), value: rounded(unit.number(v / over)) }).collect()
    }

    fn envelope(&self, drawn: &Drawn) -> Envelope {
        const PARTS: usize = 24;
        let (name, unit, over) = self.scale(drawn.quantity);
        let panels = &self.walked.arranged.panels;
        let mut places: Vec<f64> = Vec::new();
        for panel in panels {
            places.extend((0..=PARTS).map(|i| panel.from + (panel.to - panel.from) * i as f64 / PARTS as f64));
        }
        places.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
        let shown = |v: f64| rounded(unit.number(v / over));
        let envelope = analysis::Envelope::of(&drawn.all, drawn.quantity, &places);
        Envelope {
            quantity: name.to_owned(),
            unit: unit.name.to_owned(),
            at_unit: self.shown.span.name.to_owned(),
            points: envelope.bounds.iter().map(|b| [rounded(self.shown.span.number(b.x)), shown(b.smallest), shown(b.largest)]).collect(),
            extremes: self.extremes(&drawn.all, drawn.quantity),
        }
    }
}

/// The part of the largest term of a diagram below which a term is what a subtraction left.
const NOTHING: f64 = 1e-12;

/// A number with at most five figures, without noughts behind.
fn printed(number: f64) -> String {
    trimmed(number, 5)
}

fn account(account: codes::Account) -> Account {
    Account {
        unit: account.unit.to_owned(),
        columns: (account.columns.into_iter())
            .map(|c| AccountColumn {
                symbol: c.letter.plain.to_owned(),
                typst: c.letter.typst.to_owned(),
                words: c.letter.words.to_owned(),
                reference: c.reference,
                adjusted: c.adjusted,
            })
            .collect(),
        rows: (account.rows.into_iter())
            .map(|r| AccountRow {
                symbol: r.letter.plain.to_owned(),
                typst: r.letter.typst.to_owned(),
                words: r.letter.words.to_owned(),
                name: r.name.to_owned(),
                values: r.values.into_iter().map(Option::unwrap_or_default).collect(),
                because: r.because,
                reference: r.reference,
            })
            .collect(),
        reference: account.reference,
        remark: account.remark.to_owned(),
        adjusted_reference: account.adjusted_reference.to_owned(),
    }
}
