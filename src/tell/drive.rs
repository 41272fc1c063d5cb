//! What trimming the drive in would do of the duties, for nothing.

use serde::Serialize;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};

use super::sizing::Sizing;
use super::words::angle;
use crate::balance::Point;
use crate::balance::sweep::planing_start;
use crate::behaviour::drive_trim::{
    USUAL_MOST_IN_DEG, can_be_trimmed, drive_trim_of, with_drive_at,
};
use crate::boat::{Aim, Boat, degrees};
use crate::document::{Piece, Sentence, said};
use crate::size::{DutyResult, Reached};
use crate::units::number_with_decimals;

/// Steps through the speeds of a duty.
const STEPS: u32 = 24;

/// A duty with the drive trimmed in as far as drives usually go and planes up.
#[derive(Serialize)]
pub struct WithDrive {
    duty: &'static str,
    #[serde(skip)]
    aim: Aim,
    /// Loading condition in which the duty asks most.
    condition: String,
    drive_trim_deg: f64,
    /// Largest trim, least porpoising margin, or excess over the least resistance in %, over the duty's speeds.
    reaches: f64,
    asked: f64,
    unit: &'static str,
    done: bool,
}

/// Every duty that the bare boat does not do and that is not one of list; empty where the drive is fixed or stands further in already.
#[must_use]
pub fn duties(sizing: &Sizing<'_>) -> Vec<WithDrive> {
    let boat = sizing.boat();
    if !can_be_trimmed(boat) || degrees(drive_trim_of(boat)) <= USUAL_MOST_IN_DEG {
        return Vec::new();
    }
    let undone = sizing.suggestion.duties.iter().filter(|result| !result.met_bare);
    undone.filter_map(|result| with_drive(sizing, result)).collect()
}

fn with_drive(sizing: &Sizing<'_>, result: &DutyResult) -> Option<WithDrive> {
    let boat = sizing.boats.iter().find(|boat| boat.condition().name == result.condition)?;
    let drive_trim = Angle::new::<degree>(USUAL_MOST_IN_DEG);
    let points = |[from, to]: [Velocity; 2]| {
        let at = |step: u32| from + (to - from) * (f64::from(step) / f64::from(STEPS));
        let speeds: Vec<_> = (0..=STEPS).map(at).chain([result.speed]).collect();
        Some(with_drive_at(boat, sizing.settings, drive_trim, &speeds).ok()?.points)
    };
    // A speed at which she does not run does no duty.
    let worst = |points: &[Point], value: &dyn Fn(&Point) -> Option<f64>| {
        points.iter().map(value).try_fold(f64::NEG_INFINITY, |worst, next| Some(worst.max(next?)))
    };
    let aim = result.duty.aim();
    let all_speeds = result.duty.speeds().ends(planing_start(boat), || result.speed);
    let (reaches, asked, unit, done) = match aim {
        Aim::Relief(at_least) => {
            let Reached::Trim { bare: Some(bare), .. } = result.reached else { return None };
            let point = points([result.speed; 2])?;
            let trim = worst(&point, &|p| Some(degrees(p.running?.trim)))?;
            let off = degrees(bare) - trim;
            (off, degrees(at_least), "deg", off >= degrees(at_least))
        }
        Aim::Trim(at_most) => {
            let trim = worst(&points(all_speeds)?, &|p| Some(degrees(p.running?.trim)))?;
            (trim, degrees(at_most), "deg", trim <= degrees(at_most))
        }
        Aim::Margin(margin) => {
            let under = |p: &Point| Some(-degrees(p.running?.porpoising_margin()));
            let under = -worst(&points(all_speeds)?, &under)?;
            (under, degrees(margin), "deg", under >= degrees(margin))
        }
        Aim::Resistance(within) => {
            let Reached::Resistance { least, .. } = result.reached else { return None };
            let point = points(all_speeds)?;
            let excess = worst(&point, &|p| Some((p.running?.resistance / least).value - 1.0))?;
            (100.0 * excess, 100.0 * within.value, "%", excess <= within.value)
        }
        Aim::List(_) => return None,
    };
    let condition = result.condition.clone();
    let (duty, drive_trim_deg) = (result.duty.name(), USUAL_MOST_IN_DEG);
    Some(WithDrive { duty, aim, condition, drive_trim_deg, reaches, asked, unit, done })
}

/// The trim of her drive as it stands, and whether anybody gave it.
fn stands_at(boat: &Boat) -> Sentence {
    let trim = angle(drive_trim_of(boat), 1);
    match boat.is_estimated("drive.thrust_angle") {
        true => said![trim, " is ESTIMATED now, since the file does not give its angle"],
        false => said![
            "it stands at ",
            trim,
            ", the file's thrust_angle of ",
            angle(boat.drive().thrust_angle, 1),
            " counted the other way",
        ],
    }
}

/// What of it is enough, with the rest beside it, in one sentence; nothing where it does none of them.
#[must_use]
pub fn sentence(sizing: &Sizing<'_>) -> Option<Sentence> {
    let all = duties(sizing);
    let several = sizing.boats.len() > 1;
    let each = all.iter().map(|with| with_drive_said(with, several));
    all.iter().any(|with| with.done).then(|| {
        said![
            "Try first what costs nothing: with planes up and the drive trimmed in to ",
            Piece::quantity(USUAL_MOST_IN_DEG.to_string(), "deg"),
            " (",
            stands_at(sizing.boat()),
            "; look up how far yours goes): by the balance ",
            Sentence::joined(each, "; "),
            ". Only the turned thrust is counted; leg and propeller lift too, so that a drive does more than this. ",
            Piece::name("planewright run --drive-trim"),
            " shows every speed.",
        ]
    })
}

fn with_drive_said(with: &WithDrive, several: bool) -> Sentence {
    let condition = several.then(|| said![", loaded ", Piece::name(&with.condition)]);
    let reaches = number_with_decimals(with.reaches.abs(), 1);
    let asked = number_with_decimals(with.asked, 1);
    let what = match with.aim {
        Aim::Relief(_) => format!(" off the trim where {asked} is asked"),
        Aim::Trim(_) => format!(" of trim where {asked} is allowed"),
        Aim::Margin(_) => {
            let side = if with.reaches < 0.0 { "OVER" } else { "under" };
            format!(" {side} the limit where {asked} under is asked")
        }
        _ => format!(" over the least resistance where {asked} is allowed"),
    };
    let verdict = if with.done { "is enough" } else { "is not enough" };
    said![
        format!("for {}", with.duty),
        condition,
        format!(" that {verdict} ("),
        Piece::quantity(reaches, with.unit),
        what,
        ")",
    ]
}
