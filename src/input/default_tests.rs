//! Every key by its row: what is taken when it is left out, and that its limits are kept.

use crate::boat::condition::AS_LISTED;
use crate::boat::duty::KINDS;
use crate::boat::estimate::water_temperature;
use crate::boat::keys::{TABLES, Table, example_line, row_of};
use crate::boat::propulsion::usual_efficiency;
use crate::boat::{Boat, Measure, ObstacleKind, WaterKind, bound_of};
use crate::hydro::friction::FULL_SCALE_ALLOWANCE;
use crate::input::parse_boat;
use crate::schema::{Kind, Limits, Need, Row};

/// Tables that every file needs, and what stands in them.
const ALWAYS: [(&str, &str); 2] =
    [("hull", "bottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n"), ("weight", "")];
/// What makes a key of a table count.
const BESIDE: [(&str, &str); 2] = [
    ("drive", "power = \"150 kW\"\nengine_speed = \"3000 rpm\"\nrotation = \"left\"\n"),
    ("water", "kind = \"sea\"\n"),
];

/// The keys that a table needs but one, each with its example.
fn needed(table: &Table, but: &str) -> String {
    let keys = table.keys.iter().filter(|key| key.is_needed() && key.name != but);
    keys.map(|key| format!("{}\n", example_line(key))).collect()
}

/// A file with a table in it that holds these lines, beside what every file needs.
fn file_with(own: &Table, lines: &str) -> String {
    let mut text = String::new();
    for table in TABLES {
        let is_own = table.name == own.name;
        let is_replaced = own.name == "load" && table.name == "weight";
        let is_always = ALWAYS.iter().any(|(name, _)| *name == table.name) && !is_replaced;
        let is_above = own.name == "condition.load" && table.name == "condition";
        if is_own {
            text.push_str(&format!("{}\n{lines}\n", table.header()));
        } else if is_always || is_above {
            let beside = lines_beside(table.name);
            text.push_str(&format!("{}\n{beside}{}\n", table.header(), needed(table, "")));
        }
    }
    text
}

fn lines_beside(name: &str) -> String {
    let all = ALWAYS.iter().chain(&BESIDE);
    all.filter(|(table, _)| *table == name).map(|(_, lines)| *lines).collect()
}

/// A boat that has a table, with a line more in it.
fn boat_with(own: &Table, line: &str) -> Boat {
    let text = file_with(own, &format!("{}{}{line}", needed(own, ""), lines_beside(own.name)));
    parse_boat("b.toml", &text).unwrap_or_else(|faults| panic!("{text}{faults:?}")).boat
}

/// Everything of a boat but what was written, and what is said of it.
fn told(boat: &Boat) -> String {
    let seen: Vec<_> =
        boat.input().seen.iter().map(|one| (one.half_width(), one.deflection)).collect();
    format!(
        "{:?}",
        (
            (boat.hull(), boat.weight(), boat.drive(), boat.water(), boat.air(), boat.wind()),
            (boat.appendages(), boat.transom(), boat.sizing(), boat.plane_effectiveness()),
            (seen, boat.roughness().unwrap_or(FULL_SCALE_ALLOWANCE)),
        )
    )
}

/// A value as a file writes it.
fn written(key: &Row, value: &'static str) -> String {
    example_line(&Row { example: value, ..*key })
}

/// A number that is not the one taken.
fn another(key: &Row) -> &'static str {
    match key.kind {
        Kind::Number if key.name.ends_with("aspect") => "2.5",
        Kind::Number if key.name == "roughness" => "0.0009",
        Kind::Number => "2",
        Kind::Quantity(crate::units::Dimension::Angle) => "3 deg",
        Kind::Quantity(crate::units::Dimension::Length) => "60 mm",
        Kind::Quantity(crate::units::Dimension::Temperature) => "7 degC",
        Kind::Quantity(crate::units::Dimension::Fraction) => "65 %",
        kind => panic!("no other value of {kind:?}"),
    }
}

#[test]
fn regression_left_out_is_the_value_that_the_row_names() {
    let mut count = 0;
    for table in TABLES {
        for key in table.keys {
            let Need::Default(value, _) = key.need else { continue };
            let path = table.path_of(key);
            let absent = told(&boat_with(table, ""));
            assert_eq!(told(&boat_with(table, &written(key, value))), absent, "{path}");
            // And the key counts: with another value the boat is another one.
            let line = match path.as_str() {
                "drive.counter_rotating" => "engines = 3\ncounter_rotating = 1".to_owned(),
                "drive.engines" => "engines = 2\ncounter_rotating = 1".to_owned(),
                // Planes down need planes: the angle itself is compared above.
                "seen.deflection" => continue,
                _ => written(key, another(key)),
            };
            assert_ne!(told(&boat_with(table, &line)), absent, "{path}");
            count += 1;
        }
    }
    assert!(count >= 24, "only {count} keys have a value of their own");
}

/// Texts that hold a number of a rule that depends on something else.
#[test]
fn regression_rules_are_told_with_their_numbers() {
    let absent = |key: &str| row_of(key).expect("a key").absent();
    let [sea, fresh] = [WaterKind::Sea, WaterKind::Fresh].map(WaterKind::usual_salinity);
    assert_eq!(absent("water.salinity"), format!("{sea} for sea, {fresh} for fresh"));
    let mm = |kind: ObstacleKind| 1000.0 * kind.usual_clearance().value;
    assert_eq!(mm(ObstacleKind::Transducer), mm(ObstacleKind::DriveLeg));
    let [leg, other] = [ObstacleKind::DriveLeg, ObstacleKind::Ladder].map(mm);
    assert_eq!(
        absent("transom.obstacle.clearance"),
        format!("{leg:.0} mm for a transducer or leg, else {other:.0} mm")
    );
    let efficiency = usual_efficiency().value;
    assert!(absent("drive.propulsive_efficiency").contains(&format!("else {efficiency},")));
    assert_eq!(absent("base_condition"), format!("`{AS_LISTED}`"));
    assert_eq!(absent("name"), format!("`{}`", super::UNNAMED));
    assert_eq!(
        water_temperature().value,
        Measure::of(
            row_of("water.temperature").unwrap().kind,
            row_of("water.temperature").unwrap().default().unwrap(),
        )
    );
    // A published constant: its home is the friction line that it is added to.
    assert_eq!(row_of("hull.roughness").unwrap().default(), Some(FULL_SCALE_ALLOWANCE));
}

/// A number above the hard limits of its key.
fn too_much(key: &Row) -> String {
    let Limits::Range { hard: (low, high), .. } = key.limits else { panic!("no limits") };
    let number = format!("{}", high + 0.5 * (high - low));
    match key.kind {
        Kind::Number => format!("{} = {number}\n", key.name),
        kind => format!("{} = \"{number} {}\"\n", key.name, kind.unit()),
    }
}

/// The lines with which a key counts, that key itself left out.
fn lines_for(table: &Table, key: &Row) -> String {
    let examples = |names: &[&str]| {
        let others = names.iter().filter(|name| **name != key.name);
        let rows = others.map(|name| table.key(name).expect("a key of the table"));
        rows.map(|row| format!("{}\n", example_line(row))).collect::<String>()
    };
    match (table.name, key.name) {
        ("duty", name) => {
            let takes = KINDS.iter().find(|kind| kind.keys.contains(&name));
            let kind = takes.expect("some duty takes it");
            let left_out = if name == "moment" { ["mass", "distance"] } else { ["moment"; 2] };
            let keys: Vec<&str> =
                kind.keys.iter().copied().filter(|key| !left_out.contains(key)).collect();
            format!("kind = \"{}\"\n{}", kind.word, examples(&keys))
        }
        ("water", "density" | "kinematic_viscosity") => {
            examples(&["density", "kinematic_viscosity"])
        }
        ("hull", "entrance_half_angle" | "transom_area_ratio" | "waterline_length") => {
            let pair = examples(&["entrance_half_angle", "transom_area_ratio"]);
            format!("{}{pair}", needed(table, key.name)) + lines_beside("hull").as_str()
        }
        ("hull", "bottom_length" | "chine_beam") => examples(&["bottom_length", "chine_beam"]),
        ("drive", "power" | "engine_speed") => String::new(),
        (name, _) => needed(table, key.name) + lines_beside(name).as_str(),
    }
}

#[test]
fn error_no_number_of_a_file_goes_unchecked() {
    let mut count = 0;
    for table in TABLES {
        for key in table.keys.iter().filter(|key| key.kind.is_number()) {
            let path = table.path_of(key);
            let text = file_with(table, &format!("{}{}", lines_for(table, key), too_much(key)));
            let faults = match parse_boat("b.toml", &text) {
                Ok(_) => panic!("{path} is not checked\n{text}"),
                Err(faults) => faults,
            };
            let allowed = bound_of(&path).map_or(key.allowed(), |bound| bound.allowed());
            let outside = format!("is outside {allowed}");
            let is_it = |problem: &str| problem.contains(key.name) && problem.contains(&outside);
            assert!(
                faults.faults().iter().any(|fault| is_it(&fault.problem)),
                "{path}\n{text}{:?}",
                faults.faults()
            );
            count += 1;
        }
    }
    assert!(count >= 92, "only {count} numbers were tried");
}
