//! A head sea told: how hard she rides with planes up and down, and the speed that keeps a limit.

mod short_form;

pub use short_form::short_form;

use uom::si::f64::{Acceleration, Length};

use super::words::{angle_text, section, speed_text};
use crate::balance::Point;
use crate::behaviour::seaway::{
    Fastest, Keeps, Limit, Peaks, Place, Ranged, Ride, Seaway, Seen, Stance, in_g,
};
use crate::boat::degrees;
use crate::document::{Block, Column, Table, fixed};
use crate::flag::{Flag, Flags};
use crate::hydro::seaway::{Departure, Quantity, highest_over_mean};
use crate::size::PairUsed;
use crate::units::{UnitChoice, number_with_decimals};

const MEANING: &str = "Irregular head seas. The wave height is the significant one, crest to trough: the mean of the \
highest third of the waves, about what a practised eye gives. An acceleration is the mean of all upward peaks, counted \
from smooth running, in g (free fall). Peaks are spread exponentially: the highest third of them average 2.1 times the \
mean, the highest tenth 3.3 times; large numbers only say that nobody would drive her so. Added resistance is what the \
waves add, on average, to that of calm water when the speed is kept. The trim is that of calm water; speed lost to the \
waves, and what hull and people bear, are not in it.";

const RANGES: &str = "A range holds nine in ten of the tank runs that the equations were fitted to (Fridsma 1971; Savitsky & \
Brown 1976). No acceleration is surer than a quarter more or less. The value by the equation may lie off the middle of \
its range: it reads low at the centre of gravity of slow boats, and high of fast ones. The runs were of models of plain \
form; what the trim is off by, and what a boat unlike them does, comes on top. Of two settings of the planes one \
compares by the change of trim, which is surer than either acceleration. No added resistance is given where no equation \
stands: below 2 and above 6 knots for each root of a foot of length, and for wide and heavy boats at the upper end.";

/// What not to forget in waves. Common practice, no source.
pub const SEA_CAUTION: &str = "In a following or quartering sea planes down can drive the bow under and make the boat broach: \
raise them before turning to run with the sea. They soften a head sea by taking trim off. Under 2 deg of trim a bow digs and \
steers even in a head sea; that is never advised. Slow down first.";

const SURELY: &str = "By the value of the equation, beyond which she is about as often as not; surely: by the upper end of its \
range, which one tank run in twenty exceeds.";

/// What is told: the boat in one loading condition, in waves.
#[derive(Clone, Copy, Debug)]
pub struct SeawayText<'a> {
    /// The answer.
    pub seen: &'a Seen,
    /// Her planes.
    pub pair: PairUsed,
    /// Units of the output.
    pub units: UnitChoice,
}

/// All of one loading condition, in reading order; [`caution`] belongs below the last.
#[must_use]
pub fn all(told: &SeawayText<'_>) -> Vec<Block> {
    [in_short, fastest, meaning, runs, by_speed, notes].iter().flat_map(|part| part(told)).collect()
}

fn height_text(told: &SeawayText<'_>, height: Length) -> String {
    let unit = told.units.length;
    format!("{} {}", number_with_decimals(unit.value(height), 2), unit.symbol())
}

/// An acceleration with its range: `0.62 g (0.41 to 0.79)`.
fn g_text(peak: Ranged<f64>) -> String {
    format!("{} g ({})", number_with_decimals(peak.value, 2), span(peak, 2))
}

/// Both ends of a range: `0.41 to 0.79`.
fn span(range: Ranged<f64>, decimals: usize) -> String {
    ends(range, decimals).join(" to ")
}

fn ends(range: Ranged<f64>, decimals: usize) -> [String; 2] {
    [range.low, range.high].map(|end| number_with_decimals(end, decimals))
}

/// The mean of the highest tenth of the peaks.
fn tenth(peak: Ranged<Acceleration>) -> Ranged<f64> {
    peak.map(|mean| in_g(mean) * highest_over_mean(10.0))
}

/// One speed and one wave height in words, and where the planes come from.
#[must_use]
pub fn in_short(told: &SeawayText<'_>) -> Vec<Block> {
    let sentences = [usual(told), planes(told)].into_iter().filter(|text| !text.is_empty());
    section("In short", sentences.map(Block::Paragraph).collect())
}

fn usual(told: &SeawayText<'_>) -> String {
    usual_in_two(told).concat()
}

/// The mean peak at one speed, and what else belongs to that.
fn usual_in_two(told: &SeawayText<'_>) -> [String; 2] {
    let sea = told.seen.sea();
    let height = told.seen.usual_wave_height();
    let only = |text: &str| [text.to_owned(), String::new()];
    let Some(row) = told.seen.usual_stance() else {
        return only("She runs in balance at none of these speeds.");
    };
    let Some(up) = sea.ride(&row.up, height) else { return only("") };
    let mut text = format!(
        "At {} in waves of {} the mean peak at the centre of gravity is {} with planes up",
        speed_text(row.up.speed, told.units),
        height_text(told, height),
        g_text(up.centre.map(in_g))
    );
    let lowered = row.down.as_ref().filter(|down| degrees(down.deflection) > 0.0);
    let mut rides = vec![(&row.up, up.clone())];
    match lowered.and_then(|down| Some((down, sea.ride(down, height)?))) {
        Some((down, ride)) => {
            let less = 100.0 * (1.0 - (ride.centre.value / up.centre.value).value);
            text.push_str(&format!(
                " and {} with planes {} down, {less:.0} % softer",
                g_text(ride.centre.map(in_g)),
                angle_text(down.deflection)
            ));
            rides.push((down, ride));
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
    let tenths: Vec<_> = rides.iter().map(|(_, ride)| g_text(tenth(ride.centre))).collect();
    text.push('.');
    let more = format!(
        " The highest tenth of the peaks average {}. The bow takes {} times as much.{}",
        tenths.join(" and "),
        number_with_decimals((up.bow.value / up.centre.value).value, 1),
        added(&rides, told.units)
    );
    [text, more]
}

/// What the waves add to the resistance; nothing where no equation stands.
fn added(rides: &[(&Point, Ride)], units: UnitChoice) -> String {
    let unit = units.force;
    let one = |(point, ride): &(&Point, Ride)| {
        let added = ride.added_resistance?.map(|force| unit.value(force));
        let calm = unit.value(point.running?.resistance);
        let decimals = force_decimals(calm);
        let planes = match degrees(point.deflection) {
            0.0 => "",
            _ => " with planes down",
        };
        Some(format!(
            "{} {symbol} ({}) to the {} {symbol} of calm water{planes}",
            number_with_decimals(added.value, decimals),
            span(added, decimals),
            number_with_decimals(calm, decimals),
            symbol = unit.symbol(),
        ))
    };
    let texts: Vec<_> = rides.iter().filter_map(one).collect();
    if texts.is_empty() {
        return String::new();
    }
    format!(" The waves add {}.", texts.join(", and "))
}

/// Decimals that show forces of a size to three digits.
fn force_decimals(largest: f64) -> usize {
    match largest {
        x if x < 10.0 => 2,
        x if x < 100.0 => 1,
        _ => 0,
    }
}

fn planes(told: &SeawayText<'_>) -> String {
    let pair = format!("Planes: {}.", told.pair.sentence(told.units));
    if told.pair.pair.is_none() {
        return pair;
    }
    format!(
        "{pair} With planes down they are lowered until she runs at {} of trim, no further than the hardware and a safe run allow.",
        angle_text(told.seen.down_to)
    )
}

/// The fastest that keeps the limit in each height of waves; nothing without a limit.
#[must_use]
pub fn fastest(told: &SeawayText<'_>) -> Vec<Block> {
    let Some(limit) = &told.seen.limit else { return Vec::new() };
    let cell = |keeps: Option<Keeps>| match keeps {
        None => "-".to_owned(),
        Some(Keeps::Throughout) => "top speed".to_owned(),
        Some(Keeps::UpTo(speed)) => speed_text(speed, told.units),
        Some(Keeps::Nowhere) => "below planing".to_owned(),
        Some(Keeps::NeverRuns) => "she does not run".to_owned(),
    };
    let heights = told.seen.fastest.iter().map(|row| height_text(told, row.wave_height)).collect();
    let column = |name: &str, pick: fn(&Fastest) -> Option<Keeps>| {
        Column::words(name, told.seen.fastest.iter().map(|row| cell(pick(row))).collect())
    };
    let mut columns = vec![
        Column::words("waves", heights),
        column("planes up", |row| Some(row.up.expected)),
        column("surely", |row| Some(row.up.surely)),
    ];
    if told.seen.boat.planes().is_some() {
        columns.push(column("planes down", |row| row.down.map(|down| down.expected)));
        columns.push(column("surely", |row| row.down.map(|down| down.surely)));
    }
    let notes = vec![SURELY.to_owned()];
    let table = Block::Table(Table { columns, notes, ..Table::default() });
    section(&limit_text(limit), vec![table])
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
    format!(
        "Fastest that keeps {peaks} at the {place} within {} g",
        number_with_decimals(in_g(limit.most), 2)
    )
}

/// What the numbers mean, and what of the boat lies outside the tests.
#[must_use]
pub fn meaning(told: &SeawayText<'_>) -> Vec<Block> {
    let beyond = beyond_for_boat(told, departure_text).into_iter().collect();
    let [meaning, ranges] = [MEANING, RANGES].map(|text| Block::Paragraph(text.to_owned()));
    section("What the numbers are", vec![meaning, ranges, Block::Warnings(beyond)])
}

/// What of the boat herself lies outside the tests.
fn beyond_for_boat(told: &SeawayText<'_>, text: fn(&Departure) -> String) -> Option<String> {
    let texts: Vec<_> = told.seen.sea().departures().iter().map(text).collect();
    (!texts.is_empty()).then(|| {
        format!(
            "EXTRAPOLATED for this boat: {}. Compare rather than trust the numbers.",
            texts.join("; ")
        )
    })
}

/// Its name alone, without what it is counted in.
fn departure_name(beyond: &Departure) -> String {
    name_of(beyond.quantity).split(',').next().unwrap_or_default().to_owned()
}

const fn name_of(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::DisplacementOverLength => "displacement over (length/100)^3, long tons and feet,",
        Quantity::LengthOverBeam => "bottom length over beam",
        Quantity::Deadrise => "deadrise, deg,",
        Quantity::Trim => "trim, deg,",
        Quantity::WaveHeightOverBeam => "wave height over beam",
        Quantity::SpeedOverRootLength => "speed over root length, kn/ft^0.5,",
    }
}

fn departure_text(beyond: &Departure) -> String {
    let name = name_of(beyond.quantity);
    let [low, high] = beyond.tested;
    format!("{name} {} where {low} to {high} was tested", number_with_decimals(beyond.value, 2))
}

/// Every speed in each height of waves: ranges.
#[must_use]
pub fn by_speed(told: &SeawayText<'_>) -> Vec<Block> {
    told.seen.waves.iter().flat_map(|&height| in_waves(told, height)).collect()
}

fn in_waves(told: &SeawayText<'_>, height: Length) -> Vec<Block> {
    let share = (height / told.seen.boat.hull().chine_beam).value;
    let [low, high] = Quantity::WaveHeightOverBeam.tested();
    let mut title = format!("Waves of {}, {share:.2} of the beam", height_text(told, height));
    if !(low - 1e-9..=high + 1e-9).contains(&share) {
        title.push_str(&format!(" (EXTRAPOLATED: {low} to {high} was tested)"));
    }
    let columns = columns(told, height);
    section(&title, vec![Block::Table(Table { columns, ..Table::default() })])
}

/// Accelerations and added resistance with planes up, and down.
fn columns(told: &SeawayText<'_>, height: Length) -> Vec<Column> {
    let sea = told.seen.sea();
    let rows = &told.seen.stances;
    let unit = told.units.speed;
    let speeds: Vec<_> = rows.iter().map(|row| Some(unit.value(row.up.speed))).collect();
    let mut columns = vec![Column::numbers("speed", unit.symbol(), fixed(&speeds, 1))];
    let mut of = |set: &str, pick: fn(&Stance) -> Option<&Point>| {
        let rides: Vec<_> = rows.iter().map(|row| sea.ride(pick(row)?, height)).collect();
        columns.extend(ranges(&rides, set, told.units));
    };
    of("up", |row| Some(&row.up));
    if told.seen.boat.planes().is_some() {
        of("down", |row| row.down.as_ref());
    }
    columns
}

/// The ranges of the rides with the planes set one way.
fn ranges(rides: &[Option<Ride>], set: &str, units: UnitChoice) -> [Column; 3] {
    let cells = |decimals: usize, of: &dyn Fn(&Ride) -> Option<Ranged<f64>>| {
        let cell = |ride: &Option<Ride>| {
            let range = ride.as_ref().and_then(of);
            range.map_or("-".to_owned(), |range| ends(range, decimals).join("-"))
        };
        rides.iter().map(cell).collect()
    };
    let unit = units.force;
    let added = |ride: &Ride| Some(ride.added_resistance?.map(|force| unit.value(force)));
    let largest =
        rides.iter().flatten().filter_map(added).fold(0.0, |most, one| one.high.max(most));
    let head = |symbol: &str| format!("{symbol}, {set}");
    [
        Column::numbers("centre", &head("g"), cells(2, &|ride| Some(ride.centre.map(in_g)))),
        Column::numbers("bow", &head("g"), cells(2, &|ride| Some(ride.bow.map(in_g)))),
        Column::numbers("added", &head(unit.symbol()), cells(force_decimals(largest), &added)),
    ]
}

/// How she runs in calm water at every speed: what the rides in all waves follow from.
#[must_use]
pub fn runs(told: &SeawayText<'_>) -> Vec<Block> {
    let sea = told.seen.sea();
    let (rows, height) = (&told.seen.stances, told.seen.usual_wave_height());
    let unit = told.units.speed;
    let speeds: Vec<_> = rows.iter().map(|row| Some(unit.value(row.up.speed))).collect();
    let trims = |pick: fn(&Stance) -> Option<&Point>| {
        let trim = |row: &Stance| Some(degrees(pick(row)?.running?.trim));
        fixed(&rows.iter().map(trim).collect::<Vec<_>>(), 1)
    };
    let mut columns = vec![
        Column::numbers("speed", unit.symbol(), fixed(&speeds, 1)),
        Column::numbers("trim", "deg, up", trims(|row| Some(&row.up))),
    ];
    if told.seen.boat.planes().is_some() {
        let change = |row: &Stance| {
            let [up, down] = [Some(&row.up), row.down.as_ref()];
            let (up, down) = (sea.ride(up?, height)?, sea.ride(down?, height)?);
            Some(100.0 * ((down.centre.value / up.centre.value).value - 1.0))
        };
        columns.extend([
            Column::numbers("planes", "deg", rows.iter().map(deflection_cell).collect()),
            Column::numbers("trim", "deg, down", trims(|row| row.down.as_ref())),
            Column::numbers(
                "change of g",
                "%",
                fixed(&rows.iter().map(change).collect::<Vec<_>>(), 0),
            ),
        ]);
    }
    let beyond = rows.iter().map(|row| beyond_cell(&sea, row, height)).collect();
    let beyond = Column::words("not tested", beyond);
    if !beyond.is_blank() {
        columns.push(beyond);
    }
    let table = Block::Table(Table { columns, ..Table::default() });
    section("How she runs, whatever the waves", vec![table])
}

fn deflection_cell(row: &Stance) -> String {
    row.down.as_ref().map_or("-".to_owned(), |down| match degrees(down.deflection) {
        0.0 => "up".to_owned(),
        deflection_deg => number_with_decimals(deflection_deg, 1),
    })
}

/// What of the speed and its trims lies outside the tests; what holds for the whole table is said above it.
fn beyond_cell(sea: &Seaway<'_>, row: &Stance, height: Length) -> String {
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
#[must_use]
pub fn flags(told: &SeawayText<'_>) -> Vec<Flag> {
    let sea = told.seen.sea();
    let mut all = Flags::default();
    for row in &told.seen.stances {
        for point in std::iter::once(&row.up).chain(&row.down) {
            all = all.union(point.flags);
            for &height in &told.seen.waves {
                all = all.union(sea.ride(point, height).map(|r| r.flags).unwrap_or_default());
            }
        }
    }
    all.iter().collect()
}

/// Flags, and what of the boat is estimated.
#[must_use]
pub fn notes(told: &SeawayText<'_>) -> Vec<Block> {
    let mut points: Vec<String> = flags(told).into_iter().map(Flag::line).collect();
    points.extend(told.seen.boat.estimates().iter().map(|estimate| {
        format!(
            "ESTIMATED: {} is taken as {} ({} .. {} is likely): {}.",
            estimate.key, estimate.value, estimate.low, estimate.high, estimate.rule
        )
    }));
    section(super::NOTES, vec![Block::Points(points)])
}

/// What not to forget in waves, the same for every boat.
#[must_use]
pub fn caution() -> Vec<Block> {
    let title = "Before you run with the sea".to_owned();
    vec![Block::Caution { title, points: vec![SEA_CAUTION.to_owned()] }]
}
