//! What the best pair misses, what would help, and what a pair gives, in words.

use std::fmt;

use super::words::{angle, angle_number, percent, small_length, whole_degrees};
use crate::boat::degrees;
use crate::document::{Piece, Sentence, said};
use crate::size::{Change, Given, HeldTrim, Missing, Remedy, Spot, TriedResult};
use crate::units::{UnitChoice, number_with_decimals, plain_number};

/// What is missing: a sentence without a capital letter and its full stop.
#[must_use]
pub fn missing(missing: &Missing, units: UnitChoice) -> Sentence {
    let at = |at: &Spot| spot(at, units);
    match missing {
        Missing::Silence(silence) => {
            silence.sentence(units).trim_end_matches('.').to_owned().into()
        }
        Missing::NoDutyHolds => {
            "No duty of the boat file holds in the loading that is asked about".into()
        }
        Missing::Room { largest, needed } => said![
            "there is room for a span of ",
            small_length(*largest, units),
            " on each side; the smallest pair allowed needs ",
            small_length(*needed, units),
            ", ",
            small_length(*needed - *largest, units),
            " more",
        ],
        Missing::WholeSteps { at: spot } => said![
            "as she is described it is only just done ",
            at(spot),
            ", and no pair in whole steps does it at every speed that is judged",
        ],
        Missing::Deflection { at: spot, needed, usable, held } => said![
            at(spot),
            " it needs ",
            angle(*needed, 1),
            " of the ",
            angle(*usable, 1),
            " that duties may use",
            held.map(held_trim),
        ],
        Missing::NoRunWithPlanesUp { at: spot } => {
            said![at(spot), " she does not run with planes up"]
        }
        Missing::SafeRun { at: spot, needed, safe } => said![
            at(spot),
            " it needs ",
            angle(*needed, 1),
            ", and the run is safe only to ",
            angle(*safe, 1),
            ": beyond it the trim is under ",
            whole_degrees(2),
        ],
        Missing::Resistance { at: spot, above } => {
            let above = number_with_decimals(100.0 * above, 1);
            said![at(spot), format!(" the resistance stays {above} % above what is asked")]
        }
        Missing::AnyDeflection { at: spot } => {
            said![at(spot), " no deflection does what is asked"]
        }
    }
}

/// `at 13.5 kn in `light``.
fn spot(spot: &Spot, units: UnitChoice) -> Sentence {
    let unit = units.speed;
    let speed = Piece::quantity(plain_number(unit.value(spot.speed)), unit.symbol());
    let condition = spot.condition.as_ref().map(|name| said![" in ", Piece::name(name)]);
    said!["at ", speed, condition]
}

fn held_trim(held: HeldTrim) -> Sentence {
    said![
        ", which holds ",
        angle(held.trim, 1),
        " of trim where ",
        angle_number(held.asked, 1),
        " is asked, ",
        angle(held.trim - held.asked, 1),
        " too much",
    ]
}

/// What would help: a whole sentence.
#[must_use]
pub fn remedy(remedy: &Remedy, units: UnitChoice) -> Sentence {
    match remedy {
        Remedy::Cure(silence) => silence.cure().into(),
        Remedy::AskOtherwise => {
            "Ask about another loading, or give a duty that holds in this one.".into()
        }
        Remedy::MakeRoom => "Smaller clearances on the transom, a smaller sizing.smallest_chord or sizing.smallest_aspect would make room; each is common practice to be weighed on the boat.".into(),
        Remedy::Tried { change, result } => {
            let what = match change {
                Change::MoveForward(shift) => said![
                    "Moving the centre of gravity ",
                    small_length(*shift, units),
                    " forward",
                ],
                Change::SquareChord => "Allowing a chord as long as the span".into(),
            };
            let brings = match result {
                TriedResult::DoesAll => " would let planes do all duties.".to_owned(),
                TriedResult::Helps { strain } => format!(
                    " would help, but not enough: {} of what is allowed.",
                    percent(*strain)
                ),
            };
            said![what, brings]
        }
        Remedy::AskLess => {
            "Less speed at the duty, or an easier value of it, lowers what is needed.".into()
        }
    }
}

/// What the deflection that duties may use gives, for one of them.
#[must_use]
pub fn given(given: &Given) -> Sentence {
    match *given {
        Given::NoRun => "she does not run there".into(),
        Given::Relief { taken, asked } => said![
            angle(taken, 2),
            format!(" taken off the trim where {} is asked", angle_number(asked, 2)),
        ],
        Given::Trim { trim, asked } => {
            said![angle(trim, 2), format!(" of trim where {} is asked", angle_number(asked, 2))]
        }
        Given::Margin { under, asked } => {
            let side = if degrees(under) < 0.0 { "over" } else { "under" };
            let asked = angle_number(asked, 2);
            said![
                angle(under.abs(), 2),
                format!(" {side} the porpoising limit where {asked} under is asked"),
            ]
        }
        Given::Resistance { share } => {
            format!("{:.1} % of the resistance that is asked for", 100.0 * share).into()
        }
        Given::Levelled { share } => {
            format!("{} of the heeling moment levelled", percent(share)).into()
        }
    }
}

impl fmt::Display for Missing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        missing(self, UnitChoice::default()).fmt(f)
    }
}

impl fmt::Display for Remedy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        remedy(self, UnitChoice::default()).fmt(f)
    }
}

impl fmt::Display for Given {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        given(self).fmt(f)
    }
}
