//! Sizes that may be suggested.

use crate::balance::forces::PlaneSize;

/// Slack of a limit, m and as a share, for rounding alone.
const SLACK: f64 = 1e-9;

/// Sizes that may be suggested.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Room {
    pub largest_span_m: f64,
    pub smallest_chord_m: f64,
    pub largest_chord_m: f64,
    pub smallest_aspect: f64,
    pub largest_aspect: f64,
}

impl Room {
    /// Least and largest span for a chord; none when the first is above the second.
    pub fn spans_m(&self, chord_m: f64) -> Option<[f64; 2]> {
        let least = self.smallest_aspect * chord_m;
        let largest = (self.largest_aspect * chord_m).min(self.largest_span_m);
        (least <= largest * (1.0 + 1e-12)).then_some([least.min(largest), largest])
    }

    /// Least and largest chord; none when there is no room for any plane.
    pub fn chords_m(&self) -> Option<[f64; 2]> {
        let largest = self.largest_chord_m.min(self.largest_span_m / self.smallest_aspect);
        (self.smallest_chord_m <= largest).then_some([self.smallest_chord_m, largest])
    }

    /// A pair at shares, 0 to 1, of the way through the chords and through the spans of that chord.
    pub fn at_shares(&self, chord_share: f64, span_share: f64) -> Option<PlaneSize> {
        let [low, high] = self.chords_m()?;
        let chord_m = low * (high / low).powf(chord_share);
        let [least, largest] = self.spans_m(chord_m)?;
        Some(PlaneSize { span_m: least + span_share * (largest - least), chord_m })
    }

    /// A pair in the middle of what may be suggested; none when there is no room for any.
    pub fn middle(&self) -> Option<PlaneSize> {
        self.at_shares(0.5, 0.5)
    }

    /// Chords in whole steps.
    pub fn chords_in_steps_m(&self, step_m: f64) -> Vec<f64> {
        let Some([low, high]) = self.chords_m() else { return Vec::new() };
        in_steps(low, high, step_m).collect()
    }

    /// Spans in whole steps for a chord, from one that is wanted on.
    pub fn spans_in_steps_m(
        &self,
        chord_m: f64,
        from_m: f64,
        step_m: f64,
    ) -> impl Iterator<Item = f64> + use<> {
        let [least, largest] = self.spans_m(chord_m).unwrap_or([0.0, -1.0]);
        in_steps(least.max(from_m), largest, step_m)
    }
}

/// Whole steps within two ends.
fn in_steps(low: f64, high: f64, step_m: f64) -> impl Iterator<Item = f64> {
    let first = (low * (1.0 - SLACK) / step_m).ceil();
    let places = std::iter::successors(Some(first), |steps| Some(steps + 1.0));
    // To the nanometre, so that 28 steps of 25 mm read 0.7.
    places
        .map(move |steps| (steps * step_m * 1e9).round() * 1e-9)
        .take_while(move |&length_m| length_m <= high * (1.0 + SLACK))
}
