//! The architect's record: everything, to check it.

mod behaviour;
mod budget;
mod by_hand;
mod inputs;
mod running;
mod sure;

use super::gather::Gathered;
use super::{ReportError, equations, origin, pictures};
use crate::balance::Point;
use crate::chart::Subject;
use crate::chart::doubt::{duty_chart, influence_charts, likely_charts};
use crate::chart::running::{NamedChart, model_charts, running_charts};
use crate::chart::sizing::sizing_charts;
use crate::document::{Block, Document, Fact, Form, Picture};
use crate::flag::Flags;
use crate::tell::{loadings, shelf, sizing};
use uom::si::angle::degree;
use uom::si::f64::Angle;

/// Deflections of the charts, degrees.
const CHART_DEFLECTIONS_DEG: [f64; 5] = [0.0, 2.5, 5.0, 10.0, 15.0];

/// The record.
pub(super) fn document(gathered: &Gathered) -> Result<Document, ReportError> {
    let boat = gathered.boat();
    let told = gathered.sizing();
    let mut blocks = gathered.first();
    blocks.extend(boat.input().scenario.clone().map(Block::Paragraph));
    blocks.extend(sizing::suggestion(&told));
    if let Some(on_shelf) = &gathered.shelf {
        blocks.extend(shelf::section(&on_shelf.list, &on_shelf.ranking, gathered.size.units));
    }
    blocks.extend(inputs::section(gathered));
    blocks.extend(loadings::section(&told));
    blocks.extend(sizing::tables(&told));
    let as_set = gathered.as_set();
    let running = running::Tables::of(&as_set)?;
    blocks.extend(running.section());
    blocks.extend(by_hand::section(&as_set)?);
    blocks.extend(budget::section(&as_set)?);
    blocks.extend(running::tank_series(&as_set)?);
    blocks.extend(running::lift_models(&as_set)?);
    let behaviour = behaviour::Behaviour::of(gathered)?;
    blocks.extend(behaviour.blocks);
    blocks.extend(behaviour::titled("How sure", sure::section(gathered)));
    blocks.extend(charts(gathered, behaviour.charts)?);
    blocks.extend(equations::section());
    blocks.extend(flags(gathered, running.flags()));
    blocks.push(Block::Caution {
        title: "Before relying on it".to_owned(),
        points: vec![crate::flag::CAUTION.to_owned()],
    });
    blocks.push(Block::Section("The boat file as it was read".to_owned()));
    blocks.push(Block::Verbatim(gathered.size.file.text.clone()));
    let blocks = blocks.iter().map(Block::spoken).collect();
    Ok(Document {
        title: boat.name().to_owned(),
        subject: "Trim planes: record for the naval architect".to_owned(),
        origin: origin(gathered),
        form: Form::Record,
        blocks,
    })
}

/// All charts, with the boat in the condition that sets the size and the pair advised.
fn charts(gathered: &Gathered, more: Vec<NamedChart>) -> Result<Vec<Block>, ReportError> {
    let (settings, units) = (&gathered.size.settings, gathered.size.units);
    let boat = gathered.fitted(gathered.main_loading())?;
    let subject = Subject { boat: &boat, planes: gathered.used(), units };
    let mut all: Vec<Picture> = Vec::new();
    for named in sizing_charts(&boat, &gathered.size.suggestion, units) {
        all.push(pictures::of_chart(&named)?);
    }
    let largest = match boat.planes() {
        Some(_) => boat.sizing().largest_deflection,
        None => Angle::new::<degree>(0.0),
    };
    let deflections: Vec<Angle> = CHART_DEFLECTIONS_DEG
        .iter()
        .map(|&deg| Angle::new::<degree>(deg))
        .filter(|&deflection| deflection <= largest)
        .collect();
    let has_settings = gathered.has_settings() && boat.planes().is_some();
    let schedule = if has_settings { gathered.main_schedule() } else { &[] };
    let mut named = running_charts(subject, settings, &deflections, schedule)?;
    named.extend(model_charts(subject, settings, Angle::new::<degree>(0.0))?);
    if let Some(hump) = &gathered.hump {
        named.extend(likely_charts(subject, &hump.up));
    }
    named.extend(duty_chart(subject, &gathered.duties));
    named.extend(more);
    for chart in &named {
        all.push(pictures::of_chart(chart)?);
    }
    if let Some(hump) = &gathered.hump {
        for bars in influence_charts(subject, &hump.up) {
            let description = format!("{}: {}", bars.chart.title, bars.chart.axis);
            all.push(Picture { svg: bars.chart.svg()?, caption: String::new(), description });
        }
    }
    let mut blocks = vec![Block::Section("Charts".to_owned())];
    blocks.extend(all.into_iter().map(|picture| Block::Pictures(vec![picture])));
    Ok(blocks)
}

/// Every flag that any number of the record carries, with its meaning.
fn flags(gathered: &Gathered, of_tables: Flags) -> Vec<Block> {
    let rows = gathered.schedules.iter().flatten().map(|row| row.flags);
    let all = rows.fold(of_tables.union(gathered.size.suggestion.flags), Flags::union);
    let mut blocks = vec![Block::Section("Flags met, and what they mean".to_owned())];
    if all.is_empty() {
        blocks
            .push(Block::Paragraph("None: every number lies within the tested ranges.".to_owned()));
        return blocks;
    }
    let fact = |flag: crate::flag::Flag| Fact::new(flag.label(), flag.meaning());
    blocks.push(Block::Terms(all.iter().map(fact).collect()));
    let warnings: Vec<String> =
        gathered.size.file.warnings.iter().map(ToString::to_string).collect();
    if !warnings.is_empty() {
        blocks.push(Block::Warnings(warnings));
    }
    blocks
}

/// Flags of some points together.
fn flags_of<'a>(points: impl Iterator<Item = &'a Point>) -> Flags {
    points.fold(Flags::NONE, |all, point| all.union(point.flags))
}
