//! What a sizing answers, as one JSON object: SI units, angles in degrees, null for what does not exist.

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use uom::si::f64::{Angle, Force};
use uom::si::{angle::degree, force::newton, length::meter, velocity::meter_per_second};

use super::duty::sentence;
use super::missing::Shortfall;
use super::result::{
    Answer, Chance, ConditionResult, DutyResult, Reached, ScheduleRow, Suggestion, TradePoint,
    Variant,
};
use super::search::Binding;
use super::sensitivity::{Effect, Outlook};
use crate::balance::HumpPlace;
use crate::boat::{Estimate, PlanePair};
use crate::flag::{Flags, words};
use crate::units::UnitSystem;

impl Binding {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Duty => "duty",
            Self::SafeRun => "safe-run",
            Self::Room => "room",
            Self::SmallestChord => "smallest-chord",
            Self::SmallestAspect => "smallest-aspect",
            Self::LargestAspect => "largest-aspect",
        }
    }
}

impl Answer {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::NoPlanesNeeded => "no-planes-needed",
            Self::Pair(_) => "pair",
            Self::Infeasible(_) => "no-pair-does-all",
        }
    }
}

impl Outlook {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::NoPlanesNeeded => "no-planes-needed",
            Self::Pair(_) => "pair",
            Self::NothingAsked => "nothing-asked",
            Self::NoPairDoes => "no-pair-does-all",
        }
    }
}

impl Serialize for Suggestion {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Whole::of(self).serialize(serializer)
    }
}

/// A suggestion, field by field.
#[derive(Serialize)]
struct Whole<'a> {
    answer: &'static str,
    span_m: Option<f64>,
    chord_m: Option<f64>,
    area_m2: Option<f64>,
    exact: Option<PlanePair>,
    duties: Vec<OneDuty<'a>>,
    duties_generated: bool,
    chance: Option<f64>,
    chances: Option<OneChance<'a>>,
    relief_deg: Option<Relief>,
    #[serde(serialize_with = "words")]
    rests_on_untested: Flags,
    set_by: Option<&'static str>,
    set_in_condition: Option<&'a str>,
    set_at_m_s: Option<f64>,
    conditions: &'a [ConditionResult],
    binding: Vec<&'static str>,
    fits_transom: Option<bool>,
    room_m: f64,
    usable_deflection_deg: f64,
    share_allowed: f64,
    dead_band_deg: Option<f64>,
    flat_between: Option<[PlanePair; 2]>,
    model: &'static str,
    other_lift_model: Option<Other>,
    rule_of_thumb_span_m: f64,
    shortfall: Option<Missing>,
    variants: Vec<OneVariant<'a>>,
    bare_hump_resistance_n: Option<f64>,
    trade_off: &'a [TradePoint],
    trade_off_condition: &'a str,
    schedule: &'a [ScheduleRow],
    #[serde(flatten)]
    flags: Flags,
}

impl<'a> Whole<'a> {
    fn of(suggestion: &'a Suggestion) -> Self {
        let duty_name = |place: usize| suggestion.duties[place].duty.name();
        let pair = match suggestion.answer {
            Answer::Pair(pair) => Some(pair),
            _ => None,
        };
        let in_metres = pair.map(PlanePair::in_metres);
        let governing = suggestion.governing.as_ref();
        Self {
            answer: suggestion.answer.word(),
            span_m: in_metres.map(|[span_m, _]| span_m),
            chord_m: in_metres.map(|[_, chord_m]| chord_m),
            area_m2: pair.map(|pair| pair.area().value),
            exact: suggestion.exact,
            duties: suggestion.duties.iter().map(OneDuty::of).collect(),
            duties_generated: suggestion.duties.iter().any(|duty| duty.generated),
            chance: suggestion.chance.as_ref().map(|chance| chance.reached),
            chances: suggestion.chance.as_ref().map(OneChance::of),
            relief_deg: suggestion.chance.as_ref().and_then(Relief::of),
            rests_on_untested: suggestion.rests_on_untested,
            set_by: suggestion.set_by.map(duty_name),
            set_in_condition: governing.map(|governing| governing.condition.as_str()),
            set_at_m_s: governing.map(|governing| governing.speed.get::<meter_per_second>()),
            conditions: &suggestion.conditions,
            binding: suggestion.binding.iter().map(|binding| binding.word()).collect(),
            fits_transom: pair.map(|pair| pair.span <= suggestion.room * (1.0 + 1e-9)),
            room_m: suggestion.room.get::<meter>(),
            usable_deflection_deg: deg(suggestion.usable_deflection),
            share_allowed: suggestion.share_allowed,
            dead_band_deg: suggestion.dead_band.map(deg),
            flat_between: suggestion.flat,
            model: suggestion.model.word(),
            other_lift_model: suggestion.other_model.map(|other| Other {
                model: other.model.word(),
                answer: other.outlook.word(),
                pair: other.outlook.pair(),
            }),
            rule_of_thumb_span_m: suggestion.rule_of_thumb.span.get::<meter>(),
            shortfall: match &suggestion.answer {
                Answer::Infeasible(shortfall) => Some(Missing::of(shortfall, duty_name)),
                _ => None,
            },
            variants: suggestion
                .variants
                .iter()
                .map(|variant| OneVariant {
                    variant,
                    missed: variant.missed.iter().map(|&place| duty_name(place)).collect(),
                })
                .collect(),
            bare_hump_resistance_n: suggestion.bare_hump_resistance.map(newtons),
            trade_off: &suggestion.trade_off,
            trade_off_condition: &suggestion.trade_off_condition,
            schedule: &suggestion.schedule,
            flags: suggestion.flags,
        }
    }
}

fn deg(angle: Angle) -> f64 {
    angle.get::<degree>()
}

fn newtons(force: Force) -> f64 {
    force.get::<newton>()
}

/// A duty with its sentence and what it reaches.
#[derive(Serialize)]
struct OneDuty<'a> {
    name: &'static str,
    condition: String,
    #[serde(flatten)]
    result: &'a DutyResult,
    #[serde(flatten)]
    reached: What,
}

/// What a duty is about: with planes up, with the pair, and the least possible or the range of a difference.
#[derive(Serialize)]
struct What {
    planes_up: Option<f64>,
    with_pair: Option<f64>,
    least_or_range: Option<[f64; 2]>,
    unit: &'static str,
}

impl<'a> OneDuty<'a> {
    fn of(result: &'a DutyResult) -> Self {
        Self {
            name: result.duty.name(),
            condition: sentence(&result.duty, UnitSystem::Marine.into()),
            result,
            reached: What::of(result.reached),
        }
    }
}

impl What {
    fn of(reached: Reached) -> Self {
        let angles = |bare: Option<Angle>, with: Option<Angle>, unit| Self {
            planes_up: bare.map(deg),
            with_pair: with.map(deg),
            least_or_range: None,
            unit,
        };
        match reached {
            Reached::Trim { bare, with } => angles(bare, with, "deg of trim"),
            Reached::Margin { bare, with } => angles(bare, with, "deg under the porpoising limit"),
            Reached::Resistance { bare, with, least } => Self {
                planes_up: bare.map(newtons),
                with_pair: with.map(newtons),
                least_or_range: Some([newtons(least); 2]),
                unit: "N of resistance",
            },
            Reached::Difference { least, largest } => Self {
                planes_up: None,
                with_pair: None,
                least_or_range: Some([deg(least), deg(largest)]),
                unit: "deg between the planes, starboard deeper positive",
            },
        }
    }
}

/// How sure the answer is.
#[derive(Serialize)]
struct OneChance<'a> {
    wanted: f64,
    reached: f64,
    standard_error: f64,
    is_reached: bool,
    /// Null for a duty that cannot be judged: the others alone are counted.
    each_duty: &'a [Option<f64>],
    even_span_m: Option<f64>,
    even_chord_m: Option<f64>,
    draws: u32,
    seed: u64,
    seen_readings: usize,
}

impl<'a> OneChance<'a> {
    fn of(chance: &'a Chance) -> Self {
        let even = chance.even.map(PlanePair::in_metres);
        Self {
            wanted: chance.wanted,
            reached: chance.reached,
            standard_error: chance.error,
            is_reached: chance.is_reached(),
            each_duty: &chance.each,
            even_span_m: even.map(|[span_m, _]| span_m),
            even_chord_m: even.map(|[_, chord_m]| chord_m),
            draws: chance.draws,
            seed: chance.seed,
            seen_readings: chance.seen.len(),
        }
    }
}

/// What all usable deflection takes off the trim at the hump, with its range.
#[derive(Serialize)]
struct Relief {
    low: f64,
    median: f64,
    high: f64,
}

impl Relief {
    fn of(chance: &Chance) -> Option<Self> {
        let [low, median, high] = chance.relief?.map(deg);
        Some(Self { low, median, high })
    }
}

/// What the same duties would need by another lift model.
#[derive(Serialize)]
struct Other {
    model: &'static str,
    answer: &'static str,
    pair: Option<PlanePair>,
}

/// A shortfall, said in the default units.
#[derive(Serialize)]
struct Missing {
    best: Option<PlanePair>,
    duty: Option<&'static str>,
    missing: String,
    remedies: Vec<String>,
}

impl Missing {
    fn of(shortfall: &Shortfall, duty_name: impl Fn(usize) -> &'static str) -> Self {
        Self {
            best: shortfall.best,
            duty: shortfall.duty.map(duty_name),
            missing: shortfall.missing.to_string(),
            remedies: shortfall.remedies.iter().map(ToString::to_string).collect(),
        }
    }
}

/// A variant with the names of the duties that it misses.
#[derive(Serialize)]
struct OneVariant<'a> {
    #[serde(flatten)]
    variant: &'a Variant,
    missed: Vec<&'static str>,
}

impl Serialize for Effect {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        #[derive(Serialize)]
        struct Moved<'a> {
            #[serde(flatten)]
            estimate: &'a Estimate,
            area_with_low_m2: Option<f64>,
            area_with_high_m2: Option<f64>,
        }
        let area_m2 = |outlook: Option<Outlook>| Some(outlook?.pair()?.area().value);
        Moved {
            estimate: &self.estimate,
            area_with_low_m2: area_m2(self.low),
            area_with_high_m2: area_m2(self.high),
        }
        .serialize(serializer)
    }
}

/// Writes what a loading condition alone would need; for `serialize_with`.
pub(super) fn alone<S: Serializer>(outlook: &Outlook, serializer: S) -> Result<S::Ok, S::Error> {
    let mut map = serializer.serialize_map(Some(2))?;
    map.serialize_entry("alone", outlook.word())?;
    map.serialize_entry("alone_pair", &outlook.pair())?;
    map.end()
}

/// Writes the word of a place in the planing range; for `serialize_with`.
#[allow(clippy::ref_option)]
pub(super) fn place_word<S: Serializer>(
    place: &Option<HumpPlace>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    place.map(HumpPlace::word).serialize(serializer)
}
