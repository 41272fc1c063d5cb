//! What is taken for a key that is left out: the boat is the same as one that says so.

use crate::boat::condition::AS_LISTED;
use crate::boat::estimate::water_temperature;
use crate::boat::keys::{TABLES, Table, example_line, row_of};
use crate::boat::propulsion::usual_efficiency;
use crate::boat::{Boat, Measure, ObstacleKind, WaterKind};
use crate::hydro::friction::FULL_SCALE_ALLOWANCE;
use crate::input::parse_boat;
use crate::schema::{Kind, Need, Row};

/// Tables that every file needs, and what stands in them.
const ALWAYS: [(&str, &str); 2] = [("hull", "bottom_length = \"6.5 m\"\n"), ("weight", "")];
/// What makes a key of a table count.
const BESIDE: [(&str, &str); 2] = [
    ("drive", "power = \"150 kW\"\nengine_speed = \"3000 rpm\"\nrotation = \"left\"\n"),
    ("water", "kind = \"sea\"\n"),
];

/// The keys that a table needs, each with its example.
fn needed(table: &Table) -> String {
    let keys = table.keys.iter().filter(|key| key.is_needed());
    keys.map(|key| format!("{}\n", example_line(key))).collect()
}

/// A boat that has a table, with a line more in it.
fn boat_with(own: &Table, line: &str) -> Boat {
    let beside = |name: &str| {
        let all = ALWAYS.iter().chain(&BESIDE);
        all.filter(|(table, _)| *table == name).map(|(_, lines)| *lines).collect::<String>()
    };
    let mut text = String::new();
    for table in TABLES {
        let is_own = table.name == own.name;
        let is_replaced = own.name == "load" && table.name == "weight";
        let is_always = ALWAYS.iter().any(|(name, _)| *name == table.name) && !is_replaced;
        if is_own || is_always {
            let more = if is_own { line } else { "" };
            let (header, lines) = (table.header(), beside(table.name));
            text.push_str(&format!("{header}\n{}{lines}{more}\n", needed(table)));
        }
    }
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
        Kind::Quantity(crate::units::Dimension::Length) => "120 mm",
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
    assert_eq!(count, 24);
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
