//! Very many boats nearly like the one described, each swept over her speeds.

use rayon::iter::{IndexedParallelIterator, IntoParallelIterator, ParallelIterator};
use rayon::slice::ParallelSliceMut;
use serde::Serialize;
use uom::si::f64::{Angle, Force, Velocity};
use uom::si::{angle::degree, force::newton, velocity::meter_per_second};

use super::draw::{Draw, Draws};
use super::inputs::{Input, Inputs, What};
use super::interval::{Likely, likely};
use super::rank::rank_correlation;
use super::seen::SeenFit;
use crate::balance::forces::{PlaneSize, Prism};
use crate::balance::root::{Precision, Root, Search};
use crate::balance::sweep::planing_start;
use crate::balance::{Balance, Hump, Settings};
use crate::boat::{Boat, CRUISE_SHARE, Fault, Particulars, Toleranced};
use crate::field::{InSi, si, written};

/// Speeds of one draw.
pub const SPEEDS: usize = 30;
/// Draws that are ranked, at most: with these a rank correlation is good to 0.01.
const RANKED_DRAWS: usize = 20_000;
/// Numbers kept of each speed of a draw: trim and resistance.
const KEPT: usize = 2;

/// Boats drawn for how she runs when nothing else is asked for.
pub const RUN_DRAWS: u32 = 10_000;

/// How many boats are drawn, from which seed, and how their planes stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Request {
    /// Boats drawn.
    pub draws: u32,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Mean deflection of the planes fitted.
    pub deflection: Angle,
}

/// What the boat does at one speed, as far as it is known.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SpeedDoubt {
    /// The speed.
    #[serde(rename = "speed_m_s", serialize_with = "si")]
    pub speed: Velocity,
    /// Share of the boats drawn that run in balance.
    pub running_share: f64,
    /// Running trim of those that do.
    #[serde(rename = "trim_deg", serialize_with = "si")]
    pub trim: Option<Likely<Angle>>,
    /// Resistance of those that do.
    #[serde(rename = "resistance_n", serialize_with = "si")]
    pub resistance: Option<Likely<Force>>,
    /// Running trim of the boat as described.
    #[serde(rename = "as_described_trim_deg", serialize_with = "si")]
    pub nominal_trim: Option<Angle>,
    /// Resistance of the boat as described.
    #[serde(rename = "as_described_resistance_n", serialize_with = "si")]
    pub nominal_resistance: Option<Force>,
}

/// How strongly an answer follows one input.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Influence {
    /// The input.
    #[serde(rename = "input")]
    pub what: What,
    /// Spearman's rank correlation of the answer with it.
    pub rank_correlation: f64,
}

/// What an answer follows.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Influences {
    /// The speed of the answer.
    #[serde(rename = "speed_m_s", serialize_with = "si")]
    pub speed: Velocity,
    /// All inputs, the strongest first.
    #[serde(rename = "rank_correlations")]
    pub of: Vec<Influence>,
}

/// How sure the run of a boat is.
#[derive(Clone, Debug, PartialEq)]
pub struct RunningDoubt {
    /// What is not known exactly.
    pub inputs: Vec<Input>,
    /// What was asked for.
    pub request: Request,
    /// Speed by speed.
    pub speeds: Vec<SpeedDoubt>,
    /// What the trim at the hump of the boat as described follows; none where no boat drawn runs there.
    pub hump_trim: Option<Influences>,
    /// What the resistance at cruise follows.
    pub cruise_resistance: Option<Influences>,
    /// What was seen of her and what that is worth; none when nothing was.
    pub seen: Option<SeenDoubt>,
}

/// What was seen of a boat, and by how much it narrows what is known.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenDoubt {
    /// The readings, and how they fit.
    pub fit: SeenFit,
    /// Trim at the hump of boats drawn as if nothing had been seen, at the same speed.
    pub hump_before: Option<Likely<Angle>>,
}

impl RunningDoubt {
    /// Likely trim at the hump of boats that would have shown what was seen.
    fn at_hump(&self) -> Option<Likely<Angle>> {
        let speed = self.hump_trim.as_ref()?.speed;
        self.speeds.iter().find(|row| row.speed == speed)?.trim
    }
}

/// What was seen beside what it makes of the likely trim at the hump.
struct Seen<'a>(&'a RunningDoubt, &'a SeenDoubt);

/// An input with how far it has moved, in standard deviations from the boat described.
struct Moved(What, f64);

written! {
    RunningDoubt as doubt {
        "draws": doubt.request.draws,
        "seed": doubt.request.seed,
        "deflection_deg": doubt.request.deflection.in_si(),
        "inputs": doubt.inputs,
        "seen": doubt.seen.as_ref().map(|seen| Seen(doubt, seen)),
        "speeds": doubt.speeds,
        "hump_trim_follows": doubt.hump_trim,
        "cruise_resistance_follows": doubt.cruise_resistance,
    }
    Seen<'_> as seen {
        "readings": seen.1.fit.readings,
        "chance": seen.1.fit.chance,
        "best_fit": seen.1.fit.moved.iter().map(|&(what, by)| Moved(what, by)).collect::<Vec<_>>(),
        "hump_speed_m_s": seen.0.hump_trim.as_ref().map(|hump| hump.speed).in_si(),
        "hump_trim_before_deg": seen.1.hump_before.in_si(),
        "hump_trim_after_deg": seen.0.at_hump().in_si(),
        "flags": seen.1.fit.flags.words(),
    }
    Moved as moved {
        "input": moved.0,
        "deviations": moved.1,
    }
}

/// Called now and then with the number of draws done since the last call, from any thread.
pub type Progress<'a> = &'a (dyn Fn(u64) + Sync);

/// Draws boats nearly like the one described and sweeps each over her speeds, from the start of planing to top speed.
///
/// The same seed gives the same answer to the bit, on any number of threads.
/// A boat drawn with another beam would start to plane at another speed; the
/// speeds are those of the boat described, so that all draws answer for the same.
///
/// # Errors
/// As [`Balance::point`].
pub fn running(
    boat: &Boat,
    settings: &Settings,
    request: &Request,
    progress: Progress<'_>,
) -> Result<RunningDoubt, Fault> {
    let inputs = Inputs::of(boat).with_seen(boat, settings)?;
    running_with(boat, settings, request, inputs, progress)
}

pub(super) fn running_with(
    boat: &Boat,
    settings: &Settings,
    request: &Request,
    inputs: Inputs,
    progress: Progress<'_>,
) -> Result<RunningDoubt, Fault> {
    let balance = Balance::of(boat, settings);
    let hump = Hump::of(boat, settings);
    let (speeds, at_hump) = speeds_m_s(boat, hump.as_ref());
    let nominal = speeds
        .iter()
        .map(|&speed| balance.point(Velocity::new::<meter_per_second>(speed), request.deflection))
        .collect::<Result<Vec<_>, Fault>>()?;
    let sweep = Sweep {
        speeds_m_s: speeds,
        boat: boat.particulars(),
        settings: *settings,
        planes: boat.planes().map(|pair| (pair.into(), request.deflection.get::<degree>())),
    };
    let drawn = sweep.all(&Draws::new(&inputs, request.seed), request.draws, progress);
    let columns: Vec<Vec<f64>> = (0..KEPT * SPEEDS)
        .into_par_iter()
        .map(|column| drawn.iter().skip(column).step_by(KEPT * SPEEDS).copied().collect())
        .collect();
    let rows: Vec<SpeedDoubt> = (0..SPEEDS)
        .into_par_iter()
        .map(|index| {
            let running = nominal[index].running;
            let [trims, resistances] = [0, 1].map(|kept| &columns[KEPT * index + kept]);
            SpeedDoubt {
                speed: nominal[index].speed,
                running_share: share_of_numbers(trims),
                trim: likely(trims.clone()).map(|trim| trim.map(Angle::new::<degree>)),
                resistance: likely(resistances.clone()).map(|r| r.map(Force::new::<newton>)),
                nominal_trim: running.map(|running| running.trim),
                nominal_resistance: running.map(|running| running.resistance),
            }
        })
        .collect();
    let draws = Draws::new(&inputs, request.seed);
    let planes_act = boat.planes().is_some() && request.deflection.get::<degree>() > 0.0;
    let of_planes = |what| matches!(what, What::Value(Toleranced::PlaneEffectiveness));
    let influences = |index: usize, kept: usize| {
        let mut of = influences(&inputs, &draws, &columns[KEPT * index + kept]);
        of.retain(|influence| planes_act || !of_planes(influence.what));
        Influences { speed: rows[index].speed, of }
    };
    let runs = rows.iter().any(|row| row.trim.is_some());
    let at_hump = at_hump.filter(|&index| rows[index].trim.is_some());
    let seen = inputs.seen.as_ref().map(|seen| SeenDoubt {
        fit: seen.fit.clone(),
        hump_before: at_hump.and_then(|index| sweep.unseen(&draws, index, request.draws)),
    });
    Ok(RunningDoubt {
        seen,
        hump_trim: at_hump.map(|index| influences(index, 0)),
        cruise_resistance: runs.then(|| influences(cruise(&sweep.speeds_m_s), 1)),
        inputs: inputs.list,
        request: *request,
        speeds: rows,
    })
}

/// Speeds evenly from the start of planing to top speed, or from there to a knot above where she cannot plane, with the hump and cruise in place of those next to them; and the hump's index.
fn speeds_m_s(boat: &Boat, hump: Option<&Hump>) -> ([f64; SPEEDS], Option<usize>) {
    let from = planing_start(boat).get::<meter_per_second>();
    let to = boat.drive().top_speed.get::<meter_per_second>().max(1.05 * from);
    let mut speeds = [0.0; SPEEDS];
    #[allow(clippy::cast_precision_loss)]
    for (index, speed) in speeds.iter_mut().enumerate() {
        *speed = from + (to - from) * index as f64 / (SPEEDS - 1) as f64;
    }
    let at_hump = hump.map(|hump| nearest(&speeds, hump.speed_m_s()));
    if let (Some(index), Some(hump)) = (at_hump, hump) {
        speeds[index] = hump.speed_m_s();
    }
    let cruise_m_s = boat.drive().cruise().get::<meter_per_second>();
    let at_cruise = nearest(&speeds, cruise_m_s);
    if cruise_m_s > from && Some(at_cruise) != at_hump {
        speeds[at_cruise] = cruise_m_s;
    }
    (speeds, at_hump)
}

/// Index of the speed next to another.
fn nearest(speeds_m_s: &[f64], speed_m_s: f64) -> usize {
    let away = |index: &usize| (speeds_m_s[*index] - speed_m_s).abs();
    (0..speeds_m_s.len()).min_by(|a, b| away(a).total_cmp(&away(b))).unwrap_or(0)
}

fn share_of_numbers(values: &[f64]) -> f64 {
    #[allow(clippy::cast_precision_loss)]
    let [numbers, all] =
        [values.iter().filter(|value| !value.is_nan()).count(), values.len()].map(|n| n as f64);
    if all > 0.0 { numbers / all } else { 0.0 }
}

/// Index of the speed next to cruise.
fn cruise(speeds_m_s: &[f64]) -> usize {
    nearest(speeds_m_s, CRUISE_SHARE * speeds_m_s.last().copied().unwrap_or(0.0))
}

/// How strongly some answers, one of each draw, follow each input; the strongest first.
pub(super) fn influences(inputs: &Inputs, draws: &Draws<'_>, answers: &[f64]) -> Vec<Influence> {
    let ranked = answers.len().min(RANKED_DRAWS);
    let shares: Vec<Draw> =
        (0..ranked).into_par_iter().map(|number| draws.draw(number as u64)).collect();
    let correlation = |input: &Input| {
        let index = input.what.index();
        let pairs = shares.iter().zip(answers).map(|(draw, &answer)| [draw.shares[index], answer]);
        Influence { what: input.what, rank_correlation: rank_correlation(pairs) }
    };
    let mut all: Vec<Influence> = inputs.list.iter().map(correlation).collect();
    let strength = |influence: &Influence| influence.rank_correlation.abs();
    all.sort_by(|a, b| strength(b).total_cmp(&strength(a)));
    all
}

/// What is swept, and over which speeds.
struct Sweep {
    speeds_m_s: [f64; SPEEDS],
    boat: Particulars,
    settings: Settings,
    /// Size and mean deflection of the planes fitted.
    planes: Option<(PlaneSize, f64)>,
}

impl Sweep {
    /// Trim and resistance at each speed of each draw, one draw after another; no number where she does not run.
    fn all(&self, draws: &Draws<'_>, count: u32, progress: Progress<'_>) -> Vec<f64> {
        /// Draws that one thread takes at a time.
        const CHUNK: usize = 256;
        let mut kept = vec![f64::NAN; KEPT * SPEEDS * count as usize];
        let rows = kept.par_chunks_mut(KEPT * SPEEDS * CHUNK).enumerate();
        rows.for_each(|(chunk, rows)| {
            let mut done = 0;
            for (number, row) in rows.chunks_mut(KEPT * SPEEDS).enumerate() {
                let draw = draws.draw((CHUNK * chunk + number) as u64);
                self.one(&draw.prism(&self.boat, &self.settings), row);
                done += 1;
            }
            progress(done);
        });
        kept
    }

    /// One boat over her speeds, each balance begun from the trims of the two speeds before.
    fn one(&self, prism: &Prism, row: &mut [f64]) {
        let (mut last, mut before) = (f64::NAN, f64::NAN);
        for (&speed_m_s, kept) in self.speeds_m_s.iter().zip(row.chunks_mut(KEPT)) {
            let ahead = 2.0 * last - before;
            let start = if ahead.is_finite() { ahead } else { last };
            let found = self.at(prism, speed_m_s, Some(start).filter(|start| start.is_finite()));
            before = last;
            last = f64::NAN;
            if let Some([trim_deg, resistance_n]) = found {
                last = trim_deg;
                kept[0] = trim_deg;
                kept[1] = resistance_n;
            }
        }
    }

    /// Trim and resistance of one boat at a speed, at the balance that a start leads to; none where she does not run.
    fn at(&self, prism: &Prism, speed_m_s: f64, start_deg: Option<f64>) -> Option<[f64; KEPT]> {
        let bare = prism.at(speed_m_s);
        let condition = match self.planes {
            Some((size, deflection_deg)) if deflection_deg > 0.0 => {
                bare.with_planes(size, deflection_deg)
            }
            _ => bare,
        };
        let mut search = Search::to(Precision::OF_A_DRAW, &condition);
        let root = match start_deg {
            Some(start_deg) => search.root_near(start_deg),
            None => search.root(None),
        };
        match root {
            Root::Found { forces, stable: true } => {
                Some([forces.trim_deg, condition.resistance_parts_n(&forces).iter().sum()])
            }
            _ => None,
        }
    }

    /// Trim at one of the speeds of boats drawn as if nothing had been seen.
    fn unseen(&self, draws: &Draws<'_>, index: usize, count: u32) -> Option<Likely<Angle>> {
        let trim_deg = |number: u32| {
            let prism = draws.unseen(u64::from(number)).prism(&self.boat, &self.settings);
            self.at(&prism, self.speeds_m_s[index], None).map_or(f64::NAN, |[trim_deg, _]| trim_deg)
        };
        let trims = (0..count).into_par_iter().map(trim_deg).collect();
        likely(trims).map(|trim| trim.map(Angle::new::<degree>))
    }
}

#[cfg(test)]
#[path = "running_tests.rs"]
mod tests;
