//! What is screwed to the transom: from the stock list, or usual proportions when none is chosen.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::{inch, meter, millimeter};

use crate::boat::{PlanePair, Transom};
use crate::plane::actuator::Actuator;
use crate::plane::gauge::Gauge;
use crate::plane::linkage::{Linkage, LinkageDimensions, LinkageError, Travel};
use crate::stock::{BracketScrews, HingeScrews, Part, Spacing};

// Usual proportions, as shares of the chord; common practice, no source.
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

/// Radius of the barrel of a hinge where no part says how far its pin stands off, millimetres;
/// common practice, no source: 3 to 6 mm.
const BARREL_MM: f64 = 4.0;

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
    /// The actuator itself, when known.
    pub drive: Option<Actuator>,
    /// Largest across of what is led through the transom, when known.
    pub lead_through: Option<Length>,
}

impl Hardware {
    /// The hardware of a part on this transom; none where the list does not describe it.
    #[must_use]
    pub fn of_part(part: &Part, transom: &Transom) -> Option<Self> {
        let gear = part.gear.as_ref()?;
        Some(Self {
            part: Some(part.name.clone()),
            actuator: match gear.actuator {
                Actuator::Hydraulic(_) => ActuatorKind::Hydraulic,
                Actuator::Electric(_) => ActuatorKind::Electric,
            },
            actuator_positions: gear.actuator_positions(part.span),
            hinge_screws: gear.hinge_screws,
            bracket_screws: gear.bracket_screws,
            linkage: LinkageDimensions {
                hinge_height: transom.hinge_height,
                transom_rake: transom.rake,
                ..gear.linkage
            },
            travel: gear.travel,
            drive: Some(gear.actuator),
            lead_through: gear.lead_through,
        })
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
            drive: None,
            lead_through: None,
        })
    }

    /// Actuators of both planes.
    #[must_use]
    pub fn actuators(&self) -> u32 {
        u32::try_from(2 * self.actuator_positions.len()).unwrap_or(u32::MAX)
    }

    /// Whether two tubes come from each cylinder: one that oil moves both ways.
    #[must_use]
    pub fn has_two_tubes(&self) -> bool {
        matches!(&self.drive, Some(Actuator::Hydraulic(cylinder)) if cylinder.spec().rod.is_some())
    }

    /// Radius of the hinge's barrel, as far as its pin stands off the transom.
    #[must_use]
    pub fn barrel(&self) -> Length {
        let offset = self.hinge_screws.pin_offset;
        if offset > Length::default() { offset } else { Self::usual_barrel() }
    }

    /// Radius of a usual barrel.
    pub(super) fn usual_barrel() -> Length {
        Length::new::<millimeter>(BARREL_MM)
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
