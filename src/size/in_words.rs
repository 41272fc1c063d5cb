//! What the best pair misses, what would help, and what a pair gives, in words.

use std::fmt;

use super::given::Given;
use super::missing::{Change, HeldTrim, Missing, Remedy, Spot, TriedResult};
use crate::boat::degrees;
use crate::sentence::quantity::{
    angle, angle_number, percent, small_length, speed_as_asked, whole_degrees,
};
use crate::sentence::{Piece, Sentence, said};
use crate::units::{UnitChoice, number_with_decimals};

/// What is missing: a sentence without a capital letter and its full stop.
#[must_use]
pub fn missing(missing: &Missing, units: UnitChoice) -> Sentence {
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
        Missing::WholeSteps { at } => said![
            "as she is described it is only just done ",
            spot(at, units),
            ", and no pair in whole steps does it at every speed that is judged",
        ],
        Missing::NoRunWithPlanesUp { at } => {
            said![spot(at, units), " she does not run with planes up"]
        }
        Missing::AnyDeflection { at } => {
            said![spot(at, units), " no deflection does what is asked"]
        }
        Missing::Deflection { at, .. }
        | Missing::SafeRun { at, .. }
        | Missing::Resistance { at, .. } => said![spot(at, units), by_how_much(missing)],
    }
}

/// By how much it is missed, after where; nothing where that is no number.
fn by_how_much(missing: &Missing) -> Sentence {
    match missing {
        Missing::Deflection { needed, usable, held, .. } => said![
            " it needs ",
            angle(*needed, 1),
            " of the ",
            angle(*usable, 1),
            " that duties may use",
            held.map(held_trim),
        ],
        Missing::SafeRun { needed, safe, .. } => said![
            " it needs ",
            angle(*needed, 1),
            ", and the run is safe only to ",
            angle(*safe, 1),
            ": beyond it the trim is under ",
            whole_degrees(2),
        ],
        Missing::Resistance { above, .. } => {
            let above = number_with_decimals(100.0 * above, 1);
            format!(" the resistance stays {above} % above what is asked").into()
        }
        _ => Sentence::default(),
    }
}

/// `at 13.5 kn in `light``.
fn spot(spot: &Spot, units: UnitChoice) -> Sentence {
    let speed = speed_as_asked(spot.speed, units);
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
            said![changed(*change, units), brings(*result)]
        }
        Remedy::AskLess => {
            "Less speed at the duty, or an easier value of it, lowers what is needed.".into()
        }
    }
}

fn changed(change: Change, units: UnitChoice) -> Sentence {
    match change {
        Change::MoveForward(shift) => {
            said!["Moving the centre of gravity ", small_length(shift, units), " forward"]
        }
        Change::SquareChord => {
            "Allowing a chord longer than is usual for such a span, up to as long as it,".into()
        }
    }
}

fn brings(result: TriedResult) -> Sentence {
    match result {
        TriedResult::DoesAll => " would let planes do all duties.".into(),
        TriedResult::Helps { utilisation } => {
            let used = percent(utilisation);
            format!(" would help, but not enough: {used} of what is allowed.").into()
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

#[cfg(test)]
mod tests {
    use uom::si::angle::degree;
    use uom::si::f64::{Angle, Length, Velocity};
    use uom::si::length::millimeter;
    use uom::si::velocity::knot;

    use super::*;
    use crate::units::UnitSystem;

    fn deg(value: f64) -> Angle {
        Angle::new::<degree>(value)
    }

    fn mm(value: f64) -> Length {
        Length::new::<millimeter>(value)
    }

    fn at(speed_kn: f64, condition: Option<&str>) -> Spot {
        Spot { speed: Velocity::new::<knot>(speed_kn), condition: condition.map(str::to_owned) }
    }

    /// Each finding in the default units, in feet, inches and mph, and on a page.
    fn each_missing() -> [(Missing, &'static str, &'static str, &'static str); 7] {
        let held = Some(HeldTrim { trim: deg(6.24), asked: deg(5.0) });
        [
            (
                Missing::Room { largest: mm(144.0), needed: mm(337.5) },
                "there is room for a span of 144 mm on each side; the smallest pair allowed needs 338 mm, 194 mm more",
                "there is room for a span of 5.7 in on each side; the smallest pair allowed needs 13.3 in, 7.6 in more",
                "there is room for a span of 144 mm on each side; the smallest pair allowed needs 338 mm, 194 mm more",
            ),
            (
                Missing::Deflection {
                    at: at(13.5, Some("light")),
                    needed: deg(11.2),
                    usable: deg(10.5),
                    held,
                },
                "at 13.5 kn in `light` it needs 11.2 deg of the 10.5 deg that duties may use, which holds 6.2 deg of trim where 5.0 is asked, 1.2 deg too much",
                "at 15.5 mph in `light` it needs 11.2 deg of the 10.5 deg that duties may use, which holds 6.2 deg of trim where 5.0 is asked, 1.2 deg too much",
                "at 13.5 kn in “light” it needs 11.2° of the 10.5° that duties may use, which holds 6.2° of trim where 5.0 is asked, 1.2° too much",
            ),
            (
                Missing::SafeRun { at: at(28.0, None), needed: deg(5.6), safe: deg(5.3) },
                "at 28 kn it needs 5.6 deg, and the run is safe only to 5.3 deg: beyond it the trim is under 2 deg",
                "at 32.2 mph it needs 5.6 deg, and the run is safe only to 5.3 deg: beyond it the trim is under 2 deg",
                "at 28 kn it needs 5.6°, and the run is safe only to 5.3°: beyond it the trim is under 2°",
            ),
            (
                Missing::NoRunWithPlanesUp { at: at(10.0, None) },
                "at 10 kn she does not run with planes up",
                "at 11.5 mph she does not run with planes up",
                "at 10 kn she does not run with planes up",
            ),
            (
                Missing::Resistance { at: at(20.0, None), above: 0.0321 },
                "at 20 kn the resistance stays 3.2 % above what is asked",
                "at 23 mph the resistance stays 3.2 % above what is asked",
                "at 20 kn the resistance stays 3.2 % above what is asked",
            ),
            (
                Missing::AnyDeflection { at: at(20.0, None) },
                "at 20 kn no deflection does what is asked",
                "at 23 mph no deflection does what is asked",
                "at 20 kn no deflection does what is asked",
            ),
            (
                Missing::WholeSteps { at: at(14.0, None) },
                "as she is described it is only just done at 14 kn, and no pair in whole steps does it at every speed that is judged",
                "as she is described it is only just done at 16.1 mph, and no pair in whole steps does it at every speed that is judged",
                "as she is described it is only just done at 14 kn, and no pair in whole steps does it at every speed that is judged",
            ),
        ]
    }

    #[test]
    fn regression_what_is_missing_is_said_in_the_units_asked_for() {
        for (finding, marine, imperial, page) in each_missing() {
            assert_eq!(finding.to_string(), marine);
            let said = missing(&finding, UnitSystem::Imperial.into());
            assert_eq!(said.to_string(), imperial);
            assert_eq!(missing(&finding, UnitChoice::default()).on_page(), page);
        }
    }

    #[test]
    fn regression_what_would_help_is_said_in_the_units_asked_for() {
        let [forward, square] = [Change::MoveForward(mm(372.0)), Change::SquareChord];
        let helps = TriedResult::Helps { utilisation: 1.234 };
        for (found, marine, imperial) in [
            (
                Remedy::Tried { change: forward, result: TriedResult::DoesAll },
                "Moving the centre of gravity 372 mm forward would let planes do all duties.",
                "Moving the centre of gravity 14.6 in forward would let planes do all duties.",
            ),
            (
                Remedy::Tried { change: square, result: helps },
                "Allowing a chord longer than is usual for such a span, up to as long as it, would help, but not enough: 123 % of what is allowed.",
                "Allowing a chord longer than is usual for such a span, up to as long as it, would help, but not enough: 123 % of what is allowed.",
            ),
        ] {
            assert_eq!(found.to_string(), marine);
            assert_eq!(remedy(&found, UnitSystem::Imperial.into()).to_string(), imperial);
        }
    }

    #[test]
    fn regression_what_a_pair_gives_is_said_for_every_kind_of_duty() {
        for (found, said) in [
            (Given::NoRun, "she does not run there"),
            (
                Given::Relief { taken: deg(1.5), asked: deg(2.0) },
                "1.50 deg taken off the trim where 2.00 is asked",
            ),
            (
                Given::Trim { trim: deg(6.1), asked: deg(5.0) },
                "6.10 deg of trim where 5.00 is asked",
            ),
            (
                Given::Margin { under: deg(-0.3), asked: deg(0.5) },
                "0.30 deg over the porpoising limit where 0.50 under is asked",
            ),
            (
                Given::Margin { under: deg(0.3), asked: deg(0.5) },
                "0.30 deg under the porpoising limit where 0.50 under is asked",
            ),
            (Given::Resistance { share: 1.041 }, "104.1 % of the resistance that is asked for"),
            (Given::Levelled { share: 0.42 }, "42 % of the heeling moment levelled"),
        ] {
            assert_eq!(found.to_string(), said);
        }
    }
}
