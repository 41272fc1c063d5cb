//! The lift of the bottom behind one door: which published theory carries the boat.
//!
//! A lift model says how much the bottom carries at a trim and a wetted length,
//! where that acts, and how much of it is dynamic. Everything else is the same
//! for all of them: wetted lengths and whisker spray (Savitsky 1964 and 2007),
//! friction, planes, thrust. So what two models differ by is the uncertainty of
//! the lift alone.

use super::shuford::{self, TrimFactors};
use super::{lift, pressure_centre};
use crate::field::by_word;

/// A published theory of the lift of a planing bottom.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LiftModel {
    /// Savitsky (1964): [`lift`] and [`pressure_centre`].
    #[default]
    Savitsky1964,
    /// Shuford (1958) with Brown's static term, from memory: [`shuford`].
    Shuford1958,
}

impl LiftModel {
    /// All of them, the default first.
    pub const ALL: [Self; 2] = [Self::Savitsky1964, Self::Shuford1958];

    /// The stable word in JSON, CSV and on the command line.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Savitsky1964 => "savitsky-1964",
            Self::Shuford1958 => "shuford-1958",
        }
    }

    /// Author and year, for headings.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Savitsky1964 => "Savitsky 1964",
            Self::Shuford1958 => "Shuford 1958",
        }
    }

    /// Where the equations come from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Self::Savitsky1964 => "Savitsky 1964, eq 15, 16, 20",
            Self::Shuford1958 => "Shuford 1958, static term Brown 1971 (from memory)",
        }
    }

    /// Speed coefficient to which the model was tested; none where none is known.
    #[must_use]
    pub const fn largest_tested_speed_coefficient(self) -> Option<f64> {
        match self {
            Self::Savitsky1964 => Some(13.0),
            Self::Shuford1958 => None,
        }
    }

    /// Deadrise to which the model was tested, degrees.
    #[must_use]
    pub const fn largest_tested_deadrise_deg(self) -> f64 {
        match self {
            Self::Savitsky1964 => 30.0,
            Self::Shuford1958 => 40.0,
        }
    }

    /// Lift coefficient on q b².
    #[must_use]
    pub fn lift_coefficient(
        self,
        trim_deg: f64,
        wetted_length_ratio: f64,
        speed_coefficient: f64,
        deadrise_deg: f64,
    ) -> f64 {
        match self {
            Self::Savitsky1964 => {
                let flat = lift::flat_plate(trim_deg, wetted_length_ratio, speed_coefficient);
                lift::with_deadrise(flat, deadrise_deg)
            }
            Self::Shuford1958 => shuford::lift_coefficient(
                trim_deg,
                wetted_length_ratio,
                speed_coefficient,
                deadrise_deg,
            ),
        }
    }

    /// Next wetted length to try, as λ^½, in Newton's search for the length that closes a vertical balance.
    ///
    /// `excess` is what the length at hand carries too much, `rate` its slope by
    /// λ^½, `wanted` what it has to carry. Savitsky's lift is convex in λ^½, and
    /// nearly a power of it ([`power_step`]); Shuford's is convex in λ when multiplied
    /// by 1 + λ ([`TrimFactors::wetted_length_ratio`]). Not a number where the
    /// step leads below no length at all.
    pub(crate) fn next_root_of_length(self, root: f64, excess: f64, rate: f64, wanted: f64) -> f64 {
        match self {
            Self::Savitsky1964 => root * (1.0 + power_step(wanted + excess, -excess, root * rate)),
            Self::Shuford1958 => {
                let length = root * root;
                let rate_by_length = 0.5 * rate / root;
                let more = 1.0 + length;
                (length - more * excess / (excess + more * rate_by_length)).sqrt()
            }
        }
    }

    /// Least normal force of a bottom that still carries anything, as a share of the weight.
    ///
    /// Savitsky's deadrise correction leaves no lift at all below some wetted
    /// length; Shuford's lift only vanishes with the length.
    pub(crate) const fn least_load_share(self) -> f64 {
        match self {
            Self::Savitsky1964 => 0.0,
            Self::Shuford1958 => 1e-12,
        }
    }
}

by_word!(LiftModel);

/// Share by which to lengthen u so that something which is nearly a power of u becomes larger by `more`.
///
/// `value` is what it is, `rate` its slope by ln u. The first two terms of (1 + x)^(1/p) − 1 with
/// x = more/value and p = rate/value; far away the first alone, which is Newton's step.
pub(crate) fn power_step(value: f64, more: f64, rate: f64) -> f64 {
    let newton = more / rate;
    let share = more / value;
    if share.abs() < 0.5 { newton * (1.0 + 0.5 * share * (value / rate - 1.0)) } else { newton }
}

/// A lift model at a trim and deadrise.
#[derive(Clone, Copy, Debug)]
pub(crate) enum AtTrim {
    /// τ^1.1.
    Savitsky1964 {
        trim_factor: f64,
    },
    Shuford1958(TrimFactors),
}

/// What the bottom carries at a trim and a wetted length.
#[derive(Clone, Copy, Debug)]
pub(crate) struct BottomLift {
    /// On q b².
    pub coefficient: f64,
    /// Its slope by λ^½.
    pub slope: f64,
    /// The part that is not buoyancy, which slows the water under the bottom.
    pub dynamic_coefficient: f64,
    /// Centre of pressure over mean wetted length.
    pub centre_share: f64,
    /// −d ln λ^½/d ln τ at a constant load.
    pub length_answer: f64,
}

impl AtTrim {
    pub fn new(model: LiftModel, trim_deg: f64, deadrise_deg: f64) -> Self {
        match model {
            LiftModel::Savitsky1964 => {
                Self::Savitsky1964 { trim_factor: lift::trim_factor(trim_deg) }
            }
            LiftModel::Shuford1958 => Self::Shuford1958(TrimFactors::new(trim_deg, deadrise_deg)),
        }
    }

    /// What the bottom carries with λ^½ wetted.
    pub fn bottom(&self, root_of_length: f64, deadrise_deg: f64, speed: f64) -> BottomLift {
        match self {
            Self::Savitsky1964 { trim_factor } => {
                savitsky(*trim_factor, root_of_length, deadrise_deg, speed)
            }
            Self::Shuford1958(factors) => {
                let length = root_of_length * root_of_length;
                let parts = factors.parts(length, speed);
                let slope = 2.0 * root_of_length * TrimFactors::slope(parts, length);
                BottomLift {
                    coefficient: parts.iter().sum(),
                    slope,
                    dynamic_coefficient: parts[0] + parts[1],
                    centre_share: shuford::centre_of_pressure_share(parts),
                    length_answer: TrimFactors::by_trim(parts) / (root_of_length * slope),
                }
            }
        }
    }

    /// λ that carries a lift coefficient; none when the search for it has not come to rest.
    pub fn wetted_length_ratio(
        &self,
        coefficient: f64,
        deadrise_deg: f64,
        speed: f64,
    ) -> Option<f64> {
        match self {
            Self::Savitsky1964 { trim_factor } => {
                let flat = lift::without_deadrise(coefficient, deadrise_deg)?;
                lift::wetted_length_ratio(flat, *trim_factor, speed)
            }
            Self::Shuford1958(factors) => factors.wetted_length_ratio(coefficient, speed),
        }
    }
}

fn savitsky(trim_factor: f64, root_of_length: f64, deadrise_deg: f64, speed: f64) -> BottomLift {
    let length = root_of_length * root_of_length;
    let [flat, flat_slope] = lift::flat_plate_and_slope(root_of_length, trim_factor, speed);
    let [coefficient, by_flat] = lift::with_deadrise_and_slope(flat, deadrise_deg);
    let dynamic = lift::flat_plate_dynamic(trim_factor, length);
    BottomLift {
        coefficient,
        slope: by_flat * flat_slope,
        dynamic_coefficient: lift::with_deadrise(dynamic, deadrise_deg),
        centre_share: pressure_centre::share_of_wetted_length(length, speed),
        length_answer: 1.1 * flat / (root_of_length * flat_slope),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn physics_each_door_gives_the_lift_its_slope_and_its_inverse() {
        for model in LiftModel::ALL {
            for (trim_deg, lambda, cv, deadrise_deg) in
                [(2.0, 3.5, 1.1, 5.0), (5.0, 1.5, 2.5, 20.0), (12.0, 0.4, 6.0, 28.0)]
            {
                let at_trim = AtTrim::new(model, trim_deg, deadrise_deg);
                let root = f64::sqrt(lambda);
                let here = at_trim.bottom(root, deadrise_deg, cv);
                let lift = model.lift_coefficient(trim_deg, lambda, cv, deadrise_deg);
                assert_relative_eq!(here.coefficient, lift, max_relative = 1e-12);
                assert!(here.dynamic_coefficient < lift && here.dynamic_coefficient > 0.0);
                let step = 1e-6 * root;
                let [below, above] = [root - step, root + step]
                    .map(|root| at_trim.bottom(root, deadrise_deg, cv).coefficient);
                let slope = (above - below) / (2.0 * step);
                assert_relative_eq!(slope, here.slope, max_relative = 1e-7);
                let back = at_trim.wetted_length_ratio(lift, deadrise_deg, cv).unwrap();
                assert_relative_eq!(back, lambda, max_relative = 1e-10);
            }
        }
    }

    /// A guess at a trim a little away, from the answer of the length alone, misses the load by little.
    #[test]
    fn physics_the_length_answers_the_trim_as_it_is_said_to() {
        for model in LiftModel::ALL {
            for (trim_deg, lambda, cv) in [(3.0, 2.0, 1.5), (5.0, 1.5, 2.5), (8.0, 0.8, 4.0)] {
                let at = |trim_deg: f64| AtTrim::new(model, trim_deg, 0.0);
                let here = at(trim_deg).bottom(f64::sqrt(lambda), 0.0, cv);
                let nearby = at(1.001 * trim_deg).wetted_length_ratio(here.coefficient, 0.0, cv);
                let nearby = nearby.unwrap();
                let answer = -0.5 * (nearby / lambda).ln() / f64::ln(1.001);
                assert_relative_eq!(answer, here.length_answer, max_relative = 0.1);
            }
        }
    }

    /// On a flat plate in the common range the two lifts lie within a quarter of each other, on average within a tenth.
    #[test]
    fn physics_the_two_models_agree_on_a_flat_plate() {
        let mut ratios = Vec::new();
        for trim_deg in [2.0, 4.0, 6.0, 10.0] {
            for lambda in [0.5, 1.0, 2.0, 3.0, 4.0] {
                for cv in [1.5, 3.0, 6.0] {
                    let [one, other] = LiftModel::ALL
                        .map(|model| model.lift_coefficient(trim_deg, lambda, cv, 0.0));
                    ratios.push(other / one);
                }
            }
        }
        assert!(ratios.iter().all(|ratio| (0.85..1.26).contains(ratio)), "{ratios:?}");
        let mean = ratios.iter().sum::<f64>() / ratios.len() as f64;
        assert!((1.0..1.1).contains(&mean), "{mean}");
    }
}
