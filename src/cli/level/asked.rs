//! What is asked of `level`, read from words such as "90 kg at 0.8 m to port".

use uom::si::f64::{Angle, Length, Mass};

use crate::boat::{ListCause, Measure, Side};
use crate::cli::arguments::within_bounds;
use crate::units::{parse_angle, parse_length, parse_mass, parse_torque};

/// A plane that does not move, as asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct StuckChoice {
    pub side: Side,
    /// None for fully down, which the boat knows.
    pub deflection: Option<Angle>,
}

/// Reads `--off-centre`: "90 kg at 0.8 m", to starboard; "90 kg at 0.8 m to port".
pub(super) fn off_centre(text: &str) -> Result<ListCause, String> {
    let wanted = "write for example \"90 kg at 0.8 m\", or \"90 kg at 0.8 m to port\"";
    let (mass, place) = text.split_once(" at ").ok_or_else(|| wanted.to_owned())?;
    let (place, sign) = match place.trim().rsplit_once(" to ") {
        None => (place.trim(), 1.0),
        Some((place, "starboard")) => (place, 1.0),
        Some((place, "port")) => (place, -1.0),
        Some((_, other)) => return Err(format!("\"{other}\" is no side; {wanted}")),
    };
    let mass: Mass = parse_mass(mass).map_err(|error| error.one_line())?;
    let distance: Length = parse_length(place).map_err(|error| error.one_line())? * sign;
    within_bounds("duty.mass", Measure::Mass(mass))?;
    within_bounds("duty.distance", Measure::Length(distance))?;
    Ok(ListCause::OffCentre { mass, distance })
}

/// Reads `--moment`: "700 N m", positive when it presses starboard down.
pub(super) fn moment(text: &str) -> Result<ListCause, String> {
    let moment = parse_torque(text).map_err(|error| error.one_line())?;
    within_bounds("duty.moment", Measure::Moment(moment))?;
    Ok(ListCause::Moment(moment))
}

/// Reads `--stuck`: "port up", "starboard down", "port at 8 deg".
pub(super) fn stuck(text: &str) -> Result<StuckChoice, String> {
    let wanted = "write for example \"port up\", \"port down\" or \"starboard at 8 deg\"";
    let (side, place) = text.trim().split_once(' ').ok_or_else(|| wanted.to_owned())?;
    let side = match side {
        "port" => Side::Port,
        "starboard" => Side::Starboard,
        other => return Err(format!("\"{other}\" is no side; {wanted}")),
    };
    let deflection = match place.trim() {
        "up" => Some(Angle::default()),
        "down" => None,
        place => {
            let angle = place.strip_prefix("at ").ok_or_else(|| wanted.to_owned())?;
            let angle = parse_angle(angle).map_err(|error| error.one_line())?;
            within_bounds("run.deflection", Measure::Angle(angle))?;
            Some(angle)
        }
    };
    Ok(StuckChoice { side, deflection })
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::{angle::degree, length::meter, mass::kilogram};

    #[test]
    fn regression_a_mass_off_the_centreline_is_read_with_its_side() {
        for (text, distance_m) in [
            ("90 kg at 0.8 m", 0.8),
            ("90 kg at 0.8 m to starboard", 0.8),
            ("90 kg at 800 mm to port", -0.8),
            ("90 kg at -0.8 m", -0.8),
        ] {
            let ListCause::OffCentre { mass, distance } = off_centre(text).unwrap() else {
                panic!("{text}")
            };
            assert!((mass.get::<kilogram>() - 90.0).abs() < 1e-9);
            assert!((distance.get::<meter>() - distance_m).abs() < 1e-12, "{text}");
        }
    }

    #[test]
    fn error_texts_say_what_to_write() {
        assert_eq!(
            off_centre("90 kg").unwrap_err(),
            "write for example \"90 kg at 0.8 m\", or \"90 kg at 0.8 m to port\""
        );
        assert_eq!(
            off_centre("90 kg at 0.8 m to larboard").unwrap_err(),
            "\"larboard\" is no side; write for example \"90 kg at 0.8 m\", or \"90 kg at 0.8 m to port\""
        );
        assert!(off_centre("90 kg at 12 m").unwrap_err().starts_with("12 m is outside -6 to 6 m"));
        assert_eq!(
            stuck("larboard up").unwrap_err(),
            "\"larboard\" is no side; write for example \"port up\", \"port down\" or \"starboard at 8 deg\""
        );
        assert_eq!(
            stuck("port half").unwrap_err(),
            "write for example \"port up\", \"port down\" or \"starboard at 8 deg\""
        );
    }

    #[test]
    fn regression_a_stuck_plane_is_up_down_or_somewhere() {
        assert_eq!(stuck("port up").unwrap().deflection, Some(Angle::default()));
        assert_eq!(stuck("starboard down").unwrap().deflection, None);
        let somewhere = stuck("port at 8 deg").unwrap().deflection.unwrap();
        assert!((somewhere.get::<degree>() - 8.0).abs() < 1e-12);
    }
}
