//! Random numbers that are the same in every run, and how many trials a test makes.

/// A generator (xorshift, Marsaglia 2003).
pub struct Random(pub u64);

impl Random {
    /// A number below a bound.
    pub fn below(&mut self, bound: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % bound as u64).expect("fits")
    }

    /// One of several.
    pub fn one<'a, T>(&mut self, several: &'a [T]) -> &'a T {
        &several[self.below(several.len())]
    }
}

/// How many trials: `small`, or what `LATEWOOD_TRIALS` says.
pub fn trials(small: usize) -> usize {
    std::env::var("LATEWOOD_TRIALS").ok().and_then(|count| count.parse().ok()).unwrap_or(small)
}

/// Where a series of trials begins: `fixed`, or what `LATEWOOD_SEED` says. Never zero, which the generator cannot leave.
pub fn seed(fixed: u64) -> u64 {
    std::env::var("LATEWOOD_SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(fixed).max(1)
}
