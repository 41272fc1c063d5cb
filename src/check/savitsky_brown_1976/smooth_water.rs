//! Where she settles without flap: the concurrent case of 1964.

use uom::si::angle::degree;
use uom::si::f64::Angle;
use uom::si::force::newton;

use super::boat::{CASE, Example, Given, Printed};
use super::{Case, CheckError, Comparison, HALF_TENTH_DEG, SOURCE, Tolerance};
use crate::balance::{Balance, Method, Running, Settings};
use crate::hydro::friction::schoenherr;
use crate::hydro::lift;
use crate::units::factor::{M_PER_FOOT, M_S_PER_KNOT, N_PER_POUND_FORCE};

/// Half of the last digit printed, and of that of the speed in knots.
const SPEED_COEFFICIENT: Tolerance = Tolerance::Absolute(0.008);
/// Half of the last digit printed.
const LIFT_COEFFICIENT: Tolerance = Tolerance::Absolute(0.005);
/// Half of the last digit of a reading off a nomograph.
const TRIM: Tolerance = Tolerance::Absolute(HALF_TENTH_DEG);
/// Half of the last digit printed.
const WETTED_LENGTH: Tolerance = Tolerance::Absolute(0.05);
/// Half of the last digit of a resistance printed to 100 lbf.
const HALF_DIGIT_LBF: f64 = 50.0;

const NOMOGRAPH: &str = "The authors read it off a nomograph, to 0.1 deg.";
const FULL_SPEED: &str = "As the paper does: weight x tan(trim), and friction at the boat's own speed over the mean wetted length. Tolerance: \
    half of the last digit, and weight x half of the last digit of the trim.";
const BOTTOM_SPEED: &str = "The concurrent case of 1964, as the program computes it: friction at the mean speed of the water along the bottom, \
    which is 1 to 2 % less than the boat's. That is the whole difference.";

pub(super) fn comparisons(example: &Example) -> Result<Vec<Comparison>, CheckError> {
    let bare = example.printed.iter().filter(|row| row.flap_deg == 0.0);
    let rows = bare.map(|row| of_row(example, row)).collect::<Result<Vec<_>, _>>()?;
    Ok(rows.into_iter().flatten().collect())
}

fn of_row(example: &Example, row: &Printed) -> Result<[Comparison; 7], CheckError> {
    let given = &example.given;
    let running = run(example, row)?;
    let trim_deg = running.trim.get::<degree>();
    let lift_coefficient = given.displacement_lbf / given.area_pressure_lbf(row.speed_kn);
    let flat_plate =
        lift::without_deadrise(lift_coefficient, given.deadrise_deg).unwrap_or(f64::NAN);
    let speed_coefficient =
        crate::hydro::speed_coefficient(row.speed(), example.boat.hull().chine_beam);
    let weight_lbf = given.displacement_lbf;
    let by_trim = HALF_DIGIT_LBF + weight_lbf * HALF_TENTH_DEG.to_radians();
    let by_trim = Tolerance::Absolute(by_trim);
    let at_full_speed = resistance_at_full_speed_lbf(given, row.speed_kn, &running);
    let own = running.resistance.get::<newton>() / N_PER_POUND_FORCE;
    let case = Case::new(SOURCE, format!("{} kn, bare", row.speed_kn));
    let of = |name, unit, values, tolerance| case.compare(name, unit, values, tolerance);
    let speed = [row.speed_coefficient, speed_coefficient];
    let lift = [row.lift_coefficient, lift_coefficient];
    let flat_plate = [row.flat_plate_lift_coefficient, flat_plate];
    let length = [row.wetted_length_ratio, running.wetted_length_ratio];
    Ok([
        of("speed coefficient", "", speed, SPEED_COEFFICIENT),
        of("lift coefficient", "", lift, LIFT_COEFFICIENT),
        of("flat-plate lift coefficient", "", flat_plate, LIFT_COEFFICIENT),
        of("running trim", "deg", [row.trim_deg, trim_deg], TRIM).with_note(NOMOGRAPH),
        of("wetted length / beam", "", length, WETTED_LENGTH),
        of("resistance", "lbf", [row.resistance_lbf, at_full_speed], by_trim).with_note(FULL_SPEED),
        of("resistance, 1964", "lbf", [row.resistance_lbf, own], by_trim)
            .with_note(BOTTOM_SPEED)
            .for_information(),
    ])
}

fn run(example: &Example, row: &Printed) -> Result<Running, CheckError> {
    let settings = Settings::as_printed(Method::Concurrent1964);
    let point = Balance::of(&example.boat, &settings)
        .point(row.speed(), Angle::new::<degree>(0.0))
        .map_err(|fault| CheckError::Boat { case: CASE, faults: fault.into() })?;
    point.running.ok_or(CheckError::NotRunning { case: CASE, outcome: point.outcome })
}

/// Δ tan τ + ½ρV² λ b² C_f/(cos β cos τ), with the Reynolds number of the boat's speed and λ b.
fn resistance_at_full_speed_lbf(given: &Given, speed_kn: f64, running: &Running) -> f64 {
    let (sin, cos) = running.trim.sin_cos();
    let lambda = running.wetted_length_ratio;
    let speed_ft_s = speed_kn * M_S_PER_KNOT / M_PER_FOOT;
    let reynolds = speed_ft_s * lambda * given.beam_ft / given.kinematic_viscosity_ft2_s;
    let coefficient = schoenherr(reynolds).unwrap_or(f64::NAN);
    let friction_lbf = given.area_pressure_lbf(speed_kn) * lambda * coefficient
        / given.deadrise_deg.to_radians().cos();
    given.displacement_lbf * (sin / cos).value + friction_lbf / cos.value
}
