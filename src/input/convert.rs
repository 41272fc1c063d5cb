//! From the flat values of a boat file to a [`BoatInput`], gathering every fault on the way.

use uom::si::f64::{Angle, Area, Length, Mass, Ratio, Velocity};
use uom::si::ratio::ratio;

use super::collect::{Document, quoted_list, spoken_key};
use super::schema::{self, DRIVE_KINDS, DUTY_KEYS, LIFT_REFERENCES, WATER_KINDS};
use crate::boat::{
    AirInput, AppendageInput, BoatInput, DriveInput, DriveKind, Duty, HullInput, LiftReference,
    ListCause, LoadItem, Measure, PlanePair, SizingInput, ThrustLine, TransomInput, WaterInput,
    WaterKind, WeightInput, bound_of,
};
use crate::error::FileFault;
use crate::units::{self, QuantityError, QuantityProblem};

/// Name of a boat that the file does not name.
const UNNAMED: &str = "unnamed boat";

/// The boat that the document describes, or every fault in it.
pub(super) fn convert(document: &Document, source: &str) -> Result<BoatInput, Vec<FileFault>> {
    let mut desk = Desk { document, source, faults: document.faults.clone(), read: Vec::new() };
    let input = desk.boat();
    match input {
        Some(input) if desk.faults.is_empty() => Ok(input),
        _ => {
            desk.add_range_faults();
            Err(desk.faults)
        }
    }
}

/// Reads values out of a document and gathers what is wrong with them.
struct Desk<'a> {
    document: &'a Document,
    source: &'a str,
    faults: Vec<FileFault>,
    /// Everything read so far, for the range check.
    read: Vec<(String, Measure)>,
}

impl Desk<'_> {
    fn boat(&mut self) -> Option<BoatInput> {
        let hull = self.hull();
        let weight = self.weight();
        let drive = self.drive();
        let water = self.water();
        let air = self.if_given("air", Self::air);
        let appendages = self.if_given("appendages", Self::appendages);
        let planes = self.if_given("planes", Self::planes);
        let transom = self.transom();
        let sizing = self.sizing();
        let duties = (0..self.count("duty")).map(|index| self.duty(index)).collect::<Vec<_>>();
        Some(BoatInput {
            name: self.text("name").unwrap_or_else(|| UNNAMED.to_owned()),
            scenario: self.text("scenario"),
            hull: hull?,
            weight: weight?,
            drive,
            water,
            air,
            appendages,
            planes,
            transom,
            sizing,
            duties: duties.into_iter().collect::<Option<_>>()?,
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

    fn transom(&mut self) -> TransomInput {
        TransomInput {
            beam: self.length("transom.beam"),
            deadrise: self.angle("transom.deadrise"),
            inner_clearance: self.length("transom.inner_clearance"),
            outer_clearance: self.length("transom.outer_clearance"),
            hinge_height: self.length("transom.hinge_height"),
        }
    }

    fn sizing(&mut self) -> SizingInput {
        let reference = self.choice("sizing.lift_reference", LIFT_REFERENCES);
        SizingInput {
            largest_deflection: self.angle("sizing.largest_deflection"),
            share: self.share("sizing.share"),
            smallest_chord: self.length("sizing.smallest_chord"),
            smallest_aspect: self.number("sizing.smallest_aspect"),
            largest_aspect: self.number("sizing.largest_aspect"),
            round_to: self.length("sizing.round_to"),
            lift_reference: match reference {
                Some(1) => LiftReference::TrailingEdge,
                _ => LiftReference::Transom,
            },
        }
    }

    fn duty(&mut self, index: usize) -> Option<Duty> {
        let key = |name: &str| format!("duty[{index}].{name}");
        let kind = self.choice(&key("kind"), schema::DUTY_KINDS);
        let (word, takes) = DUTY_KEYS[self.need(&key("kind"), kind)?];
        self.refuse_other_duty_keys(index, word, takes);
        match word {
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
        for key in table.keys.iter().filter(|key| key.name != "kind") {
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

    fn length(&mut self, key: &str) -> Option<Length> {
        self.quantity(key, units::parse_length, Measure::Length)
    }

    fn mass(&mut self, key: &str) -> Option<Mass> {
        self.quantity(key, units::parse_mass, Measure::Mass)
    }

    fn speed(&mut self, key: &str) -> Option<Velocity> {
        self.quantity(key, units::parse_speed, Measure::Speed)
    }

    fn angle(&mut self, key: &str) -> Option<Angle> {
        self.quantity(key, units::parse_angle, Measure::Angle)
    }

    fn area(&mut self, key: &str) -> Option<Area> {
        self.quantity(key, units::parse_area, Measure::Area)
    }

    fn share(&mut self, key: &str) -> Option<Ratio> {
        let parse = |text: &str| units::parse_fraction(text).map(Ratio::new::<ratio>);
        self.quantity(key, parse, Measure::Share)
    }

    /// The quantity of a key, if it is given and can be read.
    fn quantity<Q: Copy>(
        &mut self,
        key: &str,
        parse: impl Fn(&str) -> Result<Q, QuantityError>,
        measure: impl Fn(Q) -> Measure,
    ) -> Option<Q> {
        let text = self.document.values.get(key)?.text.as_ref()?;
        match parse(text) {
            Ok(quantity) => {
                self.read.push((key.to_owned(), measure(quantity)));
                Some(quantity)
            }
            Err(mut error) => {
                use QuantityProblem::{Empty, NoNumber, WrongKind};
                if let (Empty | NoNumber(_) | WrongKind { .. }, Some(bound)) =
                    (&error.problem, bound_of(key))
                {
                    error.remedy = Some(format!("write for example `{}`", bound.example));
                }
                let place = self.place_within(key, text, &error);
                let problem = format!("{}: {error}", spoken_key(key));
                self.faults.push(FileFault { problem, help: error.help(), place });
                None
            }
        }
    }

    /// The bytes of the file at which a quantity goes wrong.
    fn place_within(
        &self,
        key: &str,
        text: &str,
        error: &QuantityError,
    ) -> Option<std::ops::Range<usize>> {
        let whole = self.document.place_of(key)?;
        let inside = whole.start + 1..whole.end.saturating_sub(1);
        let is_plain = !text.is_empty() && self.source.get(inside.clone()) == Some(text);
        if is_plain {
            Some(inside.start + error.span.start..inside.start + error.span.end)
        } else {
            Some(whole)
        }
    }

    fn number(&mut self, key: &str) -> Option<f64> {
        let text = self.document.values.get(key)?.text.as_ref()?;
        match text.trim().parse::<f64>() {
            Ok(number) if number.is_finite() => {
                self.read.push((key.to_owned(), Measure::Number(number)));
                Some(number)
            }
            _ => {
                let spoken = spoken_key(key);
                let problem = format!("{spoken}: `{}` is not a plain number", units::quoted(text));
                let example = bound_of(key).map_or("1", |bound| bound.example);
                let help = format!("write a number without a unit, for example {example}");
                self.fault_at(key, problem, help);
                None
            }
        }
    }

    fn text(&self, key: &str) -> Option<String> {
        self.document.values.get(key)?.text.clone()
    }

    /// The position of a word among those allowed.
    fn choice(&mut self, key: &str, words: &[&str]) -> Option<usize> {
        let text = self.document.values.get(key)?.text.as_ref()?;
        let position = words.iter().position(|word| word == text);
        if position.is_none() {
            let spoken = spoken_key(key);
            let problem = format!("{spoken}: `{}` is not one of its words", units::quoted(text));
            self.fault_at(key, problem, format!("write {}", quoted_list(words)));
        }
        position
    }

    /// Whether the table is in the file, in the right form.
    fn given(&self, table: &str) -> bool {
        self.document.tables.contains_key(table)
    }

    fn count(&self, list: &str) -> usize {
        self.document.list_lengths.get(list).copied().unwrap_or(0)
    }

    fn if_given<T>(&mut self, table: &str, read: fn(&mut Self) -> Option<T>) -> Option<T> {
        if self.given(table) { read(self) } else { None }
    }

    /// The value, or a fault if its key is not in the file at all.
    fn need<T>(&mut self, path: &str, value: Option<T>) -> Option<T> {
        if value.is_none() && !self.document.values.contains_key(path) {
            self.missing_key(path);
        }
        value
    }

    fn missing_key(&mut self, path: &str) {
        let (place, name) = path.rsplit_once('.').unwrap_or(("", path));
        let plain = place.split('[').next().unwrap_or(place);
        let Some(table) = schema::table(plain) else { return };
        let Some(key) = table.key(name) else { return };
        let header = table.header();
        self.fault_at(
            path,
            format!("{} is missing", spoken_key(path)),
            format!(
                "write below {header} for example\n{}\n({})",
                table.example_line(key),
                table.meaning(key)
            ),
        );
    }

    fn missing_table(&mut self, name: &str) {
        let Some(table) = schema::table(name) else { return };
        if self.document.broken.contains(name) {
            return;
        }
        let lines: Vec<String> = table
            .keys
            .iter()
            .filter(|key| key.starter)
            .map(|key| table.example_line(key))
            .collect();
        let instead =
            if name == "weight" { "\nor list the items, each below [[load]]" } else { "" };
        self.faults.push(FileFault {
            problem: format!("the table {} is missing", table.header()),
            help: format!("write for example\n{}\n{}{instead}", table.header(), lines.join("\n")),
            place: None,
        });
    }

    fn fault_at(&mut self, key: &str, problem: String, help: String) {
        let place = self.document.place_of(key);
        self.faults.push(FileFault { problem, help, place });
    }

    /// Checks the values that could be read, since the boat cannot be built to check them.
    fn add_range_faults(&mut self) {
        for (key, measure) in std::mem::take(&mut self.read) {
            if let Some(bound) = bound_of(&key).filter(|bound| !bound.admits(measure)) {
                self.fault_at(
                    &key,
                    format!("{}: {measure} is outside {}", spoken_key(&key), bound.allowed()),
                    format!("{}; for example \"{}\"", bound.why, bound.example),
                );
            }
        }
    }
}
