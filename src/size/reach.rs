//! The least resistance that any admissible pair reaches.

use super::bench::Bench;
use super::site::Site;
use crate::balance::forces::PlaneSize;
use crate::numeric::{least_between, root_between};

/// Chords at which the least resistance is first looked at.
const CHORDS: u8 = 8;
/// Spans looked at for each, as shares of the way from the least to the largest.
const SPAN_SHARES: [f64; 2] = [0.5, 1.0];
/// Precision of the shares of the way through chords and spans.
const SHARE_PRECISION: f64 = 2e-4;
/// Stands for a resistance that does not exist, as a multiple of the weight.
const LARGE: f64 = 1e3;

impl Bench<'_> {
    /// Least resistance that any admissible pair reaches at a site with a safe run, a tested chord and a usable deflection.
    ///
    /// A grid finds the neighbourhood; then chord and span are each moved to the
    /// best place. Infinite when the boat does not run with any of them.
    pub fn least_resistance_n(&self, site: &Site<'_>) -> f64 {
        let none = PlaneSize { span_m: 0.0, chord_m: 0.0 };
        let bare_n = site.resistance_n(none, 0.0);
        let reached_n = |chord_share: f64, span_share: f64| {
            let size = self.room.at_shares(chord_share, span_share);
            size.map_or(f64::INFINITY, |size| self.reached_n(site, size))
        };
        let step = 1.0 / f64::from(CHORDS - 1);
        let mut best = [0.0, 0.0, f64::INFINITY];
        for chord_share in (0..CHORDS).map(|place| f64::from(place) * step) {
            for span_share in SPAN_SHARES {
                let here_n = reached_n(chord_share, span_share);
                if here_n < best[2] {
                    best = [chord_share, span_share, here_n];
                }
            }
        }
        if !best[2].is_finite() {
            return bare_n;
        }
        let large_n = LARGE * site.bare.prism.weight_n;
        let [mut chord_share, span_share, mut least_n] = best;
        let ends = [(chord_share - step).max(0.0), (chord_share + step).min(1.0)];
        let along_chords = |share: f64| reached_n(share, span_share).min(large_n);
        if let Some([place, here_n]) =
            least_between(ends[0], ends[1], SHARE_PRECISION, along_chords)
            && here_n < least_n
        {
            (chord_share, least_n) = (place, here_n);
        }
        let along_spans = |share: f64| reached_n(chord_share, share).min(large_n);
        let polished = least_between(0.0, 1.0, 10.0 * SHARE_PRECISION, along_spans);
        polished.map_or(least_n, |polished| least_n.min(polished[1])).min(bare_n)
    }

    /// Least resistance that a size reaches at a site with a safe run, a tested chord and a usable deflection; infinite when none is.
    fn reached_n(&self, site: &Site<'_>, size: PlaneSize) -> f64 {
        let to_deg = site.safe_deg(size).min(self.rules.usable_deg);
        let from_deg = site.running_deg(size);
        if from_deg > to_deg {
            return f64::INFINITY;
        }
        // The wetted length grows as the planes go down.
        let untested = |deflection_deg: f64| site.chord_untested(size, deflection_deg);
        let last = [to_deg, untested(to_deg)];
        if last[1] > 0.0 {
            return f64::INFINITY;
        }
        let first = [from_deg, untested(from_deg)];
        let tested_deg =
            if first[1] > 0.0 { root_between(first, last, 1e-9, untested) } else { from_deg };
        site.least_resistance(size, tested_deg, to_deg)[1]
    }
}
