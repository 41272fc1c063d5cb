//! How sure: likely ranges, what they follow, and how the equations stood against published tests.

use crate::boat::degrees;
use crate::document::{Block, Column, Table, fixed};
use crate::doubt::calibrate::{coverage, printed};
use crate::doubt::{Influence, Likely, PairDoubt, RunningDoubt, SpeedDoubt};
use crate::report::gather::Gathered;
use crate::report::say;
use crate::size::sentence;

/// Influences shown.
const SHOWN: usize = 8;

pub(super) fn section(gathered: &Gathered) -> Vec<Block> {
    let mut blocks = vec![Block::Section("How sure".to_owned())];
    blocks.push(Block::Paragraph(format!(
        "{} boats nearly like this one were drawn (seed {}), each off by as much as her values and the equations may be. Of every number the median is given, and the range that holds nine in ten.",
        gathered.duties.drawn.draws, gathered.duties.drawn.seed
    )));
    if !gathered.duties.duties.is_empty() {
        blocks.push(Block::Table(duties(gathered)));
        if !gathered.duties.needs.is_empty() {
            blocks.push(Block::Table(needs(gathered)));
        }
    }
    if let Some(hump) = &gathered.hump {
        blocks.push(Block::Table(speeds(gathered, &hump.up, "Planes up".to_owned())));
        if let Some(down) = &hump.down {
            let title = format!("Planes {} down", say::angle(hump.deflection));
            blocks.push(Block::Table(speeds(gathered, down, title)));
        }
        blocks.extend(influences(gathered, &hump.up).map(Block::Table));
    }
    blocks.push(Block::Table(calibration()));
    blocks
}

fn percent(share: f64) -> String {
    format!("{:.1}", 100.0 * share)
}

fn duties(gathered: &Gathered) -> Table {
    let doubt = &gathered.duties;
    let mut names: Vec<String> =
        doubt.duties.iter().map(|held| sentence(&held.duty, gathered.units)).collect();
    names.push("all of them on the same boat".to_owned());
    let mut columns = vec![Column::words("duty", names)];
    for PairDoubt { pair, each, all } in &doubt.pairs {
        let name = pair.map_or("planes up".to_owned(), |pair| pair.text(gathered.units));
        let cells = each.iter().chain([all]).map(|p| {
            format!("{} ± {}", percent(p.share), percent(p.error))
        });
        columns.push(Column::numbers(&name, "% of boats", cells.collect()));
    }
    let strong = Some(doubt.duties.len());
    let notes = vec!["± is the standard error that this number of draws leaves.".to_owned()];
    Table { title: "How likely the duties are done".to_owned(), columns, strong, notes }
}

fn needs(gathered: &Gathered) -> Table {
    let rows = &gathered.duties.needs;
    let units = gathered.units;
    let deg = |part: fn(&Likely<Option<uom::si::f64::Angle>>) -> Option<uom::si::f64::Angle>| {
        let cells = rows.iter().map(|row| part(&row.needed).map(degrees));
        cells.map(|deg| deg.map_or("beyond".to_owned(), |deg| format!("{deg:.1}"))).collect()
    };
    let columns = vec![
        Column::words("loading", rows.iter().map(|row| row.condition.clone()).collect()),
        Column::numbers(
            "speed",
            units.speed.symbol(),
            fixed(&rows.iter().map(|row| Some(units.speed.value(row.speed))).collect::<Vec<_>>(), 1),
        ),
        Column::numbers("low", "5 %, deg", deg(|likely| likely.low)),
        Column::numbers("median", "deg", deg(|likely| likely.median)),
        Column::numbers("high", "95 %, deg", deg(|likely| likely.high)),
        Column::numbers(
            "done with what is usable",
            "% of boats",
            rows.iter().map(|row| percent(row.usable.share)).collect(),
        ),
    ];
    Table { title: "Deflection that the duties need of the deeper plane".to_owned(), columns, ..Table::default() }
}

fn speeds(gathered: &Gathered, doubt: &RunningDoubt, title: String) -> Table {
    let units = gathered.units;
    let rows = &doubt.speeds;
    let of = |value: &dyn Fn(&SpeedDoubt) -> Option<f64>| rows.iter().map(value).collect::<Vec<_>>();
    let trim = |part: fn(&Likely<f64>) -> f64| {
        fixed(&of(&|row| row.trim.map(|trim| part(&trim.map(degrees)))), 2)
    };
    let force = |part: fn(&Likely<f64>) -> f64| {
        fixed(&of(&|row| row.resistance.map(|r| part(&r.map(|r| units.force.value(r))))), 0)
    };
    let columns = vec![
        Column::numbers("speed", units.speed.symbol(), fixed(&of(&|row| Some(units.speed.value(row.speed))), 1)),
        Column::numbers("run", "% of draws", rows.iter().map(|row| percent(row.running_share)).collect()),
        Column::numbers("as described", "trim deg", fixed(&of(&|row| row.nominal_trim.map(degrees)), 2)),
        Column::numbers("trim", "5 %", trim(|t| t.low)),
        Column::numbers("median", "deg", trim(|t| t.median)),
        Column::numbers("trim", "95 %", trim(|t| t.high)),
        Column::numbers("resistance", "5 %", force(|t| t.low)),
        Column::numbers("median", units.force.symbol(), force(|t| t.median)),
        Column::numbers("resistance", "95 %", force(|t| t.high)),
    ];
    Table { title, columns, ..Table::default() }
}

fn influences(gathered: &Gathered, doubt: &RunningDoubt) -> Option<Table> {
    let hump = doubt.hump_trim.as_ref()?;
    let shown: Vec<&Influence> = hump.of.iter().take(SHOWN).collect();
    Some(Table {
        title: format!("What the trim at {} follows, planes up", say::speed(hump.speed, gathered.units)),
        columns: vec![
            Column::words("input", shown.iter().map(|i| i.what.name().to_owned()).collect()),
            Column::numbers(
                "rank",
                "correlation",
                shown.iter().map(|i| format!("{:+.2}", i.rank_correlation)).collect(),
            ),
            Column::words("what narrows it", shown.iter().map(|i| i.what.remedy().to_owned()).collect()),
        ],
        ..Table::default()
    })
}

fn calibration() -> Table {
    let rows = coverage(&printed());
    let sum = |value: &dyn Fn(&crate::doubt::calibrate::Coverage) -> usize| rows.iter().map(value).sum::<usize>();
    let [values, within] = [sum(&|row| row.values), sum(&|row| row.within)];
    Table {
        title: "The ranges of the equations against published tests, each source left out in turn".to_owned(),
        columns: vec![
            Column::words("source", rows.iter().map(|row| row.source.name().to_owned()).collect()),
            Column::numbers("values", "printed", rows.iter().map(|row| row.values.to_string()).collect()),
            Column::numbers("within nine in ten", "left out", rows.iter().map(|row| row.within.to_string()).collect()),
            Column::numbers("within", "as used", rows.iter().map(|row| row.within_used.to_string()).collect()),
            Column::words("furthest out", rows.iter().map(|row| format!("{} ({:+.1} deviations)", row.furthest, row.deviations)).collect()),
        ],
        strong: None,
        notes: vec![format!("{within} of {values} values fall within the range foretold without their source, where nine in ten are asked for. It does not show that the ranges are right for a boat unlike these; a sea trial says more about one boat.")],
    }
}
