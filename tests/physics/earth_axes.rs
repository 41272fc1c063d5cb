//! All forces built again in earth axes, from the inputs and the few numbers that a point reports. Derived here.

use planewright::balance::{Balance, LiftModel, Method, Point, Running, Settings};
use planewright::boat::Boat;
use planewright::hydro::friction::FrictionLine;
use uom::si::f64::Angle;
use uom::si::{
    angle::degree, area::square_meter, force::newton, length::meter,
    mass_density::kilogram_per_cubic_meter, velocity::meter_per_second,
};

use crate::boats::{self, ALL, running};

/// Forward and up, in the vertical plane of the keel.
type Vector = [f64; 2];

/// A force and where it acts.
struct Load {
    force_n: Vector,
    at_m: Vector,
}

/// Boat axes (along the keel from the transom, normal to it) turned bow up into earth axes.
fn turned([along, normal]: Vector, trim_rad: f64) -> Vector {
    let axis = |angle_rad: f64| [angle_rad.cos(), angle_rad.sin()];
    let (keel, mast) = (axis(trim_rad), axis(trim_rad + std::f64::consts::FRAC_PI_2));
    [along * keel[0] + normal * mast[0], along * keel[1] + normal * mast[1]]
}

/// Nose-down moment of loads about a point.
fn moment_n_m(loads: &[Load], about_m: Vector) -> f64 {
    loads
        .iter()
        .map(|load| {
            let arm_m = [load.at_m[0] - about_m[0], load.at_m[1] - about_m[1]];
            arm_m[1] * load.force_n[0] - arm_m[0] * load.force_n[1]
        })
        .sum()
}

/// A load whose force is given in earth axes, and its place in boat axes.
fn in_earth(force_n: Vector, at_m: Vector, trim_rad: f64) -> Load {
    Load { force_n, at_m: turned(at_m, trim_rad) }
}

/// A load given in boat axes.
fn in_boat(force_n: Vector, at_m: Vector, trim_rad: f64) -> Load {
    in_earth(turned(force_n, trim_rad), at_m, trim_rad)
}

/// Lift on q b² and where it acts, over the mean wetted length: Savitsky (1964), equations 15, 16 and 20.
fn savitsky_1964(boat: &Boat, running: &Running, cv_squared: f64) -> [f64; 2] {
    let lambda = running.wetted_length_ratio;
    let flat = running.trim.get::<degree>().powf(1.1)
        * (0.012 * lambda.sqrt() + 0.0055 * lambda.powf(2.5) / cv_squared);
    let lift = flat - 0.0065 * boat.hull().deadrise.get::<degree>() * flat.powf(0.6);
    [lift, 0.75 - 1.0 / (5.21 * cv_squared / (lambda * lambda) + 2.39)]
}

/// The same by Shuford (1958) with Brown's static term, from memory.
fn shuford_1958(boat: &Boat, running: &Running, cv_squared: f64) -> [f64; 2] {
    let lambda = running.wetted_length_ratio;
    let (trim, deadrise) = (running.trim.value, boat.hull().deadrise.value);
    let wing = std::f64::consts::FRAC_PI_2 * trim * trim.cos().powi(2) * (1.0 - deadrise.sin());
    let linear = wing * lambda / (1.0 + lambda);
    let cross = 4.0 / 3.0 * lambda * trim.sin().powi(2) * trim.cos().powi(3) * deadrise.cos();
    let wedge = 0.1 * std::f64::consts::PI * (2.0 * trim).sin() * lambda * lambda / cv_squared;
    let lift = linear + cross + wedge;
    [lift, (0.75 * linear + 0.5 * cross + wedge / 3.0) / lift]
}

/// How far aft of the transom the planes' mean trailing edge lies: Savitsky & Brown (1976), after equation 7, with the
/// hinge a little above the bottom, and faded in over the first degree.
fn mean_edge_m(boat: &Boat, deflection: Angle) -> f64 {
    let Some(pair) = boat.planes() else { return 0.0 };
    let raised_m = boat.transom().hinge_height.get::<meter>();
    let dry_m = raised_m / deflection.value.tan();
    let wet_m = (pair.chord.get::<meter>() - dry_m).max(0.0);
    let both_m = 2.0 * pair.span.get::<meter>() * boat.hull().deadrise.value.cos();
    let bottom = 1.0 - (-deflection.get::<degree>()).exp();
    both_m / boat.hull().chine_beam.get::<meter>() * wet_m * bottom
}

/// Pressure and friction on the bottom; friction by Savitsky (1964), equations 21 to 25.
fn bottom(
    boat: &Boat,
    settings: &Settings,
    speed_m_s: f64,
    running: &Running,
    edge_m: f64,
) -> [Load; 2] {
    let beam_m = boat.hull().chine_beam.get::<meter>();
    let deadrise_rad = boat.hull().deadrise.value;
    let trim_rad = running.trim.value;
    let lambda = running.wetted_length_ratio;
    let density = boat.water().density.get::<kilogram_per_cubic_meter>();
    let area_pressure_n = 0.5 * density * speed_m_s * speed_m_s * beam_m * beam_m;
    let cv_squared = speed_m_s * speed_m_s / (9.80665 * beam_m);
    let [lift, at_share] = match settings.model {
        LiftModel::Savitsky1964 => savitsky_1964(boat, running, cv_squared),
        LiftModel::Shuford1958 => shuford_1958(boat, running, cv_squared),
    };
    let normal_n = lift * area_pressure_n / trim_rad.cos();
    let pressure_m = lambda * beam_m * at_share - edge_m;
    let friction_n = area_pressure_n * running.bottom_speed_ratio.powi(2) * lambda
        / deadrise_rad.cos()
        * (running.friction_coefficient + settings.correlation_allowance.unwrap_or(0.0004));
    let along_keel_n = friction_n + running.parts.spray.get::<newton>() / trim_rad.cos();
    [
        in_boat([0.0, normal_n], [pressure_m, 0.0], trim_rad),
        in_boat([-along_keel_n, 0.0], [0.0, 0.25 * beam_m * deadrise_rad.tan()], trim_rad),
    ]
}

/// Weight, and thrust at a point far out on its line: any will do.
fn weight_and_thrust(boat: &Boat, running: &Running) -> [Load; 2] {
    let trim_rad = running.trim.value;
    let centre = [boat.weight().lcg.get::<meter>(), boat.weight().vcg.get::<meter>()];
    let thrust_rad = boat.drive().thrust_angle.value;
    let offset_m = boat.drive().thrust_offset.get::<meter>();
    let thrust_at = [
        centre[0] + offset_m * thrust_rad.sin() - 7.0 * thrust_rad.cos(),
        centre[1] - offset_m * thrust_rad.cos() - 7.0 * thrust_rad.sin(),
    ];
    let thrust_n = running.thrust.get::<newton>();
    let thrust = [thrust_n * thrust_rad.cos(), thrust_n * thrust_rad.sin()];
    [
        in_earth([0.0, -boat.weight().force().get::<newton>()], centre, trim_rad),
        in_boat(thrust, thrust_at, trim_rad),
    ]
}

fn loads(boat: &Boat, settings: &Settings, point: &Point) -> Vec<Load> {
    let running = &running(point);
    let speed_m_s = point.speed.get::<meter_per_second>();
    let trim_rad = running.trim.value;
    let edge_m = mean_edge_m(boat, point.deflection);
    let mut loads = Vec::from(bottom(boat, settings, speed_m_s, running, edge_m));
    loads.extend(weight_and_thrust(boat, running));
    if boat.planes().is_some() {
        // The lift, and the pressure drag of it, about the mean trailing edge; the rest of the drag at the transom.
        let ahead_m = 0.6 * boat.hull().chine_beam.get::<meter>() - edge_m;
        let [lift_n, drag_n] =
            [running.plane_lift, running.plane_drag].map(|force| force.get::<newton>());
        let pressure_n = lift_n * trim_rad.tan();
        loads.push(in_earth([-pressure_n, lift_n], [ahead_m, 0.0], trim_rad));
        loads.push(in_earth([pressure_n - drag_n, 0.0], [0.0, 0.0], trim_rad));
    }
    let water_kg_m3 = boat.water().density.get::<kilogram_per_cubic_meter>();
    // Density of dry air at 15 °C and one atmosphere, ICAO standard atmosphere.
    for (drag, density) in [(boat.air(), 1.225), (boat.appendages(), water_kg_m3)] {
        if let Some(drag) = drag {
            let area_m2 = drag.drag_area.get::<square_meter>();
            let drag_n = 0.5 * density * speed_m_s * speed_m_s * area_m2;
            let at_m = [boat.weight().lcg.get::<meter>(), drag.height.get::<meter>()];
            loads.push(in_earth([-drag_n, 0.0], at_m, trim_rad));
        }
    }
    loads
}

#[test]
fn physics_forces_in_earth_axes_sum_to_zero_about_two_points() {
    LiftModel::ALL.into_iter().for_each(forces_sum_to_zero);
}

fn forces_sum_to_zero(model: LiftModel) {
    let mut balanced = 0;
    for sketch in ALL {
        let boat = sketch.boat();
        for (whisker_spray, friction_line) in
            [(false, FrictionLine::Ittc1957), (true, FrictionLine::Schoenherr)]
        {
            // The equations as printed, without the correction to the tanks.
            let method = Method::Full;
            let settings =
                Settings { method, model, whisker_spray, friction_line, ..Settings::default() };
            let balance = Balance::of(&boat, &settings);
            for speed_kn in [12.0, 16.0, 22.0, 30.0] {
                for deflection_deg in [0.0, 3.0, 8.0] {
                    let point = boats::point(&balance, speed_kn, deflection_deg);
                    if point.running.is_some() {
                        sums_to_zero(&boat, &settings, &point);
                        balanced += 1;
                    }
                }
            }
        }
    }
    assert!(balanced > 50, "{balanced}");
}

fn sums_to_zero(boat: &Boat, settings: &Settings, point: &Point) {
    let running = &running(point);
    let loads = loads(boat, settings, point);
    let weight_n = boat.weight().force().get::<newton>();
    let scale_n_m = weight_n * boat.hull().chine_beam.get::<meter>();
    let tolerance = 1e-9;
    for axis in [0, 1] {
        let sum_n: f64 = loads.iter().map(|load| load.force_n[axis]).sum();
        assert!(sum_n.abs() < tolerance * weight_n, "{axis}: {sum_n} N, {running:?}");
    }
    let centre_m = [boat.weight().lcg.get::<meter>(), boat.weight().vcg.get::<meter>()];
    for about_m in [turned(centre_m, running.trim.value), [0.0, 0.0]] {
        let moment_n_m = moment_n_m(&loads, about_m);
        assert!(moment_n_m.abs() < tolerance * scale_n_m, "{about_m:?}: {moment_n_m} N m");
    }
}
