//! The `basis` part: code, edition, conditions, load cases, limits, combinations.

use super::about::each;
use super::fault::Fault;
use super::keys::{Kind, Part};
use super::model::{
    Basis, Case, CodeName, DeflectionLimit, DeflectionOf, LimitedUse, Limits, LoadCase, MOST_ALTERNATIVES, MOST_TOGETHER, Moisture, Nature,
    OwnCombination, OwnCombinations, Placed, SiteItem, alternatives,
};
use super::plausible;
use super::reader::{Form, Reader, written};
use super::taken::Taken;
use crate::text::nearest;
use crate::units::{self, kinds, ratio};
use crate::yaml::{Node, Value};

/// The codes that this program covers.
pub(super) const COVERED: [CodeName; 2] = [CodeName::American, CodeName::European];
const CODES: [CodeName; 3] = [CodeName::American, CodeName::Canadian, CodeName::European];

/// How the names of standards and places begin that people write for a code.
const ALSO: [(&str, CodeName); 9] = [
    ("euro", CodeName::European),
    ("ec", CodeName::European),
    ("en", CodeName::European),
    ("nds", CodeName::American),
    ("us", CodeName::American),
    ("asce", CodeName::American),
    ("canad", CodeName::Canadian),
    ("csa", CodeName::Canadian),
    ("o86", CodeName::Canadian),
];

/// The code that a `basis` part names, or that its word is a slip of or another name for; tells no faults.
pub(super) fn code_of(node: &Node) -> Option<CodeName> {
    let Value::Scalar(text) = &node.entry("code")?.node.value else { return None };
    let of = |word: &str| CODES.into_iter().find(|code| code.word() == word);
    let lower = text.to_lowercase();
    let also = || ALSO.into_iter().find(|(begins, _)| lower.starts_with(begins)).map(|(_, code)| code);
    of(text).or_else(|| nearest(text, CODES.map(CodeName::word)).and_then(of)).or_else(also)
}

/// The load cases that every job has.
pub(super) fn plain_cases() -> Vec<LoadCase> {
    Nature::ALL
        .iter()
        .map(|nature| LoadCase {
            name: nature.word().to_owned(),
            nature: *nature,
            duration: None,
            use_category: None,
            instead_of: Vec::new(),
        })
        .collect()
}

/// Reads the `basis` part: all load cases, and the basis where its code is covered.
pub(super) fn read(reader: &mut Reader, node: &Node, taken: &mut Taken) -> (Vec<LoadCase>, Option<Basis>) {
    let Some(form) = reader.form(node, Part::Basis) else { return (plain_cases(), None) };
    let cases = cases(reader, &form);
    let basis = read_form(reader, &form, taken, &cases);
    (cases, basis)
}

fn read_form(reader: &mut Reader, form: &Form, taken: &mut Taken, cases: &[LoadCase]) -> Option<Basis> {
    let code = reader.word(form, "code").and_then(|word| {
        let value = CODES.into_iter().find(|code| code.word() == word.value)?;
        Some(Placed { value, span: word.span })
    });
    // A slip has been told of; the rest is read under the code that was meant.
    let code = code.or_else(|| Some(Placed { value: reader.code?, span: form.node("code")?.span }));
    if let Some(code) = &code
        && !COVERED.contains(&code.value)
    {
        reader.fault(&Fault::NotCovered { what: format!("the {} code", code.value.word()) }, code.span);
    }
    let site = each(reader, form, "site", Part::SiteItem, site_item);
    let limits = limits_by_use(reader, form);
    let combinations = combinations(reader, form, cases);
    let show_both_units = reader.word(form, "show-units").is_some();
    let moisture = reader.word(form, "moisture").map(moisture_of);
    let temperature = reader.temperature(form, "temperature");
    let method = reader.word(form, "method");
    let live_companion = live_companion(reader, form);
    let edition = reader.placed_text(form, "edition");
    let loading = reader.placed_text(form, "loading");
    let service_class = service_class(reader, form);
    let country = reader.placed_text(form, "country");
    let use_category = reader.placed_text(form, "use-category");
    let snow_high = reader.word(form, "snow-altitude").is_some_and(|word| word.value == "high");
    let expressions = reader.placed_text(form, "expressions");
    let classes = reader.placed_text(form, "strength-classes");
    let importance = reader.placed_text(form, "importance");
    let jurisdiction = reader.word(form, "jurisdiction").map_or("neutral", |w| w.value).to_owned();
    let code = code.filter(|code| COVERED.contains(&code.value))?;
    let american = code.value == CodeName::American;

    let here = |value: &str| Placed { value: value.to_owned(), span: code.span };
    let edition = edition.unwrap_or_else(|| {
        let default = if american { "NDS-2018" } else { "EN1995-2014" };
        taken.job(&format!("Edition {default}; the job file names none."));
        here(default)
    });
    let method = method.map(|word| Placed { value: word.value.to_owned(), span: word.span }).or_else(|| {
        american.then(|| {
            taken.job("Allowable stress design (ASD); the job file names no method.");
            here("ASD")
        })
    });
    let loading = loading.unwrap_or_else(|| {
        let goes_with = match edition.value.as_str() {
            _ if !american => "EN1990",
            "NDS-2024" => "ASCE7-22",
            _ => "ASCE7-16",
        };
        taken.job(&format!("Loading standard {goes_with}, which goes with {}; the job file names none.", edition.value));
        here(goes_with)
    });
    if american && form.node("moisture").is_none() {
        taken.job("Dry in service where a member does not say otherwise; the job file gives no moisture for all.");
    }
    if american && form.node("temperature").is_none() {
        taken.job("Sustained temperature at most 100 °F; the job file does not say.");
    }
    if method.as_ref().is_some_and(|m| m.value == "LRFD") && form.node("live-companion").is_none() {
        taken.job("Live load keeps the factor 1.0 as a companion load; the job file does not say.");
    }
    Some(Basis {
        edition,
        method,
        loading,
        country,
        use_category,
        snow_high,
        expressions,
        classes,
        moisture: moisture.unwrap_or(Moisture::Dry),
        service_class,
        temperature: temperature.unwrap_or(Placed { value: ratio(100.0), span: code.span }),
        importance,
        live_companion,
        site,
        jurisdiction,
        cases: cases.to_vec(),
        limits,
        show_both_units,
        combinations,
        code,
    })
}

/// Moisture from its word.
pub(super) fn moisture_of(word: Placed<&'static str>) -> Moisture {
    if word.value == "wet" { Moisture::Wet } else { Moisture::Dry }
}

/// The service class under its key.
pub(super) fn service_class(reader: &mut Reader, form: &Form) -> Option<Placed<u8>> {
    let word = reader.word(form, "service-class")?;
    Some(Placed { value: word.value.parse().ok()?, span: word.span })
}

fn live_companion(reader: &mut Reader, form: &Form) -> Option<Placed<units::Ratio>> {
    let node = form.node("live-companion")?;
    let number = reader.number(node, "live-companion")?;
    if [1.0, 0.5].contains(&number.value.value()) {
        return Some(number);
    }
    reader.fault(&Fault::NotACompanion { text: written(node) }, node.span);
    None
}

fn site_item(reader: &mut Reader, form: &Form) -> Option<SiteItem> {
    let (item, value, source) = (reader.text(form, "item"), reader.text(form, "value"), reader.text(form, "source"));
    Some(SiteItem { item: item?, value: value?, source })
}

/// The seven cases, then the engineer's own; one that is not well said is kept by its name, so that loads may name it.
fn cases(reader: &mut Reader, form: &Form) -> Vec<LoadCase> {
    let mut cases = plain_cases();
    let Some(node) = form.node("cases") else { return cases };
    let mut replaced = Vec::new();
    for entry in reader.named(node, "cases", &Kind::Map(Part::LoadCase)) {
        if cases[..Nature::ALL.len()].iter().any(|case| case.name == entry.key) {
            reader.fault(&Fault::NameTaken { name: entry.key.clone() }, entry.key_span);
            continue;
        }
        let Some(form) = reader.form(&entry.node, Part::LoadCase) else { continue };
        let like = reader.word(&form, "like").and_then(|word| Nature::ALL.into_iter().find(|nature| nature.word() == word.value));
        let duration = reader.placed_text(&form, "duration");
        if let (Some(Nature::Dead), Some(word)) = (like, &duration) {
            lasting(reader, word);
        }
        let use_category = reader.placed_text(&form, "use-category");
        replaced.extend(excluded(reader, &form).into_iter().map(|other| (cases.len(), other)));
        let nature = like.unwrap_or(Nature::Live);
        cases.push(LoadCase { name: entry.key.clone(), nature, duration, use_category, instead_of: Vec::new() });
    }
    for (index, other) in replaced {
        match case_of(reader, &cases, &other.value, other.span) {
            Some(Case(same)) if same == index => reader.fault(&Fault::SelfReplacing { name: other.value }, other.span),
            Some(replaced) if (cases[index].nature == Nature::Dead) != (cases[replaced.0].nature == Nature::Dead) => {
                let name = cases[index].name.clone();
                reader.fault(&Fault::PermanentReplaced { name, other: other.value }, other.span);
            }
            found => cases[index].instead_of.extend(found),
        }
    }
    let every: Vec<Case> = (0..cases.len()).map(Case).collect();
    let sets = alternatives(&cases, &every);
    let own = |set: &Vec<Case>| set.iter().filter(|case| case.0 >= Nature::ALL.len()).count();
    if sets.len() > MOST_ALTERNATIVES {
        reader.fault(&Fault::TooManyAlternatives, node.span);
    } else if sets.iter().any(|set| own(set) > MOST_TOGETHER) {
        reader.fault(&Fault::TooManyTogether, node.span);
    }
    cases
}

/// Permanent loads last: no case that is like them has a shorter duration.
fn lasting(reader: &mut Reader, duration: &Placed<String>) {
    let known = if reader.code == Some(CodeName::Canadian) { "long-term" } else { "permanent" };
    if duration.value != known {
        let what = "the `duration` of a case that is like dead".to_owned();
        reader.fault(&Fault::UnknownWord { word: duration.value.clone(), what, known: vec![known], nearest: None }, duration.span);
    }
}

/// The cases that a case never acts together with: one, or a list.
fn excluded(reader: &mut Reader, form: &Form) -> Vec<Placed<String>> {
    let Some(node) = form.node("instead-of") else { return Vec::new() };
    let items = match &node.value {
        Value::List(items) => items.as_slice(),
        _ => std::slice::from_ref(node),
    };
    let mut text = |item: &Node| {
        let value = reader.scalar(item, "instead-of", &Kind::Text)?.trim().to_owned();
        (!value.is_empty()).then_some(Placed { value, span: item.span })
    };
    items.iter().filter_map(&mut text).collect()
}

/// The case of a name.
pub(super) fn case_of(reader: &mut Reader, cases: &[LoadCase], name: &str, span: crate::text::Span) -> Option<Case> {
    let found = cases.iter().position(|case| case.name == name);
    if found.is_none() {
        reader.unknown_name(name, "load case", cases.iter().map(|case| case.name.as_str()), span);
    }
    found.map(Case)
}

fn limits_by_use(reader: &mut Reader, form: &Form) -> Vec<(LimitedUse, Limits)> {
    let Some(form) = form.node("limits").and_then(|node| reader.form(node, Part::LimitsByUse)) else { return Vec::new() };
    LimitedUse::ALL.into_iter().filter_map(|of| Some((of, limits(reader, form.node(of.word())?)))).collect()
}

/// Reads a map of deflection limits.
pub(super) fn limits(reader: &mut Reader, node: &Node) -> Limits {
    let Some(form) = reader.form(node, Part::Limits) else { return Limits::default() };
    let mut limits = Vec::new();
    for of in DeflectionOf::LIMITED {
        if let Some(entry) = form.entry(of.word())
            && let Some(limit) = limit(reader, &entry.node, of.word())
        {
            limits.push((Placed { value: of, span: entry.key_span }, limit));
        }
    }
    Limits(limits)
}

fn limit(reader: &mut Reader, node: &Node, what: &str) -> Option<DeflectionLimit> {
    let text = reader.scalar(node, what, &Kind::Limit)?;
    let wrong = |reader: &mut Reader| {
        let fault = Fault::WrongText { text: text.to_owned(), what: format!("`{what}`"), wanted: Kind::Limit.words(), nearest: None };
        reader.fault(&fault, node.span);
        None
    };
    if text == "none" {
        return Some(DeflectionLimit::Off);
    }
    if let Some(number) = text.strip_prefix("L/").or_else(|| text.strip_prefix("l/")) {
        let number = units::read_number(number).map_or(0.0, units::Ratio::value);
        let least = plausible::limit(plausible::LOOSEST);
        if (1.0..least).contains(&number) {
            reader.fault(&Fault::LimitTooLoose { text: text.to_owned(), least: format!("L/{least}") }, node.span);
            return None;
        }
        if (1.0..=1e6).contains(&number) {
            return Some(DeflectionLimit::SpanOver(number));
        }
        return wrong(reader);
    }
    // A bare number may be a part of the span or a length: both are told.
    if text.starts_with(char::is_alphabetic) || units::read_number(text).is_ok() {
        return wrong(reader);
    }
    reader.positive(node, what, kinds::LENGTH).map(|length| DeflectionLimit::Length(length.value))
}

fn combinations(reader: &mut Reader, form: &Form, cases: &[LoadCase]) -> OwnCombinations {
    let Some(node) = form.node("combinations") else { return OwnCombinations::default() };
    let (only, list) = match &node.value {
        Value::Map(_) => {
            let Some(form) = reader.form(node, Part::OwnCombinations) else { return OwnCombinations::default() };
            (reader.yes_no(&form, "only").unwrap_or(false), form.node("list"))
        }
        _ => (false, Some(node)),
    };
    let items = list.map(|node| reader.list(node, "combinations", &Kind::Map(Part::OwnCombination))).unwrap_or_default();
    let before = reader.faults.len();
    let mut list: Vec<OwnCombination> = Vec::new();
    for item in items {
        let Some(Placed { value: own, span }) = combination(reader, item, cases) else { continue };
        if list.iter().any(|known| known.name == own.name) {
            reader.fault(&Fault::CombinationTwice { name: own.name.clone() }, span);
        }
        list.push(own);
    }
    if only && list.iter().all(|own| own.deflection) && reader.faults.len() == before {
        reader.fault(&Fault::NoStrength, node.span);
    }
    OwnCombinations { only, list }
}

/// A combination of the engineer's own, at the place of its name.
fn combination(reader: &mut Reader, node: &Node, cases: &[LoadCase]) -> Option<Placed<OwnCombination>> {
    let form = reader.form(node, Part::OwnCombination)?;
    let name = reader.placed_text(&form, "name");
    let mut factors = Vec::new();
    if let Some(node) = form.node("factors") {
        if matches!(&node.value, Value::Map(entries) if entries.is_empty()) {
            let wanted = "a map such as `{dead: 1.0, live: 1.0}`".to_owned();
            reader.fault(&Fault::WrongShape { found: "an empty map", what: "`factors`".to_owned(), wanted }, node.span);
        }
        for entry in reader.named(node, "factors", &Kind::Number) {
            let case = case_of(reader, cases, &entry.key, entry.key_span);
            let factor = reader.number(&entry.node, &entry.key);
            let turns_round = |case: Case| matches!(cases[case.0].nature, Nature::Wind | Nature::Seismic);
            if case.is_some_and(|case| !turns_round(case)) && factor.as_ref().is_some_and(|factor| factor.value.value() < 0.0) {
                let what = format!("the factor of `{}`", entry.key);
                reader.fault(&Fault::Negative { what, text: written(&entry.node) }, entry.node.span);
            }
            factors.extend(case.zip(factor).map(|(case, factor)| (case, factor.value.value())));
        }
    }
    let duration = reader.placed_text(&form, "duration");
    let deflection = reader.word(&form, "for").is_some_and(|word| word.value == "deflection");
    let Placed { value: name, span } = name?;
    Some(Placed { value: OwnCombination { name, factors, duration, deflection }, span })
}
