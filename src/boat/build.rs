//! From [`BoatInput`] to [`Boat`]: fill, check, check against each other.

use uom::si::f64::{Angle, Length, Mass, Ratio, ThermodynamicTemperature};
use uom::si::{
    angle::degree,
    length::{inch, meter},
    mass::kilogram,
    mass_density::kilogram_per_cubic_meter,
    ratio::ratio,
    thermodynamic_temperature::degree_celsius,
};

use super::estimate;
use super::input::{
    AirInput, BoatInput, Duty, ListCause, SizingInput, ThrustLine, TransomInput, WaterInput,
    WaterKind, WeightInput,
};
use super::measure::{Measure, plain_number};
use super::{Boat, Drive, Estimate, Fault, HorizontalDrag, Hull, Sizing, Transom, Unusual, Weight};
use crate::water::Water;

/// Largest load coefficient Δ/(ρ g b³) the solver is proven for; Savitsky's charts reach about 1.
const LARGEST_LOAD_COEFFICIENT: f64 = 3.0;
/// Smallest load coefficient.
const SMALLEST_LOAD_COEFFICIENT: f64 = 0.01;
/// Largest height of the centre of gravity, and of the thrust line from it, in chine beams.
const LARGEST_HEIGHT_IN_BEAMS: f64 = 2.0;
/// Drag coefficient of hull and superstructure in air; common practice, no source.
const AIR_DRAG_COEFFICIENT: f64 = 0.7;

/// Collects faults, unusual values and estimates while a boat is built.
#[derive(Default)]
struct Desk {
    faults: Vec<Fault>,
    unusual: Vec<Unusual>,
    estimates: Vec<Estimate>,
}

impl Desk {
    /// Checks one value against the bounds table.
    fn check(&mut self, key: &str, measure: Measure) {
        let Some(bound) = super::bound_of(key) else {
            debug_assert!(false, "no bound for {key}");
            return;
        };
        if !bound.admits(measure) {
            self.fault(
                key,
                format!("{measure} is outside {}", bound.allowed()),
                format!("{}; for example \"{}\"", bound.why, bound.example),
            );
        } else if !bound.is_usual(measure) {
            self.unusual.push(Unusual {
                key: key.to_owned(),
                message: format!(
                    "{key} = {measure} is unusual (usually {}): {}",
                    bound.usual_text(),
                    bound.why
                ),
            });
        }
    }

    fn check_if(&mut self, key: &str, measure: Option<Measure>) {
        if let Some(measure) = measure {
            self.check(key, measure);
        }
    }

    fn fault(&mut self, key: &str, problem: String, remedy: String) {
        self.faults.push(Fault { key: key.to_owned(), problem, remedy });
    }

    fn estimated_length(&mut self, estimate: Estimate) -> Length {
        let value = estimate.value;
        self.estimates.push(estimate);
        let Measure::Length(length) = value else {
            unreachable!("estimates of lengths are lengths")
        };
        length
    }
}

pub(super) fn build(input: BoatInput) -> Result<Boat, Vec<Fault>> {
    let mut desk = Desk::default();
    let hull = hull(&mut desk, &input);
    let weight = weight(&mut desk, &input, &hull);
    let water = water(&mut desk, &input);
    if desk.faults.is_empty() {
        load_coefficient(&mut desk, &hull, &weight, &water);
    }
    let drive = drive(&mut desk, &input, &hull, &weight, &water);
    let air = input.air.map(|air| air_drag(&mut desk, &air));
    let appendages = input.appendages.map(|appendages| {
        desk.check("appendages.drag_area", Measure::Area(appendages.drag_area));
        desk.check("appendages.height", Measure::Length(appendages.height));
        HorizontalDrag::new(1.0, appendages.drag_area, appendages.height)
    });
    let transom = transom(&mut desk, &input.transom, &hull);
    let sizing = sizing(&mut desk, &input.sizing);
    planes(&mut desk, &input, &hull);
    for (index, duty) in input.duties.iter().enumerate() {
        check_duty(&mut desk, index, duty, &hull);
    }
    if !desk.faults.is_empty() {
        return Err(desk.faults);
    }
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

fn hull(desk: &mut Desk, input: &BoatInput) -> Hull {
    let given = input.hull;
    desk.check("hull.chine_beam", Measure::Length(given.chine_beam));
    desk.check("hull.deadrise", Measure::Angle(given.deadrise));
    desk.check_if("hull.overall_length", given.overall_length.map(Measure::Length));
    desk.check_if("hull.bottom_length", given.bottom_length.map(Measure::Length));
    let bottom_length = match (given.bottom_length, given.overall_length) {
        (Some(bottom), _) => bottom,
        (None, Some(overall)) => desk.estimated_length(estimate::bottom_length(overall)),
        (None, None) => {
            desk.fault(
                "hull.bottom_length",
                "neither bottom_length nor overall_length is given".to_owned(),
                "give the keel line of the planing bottom, transom to forefoot, for example bottom_length = \"6.5 m\"; or overall_length = \"7.4 m\", from which it is estimated".to_owned(),
            );
            given.chine_beam * 3.0
        }
    };
    if let Some(overall) = given.overall_length
        && bottom_length > overall
    {
        desk.fault(
            "hull.bottom_length",
            format!(
                "{} is longer than overall_length, {}",
                Measure::Length(bottom_length),
                Measure::Length(overall)
            ),
            "the keel line of the planing bottom is shorter than the boat; correct one of the two"
                .to_owned(),
        );
    }
    let slenderness = bottom_length.get::<meter>() / given.chine_beam.get::<meter>();
    if desk.faults.is_empty() && !(1.0..=15.0).contains(&slenderness) {
        desk.fault(
            "hull.bottom_length",
            format!("bottom_length / chine_beam is {}, outside 1 to 15", plain_number(slenderness)),
            "check the units of both; planing boats have 2.5 to 6".to_owned(),
        );
    }
    Hull {
        overall_length: given.overall_length,
        bottom_length,
        chine_beam: given.chine_beam,
        deadrise: given.deadrise,
    }
}

fn weight(desk: &mut Desk, input: &BoatInput, hull: &Hull) -> Weight {
    let zero = Length::new::<meter>(0.0);
    let weight = match &input.weight {
        WeightInput::Totals { mass, lcg, vcg, tcg } => {
            desk.check("weight.mass", Measure::Mass(*mass));
            desk.check_if("weight.lcg", lcg.map(Measure::Length));
            desk.check_if("weight.vcg", vcg.map(Measure::Length));
            desk.check_if("weight.tcg", tcg.map(Measure::Length));
            Weight {
                mass: *mass,
                lcg: lcg
                    .unwrap_or_else(|| desk.estimated_length(estimate::lcg(hull.bottom_length))),
                vcg: vcg.unwrap_or_else(|| desk.estimated_length(estimate::vcg(hull.chine_beam))),
                tcg: tcg.unwrap_or(zero),
            }
        }
        WeightInput::Loads(items) => sum_of_loads(desk, items),
    };
    if desk.faults.is_empty() {
        centre_of_gravity(desk, input, hull, &weight);
    }
    weight
}

fn sum_of_loads(desk: &mut Desk, items: &[super::LoadItem]) -> Weight {
    let zero = Length::new::<meter>(0.0);
    let mut mass_kg = 0.0;
    let mut moments_kg_m = [0.0; 3];
    for (index, load) in items.iter().enumerate() {
        desk.check(&format!("load[{index}].mass"), Measure::Mass(load.mass));
        for (key, arm, moment) in
            [("forward", load.forward, 0), ("up", load.up, 1), ("starboard", load.starboard, 2)]
        {
            desk.check(&format!("load[{index}].{key}"), Measure::Length(arm));
            moments_kg_m[moment] += load.mass.get::<kilogram>() * arm.get::<meter>();
        }
        mass_kg += load.mass.get::<kilogram>();
    }
    let mass = Mass::new::<kilogram>(mass_kg);
    let total = super::bound_of("weight.mass").expect("the table has weight.mass");
    if !total.admits(Measure::Mass(mass)) {
        desk.fault(
            "load",
            format!("the loads sum to {}, outside {}", Measure::Mass(mass), total.allowed()),
            "list hull, engine, fuel, people and gear, each with its mass".to_owned(),
        );
        return Weight { mass, lcg: zero, vcg: zero, tcg: zero };
    }
    let [lcg, vcg, tcg] = moments_kg_m.map(|moment| Length::new::<meter>(moment / mass_kg));
    Weight { mass, lcg, vcg, tcg }
}

fn centre_of_gravity(desk: &mut Desk, input: &BoatInput, hull: &Hull, weight: &Weight) {
    let from_loads = matches!(input.weight, WeightInput::Loads(_));
    let key = |plain: &str| if from_loads { "load".to_owned() } else { format!("weight.{plain}") };
    let summed = if from_loads { " (summed from the loads)" } else { "" };
    if weight.lcg <= Length::new::<meter>(0.0) || weight.lcg >= hull.bottom_length {
        desk.fault(
            &key("lcg"),
            format!(
                "the centre of gravity{summed} is {} forward of the transom, outside the bottom, which is {} long",
                Measure::Length(weight.lcg),
                Measure::Length(hull.bottom_length)
            ),
            "measure it from the transom forward along the keel; planing boats have 0.30 to 0.45 of the bottom length".to_owned(),
        );
    }
    let beam_m = hull.chine_beam.get::<meter>();
    let vcg_m = weight.vcg.get::<meter>();
    if !(-0.2 * beam_m..=LARGEST_HEIGHT_IN_BEAMS * beam_m).contains(&vcg_m) {
        desk.fault(
            &key("vcg"),
            format!(
                "the centre of gravity{summed} is {} above the keel, outside -0.2 to 2 chine beams",
                Measure::Length(weight.vcg)
            ),
            "measure it upward from the keel line; planing boats have 0.25 to 0.45 of the chine beam".to_owned(),
        );
    }
    if weight.tcg.get::<meter>().abs() > 0.25 * beam_m {
        desk.fault(
            &key("tcg"),
            format!(
                "the centre of gravity{summed} is {} to starboard, more than a quarter of the chine beam",
                Measure::Length(weight.tcg)
            ),
            "a boat loaded so does not run upright; shift the weight".to_owned(),
        );
    }
}

fn water(desk: &mut Desk, input: &BoatInput) -> Water {
    let celsius = ThermodynamicTemperature::new::<degree_celsius>;
    let given = input.water.unwrap_or(WaterInput::Kind {
        kind: WaterKind::Sea,
        temperature: None,
        salinity: None,
    });
    match given {
        WaterInput::Explicit { density, kinematic_viscosity } => {
            desk.check("water.density", Measure::Density(density));
            desk.check("water.kinematic_viscosity", Measure::Viscosity(kinematic_viscosity));
            Water { density, kinematic_viscosity }
        }
        WaterInput::Kind { kind, temperature, salinity } => {
            desk.check_if("water.temperature", temperature.map(Measure::Temperature));
            desk.check_if("water.salinity", salinity.map(Measure::Number));
            let temperature = temperature.unwrap_or_else(|| {
                desk.estimates.push(estimate::water_temperature());
                celsius(15.0)
            });
            let salinity = salinity.unwrap_or(match kind {
                WaterKind::Sea => crate::water::SEA_SALINITY,
                WaterKind::Fresh => 0.0,
            });
            Water::at(temperature, salinity)
        }
    }
}

fn load_coefficient(desk: &mut Desk, hull: &Hull, weight: &Weight, water: &Water) {
    let volume_m3 = weight.mass.get::<kilogram>() / water.density.get::<kilogram_per_cubic_meter>();
    let coefficient = volume_m3 / hull.chine_beam.get::<meter>().powi(3);
    if !(SMALLEST_LOAD_COEFFICIENT..=LARGEST_LOAD_COEFFICIENT).contains(&coefficient) {
        desk.fault(
            "weight.mass",
            format!(
                "{} on a chine beam of {} is a load coefficient of {}, outside 0.01 to 3",
                Measure::Mass(weight.mass),
                Measure::Length(hull.chine_beam),
                plain_number(coefficient)
            ),
            "check the units of mass and chine_beam; planing boats have 0.2 to 1".to_owned(),
        );
    }
}

fn drive(desk: &mut Desk, input: &BoatInput, hull: &Hull, weight: &Weight, water: &Water) -> Drive {
    let given = input.drive;
    desk.check_if("drive.power", given.power.map(Measure::Power));
    desk.check_if("drive.top_speed", given.top_speed.map(Measure::Speed));
    desk.check_if("drive.thrust_angle", given.thrust_angle.map(Measure::Angle));
    let thrust_angle = given.thrust_angle.unwrap_or_else(|| {
        let estimate = estimate::thrust_angle(given.kind);
        let Measure::Angle(angle) = estimate.value else { unreachable!("an angle") };
        desk.estimates.push(estimate);
        angle
    });
    let line = given.thrust_line.unwrap_or_else(|| {
        let estimate = estimate::thrust_height(given.kind, hull.chine_beam);
        ThrustLine::HeightAtTransom(desk.estimated_length(estimate))
    });
    let thrust_offset = thrust_offset(desk, line, thrust_angle, weight);
    let largest_m = LARGEST_HEIGHT_IN_BEAMS * hull.chine_beam.get::<meter>();
    if desk.faults.is_empty() && thrust_offset.get::<meter>().abs() > largest_m {
        desk.fault(
            "drive.thrust_offset",
            format!(
                "the thrust line passes {} below the centre of gravity, more than 2 chine beams",
                Measure::Length(thrust_offset)
            ),
            "check thrust_offset, or thrust_height and thrust_angle".to_owned(),
        );
    }
    let top_speed = given.top_speed.unwrap_or_else(|| {
        let estimate = match given.power {
            Some(power) => estimate::top_speed_from_power(weight.mass, power),
            None => {
                let volume =
                    weight.mass.get::<kilogram>() / water.density.get::<kilogram_per_cubic_meter>();
                estimate::top_speed_from_displacement(volume)
            }
        };
        let Measure::Speed(speed) = estimate.value else { unreachable!("a speed") };
        desk.estimates.push(estimate);
        speed
    });
    Drive { kind: given.kind, power: given.power, top_speed, thrust_angle, thrust_offset }
}

/// f = (VCG − h − LCG tan ε) cos ε for a thrust line given by its height h at the transom.
fn thrust_offset(desk: &mut Desk, line: ThrustLine, angle: Angle, weight: &Weight) -> Length {
    match line {
        ThrustLine::BelowCentreOfGravity(offset) => {
            desk.check("drive.thrust_offset", Measure::Length(offset));
            offset
        }
        ThrustLine::HeightAtTransom(height) => {
            desk.check("drive.thrust_height", Measure::Length(height));
            (weight.vcg - height - weight.lcg * angle.tan()) * angle.cos()
        }
    }
}

fn air_drag(desk: &mut Desk, air: &AirInput) -> HorizontalDrag {
    desk.check("air.frontal_area", Measure::Area(air.frontal_area));
    desk.check_if("air.drag_coefficient", air.drag_coefficient.map(Measure::Number));
    desk.check("air.height", Measure::Length(air.height));
    let coefficient = air.drag_coefficient.unwrap_or(AIR_DRAG_COEFFICIENT);
    HorizontalDrag::new(coefficient, air.frontal_area, air.height)
}

/// Clearances and hinge height are common practice, no source.
fn transom(desk: &mut Desk, given: &TransomInput, hull: &Hull) -> Transom {
    let beam = given.beam.unwrap_or(hull.chine_beam);
    let deadrise = given.deadrise.unwrap_or(hull.deadrise);
    let inner = given.inner_clearance.unwrap_or_else(|| Length::new::<inch>(8.0));
    let outer = given.outer_clearance.unwrap_or_else(|| Length::new::<inch>(3.5));
    let hinge = given.hinge_height.unwrap_or_else(|| Length::new::<inch>(0.25));
    desk.check_if("transom.beam", given.beam.map(Measure::Length));
    desk.check_if("transom.deadrise", given.deadrise.map(Measure::Angle));
    desk.check("transom.inner_clearance", Measure::Length(inner));
    desk.check("transom.outer_clearance", Measure::Length(outer));
    desk.check("transom.hinge_height", Measure::Length(hinge));
    Transom {
        beam,
        deadrise,
        rake: Angle::new::<degree>(0.0),
        inner_clearance: inner,
        outer_clearance: outer,
        hinge_height: hinge,
        working_height: Length::new::<inch>(10.0),
        obstacles: Vec::new(),
        strakes: Vec::new(),
    }
}

/// Limits on span/chord and the step are common practice, no source.
fn sizing(desk: &mut Desk, given: &SizingInput) -> Sizing {
    let sizing = Sizing {
        largest_deflection: given.largest_deflection.unwrap_or_else(|| Angle::new::<degree>(15.0)),
        share: given.share.unwrap_or_else(|| Ratio::new::<ratio>(0.8)),
        smallest_chord: given.smallest_chord.unwrap_or_else(|| Length::new::<meter>(0.15)),
        smallest_aspect: given.smallest_aspect.unwrap_or(1.5),
        largest_aspect: given.largest_aspect.unwrap_or(4.0),
        round_to: given.round_to.unwrap_or_else(|| Length::new::<meter>(0.025)),
        lift_reference: given.lift_reference,
    };
    desk.check("sizing.largest_deflection", Measure::Angle(sizing.largest_deflection));
    desk.check("sizing.share", Measure::Share(sizing.share));
    desk.check("sizing.smallest_chord", Measure::Length(sizing.smallest_chord));
    desk.check("sizing.smallest_aspect", Measure::Number(sizing.smallest_aspect));
    desk.check("sizing.largest_aspect", Measure::Number(sizing.largest_aspect));
    desk.check("sizing.round_to", Measure::Length(sizing.round_to));
    if sizing.smallest_aspect > sizing.largest_aspect {
        desk.fault(
            "sizing.largest_aspect",
            format!(
                "{} is below smallest_aspect, {}",
                plain_number(sizing.largest_aspect),
                plain_number(sizing.smallest_aspect)
            ),
            "give a largest_aspect of at least smallest_aspect".to_owned(),
        );
    }
    sizing
}

fn planes(desk: &mut Desk, input: &BoatInput, hull: &Hull) {
    let Some(pair) = input.planes else { return };
    desk.check("planes.span", Measure::Length(pair.span));
    desk.check("planes.chord", Measure::Length(pair.chord));
    let bottom_edge = hull.chine_beam / hull.deadrise.cos();
    if 2.0 * pair.span > bottom_edge {
        desk.fault(
            "planes.span",
            format!(
                "two planes of {} are wider than the bottom edge, {}",
                Measure::Length(pair.span),
                Measure::Length(bottom_edge)
            ),
            "span is that of ONE plane, along the bottom edge".to_owned(),
        );
    }
}

fn check_duty(desk: &mut Desk, index: usize, duty: &Duty, hull: &Hull) {
    let key = |plain: &str| format!("duty[{index}].{plain}");
    match *duty {
        Duty::HumpTrim { at_most, from, to } => {
            desk.check(&key("at_most"), Measure::Angle(at_most));
            desk.check(&key("from"), Measure::Speed(from));
            desk.check(&key("to"), Measure::Speed(to));
            if from > to {
                desk.fault(
                    &key("from"),
                    format!("{} is faster than to, {}", Measure::Speed(from), Measure::Speed(to)),
                    "from is the slower end of the range".to_owned(),
                );
            }
        }
        Duty::LeastResistance { within, speed } => {
            desk.check(&key("within"), Measure::Share(within));
            desk.check(&key("speed"), Measure::Speed(speed));
        }
        Duty::PorpoisingMargin { margin, up_to } => {
            desk.check(&key("margin"), Measure::Angle(margin));
            desk.check(&key("up_to"), Measure::Speed(up_to));
        }
        Duty::List { cause, speed } => {
            desk.check(&key("speed"), Measure::Speed(speed));
            match cause {
                ListCause::Moment(moment) => desk.check(&key("moment"), Measure::Moment(moment)),
                ListCause::OffCentre { mass, distance } => {
                    desk.check(&key("mass"), Measure::Mass(mass));
                    desk.check(&key("distance"), Measure::Length(distance));
                    if distance.get::<meter>().abs() > hull.chine_beam.get::<meter>() {
                        desk.fault(
                            &key("distance"),
                            format!(
                                "{} off the centreline is outside the boat",
                                Measure::Length(distance)
                            ),
                            "give the distance to starboard, negative to port, within the boat"
                                .to_owned(),
                        );
                    }
                }
            }
        }
    }
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
