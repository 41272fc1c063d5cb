//! What was written and what it says, as one JSON object: SI units, angles in degrees, null for what does not exist.

use serde::Serialize;
use uom::si::f64::{Angle, Velocity};
use uom::si::{length::meter, velocity::meter_per_second};

use crate::boat::{Estimate, PlanePair, degrees};
use crate::cli::strength::StrengthRecord;
use crate::doubt::{LIKELY_SHARES, Likely, Probability};
use crate::report::{Advised, Gathered, Reader};
use crate::size::sentence;
use crate::stock::Ranked;
use crate::units::UnitChoice;

/// The whole answer.
#[derive(Serialize)]
pub(super) struct Record<'a> {
    report_for: &'static str,
    /// `no-planes-needed`, `pair`, or `short` where no pair does everything.
    advised: &'static str,
    pair: Option<PairRecord>,
    part: Option<PartRecord<'a>>,
    /// The least pair by calculation, where there is one.
    least_pair: Option<PairRecord>,
    usable_deflection_deg: f64,
    likely_shares: [f64; 2],
    hump: Option<HumpRecord<'a>>,
    needs: Vec<NeedRecord<'a>>,
    /// Share of boats nearly like her on which everything is done.
    chance: Option<ChanceRecord>,
    duties: Vec<DutyRecord>,
    draws: u32,
    seed: u64,
    estimates: &'a [Estimate],
}

#[derive(Serialize)]
struct PairRecord {
    span_m: f64,
    chord_m: f64,
}

impl From<PlanePair> for PairRecord {
    fn from(pair: PlanePair) -> Self {
        Self { span_m: pair.span.get::<meter>(), chord_m: pair.chord.get::<meter>() }
    }
}

#[derive(Serialize)]
struct PartRecord<'a> {
    name: &'a str,
    standing: &'static str,
    /// What it bears at the deflection allowed; null where it could not be judged.
    strength: Option<StrengthRecord>,
    pair_price: f64,
    currency: &'a str,
    planes_on_hand: u32,
}

impl<'a> PartRecord<'a> {
    fn of(ranked: &'a Ranked, units: UnitChoice) -> Self {
        let judged = ranked.judged.as_ref().ok();
        Self {
            name: &ranked.part.name,
            standing: ranked.standing.word(),
            strength: judged
                .map(|judged| StrengthRecord::of(&ranked.part, &judged.strength, units)),
            pair_price: ranked.pair_price(),
            currency: &ranked.part.price.currency,
            planes_on_hand: ranked.part.on_hand,
        }
    }
}

#[derive(Serialize)]
struct LikelyRecord {
    low: Option<f64>,
    median: Option<f64>,
    high: Option<f64>,
}

fn likely_deg(likely: Likely<Option<Angle>>) -> LikelyRecord {
    let Likely { low, median, high } = likely.map(|angle| angle.map(degrees));
    LikelyRecord { low, median, high }
}

/// The boat where her bow is highest.
#[derive(Serialize)]
struct HumpRecord<'a> {
    condition: &'a str,
    speed_m_s: f64,
    place: &'static str,
    deflection_deg: f64,
    /// The trims that the paper tells.
    told_trim_planes_up_deg: Option<f64>,
    told_trim_planes_down_deg: Option<f64>,
    trim_planes_up_deg: Option<LikelyRecord>,
    trim_planes_down_deg: Option<LikelyRecord>,
}

/// Deflection that what is asked takes; null beyond what any deflection does.
#[derive(Serialize)]
struct NeedRecord<'a> {
    condition: &'a str,
    speed_m_s: f64,
    needed_deg: LikelyRecord,
}

#[derive(Serialize)]
struct ChanceRecord {
    share: f64,
    standard_error: f64,
}

impl From<Probability> for ChanceRecord {
    fn from(chance: Probability) -> Self {
        Self { share: chance.share, standard_error: chance.error }
    }
}

#[derive(Serialize)]
struct DutyRecord {
    duty: String,
    conditions: Vec<String>,
    chance: Option<ChanceRecord>,
}

fn m_s(speed: Velocity) -> f64 {
    speed.get::<meter_per_second>()
}

/// The record of a paper that was written.
pub(super) fn object(gathered: &Gathered, reader: Reader) -> Record<'_> {
    let doubt = &gathered.duties;
    let of_pair = doubt.pairs.iter().find(|pair| pair.pair == gathered.advised.pair());
    let duties = doubt.duties.iter().enumerate().map(|(place, held)| DutyRecord {
        duty: sentence(&held.duty, gathered.units),
        conditions: held.conditions.clone(),
        chance: of_pair.and_then(|pair| *pair.each.get(place)?).map(ChanceRecord::from),
    });
    Record {
        report_for: reader.word(),
        advised: match gathered.advised {
            Advised::Nothing => "no-planes-needed",
            Advised::Pair(_) => "pair",
            Advised::Short(_) => "short",
        },
        pair: gathered.advised.pair().map(PairRecord::from),
        part: gathered.part().map(|ranked| PartRecord::of(ranked, gathered.units)),
        least_pair: gathered.suggestion.pair().map(PairRecord::from),
        usable_deflection_deg: degrees(gathered.suggestion.usable_deflection),
        likely_shares: LIKELY_SHARES,
        hump: hump(gathered),
        needs: needs(gathered),
        chance: gathered.chance().map(ChanceRecord::from),
        duties: duties.collect(),
        draws: doubt.drawn.draws,
        seed: doubt.drawn.seed,
        estimates: gathered.boat().estimates(),
    }
}

fn hump(gathered: &Gathered) -> Option<HumpRecord<'_>> {
    let hump = gathered.hump.as_ref()?;
    let deg = |trim: Likely<Angle>| likely_deg(trim.map(Some));
    let told = hump.told();
    Some(HumpRecord {
        condition: &hump.boat.condition().name,
        speed_m_s: m_s(hump.speed),
        place: hump.lies.word(),
        deflection_deg: degrees(hump.deflection),
        told_trim_planes_up_deg: told.map(|(up, _)| degrees(up)),
        told_trim_planes_down_deg: told.and_then(|(_, down)| down).map(degrees),
        trim_planes_up_deg: hump.trim_up().map(deg),
        trim_planes_down_deg: hump.trim_down().map(deg),
    })
}

fn needs(gathered: &Gathered) -> Vec<NeedRecord<'_>> {
    let needs = gathered.duties.needs.iter().map(|need| NeedRecord {
        condition: &need.condition,
        speed_m_s: m_s(need.speed),
        needed_deg: likely_deg(need.needed),
    });
    needs.collect()
}
