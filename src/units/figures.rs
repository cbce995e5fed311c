//! Numbers as text: so many significant figures, never in powers of ten.

use super::decimal::{Decimal, POWERS};
use std::ops::RangeInclusive;

/// The number with `n` significant figures; at least one place where it would read as a whole number only by chance is not added.
///
/// Nought is `0`. Figures before the point are never cut: 17475.2 with four figures is `17475`.
pub fn figures(value: f64, n: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return if value.is_nan() { "not a number".into() } else { format!("{value}") };
    }
    in_print(value, n).map_or_else(|| format!("{value:.*}", places_in_print(value, n)), String::from)
}

/// The number that [`figures`] reads as.
pub fn rounded(value: f64, n: usize) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    in_print(value, n).map_or_else(|| read_back(value, places_in_print(value, n)), Decimal::value)
}

/// The number as it is printed with `n` figures, where whole numbers tell.
fn in_print(value: f64, n: usize) -> Option<Decimal> {
    Decimal::of(value, places_for(value, n)).map(|decimal| decimal.of_figures(n))
}

/// Rounding up may make one more figure before the point: 9.9996 with four figures is 10.00, not 10.000.
fn places_in_print(value: f64, n: usize) -> usize {
    places_for(read_back(value, places_for(value, n)), n)
}

fn read_back(value: f64, places: usize) -> f64 {
    format!("{value:.places$}").parse().unwrap_or(value)
}

fn places_for(value: f64, n: usize) -> usize {
    (n as i64 - figures_before(value.abs())).max(0) as usize
}

/// How many figures a number has before its point; of one below 1, nought less the noughts that come first behind it.
fn figures_before(size: f64) -> i64 {
    const FROM_ONE: [f64; 10] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9];
    const BELOW_ONE: [f64; 6] = [1e0, 1e-1, 1e-2, 1e-3, 1e-4, 1e-5];
    if (1.0..1e9).contains(&size) {
        FROM_ONE.partition_point(|power| *power <= size) as i64
    } else if (1e-5..1.0).contains(&size) {
        1 - BELOW_ONE.partition_point(|power| *power > size) as i64
    } else {
        libm::floor(libm::log10(size)) as i64 + 1
    }
}

/// The number with `n` significant figures at most, without noughts behind the point: 2.50 is `2.5`, 120.0 is `120`.
pub fn trimmed(value: f64, n: usize) -> String {
    let text = figures(value, n);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// The number with so many places after the point; a rounded nought has no sign.
pub fn decimals(value: f64, places: usize) -> String {
    let text = fixed(value, places);
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| matches!(b, b'0' | b'.')) => rest.to_owned(),
        _ => text,
    }
}

/// The number with so many places after the point, and with more where it would not read with `n` significant figures: never nought, but for
/// what is less than a millionth.
pub fn at_least(value: f64, places: usize, n: usize) -> String {
    if value.abs() < 1e-6 {
        return decimals(0.0, places);
    }
    decimals(value, places.max(places_in_print(value, n)))
}

/// The number with exactly so many places.
fn fixed(value: f64, places: usize) -> String {
    Decimal::of(value, places).map_or_else(|| format!("{value:.places$}"), String::from)
}

/// Whether `n` significant figures say the number whole.
pub fn is_short(value: f64, n: usize) -> bool {
    value == 0.0 || value.is_finite() && is_whole_at(value, places_for(value, n))
}

/// The number with the fewest places after the point that say it whole; none if `most` do not.
pub fn shortest(value: f64, most: usize) -> Option<String> {
    (0..=most).find(|places| is_whole_at(value, *places)).map(|places| fixed(value, places))
}

/// The number with the fewest of these places after the point that read as it; with the most of them where none do.
pub fn fewest(value: f64, places: RangeInclusive<usize>) -> String {
    let most = *places.end();
    places.map(|places| decimals(value, places)).find(|text| text.parse() == Ok(value)).unwrap_or_else(|| decimals(value, most))
}

/// Whether so many places after the point say the number whole.
fn is_whole_at(value: f64, places: usize) -> bool {
    let scaled = value * POWERS.get(places).copied().unwrap_or_else(|| libm::exp10(places as f64));
    (libm::round(scaled) - scaled).abs() <= 1e-9 * scaled.abs()
}

/// The digits before the point in groups of three, from five digits on: `17475` becomes `17,475` with a comma.
pub fn grouped(number: &str, separator: &str) -> String {
    let mut text = String::with_capacity(number.len() + 2 * separator.len());
    push_grouped(&mut text, number, separator);
    text
}

/// The same at the end of a text.
pub fn push_grouped(text: &mut String, number: &str, separator: &str) {
    let (sign, rest) = number.strip_prefix('-').map_or(("", number), |rest| ("-", rest));
    let (whole, fraction) = rest.split_once('.').map_or((rest, None), |(w, f)| (w, Some(f)));
    if whole.len() < 5 || !whole.bytes().all(|b| b.is_ascii_digit()) {
        return text.push_str(number);
    }
    text.push_str(sign);
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
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

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
        assert_eq!(shortest(2.5, 9).as_deref(), Some("2.5"));
        assert_eq!(shortest(0.1 + 0.2, 9).as_deref(), Some("0.3"));
        assert_eq!(shortest(1536.0, 9).as_deref(), Some("1536"));
        assert_eq!(shortest(1.0 / 3.0, 8), None);
    }
    /// As the general printer has it, and read back.
    fn by_the_printer(value: f64, n: usize) -> (String, f64) {
        let before = |value: f64| libm::floor(libm::log10(value.abs())) as i64 + 1;
        let print = |places: i64| format!("{value:.*}", places.max(0) as usize);
        let once = print(n as i64 - before(value));
        let text = print(n as i64 - before(once.parse().unwrap()));
        let number = text.parse().unwrap();
        (text, number)
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4000))]

        #[test]
        fn whole_numbers_print_what_the_general_printer_prints(
            digits in 1i64..10_000_000, shift in -12i32..9, last in -3i64..4, sign in prop::bool::ANY, n in 1usize..12, places in 0usize..12,
        ) {
            // Short numbers and their neighbours: halves, powers of ten, the last bit above and below.
            let short: f64 = format!("{digits}e{shift}").parse().unwrap();
            let size = f64::from_bits((short.to_bits() as i64 + last) as u64);
            let value = if sign { -size } else { size };
            prop_assert_eq!((figures(value, n), rounded(value, n)), by_the_printer(value, n));
            let text = format!("{value:.places$}");
            let nought = text.trim_start_matches('-').bytes().all(|b| matches!(b, b'0' | b'.'));
            prop_assert_eq!(decimals(value, places), if nought { text.replace('-', "") } else { text });
        }
    }
}
