//! What a person knows about a boat, before it is checked.
//!
//! A [`BoatInput`] is the only way to make a [`crate::boat::Boat`]: every
//! field that a stated rule can estimate is optional, all others must be given.
//! Beside the fields of a table stands under which key each is checked.

mod aft;
mod around;
mod wish;

use uom::si::f64::{Angle, Force, Length, Mass};

pub use aft::{ObstacleInput, PlanePair, SizingInput, TransomInput};
pub use around::{
    AirInput, AppendageInput, DriveInput, DriveKind, Rotation, ThrustLine, WaterInput, WaterKind,
    WindInput,
};
pub use wish::Wish;

use super::afloat::AfloatInput;
use super::as_fitted::AsFitted;
use super::condition::ConditionInput;
use super::duty::{Duty, DutyInput};
use super::feature::Feature;
use super::helm::HelmInput;
use super::keys::or_default;
use super::measure::{Named, given};
use super::propulsion::PropulsionInput;
use super::seen::Seen;
use super::stations::Stations;
use super::tolerance::Tolerance;
use super::written::Written;

/// A boat as it is described in a boat file or by a library user.
#[derive(Clone, Debug, PartialEq)]
pub struct BoatInput {
    /// Free text that heads every output.
    pub name: String,
    /// A sentence on what the boat is used for, printed with the results.
    pub scenario: Option<String>,
    /// The planing bottom.
    pub hull: HullInput,
    /// The bottom by its stations; what `hull` gives of it wins.
    pub stations: Option<Stations>,
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
    /// How the planes were fitted, a side each; empty where nobody measured.
    pub as_fitted: Vec<AsFitted>,
    /// Where whoever steers looks from.
    pub helm: HelmInput,
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
            stations: None,
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
            as_fitted: Vec::new(),
            helm: HelmInput::default(),
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

/// The planing bottom: a length and a beam must be given, be it over all; the rest is estimated.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HullInput {
    /// Length over all; only used to estimate `bottom_length`, and for the rule of thumb.
    pub overall_length: Option<Length>,
    /// Keel line of the planing bottom, transom to forefoot.
    pub bottom_length: Option<Length>,
    /// Beam over all; only used to estimate `chine_beam`.
    pub overall_beam: Option<Length>,
    /// Chine beam b, the largest (Savitsky & Brown 1976, after Blount & Fox).
    pub chine_beam: Option<Length>,
    /// Deadrise β at half the length of the chine (Savitsky & Brown 1976, after Blount & Fox).
    pub deadrise: Option<Angle>,
    /// How steep the bottom is, in words; only used to estimate `deadrise`.
    pub bottom_form: Option<BottomForm>,
}

/// How steep a bottom is, in words, where nobody measured its deadrise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BottomForm {
    /// Flat, or nearly.
    Flat,
    /// Between the two.
    Moderate,
    /// A deep V.
    DeepV,
}

impl BottomForm {
    /// All of them, in the order of [`BottomForm::WORDS`].
    pub const ALL: [Self; 3] = [Self::Flat, Self::Moderate, Self::DeepV];
    /// Their words in the boat file.
    pub const WORDS: &[&str] = &["flat", "moderate", "deep V"];

    /// Its word in the boat file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }
}

impl HullInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("chine_beam", self.chine_beam.map(Into::into)),
            ("deadrise", self.deadrise.map(Into::into)),
            ("overall_length", self.overall_length.map(Into::into)),
            ("bottom_length", self.bottom_length.map(Into::into)),
            ("overall_beam", self.overall_beam.map(Into::into)),
        ])
    }
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

impl EntranceInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("entrance_half_angle", Some(self.half_angle.into())),
            ("transom_area_ratio", Some(self.transom_area_ratio.into())),
            ("waterline_length", self.waterline_length.map(Into::into)),
        ])
    }
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

impl LoadItem {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("mass", Some(self.mass.into())),
            ("forward", Some(self.forward.into())),
            ("up", Some(self.up.into())),
            ("starboard", Some(self.starboard.into())),
        ])
    }
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
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([("lcg_shift", self.lcg_shift.map(Into::into)), ("mass", self.mass.map(Into::into))])
    }

    /// The shift of the centre of gravity at an all-up mass, of a boat with another as her loads are listed.
    ///
    /// Weight that the list of loads has in the wrong place is there in every
    /// condition, so that its moment stays and the shift goes as 1/mass.
    #[must_use]
    pub fn lcg_shift_at(&self, mass: Mass, listed: Mass) -> Length {
        or_default(self.lcg_shift, "trial.lcg_shift") * (self.mass.unwrap_or(listed) / mass).value
    }
}

/// Weight of a mass at standard gravity.
#[must_use]
pub fn weight_of(mass: Mass) -> Force {
    mass * uom::si::f64::Acceleration::new::<uom::si::acceleration::meter_per_second_squared>(
        crate::physical::STANDARD_GRAVITY_M_S2,
    )
}
