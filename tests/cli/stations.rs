//! A boat whose bottom is a list of stations.

use serde_json::Value;

use super::{planewright, printed, refusal};

const BOAT: &str = "data/stations/heron.toml";

#[test]
fn regression_what_follows_from_the_stations_is_said_with_its_source() {
    let text = printed(&["run", BOAT, "--full", "--speed", "22 kn", "--deflection", "4 deg"]);
    let plain = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "chine beam 2.40 m (7.87 ft) from stations",
        "deadrise 18.5 deg from stations",
        "9 of heron-bottom.csv, CRC-32 ",
        "deadrise 15.0 deg at the transom and 18.5 deg at mid-chine length",
        "chine to keel 1.83 deg",
        "warp-beyond-tested",
    ] {
        assert!(plain.contains(part), "{part}: {plain}");
    }
}

#[test]
fn regression_json_has_the_list_and_what_follows_from_it() {
    let answer = printed(&["run", BOAT, "--json", "--speed", "22 kn"]);
    let answer: Value = serde_json::from_str(&answer).unwrap();
    assert_eq!(answer["input"]["stations"]["file"], "heron-bottom.csv");
    let list = &answer["boat"]["stations"];
    assert_eq!(list["crc32"], answer["input"]["stations"]["crc32"]);
    assert_eq!(list["count"], 9);
    assert_eq!(list["largest_chine_beam_m"], answer["boat"]["chine_beam_m"]);
    assert_eq!(list["chine_to_keel_deg"], answer["boat"]["chine_to_keel_deg"]);
    assert!(answer["flag_meanings"]["warp-beyond-tested"].is_string());
}

#[test]
fn error_a_list_with_a_fault_names_its_own_file_and_line() {
    let folder = tempfile::tempdir().unwrap();
    let boat = folder.path().join("boat.toml");
    let text = std::fs::read_to_string(BOAT).unwrap();
    std::fs::write(&boat, text).unwrap();
    let list = "station (m),keel_height (mm),chine_height (mm),chine_half_beam (mm)\n0,0,300,1120\n3.2,0,402,1200\n3.0,0,420,1100\n";
    std::fs::write(folder.path().join("heron-bottom.csv"), list).unwrap();
    let told = refusal(&["run", boat.to_str().unwrap()]);
    for part in
        ["heron-bottom.csv:4", "station 3 m does not lie forward of the one before it, 3.2 m"]
    {
        assert!(told.contains(part), "{part}: {told}");
    }
    std::fs::remove_file(folder.path().join("heron-bottom.csv")).unwrap();
    let told = refusal(&["run", boat.to_str().unwrap()]);
    assert!(told.contains("boat.toml:7") && told.contains("cannot be read"), "{told}");
}

/// A log of what the boat is computed to do tells of her as she is, and the copy finds her stations from its own folder.
#[test]
fn regression_a_calibrated_copy_finds_the_stations() {
    let folder = tempfile::tempdir().unwrap();
    let [log, copy] = ["log.csv", "copy.toml"].map(|name| folder.path().join(name));
    let mut lines = String::from("speed (kn),trim (deg),deflection (deg)\n");
    for speed in ["16", "19", "22", "26", "30"] {
        let asked =
            ["run", BOAT, "--json", "--speed", &format!("{speed} kn"), "--deflection", "0 deg"];
        let answer: Value = serde_json::from_str(&printed(&asked)).unwrap();
        let trim_deg = answer["points"][0]["trim_deg"].as_f64().unwrap();
        lines.push_str(&format!("{speed},{trim_deg:.2},0\n"));
    }
    std::fs::write(&log, lines).unwrap();
    let [log, copy] = [&log, &copy].map(|path| path.to_str().unwrap());
    let output = planewright(&["trial", BOAT, log, "--write", copy]);
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(0), "{told}");
    let answer = printed(&["run", copy, "--json", "--speed", "22 kn"]);
    let answer: Value = serde_json::from_str(&answer).unwrap();
    assert_eq!(answer["boat"]["stations"]["count"], 9);
}
