//! The boats that would have shown what was seen: draws given the trims read on the water.
//!
//! A boat drawn stands at a share of each input, the normal probability Φ(z) of
//! a latent z; before anything was seen the z are independent and standard
//! normal. The trims y that were read say y = h(z) + e, with h(z) the trims of
//! the boat at z and e normal with the covariance R: the error of the readings
//! and what the error of the equations changes from one speed to another. The
//! most likely z is found by Gauss–Newton steps, and about it z is nearly normal
//! with the covariance I − Jᵀ(JJᵀ + R)⁻¹J (Laplace's approximation; J are the
//! slopes of h). The symmetric root of the covariance turns the independent
//! normal numbers of a draw into a z that fits, and changes them as little as
//! that can be. Trims do not go straight with the inputs: each z is therefore
//! moved along the gain until the boat shows the trims that straight slopes
//! would give her, so that what was read is kept however far the boats about it
//! lie apart.
//!
//! Source: Tarantola, A. (2005), Inverse Problem Theory, sections 3.2 and 6.22; the last step after
//! Oliver, D. S., He, N. & Reynolds, A. C. (1996), Conditioning permeability fields to pressure data
//! (each draw is made to fit its own reading), with the slopes of the most likely boat for all; both
//! from memory.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};
use serde::Serialize;
use statrs::distribution::{ChiSquared, ContinuousCDF, Normal};
use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::draw::Draw;
use super::inputs::{Inputs, What};
use super::spread::{LIKELY_DEVIATIONS, normal_quantile};
use crate::balance::Settings;
use crate::balance::as_read::{Sight, settings_as_read};
use crate::balance::forces::Prism;
use crate::balance::root::Precision;
use crate::boat::{Boat, Fault};
use crate::field::si;
use crate::flag::{Flag, Flags};
use crate::size::{SeenTrim, SeenTrims};

/// Standard deviation of what the error of the trim equations changes from one speed to another,
/// beyond what the inputs move, degrees. Chosen with [`FORM_WIDER`], see there.
const CHANGE_DEG: f64 = 0.15;
/// Step between speeds, as a logarithm, over which six tenths of that error stay the same. Judged.
const CHANGE_OVER: f64 = 0.3;
/// How many times as far as before the lift and the centre of pressure of a boat that was seen may
/// stand from the equations'.
///
/// Before anything is seen their scatter is that of published tests. The two published theories of
/// lift lie further apart than that at the hump, by a third of the trim; what was seen then has to
/// be free to overrule the one that is used. Chosen with [`CHANGE_DEG`] so that nine ranges in ten
/// hold the truth whichever theory made the boat: a test counts. With these 91 to 93 % do where the best
/// estimate or the equations as printed made her and 87 % where Shuford's equations did; wider
/// helps the last and hardly moves the others.
const FORM_WIDER: f64 = 1.8;
/// Share of the variance of a reading that all readings of a boat have in common. Judged: the zero
/// of the instrument, the line it was set on and the load on the day go through all of them.
const COMMON_SHARE: f64 = 0.5;
/// Chance of readings as far from the boat described, under which they do not fit her. Judged: where one
/// boat in fifty would show them a slip of the reading or of the file is likelier.
const LEAST_CHANCE: f64 = 0.02;
/// Steps of the slopes, in deviations: as wide as the inputs spread, since the slopes serve for all
/// of it; wider where the boat described finds no balance and no boat near her does.
const SLOPE_STEPS: [f64; 2] = [1.0, 3.0];
/// Gauss–Newton steps at most.
const MOST_STEPS: usize = 30;
/// Times that a step is halved at most.
const MOST_HALVINGS: i32 = 8;
/// Step at which the search has settled, in deviations.
const SETTLED: f64 = 1e-3;
/// Deviations beyond which no input is drawn.
const FURTHEST: f64 = 8.0;
/// Steps at most that bring a boat drawn to the trims that she is to show.
const BEND_STEPS: u32 = 4;
/// As near to them as is asked, degrees.
const NEAR_ENOUGH_DEG: f64 = 0.02;

/// A trim that was read, beside what the equations say.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SeenReading {
    /// The speed.
    #[serde(rename = "speed_m_s", serialize_with = "si")]
    pub speed: Velocity,
    /// Mean deflection of the planes.
    #[serde(rename = "deflection_deg", serialize_with = "si")]
    pub deflection: Angle,
    /// The trim that was read.
    #[serde(rename = "trim_deg", serialize_with = "si")]
    pub trim: Angle,
    /// Half of the range that holds nine such readings in ten.
    #[serde(rename = "by_deg", serialize_with = "si")]
    pub by: Angle,
    /// Trim of the boat by her file alone; 1° or 15° where she finds no balance.
    #[serde(rename = "as_described_trim_deg", serialize_with = "si")]
    pub described: Angle,
    /// Trim as everything is computed: brought to the readings.
    #[serde(rename = "as_computed_trim_deg", serialize_with = "si")]
    pub computed: Angle,
    /// Trim of the boat that fits best all that was seen.
    #[serde(rename = "best_fit_trim_deg", serialize_with = "si")]
    pub fitted: Angle,
}

impl SeenReading {
    /// The reading beside the boat as described alone.
    pub(crate) fn beside(&self) -> SeenTrim {
        let &Self { speed, trim, by, described, computed, fitted, .. } = self;
        SeenTrim { speed, read: trim, by, described, computed, fitted }
    }
}

/// What was seen of a boat, and how it fits her.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenFit {
    /// Every reading, in the order of the boat file.
    pub readings: Vec<SeenReading>,
    /// How likely boats as described show something as far off or further.
    pub chance: f64,
    /// How far each input would have to stand from the one described, in its standard deviations, with the equations no more doubtful than before anything was seen; the furthest first.
    pub moved: Vec<(What, f64)>,
    /// Whether the readings fit the boat as described.
    pub flags: Flags,
}

/// What was read of a boat on the water, and whether she can be brought to it; nothing where nothing was.
///
/// # Errors
/// As [`Boat::in_condition`].
pub(crate) fn seen_of(boat: &Boat, settings: &Settings) -> Result<SeenTrims, Fault> {
    let inputs = Inputs::of(boat).with_seen(boat, settings)?;
    Ok(inputs.seen.map_or_else(SeenTrims::default, |seen| seen.fit.beside()))
}

impl SeenFit {
    /// The readings beside what is computed.
    pub(crate) fn beside(&self) -> SeenTrims {
        SeenTrims {
            all: self.readings.iter().map(SeenReading::beside).collect(),
            fits: !self.flags.contains(Flag::SeenDoesNotFit),
        }
    }

    /// Whether the boat that fits best shows every reading as near as it may be off.
    #[must_use]
    pub fn is_met(&self) -> bool {
        !self.readings.iter().any(|reading| reading.beside().is_missed())
    }
}

/// The draws given what was seen.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Seen {
    latents: Vec<Latent>,
    settings: Settings,
    sights: Vec<Sight>,
    /// The most likely place, and the trims there.
    centre: DVector<f64>,
    trims_deg: DVector<f64>,
    slopes: DMatrix<f64>,
    gain: DMatrix<f64>,
    root: DMatrix<f64>,
    pub fit: SeenFit,
}

impl Seen {
    /// What was seen of a boat, whatever condition she is in now; none when nothing was.
    ///
    /// # Errors
    /// As [`Boat::in_condition`].
    pub fn of(boat: &Boat, settings: &Settings, inputs: &Inputs) -> Result<Option<Self>, Fault> {
        if boat.seen().is_empty() {
            return Ok(None);
        }
        let sights = Sight::all(boat)?;
        let as_computed = settings_as_read(boat, settings);
        let model = |wider| Model {
            inputs,
            latents: Latent::all(inputs, wider),
            settings,
            as_computed: &as_computed,
            sights: &sights,
        };
        let Some(described) = model(1.0).most_likely() else { return Ok(None) };
        Ok(model(FORM_WIDER).seen(&described))
    }

    /// Shares of a boat that would have shown what was seen, from those of one at random.
    pub fn shares(&self, inputs: &Inputs, random: &[f64; What::COUNT]) -> [f64; What::COUNT] {
        let numbers = self.latents.iter().map(|latent| normal_quantile(random[latent.index]));
        let moved = &self.root * DVector::from_iterator(self.latents.len(), numbers);
        let wanted_deg = &self.trims_deg + &self.slopes * &moved;
        let mut place = &self.centre + moved;
        for _ in 0..BEND_STEPS {
            let draw = Draw::at(inputs, &shares(&self.latents, &place));
            let shown = self.sights.iter().zip(wanted_deg.iter()).map(|(sight, &near_deg)| {
                let prism = draw.prism(&sight.boat, &self.settings);
                sight.trim_deg_of(&prism, Precision::OF_A_DRAW, Some(near_deg))
            });
            let off_deg = &wanted_deg - DVector::from_iterator(self.sights.len(), shown);
            if off_deg.amax() < NEAR_ENOUGH_DEG {
                break;
            }
            place += &self.gain * off_deg;
        }
        shares(&self.latents, &place)
    }
}

/// A normal number that an input depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Latent {
    what: What,
    /// Index of the input.
    index: usize,
    /// Deviations of the input for one of the number.
    width: f64,
}

impl Latent {
    /// One for each input, with the equations so many times as doubtful as before.
    fn all(inputs: &Inputs, wider: f64) -> Vec<Self> {
        let of = |what: What| match what {
            What::Lift | What::CentreOfPressure => wider,
            _ => 1.0,
        };
        let inputs = inputs.list.iter();
        inputs.map(|i| Self { what: i.what, index: i.what.index(), width: of(i.what) }).collect()
    }

    /// How far the input stands from the one described, in its deviations.
    fn deviations(self, number: f64) -> f64 {
        (self.width * number).clamp(-FURTHEST, FURTHEST)
    }
}

/// Shares of the inputs at a place.
fn shares(latents: &[Latent], place: &DVector<f64>) -> [f64; What::COUNT] {
    let mut shares = [0.5; What::COUNT];
    for (latent, &number) in latents.iter().zip(place.iter()) {
        shares[latent.index] = Normal::standard().cdf(latent.deviations(number));
    }
    shares
}

/// Covariance of what the readings are off by: their own errors, and the change of the error of the equations.
fn covariance(sights: &[Sight]) -> DMatrix<f64> {
    DMatrix::from_fn(sights.len(), sights.len(), |row, column| {
        let (one, other) = (&sights[row], &sights[column]);
        let own = if row == column { 1.0 } else { COMMON_SHARE };
        let reading = one.by_deg * other.by_deg / (LIKELY_DEVIATIONS * LIKELY_DEVIATIONS) * own;
        let apart = (one.speed_m_s / other.speed_m_s).ln() / CHANGE_OVER;
        reading + CHANGE_DEG * CHANGE_DEG * (-0.5 * apart * apart).exp()
    })
}

/// What the equations say of the readings, for any boat.
struct Model<'a> {
    inputs: &'a Inputs,
    latents: Vec<Latent>,
    settings: &'a Settings,
    /// The same with the equations brought to the readings.
    as_computed: &'a Settings,
    sights: &'a [Sight],
}

/// A place with what the equations say there.
struct Standing {
    place: DVector<f64>,
    trims_deg: DVector<f64>,
    cost: f64,
}

/// The most likely place, with the slopes of the trims there, and the trims of the boat described.
struct MostLikely {
    at: Standing,
    slopes: DMatrix<f64>,
    errors: DMatrix<f64>,
    described_deg: DVector<f64>,
}

impl Model<'_> {
    fn trims_deg(&self, place: &DVector<f64>) -> DVector<f64> {
        let draw = Draw::at(self.inputs, &shares(&self.latents, place));
        let trims = self.sights.iter().map(|sight| {
            let prism = draw.prism(&sight.boat, self.settings);
            sight.trim_deg_of(&prism, Precision::FINEST, None)
        });
        DVector::from_iterator(self.sights.len(), trims)
    }

    fn read_deg(&self) -> DVector<f64> {
        let trims = self.sights.iter().map(|sight| sight.trim_deg);
        DVector::from_iterator(self.sights.len(), trims)
    }

    /// Twice the loss: squares of the latents, and of the residuals by their covariance.
    fn cost(
        &self,
        place: &DVector<f64>,
        trims_deg: &DVector<f64>,
        errors: &Cholesky<f64, Dyn>,
    ) -> f64 {
        let off = self.read_deg() - trims_deg;
        place.norm_squared() + off.dot(&errors.solve(&off))
    }

    fn standing(&self, place: DVector<f64>, errors: &Cholesky<f64, Dyn>) -> Standing {
        let trims_deg = self.trims_deg(&place);
        let cost = self.cost(&place, &trims_deg, errors);
        Standing { place, trims_deg, cost }
    }

    /// Slopes of the trims by the latents.
    fn slopes(&self, at: &DVector<f64>) -> DMatrix<f64> {
        let column = |index: usize, step: f64| {
            let moved = |step: f64| {
                let mut moved = at.clone();
                moved[index] += step;
                self.trims_deg(&moved)
            };
            (moved(step) - moved(-step)) / (2.0 * step)
        };
        let slopes = |step: f64| {
            let columns: Vec<DVector<f64>> = (0..at.len()).map(|at| column(at, step)).collect();
            DMatrix::from_columns(&columns)
        };
        let [near, wide] = SLOPE_STEPS;
        let found = slopes(near);
        if found.amax() > 0.0 { found } else { slopes(wide) }
    }

    /// The most likely place; none where nothing is in doubt.
    fn most_likely(&self) -> Option<MostLikely> {
        let errors = covariance(self.sights);
        let factors = errors.clone().cholesky()?;
        if self.latents.is_empty() {
            return None;
        }
        let mut at = self.standing(DVector::zeros(self.latents.len()), &factors);
        let described_deg = at.trims_deg.clone();
        let mut slopes = self.slopes(&at.place);
        for _ in 0..MOST_STEPS {
            let away = self.read_deg() - &at.trims_deg + &slopes * &at.place;
            let step = gain(&slopes, &errors)? * away - &at.place;
            let halved = (0..MOST_HALVINGS).map(|times| &step * 0.5_f64.powi(times));
            let mut tried = halved.map(|step| self.standing(&at.place + step, &factors));
            let Some(better) = tried.find(|tried| tried.cost < at.cost) else { break };
            let moved = (&better.place - &at.place).norm();
            at = better;
            slopes = self.slopes(&at.place);
            if moved < SETTLED {
                break;
            }
        }
        Some(MostLikely { at, slopes, errors, described_deg })
    }

    /// The boats that would have shown the readings; `described` is the most likely one with the equations no more doubtful than before.
    fn seen(self, described: &MostLikely) -> Option<Seen> {
        let found = self.most_likely()?;
        let count = self.latents.len();
        let gain = gain(&found.slopes, &found.errors)?;
        let covariance = DMatrix::identity(count, count) - &gain * &found.slopes;
        let fit = self.fit(described, &found);
        Some(Seen {
            settings: *self.settings,
            sights: self.sights.to_vec(),
            latents: self.latents,
            centre: found.at.place,
            trims_deg: found.at.trims_deg,
            slopes: found.slopes,
            gain,
            root: root(covariance),
            fit,
        })
    }

    fn fit(&self, described: &MostLikely, found: &MostLikely) -> SeenFit {
        let deg = Angle::new::<degree>;
        let reading = |(index, sight): (usize, &Sight)| SeenReading {
            speed: Velocity::new::<meter_per_second>(sight.speed_m_s),
            deflection: sight.deflection(),
            trim: deg(sight.trim_deg),
            by: deg(sight.by_deg),
            described: deg(found.described_deg[index]),
            computed: deg(sight.trim_deg_of(
                &Prism::of(&sight.boat, self.as_computed),
                Precision::FINEST,
                None,
            )),
            fitted: deg(found.at.trims_deg[index]),
        };
        #[allow(clippy::cast_precision_loss)]
        let freedom = self.sights.len() as f64;
        let chance = ChiSquared::new(freedom).map_or(1.0, |square| square.sf(described.at.cost));
        let latents = self.latents.iter().zip(described.at.place.iter());
        let mut moved: Vec<(What, f64)> =
            latents.map(|(latent, &number)| (latent.what, number)).collect();
        moved.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
        let mut flags = Flags::NONE;
        flags.insert_if(chance < LEAST_CHANCE, Flag::SeenDoesNotFit);
        SeenFit {
            readings: self.sights.iter().enumerate().map(reading).collect(),
            chance,
            moved,
            flags,
        }
    }
}

/// Jᵀ(JJᵀ + R)⁻¹.
fn gain(slopes: &DMatrix<f64>, errors: &DMatrix<f64>) -> Option<DMatrix<f64>> {
    let inverse = (slopes * slopes.transpose() + errors).cholesky()?.inverse();
    Some(slopes.transpose() * inverse)
}

/// The symmetric root of a covariance.
fn root(covariance: DMatrix<f64>) -> DMatrix<f64> {
    let mut eigen = covariance.symmetric_eigen();
    eigen.eigenvalues.iter_mut().for_each(|value| *value = value.max(0.0).sqrt());
    eigen.recompose()
}

#[cfg(test)]
#[path = "seen_tests.rs"]
mod tests;
