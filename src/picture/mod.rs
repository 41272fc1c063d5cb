//! The boat drawn to scale at one point of running: from the side at her trim, and from below.
//!
//! What the equations know is drawn as they have it: trim, draft, the wetted bottom, the planes
//! at their deflection, and, where a budget of forces is given, every force where it acts. Bow,
//! sides and wake are a sketch, and each picture says so in its description. The scale depends on
//! the boat alone, so that pictures of one boat at several speeds can be laid over each other.
//!
//! * `style`, `pen`: form, colours and pens; the strokes are those of [`crate::drawing`];
//! * `lines`, `shape`, `pose`: the boat in metres, and how she lies in the water;
//! * `words`: the same for those who cannot see it;
//! * `side`, `stern`, `arrows`, `below`: the drawings;
//! * `measuring`: how deadrise, chine beam and centre of gravity are measured.

mod arrows;
mod below;
mod lines;
mod measuring;
mod pen;
mod pose;
mod shape;
mod side;
mod stern;
mod style;
#[cfg(test)]
mod tests;
mod words;

use uom::si::f64::Angle;

use crate::balance::{Budget, Point};
use crate::boat::Boat;
use crate::units::UnitChoice;

pub use arrows::letter;
pub use measuring::{Measuring, measuring};

/// How much room there is for a picture.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Frame {
    /// A desk or a page: all dimensions, and a detail of the plane.
    #[default]
    Wide,
    /// A telephone: the shape and the least writing.
    Narrow,
}

impl Frame {
    const fn width_px(self) -> f64 {
        match self {
            Self::Wide => 960.0,
            Self::Narrow => 380.0,
        }
    }

    const fn is_wide(self) -> bool {
        matches!(self, Self::Wide)
    }
}

/// What is drawn: a boat, with the planes she has, at a point of running.
#[derive(Clone, Copy, Debug)]
pub struct Scene<'a> {
    /// The boat.
    pub boat: &'a Boat,
    /// Where she runs.
    pub point: &'a Point,
    /// Every force on her there, when they are to be drawn.
    pub budget: Option<&'a Budget>,
    /// Units of what is written.
    pub units: UnitChoice,
    /// Room for the picture.
    pub frame: Frame,
}

/// The boat from her starboard side at her running trim, as SVG.
///
/// Where she does not run there is no attitude to draw: the hull is shown as a ghost with the
/// reason written on it.
#[must_use]
pub fn side_view(scene: &Scene<'_>) -> String {
    side::draw(scene)
}

/// The boat from her side in metres, forward of the transom along the keel and above it: what
/// [`side_view`] turns to her trim and sinks by her draft. Bow, sides and sheer are a sketch.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// The whole side, keel first.
    pub profile_m: Vec<[f64; 2]>,
    /// What of it lies between keel and chine.
    pub bottom_m: Vec<[f64; 2]>,
    /// Height of the hinge of the planes at mid-span; none without planes.
    pub hinge_m: Option<f64>,
}

/// The outline of a boat.
#[must_use]
pub fn outline(boat: &Boat) -> Outline {
    let shape = shape::Shape::of(boat);
    let hinge_m = boat.planes().map(|pair| {
        let [inner, outer, ..] = stern::plate(boat, Angle::default(), &shape, pair);
        0.5 * (inner[1] + outer[1])
    });
    Outline { profile_m: shape.profile(), bottom_m: shape.bottom_panel(), hinge_m }
}

/// The bottom from below: the wetted part, the line where the water parts, and the planes, as SVG.
#[must_use]
pub fn view_from_below(scene: &Scene<'_>) -> String {
    below::draw(scene)
}
