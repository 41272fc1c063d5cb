//! What an answer rests on that nobody tested, judged or saw so.

use uom::si::f64::Angle;

use super::reached_texts;
use crate::behaviour::drive_trim::can_be_trimmed;
use crate::boat::degrees;
use crate::document::{Piece, Sentence, said};
use crate::flag::Flag;
use crate::sentence::duty::condition;
use crate::size::{Reached, SeenTrim, SeenTrims, Suggestion};
use crate::tell::over_limit::OverLimit;
use crate::tell::sizing::Sizing;
use crate::tell::words::{angle, angle_number, small_length, speed};
use crate::units::{UnitChoice, number_with_decimals};

/// What the answer rests on that nobody tested, judged or saw so: it stands below the headline in every output.
#[must_use]
pub fn caveats(sizing: &Sizing<'_>) -> Vec<Sentence> {
    let all = [
        seen_otherwise(sizing),
        untested_text(sizing.suggestion),
        unjudged_text(sizing),
        perhaps_levels(sizing),
        near_the_propeller(sizing),
    ];
    all.into_iter().flatten().collect()
}

/// Where the settings of the table leave her above the porpoising limit, some of it where that is tested.
pub(crate) fn over_limit(sizing: &Sizing<'_>) -> Option<Sentence> {
    let has_settings = !sizing.suggestion.is_seen_otherwise();
    has_settings.then(|| OverLimit::of(sizing).sentence())?
}

/// Where planes of the span would stand in the water of the propeller.
fn near_the_propeller(sizing: &Sizing<'_>) -> Option<Sentence> {
    let transom = sizing.boat().transom();
    let stands = transom.position(sizing.suggestion.pair()?.span)?;
    let nearer = transom.inside_propeller_water(stands.from)?;
    Some(said![
        "NEAR THE PROPELLER: ",
        small_length(nearer, sizing.units),
        " nearer than the drive asks, as transom.inner_clearance allows."
    ])
}

/// Where a list is levelled at the mild end of what is expected and not at the other.
fn perhaps_levels(sizing: &Sizing<'_>) -> Option<Sentence> {
    let suggestion = sizing.suggestion;
    let usable_deg = degrees(suggestion.usable_deflection);
    let dead_deg = suggestion.dead_band.map_or(0.0, degrees);
    let far = suggestion.duties.iter().filter_map(|duty| match duty.reached {
        Reached::Difference { least, largest } if duty.met => {
            Some((duty, degrees(least).abs().max(degrees(largest).abs()) + dead_deg))
        }
        _ => None,
    });
    let (duty, needed_deg) = far.max_by(|a, b| a.1.total_cmp(&b.1))?;
    (needed_deg > usable_deg).then(|| {
        let usable = number_with_decimals(usable_deg, 1);
        said![
            "PERHAPS LEVEL: ",
            condition(&duty.duty, sizing.units),
            ". Where the sideways force is taken up is not known: at the hard end of what is expected that takes ",
            Piece::quantity(number_with_decimals(needed_deg, 1), "deg"),
            format!(" of the {usable} there are."),
        ]
    })
}

/// Readings told one by one at most.
const MOST_READ: usize = 2;

/// What was read beside what her file alone gives and what is told: `at 15 kn 7.5 deg was read (her file alone gives 10.8; told here, 7.4)`.
fn read_beside(seen: impl Iterator<Item = SeenTrim>, units: UnitChoice) -> Option<Sentence> {
    let read = |seen: SeenTrim| {
        said![
            "at ",
            speed(seen.speed, units),
            " ",
            angle(seen.read, 1),
            " was read (her file alone gives ",
            angle_number(seen.described, 1),
            "; told here, ",
            angle_number(seen.computed, 1),
            ")",
        ]
    };
    let seen: Vec<SeenTrim> = seen.collect();
    if seen.len() > MOST_READ {
        let most = |of: fn(&SeenTrim) -> Angle| {
            let apart = seen.iter().map(|one| degrees(one.read - of(one)).abs());
            number_with_decimals(apart.fold(0.0, f64::max), 1)
        };
        return Some(said![
            format!("{} trims (her file alone is up to ", seen.len()),
            Piece::quantity(most(|one| one.described), "deg"),
            format!(" off; told here, up to {})", most(|one| one.computed)),
        ]);
    }
    let read: Vec<Sentence> = seen.into_iter().map(read).collect();
    (!read.is_empty()).then(|| Sentence::joined(read, "; "))
}

/// What was read that she cannot be brought to, and what to do about it; none where there is no such reading.
pub(crate) fn read_otherwise(
    seen: impl Iterator<Item = SeenTrim>,
    units: UnitChoice,
) -> Option<Sentence> {
    let read = read_beside(seen, units)?;
    Some(said![
        "SEEN OTHERWISE: ",
        read,
        ". Hardly any boat as described would show that, and what stands here is not to be used: read it again, and if it stands, weigh her, find her centre of gravity, and ask again."
    ])
}

/// What was read, and that all that is told is brought to it; none where nothing was, or it could not be.
pub(crate) fn brought_to(seen: &SeenTrims, units: UnitChoice) -> Option<Sentence> {
    let read = read_beside(seen.all.iter().copied().filter(|_| seen.are_met()), units)?;
    Some(said![
        "READ ON THE WATER: ",
        read,
        ". All that is told of her is brought as near to that as the rest allows."
    ])
}

/// Where a trim was read that she cannot be brought to.
pub(crate) fn seen_otherwise(sizing: &Sizing<'_>) -> Option<Sentence> {
    read_otherwise(sizing.suggestion.seen_otherwise(), sizing.units)
}

/// What nobody can judge, so that no chance holds it; nothing where all is judged.
fn unjudged_text(sizing: &Sizing<'_>) -> Option<Sentence> {
    let duty = sizing.suggestion.duties.iter().find(|duty| duty.is_unjudged())?;
    let untested = match sizing.suggestion.pair() {
        Some(_) => "its curve or the planes were not tested",
        None => "nothing was tested that the limit stands on",
    };
    let [bare, with] = reached_texts(duty, sizing.units);
    let trims = match sizing.suggestion.pair() {
        Some(_) => {
            said![
                bare,
                " the porpoising limit there with planes up and ",
                with,
                " it with the pair as far down as the duties that can be judged need there"
            ]
        }
        None => said![bare, " the porpoising limit there"],
    };
    let ease = match can_be_trimmed(sizing.boat()) {
        true => "slow down, trim the drive in,",
        false => "slow down",
    };
    Some(said![
        "NOT JUDGED, and in no chance: whether she porpoises at ",
        speed(duty.speed, sizing.units),
        ". She trims ",
        trims,
        format!(", where {untested}: if she does porpoise, {ease} and have it looked at."),
    ])
}

/// Where the size rests on what nobody tested; nothing where it does not.
fn untested_text(suggestion: &Suggestion) -> Option<Sentence> {
    let why = suggestion.rests_on_untested.iter().filter_map(Flag::untested);
    let why = Sentence::joined(why.map(|why| Piece::terminal(why).into()), "; ");
    (!why.is_empty()).then(|| {
        said!["UNTESTED where the size is set: ", why, ". The ranges are wider than they look."]
    })
}
