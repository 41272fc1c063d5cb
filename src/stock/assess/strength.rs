//! Plate and screws of a part under a load on its plane.

use uom::si::f64::Angle;

use super::fastenings::Screws;
use super::{AssessError, Ready};
use crate::plane::hinge::PlateLoad;
use crate::plane::strength::{PlateCheck, PlateStrip, StripLoad};

/// Plate and screws under one load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// The plate.
    pub plate: PlateCheck,
    /// The screws.
    pub screws: Screws,
}

impl Ready<'_> {
    pub(super) fn plate_factor(&self) -> f64 {
        self.settings.plate_factor.unwrap_or_else(|| self.gear.material.default_factor())
    }

    /// Plate and screws under a load on one plane at a deflection.
    pub(super) fn bearing(
        &self,
        load: &PlateLoad,
        deflection: Angle,
    ) -> Result<Bearing, AssessError> {
        let screws = self.fastenings.screws(&self.linkage, self.settings, load, deflection)?;
        Ok(Bearing { plate: self.plate(load)?, screws })
    }

    /// The plate under the load spread evenly over it. With two actuators at the quarter points
    /// each carries its half as one carries a whole plate: between them the bending amidships is
    /// nil and that over each bracket the same (statics of an evenly loaded beam).
    fn plate(&self, load: &PlateLoad) -> Result<PlateCheck, AssessError> {
        let (part, gear) = (self.part, self.gear);
        let strip = PlateStrip {
            chord: part.chord,
            span: part.span / f64::from(gear.actuators),
            pin_distance: gear.linkage.lower_pin_aft,
            thickness: gear.thickness,
        };
        let pressure = load.force / (part.chord * part.span);
        let loaded = StripLoad::new(&strip, pressure)?;
        Ok(loaded.check(&gear.material, gear.support, self.plate_factor())?)
    }
}
