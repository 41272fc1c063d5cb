//! A computed value with its range.

use std::ops::Mul;

/// What an equation gives, with the range in which nine in ten of the tank runs behind it lie.
///
/// The range is that of the equation alone: trim, weight and the rest are
/// taken as they are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ranged<Q> {
    /// By the equation as published. It may lie off the middle of the range.
    pub value: Q,
    /// One run in twenty lies below.
    pub low: Q,
    /// One run in twenty lies above.
    pub high: Q,
}

impl<Q: Copy + Mul<f64, Output = Q>> Ranged<Q> {
    /// A value with the factors on it that bound its range.
    pub fn of(value: Q, [low, high]: [f64; 2]) -> Self {
        Self { value, low: value * low, high: value * high }
    }
}

impl<Q: Copy> Ranged<Q> {
    /// Both ends of the range.
    pub fn ends(self) -> [Q; 2] {
        [self.low, self.high]
    }

    /// The same in another quantity or unit.
    pub fn map<R>(self, convert: impl Fn(Q) -> R) -> Ranged<R> {
        Ranged { value: convert(self.value), low: convert(self.low), high: convert(self.high) }
    }
}
