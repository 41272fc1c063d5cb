//! The free alternative: trimming an outboard engine or a leg in or out.
//!
//! Turning the drive turns the thrust: trimmed in, the thrust pushes the stern
//! up and the bow down, as planes do, without their drag. The thrust line keeps
//! its height at the transom, so that with its angle its distance from the
//! centre of gravity changes too. Only the turned thrust is counted: a leg and
//! a propeller in a slanting flow lift as well, so that a drive does more than
//! this; what a propeller close to the surface loses is not counted either.

use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use crate::balance::sweep::sweep;
use crate::balance::{Balance, Point, Settings};
use crate::boat::{Boat, DriveKind, Fault};

/// How far in drives usually go, degrees of drive trim. Common practice, no source: the range of a drive stands in its papers.
pub const USUAL_MOST_IN_DEG: f64 = -6.0;

/// The boat with planes up and her drive at a trim.
#[derive(Clone, Debug, PartialEq)]
pub struct DriveTrimmed {
    /// Trim of the drive: propeller shaft to keel line, negative when trimmed in, which pushes the stern up.
    pub drive_trim: Angle,
    /// What she does at each speed.
    pub points: Vec<Point>,
}

/// The boat with her drive as it is set, and at each trim asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct DriveTrims {
    /// As the boat file sets it.
    pub as_set: DriveTrimmed,
    /// As asked for.
    pub asked: Vec<DriveTrimmed>,
    /// Degrees of running trim for one degree of drive trim, at each speed.
    pub per_degree: Vec<Option<f64>>,
}

impl DriveTrims {
    /// The drive at some trims, at each speed.
    ///
    /// # Errors
    /// As [`with_drive_at`].
    pub fn of(
        boat: &Boat,
        settings: &Settings,
        asked: &[Angle],
        speeds: &[Velocity],
    ) -> Result<Self, Fault> {
        let at = |&trim: &Angle| with_drive_at(boat, settings, trim, speeds);
        Ok(Self {
            as_set: at(&drive_trim_of(boat))?,
            asked: asked.iter().map(at).collect::<Result<_, _>>()?,
            per_degree: speeds
                .iter()
                .map(|&speed| trim_per_degree(boat, settings, speed))
                .collect::<Result<_, _>>()?,
        })
    }
}

/// Whether a boat's drive can be trimmed while she runs.
#[must_use]
pub fn can_be_trimmed(boat: &Boat) -> bool {
    matches!(boat.drive().kind, Some(DriveKind::Outboard | DriveKind::Sterndrive))
}

/// Trim of the drive as the boat file sets it: the thrust angle, counted the other way.
#[must_use]
pub fn drive_trim_of(boat: &Boat) -> Angle {
    -boat.drive().thrust_angle
}

/// The boat with planes up and her drive at a trim, at each speed.
///
/// # Errors
/// A [`Fault`] when the boat's drive cannot be trimmed, or stands where no
/// boat's can; else as [`Balance::point`].
pub fn with_drive_at(
    boat: &Boat,
    settings: &Settings,
    drive_trim: Angle,
    speeds: &[Velocity],
) -> Result<DriveTrimmed, Fault> {
    if !can_be_trimmed(boat) {
        return Err(Fault {
            key: "run.drive-trim".to_owned(),
            problem: "the boat has no drive that can be trimmed".to_owned(),
            remedy: "give drive.kind = \"outboard\" or \"sterndrive\", or leave the option out"
                .to_owned(),
        });
    }
    let turned = boat.with_thrust_angle(-drive_trim).map_err(Fault::from)?;
    let up = Angle::new::<degree>(0.0);
    let points = sweep(&Balance::of(&turned, settings), speeds, up)?;
    Ok(DriveTrimmed { drive_trim, points })
}

/// Degrees of running trim for one degree that the drive is trimmed out, planes up; none where she does not run.
///
/// A central difference over one degree to each side.
///
/// # Errors
/// As [`with_drive_at`].
pub fn trim_per_degree(
    boat: &Boat,
    settings: &Settings,
    speed: Velocity,
) -> Result<Option<f64>, Fault> {
    debug_assert!(speed.get::<meter_per_second>() > 0.0);
    let one = Angle::new::<degree>(1.0);
    let trim = |drive_trim: Angle| -> Result<Option<f64>, Fault> {
        let trimmed = with_drive_at(boat, settings, drive_trim, &[speed])?;
        Ok(trimmed.points[0].running.map(|running| running.trim.get::<degree>()))
    };
    let set = drive_trim_of(boat);
    let [inward, outward] = [trim(set - one)?, trim(set + one)?];
    Ok(outward.zip(inward).map(|(outward, inward)| 0.5 * (outward - inward)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::parse_boat;
    use approx::assert_relative_eq;
    use uom::si::length::meter;
    use uom::si::velocity::knot;

    fn boat(kind: &str, thrust_deg: f64) -> Boat {
        let text = format!(
            "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n\
             [weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\nvcg = \"0.75 m\"\n\
             [drive]\nkind = \"{kind}\"\ntop_speed = \"32 kn\"\nthrust_angle = \"{thrust_deg} deg\"\n\
             thrust_height = \"-0.18 m\"\n"
        );
        parse_boat("invented", &text).unwrap().boat
    }

    fn degrees(value: f64) -> Angle {
        Angle::new::<degree>(value)
    }

    fn trims_deg(boat: &Boat, drive_trim_deg: f64) -> Vec<f64> {
        let speeds = [14.0, 20.0, 28.0].map(Velocity::new::<knot>);
        let settings = Settings::default();
        let trimmed = with_drive_at(boat, &settings, degrees(drive_trim_deg), &speeds).unwrap();
        trimmed.points.iter().map(|p| p.running.unwrap().trim.get::<degree>()).collect()
    }

    #[test]
    fn physics_trimming_in_brings_the_bow_down() {
        let boat = boat("outboard", 0.0);
        for pair in [[-6.0, -3.0], [-3.0, 0.0], [0.0, 4.0]] {
            let [inward, outward] = pair.map(|deg| trims_deg(&boat, deg));
            assert!(inward.iter().zip(&outward).all(|(i, o)| i < o), "{inward:?} {outward:?}");
        }
    }

    /// A boat file with that thrust angle and the same height at the transom is the same boat.
    #[test]
    fn physics_turning_the_drive_is_the_same_as_giving_the_angle() {
        let turned = boat("sterndrive", 0.0).with_thrust_angle(degrees(5.0)).unwrap();
        let given = boat("sterndrive", 5.0);
        let offset = |boat: &Boat| boat.drive().thrust_offset.get::<meter>();
        assert_relative_eq!(offset(&turned), offset(&given), max_relative = 1e-12);
        // The distance of the centre of gravity from a line through (0, -0.18) at 5 deg.
        let angle = 5_f64.to_radians();
        let by_hand = (0.75 + 0.18) * angle.cos() - 2.45 * angle.sin();
        assert_relative_eq!(offset(&given), by_hand, max_relative = 1e-12);
        assert_eq!(trims_deg(&boat("sterndrive", 0.0), -5.0), trims_deg(&given, -5.0));
    }

    #[test]
    fn physics_a_boat_given_by_thrust_offset_turns_about_the_same_point() {
        let by_height = boat("outboard", 3.0);
        let mut input = by_height.input().clone();
        let offset = by_height.drive().thrust_offset;
        input.drive.thrust_line = Some(crate::boat::ThrustLine::BelowCentreOfGravity(offset));
        let by_offset = Boat::build(input).unwrap();
        assert_relative_eq!(by_offset.thrust_height().get::<meter>(), -0.18, max_relative = 1e-9);
        let [a, b] = [&by_height, &by_offset].map(|boat| {
            boat.with_thrust_angle(degrees(-2.0)).unwrap().drive().thrust_offset.get::<meter>()
        });
        assert_relative_eq!(a, b, max_relative = 1e-9);
    }

    #[test]
    fn physics_the_slope_agrees_with_the_trims_beside_it() {
        let boat = boat("outboard", 0.0);
        let speed = Velocity::new::<knot>(20.0);
        let slope = trim_per_degree(&boat, &Settings::default(), speed).unwrap().unwrap();
        let [inward, outward] = [-0.5, 0.5].map(|deg| trims_deg(&boat, deg)[1]);
        assert!(slope > 0.0);
        assert_relative_eq!(slope, outward - inward, max_relative = 0.02);
    }

    #[test]
    fn error_a_shaft_cannot_be_trimmed() {
        let fault = with_drive_at(&boat("shaft", 8.0), &Settings::default(), degrees(-3.0), &[])
            .unwrap_err();
        assert_eq!(fault.to_string(), "run.drive-trim: the boat has no drive that can be trimmed");
        assert_eq!(
            fault.remedy,
            "give drive.kind = \"outboard\" or \"sterndrive\", or leave the option out"
        );
    }
}
