//! What a transom is like.

/// What a transom is like, from chine to chine.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TransomForm {
    /// One flat face.
    #[default]
    Plain,
    /// The bottom is cut away amidships.
    Notched,
    /// Its middle stands further aft or further forward.
    Stepped,
    /// A pod or bracket for the engines stands on it.
    Pod,
}

impl TransomForm {
    /// All forms, in the order of [`TransomForm::WORDS`].
    pub const ALL: [Self; 4] = [Self::Plain, Self::Notched, Self::Stepped, Self::Pod];
    /// Words for the forms in a boat file.
    pub const WORDS: &[&str] = &["plain", "notched", "stepped", "pod"];

    /// Its word in a boat file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }
}
