use super::*;
use crate::boat::duty::KINDS;
use crate::input::parse_boat;

#[test]
fn regression_the_starter_file_is_a_boat_without_warnings() {
    let file = parse_boat("new.toml", &starter_file()).unwrap();
    assert_eq!(file.boat.name(), "My boat");
    assert_eq!(file.warnings, []);
}

/// Somebody who changes some lines has the others counted as his own: it is said which stand as they were.
#[test]
fn regression_what_stands_as_the_starter_had_it_is_named_once_something_was_changed() {
    let text = starter_file()
        .replace("name = \"My boat\"", "name = \"Tern\"")
        .replace("mass = \"2800 kg\"", "mass = \"1950 kg\"")
        .replace("deadrise = \"18 deg\"", "#deadrise = \"18 deg\"");
    let file = parse_boat("tern.toml", &text).unwrap();
    let [warning] = &file.warnings[..] else { panic!("{:?}", file.warnings) };
    let line = text.lines().position(|line| line.starts_with("bottom_length")).unwrap() + 1;
    assert_eq!(
        warning.to_string(),
        format!(
            "tern.toml, line {line}: hull.bottom_length, hull.chine_beam, weight.lcg, weight.vcg, \
             drive.power, drive.thrust_angle, drive.thrust_offset still as `planewright new` \
             wrote: put this boat's own values in, or a # before those that nobody knows, which \
             are then estimated"
        )
    );
}

#[test]
fn regression_the_starter_file_mentions_every_key() {
    let text = starter_file();
    for table in TABLES {
        assert!(text.contains(&table.header()), "{}", table.name);
        let about: String = table.about.chars().take(30).collect();
        let start = text.find(&about).unwrap();
        for key in table.keys {
            let line = format!("\n{} = ", key.name);
            let comment = format!("\n#{} = ", key.name);
            let explained = format!("\n# {}: ", key.name);
            let below = &text[start..];
            let found = [line, comment, explained].iter().any(|form| below.contains(form.as_str()));
            assert!(found, "{}", table.path_of(key));
        }
    }
    assert!(text.lines().all(|line| line.chars().count() <= WIDTH));
}

/// Everything that stands there as a comment can be used by taking the comment sign away.
#[test]
fn regression_the_commented_lines_can_be_used() {
    let text = starter_file().replace("\n#", "\n").replace("\n ", "\n# ");
    let without_totals = text.replace("[weight]\n", "").replace("\nlcg = \"2.45 m\"", "");
    let without_totals = without_totals
        .replace("\nvcg = \"0.75 m\"", "")
        .replace("\ntcg = \"0 m\"", "")
        .replace("\nmass = \"2800 kg\"", "");
    let loads = without_totals
        .replace("mass = \"170 kg\"", "mass = \"2800 kg\"")
        .replace("\nstations = \"bottom.csv\"", "")
        .replace("\nthrust_height = \"-0.15 m\"", "")
        .replace("\npropulsive_efficiency = \"52 %\"", "")
        .replace("\ndensity = \"1026 kg/m^3\"", "")
        .replace("\nkinematic_viscosity = \"1.19e-6 m^2/s\"", "")
        .replace("\nsource = \"weighed\"", "");
    let file = parse_boat("new.toml", &loads).unwrap_or_else(|faults| {
        panic!("{:?}", faults.faults());
    });
    assert_eq!(file.boat.duties().len(), KINDS.len());
    for (duty, kind) in file.boat.duties().iter().zip(KINDS) {
        assert_eq!(duty.name(), kind.word);
    }
    assert!(file.boat.planes().is_some() && file.boat.air().is_some());
    assert!(file.boat.appendages().is_some());
}
