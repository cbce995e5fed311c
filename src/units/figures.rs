//! Numbers as text: so many significant figures, never in powers of ten.

/// The number with `n` significant figures; at least one place where it would read as a whole number only by chance is not added.
///
/// Nought is `0`. Figures before the point are never cut: 17475.2 with four figures is `17475`.
pub fn figures(value: f64, n: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return if value.is_nan() { "not a number".into() } else { format!("{value}") };
    }
    let places = places_for(value, n);
    let text = format!("{value:.places$}");
    // Rounding up may have made one more figure before the point: 9.9996 with four figures is 10.00, not 10.000.
    let again = text.parse().map_or(places, |rounded| places_for(rounded, n));
    if again == places { text } else { format!("{value:.again$}") }
}

fn places_for(value: f64, n: usize) -> usize {
    let before = libm::floor(libm::log10(value.abs())) as i64 + 1;
    (n as i64 - before).max(0) as usize
}

/// The number with `n` significant figures at most, without noughts behind the point: 2.50 is `2.5`, 120.0 is `120`.
pub fn trimmed(value: f64, n: usize) -> String {
    let text = figures(value, n);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// The number with so many places after the point; a rounded nought has no sign.
pub fn decimals(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| matches!(b, b'0' | b'.')) => rest.to_owned(),
        _ => text,
    }
}

/// Whether `n` significant figures say the number whole.
pub fn is_short(value: f64, n: usize) -> bool {
    value == 0.0 || value.is_finite() && is_whole_at(value, places_for(value, n))
}

/// The fewest places after the point that say the number whole; none if `most` do not.
pub fn places_of(value: f64, most: usize) -> Option<usize> {
    (0..=most).find(|places| is_whole_at(value, *places))
}

/// Whether so many places after the point say the number whole.
fn is_whole_at(value: f64, places: usize) -> bool {
    let scaled = value * libm::exp10(places as f64);
    (libm::round(scaled) - scaled).abs() <= 1e-9 * scaled.abs()
}

/// The digits before the point in groups of three, from five digits on: `17475` becomes `17,475` with a comma.
pub fn grouped(number: &str, separator: &str) -> String {
    let (sign, rest) = number.strip_prefix('-').map_or(("", number), |rest| ("-", rest));
    let (whole, fraction) = rest.split_once('.').map_or((rest, None), |(w, f)| (w, Some(f)));
    if whole.len() < 5 || !whole.bytes().all(|b| b.is_ascii_digit()) {
        return number.to_owned();
    }
    let mut text = sign.to_owned();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i) % 3 == 0 {
            text.push_str(separator);
        }
        text.push(digit);
    }
    if let Some(fraction) = fraction {
        text.push('.');
        text.push_str(fraction);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_significant() {
        assert_eq!(figures(886.06, 4), "886.1");
        assert_eq!(figures(0.778_31, 3), "0.778");
        assert_eq!(figures(17475.2, 4), "17475");
        assert_eq!(figures(9.9996, 4), "10.00");
        assert_eq!(figures(-0.25184, 4), "-0.2518");
        assert_eq!(figures(0.0, 4), "0");
    }

    #[test]
    fn long_whole_numbers_are_grouped() {
        assert_eq!(grouped("1600000", ","), "1,600,000");
        assert_eq!(grouped("2600", ","), "2600");
        assert_eq!(grouped("-17475.5", "\u{2009}"), "-17\u{2009}475.5");
    }

    #[test]
    fn short_numbers_are_known() {
        assert!(is_short(12.0 * 25.4 / 304.8, 4));
        assert!(!is_short(1.0 / 3.0, 6));
        assert_eq!(places_of(2.5, 9), Some(1));
        assert_eq!(places_of(0.1 + 0.2, 9), Some(1));
        assert_eq!(places_of(1536.0, 9), Some(0));
        assert_eq!(places_of(1.0 / 3.0, 8), None);
    }
}
