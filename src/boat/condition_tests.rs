//! Loading conditions, as a library user meets them.

use uom::si::f64::{Angle, Length, Mass, Velocity};
use uom::si::{angle::degree, length::meter, mass::kilogram, velocity::meter_per_second};

use super::*;
use crate::boat::{
    Boat, BoatInput, Duty, DutyInput, HullInput, Measure, PlanePair, ThrustLine, WeightInput,
};

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

fn kilograms(value: f64) -> Mass {
    Mass::new::<kilogram>(value)
}

fn item(name: &str, kg: f64, [forward, up, starboard]: [f64; 3]) -> LoadItem {
    LoadItem {
        item: name.to_owned(),
        mass: kilograms(kg),
        forward: metres(forward),
        up: metres(up),
        starboard: metres(starboard),
    }
}

fn hull() -> HullInput {
    HullInput {
        bottom_length: Some(metres(6.5)),
        chine_beam: Some(metres(2.25)),
        deadrise: Some(Angle::new::<degree>(18.0)),
        ..HullInput::default()
    }
}

/// 2000 kg at 2.6 m, 0.7 m; fuel 200 kg at 1.5 m, 0.4 m; crew 300 kg at 2.5 m, 1.2 m.
fn input() -> BoatInput {
    let loads = vec![
        item("hull", 2000.0, [2.6, 0.7, 0.0]),
        item("fuel", 200.0, [1.5, 0.4, 0.0]),
        item("crew", 300.0, [2.5, 1.2, 0.0]),
    ];
    BoatInput::new("boat", hull(), WeightInput::Loads(loads))
}

fn totals() -> BoatInput {
    let weight = WeightInput::Totals {
        mass: kilograms(2500.0),
        lcg: Some(metres(2.5)),
        vcg: Some(metres(0.7)),
        tcg: None,
    };
    BoatInput::new("boat", hull(), weight)
}

fn change(item: &str) -> LoadChange {
    LoadChange { item: item.to_owned(), ..LoadChange::default() }
}

fn condition(name: &str, without: &[&str], loads: Vec<LoadChange>) -> ConditionInput {
    let without = without.iter().map(|&item| item.to_owned()).collect();
    ConditionInput { name: name.to_owned(), about: None, without, loads }
}

fn with(mut input: BoatInput, conditions: Vec<ConditionInput>) -> BoatInput {
    input.conditions = conditions;
    input
}

fn faults(input: BoatInput) -> Vec<String> {
    let faults = Boat::build(input).expect_err("an impossible boat");
    faults.0.iter().map(|fault| format!("{fault} ({})", fault.remedy)).collect()
}

fn assert_near(one: f64, other: f64) {
    assert!((one - other).abs() < 1e-12 * other.abs().max(1.0), "{one} {other}");
}

/// By hand: 2000 × 2.6 + 100 × 1.5 + 300 × 1.0 + 80 × 3.0 = 5890 kg m over 2480 kg;
/// 2000 × 0.7 + 100 × 0.4 + 300 × 1.2 + 80 × 1.0 = 1880 kg m; 300 × 0.5 = 150 kg m.
#[test]
fn physics_a_condition_sums_what_is_left_filled_moved_and_added() {
    let added = LoadChange {
        mass: Some(kilograms(80.0)),
        forward: Some(metres(3.0)),
        up: Some(metres(1.0)),
        ..change("dog and gear")
    };
    let half = LoadChange { mass: Some(kilograms(100.0)), ..change("FUEL") };
    let moved =
        LoadChange { forward: Some(metres(1.0)), starboard: Some(metres(0.5)), ..change("crew") };
    let conditions =
        vec![condition("full", &[], vec![half, moved, added]), condition("dry", &["fuel"], vec![])];
    let boat = Boat::build(with(input(), conditions)).unwrap();
    let full = boat.in_condition("Full").unwrap();
    let weight = full.weight();
    assert_near(weight.mass.get::<kilogram>(), 2480.0);
    assert_near(weight.lcg.get::<meter>(), 5890.0 / 2480.0);
    assert_near(weight.vcg.get::<meter>(), 1880.0 / 2480.0);
    assert_near(weight.tcg.get::<meter>(), 150.0 / 2480.0);
    let dry = boat.in_condition("dry").unwrap();
    assert_near(dry.weight().mass.get::<kilogram>(), 2300.0);
    let names: Vec<&str> = boat.conditions().iter().map(|c| c.name.as_str()).collect();
    assert_eq!(names, ["as listed", "full", "dry"]);
    assert_eq!(boat.condition().name, "as listed");
    assert_eq!((full.condition().name.as_str(), full.condition().weight), ("full", *weight));
    assert_eq!(full.in_condition("as listed").unwrap(), boat);
    assert_eq!(boat.in_all_conditions().unwrap(), [boat.clone(), full.clone(), dry]);
    assert_eq!([boat.full_name(), full.full_name()], ["boat, as listed", "boat, full"]);
}

/// Leaving an item out, setting its mass to nothing, and not listing it are the same.
#[test]
fn physics_an_item_left_out_weighs_nothing() {
    let empty = LoadChange { mass: Some(kilograms(0.0)), ..change("fuel") };
    let conditions =
        vec![condition("dry", &["fuel"], vec![]), condition("empty", &[], vec![empty])];
    let boat = Boat::build(with(input(), conditions)).unwrap();
    let mut listed = input();
    if let WeightInput::Loads(items) = &mut listed.weight {
        items.remove(1);
    }
    let listed = Boat::build(listed).unwrap();
    for name in ["dry", "empty"] {
        assert_eq!(boat.in_condition(name).unwrap().weight(), listed.weight(), "{name}");
    }
}

/// With totals the entries are added: 2500 kg at 2.5 m and 500 kg at 1.0 m make 3000 kg at 2.25 m.
#[test]
fn physics_entries_add_to_totals_and_estimates_stay_marked() {
    let guests = LoadChange {
        mass: Some(kilograms(500.0)),
        forward: Some(metres(1.0)),
        up: Some(metres(1.3)),
        ..change("guests")
    };
    let conditions = vec![condition("guests", &[], vec![guests])];
    let boat = Boat::build(with(totals(), conditions.clone())).unwrap();
    let weight = *boat.in_condition("guests").unwrap().weight();
    assert_near(weight.mass.get::<kilogram>(), 3000.0);
    assert_near(weight.lcg.get::<meter>(), 2.25);
    assert_near(weight.vcg.get::<meter>(), 0.8);
    let mut unknown = totals();
    if let WeightInput::Totals { lcg, .. } = &mut unknown.weight {
        *lcg = None;
    }
    let boat = Boat::build(with(unknown, conditions)).unwrap();
    let guests = boat.in_condition("guests").unwrap();
    let keys = |boat: &Boat| boat.estimates().iter().map(|e| e.key).collect::<Vec<_>>();
    assert!(keys(&guests).contains(&"weight.lcg"));
    assert_eq!(keys(&guests), keys(&boat));
    // The estimate is that of the totals: its other value moves the condition by 2500/3000 of it.
    let moved = guests.with_estimate("weight.lcg", Measure::Length(metres(2.5))).unwrap();
    assert_eq!(moved.condition().name, "guests");
    assert_near(moved.weight().lcg.get::<meter>(), 2.25);
}

/// The thrust line stays where it is in the boat, however its height is given: two ways of
/// giving the same line agree in every condition.
#[test]
fn physics_the_thrust_line_stays_in_the_boat() {
    let moved = LoadChange { forward: Some(metres(0.5)), up: Some(metres(2.0)), ..change("crew") };
    let conditions = vec![condition("aft and up", &[], vec![moved])];
    let mut by_height = with(input(), conditions.clone());
    by_height.drive.thrust_angle = Some(Angle::new::<degree>(8.0));
    by_height.drive.thrust_line = Some(ThrustLine::HeightAtTransom(metres(-0.2)));
    let by_height = Boat::build(by_height).unwrap();
    let mut by_offset = with(input(), conditions);
    by_offset.drive.thrust_angle = Some(Angle::new::<degree>(8.0));
    let offset = by_height.drive().thrust_offset;
    by_offset.drive.thrust_line = Some(ThrustLine::BelowCentreOfGravity(offset));
    let by_offset = Boat::build(by_offset).unwrap();
    assert_eq!(by_offset.drive().thrust_offset, offset);
    let there =
        |boat: &Boat| boat.in_condition("aft and up").unwrap().drive().thrust_offset.get::<meter>();
    assert_near(there(&by_height), there(&by_offset));
    // By hand: VCG rises by 300 × 0.8 / 2500 = 0.096 m, LCG falls by 300 × 2.0 / 2500 = 0.24 m.
    let (sine, cosine) = 8.0_f64.to_radians().sin_cos();
    assert_near(there(&by_offset) - offset.get::<meter>(), 0.096 * cosine + 0.24 * sine);
}

/// A top speed that is estimated falls with the mass; one that is given stays.
#[test]
fn physics_an_estimated_top_speed_follows_the_load() {
    let conditions = vec![condition("dry", &["fuel"], vec![])];
    let mut estimated = with(input(), conditions);
    estimated.drive.power = Some(uom::si::f64::Power::new::<uom::si::power::kilowatt>(150.0));
    let mut given = estimated.clone();
    given.drive.top_speed = Some(Velocity::new::<meter_per_second>(16.0));
    let speeds = |input: BoatInput| {
        let boat = Boat::build(input).unwrap();
        [boat.drive().top_speed, boat.in_condition("dry").unwrap().drive().top_speed]
            .map(|speed| speed.get::<meter_per_second>())
    };
    let [full, dry] = speeds(estimated);
    assert_near(dry / full, (2500.0_f64 / 2300.0).sqrt());
    assert_eq!(speeds(given), [16.0, 16.0]);
}

/// What is made from a boat stays in her condition.
#[test]
fn regression_other_planes_keep_the_condition() {
    let boat = Boat::build(with(input(), vec![condition("dry", &["fuel"], vec![])])).unwrap();
    let dry = boat.in_condition("dry").unwrap();
    let pair = PlanePair { span: metres(0.5), chord: metres(0.2) };
    let fitted = dry.with_planes(Some(pair)).unwrap();
    assert_eq!(fitted.condition().name, "dry");
    assert_eq!(fitted.weight(), dry.weight());
}

#[test]
fn regression_duties_hold_where_they_are_asked_for() {
    let duty = Duty::PorpoisingMargin {
        margin: Angle::new::<degree>(0.5),
        up_to: Velocity::new::<meter_per_second>(12.0),
    };
    let mut input = with(input(), vec![condition("dry", &["fuel"], vec![])]);
    let only_dry = DutyInput { duty, conditions: vec!["Dry".to_owned()] };
    input.duties = vec![duty.into(), only_dry.clone()];
    let boat = Boat::build(input.clone()).unwrap();
    assert_eq!((boat.duties().len(), boat.in_condition("dry").unwrap().duties().len()), (1, 2));
    input.duties = vec![only_dry];
    let boat = Boat::build(input.clone()).unwrap();
    assert!(boat.duties().is_empty() && boat.gives_duties());
    input.duties[0].conditions = vec!["drey".to_owned()];
    assert_eq!(
        faults(input),
        ["duty[0].condition: the boat has no loading condition `drey` \
          (did you mean `dry`? Her conditions are `dry`, `as listed`)"]
    );
}

#[test]
fn regression_names_mean_the_same_with_large_or_small_letters() {
    assert!(same_name(" Full Fuel", "full fuel") && !same_name("full", "full fuel"));
}

#[test]
fn error_names_of_conditions() {
    let fuel = |name: &str| condition(name, &["fuel"], vec![]);
    let twice = with(input(), vec![fuel("dry"), fuel("Dry"), fuel("as listed")]);
    let another = "give each condition a name of its own; that of the loads as they are listed is \
                   base_condition, `as listed` when it is left out";
    assert_eq!(
        faults(twice),
        [
            format!("condition[1].name: `Dry` is the name of another condition ({another})"),
            format!("condition[2].name: `as listed` is the name of another condition ({another})"),
        ]
    );
    let name_it = "give it a name by which it can be asked for, such as `light`";
    assert_eq!(
        faults(with(input(), vec![fuel("All"), fuel(" ")])),
        [
            format!("condition[0].name: `All` stands for every condition ({name_it})"),
            format!("condition[1].name: a condition needs a name ({name_it})"),
        ]
    );
    let mut renamed = with(input(), vec![fuel("as listed")]);
    renamed.base_condition = Some("normal".to_owned());
    assert_eq!(Boat::build(renamed.clone()).unwrap().condition().name, "normal");
    renamed.base_condition = Some("all".to_owned());
    assert_eq!(
        faults(renamed),
        [format!("base_condition: `all` stands for every condition ({name_it})")]
    );
    let boat = Boat::build(with(input(), vec![fuel("dry")])).unwrap();
    let unknown = boat.in_condition("dri").unwrap_err();
    assert_eq!(unknown.problem, "the boat has no loading condition `dri`");
    assert_eq!(unknown.remedy, "did you mean `dry`? Her conditions are `dry`, `as listed`");
}

#[test]
fn error_entries_of_a_condition() {
    let one = |condition: ConditionInput| faults(with(input(), vec![condition]));
    let items = "The items are `hull`, `fuel`, `crew`";
    assert_eq!(
        one(condition("light", &["fule"], vec![])),
        [format!(
            "condition[0].without: the load table has no item `fule` (did you mean `fuel`? {items})"
        )]
    );
    let some = LoadChange { mass: Some(kilograms(80.0)), ..change("crow") };
    assert_eq!(
        one(condition("light", &[], vec![some.clone()])),
        [format!(
            "condition[0].load[0].item: `crow` is not in the load table, and has no forward and no up \
             (an item that is added needs mass, forward and up; did you mean `crew`? {items})"
        )]
    );
    assert_eq!(
        one(condition("light", &[], vec![change("crew")])),
        ["condition[0].load[0].item: nothing differs for `crew` \
          (give the mass, forward, up or starboard that it has in this condition)"]
    );
    assert_eq!(
        one(condition("light", &[], vec![])),
        [
            "condition[0]: nothing differs from the loads as they are listed (say what is not aboard, \
          without = [\"fuel\"], or what is filled, moved or added, below [[condition.load]])"
        ]
    );
    let crew = LoadChange { mass: Some(kilograms(80.0)), ..change("crew") };
    assert_eq!(
        one(condition("light", &[], vec![crew.clone(), crew.clone()])),
        [
            "condition[0].load[1].item: `crew` has two entries in this condition (put what they say into one)"
        ]
    );
    assert_eq!(
        one(condition("light", &["crew"], vec![crew])),
        [
            "condition[0].load[0].item: `crew` is left out by `without`, and has an entry (delete one of the two)"
        ]
    );
    let heavy = LoadChange { mass: Some(kilograms(1e7)), ..change("crew") };
    assert!(
        one(condition("light", &[], vec![heavy]))[0]
            .starts_with("condition[0].load[0].mass: 1.000e7 kg is outside 0 to 300000 kg")
    );
    let mut twins = input();
    if let WeightInput::Loads(loads) = &mut twins.weight {
        loads.push(item("fuel", 50.0, [1.0, 0.4, 0.0]));
    }
    assert_eq!(
        faults(with(twins, vec![condition("light", &["fuel"], vec![])])),
        [
            "condition[0].without: 2 items of the load table are called `fuel` (give each item a name of its own)"
        ]
    );
    assert_eq!(
        faults(with(totals(), vec![condition("light", &["fuel"], vec![some])])),
        [
            "condition[0].without: `fuel` cannot be left out of totals (list the items below [[load]] in \
             place of [weight], or make the totals those of the light boat and add what is aboard below \
             [[condition.load]])",
            "condition[0].load[0].item: `crow` is not in the load table, and has no forward and no up \
             (give mass, forward and up of what is added to the totals of [weight])",
        ]
    );
}

/// Impossible in one condition is impossible.
#[test]
fn error_a_condition_in_which_the_boat_is_impossible() {
    let one = |changed: LoadChange| {
        let light = condition("light", &["fuel"], vec![]);
        faults(with(input(), vec![light, condition("odd", &[], vec![changed])]))
    };
    let aft =
        LoadChange { forward: Some(metres(-5.0)), mass: Some(kilograms(2500.0)), ..change("crew") };
    assert!(one(aft)[0].starts_with(
        "condition[1]: the centre of gravity (summed from the loads) is -1.489 m forward of the transom, outside the bottom"
    ));
    let aside = LoadChange { starboard: Some(metres(5.9)), ..change("crew") };
    assert!(one(aside)[0].starts_with(
        "condition[1]: the centre of gravity (summed from the loads) is 0.708 m to starboard, more than a quarter"
    ));
    let heavy = LoadChange { mass: Some(kilograms(200_000.0)), ..change("crew") };
    assert!(one(heavy)[0].starts_with("condition[1]: 202200 kg on a chine beam of 2.25 m"));
    let mut nothing = input();
    nothing.conditions = vec![condition("empty", &["hull", "fuel", "crew"], vec![])];
    assert!(
        faults(nothing)[0]
            .starts_with("condition[0]: the loads sum to 0 kg, outside 1 to 300000 kg")
    );
}
