//! The boats and the stock list that the program carries: invented, and part of the binary.

/// A boat to begin with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Demo {
    /// Its word in an address.
    pub word: &'static str,
    /// Name of its file.
    pub file: &'static str,
    /// Text of its file.
    pub text: &'static str,
}

/// All of them, the smallest first.
pub(super) const BOATS: [Demo; 3] = [
    Demo { word: "wren", file: "wren.toml", text: include_str!("../../data/boats/wren.toml") },
    Demo {
        word: "lantern",
        file: "lantern.toml",
        text: include_str!("../../data/boats/lantern.toml"),
    },
    Demo { word: "holm", file: "holm.toml", text: include_str!("../../data/boats/holm.toml") },
];

/// Name of the invented stock list.
pub(super) const STOCK_FILE: &str = "planes.csv";
/// Its text.
pub(super) const STOCK: &str = include_str!("../../data/stock/planes.csv");

/// The boat of that word.
pub(super) fn boat(word: &str) -> Option<&'static Demo> {
    BOATS.iter().find(|demo| demo.word == word)
}
