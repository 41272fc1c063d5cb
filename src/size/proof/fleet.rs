//! Boats to prove the sizing on; all invented.

use uom::si::f64::{Angle, Length, Mass, Ratio, Torque, Velocity};
use uom::si::{
    angle::degree, length::meter, mass::kilogram, ratio::percent, torque::newton_meter,
    velocity::knot,
};

use crate::boat::{
    Boat, BoatInput, DriveInput, Duty, HullInput, ListCause, SizingInput, ThrustLine, TransomInput,
    WeightInput,
};

/// A boat in a few numbers: lengths in metres, angles in degrees, speeds in knots.
#[derive(Clone, Debug)]
pub struct Sketch {
    pub beam_m: f64,
    pub bottom_m: f64,
    pub deadrise_deg: f64,
    pub mass_kg: f64,
    pub lcg_m: f64,
    pub vcg_m: f64,
    pub thrust_deg: f64,
    pub offset_m: f64,
    pub top_kn: f64,
    pub inner_m: f64,
    pub sizing: SizingInput,
    pub duties: Vec<Duty>,
}

pub fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

pub fn degrees(value: f64) -> Angle {
    Angle::new::<degree>(value)
}

pub fn knots(value: f64) -> Velocity {
    Velocity::new::<knot>(value)
}

/// A runabout of 2.8 t.
pub fn runabout(duties: &[Duty]) -> Sketch {
    Sketch {
        beam_m: 2.25,
        bottom_m: 6.5,
        deadrise_deg: 18.0,
        mass_kg: 2800.0,
        lcg_m: 2.45,
        vcg_m: 0.75,
        thrust_deg: 4.0,
        offset_m: 0.35,
        top_kn: 34.0,
        inner_m: 0.2032,
        sizing: SizingInput::default(),
        duties: duties.to_vec(),
    }
}

impl Sketch {
    pub fn input(&self) -> BoatInput {
        let hull = HullInput {
            bottom_length: Some(metres(self.bottom_m)),
            chine_beam: Some(metres(self.beam_m)),
            deadrise: Some(degrees(self.deadrise_deg)),
            ..HullInput::default()
        };
        let weight = WeightInput::Totals {
            mass: Mass::new::<kilogram>(self.mass_kg),
            lcg: Some(metres(self.lcg_m)),
            vcg: Some(metres(self.vcg_m)),
            tcg: None,
        };
        let mut input = BoatInput::new("invented", hull, weight);
        input.drive = DriveInput {
            top_speed: Some(knots(self.top_kn)),
            thrust_angle: Some(degrees(self.thrust_deg)),
            thrust_line: Some(ThrustLine::BelowCentreOfGravity(metres(self.offset_m))),
            ..DriveInput::default()
        };
        input.transom =
            TransomInput { inner_clearance: Some(metres(self.inner_m)), ..TransomInput::default() };
        input.sizing = self.sizing;
        input.duties = self.duties.iter().copied().map(Into::into).collect();
        input
    }

    pub fn boat(&self) -> Boat {
        Boat::build(self.input()).expect("an invented boat is sound")
    }
}

pub fn hump_trim(at_most_deg: f64, from_kn: f64, to_kn: f64) -> Duty {
    Duty::HumpTrim { at_most: degrees(at_most_deg), from: knots(from_kn), to: knots(to_kn) }
}

pub fn least_resistance(within_percent: f64, speed_kn: f64) -> Duty {
    Duty::LeastResistance { within: Ratio::new::<percent>(within_percent), speed: knots(speed_kn) }
}

pub fn porpoising_margin(margin_deg: f64, up_to_kn: f64) -> Duty {
    Duty::PorpoisingMargin { margin: degrees(margin_deg), up_to: knots(up_to_kn) }
}

pub fn list(moment_n_m: f64, speed_kn: f64) -> Duty {
    Duty::List {
        cause: ListCause::Moment(Torque::new::<newton_meter>(moment_n_m)),
        speed: knots(speed_kn),
    }
}

/// Numbers that repeat: SplitMix64 (Steele, Lea & Flood 2014), in 0 to 1.
pub struct Draw(u64);

impl Draw {
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^= z >> 31;
        #[allow(clippy::cast_precision_loss)]
        let unit = (z >> 11) as f64 / (1_u64 << 53) as f64;
        unit
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// Between two positive values, each factor as likely.
    pub fn by_factor(&mut self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.unit())
    }
}

/// A boat of usual proportions, 4 to 16 m, without duties.
pub fn usual(draw: &mut Draw) -> Sketch {
    let beam_m = draw.by_factor(1.5, 4.5);
    let bottom_m = beam_m * draw.between(2.6, 3.8);
    let load_coefficient = draw.between(0.22, 0.55);
    let mass_kg = load_coefficient * 1026.0 * beam_m.powi(3);
    let froude = draw.between(2.4, 4.2);
    let top_m_s = froude * (9.806_65 * (mass_kg / 1026.0).cbrt()).sqrt();
    Sketch {
        beam_m,
        bottom_m,
        deadrise_deg: draw.between(8.0, 24.0),
        mass_kg,
        lcg_m: bottom_m * draw.between(0.32, 0.42),
        vcg_m: beam_m * draw.between(0.25, 0.42),
        thrust_deg: draw.between(0.0, 10.0),
        offset_m: beam_m * draw.between(0.0, 0.25),
        top_kn: top_m_s / 0.514_444_444_444_444_4,
        inner_m: draw.between(0.1, 0.35),
        sizing: SizingInput::default(),
        duties: Vec::new(),
    }
}
