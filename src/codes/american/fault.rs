//! What the American tables and clauses refuse in a job file.

use crate::text::{Diagnostic, Label, Severity, Span, fault_ids, nearest};

/// A fault, as data; words in [`Fault::message`] and [`Fault::help`].
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Fault {
    UnknownWord { what: &'static str, word: String, known: &'static [&'static str] },
    UnknownSpecies { species: String, known: Vec<String> },
    UnknownGrade { grade: String, species: String, table: String, known: Vec<String> },
    NoSuchSection { name: String, known: Vec<String> },
    WrongSize { grade: String, species: String, section: String, sizes: String },
    NotCoveredYet { what: String },
    MissingValue { key: &'static str, why: &'static str },
    NotchTooDeep { limit: String },
    NotchTooLong { limit: String },
    NotchInMiddle,
    NotchInTension,
    TooHot { temperature: f64 },
    NotForTimbers { what: &'static str },
    RepetitiveNotAllowed { why: &'static str },
    TooManyPanels { panels: usize },
    NoFactor { section: String },
    NoEndFactor { ends: String },
    OutsideSection { most: String },
    WiderThanDeep { laminated: bool },
    FlatColumn,
    PliesNotJoined,
    OnePlyJoined,
    PliesTooThin,
    WiderThanBearing { foot: String, plate: String },
    TakenLetter { name: String },
    FlatAndTilt,
    NoLiveLoad { name: String, like: &'static str },
    UnknownCombination { name: String, known: Vec<String> },
    OtherSpecies { name: String, species: String, of: String },
    TooFewLaminations { name: String, section: String },
    NoSuchGluedSection { name: String },
    NoReportNumber { source: String },
    NotForGlued { what: &'static str },
    NotOfComposite { what: &'static str },
    GlulamNotchTooDeep { limit: String, edge: &'static str },
    GlulamNotchInside,
    NotReduced { what: &'static str, clause: &'static str },
    NotByArea { what: &'static str, mark: String, case: String },
    NothingToReduce { case: String },
    ElementIsNot { element: &'static str, role: &'static str },
    NotTheWholeRoofLoad,
    NoSuchSide { mark: String, sides: [String; 2] },
    BearsItself { mark: String },
}

fault_ids! {
    Self::UnknownWord { .. } => "unknown-word",
    Self::UnknownSpecies { .. } => "unknown-species",
    Self::UnknownGrade { .. } => "unknown-grade",
    Self::NoSuchSection { .. } => "no-such-section",
    Self::WrongSize { .. } => "size-without-values",
    Self::NotCoveredYet { .. } => "not-covered",
    Self::MissingValue { .. } => "missing-value",
    Self::NotchTooDeep { .. } => "notch-too-deep",
    Self::NotchTooLong { .. } => "notch-too-long",
    Self::NotchInMiddle => "notch-in-middle",
    Self::NotchInTension => "notch-in-tension",
    Self::TooHot { .. } => "too-hot",
    Self::NotForTimbers { .. } => "not-for-timbers",
    Self::RepetitiveNotAllowed { .. } => "system-not-allowed",
    Self::TooManyPanels { .. } => "too-many-spans",
    Self::NoFactor { .. } => "no-factor",
    Self::NoEndFactor { .. } => "no-end-factor",
    Self::OutsideSection { .. } => "outside-section",
    Self::WiderThanDeep { .. } => "wider-than-deep",
    Self::FlatColumn => "flat-column",
    Self::PliesNotJoined => "plies-not-joined",
    Self::OnePlyJoined => "one-ply-joined",
    Self::PliesTooThin => "plies-too-thin",
    Self::WiderThanBearing { .. } => "wider-than-bearing",
    Self::TakenLetter { .. } => "taken-letter",
    Self::FlatAndTilt => "flat-and-tilt",
    Self::NoLiveLoad { .. } => "no-live-load",
    Self::UnknownCombination { .. } => "unknown-combination",
    Self::OtherSpecies { .. } => "other-species",
    Self::TooFewLaminations { .. } => "too-few-laminations",
    Self::NoSuchGluedSection { .. } => "no-such-glued-section",
    Self::NoReportNumber { .. } => "no-report-number",
    Self::NotForGlued { .. } => "not-for-glued",
    Self::NotOfComposite { .. } => "not-of-composite",
    Self::GlulamNotchTooDeep { .. } => "glulam-notch-too-deep",
    Self::GlulamNotchInside => "glulam-notch-inside",
    Self::NotReduced { .. } => "not-reduced",
    Self::NotByArea { .. } => "not-by-area",
    Self::NothingToReduce { .. } => "nothing-to-reduce",
    Self::ElementIsNot { .. } => "element-is-not",
    Self::NotTheWholeRoofLoad => "not-the-whole-roof-load",
    Self::NoSuchSide { .. } => "no-such-side",
    Self::BearsItself { .. } => "bears-itself",
}

/// What to write instead of a section that no table has: never a size of another thickness, or of another kind of wood.
fn section_instead(name: &str, known: &[String]) -> String {
    const AS_SIZE: &str = "give `{width: 1-1/2 in, depth: 9-1/4 in}`";
    const COMPOSITE: &str = "structural composite lumber goes by its evaluation report (`material: {custom: …, kind: composite, source: report and \
                             number, values: {…}}`)";
    let plain = name.to_lowercase().replace([' ', '×', '*'], "x");
    match plain.split_once('x').map(|(thickness, depth)| (thickness, depth.parse::<f64>().is_ok())) {
        Some((thickness, _)) if thickness.contains(['/', '.', '-']) => {
            let laminated = "glued laminated timber by its `combination`";
            format!(
                "no dressed size of sawn lumber is {thickness} in thick: {COMPOSITE}, {laminated}; for lumber sawn to this size {AS_SIZE}"
            )
        }
        Some((thickness, true)) => {
            let same: Vec<&str> = known.iter().map(String::as_str).filter(|one| one.split('x').next() == Some(thickness)).collect();
            match same.as_slice() {
                [] => format!("no dressed size is nominally {thickness} in thick; {AS_SIZE}; {COMPOSITE}"),
                [one] => format!("nominal {thickness} in is dressed as {one} alone; else {AS_SIZE}; {COMPOSITE}"),
                [first, .., last] => format!("nominal {thickness} in is dressed as {first} to {last}; else {AS_SIZE}; {COMPOSITE}"),
            }
        }
        _ => match nearest(name, known.iter().map(String::as_str)) {
            Some(meant) => format!("did you mean `{meant}`? or {AS_SIZE}"),
            None => format!("write a nominal size such as `2x10`, or {AS_SIZE}"),
        },
    }
}

impl Fault {
    /// What is wrong, in one line that stands alone.
    fn message(&self) -> String {
        match self {
            Self::UnknownWord { what, word, .. } => format!("`{word}` is no {what} that the american code knows"),
            Self::UnknownSpecies { species, .. } => format!("no table has a species group `{species}`"),
            Self::UnknownGrade { grade, species, table, .. } => format!("{table} has no grade `{grade}` for {species}"),
            Self::NoSuchSection { name, .. } => format!("no dressed section is called `{name}`"),
            Self::WrongSize { grade, species, section, .. } => format!("{species} {grade} has no table value for a {section}"),
            Self::NotCoveredYet { what } => format!("{what} is not covered yet"),
            Self::MissingValue { key, .. } => format!("the custom material does not give `{key}`"),
            Self::NotchTooDeep { limit } => format!("the notch is deeper than NDS 4.4.3 allows: at most {limit}"),
            Self::NotchTooLong { limit } => format!("the notch is longer than NDS 4.4.3 allows away from the ends: at most {limit}"),
            Self::NotchInMiddle => "NDS 4.4.3 allows no notch in the middle third of a span".to_owned(),
            Self::NotchInTension => "NDS 4.4.3 allows no notch in the tension edge of lumber 4 in and thicker, but at the ends".to_owned(),
            Self::TooHot { temperature } => format!("NDS Table 2.3.3 ends at 150 F; {temperature:.0} F is not in it"),
            Self::NotForTimbers { what } => format!("{what} does not apply to timbers 5x5 and larger"),
            Self::RepetitiveNotAllowed { why } => format!("the repetitive member factor is asked for, but {why}"),
            Self::TooManyPanels { panels } => format!("{panels} spans and overhangs are more than every set of which can be tried"),
            Self::TakenLetter { name } => format!("a load case of your own is called `{name}`, which is the letter of a case of the code"),
            Self::FlatAndTilt => "the member is laid flat and leans: which face its loads meet is not clear".to_owned(),
            Self::NoLiveLoad { name, like } => format!("the load case `{name}` is like {like}; only a live load has a use category"),
            Self::UnknownCombination { name, .. } => format!("no table has a glued laminated combination or stress class `{name}`"),
            Self::OtherSpecies { name, species, of } => format!("{name} is of {of}, not of {species}"),
            Self::TooFewLaminations { name, section } => format!("combination {name} in a section {section} is not two laminations deep"),
            Self::NoSuchGluedSection { name } => format!("`{name}` is no width and depth of a glued member"),
            Self::NoReportNumber { source } => format!("the source of a composite names no report: `{source}`"),
            Self::NotForGlued { what } => format!("{what} does not apply to glued members"),
            Self::NotOfComposite { what } => {
                format!("{what} of structural composite lumber is not covered: NDS 8.3 leaves it to its report")
            }
            Self::GlulamNotchTooDeep { limit, edge } => {
                format!("the notch is deeper than NDS 5.4.5 allows in the {edge} edge of glued laminated timber: at most {limit}")
            }
            Self::GlulamNotchInside => "NDS 5.4.5 allows notches in glued laminated timber at the ends only".to_owned(),
            Self::NotReduced { what, clause } => format!("ASCE 7 {clause} does not let {what} be reduced"),
            Self::NotByArea { what, mark, case } => {
                format!("`{case}` comes here as {what} on {mark} too; ASCE 7 reduces uniform loads by their area")
            }
            Self::NothingToReduce { case } => format!("no area load of the case `{case}` comes to this member"),
            Self::ElementIsNot { element, role } => format!("a {role} is no {}", element.replace('-', " ")),
            Self::NotTheWholeRoofLoad => "ASCE 7 4.8.2 starts from the whole roof live load, 20 psf".to_owned(),
            Self::NoSuchSide { mark, sides: [width, depth] } => format!("{mark} is {width} by {depth}: neither is that long"),
            Self::BearsItself { mark } => format!("{mark} does not stand here with its foot"),
            Self::NoEndFactor { ends } => format!("NDS Appendix G has no effective length factor for a column {ends}"),
            Self::OutsideSection { most } => format!("the force stands outside of the section, whose edge is {most} from the axis"),
            Self::WiderThanDeep { .. } => "the section is wider than it is deep".to_owned(),
            Self::FlatColumn => "a post, stud or tie is not laid flat".to_owned(),
            Self::PliesNotJoined => "it is not said how the plies of the column are joined".to_owned(),
            Self::OnePlyJoined => "one ply is not built up".to_owned(),
            Self::PliesTooThin => "NDS 15.3.1 is for two to five plies, each 1-1/2 in thick or more".to_owned(),
            Self::WiderThanBearing { foot, plate } => format!("the foot is {foot} in wide, the plate under it {plate} in"),
            Self::NoFactor { section } => format!("the tables of factors have no row for a section {section} of this material"),
        }
    }

    /// What to write instead.
    fn help(&self) -> String {
        let listed = |known: &[String]| known.iter().map(|k| format!("`{k}`")).collect::<Vec<_>>().join(", ");
        let or_nearest = |word: &str, known: &[String]| match nearest(word, known.iter().map(String::as_str)) {
            Some(meant) => format!("did you mean `{meant}`? known: {}", listed(known)),
            None => format!("known: {}", listed(known)),
        };
        match self {
            Self::UnknownWord { word, known, .. } => or_nearest(word, &known.iter().map(|k| (*k).to_owned()).collect::<Vec<_>>()),
            Self::UnknownSpecies { species, known } => or_nearest(species, known),
            Self::UnknownGrade { grade, known, .. } => {
                // Another number is another grade, not a slip of the pen.
                let digits = |word: &str| word.chars().filter(char::is_ascii_digit).collect::<String>();
                let same: Vec<String> = known.iter().filter(|k| digits(k) == digits(grade)).cloned().collect();
                match nearest(grade, same.iter().map(String::as_str)) {
                    Some(meant) => format!("did you mean `{meant}`? known: {}", listed(known)),
                    None => format!("known: {}", listed(known)),
                }
            }
            Self::NoSuchSection { name, known } => section_instead(name, known),
            Self::WrongSize { sizes, .. } => format!("the table has it for {sizes}"),
            Self::NotCoveredYet { .. } => "leave it out, and see to it by other means".to_owned(),
            Self::MissingValue { key, why } => format!("add `{key}: …` under `values` ({why})"),
            Self::NotchTooDeep { .. } => "make the notch shallower or the member deeper".to_owned(),
            Self::NotchTooLong { .. } => "make the notch shorter or the member deeper".to_owned(),
            Self::NotchInMiddle => "move the notch to an outer third of the span".to_owned(),
            Self::NotchInTension => "leave the tension edge whole, or notch the end over the bearing".to_owned(),
            Self::TooHot { .. } => "give a sustained temperature of 150 F or less".to_owned(),
            Self::NotForTimbers { .. } => "take it out of the member's conditions".to_owned(),
            Self::RepetitiveNotAllowed { .. } => "leave `system` out, or write `system: no`".to_owned(),
            Self::TooManyPanels { .. } => format!("split the member: at most {} spans and overhangs", crate::codes::MOST_PANELS),
            Self::TakenLetter { .. } => "give it a longer name, such as `storage`".to_owned(),
            Self::FlatAndTilt => "say `tilt: 90 deg` for a member whose depth lies level, without `flat`".to_owned(),
            Self::NoLiveLoad { .. } => "take `use-category` out, or write `like: live`".to_owned(),
            Self::UnknownCombination { name, known } => or_nearest(name, known),
            Self::OtherSpecies { .. } => "leave `species` out, or name the combination that is made of it".to_owned(),
            Self::TooFewLaminations { .. } => "give a deeper section, or sawn lumber".to_owned(),
            Self::NoSuchGluedSection { .. } => {
                "write width and depth in inches, such as `5-1/8x24`, or `{width: 5-1/8 in, depth: 24 in}`".to_owned()
            }
            Self::NoReportNumber { .. } => "name the evaluation report and its number, such as `ESR-1234, table 1`".to_owned(),
            Self::NotOfComposite { .. } => "take it out, and see to it by other means".to_owned(),
            Self::NotForGlued { .. } => "take it out of the member's entry".to_owned(),
            Self::GlulamNotchTooDeep { .. } => "make the notch shallower or the member deeper".to_owned(),
            Self::GlulamNotchInside => "leave the member whole between its ends".to_owned(),
            Self::NotReduced { .. } => "take the reduction out".to_owned(),
            Self::NotByArea { case, .. } => {
                format!("give an area load, or a case of its own (`cases: {{fixtures: {{like: {case}}}}}`), which is never reduced")
            }
            Self::NothingToReduce { .. } => "take the reduction out, or give the load as an area load".to_owned(),
            Self::ElementIsNot { role, .. } => {
                let columns = "`interior-column`, `exterior-column`, `edge-column`, `corner-column`";
                let known = if matches!(*role, "post" | "stud") { columns } else { "`interior-beam`, `edge-beam`" };
                format!("it may be {known} or `other`")
            }
            Self::NotTheWholeRoofLoad => {
                "give `roof-live: 20 psf` in the areas, or leave out the reduction of a load that is reduced already".to_owned()
            }
            Self::NoSuchSide { sides: [width, depth], .. } => {
                format!(
                    "give the side that lies along this member, {width} or {depth}; of a bearing plate its length and its width: `[6 in, 3-1/2 in]`"
                )
            }
            Self::BearsItself { mark } => format!("the bearing of {mark} is given in its own entry: `bearing: 3-1/2 in`"),
            Self::NoEndFactor { .. } => {
                "fix the other end, or give `effective-length: {strong: …, weak: …}` decided by other means".to_owned()
            }
            Self::OutsideSection { .. } => {
                "give the distance between the force and the axis; a force on a bracket at the side says its height too: `at: 6 ft`"
                    .to_owned()
            }
            Self::WiderThanDeep { laminated: true } => {
                "the depth is that of the stacked laminations, over which F_bx, C_V and E_x hold; a column wider than that would have its strong axis \
                 over the width, with F_by and E_y, which is not covered: stack more laminations"
                    .to_owned()
            }
            Self::WiderThanDeep { laminated: false } => {
                "give the larger dimension as the depth: bending over it is about the strong axis".to_owned()
            }
            Self::FlatColumn => "say `about: weak` of the loads that bend it over its width".to_owned(),
            Self::PliesNotJoined => "say `built-up: nailed` or `built-up: bolted`, as NDS 15.3.3 or 15.3.4 asks".to_owned(),
            Self::OnePlyJoined => "give `plies:`, or leave `built-up` out".to_owned(),
            Self::PliesTooThin => "give thicker plies".to_owned(),
            Self::WiderThanBearing { .. } => "give a plate as wide as the foot, or a smaller section".to_owned(),
            Self::NoFactor { .. } => "a section 5 in and thicker is of `kind: timber`; else give a dressed size".to_owned(),
        }
    }

    /// The fault at its place.
    pub(super) fn at(&self, span: Span) -> Diagnostic {
        Diagnostic::new(self.id(), Severity::Error, self.message(), Label::bare(span)).with_help(self.help())
    }
}
