//! What is accepted on the finished work, as the sheet says it and as figures are judged by it;
//! common practice, no source.

use uom::si::f64::Length;
use uom::si::length::millimeter;

use super::say::Say;

/// By how much a length may be out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Accepted {
    mm: f64,
    inches: &'static str,
}

/// Hinge line and gauge height from what was planned, and the gauges of both sides from each other.
pub(super) const HEIGHT: Accepted = Accepted { mm: 2.0, inches: "1/16" };
/// Port from starboard.
pub(super) const PAIR: Accepted = Accepted { mm: 3.0, inches: "1/8" };
/// What a reading by tape is never nearer than, millimetres: a hair.
const HAIR_MM: f64 = 0.1;

impl Accepted {
    /// In the units of a sheet.
    pub fn said(self, say: Say) -> String {
        say.custom(&format!("{}", self.mm), self.inches)
    }

    /// Whether so much is out, either way.
    pub fn admits(self, out: Length) -> bool {
        out.abs() <= self.length() + Length::new::<millimeter>(HAIR_MM)
    }

    /// As a length.
    pub fn length(self) -> Length {
        Length::new::<millimeter>(self.mm)
    }
}
