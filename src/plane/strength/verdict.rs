//! What is said of a plate, a row of screws or an actuator under its two loads.

use crate::field::by_word;

/// Slack when a load is held against what is borne: an actuator that stalls takes all of its push.
const SLACK: f64 = 1e-6;

/// What something bears, worst last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// It bears the steady load and the slamming load with its safety factor.
    Bears,
    /// It bears the steady load with its safety factor, and not the slamming load.
    NoSlammingAllowance,
    /// It does not bear the load of steady running with its safety factor.
    Unsafe,
}

impl Verdict {
    /// From the shares that the steady and the slamming load take of what is borne with the
    /// safety factor: 1 is all of it.
    #[must_use]
    pub fn of(steady_share: f64, slamming_share: f64) -> Self {
        let borne = |share: f64| share <= 1.0 + SLACK;
        match (borne(steady_share), borne(slamming_share)) {
            (false, _) => Self::Unsafe,
            (true, false) => Self::NoSlammingAllowance,
            (true, true) => Self::Bears,
        }
    }

    /// Stable word for outputs.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bears => "bears",
            Self::NoSlammingAllowance => "no-slamming-allowance",
            Self::Unsafe => "unsafe",
        }
    }

    /// The same for a person.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Bears => "bears",
            Self::NoSlammingAllowance => "no allowance for slamming",
            Self::Unsafe => "unsafe",
        }
    }
}

by_word!(Verdict);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn physics_the_steady_load_comes_before_the_slamming_load() {
        assert_eq!(Verdict::of(0.2, 0.9), Verdict::Bears);
        assert_eq!(Verdict::of(0.2, 1.0), Verdict::Bears);
        assert_eq!(Verdict::of(0.9, 1.2), Verdict::NoSlammingAllowance);
        assert_eq!(Verdict::of(1.1, 4.0), Verdict::Unsafe);
        // What cannot be a number is never borne.
        assert_eq!(Verdict::of(f64::NAN, 0.5), Verdict::Unsafe);
        assert!(Verdict::Bears < Verdict::NoSlammingAllowance);
        assert!(Verdict::NoSlammingAllowance < Verdict::Unsafe);
    }
}
