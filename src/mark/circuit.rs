//! Wiring and hoses: what is joined to what, from battery or pump to the planes.

mod picture;
mod words;

pub(super) use picture::drawing;
pub(super) use words::blocks;

use super::hardware::ActuatorKind;
use super::placement::Placement;

/// What carries the power to the planes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Circuit {
    /// Cable to an electric actuator at each plane.
    Electric,
    /// Tubes from a pump to a cylinder at each plane.
    Hydraulic,
}

impl Circuit {
    /// Those of a placement: its own, or both while no part is chosen.
    pub fn of(placement: &Placement) -> &'static [Self] {
        match placement.hardware.actuator {
            ActuatorKind::Electric => &[Self::Electric],
            ActuatorKind::Hydraulic => &[Self::Hydraulic],
            ActuatorKind::Open => &[Self::Electric, Self::Hydraulic],
        }
    }
}
