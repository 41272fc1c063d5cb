//! The planes of a boat, the transom that they stand on and the limits on their size, as a person knows them.

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use uom::si::f64::{Angle, Area, Length, Ratio};
use uom::si::{area::square_meter, length::meter};

use crate::boat::measure::{Named, given};
use crate::boat::transom::{ObstacleKind, Strake, TransomForm};
use crate::units::{LengthUnit, UnitChoice, fraction_of_inch, number_with_decimals};

/// A pair of trim planes, one on each side.
///
/// ```
/// use planewright::PlanePair;
/// use planewright::units::UnitSystem;
/// use uom::si::{f64::Length, length::millimeter};
///
/// let millimetres = Length::new::<millimeter>;
/// let pair = PlanePair { span: millimetres(600.0), chord: millimetres(225.0) };
/// assert_eq!(pair.text(UnitSystem::Metric.into()), "600 x 225 mm");
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanePair {
    /// Span s of ONE plane, along the bottom edge.
    pub span: Length,
    /// Chord c_p, hinge to trailing edge.
    pub chord: Length,
}

/// Span and chord in metres without the last bits that multiplying a step leaves, and the area of both.
impl Serialize for PlanePair {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(3))?;
        let [span_m, chord_m] = self.in_metres();
        map.serialize_entry("span_m", &span_m)?;
        map.serialize_entry("chord_m", &chord_m)?;
        map.serialize_entry("area_m2", &self.area().get::<square_meter>())?;
        map.end()
    }
}

impl PlanePair {
    /// Span and chord in metres, without the last bits that multiplying a step leaves.
    pub(crate) fn in_metres(self) -> [f64; 2] {
        [self.span, self.chord].map(|length| (length.get::<meter>() * 1e9).round() / 1e9)
    }

    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([("span", Some(self.span.into())), ("chord", Some(self.chord.into()))])
    }

    /// Plan area of both planes, 2 s c_p.
    #[must_use]
    pub fn area(&self) -> Area {
        2.0 * self.span * self.chord
    }

    /// Span and chord in words: `600 x 150 mm`, or `23 5/8 x 5 7/8 in`.
    #[must_use]
    pub fn text(&self, units: UnitChoice) -> String {
        match units.small_length {
            LengthUnit::Inch => {
                let span = fraction_of_inch(self.span);
                format!("{} x {}", span.trim_end_matches(" in"), fraction_of_inch(self.chord))
            }
            unit => {
                let decimals = if unit == LengthUnit::Millimetre { 0 } else { 3 };
                let text = |length| number_with_decimals(unit.value(length), decimals);
                format!("{} x {} {}", text(self.span), text(self.chord), unit.symbol())
            }
        }
    }
}

/// Room on the transom, and the setting of the hinge.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TransomInput {
    /// Chine beam at the transom; the hull's mean when absent.
    pub beam: Option<Length>,
    /// Deadrise at the transom; the hull's mean when absent.
    pub deadrise: Option<Angle>,
    /// What it is like; plain when absent.
    pub form: Option<TransomForm>,
    /// Beam amidships of the notch, step or pod that [`TransomInput::form`] names.
    pub middle_beam: Option<Length>,
    /// Clear distance off the centreline, along the bottom edge; clear of the drive when absent.
    pub inner_clearance: Option<Length>,
    /// Clear distance in from the chine, along the bottom edge; 90 mm when absent, more where the chine is rounded.
    pub outer_clearance: Option<Length>,
    /// Radius of the chine; sharp when absent.
    pub chine_radius: Option<Length>,
    /// How far above the bottom line a raised plane points; 1.5° when absent.
    pub retracted_angle: Option<Angle>,
    /// How far the bottom edge stands off a straightedge; 2 mm when absent.
    pub edge_fairness: Option<Length>,
    /// Radius of the edge between bottom and transom; sharp when absent.
    pub lower_edge_radius: Option<Length>,
    /// Largest gap under a straightedge on the face along the hinge line.
    pub unevenness: Option<Length>,
    /// Thickness of the transom.
    pub thickness: Option<Length>,
    /// Waterline at rest above the keel.
    pub waterline: Option<Length>,
    /// Hinge line above the bottom edge; 1/4 in when absent.
    pub hinge_height: Option<Length>,
    /// Lean of the transom from the normal to the bottom, its top aft positive; zero when absent.
    pub rake: Option<Angle>,
    /// Height above the bottom edge that hinge and actuator need free; 10 in when absent.
    pub working_height: Option<Length>,
    /// What stands on the transom or hangs below its edge.
    pub obstacles: Vec<ObstacleInput>,
    /// Strakes that run out at the transom, each on both sides.
    pub strakes: Vec<Strake>,
}

impl TransomInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("beam", self.beam.map(Into::into)),
            ("deadrise", self.deadrise.map(Into::into)),
            ("rake", self.rake.map(Into::into)),
            ("middle_beam", self.middle_beam.map(Into::into)),
            ("inner_clearance", self.inner_clearance.map(Into::into)),
            ("outer_clearance", self.outer_clearance.map(Into::into)),
            ("chine_radius", self.chine_radius.map(Into::into)),
            ("hinge_height", self.hinge_height.map(Into::into)),
            ("retracted_angle", self.retracted_angle.map(Into::into)),
            ("edge_fairness", self.edge_fairness.map(Into::into)),
            ("lower_edge_radius", self.lower_edge_radius.map(Into::into)),
            ("unevenness", self.unevenness.map(Into::into)),
            ("thickness", self.thickness.map(Into::into)),
            ("waterline", self.waterline.map(Into::into)),
            ("working_height", self.working_height.map(Into::into)),
        ])
    }
}

/// A thing on the transom as described; places and signs as in [`Obstacle`](crate::boat::Obstacle).
#[derive(Clone, Debug, PartialEq)]
pub struct ObstacleInput {
    /// What it is.
    pub kind: ObstacleKind,
    /// What the owner calls it.
    pub name: Option<String>,
    /// Its middle off the centreline, level; to starboard positive.
    pub off_centre: Length,
    /// Its width, level.
    pub width: Length,
    /// Its lowest point above the bottom edge.
    pub from: Length,
    /// Its highest point above the bottom edge.
    pub to: Length,
    /// Free distance to keep beside it; the kind's usual one when absent.
    pub clearance: Option<Length>,
}

impl ObstacleInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("off_centre", Some(self.off_centre.into())),
            ("width", Some(self.width.into())),
            ("from", Some(self.from.into())),
            ("to", Some(self.to.into())),
            ("clearance", self.clearance.map(Into::into)),
        ])
    }
}

/// Limits on the size that may be suggested.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SizingInput {
    /// Largest deflection the hardware gives; never above the tested 15°.
    pub largest_deflection: Option<Angle>,
    /// Share of the usable deflection that the duties may use; all of it when absent.
    pub share: Option<Ratio>,
    /// Share of boats nearly like this one on which a size is to do its duties; 80 % when absent.
    pub chance: Option<Ratio>,
    /// Smallest chord; 225 mm when absent.
    pub smallest_chord: Option<Length>,
    /// Smallest span/chord; 1.5 when absent.
    pub smallest_aspect: Option<f64>,
    /// Largest span/chord; 3.5 when absent.
    pub largest_aspect: Option<f64>,
    /// Step of the sizes that can be bought or made; 25 mm when absent.
    pub round_to: Option<Length>,
}

impl SizingInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("largest_deflection", self.largest_deflection.map(Into::into)),
            ("share", self.share.map(Into::into)),
            ("chance", self.chance.map(Into::into)),
            ("smallest_chord", self.smallest_chord.map(Into::into)),
            ("smallest_aspect", self.smallest_aspect.map(Into::into)),
            ("largest_aspect", self.largest_aspect.map(Into::into)),
            ("round_to", self.round_to.map(Into::into)),
        ])
    }
}
