//! What heels a boat besides weight off the centreline: wind and the torque of her propellers.

use uom::si::f64::{Force, Torque};
use uom::si::{
    angular_velocity::radian_per_second, area::square_meter, force::newton, power::watt,
    torque::newton_meter, velocity::meter_per_second,
};

use super::findings::Findings;
use crate::boat::keys::or_default;
use crate::boat::measure::plain_number;
use crate::boat::{DriveInput, Rotation, Side, Wind, WindInput};
use crate::physical::AIR_DENSITY_KG_M3;

/// Sideways force of the wind, ½ ρ_air V² C A.
pub(super) fn wind(findings: &mut Findings, given: &WindInput) -> Wind {
    let coefficient = or_default(given.drag_coefficient, "wind.drag_coefficient");
    findings.check_all("wind", given.measures());
    let speed_m_s = given.speed.get::<meter_per_second>();
    let area_m2 = given.side_area.get::<square_meter>();
    let push_n = 0.5 * AIR_DENSITY_KG_M3 * speed_m_s * speed_m_s * coefficient * area_m2;
    let to_starboard = match given.from {
        Some(Side::Starboard) => -1.0,
        Some(Side::Both) => 0.0,
        Some(Side::Port) | None => 1.0,
    };
    Wind { force: Force::new::<newton>(to_starboard * push_n), height: given.side_height }
}

/// The water's torque on the propellers at full power, P/ω, positive when it presses starboard down.
///
/// Engine, gear and propeller sit in the hull, so that only the water's torque
/// on the propeller is left: it opposes the turning. A right-handed propeller
/// presses the port side down. Derived here.
pub(super) fn propeller_torque(findings: &mut Findings, given: &DriveInput) -> Option<Torque> {
    let engines = whole(findings, "drive.engines", given.engines);
    let others = whole(findings, "drive.counter_rotating", given.counter_rotating);
    if others > engines {
        findings.fault(
            "drive.counter_rotating",
            format!("{} of {} engines", plain_number(others), plain_number(engines)),
            "give engines, and how many of them turn the other way".to_owned(),
        );
    }
    let rotation = given.rotation?;
    let (Some(power), Some(engine_speed)) = (given.power, given.engine_speed) else {
        let missing = if given.power.is_none() { "power" } else { "engine_speed" };
        findings.fault(
            "drive.rotation",
            format!("the torque of the propellers needs {missing} as well"),
            format!("give drive.{missing}, or delete drive.rotation"),
        );
        return None;
    };
    let down_to_starboard = match rotation {
        Rotation::Right => -1.0,
        Rotation::Left => 1.0,
    };
    let propeller_rad_s =
        engine_speed.get::<radian_per_second>() / or_default(given.gear_ratio, "drive.gear_ratio");
    let net_share = (engines - 2.0 * others) / engines;
    let torque_n_m = power.get::<watt>() / propeller_rad_s;
    Some(Torque::new::<newton_meter>(down_to_starboard * net_share * torque_n_m))
}

/// A count, or what stands for it when absent.
fn whole(findings: &mut Findings, key: &str, given: Option<f64>) -> f64 {
    let count = or_default(given, key);
    if count.fract() != 0.0 {
        findings.fault(
            key,
            format!("{} is not a whole number", plain_number(count)),
            "give a whole number, for example 2".to_owned(),
        );
    }
    count
}

#[cfg(test)]
mod tests {
    use crate::boat::Boat;
    use crate::input::parse_boat;
    use approx::assert_relative_eq;
    use uom::si::{force::newton, length::meter, torque::newton_meter};

    const BOAT: &str = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
        deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\n";

    fn boat(more: &str) -> Boat {
        parse_boat("b.toml", &format!("{BOAT}{more}")).expect("a possible boat").boat
    }

    fn refused(more: &str) -> String {
        let faults =
            parse_boat("b.toml", &format!("{BOAT}{more}")).expect_err("an impossible boat");
        let texts: Vec<String> = faults
            .faults()
            .iter()
            .map(|fault| format!("{}; {}", fault.problem, fault.help))
            .collect();
        texts.join("\n")
    }

    #[test]
    fn physics_the_torque_is_power_over_the_speed_of_the_propeller() {
        let torque = |more: &str| {
            let drive = format!("[drive]\npower = \"150 kW\"\nengine_speed = \"3000 rpm\"\n{more}");
            boat(&drive).drive().propeller_torque.map(|torque| torque.get::<newton_meter>())
        };
        // By hand: 150 kW at 314.159 rad/s.
        assert_relative_eq!(torque("rotation = \"left\"").unwrap(), 477.465, max_relative = 1e-5);
        assert_relative_eq!(
            torque("rotation = \"right\"\ngear_ratio = 2.0").unwrap(),
            -954.930,
            max_relative = 1e-5
        );
        assert_eq!(torque(""), None);
    }

    #[test]
    fn physics_the_wind_pushes_away_from_where_it_comes() {
        let wind = |from: &str| {
            let text = format!(
                "[wind]\nside_area = \"10 m^2\"\nside_height = \"1.2 m\"\nspeed = \"10 m/s\"\n{from}"
            );
            *boat(&text).wind().expect("there is wind")
        };
        // By hand: 1/2 x 1.225 x 100 x 10.
        assert_relative_eq!(wind("").force.get::<newton>(), 612.5, max_relative = 1e-12);
        assert_relative_eq!(wind("").height.get::<meter>(), 1.2);
        let from_starboard = wind("from = \"starboard\"\ndrag_coefficient = 0.5\n");
        assert_relative_eq!(from_starboard.force.get::<newton>(), -306.25, max_relative = 1e-12);
    }

    #[test]
    fn error_texts_of_what_heels_a_boat() {
        assert_eq!(
            refused("[drive]\npower = \"150 kW\"\nrotation = \"right\"\n"),
            "drive.rotation: the torque of the propellers needs engine_speed as well; \
             give drive.engine_speed, or delete drive.rotation"
        );
        assert_eq!(
            refused("[drive]\nengine_speed = \"3000 rpm\"\nrotation = \"right\"\n"),
            "drive.rotation: the torque of the propellers needs power as well; \
             give drive.power, or delete drive.rotation"
        );
        assert_eq!(
            refused("[drive]\nengines = 1.5\n"),
            "drive.engines: 1.5 is not a whole number; give a whole number, for example 2"
        );
        assert_eq!(
            refused("[drive]\nengines = 2\ncounter_rotating = 3\n"),
            "drive.counter_rotating: 3 of 2 engines; give engines, and how many of them turn the other way"
        );
        assert_eq!(
            refused(
                "[wind]\nside_area = \"10 m^2\"\nside_height = \"1.2 m\"\nspeed = \"90 m/s\"\n"
            ),
            "wind.speed: 90 m/s is outside 0 to 50 m/s; \
             speed of the wind across the boat; for example \"15 kn\""
        );
        assert_eq!(
            refused("[drive]\nengine_speed = \"3000\"\n"),
            "drive.engine_speed: `3000` has no unit; write for example `3000 rpm`; \
             a speed of rotation is a number with rpm or rad/s"
        );
    }
}
