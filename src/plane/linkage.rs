//! Side-view geometry of plane and actuator: length against deflection, leverage, forces.
//!
//! Frame, in the plane normal to the hinge line: origin at the hinge, first axis aft along the
//! bottom line, second axis up, normal to the bottom. The plane lies along
//! `(cos δ, −sin δ)`, with the deflection δ positive trailing edge down and zero when the plane
//! is parallel to the bottom. The transom runs up from the hinge along `(sin r, cos r)`, with
//! the rake `r` positive when its top leans aft. The actuator joins the upper pin on the transom
//! to the lower pin on the plane.
//!
//! With `R`, `p` the distances of the two pins from the hinge and `ω` the angle between them,
//! which grows with δ one for one (derived here, law of cosines):
//!
//! ```text
//! ℓ² = R² + p² − 2 R p cos ω          dℓ/dδ = R p sin ω / ℓ
//! ```
//!
//! `dℓ/dδ` is also the distance of the actuator's line from the hinge, so the actuator's push is
//! hinge moment / (dℓ/dδ). At `ω` = 0 or 180° the line passes through the hinge: dead centre.
//! Friction in hinge and pins is left out; weight of the plane too. The result is geometry and
//! statics: exact for rigid parts.

use std::f64::consts::{FRAC_PI_2, PI};

use thiserror::Error;
use uom::si::angle::{degree, radian};
use uom::si::f64::{Angle, Force, Length, Torque};
use uom::si::force::newton;
use uom::si::length::{meter, millimeter};
use uom::si::torque::newton_meter;

use super::require::{BadInput, at_least, between, positive};

/// Smallest distance of the actuator's line from the hinge, as a share of the lower pin's
/// distance, that is not called dead centre: 0.05, that is within 3° of it. Derived here: the
/// push is then twenty times what a square linkage needs, and play in the pins can carry it
/// over the centre.
pub const SMALLEST_LEVER_SHARE: f64 = 0.05;

/// Measurements of a linkage, as taken with rule and square.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LinkageDimensions {
    /// Hinge line above the bottom edge of the transom, normal to the bottom; zero or more.
    pub hinge_height: Length,
    /// From the hinge to the foot of the upper pin, up along the transom face; above zero.
    pub upper_pin_up_transom: Length,
    /// Upper pin aft of the transom face, square to it; zero or more.
    pub upper_pin_stand_off: Length,
    /// From the hinge to the foot of the lower pin, aft along the plane; above zero.
    pub lower_pin_aft: Length,
    /// Lower pin above the plane's line through the hinge, square to it; zero or more.
    pub lower_pin_above_plate: Length,
    /// Lean of the transom from the normal to the bottom, positive when its top leans aft.
    pub transom_rake: Angle,
}

impl LinkageDimensions {
    /// Foot of the upper pin above the hinge, up the transom, at which an actuator of a length holds the plane at a deflection; none when it is too short to reach.
    ///
    /// The one answer to how high the upper bracket goes, for marking out and for
    /// the loads alike. With `e` up the transom and `n` off it, the pin stands at
    /// `h e + s n` and the lower pin at `L`; `|h e + s n − L| = ℓ` gives
    /// `h = L·e + √(ℓ² − (s − L·n)²)` (derived here).
    #[must_use]
    pub fn upper_pin_for(&self, length: Length, deflection: Angle) -> Option<Length> {
        let metres = |length: Length| length.get::<meter>();
        let (sin_d, cos_d) = deflection.get::<radian>().sin_cos();
        let (aft, above) = (metres(self.lower_pin_aft), metres(self.lower_pin_above_plate));
        let lower = [aft * cos_d + above * sin_d, above * cos_d - aft * sin_d];
        let (sin_r, cos_r) = self.transom_rake.get::<radian>().sin_cos();
        let up_transom = lower[0] * sin_r + lower[1] * cos_r;
        let off_transom = lower[0] * cos_r - lower[1] * sin_r;
        let across = metres(self.upper_pin_stand_off) - off_transom;
        let square = metres(length).powi(2) - across * across;
        let height = up_transom + square.max(0.0).sqrt();
        (square > 0.0 && height > 0.0).then(|| Length::new::<meter>(height))
    }
}

/// Retracted pin-to-pin length and stroke of an actuator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Travel {
    /// Pin to pin, fully retracted.
    pub retracted_length: Length,
    /// Length added when fully extended.
    pub stroke: Length,
}

/// Force of the plane on its hinge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HingeReaction {
    /// Along the bottom line, positive aft.
    pub aft: Force,
    /// Normal to the bottom, positive up.
    pub up: Force,
    /// Square to the transom face, positive off it: pulls on the hinge's screws.
    pub off_transom: Force,
    /// Along the transom face, positive up: shears the hinge's screws.
    pub along_transom: Force,
}

/// Why a linkage cannot do what was asked.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum LinkageError {
    /// A measurement no linkage can have.
    #[error(transparent)]
    Input(#[from] BadInput),
    /// No triangle of hinge and pins has this pin-to-pin length.
    #[error(
        "a pin-to-pin length of {length_mm:.1} mm cannot be reached: these pins allow more than \
         {shortest_mm:.1} mm and less than {longest_mm:.1} mm; move a pin or take an actuator of \
         another length"
    )]
    LengthOutOfReach {
        /// Length asked for, millimetres.
        length_mm: f64,
        /// Both pins in line on the same side of the hinge, millimetres.
        shortest_mm: f64,
        /// Both pins in line on opposite sides of the hinge, millimetres.
        longest_mm: f64,
    },
    /// The actuator's line passes through the hinge or too near it.
    #[error(
        "at a deflection of {deflection_deg:.1}° the actuator's line passes {lever_mm:.1} mm from \
         the hinge (dead centre): it cannot turn the plane there; move the upper pin aft or up, \
         or shorten the travel"
    )]
    DeadCentre {
        /// Where it happens, degrees.
        deflection_deg: f64,
        /// Distance of the actuator's line from the hinge, millimetres; negative past the
        /// centre, where extending would raise the plane.
        lever_mm: f64,
    },
    /// The deflection lies outside the actuator's travel.
    #[error(
        "a deflection of {asked_deg:.1}° is beyond the travel: this stroke gives {least_deg:.1}° \
         to {most_deg:.1}°; take a longer stroke, or move the lower pin nearer the hinge"
    )]
    OverTravel {
        /// Deflection asked for, degrees to a tenth like the others.
        asked_deg: f64,
        /// Retracted, degrees.
        least_deg: f64,
        /// Extended, degrees.
        most_deg: f64,
    },
}

/// Degrees to the nearest tenth, as error texts print them, and never minus zero.
fn tenths(angle: Angle) -> f64 {
    (10.0 * angle.get::<degree>()).round() / 10.0 + 0.0
}

/// A linkage whose measurements have been checked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Linkage {
    hinge_height_m: f64,
    /// Upper pin, aft and up of the hinge.
    upper_m: [f64; 2],
    lower_aft_m: f64,
    lower_above_m: f64,
    rake_rad: f64,
}

impl Linkage {
    /// Checks the measurements.
    ///
    /// # Errors
    /// [`LinkageError::Input`] for a pin distance not above zero, a negative stand-off or
    /// height, or a rake beyond 45° either way.
    pub fn new(dimensions: &LinkageDimensions) -> Result<Self, LinkageError> {
        let length = |name, value: Length| positive(name, value.get::<meter>(), "m");
        let offset = |name, value: Length| at_least(name, value.get::<meter>(), "m", 0.0);
        let rake_deg = dimensions.transom_rake.get::<degree>();
        let rake_rad = between("the transom rake", rake_deg, "deg", -45.0, 45.0)?.to_radians();
        let up_m =
            length("the upper pin's distance up the transom", dimensions.upper_pin_up_transom)?;
        let stand_off_m = offset("the upper pin's stand-off", dimensions.upper_pin_stand_off)?;
        let (sin, cos) = rake_rad.sin_cos();
        Ok(Self {
            hinge_height_m: offset("the hinge height", dimensions.hinge_height)?,
            upper_m: [up_m * sin + stand_off_m * cos, up_m * cos - stand_off_m * sin],
            lower_aft_m: length("the lower pin's distance aft", dimensions.lower_pin_aft)?,
            lower_above_m: offset(
                "the lower pin's height above the plate",
                dimensions.lower_pin_above_plate,
            )?,
            rake_rad,
        })
    }

    /// Distances of upper and lower pin from the hinge, metres.
    fn radii_m(&self) -> (f64, f64) {
        let [aft, up] = self.upper_m;
        (aft.hypot(up), self.lower_aft_m.hypot(self.lower_above_m))
    }

    /// Angle `ω` between the pins at zero deflection, radians.
    fn pin_angle_at_zero_rad(&self) -> f64 {
        let [aft, up] = self.upper_m;
        up.atan2(aft) - self.lower_above_m.atan2(self.lower_aft_m)
    }

    /// Lower pin at a deflection, metres aft and up of the hinge.
    fn lower_m(&self, deflection_rad: f64) -> [f64; 2] {
        let (sin, cos) = deflection_rad.sin_cos();
        [
            self.lower_aft_m * cos + self.lower_above_m * sin,
            self.lower_above_m * cos - self.lower_aft_m * sin,
        ]
    }

    /// Pin-to-pin length and `dℓ/dδ`, metres, without the dead-centre check.
    fn length_and_lever_m(&self, deflection_rad: f64) -> (f64, f64) {
        let (upper, lower) = self.radii_m();
        let (sin, cos) = (self.pin_angle_at_zero_rad() + deflection_rad).sin_cos();
        let square = upper * upper + lower * lower - 2.0 * upper * lower * cos;
        let length = square.max(0.0).sqrt();
        (length, upper * lower * sin / length)
    }

    /// Length and lever at a deflection the linkage can work at.
    fn working_m(&self, deflection: Angle) -> Result<(f64, f64), LinkageError> {
        let deflection_deg = between(
            "the deflection",
            deflection.get::<degree>(),
            "deg",
            (self.rake_rad - FRAC_PI_2).to_degrees(),
            90.0,
        )?;
        let (length, lever) = self.length_and_lever_m(deflection_deg.to_radians());
        if lever.is_nan() || lever < SMALLEST_LEVER_SHARE * self.radii_m().1 {
            return Err(LinkageError::DeadCentre { deflection_deg, lever_mm: lever * 1e3 });
        }
        Ok((length, lever))
    }

    /// Pin-to-pin length at a deflection.
    ///
    /// # Errors
    /// [`LinkageError::DeadCentre`], or [`LinkageError::Input`] for a plane turned into the
    /// transom or more than a right angle down.
    pub fn length_at(&self, deflection: Angle) -> Result<Length, LinkageError> {
        Ok(Length::new::<meter>(self.working_m(deflection)?.0))
    }

    /// Mechanical advantage `dℓ/dδ`: actuator length per radian of deflection, equal to the
    /// distance of the actuator's line from the hinge.
    ///
    /// # Errors
    /// As [`Self::length_at`].
    pub fn lever_at(&self, deflection: Angle) -> Result<Length, LinkageError> {
        Ok(Length::new::<meter>(self.working_m(deflection)?.1))
    }

    /// Deflection at a pin-to-pin length.
    ///
    /// # Errors
    /// [`LinkageError::LengthOutOfReach`], [`LinkageError::DeadCentre`], or
    /// [`LinkageError::Input`] as in [`Self::length_at`].
    pub fn deflection_at(&self, length: Length) -> Result<Angle, LinkageError> {
        let length_m = positive("the pin-to-pin length", length.get::<meter>(), "m")?;
        let (upper, lower) = self.radii_m();
        let (shortest, longest) = ((upper - lower).abs(), upper + lower);
        if length_m <= shortest || length_m >= longest {
            return Err(LinkageError::LengthOutOfReach {
                length_mm: length.get::<millimeter>(),
                shortest_mm: shortest * 1e3,
                longest_mm: longest * 1e3,
            });
        }
        let cos = (upper * upper + lower * lower - length_m * length_m) / (2.0 * upper * lower);
        let deflection = Angle::new::<radian>(cos.acos() - self.pin_angle_at_zero_rad());
        self.working_m(deflection)?;
        Ok(deflection)
    }

    /// Deflections of the retracted and the extended actuator.
    ///
    /// # Errors
    /// As [`Self::deflection_at`] for either end; a travel that crosses dead centre between
    /// sound ends is impossible, since the length turns round there.
    pub fn deflection_range(&self, travel: &Travel) -> Result<(Angle, Angle), LinkageError> {
        positive("the stroke", travel.stroke.get::<meter>(), "m")?;
        Ok((
            self.deflection_at(travel.retracted_length)?,
            self.deflection_at(travel.retracted_length + travel.stroke)?,
        ))
    }

    /// Travel that takes the plane from `raised` to `lowered`.
    ///
    /// # Errors
    /// As [`Self::length_at`], and [`LinkageError::Input`] when `lowered` is not below `raised`.
    pub fn travel_between(&self, raised: Angle, lowered: Angle) -> Result<Travel, LinkageError> {
        let swing = (lowered - raised).get::<degree>();
        positive("the swing from raised to lowered", swing, "deg")?;
        let retracted_length = self.length_at(raised)?;
        let stroke = self.length_at(lowered)? - retracted_length;
        Ok(Travel { retracted_length, stroke })
    }

    /// Extension from the retracted length that gives a deflection.
    ///
    /// # Errors
    /// [`LinkageError::OverTravel`] outside the stroke; else as [`Self::deflection_range`].
    pub fn extension_for(
        &self,
        deflection: Angle,
        travel: &Travel,
    ) -> Result<Length, LinkageError> {
        let (least, most) = self.deflection_range(travel)?;
        // A millionth of a degree lets the ends of the travel themselves through.
        let play = Angle::new::<degree>(1e-6);
        let inside = deflection >= least - play && deflection <= most + play;
        if !inside {
            return Err(LinkageError::OverTravel {
                asked_deg: tenths(deflection),
                least_deg: tenths(least),
                most_deg: tenths(most),
            });
        }
        Ok(self.length_at(deflection)? - travel.retracted_length)
    }

    /// Push of the actuator (compression positive) that balances a hinge moment (positive
    /// closing the plane upward) at a deflection.
    ///
    /// # Errors
    /// As [`Self::length_at`].
    pub fn push_for(&self, hinge_moment: Torque, deflection: Angle) -> Result<Force, LinkageError> {
        let (_, lever_m) = self.working_m(deflection)?;
        Ok(Force::new::<newton>(hinge_moment.get::<newton_meter>() / lever_m))
    }

    /// Force of the plane on its hinge when `load` acts normal to the plate from below,
    /// `centre` aft of the hinge, and the actuator balances its moment.
    ///
    /// An actuator that slopes aft pushes the plane aft: the hinge's screws are in tension.
    ///
    /// # Errors
    /// As [`Self::length_at`].
    pub fn hinge_reaction(
        &self,
        load: Force,
        centre: Length,
        deflection: Angle,
    ) -> Result<HingeReaction, LinkageError> {
        let (length_m, lever_m) = self.working_m(deflection)?;
        let deflection_rad = deflection.get::<radian>();
        let load_n = load.get::<newton>();
        let push_n = load_n * centre.get::<meter>() / lever_m;
        let lower = self.lower_m(deflection_rad);
        let direction = [0, 1].map(|i| (lower[i] - self.upper_m[i]) / length_m);
        let (sin, cos) = deflection_rad.sin_cos();
        let aft = Force::new::<newton>(load_n * sin + push_n * direction[0]);
        let up = Force::new::<newton>(load_n * cos + push_n * direction[1]);
        let (rake_sin, rake_cos) = self.rake_rad.sin_cos();
        Ok(HingeReaction {
            aft,
            up,
            off_transom: aft * rake_cos - up * rake_sin,
            along_transom: aft * rake_sin + up * rake_cos,
        })
    }

    /// Deflection at which the trailing edge of a plane of this chord reaches the extended
    /// bottom line: `asin(hinge height / chord)`. Less deflection than this is a dead band.
    ///
    /// # Errors
    /// [`LinkageError::Input`] for a chord not above zero or not above the hinge height.
    pub fn touching_deflection(&self, chord: Length) -> Result<Angle, LinkageError> {
        let chord_m = positive("the plane chord", chord.get::<meter>(), "m")?;
        let share = self.hinge_height_m / chord_m;
        between("hinge height over chord", share, "", 0.0, 1.0)?;
        Ok(Angle::new::<radian>(share.asin()))
    }

    /// Angle at the lower pin between actuator and plane, for drawings; 90° is best.
    ///
    /// # Errors
    /// As [`Self::length_at`].
    pub fn pin_angle_at(&self, deflection: Angle) -> Result<Angle, LinkageError> {
        let (length, lever) = self.working_m(deflection)?;
        let (upper, lower) = self.radii_m();
        let acute = (lever / lower).min(1.0).asin();
        let obtuse = length * length + lower * lower < upper * upper;
        Ok(Angle::new::<radian>(if obtuse { PI - acute } else { acute }))
    }
}

#[cfg(test)]
mod tests;
