//! Where she settles with the full-span flap down: the paper's one printed example with a plane.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::force::newton;
use uom::si::length::meter;

use super::boat::{CASE, Example, Printed};
use super::{Case, CheckError, Comparison, HALF_TENTH_DEG, SOURCE, Tolerance};
use crate::balance::{Balance, Method, Running, Settings};
use crate::boat::{Boat, PlanePair, TransomInput, WeightInput};
use crate::units::factor::{M_PER_FOOT, N_PER_POUND_FORCE};

/// Half of the last digit of a reading off a nomograph.
const TRIM: Tolerance = Tolerance::Absolute(HALF_TENTH_DEG);
/// Half of the last digit printed.
const WETTED_LENGTH: Tolerance = Tolerance::Absolute(0.05);
/// The trim read to 0.1° alone moves the resistance by 1 %; the paper takes the boat's own speed in the friction, which the program does not.
const RESISTANCE: Tolerance = Tolerance::Relative(0.015);
/// Half of the last digit of 10 100 lbf, and of the speed in knots.
const LIFT: Tolerance = Tolerance::Relative(0.006);

/// Plane lift as the paper prints it, lbf.
const PRINTED_LIFT_LBF: f64 = 10_100.0;
/// Chord of the flap, ft.
const CHORD_FT: f64 = 1.0;

const HOW: &str = "Equations 5 to 7 in the full balance as printed, hull, friction and thrust through the centre of gravity; the flap over \
    the whole bottom, flush. Without it the printed trim is 3.6 deg.";

pub(super) fn comparisons(example: &Example) -> Result<Vec<Comparison>, CheckError> {
    let with_flap = example.printed.iter().filter(|row| row.flap_deg > 0.0);
    let rows = with_flap.map(|row| of_row(example, row)).collect::<Result<Vec<_>, _>>()?;
    Ok(rows.into_iter().flatten().collect())
}

fn of_row(example: &Example, row: &Printed) -> Result<[Comparison; 4], CheckError> {
    let running = run(example, row)?;
    let pounds = |force: uom::si::f64::Force| force.get::<newton>() / N_PER_POUND_FORCE;
    let case = Case::new(SOURCE, format!("{} kn, flap {} deg", row.speed_kn, row.flap_deg));
    let of =
        |name, unit, values, tolerance| case.compare(name, unit, values, tolerance).with_note(HOW);
    let resistance = [row.resistance_lbf, pounds(running.resistance)];
    Ok([
        of("running trim", "deg", [row.trim_deg, running.trim.get::<degree>()], TRIM),
        of(
            "wetted length / beam",
            "",
            [row.wetted_length_ratio, running.wetted_length_ratio],
            WETTED_LENGTH,
        ),
        of("resistance", "lbf", resistance, RESISTANCE),
        of("plane lift", "lbf", [PRINTED_LIFT_LBF, pounds(running.plane_lift)], LIFT),
    ])
}

fn run(example: &Example, row: &Printed) -> Result<Running, CheckError> {
    let settings = Settings::as_printed(Method::Full);
    let boat =
        with_flap(&example.boat).map_err(|faults| CheckError::Boat { case: CASE, faults })?;
    let point = Balance::of(&boat, &settings)
        .point(row.speed(), Angle::new::<degree>(row.flap_deg))
        .map_err(|fault| CheckError::Boat { case: CASE, faults: fault.into() })?;
    point.running.ok_or(CheckError::NotRunning { case: CASE, outcome: point.outcome })
}

/// The same boat with the flap as a pair that meets on the keel.
fn with_flap(boat: &Boat) -> Result<Boat, crate::boat::Faults> {
    let mut input = boat.input().clone();
    let hull = boat.hull();
    // Less than the whole bottom edge by rounding alone.
    let span = 0.5 * (1.0 - 1e-12) * hull.chine_beam / hull.deadrise.cos();
    // So high that the friction, too, passes through the centre of gravity: (b/4) tan β.
    let friction_height = 0.25 * hull.chine_beam * hull.deadrise.tan();
    input.weight = WeightInput::Totals {
        mass: boat.weight().mass,
        lcg: Some(boat.weight().lcg),
        vcg: Some(friction_height),
        tcg: None,
    };
    input.planes = Some(PlanePair { span, chord: Length::new::<meter>(CHORD_FT * M_PER_FOOT) });
    input.transom = TransomInput { hinge_height: Some(Length::default()), ..input.transom };
    Boat::build(input)
}
