//! What a sizing answers.

use std::fmt;

use serde::Serialize;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Area, Force, Length, Velocity};

use super::demand::Limit;
use super::json::alone;
use super::missing::Shortfall;
use super::search::Binding;
use super::sensitivity::Outlook;
use super::silence::Silence;
use super::unjudged::{is_over, is_short};
use crate::balance::{HumpPlace, LiftModel};
use crate::boat::{Aim, Duty, PlanePair, Weight};
use crate::field::si;
use crate::flag::Flags;
use crate::sentence::duty::condition;
use crate::units::UnitSystem;

/// The answer in one word, with its size.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Answer {
    /// The bare boat does all duties.
    NoPlanesNeeded,
    /// The least pair that does all duties, in whole steps; the exact one where none in whole steps does.
    Pair(PlanePair),
    /// No admissible pair does all duties.
    Infeasible(Box<Shortfall>),
}

/// Where the pair that falls least short misses most.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct Miss {
    /// The speed.
    pub speed: Velocity,
    /// What limits it there.
    pub limit: Limit,
    /// Deflection that the duties need there: of the deeper plane, or the mean where the safe run is the limit.
    pub needed: Angle,
    /// Deflection there is: the share that duties may use, or the mean at the end of the safe run.
    pub available: Angle,
    /// By how much the limit is exceeded, as a share of it: deflection, resistance, trim or wetted keel, or chord.
    pub excess: f64,
}

/// A value a duty is about, with planes up and with the pair set as the duty needs.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Reached {
    /// Running trim.
    Trim {
        /// Planes up; none when the boat has no balance.
        bare: Option<Angle>,
        /// With the pair; none when the boat has no balance.
        with: Option<Angle>,
    },
    /// Resistance.
    Resistance {
        /// Planes up.
        bare: Option<Force>,
        /// With the pair.
        with: Option<Force>,
        /// Least that any admissible pair reaches.
        least: Force,
    },
    /// Margin under the porpoising limit, negative above it.
    Margin {
        /// Planes up.
        bare: Option<Angle>,
        /// With the pair.
        with: Option<Angle>,
    },
    /// Difference between the planes that levels the boat, starboard deeper positive.
    Difference {
        /// The inward force reacted at the bottom, the whole lift at mid-span: the least difference.
        least: Angle,
        /// Reacted at the height of the centre of gravity, with part of the lift spread over the bottom: the largest.
        largest: Angle,
    },
}

/// One duty, judged for a pair.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[non_exhaustive]
pub struct DutyResult {
    /// The duty.
    #[serde(skip)]
    pub duty: Duty,
    /// Name of the loading condition in which it asks most.
    #[serde(rename = "loading_condition")]
    pub condition: String,
    /// Names of the conditions in which it holds; none when it holds in all that are asked about.
    #[serde(rename = "holds_in")]
    pub held_in: Vec<String>,
    /// Whether it was generated from the boat.
    pub generated: bool,
    /// Speed at which it asks most.
    #[serde(rename = "hardest_at_m_s", serialize_with = "si")]
    pub speed: Velocity,
    /// Deflection it needs by itself of the deeper plane: the mean and half the difference. None without a pair.
    #[serde(rename = "needed_deflection_deg", serialize_with = "si")]
    pub needed_deflection: Option<Angle>,
    /// The same for planes that are more and less effective than the equation: 5 and 95 % of boats.
    #[serde(rename = "likely_deflection_deg", serialize_with = "si")]
    pub likely_deflection: Option<[Angle; 2]>,
    /// Share of the usable deflection that it uses.
    pub share_used: Option<f64>,
    /// Whether it is done with the share allowed, or cannot be judged.
    #[serde(skip)]
    pub met: bool,
    /// Whether the bare boat does it, or it cannot be judged.
    #[serde(skip)]
    pub met_bare: bool,
    /// What it is about.
    #[serde(skip)]
    pub reached: Reached,
}

impl DutyResult {
    /// Whether it counts as done only because nobody can judge it where it asks most: with planes up the margin
    /// under the porpoising limit is short there, where its curve or the planes were not tested.
    #[must_use]
    pub fn is_unjudged(&self) -> bool {
        let (Aim::Margin(margin), Reached::Margin { bare: Some(bare), .. }) =
            (self.duty.aim(), self.reached)
        else {
            return false;
        };
        // Where it can be judged, a margin that is short takes some deflection.
        let takes_none = self.needed_deflection.is_none_or(|needed| needed.value <= 0.0);
        self.met && takes_none && is_short(margin, bare)
    }
}

/// The pair made a fifth smaller or larger.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[non_exhaustive]
pub struct Variant {
    /// What was changed.
    #[serde(rename = "change")]
    pub name: &'static str,
    /// The pair.
    #[serde(flatten)]
    pub pair: PlanePair,
    /// Largest share of the usable deflection that any duty uses.
    pub share_used: f64,
    /// Share of the boats nearly like the one described on which it does every duty, where they were drawn.
    pub chance: Option<f64>,
    /// Indices of the duties it misses.
    #[serde(skip)]
    pub missed: Vec<usize>,
    /// Span that the transom lacks on each side; none when it fits.
    #[serde(rename = "missing_span_m", serialize_with = "si")]
    pub too_long: Option<Length>,
    /// Largest trim at which the planes can hold the boat over the hump in any loading condition, with all the deflection allowed.
    #[serde(rename = "hump_trim_deg", serialize_with = "si")]
    pub hump_trim: Option<Angle>,
}

/// One point of area against resistance at the hump.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[non_exhaustive]
pub struct TradePoint {
    /// Area of both planes.
    #[serde(skip)]
    pub area: Area,
    /// The pair: of the suggested span/chord, or deeper where the transom takes no more span.
    #[serde(flatten)]
    pub pair: PlanePair,
    /// Resistance at the speed of the largest bare trim, with the best deflection that duties may use.
    #[serde(rename = "hump_resistance_n", serialize_with = "si")]
    pub hump_resistance: Force,
    /// Whether this pair does all duties.
    pub does_all: bool,
}

/// What to do at a speed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[non_exhaustive]
pub struct ScheduleRow {
    /// The speed.
    #[serde(rename = "speed_m_s", serialize_with = "si")]
    pub speed: Velocity,
    /// Mean deflection to use: what the duties need, or more where that saves resistance.
    #[serde(rename = "deflection_deg", serialize_with = "si")]
    pub deflection: Angle,
    /// Largest mean deflection with a safe run.
    #[serde(rename = "largest_safe_deg", serialize_with = "si")]
    pub largest_safe: Angle,
    /// Trim with planes up; none when there is no balance.
    #[serde(rename = "trim_planes_up_deg", serialize_with = "si")]
    pub trim_bare: Option<Angle>,
    /// Trim at the deflection to use; none when there is no balance.
    #[serde(rename = "trim_deg", serialize_with = "si")]
    pub trim: Option<Angle>,
    /// Resistance at the deflection to use over that with planes up; none without both.
    #[serde(rename = "resistance_over_planes_up")]
    pub resistance_ratio: Option<f64>,
    /// How far the trim lies under the lower porpoising limit at the deflection to use, tested or not; negative above it, none when there is no balance.
    #[serde(rename = "porpoising_margin_deg", serialize_with = "si")]
    pub porpoising_margin: Option<Angle>,
    /// Flags at the deflection to use.
    #[serde(flatten)]
    pub flags: Flags,
}

impl ScheduleRow {
    /// Whether she trims above the porpoising limit there, tested or not, by what a tenth of a degree shows.
    #[must_use]
    pub fn is_over_porpoising_limit(&self) -> bool {
        self.porpoising_margin.is_some_and(is_over)
    }

    /// The row of a schedule that is nearest to a speed.
    #[must_use]
    pub fn nearest(schedule: &[Self], speed: Velocity) -> Option<&Self> {
        let apart = |row: &Self| (row.speed - speed).abs().value;
        schedule.iter().min_by(|a, b| apart(a).total_cmp(&apart(b)))
    }
}

/// Where the size is set: the speed and loading condition that ask most of the least pair.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Governing {
    /// Name of the loading condition.
    pub condition: String,
    /// The speed.
    pub speed: Velocity,
}

/// One loading condition by itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[non_exhaustive]
pub struct ConditionResult {
    /// Its name.
    #[serde(rename = "name")]
    pub condition: String,
    /// What the file says about it.
    pub about: Option<String>,
    /// Mass and centre of gravity in it.
    #[serde(flatten)]
    pub weight: Weight,
    /// What it alone would need.
    #[serde(serialize_with = "alone", flatten)]
    pub alone: Outlook,
    /// Speed of its hump, the largest trim with planes up; the start of planing where it has none.
    #[serde(rename = "hump_speed_m_s", serialize_with = "si")]
    pub hump_speed: Velocity,
    /// Where in the planing range that is.
    pub hump_place: Option<HumpPlace>,
    /// That trim; none when she does not run there.
    #[serde(rename = "hump_trim_planes_up_deg", serialize_with = "si")]
    pub hump_trim_bare: Option<Angle>,
    /// What to do at each speed in this condition, with the pair suggested.
    pub schedule: Vec<ScheduleRow>,
}

/// The trade's rule of thumb: one inch of span for each foot of boat length, each side. Common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RuleOfThumb {
    /// Boat length it was taken from.
    pub length: Length,
    /// Whether that length is an estimate.
    pub length_estimated: bool,
    /// The span of one plane.
    pub span: Length,
}

/// What the same duties would need if another lift model were right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OtherModel {
    /// The lift model.
    pub model: LiftModel,
    /// The answer by it.
    pub outlook: Outlook,
}

/// How sure a pair is, counted over boats nearly like the one described.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Chance {
    /// Share of boats on which a size was to do every duty.
    pub wanted: f64,
    /// Share on which the pair of the answer does every duty that can be judged, or the bare boat where no planes are needed.
    pub reached: f64,
    /// Standard error of that share, from the number of draws alone.
    pub error: f64,
    /// Share on which each duty is done, in the order of the duties; none for one that cannot be judged.
    pub each: Vec<Option<f64>>,
    /// What all usable deflection takes off the trim in the loading condition that governs, where it is largest with planes up among the speeds that are judged: 5, 50 and 95 % of boats; none where she does not run there.
    pub relief: Option<[Angle; 3]>,
    /// That speed.
    pub relief_speed: Option<Velocity>,
    /// The least pair at an even chance, that of the boat as described.
    pub even: Option<PlanePair>,
    /// Boats drawn.
    pub draws: u32,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Trims seen on the water that all boats drawn would have shown.
    pub seen: SeenTrims,
}

/// What the error of the trim equations likely changes from one speed to another, degrees: nine times in
/// ten less, as the draws of `doubt` take it. Judged.
const CHANGES_DEG: f64 = 0.25;

/// A trim seen on the water, beside that of the boat as described.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeenTrim {
    /// The speed.
    pub speed: Velocity,
    /// What was read.
    pub read: Angle,
    /// Half of the range that holds nine such readings in ten.
    pub by: Angle,
    /// Trim of the boat by her file alone; 1° or 15° where she finds no balance.
    pub described: Angle,
    /// Trim as everything is computed: brought to all that was seen.
    pub computed: Angle,
    /// Trim of the boat that fits best all that was seen.
    pub fitted: Angle,
}

impl SeenTrim {
    /// Whether even the boat that fits best trims further from it than such a reading may be off.
    #[must_use]
    pub fn is_missed(&self) -> bool {
        (self.read - self.fitted).abs() > self.by
    }

    /// Whether it lies further from what is told of her than such a reading may be off, and the error of
    /// the equations may change from one speed to another.
    #[must_use]
    pub fn is_otherwise(&self) -> bool {
        (self.read - self.computed).abs() > self.by + Angle::new::<degree>(CHANGES_DEG)
    }
}

/// The trims that were seen of a boat.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SeenTrims {
    /// Every one, in the order of the boat file.
    pub all: Vec<SeenTrim>,
    /// Whether boats as described may well show them.
    pub fits: bool,
}

impl SeenTrims {
    /// Those to which what is told of her could not be brought: further from it than they may be off; all
    /// where hardly any boat as described would show them.
    pub fn otherwise(&self) -> impl Iterator<Item = SeenTrim> + '_ {
        self.all.iter().copied().filter(|seen| !self.fits || seen.is_otherwise())
    }

    /// Whether all that is told of her is brought to them.
    #[must_use]
    pub fn are_met(&self) -> bool {
        !self.all.is_empty() && self.otherwise().next().is_none()
    }
}

impl Chance {
    /// Whether any duty can be judged, so that there is something to count.
    #[must_use]
    pub fn is_of_something(&self) -> bool {
        self.each.iter().any(Option::is_some)
    }

    /// Whether what was wanted is reached, within the error of the count.
    #[must_use]
    pub fn is_reached(&self) -> bool {
        self.reached + 0.5 * self.error >= self.wanted
    }
}

/// The whole answer.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Suggestion {
    /// The answer.
    pub answer: Answer,
    /// How sure it is; none for the boat as described alone.
    pub chance: Option<Chance>,
    /// Whose lift of the bottom it was found with.
    pub model: LiftModel,
    /// The least pair before rounding.
    pub exact: Option<PlanePair>,
    /// Every duty, for the pair suggested, the one that falls least short, or the bare boat.
    pub duties: Vec<DutyResult>,
    /// Index of the duty that set the size; none when only the limits on the size did.
    pub set_by: Option<usize>,
    /// Where that is; none when only the limits on the size set it.
    pub governing: Option<Governing>,
    /// Every loading condition asked about, by itself.
    pub conditions: Vec<ConditionResult>,
    /// What keeps the least pair from being smaller.
    pub binding: Vec<Binding>,
    /// The two ends of the valley when the optimum is flat: pairs within 2 % of the least area.
    pub flat: Option<[PlanePair; 2]>,
    /// What the same duties would need by another lift model; none without duties, and where nobody looked for it.
    pub other_model: Option<OtherModel>,
    /// The pair a fifth smaller and larger.
    pub variants: Vec<Variant>,
    /// Area against hump resistance, in the loading condition that governs, or else the first.
    pub trade_off: Vec<TradePoint>,
    /// Name of that condition.
    pub trade_off_condition: String,
    /// Resistance at the hump in it with planes up, where she runs there.
    pub bare_hump_resistance: Option<Force>,
    /// What to do at each speed in the first condition asked about; [`Self::conditions`] has it for every one.
    pub schedule: Vec<ScheduleRow>,
    /// Deflection below which the raised hinge keeps the plate off the bottom line.
    pub dead_band: Option<Angle>,
    /// Largest span the transom takes on each side.
    pub room: Length,
    /// Largest usable deflection of one plane.
    pub usable_deflection: Angle,
    /// Share of it that duties may use.
    pub share_allowed: f64,
    /// The rule of thumb.
    pub rule_of_thumb: RuleOfThumb,
    /// Flags of all duty points.
    pub flags: Flags,
    /// Of these, what is untested where the size is set.
    pub rests_on_untested: Flags,
}

/// A sentence or two: the pair, how sure it is, what set it.
impl fmt::Display for Suggestion {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let units = UnitSystem::default().into();
        match &self.answer {
            Answer::NoPlanesNeeded => f.write_str("No planes are needed")?,
            Answer::Pair(pair) => write!(f, "A pair of planes, {} each", pair.text(units))?,
            Answer::Infeasible(shortfall) => {
                f.write_str("No pair does all that is asked")?;
                if let Some(best) = shortfall.best {
                    write!(f, "; {} each fall least short", best.text(units))?;
                }
            }
        }
        if let Some(chance) = &self.chance {
            write!(f, ", on {:.0} in 100 boats nearly like this one", 100.0 * chance.reached)?;
        }
        f.write_str(".")?;
        if let Some(index) = self.set_by {
            write!(f, " Set by: {}.", condition(&self.duties[index].duty, units))?;
        }
        if !self.rests_on_untested.is_empty() {
            write!(
                f,
                " It rests on what is untested: {}.",
                self.rests_on_untested.words().join(", ")
            )?;
        }
        Ok(())
    }
}

impl Suggestion {
    /// The pair suggested, or the one that falls least short.
    #[must_use]
    pub fn pair(&self) -> Option<PlanePair> {
        match &self.answer {
            Answer::Pair(pair) => Some(*pair),
            Answer::Infeasible(shortfall) => shortfall.best,
            Answer::NoPlanesNeeded => None,
        }
    }

    /// Whether a trim was read further from the boat as described than the reading may be off.
    #[must_use]
    pub fn is_seen_otherwise(&self) -> bool {
        self.seen_otherwise().next().is_some()
    }

    /// The trims that were read so.
    pub fn seen_otherwise(&self) -> impl Iterator<Item = SeenTrim> + '_ {
        self.chance.iter().flat_map(|chance| chance.seen.otherwise())
    }

    /// Whether every duty was judged where it asks most, so that a chance of all holds every one.
    #[must_use]
    pub fn is_all_judged(&self) -> bool {
        let left_out = self.chance.iter().flat_map(|chance| &chance.each).any(Option::is_none);
        !left_out && !self.duties.iter().any(DutyResult::is_unjudged)
    }

    /// Why nothing can be said about planes, where that is the answer.
    #[must_use]
    pub fn silence(&self) -> Option<Silence> {
        match &self.answer {
            Answer::Infeasible(shortfall) => shortfall.silence(),
            _ => None,
        }
    }

    /// Whether the answer does all duties.
    #[must_use]
    pub const fn does_all(&self) -> bool {
        !matches!(self.answer, Answer::Infeasible(_))
    }
}
