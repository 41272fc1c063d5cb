//! Where whoever steers looks from, and the bow that is looked over.
//!
//! The usual values are shares of the boat's own size: common practice, no source. The pictures
//! of the boat draw the same bow.

use uom::si::angle::radian;
use uom::si::f64::Length;

use super::Hull;
use super::measure::{Named, given};

/// The bottom's usual share of the length over all, as in the estimate of the bottom length.
const BOTTOM_SHARE: f64 = 0.85;
/// Least overhang of the bow beyond the bottom, as a share of the bottom.
const LEAST_OVERHANG: f64 = 0.06;
/// Height of the side above the chine at the transom, as a share of the beam.
const SIDE_IN_BEAMS: f64 = 0.30;
/// Rise of the sheer from transom to bow, as a share of the length.
const SHEER_RISE: f64 = 0.085;
/// Eyes above the highest point of the bow, as a share of the length over all: at 4° of trim, as
/// boats run at cruise, about three lengths of water are then hidden.
const EYES_ABOVE_BOW: f64 = 0.09;
/// Eyes forward of the transom, as a share of the length over all.
const EYES_FORWARD: f64 = 0.40;

/// What a boat file says of the helm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HelmInput {
    /// Eyes of whoever steers above the keel line, square to it.
    pub eye_height: Option<Length>,
    /// Eyes of whoever steers forward of the transom.
    pub eye_forward: Option<Length>,
    /// Highest point of the bow above the keel line, square to it.
    pub bow_height: Option<Length>,
}

impl HelmInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("eye_height", self.eye_height.map(Into::into)),
            ("eye_forward", self.eye_forward.map(Into::into)),
            ("bow_height", self.bow_height.map(Into::into)),
        ])
    }
}

/// Where whoever steers looks from, and over what; usual values where the boat file gives none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Helm {
    /// Eyes above the keel line.
    pub eye_height: Length,
    /// Eyes forward of the transom.
    pub eye_forward: Length,
    /// Highest point of the bow above the keel line.
    pub bow_height: Length,
    /// Highest point of the bow forward of the transom: the length over all.
    pub bow_forward: Length,
    /// Whether the boat file gives all three of them.
    pub is_given: bool,
}

impl Helm {
    pub(super) fn of(input: &HelmInput, hull: &Hull) -> Self {
        let overall = length_over_all(hull);
        let bow_height =
            input.bow_height.unwrap_or_else(|| stern_height(hull) + SHEER_RISE * overall);
        Self {
            eye_height: input.eye_height.unwrap_or(bow_height + EYES_ABOVE_BOW * overall),
            eye_forward: input.eye_forward.unwrap_or(EYES_FORWARD * overall),
            bow_height,
            bow_forward: overall,
            is_given: [input.eye_height, input.eye_forward, input.bow_height]
                .iter()
                .all(Option::is_some),
        }
    }
}

/// Length over all, as given or from that of the bottom.
fn length_over_all(hull: &Hull) -> Length {
    let usual = hull.bottom_length / BOTTOM_SHARE;
    hull.overall_length.unwrap_or(usual).max(hull.bottom_length * (1.0 + LEAST_OVERHANG))
}

/// Usual height of the sheer above the keel line at the transom.
pub(crate) fn stern_height(hull: &Hull) -> Length {
    let chine = 0.5 * hull.chine_beam * hull.deadrise.get::<radian>().tan();
    chine + SIDE_IN_BEAMS * hull.chine_beam
}
