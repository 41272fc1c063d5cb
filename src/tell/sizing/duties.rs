//! What the planes must do, and how far each duty uses them.

use super::{Sizing, percent};
use crate::boat::degrees;
use crate::document::{Block, Column, Fact, Piece, Sentence, Table, said};
use crate::sentence::duty::condition;
use crate::size::DutyResult;
use crate::tell::reasons::reached_texts;
use crate::tell::words::angle;
use crate::tell::{loadings, spread_basis};
use crate::units::number_with_decimals;

/// Whether a duty is done, in a word.
pub(crate) fn done(result: &DutyResult) -> &'static str {
    match (result.is_unjudged(), result.met) {
        (true, _) => "not judged",
        (false, true) => "yes",
        (false, false) => "NO",
    }
}

/// What the planes must do, and how far each duty uses them.
#[must_use]
pub fn duties(sizing: &Sizing<'_>) -> Vec<Block> {
    let suggestion = sizing.suggestion;
    let units = sizing.units;
    let results = &suggestion.duties;
    if results.is_empty() {
        return Vec::new();
    }
    let of = |value: &dyn Fn(&DutyResult) -> String| results.iter().map(value).collect();
    let number = |angle: Option<uom::si::f64::Angle>| {
        angle.map_or("-".to_owned(), |angle| number_with_decimals(degrees(angle), 1))
    };
    let needed = |result: &DutyResult| result.needed_deflection.filter(|_| !result.is_unjudged());
    let mut columns = vec![
        loadings::duty_column(sizing),
        Column::numbers(
            "hardest",
            &format!("at {}", units.speed.symbol()),
            of(&|r| number_with_decimals(units.speed.value(r.speed), 1)),
        ),
        Column::words("planes up", of(&|r| reached_texts(r, units)[0].to_string())),
    ];
    if suggestion.pair().is_some() {
        columns.extend([
            Column::words("with pair", of(&|r| reached_texts(r, units)[1].to_string())),
            Column::numbers("needs", "deg", of(&|r| number(needed(r)))),
            Column::numbers(
                "by planes",
                "deg",
                of(&|r| match r.likely_deflection.filter(|_| !r.is_unjudged()) {
                    Some([low, high]) => format!("{}..{}", number(Some(low)), number(Some(high))),
                    None => "-".to_owned(),
                }),
            ),
            Column::numbers(
                "uses",
                &format!("of {:.0}", degrees(suggestion.usable_deflection)),
                of(&|r| {
                    let used = r.share_used.filter(|_| !r.is_unjudged());
                    used.map_or("-".to_owned(), percent)
                }),
            ),
        ]);
    }
    columns.push(Column::words("done", of(&|r| done(r).to_owned())));
    let asked = |result: &DutyResult| {
        let held = loadings::held_in(&result.held_in);
        let turned = turned(sizing, result).unwrap_or_default();
        Fact::new(result.duty.name(), format!("{}{held}{turned}", condition(&result.duty, units)))
    };
    let notes = suggestion.pair().map(|_| duty_explanation(sizing));
    vec![
        Block::Section("What the planes must do".to_owned()),
        Block::Terms(results.iter().map(asked).collect()),
        Block::Table(Table {
            columns,
            notes: notes.iter().map(ToString::to_string).collect(),
            ..Table::default()
        }),
    ]
}

/// That a list is asked for turned to the side on which her own weight lies where it asks most; nothing where it lies there as it stands.
pub(crate) fn turned(sizing: &Sizing<'_>, result: &DutyResult) -> Option<Sentence> {
    let cause = result.duty.list_cause()?;
    let boat = sizing.boats.iter().find(|boat| boat.condition().name == result.condition)?;
    let own_n_m = boat.list_moment().value;
    (own_n_m * cause.moment_n_m() < 0.0).then(|| {
        let side = if own_n_m < 0.0 { "port" } else { "starboard" };
        let loading = match sizing.boats.len() {
            1 => "Her own weight lies".into(),
            _ => said![
                "Where it asks most, in ",
                Piece::name(&result.condition),
                ", her own weight lies",
            ],
        };
        said![
            ". ",
            loading,
            format!(" to {side}: there it is judged turned to {side}, since people change sides"),
        ]
    })
}

/// What a list counts.
fn of_lists() -> Sentence {
    said![
        " A list counts what is asked and her own weight off the centreline, both to one side; ",
        Piece::name("planewright level"),
        " counts the wind of the file and the propellers too, and her own weight on the side where it lies.",
    ]
}

/// What the columns of the duties mean.
pub(crate) fn duty_explanation(sizing: &Sizing<'_>) -> Sentence {
    let suggestion = sizing.suggestion;
    let part = match suggestion.share_allowed {
        share if share < 1.0 => format!("; a duty may use {} of them", percent(share)),
        _ => String::new(),
    };
    let has_list = suggestion.duties.iter().any(|result| result.duty.list_cause().is_some());
    said![
        "'needs' is the deflection of the deeper plane on the boat as described, of the ",
        angle(suggestion.usable_deflection, 0),
        format!(
            " that are usable{part}. 'by planes' is its range, for nine pairs in ten, on this very boat with planes that act more or less strongly. {} What else may be off about her is not in it, and widens it: ",
            spread_basis(&sizing.boats[0])
        ),
        Piece::name("planewright doubt"),
        ". For list the planes must differ by a range, since where the sideways force is taken up is not known; 'needs' is the low end of it, with the higher plane at the end of its dead band.",
        has_list.then(of_lists),
    ]
}
