//! What is screwed to the transom: from the stock list, or usual proportions when none is chosen.

use uom::si::angle::{degree, radian};
use uom::si::f64::{Angle, ElectricCurrent, Length};
use uom::si::length::{inch, meter};

use super::gauge::Gauge;
use crate::boat::{PlanePair, Transom};
use crate::plane::actuator::Actuator;
use crate::plane::linkage::{Linkage, LinkageDimensions, LinkageError, Travel};
use crate::stock::{BracketScrews, HingeScrews, Part, Spacing};

// Usual proportions, as shares of the chord; common practice, no source. At a chord of 9 in they
// give a leaf 1 1/2 in high with its screws 3/4 in up, end screws 1 in in, and a bracket of
// 1 1/2 by 2 in between screws.
const LEAF_HEIGHT: f64 = 1.0 / 6.0;
const SCREW_ROW_HEIGHT: f64 = 1.0 / 12.0;
const SCREW_EDGE_DISTANCE: f64 = 1.0 / 9.0;
const SCREW_PITCH: f64 = 1.0 / 3.0;
const BRACKET_ACROSS: f64 = 1.0 / 6.0;
const BRACKET_UP: f64 = 1.0 / 4.5;
const BRACKET_EDGE: f64 = 1.0 / 18.0;
const UPPER_PIN_UP: f64 = 0.80;
const UPPER_PIN_STAND_OFF: f64 = 0.10;
const LOWER_PIN_AFT: f64 = 0.65;
const LOWER_PIN_ABOVE: f64 = 0.06;
/// Deflection at full stroke with usual proportions, degrees.
const FULL_STROKE_DEG: f64 = 15.0;
/// Largest pitch of hinge screws, inches; common practice, no source.
const LARGEST_PITCH_IN: f64 = 3.0;
/// Largest distance of an end screw from the end of the hinge, inches; common practice, no source.
const LARGEST_EDGE_DISTANCE_IN: f64 = 1.0;
/// Span above which two actuators are usual, inches; common practice, no source.
const TWO_ACTUATORS_ABOVE_IN: f64 = 30.0;
/// Usual hinge screw: No. 10, inches across and long; common practice, no source.
const HINGE_SCREW_IN: (f64, f64) = (0.190, 1.25);
/// Usual bracket screw, inches across and long; common practice, no source.
const BRACKET_SCREW_IN: (f64, f64) = (0.25, 1.5);

/// What drives the plane.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ActuatorKind {
    /// Oil cylinder: one tube through the transom.
    Hydraulic,
    /// Motor and screw: one harness through the transom.
    Electric,
    /// Not chosen yet.
    Open,
}

/// Hinge leaf, screws, brackets and linkage of one plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Hardware {
    /// Name in the stock list, or none for usual proportions.
    pub part: Option<String>,
    /// What drives it.
    pub actuator: ActuatorKind,
    /// Each actuator from the inner end of the plane.
    pub actuator_positions: Vec<Length>,
    /// Screws of the hinge leaf.
    pub hinge_screws: HingeScrews,
    /// Screws of each upper bracket.
    pub bracket_screws: BracketScrews,
    /// Hinge and pins, with the boat's rake and hinge height.
    pub linkage: LinkageDimensions,
    /// Pin to pin retracted, and stroke.
    pub travel: Travel,
    /// Fuse of each electric actuator, from its rated current, when known.
    pub fuse: Option<ElectricCurrent>,
}

impl Hardware {
    /// The hardware of a part on this transom.
    #[must_use]
    pub fn of_part(part: &Part, transom: &Transom) -> Self {
        Self {
            part: Some(part.name.clone()),
            actuator: match part.actuator {
                Actuator::Hydraulic(_) => ActuatorKind::Hydraulic,
                Actuator::Electric(_) => ActuatorKind::Electric,
            },
            actuator_positions: part.actuator_positions(),
            hinge_screws: part.hinge_screws,
            bracket_screws: part.bracket_screws,
            linkage: LinkageDimensions {
                hinge_height: transom.hinge_height,
                transom_rake: transom.rake,
                ..part.linkage
            },
            travel: part.travel,
            fuse: match &part.actuator {
                Actuator::Hydraulic(_) => None,
                Actuator::Electric(electric) => electric.fuse().ok(),
            },
        }
    }

    /// Usual proportions for a plane of this size; common practice, no source.
    ///
    /// The travel is what the proportions need from the retracted gauge height to 15° down.
    ///
    /// # Errors
    /// [`LinkageError`] when the rake leaves the proportions no linkage.
    pub fn usual(pair: PlanePair, transom: &Transom, gauge: &Gauge) -> Result<Self, LinkageError> {
        let chord = pair.chord;
        let linkage = LinkageDimensions {
            hinge_height: transom.hinge_height,
            upper_pin_up_transom: chord * UPPER_PIN_UP,
            upper_pin_stand_off: chord * UPPER_PIN_STAND_OFF,
            lower_pin_aft: chord * LOWER_PIN_AFT,
            lower_pin_above_plate: chord * LOWER_PIN_ABOVE,
            transom_rake: transom.rake,
        };
        let lowered = Angle::new::<degree>(FULL_STROKE_DEG);
        let travel = Linkage::new(&linkage)?.travel_between(gauge.deflection, lowered)?;
        let actuators = if pair.span > Length::new::<inch>(TWO_ACTUATORS_ABOVE_IN) { 2 } else { 1 };
        let share = pair.span / f64::from(2 * actuators);
        Ok(Self {
            part: None,
            actuator: ActuatorKind::Open,
            actuator_positions: (0..actuators).map(|i| share * f64::from(2 * i + 1)).collect(),
            hinge_screws: usual_hinge_screws(pair),
            bracket_screws: usual_bracket_screws(chord),
            linkage,
            travel,
            fuse: None,
        })
    }

    /// Whether the figures come from the stock list.
    #[must_use]
    pub const fn is_chosen(&self) -> bool {
        self.part.is_some()
    }
}

fn usual_hinge_screws(pair: PlanePair) -> HingeScrews {
    let edge_distance =
        (pair.chord * SCREW_EDGE_DISTANCE).min(Length::new::<inch>(LARGEST_EDGE_DISTANCE_IN));
    let pitch = (pair.chord * SCREW_PITCH).min(Length::new::<inch>(LARGEST_PITCH_IN));
    let row = (pair.span - 2.0 * edge_distance).get::<meter>().max(0.0);
    // A millionth of a gap keeps a row that is a whole number of pitches from gaining a screw.
    let gaps = (row / pitch.get::<meter>() - 1e-6).ceil().max(2.0);
    HingeScrews {
        count: gaps as u32 + 1,
        edge_distance,
        spacing: Spacing::Even,
        row_height: pair.chord * SCREW_ROW_HEIGHT,
        leaf_height: pair.chord * LEAF_HEIGHT,
        pin_offset: Length::new::<meter>(0.0),
        diameter: Length::new::<inch>(HINGE_SCREW_IN.0),
        length: Length::new::<inch>(HINGE_SCREW_IN.1),
    }
}

fn usual_bracket_screws(chord: Length) -> BracketScrews {
    BracketScrews {
        count: 4,
        across: chord * BRACKET_ACROSS,
        up: chord * BRACKET_UP,
        edge_distance: chord * BRACKET_EDGE,
        diameter: Length::new::<inch>(BRACKET_SCREW_IN.0),
        length: Length::new::<inch>(BRACKET_SCREW_IN.1),
    }
}

/// Foot of the upper pin above the hinge at which the retracted actuator holds the plane at its
/// retracted deflection, up the transom; none when the actuator is too short to reach.
///
/// With `e` up the transom and `n` off it, the pin stands at `h e + s n` and the lower pin at
/// `L`; `|h e + s n − L| = ℓ` gives `h = L·e + √(ℓ² − (s − L·n)²)` (derived here).
#[must_use]
pub fn upper_pin_for_retracted(
    linkage: &LinkageDimensions,
    travel: &Travel,
    gauge: &Gauge,
) -> Option<Length> {
    let metres = |length: Length| length.get::<meter>();
    let (sin_d, cos_d) = gauge.deflection.get::<radian>().sin_cos();
    let (aft, above) = (metres(linkage.lower_pin_aft), metres(linkage.lower_pin_above_plate));
    let lower = [aft * cos_d + above * sin_d, above * cos_d - aft * sin_d];
    let (sin_r, cos_r) = linkage.transom_rake.get::<radian>().sin_cos();
    let up_transom = lower[0] * sin_r + lower[1] * cos_r;
    let off_transom = lower[0] * cos_r - lower[1] * sin_r;
    let across = metres(linkage.upper_pin_stand_off) - off_transom;
    let square = metres(travel.retracted_length).powi(2) - across * across;
    let height = up_transom + square.max(0.0).sqrt();
    (square > 0.0 && height > 0.0).then(|| Length::new::<meter>(height))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mark::gauge::gauge;
    use approx::assert_relative_eq;

    #[test]
    fn physics_the_bracket_height_holds_the_plane_at_its_gauge() {
        // The linkage module's own triangle, solved the other way round, is the reference.
        let set = gauge(Length::new::<inch>(10.0), Length::new::<inch>(0.25));
        for rake_deg in [-12.0, 0.0, 14.0] {
            for retracted_mm in [190.0, 214.0, 260.0] {
                let mut linkage = LinkageDimensions {
                    hinge_height: Length::new::<inch>(0.25),
                    upper_pin_up_transom: Length::new::<inch>(7.0),
                    upper_pin_stand_off: Length::new::<inch>(0.9),
                    lower_pin_aft: Length::new::<inch>(6.5),
                    lower_pin_above_plate: Length::new::<inch>(0.6),
                    transom_rake: Angle::new::<degree>(rake_deg),
                };
                let travel = Travel {
                    retracted_length: Length::new::<meter>(retracted_mm / 1e3),
                    stroke: Length::new::<meter>(0.05),
                };
                linkage.upper_pin_up_transom =
                    upper_pin_for_retracted(&linkage, &travel, &set).expect("in reach");
                let (raised, _) =
                    Linkage::new(&linkage).unwrap().deflection_range(&travel).unwrap();
                assert_relative_eq!(
                    raised.get::<degree>(),
                    set.deflection.get::<degree>(),
                    max_relative = 1e-9
                );
            }
        }
    }

    #[test]
    fn error_an_actuator_too_short_to_reach_has_no_bracket() {
        let set = gauge(Length::new::<inch>(10.0), Length::new::<inch>(0.25));
        let linkage = LinkageDimensions {
            hinge_height: Length::new::<inch>(0.25),
            upper_pin_up_transom: Length::new::<inch>(7.0),
            upper_pin_stand_off: Length::new::<inch>(0.9),
            lower_pin_aft: Length::new::<inch>(6.5),
            lower_pin_above_plate: Length::new::<inch>(0.6),
            transom_rake: Angle::new::<degree>(0.0),
        };
        let travel =
            Travel { retracted_length: Length::new::<inch>(5.0), stroke: Length::new::<inch>(2.0) };
        assert_eq!(upper_pin_for_retracted(&linkage, &travel, &set), None);
    }
}
