use super::*;
use crate::input::{Beside, parse_boat_beside, read_boat};
use approx::assert_relative_eq;
use uom::si::angle::degree;

#[test]
fn regression_examples_and_limits_can_be_read() {
    crate::schema::prove(COLUMNS);
}

#[test]
fn regression_the_columns_are_documented() {
    let said = listing::documentation(HEAD, COLUMNS);
    assert_eq!(include_str!("../../data/stations/COLUMNS.md"), said);
}

fn parsed(text: &str) -> Stations {
    match parse("bottom.csv", "bottom.csv", text) {
        Ok(read) => read.stations,
        Err(unread) => panic!("{}", faults_of(unread)),
    }
}

fn faults_of(unread: Unread) -> String {
    unread
        .into_faults(|problem, help| {
            FileFaults::new("b.toml", "", vec![FileFault { problem, help, place: None }])
        })
        .plain_text()
}

fn refusal(text: &str) -> String {
    faults_of(parse("bottom.csv", "bottom.csv", text).err().expect("faults"))
}

/// As a spreadsheet saves it where a comma is the decimal mark, and as a person writes it.
#[test]
fn regression_separators_decimals_and_units_of_spreadsheets_are_read_alike() {
    let plain = parsed(
        "station (m),keel_height (m),chine_height (m),chine_half_beam (m)\n0,0,0.31,1.05\n2.5,0,0.35,1.1\n6,0.1,0.6,0.4\n",
    );
    let sheet = parsed(
        "Station [m];Keel height [mm];Chine height [mm];Chine half-beam [mm]\n0;0;310;1050\n2,5;0;350;1100\n6;100;600;400\n",
    );
    let rows = |stations: &Stations| -> Vec<[f64; 4]> {
        let of = |row: &Station| {
            [row.forward, row.keel_height, row.chine_height, row.chine_half_beam]
                .map(|length| length.get::<meter>())
        };
        stations.rows().iter().map(of).collect()
    };
    for (one, other) in rows(&plain).iter().flatten().zip(rows(&sheet).iter().flatten()) {
        assert_relative_eq!(one, other, max_relative = 1e-12);
    }
}

#[test]
fn error_faults_name_file_line_value_and_fix() {
    let head = "station (m),keel_height (m),chine_height (m),chine_half_beam (m)\n";
    let text = refusal(&format!("{head}0,0,0.3,1\n3,0,0.3,-1\n2,0.5,0.3,1\n"));
    assert!(
        text.contains("bottom.csv, line 3") && text.contains("`-1` is outside 0 m to 6 m"),
        "{text}"
    );
    let text = refusal(&format!("{head}0,0,0.3,1\n3,0,0.3,1\n2,0.5,0.3,1\n"));
    for part in [
        "bottom.csv, line 4",
        "station 2 m does not lie forward of the one before it, 3 m",
        "list the stations from the transom forward, each once",
        "the chine, 0.3 m, lies below the keel, 0.5 m",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let text = refusal(&format!("{head}0,0,0.3,1\n3,0,0.3,1\n"));
    assert!(text.contains("the list holds 2 stations, fewer than 3"), "{text}");
    let text = refusal("station,keel_height,chine_height,chine_half_beam\n0,0,300,1000\n");
    assert!(text.contains("keel_height (m)"), "{text}");
    let text = refusal("station (m),keel_height (m),chine_height (m)\n0,0,0.3\n");
    assert!(text.contains("the column chine_half_beam is missing"), "{text}");
}

#[test]
fn error_a_file_that_is_not_there_is_told_at_its_key() {
    let text =
        "[hull]\nbottom_length = \"6 m\"\nstations = \"none.csv\"\n[weight]\nmass = \"2 t\"\n";
    for beside in [Beside::Nothing, Beside::Folder("data/stations".as_ref())] {
        let told = parse_boat_beside("b.toml", text, beside).unwrap_err().plain_text();
        assert!(told.contains("b.toml, line 3") && told.contains("hull.stations: "), "{told}");
        assert!(told.contains("none.csv"), "{told}");
    }
}

#[test]
fn error_stations_and_beam_are_not_given_together() {
    let text = "[hull]\nbottom_length = \"6 m\"\nchine_beam = \"2 m\"\nstations = \"heron-bottom.csv\"\n[weight]\nmass = \"2 t\"\n";
    let told = parse_boat_beside("b.toml", text, Beside::Folder("data/stations".as_ref()))
        .unwrap_err()
        .plain_text();
    assert!(told.contains("hull.chine_beam is given beside hull.stations"), "{told}");
    assert!(told.contains("b.toml, line 3"), "{told}");
}

#[test]
fn regression_the_invented_boat_takes_her_bottom_from_the_list() {
    let file = read_boat("data/stations/heron.toml".as_ref()).unwrap();
    assert!(file.warnings.is_empty(), "{:?}", file.warnings);
    let (boat, hull) = (&file.boat, file.boat.hull());
    let stations = boat.stations_of("hull.chine_beam").expect("stations");
    assert_eq!(stations.source(), "heron-bottom.csv");
    // By hand from the list, widest and mid-chine station both at 3.2 m: atan(402/1200) and atan(300/1120).
    assert_relative_eq!(hull.chine_beam.get::<meter>(), 2.4, max_relative = 1e-12);
    assert_relative_eq!(hull.deadrise.get::<degree>(), 18.52, epsilon = 0.005);
    assert_relative_eq!(boat.transom().beam.get::<meter>(), 2.24, max_relative = 1e-12);
    assert_relative_eq!(boat.transom().deadrise.get::<degree>(), 14.99, epsilon = 0.01);
    assert!(!boat.is_estimated("hull.chine_beam") && !boat.has_estimated_transom());
}
