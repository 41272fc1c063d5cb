//! Plate and screws of a part under a load on its plane.

use uom::si::f64::{Angle, Force, Length};
use uom::si::force::newton;
use uom::si::length::meter;

use super::{AssessError, Ready};
use crate::plane::hinge::PlateLoad;
use crate::plane::linkage::HingeReaction;
use crate::plane::strength::fastening::{
    Screw, ScrewGroup, ScrewHolding, pull_per_screw, screw_holding,
};
use crate::plane::strength::{PlateCheck, PlateStrip, StripLoad};

/// Thread assumed in wood at the least, metres, so that a screw shorter than the skin is judged
/// as holding next to nothing instead of being refused.
const LEAST_THREAD_M: f64 = 1e-4;

/// Plate and screws under one load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// The plate.
    pub plate: PlateCheck,
    /// The screws.
    pub screws: Screws,
}

/// Screws of the hinge and of one upper bracket: pulling out only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screws {
    /// Pull on each hinge screw.
    pub hinge_pull: Force,
    /// What each hinge screw holds.
    pub hinge_holding: ScrewHolding,
    /// Pull on each bracket screw.
    pub bracket_pull: Force,
    /// What each bracket screw holds.
    pub bracket_holding: ScrewHolding,
}

impl Screws {
    /// Safe holding over pull of the weaker of the two rows; `None` where it is not covered.
    #[must_use]
    pub fn spare(&self) -> Option<f64> {
        let share = |holding: ScrewHolding, pull: Force| match holding {
            ScrewHolding::Covered { safe, .. } => Some(safe.get::<newton>() / pull.get::<newton>()),
            ScrewHolding::NotCovered { .. } => None,
        };
        let hinge = share(self.hinge_holding, self.hinge_pull)?;
        let bracket = share(self.bracket_holding, self.bracket_pull)?;
        Some(hinge.min(bracket))
    }

    /// Whether both rows hold safely; `None` where it is not covered.
    #[must_use]
    pub fn enough(&self) -> Option<bool> {
        self.spare().map(|spare| spare >= 1.0)
    }
}

impl Ready<'_> {
    pub(super) fn plate_factor(&self) -> f64 {
        self.settings.plate_factor.unwrap_or_else(|| self.part.material.default_factor())
    }

    /// Plate and screws under a load on one plane at a deflection.
    pub(super) fn bearing(
        &self,
        load: &PlateLoad,
        deflection: Angle,
    ) -> Result<Bearing, AssessError> {
        Ok(Bearing { plate: self.plate(load)?, screws: self.screws(load, deflection)? })
    }

    /// The plate under the load spread evenly over it. With two actuators at the quarter points
    /// each carries its half as one carries a whole plate: between them the bending amidships is
    /// nil and that over each bracket the same (statics of an evenly loaded beam).
    fn plate(&self, load: &PlateLoad) -> Result<PlateCheck, AssessError> {
        let part = self.part;
        let strip = PlateStrip {
            chord: part.chord,
            span: part.span / f64::from(part.actuators),
            pin_distance: part.linkage.lower_pin_aft,
            thickness: part.thickness,
        };
        let pressure = load.force / (part.chord * part.span);
        let loaded = StripLoad::new(&strip, pressure)?;
        Ok(loaded.check(&part.material, part.support, self.plate_factor())?)
    }

    fn screws(&self, load: &PlateLoad, deflection: Angle) -> Result<Screws, AssessError> {
        let centre = load.centre_aft_of_hinge().unwrap_or(self.part.chord / 2.0);
        let hinge = self.linkage.hinge_reaction(load.force, centre, deflection)?;
        Ok(Screws {
            hinge_pull: self.hinge_pull(&hinge)?,
            hinge_holding: self
                .holding(self.part.hinge_screws.diameter, self.part.hinge_screws.length)?,
            bracket_pull: self.bracket_pull(load.force, &hinge, deflection)?,
            bracket_holding: self
                .holding(self.part.bracket_screws.diameter, self.part.bracket_screws.length)?,
        })
    }

    fn holding(&self, diameter: Length, length: Length) -> Result<ScrewHolding, AssessError> {
        let settings = self.settings;
        let thread = (length - settings.not_in_wood).max(Length::new::<meter>(LEAST_THREAD_M));
        let screw = Screw { diameter, thread_in_wood: thread };
        let (factor, wet) = (settings.withdrawal_factor, settings.wet_factor);
        Ok(screw_holding(&screw, settings.transom_material, factor, wet)?)
    }

    /// Pull on each hinge screw. The hinge pulls at the lower edge of the leaf, below the row of
    /// screws, and the leaf pries about its upper edge: a pull off the transom counts
    /// leaf height/(leaf height − row height) times. Derived here: moments about the upper edge.
    pub(super) fn hinge_pull(&self, hinge: &HingeReaction) -> Result<Force, AssessError> {
        let screws = &self.part.hinge_screws;
        let arm = (screws.leaf_height - screws.row_height).max(screws.diameter / 2.0);
        let group =
            ScrewGroup { count: screws.count, pin_offset: screws.pin_offset, prying_arm: arm };
        let leverage = (screws.leaf_height / arm).value;
        Ok(pull_per_screw(&group, hinge.off_transom * leverage, hinge.along_transom)?)
    }

    /// Force of one actuator on its upper bracket, off the transom and up along it: what the
    /// load and the hinge leave for it.
    pub(super) fn bracket_force(
        &self,
        load: Force,
        hinge: &HingeReaction,
        deflection: Angle,
    ) -> (Force, Force) {
        let (sin, cos) = (deflection.sin().value, deflection.cos().value);
        let share = 1.0 / f64::from(self.part.actuators);
        let (aft, up) = ((load * sin - hinge.aft) * share, (load * cos - hinge.up) * share);
        let rake = self.dimensions.transom_rake;
        let (rake_sin, rake_cos) = (rake.sin().value, rake.cos().value);
        (aft * rake_cos - up * rake_sin, aft * rake_sin + up * rake_cos)
    }

    /// Pull on each screw of one upper bracket: the actuator presses it on and up, and the push
    /// up the transom pries by the stand-off of the pin.
    fn bracket_pull(
        &self,
        load: Force,
        hinge: &HingeReaction,
        deflection: Angle,
    ) -> Result<Force, AssessError> {
        let (off, along) = self.bracket_force(load, hinge, deflection);
        let screws = &self.part.bracket_screws;
        let group = ScrewGroup {
            count: screws.count,
            pin_offset: self.part.linkage.upper_pin_stand_off,
            prying_arm: screws.half_height(),
        };
        Ok(pull_per_screw(&group, off, along)?)
    }
}
