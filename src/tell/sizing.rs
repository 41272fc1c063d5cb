//! A sizing told: what is suggested, why, and how to use it.

mod duties;
mod short_form;

pub use duties::duties;
pub(crate) use duties::{done, duty_explanation, turned};
pub use short_form::{asked_only, short_form};

use uom::si::f64::Length;
use uom::si::length::meter;

use super::loadings;
use super::reasons::{beside, headline, outlook_text};
use super::run::second_opinion_sentence;
use super::saving;
use crate::balance::Settings;
use crate::balance::saving::Saving;
use crate::balance::series::SecondOpinion;
use crate::boat::measure::plain_number;
use crate::boat::{Boat, DutyInput, Faults, Measure, degrees};
use crate::document::{Block, Column, Piece, Sentence, Table, fixed, said};
use crate::doubt::in_hundred;
use crate::flag::Flag;
use crate::input::duties_as_toml;
use crate::size::{
    DutyResult, Effect, RELIEF_GROWS_SLOWER_DEG, RELIEF_SHARE, ScheduleRow, Suggestion, Variant,
};
use crate::units::factor::M_PER_INCH;
use crate::units::{AreaUnit, LengthUnit, UnitChoice, number_with_decimals};

/// A sizing with what it was asked of.
#[derive(Clone, Copy, Debug)]
pub struct Sizing<'a> {
    /// The boat in each loading condition asked about.
    pub boats: &'a [Boat],
    /// The answer.
    pub suggestion: &'a Suggestion,
    /// Effect of the estimates on it.
    pub effects: &'a [Effect],
    /// How the balances were computed.
    pub settings: &'a Settings,
    /// Units of the output.
    pub units: UnitChoice,
}

impl<'a> Sizing<'a> {
    /// The boat in the first of the conditions.
    #[must_use]
    pub fn boat(&self) -> &'a Boat {
        &self.boats[0]
    }
}

/// The boat with sizes in whole inches where inches are asked for and the file names no step.
///
/// # Errors
/// As [`Boat::build`].
pub fn in_steps_of(boat: Boat, units: UnitChoice) -> Result<Boat, Faults> {
    if units.small_length != LengthUnit::Inch || boat.input().sizing.round_to.is_some() {
        return Ok(boat);
    }
    let mut input = boat.input().clone();
    input.sizing.round_to = Some(Length::new::<meter>(M_PER_INCH));
    Boat::build(input)
}

/// What is suggested and what set it, first of all.
#[must_use]
pub fn suggestion(sizing: &Sizing<'_>) -> Vec<Block> {
    section("Suggestion", headline(sizing))
}

/// Everything below the suggestion, in reading order.
#[must_use]
pub fn tables(sizing: &Sizing<'_>) -> Vec<Block> {
    let parts = [duties, variants, comparisons, schedule, trade_off, estimates, generated];
    parts.into_iter().flat_map(|part| part(sizing)).collect()
}

/// Why not another size: flatness, the other reference, the rule of thumb; and what costs nothing.
#[must_use]
pub fn comparisons(sizing: &Sizing<'_>) -> Vec<Block> {
    let mut lines = beside(sizing);
    lines.extend(super::drive::sentence(sizing));
    lines.extend(tank_series(sizing));
    section("Beside it", lines)
}

/// What a tank series says of the trim at the hump, in the condition that sets the size or else the first.
fn tank_series(sizing: &Sizing<'_>) -> Option<Sentence> {
    let suggestion = sizing.suggestion;
    let governing = suggestion.governing.as_ref().map(|governing| &governing.condition);
    let pairs = || sizing.boats.iter().zip(&suggestion.conditions);
    let sets = pairs().find(|(_, result)| Some(&result.condition) == governing);
    let (boat, result) = sets.or_else(|| pairs().next())?;
    let opinion = SecondOpinion::of(boat, sizing.settings, &[result.hump_speed]).ok()?;
    second_opinion_sentence(&opinion, result.hump_speed, sizing.units)
}

fn section(title: &str, lines: Vec<Sentence>) -> Vec<Block> {
    let mut blocks = vec![Block::Section(title.to_owned())];
    blocks.extend(lines.into_iter().map(Block::Said));
    blocks
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

/// What a fifth smaller or larger would do.
#[must_use]
pub fn variants(sizing: &Sizing<'_>) -> Vec<Block> {
    let suggestion = sizing.suggestion;
    if suggestion.variants.is_empty() {
        return Vec::new();
    }
    let all = &suggestion.variants;
    let of = |value: &dyn Fn(&Variant) -> String| all.iter().map(value).collect();
    let columns = [
        Column::words("change", of(&|v| v.name.to_owned())),
        Column::words("pair", of(&|v| v.pair.text(sizing.units))),
        Column::numbers("uses at", "most", of(&|v| percent(v.share_used))),
        Column::numbers(
            "does all",
            "of 100",
            of(&|v| v.chance.map_or("-".to_owned(), |share| in_hundred(share).to_string())),
        ),
        Column::numbers(
            "holds hump",
            "at deg",
            of(&|v| v.hump_trim.map_or("-".to_owned(), |t| number_with_decimals(degrees(t), 1))),
        ),
        Column::words(
            "misses",
            of(&|v| {
                let mut names: Vec<_> =
                    v.missed.iter().map(|&place| suggestion.duties[place].duty.name()).collect();
                names.dedup();
                match v.too_long {
                    Some(_) => "room on the transom".to_owned(),
                    None if names.is_empty() => "nothing".to_owned(),
                    None => names.join(", "),
                }
            }),
        ),
    ];
    vec![
        Block::Section("Why not smaller or larger".to_owned()),
        Block::Table(Table {
            columns: columns.into(),
            notes: vec![format!(
                "'does all' is on so many of 100 boats nearly like this one{}; 'misses' is of the boat as described.",
                match suggestion.is_all_judged() {
                    true => "",
                    false => ", of what can be judged",
                }
            )],
            ..Table::default()
        }),
    ]
}

/// Where she was seen to run otherwise than she is described.
pub(crate) const NO_SETTINGS: &str = "No settings: what is safe at each speed would be that of the boat described, and she was seen to trim otherwise. Find out what she weighs and where, and ask again.";

/// How far she trims under the porpoising limit as advised, degrees, with a mark where that is not tested.
pub(crate) fn under_limit(row: &ScheduleRow) -> String {
    let untested = row.flags.contains(Flag::PorpoisingCurveClamped);
    row.porpoising_margin.map(degrees).map_or("-".to_owned(), |margin| {
        format!("{}{}", number_with_decimals(margin, 1), if untested { "?" } else { " " })
    })
}

/// The deflection to use at each speed.
#[must_use]
pub fn schedule(sizing: &Sizing<'_>) -> Vec<Block> {
    let suggestion = sizing.suggestion;
    let rows = &suggestion.schedule;
    if suggestion.pair().is_none() || rows.is_empty() {
        return Vec::new();
    }
    if suggestion.is_seen_otherwise() {
        return vec![
            Block::Section("How to use them".to_owned()),
            Block::Paragraph(NO_SETTINGS.to_owned()),
        ];
    }
    let unit = sizing.units.speed;
    let angles = |value: &dyn Fn(&ScheduleRow) -> Option<uom::si::f64::Angle>| {
        rows.iter().map(|row| value(row).map(degrees)).collect::<Vec<_>>()
    };
    let used: Vec<String> = rows.iter().map(|row| in_use(suggestion, row)).collect();
    let savings = saving::of_schedule(sizing);
    let change = |(row, saving): (&ScheduleRow, &Option<Saving>)| {
        saving::change_text(row, *saving).unwrap_or_else(|| "-".to_owned())
    };
    let changes: Vec<String> = rows.iter().zip(&savings).map(change).collect();
    let speeds: Vec<_> = rows.iter().map(|row| Some(unit.value(row.speed))).collect();
    let columns = [
        Column::numbers("speed", unit.symbol(), fixed(&speeds, 1)),
        Column::numbers("use", "deg", used),
        Column::numbers("never beyond", "deg", fixed(&angles(&|r| Some(r.largest_safe)), 1)),
        Column::numbers("trim, planes up", "deg", fixed(&angles(&|r| r.trim_bare), 1)),
        Column::numbers("trim", "deg", fixed(&angles(&|r| r.trim), 1)),
        Column::numbers("resistance", "change %", changes),
        Column::numbers("under limit", "deg", rows.iter().map(under_limit).collect()),
    ];
    let title = match suggestion.conditions.len() {
        1 => "How to use them".to_owned(),
        _ => format!("How to use them, in `{}`", suggestion.conditions[0].condition),
    };
    let note = suggestion.dead_band.map(|band| {
        format!(
            "Mean deflection from the plate parallel to the bottom, trailing edge down. Hinged a little above the bottom edge, the plate reaches the bottom line at about {:.1} deg; up to there it does next to nothing, and where less would do the table says up. 'use' is what the duties need, and more where that saves resistance or keeps the trim under the porpoising limit where that is tested or asked for; past the hump it grows with speed for a duty alone. 'Under limit' is how far she then trims under that limit, over it where negative, with ? where the limit is not tested. 'Never beyond' keeps the trim at 2 deg or more, and the bow from being driven under.",
            degrees(band)
        )
    });
    let even = savings.contains(&Some(Saving::SidesMayTurn)).then_some(saving::NOTE);
    let listed = suggestion.duties.iter().any(|result| result.duty.list_cause().is_some());
    let level = listed.then_some(
        "'use' is both planes together: what levels a list comes on top, one plane deeper than the other (`planewright level`).",
    );
    let notes = note.into_iter().chain(even.map(str::to_owned)).chain(level.map(str::to_owned));
    let mut blocks = vec![
        Block::Section(title),
        Block::Table(Table { columns: columns.into(), notes: notes.collect(), ..Table::default() }),
    ];
    blocks.extend(loadings::schedules(sizing));
    blocks
}

/// The deflection to use; below the dead band the plate is not in the water: that reads as planes up.
pub(crate) fn in_use(suggestion: &Suggestion, row: &ScheduleRow) -> String {
    let dead_deg = suggestion.dead_band.map_or(0.0, degrees);
    match degrees(row.deflection) {
        up if up < dead_deg => "up".to_owned(),
        down => number_with_decimals(down, 1),
    }
}

/// Area against resistance at the hump.
#[must_use]
pub fn trade_off(sizing: &Sizing<'_>) -> Vec<Block> {
    let suggestion = sizing.suggestion;
    if suggestion.trade_off.is_empty() {
        return Vec::new();
    }
    let (area, force) = (sizing.units.area, sizing.units.force);
    let decimals = if area == AreaUnit::SquareMetre { 3 } else { 0 };
    let points = &suggestion.trade_off;
    let areas: Vec<_> = points.iter().map(|p| Some(area.value(p.area))).collect();
    let resistances: Vec<_> = points.iter().map(|p| Some(force.value(p.hump_resistance))).collect();
    let bare = suggestion.bare_hump_resistance;
    let saved: Vec<_> = points
        .iter()
        .map(|p| bare.map(|bare| 100.0 * (p.hump_resistance.value / bare.value - 1.0)))
        .collect();
    let columns = [
        Column::numbers("area of both", area.symbol(), fixed(&areas, decimals)),
        Column::words("pair", points.iter().map(|p| p.pair.text(sizing.units)).collect()),
        Column::numbers("resistance at hump", force.symbol(), fixed(&resistances, 0)),
        Column::numbers("change", "%", fixed(&saved, 1)),
        Column::words(
            "does all duties",
            points.iter().map(|p| if p.does_all { "yes" } else { "no" }.to_owned()).collect(),
        ),
    ];
    let title = match suggestion.conditions.len() {
        1 => "Area against resistance at the hump".to_owned(),
        _ => {
            format!("Area against resistance at the hump, in `{}`", suggestion.trade_off_condition)
        }
    };
    let note = "'does all duties' is of the boat as described, not of boats nearly like her.";
    let notes = vec![note.to_owned()];
    vec![
        Block::Section(title),
        Block::Table(Table { columns: columns.into(), notes, ..Table::default() }),
    ]
}

/// What the file does not give, and how far the answer moves with it.
#[must_use]
pub fn estimates(sizing: &Sizing<'_>) -> Vec<Block> {
    let effects = sizing.effects;
    if effects.is_empty() {
        return Vec::new();
    }
    let of = |value: &dyn Fn(&Effect) -> String| effects.iter().map(value).collect();
    let columns = [
        Column::words("value", of(&|e| e.estimate.key.to_owned())),
        Column::words("used", of(&|e| written(e.estimate.value, sizing.units))),
        Column::words(
            "likely range",
            of(&|e| {
                let [low, high] =
                    [e.estimate.low, e.estimate.high].map(|m| written(m, sizing.units));
                format!("{low} .. {high}")
            }),
        ),
        Column::words("pair at the low end", of(&|e| outlook_text(e.low, sizing.units))),
        Column::words("pair at the high end", of(&|e| outlook_text(e.high, sizing.units))),
    ];
    let rule = |effect: &Effect| format!("{}: {}.", effect.estimate.key, effect.estimate.rule);
    vec![
        Block::Alert("ESTIMATED: the file does not give these".to_owned()),
        Block::Table(Table { columns: columns.into(), ..Table::default() }),
        Block::Points(effects.iter().map(rule).collect()),
    ]
}

/// A value that can be estimated, with its unit, in the units asked for.
pub(crate) fn written(measure: Measure, units: UnitChoice) -> String {
    let (value, unit) = measure.in_units(units);
    format!("{} {unit}", plain_number(value))
}

/// Said of duties that nobody gave.
pub(crate) fn generated_from(boat: &Boat) -> Sentence {
    if boat.input().wishes.is_empty() {
        said![
            format!(
                "The file asks for nothing, so that usual duties were taken: {:.0} % of the trim at the hump off it and hardly more than ",
                100.0 * RELIEF_SHARE
            ),
            Piece::quantity(plain_number(RELIEF_GROWS_SLOWER_DEG), "deg"),
            ", and one person at the rail levelled at cruise (judged, no source).",
        ]
    } else {
        "Each wish gives its duty (judged, no source).".into()
    }
}

/// The duties that were generated, ready to be put into the file.
#[must_use]
pub fn generated(sizing: &Sizing<'_>) -> Vec<Block> {
    let written =
        |result: &DutyResult| DutyInput { duty: result.duty, conditions: result.held_in.clone() };
    let generated = sizing.suggestion.duties.iter().filter(|duty| duty.generated);
    let duties: Vec<_> = generated.map(written).collect();
    if duties.is_empty() {
        return Vec::new();
    }
    vec![
        Block::Alert("The duties were GENERATED from the boat".to_owned()),
        Block::Said(said![
            generated_from(sizing.boat()),
            " Put these lines into the file and change them to what this boat must do:",
        ]),
        Block::Verbatim(duties_as_toml(&duties)),
    ]
}
