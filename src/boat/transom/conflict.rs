//! What stands in the way of a plane, in words.

use uom::si::f64::Length;

use super::{Strake, Stretch};
use crate::units::{LengthUnit, fraction_of_inch, number_with_decimals};

/// A side of the boat, seen looking forward.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Left.
    Port,
    /// Right.
    Starboard,
    /// Both alike.
    Both,
}

/// How something stands in the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// The clearances off the centreline and from the chine leave too little.
    Clearances,
    /// It stands on the transom where hinge, plate or actuator go.
    OnTransom,
    /// It reaches below the bottom edge, into the water of the plane.
    BelowEdge,
    /// Each side has room, but not at the same distance off the centreline.
    Symmetry,
}

/// One thing in the way of a plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    /// What it is.
    pub what: String,
    /// The side on which it is in the way.
    pub side: Side,
    /// Length by which the plane does not fit beside it: what the thing must be moved, or the
    /// span be less.
    pub missing: Length,
    /// How it is in the way.
    pub way: Way,
}

/// A strake that a plane stands over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrakeNote {
    /// The strake.
    pub strake: Strake,
    /// Part of the bottom edge that it takes.
    pub stretch: Stretch,
}

impl StrakeNote {
    /// What to do about it, with lengths as `shown` writes them: common practice, no source.
    #[must_use]
    pub fn sentence(&self, shown: impl Fn(Length) -> String) -> String {
        format!(
            "The plane stands over the strake {} to {} along the bottom edge, which is acceptable: \
             take the height of the hinge line from the bottom beside the strake, not from its \
             foot. Where the end of the strake stands proud of the transom, dress it flush or \
             pack the hinge leaf out evenly over its whole length, bedded in sealant, so that \
             the leaf stays flat and the hinge straight.",
            shown(self.stretch.from),
            shown(self.stretch.to)
        )
    }
}

impl Conflict {
    /// The conflict in a sentence, with the length missing.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        let missing = shown(self.missing, unit);
        let side = match self.side {
            Side::Port => "on the port side",
            Side::Starboard => "on the starboard side",
            Side::Both => "on both sides",
        };
        let what = &self.what;
        match self.way {
            Way::Clearances => format!(
                "The bottom edge is {missing} too short {side} between the clearances off the \
                 centreline and from the chine."
            ),
            Way::OnTransom => format!(
                "The {what} stands {side} where hinge, plate or actuator go: {missing} missing."
            ),
            Way::BelowEdge => format!(
                "The {what} reaches below the bottom edge {side} and would disturb the plane's \
                 water: {missing} missing."
            ),
            Way::Symmetry => format!(
                "Each side has room, but not at the same distance off the centreline, and the \
                 planes must stand alike: {missing} missing."
            ),
        }
    }
}

/// A short length for a sentence.
fn shown(length: Length, unit: LengthUnit) -> String {
    let value = unit.value(length);
    match unit {
        LengthUnit::Inch => fraction_of_inch(length),
        LengthUnit::Millimetre => format!("{} mm", number_with_decimals(value, 0)),
        LengthUnit::Metre | LengthUnit::Foot => {
            format!("{} {}", number_with_decimals(value, 3), unit.symbol())
        }
    }
}
