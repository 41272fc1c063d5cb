//! The boat in a head sea, her floating marks, and the drive's trim.

use serde_json::Value;

use super::texts::kept;
use super::{BOATS, ROUNDED, demo, planewright, printed, refusal};

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(arguments)).expect("one JSON object")
}

#[test]
fn regression_text_of_the_demo_boats_in_a_head_sea() {
    for boat in BOATS {
        let text = printed(&["seaway", &demo(boat), "--limit", "1 g", "--of", "tenth", "--full"]);
        assert!(text.lines().all(|line| line.chars().count() <= 100), "{boat}");
        assert!(text.contains("In a following or quartering sea"), "{boat}");
        match boat {
            "wren" => assert!(text.contains("as `size` suggests; none are fitted"), "{text}"),
            "holm" => kept("seaway_holm", &text),
            _ => (),
        }
    }
}

#[test]
fn physics_json_and_text_agree_and_the_tenth_is_3_3_times_the_mean() {
    let asked = ["seaway", &demo("holm"), "--waves", "1.5 m", "--speed", "20 kn", "--json"];
    let object = json(&asked);
    let row = &object["conditions"][0]["waves"][0]["rides"][0];
    let number = |value: &Value| value.as_f64().expect("a number");
    for planes in ["planes_up", "planes_down"] {
        let ride = &row[planes];
        let mean = number(&ride["centre_g"]);
        assert!((number(&ride["centre_highest_tenth_g"]) / mean - 3.302_585).abs() < 1e-5);
        assert!((number(&ride["centre_highest_third_g"]) / mean - 2.098_612).abs() < 1e-5);
        assert!(number(&ride["bow_g"]) > mean);
    }
    let ratio = number(&row["planes_down"]["trim_deg"]) / number(&row["planes_up"]["trim_deg"]);
    assert!((number(&row["change"]) - (ratio - 1.0)).abs() < 3.0 * ROUNDED);
    assert!(number(&row["planes_down"]["trim_deg"]) > 3.0 - 1e-6);
    let text = printed(&asked[..6]);
    let up = &row["planes_up"];
    let range = |key: &str| [0, 1].map(|end| number(&up[key][end]));
    let [low, high] = range("centre_range_g");
    let shown = format!("{:.2} g ({low:.2} to {high:.2}) with planes up", number(&up["centre_g"]));
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains(&shown), "{shown}\n{text}");
    // No value is surer than a quarter, and every average has the same range as a share.
    assert!((high / low).sqrt() > 1.25);
    let [tenth_low, tenth_high] = range("centre_highest_tenth_range_g");
    assert!((tenth_low / low - 3.302_585).abs() < 1e-5 && tenth_high > high);
    let [added_low, added_high] = range("added_resistance_range_n");
    let added = number(&up["added_resistance_n"]);
    assert!(added_low < added && added < added_high);
    assert!(number(&up["calm_resistance_n"]) > added);
    assert!(object["cautions"][0].as_str().unwrap().contains("following"));
}

#[test]
fn physics_a_limit_is_surely_kept_at_less_speed_than_expected() {
    let asked = ["seaway", &demo("holm"), "--waves", "1 m", "--limit", "0.5 g", "--json"];
    let object = json(&asked);
    let fastest = &object["conditions"][0]["waves"][0]["fastest"]["planes_up"];
    let speed = |which: &str| fastest[which]["up_to_m_s"].as_f64().expect("a speed");
    assert!(speed("surely") < speed("expected"), "{fastest}");
    let text = printed(&asked[..6]);
    assert!(text.contains("surely"), "{text}");
}

#[test]
fn physics_never_down_to_less_than_two_degrees() {
    let object = json(&["seaway", &demo("lantern"), "--down-to", "2 deg", "--json"]);
    let waves = object["conditions"][0]["waves"].as_array().unwrap();
    for row in waves.iter().flat_map(|waves| waves["rides"].as_array().unwrap()) {
        let [up, down] = ["planes_up", "planes_down"].map(|set| row[set]["trim_deg"].as_f64());
        let floor = up.unwrap().min(2.0) - 1e-6;
        assert!(down.unwrap() >= floor, "{row}");
    }
    let text = refusal(&["seaway", &demo("lantern"), "--down-to", "1.5 deg"]);
    assert!(text.contains("1.5 deg is outside 2 to 7 deg; trim that planes bring the boat down to; under 2 deg a bow digs and steers"), "{text}");
}

#[test]
fn regression_every_condition_is_shown_when_asked() {
    let object = json(&["seaway", &demo("holm"), "--condition", "all", "--json"]);
    let names: Vec<_> =
        object["conditions"].as_array().unwrap().iter().map(|c| &c["name"]).collect();
    assert!(names.len() > 1, "{names:?}");
}

#[test]
fn error_waves_and_limits_say_what_to_write() {
    let text = refusal(&["seaway", &demo("wren"), "--waves", "0.4"]);
    assert!(text.contains("`0.4` has no unit: write for example `0.4 m`"), "{text}");
    let text = refusal(&["seaway", &demo("wren"), "--waves", "20 m"]);
    assert!(text.contains("20 m is outside 0.01 to 10 m"), "{text}");
    let text = refusal(&["seaway", &demo("wren"), "--limit", "1"]);
    assert!(
        text.contains(
            "`1` has no unit: write for example `1 g`; an acceleration is a number with g or m/s^2"
        ),
        "{text}"
    );
    let text = refusal(&["seaway", &demo("wren"), "--of", "tenth"]);
    assert!(text.contains("--limit"), "{text}");
}

#[test]
fn regression_charts_of_a_head_sea() {
    let folder = tempfile::tempdir().unwrap();
    let made = folder.path().to_str().unwrap();
    printed(&["seaway", &demo("lantern"), "--charts", made, "--units", "imperial"]);
    let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).unwrap();
    let waves = read("acceleration-waves.svg");
    assert!(waves.contains("Significant wave height") && waves.contains("(ft)"));
    let speed = read("acceleration-speed.svg");
    assert!(speed.contains("Lantern Bay") && speed.contains("bow, planes down"));
    assert!(folder.path().join("acceleration-speed.png").exists());
}

#[test]
fn regression_the_drive_trimmed_in_brings_the_bow_down() {
    let asked = ["run", &demo("wren"), "--speed", "16 kn", "--drive-trim", "-6 deg", "--json"];
    let object = json(&asked);
    let trims = object["drive_trims"].as_array().unwrap();
    assert_eq!(trims.len(), 2);
    let trim = |place: usize| trims[place]["points"][0]["trim_deg"].as_f64().unwrap();
    assert_eq!(trims[0]["as_set"], true);
    assert_eq!(trims[1]["thrust_angle_deg"].as_f64().unwrap().round(), 6.0);
    assert!(trim(1) < trim(0));
    let slope = trims[0]["points"][0]["trim_per_degree"].as_f64().unwrap();
    assert!(slope > 0.0 && slope < 1.0, "{slope}");
    let text = printed(&asked[..6]);
    assert!(text.contains("Drive trimmed instead of planes"), "{text}");
    assert!(text.contains(&format!("{:.2}", trim(1))), "{text}");
    let plain = json(&["run", &demo("wren"), "--speed", "16 kn", "--json"]);
    assert_eq!(plain["drive_trims"].as_array().unwrap().len(), 0);
}

#[test]
fn error_a_boat_on_shafts_has_no_drive_to_trim() {
    let text = refusal(&["run", &demo("holm"), "--drive-trim", "-3 deg"]);
    assert_eq!(
        text,
        "  x --drive-trim: the boat has no drive that can be trimmed\n  \
         help: give drive.kind = \"outboard\" or \"sterndrive\", or leave the option out\n"
    );
}

/// A boat file that leaves the centre of gravity out and gives how she floats.
fn afloat(folder: &std::path::Path, weight: &str, forward: &str) -> String {
    let file = folder.join("afloat.toml");
    let text = format!(
        "name = \"Marked\"\n[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n\
         [weight]\n{weight}\nvcg = \"0.75 m\"\n[drive]\ntop_speed = \"30 kn\"\n\
         [afloat]\ndraft_at_transom = \"0.48 m\"\ndraft_forward = \"0.33 m\"\nforward_mark = \"{forward}\"\n"
    );
    std::fs::write(&file, text).expect("the folder can be written to");
    file.to_str().expect("UTF-8").to_owned()
}

#[test]
fn regression_the_floating_marks_give_the_centre_of_gravity_and_say_so() {
    let folder = tempfile::tempdir().unwrap();
    let file = afloat(folder.path(), "mass = \"2650 kg\"", "4.5 m");
    let object = json(&["run", &file, "--speed", "20 kn", "--json"]);
    let all = object["estimates"].as_array().unwrap();
    let lcg = all.iter().find(|one| one["key"] == "weight.lcg").expect("estimated");
    assert!(lcg["rule"].as_str().unwrap().starts_with("from the waterline at rest in [afloat]"));
    let number = |key: &str| lcg[key].as_f64().unwrap();
    assert!(number("low") < number("value") && number("value") < number("high"));
    // Narrower than the rule of thumb, which leaves a tenth of the bottom length.
    assert!(number("high") - number("low") < 0.65, "{lcg}");
}

#[test]
fn regression_a_centre_of_gravity_that_the_marks_contradict_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = afloat(folder.path(), "mass = \"2650 kg\"\nlcg = \"3.6 m\"", "4.5 m");
    let output = planewright(&["run", &file, "--speed", "20 kn"]);
    let text =
        String::from_utf8_lossy(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("the centre of gravity given is 3.6 m forward of the transom; by the waterline at rest it is"), "{text}");
}

#[test]
fn error_floating_marks_that_no_boat_has_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    let file = afloat(folder.path(), "mass = \"2650 kg\"", "1 m");
    let text = refusal(&["run", &file]).replace('|', " ");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        text.contains("1 m is not between a third of the bottom length and all of it, 6.5 m"),
        "{text}"
    );
    assert!(text.contains("with 0.48 m at the transom the keel slopes 8.5 deg at rest"), "{text}");
}
