//! What a sizing answers, as one JSON object: SI units, angles in degrees, null for what does not exist.

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use uom::si::f64::Angle;

use super::missing::Shortfall;
use super::result::{Answer, Chance, DutyResult, OtherModel, Reached, Suggestion, Variant};
use super::search::Binding;
use super::sensitivity::{Effect, Outlook};
use crate::boat::{Estimate, PlanePair};
use crate::field::{InSi, by_word, written};
use crate::sentence::duty::condition;
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

by_word!(Binding);

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

written! {
    Suggestion as suggestion {
        "answer": suggestion.answer.word(),
        "span_m": suggestion.suggested().map(|pair| pair.in_metres()[0]),
        "chord_m": suggestion.suggested().map(|pair| pair.in_metres()[1]),
        "area_m2": suggestion.suggested().map(|pair| pair.area()).in_si(),
        "exact": suggestion.exact,
        "duties": suggestion.duties.iter().map(OneDuty::of).collect::<Vec<_>>(),
        "duties_generated": suggestion.duties.iter().any(|duty| duty.generated),
        "chance": suggestion.chance.as_ref().map(|chance| chance.reached),
        "chances": suggestion.chance,
        "relief_deg": suggestion.chance.as_ref().and_then(|chance| chance.relief).map(Relief),
        "relief_at_m_s": suggestion.chance.as_ref().and_then(|chance| chance.relief_speed).in_si(),
        "rests_on_untested": suggestion.rests_on_untested.words(),
        "set_by": suggestion.set_by.map(|index| suggestion.duty_name(index)),
        "set_in_condition": suggestion.governing.as_ref().map(|governing| &governing.condition),
        "set_at_m_s": suggestion.governing.as_ref().map(|governing| governing.speed).in_si(),
        "conditions": suggestion.conditions,
        "binding": suggestion.binding,
        "fits_transom": suggestion.fits_transom(),
        "room_m": suggestion.room.in_si(),
        "usable_deflection_deg": suggestion.usable_deflection.in_si(),
        "share_allowed": suggestion.share_allowed,
        "dead_band_deg": suggestion.dead_band.in_si(),
        "flat_between": suggestion.flat,
        "model": suggestion.model,
        "other_lift_model": suggestion.other_model,
        "rule_of_thumb_span_m": suggestion.rule_of_thumb.span.in_si(),
        "shortfall": suggestion.missing(),
        "variants": suggestion.variants_written(),
        "bare_hump_resistance_n": suggestion.bare_hump_resistance.in_si(),
        "trade_off": suggestion.trade_off,
        "trade_off_condition": suggestion.trade_off_condition,
        "schedule": suggestion.schedule,
        .. flags: suggestion.flags
    }
    Chance as chance {
        "wanted": chance.wanted,
        "reached": chance.reached,
        "standard_error": chance.error,
        "is_reached": chance.is_reached(),
        // Null for a duty that cannot be judged: the others alone are counted.
        "each_duty": chance.each,
        "even_span_m": chance.even.map(|pair| pair.in_metres()[0]),
        "even_chord_m": chance.even.map(|pair| pair.in_metres()[1]),
        "draws": chance.draws,
        "seed": chance.seed,
        "seen_readings": chance.seen.all.len(),
    }
    Relief as relief {
        "low": relief.0[0].in_si(),
        "median": relief.0[1].in_si(),
        "high": relief.0[2].in_si(),
    }
    OtherModel as other {
        "model": other.model,
        "answer": other.outlook.word(),
        "pair": other.outlook.pair(),
    }
    Missing<'_> as missing {
        "best": missing.shortfall.best,
        "duty": missing.duty,
        "missing": missing.shortfall.missing.to_string(),
        "remedies": missing.shortfall.remedies.iter().map(ToString::to_string).collect::<Vec<_>>(),
    }
}

impl Suggestion {
    /// The pair that does all duties.
    pub(crate) const fn suggested(&self) -> Option<PlanePair> {
        match self.answer {
            Answer::Pair(pair) => Some(pair),
            _ => None,
        }
    }

    pub(crate) fn fits_transom(&self) -> Option<bool> {
        self.suggested().map(|pair| pair.span <= self.room * (1.0 + 1e-9))
    }

    pub(crate) fn duty_name(&self, index: usize) -> &'static str {
        self.duties[index].duty.name()
    }

    fn missing(&self) -> Option<Missing<'_>> {
        let Answer::Infeasible(shortfall) = &self.answer else { return None };
        let duty = shortfall.duty.map(|index| self.duty_name(index));
        Some(Missing { shortfall, duty })
    }

    fn variants_written(&self) -> Vec<OneVariant<'_>> {
        let written = |variant: &'_ Variant| -> Vec<_> {
            variant.missed.iter().map(|&index| self.duty_name(index)).collect()
        };
        let variants = self.variants.iter();
        variants.map(|variant| OneVariant { variant, missed: written(variant) }).collect()
    }
}

/// What all usable deflection takes off the trim at the hump, with its range.
struct Relief([Angle; 3]);

/// How far a pair falls short, with the name of the duty that it misses most.
struct Missing<'a> {
    shortfall: &'a Shortfall,
    duty: Option<&'static str>,
}

/// A duty with its sentence and what it reaches.
#[derive(Serialize)]
struct OneDuty<'a> {
    name: &'static str,
    condition: String,
    #[serde(flatten)]
    result: &'a DutyResult,
    /// Null where nobody can judge it.
    met: Option<bool>,
    met_with_planes_up: Option<bool>,
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
            condition: condition(&result.duty, UnitSystem::Marine.into()).to_string(),
            result,
            met: (!result.is_unjudged()).then_some(result.met),
            met_with_planes_up: (!result.is_unjudged()).then_some(result.met_bare),
            reached: What::of(result.reached),
        }
    }
}

impl What {
    fn of(reached: Reached) -> Self {
        let angles = |bare: Option<Angle>, with: Option<Angle>, unit| Self {
            planes_up: bare.in_si(),
            with_pair: with.in_si(),
            least_or_range: None,
            unit,
        };
        match reached {
            Reached::Trim { bare, with } => angles(bare, with, "deg of trim"),
            Reached::Margin { bare, with } => angles(bare, with, "deg under the porpoising limit"),
            Reached::Resistance { bare, with, least } => Self {
                planes_up: bare.in_si(),
                with_pair: with.in_si(),
                least_or_range: Some([least.in_si(); 2]),
                unit: "N of resistance",
            },
            Reached::Difference { least, largest } => Self {
                planes_up: None,
                with_pair: None,
                least_or_range: Some([least, largest].in_si()),
                unit: "deg between the planes, starboard deeper positive",
            },
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
