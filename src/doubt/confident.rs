//! The least pair that does all duties on a share of the boats nearly like the one described.

use uom::si::f64::Length;
use uom::si::length::meter;

use super::duties::{Described, Drawn};
use super::interval::Probability;
use super::running::Progress;
use super::seen::SeenFit;
use crate::balance::Settings;
use crate::balance::forces::PlaneSize;
use crate::boat::{Boat, Fault, PlanePair};
use crate::size::flattest;

/// How sure one wants to be of a size, and how sure one can be.
#[derive(Clone, Debug, PartialEq)]
pub struct ConfidentSize {
    /// Share of boats on which all duties are to be done.
    pub wanted: f64,
    /// Boats drawn.
    pub drawn: Drawn,
    /// How likely the bare boat does all duties.
    pub bare: Probability,
    /// The least pair in whole steps that does all duties as often as wanted; none when no planes are needed or no pair does.
    pub pair: Option<PlanePair>,
    /// How likely that pair does all duties.
    pub probability: Option<Probability>,
    /// The admissible pair that does all duties most often, and how often; none when there is room for none.
    pub best: Option<(PlanePair, Probability)>,
    /// What was seen of the boat, which all boats drawn would have shown; none when nothing was.
    pub seen: Option<SeenFit>,
}

impl ConfidentSize {
    /// Whether the bare boat is as sure as wanted.
    #[must_use]
    pub fn no_planes_needed(&self) -> bool {
        self.bare.share >= self.wanted
    }

    /// Whether what is wanted can be had.
    #[must_use]
    pub fn is_reached(&self) -> bool {
        self.no_planes_needed() || self.pair.is_some()
    }
}

/// The least pair in whole steps that does all duties on a share of the boats nearly like the one described.
///
/// The same boats are drawn for every size. On each of them the least span that
/// does all is found for each chord in whole steps; the span that suffices for
/// the share wanted is then the one that so many of the least spans lie under.
/// Among the chords the choice is that of a sizing.
///
/// # Errors
/// As [`crate::size::suggest_for`].
pub fn confident_size(
    boats: &[Boat],
    settings: &Settings,
    wanted: f64,
    drawn: Drawn,
    progress: Progress<'_>,
) -> Result<ConfidentSize, Fault> {
    let described = Described::of(boats, settings)?;
    let step_m = boats[0].sizing().round_to.get::<meter>();
    let chords_m = described.asked.chords_m(step_m);
    let answers = described.ask_all(drawn, progress, |boat| {
        let spans_m: Vec<f64> =
            chords_m.iter().map(|&chord_m| boat.least_span_m(chord_m)).collect();
        (boat.bare_does_all(), spans_m)
    });
    let bare = share(answers.iter().map(|(bare, _)| *bare));
    let mut grid = Grid { described: &described, drawn, step_m, chords: Vec::new() };
    for (place, &chord_m) in chords_m.iter().enumerate() {
        let mut least_m: Vec<f64> = answers.iter().map(|(_, spans_m)| spans_m[place]).collect();
        least_m.sort_by(f64::total_cmp);
        grid.chords.push(Chord { chord_m, least_m });
    }
    let pair = if bare.share >= wanted { None } else { grid.least(wanted) };
    Ok(ConfidentSize {
        wanted,
        drawn,
        bare,
        pair: pair.map(|(size, _)| pair_of(size)),
        probability: pair.map(|(_, probability)| probability),
        best: grid.best().map(|(size, probability)| (pair_of(size), probability)),
        seen: described.seen(),
    })
}

/// A chord with the least spans of all boats drawn, sorted.
struct Chord {
    chord_m: f64,
    least_m: Vec<f64>,
}

impl Chord {
    /// Share of the boats on which a span does all.
    fn share(&self, span_m: f64) -> f64 {
        let done = self.least_m.partition_point(|&least_m| least_m <= span_m * (1.0 + 1e-9));
        #[allow(clippy::cast_precision_loss)]
        let share = done as f64 / self.least_m.len().max(1) as f64;
        share
    }

    /// The least span that does all on a share of the boats.
    fn span_m(&self, wanted: f64) -> f64 {
        #[allow(
            clippy::cast_precision_loss,
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss
        )]
        let place = (wanted * self.least_m.len() as f64 - 1e-9).ceil().max(1.0) as usize;
        self.least_m.get(place - 1).copied().unwrap_or(f64::INFINITY)
    }
}

/// All chords in whole steps.
struct Grid<'a> {
    described: &'a Described<'a>,
    drawn: Drawn,
    step_m: f64,
    chords: Vec<Chord>,
}

impl Grid<'_> {
    /// The least pair, with how often it does all; asked of every boat again.
    ///
    /// A wider pair may do less where a list is levelled with planes whose middle lies further in;
    /// then the next steps of span are tried.
    fn least(&self, wanted: f64) -> Option<(PlaneSize, Probability)> {
        let candidates = self.chords.iter().filter_map(|chord| {
            let from_m = chord.span_m(wanted);
            let spans_m = self.described.asked.spans_m(chord.chord_m, from_m, self.step_m);
            let span_m = from_m.is_finite().then_some(spans_m)?.next()?;
            Some(PlaneSize { span_m, chord_m: chord.chord_m })
        });
        for size in flattest(candidates.collect()) {
            let probability = self.asked_again(size);
            if probability.share >= wanted {
                return Some((size, probability));
            }
        }
        None
    }

    /// The pair that does all most often: the largest of each chord, or one as often done that is smaller.
    fn best(&self) -> Option<(PlaneSize, Probability)> {
        let largest = self.chords.iter().filter_map(|chord| {
            let spans_m = self.described.asked.spans_m(chord.chord_m, 0.0, self.step_m);
            let span_m = spans_m.last()?;
            Some((chord.share(span_m), PlaneSize { span_m, chord_m: chord.chord_m }))
        });
        let (_, size) = largest
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.area_m2().total_cmp(&a.1.area_m2())))?;
        Some((size, self.asked_again(size)))
    }

    fn asked_again(&self, size: PlaneSize) -> Probability {
        let done = self.described.ask_all(self.drawn, &|_| (), |boat| boat.does_all(size));
        share(done.into_iter())
    }
}

fn share(done: impl Iterator<Item = bool>) -> Probability {
    let (mut met, mut all) = (0, 0);
    for done in done {
        met += u32::from(done);
        all += 1;
    }
    Probability::of(met, all)
}

fn pair_of(size: PlaneSize) -> PlanePair {
    PlanePair { span: Length::new::<meter>(size.span_m), chord: Length::new::<meter>(size.chord_m) }
}
