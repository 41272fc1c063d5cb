//! Features of a bottom that no equation here knows.

/// Something about the bottom that the equations do not know.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Feature {
    /// Transverse steps.
    Steps,
    /// Flat keel pad.
    Pad,
    /// Bottom turned down toward the transom.
    Hook,
    /// Bottom turned up toward the transom.
    Rocker,
    /// Notch in the after bottom ahead of an outboard.
    NotchedTransom,
    /// Two hulls.
    Catamaran,
}

impl Feature {
    /// All features, in the order of [`Feature::WORDS`].
    pub const ALL: [Self; 6] =
        [Self::Steps, Self::Pad, Self::Hook, Self::Rocker, Self::NotchedTransom, Self::Catamaran];
    /// Words for the features in a boat file.
    pub const WORDS: &[&str] = &["steps", "pad", "hook", "rocker", "notched-transom", "catamaran"];

    /// Its word in a boat file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }

    /// What it does to the results.
    #[must_use]
    pub const fn warning(self) -> &'static str {
        match self {
            Self::Steps => {
                "the equations know a bottom without steps; a stepped one runs dry behind them, so wetted lengths, trim and the pull of the planes differ, and the results are a rough guide only"
            }
            Self::Pad => {
                "the equations know one deadrise; at speed a boat rides up on its pad, so trim and porpoising limit at high speed are not to be relied on"
            }
            Self::Hook => {
                "the equations know a straight bottom; a hook acts as planes that are always down, so the boat trims lower than computed and planes do less"
            }
            Self::Rocker => {
                "the equations know a straight bottom; a rocker lifts the bow and brings porpoising on sooner than computed"
            }
            Self::NotchedTransom => {
                "the equations know a bottom of full width to the transom; a notch takes lift away amidships aft, so the boat trims higher than computed, and no plane may stand in the notch"
            }
            Self::Catamaran => {
                "the equations know a single hull; two hulls share water and air between them, and nothing here holds for them"
            }
        }
    }
}
