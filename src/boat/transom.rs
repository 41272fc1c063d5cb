//! The transom: where a pair of planes can stand.
//!
//! Everything is measured on the face of the transom, as a tape does it: along the bottom edge from
//! the keel outward on the slope of the face; across the boat (`off_centre`) level, to starboard
//! positive; heights above the bottom edge straight below, up the face.

mod conflict;
mod drive;
mod form;
mod room;

use super::measure::{Named, given};
use uom::si::f64::{Angle, Length};
use uom::si::length::millimeter;

pub use conflict::{Conflict, Side, StrakeNote, Way};
pub use drive::ClearOfDrive;
pub use form::TransomForm;
pub use room::{Fit, Room, SideRoom, Stretch};

/// Shape of the transom, the clearances to keep, and what stands on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Transom {
    /// Chine beam at the transom.
    pub beam: Length,
    /// Deadrise at the transom, in a section square to the keel.
    pub deadrise: Angle,
    /// Lean of the transom from the normal to the bottom, positive when its top leans aft.
    pub rake: Angle,
    /// What it is like.
    pub form: TransomForm,
    /// Beam amidships of the notch, step or pod where no plane may stand; none on a plain transom.
    pub middle_beam: Option<Length>,
    /// Clear distance off the centreline, along the bottom edge.
    pub inner_clearance: Length,
    /// What the drive asks of that distance; none where the boat file says nothing of it.
    pub clear_of_drive: Option<ClearOfDrive>,
    /// Clear distance in from the chine, along the bottom edge.
    pub outer_clearance: Length,
    /// Radius of the chine.
    pub chine_radius: Length,
    /// Hinge line above the bottom edge.
    pub hinge_height: Length,
    /// How far above the bottom line a raised plane points.
    pub retracted_angle: Angle,
    /// How far the bottom edge stands off a straightedge over the span of a plane.
    pub edge_fairness: Length,
    /// Radius of the edge between bottom and transom.
    pub lower_edge_radius: Length,
    /// Largest gap under a straightedge on the face along the hinge line, where it was measured.
    pub unevenness: Option<Length>,
    /// Thickness, where it was measured.
    pub thickness: Option<Length>,
    /// Waterline at rest above the keel, where it is known.
    pub waterline: Option<Length>,
    /// Height above the bottom edge up to which hinge, plane and actuator need the transom free.
    pub working_height: Length,
    /// What stands on the transom or hangs below its edge.
    pub obstacles: Vec<Obstacle>,
    /// Strakes that run out at the transom.
    pub strakes: Vec<Strake>,
}

/// What a thing on the transom is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ObstacleKind {
    /// Outboard or sterndrive leg, with the room it needs to steer and tilt.
    DriveLeg,
    /// Boarding ladder.
    Ladder,
    /// Depth or speed transducer.
    Transducer,
    /// Skin fitting: drain, scupper, inlet, outlet.
    ThroughHull,
    /// Exhaust outlet.
    Exhaust,
    /// Bracket of a bathing platform.
    PlatformBracket,
    /// Anything else.
    Other,
}

/// A thing on the transom.
#[derive(Clone, Debug, PartialEq)]
pub struct Obstacle {
    /// What it is.
    pub kind: ObstacleKind,
    /// What the owner calls it; the kind's own words when not named.
    pub name: String,
    /// Its middle off the centreline, level; to starboard positive.
    pub off_centre: Length,
    /// Its width, level.
    pub width: Length,
    /// Its lowest point above the bottom edge below its middle; negative when it hangs below.
    pub from: Length,
    /// Its highest point above the bottom edge below its middle.
    pub to: Length,
    /// Free distance to keep beside it, along the bottom edge.
    pub clearance: Length,
}

/// A strake that runs out at the transom, on both sides alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strake {
    /// Its middle off the centreline, level.
    pub off_centre: Length,
    /// Its width, level.
    pub width: Length,
    /// How far it stands below the bottom.
    pub depth: Length,
}

impl Strake {
    /// Its values by their keys.
    pub(super) fn measures(&self) -> Named {
        given([
            ("off_centre", Some(self.off_centre.into())),
            ("width", Some(self.width.into())),
            ("depth", Some(self.depth.into())),
        ])
    }
}

impl ObstacleKind {
    /// All kinds, in the order of [`ObstacleKind::WORDS`].
    pub const ALL: [Self; 7] = [
        Self::Transducer,
        Self::DriveLeg,
        Self::Ladder,
        Self::ThroughHull,
        Self::Exhaust,
        Self::PlatformBracket,
        Self::Other,
    ];
    /// Words for the kinds in a boat file.
    pub const WORDS: &[&str] = &[
        "transducer",
        "drive-leg",
        "ladder",
        "through-hull",
        "exhaust",
        "platform-bracket",
        "other",
    ];

    /// The kind for a sentence.
    #[must_use]
    pub const fn spoken(self) -> &'static str {
        match self {
            Self::Transducer => "transducer",
            Self::DriveLeg => "drive leg",
            Self::Ladder => "ladder",
            Self::ThroughHull => "through-hull fitting",
            Self::Exhaust => "exhaust",
            Self::PlatformBracket => "platform bracket",
            Self::Other => "fitting",
        }
    }

    /// Free distance to keep beside it when none is given: more where it stands in the flow or
    /// moves. Common practice, no source.
    #[must_use]
    pub fn usual_clearance(self) -> Length {
        let clearance_mm = match self {
            Self::Transducer | Self::DriveLeg => 100.0,
            _ => 25.0,
        };
        Length::new::<millimeter>(clearance_mm)
    }
}

/// Deadrise as it shows on a face that leans by `rake`: `tan(face) = tan(deadrise)/cos(rake)`, since
/// the lean draws heights out and leaves breadths alone.
#[must_use]
pub fn face_deadrise(deadrise: Angle, rake: Angle) -> Angle {
    (deadrise.tan() / rake.cos()).atan()
}

impl Transom {
    /// Length of the bottom edge on one side, keel to chine, on the face of the transom.
    #[must_use]
    pub fn half_girth(&self) -> Length {
        self.beam / 2.0 / self.face_deadrise().cos()
    }

    /// By how much an inner end, along the edge, stands nearer the centreline than the drive asks; none where
    /// it keeps clear, or nothing is known of the drive.
    #[must_use]
    pub fn inside_propeller_water(&self, inner: Length) -> Option<Length> {
        let asked = self.clear_of_drive?.off_centre();
        let nearer = asked - inner * self.face_deadrise().cos();
        (nearer > Length::new::<millimeter>(1.0)).then_some(nearer)
    }

    /// Deadrise as it shows on the face of the transom.
    #[must_use]
    pub fn face_deadrise(&self) -> Angle {
        face_deadrise(self.deadrise, self.rake)
    }
}
