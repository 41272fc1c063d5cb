//! Numbers and likely ranges as all papers write them.

use uom::si::f64::{Angle, Velocity};

use crate::boat::{Boat, degrees};
use crate::doubt::{Likely, Probability, SeenFit};
use crate::flag::Flag;
use crate::numeric::LIKELY_DEVIATIONS;
use crate::sentence::quantity::speed_as_asked;
use crate::units::{UnitChoice, number_with_decimals};

/// `4.6°`.
pub(super) fn angle(angle: Angle) -> String {
    format!("{}°", number_with_decimals(degrees(angle), 1))
}

/// `14°`: a deflection to be set, in whole degrees.
pub(super) fn set(deflection: Angle) -> String {
    format!("{}°", number_with_decimals(degrees(deflection), 0))
}

/// `4.1 to 5.2°`.
pub(super) fn angles(likely: Likely<Angle>) -> String {
    let [low, high] = [likely.low, likely.high].map(|a| number_with_decimals(degrees(a), 1));
    format!("{low} to {high}°")
}

/// A range of deflections: none where the plate stays clear of the bottom line, and more than there is beyond what can be used.
pub(super) fn needs(likely: Likely<Angle>, dead: Option<Angle>, usable: Angle) -> String {
    let low = match dead {
        Some(dead) if likely.low < dead => "none".to_owned(),
        _ => angle(likely.low),
    };
    format!("from {low} to {}", need(likely.high, usable))
}

/// `10.3°`, or that it is more than can be used.
pub(super) fn need(needed: Angle, usable: Angle) -> String {
    if needed > usable {
        format!("more than the {} there is", angle(usable))
    } else {
        angle(needed)
    }
}

/// `more than 10.3°`, or than what can be used.
pub(super) fn need_over(needed: Angle, usable: Angle) -> String {
    if needed > usable { need(needed, usable) } else { format!("more than {}", angle(needed)) }
}

/// `14.5 kn`.
pub(super) fn speed(speed: Velocity, units: UnitChoice) -> String {
    speed_as_asked(speed, units).to_string()
}

/// Boats in a hundred, rounded; all of them only where it was all.
pub(super) fn in_hundred(share: f64) -> String {
    crate::doubt::in_hundred(share).to_string()
}

/// What a key of the boat file holds, in words.
pub(super) fn key_words(key: &str) -> &str {
    match key {
        "hull.bottom_length" => "length of the planing bottom",
        "hull.chine_beam" => {
            "chine beam (how broad the bottom is between the corners where it meets the sides)"
        }
        "hull.deadrise" => "deadrise (how steep the V of the bottom is)",
        "weight.lcg" => "how far forward her weight lies",
        "weight.vcg" => "how high her weight lies",
        "drive.thrust_height" => "how low the drive pushes",
        "drive.thrust_angle" => "angle at which the drive pushes",
        "drive.top_speed" => "top speed",
        "water.temperature" => "temperature of the water",
        other => other,
    }
}

/// What is estimated rather than given, in words: `length of the planing bottom`.
pub(super) fn estimated(boat: &Boat) -> Option<String> {
    let all: Vec<&str> = boat.estimates().iter().map(|estimate| key_words(estimate.key)).collect();
    (!all.is_empty()).then(|| all.join(", "))
}

/// The same as briefly as can be, for a page with little room.
pub(super) fn estimated_in_short(boat: &Boat) -> Option<String> {
    let brief = |key| key_words(key).split(" (").next().unwrap_or_default();
    let all: Vec<&str> = boat.estimates().iter().map(|estimate| brief(estimate.key)).collect();
    (!all.is_empty()).then(|| all.join(", "))
}

/// What was seen of her on the water, in words: `her trim of 6.5° at 14 kn (sure to 1.0°)`; none where nothing was.
pub(super) fn seen(fit: Option<&SeenFit>, units: UnitChoice) -> Option<String> {
    match fit?.readings.as_slice() {
        [] => None,
        [one] => {
            let planes = match degrees(one.deflection) {
                0.0 => String::new(),
                _ => format!(" with the planes {} down", angle(one.deflection)),
            };
            Some(format!(
                "her trim of {} at {}{planes} (sure to {})",
                angle(one.trim),
                speed(one.speed, units),
                angle(one.by)
            ))
        }
        several => Some(format!("her trim in {} runs", several.len())),
    }
}

/// What the boats drawn have in common with what was seen.
pub(super) fn shown_the_same(fit: Option<&SeenFit>) -> &'static str {
    match fit.is_none_or(SeenFit::is_met) {
        true => "that would have shown the same",
        false => {
            "that come as near to what was read as they can, though not near enough to all of it"
        }
    }
}

/// That what was seen does not fit; none where it does.
pub(super) fn does_not_fit(fit: Option<&SeenFit>) -> Option<String> {
    let odd = fit?.flags.contains(Flag::SeenDoesNotFit);
    odd.then(|| "What was seen on the water does not fit her as described: hardly any boat like her would show it. Check the reading, what she weighs and where her weight lies before you buy or drill.".to_owned())
}

/// The last part of a file's name.
pub(super) fn file(name: &str) -> String {
    std::path::Path::new(name)
        .file_name()
        .map_or_else(|| name.to_owned(), |name| name.to_string_lossy().into_owned())
}

/// The range of a share that so many draws leave, for nine in ten: `86 to 90`.
pub(super) fn share_range(chance: Probability) -> String {
    let ends = [-1.0, 1.0].map(|side| chance.share + side * LIKELY_DEVIATIONS * chance.error);
    let [low, high] = ends.map(|end| in_hundred(end.clamp(0.0, 1.0)));
    if low == high { format!("about {low}") } else { format!("{low} to {high}") }
}

/// `, loaded “light”` where she has several loading conditions.
pub(super) fn loaded(boat: &Boat, several: bool) -> String {
    if several { format!(", loaded “{}”", boat.condition().name) } else { String::new() }
}

/// A sentence with a capital letter at its beginning.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The same with a small one.
pub(super) fn small(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
