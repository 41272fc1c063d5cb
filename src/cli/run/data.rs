//! The tables of this command as data beside a report, without asking for them again.

use super::{BeforePlaning, RunOutput, TABLE_DEFLECTIONS_DEG, points};
use crate::balance::Settings;
use crate::balance::sensitivity::sensitivities;
use crate::balance::series::SecondOpinion;
use crate::balance::sweep::{Set, speeds, usual_step, within_reach};
use crate::cli::Failure;
use crate::cli::screen::json_text;
use crate::input::BoatFile;
use crate::size::PairUsed;
use crate::units::UnitChoice;

/// What `run --csv` and `run --json` print for the file in each of some conditions.
pub(in crate::cli) struct Data {
    pub csv: String,
    pub json: String,
}

impl Data {
    /// With the planes of the file, or with those advised in their place.
    pub fn of(
        files: Vec<BoatFile>,
        advised: Option<PairUsed>,
        units: UnitChoice,
    ) -> Result<Self, Failure> {
        let with = |mut file: BoatFile| {
            if let Some(PairUsed { pair: pair @ Some(_), .. }) = advised {
                file.boat = file.boat.with_planes(pair)?;
            }
            let planes = advised.unwrap_or_else(|| PairUsed::fitted(&file.boat));
            usual(file, planes, units)
        };
        let runs = files.into_iter().map(with).collect::<Result<Vec<_>, _>>()?;
        let csv = points::rows(&runs, None)?;
        Ok(Self { csv, json: json_text(&super::enveloped(&runs, &super::first(&runs), false))? })
    }
}

/// The boat in her condition as the command shows her when nothing else is asked for.
fn usual(file: BoatFile, planes: PairUsed, units: UnitChoice) -> Result<RunOutput, Failure> {
    let settings = Settings::default();
    let speeds = speeds(&file.boat, usual_step(units.speed));
    let deflections = within_reach(&file.boat, &TABLE_DEFLECTIONS_DEG);
    let sets = Set::all(&file.boat, &settings, &speeds, &deflections)?;
    let sensitivities = sensitivities(&file.boat, &settings, uom::si::f64::Angle::default());
    let second_opinion = SecondOpinion::of(&file.boat, &settings, &[])?;
    Ok(RunOutput {
        file,
        planes,
        settings,
        units,
        sets,
        opinions: Vec::new(),
        before_planing: BeforePlaning::default(),
        second_opinion,
        sensitivities,
        drive_trims: None,
        // Only told in words, which are not asked for here.
        is_silent: false,
        charts: Vec::new(),
    })
}
