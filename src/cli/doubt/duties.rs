//! The duties on the boats drawn, in JSON.

use serde::Serialize;
use uom::si::{area::square_meter, length::meter, velocity::meter_per_second};

use crate::boat::{PlanePair, degrees};
use crate::doubt::{DutiesDoubt, Probability};
use crate::size::sentence;
use crate::units::UnitSystem;

/// The duties in JSON.
#[derive(Serialize)]
pub(super) struct Record {
    draws: u32,
    seed: u64,
    generated: bool,
    duties: Vec<DutyRecord>,
    pairs: Vec<PairRecord>,
    needs_of: Option<SizeRecord>,
    usable_deflection_deg: f64,
    needs: Vec<NeedRecord>,
    follows: Vec<FollowsRecord>,
}

#[derive(Serialize)]
struct DutyRecord {
    name: &'static str,
    sentence: String,
    conditions: Vec<String>,
}

#[derive(Clone, Copy, Serialize)]
struct SizeRecord {
    span_m: f64,
    chord_m: f64,
    area_m2: f64,
}

#[derive(Serialize)]
struct ShareRecord {
    share: f64,
    standard_error: f64,
}

#[derive(Serialize)]
struct PairRecord {
    /// Null for planes up.
    pair: Option<SizeRecord>,
    each: Vec<Option<ShareRecord>>,
    all: ShareRecord,
}

#[derive(Serialize)]
struct NeedRecord {
    condition: String,
    speed_m_s: f64,
    low_deg: Option<f64>,
    median_deg: Option<f64>,
    high_deg: Option<f64>,
    usable_does: ShareRecord,
}

#[derive(Serialize)]
struct FollowsRecord {
    input: &'static str,
    rank_correlation: f64,
}

impl From<PlanePair> for SizeRecord {
    fn from(pair: PlanePair) -> Self {
        Self {
            span_m: pair.span.get::<meter>(),
            chord_m: pair.chord.get::<meter>(),
            area_m2: pair.area().get::<square_meter>(),
        }
    }
}

impl From<&Probability> for ShareRecord {
    fn from(probability: &Probability) -> Self {
        Self { share: probability.share, standard_error: probability.error }
    }
}

impl From<&DutiesDoubt> for Record {
    fn from(doubt: &DutiesDoubt) -> Self {
        Self {
            draws: doubt.drawn.draws,
            seed: doubt.drawn.seed,
            generated: doubt.generated,
            duties: doubt
                .duties
                .iter()
                .map(|held| DutyRecord {
                    name: held.duty.name(),
                    sentence: sentence(&held.duty, UnitSystem::default().into()),
                    conditions: held.conditions.clone(),
                })
                .collect(),
            pairs: doubt
                .pairs
                .iter()
                .map(|pair| PairRecord {
                    pair: pair.pair.map(SizeRecord::from),
                    each: pair
                        .each
                        .iter()
                        .map(|each| each.as_ref().map(ShareRecord::from))
                        .collect(),
                    all: (&pair.all).into(),
                })
                .collect(),
            needs_of: doubt.pair.map(SizeRecord::from),
            usable_deflection_deg: degrees(doubt.usable),
            needs: doubt
                .needs
                .iter()
                .map(|need| NeedRecord {
                    condition: need.condition.clone(),
                    speed_m_s: need.speed.get::<meter_per_second>(),
                    low_deg: need.needed.low.map(degrees),
                    median_deg: need.needed.median.map(degrees),
                    high_deg: need.needed.high.map(degrees),
                    usable_does: (&need.usable).into(),
                })
                .collect(),
            follows: doubt
                .follows
                .iter()
                .map(|influence| FollowsRecord {
                    input: influence.what.word(),
                    rank_correlation: influence.rank_correlation,
                })
                .collect(),
        }
    }
}
