//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use std::collections::BTreeMap;

use serde::Serialize;
use uom::si::{
    area::square_meter, force::newton, length::meter, mass::kilogram, velocity::meter_per_second,
};

use super::Answered;
use super::chance::{ChanceRecord, ReliefRecord};
use super::shelf::json::{PartRecord, records};
use crate::balance::HumpPlace;
use crate::boat::{Boat, PlanePair, degrees};
use crate::cli::estimates::EstimateRecord;
use crate::cli::flag_words::FlagWords;
use crate::cli::screen::CAUTION;
use crate::size::{
    Answer, ConditionResult, DutyResult, OtherModel, Outlook, Reached, ScheduleRow, TradePoint,
    Variant, sentence,
};
use crate::tell::drive::{self, WithDrive};
use crate::tell::reasons::{answer_word, binding_text};
use crate::units::UnitSystem;

/// The whole answer.
#[derive(Serialize)]
pub(super) struct Record {
    program: &'static str,
    version: &'static str,
    name: String,
    answer: &'static str,
    span_m: Option<f64>,
    chord_m: Option<f64>,
    area_m2: Option<f64>,
    exact: Option<PairRecord>,
    duties: Vec<DutyRecord>,
    duties_generated: bool,
    chance: Option<f64>,
    chances: Option<ChanceRecord>,
    relief_deg: Option<ReliefRecord>,
    rests_on_untested: Vec<&'static str>,
    set_by: Option<&'static str>,
    set_in_condition: Option<String>,
    set_at_m_s: Option<f64>,
    conditions: Vec<ConditionRecord>,
    binding: Vec<String>,
    fits_transom: Option<bool>,
    room_m: f64,
    usable_deflection_deg: f64,
    share_allowed: f64,
    dead_band_deg: Option<f64>,
    flat_between: Option<[PairRecord; 2]>,
    model: &'static str,
    other_lift_model: Option<OtherModelRecord>,
    rule_of_thumb_span_m: f64,
    drive_trimmed_in: Vec<WithDrive>,
    shortfall: Option<ShortfallRecord>,
    variants: Vec<VariantRecord>,
    bare_hump_resistance_n: Option<f64>,
    trade_off: Vec<TradeRecord>,
    trade_off_condition: String,
    schedule: Vec<ScheduleRecord>,
    schedules: Vec<ConditionSchedule>,
    #[serde(flatten)]
    flags: FlagWords,
    estimates: Vec<EffectRecord>,
    warnings: Vec<String>,
    charts: Vec<String>,
    flag_meanings: BTreeMap<&'static str, &'static str>,
    input_crc32: String,
    caution: &'static str,
    stock: Option<Vec<PartRecord>>,
    stock_reasons: Option<Vec<String>>,
    stock_faults: Option<Vec<String>>,
}

#[derive(Serialize)]
struct PairRecord {
    span_m: f64,
    chord_m: f64,
    area_m2: f64,
}

impl From<PlanePair> for PairRecord {
    fn from(pair: PlanePair) -> Self {
        Self {
            span_m: metres(pair.span.get::<meter>()),
            chord_m: metres(pair.chord.get::<meter>()),
            area_m2: pair.area().get::<square_meter>(),
        }
    }
}

/// A length without the last bits that multiplying a step leaves.
fn metres(value: f64) -> f64 {
    (value * 1e9).round() / 1e9
}

#[derive(Serialize)]
struct DutyRecord {
    name: &'static str,
    condition: String,
    loading_condition: String,
    holds_in: Vec<String>,
    generated: bool,
    bites_at_m_s: f64,
    needed_deflection_deg: Option<f64>,
    likely_deflection_deg: Option<[f64; 2]>,
    share_used: Option<f64>,
    met: bool,
    met_with_planes_up: bool,
    planes_up: Option<f64>,
    with_pair: Option<f64>,
    least_or_range: Option<[f64; 2]>,
    unit: &'static str,
}

impl DutyRecord {
    fn of(result: &DutyResult) -> Self {
        let (planes_up, with_pair, range, unit) = reached(result);
        Self {
            name: result.duty.name(),
            condition: sentence(&result.duty, UnitSystem::Marine.into()),
            loading_condition: result.condition.clone(),
            holds_in: result.held_in.clone(),
            generated: result.generated,
            bites_at_m_s: result.speed.get::<meter_per_second>(),
            needed_deflection_deg: result.needed_deflection.map(degrees),
            likely_deflection_deg: result.likely_deflection.map(|range| range.map(degrees)),
            share_used: result.share_used,
            met: result.met,
            met_with_planes_up: result.met_bare,
            planes_up,
            with_pair,
            least_or_range: range,
            unit,
        }
    }
}

/// What a duty is about: with planes up, with the pair, and the least possible or the range of a difference.
fn reached(result: &DutyResult) -> (Option<f64>, Option<f64>, Option<[f64; 2]>, &'static str) {
    match result.reached {
        Reached::Trim { bare, with } => (bare.map(degrees), with.map(degrees), None, "deg of trim"),
        Reached::Margin { bare, with } => {
            (bare.map(degrees), with.map(degrees), None, "deg under the porpoising limit")
        }
        Reached::Resistance { bare, with, least } => {
            let newtons = |force: uom::si::f64::Force| force.get::<newton>();
            let least = newtons(least);
            (bare.map(newtons), with.map(newtons), Some([least, least]), "N of resistance")
        }
        Reached::Difference { least, largest } => {
            let range = [degrees(least), degrees(largest)];
            (None, None, Some(range), "deg between the planes, starboard deeper positive")
        }
    }
}

#[derive(Serialize)]
struct ShortfallRecord {
    best: Option<PairRecord>,
    duty: Option<&'static str>,
    missing: String,
    remedies: Vec<String>,
}

#[derive(Serialize)]
struct VariantRecord {
    change: &'static str,
    span_m: f64,
    chord_m: f64,
    share_used: f64,
    /// Share of boats nearly like her on which it does everything; null where none were drawn.
    chance: Option<f64>,
    missed: Vec<&'static str>,
    fits_transom: bool,
    hump_trim_deg: Option<f64>,
}

#[derive(Serialize)]
struct TradeRecord {
    area_m2: f64,
    span_m: f64,
    chord_m: f64,
    hump_resistance_n: f64,
    does_all: bool,
}

impl From<&TradePoint> for TradeRecord {
    fn from(point: &TradePoint) -> Self {
        Self {
            area_m2: point.area.get::<square_meter>(),
            span_m: metres(point.pair.span.get::<meter>()),
            chord_m: metres(point.pair.chord.get::<meter>()),
            hump_resistance_n: point.hump_resistance.get::<newton>(),
            does_all: point.does_all,
        }
    }
}

#[derive(Serialize)]
struct ScheduleRecord {
    speed_m_s: f64,
    deflection_deg: f64,
    largest_safe_deg: f64,
    trim_planes_up_deg: Option<f64>,
    trim_deg: Option<f64>,
    resistance_over_planes_up: Option<f64>,
    porpoising_margin_deg: Option<f64>,
    #[serde(flatten)]
    flags: FlagWords,
}

impl From<&ScheduleRow> for ScheduleRecord {
    fn from(row: &ScheduleRow) -> Self {
        Self {
            speed_m_s: row.speed.get::<meter_per_second>(),
            deflection_deg: degrees(row.deflection),
            largest_safe_deg: degrees(row.largest_safe),
            trim_planes_up_deg: row.trim_bare.map(degrees),
            trim_deg: row.trim.map(degrees),
            resistance_over_planes_up: row.resistance_ratio,
            porpoising_margin_deg: row.porpoising_margin.map(degrees),
            flags: row.flags.into(),
        }
    }
}

/// A loading condition by itself.
#[derive(Serialize)]
struct ConditionRecord {
    name: String,
    about: Option<String>,
    mass_kg: f64,
    lcg_m: f64,
    vcg_m: f64,
    tcg_m: f64,
    hump_speed_m_s: f64,
    hump_place: Option<&'static str>,
    hump_trim_planes_up_deg: Option<f64>,
    alone: &'static str,
    alone_pair: Option<PairRecord>,
}

impl ConditionRecord {
    fn of((boat, result): (&Boat, &ConditionResult)) -> Self {
        let (condition, weight) = (boat.condition(), boat.weight());
        Self {
            name: condition.name.clone(),
            about: condition.about.clone(),
            mass_kg: weight.mass.get::<kilogram>(),
            lcg_m: weight.lcg.get::<meter>(),
            vcg_m: weight.vcg.get::<meter>(),
            tcg_m: weight.tcg.get::<meter>(),
            hump_speed_m_s: result.hump_speed.get::<meter_per_second>(),
            hump_place: result.hump_place.map(HumpPlace::word),
            hump_trim_planes_up_deg: result.hump_trim_bare.map(degrees),
            alone: outlook_word(result.alone),
            alone_pair: result.alone.pair().map(PairRecord::from),
        }
    }
}

/// What the same duties would need by another lift model.
#[derive(Serialize)]
struct OtherModelRecord {
    model: &'static str,
    answer: &'static str,
    pair: Option<PairRecord>,
}

impl From<OtherModel> for OtherModelRecord {
    fn from(other: OtherModel) -> Self {
        Self {
            model: other.model.word(),
            answer: outlook_word(other.outlook),
            pair: other.outlook.pair().map(PairRecord::from),
        }
    }
}

const fn outlook_word(outlook: Outlook) -> &'static str {
    match outlook {
        Outlook::NoPlanesNeeded => "no-planes-needed",
        Outlook::Pair(_) => "pair",
        Outlook::NothingAsked => "nothing-asked",
        Outlook::NoPairDoes => "no-pair-does-all",
    }
}

/// What to do at each speed in a loading condition.
#[derive(Serialize)]
struct ConditionSchedule {
    condition: String,
    rows: Vec<ScheduleRecord>,
}

impl ConditionSchedule {
    fn of(result: &ConditionResult) -> Self {
        Self {
            condition: result.condition.clone(),
            rows: result.schedule.iter().map(ScheduleRecord::from).collect(),
        }
    }
}

#[derive(Serialize)]
struct EffectRecord {
    #[serde(flatten)]
    estimate: EstimateRecord,
    area_with_low_m2: Option<f64>,
    area_with_high_m2: Option<f64>,
}

/// The whole answer, to be serialised.
pub(super) fn answer(answered: &Answered) -> Record {
    let suggestion = &answered.suggestion;
    let duty_name = |place: usize| suggestion.duties[place].duty.name();
    let pair = match suggestion.answer {
        Answer::Pair(pair) => Some(pair),
        _ => None,
    };
    let chosen = pair.map(PairRecord::from);
    Record {
        program: env!("CARGO_PKG_NAME"),
        version: env!("CARGO_PKG_VERSION"),
        name: answered.boat().name().to_owned(),
        answer: answer_word(suggestion),
        span_m: chosen.as_ref().map(|pair| pair.span_m),
        chord_m: chosen.as_ref().map(|pair| pair.chord_m),
        area_m2: chosen.as_ref().map(|pair| pair.area_m2),
        exact: suggestion.exact.map(PairRecord::from),
        duties: suggestion.duties.iter().map(DutyRecord::of).collect(),
        duties_generated: suggestion.duties.iter().any(|duty| duty.generated),
        chance: suggestion.chance.as_ref().map(|chance| chance.reached),
        chances: suggestion.chance.as_ref().map(ChanceRecord::from),
        relief_deg: suggestion.chance.as_ref().and_then(ReliefRecord::of),
        rests_on_untested: suggestion.rests_on_untested.words(),
        set_by: suggestion.set_by.map(duty_name),
        set_in_condition: suggestion.governing.as_ref().map(|g| g.condition.clone()),
        set_at_m_s: suggestion.governing.as_ref().map(|g| g.speed.get::<meter_per_second>()),
        conditions: answered
            .boats
            .iter()
            .zip(&suggestion.conditions)
            .map(ConditionRecord::of)
            .collect(),
        binding: suggestion.binding.iter().map(|&b| binding_text(b).to_owned()).collect(),
        fits_transom: pair.map(|pair| pair.span <= suggestion.room * (1.0 + 1e-9)),
        room_m: suggestion.room.get::<meter>(),
        usable_deflection_deg: degrees(suggestion.usable_deflection),
        share_allowed: suggestion.share_allowed,
        dead_band_deg: suggestion.dead_band.map(degrees),
        flat_between: suggestion.flat.map(|ends| ends.map(PairRecord::from)),
        model: suggestion.model.word(),
        other_lift_model: suggestion.other_model.map(OtherModelRecord::from),
        rule_of_thumb_span_m: suggestion.rule_of_thumb.span.get::<meter>(),
        drive_trimmed_in: drive::duties(&answered.told()),
        shortfall: shortfall(answered),
        variants: suggestion.variants.iter().map(|v| variant(v, &duty_name)).collect(),
        bare_hump_resistance_n: suggestion.bare_hump_resistance.map(|r| r.get::<newton>()),
        trade_off: suggestion.trade_off.iter().map(TradeRecord::from).collect(),
        trade_off_condition: suggestion.trade_off_condition.clone(),
        schedule: suggestion.schedule.iter().map(ScheduleRecord::from).collect(),
        schedules: suggestion.conditions.iter().map(ConditionSchedule::of).collect(),
        flags: suggestion.flags.into(),
        estimates: answered.effects.iter().map(effect).collect(),
        warnings: answered.file.warnings.iter().map(ToString::to_string).collect(),
        charts: answered
            .charts
            .iter()
            .flat_map(|files| [&files.svg, &files.png])
            .map(|path| path.display().to_string())
            .collect(),
        flag_meanings: suggestion.flags.iter().map(|f| (f.word(), f.meaning())).collect(),
        input_crc32: answered.file.checksum(),
        caution: CAUTION,
        stock: answered.shelf.as_ref().map(|shelf| records(shelf, answered.units)),
        stock_reasons: answered.shelf.as_ref().map(|s| s.ranking.reasons(answered.units)),
        stock_faults: answered
            .shelf
            .as_ref()
            .map(|s| s.list.faults.iter().map(ToString::to_string).collect()),
    }
}

fn shortfall(answered: &Answered) -> Option<ShortfallRecord> {
    let Answer::Infeasible(shortfall) = &answered.suggestion.answer else { return None };
    Some(ShortfallRecord {
        best: shortfall.best.map(PairRecord::from),
        duty: shortfall.duty.map(|place| answered.suggestion.duties[place].duty.name()),
        missing: shortfall.missing.clone(),
        remedies: shortfall.remedies.clone(),
    })
}

fn variant(variant: &Variant, duty_name: &dyn Fn(usize) -> &'static str) -> VariantRecord {
    VariantRecord {
        change: variant.name,
        span_m: metres(variant.pair.span.get::<meter>()),
        chord_m: metres(variant.pair.chord.get::<meter>()),
        share_used: variant.share_used,
        chance: variant.chance,
        missed: variant.missed.iter().map(|&place| duty_name(place)).collect(),
        fits_transom: variant.too_long.is_none(),
        hump_trim_deg: variant.hump_trim.map(degrees),
    }
}

fn effect(effect: &crate::size::Effect) -> EffectRecord {
    EffectRecord {
        estimate: (&effect.estimate).into(),
        area_with_low_m2: area_m2(effect.low),
        area_with_high_m2: area_m2(effect.high),
    }
}

fn area_m2(outlook: Option<crate::size::Outlook>) -> Option<f64> {
    Some(outlook?.pair()?.area().get::<square_meter>())
}
