//! A towed model in smooth water (Fridsma 1969): the full balance, from lift to pitch moment, by both lift models.

use serde::Deserialize;
use uom::si::f64::{Angle, Length, Mass, ThermodynamicTemperature, Velocity};
use uom::si::{
    angle::degree, force::newton, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter, thermodynamic_temperature::degree_celsius,
    velocity::meter_per_second,
};

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use crate::balance::{Balance, LiftModel, Method, Settings};
use crate::boat::{
    Boat, BoatInput, DriveInput, HullInput, ThrustLine, WaterInput, WaterKind, WeightInput,
};
use crate::units::factor::{M_PER_FOOT, M_PER_INCH, M_S_PER_KNOT};
use crate::water::Water;

const SOURCE: &str =
    "Fridsma (1969), Davidson Laboratory report 1275, smooth water, configuration A";
const CASE: &str = "A";

const DATA: DataFile = DataFile {
    name: "Fridsma1969Calm.csv",
    text: include_str!("../../data/published/Fridsma1969Calm.csv"),
};

/// Printed to a tenth of a degree; half a degree is what the empirical equations reach. Common practice, no source.
const TRIM: Tolerance = Tolerance::Absolute(0.5);
/// Printed to three digits; a model's resistance repeats to 1 or 2 %. Common practice, no source.
const RESISTANCE: Tolerance = Tolerance::Relative(0.03);

/// Assumed: the temperature of an indoor tank. The effect of 5 and of 25 degC is shown.
const TANK_TEMPERATURE_C: f64 = 20.0;

const TOW: &str = "Assumed: fresh water at 20 degC; tow line through the centre of gravity, parallel to the keel \
    (f = 0, thrust angle 0). Without roughness allowance, hump factor and whisker spray, as for a model.";
const LEVEL: &str = "The same towed horizontally, through the centre of gravity.";
const BY_SHUFORD: &str = "The same with the second lift model, from memory. With the centre of pressure as unsure as it is there is no \
    tolerance to judge it by.";
const COLD: &str = "The same in water of 5 degC.";
const WARM: &str = "The same in water of 25 degC.";

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    configuration: String,
    beam_in: f64,
    length_beam_ratio: f64,
    deadrise_deg: f64,
    load_coefficient: f64,
    vcg_beam_ratio: f64,
    lcg_percent_from_stem: f64,
    speed_length_ratio: f64,
    trim_deg: f64,
    resistance_weight_ratio: f64,
}

/// How the model is towed.
#[derive(Clone, Copy)]
struct Tow {
    /// Tow line to keel, positive when it lifts.
    angle: Angle,
    temperature_c: f64,
    model: LiftModel,
}

/// What the model does.
struct Run {
    trim: Angle,
    resistance_weight_ratio: f64,
}

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    let row: Row = DATA.row(CASE, |row: &Row| row.configuration == "A")?;
    let along_keel = Tow {
        angle: Angle::new::<degree>(0.0),
        temperature_c: TANK_TEMPERATURE_C,
        model: LiftModel::Savitsky1964,
    };
    let mut all = Vec::with_capacity(10);
    all.extend(beside(&row, CASE, &run(&row, along_keel)?).map(|each| each.with_note(TOW)));
    let level = run_level(&row, along_keel)?;
    let cold = run(&row, Tow { temperature_c: 5.0, ..along_keel })?;
    let warm = run(&row, Tow { temperature_c: 25.0, ..along_keel })?;
    let shuford = run(&row, Tow { model: LiftModel::Shuford1958, ..along_keel })?;
    for (name, run, note) in [
        ("A, towed level", level, LEVEL),
        ("A, 5 degC", cold, COLD),
        ("A, 25 degC", warm, WARM),
        ("A, Shuford", shuford, BY_SHUFORD),
    ] {
        let beside = beside(&row, name, &run);
        all.extend(beside.map(|each| each.with_note(note).for_information()));
    }
    Ok(all)
}

fn beside(row: &Row, name: &str, run: &Run) -> [Comparison; 2] {
    let case = Case::new(SOURCE, name);
    let trim = [row.trim_deg, run.trim.get::<degree>()];
    let resistance = [row.resistance_weight_ratio, run.resistance_weight_ratio];
    [
        case.compare("running trim", "deg", trim, TRIM),
        case.compare("resistance / weight", "", resistance, RESISTANCE),
    ]
}

/// Towed horizontally: the tow line leans back from the keel by the trim that results.
fn run_level(row: &Row, mut tow: Tow) -> Result<Run, CheckError> {
    // Each round leaves about a hundredth of the error.
    for _ in 0..8 {
        tow.angle = -run(row, tow)?.trim;
    }
    run(row, tow)
}

fn run(row: &Row, tow: Tow) -> Result<Run, CheckError> {
    let settings = Settings { model: tow.model, ..Settings::as_printed(Method::Full) };
    let boat = model(row, tow).map_err(|faults| CheckError::Boat { case: SOURCE, faults })?;
    let point = Balance::of(&boat, &settings)
        .point(speed(row), Angle::new::<degree>(0.0))
        .map_err(|fault| CheckError::Boat { case: SOURCE, faults: fault.into() })?;
    let running =
        point.running.ok_or(CheckError::NotRunning { case: SOURCE, outcome: point.outcome })?;
    let weight_n = boat.weight().force().get::<newton>();
    Ok(Run {
        trim: running.trim,
        resistance_weight_ratio: running.resistance.get::<newton>() / weight_n,
    })
}

/// Speed from the speed-length ratio, V/√L in kn/ft^½.
fn speed(row: &Row) -> Velocity {
    let length_ft = row.length_beam_ratio * row.beam_in * M_PER_INCH / M_PER_FOOT;
    Velocity::new::<meter_per_second>(row.speed_length_ratio * length_ft.sqrt() * M_S_PER_KNOT)
}

fn model(row: &Row, tow: Tow) -> Result<Boat, crate::boat::Faults> {
    let beam_m = row.beam_in * M_PER_INCH;
    let length_m = row.length_beam_ratio * beam_m;
    let temperature = ThermodynamicTemperature::new::<degree_celsius>(tow.temperature_c);
    let density_kg_m3 = Water::at(temperature, 0.0).density.get::<kilogram_per_cubic_meter>();
    let mass_kg = row.load_coefficient * density_kg_m3 * beam_m.powi(3);
    let lcg_m = (1.0 - row.lcg_percent_from_stem / 100.0) * length_m;
    let metres = Length::new::<meter>;
    let hull = HullInput {
        bottom_length: Some(metres(length_m)),
        chine_beam: Some(metres(beam_m)),
        deadrise: Some(Angle::new::<degree>(row.deadrise_deg)),
        ..HullInput::default()
    };
    let weight = WeightInput::Totals {
        mass: Mass::new::<kilogram>(mass_kg),
        lcg: Some(metres(lcg_m)),
        vcg: Some(metres(row.vcg_beam_ratio * beam_m)),
        tcg: None,
    };
    let drive = DriveInput {
        top_speed: Some(speed(row)),
        thrust_angle: Some(tow.angle),
        thrust_line: Some(ThrustLine::BelowCentreOfGravity(metres(0.0))),
        ..DriveInput::default()
    };
    let water =
        WaterInput::Kind { kind: WaterKind::Fresh, temperature: Some(temperature), salinity: None };
    Boat::build(BoatInput {
        drive,
        water: Some(water),
        ..BoatInput::new("towed model", hull, weight)
    })
}
