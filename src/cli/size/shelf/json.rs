//! The shelf in JSON: SI units, angles in degrees, null for what does not exist.

use serde::Serialize;
use uom::si::area::square_meter;
use uom::si::f64::Velocity;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

use crate::boat::degrees;
use crate::cli::strength::StrengthRecord;
use crate::stock::assess::LimitedBy;
use crate::stock::rank::Ranked;
use crate::stock::{Judged, Shelf};
use crate::tell::shelf::reasons;
use crate::units::UnitChoice;

/// A stock list in the answer.
#[derive(Serialize)]
pub(in super::super) struct Written {
    stock: Vec<PartRecord>,
    stock_reasons: Vec<String>,
    stock_faults: Vec<String>,
}

impl Written {
    pub fn of(shelf: &Shelf, units: UnitChoice) -> Self {
        Self {
            stock: records(shelf, units),
            stock_reasons: reasons(&shelf.ranking, units).iter().map(ToString::to_string).collect(),
            stock_faults: shelf.list.faults.iter().map(ToString::to_string).collect(),
        }
    }
}

/// One part of the list, best first.
#[derive(Serialize)]
struct PartRecord {
    place: usize,
    part: String,
    span_m: f64,
    chord_m: f64,
    area_m2: f64,
    standing: &'static str,
    fits_transom: bool,
    missing_span_m: Option<f64>,
    does_all: bool,
    /// Share of boats nearly like this one on which it does all duties; null where it was not asked.
    chance: Option<f64>,
    chance_standard_error: Option<f64>,
    share_used: Option<f64>,
    duties: Vec<PartDutyRecord>,
    actuator: Option<ActuatorRecord>,
    strength: Option<StrengthRecord>,
    full_deflection: Option<FullRecord>,
    pair_price: f64,
    currency: String,
    on_hand: u32,
    fault: Option<String>,
}

#[derive(Serialize)]
struct PartDutyRecord {
    name: &'static str,
    loading_condition: String,
    bites_at_m_s: f64,
    needed_deflection_deg: f64,
    usable_deflection_deg: f64,
    usable_limited_by: &'static str,
    share_used: Option<f64>,
    met: bool,
    with_share_allowed: String,
}

#[derive(Serialize)]
struct ActuatorRecord {
    push_n: f64,
    hold_n: f64,
    push_share_at_duties: f64,
}

/// For information: full deflection, and the speeds above which something no longer bears it.
#[derive(Serialize)]
struct FullRecord {
    deflection_deg: f64,
    pushed_to_m_s: Option<f64>,
    held_to_m_s: Option<f64>,
    held_under_design_load_to_m_s: Option<f64>,
    plate_to_m_s: Option<f64>,
    screws_to_m_s: Option<f64>,
}

/// Every part in order.
fn records(shelf: &Shelf, units: UnitChoice) -> Vec<PartRecord> {
    shelf
        .ranking
        .ranked
        .iter()
        .enumerate()
        .map(|(index, ranked)| record(index + 1, ranked, units))
        .collect()
}

/// A number that JSON can hold.
fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

fn record(place: usize, ranked: &Ranked, units: UnitChoice) -> PartRecord {
    let part = &ranked.part;
    let judged = ranked.judged.as_ref().ok();
    PartRecord {
        place,
        part: part.name.clone(),
        span_m: part.span.get::<meter>(),
        chord_m: part.chord.get::<meter>(),
        area_m2: ranked.area().get::<square_meter>(),
        standing: ranked.standing.word(),
        fits_transom: judged.is_some_and(|j| j.assessment.fit.fits()),
        missing_span_m: judged.map(|j| j.assessment.fit.missing.get::<meter>()),
        does_all: judged.is_some_and(Judged::does_all),
        chance: judged.and_then(|j| j.chance).map(|chance| chance.share),
        chance_standard_error: judged.and_then(|j| j.chance).map(|chance| chance.error),
        share_used: judged.and_then(Judged::most_used).and_then(finite),
        duties: judged.map(duties).unwrap_or_default(),
        actuator: judged.map(|j| actuator(ranked, j)),
        strength: judged.map(|j| StrengthRecord::of(part, &j.strength, units)),
        full_deflection: judged.map(full),
        pair_price: ranked.pair_price(),
        currency: part.price.currency.clone(),
        on_hand: part.on_hand,
        fault: ranked.judged.as_ref().err().map(ToString::to_string),
    }
}

fn duties(judged: &Judged) -> Vec<PartDutyRecord> {
    let both = judged.duties.iter().zip(&judged.reach);
    both.map(|(duty, reach)| PartDutyRecord {
        name: duty.duty.name(),
        loading_condition: duty.condition.clone(),
        bites_at_m_s: duty.speed.get::<meter_per_second>(),
        needed_deflection_deg: degrees(duty.needed),
        usable_deflection_deg: degrees(duty.usable),
        usable_limited_by: match reach.limited_by {
            _ if degrees(duty.usable) < degrees(reach.deflection) - 1e-6 => "boat-file",
            LimitedBy::Tested => "tested-range",
            LimitedBy::Linkage => "stroke",
            LimitedBy::Actuator => "actuator",
        },
        share_used: duty.share_used.and_then(finite),
        met: duty.met,
        with_share_allowed: duty.given.to_string(),
    })
    .collect()
}

fn actuator(ranked: &Ranked, judged: &Judged) -> ActuatorRecord {
    let actuator = &ranked.part.actuator;
    ActuatorRecord {
        push_n: actuator.push().get::<newton>(),
        hold_n: actuator.hold().get::<newton>(),
        push_share_at_duties: judged.push_share,
    }
}

fn full(judged: &Judged) -> FullRecord {
    let limits = &judged.assessment.limits;
    let to = |speed: Velocity| finite(speed.get::<meter_per_second>());
    FullRecord {
        deflection_deg: degrees(judged.assessment.full_deflection),
        pushed_to_m_s: to(limits.push),
        held_to_m_s: to(limits.hold),
        held_under_design_load_to_m_s: to(limits.hold_design),
        plate_to_m_s: to(limits.plate),
        screws_to_m_s: limits.screws.and_then(to),
    }
}
