//! One plane as sold: plate, hinge, actuator, linkage and screws.
//!
//! All lengths across the plane run from its inner end (nearer the centreline) to its outer end;
//! all heights on the transom are above the hinge line, along the transom face.

use uom::si::f64::Length;
use uom::si::length::millimeter;

use crate::boat::Transom;
use crate::field::by_word;
use crate::plane::actuator::Actuator;
use crate::plane::gauge::gauge;
use crate::plane::linkage::{Linkage, LinkageDimensions, LinkageError, Travel};
use crate::plane::strength::{PlateMaterial, Support};

/// One kind of plane in the stock list. A boat takes two.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Name in the list, which names no other part.
    pub name: String,
    /// Span s, along the bottom edge.
    pub span: Length,
    /// Chord, hinge to trailing edge.
    pub chord: Length,
    /// Price of one plane with its actuators.
    pub price: Price,
    /// Planes on the shelf; none where the list does not say.
    pub on_hand: Option<u32>,
    /// What moves it, where the list says so.
    pub supply: Option<Supply>,
    /// Plate, hinge, actuators, linkage and screws; none where the list does not describe them, and
    /// nothing is known of its strength then.
    pub gear: Option<Gear>,
}

/// What moves a plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Supply {
    /// A pump and cylinders.
    Hydraulic,
    /// Electric actuators.
    Electric,
}

impl Supply {
    /// The word for it in a list.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Hydraulic => "hydraulic",
            Self::Electric => "electric",
        }
    }
}

by_word!(Supply);

/// Plate, hinge, actuators, linkage and screws of one plane.
#[derive(Debug, Clone, PartialEq)]
pub struct Gear {
    /// Thickness of the plate.
    pub thickness: Length,
    /// What the plate is made of.
    pub material: PlateMaterial,
    /// How its actuators carry the plate across the span; of each half where there are two.
    pub support: Support,
    /// Each of its actuators.
    pub actuator: Actuator,
    /// Number of actuators on one plane, 1 or 2.
    pub actuators: u32,
    /// Hinge and pins. The rake of the transom is the boat's own, zero here.
    pub linkage: LinkageDimensions,
    /// Pin to pin retracted, and stroke.
    pub travel: Travel,
    /// Screws of the hinge leaf.
    pub hinge_screws: HingeScrews,
    /// Screws of each actuator's upper bracket.
    pub bracket_screws: BracketScrews,
    /// Largest across of what is led through the transom, tube or cable with its plug; none where
    /// the list does not say.
    pub lead_through: Option<Length>,
}

/// How hinge screws are spread between the first and the last.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spacing {
    /// Evenly, from one edge distance to the other.
    Even,
    /// At this pitch, the row centred on the span.
    Pitch(Length),
}

/// The row of screws that holds the hinge leaf to the transom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HingeScrews {
    /// Number in the row.
    pub count: u32,
    /// Least distance of an end screw from the end of the plane.
    pub edge_distance: Length,
    /// How they are spread.
    pub spacing: Spacing,
    /// Row of screws above the hinge line.
    pub row_height: Length,
    /// Upper edge of the hinge leaf above the hinge line.
    pub leaf_height: Length,
    /// Hinge pin aft of the transom face.
    pub pin_offset: Length,
    /// Shank diameter.
    pub diameter: Length,
    /// Length under the head.
    pub length: Length,
}

impl HingeScrews {
    /// Distance of each screw from the inner end of a plane of this span, in order.
    #[must_use]
    pub fn positions(&self, span: Length) -> Vec<Length> {
        let gaps = f64::from(self.count.saturating_sub(1));
        if self.count < 2 {
            return (0..self.count).map(|_| span / 2.0).collect();
        }
        let pitch = match self.spacing {
            Spacing::Even => (span - 2.0 * self.edge_distance) / gaps,
            Spacing::Pitch(pitch) => pitch,
        };
        let first = (span - pitch * gaps) / 2.0;
        (0..self.count).map(|index| first + pitch * f64::from(index)).collect()
    }
}

/// Screws of an actuator's upper bracket: two columns, centred on the foot of the upper pin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BracketScrews {
    /// Number, even: half of them in each column.
    pub count: u32,
    /// Between the columns, along the hinge line.
    pub across: Length,
    /// Between screws of a column, up the transom; of no effect with two screws.
    pub up: Length,
    /// Outermost screw to the edge of the bracket, up or down.
    pub edge_distance: Length,
    /// Shank diameter.
    pub diameter: Length,
    /// Length under the head.
    pub length: Length,
}

impl BracketScrews {
    /// Each screw from the foot of the upper pin: outward along the hinge line, and up the transom.
    #[must_use]
    pub fn positions(&self) -> Vec<(Length, Length)> {
        let rows = self.count / 2;
        let lowest = -0.5 * f64::from(rows.saturating_sub(1));
        (0..rows)
            .flat_map(|row| {
                let up = self.up * (lowest + f64::from(row));
                [(-self.across / 2.0, up), (self.across / 2.0, up)]
            })
            .collect()
    }

    /// From the foot of the upper pin to the upper and lower edge of the bracket.
    #[must_use]
    pub fn half_height(&self) -> Length {
        let gaps = f64::from((self.count / 2).saturating_sub(1));
        self.up * (0.5 * gaps) + self.edge_distance
    }
}

/// What one costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Price {
    /// In whole units of the currency.
    pub amount: f64,
    /// Three-letter code, ISO 4217; empty where the list names none.
    pub currency: String,
}

impl Price {
    /// The currency, where the list names one.
    #[must_use]
    pub fn named(&self) -> Option<&str> {
        Some(self.currency.as_str()).filter(|currency| !currency.is_empty())
    }
}

impl Gear {
    /// Distance of each actuator from the inner end of a plane of this span: the middle, or the
    /// quarter points for two.
    #[must_use]
    pub fn actuator_positions(&self, span: Length) -> Vec<Length> {
        let share = span / f64::from(2 * self.actuators.max(1));
        (0..self.actuators).map(|index| share * f64::from(2 * index + 1)).collect()
    }

    /// The linkage as it is fitted on a transom: with the transom's own rake and hinge height,
    /// and the upper bracket where the retracted actuator holds a plane of this chord at its gauge
    /// height, as it is marked out.
    ///
    /// # Errors
    /// When the part's own linkage cannot work, or the pins do not reach on this transom.
    pub fn linkage_on(
        &self,
        chord: Length,
        transom: &Transom,
    ) -> Result<LinkageDimensions, LinkageError> {
        let retracted = self.travel.retracted_length;
        Linkage::new(&self.linkage)?.deflection_at(retracted)?;
        let fitted = LinkageDimensions {
            hinge_height: transom.hinge_height,
            transom_rake: transom.rake,
            ..self.linkage
        };
        let raised = gauge(chord, transom.hinge_height, transom.retracted_angle).deflection;
        let height = fitted.upper_pin_for(retracted, raised).ok_or_else(|| {
            LinkageError::LengthOutOfReach {
                length_mm: retracted.get::<millimeter>(),
                shortest_mm: (self.linkage.lower_pin_aft - self.linkage.upper_pin_stand_off)
                    .abs()
                    .get::<millimeter>(),
                longest_mm: f64::INFINITY,
            }
        })?;
        Ok(LinkageDimensions { upper_pin_up_transom: height, ..fitted })
    }

    /// Height above the bottom edge that hinge and actuators take on a transom, up to the upper
    /// edge of the brackets.
    ///
    /// # Errors
    /// As [`Gear::linkage_on`].
    pub fn working_height_on(
        &self,
        chord: Length,
        transom: &Transom,
    ) -> Result<Length, LinkageError> {
        let linkage = self.linkage_on(chord, transom)?;
        Ok(linkage.hinge_height + linkage.upper_pin_up_transom + self.bracket_screws.half_height())
    }
}

impl Part {
    /// The part as a pair on a boat.
    #[must_use]
    pub fn pair(&self) -> crate::boat::PlanePair {
        crate::boat::PlanePair { span: self.span, chord: self.chord }
    }
}

#[cfg(test)]
impl Part {
    /// Its gear, of a part that is described.
    pub(crate) fn known(&self) -> &Gear {
        self.gear.as_ref().expect("a part that is described")
    }

    /// The same, to be changed.
    pub(crate) fn known_mut(&mut self) -> &mut Gear {
        self.gear.as_mut().expect("a part that is described")
    }
}
