//! What a picture shows, in words and numbers.

use uom::si::f64::Length;
use uom::si::length::meter;

use super::Scene;
use super::arrows::{letter, magnitude_text};
use crate::balance::Running;
use crate::boat::degrees;
use crate::units::number_with_decimals;

const SKETCH_OF_PRISM: &str = "Drawn to scale. What the equations know is the bottom, a prism of straight keel, level chines and one deadrise; bow and sides are a sketch.";

/// What of the picture is known.
fn sketch(scene: &Scene<'_>) -> String {
    match scene.boat.stations() {
        Some(stations) => format!(
            "Drawn to scale. Keel and chine are those of the stations in {}; the equations know of them one beam, the deadrise at mid-chine length and the angle between chine and keel. What lies beyond the last station and the sides are a sketch.",
            stations.source()
        ),
        None => SKETCH_OF_PRISM.to_owned(),
    }
}

/// `22 kn`, with a tenth where there is one.
pub(super) fn speed(scene: &Scene<'_>) -> String {
    let unit = scene.units.speed;
    let tenths = number_with_decimals(unit.value(scene.point.speed), 1);
    format!("{} {}", tenths.trim_end_matches(".0"), unit.symbol())
}

pub(super) fn length(scene: &Scene<'_>, length: Length) -> String {
    let unit = scene.units.length;
    format!("{} {}", number_with_decimals(unit.value(length), 2), unit.symbol())
}

/// `no planes`, `planes up` or `planes 7.5° down`.
pub(super) fn planes(scene: &Scene<'_>) -> String {
    match (scene.boat.planes(), degrees(scene.point.deflection)) {
        (None, _) => "no planes".to_owned(),
        (Some(_), 0.0) => "planes up".to_owned(),
        (Some(_), deg) => {
            let tenths = number_with_decimals(deg, 1);
            format!("planes {}° down", tenths.trim_end_matches(".0"))
        }
    }
}

/// The headline of the side view.
pub(super) fn headline(scene: &Scene<'_>) -> String {
    let start = format!("{}, {}", speed(scene), planes(scene));
    match &scene.point.running {
        Some(running) => format!("{start}: trim {}", trim(running)),
        None => start,
    }
}

pub(super) fn trim(running: &Running) -> String {
    format!("{}°", number_with_decimals(degrees(running.trim), 1))
}

pub(super) fn side_title(scene: &Scene<'_>) -> String {
    format!("{} from the side at {}", scene.boat.name(), headline(scene))
}

pub(super) fn side_description(scene: &Scene<'_>) -> String {
    let sketch = sketch(scene);
    let Some(running) = &scene.point.running else {
        return format!(
            "{} {sketch} No trim is shown: the dashed hull stands for the boat, not for how she lies.",
            scene.point.meaning()
        );
    };
    let mut text = format!(
        "She runs bow up by {} with her keel {} below the level surface at the transom. {} of her keel are wetted. {sketch} The wake is a sketch too.",
        trim(running),
        length(scene, running.draft),
        length(scene, running.wetted_keel),
    );
    if let Some(budget) = scene.budget {
        text.push_str(" Forces:");
        for (place, force) in budget.contributions.iter().enumerate() {
            let magnitude = magnitude_text(force, scene.units);
            text.push_str(&format!(" {}, {}, {magnitude};", letter(place), force.name));
        }
        text.pop();
        text.push('.');
    }
    text
}

pub(super) fn below_title(scene: &Scene<'_>) -> String {
    format!("The bottom of {} from below at {}, {}", scene.boat.name(), speed(scene), planes(scene))
}

pub(super) fn below_description(scene: &Scene<'_>) -> String {
    let sketch = sketch(scene);
    let planes = match scene.boat.planes() {
        None => String::new(),
        Some(pair) => {
            let middle = scene.boat.transom().mid_span_off_centre(pair.span);
            let room = if scene.boat.transom().fits(pair).fits() {
                ""
            } else {
                " They do not fit the transom, and are drawn dashed where they would come nearest."
            };
            format!(
                " Two planes stand behind the transom, the middle of each {} off the centreline.{room}",
                length(scene, middle)
            )
        }
    };
    let Some(running) = &scene.point.running else {
        return format!("{} {sketch}{planes}", scene.point.meaning());
    };
    let chine = if running.wetted_chine.get::<meter>() < 0.0 {
        "The chines run dry ahead of the transom.".to_owned()
    } else {
        format!("{} of each chine are wetted.", length(scene, running.wetted_chine))
    };
    format!(
        "{} of the keel are wetted. {chine} From keel to chine runs the line where the water parts, forward into spray and aft along the bottom.{planes} {sketch}",
        length(scene, running.wetted_keel)
    )
}
