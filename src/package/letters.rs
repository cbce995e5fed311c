//! A letter by its plain characters, as the typesetter sets it and as it is said: for letters that no line of a sheet brings along.

/// Letters that have a name.
const NAMED: &[&str] = &["alpha", "beta", "gamma", "delta", "lambda", "psi", "rho", "sigma", "tau", "theta"];

/// Feet of two small letters that are words and not two letters.
const SHORT_WORDS: &[&str] = &["at", "cr", "ef", "ft", "in"];

/// A letter with its feet.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Letter {
    /// As math of the typesetter.
    pub(super) typst: String,
    /// As it is said.
    pub(super) words: String,
}

impl Letter {
    /// `F'_c,perp`, `F_c*`, `M_max`, `R1`. None where the text is no letter.
    pub(super) fn of(plain: &str) -> Option<Self> {
        let (base, rest) = plain.split_at(plain.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(plain.len()));
        let (rest, star) = rest.strip_suffix('*').map_or((rest, false), |rest| (rest, true));
        let (rest, prime) = rest.strip_prefix('\'').map_or((rest, false), |rest| (rest, true));
        let is_number = !rest.is_empty() && rest.bytes().all(|b| b.is_ascii_digit());
        let foot = if is_number || rest.is_empty() { rest } else { rest.strip_prefix('_').filter(|foot| !foot.is_empty())? };
        let is_foot = |c: char| c.is_ascii_alphanumeric() || matches!(c, ',' | '_');
        (is_base(base) && foot.chars().all(is_foot)).then(|| Self::set(base, prime, foot, star))
    }

    /// A table's column: `F_c_perp`, `E_0_mean`, `F_bx_pos`. None where it is no letter.
    pub(super) fn of_column(column: &str) -> Option<Self> {
        let mut parts = column.split('_');
        let base = parts.next().filter(|base| is_base(base))?;
        let mut foot = String::new();
        let mut sign = None;
        for part in parts {
            match part {
                "" => return None,
                "pos" => sign = Some(("+", "positive")),
                "neg" => sign = Some(("−", "negative")),
                // The fifth percentile of a shear modulus is named without the nought before it.
                "05" if foot.is_empty() => foot.push_str("0,05"),
                _ if foot.is_empty() => foot.push_str(part),
                // What is pressed or stretched stands in words behind the letter, other parts behind a comma.
                "perp" | "min" | "tension" | "compression" => foot.push_str(&format!("_{part}")),
                _ => foot.push_str(&format!(",{part}")),
            }
        }
        let mut letter = Self::set(base, false, &foot, false);
        if let Some((sign, said)) = sign {
            letter.typst.push_str(&format!("^{sign}"));
            letter.words.push_str(&format!(" {said}"));
        }
        Some(letter)
    }

    fn set(base: &str, prime: bool, foot: &str, star: bool) -> Self {
        let (mut typst, mut words) = (base.to_owned(), base.to_owned());
        if prime {
            typst.push('\'');
        }
        if !foot.is_empty() {
            let said: Vec<String> = foot.split([',', '_']).flat_map(runs).map(|run| say(&run)).collect();
            let parts: Vec<String> = foot.replace(",perp", "_perp").split(',').map(set_part).collect();
            typst.push_str(&format!("_({})", parts.join(",")));
            words.push_str(&format!(" {}", said.join(" ")));
        }
        if star {
            typst.push_str("^*");
            words.push_str(" star");
        }
        if prime {
            words.push_str(" prime");
        }
        Self { typst, words }
    }
}

fn is_base(text: &str) -> bool {
    text.len() == 1 && text.bytes().all(|b| b.is_ascii_alphabetic()) || NAMED.contains(&text)
}

/// A part of a foot, cut between letters and digits.
fn runs(part: &str) -> Vec<String> {
    let mut runs: Vec<String> = Vec::new();
    for c in part.chars() {
        match runs.last_mut().filter(|run| run.ends_with(|last: char| last.is_ascii_digit() == c.is_ascii_digit())) {
            Some(run) => run.push(c),
            None => runs.push(c.to_string()),
        }
    }
    runs
}

/// Whether a run is a word, which stands upright, and not one letter beside another.
fn is_word(run: &str) -> bool {
    let small = run.bytes().all(|b| b.is_ascii_lowercase());
    small && (run.len() > 2 || SHORT_WORDS.contains(&run)) && !is_base(run) && run != "perp"
}

/// A part of a foot between commas: its runs side by side, a word a little off what follows it.
fn set_part(part: &str) -> String {
    let mut set = String::new();
    for run in part.split('_').flat_map(runs) {
        if !set.is_empty() {
            set.push_str(if set.ends_with('"') { " thin " } else { " " });
        }
        match run.as_str() {
            one if is_word(one) => set.push_str(&format!("\"{one}\"")),
            one if is_base(one) || one == "perp" || one.bytes().all(|b| b.is_ascii_digit()) => set.push_str(one),
            letters => set.push_str(&letters.chars().map(String::from).collect::<Vec<_>>().join(" ")),
        }
    }
    set
}

fn say(run: &str) -> String {
    match run {
        "perp" => "perpendicular".to_owned(),
        one if is_word(one) || is_base(one) || one.bytes().all(|b| b.is_ascii_digit()) => one.to_owned(),
        letters => letters.chars().map(String::from).collect::<Vec<_>>().join(" "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_letter_is_set_with_its_feet() {
        for (plain, set, said) in [
            ("F'_c,perp", "F'_(c perp)", "F c perpendicular prime"),
            ("F_c*", "F_(c)^*", "F c star"),
            ("F_cE1", "F_(c E 1)", "F c E 1"),
            ("C_fu", "C_(f u)", "C f u"),
            ("b_ef", "b_(\"ef\")", "b ef"),
            ("M_pos_span2", "M_(\"pos\" thin \"span\" thin 2)", "M pos span 2"),
            ("R1", "R_(1)", "R 1"),
            ("lambda_rel,m", "lambda_(\"rel\",m)", "lambda rel m"),
            ("E'", "E'", "E prime"),
        ] {
            assert_eq!(Letter::of(plain), Some(Letter { typst: set.to_owned(), words: said.to_owned() }), "{plain}");
        }
    }

    #[test]
    fn what_is_no_letter_is_left_alone() {
        for plain in ["No.2", "2x4", "post_1", "S-201", "a_b c", "l_e/d", "", "_x", "A_", "(EI)_l"] {
            assert_eq!(Letter::of(plain), None, "{plain}");
        }
    }

    #[test]
    fn columns_of_the_tables_are_letters_or_words() {
        let column = |name: &str| Letter::of_column(name).map(|letter| letter.typst);
        assert_eq!(column("F_bx_pos").as_deref(), Some("F_(b x)^+"));
        assert_eq!(column("G_05").as_deref(), Some("G_(0,05)"));
        assert_eq!(column("E_0_05").as_deref(), Some("E_(0,05)"));
        assert_eq!(column("F_c_perp").as_deref(), Some("F_(c perp)"));
        assert_eq!(column("plies_to"), None);
    }
}
