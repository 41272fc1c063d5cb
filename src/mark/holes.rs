//! Holes of one plane, and the drill table.

use uom::si::f64::Length;
use uom::si::length::millimeter;

use super::hardware::Hardware;
use super::say::{Next, Say, SheetUnits};
use crate::stock::assess::{HeldBy, ThroughBolts};

/// Root of a wood screw over its shank: about two thirds (USDA Forest Products Laboratory, *Wood
/// Handbook*, chapter on fastenings, from memory).
pub const ROOT_SHARE: f64 = 2.0 / 3.0;
/// Lead hole over the root: 0.7 in softwood, 0.9 in hardwood (the same, from memory); what screws
/// hold is counted with them.
pub const LEAD_SHARE: (f64, f64) = (0.7, 0.9);
/// Sealant on each side of what is led through the transom, millimetres; chosen here.
pub const SEALANT_MM: f64 = 1.0;
/// What is left of the transom behind a pilot, at the least, millimetres; chosen here.
const BEHIND_PILOT_MM: f64 = 5.0;

/// What a hole is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum HoleKind {
    /// Pilot of a hinge screw.
    HingePilot,
    /// Pilot of a bracket screw.
    BracketPilot,
    /// Through the transom, for a bolt of the hinge.
    HingeBolt,
    /// Through the transom, for a bolt of a bracket.
    BracketBolt,
    /// Through the transom, for the tube or the cable of an actuator.
    Lead,
}

impl HoleKind {
    /// All kinds, in the order they are drilled.
    pub const ALL: [Self; 5] =
        [Self::HingePilot, Self::HingeBolt, Self::BracketPilot, Self::BracketBolt, Self::Lead];

    /// Letter that begins the names of such holes.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::HingePilot | Self::HingeBolt => 'H',
            Self::BracketPilot | Self::BracketBolt => 'B',
            Self::Lead => 'L',
        }
    }

    /// Whether a screw cuts its thread in it, so that it must not be too wide.
    #[must_use]
    pub const fn is_pilot(self) -> bool {
        matches!(self, Self::HingePilot | Self::BracketPilot)
    }

    /// Whether it stands in the row of the hinge leaf.
    #[must_use]
    pub const fn is_of_hinge(self) -> bool {
        matches!(self, Self::HingePilot | Self::HingeBolt)
    }

    /// What it is, in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::HingePilot => "hinge screw pilot",
            Self::BracketPilot => "bracket screw pilot",
            Self::HingeBolt => "hinge bolt, through",
            Self::BracketBolt => "bracket bolt, through",
            Self::Lead => "lead-through, tube or cable",
        }
    }
}

/// One hole of the starboard plane; the port one is its mirror image.
#[derive(Clone, Debug, PartialEq)]
pub struct Hole {
    /// Letter of the kind and number, counted outward and upward: `H1`, `B2`.
    pub name: String,
    /// What it is for.
    pub kind: HoleKind,
    /// From the centreline, along the bottom edge.
    pub along: Length,
    /// Above the bottom edge, square to it.
    pub up: Length,
    /// Drill; none where nobody says what is to pass.
    pub drill: Option<Length>,
    /// Depth from outside; none when it goes through.
    pub depth: Option<Length>,
}

impl Hole {
    /// The drill that a sheet names: the nearest that is sold for a pilot, the next larger for a hole
    /// that something passes.
    #[must_use]
    pub(super) fn drill_sold(&self, say: Say) -> Option<Length> {
        let next = if self.kind.is_pilot() { Next::Nearest } else { Next::Larger };
        self.drill.map(|drill| say.drill_size(drill, next))
    }

    /// The same by the millimetre.
    #[must_use]
    pub fn metric_drill_sold(&self) -> Option<Length> {
        self.drill_sold(Say(SheetUnits::Millimetres))
    }
}

/// One line of the drill table.
#[derive(Clone, Debug, PartialEq)]
pub struct DrillLine {
    /// What the holes are for.
    pub kind: HoleKind,
    /// Drill; none where nobody says what is to pass.
    pub drill: Option<Length>,
    /// Depth from outside; none when they go through.
    pub depth: Option<Length>,
    /// Holes on one side.
    pub per_side: usize,
    /// Holes on the boat.
    pub total: usize,
}

/// The pilot of a screw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pilot {
    /// Root of the screw, below its thread.
    pub root: Length,
    /// In softwood and plywood of softwood: 0.7 of the root.
    pub soft: Length,
    /// In hardwood and dense plywood: 0.9 of it.
    pub hard: Length,
}

impl Pilot {
    /// Of a wood screw with a shank of this diameter.
    #[must_use]
    pub fn of(screw: Length) -> Self {
        let root = screw * ROOT_SHARE;
        Self { root, soft: root * LEAD_SHARE.0, hard: root * LEAD_SHARE.1 }
    }
}

/// Depth of a pilot: one diameter less than the screw is long, so that its point cuts its own way;
/// and never so deep that it comes out inside a transom of this thickness.
#[must_use]
pub fn pilot_depth(length: Length, diameter: Length, thickness: Option<Length>) -> Length {
    let depth = length - diameter;
    let behind = Length::new::<millimeter>(BEHIND_PILOT_MM);
    thickness.map_or(depth, |thickness| depth.min(thickness - behind).max(0.5 * diameter))
}

/// The places that holes are counted from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Places {
    pub span: Length,
    /// Inner end of the plane off the centreline.
    pub inner: Length,
    pub hinge_height: Length,
    /// Foot of the upper pins above the bottom edge.
    pub pin_height: Length,
    /// Thickness of the transom, where it was measured.
    pub thickness: Option<Length>,
}

/// Every hole of a plane. Where bolts hold it there is no pilot for a screw that does not.
pub(super) fn holes(hardware: &Hardware, bolts: &ThroughBolts, places: &Places) -> Vec<Hole> {
    let mut holes = Vec::new();
    let mut put = |kind: HoleKind, number: usize, along, up, drill, depth| {
        let name = format!("{}{number}", kind.letter());
        holes.push(Hole { name, kind, along, up, drill, depth });
    };
    let drilled = |held: &HeldBy, kinds: [HoleKind; 2], diameter, length| match held.bolts() {
        Some(pattern) => (kinds[1], Some(pattern.bolt.hole), None),
        None => {
            let depth = pilot_depth(length, diameter, places.thickness);
            (kinds[0], Some(Pilot::of(diameter).soft), Some(depth))
        }
    };
    let screws = &hardware.hinge_screws;
    let kinds = [HoleKind::HingePilot, HoleKind::HingeBolt];
    let (kind, drill, depth) = drilled(&bolts.hinge, kinds, screws.diameter, screws.length);
    for (index, position) in screws.positions(places.span).into_iter().enumerate() {
        let (along, up) = (places.inner + position, places.hinge_height + screws.row_height);
        put(kind, index + 1, along, up, drill, depth);
    }
    let screws = &hardware.bracket_screws;
    let kinds = [HoleKind::BracketPilot, HoleKind::BracketBolt];
    let (kind, drill, depth) = drilled(&bolts.bracket, kinds, screws.diameter, screws.length);
    let around = screws.positions();
    for (bracket, position) in hardware.actuator_positions.iter().enumerate() {
        let foot = places.inner + *position;
        for (index, (out, up)) in around.iter().enumerate() {
            let number = bracket * around.len() + index + 1;
            put(kind, number, foot + *out, places.pin_height + *up, drill, depth);
        }
        let sealant = 2.0 * Length::new::<millimeter>(SEALANT_MM);
        let lead = hardware.lead_through.map(|across| across + sealant);
        put(HoleKind::Lead, bracket + 1, foot, places.pin_height, lead, None);
    }
    holes
}

/// The drill table of holes of one side.
#[must_use]
pub fn drill_table(holes: &[Hole]) -> Vec<DrillLine> {
    HoleKind::ALL
        .into_iter()
        .filter_map(|kind| {
            let of_kind: Vec<&Hole> = holes.iter().filter(|hole| hole.kind == kind).collect();
            let first = of_kind.first()?;
            let per_side = of_kind.len();
            let (drill, depth) = (first.drill, first.depth);
            Some(DrillLine { kind, drill, depth, per_side, total: 2 * per_side })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn published_lead_holes_are_shares_of_the_root() {
        // USDA Wood Handbook, from memory: the root is two thirds of the shank, the lead hole 70 % of
        // it in softwood and 90 % in hardwood. A 6 mm screw: root 4 mm, 2.8 and 3.6 mm.
        let pilot = Pilot::of(Length::new::<millimeter>(6.0));
        let mm = [pilot.root, pilot.soft, pilot.hard].map(|length| length.get::<millimeter>());
        for (found, expected) in mm.into_iter().zip([4.0, 2.8, 3.6]) {
            assert_relative_eq!(found, expected, max_relative = 1e-12);
        }
    }

    #[test]
    fn physics_a_pilot_never_comes_out_inside() {
        let mm = Length::new::<millimeter>;
        let depth = |thickness| pilot_depth(mm(40.0), mm(5.0), thickness).get::<millimeter>();
        assert_relative_eq!(depth(None), 35.0, max_relative = 1e-12);
        assert_relative_eq!(depth(Some(mm(60.0))), 35.0, max_relative = 1e-12);
        assert_relative_eq!(depth(Some(mm(30.0))), 25.0, max_relative = 1e-12);
        assert!(depth(Some(mm(3.0))) < 3.0);
    }
}
