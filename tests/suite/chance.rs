//! Numbers that look like chance.

/// Numbers that look like chance and are the same in every run (xorshift64, George Marsaglia 2003).
pub struct Chance(pub u64);

impl Chance {
    /// The next, below `most`.
    pub fn below(&mut self, most: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % most
    }
}
