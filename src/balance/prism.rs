//! The boat as the equations want it: plain SI, computed once for all speeds.

use uom::si::{
    angle::radian, area::square_meter, force::newton, kinematic_viscosity::square_meter_per_second,
    length::meter, mass_density::kilogram_per_cubic_meter, volume::cubic_meter,
};

use super::as_read::settings_as_read;
use super::{Method, Settings};
use crate::boat::{Boat, HorizontalDrag, Particulars, PlanePair, degrees};
use crate::hydro::{hump, warp};
use crate::physical::STANDARD_GRAVITY_M_S2;

/// The boat in SI, once for all speeds.
#[derive(Clone, Debug)]
pub(crate) struct Prism {
    pub weight_n: f64,
    pub beam_m: f64,
    pub deadrise_deg: f64,
    /// θ, between chine and keel; 0 for a prism.
    pub chine_to_keel_deg: f64,
    /// Sine and cosine of the slope of the bottom's pressure to the keel: of what the warp adds to the trim of the drag.
    pub warp_slope: [f64; 2],
    pub tan_deadrise: f64,
    pub cos_deadrise: f64,
    pub lcg_m: f64,
    pub vcg_m: f64,
    pub bottom_length_m: f64,
    pub sin_thrust: f64,
    pub cos_thrust: f64,
    pub thrust_offset_m: f64,
    pub density_kg_m3: f64,
    /// Density in the friction over density in the lift; 1 but for a published inconsistency.
    pub friction_density_ratio: f64,
    pub viscosity_m2_s: f64,
    pub displaced_volume_m3: f64,
    /// Speed at which F∇ is 1.
    pub froude_one_m_s: f64,
    /// ΔCf.
    pub correlation_allowance: f64,
    /// Factor on the published lift of the planes.
    pub effectiveness: f64,
    pub air: [f64; 2],
    pub appendages: [f64; 2],
    pub settings: Settings,
    /// Hinge line above the bottom edge.
    pub hinge_height_m: f64,
}

impl Prism {
    /// The boat, with the equations brought to what was read of her on the water.
    pub fn new(boat: &Boat, settings: &Settings) -> Self {
        Self::of(&boat.particulars(), &settings_as_read(boat, settings))
    }

    /// The boat by her particulars alone.
    pub fn of(boat: &Particulars, settings: &Settings) -> Self {
        let Particulars { hull, weight, water, .. } = boat;
        let deadrise = hull.deadrise.get::<radian>();
        let thrust = boat.thrust_angle.get::<radian>();
        let concurrent = settings.method == Method::Concurrent1964;
        let (sin_thrust, cos_thrust) = if concurrent { (0.0, 1.0) } else { thrust.sin_cos() };
        let drag = |drag: Option<&HorizontalDrag>| {
            drag.map_or([0.0; 2], |d| [d.drag_area.get::<square_meter>(), d.height.get::<meter>()])
        };
        let chine_to_keel_deg = degrees(hull.chine_to_keel);
        let (sin_warp, cos_warp) =
            warp::trim_for_drag_deg(0.0, chine_to_keel_deg).to_radians().sin_cos();
        let displaced_volume_m3 = boat.displaced_volume().get::<cubic_meter>();
        let density_kg_m3 = water.density.get::<kilogram_per_cubic_meter>();
        Self {
            weight_n: weight.force().get::<newton>(),
            beam_m: hull.chine_beam.get::<meter>(),
            deadrise_deg: degrees(hull.deadrise),
            chine_to_keel_deg,
            warp_slope: [sin_warp, cos_warp],
            tan_deadrise: deadrise.tan(),
            cos_deadrise: deadrise.cos(),
            lcg_m: weight.lcg.get::<meter>(),
            vcg_m: weight.vcg.get::<meter>(),
            bottom_length_m: hull.bottom_length.get::<meter>(),
            sin_thrust,
            cos_thrust,
            thrust_offset_m: boat.thrust_offset().get::<meter>(),
            density_kg_m3,
            friction_density_ratio: settings
                .friction_density
                .map_or(1.0, |density| density.get::<kilogram_per_cubic_meter>() / density_kg_m3),
            viscosity_m2_s: water.kinematic_viscosity.get::<square_meter_per_second>(),
            displaced_volume_m3,
            froude_one_m_s: hump::speed_of_one_m_s(displaced_volume_m3),
            correlation_allowance: settings.allowance(boat.roughness),
            effectiveness: settings.effectiveness * boat.plane_effectiveness,
            air: drag(boat.air.as_ref()),
            appendages: drag(boat.appendages.as_ref()),
            settings: *settings,
            hinge_height_m: boat.hinge_height.get::<meter>(),
        }
    }

    /// Trim to put into the equations of lift.
    pub fn trim_for_lift_deg(&self, trim_deg: f64) -> f64 {
        warp::trim_for_lift_deg(trim_deg, self.chine_to_keel_deg)
    }

    /// Slope to the course of the plane that the bottom's pressure acts on as if it were one.
    pub fn trim_for_drag_deg(&self, trim_deg: f64) -> f64 {
        warp::trim_for_drag_deg(trim_deg, self.chine_to_keel_deg)
    }

    /// Height above the keel line at which the bottom's pressure acts.
    ///
    /// That of a prism is normal to the keel, and any height the same; that of a
    /// warped bottom acts at the mean height of the bottom, as friction does.
    pub fn pressure_height_m(&self) -> f64 {
        if self.chine_to_keel_deg == 0.0 { 0.0 } else { self.friction_height_m() }
    }

    /// Height of the friction above the keel line: (b/4) tan β.
    pub fn friction_height_m(&self) -> f64 {
        0.25 * self.beam_m * self.tan_deadrise
    }

    /// Speed coefficient Cv at a speed.
    pub fn speed_coefficient(&self, speed_m_s: f64) -> f64 {
        speed_m_s / (STANDARD_GRAVITY_M_S2 * self.beam_m).sqrt()
    }

    /// cos(ε − φ): of the angle between the thrust and the keel's direction turned by the slope of the pressure.
    pub fn cos_thrust_to_pressure(&self) -> f64 {
        let [sin_warp, cos_warp] = self.warp_slope;
        self.cos_thrust * cos_warp + self.sin_thrust * sin_warp
    }

    /// ε, degrees.
    pub fn thrust_angle_deg(&self) -> f64 {
        self.sin_thrust.atan2(self.cos_thrust).to_degrees()
    }

    /// Load coefficient Δ/(ρ g b³).
    pub fn load_coefficient(&self) -> f64 {
        self.displaced_volume_m3 / self.beam_m.powi(3)
    }
}

/// Span and chord in SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct PlaneSize {
    pub span_m: f64,
    pub chord_m: f64,
}

impl From<PlanePair> for PlaneSize {
    fn from(pair: PlanePair) -> Self {
        Self { span_m: pair.span.get::<meter>(), chord_m: pair.chord.get::<meter>() }
    }
}

impl PlaneSize {
    /// Plan area of both planes.
    pub fn area_m2(self) -> f64 {
        2.0 * self.span_m * self.chord_m
    }
}
