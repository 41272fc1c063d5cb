//! The small table to keep at the helm: how to set the planes at each speed.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};

use super::gather::{Gathered, set_deg, whole_deg};
use super::{dash, limits, say};
use crate::behaviour::list::{Cause, Contribution, ListStudy, Verdict};
use crate::boat::{ListCause, degrees};
use crate::document::{Block, Column, Fact, Table};
use crate::sentence::duty::cause_words;
use crate::size::{DutyResult, ScheduleRow};
use crate::tell::over_limit::listed;
use crate::tell::sizing::NO_SETTINGS;
use crate::units::{UnitChoice, number_with_decimals};

/// In place of settings where no pair is advised.
const NONE_ADVISED: &str = "No settings, since no pair is advised.";

/// Speeds that take the same setting and bear the same.
struct Stretch<'a> {
    rows: &'a [ScheduleRow],
    /// Setting, whole steps of degrees; none where the planes stay up.
    setting_deg: Option<f64>,
}

/// Setting of a row, rounded, but never beyond what is safe, rounded as that is told.
pub(super) fn setting_deg(gathered: &Gathered, row: &ScheduleRow) -> Option<f64> {
    (!gathered.is_up(row.deflection)).then(|| set_deg(row))
}

fn stretches<'a>(gathered: &Gathered, rows: &'a [ScheduleRow]) -> Vec<Stretch<'a>> {
    let of = |row: &ScheduleRow| (setting_deg(gathered, row), at_most(degrees(row.largest_safe)));
    let alike = |a: &ScheduleRow, b: &ScheduleRow| of(a) == of(b);
    let mut stretches: Vec<Stretch<'_>> = Vec::new();
    let mut from = 0;
    for to in 1..=rows.len() {
        if to == rows.len() || !alike(&rows[from], &rows[to]) {
            let rows = &rows[from..to];
            stretches.push(Stretch { rows, setting_deg: setting_deg(gathered, &rows[0]) });
            from = to;
        }
    }
    stretches
}

impl Stretch<'_> {
    /// The speeds from end to end.
    fn speeds(&self, units: UnitChoice) -> String {
        let [first, last] = [&self.rows[0], &self.rows[self.rows.len() - 1]];
        between(shown(units, first), shown(units, last))
    }

    /// The least and the largest of an angle over these speeds.
    fn angles(&self, of: &dyn Fn(&ScheduleRow) -> Option<Angle>) -> String {
        let all = || self.rows.iter().filter_map(of).map(degrees);
        let [least, most] =
            [all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max)];
        if least > most {
            return "-".to_owned();
        }
        let [least, most] = [least, most].map(|deg| number_with_decimals(deg, 1));
        between(least, most)
    }

    /// The deflection that is safe at all of these speeds.
    fn least_safe_deg(&self) -> f64 {
        self.rows.iter().map(|row| degrees(row.largest_safe)).fold(f64::INFINITY, f64::min)
    }
}

/// A largest deflection in whole degrees: `up` where not even one is safe, `-` where nothing is known.
pub(super) fn at_most(deg: f64) -> String {
    match whole_deg(deg) {
        least if least.is_infinite() => "-".to_owned(),
        least if least < 1.0 => "up".to_owned(),
        least => format!("{}°", number_with_decimals(least, 0)),
    }
}

pub(super) fn shown(units: UnitChoice, row: &ScheduleRow) -> String {
    let speed = units.speed.value(row.speed);
    // The first row stands where planing starts, hardly ever at a whole number.
    number_with_decimals(speed, usize::from((speed - speed.round()).abs() > 0.05))
}

pub(super) fn between(one: String, other: String) -> String {
    if one == other { one } else { format!("{one} to {other}") }
}

/// A setting in whole degrees; `up` where there is none.
pub(super) fn down_text(setting_deg: Option<f64>) -> String {
    setting_deg.map_or("up".to_owned(), |deg| format!("{}°", number_with_decimals(deg, 0)))
}

/// How to set the planes at each speed in the loading that sets the size.
fn settings(gathered: &Gathered, all: &[Stretch<'_>]) -> Vec<Column> {
    let units = gathered.size.units;
    let main = gathered.main_loading();
    let usable = degrees(gathered.size.suggestion.usable_deflection);
    let of = |value: &dyn Fn(&Stretch<'_>) -> String| all.iter().map(value).collect();
    // The trim at what is told to be set, in whole degrees.
    let set_so = |row: &ScheduleRow| {
        let Some(deg) = setting_deg(gathered, row) else { return row.trim_bare };
        let point = gathered.point(main, row.speed, Angle::new::<degree>(deg)).ok()?;
        Some(point.running?.trim)
    };
    vec![
        Column::words("speed", of(&|s| s.speeds(units))).in_unit(units.speed.symbol()),
        Column::words("planes down", of(&|s| down_text(s.setting_deg))),
        Column::words("never beyond", of(&|s| at_most(s.least_safe_deg()))),
        Column::words(
            "of full travel",
            of(&|s| {
                s.setting_deg
                    .map_or("none".to_owned(), |deg| format!("{:.0} %", 100.0 * deg / usable))
            }),
        ),
        Column::words("bow up, planes up", of(&|s| s.angles(&|row| row.trim_bare)))
            .in_unit("degrees"),
        Column::words("bow up, set so", of(&|s| s.angles(&set_so))).in_unit("degrees"),
    ]
}

/// What one loading takes and bears at a speed, in whole degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Held {
    /// Planes down; 0 where they stay up.
    pub down_deg: f64,
    /// The most that is safe.
    pub most_deg: f64,
}

impl Held {
    /// At a speed of the schedule of a loading, else the least of the rows to both sides.
    pub fn at(gathered: &Gathered, loading: usize, speed: Velocity) -> Self {
        let rows = &gathered.schedules[loading];
        let of = |row: &ScheduleRow| Self {
            down_deg: setting_deg(gathered, row).unwrap_or(0.0),
            most_deg: whole_deg(degrees(row.largest_safe)),
        };
        let above = rows.partition_point(|row| row.speed < speed);
        match rows.get(above).filter(|row| row.speed == speed) {
            Some(row) => of(row),
            None => {
                let below = above.checked_sub(1).map(|below| &rows[below]);
                Self::least(below.into_iter().chain(rows.get(above)).map(of))
            }
        }
    }

    /// The least of each.
    pub fn least(all: impl IntoIterator<Item = Self>) -> Self {
        let none = Self { down_deg: f64::INFINITY, most_deg: f64::INFINITY };
        all.into_iter().fold(none, |least, own| Self {
            down_deg: least.down_deg.min(own.down_deg),
            most_deg: least.most_deg.min(own.most_deg),
        })
    }

    /// `13° / 15°`, not to be broken.
    fn text(self) -> String {
        let down = down_text(Some(self.down_deg).filter(|&deg| deg > 0.0));
        format!("{down}\u{a0}/\u{a0}{}", at_most(self.most_deg))
    }
}

/// Use and never-beyond in every loading, from one table; nothing where she has but one.
fn in_each_loading(gathered: &Gathered) -> Vec<Block> {
    let boats = &gathered.size.boats;
    if boats.len() == 1 {
        return Vec::new();
    }
    let units = gathered.size.units;
    let rows = gathered.main_schedule();
    let cells = |row: &ScheduleRow| -> Vec<String> {
        (0..boats.len()).map(|loading| Held::at(gathered, loading, row.speed).text()).collect()
    };
    let all: Vec<Vec<String>> = rows.iter().map(cells).collect();
    let mut lines: Vec<[usize; 2]> = Vec::new();
    for loading in 0..rows.len() {
        match lines.last_mut() {
            Some([from, to]) if all[*from] == all[loading] => *to = loading,
            _ => lines.push([loading, loading]),
        }
    }
    let speeds =
        lines.iter().map(|&[from, to]| between(shown(units, &rows[from]), shown(units, &rows[to])));
    let mut columns = vec![Column::words("speed", speeds.collect()).in_unit(units.speed.symbol())];
    columns.extend(boats.iter().enumerate().map(|(loading, boat)| {
        let cells = lines.iter().map(|&[from, _]| all[from][loading].clone()).collect();
        Column::words(&format!("“{}”", boat.condition().name), cells)
    }));
    vec![Block::Table(Table {
        title: "In each of her loadings: planes down / never beyond".to_owned(),
        columns,
        ..Table::default()
    })]
}

/// The small table to keep at the helm.
pub(super) fn how_to_use(gathered: &Gathered) -> Vec<Block> {
    if gathered.advised.pair().is_none() {
        return Vec::new();
    }
    if gathered.is_short() || !gathered.has_settings() {
        let none = if gathered.is_short() { NONE_ADVISED } else { NO_SETTINGS };
        return vec![
            Block::Section("How to use them".to_owned()),
            Block::Paragraph(none.to_owned()),
        ];
    }
    let units = gathered.size.units;
    let main = gathered.main_loading();
    let all = stretches(gathered, gathered.main_schedule());
    let usable = degrees(gathered.size.suggestion.usable_deflection);
    let several = gathered.size.boats.len() > 1;
    let boat = &gathered.size.boats[main];
    let mut notes = vec![format!(
        "Straight ahead in calm water{}. Full travel is {usable:.0}°. ‘Never beyond’ keeps the bow from digging in, with 2° of trim left on the boat as described and less on half of those like her: stop before it where the bow drops. Between two lines it is the smaller of the two.",
        say::loaded(boat, several)
    )];
    if let Some(needed) = limits::governing_need(gathered) {
        notes.push(format!(
            "Take the settings as a beginning. Half of the boats like her need {} at the hardest moment for what is asked, and nine in ten {}; where she runs easier with a deeper setting, the table has the deeper one. Go by the bow, in small steps, and wait a few seconds after each; never past ‘never beyond’, even where it is not enough.",
            say::need_over(needed.median, gathered.size.suggestion.usable_deflection),
            say::needs(needed, gathered.dead_band(), gathered.size.suggestion.usable_deflection)
        ));
    }
    let mut blocks = vec![
        Block::Section("How to use them".to_owned()),
        Block::Table(Table { columns: settings(gathered, &all), notes, ..Table::default() }),
    ];
    blocks.extend(limits::porpoising(gathered).map(Block::Paragraph));
    blocks.extend(in_each_loading(gathered));
    blocks.extend(dash::card(gathered));
    blocks.push(Block::Terms(vec![
            Fact::new("Setting off", setting_off(&all, units)),
            Fact::new(
                "Running",
                "Raise them until the bow begins to lift or the boat feels loose, then give back a touch. Unless she nods: then lower them again, never past ‘never beyond’.",
            ),
            Fact::new(
                "A list",
                format!(
                    "Put down the plane on the low side, a little; the settings of the tables are the mean of the two planes.{} Take it out again before you turn hard or stop.",
                    levelled(gathered)
                ),
            ),
            Fact::new(
                "Head sea",
                "Slow down first; then a little more plane, never further than the tables allow, brings the bow down onto the waves and softens the ride.",
            ),
    ]));
    blocks
}

/// What to do with the planes from the first line of the table to the last, by its settings alone.
fn setting_off(all: &[Stretch<'_>], units: UnitChoice) -> String {
    let deg = |stretch: &Stretch<'_>| stretch.setting_deg.unwrap_or(0.0);
    let is_up = |stretch: &&Stretch<'_>| stretch.setting_deg.is_none();
    let first_down = all.iter().position(|stretch| stretch.setting_deg.is_some());
    let Some(first_down) = first_down else {
        return "Leave the planes up: no line of the table asks for them.".to_owned();
    };
    let begin = match first_down {
        0 => "Put the planes down as the first line of the table says before you open the throttle",
        _ => "Leave the planes up until the table asks for them",
    };
    let deeper = all[first_down..].windows(2).filter(|pair| deg(&pair[1]) > deg(&pair[0]));
    let deeper: Vec<String> = deeper.map(|pair| format!("at {}", pair[1].speeds(units))).collect();
    if deeper.is_empty() {
        let last_up = all[first_down..].iter().find(is_up);
        let end = last_up.map_or(String::new(), |stretch| {
            format!(
                "; from {} {} on they are up",
                shown(units, &stretch.rows[0]),
                units.speed.symbol()
            )
        });
        let follow = match all[first_down..].windows(2).any(|pair| deg(&pair[1]) < deg(&pair[0])) {
            false => "leave them so",
            true => "bring them up line by line as she goes faster",
        };
        return format!("{begin}, and {follow}{end}.");
    }
    format!(
        "{begin}, and follow it line by line: from one line to the next they go deeper {} {}, and nowhere else. Where the next line has less, raise them before you go faster.",
        listed(&deeper),
        units.speed.symbol()
    )
}

/// The two planes side by side for each list that they are to level.
fn levelled(gathered: &Gathered) -> String {
    let units = gathered.size.units;
    let settings = |result: &DutyResult| {
        let (cause, speed) = (result.duty.list_cause()?, result.speed);
        // In the loading of the table above, where it is asked there.
        let main = gathered.main_loading();
        let name = |loading: usize| &gathered.size.boats[loading].condition().name;
        let is_held = result.held_in.is_empty() || result.held_in.contains(name(main));
        let hardest =
            || (0..gathered.size.boats.len()).find(|&loading| *name(loading) == result.condition);
        let loading = if is_held { main } else { hardest()? };
        let boat = gathered.fitted(loading).ok()?;
        let mean = ScheduleRow::nearest(&gathered.schedules[loading], speed)?.deflection;
        let about = |mean: Angle| {
            let study = ListStudy::new(&boat, &gathered.size.settings, &[cause]).ok()?;
            study.with_mean(mean).at(speed).ok()
        };
        let mut point = about(mean)?;
        // The deeper plane must be able to go as far as it may take.
        let most = point.levelling.as_ref()?.ends[1].difference?.abs();
        let room = gathered.size.suggestion.usable_deflection - 0.5 * most;
        if mean > room {
            point = about(room.max(Angle::default()))?;
        }
        let levelling = point.levelling?;
        let [counted, otherwise] = counted(&point.contributions, cause);
        let [least, _] = &levelling.ends;
        // Whole degrees, not less apart than what levels her at least.
        let [port, starboard] = least.setting.map(degrees);
        let apart_deg = (starboard - port).abs().ceil();
        let higher = port.min(starboard).round();
        let [port, starboard] = match starboard > port {
            true => [higher, higher + apart_deg],
            false => [higher + apart_deg, higher],
        };
        let apart = levelling.ends.each_ref().map(|end| end.difference);
        let [least_apart, most_apart] = [apart[0]?, apart[1]?].map(|a| say::angle(a.abs()));
        let enough = match levelling.verdict {
            Verdict::NoList => return None,
            Verdict::Levels => "",
            _ => " That may not level her wholly.",
        };
        Some(format!(
            " At {} with {}{counted}: begin with port {port:.0}° and starboard {starboard:.0}°, and go by the horizon; it may take {least_apart} to {most_apart} between them.{enough}{otherwise}",
            say::speed(speed, units),
            cause_words(cause, units)
        ))
    };
    gathered.size.suggestion.duties.iter().filter_map(settings).collect()
}

/// What else of her file heels her and is counted with a list, and what to do when the weight is on the other side.
fn counted(contributions: &[Contribution], cause: ListCause) -> [String; 2] {
    let mut beside: Vec<String> = Vec::new();
    for contribution in contributions {
        let words = match contribution.cause {
            Cause::Asked(_) => continue,
            Cause::Load(_) | Cause::Weight => "her own weight off the centreline",
            Cause::Wind => "the wind of her file",
            Cause::Propellers => "the torque of her propellers",
        };
        if !beside.iter().any(|own| own == words) {
            beside.push(words.to_owned());
        }
    }
    let side = match cause {
        ListCause::OffCentre { distance, .. } if distance.value < 0.0 => "starboard",
        ListCause::OffCentre { .. } => "port",
        ListCause::Moment(_) => return [with_the(&beside), String::new()],
    };
    let otherwise = match beside.is_empty() {
        true => format!(" The other way round when the weight is to {side}."),
        false => format!(
            " When the weight is to {side}, where the rest heels her otherwise, begin with both up and go by the horizon."
        ),
    };
    [with_the(&beside), otherwise]
}

/// `, counting the wind of her file too`; nothing where nothing is counted beside the cause itself.
fn with_the(beside: &[String]) -> String {
    match beside {
        [] => String::new(),
        all => format!(", counting {} too", listed(all)),
    }
}
