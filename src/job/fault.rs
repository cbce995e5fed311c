//! What can be wrong with a job: one variant a fault, one match for what it says and one for what to write instead.

mod words;

use super::keys::{Key, Kind, Need, Part, one_of};
use super::material::NotSawn;
use super::model::{MOST_ALTERNATIVES, MOST_TOGETHER};
use crate::text::{Diagnostic, Label, Replacement, Severity, Span, fault_ids};
use crate::units::Misread;
use words::{instead, listed, quoted};

/// A fault of a job, with what its message needs.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Fault {
    UnknownKey { key: String, part: Part, meant: Option<&'static Key> },
    EmptyValue { key: &'static Key },
    MissingKey { key: &'static Key },
    WrongShape { found: &'static str, what: String, wanted: String },
    ListDue { what: String, text: String },
    Misread { what: String, why: Misread },
    UnknownWord { word: String, what: String, known: Vec<&'static str>, nearest: Option<&'static str> },
    WrongText { text: String, what: String, wanted: String, nearest: Option<&'static str> },
    UnknownName { name: String, thing: &'static str, known: Vec<String>, nearest: Option<String> },
    NotPositive { what: String, text: String },
    Negative { what: String, text: String },
    BeyondMeasure { what: String, text: String },
    OutOfRange { what: String, text: String, from: i64, to: i64 },
    TooMuch { what: String, given: usize, most: usize },
    TooManyTrials { spans: usize, combinations: usize, trials: usize, most: usize },
    NotADate { text: String },
    ConfirmsTwo,
    ConfirmsNothing,
    TooCold { text: String, lowest: String },
    LimitTooLoose { text: String, least: String },
    RevisionOrder { mark: String, before: String },
    RevisionDate { date: String, before: String },
    RevisionNotLast { revision: String, last: String },
    NotACompanion { text: String },
    BadMark { mark: String },
    MarkTwice { mark: String },
    CombinationTwice { name: String },
    NameTaken { name: String },
    NoMembers,
    NoStrength,
    NoLayers { name: String },
    NoSpans,
    OverhangAlone,
    BearingsMeet { span: usize },
    RestsOnItself { mark: String },
    RestsOnRepeated { name: String, support: usize },
    RestsOnTwice { support: usize, receiver: String },
    RestsOnElsewhere { giver: String, support: usize, on: Vec<String>, receiver: String },
    RestsOnBoth { giver: String, receiver: String, supports: [usize; 2] },
    RestsOnPlace { giver: String, receiver: String, repeated: bool },
    RowOnPost { giver: String, support: usize, post: String },
    SpansTwice,
    ClearSpansNoBearing,
    BearingPastMiddle { text: String },
    WrongCount { what: &'static str, given: usize, due: String },
    SlopeMissing { of: &'static str },
    SlopeTooSteep { text: String },
    TiltTooFar { text: String },
    NotAPart { what: &'static str, text: String },
    SlopeAndTilt,
    WeakSpansAlone,
    WeakSpansDiffer { given: String, due: String },
    OffTheEnd { what: String, text: String, length: String },
    FromBehindTo,
    NoWidth { area: String },
    NotchTooDeep { depth: String, section: String },
    NotchAtFreeEnd { end: &'static str },
    NotchPastSupport,
    NoLoads,
    MembersByMark,
    LoadUnknown { keys: Vec<String> },
    LoadOfTwoKinds { first: &'static str, second: &'static str },
    HowReactionArrives { both: bool },
    OwnReaction { mark: String },
    WrongSense { role: &'static str, text: String, case: String },
    FloorWithoutSpacing,
    StiffTwice,
    NotAShare { what: &'static str, text: String },
    RowWithoutSpacing { role: &'static str },
    NoThrust { mark: String },
    RidgeCarriesNothing { mark: String },
    BoardSpans,
    TieWithoutBoard,
    CollarTie { part: String },
    BracketWithoutArm,
    BoardTooFlat { text: String },
    NoSuchSupport { mark: String, support: u32, supports: usize },
    Circle { marks: Vec<String> },
    MaterialUnclear { given: Vec<&'static str> },
    NotSawn { word: String, made: NotSawn },
    OfCustomAlone,
    SizeTwice,
    SelfReplacing { name: String },
    PermanentReplaced { name: String, other: String },
    TooManyAlternatives,
    TooManyTogether,
    KeyOfOtherCode { key: &'static str, value: String, codes: Vec<&'static str>, code: &'static str },
    KeyOfOtherUse { key: &'static str, uses: Vec<&'static str>, role: &'static str },
    KeyNotCovered { key: &'static str },
    NotCovered { what: String },
}

fault_ids! {
    Self::UnknownKey { .. } => "unknown-key",
    Self::EmptyValue { .. } => "empty-value",
    Self::MissingKey { .. } => "missing-key",
    Self::WrongShape { .. } | Self::MembersByMark => "wrong-shape",
    Self::ListDue { .. } => "list-due",
    Self::Misread { why: Misread::NoUnit { .. }, .. } => "no-unit",
    Self::Misread { why: Misread::WrongUnit { .. }, .. } => "wrong-unit",
    Self::Misread { why: Misread::UnknownUnit { .. }, .. } => "unknown-unit",
    Self::Misread { why: Misread::NotANumber { .. }, .. } => "not-a-number",
    Self::UnknownWord { .. } => "unknown-word",
    Self::WrongText { .. } => "wrong-text",
    Self::UnknownName { .. } => "unknown-name",
    Self::NotPositive { .. } => "not-positive",
    Self::Negative { .. } => "negative",
    Self::BeyondMeasure { .. } => "beyond-measure",
    Self::OutOfRange { .. } => "out-of-range",
    Self::TooMuch { .. } => "too-much",
    Self::TooManyTrials { .. } => "too-many-trials",
    Self::NotADate { .. } => "date",
    Self::ConfirmsTwo => "confirms-two",
    Self::ConfirmsNothing => "confirms-nothing",
    Self::TooCold { .. } => "too-cold",
    Self::LimitTooLoose { .. } => "limit-too-loose",
    Self::RevisionOrder { .. } | Self::RevisionDate { .. } => "revision-order",
    Self::RevisionNotLast { .. } => "revision-not-last",
    Self::NotACompanion { .. } => "live-companion",
    Self::BadMark { .. } => "mark",
    Self::MarkTwice { .. } => "mark-twice",
    Self::CombinationTwice { .. } => "combination-twice",
    Self::NameTaken { .. } => "name-taken",
    Self::NoMembers => "no-members",
    Self::NoStrength => "no-strength-combination",
    Self::NoLayers { .. } => "no-layers",
    Self::NoSpans => "no-spans",
    Self::OverhangAlone => "overhang-alone",
    Self::BearingsMeet { .. } => "bearings-meet",
    Self::RestsOnItself { .. } => "rests-on-itself",
    Self::RestsOnRepeated { .. } => "rests-on-repeated",
    Self::RestsOnTwice { .. } => "rests-on-twice",
    Self::RestsOnElsewhere { .. } => "rests-on-elsewhere",
    Self::RestsOnBoth { .. } => "rests-on-both",
    Self::RestsOnPlace { .. } => "rests-on-place",
    Self::RowOnPost { .. } => "row-on-post",
    Self::SpansTwice => "spans-twice",
    Self::ClearSpansNoBearing => "clear-spans-no-bearing",
    Self::BearingPastMiddle { .. } => "bearing-past-middle",
    Self::WrongCount { .. } => "wrong-count",
    Self::SlopeMissing { .. } => "slope-missing",
    Self::SlopeTooSteep { .. } => "slope-too-steep",
    Self::TiltTooFar { .. } => "tilt-too-far",
    Self::SlopeAndTilt => "slope-and-tilt",
    Self::NotAPart { .. } => "not-a-part",
    Self::WeakSpansAlone => "weak-spans-alone",
    Self::WeakSpansDiffer { .. } => "weak-spans-differ",
    Self::OffTheEnd { .. } => "off-the-end",
    Self::FromBehindTo => "from-behind-to",
    Self::NoWidth { .. } => "no-width",
    Self::NotchTooDeep { .. } => "notch-too-deep",
    Self::NotchAtFreeEnd { .. } => "notch-at-free-end",
    Self::NotchPastSupport => "notch-past-support",
    Self::NoLoads => "no-loads",
    Self::LoadUnknown { .. } => "load-unknown",
    Self::LoadOfTwoKinds { .. } => "load-of-two-kinds",
    Self::HowReactionArrives { .. } => "reaction-place",
    Self::OwnReaction { .. } => "own-reaction",
    Self::WrongSense { .. } => "wrong-sense",
    Self::FloorWithoutSpacing => "floor-without-spacing",
    Self::StiffTwice => "stiff-twice",
    Self::NotAShare { .. } => "not-a-share",
    Self::RowWithoutSpacing { .. } => "row-without-spacing",
    Self::NoThrust { .. } => "no-thrust",
    Self::RidgeCarriesNothing { .. } => "ridge-carries-nothing",
    Self::BoardSpans => "board-spans",
    Self::TieWithoutBoard => "tie-without-board",
    Self::CollarTie { .. } => "collar-tie",
    Self::BracketWithoutArm => "bracket-without-arm",
    Self::BoardTooFlat { .. } => "board-too-flat",
    Self::NoSuchSupport { .. } => "no-such-support",
    Self::Circle { .. } => "circle",
    Self::MaterialUnclear { .. } => "material-unclear",
    Self::NotSawn { .. } => "not-sawn",
    Self::OfCustomAlone => "of-custom-alone",
    Self::SizeTwice => "size-twice",
    Self::SelfReplacing { .. } => "instead-of-itself",
    Self::PermanentReplaced { .. } => "instead-of-permanent",
    Self::TooManyAlternatives | Self::TooManyTogether => "too-many-cases",
    Self::KeyOfOtherCode { .. } => "key-of-other-code",
    Self::KeyOfOtherUse { .. } => "key-of-other-use",
    Self::KeyNotCovered { .. } | Self::NotCovered { .. } => "not-covered",
}

impl Fault {
    /// Whether the value at its place cannot be used: not where the place only says where something else belongs, or where a value is to
    /// be read under another name.
    pub(super) const fn spoils(&self) -> bool {
        !matches!(
            self,
            Self::UnknownKey { .. }
                | Self::MissingKey { .. }
                | Self::SlopeMissing { .. }
                | Self::NoSpans
                | Self::NoMembers
                | Self::MembersByMark
        )
    }

    fn message(&self) -> String {
        match self {
            Self::UnknownKey { key, part, .. } => format!("{} has no key `{key}`", part.words()),
            Self::EmptyValue { key } => format!("`{}` has no value", key.name),
            Self::MissingKey { key } => format!("{} lacks `{}`", key.part.words(), key.name),
            Self::MembersByMark => "`members` is a map where a list is due".into(),
            Self::WrongShape { found, what, wanted } => format!("{what} is {found} where {wanted} is due"),
            Self::ListDue { what, .. } => format!("{what} is a list"),
            Self::Misread { what, why } => format!("{what}: {why}"),
            Self::UnknownWord { word, what, .. } => format!("`{word}` is no word for {what}"),
            Self::WrongText { text, what, .. } => format!("`{text}` will not do for {what}"),
            Self::UnknownName { name, thing, .. } => format!("no {thing} is called `{name}`"),
            Self::NotPositive { what, text } => format!("{what} must be more than zero, not `{text}`"),
            Self::Negative { what, text } => format!("{what} cannot be negative: `{text}`"),
            Self::BeyondMeasure { what, text } => format!("{what} is beyond all measure: `{text}`"),
            Self::OutOfRange { what, text, from, to } => format!("{what} must be from {from} to {to}, not `{text}`"),
            Self::TooMuch { what, given, most } => format!("{given} {what}: at most {most}"),
            Self::TooManyTrials { spans, combinations, trials, .. } => {
                format!("{combinations} load combinations on every set of {spans} spans and overhangs are {trials} trials")
            }
            Self::ConfirmsTwo => "a confirmation is of a table or of a warning, not of both".into(),
            Self::ConfirmsNothing => "a confirmation lacks what it confirms".into(),
            Self::TooCold { text, lowest } => format!("a sustained temperature of `{text}` is below {lowest} °F"),
            Self::LimitTooLoose { text, least } => format!("deflection limit `{text}` is looser than {least}"),
            Self::NotADate { text } => format!("`{text}` is not a date of the calendar"),
            Self::RevisionOrder { mark, before } => format!("revision `{mark}` is listed after `{before}`"),
            Self::RevisionDate { date, before } => format!("a revision dated {date} is listed after one dated {before}"),
            Self::RevisionNotLast { revision, last } => {
                format!("revision `{revision}` is issued, but the last revision listed is `{last}`")
            }
            Self::NotACompanion { text } => format!("`live-companion` is 1.0 or 0.5, not `{text}`"),
            Self::BadMark { mark } => format!("`{mark}` cannot be a mark"),
            Self::MarkTwice { mark } => format!("two members have the mark `{mark}`"),
            Self::CombinationTwice { name } => format!("two combinations have the name `{name}`"),
            Self::NameTaken { name } => format!("`{name}` is a load case that every job has"),
            Self::NoMembers => "the job has no members".into(),
            Self::NoStrength => "`only: yes` leaves no combination for strength".into(),
            Self::NoLayers { name } => format!("build-up `{name}` has no layers"),
            Self::NoSpans => "the member has no span".into(),
            Self::OverhangAlone => "an overhang has no span behind it".into(),
            Self::BearingsMeet { span } => format!("span {span} is no longer than the bearings at its ends reach into it"),
            Self::RestsOnItself { mark } => format!("`{mark}` cannot rest on itself"),
            Self::RestsOnRepeated { name, support } => format!("`{name}` is named twice under support {support}"),
            Self::RestsOnTwice { support, receiver } => {
                format!("how support {support} rests on `{receiver}` is given here and in the loads of `{receiver}`")
            }
            Self::RestsOnElsewhere { giver, support, on, receiver } => {
                format!("support {support} of `{giver}` rests on {}, but `{receiver}` receives its reaction", quoted(on))
            }
            Self::RestsOnBoth { giver, receiver, supports: [one, other] } => {
                format!("`{receiver}` would receive the reactions of `{giver}` at support {one} and at support {other}")
            }
            Self::RestsOnPlace { giver, receiver, .. } => format!("where `{giver}` rests on `{receiver}` is not given"),
            Self::RowOnPost { giver, post, .. } => format!("`{giver}` is repeated, `{post}` is one post"),
            Self::SpansTwice => "`spans` and `clear-spans` are both given".into(),
            Self::ClearSpansNoBearing => "`clear-spans` without `bearing` do not say where the support lines are".into(),
            Self::BearingPastMiddle { text } => format!("a bearing `{text}` long reaches past the middle of the span beside it"),
            Self::WrongCount { what, given, due } => format!("`{what}` has {given} entries where {due} is due"),
            Self::SlopeMissing { of } => format!("the {of} has no slope"),
            Self::SlopeTooSteep { text } => format!("a slope lies between level and upright, not at `{text}`"),
            Self::NotAPart { what, text } => format!("a treatment leaves a part of `{what}`: more than 0, 1 at most, not `{text}`"),
            Self::TiltTooFar { text } => format!("a depth leans from the vertical by 0 to 90 deg, not by `{text}`"),
            Self::SlopeAndTilt => "a member that leans stands square on its surface: its area loads have no slope of their own".into(),
            Self::WeakSpansAlone => "`weak-spans` without `tilt`: nothing bends the member sideways".into(),
            Self::WeakSpansDiffer { given, due } => {
                format!("`weak-spans` add up to {given}, the supports are {due} apart from first to last")
            }
            Self::OffTheEnd { what, text, length } => format!("{what} `{text}` lies off the member, which is {length} long"),
            Self::FromBehindTo => "the load ends where it begins, or before".into(),
            Self::NoWidth { area } => format!("area load `{area}` has no width to act over"),
            Self::NotchAtFreeEnd { end } => format!("a notch at the {end} end, which is the free end of an overhang"),
            Self::NotchPastSupport => "the notch is over two supports".into(),
            Self::NotchTooDeep { depth, section } => format!("a notch {depth} deep leaves nothing of a member {section} deep"),
            Self::NoLoads => "nothing loads the member".into(),
            Self::LoadUnknown { keys, .. } if keys.is_empty() => "a load without a kind".into(),
            Self::LoadUnknown { keys, .. } => format!("not a kind of load: {}", quoted(keys)),
            Self::LoadOfTwoKinds { first, second } => format!("one load is both `{first}` and `{second}`"),
            Self::HowReactionArrives { both: true } => "a reaction arrives at one place or every so far, not both".into(),
            Self::HowReactionArrives { both: false } => "it is not said where the reaction arrives".into(),
            Self::OwnReaction { mark } => format!("`{mark}` cannot receive its own reaction"),
            Self::WrongSense { role: role @ "tie", text, case } => format!("compression on a {role}: `{text}` of case `{case}`"),
            Self::WrongSense { role, text, case } => format!("tension on a {role}: `{text}` of case `{case}`"),
            Self::FloorWithoutSpacing => "a floor of members without `spacing`".into(),
            Self::StiffTwice => "`decking` and `stiffness-across` are both given".into(),
            Self::NotAShare { what, text } => format!("`{what}` is more than 0, 1 at most, not `{text}`"),
            Self::RowWithoutSpacing { role } => format!("the {role} has no spacing to take a row over"),
            Self::NoThrust { mark } => format!("`{mark}` is no rafter on a ridge board: it has no thrust"),
            Self::RidgeCarriesNothing { mark } => format!("`{mark}` leans on a ridge board, where it hands nothing down"),
            Self::BracketWithoutArm => "it is not said how far the force on the bracket stands from an axis".into(),
            Self::TieWithoutBoard => "only rafters that lean on a ridge board have a tie that holds their thrust".into(),
            Self::CollarTie { part } => format!("a tie {part} of the rise up is a collar tie: it does not hold the thrust of the rafters"),
            Self::BoardSpans => "a rafter on a ridge board has one span, and no overhang at the ridge".into(),
            Self::BoardTooFlat { text } => format!("a slope of {text} is too flat for a ridge board"),
            Self::NoSuchSupport { mark, support, supports } => format!("`{mark}` has no support {support}; it has {supports}"),
            Self::Circle { marks } => format!("reactions go round in a circle: {}", marks.join(" onto ")),
            Self::MaterialUnclear { given } if given.is_empty() => "the material is not said".into(),
            Self::MaterialUnclear { given } => {
                format!("the material is said in more than one way: {}", one_of(given).replace(" or ", " and "))
            }
            Self::NotSawn { word, .. } => format!("`{word}` is no species or grade of sawn lumber"),
            Self::OfCustomAlone => "only values of a `custom` material say what size they hold for".into(),
            Self::SizeTwice => "`size-factor: table` says that the value is a tabulated one, `depth` that it holds for a depth".into(),
            Self::SelfReplacing { name } => format!("case `{name}` cannot stand for itself"),
            Self::PermanentReplaced { name, other } => {
                format!("`{name}` cannot stand in place of `{other}`: a permanent load is never absent")
            }
            Self::TooManyAlternatives => format!("`instead-of` leaves more than {MOST_ALTERNATIVES} sets of cases that may act together"),
            Self::TooManyTogether => format!("more than {MOST_TOGETHER} cases of your own may act together"),
            Self::KeyOfOtherCode { key, code, .. } => format!("`{key}` means nothing to the {code} code"),
            Self::KeyOfOtherUse { key, role, .. } => format!("`{key}` means nothing on a {role}"),
            Self::KeyNotCovered { key } => format!("`{key}` is not covered yet"),
            Self::NotCovered { what } => format!("{what} is not covered yet"),
        }
    }

    fn help(&self) -> String {
        match self {
            Self::UnknownKey { key, meant: Some(meant), .. } => meant.in_place_of(key),
            Self::UnknownKey { part, .. } => format!("{} knows {}", part.words(), listed(part.keys().map(|key| key.name))),
            Self::EmptyValue { key } => {
                let help = if key.kind == Kind::Text { format!("write a text {}", key.help()) } else { format!("write {}", key.kind.words()) };
                let may_go = key.need != Need::Needed && key.uses.is_empty() && key.codes.is_empty();
                if may_go { format!("{help}, or take the key out") } else { help }
            }
            Self::MissingKey { key } => format!("add `{}:` {}", key.name, key.help()),
            Self::WrongShape { wanted, .. } => format!("write {wanted}"),
            Self::ListDue { text, .. } => format!("write it in brackets: `[{text}]`"),
            Self::Misread { why, .. } => why.help(),
            Self::UnknownWord { nearest: Some(word), .. } => format!("did you mean `{word}`?"),
            Self::UnknownWord { known, .. } => format!("write {}", one_of(known)),
            Self::WrongText { nearest: Some(word), .. } => format!("did you mean `{word}`?"),
            Self::WrongText { wanted, .. } => format!("write {wanted}"),
            Self::UnknownName { nearest: Some(name), .. } => format!("did you mean `{name}`?"),
            Self::UnknownName { known, thing, .. } if known.is_empty() => format!("the job gives no {thing}"),
            Self::UnknownName { known, .. } => format!("known: {}", listed(known.iter().map(String::as_str))),
            Self::NotPositive { .. } => "write a value above zero".into(),
            Self::Negative { .. } => "write zero or more".into(),
            Self::BeyondMeasure { .. } => "look at the powers of ten, and at the unit".into(),
            Self::OutOfRange { from, to, .. } => format!("write a whole number from {from} to {to}"),
            Self::ConfirmsTwo => "make two entries of it".into(),
            Self::ConfirmsNothing => "add `table:`, as the references page names it, or `warning:`, the key that is printed with it".into(),
            Self::TooCold { .. } => "write the temperature that the wood reaches for long, such as `100 F` or `35 C`".into(),
            Self::LimitTooLoose { .. } => "write a usual limit such as `L/240`, or `none` where no limit applies".into(),
            Self::TooMuch { .. } => "shorten it, or divide it".into(),
            Self::TooManyTrials { most, .. } => format!("at most {most} are made: divide the member at a support, or leave out load cases"),
            Self::NotADate { .. } => "write year, month and day: `2026-03-18`".into(),
            Self::RevisionOrder { .. } => "list revisions oldest first: A, B … Z, AA, or 1, 2, 3".into(),
            Self::RevisionDate { .. } => "list revisions oldest first, each dated on or after the one before it".into(),
            Self::RevisionNotLast { revision, .. } => {
                format!("add `- {{mark: {revision}, date: …, note: …}}` at the end of `revisions:`, or correct `revision:`")
            }
            Self::NotACompanion { .. } => "1.0 where it is left out; 0.5 where the loading standard allows it".into(),
            Self::BadMark { .. } => "a mark is letters, digits and dots, such as `J1` or `B2.a`".into(),
            Self::MarkTwice { .. } => "give each member a mark of its own".into(),
            Self::CombinationTwice { .. } => "give each combination a name of its own: the sheets go by it".into(),
            Self::NameTaken { .. } => "choose another name, and say which case it is `like`".into(),
            Self::NoStrength => "add one to the list, or take `only` out: deflection combinations of your own stand without it".into(),
            Self::NoMembers => "list at least one under `members:`".into(),
            Self::NoLayers { .. } => "list them: `- {layer: Plywood 5/8 in, weight: 1.8 psf}`".into(),
            Self::NoSpans => "give `spans:` from the left, such as `[13 ft 6 in]`".into(),
            Self::OverhangAlone => {
                "give the `spans:` behind it as well: a member on two supports or more, all of them free to turn, with an overhang at \
                 either end; one that is built in at one end and free at the other is not covered"
                    .into()
            }
            Self::BearingsMeet { .. } => "`spans` run between the middles of the bearings; make them longer, or the bearings shorter".into(),
            Self::RestsOnItself { .. } => "name the member, or the support outside of the job, that carries it".into(),
            Self::RestsOnRepeated { .. } => "name it once; `{mark: …, sides: 2}` takes equal reactions from both sides".into(),
            Self::RestsOnTwice { receiver, .. } => {
                format!("write `{receiver}` alone in place of the map, or take the reaction out of the loads of `{receiver}`")
            }
            Self::RestsOnElsewhere { support, on, receiver, .. } => format!(
                "write `[{}, {receiver}]` for support {support} where each of them carries a part of the row, `{receiver}` alone or `~` where \
                 only it does; else take the reaction out of the loads of `{receiver}`",
                on.join(", ")
            ),
            Self::RestsOnBoth { giver, receiver, supports: [one, other] } => format!(
                "if one `{receiver}` carries both, list both reactions in its loads: `{{reaction: {giver}, support: {one}, …}}, {{reaction: \
                 {giver}, support: {other}, …}}`; else give the two supporting members marks of their own"
            ),
            Self::RestsOnPlace { receiver, repeated: true, .. } => format!(
                "`{receiver}` is repeated too: write `{{mark: {receiver}, at: 4 ft}}` for one reaction on each `{receiver}`, from its left \
                 end, or `{{mark: {receiver}, every: 16 in}}` for a row of them"
            ),
            Self::RestsOnPlace { receiver, .. } => format!(
                "write `{{mark: {receiver}, at: 4 ft}}` for one reaction, from the left end of `{receiver}`, or `{{mark: {receiver}, every: 16 \
                 in}}` for a row of them"
            ),
            Self::RowOnPost { giver, support, post } => format!(
                "if one of the row rests on the post, write `{{reaction: {giver}, support: {support}}}` in the loads of `{post}`; a row rests \
                 on a `stud` with a `spacing`"
            ),
            Self::SpansTwice => "keep one: `spans` runs between support lines, `clear-spans` between faces".into(),
            Self::ClearSpansNoBearing => "give `bearing:`; the support line lies half of it behind the face".into(),
            Self::BearingPastMiddle { .. } => {
                "give the length of the bearing along the member; half of it lies on each side of the support line".into()
            }
            Self::WrongCount { due, .. } => format!("give {due}, from the left"),
            Self::SlopeMissing { .. } => "give `slope:` as rise and run, such as `6:12`, or as an angle, such as `25 deg`".into(),
            Self::SlopeTooSteep { .. } => "give rise and run, such as `6:12`, or an angle below `90 deg`".into(),
            Self::NotAPart { .. } => "give the factor of the treater's evaluation report, such as `0.88`".into(),
            Self::TiltTooFar { .. } => {
                "give the angle between the depth and the vertical, such as `15 deg`; which side does not matter".into()
            }
            Self::SlopeAndTilt => "take `slope` out, or stand the member upright".into(),
            Self::WeakSpansAlone => "give `tilt:` as well, such as `15 deg`, or leave it out".into(),
            Self::WeakSpansDiffer { .. } => {
                "give them from the first support line to the last; overhangs are the same about both axes".into()
            }
            Self::OffTheEnd { .. } => "places are measured from the left end, overhang included, on plan".into(),
            Self::FromBehindTo => "give `from` and `to` from the left, `to` the farther".into(),
            Self::NoWidth { .. } => "give the load a `width:`, or the member its `spacing:`".into(),
            Self::NotchTooDeep { .. } => "`depth` is what is taken away".into(),
            Self::NotchAtFreeEnd { .. } => "give the place of its middle, such as `at: 18 in`; it is checked on both sides of a support".into(),
            Self::NotchPastSupport => "give each support a notch of its own".into(),
            Self::MembersByMark => "begin each member with `- mark: …` in place of its mark alone".into(),
            Self::NoLoads => {
                "list what acts on it, such as `{area: floor}` or `{line: 80 plf, case: dead}`; `self-weight: yes` if it carries only itself"
                    .into()
            }
            Self::LoadUnknown { .. } => "a load has `area`, `line`, `point`, `moment`, `reaction`, `thrust` or `axial`".into(),
            Self::LoadOfTwoKinds { .. } => "make two loads of it".into(),
            Self::HowReactionArrives { both: true } => "keep `at` for one of it, or `every` for a row".into(),
            Self::HowReactionArrives { both: false } => "give `at:` for one of it, or `every:` for a row".into(),
            Self::OwnReaction { .. } => "name the member that rests on this one".into(),
            Self::WrongSense { role: "tie", .. } => {
                "tension is positive on a tie; only wind and earthquake may turn it round; else make it a post".into()
            }
            Self::WrongSense { .. } => "compression is positive here; only wind and earthquake may lift; else make it a tie".into(),
            Self::FloorWithoutSpacing => "give the member its `spacing:`; 7.3.3 is for floors of members side by side".into(),
            Self::StiffTwice => "keep one: `decking` gives the stiffness by E t³/12, `stiffness-across` states it".into(),
            Self::NotAShare { what: "damping", .. } => "write the modal damping ratio, such as `0.01` for 1 %".into(),
            Self::NotAShare { .. } => "write the part that one joist takes, such as `0.4`".into(),
            Self::RowWithoutSpacing { role } => format!("give the {role} its `spacing:`, or leave `every` out where this {role} takes all of it"),
            Self::NoThrust { .. } => "name a rafter that says `ridge: board`".into(),
            Self::RidgeCarriesNothing { .. } => "take support 1, where all of it goes down, or say `ridge: beam`".into(),
            Self::BracketWithoutArm => "give `strong:` or `weak:`, from the axis of the column to the force".into(),
            Self::TieWithoutBoard => "say `ridge: board`, or take `tie-above` out".into(),
            Self::CollarTie { .. } => {
                "give a tie in the lower third of the rise (IRC R802.5.2, from memory), or carry the ridge: `ridge: beam`".into()
            }
            Self::BoardSpans => "say `ridge: beam`, and what carries it; a rafter over a purlin is not covered with a board".into(),
            Self::BoardTooFlat { .. } => "below 3:12 the ridge is a beam (IRC R802.4.4, from memory): say `ridge: beam`".into(),
            Self::NoSuchSupport { supports: 1, .. } => "a post or stud hands down at its foot, support 1".into(),
            Self::NoSuchSupport { supports, .. } => format!("supports are counted from the left, 1 to {supports}"),
            Self::Circle { .. } => "take out the reaction that does not rest there".into(),
            Self::MaterialUnclear { .. } => "give `{species: …, grade: …}`, or `{custom: …, kind: …, source: …, values: {…}}`".into(),
            Self::NotSawn { made: NotSawn::Laminated, .. } => {
                "glued laminated timber goes by its combination or stress class: `{combination: 24F-V4}`".into()
            }
            Self::NotSawn { made: NotSawn::Composite, .. } => {
                "structural composite lumber goes by its evaluation report: `{custom: …, kind: composite, source: report and number, values: {…}}`"
                    .into()
            }
            Self::OfCustomAlone => "leave it out: the size factor of the table applies".into(),
            Self::SizeTwice => "keep one of them".into(),
            Self::SelfReplacing { .. } => "name the other case".into(),
            Self::PermanentReplaced { .. } => "take it out; only cases that are both `like: dead` exclude each other".into(),
            Self::TooManyAlternatives | Self::TooManyTogether => {
                "list in `instead-of` every case that one never acts together with (`instead-of: [snow, drift-east]`)".into()
            }
            Self::KeyOfOtherCode { key, value, codes, code } => match instead(key, value, code) {
                Some(other) => format!("it belongs to {}; {other}", one_of(codes)),
                None => format!("it belongs to {}; leave it out", one_of(codes)),
            },
            Self::KeyOfOtherUse { uses, .. } => format!("it belongs to {}; leave it out", one_of(uses)),
            Self::KeyNotCovered { .. } => "leave it out, and see to it by other means".into(),
            Self::NotCovered { .. } => "this version covers the american and the european code; see to it by other means".into(),
        }
    }

    /// The fault at its place.
    pub(super) fn at(&self, span: Span) -> Diagnostic {
        let mut diagnostic = Diagnostic::new(self.id(), Severity::Error, self.message(), Label::bare(span)).with_help(self.help());
        diagnostic.replacement = match self {
            Self::UnknownKey { meant: Some(key), .. } if !matches!(key.kind, Kind::Map(_)) => Some(key.name.to_owned()),
            Self::UnknownWord { nearest: Some(word), .. } | Self::WrongText { nearest: Some(word), .. } => Some((*word).to_owned()),
            Self::UnknownName { nearest: Some(name), .. } => Some(name.clone()),
            Self::ListDue { text, .. } => Some(format!("[{text}]")),
            _ => None,
        }
        .map(|text| Replacement { span, text });
        diagnostic
    }
}
