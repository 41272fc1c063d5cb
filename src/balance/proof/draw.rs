//! Random boats, speeds and settings for the proofs of the balance.

use uom::si::f64::{Angle, Area, Length, Mass, ThermodynamicTemperature, Velocity};
use uom::si::{
    angle::degree, area::square_meter, force::newton, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter, thermodynamic_temperature::degree_celsius,
    velocity::meter_per_second,
};

use crate::balance::{Balance, LiftModel, Method, ModelForm, Settings};
use crate::boat::{
    AirInput, AppendageInput, Boat, BoatInput, DriveInput, HorizontalDrag, HullInput, PlanePair,
    Station, Stations, ThrustLine, WaterInput, WaterKind, WeightInput,
};
use crate::hydro::friction::FrictionLine;
use crate::physical::{AIR_DENSITY_KG_M3, STANDARD_GRAVITY_M_S2};

/// SplitMix64. Source: Steele, G. L., Lea, D. & Flood, C. H. (2014), Fast splittable pseudorandom number generators, OOPSLA.
pub struct Random(pub u64);

impl Random {
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    pub fn uniform(&mut self, (low, high): (f64, f64)) -> f64 {
        #[allow(clippy::cast_precision_loss)]
        let share = (self.bits() >> 11) as f64 / (1_u64 << 53) as f64;
        low + share * (high - low)
    }

    pub fn log_uniform(&mut self, (low, high): (f64, f64)) -> f64 {
        self.uniform((low.ln(), high.ln())).exp().clamp(low, high)
    }

    fn below(&mut self, count: usize) -> usize {
        #[allow(clippy::cast_possible_truncation)]
        let bits = (self.bits() >> 40) as usize;
        bits % count
    }

    pub fn chance(&mut self, share: f64) -> bool {
        self.uniform((0.0, 1.0)) < share
    }

    /// Uniform, but often at an end or close to one.
    fn edgy(&mut self, (low, high): (f64, f64)) -> f64 {
        let near = 0.02 * (high - low);
        match self.bits() % 8 {
            0 => low,
            1 => high,
            2 => self.uniform((low, low + near)),
            3 => self.uniform((high - near, high)),
            _ => self.uniform((low, high)),
        }
    }
}

/// Ranges that boats are drawn from; lengths in chine beams.
pub struct Ranges {
    pub beam_m: (f64, f64),
    pub load_coefficient: (f64, f64),
    pub deadrise_deg: (f64, f64),
    pub length: (f64, f64),
    /// In bottom lengths.
    pub lcg: (f64, f64),
    /// Least, in chine beams.
    pub least_lcg: f64,
    pub vcg: (f64, f64),
    pub thrust_angle_deg: (f64, f64),
    pub thrust_offset: (f64, f64),
    pub speed_coefficient: (f64, f64),
    pub deflection_deg: (f64, f64),
    /// Span of one plane over half of the bottom edge.
    pub span_share: (f64, f64),
    pub chord: (f64, f64),
    /// Angle between chine and keel; nothing is drawn for it where both ends are 0.
    pub chine_to_keel_deg: (f64, f64),
    /// Whether values crowd at the ends of the ranges.
    pub edgy: bool,
    /// Whether settings other than the defaults are drawn too.
    pub any_settings: bool,
    pub model: LiftModel,
}

/// All that the bounds table admits, from well under the planing range to Cv 14.
pub const ANYWHERE: Ranges = Ranges {
    beam_m: (0.1, 12.0),
    load_coefficient: (0.01, 3.0),
    deadrise_deg: (0.0, 40.0),
    length: (1.0, 15.0),
    lcg: (0.001, 0.999),
    least_lcg: 0.0,
    vcg: (-0.2, 2.0),
    thrust_angle_deg: (-15.0, 25.0),
    thrust_offset: (-2.0, 2.0),
    speed_coefficient: (0.5, 14.0),
    deflection_deg: (0.0, 30.0),
    span_share: (0.05, 1.0),
    chord: (0.01, 0.5),
    chine_to_keel_deg: (0.0, 0.0),
    edgy: false,
    any_settings: true,
    model: LiftModel::Savitsky1964,
};

/// Boats of the trade.
pub const USUAL: Ranges = Ranges {
    beam_m: (1.2, 5.0),
    load_coefficient: (0.2, 1.0),
    deadrise_deg: (8.0, 26.0),
    length: (2.5, 6.0),
    lcg: (0.30, 0.45),
    least_lcg: 0.0,
    vcg: (0.25, 0.45),
    thrust_angle_deg: (-4.0, 12.0),
    thrust_offset: (0.0, 0.6),
    speed_coefficient: (1.0, 6.0),
    deflection_deg: (0.0, 15.0),
    span_share: (0.3, 0.7),
    chord: (0.08, 0.15),
    chine_to_keel_deg: (0.0, 0.0),
    edgy: false,
    any_settings: false,
    model: LiftModel::Savitsky1964,
};

/// A boat ready to be asked.
#[derive(Debug)]
pub struct Draw {
    pub boat: Boat,
    pub balance: Balance,
    pub settings: Settings,
    pub speed: Velocity,
    pub deflection: Angle,
}

impl Draw {
    /// Drag of air and appendages over the weight.
    pub fn extra_drag_share(&self) -> f64 {
        let speed_m_s = self.speed.get::<meter_per_second>();
        let area_m2 = |drag: Option<&HorizontalDrag>| {
            drag.map_or(0.0, |drag| drag.drag_area.get::<square_meter>())
        };
        let water_kg_m3 = self.boat.water().density.get::<kilogram_per_cubic_meter>();
        let kg_m = AIR_DENSITY_KG_M3 * area_m2(self.boat.air())
            + water_kg_m3 * area_m2(self.boat.appendages());
        0.5 * kg_m * speed_m_s * speed_m_s / self.boat.weight().force().get::<newton>()
    }
}

impl Ranges {
    /// Draws until the boat and the speed are within the bounds table.
    pub fn draw(&self, random: &mut Random) -> Draw {
        loop {
            let beam_m = random.log_uniform(self.beam_m);
            let speed_coefficient = self.pick(random, self.speed_coefficient);
            let speed_m_s = speed_coefficient * (STANDARD_GRAVITY_M_S2 * beam_m).sqrt();
            let input = self.input(random, beam_m);
            if !(0.05..=60.0).contains(&speed_m_s) {
                continue;
            }
            if let Ok(boat) = Boat::build(input) {
                let settings = if self.any_settings {
                    any_settings(random, self.model)
                } else {
                    Settings { model: self.model, ..Settings::default() }
                };
                let set = boat.planes().is_some()
                    && settings.method.is_full_balance()
                    && random.chance(0.8);
                let deflection_deg = if set { self.pick(random, self.deflection_deg) } else { 0.0 };
                return Draw {
                    balance: Balance::of(&boat, &settings),
                    boat,
                    settings,
                    speed: Velocity::new::<meter_per_second>(speed_m_s),
                    deflection: Angle::new::<degree>(deflection_deg),
                };
            }
        }
    }

    fn pick(&self, random: &mut Random, range: (f64, f64)) -> f64 {
        if self.edgy { random.edgy(range) } else { random.uniform(range) }
    }

    fn input(&self, random: &mut Random, beam_m: f64) -> BoatInput {
        let metres = |beams: f64| Length::new::<meter>(beams * beam_m);
        let length = random.log_uniform(self.length);
        let deadrise_deg = self.pick(random, self.deadrise_deg);
        let load = random.log_uniform(self.load_coefficient);
        let load = if self.edgy && random.chance(0.3) { self.load_coefficient.0 } else { load };
        let lcg = self.pick(random, (self.least_lcg.max(length * self.lcg.0), length * self.lcg.1));
        let hull = HullInput {
            bottom_length: Some(metres(length)),
            chine_beam: Some(metres(1.0)),
            deadrise: Some(Angle::new::<degree>(deadrise_deg)),
            ..HullInput::default()
        };
        let weight = WeightInput::Totals {
            mass: Mass::new::<kilogram>(1015.0 * load * beam_m.powi(3)),
            lcg: Some(metres(lcg)),
            vcg: Some(metres(self.pick(random, self.vcg))),
            tcg: None,
        };
        let mut input = BoatInput::new("drawn", hull, weight);
        if self.chine_to_keel_deg != (0.0, 0.0) {
            let chine_to_keel_deg = self.pick(random, self.chine_to_keel_deg);
            input.stations = Some(warped(length * beam_m, beam_m, chine_to_keel_deg));
        }
        let offset = metres(self.pick(random, self.thrust_offset));
        input.drive = DriveInput {
            thrust_angle: Some(Angle::new::<degree>(self.pick(random, self.thrust_angle_deg))),
            thrust_line: Some(ThrustLine::BelowCentreOfGravity(offset)),
            ..DriveInput::default()
        };
        input.water = Some(water(random));
        self.fit(random, &mut input, beam_m);
        input
    }

    /// Planes for most, air and appendages for some.
    fn fit(&self, random: &mut Random, input: &mut BoatInput, beam_m: f64) {
        let metres = |beams: f64| Length::new::<meter>(beams * beam_m);
        let square = |beams: f64| Area::new::<square_meter>(beams * beam_m * beam_m);
        if random.chance(0.8) {
            let half_edge_m = 0.5 * beam_m / input.hull.deadrise.unwrap_or_default().cos().value;
            let span_m = half_edge_m * self.pick(random, self.span_share);
            input.planes = Some(PlanePair {
                span: Length::new::<meter>(span_m),
                chord: metres(random.log_uniform(self.chord)),
            });
        }
        if random.chance(0.3) {
            input.air = Some(AirInput {
                frontal_area: square(random.log_uniform((0.05, 6.0))),
                drag_coefficient: Some(random.uniform((0.1, 2.0))),
                height: metres(random.uniform((0.0, 3.0))),
            });
        }
        if random.chance(0.3) {
            input.appendages = Some(AppendageInput {
                drag_area: square(random.log_uniform((1e-4, 0.03))),
                height: metres(random.uniform((-1.0, 0.5))),
            });
        }
    }
}

/// A bottom whose chine makes an angle with its keel.
fn warped(length_m: f64, beam_m: f64, chine_to_keel_deg: f64) -> Stations {
    let rise = chine_to_keel_deg.to_radians().tan();
    let aft_m = 0.02 * beam_m + (-rise * length_m).max(0.0);
    let station = |share: f64| {
        let [forward, keel_height, chine_height, chine_half_beam] =
            [share * length_m, 0.0, aft_m + rise * share * length_m, 0.5 * beam_m]
                .map(Length::new::<meter>);
        Station { forward, keel_height, chine_height, chine_half_beam }
    };
    Stations::new("drawn", "", [0.0, 0.5, 1.0].map(station).to_vec()).expect("a bottom")
}

fn water(random: &mut Random) -> WaterInput {
    WaterInput::Kind {
        kind: if random.chance(0.5) { WaterKind::Sea } else { WaterKind::Fresh },
        temperature: Some(ThermodynamicTemperature::new::<degree_celsius>(
            random.uniform((0.0, 40.0)),
        )),
        salinity: None,
    }
}

fn any_settings(random: &mut Random, model: LiftModel) -> Settings {
    let method = match random.uniform((0.0, 10.0)) {
        // The 1964 cases know only their own lift.
        share if share < 0.5 && model == LiftModel::Savitsky1964 => Method::General1964,
        share if share < 1.0 && model == LiftModel::Savitsky1964 => Method::Concurrent1964,
        share if share < 4.0 => Method::Full,
        _ => Method::BestEstimate,
    };
    Settings {
        method,
        model,
        friction_line: if random.chance(0.5) {
            FrictionLine::Ittc1957
        } else {
            FrictionLine::Schoenherr
        },
        correlation_allowance: Some(
            [0.0, 0.0004, 0.001, random.log_uniform((1e-4, 0.01))][random.below(4)],
        ),
        hump_factor: random.chance(0.5),
        whisker_spray: random.chance(0.5),
        friction_density: None,
        effectiveness: if random.chance(0.5) { 1.0 } else { random.log_uniform((0.5, 2.0)) },
        form: if random.chance(0.5) { ModelForm::PUBLISHED } else { any_form(random) },
    }
}

fn any_form(random: &mut Random) -> ModelForm {
    ModelForm {
        lift: random.log_uniform((0.72, 1.4)),
        centre_of_pressure: random.log_uniform((0.83, 1.22)),
        resistance: random.log_uniform((0.7, 1.5)),
        hull_form: random.log_uniform((0.9, 1.05)),
    }
}
