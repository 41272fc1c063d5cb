//! The same numbers and words as the library and the command line.

use std::process::Command;

use planewright::balance::{Balance, Settings};
use planewright::field::as_data;
use planewright::input::{parse_boat, read_boat};
use serde_json::Value;
use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, force::newton, length::meter, velocity::meter_per_second};

use super::client::{Server, as_on_the_page};

const KNOT_M_S: f64 = 1852.0 / 3600.0;

fn printed(arguments: &[&str]) -> Value {
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program starts");
    serde_json::from_slice(&output.stdout).expect("one JSON object")
}

fn complaint(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program starts");
    assert_eq!(output.status.code(), Some(2));
    // The text is broken into lines for a terminal.
    let text = String::from_utf8_lossy(&output.stderr).replace("  |  ", " ");
    text.split_whitespace().filter(|word| *word != "|").collect::<Vec<_>>().join(" ")
}

fn close(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-12 * one.abs().max(other.abs()).max(1.0)
}

#[test]
fn regression_numbers_of_a_drag_are_those_of_library_and_command_line() {
    let server = Server::start(&[]);
    for (name, speed_kn, deflection_deg) in
        [("lantern", 14.0, 10.0), ("lantern", 26.0, 2.5), ("holm", 18.0, 8.0)]
    {
        let address = format!(
            "/desk/run?boat={name}&planes=fitted&speed={speed_kn}&deflection={deflection_deg}"
        );
        let answer = server.get(&address);
        assert_eq!(answer.status, 200);
        let path = format!("data/boats/{name}.toml");
        let file =
            read_boat(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(&path).as_path());
        let balance = Balance::of(&file.unwrap().boat, &Settings::default());
        let speed = Velocity::new::<meter_per_second>(speed_kn * KNOT_M_S);
        let point = balance.point(speed, Angle::new::<degree>(deflection_deg)).unwrap();
        let running = point.running.unwrap();
        let [speed, deflection] = [format!("{speed_kn} kn"), format!("{deflection_deg} deg")];
        let json =
            printed(&["run", &path, "--json", "--speed", &speed, "--deflection", &deflection]);
        for (key, library) in [
            ("trim_deg", running.trim.get::<degree>()),
            ("resistance_n", running.resistance.get::<newton>()),
            ("wetted_keel_m", running.wetted_keel.get::<meter>()),
            ("wetted_chine_m", running.wetted_chine.get::<meter>()),
            ("plane_lift_n", running.plane_lift.get::<newton>()),
        ] {
            let page = *answer.numbers(key).last().unwrap();
            let command = json["points"][0][key].as_f64().unwrap();
            // Page and command write the digits of data.
            assert!(
                close(page, as_data(library)) && close(page, command),
                "{name} {key}: {page} {library} {command}"
            );
        }
        for flag in json["points"][0]["flags"].as_array().unwrap() {
            assert!(answer.text().contains(flag.as_str().unwrap()), "{flag}");
        }
    }
}

#[test]
fn regression_suggestion_is_that_of_the_command_line() {
    let server = Server::start(&[]);
    for name in ["wren", "lantern", "holm"] {
        let size = printed(&["size", &format!("data/boats/{name}.toml"), "--json"]);
        let page = server.get(&format!("/desk?boat={name}")).plain();
        let mm = |key: &str| (size[key].as_f64().unwrap() * 1e3).round();
        let pair = format!("{} x {} mm", mm("span_m"), mm("chord_m"));
        assert!(
            page.contains(&format!("Suggested, a pair {pair}"))
                || page.contains(&format!("Suggested, a pair  {pair}")),
            "{name}: {pair}"
        );
        for duty in size["duties"].as_array().unwrap() {
            let condition = as_on_the_page(duty["condition"].as_str().unwrap());
            assert!(page.contains(&condition), "{duty}");
            assert!(page.contains(duty["loading_condition"].as_str().unwrap()), "{duty}");
        }
    }
}

#[test]
fn regression_a_loading_condition_runs_as_on_the_command_line() {
    let server = Server::start(&[]);
    let file = "data/boats/lantern.toml";
    let boat =
        read_boat(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(file)).unwrap().boat;
    assert!(boat.conditions().len() > 1);
    let mut trims = Vec::new();
    for condition in boat.conditions() {
        let name = condition.name.as_str();
        let address = format!(
            "/desk/run?boat=lantern&planes=fitted&speed=16&deflection=5&condition={}",
            name.replace(' ', "+")
        );
        let answer = server.get(&address);
        let json = printed(&[
            "run",
            file,
            "--json",
            "--speed",
            "16 kn",
            "--deflection",
            "5 deg",
            "--condition",
            name,
        ]);
        let command = json["points"][0]["trim_deg"].as_f64().unwrap();
        let page = *answer.numbers("trim_deg").last().unwrap();
        assert!(close(page, command), "{name}: {page} {command}");
        trims.push(page);
    }
    assert!(trims.iter().any(|trim| (trim - trims[0]).abs() > 0.05), "{trims:?}");
}

#[test]
fn error_an_unknown_loading_condition_is_refused_beside_its_field() {
    let server = Server::start(&[]);
    let page = server.get("/desk?boat=lantern&condition=nowhere");
    assert_eq!(page.status, 200);
    let said = complaint(&["run", "data/boats/lantern.toml", "--condition", "nowhere"]);
    let words = "the boat has no loading condition `nowhere`";
    assert!(said.contains(words), "{said}");
    let html = page.text();
    let start = html.find("id=\"condition_fault\"").unwrap();
    assert!(html[start..start + 400].contains(words));
}

#[test]
fn regression_shelf_reads_as_on_the_command_line() {
    let server = Server::start(&[]);
    let file = "data/boats/lantern.toml";
    let size = printed(&["size", file, "--stock", "data/stock/planes.csv", "--json"]);
    let page = server.get("/desk?boat=lantern&stock=demo").plain();
    for reason in size["stock_reasons"].as_array().unwrap() {
        assert!(page.contains(&as_on_the_page(reason.as_str().unwrap())), "{reason}");
    }
}

#[test]
fn error_a_form_is_refused_in_the_words_of_the_command_line() {
    let server = Server::start(&[]);
    let answer = server.get(
        "/desk?form=1&name=Try&overall_length=7.4+m&chine_beam=2.25&deadrise=55+deg&mass=2800+kg",
    );
    assert_eq!(answer.status, 422);
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("your-boat.toml");
    let text = "name = \"Try\"\n[hull]\noverall_length = \"7.4 m\"\nchine_beam = \"2.25\"\n\
        deadrise = \"55 deg\"\n[weight]\nmass = \"2800 kg\"\n";
    std::fs::write(&file, text).unwrap();
    let said = complaint(&["run", file.to_str().unwrap()]);
    let faults = parse_boat("your-boat.toml", text).unwrap_err();
    assert_eq!(faults.faults().len(), 2);
    let page = answer.plain();
    for fault in faults.faults() {
        // Without the key, which nobody sees on the page.
        let problem = fault.problem.split_once(": ").map_or(&*fault.problem, |(_, rest)| rest);
        assert!(page.contains(problem) && page.contains(&fault.help), "{fault:?}");
        assert!(said.contains(&fault.problem), "{said}");
    }
    // Beside their fields.
    let html = answer.text();
    for (field, words) in [("chine_beam", "has no unit"), ("deadrise", "is outside 0 to 40 deg")] {
        let start = html.find(&format!("id=\"{field}_fault\"")).unwrap();
        assert!(html[start..start + 400].contains(words), "{field}");
        assert!(html.contains(&format!("aria-describedby=\"{field}_fault {field}_hint\"")));
    }
    // What was typed is still there.
    assert!(html.contains("value=\"55 deg\"") && html.contains("value=\"2800 kg\""));
}

#[test]
fn error_values_in_an_address_are_refused_beside_their_fields() {
    let server = Server::start(&[]);
    let page = server.get("/desk?boat=lantern&speed=fast&deflection=40&planes=fitted");
    assert_eq!(page.status, 200);
    let plain = page.plain();
    assert!(plain.contains("`fast` does not begin with a number"), "{plain}");
    assert!(plain.contains("40 deg is outside 0 to 30 deg"), "{plain}");
    let said = complaint(&["run", "data/boats/lantern.toml", "--speed", "fast"]);
    assert!(said.contains("`fast` does not begin with a number"), "{said}");
}

#[test]
fn regression_estimates_are_marked() {
    let server = Server::start(&[]);
    let address = "/desk?form=1&overall_length=7.4+m&chine_beam=2.25+m&deadrise=18+deg&mass=2800+kg&drive=sterndrive&power=180+kW";
    let page = server.get(address);
    assert_eq!(page.status, 200);
    let text = page.plain();
    for name in [
        "Length of the planing bottom",
        "Centre of gravity forward of the transom",
        "Centre of gravity above the keel",
        "Top speed",
    ] {
        assert!(text.contains(name), "{name}");
    }
    // Words, not keys.
    assert!(!text.contains("bottom_length") && !text.contains("hull."), "{text}");
    assert!(text.matches("estimated").count() >= 8);
}

#[test]
fn regression_boat_file_comes_back_as_it_went() {
    let server = Server::start(&[]);
    let text = std::fs::read_to_string("data/boats/holm.toml").unwrap();
    let demo = server.get("/boat-file?boat=holm&speed=20");
    assert_eq!(demo.text(), text);
    assert!(
        demo.head.to_lowercase().contains("attachment; filename=\"holm.toml\""),
        "{}",
        demo.head
    );
    let own = text.replace("Holm Sentinel", "Own \u{fc} boat");
    let crlf = own.replace('\n', "\r\n");
    let back = server.post("/boat-file", &[("text", &crlf), ("text_name", "../my \"boat\".toml")]);
    assert_eq!(back.text(), own);
    assert!(back.head.to_lowercase().contains("filename=\"my--boat-.toml\""), "{}", back.head);
}

#[test]
fn regression_visitors_do_not_mix() {
    let server = Server::start(&[]);
    let text = std::fs::read_to_string("data/boats/wren.toml").unwrap();
    let boats: Vec<String> =
        (0..8).map(|i| text.replace("Skerry Wren", &format!("Boat of visitor {i}"))).collect();
    std::thread::scope(|scope| {
        for (i, boat) in boats.iter().enumerate() {
            let server = &server;
            scope.spawn(move || {
                for _ in 0..3 {
                    let page = server.upload("boat_file", "b.toml", boat.as_bytes()).text();
                    assert!(page.contains(&format!("Boat of visitor {i}")));
                    let others = (0..8).filter(|j| *j != i);
                    others.for_each(|j| assert!(!page.contains(&format!("visitor {j}"))));
                }
            });
        }
    });
}

#[test]
fn regression_the_same_request_gives_the_same_bytes() {
    let server = Server::start(&[]);
    let address = "/desk?boat=lantern&stock=demo&forces=on&units=imperial";
    let [one, two] = [server.get(address), server.get(address)];
    assert_eq!(one.body, two.body);
    assert_eq!(one.head, two.head);
}

#[test]
fn regression_a_boat_given_on_the_command_line_is_offered() {
    let server = Server::start(&["data/boats/holm.toml"]);
    assert!(server.get("/").text().contains("/desk?boat=given"));
    assert!(server.get("/desk?boat=given").text().contains("Holm Sentinel"));
}

#[test]
fn regression_a_stock_list_given_on_the_command_line_is_ranked_for_every_boat() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("yard.csv");
    let text = std::fs::read_to_string("data/stock/planes.csv").unwrap();
    std::fs::write(&path, text.replace("750 x 300 aluminium electric", "the yard's own")).unwrap();
    let server = Server::start(&["--stock", path.to_str().unwrap()]);
    assert!(server.get("/").text().contains("/desk?boat=lantern\""));
    let form = "form=1&name=Tern&overall_length=9.2%20m&chine_beam=2.64%20m&deadrise=18%20deg\
                &mass=4700%20kg&power=440%20kW";
    for boat in ["boat=lantern", form] {
        let desk = server.get(&format!("/desk?{boat}")).text();
        assert!(desk.contains("the yard's own") && desk.contains("yard.csv"), "{boat}");
        // Where the list lies on this machine is nobody's business.
        assert!(!desk.contains(folder.path().to_str().unwrap()));
    }
    // The invented one can still be asked for.
    assert!(!server.get("/desk?boat=lantern&stock=demo").text().contains("the yard's own"));
}

#[test]
fn physics_planes_beyond_the_safe_run_are_warned_of() {
    let server = Server::start(&[]);
    let said = |deflection: u32| {
        let address =
            format!("/desk/run?boat=lantern&planes=fitted&speed=33&deflection={deflection}");
        server.get(&address).plain()
    };
    assert!(said(15).contains("Too far down: never beyond"));
    assert!(!said(4).contains("Too far down") && said(4).contains("Never put them beyond"));
}

#[test]
fn error_the_page_asks_first_in_the_words_of_the_command_line() {
    let server = Server::start(&[]);
    let boat = |lcg: &str, top: &str| {
        format!(
            "name = \"Our boat\"\n[hull]\noverall_length = \"6.8 m\"\nchine_beam = \"2.3 m\"\n\
             deadrise = \"19 deg\"\n[weight]\nmass = \"2300 kg\"\nlcg = \"{lcg}\"\n[drive]\n\
             kind = \"outboard\"\npower = \"150 kW\"\ntop_speed = \"{top}\"\n"
        )
    };
    let asked = server.post("/desk", &[("text", &boat("4.4 m", "30 kn"))]);
    assert_eq!(asked.status, 200);
    let text = asked.plain();
    for said in [
        "To settle first",
        "The answer depends on her centre of gravity, 4.4 m: it is not usual for a boat like her.",
        "4.4 m where 1.62 to 2.66 m is usual",
        "Likely cause: measured from the bow, not from the transom.",
    ] {
        assert!(text.contains(said), "{said}: {text}");
    }
    let slow = server.post("/desk", &[("text", &boat("2.1 m", "8 kn"))]).plain();
    let said = "Nothing can be said about planes for her: her top speed, 8.0 kn, lies below the planing range, which begins at 9.2 kn for her beam.";
    assert!(slow.contains(said) && !slow.contains("no room"), "{slow}");
    let usual = server.get("/desk?boat=lantern").plain();
    assert!(!usual.contains("To settle first"));
}

/// As on the papers: what is computed is of the boat described, and she is another.
#[test]
fn regression_of_a_boat_seen_to_run_otherwise_the_page_recommends_nothing() {
    let server = Server::start(&["--draws", "100"]);
    let boat = "[hull]\noverall_length = \"12 m\"\nchine_beam = \"3.2 m\"\ndeadrise = \"21 deg\"\n\
        [weight]\nmass = \"14000 kg\"\n[drive]\nkind = \"jet\"\ntop_speed = \"38 kn\"\n\
        [[seen]]\nspeed = \"15 kn\"\ntrim = \"7.5 deg\"\n[[seen]]\nspeed = \"34 kn\"\ntrim = \"3.2 deg\"\n";
    let page = server.post("/desk", &[("text", boat), ("stock", "demo")]).plain();
    let first = page.find("SEEN OTHERWISE").expect("it is said");
    assert!(first < page.find("Try it").expect("the sliders"), "{page}");
    assert!(page.contains("Buy nothing yet; a first guess") && page.contains("No settings"));
    assert!(page.contains("Nothing to be ordered yet") && !page.contains("Suggested, a pair"));
    let sound = server.get("/desk?boat=lantern&stock=demo").plain();
    assert!(sound.contains("Suggested, a pair") && !sound.contains("SEEN OTHERWISE"));
}
