use super::*;
use crate::boat::BOUNDS;

#[test]
fn regression_schema_and_bounds_name_the_same_quantities() {
    let mut quantities = Vec::new();
    for table in TABLES {
        for key in table.keys {
            assert!(!table.meaning(key).is_empty(), "{}", table.path_of(key));
            if matches!(key.kind, Kind::Quantity(_) | Kind::Number) {
                quantities.push(table.path_of(key));
            }
        }
    }
    // Bounds under `run` are those of the command line.
    let in_files = BOUNDS.iter().filter(|bound| !bound.key.starts_with("run."));
    let mut bounds: Vec<String> = in_files.map(|bound| bound.key.to_owned()).collect();
    quantities.sort();
    bounds.sort();
    assert_eq!(quantities, bounds);
}

#[test]
fn regression_duty_keys_are_keys_of_the_duty_table() {
    let duty = table("duty").unwrap();
    let kinds: Vec<&str> = DUTY_KEYS.iter().map(|(kind, _)| *kind).collect();
    assert_eq!(kinds, DUTY_KINDS);
    for key in DUTY_KEYS.iter().flat_map(|(_, keys)| *keys) {
        assert!(duty.key(key).is_some(), "{key}");
    }
}
