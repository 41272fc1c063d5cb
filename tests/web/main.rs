//! The page as programs meet it: numbers, words, limits.

mod answers;
mod buyer;
mod client;
mod flood;
mod guests;
mod kept;
mod limits;
mod markup;
mod papers;
mod same_numbers;
