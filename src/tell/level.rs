//! A list told: what heels her, how to set her planes, and what one that fails does.

mod sentences;
mod short_form;
mod tables;

pub use sentences::in_short;
pub use short_form::short_form;
pub use tables::{failures, heel, levelling, setting, what_heels};

use super::words::section;
use crate::balance::Outcome;
use crate::behaviour::list::{Levelled, ListPoint, SettingPoint};
use crate::boat::{Boat, degrees};
use crate::document::{Block, Fact};
use crate::flag::{Flag, Flags};
use crate::plane::effect;
use crate::units::{UnitChoice, number_with_decimals};

/// What nobody should forget while levelling a boat with her planes. Common practice, no source.
pub const CAUTIONS: [&str; 3] = [
    "Find out why she lists first: water in the bilge, a flooded compartment or fuel that has run to one side make her list too. Before you cure it with planes shift people and gear; planes last.",
    "In a following sea, an inlet or a hard turn one plane deeper than the other can make her broach or trip: bring both up together first. One plane deeper drags its side back and steers the boat; do not level away the lean of a turn.",
    "When a plane does not move, slow down first. Then bring the other beside it, a little at a time, and keep the speed down until it is mended (common practice, no source).",
];

/// What is told: the boat in one loading condition, and her list.
#[derive(Clone, Copy, Debug)]
pub struct LevelText<'a> {
    /// The boat.
    pub boat: &'a Boat,
    /// The answer.
    pub levelled: &'a Levelled,
    /// Units of the output.
    pub units: UnitChoice,
}

/// All of one loading condition, in reading order; [`caution`] belongs below the last.
#[must_use]
pub fn all(told: &LevelText<'_>) -> Vec<Block> {
    let parts = [in_short, what_heels, levelling, heel, setting, failures, notes];
    parts.iter().flat_map(|part| part(told)).collect()
}

/// The letters and words of the tables.
#[must_use]
pub fn notes(told: &LevelText<'_>) -> Vec<Block> {
    let letter = |(letter, flag): (char, Flag)| Fact::new(letter, flag.line());
    let outcomes = outcomes(told).into_iter();
    let points = outcomes.map(|outcome| format!("{outcome}: {}", outcome.meaning()));
    let letters = letters(flags(told)).map(letter);
    section(super::NOTES, vec![Block::Terms(letters.collect()), Block::Points(points.collect())])
}

/// What not to forget before levelling a boat with her planes.
#[must_use]
pub fn caution(told: &LevelText<'_>) -> Vec<Block> {
    let mut points: Vec<String> = CAUTIONS.map(str::to_owned).into();
    if told.levelled.planes.is_some() {
        let log_spread = effect::effectiveness_log_spread(told.boat);
        let [weak, strong] =
            [0.05, 0.95].map(|share| effect::effectiveness_quantile(share, log_spread));
        let basis = super::spread_basis(told.boat);
        points.push(format!(
            "Planes differ from boat to boat: nine boats in ten need {} to {} times these differences. {basis}",
            number_with_decimals(1.0 / strong, 2),
            number_with_decimals(1.0 / weak, 2)
        ));
        points.extend(dead_band(told));
    }
    vec![Block::Caution { title: "Before you rely on it".to_owned(), points }]
}

/// What the raised hinge keeps the plate from doing.
fn dead_band(told: &LevelText<'_>) -> Option<String> {
    let planes = told.levelled.planes?;
    let height = told.boat.transom().hinge_height;
    let band = planes
        .iter()
        .map(|pair| degrees(effect::dead_band(height, pair.chord)))
        .fold(0.0, f64::max);
    (band > 0.05).then(|| {
        format!(
            "With the hinge above the bottom edge the plate reaches the bottom line at {} deg only: count a plane that stands above that as up.",
            number_with_decimals(band, 1)
        )
    })
}

/// All flags at any point, in order.
#[must_use]
pub fn flags(told: &LevelText<'_>) -> Flags {
    let stuck = told.levelled.stuck.iter().flat_map(|answer| &answer.points);
    let stuck = stuck.flat_map(|point| [point.other_up.flags(), point.matched.flags()]);
    let points = told.levelled.points.iter().map(ListPoint::flags);
    let set = told.levelled.set.iter().map(SettingPoint::flags);
    points
        .chain(set)
        .chain(stuck)
        .chain([told.levelled.reference.flags()])
        .fold(Flags::default(), Flags::union)
}

/// Letters that stand for flags in tables.
fn letters(flags: Flags) -> impl Iterator<Item = (char, Flag)> {
    ('a'..='z').zip(flags.iter().collect::<Vec<_>>())
}

/// All outcomes but running, in order of first appearance.
#[must_use]
pub fn outcomes(told: &LevelText<'_>) -> Vec<Outcome> {
    let mut found = Vec::new();
    let mut add = |outcome: Outcome| {
        if outcome != Outcome::Running && !found.contains(&outcome) {
            found.push(outcome);
        }
    };
    for point in told.levelled.points.iter().chain([&told.levelled.reference]) {
        add(point.bare.outcome);
        for end in point.levelling.iter().flat_map(|levelling| &levelling.ends) {
            add(end.point.outcome);
        }
    }
    for point in told.levelled.stuck.iter().flat_map(|answer| &answer.points) {
        add(point.other_up.point.outcome);
        add(point.matched.point.outcome);
    }
    told.levelled.set.iter().for_each(|set| add(set.point.outcome));
    found
}
