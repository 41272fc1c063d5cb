//! Points in the face of the transom, given along its bottom edge and up from it, and its slope.

use uom::si::angle::{degree, radian};
use uom::si::f64::{Angle, Length};
use uom::si::length::meter;

use crate::boat::Transom;
use crate::units::number_with_decimals;

pub(super) fn metres(length: Length) -> f64 {
    length.get::<meter>()
}

/// Off the centreline, level, of a point `along` the bottom edge and `up` from it.
pub(super) fn off_centre(transom: &Transom, along: Length, up: Length) -> Length {
    along * transom.face_deadrise().cos() - up * transom.face_deadrise().sin()
}

/// The same point above the keel.
pub(super) fn above_keel(transom: &Transom, along: Length, up: Length) -> Length {
    along * transom.face_deadrise().sin() + up * transom.face_deadrise().cos()
}

/// The deadrise in words, with that of a leaning face beside it: `20.0 deg, 20.9 deg on its leaning face`.
pub(super) fn deadrise_text(transom: &Transom) -> String {
    let text = |angle: Angle| format!("{} deg", number_with_decimals(angle.get::<degree>(), 1));
    let (own, face) = (text(transom.deadrise), text(transom.face_deadrise()));
    if own == face { own } else { format!("{own}, {face} on its leaning face") }
}

/// Sine and cosine of the slope of the bottom edge on the face.
pub(super) fn slope(transom: &Transom) -> (f64, f64) {
    transom.face_deadrise().get::<radian>().sin_cos()
}
