use super::*;
use crate::boat::duty::KINDS;
use crate::schema::prove;

#[test]
fn regression_every_list_has_a_most() {
    for table in TABLES.iter().filter(|table| table.list) {
        assert!(crate::schema::most::most_of(table.name).is_some(), "{}", table.name);
    }
}

#[test]
fn regression_every_row_can_be_read_and_says_what_it_means() {
    for table in TABLES.iter().chain([&ASKED]) {
        prove(table.keys);
        for shown in table.shown {
            assert!(table.key(shown).is_some_and(|key| !key.is_needed()), "{shown}");
        }
    }
}

#[test]
fn regression_every_number_has_limits_and_its_example_is_usual() {
    for table in TABLES.iter().chain([&ASKED]) {
        for key in table.keys {
            let path = table.path_of(key);
            let bound = crate::boat::bound_of(&path);
            assert_eq!(bound.is_some(), key.kind.is_number(), "{path}");
            let Some(bound) = bound else { continue };
            let measure = |text| Measure::of(key.kind, key.kind.read(text).expect(&path));
            assert!(bound.admits(measure(key.example)), "{path}");
            assert!(bound.is_usual(measure(key.example)), "{path}");
            if let Need::Default(value, _) = key.need {
                assert!(bound.is_usual(measure(value)), "{path}");
            }
        }
    }
}

#[test]
fn physics_every_usual_range_lies_within_the_hard_limits() {
    for table in TABLES.iter().chain([&ASKED]) {
        for key in table.keys {
            let Limits::Range { hard, usual } = key.limits else { continue };
            let path = table.path_of(key);
            assert!(hard.0 <= usual.0, "{path}");
            assert!(usual.0 < usual.1, "{path}");
            assert!(usual.1 <= hard.1, "{path}");
        }
    }
}

#[test]
fn regression_list_positions_are_looked_up_by_their_plain_key() {
    assert_eq!(row_of("load[2].mass"), table("load").unwrap().key("mass"));
    assert_eq!(row_of("condition[1].load[0].up"), table("condition.load").unwrap().key("up"));
    assert_eq!(row_of("name"), table("").unwrap().key("name"));
    assert_eq!(row_of("run.waves"), ASKED.key("waves"));
    assert!(row_of("hull.length").is_none());
}

#[test]
fn regression_duty_keys_are_keys_of_the_duty_table() {
    let duty = table("duty").unwrap();
    for key in KINDS.iter().flat_map(|kind| kind.keys) {
        assert!(duty.key(key).is_some(), "{key}");
    }
}
