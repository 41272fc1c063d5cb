//! The card "measure these three things": how, with a picture for each, and what each narrows on this very boat.

use uom::si::f64::Angle;

use super::ReportError;
use super::gather::{Gathered, Hump};
use super::say;
use crate::boat::{Boat, Source, Toleranced};
use crate::document::{Block, Column, Fact, Picture, Table};
use crate::doubt::{Basis, Drawn, Likely, Measured, What, measured};
use crate::picture::{Measuring, measuring};

/// A range that loses less of its width than this reads as it did.
const WORTH_TELLING: f64 = 0.05;
/// Rank correlation from which a trim follows a value clearly.
const CLEAR: f64 = 0.2;

/// What is measured, and what it is called in the table.
const MEASURED: [(Measuring, Toleranced, &str); 3] = [
    (Measuring::Deadrise, Toleranced::Deadrise, "deadrise"),
    (Measuring::ChineBeam, Toleranced::ChineBeam, "chine beam"),
    (Measuring::CentreOfGravity, Toleranced::Lcg, "centre of gravity (LCG)"),
];

/// The card.
pub(super) fn measure_these(gathered: &Gathered) -> Result<Vec<Block>, ReportError> {
    let boat = gathered.boat();
    let mut blocks = vec![
        Block::NewPage,
        Block::Section("Measure these three things".to_owned()),
        Block::Paragraph("Ten minutes each, on trailer or chocks, her keel level. Write what you find, with its unit, into the boat file.".to_owned()),
        Block::Pictures(MEASURED.iter().map(|(what, ..)| picture(boat, *what)).collect()),
        Block::Terms(how()),
    ];
    if let Some(hump) = &gathered.hump {
        blocks.extend(narrowing(gathered, hump)?);
    }
    blocks
        .push(Block::Caution { title: "Before you lift or weigh".to_owned(), points: cautions() });
    Ok(blocks)
}

fn picture(boat: &Boat, what: Measuring) -> Picture {
    let caption = match what {
        Measuring::Deadrise => "Deadrise: read on each side.",
        Measuring::ChineBeam => "Chine beam: two plumb lines.",
        Measuring::CentreOfGravity => "LCG: weighed at two points.",
    };
    Picture {
        svg: measuring(boat, what),
        caption: caption.to_owned(),
        description: what.description().to_owned(),
    }
}

/// How each is measured, and under which key it is written. Common practice, no source.
fn how() -> Vec<Fact> {
    vec![
        Fact::new(
            "Deadrise",
            "How steep the V of the bottom is. Half way along the chine, clear of strakes, hold a telephone's angle meter against it square to the keel, on one side, then on the other: half the sum, even if she leans a little. Write deadrise below [hull].",
        ),
        Fact::new(
            "Chine beam",
            "How broad the bottom is between the chines, the corners where it meets the sides. Where that is most, hang a plumb line from each and measure between the two on the floor; rails that stand out do not count. Write chine_beam below [hull].",
        ),
        Fact::new(
            "Centre of gravity",
            "How far ahead of the transom her weight lies (LCG). Loaded as you run, on two scales that read A and F, a and L apart as in the picture; A + F is her mass. On a trailer the wheels are A and the coupling is F: take off what the trailer alone shows. Write lcg and mass below [weight]. Without scales: mark the waterline at rest at the transom and well forward, measure up to the marks from the keel ashore, and write them below [afloat].",
        ),
    ]
}

/// What each narrows, about the values used now.
fn narrowing(gathered: &Gathered, hump: &Hump) -> Result<Vec<Block>, ReportError> {
    let settings = &gathered.size.settings;
    let drawn = Drawn { draws: hump.up.request.draws, seed: hump.up.request.seed };
    let of = |known: &[Toleranced]| {
        measured(&hump.boat, settings, (hump.speed, hump.deflection), known, drawn)
    };
    let all: Vec<Toleranced> = MEASURED.iter().map(|(_, of, _)| *of).collect();
    let mut rows: Vec<(String, Measured)> = vec![("as she is known now".to_owned(), of(&[])?)];
    for (_, value, name) in MEASURED {
        let known = hump.up.inputs.iter().find(|input| input.what.word() == value.key());
        let is_known = known.is_none_or(|input| {
            matches!(input.basis, Basis::Stated | Basis::Source(Source::Measured | Source::Weighed))
        });
        let name = format!("{name} {}", if is_known { "(known already)" } else { "measured" });
        rows.push((name, of(&[value])?));
    }
    rows.push(("all three measured".to_owned(), of(&all)?));
    let column = |of: fn(&Measured) -> Option<Likely<Angle>>| {
        let now = of(&rows[0].1);
        let cell = |(index, row): (usize, &Option<Likely<Angle>>)| match (row, now) {
            (None, _) => "-".to_owned(),
            (Some(row), Some(now)) if index > 0 && is_as_wide(*row, now) => {
                "hardly narrower".to_owned()
            }
            (Some(row), _) => say::angles(*row),
        };
        let all: Vec<_> = rows.iter().map(|(_, row)| of(row)).collect();
        all.iter().enumerate().map(cell).collect::<Vec<_>>()
    };
    let mut columns = vec![
        Column::words("", rows.iter().map(|(name, _)| name.clone()).collect()),
        Column::words("bow up, planes up", column(|row| row.trim)),
    ];
    if gathered.has_settings() && rows[0].1.relief.is_some() {
        let name = format!("planes {} down take off", say::set(hump.deflection));
        columns.push(Column::words(&name, column(|row| row.relief)));
    }
    let title = format!(
        "What each narrows on this boat, at {}, where her bow is highest{}",
        say::speed(hump.speed, gathered.size.units),
        say::loaded(&hump.boat, gathered.size.boats.len() > 1)
    );
    let about = "Nine in ten boats nearly like her, about the values used now; what you find may also move the middle.";
    let rest = match (&hump.up.seen, gathered.has_settings()) {
        (None, _) => {
            "The rest is mostly the equations: only a trim read on the water narrows those."
        }
        (Some(_), true) => "What was read on the water has narrowed it already.",
        (Some(_), false) => {
            "What was read on the water has narrowed it already; measure all the same: it tells which of her values is off, and until that is known there are no settings."
        }
    };
    let notes = vec![format!("{about} {rest}")];
    let table = Block::Table(Table { title, columns, notes, ..Table::default() });
    Ok(std::iter::once(table).chain(beside(hump).map(Block::Paragraph)).collect())
}

/// What else can be measured ashore that her trim at the hump follows clearly.
fn beside(hump: &Hump) -> Option<String> {
    let is_on_card = |what: What| MEASURED.iter().any(|(_, of, _)| what == What::Value(*of));
    let follows = hump.up.hump_trim.as_ref()?;
    let mut ashore = follows.of.iter().filter(|own| own.what.is_found_ashore());
    let first = ashore.find(|own| !is_on_card(own.what))?;
    (first.rank_correlation.abs() >= CLEAR)
        .then(|| format!("Beside these her {} counts: {}.", first.what.name(), first.what.remedy()))
}

/// Whether a range is hardly narrower than another.
fn is_as_wide(range: Likely<Angle>, other: Likely<Angle>) -> bool {
    let width = |range: Likely<Angle>| range.high - range.low;
    width(range) > (1.0 - WORTH_TELLING) * width(other)
}

/// Common practice, no source.
fn cautions() -> Vec<String> {
    [
        "Lifting, slinging and setting down a boat is work for a yard or a licensed lift: her strong points, the slings and the load are theirs to judge, and local rules hold.",
        "Nobody aboard or under her while she hangs, and never under a boat that a jack alone holds. Chock the wheels; a boat on two supports can tip.",
        "Drain the bilge and know what is in the tanks: what sloshes falsifies the scale.",
    ]
    .map(str::to_owned)
    .to_vec()
}
