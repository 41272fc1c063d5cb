//! What planes do to the resistance at each row of a schedule, claimed only where wet sides could not turn it.

use super::sizing::Sizing;
use crate::balance::Balance;
use crate::balance::saving::Saving;
use crate::size::ScheduleRow;
use crate::units::number_with_decimals;

/// Said below a table in which [`change_text`] says so.
pub(crate) const NOTE: &str = "'about even': the equations find less resistance, but planes press the bow down, and the friction of wet sides, which is not in it, may turn that.";
/// How it reads.
pub(crate) const ABOUT_EVEN: &str = "about even";

/// Whether the pair suggested saves resistance at each row of the schedule of the first condition.
pub(crate) fn of_schedule(sizing: &Sizing<'_>) -> Vec<Option<Saving>> {
    let balance = Balance::of(sizing.boat(), sizing.settings).with_planes(sizing.suggestion.pair());
    let rows = sizing.suggestion.schedule.iter();
    rows.map(|row| Saving::at(&balance, row.speed, row.deflection)).collect()
}

/// Change of the resistance in %: `about even` in place of a saving that wet sides may turn.
pub(crate) fn change_text(row: &ScheduleRow, saving: Option<Saving>) -> Option<String> {
    let percent = 100.0 * (row.resistance_ratio? - 1.0);
    Some(match saving {
        Some(Saving::SidesMayTurn) => ABOUT_EVEN.to_owned(),
        _ => number_with_decimals(percent, 1),
    })
}
