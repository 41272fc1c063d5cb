//! The least resistance that any admissible pair reaches.

use super::bench::Bench;
use super::site::Site;
use crate::balance::forces::PlaneSize;
use crate::numeric::least_between;

/// Chords at which the least resistance is first looked at.
const CHORDS: u8 = 8;
/// Spans looked at for each, as shares of the way from the least to the largest.
const SPAN_SHARES: [f64; 2] = [0.5, 1.0];
/// Shares from one of them to the next.
const CHORD_STEP: f64 = 1.0 / (CHORDS as f64 - 1.0);
/// Precision of the share of the way through the chords.
const SHARE_PRECISION: f64 = 2e-4;
/// The resistance hangs less on the span, which need not be found so closely.
const SPAN_COARSER: f64 = 10.0;
/// Shares of the way through chords and spans.
pub(super) type Shares = [f64; 2];

/// Stands for a resistance that does not exist, as a multiple of the weight.
const LARGE: f64 = 1e3;

impl Bench<'_> {
    /// Least resistance that any admissible pair reaches at a site with a safe run and a usable deflection.
    ///
    /// A grid finds the neighbourhood; then chord and span are each moved to the
    /// best place. Infinite when the boat does not run with any of them.
    pub fn least_resistance_n(&self, site: &Site<'_>) -> f64 {
        self.least_resistance(site).0
    }

    /// The same, and where it lies, as shares of the way through chords and spans; none when no pair is admissible.
    pub fn least_resistance(&self, site: &Site<'_>) -> (f64, Option<Shares>) {
        let bare_n = self.bare_resistance_n(site);
        let Some(near) = self.neighbourhood(site) else { return (bare_n, None) };
        let least_n = self.polished_n(site, near).min(bare_n);
        (least_n, Some([near[0], near[1]]))
    }

    /// The same on a boat nearly like one of which the place is known: that place alone is tried, since
    /// many sizes reach nearly the same there. The least comes out up to half a per cent too high (a
    /// test), which asks that much less of the pair.
    pub fn least_resistance_near_n(&self, site: &Site<'_>, near: Option<Shares>) -> f64 {
        let there_n = near.map_or(f64::INFINITY, |[chord_share, span_share]| {
            self.at_shares_n(site, chord_share, span_share)
        });
        match there_n.is_finite() {
            true => there_n.min(self.bare_resistance_n(site)),
            false => self.least_resistance_n(site),
        }
    }

    fn bare_resistance_n(&self, site: &Site<'_>) -> f64 {
        site.resistance_n(PlaneSize { span_m: 0.0, chord_m: 0.0 }, 0.0)
    }

    /// The best of a grid: shares and resistance.
    fn neighbourhood(&self, site: &Site<'_>) -> Option<[f64; 3]> {
        let mut best = [0.0, 0.0, f64::INFINITY];
        for chord_share in (0..CHORDS).map(|step| f64::from(step) * CHORD_STEP) {
            for span_share in SPAN_SHARES {
                let here_n = self.at_shares_n(site, chord_share, span_share);
                if here_n < best[2] {
                    best = [chord_share, span_share, here_n];
                }
            }
        }
        best[2].is_finite().then_some(best)
    }

    /// Moves first the chord and then the span to the best place.
    fn polished_n(&self, site: &Site<'_>, near: [f64; 3]) -> f64 {
        let large_n = LARGE * site.bare.prism.weight_n;
        let [mut chord_share, span_share, mut least_n] = near;
        let ends = [(chord_share - CHORD_STEP).max(0.0), (chord_share + CHORD_STEP).min(1.0)];
        let along_chords = |share: f64| self.at_shares_n(site, share, span_share).min(large_n);
        if let Some([place, here_n]) =
            least_between(ends[0], ends[1], SHARE_PRECISION, along_chords)
            && here_n < least_n
        {
            (chord_share, least_n) = (place, here_n);
        }
        let along_spans = |share: f64| self.at_shares_n(site, chord_share, share).min(large_n);
        let polished = least_between(0.0, 1.0, SPAN_COARSER * SHARE_PRECISION, along_spans);
        polished.map_or(least_n, |polished| least_n.min(polished[1]))
    }

    /// Least resistance that the size at some shares reaches; infinite when there is none.
    fn at_shares_n(&self, site: &Site<'_>, chord_share: f64, span_share: f64) -> f64 {
        let size = self.room.at_shares(chord_share, span_share);
        size.map_or(f64::INFINITY, |size| self.reached_n(site, size))
    }

    /// Least resistance that a size reaches at a site with a safe run and a usable deflection; infinite when none is.
    fn reached_n(&self, site: &Site<'_>, size: PlaneSize) -> f64 {
        let to_deg = site.safe_deg(size).min(self.rules.usable_deg);
        let from_deg = site.running_deg(size);
        if from_deg > to_deg {
            return f64::INFINITY;
        }
        site.least_resistance(size, from_deg, to_deg)[1]
    }
}
