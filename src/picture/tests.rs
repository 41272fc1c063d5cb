//! Pictures show what the balance found.

use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, length::meter, velocity::knot};

use super::*;
use crate::balance::{Balance, Outcome, Settings};
use crate::input::parse_boat;
use crate::units::UnitChoice;

fn boat(name: &str) -> Boat {
    let path = format!("{}/data/boats/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    parse_boat(name, &std::fs::read_to_string(path).unwrap()).unwrap().boat
}

fn pictures(boat: &Boat, speed_kn: f64, deflection_deg: f64, frame: Frame) -> [String; 2] {
    let balance = Balance::of(boat, &Settings::default());
    let point = balance
        .point(Velocity::new::<knot>(speed_kn), Angle::new::<degree>(deflection_deg))
        .unwrap();
    let budget = balance.budget(&point);
    let units = UnitChoice::default();
    let scene = Scene { boat, point: &point, budget: budget.as_ref(), units, frame };
    [side_view(&scene), view_from_below(&scene)]
}

/// Points of the first shape of a part.
fn points_of(svg: &str, part: &str) -> Vec<[f64; 2]> {
    let start = svg.find(&format!("picture-{part}")).unwrap_or_else(|| panic!("no {part}"));
    let rest = &svg[start..];
    // A polygon, or the first part of a path of strokes.
    let begins = |mark: &str| rest.find(mark).map(|at| at + mark.len());
    let from = [begins("points=\""), begins(" d=\"M")].into_iter().flatten().min().unwrap();
    let to = from + rest[from..].find(['"', 'M']).unwrap();
    let numbers = |pair: &str| {
        let (x, y) = pair.split_once(',').unwrap();
        [x.parse().unwrap(), y.parse().unwrap()]
    };
    rest[from..to].split(' ').map(numbers).collect()
}

#[test]
fn physics_wetted_bottom_is_drawn_to_the_scale_of_the_beam() {
    let boat = boat("lantern");
    let balance = Balance::of(&boat, &Settings::default());
    let speed = Velocity::new::<knot>(22.0);
    let point = balance.point(speed, Angle::new::<degree>(5.0)).unwrap();
    let running = point.running.unwrap();
    let [_, below] = pictures(&boat, 22.0, 5.0, Frame::Wide);
    let wetted = points_of(&below, "wetted");
    let across = wetted.iter().map(|at| at[1]).fold(f64::MIN, f64::max)
        - wetted.iter().map(|at| at[1]).fold(f64::MAX, f64::min);
    let along = wetted.iter().map(|at| at[0]).fold(f64::MIN, f64::max)
        - wetted.iter().map(|at| at[0]).fold(f64::MAX, f64::min);
    let known = running.wetted_keel.get::<meter>() / boat.hull().chine_beam.get::<meter>();
    assert!((along / across / known - 1.0).abs() < 2e-3, "{along} {across} {known}");
}

#[test]
fn physics_picture_is_as_port_as_starboard() {
    let [_, below] = pictures(&boat("holm"), 18.0, 8.0, Frame::Wide);
    for part in ["hull", "wetted"] {
        let points = points_of(&below, part);
        let mean: f64 = points.iter().map(|at| at[1]).sum::<f64>() / points.len() as f64;
        let middle = points_of(&below, "centreline")[0][1];
        assert!((mean - middle).abs() < 0.06, "{part}: {mean} {middle}");
    }
}

#[test]
fn physics_keel_in_the_side_view_lies_at_the_trim() {
    let boat = boat("wren");
    let [side, _] = pictures(&boat, 20.0, 0.0, Frame::Wide);
    // The wetted side: transom's foot, then the end of the wetted keel.
    let start = side.find("picture-hull").unwrap();
    let wetted = side[start..].match_indices("<polygon points=\"").nth(2).unwrap().0 + start;
    let corners = points_of(&format!("picture-x{}", &side[wetted..]), "x");
    let slope = (corners[0][1] - corners[1][1]) / (corners[1][0] - corners[0][0]);
    let speed = Velocity::new::<knot>(20.0);
    let point =
        Balance::of(&boat, &Settings::default()).point(speed, Angle::new::<degree>(0.0)).unwrap();
    let trim = point.running.unwrap().trim.get::<degree>();
    assert!((slope.atan().to_degrees() - trim).abs() < 0.03, "{slope} {trim}");
    // The wetted keel ends at the level surface.
    let surface = points_of(&side, "surface")[0][1];
    assert!((corners[1][1] - surface).abs() < 0.11, "{} {surface}", corners[1][1]);
}

#[test]
fn practice_pictures_speak_and_say_what_is_sketched() {
    for name in ["wren", "lantern", "holm"] {
        let boat = boat(name);
        for frame in [Frame::Wide, Frame::Narrow] {
            for svg in pictures(&boat, 20.0, if boat.planes().is_some() { 6.0 } else { 0.0 }, frame)
            {
                assert!(svg.starts_with("<svg") && svg.contains("role=\"img\""));
                assert!(svg.contains("<title>") && svg.contains("are a sketch"), "{svg}");
                assert!(!svg.contains("style=") && !svg.contains(" id=") && !svg.contains("NaN"));
            }
        }
    }
}

#[test]
fn physics_a_boat_that_does_not_run_has_no_attitude() {
    let boat = boat("lantern");
    let [side, below] = pictures(&boat, 6.0, 0.0, Frame::Wide);
    assert!(side.contains("picture-ghost") && !side.contains("picture-planes"));
    assert!(side.contains(Outcome::BelowPlaningRange.meaning()), "{side}");
    assert!(!below.contains("picture-wetted"));
}

#[test]
fn regression_scale_depends_on_the_boat_alone() {
    let boat = boat("lantern");
    let head = |svg: &str| svg.split('>').next().unwrap().to_owned();
    let [one, _] = pictures(&boat, 14.0, 0.0, Frame::Wide);
    let [two, _] = pictures(&boat, 26.0, 8.0, Frame::Wide);
    assert!(points_of(&one, "surface")[0] == points_of(&two, "surface")[0]);
    assert_eq!(head(&one).split("height").next(), head(&two).split("height").next());
}

/// What is held to the bottom stands at her deadrise, whatever it is.
#[test]
fn physics_the_section_to_measure_has_the_boats_own_deadrise() {
    for name in ["wren", "lantern", "holm"] {
        let boat = boat(name);
        let svg = measuring(&boat, Measuring::Deadrise);
        let outline = points_of(&svg, "section");
        let [chine, keel] = [outline[1], outline[2]];
        let slope = ((keel[1] - chine[1]) / (keel[0] - chine[0])).atan().to_degrees();
        assert!((slope - boat.hull().deadrise.get::<degree>()).abs() < 0.1, "{name}: {slope}");
    }
}

/// Keel and chine are where the stations say, seen from the side and from below.
#[test]
fn physics_keel_and_chine_are_drawn_through_the_stations() {
    let boat = crate::input::read_boat("data/stations/heron.toml".as_ref()).unwrap().boat;
    let rows = boat.stations().unwrap().rows();
    let [_, below] = pictures(&boat, 22.0, 4.0, Frame::Wide);
    // The second shape of the hull is the bottom within its chines; the first that within the sheer.
    let hull = &below[below.find("picture-hull").unwrap()..];
    let second = hull.match_indices("<polygon points=\"").nth(1).unwrap().0;
    let chine = points_of(&format!("picture-x{}", &hull[second..]), "x");
    let middle = points_of(&below, "centreline")[0][1];
    let per_m = (middle - chine[0][1]) / rows[0].chine_half_beam.get::<meter>();
    for (drawn, row) in chine.iter().zip(&rows[..rows.len() - 1]) {
        let forward_m = (drawn[0] - chine[0][0]) / per_m;
        assert!((forward_m - row.forward.get::<meter>()).abs() < 3e-3, "{forward_m}");
        let half_m = (middle - drawn[1]) / per_m;
        assert!((half_m - row.chine_half_beam.get::<meter>()).abs() < 3e-3, "{half_m}");
    }
    let shape = shape::Shape::of(&boat);
    for (keel, row) in shape.keel().iter().zip(rows) {
        assert!((keel[1] - row.keel_height.get::<meter>()).abs() < 1e-12);
    }
    assert!(below.contains("the stations in heron-bottom.csv"));
    for frame in [Frame::Wide, Frame::Narrow] {
        for svg in pictures(&boat, 22.0, 4.0, frame) {
            assert!(svg.contains("are a sketch") && !svg.contains("NaN"));
        }
    }
}
