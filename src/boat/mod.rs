//! The checked boat: an impossible one cannot be built.
//!
//! [`Boat::build`] takes what a person knows ([`BoatInput`]), fills what a
//! stated rule can estimate, checks every value against the one bounds table
//! and the values against each other, and reports all faults together.

mod aboard;
pub mod afloat;
mod as_fitted;
pub mod bounds;
mod build;
pub mod condition;
pub(crate) mod duty;
pub mod estimate;
pub mod feature;
mod helm;
pub mod input;
pub mod keys;
pub mod measure;
mod pair;
mod particulars;
pub mod propulsion;
pub mod seen;
pub mod sense;
mod stations;
pub mod tolerance;
pub mod transom;
mod written;

use std::fmt;

use serde::Serialize;
use thiserror::Error;
use uom::si::f64::{Angle, Area, Force, Length, Mass, Power, Ratio, Torque, Velocity, Volume};
use uom::si::{angle::degree, area::square_meter, length::meter, mass::kilogram};

pub use aboard::PERSON_KG;
pub use afloat::AfloatInput;
pub use as_fitted::AsFitted;
pub use bounds::{Bound, bound_of, without_positions};
pub use condition::{ConditionInput, LoadChange, LoadingCondition};
pub use duty::{Aim, Duty, DutyInput, ListCause, Speeds};
pub use estimate::Estimate;
pub use feature::Feature;
pub(crate) use helm::stern_height;
pub use helm::{Helm, HelmInput};
pub use input::{
    AirInput, AppendageInput, BoatInput, BottomForm, DriveInput, DriveKind, EntranceInput,
    HullInput, LoadItem, ObstacleInput, PlanePair, Rotation, SizingInput, ThrustLine, TransomInput,
    TrialInput, WaterInput, WaterKind, WeightInput, WindInput, Wish,
};
pub use keys::row_of;
pub use measure::Measure;
pub(crate) use particulars::{Particulars, thrust_offset};
pub use propulsion::{EfficiencyAt, FuelKind, PropulsionInput};
pub use seen::Seen;
pub use stations::{Station, StationFault, Stations};
pub use tolerance::{Source, Tolerance, Toleranced, Width};
pub use transom::{
    ClearOfDrive, Conflict, Fit, Obstacle, ObstacleKind, Room, Side, SideRoom, Strake, StrakeNote,
    Stretch, Transom, TransomForm, Way, face_deadrise,
};
pub use written::Written;

use crate::field::si;
use crate::units::half_knots;
use crate::water::Water;

/// One thing wrong with a boat: where, what, which rule, and what to do.
#[derive(Clone, Debug, PartialEq, Error)]
#[error("{key}: {problem}")]
pub struct Fault {
    /// Key in the boat file, e.g. `hull.deadrise` or `load[2].mass` (counted from 0).
    pub key: String,
    /// What is wrong, with the value.
    pub problem: String,
    /// What is allowed, and what to type instead.
    pub remedy: String,
}

/// Everything wrong with a boat, in the order of the boat file.
#[derive(Clone, Debug, PartialEq)]
pub struct Faults(pub Vec<Fault>);

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, fault) in self.0.iter().enumerate() {
            let end = if index > 0 { "\n" } else { "" };
            write!(f, "{end}{fault}; {}", fault.remedy)?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}

impl IntoIterator for Faults {
    type Item = Fault;
    type IntoIter = std::vec::IntoIter<Fault>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

impl From<Fault> for Faults {
    fn from(fault: Fault) -> Self {
        Self(vec![fault])
    }
}

impl From<Faults> for Fault {
    /// The first: of a boat that was read already one is enough.
    fn from(faults: Faults) -> Self {
        faults.0.into_iter().next().unwrap_or_else(|| Self {
            key: "boat".to_owned(),
            problem: "it cannot be built".to_owned(),
            remedy: "check the boat file".to_owned(),
        })
    }
}

/// An accepted value outside its usual range.
#[derive(Clone, Debug, PartialEq)]
pub struct Unusual {
    /// Key in the boat file.
    pub key: String,
    /// Sentence with the value and the usual range.
    pub message: String,
}

/// The planing bottom, as an equivalent prismatic hull.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hull {
    /// Length over all, when known.
    pub overall_length: Option<Length>,
    /// Keel line of the planing bottom, transom to forefoot.
    pub bottom_length: Length,
    /// Chine beam b.
    pub chine_beam: Length,
    /// Deadrise β.
    pub deadrise: Angle,
    /// θ, angle between chine and keel, positive where the chine rises forward; zero for a prism.
    pub chine_to_keel: Angle,
}

/// Mass and centre of gravity.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Weight {
    /// All-up mass.
    #[serde(rename = "mass_kg", serialize_with = "si")]
    pub mass: Mass,
    /// Centre of gravity forward of the transom, along the keel.
    #[serde(rename = "lcg_m", serialize_with = "si")]
    pub lcg: Length,
    /// Centre of gravity above the keel line, normal to it.
    #[serde(rename = "vcg_m", serialize_with = "si")]
    pub vcg: Length,
    /// Centre of gravity to starboard of the centreline.
    #[serde(rename = "tcg_m", serialize_with = "si")]
    pub tcg: Length,
}

impl Weight {
    /// Weight Δ at standard gravity.
    #[must_use]
    pub fn force(&self) -> Force {
        input::weight_of(self.mass)
    }
}

/// Thrust line and speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drive {
    /// Kind of drive.
    pub kind: Option<DriveKind>,
    /// Rated shaft power of all engines together.
    pub power: Option<Power>,
    /// Top speed, given or estimated.
    pub top_speed: Velocity,
    /// ε: thrust line to keel line, positive when it pushes the stern up.
    pub thrust_angle: Angle,
    /// Height of the thrust line as given, or estimated: it says what stays when the weight moves.
    pub thrust_line: ThrustLine,
    /// f: thrust line below the centre of gravity, normal to the thrust line.
    pub thrust_offset: Length,
    /// What the water's torque on the propellers puts on the hull at full power about their shafts, positive when it presses starboard down.
    ///
    /// Zero where they turn against each other; none when the boat file does not tell.
    pub propeller_torque: Option<Torque>,
}

/// Share of the top speed that counts as cruise. Common practice, no source.
pub const CRUISE_SHARE: f64 = 0.75;

impl Drive {
    /// Cruising speed when none is asked for: [`CRUISE_SHARE`] of the top speed.
    #[must_use]
    pub fn cruise(&self) -> Velocity {
        self.top_speed * CRUISE_SHARE
    }

    /// The same in whole half knots, as it stands in what is asked of planes.
    pub(crate) fn cruise_asked(&self) -> Velocity {
        half_knots(half_knots(self.top_speed, f64::floor) * CRUISE_SHARE, f64::round)
    }
}

/// Wind from the side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wind {
    /// Sideways force ½ ρ_air V² C A, to starboard positive.
    pub force: Force,
    /// Height of that force above the keel line.
    pub height: Length,
}

/// Drag that acts horizontally at a height above the keel line at the centre of gravity's station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HorizontalDrag {
    /// Drag coefficient times area.
    pub drag_area: Area,
    /// Height above the keel line.
    pub height: Length,
}

/// Limits on the size that may be suggested.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sizing {
    /// Largest usable deflection of one plane.
    pub largest_deflection: Angle,
    /// Share of the usable deflection that the duties may use.
    pub share: Ratio,
    /// Share of boats nearly like this one on which a size is to do its duties.
    pub chance: Ratio,
    /// Smallest chord.
    pub smallest_chord: Length,
    /// Smallest span/chord.
    pub smallest_aspect: f64,
    /// Largest span/chord.
    pub largest_aspect: f64,
    /// Step of the sizes that can be bought or made.
    pub round_to: Length,
}

/// A boat whose every value has been checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Boat {
    input: BoatInput,
    hull: Hull,
    weight: Weight,
    drive: Drive,
    water: Water,
    air: Option<HorizontalDrag>,
    wind: Option<Wind>,
    appendages: Option<HorizontalDrag>,
    transom: Transom,
    helm: Helm,
    sizing: Sizing,
    estimates: Vec<Estimate>,
    unusual: Vec<Unusual>,
    conditions: Vec<LoadingCondition>,
    /// Index of the condition she is in.
    condition: usize,
    /// The duties that hold in it.
    duties: Vec<Duty>,
}

impl Boat {
    /// Checks what a person knows and fills what a stated rule can estimate.
    ///
    /// # Errors
    /// All faults found, in the order of the boat file: values outside the
    /// bounds table, values that contradict each other, and values that are
    /// needed and cannot be estimated.
    pub fn build(input: BoatInput) -> Result<Self, Faults> {
        build::build(input)
    }

    /// What it was built from.
    #[must_use]
    pub const fn input(&self) -> &BoatInput {
        &self.input
    }
    /// Name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.input.name
    }
    /// The planing bottom.
    #[must_use]
    pub const fn hull(&self) -> &Hull {
        &self.hull
    }
    /// The stations that the bottom is given by, when it is.
    #[must_use]
    pub const fn stations(&self) -> Option<&Stations> {
        self.input.stations.as_ref()
    }
    /// The stations, where a value of the bottom comes from them: `hull.chine_beam`, `hull.deadrise`, `hull.bottom_length`.
    #[must_use]
    pub fn stations_of(&self, key: &str) -> Option<&Stations> {
        let given = &self.input.hull;
        let is_given = match key {
            "hull.chine_beam" => given.chine_beam.is_some(),
            "hull.deadrise" => given.deadrise.is_some(),
            "hull.bottom_length" => given.bottom_length.is_some(),
            _ => return None,
        };
        self.stations().filter(|_| !is_given)
    }
    /// What the bottom has that the equations do not know.
    #[must_use]
    pub fn features(&self) -> &[Feature] {
        &self.input.features
    }
    /// The waterline at rest, when it is described.
    #[must_use]
    pub const fn entrance(&self) -> Option<EntranceInput> {
        self.input.entrance
    }
    /// Mass and centre of gravity.
    #[must_use]
    pub const fn weight(&self) -> &Weight {
        &self.weight
    }
    /// Thrust line and top speed.
    #[must_use]
    pub const fn drive(&self) -> &Drive {
        &self.drive
    }
    /// How much of the power reaches the water and what it burns, as given.
    #[must_use]
    pub const fn propulsion(&self) -> &PropulsionInput {
        &self.input.propulsion
    }
    /// Water.
    #[must_use]
    pub const fn water(&self) -> &Water {
        &self.water
    }
    /// Air drag, when counted.
    #[must_use]
    pub const fn air(&self) -> Option<&HorizontalDrag> {
        self.air.as_ref()
    }
    /// Wind from the side, when counted.
    #[must_use]
    pub const fn wind(&self) -> Option<&Wind> {
        self.wind.as_ref()
    }
    /// Appendage drag, when counted.
    #[must_use]
    pub const fn appendages(&self) -> Option<&HorizontalDrag> {
        self.appendages.as_ref()
    }
    /// The pair of planes fitted.
    #[must_use]
    pub const fn planes(&self) -> Option<PlanePair> {
        self.input.planes
    }
    /// Correlation allowance ΔCf of this hull, when the file gives one.
    #[must_use]
    pub const fn roughness(&self) -> Option<f64> {
        self.input.roughness
    }
    /// Factor on the published lift of planes on this boat.
    #[must_use]
    pub fn plane_effectiveness(&self) -> f64 {
        keys::or_default(self.input.plane_effectiveness, "planes.effectiveness")
    }
    /// How much further forward than its loads say her centre of gravity acts, by a sea trial.
    #[must_use]
    pub fn lcg_shift(&self) -> Length {
        let listed = self.conditions[0].weight.mass;
        let shift = |trial: &TrialInput| trial.lcg_shift_at(self.weight.mass, listed);
        self.input.trial.as_ref().map_or_else(Length::default, shift)
    }
    /// Room on the transom.
    #[must_use]
    pub const fn transom(&self) -> &Transom {
        &self.transom
    }
    /// Where whoever steers looks from, and over what.
    #[must_use]
    pub const fn helm(&self) -> &Helm {
        &self.helm
    }
    /// Limits on the size that may be suggested.
    #[must_use]
    pub const fn sizing(&self) -> &Sizing {
        &self.sizing
    }
    /// What the planes must do in the condition she is in, as given.
    #[must_use]
    pub fn duties(&self) -> &[Duty] {
        &self.duties
    }
    /// Whether duties are given, for any condition; otherwise they are to be generated.
    #[must_use]
    pub fn gives_duties(&self) -> bool {
        !self.input.duties.is_empty()
    }
    /// Every loading condition: first that of the loads as they are listed, then in the order of the boat file.
    #[must_use]
    pub fn conditions(&self) -> &[LoadingCondition] {
        &self.conditions
    }
    /// The loading condition she is in; that of the loads as they are listed after [`Boat::build`].
    #[must_use]
    pub fn condition(&self) -> &LoadingCondition {
        &self.conditions[self.condition]
    }
    /// How well values are known, as far as the file says.
    #[must_use]
    pub fn tolerances(&self) -> &[Tolerance] {
        &self.input.tolerances
    }
    /// How far off a value may be, where the file says so.
    #[must_use]
    pub fn tolerance_of(&self, value: Toleranced) -> Option<Width> {
        self.input.tolerances.iter().find(|own| own.of == value).map(|own| own.width)
    }
    /// Trims that were read on the water.
    #[must_use]
    pub fn seen(&self) -> &[Seen] {
        &self.input.seen
    }
    /// Values that a rule supplied.
    #[must_use]
    pub fn estimates(&self) -> &[Estimate] {
        &self.estimates
    }
    /// Whether a rule supplied the value of a key.
    #[must_use]
    pub fn is_estimated(&self, key: &str) -> bool {
        self.estimates.iter().any(|estimate| estimate.key == key)
    }
    /// Whether beam or deadrise of the transom stands on an estimate.
    #[must_use]
    pub fn has_estimated_transom(&self) -> bool {
        let given = &self.input.transom;
        (given.beam.is_none() && self.is_estimated("hull.chine_beam"))
            || (given.deadrise.is_none() && self.is_estimated("hull.deadrise"))
    }
    /// Whether the height of the hinge line was given, planned or as it was fitted.
    #[must_use]
    pub fn gives_hinge_height(&self) -> bool {
        let fitted = self.input.as_fitted.iter().any(|side| side.hinge_height.is_some());
        fitted || self.input.transom.hinge_height.is_some()
    }

    /// Accepted values outside their usual range.
    #[must_use]
    pub fn unusual(&self) -> &[Unusual] {
        &self.unusual
    }

    /// Displaced volume ∇ at rest.
    #[must_use]
    pub fn displaced_volume(&self) -> Volume {
        self.particulars().displaced_volume()
    }

    /// The numbers that the balance needs.
    pub(crate) fn particulars(&self) -> Particulars {
        Particulars {
            hull: self.hull,
            weight: self.weight,
            thrust_angle: self.drive.thrust_angle,
            thrust_line: match self.drive.thrust_line {
                // With another load the centre of gravity has moved, and the line has not.
                ThrustLine::BelowCentreOfGravity(_) => {
                    ThrustLine::BelowCentreOfGravity(self.drive.thrust_offset)
                }
                by_height @ ThrustLine::HeightAtTransom(_) => by_height,
            },
            water: self.water,
            air: self.air,
            appendages: self.appendages,
            hinge_height: self.transom.hinge_height,
            roughness: self.roughness(),
            plane_effectiveness: self.plane_effectiveness(),
        }
    }

    /// The same boat in another of her loading conditions: weight and centre of gravity, the thrust
    /// line from there, and the top speed where it is estimated.
    ///
    /// What is made from her afterwards, with other planes or another value, stays in that condition.
    ///
    /// # Errors
    /// A fault that names the nearest and all conditions when she has none of that name.
    pub fn in_condition(&self, name: &str) -> Result<Self, Fault> {
        let names = self.conditions.iter().map(|condition| condition.name.as_str());
        let Some(index) = names.clone().position(|own| condition::same_name(own, name)) else {
            return Err(condition::unknown("condition", name, names));
        };
        let condition = (index > 0).then(|| self.conditions[index].name.clone());
        let boat = Self::build(BoatInput { condition, ..self.input.clone() });
        // All conditions were checked when this boat was built.
        boat.map_err(Fault::from)
    }

    /// The boat as she was loaded when a trim was read.
    ///
    /// # Errors
    /// As [`Boat::in_condition`].
    pub fn as_seen(&self, seen: &Seen) -> Result<Self, Fault> {
        self.in_condition(seen.condition.as_ref().unwrap_or(&self.conditions[0].name))
    }

    /// The same boat in each of her loading conditions.
    ///
    /// # Errors
    /// None is known; all conditions were checked when she was built.
    pub fn in_all_conditions(&self) -> Result<Vec<Self>, Fault> {
        self.conditions.iter().map(|condition| self.in_condition(&condition.name)).collect()
    }

    /// Her name, with the loading condition where she has several.
    #[must_use]
    pub fn full_name(&self) -> String {
        match self.conditions.len() {
            1 => self.name().to_owned(),
            _ => format!("{}, {}", self.name(), self.condition().name),
        }
    }

    /// The same boat with another pair of planes, or none; what was seen of her stays as it was seen.
    ///
    /// # Errors
    /// When the pair lies outside the bounds table or is wider than the boat.
    pub fn with_planes(&self, planes: Option<PlanePair>) -> Result<Self, Faults> {
        let mut input = self.input.clone();
        for seen in input.seen.iter_mut().filter(|seen| seen.is_with_planes()) {
            seen.planes = seen.planes.or(input.planes);
        }
        Self::build(BoatInput { planes, ..input })
    }

    /// The same boat with an estimated value replaced by another, e.g. an end of its likely range.
    ///
    /// # Errors
    /// When the value makes the boat impossible.
    pub fn with_estimate(&self, key: &str, value: Measure) -> Result<Self, Faults> {
        let mut input = self.input.clone();
        build::set_estimate(&mut input, self, key, value);
        Self::build(input)
    }

    /// The items of her load table as they are aboard in the condition she is in; where totals are given only those added to them.
    #[must_use]
    pub fn items_aboard(&self) -> Vec<LoadItem> {
        build::aboard(&self.input, self.condition.checked_sub(1))
    }
    /// Height of the thrust line above the keel line at the transom.
    #[must_use]
    pub fn thrust_height(&self) -> Length {
        let angle = self.drive.thrust_angle;
        self.weight.vcg - self.weight.lcg * angle.tan() - self.drive.thrust_offset / angle.cos()
    }

    /// The boat with the hinge line of her planes at another height.
    ///
    /// # Errors
    /// [`Faults`] for a height that no transom has.
    pub fn with_hinge_height(&self, hinge_height: Length) -> Result<Self, Faults> {
        let mut input = self.input.clone();
        input.transom.hinge_height = Some(hinge_height);
        Self::build(input)
    }

    /// The same boat with her thrust turned about the point where it passes the transom, as a drive is trimmed.
    ///
    /// # Errors
    /// When the angle, or the thrust line that it gives, is one that no boat has.
    pub fn with_thrust_angle(&self, angle: Angle) -> Result<Self, Faults> {
        let mut input = self.input.clone();
        input.drive.thrust_angle = Some(angle);
        input.drive.thrust_line = Some(ThrustLine::HeightAtTransom(self.thrust_height()));
        Self::build(input)
    }

    /// Heeling moment about the fore-and-aft axis through the centreline from weight off it, positive when starboard goes down.
    #[must_use]
    pub fn list_moment(&self) -> Torque {
        let arm = self.weight.tcg.get::<meter>();
        Torque::new::<uom::si::torque::newton_meter>(
            self.weight.mass.get::<kilogram>() * crate::physical::STANDARD_GRAVITY_M_S2 * arm,
        )
    }
}

impl HorizontalDrag {
    fn new(drag_coefficient: f64, area: Area, height: Length) -> Self {
        let drag_area = Area::new::<square_meter>(drag_coefficient * area.get::<square_meter>());
        Self { drag_area, height }
    }
}

/// Degrees of an angle; the empirical equations are written in degrees.
pub(crate) fn degrees(angle: Angle) -> f64 {
    angle.get::<degree>()
}
