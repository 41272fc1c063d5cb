//! Boats carried by their planes. The boat in `tests/abuse` is invented: 1.1 t on a bottom of 9.6 m.

use super::printed;

const BOAT: &str = "tests/abuse/planes_carry_nearly_all.toml";

fn points(deflections: &[&str]) -> Vec<serde_json::Value> {
    let asked = deflections.iter().flat_map(|deflection| ["--deflection", deflection]);
    let arguments: Vec<&str> =
        ["run", BOAT, "--json", "--speed", "36 kn"].into_iter().chain(asked).collect();
    let answer: serde_json::Value = serde_json::from_str(&printed(&arguments)).unwrap();
    answer["points"].as_array().unwrap().clone()
}

/// At 6 deg the equations balance on a millimetre of wet bottom; that is no run. Derived here.
#[test]
fn physics_a_balance_on_a_strip_of_wet_bottom_is_no_run() {
    let points = points(&["4 deg", "6 deg", "7 deg"]);
    let outcomes: Vec<&str> =
        points.iter().map(|point| point["outcome"].as_str().unwrap()).collect();
    assert_eq!(outcomes, ["running", "bow-under", "bow-under"]);
    for (point, carried) in points.iter().zip([false, true, true]) {
        let has = |list: &str| {
            point[list].as_array().unwrap().iter().any(|word| word == "planes-carry-half")
        };
        assert_eq!(has("flags"), carried, "{point}");
        assert_eq!(has("untested"), carried, "{point}");
    }
}

#[test]
fn regression_planes_that_carry_the_boat_are_said_to() {
    for form in [&[][..], &["--full"], &["--budget"]] {
        let arguments =
            [&["run", BOAT, "--speed", "36 kn", "--deflection", "7 deg"], form].concat();
        let text = printed(&arguments).split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains("The planes carry the boat at this speed"), "{text}");
        assert!(!text.contains("stern is too heavy"), "{text}");
        assert!(
            text.contains("planes that carry half the boat") || text.contains("planes-carry-half"),
            "{text}"
        );
    }
}
