//! From the flat values of a boat file to a [`BoatInput`], gathering every fault on the way.

use super::collect::Document;
use super::convert_duty::duty;
use super::convert_seen::seen;
use super::convert_tolerance::tolerance;
use super::values::Values;
use crate::boat::{
    AfloatInput, AirInput, AppendageInput, BoatInput, BottomForm, DriveInput, DriveKind,
    EntranceInput, Feature, HelmInput, HullInput, LoadItem, PlanePair, Rotation, SizingInput,
    ThrustLine, TrialInput, WaterInput, WaterKind, WeightInput, Wish,
};
use crate::error::FileFault;

/// Key of the file with the stations.
pub(super) const STATIONS: &str = "hull.stations";
/// Name of a boat that the file does not name.
const UNNAMED: &str = "unnamed boat";

/// The boat that the document describes, or every fault in it.
pub(super) fn convert(document: &Document, source: &str) -> Result<BoatInput, Vec<FileFault>> {
    let mut values = Values::new(document, source);
    let input = values.boat();
    match input {
        Some(input) if values.faults.is_empty() => Ok(input),
        _ => {
            values.add_range_faults();
            Err(values.faults)
        }
    }
}

impl Values<'_> {
    fn boat(&mut self) -> Option<BoatInput> {
        let hull = self.hull();
        let entrance = self.entrance();
        let weight = self.weight();
        let afloat = self.if_given("afloat", Self::afloat);
        let drive = self.drive();
        let propulsion = self.propulsion();
        let water = self.water();
        let air = self.if_given("air", Self::air);
        let wind = self.if_given("wind", Self::wind);
        let appendages = self.if_given("appendages", Self::appendages);
        let planes = self.if_given("planes", Self::planes);
        let plane_effectiveness = self.value("planes.effectiveness");
        let roughness = self.value("hull.roughness");
        let trial = self.if_given("trial", Self::trial);
        let transom = self.transom();
        let as_fitted: Vec<_> =
            (0..self.count("as_fitted")).map(|index| self.as_fitted(index)).collect();
        let helm = self.helm();
        let features = self.words("hull.features");
        let sizing = self.sizing();
        let duties = (0..self.count("duty")).map(|index| duty(self, index)).collect::<Vec<_>>();
        let conditions = self.conditions();
        let tolerances: Vec<_> =
            (0..self.count("tolerance")).map(|index| tolerance(self, index)).collect();
        let seen: Vec<_> = (0..self.count("seen")).map(|index| seen(self, index)).collect();
        Some(BoatInput {
            name: self.text("name").unwrap_or_else(|| UNNAMED.to_owned()),
            scenario: self.text("scenario"),
            hull: hull?,
            stations: None,
            features: features.into_iter().map(|index| Feature::ALL[index]).collect(),
            roughness,
            entrance,
            weight: weight?,
            afloat,
            drive,
            propulsion,
            water,
            air,
            wind,
            appendages,
            planes,
            plane_effectiveness,
            trial,
            transom: transom?,
            as_fitted: as_fitted.into_iter().collect::<Option<_>>()?,
            helm,
            sizing,
            duties: duties.into_iter().collect::<Option<_>>()?,
            wishes: self.wishes(),
            tolerances: tolerances.into_iter().collect::<Option<_>>()?,
            seen: seen.into_iter().collect::<Option<_>>()?,
            base_condition: self.text("base_condition"),
            conditions: conditions?,
            condition: None,
            written: self.written(),
        })
    }

    fn hull(&mut self) -> Option<HullInput> {
        if !self.given("hull") {
            self.missing_table("hull");
            return None;
        }
        let form = self.word_for("hull.deadrise").map(|index| BottomForm::ALL[index]);
        for key in ["hull.chine_beam", "hull.deadrise"] {
            if self.document.values.contains_key(key) && self.text(STATIONS).is_some() {
                self.fault_at(
                    key,
                    format!("{key} is given beside {STATIONS}"),
                    format!("delete one of the two: {STATIONS} gives the largest chine beam and the deadrise at mid-chine length"),
                );
            }
        }
        Some(HullInput {
            overall_length: self.value("hull.overall_length"),
            bottom_length: self.value("hull.bottom_length"),
            overall_beam: self.value("hull.overall_beam"),
            chine_beam: self.value("hull.chine_beam"),
            deadrise: self.value("hull.deadrise"),
            bottom_form: form,
        })
    }

    fn entrance(&mut self) -> Option<EntranceInput> {
        let half_angle = self.value("hull.entrance_half_angle");
        let transom_area_ratio = self.value("hull.transom_area_ratio");
        let waterline_length = self.value("hull.waterline_length");
        let keys = ["entrance_half_angle", "transom_area_ratio"].map(|key| format!("hull.{key}"));
        let given = keys.each_ref().map(|key| self.document.values.contains_key(key));
        if given[0] != given[1] {
            let [there, missing] = if given[0] { [0, 1] } else { [1, 0] };
            self.fault_at(
                &keys[there],
                format!("{} is given without {}", keys[there], keys[missing]),
                "give both, which the resistance before planing needs, or neither".to_owned(),
            );
        }
        Some(EntranceInput {
            half_angle: half_angle?,
            transom_area_ratio: transom_area_ratio?,
            waterline_length,
        })
    }

    fn weight(&mut self) -> Option<WeightInput> {
        match (self.given("weight"), self.count("load")) {
            (false, 0) if self.document.broken.contains("load") => None,
            (false, 0) => {
                self.missing_table("weight");
                None
            }
            (true, 0) => {
                let mass = self.needed("weight.mass");
                let (lcg, vcg) = (self.value("weight.lcg"), self.value("weight.vcg"));
                let tcg = self.value("weight.tcg");
                Some(WeightInput::Totals { mass: mass?, lcg, vcg, tcg })
            }
            (totals, count) => {
                if totals {
                    self.fault_at(
                        "weight",
                        "the totals in [weight] and the items in [[load]] are both given"
                            .to_owned(),
                        "delete one of the two: [weight], or every [[load]]".to_owned(),
                    );
                }
                let items: Vec<_> = (0..count).map(|index| self.load(index)).collect();
                items.into_iter().collect::<Option<_>>().map(WeightInput::Loads)
            }
        }
    }

    fn afloat(&mut self) -> Option<AfloatInput> {
        let [draft_at_transom, draft_forward, forward_mark] =
            ["draft_at_transom", "draft_forward", "forward_mark"]
                .map(|name| self.needed(&format!("afloat.{name}")));
        Some(AfloatInput {
            draft_at_transom: draft_at_transom?,
            draft_forward: draft_forward?,
            forward_mark: forward_mark?,
        })
    }

    fn load(&mut self, index: usize) -> Option<LoadItem> {
        let key = |name: &str| format!("load[{index}].{name}");
        let item = self.needed_text(&key("item"));
        let mass = self.needed(&key("mass"));
        let forward = self.needed(&key("forward"));
        let up = self.needed(&key("up"));
        let starboard = self.value_or_default(&key("starboard"));
        Some(LoadItem { item: item?, mass: mass?, forward: forward?, up: up?, starboard })
    }

    fn drive(&mut self) -> DriveInput {
        let offset = self.value("drive.thrust_offset");
        let height = self.value("drive.thrust_height");
        if offset.is_some() && height.is_some() {
            self.fault_at(
                "drive.thrust_height",
                "thrust_offset and thrust_height are both given".to_owned(),
                "delete one of the two: both say how high the thrust line lies".to_owned(),
            );
        }
        let thrust_line = offset
            .map(ThrustLine::BelowCentreOfGravity)
            .or_else(|| height.map(ThrustLine::HeightAtTransom));
        let kind = self.choice("drive.kind").map(|index| {
            const KINDS: [DriveKind; 5] = [
                DriveKind::Outboard,
                DriveKind::Sterndrive,
                DriveKind::Shaft,
                DriveKind::Pod,
                DriveKind::Jet,
            ];
            KINDS[index]
        });
        DriveInput {
            kind,
            power: self.value("drive.power"),
            top_speed: self.value("drive.top_speed"),
            thrust_angle: self.value("drive.thrust_angle"),
            thrust_line,
            engine_speed: self.value("drive.engine_speed"),
            gear_ratio: self.value("drive.gear_ratio"),
            rotation: self
                .choice("drive.rotation")
                .map(|index| [Rotation::Right, Rotation::Left][index]),
            engines: self.value("drive.engines"),
            counter_rotating: self.value("drive.counter_rotating"),
            propeller_diameter: self.value("drive.propeller_diameter"),
            spacing: self.value("drive.spacing"),
        }
    }

    fn water(&mut self) -> Option<WaterInput> {
        if !self.given("water") {
            return None;
        }
        let temperature = self.value("water.temperature");
        let salinity = self.value("water.salinity");
        let density = self.value("water.density");
        let viscosity = self.value("water.kinematic_viscosity");
        let kind = self.choice("water.kind");
        let has = |name: &str| self.document.values.contains_key(&format!("water.{name}"));
        let by_property = has("density") || has("kinematic_viscosity");
        let by_kind = ["kind", "temperature", "salinity"].into_iter().find(|name| has(name));
        if !by_property {
            let kind = self.need("water.kind", kind)?;
            let kind = if kind == 0 { WaterKind::Sea } else { WaterKind::Fresh };
            return Some(WaterInput::Kind { kind, temperature, salinity });
        }
        if let Some(name) = by_kind {
            self.fault_at(
                &format!("water.{name}"),
                format!("water.{name} and the properties of the water are both given"),
                "delete kind, temperature and salinity, or density and kinematic_viscosity"
                    .to_owned(),
            );
        }
        let density = self.need("water.density", density);
        let kinematic_viscosity = self.need("water.kinematic_viscosity", viscosity)?;
        Some(WaterInput::Explicit { density: density?, kinematic_viscosity })
    }

    fn air(&mut self) -> Option<AirInput> {
        let frontal_area = self.needed("air.frontal_area");
        let drag_coefficient = self.value("air.drag_coefficient");
        let height = self.needed("air.height")?;
        Some(AirInput { frontal_area: frontal_area?, drag_coefficient, height })
    }

    fn appendages(&mut self) -> Option<AppendageInput> {
        let drag_area = self.needed("appendages.drag_area");
        let height = self.needed("appendages.height")?;
        Some(AppendageInput { drag_area: drag_area?, height })
    }

    fn helm(&mut self) -> HelmInput {
        HelmInput {
            eye_height: self.value("helm.eye_height"),
            eye_forward: self.value("helm.eye_forward"),
            bow_height: self.value("helm.bow_height"),
        }
    }

    fn planes(&mut self) -> Option<PlanePair> {
        let span = self.needed("planes.span");
        let chord = self.needed("planes.chord")?;
        Some(PlanePair { span: span?, chord })
    }

    fn trial(&mut self) -> Option<TrialInput> {
        Some(TrialInput {
            log: self.text("trial.log"),
            lcg_shift: self.value("trial.lcg_shift"),
            mass: self.value("trial.mass"),
        })
    }

    fn sizing(&mut self) -> SizingInput {
        SizingInput {
            largest_deflection: self.value("sizing.largest_deflection"),
            share: self.value("sizing.share"),
            chance: self.value("sizing.chance"),
            smallest_chord: self.value("sizing.smallest_chord"),
            smallest_aspect: self.value("sizing.smallest_aspect"),
            largest_aspect: self.value("sizing.largest_aspect"),
            round_to: self.value("sizing.round_to"),
        }
    }

    fn wishes(&mut self) -> Vec<Wish> {
        let indices = self.words("for");
        indices.into_iter().map(|index| Wish::ALL[index]).collect()
    }
}

#[cfg(test)]
#[path = "default_tests.rs"]
mod tests;
