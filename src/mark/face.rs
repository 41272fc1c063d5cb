//! Points in the face of the transom, given along its bottom edge and up from it, and its slope.

use uom::si::angle::{degree, radian};
use uom::si::f64::Length;
use uom::si::length::meter;

use crate::boat::Transom;

pub(super) fn metres(length: Length) -> f64 {
    length.get::<meter>()
}

/// Off the centreline, level, of a point `along` the bottom edge and `up` from it.
pub(super) fn off_centre(transom: &Transom, along: Length, up: Length) -> Length {
    along * transom.deadrise.cos() - up * transom.deadrise.sin()
}

/// The same point above the keel.
pub(super) fn above_keel(transom: &Transom, along: Length, up: Length) -> Length {
    along * transom.deadrise.sin() + up * transom.deadrise.cos()
}

/// Degrees of the deadrise, for drawings and texts.
pub(super) fn deadrise_deg(transom: &Transom) -> f64 {
    transom.deadrise.get::<degree>()
}

/// Sine and cosine of the deadrise.
pub(super) fn slope(transom: &Transom) -> (f64, f64) {
    transom.deadrise.get::<radian>().sin_cos()
}
