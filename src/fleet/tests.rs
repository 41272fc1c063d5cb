use uom::si::velocity::knot;

use super::source::{Place, Source, open};
use super::vary::{Combinations, Varied};
use super::*;
use crate::balance::{Balance, Settings, fields};
use crate::field::as_data;
use crate::input::{parse_boat, read_boat};
use uom::si::f64::{Angle, Velocity};

const HEADINGS: [&str; 6] = [
    "id",
    "hull.bottom_length [m]",
    "hull.chine_beam [m]",
    "hull.deadrise",
    "weight.mass [kg]",
    "weight.lcg [m]",
];

fn at_20_kn() -> Question {
    Question::Run(RunQuestion::at(vec![Velocity::new::<knot>(20.0)]))
}

fn fleet(headings: &[&str], keep: &[&str]) -> Result<Fleet, Fault> {
    let own = |all: &[&str]| all.iter().map(|&one| one.to_owned()).collect::<Vec<_>>();
    Fleet::of(&own(headings), &own(keep), None, at_20_kn())
}

fn row(cells: [&str; 6]) -> Line {
    let value = |cell: &str| match (cell, cell.parse()) {
        ("", _) => Value::Empty,
        (_, Ok(number)) => Value::Number(number),
        _ => Value::Text(cell.to_owned()),
    };
    Ok(cells.map(value).to_vec())
}

fn cell<'a>(fleet: &Fleet, row: &'a [Cell], column: &str) -> &'a Cell {
    let place = fleet.columns().iter().position(|known| known.name == column);
    &row[place.unwrap_or_else(|| panic!("no column {column}"))]
}

fn text(cell: &Cell) -> &str {
    match cell {
        Cell::Text(text) => text,
        other => panic!("no text: {other:?}"),
    }
}

#[test]
fn regression_a_row_answers_what_the_boat_in_a_file_of_her_own_does() {
    let fleet = fleet(&HEADINGS, &["id"]).unwrap();
    let rows = fleet.answers(
        1,
        &[
            row(["a", "6.5", "2.25", "18 deg", "2800", "2.45"]),
            // The same in other units.
            row(["b", "6500 mm", "2.25", "18 deg", "2.8 t", "245 cm"]),
        ],
    );
    let text = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n\
        [weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\n";
    let boat = parse_boat("heron", text).unwrap().boat;
    let balance = Balance::of(&boat, &Settings::default());
    let point = balance.point(Velocity::new::<knot>(20.0), Angle::default()).unwrap();
    for field in [fields::TRIM, fields::RESISTANCE, fields::PORPOISING_LIMIT] {
        let expected = Cell::Number(as_data(field.si(&point).unwrap()));
        for row in &rows {
            assert_eq!(cell(&fleet, row, &field.si_name()), &expected, "{}", field.key);
        }
    }
    assert_eq!(
        rows.iter().map(|row| &row[0]).collect::<Vec<_>>(),
        [&Cell::Whole(1), &Cell::Whole(2)]
    );
    assert_eq!(cell(&fleet, &rows[1], "id"), &Cell::Text("b".into()));
}

#[test]
fn error_a_fault_is_a_column_of_its_row_and_the_others_go_on() {
    let fleet = fleet(&HEADINGS, &["id"]).unwrap();
    let lines = [
        row(["a", "6.5", "22.5", "18 deg", "2800", "2.45"]),
        row(["b", "6.5", "2.25", "18", "2800", "2.45"]),
        row(["c", "6.5", "2.25", "deep V", "2800", ""]),
        row(["d", "6.5", "2.25", "18 deg", "", "2.45"]),
        Err(Wrong { fault: "line 6 has 3 cells".to_owned(), cure: "write six".to_owned() }),
        row(["e", "6.5", "2.25", "18 deg", "2800", "2.45\u{202e}"]),
    ];
    let rows = fleet.answers(1, &lines);
    assert_eq!(rows.len(), 6);
    let fault = |place: usize| text(cell(&fleet, &rows[place], "fault"));
    assert!(fault(0).contains("hull.chine_beam: 22.5 m is outside 0.1 to 12 m"), "{}", fault(0));
    assert!(fault(1).contains("hull.deadrise: `18` has no unit"), "{}", fault(1));
    assert!(text(cell(&fleet, &rows[1], "cure")).contains("18 deg"));
    assert_eq!(cell(&fleet, &rows[2], "fault"), &Cell::Empty);
    assert_eq!(text(cell(&fleet, &rows[2], "outcome")), "running");
    assert!(fault(3).contains("weight.mass is missing"), "{}", fault(3));
    assert_eq!(fault(4), "line 6 has 3 cells");
    assert!(fault(5).contains("U+202E"), "{}", fault(5));
    assert_eq!(cell(&fleet, &rows[0], "id"), &Cell::Text("a".into()));
    assert_eq!(cell(&fleet, &rows[0], "trim_deg"), &Cell::Empty);
}

#[test]
fn error_headings_that_no_boat_file_has() {
    let refused = |heading: &str| {
        let fault = fleet(&[heading], &[]).unwrap_err();
        format!("{}; {}", fault.problem, fault.remedy)
    };
    assert!(refused("hull.chine_bem [m]").contains("did you mean `hull.chine_beam`?"));
    assert!(refused("hull.chine_beam [kg]").contains("has no unit that fits"));
    assert!(refused("load.mass [kg]").contains("`load[1].mass`"));
    assert!(refused("load[0].mass [kg]").contains("`load[1].mass`"));
    assert!(refused("load[9999].mass [kg]").contains("up to 500"));
    assert!(refused("condition[1].name").contains("a row is one loading"));
    assert!(refused("hull.stations").contains("--boat"));
    assert!(refused("run.roughness").contains("is no key of a boat file"));
    let twice = fleet(&["hull.deadrise [deg]", "hull.deadrise"], &[]).unwrap_err();
    assert!(twice.problem.contains("is there twice"), "{}", twice.problem);
    let lost = fleet(&["hull.deadrise"], &["boat"]).unwrap_err();
    assert!(lost.problem.contains("no column `boat`"), "{}", lost.problem);
    let no_speed = Question::Run(RunQuestion::at(Vec::new()));
    let asked = Fleet::of(&["hull.deadrise".to_owned()], &[], None, no_speed).unwrap_err();
    assert!(asked.remedy.contains("run.speed [kn]"), "{}", asked.remedy);
}

#[test]
fn physics_loads_of_a_row_stand_in_place_of_those_of_the_file() {
    let file = read_boat("data/boats/holm.toml".as_ref()).unwrap();
    let headings = ["load[1].mass [kg]".to_owned(), "run.speed [kn]".to_owned()];
    let fleet = Fleet::of(&headings, &[], Some(&file), at_20_kn()).unwrap();
    let crate::boat::WeightInput::Loads(items) = &file.boat.input().weight else {
        panic!("she has a list of loads")
    };
    let mass_kg = items[0].mass.get::<uom::si::mass::kilogram>();
    let line = |factor: f64| Ok(vec![Value::Number(mass_kg * factor), Value::Number(18.0)]);
    let rows =
        fleet.answers(1, &[line(1.0), line(1.2), Ok(vec![Value::Empty, Value::Number(18.0)])]);
    let resistance = |row: &[Cell]| match cell(&fleet, row, "resistance_n") {
        Cell::Number(newtons) => *newtons,
        other => panic!("{other:?}"),
    };
    assert!(resistance(&rows[1]) > resistance(&rows[0]) * 1.05);
    assert_eq!(resistance(&rows[2]), resistance(&rows[0]));
    assert_eq!(cell(&fleet, &rows[0], "speed_m_s"), &Cell::Number(9.26));
}

#[test]
fn physics_totals_of_a_row_stand_in_place_of_the_loads_of_the_file() {
    for boat in ["wren", "lantern", "holm"] {
        let file = read_boat(format!("data/boats/{boat}.toml").as_ref()).unwrap();
        let headings = ["weight.mass [kg]", "weight.lcg [m]"].map(str::to_owned);
        let fleet = Fleet::of(&headings, &[], Some(&file), at_20_kn()).unwrap();
        let weight = file.boat.weight();
        let mass_kg = weight.mass.get::<uom::si::mass::kilogram>();
        let lcg_m = weight.lcg.get::<uom::si::length::meter>();
        let line = |mass: Value, lcg: Value| Ok(vec![mass, lcg]);
        let number = Value::Number;
        let rows = fleet.answers(
            1,
            &[
                line(Value::Empty, Value::Empty),
                line(number(mass_kg), Value::Empty),
                line(number(mass_kg), number(lcg_m)),
                line(number(mass_kg * 1.1), Value::Empty),
                line(Value::Empty, number(lcg_m * 1.1)),
            ],
        );
        let of = |row: usize, column: &str| match cell(&fleet, &rows[row], column) {
            Cell::Number(number) => *number,
            other => panic!("{boat} {row}: {other:?} {:?}", rows[row].last()),
        };
        for column in ["trim_deg", "resistance_n"] {
            for row in [1, 2] {
                approx::assert_relative_eq!(of(row, column), of(0, column), max_relative = 1e-7);
            }
        }
        // Heavier she resists more; with her weight further forward she trims less.
        assert!(of(3, "resistance_n") > of(0, "resistance_n"));
        assert!(of(4, "trim_deg") < of(0, "trim_deg"));
    }
}

#[test]
fn regression_a_size_in_a_table_is_that_of_the_command() {
    let file = read_boat("data/boats/wren.toml".as_ref()).unwrap();
    let headings = ["name".to_owned()];
    let question = Question::Size(SizeQuestion::default());
    let fleet = Fleet::of(&headings, &[], Some(&file), question).unwrap();
    let rows = fleet.answers(1, &[Ok(vec![Value::Empty])]);
    let boats = file.boat.in_all_conditions().unwrap();
    let advised = crate::doubt::advise_for(&boats, &Settings::default()).unwrap();
    let [span_m, chord_m] = advised.pair().unwrap().in_metres();
    assert_eq!(cell(&fleet, &rows[0], "span_m"), &Cell::Number(as_data(span_m)));
    assert_eq!(cell(&fleet, &rows[0], "chord_m"), &Cell::Number(as_data(chord_m)));
    let chance = advised.chance.unwrap().reached;
    assert_eq!(cell(&fleet, &rows[0], "chance"), &Cell::Number(as_data(chance)));
}

#[test]
fn regression_the_stamp_of_a_question_is_the_same_for_the_same_and_another_for_another() {
    let stamp = |question: Question, keep: &[&str]| {
        let keep: Vec<String> = keep.iter().map(|&one| one.to_owned()).collect();
        Fleet::of(&HEADINGS.map(str::to_owned), &keep, None, question).unwrap().description()
    };
    let own = stamp(at_20_kn(), &["id"]);
    assert_eq!(own, stamp(at_20_kn(), &["id"]));
    // A place in memory is another in the next process.
    assert!(!own.contains("0x"), "{own}");
    assert!(!stamp(Question::Size(SizeQuestion::default()), &["id"]).contains("0x"));
    let faster = Question::Run(RunQuestion::at(vec![Velocity::new::<knot>(21.0)]));
    let fewer = RunQuestion {
        fields: vec![fields::TRIM],
        ..RunQuestion::at(vec![Velocity::new::<knot>(20.0)])
    };
    for other in [stamp(faster, &["id"]), stamp(Question::Run(fewer), &["id"])] {
        assert_ne!(own, other);
    }
}

#[test]
fn regression_what_is_varied_reads_as_ranges_and_lists() {
    let numbers = |said: &str| {
        let varied = Varied::read(said).unwrap();
        let values = varied.values.iter().map(|value| match value {
            Value::Number(number) => *number,
            other => panic!("{other:?}"),
        });
        (varied.heading(), values.collect::<Vec<_>>())
    };
    assert_eq!(
        numbers("weight.lcg = 2.6 m to 3.2 m, 7 values"),
        ("weight.lcg [m]".to_owned(), vec![2.6, 2.7, 2.8, 2.9, 3.0, 3.1, 3.2])
    );
    assert_eq!(numbers("weight.lcg=2.6 to 3.2 m, 2 values").1, [2.6, 3.2]);
    assert_eq!(
        numbers("planes.span = 400, 500 mm"),
        ("planes.span [mm]".to_owned(), vec![400.0, 500.0])
    );
    assert_eq!(
        numbers("planes.span = 400 mm, 20 in"),
        ("planes.span [m]".to_owned(), vec![0.4, 0.508])
    );
    assert_eq!(numbers("hull.roughness = 0.0002, 4e-4").1, [0.0002, 4e-4]);
    assert_eq!(numbers("drive.thrust_angle = -2 deg to 2 deg, 3 values").1, [-2.0, 0.0, 2.0]);
    let words = Varied::read("drive.kind = outboard, shaft").unwrap();
    assert_eq!(words.values, ["outboard", "shaft"].map(|word| Value::Text(word.to_owned())));
    assert_eq!(words.heading(), "drive.kind");
}

#[test]
fn error_what_cannot_be_varied() {
    for (said, problem) in [
        ("weight.lcg", "no `=`"),
        ("weight.lgc = 2 m, 3 m", "this is no key"),
        ("weight.lcg = 2 m to 3 m", "needs the number of its values"),
        ("weight.lcg = 2 m .. 3 m", "needs the number of its values"),
        ("weight.lcg = 2 m to 3 m, 1 values", "the number of values is none"),
        ("weight.lcg = 2 m to 3 ft, 5 values", "in two units"),
        ("weight.lcg = 2 kg, 3 kg", "kg"),
        ("weight.lcg = 2 m,, 3 m", "a value is missing"),
        ("weight.lcg = 2, 3", "has no unit"),
    ] {
        let fault = Varied::read(said).unwrap_err();
        assert!(fault.problem.contains(problem), "{said}: {}", fault.problem);
    }
    let twice = ["weight.lcg = 2 m, 3 m", "weight.lcg = 4 m, 5 m"];
    let twice = twice.map(|said| Varied::read(said).unwrap()).to_vec();
    assert!(Combinations::of(twice).unwrap_err().problem.contains("varied twice"));
}

#[test]
fn regression_a_sweep_has_every_combination_once_the_last_key_fastest() {
    let varied = ["weight.lcg = 2 m, 3 m", "planes.span = 400 mm, 500 mm, 600 mm"];
    let mut all =
        Combinations::of(varied.map(|said| Varied::read(said).unwrap()).to_vec()).unwrap();
    let number = |value: &Value| match value {
        Value::Number(number) => *number,
        other => panic!("{other:?}"),
    };
    let mut rows = Vec::new();
    loop {
        let next = all.next(4).unwrap();
        if next.is_empty() {
            break;
        }
        rows.extend(
            next.into_iter().map(|line| line.unwrap().iter().map(number).collect::<Vec<_>>()),
        );
    }
    let expected = [2.0, 3.0].map(|lcg| [400.0, 500.0, 600.0].map(|span| vec![lcg, span]));
    assert_eq!(rows, expected.concat());
}

/// A table in a folder of its own.
fn table(text: &[u8]) -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("boats.csv");
    std::fs::write(&path, text).unwrap();
    (folder, path)
}

#[test]
fn practice_tables_of_several_spreadsheets_read_alike() {
    for text in [
        "hull.chine_beam [m],weight.mass [kg]\n2.25,2800\n2.5,\n",
        "\u{feff}hull.chine_beam [m];weight.mass [kg]\r\n2,25;2800\r\n2,5;\r\n",
        "# boats of a series\nhull.chine_beam [m]\tweight.mass [kg]\n 2.25\t2800 \n\n2.5\t\n",
        "hull.chine_beam [m],weight.mass [kg],,\n2.25,2800,,\n2.5,,,\n",
    ] {
        let (_folder, path) = table(text.as_bytes());
        let mut source = open(&path).unwrap();
        assert_eq!(source.headings(), ["hull.chine_beam [m]", "weight.mass [kg]"], "{text}");
        let text_of = |text: &str| Value::Text(text.to_owned());
        let expected =
            [Ok(vec![text_of("2.25"), text_of("2800")]), Ok(vec![text_of("2.5"), Value::Empty])];
        assert_eq!(source.next(9).unwrap(), expected, "{text}");
    }
}

#[test]
fn regression_a_table_goes_on_at_any_place_it_was_read_to() {
    let mut text = "name,weight.mass [kg]\n".to_owned();
    for row in 0..50 {
        text.push_str(&format!("\"boat, {row}\",{}\n", 2000 + row));
        if row % 7 == 0 {
            text.push_str("# a remark\n\n");
        }
    }
    let (_folder, path) = table(text.as_bytes());
    let mut whole = open(&path).unwrap();
    let all = whole.next(99).unwrap();
    assert_eq!(all.len(), 50);
    for first in 0..50 {
        let mut begun = open(&path).unwrap();
        assert_eq!(begun.next(first).unwrap().len(), first);
        let place = begun.place();
        assert_eq!(place.rows, first as u64);
        let mut resumed = open(&path).unwrap();
        resumed.go_to(Place { ..place }).unwrap();
        assert_eq!(resumed.next(99).unwrap(), all[first..], "after {first}");
    }
}

#[test]
fn error_tables_that_cannot_be_read() {
    let said = |text: &[u8]| {
        let (_folder, path) = table(text);
        match open(&path) {
            Err(error) => error.to_string(),
            Ok(mut source) => match source.next(9).unwrap().remove(0) {
                Err(wrong) => wrong.fault,
                Ok(values) => panic!("{values:?}"),
            },
        }
    };
    assert!(said(b"").contains("the table is empty"));
    assert!(said(b"PK\x03\x04\x14\0\0\0").contains("not text in UTF-8"));
    assert!(said(b"name\nH\xf6he\n").contains("line 2 holds letters"));
    assert!(said(b"name,hull.deadrise\n\"a,18 deg\nb,18 deg\n").contains("not closed"));
    assert!(
        said(b"name,hull.deadrise\na,18 deg,7\n").contains("line 2 has 3 cells and the heading 2")
    );
    let lost = open("no-such.csv".as_ref()).err().unwrap();
    assert!(lost.to_string().contains("there is no such file"));
    let folder = open("data".as_ref()).err().unwrap();
    assert!(folder.to_string().contains("this is no regular file"), "{folder}");
    #[cfg(not(feature = "parquet"))]
    {
        let parquet = open("boats.parquet".as_ref()).err().unwrap();
        assert!(parquet.to_string().contains("neither reads nor writes Parquet"));
    }
}
