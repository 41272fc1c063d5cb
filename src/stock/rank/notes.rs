//! What a table of the shelf says of each part: short words for its columns, and notes by letter.

use uom::si::f64::Length;

use super::{Judged, Ranked, Strength};
use crate::size::Limit;
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// What may be said of a part, each with its letter.
pub(crate) const NOTES: [(char, &str); 8] = [
    (
        'a',
        "NOT STRONG ENOUGH even under the load of steady running: the plate or its screws miss their safety factor.",
    ),
    ('b', "the plate misses its safety factor under the design load."),
    (
        'c',
        "the screws miss theirs under the design load: through-bolt the plane, or take more or longer screws.",
    ),
    (
        'd',
        "the standing actuators do not bear the design load: rest them against a stop, or ask for a higher rating.",
    ),
    (
        'e',
        "the screws are not covered by the equations for wood: through-bolt, or ask the builder.",
    ),
    ('f', "the list gives no rating for holding, so that the push stands for it."),
    (
        'g',
        "misses a duty because its chord is more than a tenth of the wetted length there, the most that was tested.",
    ),
    (
        'h',
        "misses a duty because the run is not safe there: trim under 2 deg, or the keel beyond the bottom.",
    ),
];

/// Whether it fits, or the span that is missing on each side.
pub(crate) fn fits(ranked: &Ranked, units: UnitChoice) -> String {
    match &ranked.judged {
        Ok(judged) if judged.assessment.fit.fits() => "yes".to_owned(),
        Ok(judged) => format!("-{}", length(judged.assessment.fit.missing, units)),
        Err(_) => "no".to_owned(),
    }
}

fn length(length: Length, units: UnitChoice) -> String {
    let unit = units.small_length;
    let decimals = usize::from(unit != LengthUnit::Millimetre);
    format!("{} {}", number_with_decimals(unit.value(length), decimals), unit.symbol())
}

/// How many duties it does.
pub(crate) fn does(judged: &Judged) -> String {
    let done = judged.duties.iter().filter(|duty| duty.met).count();
    if judged.does_all() { "all".to_owned() } else { format!("{done} of {}", judged.duties.len()) }
}

/// Largest share used by any duty.
pub(crate) fn most_used(judged: &Judged) -> String {
    match judged.most_used() {
        Some(share) if share < 10.0 => percent(share),
        _ => ">999 %".to_owned(),
    }
}

/// A share in whole per cent.
pub(crate) fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

/// Letters of what is to be said of the strength.
pub(crate) fn letters(ranked: &Ranked) -> String {
    let Ok(judged) = &ranked.judged else { return String::new() };
    let Strength {
        holds_design, plate_expected, plate_design, screws_expected, screws_design, ..
    } = judged.strength;
    let said = [
        !plate_expected || screws_expected == Some(false),
        !plate_design,
        screws_design == Some(false),
        !holds_design,
        screws_design.is_none(),
        !ranked.part.actuator.has_holding_rating(),
        judged.duties.iter().any(|duty| !duty.met && duty.limit == Limit::TestedChord),
        judged.duties.iter().any(|duty| !duty.met && duty.limit == Limit::SafeRun),
    ];
    NOTES.iter().zip(said).filter(|(_, said)| *said).map(|((letter, _), _)| *letter).collect()
}
