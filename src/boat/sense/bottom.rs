//! Questions about the bottom.

use uom::si::angle::degree;
use uom::si::f64::Angle;

use super::figures::{Figures, SLENDERNESS};
use super::slip::{LENGTHS, slips};
use super::weight::metres;
use super::{Draft, Guess, Question, in_unit, within, write};
use crate::boat::{Boat, Measure, degrees};

/// Usual bottom length over the length over all.
const OVERALL_SHARE: [f64; 2] = [0.65, 0.98];
/// The share that it is estimated with.
const ESTIMATED_SHARE: f64 = 0.85;
/// Steepest usual deadrise, mean over the wetted bottom, degrees.
const STEEPEST_DEG: f64 = 28.0;
/// So much steeper at the transom than in the mean is worth a question, degrees.
const STEEPER_AFT_DEG: f64 = 1.0;

const BEAM: &str = "hull.chine_beam";
const STATIONS: &str = "hull.stations";
const OVERALL_BEAM: &str = "hull.overall_beam";
const BOTTOM: &str = "hull.bottom_length";
const OVERALL: &str = "hull.overall_length";

/// A slip with the figures that it would lead to.
type Tried = (Figures, Guess);

/// Every slip in a length, with the figures without it.
fn tried(boat: &Boat, key: &str, value: Measure, without: impl Fn(f64) -> Figures) -> Vec<Tried> {
    let unit = boat.input().written.unit_of(key, value);
    let name = key.split_once('.').map_or(key, |(_, name)| name);
    let one = |slip: super::Slip| {
        let guess = Guess::new(format!("{name}: {}", slip.cause), write(key, &slip.write));
        (without(slip.factor), guess)
    };
    slips(value, unit, LENGTHS).into_iter().map(one).collect()
}

/// The slips without which all figures agree; else those without which her proportions and her mass do.
fn fitting(all: Vec<Tried>) -> Vec<Tried> {
    let agree = |(figures, _): &Tried| figures.agree();
    let nearly =
        |(figures, _): &Tried| figures.is_slender_as_usual() && figures.is_heavy_as_usual();
    if all.iter().any(agree) {
        all.into_iter().filter(agree).collect()
    } else {
        all.into_iter().filter(nearly).collect()
    }
}

/// The guesses, with the figures of the first taken for granted from here on.
fn taken(fitting: Vec<Tried>, figures: &mut Figures) -> Vec<Guess> {
    if let Some((without, _)) = fitting.first() {
        *figures = *without;
    }
    fitting.into_iter().map(|(_, guess)| guess).collect()
}

/// Whether chine beam and length belong to one planing bottom.
pub(super) fn beam_against_length(boat: &Boat, figures: &mut Figures) -> Option<Question> {
    if figures.is_slender_as_usual() {
        return None;
    }
    let given = *figures;
    let by_stations = boat.stations_of(BEAM).is_some();
    let (key, about, over_chines) =
        match (boat.input().hull.chine_beam, boat.input().hull.overall_beam) {
            (None, _) if by_stations => (STATIONS, "her chine beam by the stations", 1.0),
            (None, Some(overall)) => {
                (OVERALL_BEAM, "her beam over all", (overall / boat.hull().chine_beam).value)
            }
            _ => (BEAM, "her chine beam", 1.0),
        };
    let beam = Measure::Length(boat.hull().chine_beam * over_chines);
    let wider = |factor: f64| Figures { beam_m: given.beam_m * factor, ..given };
    let mut all = tried(boat, key, beam, wider);
    if given.slenderness() > SLENDERNESS[1] && !by_stations {
        let unit = boat.input().written.unit_of(key, beam);
        let cure = write(key, &in_unit(beam.times(2.0), unit));
        all.push((wider(2.0), Guess::new("half of it, from the centreline to the chine", cure)));
    }
    all.extend(length_slips(boat, given));
    let [low, high] = SLENDERNESS;
    let asked = Draft {
        word: "beam-against-length",
        key,
        about,
        value: beam,
        usual: [high, low].map(|beams| metres(over_chines * given.length_m / beams)),
        rule: format!("a bottom {low} to {high} beams long"),
    };
    if by_stations {
        let otherwise = Guess::new(
            "a column of the list is in another unit, or holds whole beams for half-beams",
            "check station, keel_height and chine_half_beam in the list; where its keel leaves the straight line too early, give bottom_length in the boat file",
        );
        return Some(asked.with(boat, Vec::new(), otherwise));
    }
    let otherwise = Guess::new(
        "beam and length are not those of one bottom",
        "measure chine_beam between the corners where bottom meets side, and bottom_length along the keel from the transom to the forefoot",
    );
    Some(asked.with(boat, taken(fitting(all), figures), otherwise))
}

/// Slips in the length that the figures stand on, given or over all.
fn length_slips(boat: &Boat, given: Figures) -> Vec<Tried> {
    let longer = |factor: f64| Figures { length_m: given.length_m * factor, ..given };
    let hull = boat.input().hull;
    match (hull.bottom_length, hull.overall_length) {
        (Some(bottom), _) => tried(boat, BOTTOM, Measure::Length(bottom), longer),
        (None, Some(overall)) => tried(boat, OVERALL, Measure::Length(overall), |factor| {
            let overall_m = given.overall_m.map(|overall_m| overall_m * factor);
            Figures { overall_m, ..longer(factor) }
        }),
        (None, None) => Vec::new(),
    }
}

/// Whether the bottom is as much shorter than the boat as bottoms are.
pub(super) fn bottom_against_overall(boat: &Boat, figures: &mut Figures) -> Option<Question> {
    let (Some(bottom), Some(overall_m)) = (boat.input().hull.bottom_length, figures.overall_m)
    else {
        return None;
    };
    if within(figures.length_m / overall_m, OVERALL_SHARE) {
        return None;
    }
    let given = *figures;
    let usual_m = OVERALL_SHARE.map(|share| share * overall_m);
    let bottom = Measure::Length(bottom);
    let mut all = length_slips(boat, given);
    if let Some(overall) = boat.input().hull.overall_length {
        all.extend(tried(boat, OVERALL, Measure::Length(overall), |factor| Figures {
            overall_m: Some(overall_m * factor),
            ..given
        }));
    }
    all.retain(|(without, _)| {
        let share = without.overall_m.map(|overall_m| without.length_m / overall_m);
        share.is_some_and(|share| within(share, OVERALL_SHARE))
    });
    let unit = boat.input().written.unit_of(BOTTOM, bottom);
    let is_long = given.length_m > usual_m[1];
    let otherwise = Guess::new(
        if is_long {
            "the length over all, given for the bottom"
        } else {
            "the wetted length, or a bottom that is stepped or cut short, given for the planing bottom"
        },
        format!(
            "measure it along the keel from the transom to the forefoot; left out, it is estimated as {}",
            in_unit(metres(ESTIMATED_SHARE * overall_m), unit)
        ),
    );
    let [low, high] = OVERALL_SHARE;
    let asked = Draft {
        word: "bottom-against-overall",
        key: BOTTOM,
        about: "the length of her bottom",
        value: bottom,
        usual: usual_m.map(metres),
        rule: format!("{low} to {high} of the length over all"),
    };
    Some(asked.with(boat, taken(fitting(all), figures), otherwise))
}

/// Whether the deadrise is the mean of a bottom that grows flatter toward the transom.
pub(super) fn deadrise(boat: &Boat) -> Option<Question> {
    let mean = boat.hull().deadrise;
    let of_degrees = |deg: f64| Measure::Angle(Angle::new::<degree>(deg));
    let asked = |word, low_deg: f64, rule: &str| Draft {
        word,
        key: "hull.deadrise",
        about: "her deadrise",
        value: Measure::Angle(mean),
        usual: [of_degrees(low_deg), of_degrees(STEEPEST_DEG)],
        rule: rule.to_owned(),
    };
    if degrees(mean) > STEEPEST_DEG {
        let guess = Guess::new(
            "taken too far forward, where every bottom is steeper",
            "measure the angle of the bottom to level at half the length of the chine",
        );
        let rule = "at half the length of the chine";
        return Some(asked("deadrise-steep", 0.0, rule).with(boat, vec![guess], UNKNOWN));
    }
    // An estimate is no steeper aft by its own rule.
    boat.input().hull.deadrise?;
    let at_transom = boat.input().transom.deadrise?;
    if degrees(at_transom) <= degrees(mean) + STEEPER_AFT_DEG {
        return None;
    }
    let [aft, mean_text] = [at_transom, mean].map(|angle| Measure::Angle(angle).to_string());
    let guess = Guess::new(
        format!(
            "exchanged with that at the transom, {aft}: a bottom grows flatter toward the transom"
        ),
        format!("{} and {}", write("hull.deadrise", &aft), write("transom.deadrise", &mean_text)),
    );
    let rule = "at least that at the transom";
    let low_deg = degrees(at_transom);
    Some(asked("deadrise-against-transom", low_deg, rule).with(boat, vec![guess], UNKNOWN))
}

/// Where a guess is always at hand.
const UNKNOWN: Guess = Guess { cause: String::new(), cure: String::new() };
