//! The second opinion: what a tank series of real hulls says, beside what is computed, planes up.

use uom::si::f64::{Angle, Force, Length, Velocity};
use uom::si::{
    angle::degree, force::newton, kinematic_viscosity::square_meter_per_second, length::meter,
    velocity::meter_per_second, volume::cubic_meter,
};

use super::forces::Prism;
use super::sweep::sweep;
use super::{Balance, Point, Settings};
use crate::boat::{Boat, Fault, degrees};
use crate::field::{InSi, written};
use crate::hydro::hump::volume_froude_number;
use crate::hydro::series_62::{
    self, Form, LARGEST_OVER_MEAN_BEAM, Outside, Quantity, VOLUME_FROUDE_NUMBERS,
};
use crate::hydro::series_scale::Scale;
use crate::physical::STANDARD_GRAVITY_M_S2;

/// Most rounds in which the resistance and the place of the weight that its moment makes are brought together.
const MOST_ROUNDS: u32 = 60;
/// How near they must come, as a share of the weight.
const TOLERANCE: f64 = 1e-12;
/// A hair, so that no rounding leaves the range of speeds.
const HAIR: f64 = 1e-12;

/// A boat as the tank series asks for her.
///
/// The models were tested with their weight somewhere, not with a thrust line:
/// the moments of thrust, air and appendages about the centre of gravity go
/// into a centre of gravity that has the same moment, at each speed, with the
/// thrust as large as the resistance. Air and appendages add their own drag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TankSeries {
    bottom_length_m: f64,
    mean_beam_m: f64,
    deadrise_deg: f64,
    scale: Scale,
    weight_n: f64,
    lcg_m: f64,
    /// Thrust below the centre of gravity.
    thrust_offset_m: f64,
    /// Drag of air and appendages over the square of the speed, N s²/m².
    extra_n_s2_m2: f64,
    /// Their moment about the centre of gravity, bow up, over the square of the speed, N m s²/m².
    extra_moment_n_s2_m: f64,
}

/// What the series says at one speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeriesSays {
    /// Running trim.
    pub trim: Angle,
    /// Resistance, with that of air and appendages.
    pub resistance: Force,
    /// Mean wetted length.
    pub wetted_length: Length,
    /// Centre of gravity that it was asked with, forward of the transom.
    pub equivalent_lcg: Length,
}

impl TankSeries {
    /// A boat ready to be asked about.
    #[must_use]
    pub fn of(boat: &Boat, settings: &Settings) -> Self {
        let hull = boat.hull();
        let prism = Prism::new(boat, settings);
        let at_one = prism.at(1.0);
        let drags = [at_one.air, at_one.appendages];
        Self {
            bottom_length_m: hull.bottom_length.get::<meter>(),
            mean_beam_m: hull.chine_beam.get::<meter>() / LARGEST_OVER_MEAN_BEAM,
            deadrise_deg: degrees(hull.deadrise),
            scale: Scale {
                displaced_volume_m3: boat.displaced_volume().get::<cubic_meter>(),
                kinematic_viscosity_m2_s: boat
                    .water()
                    .kinematic_viscosity
                    .get::<square_meter_per_second>(),
                correlation_allowance: settings.allowance_for(boat),
            },
            weight_n: prism.weight_n,
            lcg_m: prism.lcg_m,
            thrust_offset_m: prism.thrust_offset_m,
            extra_n_s2_m2: drags.iter().map(|[drag, _]| drag).sum(),
            extra_moment_n_s2_m: drags
                .iter()
                .map(|[drag, height_m]| drag * (height_m - prism.vcg_m))
                .sum(),
        }
    }

    /// The speeds that the models were run at: F∇ 1.0, 1.25, 1.5, 1.75, 2.0, 2.5 and 3.5.
    #[must_use]
    pub fn speeds(&self) -> Vec<Velocity> {
        let one_m_s = (STANDARD_GRAVITY_M_S2 * self.scale.displaced_volume_m3.cbrt()).sqrt();
        let last = VOLUME_FROUDE_NUMBERS.len() - 1;
        let speed = |(index, froude): (usize, f64)| {
            let inside = match index {
                0 => 1.0 + HAIR,
                end if end == last => 1.0 - HAIR,
                _ => 1.0,
            };
            Velocity::new::<meter_per_second>(froude * inside * one_m_s)
        };
        VOLUME_FROUDE_NUMBERS.into_iter().enumerate().map(speed).collect()
    }

    /// F∇ at a speed.
    #[must_use]
    pub fn volume_froude_number(&self, speed: Velocity) -> f64 {
        volume_froude_number(speed.get::<meter_per_second>(), self.scale.displaced_volume_m3)
    }

    /// The form that the regression is asked with where the weight is at a place.
    fn form(&self, lcg_m: f64) -> Form {
        let area_m2 = self.bottom_length_m * self.mean_beam_m;
        Form {
            area_over_volume: area_m2 / self.scale.displaced_volume_m3.cbrt().powi(2),
            length_over_beam: self.bottom_length_m / self.mean_beam_m,
            lcg_percent: 100.0 * lcg_m / self.bottom_length_m,
            deadrise_deg: self.deadrise_deg,
        }
    }

    /// What the series says at a speed, planes up.
    ///
    /// # Errors
    /// Everything that lies outside the models at that speed.
    pub fn at(&self, speed: Velocity) -> Result<SeriesSays, Vec<Outside>> {
        let froude = self.volume_froude_number(speed);
        let speed_m_s = speed.get::<meter_per_second>();
        let extra_n = self.extra_n_s2_m2 * speed_m_s * speed_m_s;
        let extra_moment_n_m = self.extra_moment_n_s2_m * speed_m_s * speed_m_s;
        let mut lcg_m = self.lcg_m;
        let mut resistance_n = f64::NAN;
        for _ in 0..MOST_ROUNDS {
            let form = self.form(lcg_m);
            let ratio = series_62::resistance_ratio(&form, &self.scale, froude);
            let ratio = ratio.ok_or_else(|| form.outside(froude))?;
            let before_n = resistance_n;
            resistance_n = ratio * self.weight_n + extra_n;
            let bow_up_n_m = resistance_n * self.thrust_offset_m + extra_moment_n_m;
            lcg_m = self.lcg_m - bow_up_n_m / self.weight_n;
            if (resistance_n - before_n).abs() <= TOLERANCE * self.weight_n {
                return self.said(froude, lcg_m, resistance_n);
            }
        }
        // Within the models a shift of the weight changes the resistance far too little for this.
        Err(self.form(lcg_m).outside(froude))
    }

    fn said(&self, froude: f64, lcg_m: f64, resistance_n: f64) -> Result<SeriesSays, Vec<Outside>> {
        let form = self.form(lcg_m);
        let outside = form.outside(froude);
        let of = |quantity| series_62::at(quantity, &form, froude);
        match (of(Quantity::TrimDeg), of(Quantity::WettedLength)) {
            (Some(trim_deg), Some(length)) if outside.is_empty() => Ok(SeriesSays {
                trim: Angle::new::<degree>(trim_deg),
                resistance: Force::new::<newton>(resistance_n),
                wetted_length: Length::new::<meter>(length * self.bottom_length_m),
                equivalent_lcg: Length::new::<meter>(lcg_m),
            }),
            _ => Err(outside),
        }
    }
}

/// One speed: the series beside the answer, planes up.
#[derive(Clone, Debug, PartialEq)]
pub struct SeriesRow {
    /// F∇.
    pub volume_froude_number: f64,
    /// What the series says, or what of the boat lies outside its models.
    pub series: Result<SeriesSays, Vec<Outside>>,
    /// What is computed.
    pub computed: Point,
    beam: Length,
}

impl SeriesRow {
    /// Speed.
    #[must_use]
    pub const fn speed(&self) -> Velocity {
        self.computed.speed
    }

    /// Mean wetted length as computed.
    #[must_use]
    pub fn computed_wetted_length(&self) -> Option<Length> {
        self.computed.running.map(|running| running.wetted_length_ratio * self.beam)
    }

    /// Trim computed less that of the series.
    #[must_use]
    pub fn trim_apart(&self) -> Option<Angle> {
        Some(self.computed.running?.trim - self.series.as_ref().ok()?.trim)
    }

    /// Resistance computed over that of the series, less 1.
    #[must_use]
    pub fn resistance_apart(&self) -> Option<f64> {
        let series = self.series.as_ref().ok()?;
        Some((self.computed.running?.resistance / series.resistance).value - 1.0)
    }

    /// Mean wetted length computed less that of the series.
    #[must_use]
    pub fn wetted_length_apart(&self) -> Option<Length> {
        Some(self.computed_wetted_length()? - self.series.as_ref().ok()?.wetted_length)
    }
}

impl SeriesRow {
    fn says(&self) -> Option<&SeriesSays> {
        self.series.as_ref().ok()
    }
}

// Planes up, what the tank series says beside what is computed; null where either says nothing.
written! {
    SeriesRow as row {
        "source": "radojcic-1991",
        "speed_m_s": row.speed().in_si(),
        "volume_froude_number": row.volume_froude_number,
        "trim_deg": row.says().map(|says| says.trim).in_si(),
        "resistance_n": row.says().map(|says| says.resistance).in_si(),
        "wetted_length_m": row.says().map(|says| says.wetted_length).in_si(),
        "equivalent_lcg_m": row.says().map(|says| says.equivalent_lcg).in_si(),
        "computed_outcome": row.computed.outcome,
        "computed_trim_deg": row.computed.trim().in_si(),
        "computed_resistance_n": row.computed.resistance().in_si(),
        "computed_wetted_length_m": row.computed_wetted_length().in_si(),
        "trim_apart_deg": row.trim_apart().in_si(),
        "resistance_apart_share": row.resistance_apart(),
        "wetted_length_apart_m": row.wetted_length_apart().in_si(),
        "outside": row.series.as_ref().err().map(Vec::as_slice).unwrap_or_default(),
    }
}

/// The second opinion at some speeds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SecondOpinion {
    /// Speed by speed.
    pub rows: Vec<SeriesRow>,
}

impl SecondOpinion {
    /// At the speeds given, or at those of the models up to the boat's top speed where none are.
    ///
    /// # Errors
    /// As [`Balance::point`].
    pub fn of(boat: &Boat, settings: &Settings, speeds: &[Velocity]) -> Result<Self, Fault> {
        let series = TankSeries::of(boat, settings);
        let top = boat.drive().top_speed;
        let speeds: Vec<Velocity> = match speeds {
            [] => series.speeds().into_iter().filter(|&speed| speed <= top).collect(),
            given => given.to_vec(),
        };
        let balance = Balance::of(boat, settings).with_planes(None);
        let computed = sweep(&balance, &speeds, Angle::default())?;
        let row = |computed: Point| SeriesRow {
            volume_froude_number: series.volume_froude_number(computed.speed),
            series: series.at(computed.speed),
            beam: boat.hull().chine_beam,
            computed,
        };
        Ok(Self { rows: computed.into_iter().map(row).collect() })
    }

    /// The rows at which the series says something.
    pub fn said(&self) -> impl Iterator<Item = (&SeriesRow, &SeriesSays)> {
        self.rows.iter().filter_map(|row| Some((row, row.series.as_ref().ok()?)))
    }

    /// Everything that lies outside the models at any speed, each quantity once, with the first of its values.
    #[must_use]
    pub fn outside(&self) -> Vec<&Outside> {
        let mut all: Vec<&Outside> = Vec::new();
        for outside in self.rows.iter().filter_map(|row| row.series.as_ref().err()).flatten() {
            if all.iter().all(|other| other.quantity != outside.quantity) {
                all.push(outside);
            }
        }
        all
    }
}

#[cfg(test)]
#[path = "series_tests.rs"]
mod tests;
