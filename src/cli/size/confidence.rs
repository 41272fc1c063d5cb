//! The size for a share of the boats nearly like this one.

use serde::Serialize;
use uom::si::length::meter;

use crate::balance::Settings;
use crate::boat::{Boat, PlanePair};
use crate::cli::Failure;
use crate::cli::doubt::progress::Bar;
use crate::doubt::{ConfidentSize, Drawn, confident_size};

/// Boats drawn when nothing else is asked for: a share of 90 % is then good to 1 %.
pub(super) const DRAWS: u32 = 1000;
/// Least and largest share that makes sense to ask for, per cent.
const SHARES: std::ops::RangeInclusive<f64> = 50.0..=99.0;

/// Reads `--confidence`, for clap: a share in per cent, as a share of one.
pub(super) fn percent(text: &str) -> Result<f64, String> {
    let plain = text.trim().trim_end_matches('%').trim_end();
    let number: Option<f64> = plain.parse().ok();
    match number.filter(|number| SHARES.contains(number)) {
        Some(number) => Ok(number / 100.0),
        None => {
            Err("a share of boats from 50 to 99 in a hundred is wanted, for example 90".to_owned())
        }
    }
}

/// Looks for the size, with a bar when it takes long.
pub(super) fn found(
    boats: &[Boat],
    settings: &Settings,
    wanted: f64,
    drawn: Drawn,
) -> Result<ConfidentSize, Failure> {
    let bar = Bar::of(u64::from(drawn.draws));
    let found = confident_size(boats, settings, wanted, drawn, &|done| bar.advance(done))?;
    bar.finish();
    Ok(found)
}

/// The answer in JSON.
#[derive(Serialize)]
pub(super) struct ConfidenceRecord {
    wanted_share: f64,
    reached: bool,
    no_planes_needed: bool,
    span_m: Option<f64>,
    chord_m: Option<f64>,
    share: Option<f64>,
    standard_error: Option<f64>,
    bare_share: f64,
    best_span_m: Option<f64>,
    best_chord_m: Option<f64>,
    best_share: Option<f64>,
    draws: u32,
    seed: u64,
    seen_readings: usize,
    flags: Vec<&'static str>,
}

impl From<&ConfidentSize> for ConfidenceRecord {
    fn from(found: &ConfidentSize) -> Self {
        let metres = |value: f64| (value * 1e9).round() / 1e9;
        let span_m = |pair: PlanePair| metres(pair.span.get::<meter>());
        let chord_m = |pair: PlanePair| metres(pair.chord.get::<meter>());
        let best = found.best;
        Self {
            wanted_share: found.wanted,
            reached: found.is_reached(),
            no_planes_needed: found.no_planes_needed(),
            span_m: found.pair.map(span_m),
            chord_m: found.pair.map(chord_m),
            share: found.probability.map(|probability| probability.share),
            standard_error: found.probability.map(|probability| probability.error),
            bare_share: found.bare.share,
            best_span_m: best.map(|(pair, _)| span_m(pair)),
            best_chord_m: best.map(|(pair, _)| chord_m(pair)),
            best_share: best.map(|(_, probability)| probability.share),
            draws: found.drawn.draws,
            seed: found.drawn.seed,
            seen_readings: found.seen.as_ref().map_or(0, |seen| seen.readings.len()),
            flags: found.seen.as_ref().map_or_else(Vec::new, |seen| seen.flags.words()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::percent;

    #[test]
    fn error_shares_are_from_50_to_99_in_a_hundred() {
        assert_eq!(percent("90"), Ok(0.9));
        assert_eq!(percent(" 75 %"), Ok(0.75));
        for text in ["49", "100", "0.9", "much", ""] {
            assert_eq!(
                percent(text).unwrap_err(),
                "a share of boats from 50 to 99 in a hundred is wanted, for example 90"
            );
        }
    }
}
