//! Thrust, water and air.

use uom::si::f64::{Angle, Length, Torque, Velocity};
use uom::si::{mass::kilogram, mass_density::kilogram_per_cubic_meter};

use super::findings::Findings;
use super::hull::LARGEST_HEIGHT_IN_BEAMS;
use crate::boat::keys::or_default;
use crate::boat::{
    AirInput, BoatInput, Drive, Estimate, HorizontalDrag, Hull, Measure, ThrustLine, WaterInput,
    WaterKind, Weight, estimate, thrust_offset,
};
use crate::water::Water;

/// The water of a boat, before anything is checked.
pub(super) fn water_of(input: &BoatInput) -> Water {
    water(&mut Findings::default(), input)
}

pub(super) fn water(findings: &mut Findings, input: &BoatInput) -> Water {
    let given = input.water.unwrap_or(WaterInput::Kind {
        kind: WaterKind::Sea,
        temperature: None,
        salinity: None,
    });
    match given {
        WaterInput::Explicit { density, kinematic_viscosity } => {
            findings.check("water.density", Measure::Density(density));
            findings.check("water.kinematic_viscosity", Measure::Viscosity(kinematic_viscosity));
            Water { density, kinematic_viscosity }
        }
        WaterInput::Kind { kind, temperature, salinity } => {
            findings.check_if("water.temperature", temperature.map(Measure::Temperature));
            findings.check_if("water.salinity", salinity.map(Measure::Number));
            if temperature.is_none() {
                findings.estimates.push(estimate::water_temperature());
            }
            let temperature = or_default(temperature, "water.temperature");
            Water::at(temperature, salinity.unwrap_or(kind.usual_salinity()))
        }
    }
}

/// The thrust line, given or estimated.
#[derive(Clone, Copy)]
pub(super) struct Thrust {
    angle: Angle,
    line: ThrustLine,
    propeller_torque: Option<Torque>,
}

pub(super) fn thrust(findings: &mut Findings, input: &BoatInput, hull: &Hull) -> Thrust {
    let given = input.drive;
    findings.check_all("drive", given.measures());
    let angle = given.thrust_angle.unwrap_or_else(|| {
        let estimate = estimate::thrust_angle(given.kind);
        let Measure::Angle(angle) = estimate.value else { unreachable!("an angle") };
        findings.estimates.push(estimate);
        angle
    });
    let line = given.thrust_line.unwrap_or_else(|| {
        let estimate = estimate::thrust_height(given.kind, hull.chine_beam);
        ThrustLine::HeightAtTransom(findings.estimated_length(estimate))
    });
    match line {
        ThrustLine::BelowCentreOfGravity(offset) => {
            findings.check("drive.thrust_offset", Measure::Length(offset));
        }
        ThrustLine::HeightAtTransom(height) => {
            findings.check("drive.thrust_height", Measure::Length(height));
        }
    }
    let propeller_torque = super::heel::propeller_torque(findings, &given);
    Thrust { angle, line, propeller_torque }
}

/// Thrust and top speed, and the estimate behind the latter if it is one.
pub(super) struct Driven {
    pub(super) drive: Drive,
    pub(super) estimate: Option<Estimate>,
}

impl Thrust {
    /// What drives the boat with a weight other than that of the loads as listed; the thrust line stays where it is in her.
    pub(super) fn driving(
        &self,
        findings: &mut Findings,
        input: &BoatInput,
        beam: Length,
        [listed, weight]: [&Weight; 2],
        water: &Water,
    ) -> Driven {
        let given = input.drive;
        let thrust_offset = self.offset(listed, weight);
        if findings.faults.is_empty() && thrust_offset.abs() > LARGEST_HEIGHT_IN_BEAMS * beam {
            findings.fault(
                "drive.thrust_offset",
                format!(
                    "the thrust line passes {} below the centre of gravity, more than 2 chine beams",
                    Measure::Length(thrust_offset)
                ),
                "check thrust_offset, or thrust_height and thrust_angle".to_owned(),
            );
        }
        let (top_speed, estimate) = match given.top_speed {
            Some(speed) => (speed, None),
            None => {
                let (speed, estimate) = estimated_top_speed(findings, input, weight, water);
                (speed, Some(estimate))
            }
        };
        let drive = Drive {
            kind: given.kind,
            power: given.power,
            top_speed,
            thrust_angle: self.angle,
            thrust_line: self.line,
            thrust_offset,
            propeller_torque: self.propeller_torque,
        };
        Driven { drive, estimate }
    }

    /// f of the boat with a weight: (VCG − h − LCG tan ε) cos ε for a thrust line given by its height h at the transom.
    ///
    /// A line given by its f lies so for the loads as they are listed; with
    /// another weight the centre of gravity moves and the line does not.
    fn offset(&self, listed: &Weight, weight: &Weight) -> Length {
        match self.line {
            ThrustLine::BelowCentreOfGravity(offset) => {
                let (tangent, cosine) = (self.angle.tan(), self.angle.cos());
                offset + ((weight.vcg - listed.vcg) - (weight.lcg - listed.lcg) * tangent) * cosine
            }
            ThrustLine::HeightAtTransom(_) => thrust_offset(self.line, self.angle, weight),
        }
    }
}

/// Top speed from the power, or from the displacement when that is not known either.
fn estimated_top_speed(
    findings: &mut Findings,
    input: &BoatInput,
    weight: &Weight,
    water: &Water,
) -> (Velocity, Estimate) {
    let given = input.drive;
    let estimate = match given.power {
        Some(power) => estimate::top_speed_from_power(weight.mass, power),
        None => {
            let volume =
                weight.mass.get::<kilogram>() / water.density.get::<kilogram_per_cubic_meter>();
            estimate::top_speed_from_displacement(volume)
        }
    };
    let Measure::Speed(speed) = estimate.value else { unreachable!("a speed") };
    let bound = crate::boat::bound_of("drive.top_speed").expect("the table has the top speed");
    if findings.faults.is_empty() && !bound.admits(estimate.value) {
        let key = if given.power.is_some() { "drive.power" } else { "drive.top_speed" };
        findings.fault(
            key,
            format!(
                "the top speed estimated from power and mass is {}, outside {}",
                estimate.value,
                bound.allowed()
            ),
            "check the units of drive.power and of the mass, or give drive.top_speed".to_owned(),
        );
    }
    (speed, estimate)
}

pub(super) fn air_drag(findings: &mut Findings, air: &AirInput) -> HorizontalDrag {
    findings.check_all("air", air.measures());
    let coefficient = or_default(air.drag_coefficient, "air.drag_coefficient");
    HorizontalDrag::new(coefficient, air.frontal_area, air.height)
}
