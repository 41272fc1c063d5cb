//! The boats that would have shown what was seen: draws given the trims read on the water.
//!
//! A boat drawn stands at a share of each input, the normal probability Φ(z) of
//! a latent z; before anything was seen the z are independent and standard
//! normal. The trims y that were read say y = h(z) + e, with h(z) the trims of
//! the boat at z and e normal with the covariance R: the error of the readings
//! and what the error of the equations changes from one speed to another. The
//! most likely z is found by Gauss–Newton steps, and about it z is taken for
//! normal with the covariance I − Jᵀ(JJᵀ + R)⁻¹J (Laplace's approximation; J are
//! the slopes of h). Its symmetric root turns the independent normal numbers of
//! a draw into a z that fits, and changes them as little as that can be.
//!
//! Source: Tarantola, A. (2005), Inverse Problem Theory, sections 3.2 and 6.22, from memory.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};
use statrs::distribution::{ChiSquared, ContinuousCDF, Normal};
use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::draw::Draw;
use super::inputs::{Inputs, What};
use super::spread::{LIKELY_DEVIATIONS, normal_quantile};
use crate::balance::forces::PlaneSize;
use crate::balance::root::{Root, Search};
use crate::balance::{LARGEST_TRIM_DEG, LEAST_TRIM_DEG, Settings};
use crate::boat::{Boat, Fault, Particulars, degrees};
use crate::flag::{Flag, Flags};

/// Standard deviation of what the error of the trim equations changes from one speed to another, degrees.
pub(super) const CHANGE_DEG: f64 = 0.3;
/// Step between speeds, as a logarithm, over which that error has changed to 60 % its own.
const CHANGE_OVER: f64 = 0.3;
/// Share of the variance of a reading that all readings of a boat have in common. Judged: the zero
/// of the instrument, the line it was set on and the load on the day go through all of them.
const COMMON_SHARE: f64 = 0.5;
/// Chance of readings as far from the boat described, under which they do not fit her.
const LEAST_CHANCE: f64 = 1e-3;
/// Step of the slopes, in deviations: as wide as the inputs spread, since the slopes serve for all of it.
const SLOPE_STEP: f64 = 1.0;
/// Gauss–Newton steps at most.
const MOST_STEPS: usize = 30;
/// Times that a step is halved at most.
const MOST_HALVINGS: u32 = 8;
/// Step at which the search has settled, in deviations.
const SETTLED: f64 = 1e-3;
/// Deviations beyond which no input is drawn.
const FURTHEST: f64 = 8.0;

/// A trim that was read, beside what the equations say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeenReading {
    /// The speed.
    pub speed: Velocity,
    /// Mean deflection of the planes.
    pub deflection: Angle,
    /// The trim that was read.
    pub trim: Angle,
    /// Half of the range that holds nine such readings in ten.
    pub by: Angle,
    /// Trim of the boat as described; 1° or 15° where she finds no balance.
    pub described: Angle,
    /// Trim of the boat that fits best all that was seen.
    pub fitted: Angle,
}

/// What was seen of a boat, and how it fits her.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenFit {
    /// Every reading, in the order of the boat file.
    pub readings: Vec<SeenReading>,
    /// How likely boats as described show something as far off or further.
    pub chance: f64,
    /// How far each input stands from the one described on the boat that fits best, in its standard deviations; the furthest first.
    pub moved: Vec<(What, f64)>,
    /// Whether the readings fit the boat as described.
    pub flags: Flags,
}

/// The draws given what was seen.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Seen {
    /// Places of the inputs, in the order of the latents.
    places: Vec<(usize, f64)>,
    centre: DVector<f64>,
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
        let sights = sights(boat)?;
        let model = Model { inputs, settings, sights: &sights };
        Ok(model.seen())
    }

    /// Shares of a boat that would have shown what was seen, from those of one at random.
    pub fn shares(&self, random: &[f64; What::COUNT]) -> [f64; What::COUNT] {
        let places = self.places.iter();
        let numbers = places.map(|&(place, _)| normal_quantile(random[place]));
        let numbers = DVector::from_iterator(self.places.len(), numbers);
        shares(&self.places, &(&self.centre + &self.root * numbers))
    }
}

/// Shares of the inputs at a place.
fn shares(places: &[(usize, f64)], latent: &DVector<f64>) -> [f64; What::COUNT] {
    let mut shares = [0.5; What::COUNT];
    for (&(place, wider), z) in places.iter().zip(latent.iter()) {
        shares[place] = Normal::standard().cdf((wider * z).clamp(-FURTHEST, FURTHEST));
    }
    shares
}

/// A reading with the boat as she was then.
struct Sight {
    boat: Particulars,
    speed_m_s: f64,
    planes: Option<(PlaneSize, f64)>,
    trim_deg: f64,
    by_deg: f64,
}

impl Sight {
    /// Trim of a boat drawn where this was read; that at the end of the range where she finds no balance.
    fn trim_deg(&self, draw: &Draw, settings: &Settings) -> f64 {
        let prism = draw.prism(&self.boat, settings);
        let bare = prism.at(self.speed_m_s);
        let condition = match self.planes {
            Some((size, deflection_deg)) => bare.with_planes(size, deflection_deg),
            None => bare,
        };
        match Search::new(&condition).root(None) {
            Root::Found { forces, .. } => forces.trim_deg,
            Root::BowDown => LEAST_TRIM_DEG,
            Root::BowUp => LARGEST_TRIM_DEG,
        }
    }
}

/// Every reading with the boat in the condition that it was taken in.
fn sights(boat: &Boat) -> Result<Vec<Sight>, Fault> {
    let one = |seen: &crate::boat::Seen| {
        let listed = &boat.conditions()[0].name;
        let then = boat.in_condition(seen.condition.as_ref().unwrap_or(listed))?;
        let pair = seen.planes.or(boat.planes()).filter(|_| seen.is_with_planes());
        Ok(Sight {
            boat: then.particulars(),
            speed_m_s: seen.speed.get::<meter_per_second>(),
            planes: pair.map(|pair| (pair.into(), degrees(seen.deflection))),
            trim_deg: degrees(seen.trim),
            by_deg: degrees(seen.half_width()),
        })
    };
    boat.seen().iter().map(one).collect()
}

/// Covariance of what the readings are off by: their own errors, and the change of the error of the equations.
fn covariance(sights: &[Sight]) -> DMatrix<f64> {
    DMatrix::from_fn(sights.len(), sights.len(), |row, column| {
        let (one, other) = (&sights[row], &sights[column]);
        let own = if row == column { 1.0 } else { COMMON_SHARE };
        let reading = one.by_deg * other.by_deg / (LIKELY_DEVIATIONS * LIKELY_DEVIATIONS) * own;
        let apart = (one.speed_m_s / other.speed_m_s).ln() / CHANGE_OVER;
        let env = |n: &str, d: f64| std::env::var(n).map_or(d, |v| v.parse().unwrap());
        let apart = apart * CHANGE_OVER / env("OVER", CHANGE_OVER);
        let c = env("CHANGE", CHANGE_DEG);
        reading + c * c * (-0.5 * apart * apart).exp()
    })
}

/// What the equations say of the readings, for any boat.
struct Model<'a> {
    inputs: &'a Inputs,
    settings: &'a Settings,
    sights: &'a [Sight],
}

/// A place with what the equations say there.
struct Standing {
    latent: DVector<f64>,
    trims_deg: DVector<f64>,
    cost: f64,
}

impl Model<'_> {
    fn places(&self) -> Vec<(usize, f64)> {
        let env = |n: &str, d: f64| std::env::var(n).map_or(d, |v| v.parse().unwrap());
        let wider = |what| match what {
            What::Lift => env("LIFT", 1.0),
            What::CentreOfPressure => env("CP", 1.0),
            _ => 1.0,
        };
        self.inputs.list.iter().map(|input| (input.what.place(), wider(input.what))).collect()
    }

    fn trims_deg(&self, latent: &DVector<f64>) -> DVector<f64> {
        let draw = Draw::at(self.inputs, &shares(&self.places(), latent));
        let trims = self.sights.iter().map(|sight| sight.trim_deg(&draw, self.settings));
        DVector::from_iterator(self.sights.len(), trims)
    }

    fn read_deg(&self) -> DVector<f64> {
        let trims = self.sights.iter().map(|sight| sight.trim_deg);
        DVector::from_iterator(self.sights.len(), trims)
    }

    /// Twice the loss: squares of the latents, and of the residuals by their covariance.
    fn standing(&self, latent: DVector<f64>, errors: &Cholesky<f64, Dyn>) -> Standing {
        let trims_deg = self.trims_deg(&latent);
        let off = self.read_deg() - &trims_deg;
        let cost = latent.norm_squared() + off.dot(&errors.solve(&off));
        Standing { latent, trims_deg, cost }
    }

    /// Slopes of the trims by the latents.
    fn slopes(&self, at: &DVector<f64>) -> DMatrix<f64> {
        let columns: Vec<DVector<f64>> = (0..at.len())
            .map(|place| {
                let moved = |step: f64| {
                    let mut moved = at.clone();
                    moved[place] += step;
                    self.trims_deg(&moved)
                };
                (moved(SLOPE_STEP) - moved(-SLOPE_STEP)) / (2.0 * SLOPE_STEP)
            })
            .collect();
        DMatrix::from_columns(&columns)
    }

    /// The most likely place and the covariance about it; none where nothing is in doubt.
    fn seen(&self) -> Option<Seen> {
        let errors = covariance(self.sights);
        let weights = errors.clone().cholesky()?;
        let count = self.inputs.list.len();
        if count == 0 {
            return None;
        }
        let start = self.standing(DVector::zeros(count), &weights);
        let described_deg = start.trims_deg.clone();
        let mut at = start;
        let mut slopes = self.slopes(&at.latent);
        for _ in 0..MOST_STEPS {
            let gain = gain(&slopes, &errors)?;
            let away = self.read_deg() - &at.trims_deg + &slopes * &at.latent;
            let step = &gain * away - &at.latent;
            let halved = (0..MOST_HALVINGS).map(|times| &step * 0.5_f64.powi(times as i32));
            let mut tried = halved.map(|step| self.standing(&at.latent + step, &weights));
            let Some(better) = tried.find(|tried| tried.cost < at.cost) else { break };
            let moved = (&better.latent - &at.latent).norm();
            at = better;
            slopes = self.slopes(&at.latent);
            if moved < SETTLED {
                break;
            }
        }
        let covariance = DMatrix::identity(count, count) - gain(&slopes, &errors)? * &slopes;
        Some(Seen {
            places: self.places(),
            root: root(covariance),
            fit: self.fit(&described_deg, &at),
            centre: at.latent,
        })
    }

    fn fit(&self, described_deg: &DVector<f64>, at: &Standing) -> SeenFit {
        let deg = Angle::new::<degree>;
        let reading = |(place, sight): (usize, &Sight)| SeenReading {
            speed: Velocity::new::<meter_per_second>(sight.speed_m_s),
            deflection: deg(sight.planes.map_or(0.0, |(_, deflection_deg)| deflection_deg)),
            trim: deg(sight.trim_deg),
            by: deg(sight.by_deg),
            described: deg(described_deg[place]),
            fitted: deg(at.trims_deg[place]),
        };
        #[allow(clippy::cast_precision_loss)]
        let freedom = self.sights.len() as f64;
        let chance = ChiSquared::new(freedom).map_or(1.0, |square| square.sf(at.cost));
        let inputs = self.inputs.list.iter().zip(at.latent.iter());
        let mut moved: Vec<(What, f64)> = inputs.map(|(input, &z)| (input.what, z)).collect();
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
