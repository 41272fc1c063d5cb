//! What the drive asks of the distance of planes off the centreline.
//!
//! A plane ahead of a propeller must not send the water that it has slowed and mixed with air into
//! the disc. So its inner end stays outside the disc of the outermost outboard or leg, and by so
//! much more as that water spreads inward on its way. Shafts and pods push from ahead of the
//! transom: no water of a plane reaches them, and planes run above their race as usual.

use uom::si::angular_velocity::revolution_per_minute;
use uom::si::f64::{AngularVelocity, Length, Power};
use uom::si::length::{inch, meter};
use uom::si::power::watt;

use crate::boat::input::{DriveInput, DriveKind};
use crate::units::factor::W_PER_HORSEPOWER;

/// How far water spreads sideways behind the end of a plane, as a share of the way: about 5 deg;
/// chosen here, no source.
const SPREAD: f64 = 0.08;
/// Way from the hinge to the propeller of a leg or an outboard, metres; common practice, no source.
const WAY_TO_LEG_M: f64 = 0.5;
/// Shaft lines stand this many propeller diameters apart where nobody says so; common practice, no
/// source.
const SPACING_DIAMETERS: f64 = 2.0;

/// How far off the centreline, level, planes keep clear of the drive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClearOfDrive {
    /// Outermost shaft line off the centreline.
    pub shaft: Length,
    /// Diameter of the propeller.
    pub propeller: Length,
    /// Whether that diameter is estimated.
    pub is_estimated: bool,
    /// Whether one engine on the centreline is taken, since the file does not count them.
    pub is_one_assumed: bool,
    /// What is kept beyond the disc.
    pub beside: Length,
}

impl ClearOfDrive {
    /// What outboards and legs ask; none where neither propeller nor power is given, where the kind is
    /// not known, and for drives whose propellers stand ahead of the planes or that have none.
    #[must_use]
    pub fn of(drive: &DriveInput) -> Option<Self> {
        let usual_rpm = match drive.kind? {
            DriveKind::Outboard => 2900.0,
            DriveKind::Sterndrive => 2500.0,
            DriveKind::Shaft | DriveKind::Pod | DriveKind::Jet => return None,
        };
        let engines = drive.engines.unwrap_or(1.0).max(1.0);
        let estimated =
            || Some(propeller_diameter(drive.power? / engines, shaft_speed(drive, usual_rpm)));
        let propeller = drive.propeller_diameter.or_else(estimated)?;
        let spacing = drive.spacing.unwrap_or(propeller * SPACING_DIAMETERS);
        Some(Self {
            shaft: spacing * (0.5 * (engines - 1.0)),
            propeller,
            is_estimated: drive.propeller_diameter.is_none(),
            is_one_assumed: drive.engines.is_none(),
            beside: Length::new::<meter>(SPREAD * WAY_TO_LEG_M),
        })
    }

    /// From the centreline to the inner end of a plane, level.
    #[must_use]
    pub fn off_centre(&self) -> Length {
        self.shaft + 0.5 * self.propeller + self.beside
    }
}

/// Speed of the propeller at full power: that of the file, else the usual one of its kind (common
/// practice, no source).
fn shaft_speed(drive: &DriveInput, usual_rpm: f64) -> AngularVelocity {
    let usual = AngularVelocity::new::<revolution_per_minute>(usual_rpm);
    drive.engine_speed.map_or(usual, |speed| speed / drive.gear_ratio.unwrap_or(1.0))
}

/// Diameter of a propeller for a power at a speed of its shaft: 632.7 hp^0.2/rpm^0.6 inches
/// (D. Gerr, *Propeller Handbook*, 1989, from memory); a planing boat's own is within a tenth of it.
#[must_use]
pub fn propeller_diameter(power: Power, shaft_speed: AngularVelocity) -> Length {
    let horsepower = power.get::<watt>() / W_PER_HORSEPOWER;
    let rpm = shaft_speed.get::<revolution_per_minute>();
    Length::new::<inch>(632.7 * horsepower.powf(0.2) / rpm.powf(0.6))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use uom::si::power::kilowatt;

    fn drive(kind: DriveKind, power_kw: f64, engines: f64) -> DriveInput {
        DriveInput {
            kind: Some(kind),
            power: Some(Power::new::<kilowatt>(power_kw)),
            engines: Some(engines),
            ..DriveInput::default()
        }
    }

    #[test]
    fn practice_propellers_come_out_as_they_are_sold() {
        // Common practice, no source: 14 to 16 in on outboards of 200 hp, 13 to 14.5 in on those of 100 hp.
        let inches = |kind, power_kw| {
            let found = ClearOfDrive::of(&drive(kind, power_kw, 1.0)).expect("a propeller");
            found.propeller.get::<inch>()
        };
        assert!((14.0..16.0).contains(&inches(DriveKind::Outboard, 149.0)));
        assert!((13.0..14.5).contains(&inches(DriveKind::Outboard, 74.6)));
    }

    #[test]
    fn physics_the_outermost_disc_stays_clear() {
        let mut twin = drive(DriveKind::Sterndrive, 300.0, 2.0);
        twin.propeller_diameter = Some(Length::new::<meter>(0.4));
        twin.spacing = Some(Length::new::<meter>(0.9));
        let found = ClearOfDrive::of(&twin).expect("a propeller");
        // By hand: 0.45 to the shaft, 0.20 of disc, 0.08 of 0.5 m.
        assert_relative_eq!(found.off_centre().get::<meter>(), 0.69, max_relative = 1e-12);
        assert!(!found.is_estimated);
        twin.engines = Some(3.0);
        let found = ClearOfDrive::of(&twin).expect("a propeller");
        assert_relative_eq!(found.off_centre().get::<meter>(), 1.14, max_relative = 1e-12);
        for ahead in [DriveKind::Shaft, DriveKind::Pod, DriveKind::Jet] {
            assert_eq!(ClearOfDrive::of(&drive(ahead, 300.0, 2.0)), None);
        }
        assert_eq!(ClearOfDrive::of(&DriveInput::default()), None);
    }
}
