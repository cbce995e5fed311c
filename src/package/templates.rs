//! The templates: ours, or an office's own in their place.

use super::carried::OFFICE;
use super::markup::{inserted, literal};
use crate::pdf::{Bug, File, Origin, Sheet};
use crate::text::nearest;
use minijinja::{AutoEscape, Environment, Error, ErrorKind, Output, OutputSpanKind, State, UndefinedBehavior, Value};
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::io::Read;
use std::path::Path;

include!(concat!(env!("OUT_DIR"), "/templates.rs"));

/// The style sheet: plain Typst, not a template.
const STYLE: &str = "style.typ";

/// The templates that pages are made from.
///
/// An office's own template goes before ours of the same name; the style sheet `style.typ` is one of them. They reach the view of the
/// page and nothing else: no file, no clock, no network.
#[derive(Clone, Debug)]
pub struct Templates {
    list: Vec<Template>,
}

#[derive(Clone, Debug)]
struct Template {
    name: String,
    text: String,
    of_office: bool,
}

impl Templates {
    /// Our own.
    pub fn built_in() -> Self {
        let ours = |(name, text): &(&str, &str)| Template { name: (*name).to_owned(), text: (*text).to_owned(), of_office: false };
        Self { list: BUILT_IN.iter().map(ours).collect() }
    }

    /// An office's own by name and text, ours where it has none.
    pub fn with_office(own: impl IntoIterator<Item = (String, String)>) -> Self {
        let mut templates = Self::built_in();
        for (name, text) in own {
            templates.list.retain(|known| known.name != name);
            templates.list.push(Template { name, text, of_office: true });
        }
        templates.list.sort_by(|a, b| a.name.cmp(&b.name));
        templates
    }

    /// Whether they are all our own.
    pub fn are_built_in(&self) -> bool {
        self.list.iter().all(|template| !template.of_office)
    }

    /// An office's own by name and text.
    pub(super) fn own(&self) -> Vec<(String, String)> {
        let own = self.list.iter().filter(|template| template.of_office);
        own.map(|template| (template.name.clone(), template.text.clone())).collect()
    }

    /// The hash of each template, one a line in name order, as `sha256sum` writes it.
    pub fn fingerprint(&self) -> String {
        let mut text = String::new();
        for template in &self.list {
            for byte in Sha256::digest(template.text.as_bytes()) {
                let _ = write!(text, "{byte:02x}");
            }
            let _ = writeln!(text, "  {}", template.name);
        }
        text
    }

    /// An office's own from a folder.
    ///
    /// # Errors
    /// Those of [`Templates::in_folder`]; where nothing would ever call a file.
    pub fn of_office(folder: &Path) -> std::io::Result<Self> {
        let own = Self::in_folder(folder)?;
        match uncalled(&own) {
            Some(name) => Err(refused(uncalled_in_words(name))),
            None => Ok(Self::with_office(own)),
        }
    }

    /// Every file in a folder whose name ends in `.typ`, by name and text, in the order of names.
    ///
    /// # Errors
    /// The folder or a file in it cannot be read, is no regular file, is too large or is not text, or there are too many.
    pub fn in_folder(folder: &Path) -> std::io::Result<Vec<(String, String)>> {
        let mut own = Vec::new();
        for entry in std::fs::read_dir(folder)? {
            let path = entry?.path();
            if path.extension().is_some_and(|ending| ending == "typ") {
                let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
                let text = read(&path).map_err(|why| std::io::Error::new(why.kind(), format!("{name}: {why}")))?;
                own.push((name, text));
            }
            if let Some(why) = too_much(&own) {
                return Err(refused(why));
            }
        }
        own.sort();
        Ok(own)
    }

    /// An office's own templates, whole, as files to attach.
    pub(super) fn own_files(&self) -> Vec<File> {
        let own = self.list.iter().filter(|template| template.of_office);
        own.map(|template| File { path: format!("/{OFFICE}{}", template.name), bytes: template.text.clone().into_bytes() }).collect()
    }

    /// The style sheet as a source.
    pub(super) fn style(&self) -> Sheet {
        let text = self.list.iter().find(|template| template.name == STYLE).map(|template| template.text.clone()).unwrap_or_default();
        Sheet { path: format!("/{STYLE}"), text, origins: Vec::new() }
    }

    /// What fills the templates with views.
    pub(super) fn filler(&self) -> Result<Filler<'_>, Bug> {
        let mut environment = Environment::new();
        environment.set_undefined_behavior(UndefinedBehavior::Strict);
        environment.set_auto_escape_callback(|_| AutoEscape::Custom("typst".into()));
        environment.set_formatter(write_value);
        environment.add_filter("quoted", |text: String| Value::from_safe_string(literal(&text)));
        environment.set_fuel((!self.are_built_in()).then_some(FUEL));
        // Nothing but this program makes markup.
        environment.remove_filter("safe");
        for template in &self.list {
            environment.add_template(&template.name, &template.text).map_err(|error| bug(&error))?;
        }
        Ok(Filler { environment })
    }
}

/// The most templates of an office's own, and the most bytes of one: ours are thirty, the longest has some ten thousand.
const MOST: usize = 64;
const LARGEST: usize = 1 << 20;
/// What filling one source may take, as minijinja counts it: instructions, and 64 bytes of data each. A long sheet takes a hundredth.
const FUEL: u64 = 1_000_000;

/// Why so many templates, or so large ones, are refused.
pub(super) fn too_much(own: &[(String, String)]) -> Option<String> {
    if own.len() > MOST {
        return Some(format!("more than {MOST} templates"));
    }
    let large = own.iter().find(|(_, text)| text.len() > LARGEST);
    large.map(|(name, _)| format!("{}: larger than {} MB", name.escape_debug(), LARGEST >> 20))
}

/// The text of a regular file; what is a pipe or a device is not even opened.
fn read(path: &Path) -> std::io::Result<String> {
    if !std::fs::metadata(path)?.is_file() {
        return Err(refused("not a regular file".into()));
    }
    let mut text = String::new();
    std::fs::File::open(path)?.take(LARGEST as u64 + 1).read_to_string(&mut text)?;
    Ok(text)
}

fn refused(why: String) -> std::io::Error {
    std::io::Error::new(std::io::ErrorKind::InvalidInput, why)
}

/// The first file that is neither one of ours by its name nor named in another.
fn uncalled(own: &[(String, String)]) -> Option<&str> {
    let ours = |name: &str| BUILT_IN.iter().any(|(known, _)| *known == name);
    let called = |name: &str| own.iter().any(|(other, text)| other != name && text.contains(name));
    own.iter().map(|(name, _)| name.as_str()).find(|name| !ours(name) && !called(name))
}

fn uncalled_in_words(name: &str) -> String {
    let known: Vec<&str> = BUILT_IN.iter().map(|(known, _)| *known).collect();
    let meant = nearest(name, known.iter().copied()).map(|known| format!(" did you mean {known}?")).unwrap_or_default();
    format!("nothing calls {name};{meant} known: {}", known.join(", "))
}

/// Text is written as a literal, markup and numbers as they are.
fn write_value(out: &mut Output, _: &mut State, value: &Value) -> Result<(), Error> {
    match value.as_str() {
        Some(text) if !value.is_safe() => out.write_str(&inserted(text))?,
        Some(markup) => out.write_str(markup)?,
        None if value.is_number() => write!(out, "{value}")?,
        None if value.is_undefined() => return Err(Error::from(ErrorKind::UndefinedError)),
        None => return Err(Error::new(ErrorKind::InvalidOperation, format!("a {} cannot be printed", value.kind()))),
    }
    Ok(())
}

/// Templates ready to be filled.
pub(super) struct Filler<'a> {
    environment: Environment<'a>,
}

impl Filler<'_> {
    /// A template filled with a view, as the source of one path.
    pub(super) fn fill(&self, template: &str, path: &str, view: impl Serialize) -> Result<Sheet, Bug> {
        let found = self.environment.get_template(template).map_err(|error| bug(&error))?;
        let (text, spans) = found.render_with_spans(minijinja::value::Serde(view)).map_err(|error| bug(&error))?;
        let mut origins = Vec::new();
        for span in &spans {
            let origin = Origin { range: span.output_range(), template: span.name().to_owned(), line: span.line() };
            if span.kind() == OutputSpanKind::Raw { origins.extend(by_line(&text, origin)) } else { origins.push(origin) }
        }
        Ok(Sheet { path: path.to_owned(), text, origins })
    }
}

/// A verbatim part of a template may run over many lines: one origin each, so that a fault names the right one.
fn by_line(text: &str, origin: Origin) -> Vec<Origin> {
    let mut start = origin.range.start;
    let mut parts = Vec::new();
    for (line, piece) in (origin.line..).zip(text[origin.range.clone()].split_inclusive('\n')) {
        parts.push(Origin { range: start..start + piece.len(), template: origin.template.clone(), line });
        start += piece.len();
    }
    parts
}

fn bug(error: &Error) -> Bug {
    let message = error.detail().map_or_else(|| error.kind().to_string(), str::to_owned);
    match (error.name(), error.line()) {
        (Some(name), Some(line)) => Bug::at(name, line, message),
        _ => Bug::plain(message),
    }
}
