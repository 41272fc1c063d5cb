//! Loading conditions in a boat file: what is read, and every error text word for word.

use super::tests::{BOAT, fault_text};
use crate::input::parse_boat;
use uom::si::{length::meter, mass::kilogram};

const LOADS: &str = r#"name = "Test boat"
base_condition = "two aboard"
[hull]
bottom_length = "6.5 m"
chine_beam = "2.25 m"
deadrise = "18 deg"
[[load]]
item = "hull"
mass = "2000 kg"
forward = "2.6 m"
up = "0.7 m"
[[load]]
item = "fuel"
mass = "200 kg"
forward = "1.5 m"
up = "0.4 m"
[[condition]]
name = "dry"
about = "Hauled out."
without = ["fuel"]
[[condition]]
name = "guests"
[[condition.load]]
item = "fuel"
mass = "100 kg"
[[condition.load]]
item = "guests"
mass = "300 kg"
forward = "2 m"
up = "1 m"
starboard = "-0.2 m"
"#;

fn wrong(from: &str, to: &str) -> String {
    assert!(LOADS.contains(from), "{from}");
    fault_text(&LOADS.replacen(from, to, 1))
}

#[test]
fn regression_conditions_are_read() {
    let boat = parse_boat("boat.toml", LOADS).unwrap().boat;
    let names: Vec<&str> = boat.conditions().iter().map(|c| c.name.as_str()).collect();
    assert_eq!(names, ["two aboard", "dry", "guests"]);
    assert_eq!(boat.conditions()[1].about.as_deref(), Some("Hauled out."));
    let guests = boat.in_condition("guests").unwrap();
    assert!((guests.weight().mass.get::<kilogram>() - 2400.0).abs() < 1e-9);
    assert!((guests.weight().tcg.get::<meter>() + 60.0 / 2400.0).abs() < 1e-12);
    // One name may stand without a list.
    let one = LOADS.replace("[\"fuel\"]", "\"fuel\"");
    assert_eq!(parse_boat("boat.toml", &one).unwrap().boat.input(), boat.input());
    let file = parse_boat("boat.toml", LOADS).unwrap().in_condition("dry").unwrap();
    assert_eq!(file.boat.condition().name, "dry");
}

#[test]
fn error_unknown_item() {
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x condition `dry`, without: the load table has no item `fule`
    ,-[boat.toml:20:11]
 19 | about = "Hauled out."
 20 | without = ["fule"]
    :           ^^^^^^^^
 21 | [[condition]]
    `----
  help: did you mean `fuel`? The items are `hull`, `fuel`
"#;
    assert_eq!(wrong("[\"fuel\"]", "[\"fule\"]").trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_new_item_without_a_place() {
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x condition `guests`, load.item (entry 2): `guests` is not in the load
  | table, and has no forward
    ,-[boat.toml:27:8]
 26 | [[condition.load]]
 27 | item = "guests"
    :        ^^^^^^^^
 28 | mass = "300 kg"
    `----
  help: an item that is added needs mass, forward and up; did you mean `fuel`?
        The items are `hull`, `fuel`
"#;
    assert_eq!(wrong("forward = \"2 m\"\n", "").trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_values_of_an_entry() {
    let unit = wrong("\"100 kg\"", "\"100 m\"");
    assert!(
        unit.contains("condition `guests`, load.mass (entry 1): `m` is a unit of length, and a"),
        "{unit}"
    );
    assert!(unit.contains("[boat.toml:25:13]"), "{unit}");
    let bare = wrong("\"100 kg\"", "100");
    assert!(bare.contains("condition `guests`, load.mass (entry 1): 100 has no unit"), "{bare}");
    let far = wrong("forward = \"2 m\"", "forward = \"200 m\"");
    assert!(
        far.contains("condition `guests`, load.forward (entry 2): 200 m is outside -5 to 50 m"),
        "{far}"
    );
    let key = wrong("up = \"1 m\"", "upp = \"1 m\"");
    assert!(key.contains("[[condition.load]] has no key `upp`"), "{key}");
    let item = wrong("item = \"guests\"\n", "");
    assert!(item.contains("condition `guests`, load.item (entry 2) is missing"), "{item}");
    assert!(item.contains("write below [[condition.load]] for example"), "{item}");
    let list = wrong("[[condition.load]]", "[condition.load]");
    assert!(list.contains("invalid") || list.contains("[[condition.load]]"), "{list}");
}

#[test]
fn error_lists_and_names_of_conditions() {
    let empty = wrong("[\"fuel\"]", "[]");
    assert!(empty.contains("condition `dry`, without: the list is empty"), "{empty}");
    assert!(empty.contains("name at least one, or delete the line"), "{empty}");
    let number = wrong("[\"fuel\"]", "[3]");
    assert!(
        number.contains("condition `dry`, without: [3] is not a name, or a list of names"),
        "{number}"
    );
    let nameless = wrong("name = \"dry\"\n", "");
    assert!(nameless.contains("condition.name (entry 1) is missing"), "{nameless}");
    let unnamed = wrong("name = \"guests\"\n", "").replace('\n', " ");
    assert!(unnamed.contains("condition.name (entry 2) is missing"), "{unnamed}");
    let same = wrong("name = \"guests\"", "name = \"Two Aboard\"");
    assert!(
        same.contains("condition.name (entry 2): `Two Aboard` is the name of another condition"),
        "{same}"
    );
    let misspelt = wrong("[[condition]]", "[[conditions]]");
    assert!(misspelt.contains("a boat file has no `conditions` at the top"), "{misspelt}");
}

#[test]
fn error_a_centre_of_gravity_outside_the_boat_names_the_condition() {
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x condition `guests`: the centre of gravity (summed from the loads) is 0.7 m
  | to starboard, more than a quarter of the chine beam
    ,-[boat.toml:21:1]
 20 | without = ["fuel"]
 21 | [[condition]]
    : ^^^^^^^^^^^^^
 22 | name = "guests"
    `----
  help: a boat loaded so does not run upright; shift the weight
"#;
    let text = wrong("starboard = \"-0.2 m\"", "starboard = \"5.6 m\"");
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_duties_in_conditions_that_are_not_there() {
    let duty = "[[duty]]\nkind = \"least-resistance\"\nwithin = \"3 %\"\nspeed = \"20 kn\"\n";
    let with = |condition: &str| format!("{LOADS}{duty}condition = {condition}\n");
    let held = parse_boat("boat.toml", &with("[\"dry\", \"guests\"]")).unwrap().boat;
    assert!(held.duties().is_empty() && held.in_condition("dry").unwrap().duties().len() == 1);
    let unknown = fault_text(&with("\"gests\""));
    assert!(
        unknown.contains("duty.condition (entry 1): the boat has no loading condition `gests`"),
        "{unknown}"
    );
    assert!(unknown.contains("did you mean `guests`? Her conditions are `guests`"));
    assert!(fault_text(&with("[]")).contains("duty.condition (entry 1): the list is empty"));
    // Without conditions in the file there is still the one of the loads.
    let alone = fault_text(&format!("{BOAT}{duty}condition = \"dry\"\n"));
    assert!(alone.contains("Her conditions are `as listed`"), "{alone}");
}
