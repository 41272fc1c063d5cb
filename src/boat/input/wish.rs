//! What a person wishes of the planes.

/// What a person wishes of the planes, in his own words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// The bow stands too high.
    BowHigh,
    /// She is slow to come onto the plane.
    SlowToPlane,
    /// She nods by herself at speed.
    Porpoises,
    /// She leans to one side.
    Leans,
    /// She pounds in a head sea.
    Pounds,
}

impl Wish {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::BowHigh, Self::SlowToPlane, Self::Porpoises, Self::Leans, Self::Pounds];
    /// Their words in a boat file and on the command line, in the order of [`Self::ALL`].
    pub const WORDS: &[&str] = &["bow-high", "slow-to-plane", "porpoises", "leans", "pounds"];

    /// Its word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }

    /// What bothers a person who has it.
    #[must_use]
    pub const fn complaint(self) -> &'static str {
        match self {
            Self::BowHigh => "the bow stands too high, and hides what lies ahead",
            Self::SlowToPlane => "she is slow to come onto the plane",
            Self::Porpoises => "she nods by herself at speed",
            Self::Leans => "she leans to one side",
            Self::Pounds => "she pounds in a head sea",
        }
    }
}
