use uom::si::area::square_millimeter;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{
    DynamicViscosity, ElectricCurrent, ElectricPotential, ThermodynamicTemperature, VolumeRate,
};
use uom::si::length::{meter, millimeter};
use uom::si::pressure::bar;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::torque::newton_meter;
use uom::si::velocity::millimeter_per_second;
use uom::si::volume::{cubic_centimeter, cubic_meter};
use uom::si::volume_rate::{cubic_meter_per_second, liter_per_minute};

use super::electric::{CableRun, LOOSE_DROP, TIGHT_DROP, copper_resistivity_ohm_mm2_per_m};
use super::hydraulic::{hagen_poiseuille_pa, tube_reynolds};
use super::*;
use crate::plane::hinge::{PlateFlow, TrimLoad, expected_load};
use crate::plane::linkage::LinkageDimensions;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn deg(value: f64) -> Angle {
    Angle::new::<degree>(value)
}

fn cylinder() -> HydraulicSpec {
    HydraulicSpec {
        bore: mm(25.0),
        rod: Some(mm(12.0)),
        pump_pressure: Pressure::new::<bar>(50.0),
        efficiency: 0.9,
        pump_flow: VolumeRate::new::<liter_per_minute>(0.5),
        tube_bore: mm(4.0),
        tube_length: Length::new::<meter>(6.0),
        oil_viscosity: DynamicViscosity::new::<pascal_second>(0.020),
        oil_density: MassDensity::new::<kilogram_per_cubic_meter>(870.0),
        stroke: mm(60.0),
        lock_pressure: None,
    }
}

fn motor() -> ElectricSpec {
    ElectricSpec {
        rated_force: Force::new::<newton>(2500.0),
        speed: Velocity::new::<millimeter_per_second>(8.0),
        stroke: mm(60.0),
        rated_current: ElectricCurrent::new::<ampere>(6.0),
        supply_voltage: ElectricPotential::new::<volt>(12.0),
        holding_force: None,
    }
}

fn linkage() -> Linkage {
    Linkage::new(&LinkageDimensions {
        hinge_height: mm(6.0),
        upper_pin_up_transom: mm(260.0),
        upper_pin_stand_off: mm(35.0),
        lower_pin_aft: mm(170.0),
        lower_pin_above_plate: mm(20.0),
        transom_rake: deg(12.0),
    })
    .unwrap()
}

/// A moment that grows straight with deflection, 20 N·m per degree.
fn moment(deflection: Angle) -> Result<Torque, HingeError> {
    Ok(Torque::new::<newton_meter>(20.0 * deflection.get::<degree>()))
}

#[test]
fn published_hagen_poiseuille_worked_example() {
    // White, Fluid Mechanics, worked example of laminar oil flow in an inclined 6 cm pipe, 10 m:
    // ρ 900, ν 0.0002 m²/s, printed head loss 4.9 m, Q 0.0076 m³/s, Re 810 (from memory). Two
    // printed digits: 0.5/49 and 0.5/76 together 1.7 %, 0.7 % for Re.
    let loss_pa = hagen_poiseuille_pa(0.18, 10.0, 0.0076, 0.06);
    approx::assert_relative_eq!(loss_pa / (900.0 * 9.807), 4.9, max_relative = 0.017);
    let reynolds = tube_reynolds(900.0, 0.0076, 0.06, 0.18);
    approx::assert_relative_eq!(reynolds, 810.0, max_relative = 0.007);
}

#[test]
fn physics_tube_loss_agrees_with_the_summed_parabolic_profile() {
    // Independent: wall shear balances the pressure, μ du/dr = −Δp r/(2L); the flow through the
    // profile, summed ring by ring, must be the pump's.
    let spec = cylinder();
    let loss = Hydraulic::new(spec).unwrap().tube_loss();
    assert!(loss.laminar && loss.reynolds < 2300.0);
    let gradient = loss.pressure.get::<pascal>() / 6.0;
    let (radius, rings) = (0.002, 20_000);
    let dr = radius / f64::from(rings);
    let (mut speed, mut flow) = (0.0, 0.0);
    for i in (0..rings).rev() {
        let r = (f64::from(i) + 0.5) * dr;
        let step = gradient * r / (2.0 * 0.020) * dr;
        flow += 2.0 * std::f64::consts::PI * r * (speed + 0.5 * step) * dr;
        speed += step;
    }
    let pump = spec.pump_flow.get::<cubic_meter_per_second>();
    approx::assert_relative_eq!(flow, pump, max_relative = 1e-6);
}

#[test]
fn published_cylinder_areas_of_the_tables() {
    // Cylinder tables print 4.91 cm² for a 25 mm bore and 3.78 cm² for its ring round a 12 mm
    // rod (from memory); 60 mm then holds 29.5 and 22.7 cm³.
    let cylinder = Hydraulic::new(cylinder()).unwrap();
    let out = cylinder.oil_to_extend().get::<cubic_centimeter>();
    let back = cylinder.oil_to_retract().unwrap().get::<cubic_meter>() * 1e6;
    approx::assert_relative_eq!(out / 6.0, 4.91, max_relative = 0.001);
    approx::assert_relative_eq!(back / 6.0, 3.78, max_relative = 0.0015);
    // 50 bar on 4.91 cm² is 2455 N, a tenth lost in the seals.
    approx::assert_relative_eq!(
        cylinder.push().get::<newton>(),
        0.9 * 2455.0,
        max_relative = 0.001
    );
    // 0.5 l/min is 8.333 cm³/s: 3.53 s out.
    approx::assert_relative_eq!(
        cylinder.time_to_extend().get::<second>(),
        29.46 / 8.3333,
        max_relative = 0.001
    );
    assert!(cylinder.time_to_retract().unwrap() < cylinder.time_to_extend());
}

#[test]
fn physics_moving_push_is_less_and_locked_hold_is_more() {
    let mut spec = cylinder();
    spec.lock_pressure = Some(Pressure::new::<bar>(150.0));
    let cylinder = Hydraulic::new(spec).unwrap();
    assert!(cylinder.push_while_moving().unwrap() < cylinder.push());
    assert!(cylinder.pull().unwrap() < cylinder.push());
    let trapped = cylinder.trapped_pressure(cylinder.hold());
    approx::assert_relative_eq!(trapped.get::<bar>(), 150.0, max_relative = 1e-12);
    spec.lock_pressure = None;
    spec.rod = None;
    let plain = Actuator::Hydraulic(Hydraulic::new(spec).unwrap());
    assert_eq!(plain.hold(), plain.push());
    assert_eq!(plain.time_to_retract(), None);
}

#[test]
fn published_copper_wire_table() {
    // NBS Circular 31, copper wire tables (from memory). At 20 °C, ohm per km: AWG 10, 5.261 mm²,
    // 3.277; AWG 14, 2.081 mm², 8.286. AWG 10 in the handbook columns, ohm per 1000 ft: 1.02 at
    // 25 °C and 1.18 at 65 °C, three digits, so half of the last is 0.5 %.
    let per_km = |area_mm2: f64, degc| 1e3 * copper_resistivity_ohm_mm2_per_m(degc) / area_mm2;
    approx::assert_relative_eq!(per_km(5.261, 20.0), 3.277, max_relative = 3e-4);
    approx::assert_relative_eq!(per_km(2.081, 20.0), 8.286, max_relative = 3e-4);
    let per_1000_ft = |degc| 0.3048 * per_km(5.261, degc);
    approx::assert_relative_eq!(per_1000_ft(25.0), 1.02, max_relative = 5e-3);
    approx::assert_relative_eq!(per_1000_ft(65.0), 1.18, max_relative = 5e-3);
}

#[test]
fn published_the_cable_of_a_feed_carries_its_fuse() {
    // ISO 10133, annex A, from memory: 2.5 mm² with insulation for 60 °C carries 17 A, 4 mm² 22 A,
    // 10 mm² 40 A.
    let motor = ElectricSpec { rated_current: ElectricCurrent::new::<ampere>(11.0), ..motor() };
    let motor = Electric::new(motor).unwrap();
    let found = |count| {
        let feed = motor.on_one_feed(count);
        let copper = feed.copper_for_fuse().map(|area| area.get::<square_millimeter>());
        (feed.fuse().ok().map(|fuse| fuse.get::<ampere>()), copper.ok())
    };
    // 11 A x 1.25 = 13.75 A; two 27.5 A; four 55 A, beyond the largest blade fuse.
    assert_eq!(found(1), (Some(15.0), Some(2.5)));
    assert_eq!(found(2), (Some(30.0), Some(10.0)));
    assert_eq!(found(4), (None, None));
}

#[test]
fn practice_fuse_and_cable() {
    let motor = Electric::new(motor()).unwrap();
    // 6 A × 1.25 = 7.5 A, itself a standard size.
    assert_eq!(motor.fuse().unwrap().get::<ampere>(), 7.5);
    let run = |allowed_drop| CableRun {
        one_way_length: Length::new::<meter>(7.0),
        allowed_drop,
        conductor_temperature: ThermodynamicTemperature::new::<degree_celsius>(20.0),
    };
    // By hand: 2·7·6/58 = 1.448 V mm²; over 0.36 V 4.02 mm², over 1.2 V 1.21 mm².
    let tight = motor.cable(&run(TIGHT_DROP)).unwrap();
    approx::assert_relative_eq!(tight.needed.get::<square_millimeter>(), 4.02, max_relative = 1e-3);
    approx::assert_relative_eq!(tight.nominal.get::<square_millimeter>(), 6.0);
    approx::assert_relative_eq!(tight.drop.get::<volt>(), 0.2414, max_relative = 1e-3);
    let loose = motor.cable(&run(LOOSE_DROP)).unwrap();
    approx::assert_relative_eq!(loose.nominal.get::<square_millimeter>(), 1.5);
    assert!(motor.cable(&run(0.2)).is_err());
    approx::assert_relative_eq!(motor.time_for_stroke().get::<second>(), 7.5);
}

#[test]
fn physics_largest_deflection_uses_up_the_force_or_the_travel() {
    let linkage = linkage();
    let travel = (deg(0.0), deg(15.0));
    let strong = Force::new::<newton>(4000.0);
    let all = largest_deflection(&linkage, travel, strong, moment).unwrap();
    assert_eq!(all.stopped_by, StoppedBy::EndOfTravel);
    approx::assert_relative_eq!(all.deflection.get::<degree>(), 15.0, max_relative = 1e-12);
    let weak = Force::new::<newton>(900.0);
    let part = largest_deflection(&linkage, travel, weak, moment).unwrap();
    assert_eq!(part.stopped_by, StoppedBy::Force);
    approx::assert_relative_eq!(part.push.get::<newton>(), 900.0, max_relative = 1e-9);
    // Moment the actuator makes there = moment of the water there.
    let lever_m = linkage.lever_at(part.deflection).unwrap().get::<meter>();
    let water = moment(part.deflection).unwrap().get::<newton_meter>();
    approx::assert_relative_eq!(900.0 * lever_m, water, max_relative = 1e-9);
}

#[test]
fn physics_more_pressure_never_gives_more_deflection() {
    let linkage = linkage();
    let available = Force::new::<newton>(1200.0);
    let mut last = f64::INFINITY;
    for tenths in 5..40 {
        let scaled = |deflection| Ok(moment(deflection)? * (f64::from(tenths) / 10.0));
        let reach = largest_deflection(&linkage, (deg(0.0), deg(15.0)), available, scaled).unwrap();
        let now = reach.deflection.get::<degree>();
        assert!(now <= last, "{now} after {last}");
        last = now;
    }
    assert!(last < 5.0);
}

#[test]
fn physics_stall_speed_needs_exactly_the_available_force() {
    let density = MassDensity::new::<kilogram_per_cubic_meter>(1025.0);
    let at = Pressure::new::<pascal>(50_000.0);
    let needed = Force::new::<newton>(1800.0);
    let available = Force::new::<newton>(2200.0);
    let speed = stall_speed(needed, at, available, density).unwrap().unwrap();
    // By hand: ½·1025·V² = 50 000·2200/1800, V = 10.92 m/s.
    approx::assert_relative_eq!(speed.get::<meter_per_second>(), 10.92, max_relative = 1e-3);
    let none = stall_speed(-needed, at, available, density).unwrap();
    assert_eq!(none, None);
    assert!(stall_speed(needed, at, available, density * 0.0).is_err());
}

#[test]
fn physics_stall_speed_and_largest_deflection_agree_with_the_water_load() {
    // At the speed where 10° just stalls, 10° is the largest deflection that can be reached.
    let at_pressure = |dynamic_pressure: Pressure| {
        move |deflection: Angle| {
            let flow = PlateFlow {
                dynamic_pressure,
                chord: mm(250.0),
                span: mm(600.0),
                wetted_length: Length::new::<meter>(4.0),
                chine_beam: Length::new::<meter>(2.2),
                deflection,
                trim: deg(3.0),
                speed_coefficient: 3.0,
            };
            let lift = Force::new::<newton>(
                0.046 * deflection.get::<degree>() * 0.15 * dynamic_pressure.get::<pascal>(),
            );
            Ok(expected_load(&flow, lift, TrimLoad::FinitePlate)?.total.hinge_moment)
        }
    };
    let (linkage, density) = (linkage(), MassDensity::new::<kilogram_per_cubic_meter>(1025.0));
    let (guess, available) = (Pressure::new::<pascal>(60_000.0), Force::new::<newton>(1500.0));
    let moment = at_pressure(guess)(deg(10.0)).unwrap();
    let needed = linkage.push_for(moment, deg(10.0)).unwrap();
    let speed = stall_speed(needed, guess, available, density).unwrap().unwrap();
    let stalling = Pressure::new::<pascal>(0.5 * 1025.0 * speed.get::<meter_per_second>().powi(2));
    let travel = (deg(0.0), deg(15.0));
    let reach = largest_deflection(&linkage, travel, available, at_pressure(stalling)).unwrap();
    approx::assert_relative_eq!(reach.deflection.get::<degree>(), 10.0, max_relative = 1e-9);
}

#[test]
fn error_too_weak_too_narrow_too_large() {
    let tired = Force::new::<newton>(100.0);
    let text = largest_deflection(&linkage(), (deg(5.0), deg(15.0)), tired, moment)
        .unwrap_err()
        .to_string();
    assert!(text.starts_with("the raised plane at 5.0° already needs 6"), "{text}");
    let mut thin = cylinder();
    thin.tube_bore = mm(1.0);
    let text = Hydraulic::new(thin).unwrap().push_while_moving().unwrap_err().to_string();
    // 128·0.02·6·8.333e-6/(π·1e-12) = 407 bar by hand.
    assert_eq!(
        text,
        "the tube loses 407.4 bar of the pump's 50.0 bar at this flow, so nothing is left to \
         move the plane; take a wider or shorter tube or a thinner oil"
    );
    let mut hungry = motor();
    hungry.rated_current = ElectricCurrent::new::<ampere>(40.0);
    let text = Electric::new(hungry).unwrap().fuse().unwrap_err().to_string();
    assert_eq!(
        text,
        "a fuse of 50.0 A is above the largest standard size listed, 40.0 A; split the circuit \
         or have it designed"
    );
}

#[test]
fn error_turbulent_tube_is_flagged_and_bad_ratings_refused() {
    let mut fast = cylinder();
    fast.pump_flow = VolumeRate::new::<liter_per_minute>(15.0);
    let loss = Hydraulic::new(fast).unwrap().tube_loss();
    assert!(!loss.laminar && loss.reynolds > 2300.0);
    let refused = |change: fn(&mut HydraulicSpec)| {
        let mut spec = cylinder();
        change(&mut spec);
        assert!(Hydraulic::new(spec).is_err());
    };
    refused(|spec| spec.bore = mm(0.0));
    refused(|spec| spec.rod = Some(mm(25.0)));
    refused(|spec| spec.efficiency = 1.1);
    refused(|spec| spec.efficiency = 0.0);
    refused(|spec| spec.lock_pressure = Some(Pressure::new::<bar>(10.0)));
    let mut soft = motor();
    soft.holding_force = Some(Force::new::<newton>(100.0));
    assert!(Electric::new(soft).is_err());
}
