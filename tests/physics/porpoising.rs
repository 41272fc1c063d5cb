//! Which load the porpoising curves are entered with.

use approx::assert_relative_eq;
use planewright::hydro::porpoising::PorpoisingLimit;
use uom::si::{
    angle::degree, force::newton, mass_density::kilogram_per_cubic_meter,
    velocity::meter_per_second,
};

use crate::boats::{CABIN_BOAT, running};

/// C_L may be read as the load that the hull carries, (Δ − ΔL)/(q b²), or as the whole weight, Δ/(q b²).
///
/// The hull's own load is chosen: the curves were measured on bare bottoms,
/// where the two are the same, and what the planes carry does not press on the
/// bottom. It is also the careful reading, since less load lowers the limit. On
/// the cabin boat at 25 kn with 5° of planes, which carry 22 % of her, the limit
/// so read is 3.5°; with the whole weight it would be 4.1°, 0.6° higher. The
/// planes take 1.1° off her trim, so that they keep her from porpoising by
/// either reading.
#[test]
fn physics_the_porpoising_limit_is_that_of_the_load_on_the_hull() {
    let boat = CABIN_BOAT.boat();
    let weight_n = boat.weight().force().get::<newton>();
    let at = |deflection_deg: f64| {
        let point = CABIN_BOAT.point(25.0, deflection_deg);
        let running = running(&point);
        let speed_m_s = point.speed.get::<meter_per_second>();
        let density = boat.water().density.get::<kilogram_per_cubic_meter>();
        let area_pressure_n =
            0.5 * density * speed_m_s * speed_m_s * CABIN_BOAT.beam_m * CABIN_BOAT.beam_m;
        let hull_n = weight_n - running.plane_lift.get::<newton>();
        let [hull_deg, whole_deg] = [hull_n, weight_n].map(|load_n| {
            PorpoisingLimit::at(load_n / area_pressure_n, CABIN_BOAT.deadrise_deg).lower_deg()
        });
        assert_relative_eq!(running.porpoising.lower_deg(), hull_deg, max_relative = 1e-12);
        let trim_deg = running.trim.get::<degree>();
        let margin_deg = running.porpoising_margin().get::<degree>();
        assert_relative_eq!(margin_deg, hull_deg - trim_deg, epsilon = 1e-12);
        (hull_deg, whole_deg, trim_deg)
    };
    let (bare_hull_deg, bare_whole_deg, bare_trim_deg) = at(0.0);
    assert_relative_eq!(bare_hull_deg, bare_whole_deg, max_relative = 1e-12);
    let (hull_deg, whole_deg, trim_deg) = at(5.0);
    // The limit falls with what the planes carry, the trim by more.
    let limit_falls_deg = whole_deg - hull_deg;
    assert!((0.2..0.6).contains(&limit_falls_deg), "{limit_falls_deg}");
    assert!(bare_trim_deg - trim_deg > limit_falls_deg + 0.3, "{bare_trim_deg} {trim_deg}");
}
