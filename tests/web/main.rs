//! The page as programs meet it: numbers, words, limits.

mod answers;
mod client;
mod limits;
mod markup;
mod papers;
mod same_numbers;
