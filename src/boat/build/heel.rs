//! What heels a boat besides weight off the centreline: wind and the torque of her propellers.

use uom::si::f64::{Force, Torque};
use uom::si::{
    angular_velocity::radian_per_second, area::square_meter, force::newton, power::watt,
    torque::newton_meter, velocity::meter_per_second,
};

use super::desk::Desk;
use crate::boat::measure::plain_number;
use crate::boat::{DriveInput, Measure, Rotation, Side, Wind, WindInput};
use crate::physical::AIR_DENSITY_KG_M3;

/// Drag coefficient of hull and superstructure with the wind from the side; common practice, no source.
const SIDE_DRAG_COEFFICIENT: f64 = 1.0;

/// Sideways force of the wind, ½ ρ_air V² C A.
pub(super) fn wind(desk: &mut Desk, given: &WindInput) -> Wind {
    let coefficient = given.drag_coefficient.unwrap_or(SIDE_DRAG_COEFFICIENT);
    desk.check("wind.side_area", Measure::Area(given.side_area));
    desk.check("wind.side_height", Measure::Length(given.side_height));
    desk.check("wind.drag_coefficient", Measure::Number(coefficient));
    desk.check("wind.speed", Measure::Speed(given.speed));
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
pub(super) fn propeller_torque(desk: &mut Desk, given: &DriveInput) -> Option<Torque> {
    desk.check_if("drive.engine_speed", given.engine_speed.map(Measure::RotationSpeed));
    desk.check_if("drive.gear_ratio", given.gear_ratio.map(Measure::Number));
    let engines = whole(desk, "drive.engines", given.engines, 1.0);
    let others = whole(desk, "drive.counter_rotating", given.counter_rotating, 0.0);
    if others > engines {
        desk.fault(
            "drive.counter_rotating",
            format!("{} of {} engines", plain_number(others), plain_number(engines)),
            "give engines, and how many of them turn the other way".to_owned(),
        );
    }
    let rotation = given.rotation?;
    let (Some(power), Some(engine_speed)) = (given.power, given.engine_speed) else {
        let missing = if given.power.is_none() { "power" } else { "engine_speed" };
        desk.fault(
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
    let propeller_rad_s = engine_speed.get::<radian_per_second>() / given.gear_ratio.unwrap_or(1.0);
    let net_share = (engines - 2.0 * others) / engines;
    let torque_n_m = power.get::<watt>() / propeller_rad_s;
    Some(Torque::new::<newton_meter>(down_to_starboard * net_share * torque_n_m))
}

/// A count, or what stands for it when absent.
fn whole(desk: &mut Desk, key: &str, given: Option<f64>, absent: f64) -> f64 {
    let Some(count) = given else { return absent };
    desk.check(key, Measure::Number(count));
    if count.fract() != 0.0 {
        desk.fault(
            key,
            format!("{} is not a whole number", plain_number(count)),
            "give a whole number, for example 2".to_owned(),
        );
    }
    count
}
