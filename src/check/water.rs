//! Density and viscosity of sea and fresh water.

use serde::Deserialize;
use uom::si::f64::ThermodynamicTemperature;
use uom::si::{
    kinematic_viscosity::square_meter_per_second, mass_density::kilogram_per_cubic_meter,
    thermodynamic_temperature::degree_celsius,
};

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use crate::water::{SEA_SALINITY, Water};

/// Two standards of sea water density, EOS-80 in the program and TEOS-10 here, differ by about 0.001 %.
const DENSITY: Tolerance = Tolerance::Relative(1e-4);
/// Friction follows a change of viscosity with a sixth of it: 0.5 % of viscosity is 0.1 % of friction.
const VISCOSITY: Tolerance = Tolerance::Relative(5e-3);

const SAME_CORRELATION: &str = "The program uses the same correlation, so that this checks its coding only; \
    both coefficients come from memory.";

const SEA_DENSITY: DataFile = DataFile {
    name: "Ioc2010SeaWater.csv",
    text: include_str!("../../data/published/Ioc2010SeaWater.csv"),
};
const FRESH: DataFile = DataFile {
    name: "Iapws1995FreshWater.csv",
    text: include_str!("../../data/published/Iapws1995FreshWater.csv"),
};
const SEA_VISCOSITY: DataFile = DataFile {
    name: "Sharqawy2010SeaWater.csv",
    text: include_str!("../../data/published/Sharqawy2010SeaWater.csv"),
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    temperature_c: f64,
    density_kg_m3: Option<f64>,
    kinematic_viscosity_m2_s: Option<f64>,
}

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    let mut all =
        of_file(&SEA_DENSITY, "IOC, SCOR & IAPSO (2010), TEOS-10: sea water", SEA_SALINITY)?;
    all.extend(of_file(&FRESH, "IAPWS-95 (Wagner & Pruss 2002): fresh water", 0.0)?);
    let viscosity = of_file(
        &SEA_VISCOSITY,
        "Sharqawy, Lienhard & Zubair (2010): viscosity of sea water",
        SEA_SALINITY,
    )?;
    all.extend(viscosity.into_iter().map(|each| each.with_note(SAME_CORRELATION)));
    Ok(all)
}

fn of_file(
    file: &DataFile,
    source: &'static str,
    salinity: f64,
) -> Result<Vec<Comparison>, CheckError> {
    let rows: Vec<Row> = file.rows()?;
    Ok(rows.iter().flat_map(|row| of_row(row, source, salinity)).collect())
}

fn of_row(row: &Row, source: &'static str, salinity: f64) -> Vec<Comparison> {
    let case = Case::new(source, format!("{} degC", row.temperature_c));
    let temperature = ThermodynamicTemperature::new::<degree_celsius>(row.temperature_c);
    let water = Water::at(temperature, salinity);
    let density = row.density_kg_m3.map(|printed| {
        let computed = water.density.get::<kilogram_per_cubic_meter>();
        case.compare("density", "kg/m^3", [printed, computed], DENSITY)
    });
    let viscosity = row.kinematic_viscosity_m2_s.map(|printed| {
        let computed = water.kinematic_viscosity.get::<square_meter_per_second>();
        case.compare("kinematic viscosity", "m^2/s", [printed, computed], VISCOSITY)
    });
    density.into_iter().chain(viscosity).collect()
}
