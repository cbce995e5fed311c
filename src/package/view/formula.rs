//! How wide and how tall a formula will be, as the typesetter composes it from the letters and measures of its font.

use crate::pdf;

/// Width of a formula, and how far it reaches above its baseline and below it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Extent {
    pub(super) width: f64,
    over: f64,
    under: f64,
}

impl Extent {
    /// How tall its row is: no less than one of text, whose edges the style sheet gives.
    pub(super) fn height(self) -> f64 {
        self.over.max(0.74 * SIZE) + self.under.max(0.24 * SIZE)
    }

    /// Both on one row.
    pub(super) fn beside(self, other: Self) -> Self {
        Self { width: self.width + other.width, ..self.reaching(other.over, other.under) }
    }

    /// The same, reaching at least so far.
    fn reaching(self, over: f64, under: f64) -> Self {
        Self { over: self.over.max(over), under: self.under.max(under), ..self }
    }

    /// From its head to its foot.
    fn ink(self) -> f64 {
        self.over + self.under
    }
}

/// A row of a formula without scripts.
pub(super) const ROW: f64 = 0.98 * SIZE;
/// Size of a formula, of its scripts, and of theirs.
const SIZE: f64 = 9.5;
const SCRIPT: f64 = 0.7 * SIZE;
const SCRIPT_OF_SCRIPT: f64 = 0.55 * SIZE;
/// Spaces that the typesetter leaves, in ems: about a relation, about a plus, after a function.
const THICK: f64 = 5.0 / 18.0;
const MEDIUM: f64 = 4.0 / 18.0;
const THIN: f64 = 3.0 / 18.0;
/// Space after a script, in ems.
const AFTER_SCRIPT: f64 = 0.056;
/// Brackets about more than this grow, and are wider.
const TALL: f64 = 13.0;

/// Measures of formulas in ems, as the table of the font has them.
mod shape {
    /// From the baseline to the middle of a minus.
    pub(super) const AXIS: f64 = 0.28;
    /// Thickness of the bar of a fraction and of a root.
    pub(super) const BAR: f64 = 0.058;
    /// How far numerator and denominator are shifted, and what they keep clear of the bar; the same in a fraction within another.
    pub(super) const OVER_BAR: (f64, f64) = (0.8, 0.737);
    pub(super) const CLEAR_OF_BAR: f64 = 0.174;
    pub(super) const OVER_BAR_INNER: (f64, f64) = (0.402, 0.356);
    pub(super) const CLEAR_OF_BAR_INNER: f64 = 0.058;
    /// How far scripts are shifted; those at the head less where something stands over them.
    pub(super) const FOOT: f64 = 0.3;
    pub(super) const HEAD: f64 = 0.42;
    pub(super) const HEAD_UNDER_A_BAR: f64 = 0.289;
    /// How high a foot may reach.
    pub(super) const TOP_OF_FOOT: f64 = 0.385;
    /// How far a script at the head of a bracket may stand below its top.
    pub(super) const BELOW_HEAD: f64 = 0.415;
    /// What a root keeps clear of its bar, what lies over the bar, what brackets may be shorter than what they hold.
    pub(super) const CLEAR_IN_ROOT: f64 = 0.178;
    pub(super) const CLEAR_IN_ROOT_INNER: f64 = 0.073;
    pub(super) const OVER_ROOT: f64 = 0.058;
    pub(super) const SHORTER: f64 = 0.1;
}

/// The extent of a formula in display, from its source. The width is its letters', as the font has them, and is right to a few hundredths:
/// [`SURE`] covers the rest.
pub(super) fn extent(typst: &str) -> Extent {
    Style { size: SIZE, cramped: false, inner: false }.extent(typst)
}

/// How a part of a formula is set.
#[derive(Clone, Copy)]
struct Style {
    size: f64,
    /// Under a bar, where heads are lower.
    cramped: bool,
    /// In a fraction, where a further fraction is small and a root close.
    inner: bool,
}

/// What an estimated width is multiplied by where a formula must surely fit.
pub(super) const SURE: f64 = 1.03;

impl Style {
    /// The size of scripts.
    fn smaller(self) -> f64 {
        if self.size < SIZE { SCRIPT_OF_SCRIPT } else { SCRIPT }
    }

    fn extent(self, typst: &str) -> Extent {
        let mut row = Row { style: self, extent: Extent::default(), between: false, leans: 0.0, scripts: None, bracket: 0.0 };
        let mut rest = typst;
        while !rest.is_empty() {
            rest = row.put(rest);
        }
        row.extent
    }

    /// Letters side by side.
    fn letters(self, text: &str) -> Extent {
        let inks = text.chars().map(pdf::ink);
        let (over, under) = inks.fold((0.0_f64, 0.0_f64), |(over, under), ink| (over.max(ink.0), under.max(ink.1)));
        Extent { width: self.size * pdf::advance(pdf::Face::Math, text), over: self.size * over, under: self.size * under }
    }

    /// Nothing but room.
    fn room(self, ems: f64) -> Extent {
        Extent { width: ems * self.size, ..Extent::default() }
    }

    /// Letters with the room about a sign, which scripts have none of.
    fn spaced(self, text: &str, ems: f64) -> Extent {
        let letters = self.letters(text);
        if self.size < SIZE { letters } else { letters.beside(self.room(ems)) }
    }

    /// What is built of several parts, where the text begins with that, and what follows it.
    fn built(self, text: &str) -> Option<(Extent, &str)> {
        if let Some((inner, after)) = call(text, "frac(") {
            let (over, under) = inner.split_at(comma(inner));
            Some((self.fraction(over, under.trim_start_matches(',')), after))
        } else if let Some((inner, after)) = call(text, "sqrt(") {
            Some((self.root(inner), after))
        } else if let Some((inner, after)) = call(text, "class(") {
            Some((self.letters(if inner.contains(',') { "," } else { "" }), after))
        } else if let Some((inner, after)) = call(text, "#h(") {
            Some((self.room(inner.trim_end_matches("em").parse().unwrap_or(0.0)), after))
        } else if let Some((inner, after)) = call(text, "(") {
            Some((self.bracketed(inner), after))
        } else {
            let (quoted, after) = text.strip_prefix('"')?.split_once('"')?;
            Some((self.letters(quoted), after))
        }
    }

    /// A name of several letters.
    fn word(self, word: &str) -> Extent {
        match word {
            "times" => self.spaced("×", 2.0 * MEDIUM),
            "thin" => self.room(THIN),
            "slash" => self.letters("/"),
            "sin" | "cos" | "tan" => self.spaced(word, THIN),
            "min" | "max" => self.letters(word),
            _ => self.letters(sign(word)),
        }
    }

    /// One over the other, with a bar between them.
    fn fraction(self, over: &str, under: &str) -> Extent {
        let size = self.size;
        let part = |cramped| Self { size: if self.inner { self.smaller() } else { size }, cramped, inner: true };
        let (over, under) = (part(self.cramped).extent(over), part(true).extent(under));
        let (axis, bar) = (shape::AXIS * size, shape::BAR * size);
        let (shift, clear) =
            if self.inner { (shape::OVER_BAR_INNER, shape::CLEAR_OF_BAR_INNER) } else { (shape::OVER_BAR, shape::CLEAR_OF_BAR) };
        let above = (shift.0 * size - axis - bar / 2.0 - over.under).max(clear * size);
        let below = (shift.1 * size + axis - bar / 2.0 - under.over).max(clear * size);
        Extent {
            width: over.width.max(under.width) + 0.2 * size,
            over: axis + bar / 2.0 + above + over.ink(),
            under: bar / 2.0 - axis + below + under.ink(),
        }
    }

    /// What stands under a root.
    fn root(self, held: &str) -> Extent {
        let size = self.size;
        let held = Self { cramped: true, ..self }.extent(held);
        let bar = shape::BAR * size;
        let clear = size * if self.inner { shape::CLEAR_IN_ROOT_INNER } else { shape::CLEAR_IN_ROOT };
        let sign = size * pdf::grown('√', (held.ink() + bar + clear) / size);
        let over = held.over + clear.max((sign - bar - held.ink() + clear) / 2.0) + bar;
        // The taller drawings of the sign are wider.
        let wider = if sign > size { 1.8 } else { 0.0 };
        Extent {
            width: held.width + size * pdf::advance(pdf::Face::Math, "√") + wider,
            over: over + shape::OVER_ROOT * size,
            under: sign - over,
        }
    }

    /// What stands between brackets, which grow with it.
    fn bracketed(self, held: &str) -> Extent {
        let wider = if held.contains(['^', '_']) { 2.0 } else { 0.0 };
        let (size, held) = (self.size, self.extent(held));
        let axis = shape::AXIS * size;
        let reach = (held.over - axis).max(held.under + axis);
        let (over, under) = pdf::ink('(');
        let least = 2.0 * reach / size - shape::SHORTER;
        let tall = size * if over + under < least { pdf::grown('(', least) } else { over + under };
        let width = size * pdf::advance(pdf::Face::Math, "()") + if held.ink() > TALL { 7.6 } else { wider };
        Extent { width: held.width + width, ..held }.reaching(tall / 2.0 + axis, tall / 2.0 - axis)
    }
}

/// A row of a formula while it is composed.
struct Row {
    style: Style,
    extent: Extent,
    /// A sign between two things stands free of them; one before a thing does not.
    between: bool,
    /// How far the last letter leans: what hangs at its foot stands under that.
    leans: f64,
    /// Where the scripts of the last letter begin: they stand over one another.
    scripts: Option<f64>,
    /// How high the bracket reaches at which a script stands.
    bracket: f64,
}

impl Row {
    /// Adds what the text begins with, and hands back what follows it.
    fn put<'a>(&mut self, text: &'a str) -> &'a str {
        if let Some((inner, after)) = script(text) {
            self.hang(inner, text.starts_with('_'));
            return after;
        }
        (self.leans, self.scripts, self.bracket) = (0.0, None, 0.0);
        let former = std::mem::replace(&mut self.between, true);
        let (set, after) = if let Some((built, after)) = self.style.built(text) {
            if text.starts_with('(') {
                self.bracket = built.over;
            }
            (built, after)
        } else if let Some((word, after)) = word(text) {
            self.between = !matches!(word, "times" | "thin");
            (self.style.word(word), after)
        } else {
            let mut rest = text.chars();
            let c = rest.next().unwrap_or(' ');
            (self.sign(c, former), rest.as_str())
        };
        self.extent = self.extent.beside(set);
        after
    }

    /// A script at the foot or head of what was put last.
    fn hang(&mut self, inner: &str, at_foot: bool) {
        let Style { size, cramped, .. } = self.style;
        let small = Style { size: self.style.smaller(), cramped: cramped || at_foot, inner: true }.extent(inner);
        let from = *self.scripts.get_or_insert(self.extent.width);
        let end = from + small.width + AFTER_SCRIPT * size - if at_foot { self.leans } else { 0.0 };
        self.extent.width = self.extent.width.max(end);
        self.extent = if at_foot {
            let down = (shape::FOOT * size).max(small.over - shape::TOP_OF_FOOT * size);
            self.extent.reaching(0.0, down + small.under)
        } else {
            let up = size * if cramped { shape::HEAD_UNDER_A_BAR } else { shape::HEAD };
            self.extent.reaching(up.max(self.bracket - shape::BELOW_HEAD * size) + small.over, 0.0)
        };
    }

    /// A letter, a digit or a sign, after a thing or not.
    fn sign(&mut self, c: char, after_a_thing: bool) -> Extent {
        self.between = if c == ' ' { after_a_thing } else { !matches!(c, '=' | '<' | '>' | '+' | '−' | ',') };
        match c {
            ' ' => Extent::default(),
            '=' | '<' | '>' => self.style.spaced("=", 2.0 * THICK),
            ',' => self.style.spaced(",", THIN),
            '+' | '−' => self.style.spaced(c.encode_utf8(&mut [0; 4]), if after_a_thing { 2.0 * MEDIUM } else { 0.0 }),
            c => {
                let letter = italic(c);
                if c.is_ascii_alphabetic() {
                    self.leans = self.style.size * pdf::lean(letter);
                }
                let set = self.style.letters(letter.encode_utf8(&mut [0; 4]));
                Extent { width: set.width + self.leans, ..set }
            }
        }
    }
}

/// A letter as formulas have it.
fn italic(c: char) -> char {
    let from = |start: u32, first: char| char::from_u32(start + u32::from(c) - u32::from(first)).unwrap_or(c);
    match c {
        'h' => 'ℎ',
        '*' => '∗',
        'a'..='z' => from(0x1D44E, 'a'),
        'A'..='Z' => from(0x1D434, 'A'),
        _ => c,
    }
}

/// A sign by its name.
fn sign(name: &str) -> &str {
    match name {
        "alpha" => "𝛼",
        "beta" => "𝛽",
        "gamma" => "𝛾",
        "delta" => "𝛿",
        "theta" => "𝜃",
        "lambda" => "𝜆",
        "pi" => "𝜋",
        "rho" => "𝜌",
        "sigma" => "𝜎",
        "tau" => "𝜏",
        "phi" => "𝜙",
        "psi" => "𝜓",
        "ell" => "ℓ",
        "perp" => "⟂",
        _ => "𝑚",
    }
}

/// What stands as a script at the foot or head of a letter, and what follows it: `_b`, `^2`, `_"ef"`, `_ell`, `_(c perp)`, `'`.
fn script(text: &str) -> Option<(&str, &str)> {
    if let Some(rest) = text.strip_prefix('\'') {
        return Some(("′", rest));
    }
    let script = text.strip_prefix(['_', '^'])?;
    let end = match script.chars().next()? {
        '(' => return call(script, "("),
        '"' => script[1..].find('"').map_or(script.len(), |i| i + 2),
        c if c.is_ascii_digit() => script.find(|c: char| !c.is_ascii_digit()).unwrap_or(script.len()),
        c if c.is_ascii_alphabetic() => script.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(script.len()),
        c => c.len_utf8(),
    };
    Some(script.split_at(end))
}

/// A name of several letters that the text begins with, and what follows it.
fn word(text: &str) -> Option<(&str, &str)> {
    let end = text.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(text.len());
    (end > 1).then(|| text.split_at(end))
}

/// What stands between the brackets of a call that the text begins with, and what follows it.
fn call<'a>(text: &'a str, name: &str) -> Option<(&'a str, &'a str)> {
    let inside = text.strip_prefix(name)?;
    let mut depth = 1;
    for (at, c) in inside.char_indices() {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return Some((&inside[..at], &inside[at + 1..]));
        }
    }
    None
}

/// Where the first comma outside of brackets stands; the end if there is none.
fn comma(text: &str) -> usize {
    let mut depth = 0;
    for (at, c) in text.char_indices() {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            ',' if depth == 0 => return at,
            _ => {}
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fraction_is_as_wide_as_its_wider_part_and_as_tall_as_both() {
        let (letter, fraction) = (extent("L"), extent("frac(w L^2, 8)"));
        assert!(fraction.height() > 2.0 * letter.height());
        assert!(fraction.width < extent("w L^2 8").width);
        assert!(extent("f_b slash F_b").width < 45.0);
        assert!(extent("sqrt(frac(1, 2))").height() > fraction.height());
    }

    #[test]
    fn formulas_are_as_wide_and_as_tall_as_the_typesetter_finds_them() {
        let formulas = [
            "f_(#h(-0.1em) b) slash F'_b",
            "f_(#h(-0.1em) c perp) slash F'_(c perp)",
            "frac(3 thin V, 2 thin b thin d)",
            "frac(5 times 26.67 times 162.0^4, 384 times (1.4 times 10^6) times 98.93)",
            "5.542 times 10^6 slash 1class(\"normal\", \",\")536class(\"normal\", \",\")000",
            "F_b thin C_D thin C_M thin C_t thin C_L thin C_F thin C_(f u) thin C_i thin C_r",
            "900 times 1.15 times 1.0 times 1.0 times 0.9826 times 1.1 times 1.0 times 1.0 times 1.15",
            "frac(1 + F_(b E) slash F_b^*, 1.9) − sqrt((frac(1 + F_(b E) slash F_b^*, 1.9))^2 − frac(F_(b E) slash F_b^*, 0.95))",
            "frac(5 thin q_k thin ell^4, 384 thin E_(0,\"mean\") thin I_y) + frac(1.2 thin q_k thin ell^2, 8 thin G_\"mean\" thin A)",
            "sigma_(m,y,d) slash (k_\"crit\" thin f_(m,y,d))",
            "min(min(30, 0), min(200, 6200 slash 2))",
            "0.4940 + 0.6986",
            "sigma_(m,y,d)",
            "−0.5 times 10^3",
            "frac(F_c^* thin F'_(c perp), F_c^* thin sin^2 theta + F'_(c perp) thin cos^2 theta)",
            "frac(f_(c,0,d), frac(f_(c,0,d), k_(c,90) thin f_(c,90,d)) thin sin^2 alpha + cos^2 alpha)",
            "frac(3.142 times sqrt(9600 times 95 thin 573 thin 333 times 540), 3160 times 2 thin 090 thin 667)",
            "sqrt(frac(l_e thin d, b^2)) = sqrt(frac(160.7 times 11.25, 3.5^2))",
            "sqrt(f_(m,k) slash sigma_(m,\"crit\"))",
            "w_(\"inst\",Q) thin (1 + psi_(2,Q) thin k_\"def\")",
            "min((600 slash h)^0.1, 1.1)",
        ];
        let set = "#set text(font: \"XCharter\", size: 9.5pt, top-edge: 0.74em, bottom-edge: -0.24em)
#show math.equation: set text(font: (\"XCharter Math\", \"XCharter\"))
#set block(spacing: 0pt)
#set par(leading: 0pt, spacing: 0pt)
#set page(width: 30cm)";
        // A block as tall as the formula is wide, and its row, between labels.
        let one = |(i, f): (usize, &&str)| {
            let set = format!("math.equation(math.display($ {f} $.body))");
            let wide = format!("#context block(height: measure({set}).width)");
            format!("\n#metadata(none)<a{i}>\n{wide}\n#metadata(none)<b{i}>\n#block[M#{set}]\n#metadata(none)<c{i}>\n#pagebreak()")
        };
        let shown: String = formulas.iter().enumerate().map(one).collect();
        let sheets = [pdf::Sheet { path: "/main.typ".to_owned(), text: format!("{set}{shown}"), origins: Vec::new() }];
        let mut press = pdf::Press::new();
        let laid = press.lay(&sheets, &[]).map_err(|bug| bug.to_string()).unwrap();
        for (i, typst) in formulas.iter().enumerate() {
            let at = |label: &str| laid.place(&format!("{label}{i}")).map_or(f64::NAN, |place| place.y);
            let (wide, tall, estimate) = (at("b") - at("a"), at("c") - at("b"), extent(typst));
            assert!(wide <= SURE * estimate.width && estimate.width <= SURE * wide, "{typst}: {} wide against {wide}", estimate.width);
            assert!((tall - estimate.height()).abs() < 1.2, "{typst}: {} tall against {tall}", estimate.height());
        }
    }
}
