//! One boat nearly like the one described, drawn at random.
//!
//! Each draw has a stream of random numbers of its own, and in it each input a
//! number of its own: a draw is the same whatever was drawn before it, on
//! however many threads, and whether other inputs are spread or not.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};
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

/// The source of all draws of one seed.
pub(crate) struct Draws<'a> {
    inputs: &'a Inputs,
    random: ChaCha8Rng,
}

impl<'a> Draws<'a> {
    /// The draws of a seed.
    pub fn new(inputs: &'a Inputs, seed: u64) -> Self {
        Self { inputs, random: ChaCha8Rng::seed_from_u64(seed) }
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

    fn at_random(&self, number: u64) -> [f64; What::COUNT] {
        let mut random = self.random.clone();
        random.set_stream(number);
        let mut shares = [0.0; What::COUNT];
        shares.iter_mut().for_each(|share| *share = open_share(random.next_u64()));
        shares
    }
}

/// A share between 0 and 1, neither of them, from the 53 upper bits.
fn open_share(bits: u64) -> f64 {
    #[allow(clippy::cast_precision_loss)]
    let steps = (bits >> 11) as f64;
    (steps + 0.5) / 9_007_199_254_740_992.0
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
