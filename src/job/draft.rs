//! A job as far as it could be read.
//!
//! A [`JobDraft`] is a whole [`Job`], or it is good for one thing: to be tried against a code's tables, so that all errors come in one
//! pass. What could not be read has no value here; in a trial [`StandIns`] take its place, several in turn, and only what is wrong with
//! all of them is told. A trial lends its job to a question that is answered in faults, so that no stand-in can reach a result.

use super::keys::Part;
use super::model::{
    About, Area, AreaOfCase, Basis, Bracing, BuildUp, Ceiling, Checker, CodeName, Comment, Conditions, Date, Floor, Job, Joined, Limits,
    LiveReduction, Load, LoadKind, MaterialAsked, Member, Nature, Notch, Paper, Placed, Purpose, Ridge, RoofLiveReduction, SectionAsked,
    Slope, Spans, Standing, TakenDefault, Use,
};
use super::prices::Prices;
use crate::text::{Diagnostic, Faults, Span};
use crate::units::{Degrees, FT, IN, Length, PSF, Ratio, ratio};

/// What a code lends for values that could not be read.
#[derive(Clone, Debug)]
pub struct StandIns {
    /// Sections with a material in which each is made; unlike one another, so that they fall under unlike rules.
    pub pairs: Vec<(SectionAsked, MaterialAsked)>,
    /// Species for a grade whose species could not be read.
    pub species: &'static [&'static str],
    /// Grades for a species whose grade could not be read.
    pub grades: &'static [&'static str],
}

impl StandIns {
    /// The place of what is nowhere in the file.
    pub const NOWHERE: Span = Span::new(usize::MAX, usize::MAX);
}

const NOWHERE: Span = StandIns::NOWHERE;

/// A job as far as it could be read.
#[derive(Clone, Debug)]
pub(super) struct JobDraft {
    pub about: Option<About>,
    pub basis: Option<Basis>,
    pub build_ups: Vec<BuildUp>,
    pub areas: Vec<Area>,
    pub members: Vec<MemberDraft>,
    /// None where reactions go round in a circle.
    pub path: Option<Vec<usize>>,
    pub prices: Option<Prices>,
    pub defaults: Vec<TakenDefault>,
    pub comments: Vec<Comment>,
    pub checker: Option<Checker>,
    /// Entries of the file that could not be read, in file order; none lies in another.
    pub unread: Vec<Span>,
    /// Whether one of them is an area load.
    pub areas_unread: bool,
}

/// A member as far as it could be read.
#[derive(Clone, Debug)]
pub(super) struct MemberDraft {
    pub mark: Option<Placed<String>>,
    pub role: Option<Use>,
    /// What it is read as where its use could not be read.
    pub likely: Use,
    pub section: Option<Placed<SectionAsked>>,
    pub plies: Option<Placed<u32>>,
    pub material: MaterialDraft,
    pub spans: Option<Spans>,
    /// Keys of its entry whose values could not be read, or only in part.
    pub unread: Vec<&'static str>,
    /// Where it begins in the file.
    pub begin: Span,
    pub rest: Rest,
}

/// What a member may be without: left out, or told to be wrong.
#[derive(Clone, Debug)]
pub(super) struct Rest {
    pub place: Option<String>,
    pub drawing: Option<String>,
    pub rests_on: Vec<Vec<Placed<String>>>,
    pub spacing: Option<Placed<Length>>,
    pub system: Option<Placed<bool>>,
    pub slope: Option<Placed<Slope>>,
    pub tilt: Option<Placed<Degrees>>,
    pub weak_spans: Option<Vec<Placed<Length>>>,
    pub standing: Option<Standing>,
    pub bearing: Option<Vec<Placed<Length>>>,
    pub edges: [Bracing; 2],
    pub conditions: Conditions,
    pub notches: Vec<Notch>,
    pub limits: Limits,
    pub live_reduction: Option<LiveReduction>,
    pub roof_live_reduction: Option<RoofLiveReduction>,
    pub notes: Vec<String>,
    pub hangers: Vec<usize>,
    pub floor: Option<Floor>,
    pub camber: Option<Placed<Length>>,
    pub ridge: Ridge,
    pub tie_up: Ratio,
    pub ceiling: Option<Ceiling>,
    pub self_weight: bool,
    pub loads: Vec<Load>,
    pub span: Span,
}

/// A material as far as it could be read.
#[derive(Clone, Debug)]
pub(super) enum MaterialDraft {
    Read(Placed<MaterialAsked>),
    /// One of species and grade, at most.
    Graded {
        species: Option<Placed<String>>,
        grade: Option<Placed<String>>,
        span: Span,
    },
    Unread,
}

impl MaterialDraft {
    /// The material, if all of it was read.
    pub fn read(self) -> Option<Placed<MaterialAsked>> {
        if let Self::Read(material) = self { Some(material) } else { None }
    }

    /// The material, or a stand-in for what is missing of it.
    fn or(&self, trial: usize, stand_ins: &StandIns) -> Placed<MaterialAsked> {
        let word = |words: &[&str]| Placed { value: words[trial % words.len()].to_owned(), span: NOWHERE };
        match self {
            Self::Read(material) => material.clone(),
            Self::Graded { species, grade, span } => {
                let species = species.clone().unwrap_or_else(|| word(stand_ins.species));
                let grade = grade.clone().unwrap_or_else(|| word(stand_ins.grades));
                Placed { value: MaterialAsked::Graded { species, grade }, span: *span }
            }
            Self::Unread => Placed { value: stand_ins.pairs[trial % stand_ins.pairs.len()].1.clone(), span: NOWHERE },
        }
    }
}

impl JobDraft {
    /// The job, if all of it was read.
    pub fn whole(self) -> Option<Job> {
        let members = self.members.into_iter().map(MemberDraft::whole).collect::<Option<_>>()?;
        Some(Job {
            about: self.about?,
            basis: self.basis?,
            build_ups: self.build_ups,
            areas: self.areas,
            members,
            path: self.path?,
            prices: self.prices,
            defaults: self.defaults,
            comments: self.comments,
            checker: self.checker,
            warnings: Vec::new(),
        })
    }

    /// Which code it is tried against.
    pub fn code(&self) -> Option<CodeName> {
        self.basis.as_ref().map(|basis| basis.code.value)
    }

    /// What `ask` finds wrong with the job, whatever takes the place of what could not be read. It answers with the faults of the basis, then
    /// with those of each member.
    pub fn wrong_whatever(&self, stand_ins: &StandIns, ask: impl Fn(&Job) -> Vec<Faults>) -> Faults {
        let complete = self.unread.is_empty() && self.about.is_some() && self.members.iter().all(MemberDraft::is_complete);
        let trials = if complete { 1 } else { stand_ins.pairs.len() };
        let asked: Vec<Vec<Faults>> = (0..trials).filter_map(|trial| Some(ask(&self.trial(trial, stand_ins)?))).collect();
        let Some(first) = asked.first() else { return Faults::new() };
        (0..first.len()).flat_map(|of| self.in_all(asked.iter().filter_map(|answer| answer.get(of)).collect())).collect()
    }

    /// The faults that every answer has; one that finds fault with a stand-in looks no farther, and does not count.
    fn in_all(&self, answers: Vec<&Faults>) -> Faults {
        let of_stand_in = |fault: &Diagnostic| fault.primary.span == NOWHERE || self.is_unread(fault.primary.span);
        let sound: Vec<&Faults> = answers.iter().copied().filter(|faults| !faults.iter().any(of_stand_in)).collect();
        let counted = if sound.is_empty() { answers } else { sound };
        let Some((first, others)) = counted.split_first() else { return Faults::new() };
        let same = |a: &Diagnostic, b: &Diagnostic| (a.id, a.primary.span) == (b.id, b.primary.span);
        let always = |fault: &&Diagnostic| others.iter().all(|faults| faults.iter().any(|other| same(fault, other)));
        first.iter().filter(|fault| !of_stand_in(fault)).filter(always).cloned().collect()
    }

    /// Whether a place lies in an entry that could not be read.
    fn is_unread(&self, span: Span) -> bool {
        let after = self.unread.partition_point(|unread| unread.start <= span.start);
        self.unread[..after].last().is_some_and(|unread| span.end <= unread.end)
    }

    /// The job with stand-ins; none where the code is not known.
    fn trial(&self, trial: usize, stand_ins: &StandIns) -> Option<Job> {
        let basis = self.basis.clone()?;
        let mut areas = self.areas.clone();
        let everything = areas.len();
        areas.push(anything());
        let mut members: Vec<Member> = self.members.iter().enumerate().map(|(i, member)| member.or(i, trial, stand_ins)).collect();
        for (member, draft) in members.iter_mut().zip(&self.members) {
            for load in &mut member.loads {
                // What a foot covers hangs on the section that it is of.
                if let LoadKind::Reaction { from_member, footprint, .. } = &mut load.kind
                    && !self.members[*from_member].has_a_foot()
                {
                    *footprint = None;
                }
            }
            if trial.is_multiple_of(2) && (self.areas_unread || draft.unread.contains(&"loads")) {
                let (from, to) = (Length::new(0.0), member.spans.length());
                let kind = LoadKind::Area { area: everything, width: Some([FT.of(1.0); 2]), slope: None, from, to };
                member.loads.push(Load { kind, span: NOWHERE });
            }
        }
        Some(Job {
            about: self.about.clone().or_else(untitled)?,
            basis,
            build_ups: self.build_ups.clone(),
            areas,
            path: self.path.clone().unwrap_or_else(|| (0..members.len()).collect()),
            members,
            prices: None,
            defaults: Vec::new(),
            comments: Vec::new(),
            checker: None,
            warnings: Vec::new(),
        })
    }
}

impl MemberDraft {
    /// A member of which nothing could be read.
    pub fn unreadable(span: Span) -> Self {
        Self {
            mark: None,
            role: None,
            likely: Use::Beam,
            section: None,
            plies: None,
            material: MaterialDraft::Unread,
            spans: None,
            unread: Part::Member.keys().map(|key| key.name).collect(),
            begin: Span::new(span.start, span.start),
            rest: Rest::nothing(span),
        }
    }

    fn is_complete(&self) -> bool {
        let needed = self.mark.is_some() && self.role.is_some() && self.spans.is_some();
        needed && self.has_a_foot()
    }

    /// Whether it is known what its end covers.
    fn has_a_foot(&self) -> bool {
        self.role.is_some() && self.section.is_some() && self.plies.is_some() && matches!(self.material, MaterialDraft::Read(_))
    }

    fn whole(self) -> Option<Member> {
        Some(self.rest.with(self.mark?, self.role?, self.section?, self.plies?, self.material.read()?, self.spans?))
    }

    /// The member, with a stand-in for all that could not be read.
    fn or(&self, index: usize, trial: usize, stand_ins: &StandIns) -> Member {
        let of = |values: &[f64]| values[trial % values.len()];
        let mark = self.mark.clone().unwrap_or_else(|| Placed { value: format!("?{index}"), span: self.begin });
        let section = || Placed { value: stand_ins.pairs[trial % stand_ins.pairs.len()].0.clone(), span: NOWHERE };
        let plies = || Placed { value: [1, 3, 2][trial % 3], span: NOWHERE };
        let spans = || {
            let nought = Length::new(0.0);
            Spans { spans: vec![Placed { value: FT.of(of(&[4.0, 60.0])), span: NOWHERE }], left: nought, right: nought, from_clear: false }
        };
        let mut member = self.rest.clone().with(
            mark,
            self.role.unwrap_or(self.likely),
            self.section.clone().unwrap_or_else(section),
            self.plies.clone().unwrap_or_else(plies),
            self.material.or(trial, stand_ins),
            self.spans.clone().unwrap_or_else(spans),
        );
        if let (None, Some(standing)) = (&self.plies, &mut member.standing) {
            // How plies are joined hangs on how many there are.
            standing.joined = (member.plies.value > 1).then_some(Joined::Nailed);
        }
        let trial_is_odd = trial % 2 == 1;
        let wants = |key: &str| trial_is_odd && self.unread.contains(&key);
        if wants("spacing") && member.spacing.is_none() {
            member.spacing = Some(Placed { value: IN.of(16.0), span: NOWHERE });
        }
        if wants("slope") && member.slope.is_none() {
            member.slope = Some(Placed { value: Slope { text: "6:12".to_owned(), angle: ratio(26.565) }, span: NOWHERE });
        }
        if let (true, Some(standing)) = (wants("built-up") && member.plies.value > 1, &mut member.standing) {
            standing.joined = standing.joined.or(Some(Joined::Nailed));
        }
        if wants("notches") {
            member.notches.iter_mut().for_each(|notch| notch.bottom = !notch.bottom);
        }
        if wants("tilt") && member.tilt.is_none() {
            member.tilt = Some(Placed { value: ratio(15.0), span: NOWHERE });
        }
        member
    }
}

impl Rest {
    fn nothing(span: Span) -> Self {
        Self {
            place: None,
            drawing: None,
            rests_on: Vec::new(),
            spacing: None,
            system: None,
            slope: None,
            tilt: None,
            weak_spans: None,
            standing: None,
            bearing: None,
            edges: [Bracing::None, Bracing::None],
            conditions: Conditions::default(),
            notches: Vec::new(),
            limits: Limits::default(),
            live_reduction: None,
            roof_live_reduction: None,
            notes: Vec::new(),
            hangers: Vec::new(),
            floor: None,
            camber: None,
            ridge: Ridge::Beam,
            tie_up: ratio(0.0),
            ceiling: None,
            self_weight: false,
            loads: Vec::new(),
            span,
        }
    }

    fn with(
        self,
        mark: Placed<String>,
        role: Use,
        section: Placed<SectionAsked>,
        plies: Placed<u32>,
        material: Placed<MaterialAsked>,
        spans: Spans,
    ) -> Member {
        let [top, bottom] = self.edges;
        Member {
            mark,
            role,
            section,
            plies,
            material,
            spans,
            top,
            bottom,
            place: self.place,
            drawing: self.drawing,
            rests_on: self.rests_on,
            spacing: self.spacing,
            system: self.system,
            slope: self.slope,
            tilt: self.tilt,
            weak_spans: self.weak_spans,
            standing: self.standing,
            bearing: self.bearing,
            conditions: self.conditions,
            notches: self.notches,
            limits: self.limits,
            live_reduction: self.live_reduction,
            roof_live_reduction: self.roof_live_reduction,
            notes: self.notes,
            hangers: self.hangers,
            floor: self.floor,
            camber: self.camber,
            ridge: self.ridge,
            tie_up: self.tie_up,
            ceiling: self.ceiling,
            self_weight: self.self_weight,
            loads: self.loads,
            span: self.span,
        }
    }
}

/// An area load of the cases that a reduction looks for.
fn anything() -> Area {
    let of = |nature: Nature| AreaOfCase { case: nature.case(), load: PSF.of(20.0), build_up: None, span: NOWHERE };
    Area { name: String::new(), loads: [Nature::Live, Nature::RoofLive].map(of).to_vec() }
}

/// A title block for a trial, which no trial looks at.
fn untitled() -> Option<About> {
    Some(About {
        title: String::new(),
        number: None,
        site: None,
        client: None,
        firm: None,
        prepared_by: None,
        checked_by: None,
        checked_on: None,
        date: Date::read("2000-01-01")?,
        issued_for: Purpose::Review,
        paper: Paper::Letter,
        revision: String::new(),
        revisions: Vec::new(),
        assumptions: Vec::new(),
        deferred: Vec::new(),
        confirmed: Vec::new(),
        confirmed_warnings: Vec::new(),
    })
}
