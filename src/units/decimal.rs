//! A number rounded to so many places after the point, in whole numbers: what printing it would say, without the general printer's work.

/// The most places that are worked in whole numbers: powers of ten up to here are exact, and so is a division by one.
const MOST_PLACES: usize = 15;
/// Powers of ten.
pub(super) const POWERS: [f64; MOST_PLACES + 1] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];
/// Whole numbers below this are exact.
const MOST: f64 = 9_007_199_254_740_992.0;

/// A rounded number: its digits without the point, and how many of them stand behind it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Decimal {
    negative: bool,
    digits: u64,
    places: usize,
}

impl Decimal {
    /// The number rounded as `{value:.places$}` rounds it. None where whole numbers do not tell: it has too many digits, or lies so near
    /// the middle between two that the last bit of a product would decide.
    pub fn of(value: f64, places: usize) -> Option<Self> {
        let scaled = value.abs() * POWERS.get(places)?;
        if scaled >= MOST || scaled.is_nan() {
            return None;
        }
        let whole = scaled as u64;
        let over = scaled - whole as f64 - 0.5;
        let sure = over.abs() > scaled * f64::EPSILON;
        sure.then(|| Self { negative: value.is_sign_negative(), digits: whole + u64::from(over > 0.0), places })
    }

    /// The same without the nought that rounding up to one more figure before the point has left behind it: 10.000 with four figures is
    /// 10.00.
    pub fn of_figures(self, n: usize) -> Self {
        let one_more = self.places > 0 && POWERS.get(n).is_some_and(|most| self.digits as f64 >= *most);
        if one_more { Self { digits: self.digits / 10, places: self.places - 1, ..self } } else { self }
    }

    /// The number that its text reads as.
    pub fn value(self) -> f64 {
        let size = self.digits as f64 / POWERS[self.places];
        if self.negative { -size } else { size }
    }
}

impl From<Decimal> for String {
    fn from(decimal: Decimal) -> Self {
        // Sixteen digits, at least one before the point, the point and the sign.
        let mut text = [b'0'; 20];
        let (mut start, mut rest) = (text.len(), decimal.digits);
        let mut put = |byte: u8| {
            start -= 1;
            text[start] = byte;
        };
        for place in 0.. {
            if place > decimal.places && rest == 0 {
                break;
            }
            if place == decimal.places && place > 0 {
                put(b'.');
            }
            put(b'0' + (rest % 10) as u8);
            rest /= 10;
        }
        if decimal.negative {
            put(b'-');
        }
        text[start..].iter().map(|byte| char::from(*byte)).collect()
    }
}
