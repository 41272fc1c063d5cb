//! The duties on the boats drawn: which pairs are asked about, and how the answer reads.

use serde::Serialize;
use uom::si::{area::square_meter, length::meter, velocity::meter_per_second};

use super::progress::Bar;
use crate::balance::Settings;
use crate::boat::{Boat, PlanePair, degrees};
use crate::cli::Failure;
use crate::cli::screen::{Screen, paragraph};
use crate::cli::table::{Column, fixed, table};
use crate::doubt::{Drawn, DutiesDoubt, PairDoubt, Probability, duties};
use crate::size::{sentence, suggest_for};
use crate::units::{UnitChoice, UnitSystem, number_with_decimals};

/// Of the areas that a sizing looks at every second one is asked about here.
const EVERY: usize = 2;
/// Pairs of which the areas differ by less count as one.
const SAME_AREA: f64 = 1e-3;

/// Asks the pair fitted, the pair suggested and larger and smaller ones of the latter.
pub(super) fn duties_doubt(
    boats: &[Boat],
    drawn: Drawn,
    bar: &Bar,
) -> Result<DutiesDoubt, Failure> {
    let settings = Settings::default();
    let suggestion = suggest_for(boats, &settings)?;
    let fitted = boats.first().and_then(Boat::planes);
    let mut pairs: Vec<PlanePair> = Vec::new();
    pairs.extend(suggestion.pair());
    pairs.extend(suggestion.trade_off.iter().step_by(EVERY).map(|point| point.pair));
    pairs.sort_by(|a, b| area_m2(a).total_cmp(&area_m2(b)));
    pairs.dedup_by(|a, b| (area_m2(a) / area_m2(b) - 1.0).abs() < SAME_AREA);
    let room = suggestion.room * (1.0 + 1e-9);
    pairs.retain(|pair| pair.span <= room);
    if let Some(fitted) = fitted {
        pairs.retain(|pair| *pair != fitted);
        pairs.push(fitted);
    }
    let pair = fitted.or_else(|| suggestion.pair());
    Ok(duties(boats, &settings, &pairs, pair, drawn, &|done| bar.advance(done))?)
}

fn area_m2(pair: &PlanePair) -> f64 {
    pair.area().get::<square_meter>()
}

/// How likely the duties are done, and the deflections that they need.
pub(super) fn text(
    doubt: &DutiesDoubt,
    units: UnitChoice,
    fitted: Option<PlanePair>,
    screen: Screen,
) -> String {
    if doubt.duties.is_empty() {
        return String::new();
    }
    let mut text = format!("\n{}\n", screen.heading("How likely the duties are done"));
    for (place, held) in doubt.duties.iter().enumerate() {
        let lead = format!("  {}. {:<18}", place + 1, held.duty.name());
        text.push_str(&paragraph(&lead, &sentence(&held.duty, units)));
    }
    text.push('\n');
    text.push_str(&table(&pair_columns(doubt, units, fitted), screen));
    let largest = doubt.pairs.iter().map(|pair| pair.all.error).fold(0.0, f64::max);
    text.push_str(&paragraph(
        "  ",
        &format!(
            "In per cent of {} boats drawn, the same for every pair; chance alone moves a number by up to {:.1}. A duty counts as done within the share of the deflection that duties may use, with a safe run and a chord within the tested range (a tenth of the wetted length); all, when they are done on the same boat.{}",
            doubt.drawn.draws,
            100.0 * largest,
            if doubt.generated { " The duties were GENERATED from the boat." } else { "" }
        ),
    ));
    text.push_str(&needs(doubt, units, screen));
    text
}

fn percent(probability: &Probability) -> String {
    number_with_decimals(100.0 * probability.share, 0)
}

fn pair_columns(doubt: &DutiesDoubt, units: UnitChoice, fitted: Option<PlanePair>) -> Vec<Column> {
    let of = |value: &dyn Fn(&PairDoubt) -> String| doubt.pairs.iter().map(value).collect();
    let name = |pair: &PairDoubt| match pair.pair {
        None => "planes up".to_owned(),
        Some(own) if Some(own) == fitted => format!("{}, fitted", own.text(units)),
        Some(own) => own.text(units),
    };
    let mut columns = vec![Column::words("pair", of(&name))];
    for place in 0..doubt.duties.len() {
        let duty = format!("duty {}", place + 1);
        columns.push(Column::numbers(&duty, "%", of(&|pair| percent(&pair.each[place]))));
    }
    columns.push(Column::numbers("all", "%", of(&|pair| percent(&pair.all))));
    columns
}

fn needs(doubt: &DutiesDoubt, units: UnitChoice, screen: Screen) -> String {
    let Some(pair) = doubt.pair else { return String::new() };
    let rows = &doubt.needs;
    let angles = |part: &dyn Fn(&crate::doubt::NeedDoubt) -> Option<uom::si::f64::Angle>| {
        let deg = |row| part(row).map(|angle| number_with_decimals(degrees(angle), 1));
        rows.iter().map(|row| deg(row).unwrap_or_else(|| "none does".to_owned())).collect()
    };
    let speeds: Vec<_> = rows.iter().map(|row| Some(units.speed.value(row.speed))).collect();
    let mut columns = Vec::new();
    if rows.iter().any(|row| row.condition != rows[0].condition) {
        let conditions = rows.iter().map(|row| row.condition.clone()).collect();
        columns.push(Column::words("loading", conditions));
    }
    columns.extend([
        Column::numbers("speed", units.speed.symbol(), fixed(&speeds, 1)),
        Column::numbers("needs low", "5 %", angles(&|row| row.needed.low)),
        Column::numbers("median", "deg", angles(&|row| row.needed.median)),
        Column::numbers("high", "95 %", angles(&|row| row.needed.high)),
        Column::numbers(
            &format!("{:.0} deg does", degrees(doubt.usable)),
            "% of boats",
            rows.iter().map(|row| percent(&row.usable)).collect(),
        ),
    ]);
    let title = format!("Deflection that the duties need of {}", pair.text(units));
    let mut text = format!("\n{}\n{}", screen.heading(&title), table(&columns, screen));
    if let Some(first) = doubt.follows.first() {
        text.push_str(&paragraph(
            "  ",
            &format!(
                "Of the deeper plane. How hard the pair must work follows the {} most of all ({:+.2}); to narrow it, {}.",
                first.what.name(),
                first.rank_correlation,
                first.what.remedy()
            ),
        ));
    }
    text
}

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
    each: Vec<ShareRecord>,
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
            area_m2: area_m2(&pair),
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
                    sentence: sentence(&held.duty, UnitSystem::Metric.into()),
                    conditions: held.conditions.clone(),
                })
                .collect(),
            pairs: doubt
                .pairs
                .iter()
                .map(|pair| PairRecord {
                    pair: pair.pair.map(SizeRecord::from),
                    each: pair.each.iter().map(ShareRecord::from).collect(),
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
