//! How high the hinge line stands: as high as its barrel, the fairness of the edge and its radius ask.
//!
//! A hinge below the bottom edge drags and catches. So the barrel must clear the edge where the
//! edge stands lowest, and the leaf must find a flat face above its round:
//! `max(barrel + fairness, radius of the edge)`. What stands higher than that is not needed: the
//! plane does nothing until its trailing edge is below the bottom line.

use uom::si::f64::Length;

use super::hardware::Hardware;
use crate::boat::Boat;
use crate::stock::Part;

/// The height of the hinge line and what it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hinge {
    /// Radius of the barrel.
    pub barrel: Length,
    /// Least height.
    pub least: Length,
    /// The height that the boat is computed with.
    pub planned: Length,
    /// The height on the sheet: the planned one where it was given, else at least the least.
    pub height: Length,
}

impl Hinge {
    /// Of a part, or of a usual barrel, on a transom.
    pub(super) fn of(boat: &Boat, part: Option<&Part>) -> Self {
        let transom = boat.transom();
        let own = part.and_then(|part| Hardware::of_part(part, transom));
        let barrel = own.map_or_else(Hardware::usual_barrel, |hardware| hardware.barrel());
        let least = (barrel + transom.edge_fairness).max(transom.lower_edge_radius);
        let planned = transom.hinge_height;
        let height = if boat.gives_hinge_height() { planned } else { planned.max(least) };
        Self { barrel, least, planned, height }
    }

    /// Whether it stands lower than barrel, fairness and edge allow.
    #[must_use]
    pub fn is_too_low(&self) -> bool {
        self.height < self.least
    }

    /// Whether it stands higher than the boat was computed with.
    #[must_use]
    pub fn is_raised(&self) -> bool {
        self.height > self.planned
    }

    /// The boats with their hinge line at this height.
    pub(super) fn set_in(&self, boats: &[Boat]) -> Vec<Boat> {
        let set = |boat: &Boat| {
            let raised = self.is_raised().then(|| boat.with_hinge_height(self.height).ok());
            raised.flatten().unwrap_or_else(|| boat.clone())
        };
        boats.iter().map(set).collect()
    }
}
