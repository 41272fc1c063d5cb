//! What a person wishes of the planes, as an argument.

use clap::ValueEnum;
use clap::builder::PossibleValue;

use crate::boat::Wish;

/// Word for a [`Wish`], with the complaint that it answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct WishChoice(pub Wish);

/// All of them.
const ALL: [WishChoice; Wish::ALL.len()] = {
    let mut all = [WishChoice(Wish::BowHigh); Wish::ALL.len()];
    let mut place = 0;
    while place < all.len() {
        all[place] = WishChoice(Wish::ALL[place]);
        place += 1;
    }
    all
};

impl ValueEnum for WishChoice {
    fn value_variants<'a>() -> &'a [Self] {
        &ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        Some(PossibleValue::new(self.0.word()).help(self.0.complaint()))
    }
}
