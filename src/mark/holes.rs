//! Holes of one plane, and the drill table.

use uom::si::f64::Length;
use uom::si::length::inch;

use super::hardware::{ActuatorKind, Hardware};
use crate::stock::assess::ThroughBolts;

/// Pilot hole of a hinge screw, inches; common practice, no source.
pub const HINGE_PILOT_IN: f64 = 5.0 / 32.0;
/// Pilot hole of a bracket screw, inches; common practice, no source.
pub const BRACKET_PILOT_IN: f64 = 3.0 / 16.0;
/// Hole through the transom for tube or harness, inches; common practice, no source.
pub const THROUGH_HOLE_IN: f64 = 5.0 / 16.0;
/// Counterbore for the tube nut, inches across and deep; common practice, no source.
pub const COUNTERBORE_IN: (f64, f64) = (0.75, 1.0);
/// How much shallower than the screw a pilot hole stays, inches; common practice says 'a little'.
pub const SHALLOWER_IN: f64 = 0.125;
/// Shares of the screw's diameter between which the usual pilot is kept, and the share drilled
/// when it lies outside them; common practice, no source.
const PILOT_SHARE: (f64, f64, f64) = (0.68, 0.80, 0.88);

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
    /// Through the transom, for tube or harness.
    Through,
    /// Counterbore from outside on a through-hole, for the tube nut.
    Counterbore,
}

impl HoleKind {
    /// All kinds, in the order they are drilled.
    pub const ALL: [Self; 6] = [
        Self::HingePilot,
        Self::HingeBolt,
        Self::BracketPilot,
        Self::BracketBolt,
        Self::Through,
        Self::Counterbore,
    ];

    /// Letter that begins the names of such holes.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::HingePilot | Self::HingeBolt => 'H',
            Self::BracketPilot | Self::BracketBolt => 'B',
            Self::Through => 'T',
            Self::Counterbore => 'C',
        }
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
            Self::Through => "through-hole, tube or harness",
            Self::Counterbore => "counterbore, tube nut",
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
    /// Drill.
    pub drill: Length,
    /// Depth from outside; none when it goes through.
    pub depth: Option<Length>,
}

/// One line of the drill table.
#[derive(Clone, Debug, PartialEq)]
pub struct DrillLine {
    /// What the holes are for.
    pub kind: HoleKind,
    /// Drill.
    pub drill: Length,
    /// Depth from outside; none when they go through.
    pub depth: Option<Length>,
    /// Holes on one side.
    pub per_side: usize,
    /// Holes on the boat.
    pub total: usize,
}

/// Pilot for a screw: the usual one where it suits the screw, and whether it did.
#[must_use]
pub fn pilot(usual_in: f64, screw: Length) -> (Length, bool) {
    let (least, share, most) = PILOT_SHARE;
    let ratio = usual_in / screw.get::<inch>();
    if (least..=most).contains(&ratio) {
        (Length::new::<inch>(usual_in), true)
    } else {
        (screw * share, false)
    }
}

/// Every hole of a plane whose inner end stands `inner` off the centreline, its hinge at
/// `hinge_height` and the foot of its upper pins at `pin_height` above the bottom edge. Where bolts
/// hold it there is no pilot for a screw that does not.
pub(super) fn holes(
    hardware: &Hardware,
    bolts: &ThroughBolts,
    span: Length,
    inner: Length,
    hinge_height: Length,
    pin_height: Length,
) -> Vec<Hole> {
    let shallower = Length::new::<inch>(SHALLOWER_IN);
    let mut holes = Vec::new();
    let mut put = |kind: HoleKind, number: usize, along, up, drill, depth| {
        holes.push(Hole {
            name: format!("{}{number}", kind.letter()),
            kind,
            along,
            up,
            drill,
            depth,
        });
    };
    let screws = &hardware.hinge_screws;
    let (kind, drill, depth) = match bolts.hinge.bolts() {
        Some(pattern) => (HoleKind::HingeBolt, pattern.bolt.hole, None),
        None => {
            let (drill, _) = pilot(HINGE_PILOT_IN, screws.diameter);
            (HoleKind::HingePilot, drill, Some(screws.length - shallower))
        }
    };
    for (index, position) in screws.positions(span).into_iter().enumerate() {
        let (along, up) = (inner + position, hinge_height + screws.row_height);
        put(kind, index + 1, along, up, drill, depth);
    }
    let screws = &hardware.bracket_screws;
    let (kind, drill, depth) = match bolts.bracket.bolts() {
        Some(pattern) => (HoleKind::BracketBolt, pattern.bolt.hole, None),
        None => {
            let (drill, _) = pilot(BRACKET_PILOT_IN, screws.diameter);
            (HoleKind::BracketPilot, drill, Some(screws.length - shallower))
        }
    };
    let around = screws.positions();
    for (bracket, position) in hardware.actuator_positions.iter().enumerate() {
        let foot = inner + *position;
        for (index, (out, up)) in around.iter().enumerate() {
            let (along, up) = (foot + *out, pin_height + *up);
            let number = bracket * around.len() + index + 1;
            put(kind, number, along, up, drill, depth);
        }
        let through = Length::new::<inch>(THROUGH_HOLE_IN);
        put(HoleKind::Through, bracket + 1, foot, pin_height, through, None);
        if hardware.actuator != ActuatorKind::Electric {
            let (across, deep) = COUNTERBORE_IN;
            let (across, deep) = (Length::new::<inch>(across), Length::new::<inch>(deep));
            put(HoleKind::Counterbore, bracket + 1, foot, pin_height, across, Some(deep));
        }
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

    #[test]
    fn practice_usual_screws_take_the_usual_pilots() {
        // Common practice, no source: 5/32 in for the hinge, 3/16 in for the bracket.
        for (usual_in, screw_in) in [(HINGE_PILOT_IN, 0.190), (BRACKET_PILOT_IN, 0.25)] {
            assert_eq!(
                pilot(usual_in, Length::new::<inch>(screw_in)),
                (Length::new::<inch>(usual_in), true)
            );
        }
    }

    #[test]
    fn physics_a_pilot_is_never_as_wide_as_its_screw() {
        for screw_in in [0.1, 0.138, 0.164, 0.19, 0.216, 0.25, 0.3125, 0.375] {
            for usual_in in [HINGE_PILOT_IN, BRACKET_PILOT_IN] {
                let (drill, _) = pilot(usual_in, Length::new::<inch>(screw_in));
                let share = drill.get::<inch>() / screw_in;
                assert!((0.6..0.9).contains(&share), "{screw_in} in: {share}");
            }
        }
    }
}
