//! What the planes change that whoever steers can see: how much water the bow hides, and how soon she planes.

use uom::si::f64::{Angle, Length, Velocity};
use uom::si::{angle::degree, time::second};

use super::ReportError;
use super::gather::{Gathered, set_deg};
use super::say;
use crate::balance::Point;
use crate::behaviour::from_rest::Way;
use crate::behaviour::on_plane::{FullPowerRun, OnPlaneRequest, on_plane};
use crate::behaviour::sight::Sight;
use crate::boat::{Helm, degrees};
use crate::document::{Block, Fact};
use crate::size::ScheduleRow;
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// From here on distances are told in steps of five, in the unit of lengths.
const IN_FIVES_FROM: f64 = 20.0;

/// What there is to notice; nothing where there are no settings, or no planes.
pub(super) fn what_you_notice(gathered: &Gathered) -> Result<Vec<Block>, ReportError> {
    let hump = gathered.hump.as_ref().filter(|_| gathered.has_settings());
    let (Some(hump), Some(_)) = (hump, gathered.advised.pair()) else { return Ok(Vec::new()) };
    let units = gathered.size.units;
    let boat = gathered.fitted(hump.loading)?;
    let cruise = boat.drive().cruise();
    let row = ScheduleRow::nearest(&gathered.schedules[hump.loading], cruise);
    let set = |row: &ScheduleRow| match gathered.is_up(row.deflection) {
        true => Angle::default(),
        false => Angle::new::<degree>(set_deg(row)),
    };
    let mut facts = Vec::new();
    let at_cruise = row.filter(|row| row.speed > hump.speed);
    let speeds = [("where the bow is highest", hump.speed, hump.deflection)]
        .into_iter()
        .chain(at_cruise.map(|row| ("cruising", row.speed, set(row))));
    for (loading, speed, deflection) in speeds {
        facts.extend(sight(gathered, hump.loading, (loading, speed, deflection))?);
    }
    let asked = OnPlaneRequest { to: None, held: Some(hump.deflection) };
    // Without a power nothing is told of it.
    if let Ok(answer) = on_plane(&boat, &gathered.size.settings, boat.planes(), &asked) {
        let told = |run: &FullPowerRun| {
            let how = match run.way {
                Way::Up => "with planes up".to_owned(),
                Way::Held(deflection) => format!("with them {} down", say::set(deflection)),
                Way::Best => return None,
            };
            Some(match &run.likely {
                Some(likely) if likely.most.is_some() => format!("{} s {how}", likely.seconds()),
                Some(likely) => {
                    let least_s = number_with_decimals(likely.least.time.get::<second>(), 0);
                    // Whoever reaches the top speed of the file is over the hump.
                    let doubt = match boat.is_estimated("drive.top_speed") {
                        true => ", if she gets there at all",
                        false => ": how long at the most cannot be told",
                    };
                    format!("{least_s} s or more {how}{doubt}")
                }
                None => format!("not at all {how}, as computed"),
            })
        };
        let all: Vec<String> = answer.runs.iter().filter_map(told).collect();
        facts.push(Fact::new(
            format!("From rest to {}", say::speed(answer.target, units)),
            format!(
                "{}, at full throttle. Compare the two rather than use a watch: engines, load and propeller decide.",
                all.join("; ")
            ),
        ));
    }
    let mut blocks = vec![Block::Section("What you will notice".to_owned()), Block::Terms(facts)];
    blocks.push(Block::Paragraph(stood_on(boat.helm(), units)));
    Ok(blocks)
}

/// How much water the bow hides at a speed, planes up and down.
fn sight(
    gathered: &Gathered,
    loading: usize,
    (name, speed, deflection): (&str, Velocity, Angle),
) -> Result<Option<Fact>, ReportError> {
    let units = gathered.size.units;
    let up = gathered.point(loading, speed, Angle::default())?;
    let Some(bare) = hidden(gathered, &up) else { return Ok(None) };
    let mut told = format!("planes up, the bow hides {}", text(bare, units));
    if degrees(deflection) > 0.0 && !gathered.is_up(deflection) {
        let down = gathered.point(loading, speed, deflection)?;
        match hidden(gathered, &down) {
            Some(set) if text(set, units) == text(bare, units) => {
                told.push_str(&format!(", and so it does with them {} down", say::set(deflection)));
            }
            Some(set) => {
                let set = text(set, units);
                told.push_str(&format!("; {} down, {set}", say::set(deflection)));
            }
            None => {}
        }
    }
    let name = format!("Sight ahead at {}, {name}", say::speed(speed, units));
    Ok(Some(Fact::new(name, format!("{told}."))))
}

fn hidden(gathered: &Gathered, point: &Point) -> Option<Sight> {
    let running = point.running?;
    Some(Sight::over_the_bow(gathered.boat().helm(), running.trim, running.draft))
}

/// `about the first 35 m of water ahead of it`.
fn text(sight: Sight, units: UnitChoice) -> String {
    match sight {
        Sight::HorizonHidden => "the water to the horizon, or nearly".to_owned(),
        Sight::HiddenFor(length) => {
            let (unit, value) = far(length, units);
            let step = if value >= IN_FIVES_FROM { 5.0 } else { 1.0 };
            let value = (value / step).round() * step;
            format!(
                "about the first {} {} of water ahead of it",
                number_with_decimals(value, 0),
                unit.symbol()
            )
        }
    }
}

/// A distance on the water in metres or feet, as small lengths are shown in one or the other.
fn far(length: Length, units: UnitChoice) -> (LengthUnit, f64) {
    let unit = match units.length {
        LengthUnit::Foot | LengthUnit::Inch => LengthUnit::Foot,
        _ => LengthUnit::Metre,
    };
    (unit, unit.value(length))
}

/// What the sight line stands on.
fn stood_on(helm: &Helm, units: UnitChoice) -> String {
    let length = |length: Length| {
        let (unit, value) = far(length, units);
        format!("{} {}", number_with_decimals(value, 1), unit.symbol())
    };
    let whose = match helm.is_given {
        true => "as the boat file gives them",
        false => {
            "usual values for a boat of her size where the boat file gives none; put yours below [helm] in it"
        }
    };
    format!(
        "Estimates, in calm water: the line of sight from eyes {} above the keel and {} ahead of the transom over a bow {} high ({whose}). Standing up shows more. Nothing of this replaces a lookout.",
        length(helm.eye_height),
        length(helm.eye_forward),
        length(helm.bow_height)
    )
}
