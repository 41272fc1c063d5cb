//! From [`BoatInput`] to [`Boat`]: fill, check, check against each other.

mod desk;
mod drive;
mod duties;
mod hull;
mod transom;

use desk::Desk;

use super::{
    Boat, BoatInput, Fault, HorizontalDrag, Measure, ThrustLine, WaterInput, WaterKind, WeightInput,
};

pub(super) fn build(input: BoatInput) -> Result<Boat, Vec<Fault>> {
    let mut desk = Desk::default();
    let hull = hull::hull(&mut desk, &input);
    let weight = hull::weight(&mut desk, &input, &hull);
    let water = drive::water(&mut desk, &input);
    if desk.faults.is_empty() {
        hull::load_coefficient(&mut desk, &hull, &weight, &water);
    }
    let drive = drive::drive(&mut desk, &input, &hull, &weight, &water);
    let air = input.air.map(|air| drive::air_drag(&mut desk, &air));
    let appendages = input.appendages.map(|appendages| {
        desk.check("appendages.drag_area", Measure::Area(appendages.drag_area));
        desk.check("appendages.height", Measure::Length(appendages.height));
        HorizontalDrag::new(1.0, appendages.drag_area, appendages.height)
    });
    let transom = transom::transom(&mut desk, &input.transom, &hull);
    let sizing = duties::sizing(&mut desk, &input.sizing);
    duties::planes(&mut desk, &input, &hull);
    transom::features(&mut desk, &input.features);
    for (index, duty) in input.duties.iter().enumerate() {
        duties::check_duty(&mut desk, index, duty, &hull);
    }
    desk.faults.extend(super::tolerance::faults(&input, &hull, &weight, drive.thrust_line));
    if !desk.faults.is_empty() {
        return Err(desk.faults);
    }
    transom::fitted_planes(&mut desk, &transom, input.planes);
    Ok(Boat {
        input,
        hull,
        weight,
        drive,
        water,
        air,
        appendages,
        transom,
        sizing,
        estimates: desk.estimates,
        unusual: desk.unusual,
    })
}

/// Puts a measured or trial value in place of an estimate.
pub(super) fn set_estimate(input: &mut BoatInput, boat: &Boat, key: &str, value: Measure) {
    match (key, value) {
        ("hull.bottom_length", Measure::Length(x)) => input.hull.bottom_length = Some(x),
        ("weight.lcg", Measure::Length(x)) => {
            if let WeightInput::Totals { lcg, .. } = &mut input.weight {
                *lcg = Some(x);
            }
        }
        ("weight.vcg", Measure::Length(x)) => {
            if let WeightInput::Totals { vcg, .. } = &mut input.weight {
                *vcg = Some(x);
            }
        }
        ("drive.thrust_angle", Measure::Angle(x)) => input.drive.thrust_angle = Some(x),
        ("drive.thrust_height", Measure::Length(x)) => {
            input.drive.thrust_line = Some(ThrustLine::HeightAtTransom(x));
        }
        ("drive.top_speed", Measure::Speed(x)) => input.drive.top_speed = Some(x),
        ("water.temperature", Measure::Temperature(x)) => {
            let (kind, salinity) = match boat.input.water {
                Some(WaterInput::Kind { kind, salinity, .. }) => (kind, salinity),
                _ => (WaterKind::Sea, None),
            };
            input.water = Some(WaterInput::Kind { kind, temperature: Some(x), salinity });
        }
        _ => debug_assert!(false, "no estimate called {key}"),
    }
}
