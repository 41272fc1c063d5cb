//! From the flat values of a boat file to a [`BoatInput`], gathering every fault on the way.

use super::collect::Document;
use super::convert_seen::seen;
use super::convert_tolerance::tolerance;
use super::desk::Desk;
use super::schema::{self, DRIVE_KINDS, DUTY_KEYS, ROTATIONS, WATER_KINDS};
use crate::boat::{
    AfloatInput, AirInput, AppendageInput, BoatInput, DriveInput, DriveKind, Duty, DutyInput,
    EntranceInput, Feature, HullInput, ListCause, LoadItem, Measure, PlanePair, Rotation,
    SizingInput, ThrustLine, TrialInput, WaterInput, WaterKind, WeightInput, Wish,
};
use crate::error::FileFault;
use crate::units;

/// Name of a boat that the file does not name.
const UNNAMED: &str = "unnamed boat";

/// The boat that the document describes, or every fault in it.
pub(super) fn convert(document: &Document, source: &str) -> Result<BoatInput, Vec<FileFault>> {
    let mut desk = Desk::new(document, source);
    let input = desk.boat();
    match input {
        Some(input) if desk.faults.is_empty() => Ok(input),
        _ => {
            desk.add_range_faults();
            Err(desk.faults)
        }
    }
}

impl Desk<'_> {
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
        let plane_effectiveness = self.number("planes.effectiveness");
        let roughness = self.number("hull.roughness");
        let trial = self.if_given("trial", Self::trial);
        let transom = self.transom();
        let features = self.words("hull.features", Feature::WORDS);
        let sizing = self.sizing();
        let duties = (0..self.count("duty")).map(|index| self.asked(index)).collect::<Vec<_>>();
        let conditions = self.conditions();
        let tolerances: Vec<_> =
            (0..self.count("tolerance")).map(|index| tolerance(self, index)).collect();
        let seen: Vec<_> = (0..self.count("seen")).map(|index| seen(self, index)).collect();
        Some(BoatInput {
            name: self.text("name").unwrap_or_else(|| UNNAMED.to_owned()),
            scenario: self.text("scenario"),
            hull: hull?,
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
        let chine_beam = self.length("hull.chine_beam");
        let deadrise = self.angle("hull.deadrise");
        let hull = HullInput {
            overall_length: self.length("hull.overall_length"),
            bottom_length: self.length("hull.bottom_length"),
            chine_beam: self.need("hull.chine_beam", chine_beam)?,
            deadrise: self.need("hull.deadrise", deadrise)?,
        };
        Some(hull)
    }

    fn entrance(&mut self) -> Option<EntranceInput> {
        let half_angle = self.angle("hull.entrance_half_angle");
        let transom_area_ratio = self.number("hull.transom_area_ratio");
        let waterline_length = self.length("hull.waterline_length");
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
                let mass = self.mass("weight.mass");
                let (lcg, vcg) = (self.length("weight.lcg"), self.length("weight.vcg"));
                let tcg = self.length("weight.tcg");
                let mass = self.need("weight.mass", mass)?;
                Some(WeightInput::Totals { mass, lcg, vcg, tcg })
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
        let names = ["draft_at_transom", "draft_forward", "forward_mark"];
        let lengths = names.map(|name| {
            let key = format!("afloat.{name}");
            let length = self.length(&key);
            self.need(&key, length)
        });
        let [draft_at_transom, draft_forward, forward_mark] = lengths;
        Some(AfloatInput {
            draft_at_transom: draft_at_transom?,
            draft_forward: draft_forward?,
            forward_mark: forward_mark?,
        })
    }

    fn load(&mut self, index: usize) -> Option<LoadItem> {
        let key = |name: &str| format!("load[{index}].{name}");
        let item = self.text(&key("item"));
        let item = self.need(&key("item"), item);
        let mass = self.mass(&key("mass"));
        let mass = self.need(&key("mass"), mass);
        let forward = self.length(&key("forward"));
        let forward = self.need(&key("forward"), forward);
        let up = self.length(&key("up"));
        let up = self.need(&key("up"), up);
        let starboard = self.length(&key("starboard")).unwrap_or_default();
        Some(LoadItem { item: item?, mass: mass?, forward: forward?, up: up?, starboard })
    }

    fn drive(&mut self) -> DriveInput {
        let offset = self.length("drive.thrust_offset");
        let height = self.length("drive.thrust_height");
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
        let kind = self.choice("drive.kind", DRIVE_KINDS).map(|index| {
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
            power: self.quantity("drive.power", units::parse_power, Measure::Power),
            top_speed: self.speed("drive.top_speed"),
            thrust_angle: self.angle("drive.thrust_angle"),
            thrust_line,
            engine_speed: self.quantity(
                "drive.engine_speed",
                units::parse_rotation_speed,
                Measure::RotationSpeed,
            ),
            gear_ratio: self.number("drive.gear_ratio"),
            rotation: self
                .choice("drive.rotation", ROTATIONS)
                .map(|index| [Rotation::Right, Rotation::Left][index]),
            engines: self.number("drive.engines"),
            counter_rotating: self.number("drive.counter_rotating"),
        }
    }

    fn water(&mut self) -> Option<WaterInput> {
        if !self.given("water") {
            return None;
        }
        let temperature =
            self.quantity("water.temperature", units::parse_temperature, Measure::Temperature);
        let salinity = self.number("water.salinity");
        let density = self.quantity("water.density", units::parse_density, Measure::Density);
        let viscosity = self.quantity(
            "water.kinematic_viscosity",
            units::parse_kinematic_viscosity,
            Measure::Viscosity,
        );
        let kind = self.choice("water.kind", WATER_KINDS);
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
        let frontal_area = self.area("air.frontal_area");
        let frontal_area = self.need("air.frontal_area", frontal_area);
        let drag_coefficient = self.number("air.drag_coefficient");
        let height = self.length("air.height");
        let height = self.need("air.height", height)?;
        Some(AirInput { frontal_area: frontal_area?, drag_coefficient, height })
    }

    fn appendages(&mut self) -> Option<AppendageInput> {
        let drag_area = self.area("appendages.drag_area");
        let drag_area = self.need("appendages.drag_area", drag_area);
        let height = self.length("appendages.height");
        let height = self.need("appendages.height", height)?;
        Some(AppendageInput { drag_area: drag_area?, height })
    }

    fn planes(&mut self) -> Option<PlanePair> {
        let span = self.length("planes.span");
        let span = self.need("planes.span", span);
        let chord = self.length("planes.chord");
        let chord = self.need("planes.chord", chord)?;
        Some(PlanePair { span: span?, chord })
    }

    fn trial(&mut self) -> Option<TrialInput> {
        Some(TrialInput {
            log: self.text("trial.log"),
            lcg_shift: self.length("trial.lcg_shift"),
            mass: self.mass("trial.mass"),
        })
    }

    fn sizing(&mut self) -> SizingInput {
        SizingInput {
            largest_deflection: self.angle("sizing.largest_deflection"),
            share: self.share("sizing.share"),
            chance: self.share("sizing.chance"),
            smallest_chord: self.length("sizing.smallest_chord"),
            smallest_aspect: self.number("sizing.smallest_aspect"),
            largest_aspect: self.number("sizing.largest_aspect"),
            round_to: self.length("sizing.round_to"),
        }
    }

    fn wishes(&mut self) -> Vec<Wish> {
        let places = self.words("for", Wish::WORDS);
        places.into_iter().map(|place| Wish::ALL[place]).collect()
    }

    fn asked(&mut self, index: usize) -> Option<DutyInput> {
        let conditions = self.names(&format!("duty[{index}].condition"));
        Some(DutyInput { duty: self.duty(index)?, conditions })
    }

    fn duty(&mut self, index: usize) -> Option<Duty> {
        let key = |name: &str| format!("duty[{index}].{name}");
        let kind = self.choice(&key("kind"), schema::DUTY_KINDS);
        let (word, takes) = DUTY_KEYS[self.need(&key("kind"), kind)?];
        self.refuse_other_duty_keys(index, word, takes);
        match word {
            "relief" => {
                let at_least = self.angle(&key("at_least"));
                let at_least = self.need(&key("at_least"), at_least);
                let given = |desk: &Self, name: &str| desk.document.values.contains_key(&key(name));
                let over = if given(self, "from") || given(self, "to") {
                    let from = self.speed(&key("from"));
                    let from = self.need(&key("from"), from);
                    let to = self.speed(&key("to"));
                    let to = self.need(&key("to"), to);
                    Some([from?, to?])
                } else {
                    None
                };
                Some(Duty::Relief { at_least: at_least?, over })
            }
            "hump-trim" => {
                let at_most = self.angle(&key("at_most"));
                let at_most = self.need(&key("at_most"), at_most);
                let from = self.speed(&key("from"));
                let from = self.need(&key("from"), from);
                let to = self.speed(&key("to"));
                let to = self.need(&key("to"), to);
                Some(Duty::HumpTrim { at_most: at_most?, from: from?, to: to? })
            }
            "least-resistance" => {
                let within = self.share(&key("within"));
                let within = self.need(&key("within"), within);
                let speed = self.speed(&key("speed"));
                let speed = self.need(&key("speed"), speed);
                Some(Duty::LeastResistance { within: within?, speed: speed? })
            }
            "porpoising-margin" => {
                let margin = self.angle(&key("margin"));
                let margin = self.need(&key("margin"), margin);
                let up_to = self.speed(&key("up_to"));
                let up_to = self.need(&key("up_to"), up_to);
                Some(Duty::PorpoisingMargin { margin: margin?, up_to: up_to? })
            }
            _ => {
                let speed = self.speed(&key("speed"));
                let speed = self.need(&key("speed"), speed);
                let cause = self.list_cause(index);
                Some(Duty::List { cause: cause?, speed: speed? })
            }
        }
    }

    fn list_cause(&mut self, index: usize) -> Option<ListCause> {
        let key = |name: &str| format!("duty[{index}].{name}");
        let has = |name: &str| self.document.values.contains_key(&key(name));
        let (by_moment, by_mass) = (has("moment"), has("mass") || has("distance"));
        if by_moment == by_mass {
            let problem = if by_moment {
                "this duty gives both a moment and a mass off the centreline"
            } else {
                "this duty does not say what heels the boat"
            };
            let place = if by_moment { key("moment") } else { format!("duty[{index}]") };
            self.fault_at(
                &place,
                problem.to_owned(),
                "give moment = \"700 N m\", or mass = \"90 kg\" with distance = \"0.8 m\""
                    .to_owned(),
            );
            return None;
        }
        if by_moment {
            let moment = self.quantity(&key("moment"), units::parse_torque, Measure::Moment);
            return moment.map(ListCause::Moment);
        }
        let mass = self.mass(&key("mass"));
        let mass = self.need(&key("mass"), mass);
        let distance = self.length(&key("distance"));
        let distance = self.need(&key("distance"), distance)?;
        Some(ListCause::OffCentre { mass: mass?, distance })
    }

    fn refuse_other_duty_keys(&mut self, index: usize, kind: &str, takes: &[&str]) {
        let Some(table) = schema::table("duty") else { return };
        for key in table.keys.iter().filter(|key| !matches!(key.name, "kind" | "condition")) {
            let path = format!("duty[{index}].{}", key.name);
            if !takes.contains(&key.name) && self.document.values.contains_key(&path) {
                self.fault_at(
                    &path,
                    format!("a duty of the kind {kind} has no {}", key.name),
                    format!("it takes {}", super::collect::listed(takes)),
                );
            }
        }
    }
}
