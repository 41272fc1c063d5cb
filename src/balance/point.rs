//! A point of running: what the boat does at one speed with its planes at one deflection.

use std::fmt;

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use uom::si::f64::{Angle, Force, Length, Power, Pressure, Velocity};
use uom::si::{
    angle::degree, force::newton, length::meter, power::watt, pressure::pascal,
    velocity::meter_per_second,
};

use super::Method;
use super::forces::{Condition, Forces, Set};
pub use crate::boat::bounds::PLANING_SPEED_COEFFICIENT;
use crate::field::Field;
use crate::field::by_word;
use crate::flag::{Flag, Flags};
use crate::hydro::lift_model::LiftModel;
use crate::hydro::porpoising::PorpoisingLimit;
use crate::hydro::{friction, hump, lift, shuford, side_wetting, tank_fit, warp, wetted};
use crate::plane::effect;
use crate::units::{UnitSystem, number_with_decimals};

/// Trim under which a bow digs and steers, degrees. Common practice, no source.
pub const TRIM_FLOOR_DEG: f64 = 2.0;
/// Share of the weight from which the planes' lift is flagged. Judged: the tests had the hull carry most of it.
pub const PLANES_CARRY_HALF: f64 = 0.5;
/// Share of the weight above which the planes carry the boat, and no trim is blamed on where her weight lies. Judged.
const PLANES_CARRY_HER: f64 = 0.8;
/// Share of the lift above which the static term of Shuford's lift is flagged. Judged: its coefficient may be off by half, an eighth of the lift.
const LARGEST_STATIC_SHARE: f64 = 0.25;

/// Where the boat ends up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Outcome {
    /// She runs at a trim between 1° and 15°.
    Running,
    /// The bow is driven under: the moments are bow-down at every trim from 1° to 15°, or the planes lift as much as the boat weighs,
    /// or so nearly that the bottom is wet over less than a fiftieth of its beam, or nowhere ahead of the transom.
    ///
    /// So too where no trim balances and planes and thrust together would lift
    /// the bottom clear of the water before 15°.
    BowUnder,
    /// Nothing holds the bow down: the moments are bow-up at every trim from 1° to 15° at which the bottom carries anything.
    NoBalanceBowUp,
    /// Cv is under 1: not planing yet.
    BelowPlaningRange,
}

impl Outcome {
    /// The stable word in JSON and CSV.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Running => "running",
            Self::BowUnder => "bow-under",
            Self::NoBalanceBowUp => "no-balance-bow-up",
            Self::BelowPlaningRange => "below-planing-range",
        }
    }

    /// One sentence for a person.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Running => "The boat runs in balance.",
            Self::BowUnder => {
                "Planes this far down at this speed drive the bow under: no balance above 1 deg of trim."
            }
            Self::NoBalanceBowUp => {
                "Nothing holds the bow down at this speed: no balance below 15 deg of trim."
            }
            Self::BelowPlaningRange => {
                "Below the planing range (Cv under 1): the equations do not apply yet."
            }
        }
    }
}

by_word!(Outcome);

impl fmt::Display for Outcome {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// Parts of the resistance; they sum to it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct ResistanceParts {
    /// Pressure on the bottom.
    pub pressure: Force,
    /// Friction on the bottom.
    pub friction: Force,
    /// Whisker spray.
    pub spray: Force,
    /// Planes.
    pub planes: Force,
    /// Air.
    pub air: Force,
    /// Appendages.
    pub appendages: Force,
    /// What the hump factor, and any factor on the form of the model, add to the bare hull.
    pub hump: Force,
}

/// What a running boat does.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct Running {
    /// Running trim τ.
    pub trim: Angle,
    /// Mean wetted length over beam λ, from the planes' mean trailing edge.
    pub wetted_length_ratio: f64,
    /// Wetted keel length.
    pub wetted_keel: Length,
    /// Wetted chine length; negative when the chine is dry ahead of the transom.
    pub wetted_chine: Length,
    /// Draft of the keel at the transom.
    pub draft: Length,
    /// Resistance, hump factor included.
    pub resistance: Force,
    /// Its parts.
    pub parts: ResistanceParts,
    /// Thrust of the balance; the hump factor is not in it.
    pub thrust: Force,
    /// Resistance × speed.
    pub effective_power: Power,
    /// Lift that the planes add.
    pub plane_lift: Force,
    /// Drag that the planes add.
    pub plane_drag: Force,
    /// Lift that ONE plane adds for each degree of its deflection past the dead band; none without planes.
    pub lift_per_degree: Option<Force>,
    /// Degrees of trim for one more degree of mean deflection; none without planes, and at the edge of lifting the bottom clear of the water.
    pub trim_per_degree: Option<f64>,
    /// Published porpoising limits for the load that the hull carries.
    pub porpoising: PorpoisingLimit,
    /// Dynamic pressure q, ½ ρ V².
    pub dynamic_pressure: Pressure,
    /// Froude number over the volume displaced at rest, F∇.
    pub volume_froude_number: f64,
    /// C_L0, lift coefficient of a flat bottom at this trim and length; none by a lift that does not go by it.
    pub flat_lift_coefficient: Option<f64>,
    /// C_Lβ, lift of the bottom over q b²: N cos τ/(q b²).
    pub lift_coefficient: f64,
    /// Reynolds number of the wetted bottom.
    pub reynolds_number: f64,
    /// Friction coefficient, without the allowance.
    pub friction_coefficient: f64,
    /// Mean bottom speed over speed, V_m/V.
    pub bottom_speed_ratio: f64,
    /// Centre of pressure forward of the transom.
    pub centre_of_pressure: Length,
    /// Length from the transom over which vertical sides are wet; 0 where the flow stays clear of them.
    pub side_wetted_length: Length,
    /// Friction that vertical sides would have there: an ESTIMATE, not in the resistance.
    pub side_friction: Force,
}

impl Running {
    /// How far the trim lies under the lower porpoising limit; negative above it.
    #[must_use]
    pub fn porpoising_margin(&self) -> Angle {
        Angle::new::<degree>(self.porpoising.lower_deg() - self.trim.get::<degree>())
    }
}

/// What the boat does at one speed with its planes at one mean deflection.
///
/// It says and writes itself:
///
/// ```
/// use planewright::{Angle, Balance, Settings, Velocity, knot};
///
/// let boat = planewright::read_boat("data/boats/wren.toml".as_ref())?.boat;
/// let balance = Balance::of(&boat, &Settings::default());
/// let point = balance.point(Velocity::new::<knot>(25.0), Angle::default())?;
/// assert!(point.to_string().starts_with("25.0 kn, planes at 0.0 deg: trim "));
/// let json = serde_json::to_value(&point)?;
/// assert_eq!(json["outcome"], "running");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Point {
    /// Speed through the water.
    pub speed: Velocity,
    /// Speed coefficient Cv.
    pub speed_coefficient: f64,
    /// Mean deflection of the planes.
    pub deflection: Angle,
    /// Share of her weight that the planes lift; above 1 where they would lift all of her.
    pub planes_share: f64,
    /// Where she ends up.
    pub outcome: Outcome,
    /// What she does there, when running.
    pub running: Option<Running>,
    /// What to know before trusting the numbers.
    pub flags: Flags,
    /// Residual evaluations the balance took.
    pub evaluations: u32,
}

/// One line in knots, degrees and newtons, with the flags by their words.
impl fmt::Display for Point {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use super::fields;
        let units = UnitSystem::default().into();
        let text = |field: &Field<Self>| {
            let value = field.shown(self, units).map_or("-".to_owned(), |value| {
                number_with_decimals(value, field.decimals_of(value))
            });
            format!("{value} {}", field.quantity.symbol(units))
        };
        write!(f, "{}, planes at {}: ", text(&fields::SPEED), text(&fields::DEFLECTION))?;
        if self.running.is_some() {
            let shown = [fields::TRIM, fields::WETTED_KEEL, fields::RESISTANCE];
            let shown: Vec<String> =
                shown.iter().map(|field| format!("{} {}", field.label, text(field))).collect();
            f.write_str(&shown.join(", "))?;
        } else {
            f.write_str(self.outcome.word())?;
        }
        if !self.flags.is_empty() {
            write!(f, " ({})", self.flags.words().join(", "))?;
        }
        Ok(())
    }
}

/// Its fields as they are listed, the outcome and the flags.
impl Serialize for Point {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        for field in super::fields::ALL {
            map.serialize_entry(&field.si_name(), &field.si(self))?;
        }
        map.serialize_entry("outcome", self.outcome.word())?;
        self.flags.entries(&mut map)?;
        map.end()
    }
}

impl Point {
    /// How she ends up, in one sentence: [`Outcome::meaning`] with what it comes from.
    #[must_use]
    pub const fn meaning(&self) -> &'static str {
        match self.outcome {
            Outcome::BowUnder | Outcome::NoBalanceBowUp if self.planes_share > PLANES_CARRY_HER => {
                "The planes carry the boat at this speed, more than 80 % of her weight: the bottom holds her at no trim from 1 to 15 deg. Raise them."
            }
            Outcome::NoBalanceBowUp => {
                "The stern is too heavy for this speed: no balance below 15 deg of trim."
            }
            other => other.meaning(),
        }
    }

    /// Running trim, where she runs.
    pub(crate) fn trim(&self) -> Option<Angle> {
        self.running.map(|running| running.trim)
    }

    /// Resistance, where she runs.
    pub(crate) fn resistance(&self) -> Option<Force> {
        self.running.map(|running| running.resistance)
    }

    pub(super) fn without_running(condition: &Condition<'_>, outcome: Outcome) -> Self {
        let mut flags = Flags::default();
        flags_of_planes(&mut flags, condition);
        Self {
            speed: Velocity::new::<meter_per_second>(condition.speed_m_s),
            speed_coefficient: condition.speed_coefficient,
            deflection: Angle::new::<degree>(condition.plane.deflection_deg),
            planes_share: condition.planes_share(),
            outcome,
            running: None,
            flags,
            evaluations: 0,
        }
    }

    pub(super) fn of_balance(condition: &Condition<'_>, forces: &Forces, stable: bool) -> Self {
        let running = running(condition, forces);
        let mut point = Self::without_running(condition, Outcome::Running);
        point.flags = flags(condition, forces, &running);
        point.flags.insert_if(!stable, Flag::PitchUnstable);
        point.running = Some(running);
        point
    }
}

fn running(condition: &Condition<'_>, forces: &Forces) -> Running {
    let prism = condition.prism;
    let from_transom =
        |beams: f64| Length::new::<meter>(beams * prism.beam_m - condition.plane.mean_edge_m);
    let trim_deg = forces.trim_deg;
    let keel = wetted::keel(forces.wetted_length_ratio, prism.deadrise_deg, trim_deg);
    let parts_n = condition.resistance_parts_n(forces);
    let resistance_n: f64 = parts_n.iter().sum();
    let [pressure, friction, spray, planes, air, appendages, hump] =
        parts_n.map(Force::new::<newton>);
    let one = condition.set.map(|[port, starboard]| {
        let pair_n =
            condition.lift_per_degree_n(port.size) + condition.lift_per_degree_n(starboard.size);
        Force::new::<newton>(0.25 * pair_n)
    });
    let (side_beams, side_friction_n) = condition.wet_sides(forces);
    Running {
        trim: Angle::new::<degree>(trim_deg),
        wetted_length_ratio: forces.wetted_length_ratio,
        wetted_keel: from_transom(keel),
        wetted_chine: from_transom(wetted::chine(
            forces.wetted_length_ratio,
            prism.deadrise_deg,
            trim_deg,
        )),
        draft: from_transom(keel) * trim_deg.to_radians().sin(),
        resistance: Force::new::<newton>(resistance_n),
        parts: ResistanceParts { pressure, friction, spray, planes, air, appendages, hump },
        thrust: Force::new::<newton>(forces.thrust_n),
        effective_power: Power::new::<watt>(resistance_n * condition.speed_m_s),
        plane_lift: Force::new::<newton>(condition.plane.lift_n),
        plane_drag: Force::new::<newton>(forces.plane_drag_n()),
        lift_per_degree: one,
        trim_per_degree: condition.trim_per_degree(forces),
        porpoising: condition.porpoising_limit(),
        dynamic_pressure: Pressure::new::<pascal>(condition.dynamic_pressure_pa),
        volume_froude_number: condition.volume_froude_number(),
        flat_lift_coefficient: match prism.settings.model {
            LiftModel::Savitsky1964 => Some(lift::flat_plate(
                prism.trim_for_lift_deg(trim_deg),
                forces.wetted_length_ratio,
                condition.speed_coefficient,
            )),
            LiftModel::Shuford1958 => None,
        },
        lift_coefficient: forces.normal_n * prism.trim_for_drag_deg(trim_deg).to_radians().cos()
            / condition.area_pressure_n(),
        reynolds_number: forces.reynolds_number,
        friction_coefficient: forces.friction_coefficient,
        bottom_speed_ratio: forces.bottom_speed_squared.sqrt(),
        centre_of_pressure: Length::new::<meter>(forces.centre_of_pressure_m),
        side_wetted_length: Length::new::<meter>(side_beams * prism.beam_m),
        side_friction: Force::new::<newton>(side_friction_n),
    }
}

impl Condition<'_> {
    /// Share of the weight that the planes lift.
    pub(crate) fn planes_share(&self) -> f64 {
        self.plane.lift_n / self.prism.weight_n
    }

    /// Pressure, friction, spray, planes, air, appendages, and what the hump factor adds.
    pub(crate) fn resistance_parts_n(&self, forces: &Forces) -> [f64; 7] {
        let prism = self.prism;
        let cos = forces.trim_deg.to_radians().cos();
        // The 1964 cases print D = Δ tan τ + D_f/cos τ.
        let along_course = if prism.settings.method.is_full_balance() { cos } else { 1.0 / cos };
        let pressure_n =
            forces.normal_n * prism.trim_for_drag_deg(forces.trim_deg).to_radians().sin();
        let friction_n = forces.friction_n * along_course;
        let spray_n = forces.spray_n * along_course;
        let bare_n = pressure_n + friction_n + spray_n;
        let hump = self.hump_factor();
        let hump_n = (hump * prism.settings.form.resistance - 1.0) * bare_n;
        [
            pressure_n,
            friction_n,
            spray_n,
            forces.plane_drag_n(),
            self.air[0],
            self.appendages[0],
            hump_n,
        ]
    }

    /// Factor on the bare-hull resistance near the hump: as published, or the share of it that the tanks need.
    fn hump_factor(&self) -> f64 {
        let prism = self.prism;
        if !prism.settings.hump_factor {
            return 1.0;
        }
        let published =
            hump::resistance_factor(prism.lcg_m / prism.beam_m, self.volume_froude_number());
        if prism.settings.method == Method::BestEstimate {
            1.0 + tank_fit::HUMP_SHARE * (published - 1.0)
        } else {
            published
        }
    }

    /// Length over the beam over which vertical sides are wet, and the friction that they would have there.
    fn wet_sides(&self, forces: &Forces) -> (f64, f64) {
        let prism = self.prism;
        let length = side_wetting::side_wetted_length(
            forces.wetted_length_ratio,
            prism.deadrise_deg,
            forces.trim_deg,
            self.speed_coefficient,
        );
        let coefficient = forces.friction_coefficient + prism.correlation_allowance;
        let pressure_n = self.area_pressure_n() * prism.friction_density_ratio;
        (length, pressure_n * side_wetting::friction_coefficient(length, coefficient))
    }

    /// F∇.
    pub(crate) fn volume_froude_number(&self) -> f64 {
        self.speed_m_s / self.prism.froude_one_m_s
    }

    /// Published porpoising limits for the load that the hull carries.
    pub(crate) fn porpoising_limit(&self) -> PorpoisingLimit {
        let lift_coefficient = self.hull_load_n() / self.area_pressure_n();
        PorpoisingLimit::at(lift_coefficient, self.prism.deadrise_deg)
    }

    /// dτ/dδ of the balance, from the slopes of the moment by trim and by deflection.
    ///
    /// One-sided differences from the balance, where the moment is known. With
    /// this step the curvature of the moment is felt below 1e-4 of the slope,
    /// and the convergence of the balance less still.
    fn trim_per_degree(&self, forces: &Forces) -> Option<f64> {
        /// Step of the differences, degrees.
        const STEP_DEG: f64 = 1e-4;
        let deeper = self.with_each(
            self.set?.map(|one| Set { deflection_deg: one.deflection_deg + STEP_DEG, ..one }),
        );
        let change = |condition: &Condition<'_>, trim_deg: f64| {
            let moved = condition.forces(trim_deg, Some(forces), super::forces::FINEST_TOLERANCE);
            if moved.lifted_off { f64::NAN } else { moved.moment_n_m - forces.moment_n_m }
        };
        let by_trim = change(self, forces.trim_deg + STEP_DEG);
        let by_deflection = change(&deeper, forces.trim_deg);
        Some(-by_deflection / by_trim).filter(|slope| slope.is_finite())
    }
}

fn flags(condition: &Condition<'_>, forces: &Forces, running: &Running) -> Flags {
    let prism = condition.prism;
    let trim_deg = forces.trim_deg;
    let limit = running.porpoising;
    let gamma_deg = wetted::stagnation_angle_deg(prism.deadrise_deg, trim_deg);
    let cv = condition.speed_coefficient;
    let model = prism.settings.model;
    let static_share = || {
        let lift_deg = prism.trim_for_lift_deg(trim_deg);
        shuford::static_share(lift_deg, forces.wetted_length_ratio, cv, prism.deadrise_deg)
    };
    let mut flags = Flags::default();
    for (raised, flag) in [
        (
            model.largest_tested_speed_coefficient().is_some_and(|most| cv > most),
            Flag::SpeedBeyondTested,
        ),
        (trim_deg < TRIM_FLOOR_DEG, Flag::TrimUnderTwo),
        (forces.wetted_length_ratio > 4.0, Flag::WettedLengthBeyondTested),
        (prism.deadrise_deg > model.largest_tested_deadrise_deg(), Flag::DeadriseBeyondTested),
        (
            !(0.0..=warp::LARGEST_TESTED_DEG).contains(&prism.chine_to_keel_deg),
            Flag::WarpBeyondTested,
        ),
        (running.wetted_chine.get::<meter>() < 0.0, Flag::ChineDry),
        (running.wetted_keel.get::<meter>() > prism.bottom_length_m, Flag::KeelBeyondBottom),
        (cv < 2.0 && prism.deadrise_deg > 10.0 && gamma_deg < 17.0, Flag::WettedLengthsUncertain),
        (forces.bottom_speed_squared <= 0.0, Flag::BottomSpeedLimited),
        (forces.reynolds_number < friction::LOWEST_REYNOLDS_NUMBER, Flag::FrictionNotTurbulent),
        (
            prism.settings.hump_factor && condition.volume_froude_number() < 1.0,
            Flag::HumpFactorHeld,
        ),
        (forces.spray_limited, Flag::SprayLimited),
        (!limit.clamped && trim_deg > limit.lower_deg(), Flag::PorpoisingExpected),
        (limit.clamped, Flag::PorpoisingCurveClamped),
        (limit.lower_deg() < TRIM_FLOOR_DEG, Flag::NoSafeTrim),
        (
            model == LiftModel::Shuford1958 && static_share() > LARGEST_STATIC_SHARE,
            Flag::StaticLiftLarge,
        ),
        (running.side_wetted_length.get::<meter>() > 0.0, Flag::SidesWet),
    ] {
        flags.insert_if(raised, flag);
    }
    flags_of_planes(&mut flags, condition);
    if condition.plane.lift_n > 0.0 {
        let chord_share = condition.plane.chord_m / (forces.wetted_length_ratio * prism.beam_m);
        flags.insert_if(trim_deg > effect::LARGEST_TESTED_TRIM_DEG, Flag::PlaneTrimBeyondTested);
        flags.insert_if(
            chord_share > effect::LARGEST_TESTED_CHORD_SHARE,
            Flag::PlaneChordBeyondTested,
        );
    }
    flags
}

fn flags_of_planes(flags: &mut Flags, condition: &Condition<'_>) {
    let plane = condition.plane;
    if plane.lift_n <= 0.0 {
        return;
    }
    flags.insert_if(
        plane.deflection_deg > effect::LARGEST_TESTED_DEFLECTION_DEG,
        Flag::PlaneDeflectionBeyondTested,
    );
    flags.insert_if(
        !effect::TESTED_SPEED_COEFFICIENT.contains(&condition.speed_coefficient),
        Flag::PlaneSpeedBeyondTested,
    );
    flags.insert_if(condition.planes_share() >= PLANES_CARRY_HALF, Flag::PlanesCarryHalf);
    flags.insert_if(2.0 * plane.span_m > condition.prism.beam_m, Flag::PlaneSpanBeyondTested);
}
