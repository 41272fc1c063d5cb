//! One boat, one set of numbers: the command line's text, its JSON, all three papers and the page.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

use super::client::{Answer, Server};

const BOATS: [&str; 3] = ["wren", "lantern", "holm"];
const KNOT_M_S: f64 = 1852.0 / 3600.0;

/// Everything that says something of one boat.
struct Said {
    json: Value,
    text: String,
    page: Answer,
    architect: String,
    dealer: String,
    owner: String,
}

fn printed(folder: &Path, arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("the program starts");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("text")
}

/// Text in one line, as it was before it was broken for a terminal.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl Said {
    fn of(server: &Server, boat: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("data/boats/{boat}.toml"));
        std::fs::copy(file, folder.path().join("boat.toml")).unwrap();
        let paper = |reader: &str| {
            let arguments = ["report", "boat.toml", "--for", reader, "--out", reader];
            printed(folder.path(), &arguments);
            std::fs::read_to_string(folder.path().join(reader)).unwrap()
        };
        let json = printed(folder.path(), &["size", "boat.toml", "--json"]);
        Self {
            json: serde_json::from_str(&json).unwrap(),
            text: printed(folder.path(), &["size", "boat.toml", "--full"]),
            page: server.get(&format!("/desk?boat={boat}")),
            architect: paper("architect"),
            dealer: paper("dealer"),
            owner: paper("owner"),
        }
    }

    fn number(&self, key: &str) -> f64 {
        self.json[key].as_f64().unwrap_or_else(|| panic!("{key}"))
    }

    /// Rows of the schedule in the loading that sets the size, and its name.
    fn governing(&self) -> (&str, &[Value]) {
        let name = self.json["set_in_condition"].as_str().unwrap();
        let all = self.json["conditions"].as_array().unwrap();
        let own = all.iter().find(|own| own["name"] == name).expect("a condition");
        (name, own["schedule"].as_array().unwrap())
    }
}

/// Cells of the rows of the first table after some words.
fn rows_after(html: &str, words: &str) -> Vec<Vec<String>> {
    let from = html.find(words).unwrap_or_else(|| panic!("no {words}"));
    let table = html[from..].split("<tbody>").nth(1).unwrap().split("</tbody>").next().unwrap();
    let cell = |part: &str| {
        let inner = part.split_once('>').map_or("", |(_, rest)| rest);
        let text = inner.split("</t").next().unwrap();
        text.split('<').filter_map(|tag| tag.rsplit('>').next()).collect::<String>()
    };
    let rows = table.split("<tr").skip(1);
    rows.map(|row| {
        let row = row.replace("<th ", "<td ");
        row.split("<td").skip(1).map(cell).collect()
    })
    .collect()
}

/// `12 to 13`, `14`, `7.9 to 7.7`, least and largest.
fn span(text: &str) -> [f64; 2] {
    let ends: Vec<f64> = text.split(" to ").map(|end| end.parse().unwrap()).collect();
    [ends[0].min(ends[ends.len() - 1]), ends[0].max(ends[ends.len() - 1])]
}

fn knots(row: &Value) -> f64 {
    row["speed_m_s"].as_f64().unwrap() / KNOT_M_S
}

#[test]
fn regression_size_and_what_set_it_are_the_same_everywhere() {
    let server = Server::start(&[]);
    for boat in BOATS {
        let said = Said::of(&server, boat);
        let mm = |key: &str| (1e3 * said.number(key)).round();
        let pair = format!("{} x {} mm", mm("span_m"), mm("chord_m"));
        assert!(said.text.contains(&format!("A pair of planes, {pair} each")), "{boat}: {pair}");
        let page = one_line(&said.page.plain());
        assert!(page.contains(&format!("Suggested, a pair {pair}")), "{boat}: {pair}");
        assert!(said.architect.contains(&format!("A pair of planes, {pair} each")), "{boat}");
        assert!(said.dealer.contains(&format!("Take a pair of planes of {pair} each")), "{boat}");
        assert!(said.owner.contains(&pair), "{boat}");
        // The duty, the speed and the loading that set the size.
        let (loading, _) = said.governing();
        let speed = format!("{:.1}", said.number("set_at_m_s") / KNOT_M_S);
        let short = speed.strip_suffix(".0").unwrap_or(&speed);
        let duties = said.json["duties"].as_array().unwrap();
        let set_by = duties.iter().find(|duty| {
            duty["name"] == said.json["set_by"] && duty["loading_condition"] == loading
        });
        let asked = set_by.unwrap()["condition"].as_str().unwrap();
        let told =
            |name: &str| format!("{asked}; it asks most at {speed} kn in the loading {name}");
        let told_short = |name: &str| told(name).replace(&speed, short);
        let has =
            |text: &str, name: &str| text.contains(&told(name)) || text.contains(&told_short(name));
        assert!(has(&one_line(&said.text), &format!("`{loading}`")), "{boat}: {}", told(loading));
        let degrees = asked.replace(" deg", "°");
        let recorded = told(&format!("“{loading}”")).replace(" deg", "°");
        let recorded = [recorded.replace(&speed, short), recorded];
        assert!(recorded.iter().any(|text| said.architect.contains(text)), "{boat}: {recorded:?}");
        assert!(page.contains(&format!("The duty that set the size: {degrees}")), "{boat}");
        assert!(page.contains(&format!("in the loading “{loading}”")), "{boat}");
        let hardest = format!("It is hardest at {short} kn, loaded “{loading}”.");
        assert!(said.dealer.contains(&hardest), "{boat}: {hardest}");
        assert!(said.owner.contains(&format!("{short} kn")), "{boat}");
        assert!(said.owner.contains(&format!("loaded “{loading}”")), "{boat}");
    }
}

#[test]
fn regression_the_schedule_is_the_same_everywhere() {
    let server = Server::start(&[]);
    for boat in BOATS {
        let said = Said::of(&server, boat);
        let html = said.page.text();
        let first = said.json["schedule"].as_array().unwrap();
        // The first loading: full rows on the page, in the record and in the text.
        let on_page = rows_after(&html, "Deflection to use at each speed\"");
        let on_record = rows_after(&said.architect, "<h2 id=\"how-to-use-them");
        assert_eq!((on_page.len(), on_record.len()), (first.len(), first.len()), "{boat}");
        for ((row, page), record) in first.iter().zip(&on_page).zip(&on_record) {
            let value = |key: &str| format!("{:.1}", row[key].as_f64().unwrap());
            let speed = format!("{:.1}", knots(row));
            let trim = [value("trim_planes_up_deg"), value("trim_deg")];
            assert_eq!([&page[0], &record[0]], [&speed, &speed], "{boat}");
            assert_eq!(page[1].trim_end_matches('°'), record[1], "{boat} at {speed}");
            assert!(record[1] == "up" || record[1] == value("deflection_deg"), "{boat} at {speed}");
            assert_eq!(page[2], format!("{}°", value("largest_safe_deg")), "{boat} at {speed}");
            assert_eq!(record[2], value("largest_safe_deg"), "{boat} at {speed}");
            assert_eq!(page[3..5], trim.clone().map(|trim| format!("{trim}°")), "{boat}");
            assert_eq!(record[3..5], trim, "{boat} at {speed}");
            let line = [&speed, &record[1], &record[2], &trim[0], &trim[1]].map(String::as_str);
            let lines = said.text.lines().map(|line| line.split_whitespace().collect::<Vec<_>>());
            assert!(lines.into_iter().any(|words| words.starts_with(&line)), "{boat}: {line:?}");
        }
        owner_and_dealer(boat, &said);
    }
}

/// The owner reads whole degrees over ranges of speeds, and the dealer the last row.
fn owner_and_dealer(boat: &str, said: &Said) {
    let (_, rows) = said.governing();
    let told = rows_after(&said.owner, "<h2 id=\"how-to-use-them");
    let dead_deg = said.number("dead_band_deg");
    let mut compared = 0;
    for row in &told {
        let [from, to] = span(&row[0]);
        for exact in rows.iter().filter(|row| (from - 0.05..=to + 0.05).contains(&knots(row))) {
            let value = |key: &str| exact[key].as_f64().unwrap();
            let near =
                |span: [f64; 2], value: f64| (span[0] - 0.051..=span[1] + 0.051).contains(&value);
            match row[1].as_str() {
                "up" => assert!(value("deflection_deg") <= dead_deg + 0.5, "{boat}: {row:?}"),
                down => {
                    let down: f64 = down.trim_end_matches('°').parse().unwrap();
                    // No less than is used, with a degree of room where there is one, never beyond what is safe.
                    let [used, safe] = ["deflection_deg", "largest_safe_deg"].map(value);
                    let room = if used <= safe - 1.0 + 1e-6 { 1.0 } else { 0.0 };
                    let most = (safe - room + 1e-6).floor();
                    assert!((down - (used - 0.05).ceil().min(most)).abs() < 0.1, "{boat}: {row:?}");
                }
            }
            let trims = near(span(&row[4]), value("trim_planes_up_deg"));
            assert!(trims, "{boat}: {row:?} {exact}");
            compared += 1;
        }
    }
    assert!(compared >= rows.len() / 2, "{boat}: only {compared} of {} rows", rows.len());
    let last = rows.last().unwrap();
    let value = |key: &str| last[key].as_f64().unwrap();
    if value("deflection_deg") > dead_deg {
        let change = 100.0 * (value("resistance_over_planes_up") - 1.0).abs();
        let (down, change) = (format!("{:.1}°", value("deflection_deg")), format!("{change:.1} %"));
        assert!(said.dealer.contains(&format!("they stay {down} down")), "{boat}: {down}");
        assert!(said.dealer.contains(&change), "{boat}: {change}");
    } else {
        assert!(
            said.dealer.contains("they belong up: there they take nothing off the resistance"),
            "{boat}"
        );
    }
}

/// The boat file with planes of the size suggested.
fn with_planes(text: &str, json: &Value) -> String {
    let mm = |key: &str| (1e3 * json[key].as_f64().unwrap()).round();
    let planes = format!("span = \"{} mm\"\nchord = \"{} mm\"\n", mm("span_m"), mm("chord_m"));
    let Some((before, after)) = text.split_once("[planes]\n") else {
        return format!("{text}\n[planes]\n{planes}");
    };
    let rest = after.lines().filter(|line| !line.starts_with("span") && !line.starts_with("chord"));
    format!("{before}[planes]\n{planes}{}\n", rest.collect::<Vec<_>>().join("\n"))
}

#[test]
fn regression_trim_and_resistance_are_the_same_everywhere() {
    let server = Server::start(&[]);
    for boat in BOATS {
        let said = Said::of(&server, boat);
        let (loading, rows) = said.governing();
        let row = &rows[rows.len() / 2];
        let deg = row["deflection_deg"].as_f64().unwrap();
        let folder = tempfile::tempdir().unwrap();
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("data/boats/{boat}.toml"));
        let text = with_planes(&std::fs::read_to_string(file).unwrap(), &said.json);
        std::fs::write(folder.path().join("boat.toml"), &text).unwrap();
        let (speed, down) = (format!("{} kn", knots(row)), format!("{deg} deg"));
        let asked = ["run", "boat.toml", "--condition", loading, "--speed", &speed];
        let asked = [&asked[..], &["--deflection", &down]].concat();
        let json: Value =
            serde_json::from_str(&printed(folder.path(), &[&asked[..], &["--json"]].concat()))
                .unwrap();
        let point = &json["points"][0];
        let value = |key: &str| point[key].as_f64().unwrap();
        let [trim, resistance] = [value("trim_deg"), value("resistance_n")];
        // The page, by the planes of the file and by the pair it suggests itself.
        for planes in ["fitted".to_owned(), pair_word(&said.json)] {
            let fields = [
                ("text", text.as_str()),
                ("condition", loading),
                ("planes", &planes),
                ("speed", &speed),
                ("deflection", &down),
            ];
            let page = server.post("/desk/run", &fields);
            for (key, number) in [("trim_deg", trim), ("resistance_n", resistance)] {
                let shown = *page.numbers(key).last().unwrap();
                assert!((shown / number - 1.0).abs() < 1e-9, "{boat} {key}: {shown} {number}");
            }
            let shown = format!("trim {trim:.1}°");
            assert!(page.text().contains(&shown), "{boat}: {shown}");
        }
        // The text of the command line.
        let text = printed(folder.path(), &asked);
        let has = |number: String| text.split_whitespace().any(|word| word == number);
        assert!(has(format!("{trim:.2}")) && has(format!("{resistance:.0}")), "{boat}: {text}");
        // The sizing, and the record's schedule.
        let sized = row["trim_deg"].as_f64().unwrap();
        assert!((sized - trim).abs() < 1e-6, "{boat}: {sized} {trim}");
        record(boat, &said, (loading, knots(row)), point);
    }
}

fn pair_word(json: &Value) -> String {
    let mm = |key: &str| (1e3 * json[key].as_f64().unwrap()).round();
    format!("{} mm x {} mm", mm("span_m"), mm("chord_m"))
}

/// The architect's table of that loading, at the deflection to a tenth that it names.
fn record(boat: &str, said: &Said, (loading, knots): (&str, f64), point: &Value) {
    let rows = rows_after(&said.architect, &format!("Loaded “{loading}”, planes as advised"));
    let speed = format!("{knots:.1}");
    let row = rows.iter().find(|row| row[0] == speed).unwrap_or_else(|| panic!("{boat}: {rows:?}"));
    let number = |place: usize| row[place].parse::<f64>().unwrap();
    let value = |key: &str| point[key].as_f64().unwrap();
    assert!((number(2) - value("deflection_deg")).abs() <= 0.06, "{boat}: {row:?}");
    // A twentieth of a degree of deflection is the most that its rounding may move the answer by.
    let slope = value("trim_change_per_degree").abs();
    assert!((number(3) - value("trim_deg")).abs() <= 0.006 + 0.06 * slope, "{boat}: {row:?}");
    assert!((number(7) / value("resistance_n") - 1.0).abs() < 2e-3, "{boat}: {row:?}");
}
