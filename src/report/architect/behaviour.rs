//! What she really does in the condition that sets the size: onto the plane, fuel, list, a head sea.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::meter;

use crate::balance::sweep::{few_speeds, usual_step};
use crate::behaviour::list::Levelled;
use crate::behaviour::seaway::{self, DEFAULT_TRIM_DEG, Seen};
use crate::behaviour::{fuel, list, on_plane};
use crate::boat::{Boat, Fault};
use crate::chart::Subject;
use crate::chart::fuel::fuel_charts;
use crate::chart::level::level_charts;
use crate::chart::on_plane::on_plane_charts;
use crate::chart::running::NamedChart;
use crate::chart::seaway::seaway_charts;
use crate::document::Block;
use crate::report::ReportError;
use crate::report::gather::{Advised, Gathered};
use crate::size::{PairSource, PairUsed};
use crate::stock::{LoadsAsked, PlaneLoads, Planes, assess};
use crate::tell;

/// Cable from battery to actuator that is counted with, one way, m, as `planewright loads` does.
const USUAL_CABLE_M: f64 = 5.0;
/// Names of chapters.
const ON_PLANE: &str = "Getting on plane";
const FUEL: &str = "Power and fuel";
const LIST: &str = "List";
/// Speeds told of a head sea, at most.
const MOST_SPEEDS: usize = 10;

/// The words and the charts.
pub(super) struct Behaviour {
    pub blocks: Vec<Block>,
    pub charts: Vec<NamedChart>,
}

impl Behaviour {
    pub fn of(gathered: &Gathered) -> Result<Self, ReportError> {
        let loading = gathered.main_loading();
        let as_set = gathered.as_set();
        let (boat, settings, units) =
            (as_set.fitted(loading)?, &gathered.size.settings, gathered.size.units);
        let source = match as_set.advised {
            _ if !gathered.has_settings() => PairSource::Withheld,
            Advised::Nothing | Advised::Short(None) => PairSource::Nowhere,
            Advised::Pair(_) | Advised::Short(Some(_)) => PairSource::Advised,
        };
        let pair = PairUsed { pair: as_set.advised.pair(), source };
        let subject = Subject { boat: &boat, planes: pair, units };
        let (mut blocks, mut charts) = (Vec::new(), Vec::new());

        let asked = on_plane::OnPlaneRequest::default();
        match on_plane::on_plane(&boat, settings, pair.pair, &asked) {
            Ok(answer) => {
                let told =
                    tell::on_plane::OnPlaneText { boat: &boat, pair, answer: &answer, units };
                blocks.extend(titled(ON_PLANE, tell::on_plane::all(&told)));
                charts.extend(on_plane_charts(subject, &answer));
            }
            Err(fault) => blocks.extend(not_computed(ON_PLANE, &fault)),
        }
        let step = usual_step(units.speed);
        match fuel::fuel(&boat, settings, pair.pair, step, &fuel::FuelRequest::default()) {
            Ok(answer) => {
                let told = tell::fuel::FuelText { boat: &boat, pair, answer: &answer, units };
                blocks.extend(titled(FUEL, tell::fuel::all(&told)));
                charts.extend(fuel_charts(subject, &answer));
            }
            Err(fault) => blocks.extend(not_computed(FUEL, &fault)),
        }
        let asked = list::ListRequest::usual(&boat, units.speed);
        let levelled = asked.study(&boat, settings).and_then(|study| {
            let levelled = Levelled::of(&study, &asked)?;
            Ok((study, levelled))
        });
        match levelled {
            Ok((study, levelled)) => {
                let told = tell::level::LevelText { boat: &boat, levelled: &levelled, units };
                blocks.extend(titled(LIST, tell::level::all(&told)));
                charts.extend(level_charts(subject, &study)?);
            }
            Err(fault) => blocks.extend(not_computed(LIST, &fault)),
        }

        let asked = seaway::SeawayRequest {
            waves: Vec::new(),
            speeds: few_speeds(&boat, units.speed, MOST_SPEEDS),
            down_to: Angle::new::<degree>(DEFAULT_TRIM_DEG),
            limit: None,
        };
        let seen = Seen::of(boat.clone(), settings, &asked)?;
        let told = tell::seaway::SeawayText { seen: &seen, pair, units };
        blocks.extend(titled("Head sea", tell::seaway::all(&told)));
        let speed = seen.usual_stance().map_or(boat.drive().top_speed, |row| row.up.speed);
        charts.extend(seaway_charts(&seen.sea(), speed, seen.usual_wave_height(), pair, units)?);
        blocks.extend(loads(gathered, &gathered.fitted(loading)?)?);
        Ok(Self { blocks, charts })
    }
}

/// A chapter that the boat file says too little for: what is missing, and that nothing was assumed.
fn not_computed(title: &str, fault: &Fault) -> [Block; 2] {
    let text = format!("Not computed. {}: {}; {}.", fault.key, fault.problem, fault.remedy);
    [Block::Section(title.to_owned()), Block::Paragraph(text)]
}

/// What the planes carry, and what the part makes of it where one is advised.
fn loads(gathered: &Gathered, boat: &Boat) -> Result<Vec<Block>, ReportError> {
    let Some(pair) = gathered.advised.pair() else { return Ok(Vec::new()) };
    let part = gathered.part().map(|ranked| ranked.part.clone());
    let source = if part.is_some() { PairSource::Listed } else { PairSource::Suggested };
    let asked = LoadsAsked {
        settings: assess::Settings::default(),
        speeds: Vec::new(),
        deflections: Vec::new(),
        speed_unit: gathered.size.units.speed,
    };
    let found = PlaneLoads::of(boat, Planes { pair, source }, part, &asked)?;
    let told = tell::loads::Loads {
        boat,
        found: &found,
        cable_length: Length::new::<meter>(USUAL_CABLE_M),
        units: gathered.size.units,
        warnings: &[],
    };
    let mut blocks = tell::loads::planes(&told);
    blocks.extend(tell::loads::verdict(&told));
    blocks.extend(tell::loads::on_one_plane(&told));
    if found.part.is_some() {
        for part in
            [tell::loads::reach, tell::loads::strength, tell::loads::actuator, tell::loads::stroke]
        {
            blocks.extend(part(&told));
        }
    }
    blocks.extend(tell::loads::assumptions(&told));
    blocks.extend(tell::loads::flags(&told));
    Ok(titled("Loads on the planes", blocks))
}

/// A chapter; its own sections go one rank down.
pub(super) fn titled(title: &str, blocks: Vec<Block>) -> Vec<Block> {
    let lower = |block| match block {
        Block::Section(text) => Block::Heading(text),
        other => other,
    };
    std::iter::once(Block::Section(title.to_owned())).chain(blocks.into_iter().map(lower)).collect()
}
