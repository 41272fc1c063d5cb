//! What a person knows about a boat, before it is checked.
//!
//! A [`BoatInput`] is the only way to make a [`crate::boat::Boat`]: every
//! field that a stated rule can estimate is optional, all others must be given.

use uom::si::f64::{
    Angle, AngularVelocity, Area, Force, KinematicViscosity, Length, Mass, MassDensity, Power,
    Ratio, ThermodynamicTemperature, Torque, Velocity,
};

use super::afloat::AfloatInput;
use super::condition::{ConditionInput, same_name};
use super::feature::Feature;
use super::keys::or_default;
use super::propulsion::PropulsionInput;
use super::seen::Seen;
use super::tolerance::Tolerance;
use super::transom::{ObstacleKind, Side, Strake};
use super::written::Written;
use crate::units::{LengthUnit, UnitChoice, fraction_of_inch, number_with_decimals};

/// A boat as it is described in a boat file or by a library user.
#[derive(Clone, Debug, PartialEq)]
pub struct BoatInput {
    /// Free text that heads every output.
    pub name: String,
    /// A sentence on what the boat is used for, printed with the results.
    pub scenario: Option<String>,
    /// The planing bottom.
    pub hull: HullInput,
    /// What the bottom has that the equations do not know.
    pub features: Vec<Feature>,
    /// Correlation allowance ΔCf of this hull's roughness; the full-scale one when absent.
    pub roughness: Option<f64>,
    /// The waterline at rest, for the resistance before the boat planes.
    pub entrance: Option<EntranceInput>,
    /// Mass and centre of gravity.
    pub weight: WeightInput,
    /// How she floats at rest, from which LCG is taken when it is not given.
    pub afloat: Option<AfloatInput>,
    /// Propulsion: where the thrust acts and how fast the boat goes.
    pub drive: DriveInput,
    /// How much of the power reaches the water, and what it burns.
    pub propulsion: PropulsionInput,
    /// Water the boat runs in; sea water at 15 °C is assumed when absent.
    pub water: Option<WaterInput>,
    /// Air drag of hull and superstructure, when it is to be counted.
    pub air: Option<AirInput>,
    /// Wind from the side, when its heeling is to be counted.
    pub wind: Option<WindInput>,
    /// Drag of shafts, struts, rudders and legs, when it is to be counted.
    pub appendages: Option<AppendageInput>,
    /// The pair of planes fitted, if any.
    pub planes: Option<PlanePair>,
    /// Factor on the lift of planes on this boat; 1, the published equation, when absent.
    pub plane_effectiveness: Option<f64>,
    /// What a sea trial found that has no other place in the file.
    pub trial: Option<TrialInput>,
    /// Room on the transom.
    pub transom: TransomInput,
    /// Limits on the size that may be suggested.
    pub sizing: SizingInput,
    /// What the planes must do; generated from the boat when empty.
    pub duties: Vec<DutyInput>,
    /// What a person wishes of the planes in his own words; each gives a duty where none is given.
    pub wishes: Vec<Wish>,
    /// How well values are known; those not named count as taken from a brochure.
    pub tolerances: Vec<Tolerance>,
    /// Trims that were read on the water.
    pub seen: Vec<Seen>,
    /// Name of the condition that `weight` describes; [`AS_LISTED`](super::condition::AS_LISTED) when absent.
    pub base_condition: Option<String>,
    /// Other loading conditions.
    pub conditions: Vec<ConditionInput>,
    /// Name of the condition that she is in; that of `weight` when absent.
    pub condition: Option<String>,
    /// The units that the values were written in, as far as they come from a text.
    pub written: Written,
}

impl BoatInput {
    /// A boat with the values nobody can guess; everything else is estimated.
    #[must_use]
    pub fn new(name: &str, hull: HullInput, weight: WeightInput) -> Self {
        Self {
            name: name.to_owned(),
            scenario: None,
            hull,
            features: Vec::new(),
            roughness: None,
            entrance: None,
            weight,
            afloat: None,
            drive: DriveInput::default(),
            propulsion: PropulsionInput::default(),
            water: None,
            air: None,
            wind: None,
            appendages: None,
            planes: None,
            plane_effectiveness: None,
            trial: None,
            transom: TransomInput::default(),
            sizing: SizingInput::default(),
            duties: Vec::new(),
            wishes: Vec::new(),
            tolerances: Vec::new(),
            seen: Vec::new(),
            base_condition: None,
            conditions: Vec::new(),
            condition: None,
            written: Written::default(),
        }
    }

    /// The duties that hold in a condition.
    pub(super) fn duties_in(&self, condition: &str) -> Vec<Duty> {
        let held = self.duties.iter().filter(|asked| asked.holds_in(condition));
        held.map(|asked| asked.duty).collect()
    }
}

/// The planing bottom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HullInput {
    /// Length over all; only used to estimate `bottom_length`, and for the rule of thumb.
    pub overall_length: Option<Length>,
    /// Keel line of the planing bottom, transom to forefoot.
    pub bottom_length: Option<Length>,
    /// Chine beam b, mean over the running wetted bottom.
    pub chine_beam: Length,
    /// Deadrise β, mean over the running wetted bottom.
    pub deadrise: Angle,
}

/// The hull on her waterline at rest: what the pre-planing regression asks beside the planing bottom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EntranceInput {
    /// Half angle of entrance of the waterline, from the centreline to the waterline at the stem.
    pub half_angle: Angle,
    /// Immersed area of the transom over that of the largest section.
    pub transom_area_ratio: f64,
    /// Length of the waterline; the bottom length stands in when absent.
    pub waterline_length: Option<Length>,
}

/// Mass and centre of gravity: totals, or items to be summed.
#[derive(Clone, Debug, PartialEq)]
pub enum WeightInput {
    /// Totals of the boat as she runs.
    Totals {
        /// All-up mass.
        mass: Mass,
        /// Centre of gravity forward of the transom, along the keel.
        lcg: Option<Length>,
        /// Centre of gravity above the keel line, normal to it.
        vcg: Option<Length>,
        /// Centre of gravity to starboard of the centreline; zero when absent.
        tcg: Option<Length>,
    },
    /// One entry for hull, engine, fuel, people, gear …
    Loads(Vec<LoadItem>),
}

/// One item of the load table.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadItem {
    /// What it is.
    pub item: String,
    /// Its mass.
    pub mass: Mass,
    /// Its centre of gravity forward of the transom, along the keel.
    pub forward: Length,
    /// Its centre of gravity above the keel line.
    pub up: Length,
    /// Its centre of gravity to starboard of the centreline.
    pub starboard: Length,
}

/// What a sea trial found that has no other place in a boat file, and where it came from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TrialInput {
    /// The log it came from, for people.
    pub log: Option<String>,
    /// How much further forward the centre of gravity acts than the loads say, at [`TrialInput::mass`].
    pub lcg_shift: Option<Length>,
    /// All-up mass on the trial; that of the loads as they are listed when absent.
    pub mass: Option<Mass>,
}

impl TrialInput {
    /// The shift of the centre of gravity at an all-up mass, of a boat with another as her loads are listed.
    ///
    /// Weight that the list of loads has in the wrong place is there in every
    /// condition, so that its moment stays and the shift goes as 1/mass.
    #[must_use]
    pub fn lcg_shift_at(&self, mass: Mass, listed: Mass) -> Length {
        or_default(self.lcg_shift, "trial.lcg_shift") * (self.mass.unwrap_or(listed) / mass).value
    }
}

/// How the thrust reaches the water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DriveKind {
    /// Outboard engine on the transom.
    Outboard,
    /// Inboard engine with a steerable leg on the transom.
    Sterndrive,
    /// Propeller on an inclined shaft under the bottom.
    Shaft,
    /// Pod through the bottom.
    Pod,
    /// Waterjet through the transom.
    Jet,
}

/// Height of the thrust line, in either of two ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ThrustLine {
    /// f: thrust line below the centre of gravity, normal to the thrust line.
    BelowCentreOfGravity(Length),
    /// Height of the thrust line above the keel line at the transom; negative below the keel.
    HeightAtTransom(Length),
}

/// Propulsion as described.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DriveInput {
    /// Kind of drive; sets the estimates of the thrust line.
    pub kind: Option<DriveKind>,
    /// Rated power of all engines together, at the shaft.
    pub power: Option<Power>,
    /// Top speed, from a trial or the builder.
    pub top_speed: Option<Velocity>,
    /// ε: thrust line to keel line, positive when it pushes the stern up.
    pub thrust_angle: Option<Angle>,
    /// Height of the thrust line.
    pub thrust_line: Option<ThrustLine>,
    /// Speed of the engine at full power.
    pub engine_speed: Option<AngularVelocity>,
    /// Turns of the engine for one turn of the propeller; 1 when absent.
    pub gear_ratio: Option<f64>,
    /// Which way the propellers turn; their torque is not counted when absent.
    pub rotation: Option<Rotation>,
    /// Number of engines, each with its own propeller; 1 when absent.
    pub engines: Option<f64>,
    /// How many of them turn their propellers the other way; none when absent.
    pub counter_rotating: Option<f64>,
}

/// Which way a propeller turns when it drives ahead, seen from astern.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rotation {
    /// Clockwise: right-handed.
    Right,
    /// Anticlockwise: left-handed.
    Left,
}

/// Kind of water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaterKind {
    /// Sea water, practical salinity 35.
    Sea,
    /// Fresh water.
    Fresh,
}

/// Water by kind and temperature, or by its properties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WaterInput {
    /// By kind.
    Kind {
        /// Sea or fresh.
        kind: WaterKind,
        /// Temperature; 15 °C when absent.
        temperature: Option<ThermodynamicTemperature>,
        /// Practical salinity (g/kg, a plain number) in place of the kind's own: harbours, estuaries.
        salinity: Option<f64>,
    },
    /// By its properties.
    Explicit {
        /// Density ρ.
        density: MassDensity,
        /// Kinematic viscosity ν.
        kinematic_viscosity: KinematicViscosity,
    },
}

impl WaterKind {
    /// Its practical salinity where none is given.
    #[must_use]
    pub const fn usual_salinity(self) -> f64 {
        match self {
            Self::Sea => crate::water::SEA_SALINITY,
            Self::Fresh => 0.0,
        }
    }
}

/// Air drag: ½ ρ_air V² C_D A, horizontal, at a height above the keel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirInput {
    /// Frontal area of hull above water and superstructure.
    pub frontal_area: Area,
    /// Drag coefficient on that area; 0.7 when absent (common practice, no source).
    pub drag_coefficient: Option<f64>,
    /// Height of the centre of that area above the keel line.
    pub height: Length,
}

/// Wind from the side: ½ ρ_air V² C A at a height above the keel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindInput {
    /// Area of hull above water and superstructure, seen from the side.
    pub side_area: Area,
    /// Height of the centre of that area above the keel line.
    pub side_height: Length,
    /// Drag coefficient on that area; 1.0 when absent (common practice, no source).
    pub drag_coefficient: Option<f64>,
    /// Speed of the wind across the boat.
    pub speed: Velocity,
    /// The side it comes from; the other goes down. Port when absent.
    pub from: Option<Side>,
}

/// Appendage drag: ½ ρ V² (C_D A), horizontal, at a height above the keel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AppendageInput {
    /// C_D A: drag coefficient times area, summed over the appendages.
    pub drag_area: Area,
    /// Height of the drag above the keel line; negative below the keel.
    pub height: Length,
}

/// A pair of trim planes, one on each side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanePair {
    /// Span s of ONE plane, along the bottom edge.
    pub span: Length,
    /// Chord c_p, hinge to trailing edge.
    pub chord: Length,
}

impl PlanePair {
    /// Plan area of both planes, 2 s c_p.
    #[must_use]
    pub fn area(&self) -> Area {
        2.0 * self.span * self.chord
    }

    /// Span and chord in words: `600 x 150 mm`, or `23 5/8 x 5 7/8 in`.
    #[must_use]
    pub fn text(&self, units: UnitChoice) -> String {
        match units.small_length {
            LengthUnit::Inch => {
                let span = fraction_of_inch(self.span);
                format!("{} x {}", span.trim_end_matches(" in"), fraction_of_inch(self.chord))
            }
            unit => {
                let decimals = if unit == LengthUnit::Millimetre { 0 } else { 3 };
                let text = |length| number_with_decimals(unit.value(length), decimals);
                format!("{} x {} {}", text(self.span), text(self.chord), unit.symbol())
            }
        }
    }
}

/// Room on the transom, and the setting of the hinge.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TransomInput {
    /// Chine beam at the transom; the hull's mean when absent.
    pub beam: Option<Length>,
    /// Deadrise at the transom; the hull's mean when absent.
    pub deadrise: Option<Angle>,
    /// Clear distance off the centreline, along the bottom edge; 8 in when absent.
    pub inner_clearance: Option<Length>,
    /// Clear distance in from the chine, along the bottom edge; 3.5 in when absent.
    pub outer_clearance: Option<Length>,
    /// Hinge line above the bottom edge; 1/4 in when absent.
    pub hinge_height: Option<Length>,
    /// Lean of the transom from the normal to the bottom, its top aft positive; zero when absent.
    pub rake: Option<Angle>,
    /// Height above the bottom edge that hinge and actuator need free; 10 in when absent.
    pub working_height: Option<Length>,
    /// What stands on the transom or hangs below its edge.
    pub obstacles: Vec<ObstacleInput>,
    /// Strakes that run out at the transom, each on both sides.
    pub strakes: Vec<Strake>,
}

/// A thing on the transom as described; places and signs as in [`Obstacle`](super::Obstacle).
#[derive(Clone, Debug, PartialEq)]
pub struct ObstacleInput {
    /// What it is.
    pub kind: ObstacleKind,
    /// What the owner calls it.
    pub name: Option<String>,
    /// Its middle off the centreline, level; to starboard positive.
    pub off_centre: Length,
    /// Its width, level.
    pub width: Length,
    /// Its lowest point above the bottom edge.
    pub from: Length,
    /// Its highest point above the bottom edge.
    pub to: Length,
    /// Free distance to keep beside it; the kind's usual one when absent.
    pub clearance: Option<Length>,
}

/// Limits on the size that may be suggested.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SizingInput {
    /// Largest deflection the hardware gives; never above the tested 15°.
    pub largest_deflection: Option<Angle>,
    /// Share of the usable deflection that the duties may use; all of it when absent.
    pub share: Option<Ratio>,
    /// Share of boats nearly like this one on which a size is to do its duties; 80 % when absent.
    pub chance: Option<Ratio>,
    /// Smallest chord; 225 mm when absent.
    pub smallest_chord: Option<Length>,
    /// Smallest span/chord; 1.5 when absent.
    pub smallest_aspect: Option<f64>,
    /// Largest span/chord; 3.5 when absent.
    pub largest_aspect: Option<f64>,
    /// Step of the sizes that can be bought or made; 25 mm when absent.
    pub round_to: Option<Length>,
}

/// What must hold at a condition: the reason for fitting planes at all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Duty {
    /// So many degrees taken off the running trim with planes up, with all usable deflection.
    Relief {
        /// Least that is taken off.
        at_least: Angle,
        /// The speeds over which it holds, slower end first; at the hump when absent.
        over: Option<[Velocity; 2]>,
    },
    /// Running trim at most `at_most` from speed `from` to speed `to`.
    HumpTrim {
        /// Largest running trim.
        at_most: Angle,
        /// Slowest speed it must hold at.
        from: Velocity,
        /// Fastest speed it must hold at.
        to: Velocity,
    },
    /// Resistance within a share of the least that any admissible pair reaches at a speed.
    LeastResistance {
        /// Allowed excess over the least.
        within: Ratio,
        /// The speed.
        speed: Velocity,
    },
    /// Trim below the porpoising limit by a margin, up to a speed.
    PorpoisingMargin {
        /// Margin under the lower of the published limits.
        margin: Angle,
        /// Fastest speed it must hold at.
        up_to: Velocity,
    },
    /// A heeling moment levelled at a speed.
    List {
        /// What heels the boat.
        cause: ListCause,
        /// The speed.
        speed: Velocity,
    },
}

/// What a person wishes of the planes, in his own words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// The bow stands too high.
    BowHigh,
    /// She is slow to come onto the plane.
    SlowToPlane,
    /// She nods by herself at speed.
    Porpoises,
    /// She leans to one side.
    Leans,
    /// She pounds in a head sea.
    Pounds,
}

impl Wish {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::BowHigh, Self::SlowToPlane, Self::Porpoises, Self::Leans, Self::Pounds];
    /// Their words in a boat file and on the command line, in the order of [`Self::ALL`].
    pub const WORDS: &[&str] = &["bow-high", "slow-to-plane", "porpoises", "leans", "pounds"];

    /// Its word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }
}

/// A duty, and where it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyInput {
    /// What must hold.
    pub duty: Duty,
    /// Names of the loading conditions in which it must; in all of them when empty.
    pub conditions: Vec<String>,
}

impl DutyInput {
    /// Whether it holds in the condition of that name.
    #[must_use]
    pub fn holds_in(&self, condition: &str) -> bool {
        self.conditions.is_empty() || self.conditions.iter().any(|name| same_name(name, condition))
    }
}

impl From<Duty> for DutyInput {
    fn from(duty: Duty) -> Self {
        Self { duty, conditions: Vec::new() }
    }
}

/// What heels the boat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ListCause {
    /// A moment about the fore-and-aft axis through the centre of gravity, positive when starboard goes down.
    Moment(Torque),
    /// Somebody or something off the centreline.
    OffCentre {
        /// Mass.
        mass: Mass,
        /// Distance to starboard of the centreline.
        distance: Length,
    },
}

impl Duty {
    /// The word that names this duty in a boat file and in every output.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Relief { .. } => "relief",
            Self::HumpTrim { .. } => "hump-trim",
            Self::LeastResistance { .. } => "least-resistance",
            Self::PorpoisingMargin { .. } => "porpoising-margin",
            Self::List { .. } => "list",
        }
    }
}

/// Weight of a mass at standard gravity.
#[must_use]
pub fn weight_of(mass: Mass) -> Force {
    mass * uom::si::f64::Acceleration::new::<uom::si::acceleration::meter_per_second_squared>(
        crate::physical::STANDARD_GRAVITY_M_S2,
    )
}
