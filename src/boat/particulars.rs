//! The numbers of a boat that her balance needs, free to be moved a little.
//!
//! A [`super::Boat`] is checked and fixed. Where many boats nearly like her are
//! wanted, her particulars are changed instead; what depends on them, such as the
//! lever of the thrust, follows by the same rules as in a boat that is built.

use uom::si::f64::{Angle, Length, Volume};

use super::{HorizontalDrag, Hull, ThrustLine, Weight};
use crate::water::Water;

/// What the balance needs to know of a boat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Particulars {
    pub hull: Hull,
    pub weight: Weight,
    /// ε.
    pub thrust_angle: Angle,
    pub thrust_line: ThrustLine,
    pub water: Water,
    pub air: Option<HorizontalDrag>,
    pub appendages: Option<HorizontalDrag>,
    /// Hinge line of the planes above the bottom edge.
    pub hinge_height: Length,
    /// Roughness allowance of the hull, where it is known.
    pub roughness: Option<f64>,
    /// Factor on the published lift of the planes.
    pub plane_effectiveness: f64,
}

impl Particulars {
    /// Displaced volume ∇ at rest.
    pub fn displaced_volume(&self) -> Volume {
        self.weight.mass / self.water.density
    }

    /// f: thrust line below the centre of gravity, normal to the thrust line.
    pub fn thrust_offset(&self) -> Length {
        thrust_offset(self.thrust_line, self.thrust_angle, &self.weight)
    }
}

/// f = (VCG − h − LCG tan ε) cos ε for a thrust line given by its height h at the transom.
pub(crate) fn thrust_offset(line: ThrustLine, angle: Angle, weight: &Weight) -> Length {
    match line {
        ThrustLine::BelowCentreOfGravity(offset) => offset,
        ThrustLine::HeightAtTransom(height) => {
            (weight.vcg - height - weight.lcg * angle.tan()) * angle.cos()
        }
    }
}
