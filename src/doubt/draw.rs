//! One boat nearly like the one described, drawn at random.
//!
//! The boats of a seed are the points of a Sobol sequence, scrambled by that seed: each is at random,
//! and together they fill the ranges more evenly than chance would, so that so many of them count
//! as surely as several times as many of plain chance (a test compares the two). Each input has a
//! dimension of its own: a draw is the same whatever was drawn before it, on however many threads,
//! and whether other inputs are spread or not.
//!
//! Source: Owen, A. B. (1997), Scrambled net variance for integrals of smooth functions, Annals of
//! Statistics 25 (4) 1541-1562, from memory; the crate `sobol_burley` computes the sequence.

use sobol_burley::sample;
use uom::si::f64::{Angle, Area, Length, Mass, ThermodynamicTemperature};
use uom::si::{
    angle::degree, area::square_meter, length::meter, mass::kilogram,
    thermodynamic_temperature::degree_celsius,
};

use super::inputs::{Inputs, What};
use super::spread::Spread;
use crate::balance::forces::Prism;
use crate::balance::{ModelForm, Settings};
use crate::boat::{Particulars, ThrustLine, Toleranced};
use crate::hydro::friction::FULL_SCALE_ALLOWANCE;
use crate::water::Water;

/// Least and largest LCG of a boat drawn, as shares of her bottom length: it must lie within.
const LCG_SHARES: [f64; 2] = [0.001, 0.999];

/// Points of one sequence; the draws beyond them are those of another scrambling.
const SEQUENCE: u64 = 1 << 16;
/// Half of the step between the shares of a sequence, which are whole steps from 0 on.
const HALF_STEP: f64 = 1.0 / (1 << 25) as f64;

/// The source of all draws of one seed.
pub(crate) struct Draws<'a> {
    inputs: &'a Inputs,
    seed: u64,
}

impl<'a> Draws<'a> {
    /// The draws of a seed.
    pub fn new(inputs: &'a Inputs, seed: u64) -> Self {
        Self { inputs, seed }
    }

    /// The draw of a number: a boat that would have shown what was seen, if anything was.
    pub fn draw(&self, number: u64) -> Draw {
        let random = self.at_random(number);
        match &self.inputs.seen {
            Some(seen) => Draw::at(self.inputs, &seen.shares(self.inputs, &random)),
            None => Draw::at(self.inputs, &random),
        }
    }

    /// The draw of a number whatever was seen.
    pub fn unseen(&self, number: u64) -> Draw {
        Draw::at(self.inputs, &self.at_random(number))
    }

    /// Shares of all inputs, each between 0 and 1 and neither of them.
    fn at_random(&self, number: u64) -> [f64; What::COUNT] {
        #[allow(clippy::cast_possible_truncation)]
        let index = (number % SEQUENCE) as u32;
        let scrambling = scrambling(self.seed, number / SEQUENCE);
        let mut shares = [0.0; What::COUNT];
        for (dimension, share) in (0..).zip(&mut shares) {
            *share = f64::from(sample(index, dimension, scrambling)) + HALF_STEP;
        }
        shares
    }
}

/// The number by which a sequence is scrambled: all bits of the seed and of the index of the sequence count.
#[allow(clippy::cast_possible_truncation)]
fn scrambling(seed: u64, sequence: u64) -> u32 {
    let halves = |number: u64| number as u32 ^ (number >> 32) as u32;
    halves(seed) ^ halves(sequence).wrapping_mul(0x9e37_79b9)
}

/// How one boat differs from the one described, all loading conditions alike.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Draw {
    /// The share of boats that stays under each input of this one; 0.5 where it is not spread.
    pub shares: [f64; What::COUNT],
    factors: [f64; What::COUNT],
    steps: [f64; What::COUNT],
    limits: [(f64, f64); What::COUNT],
    water: Option<[f64; 2]>,
}

impl Draw {
    /// The boat that stands at given shares of all inputs.
    pub fn at(inputs: &Inputs, shares: &[f64; What::COUNT]) -> Self {
        let mut draw = Self {
            shares: [0.5; What::COUNT],
            factors: [1.0; What::COUNT],
            steps: [0.0; What::COUNT],
            limits: [(f64::NEG_INFINITY, f64::INFINITY); What::COUNT],
            water: None,
        };
        for input in &inputs.list {
            let index = input.what.index();
            let quantile = input.spread.quantile(shares[index]);
            draw.shares[index] = shares[index];
            draw.limits[index] = input.limits;
            match input.spread {
                Spread::Step { .. } => draw.steps[index] = quantile,
                Spread::Factor { .. } => draw.factors[index] = quantile,
            }
            if input.what == What::Value(Toleranced::WaterTemperature) {
                draw.water = inputs.water;
            }
        }
        draw
    }

    /// A value as it is on this boat, in the unit of the bounds table.
    fn moved(&self, of: Toleranced, value: f64) -> f64 {
        let index = What::Value(of).index();
        let (low, high) = self.limits[index];
        (value * self.factors[index] + self.steps[index]).clamp(low, high)
    }

    fn factor(&self, what: What) -> f64 {
        self.factors[what.index()]
    }

    /// The boat of this draw, from the one described in one loading condition.
    pub fn particulars(&self, boat: &Particulars) -> Particulars {
        let length =
            |of, length: Length| Length::new::<meter>(self.moved(of, length.get::<meter>()));
        let angle = |of, angle: Angle| Angle::new::<degree>(self.moved(of, angle.get::<degree>()));
        let mut drawn = *boat;
        drawn.hull.chine_beam = length(Toleranced::ChineBeam, boat.hull.chine_beam);
        drawn.hull.deadrise = angle(Toleranced::Deadrise, boat.hull.deadrise);
        drawn.hull.bottom_length = length(Toleranced::BottomLength, boat.hull.bottom_length);
        let mass_kg = self.moved(Toleranced::Mass, boat.weight.mass.get::<kilogram>());
        drawn.weight.mass = Mass::new::<kilogram>(mass_kg);
        let [least, most] = LCG_SHARES.map(|share| share * drawn.hull.bottom_length);
        drawn.weight.lcg = length(Toleranced::Lcg, boat.weight.lcg).max(least).min(most);
        drawn.weight.vcg = length(Toleranced::Vcg, boat.weight.vcg);
        drawn.thrust_angle = angle(Toleranced::ThrustAngle, boat.thrust_angle);
        drawn.thrust_line = match boat.thrust_line {
            ThrustLine::BelowCentreOfGravity(offset) => {
                ThrustLine::BelowCentreOfGravity(length(Toleranced::ThrustOffset, offset))
            }
            ThrustLine::HeightAtTransom(height) => {
                ThrustLine::HeightAtTransom(length(Toleranced::ThrustHeight, height))
            }
        };
        if let Some([temperature_c, salinity]) = self.water {
            let temperature_c = self.moved(Toleranced::WaterTemperature, temperature_c);
            let temperature = ThermodynamicTemperature::new::<degree_celsius>(temperature_c);
            drawn.water = Water::at(temperature, salinity);
        }
        for (of, drag) in [
            (Toleranced::AirArea, &mut drawn.air),
            (Toleranced::AppendageArea, &mut drawn.appendages),
        ] {
            if let Some(drag) = drag {
                let area_m2 = drag.drag_area.get::<square_meter>();
                let factor = self.factor(What::Value(of));
                drag.drag_area = Area::new::<square_meter>(area_m2 * factor);
            }
        }
        if self.steps[What::Value(Toleranced::Roughness).index()] != 0.0 {
            let usual = boat.roughness.unwrap_or(FULL_SCALE_ALLOWANCE);
            drawn.roughness = Some(self.moved(Toleranced::Roughness, usual));
        }
        drawn
    }

    /// The settings with the equations as they are on this boat.
    pub fn settings(&self, settings: &Settings) -> Settings {
        let form = settings.form;
        Settings {
            effectiveness: settings.effectiveness
                * self.factor(What::Value(Toleranced::PlaneEffectiveness)),
            form: ModelForm {
                lift: form.lift * self.factor(What::Lift),
                centre_of_pressure: form.centre_of_pressure * self.factor(What::CentreOfPressure),
                resistance: form.resistance * self.factor(What::Resistance),
                hull_form: form.hull_form + self.steps[What::HullForm.index()],
            },
            ..*settings
        }
    }

    /// The boat of this draw, ready to be balanced.
    pub fn prism(&self, boat: &Particulars, settings: &Settings) -> Prism {
        Prism::of(&self.particulars(boat), &self.settings(settings))
    }
}

#[cfg(test)]
#[path = "draw_tests.rs"]
mod tests;
