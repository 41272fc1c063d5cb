//! The answer as text for a person.

use uom::si::f64::{Angle, Length, Velocity};

use super::{Origin, Seen};
use crate::balance::Point;
use crate::behaviour::seaway::{Keeps, Limit, Peaks, Place, Ride, Stance, in_g};
use crate::boat::degrees;
use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::cli::table::{Column, fixed, table};
use crate::flag::{Flag, Flags};
use crate::hydro::seaway::{Departure, Quantity, highest_over_mean};
use crate::units::number_with_decimals;

const MEANING: &str = "Irregular head seas. The wave height is the significant one, crest to trough: the mean of the \
highest third of the waves, about what a practised eye gives. An acceleration is the mean of all upward peaks, counted \
from smooth running, in g (free fall). Peaks are spread exponentially: the highest third of them average 2.1 times the \
mean, the highest tenth 3.3 times; large numbers only say that nobody would drive her so. The trim is that of calm water; speed lost to the waves, and what hull and \
people bear, are not in it.";

/// What closes the text before the usual caution.
pub(super) const SEA_CAUTION: &str = "Planes down soften a head sea by taking trim off, and in a following or quartering sea they can \
drive the bow under and make the boat broach: raise them before turning to run with the sea. Under 2 deg of trim a bow \
digs and steers even in a head sea; that is never advised. Slow down first.";

/// All of it, one loading condition after the other.
pub(super) fn report(all: &[Seen], screen: Screen) -> String {
    let blocks: Vec<String> = all.iter().map(|seen| block(seen, screen)).collect();
    let cautions = [SEA_CAUTION, CAUTION].map(|caution| paragraph("", caution));
    format!("{}\n{}", blocks.join("\n\n"), cautions.join("\n"))
}

/// One loading condition.
fn block(seen: &Seen, screen: Screen) -> String {
    let mut text = format!("{}\n", screen.heading(&seen.boat.full_name()));
    if let Some(scenario) = &seen.boat.input().scenario {
        text.push_str(&paragraph("", scenario));
    }
    text.push_str(&format!("\n{}\n", screen.heading("In short")));
    text.push_str(&paragraph("  ", &in_short(seen)));
    text.push_str(&paragraph("  ", &planes(seen)));
    text.push_str(&fastest(seen, screen));
    text.push_str(&format!("\n{}\n", screen.heading("What the numbers are")));
    text.push_str(&paragraph("  ", MEANING));
    if let Some(beyond) = beyond_for_boat(seen) {
        text.push_str(&paragraph("  ", &screen.warning(&beyond)));
    }
    for &height in &seen.waves {
        text.push_str(&in_waves(seen, height, screen));
    }
    text.push_str(&notes(seen, screen));
    text
}

fn speed_text(seen: &Seen, speed: Velocity) -> String {
    let unit = seen.units.speed;
    format!("{} {}", number_with_decimals(unit.value(speed), 1), unit.symbol())
}

fn height_text(seen: &Seen, height: Length) -> String {
    let unit = seen.units.length;
    format!("{} {}", number_with_decimals(unit.value(height), 2), unit.symbol())
}

fn g_text(g: f64) -> String {
    format!("{} g", number_with_decimals(g, 2))
}

fn angle_text(angle: Angle) -> String {
    format!("{} deg", number_with_decimals(degrees(angle), 1))
}

/// One speed and one wave height in words.
fn in_short(seen: &Seen) -> String {
    let sea = seen.sea();
    let height = seen.usual_wave_height();
    let Some(row) = seen.usual_row() else {
        return "She runs in balance at none of these speeds.".to_owned();
    };
    let Some(up) = sea.ride(&row.up, height) else { return String::new() };
    let mut text = format!(
        "At {} in waves of {} the mean peak at the centre of gravity is {} with planes up",
        speed_text(seen, row.up.speed),
        height_text(seen, height),
        g_text(in_g(up.centre))
    );
    let lowered = row.down.as_ref().filter(|down| degrees(down.deflection) > 0.0);
    let mut tenths = vec![in_g(up.centre) * highest_over_mean(10.0)];
    match lowered.and_then(|down| Some((down, sea.ride(down, height)?))) {
        Some((down, ride)) => {
            let less = 100.0 * (1.0 - (ride.centre / up.centre).value);
            text.push_str(&format!(
                " and {} with planes {} down, {less:.0} % softer",
                g_text(in_g(ride.centre)),
                angle_text(down.deflection)
            ));
            tenths.push(in_g(ride.centre) * highest_over_mean(10.0));
        }
        None if row.down.is_some() => {
            let trim = row.up.running.map(|running| angle_text(running.trim));
            text.push_str(&format!(
                "; she runs at {} there, and planes stay up",
                trim.unwrap_or_default()
            ));
        }
        None => {}
    }
    let tenths: Vec<_> = tenths.into_iter().map(g_text).collect();
    text.push_str(&format!(
        ". The highest tenth of the peaks average {}. The bow takes {} times as much.",
        tenths.join(" and "),
        number_with_decimals((up.bow / up.centre).value, 1)
    ));
    text
}

fn planes(seen: &Seen) -> String {
    let pair = seen.boat.planes().map(|pair| pair.text(seen.units));
    let from = match (seen.origin, pair) {
        (Origin::BoatFile, Some(pair)) => format!("Planes fitted: {pair}."),
        (Origin::Suggested, Some(pair)) => format!(
            "The boat file has no planes; the pair that `planewright size` names is used: {pair}."
        ),
        _ => return "No planes are fitted, and none can be suggested.".to_owned(),
    };
    format!(
        "{from} With planes down they are lowered until she runs at {} of trim, no further than the hardware and a safe run allow.",
        angle_text(seen.down_to)
    )
}

fn fastest(seen: &Seen, screen: Screen) -> String {
    let Some(limit) = &seen.limit else { return String::new() };
    let cell = |keeps: Option<Keeps>| match keeps {
        None => "-".to_owned(),
        Some(Keeps::Throughout) => "top speed".to_owned(),
        Some(Keeps::UpTo(speed)) => speed_text(seen, speed),
        Some(Keeps::Nowhere) => "none at which she planes".to_owned(),
        Some(Keeps::NeverRuns) => "she does not run".to_owned(),
    };
    let heights = seen.fastest.iter().map(|row| height_text(seen, row.wave_height)).collect();
    let mut columns = vec![
        Column::words("waves", heights),
        Column::words("planes up", seen.fastest.iter().map(|row| cell(Some(row.up))).collect()),
    ];
    if seen.boat.planes().is_some() {
        let down = seen.fastest.iter().map(|row| cell(row.down)).collect();
        columns.push(Column::words("planes down", down));
    }
    format!("\n{}\n{}", screen.heading(&limit_text(limit)), table(&columns, screen))
}

fn limit_text(limit: &Limit) -> String {
    let peaks = match limit.peaks {
        Peaks::All => "the mean of all peaks",
        Peaks::Third => "the mean of the highest third of the peaks",
        Peaks::Tenth => "the mean of the highest tenth of the peaks",
    };
    let place = match limit.place {
        Place::Centre => "centre of gravity",
        Place::Bow => "bow",
    };
    format!("Fastest that keeps {peaks} at the {place} within {}", g_text(in_g(limit.most)))
}

/// What of the boat herself lies outside the tests.
fn beyond_for_boat(seen: &Seen) -> Option<String> {
    let texts: Vec<_> = seen.sea().departures().iter().map(departure_text).collect();
    (!texts.is_empty()).then(|| {
        format!(
            "EXTRAPOLATED for this boat: {}. Compare rather than trust the numbers.",
            texts.join("; ")
        )
    })
}

fn departure_text(beyond: &Departure) -> String {
    let name = match beyond.quantity {
        Quantity::LoadCoefficient => "load coefficient",
        Quantity::LengthOverBeam => "bottom length over beam",
        Quantity::Deadrise => "deadrise, deg,",
        Quantity::Trim => "trim, deg,",
        Quantity::WaveHeightOverBeam => "wave height over beam",
        Quantity::SpeedOverRootLength => "speed over root length, kn/ft^0.5,",
    };
    let [low, high] = beyond.tested;
    format!("{name} {} where {low} to {high} was tested", number_with_decimals(beyond.value, 2))
}

fn in_waves(seen: &Seen, height: Length, screen: Screen) -> String {
    let share = (height / seen.boat.hull().chine_beam).value;
    let [low, high] = Quantity::WaveHeightOverBeam.tested();
    let mut title = format!("Waves of {}, {share:.2} of the beam", height_text(seen, height));
    if !(low - 1e-9..=high + 1e-9).contains(&share) {
        title.push_str(&format!(" (EXTRAPOLATED: {low} to {high} was tested)"));
    }
    format!("\n{}\n{}", screen.heading(&title), table(&columns(seen, height), screen))
}

fn columns(seen: &Seen, height: Length) -> Vec<Column> {
    let sea = seen.sea();
    let rows = &seen.stances;
    let rides = |pick: fn(&Stance) -> Option<&Point>| -> Vec<Option<Ride>> {
        rows.iter().map(|row| sea.ride(pick(row)?, height)).collect()
    };
    let trims = |pick: fn(&Stance) -> Option<&Point>| {
        let trim = |row: &Stance| Some(degrees(pick(row)?.running?.trim));
        fixed(&rows.iter().map(trim).collect::<Vec<_>>(), 1)
    };
    let values = |rides: &[Option<Ride>], value: &dyn Fn(&Ride) -> f64| {
        fixed(&rides.iter().map(|ride| ride.as_ref().map(value)).collect::<Vec<_>>(), 2)
    };
    let [centre, bow]: [fn(&Ride) -> f64; 2] = [|r| in_g(r.centre), |r| in_g(r.bow)];
    let unit = seen.units.speed;
    let speeds: Vec<_> = rows.iter().map(|row| Some(unit.value(row.up.speed))).collect();
    let up = rides(|row| Some(&row.up));
    let mut columns = vec![
        Column::numbers("speed", unit.symbol(), fixed(&speeds, 1)),
        Column::numbers("trim", "deg, up", trims(|row| Some(&row.up))),
        Column::numbers("centre", "g", values(&up, &centre)),
        Column::numbers("bow", "g", values(&up, &bow)),
    ];
    if seen.boat.planes().is_some() {
        let down = rides(|row| row.down.as_ref());
        let change = up.iter().zip(&down).map(|pair| match pair {
            (Some(up), Some(down)) => Some(100.0 * ((down.centre / up.centre).value - 1.0)),
            _ => None,
        });
        columns.extend([
            Column::numbers("planes", "deg", rows.iter().map(deflection_cell).collect()),
            Column::numbers("trim", "deg, down", trims(|row| row.down.as_ref())),
            Column::numbers("centre", "g", values(&down, &centre)),
            Column::numbers("bow", "g", values(&down, &bow)),
            Column::numbers("change", "%", fixed(&change.collect::<Vec<_>>(), 0)),
        ]);
    }
    let beyond = rows.iter().map(|row| beyond_cell(&sea, row, height)).collect();
    let beyond = Column::words("not tested", beyond);
    if !beyond.is_blank() {
        columns.push(beyond);
    }
    columns
}

fn deflection_cell(row: &Stance) -> String {
    row.down.as_ref().map_or("-".to_owned(), |down| match degrees(down.deflection) {
        0.0 => "up".to_owned(),
        deflection_deg => number_with_decimals(deflection_deg, 1),
    })
}

/// What of the speed and its trims lies outside the tests; what holds for the whole table is said above it.
fn beyond_cell(sea: &crate::behaviour::seaway::Seaway<'_>, row: &Stance, height: Length) -> String {
    let has = |point: &Point, quantity: Quantity| {
        sea.ride(point, height)
            .is_some_and(|ride| ride.departures.iter().any(|beyond| beyond.quantity == quantity))
    };
    let up = has(&row.up, Quantity::Trim);
    let down = row.down.as_ref().is_some_and(|down| has(down, Quantity::Trim));
    let mut words = Vec::new();
    match (up, down) {
        (true, true) => words.push("trim"),
        (true, false) => words.push("trim up"),
        (false, true) => words.push("trim down"),
        (false, false) => {}
    }
    if has(&row.up, Quantity::SpeedOverRootLength) {
        words.push("speed");
    }
    words.join(", ")
}

/// Flags of every run and ride, with planes up and down.
pub(super) fn flags(seen: &Seen) -> Vec<Flag> {
    let sea = seen.sea();
    let mut all = Flags::default();
    for row in &seen.stances {
        for point in std::iter::once(&row.up).chain(&row.down) {
            all = all.union(point.flags);
            for &height in &seen.waves {
                all = all.union(sea.ride(point, height).map(|r| r.flags).unwrap_or_default());
            }
        }
    }
    all.iter().collect()
}

fn notes(seen: &Seen, screen: Screen) -> String {
    let mut text = String::new();
    for flag in flags(seen) {
        text.push_str(&paragraph("  - ", &format!("{flag}: {}", flag.meaning())));
    }
    for estimate in seen.boat.estimates() {
        let line = format!(
            "ESTIMATED: {} is taken as {} ({} .. {} is likely): {}.",
            estimate.key, estimate.value, estimate.low, estimate.high, estimate.rule
        );
        text.push_str(&paragraph("  - ", &line));
    }
    for warning in &seen.file.warnings {
        text.push_str(&paragraph("  ! ", &screen.warning(&warning.to_string())));
    }
    text.push_str(&super::super::charts_text(&seen.charts));
    if !text.is_empty() {
        text.insert_str(0, &format!("\n{}\n", screen.heading("Notes")));
    }
    text
}
