//! Questions about the planes that the file says are fitted.

use uom::si::length::meter;

use super::figures::Figures;
use super::slip::{SMALL_LENGTHS, slips};
use super::weight::metres;
use super::{Draft, Guess, Question, in_unit, within, write};
use crate::boat::{Boat, Measure, PlanePair};

/// Usual span of one plane over the chine beam.
const SPAN_BEAMS: [f64; 2] = [0.08, 0.5];
/// Usual chord over the chine beam.
const CHORD_BEAMS: [f64; 2] = [0.03, 0.3];
/// Usual span over chord.
const ASPECT: [f64; 2] = [0.8, 8.0];

const SPAN: &str = "planes.span";
const CHORD: &str = "planes.chord";

/// Whether the pair is one for a boat of her beam: span first, else chord.
pub(super) fn against_beam(boat: &Boat, figures: &Figures) -> Option<Question> {
    let PlanePair { span, chord } = boat.planes()?;
    let [span_m, chord_m] = [span, chord].map(|length| length.get::<meter>());
    let beam_m = figures.beam_m;
    let is_span = |span_m: f64| within(span_m / beam_m, SPAN_BEAMS);
    let is_chord = |chord_m: f64| within(chord_m / beam_m, CHORD_BEAMS);
    let fits = |span_m: f64, chord_m: f64| {
        is_span(span_m) && is_chord(chord_m) && within(span_m / chord_m, ASPECT)
    };
    if fits(span_m, chord_m) {
        return None;
    }
    let mut guesses = Vec::new();
    let in_span = (span, SPAN, "span");
    let in_chord = (chord, CHORD, "chord");
    for (value, key, name) in [in_span, in_chord] {
        let value = Measure::Length(value);
        let unit = boat.input().written.unit_of(key, value);
        for slip in slips(value, unit, SMALL_LENGTHS) {
            let alone = if key == SPAN {
                fits(slip.factor * span_m, chord_m)
            } else {
                fits(span_m, slip.factor * chord_m)
            };
            if alone {
                let cause = format!("{name}: {}", slip.cause);
                guesses.push(Guess::new(cause, write(key, &slip.write)));
            }
        }
    }
    guesses.extend(both(boat, fits));
    let of_beam = |beams: [f64; 2]| beams.map(|beams| beams * beam_m);
    let (key, about, value, usual_m) = match (is_span(span_m), is_chord(chord_m)) {
        (true, false) => (CHORD, "the chord of her planes", chord, of_beam(CHORD_BEAMS)),
        (false, _) => (SPAN, "the span of her planes", span, of_beam(SPAN_BEAMS)),
        // Either would do; not for the other.
        (true, true) => (SPAN, "the span of her planes", span, of_chord(chord_m, beam_m)),
    };
    let otherwise = Guess::new(
        "a pair for another boat",
        "measure the span of ONE plane along the bottom edge, and the chord from the hinge to the trailing edge",
    );
    let [[least_span, most_span], [least_chord, most_chord]] = [SPAN_BEAMS, CHORD_BEAMS];
    let [least_aspect, most_aspect] = ASPECT;
    let asked = Draft {
        word: "planes-against-beam",
        key,
        about,
        value: Measure::Length(value),
        usual: usual_m.map(metres),
        rule: format!(
            "a span of {least_span} to {most_span} and a chord of {least_chord} to {most_chord} of the chine beam; a span of {least_aspect} to {most_aspect} chords"
        ),
    };
    Some(asked.with(boat, guesses, otherwise))
}

/// Usual spans with a chord, as far as her beam allows.
fn of_chord(chord_m: f64, beam_m: f64) -> [f64; 2] {
    let [low, high] = ASPECT.map(|aspect| aspect * chord_m);
    let [least_m, most_m] = SPAN_BEAMS.map(|beams| beams * beam_m);
    [low.max(least_m), high.min(most_m)]
}

/// The same slip in both, or one in place of the other.
fn both(boat: &Boat, fits: impl Fn(f64, f64) -> bool) -> Vec<Guess> {
    let Some(PlanePair { span, chord }) = boat.planes() else { return Vec::new() };
    let written = &boat.input().written;
    let [span, chord] = [span, chord].map(Measure::Length);
    let [of_span, of_chord] =
        [(SPAN, span), (CHORD, chord)].map(|(key, value)| written.unit_of(key, value));
    let mut guesses = Vec::new();
    if fits(chord.value(), span.value()) {
        guesses.push(Guess::new(
            "span and chord exchanged",
            format!(
                "write span = \"{}\" and chord = \"{}\" below [planes]",
                in_unit(chord, of_chord),
                in_unit(span, of_span)
            ),
        ));
    }
    if of_span != of_chord {
        return guesses;
    }
    let pairs =
        slips(span, of_span, SMALL_LENGTHS).into_iter().zip(slips(chord, of_chord, SMALL_LENGTHS));
    for (in_span, in_chord) in pairs {
        if fits(in_span.factor * span.value(), in_chord.factor * chord.value()) {
            let cause = match in_span.unit {
                Some(meant) => format!("span and chord: {meant} typed as {of_span}"),
                None => "span and chord: a decimal point in the wrong place".to_owned(),
            };
            guesses.push(Guess::new(
                cause,
                format!(
                    "write span = \"{}\" and chord = \"{}\" below [planes]",
                    in_span.write, in_chord.write
                ),
            ));
        }
    }
    guesses
}
