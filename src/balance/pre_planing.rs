//! A boat's resistance before she planes, by the regression of Mercier & Savitsky (1973).

use uom::si::f64::{Force, Velocity};
use uom::si::{
    angle::degree, force::newton, kinematic_viscosity::square_meter_per_second, length::meter,
    velocity::meter_per_second, volume::cubic_meter,
};

use super::Settings;
use super::forces::Prism;
use crate::boat::{Boat, degrees};
use crate::flag::{Flag, Flags};
use crate::hydro::hump::volume_froude_number;
use crate::hydro::pre_planing::{
    Form, TESTED_VOLUME_FROUDE_NUMBER, draft_at_rest, resistance_ratio,
};
use crate::hydro::series_scale::Scale;
use crate::physical::STANDARD_GRAVITY_M_S2;

/// A boat whose file gives what the pre-planing regression asks.
///
/// Air and appendages count as in the planing balance; the regression itself
/// is for a bare hull with her planes up, and knows no centre of gravity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrePlaning {
    form: Form,
    scale: Scale,
    weight_n: f64,
    /// Drag of air and appendages over the square of the speed, N s²/m².
    extra_n_s2_m2: f64,
}

impl PrePlaning {
    /// None where the boat file gives no half angle of entrance and transom area ratio.
    #[must_use]
    pub fn of(boat: &Boat, settings: &Settings) -> Option<Self> {
        let entrance = boat.entrance()?;
        let hull = boat.hull();
        let beam_m = hull.chine_beam.get::<meter>();
        let length_m = entrance.waterline_length.unwrap_or(hull.bottom_length).get::<meter>();
        let volume_m3 = boat.displaced_volume().get::<cubic_meter>();
        let load_coefficient = volume_m3 / beam_m.powi(3);
        let deadrise_deg = degrees(hull.deadrise);
        let form = Form {
            slenderness: length_m / volume_m3.cbrt(),
            load_coefficient,
            half_entrance_deg: entrance.half_angle.get::<degree>(),
            transom_area_ratio: entrance.transom_area_ratio,
            beam_over_draft: 1.0 / draft_at_rest(load_coefficient, length_m / beam_m, deadrise_deg),
        };
        let scale = Scale {
            displaced_volume_m3: volume_m3,
            kinematic_viscosity_m2_s: boat
                .water()
                .kinematic_viscosity
                .get::<square_meter_per_second>(),
            correlation_allowance: settings.allowance_for(boat),
        };
        let prism = Prism::new(boat, settings);
        let at_one = prism.at(1.0);
        let extra_n_s2_m2 = at_one.air[0] + at_one.appendages[0];
        Some(Self { form, scale, weight_n: prism.weight_n, extra_n_s2_m2 })
    }

    /// The parameters that the regression is asked with.
    #[must_use]
    pub const fn form(&self) -> &Form {
        &self.form
    }

    /// Speeds at which the regression stands, F∇ 1 to 2.
    #[must_use]
    pub fn speeds(&self) -> [Velocity; 2] {
        let size_m = self.scale.displaced_volume_m3.cbrt();
        [*TESTED_VOLUME_FROUDE_NUMBER.start(), *TESTED_VOLUME_FROUDE_NUMBER.end()].map(|froude| {
            Velocity::new::<meter_per_second>(froude * (STANDARD_GRAVITY_M_S2 * size_m).sqrt())
        })
    }

    /// Resistance with planes up; none outside F∇ 1 to 2, for a form outside the models', and where the regression falls below the friction of the hull.
    #[must_use]
    pub fn resistance(&self, speed: Velocity) -> Option<Force> {
        self.resistance_n(speed.get::<meter_per_second>()).map(Force::new::<newton>)
    }

    /// What to know before trusting the resistance.
    #[must_use]
    pub fn flags(&self) -> Flags {
        let mut flags = Flags::default();
        flags.insert_if(!self.form.is_tested(), Flag::PrePlaningFormBeyondTested);
        flags
    }

    pub(crate) fn resistance_n(&self, speed_m_s: f64) -> Option<f64> {
        let froude = volume_froude_number(speed_m_s, self.scale.displaced_volume_m3);
        let ratio = resistance_ratio(&self.form, &self.scale, froude)?;
        Some(ratio * self.weight_n + self.extra_n_s2_m2 * speed_m_s * speed_m_s)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::parse_boat;
    use approx::assert_relative_eq;

    const BOAT: &str = "[hull]\nbottom_length = \"11.4 m\"\nchine_beam = \"3.6 m\"\n\
        deadrise = \"20 deg\"\nentrance_half_angle = \"24 deg\"\ntransom_area_ratio = 0.85\n\
        [weight]\nmass = \"14900 kg\"\nlcg = \"4.6 m\"\nvcg = \"1.5 m\"\n";

    fn boat(text: &str) -> Boat {
        parse_boat("b.toml", text).unwrap().boat
    }

    #[test]
    fn physics_the_regression_answers_between_its_speeds_only() {
        let regression = PrePlaning::of(&boat(BOAT), &Settings::default()).unwrap();
        let [low, high] = regression.speeds();
        assert!(regression.resistance(low * 0.999).is_none());
        assert!(regression.resistance(high * 1.001).is_none());
        let weight = boat(BOAT).weight().force();
        for share in [0.001, 0.3, 0.6, 0.999] {
            let resistance = regression.resistance(low + (high - low) * share).unwrap();
            let ratio = (resistance / weight).value;
            assert!((0.02..0.2).contains(&ratio), "{share}: {ratio}");
        }
        assert!(regression.flags().is_empty());
    }

    #[test]
    fn physics_air_and_appendages_add_their_own_drag() {
        let more = format!("{BOAT}[appendages]\ndrag_area = \"0.05 m^2\"\nheight = \"0 m\"\n");
        let settings = Settings::default();
        let [bare, clad] =
            [BOAT, &more].map(|text| PrePlaning::of(&boat(text), &settings).unwrap());
        let speed = Velocity::new::<meter_per_second>(9.0);
        let added_n =
            (clad.resistance(speed).unwrap() - bare.resistance(speed).unwrap()).get::<newton>();
        // Half the density of sea water at 15 degC (TEOS-10, 1026.0 kg/m3) x 9^2 x 0.05.
        assert_relative_eq!(added_n, 0.5 * 1026.0 * 81.0 * 0.05, max_relative = 1e-4);
    }

    #[test]
    fn physics_none_without_the_waterline_and_flagged_outside_the_models() {
        let without =
            BOAT.replace("entrance_half_angle = \"24 deg\"\ntransom_area_ratio = 0.85\n", "");
        assert!(PrePlaning::of(&boat(&without), &Settings::default()).is_none());
        let blunt = boat(&BOAT.replace("24 deg", "35 deg"));
        let regression = PrePlaning::of(&blunt, &Settings::default()).unwrap();
        assert!(regression.flags().contains(Flag::PrePlaningFormBeyondTested));
        let [low, high] = regression.speeds();
        assert_eq!(regression.resistance(0.5 * (low + high)), None);
    }
}
