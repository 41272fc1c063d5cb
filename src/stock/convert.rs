//! From one line of a stock list to a [`Part`] that can work.

use uom::si::angle::degree;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{
    Angle, DynamicViscosity, ElectricCurrent, ElectricPotential, Force, Length, MassDensity,
    Pressure, Velocity, VolumeRate,
};
use uom::si::force::newton;
use uom::si::length::{meter, millimeter};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::velocity::meter_per_second;
use uom::si::volume_rate::cubic_meter_per_second;

use super::columns::{COLUMNS, MATERIALS, STRENGTH, currency_of};
use super::part::{BracketScrews, Gear, HingeScrews, Part, Price, Spacing, Supply};
use crate::boat::keys::or_default;
use crate::listing::Cells;
use crate::plane::actuator::{Actuator, Electric, ElectricSpec, Hydraulic, HydraulicSpec};
use crate::plane::linkage::{Linkage, LinkageDimensions, Travel};
use crate::plane::strength::{LimitKind, PlateMaterial, Support};
use crate::schema::Row;
use crate::spelling::first_unseen;

impl Cells<'_> {
    /// The part in this line; `None` when it has faults, which are gathered. `is_described` says whether
    /// the list has all columns that strength is judged by.
    pub(super) fn part(&mut self, is_described: bool) -> Option<Part> {
        let name = self.need_text("name");
        if name.as_deref().and_then(first_unseen).is_some() {
            let problem = "something in it is not seen".to_owned();
            self.fault(Some("name"), problem, "write it again with letters alone".to_owned());
        }
        let span = self.need_length("span");
        let chord = self.need_length("chord");
        let price = self.price();
        let on_hand = self.text("on_hand").is_some().then(|| self.need_count("on_hand"));
        let supply =
            self.choice("actuator").map(|kind| [Supply::Hydraulic, Supply::Electric][kind]);
        let says_more = |column: &&Row| column.need == STRENGTH && self.text(column.name).is_some();
        let gear = match is_described && COLUMNS.iter().any(|column| says_more(&column)) {
            true => Some(self.gear()),
            false => None,
        };
        let part = Part {
            name: name?,
            span: span?,
            chord: chord?,
            price: price?,
            on_hand: on_hand.flatten(),
            supply,
            gear: match gear {
                Some(gear) => Some(gear?),
                None => None,
            },
        };
        if let Some(gear) = &part.gear {
            self.check(&part, gear);
        }
        self.faults.is_empty().then_some(part)
    }

    /// Plate, hinge, actuators, linkage and screws.
    fn gear(&mut self) -> Option<Gear> {
        let thickness = self.need_length("thickness");
        let material = self.material();
        let support = self.support();
        let actuators = self.count_or_default("actuators");
        let travel = self.travel();
        let actuator = self.actuator(travel.map(|travel| travel.stroke));
        let linkage = self.linkage();
        let hinge_screws = self.hinge_screws();
        let bracket_screws = self.bracket_screws();
        let lead_through = self.optional("lead_through");
        Some(Gear {
            thickness: thickness?,
            material: material?,
            support: support?,
            actuator: actuator?,
            actuators: actuators?,
            linkage: linkage?,
            travel: travel?,
            hinge_screws: hinge_screws?,
            bracket_screws: bracket_screws?,
            lead_through: lead_through?.map(Length::new::<meter>),
        })
    }

    fn material(&mut self) -> Option<PlateMaterial> {
        let name = self.need_text("material");
        let modulus = self.optional("modulus").map(|value| value.map(Pressure::new::<pascal>));
        let limit = self.optional("limit_stress").map(|value| value.map(Pressure::new::<pascal>));
        let kind_given = self.text("limit_kind").is_some();
        let kind = self.choice("limit_kind");
        if kind_given && kind.is_none() {
            return None;
        }
        let kind = kind.map(|index| [LimitKind::Yield, LimitKind::Ultimate][index]);
        let (name, modulus, limit) = (name?, modulus?, limit?);
        let known = [
            PlateMaterial::stainless_316,
            PlateMaterial::aluminium_5083_h116,
            PlateMaterial::glass_polyester_laminate,
        ];
        if let Some(index) = MATERIALS.iter().position(|word| word.eq_ignore_ascii_case(&name)) {
            let known = known[index]();
            return Some(PlateMaterial {
                modulus: modulus.unwrap_or(known.modulus),
                limit_stress: limit.unwrap_or(known.limit_stress),
                limit_kind: kind.unwrap_or(known.limit_kind),
                ..known
            });
        }
        let (Some(modulus), Some(limit_stress), Some(limit_kind)) = (modulus, limit, kind) else {
            self.fault(
                Some("material"),
                format!("the strength of `{}` is not known", crate::units::quoted(&name)),
                format!(
                    "write {}, or fill in modulus, limit_stress and limit_kind",
                    MATERIALS.join(", ")
                ),
            );
            return None;
        };
        Some(PlateMaterial { name, modulus, limit_stress, limit_kind })
    }

    fn support(&mut self) -> Option<Support> {
        let given = self.text("support").is_some();
        let support = self.choice("support");
        match (given, support) {
            (true, None) => None,
            (_, Some(1)) => Some(Support::WholeSpan),
            _ => Some(Support::MiddleBracket { width: self.need_length("bracket_width")? }),
        }
    }

    fn travel(&mut self) -> Option<Travel> {
        let retracted_length = self.need_length("retracted_length");
        let stroke = self.need_length("stroke");
        Some(Travel { retracted_length: retracted_length?, stroke: stroke? })
    }

    fn actuator(&mut self, stroke: Option<Length>) -> Option<Actuator> {
        if self.text("actuator").is_none() {
            self.need_text("actuator");
            return None;
        }
        let built = match self.choice("actuator")? {
            0 => Hydraulic::new(self.hydraulic(stroke)?).map(Actuator::Hydraulic),
            _ => Electric::new(self.electric(stroke)?).map(Actuator::Electric),
        };
        built
            .map_err(|error| {
                let (value, unit) = (error.value, error.unit);
                let problem = format!("{} is {value} {unit}", error.name);
                self.fault(Some("actuator"), problem.trim_end().to_owned(), error.rule);
            })
            .ok()
    }

    fn hydraulic(&mut self, stroke: Option<Length>) -> Option<HydraulicSpec> {
        let length = |value: Option<f64>| value.map(Length::new::<meter>);
        let bore = self.need_length("bore");
        let rod = self.optional("rod").map(length);
        let pump_pressure = self.need("pump_pressure");
        let efficiency = self.value_or_default("efficiency");
        let pump_flow = self.need("pump_flow");
        let tube_bore = self.need_length("tube_bore");
        let tube_length = self.need_length("tube_length");
        let kinematic = self.need("oil_viscosity");
        let density = self.need("oil_density");
        let lock = self.optional("lock_pressure");
        let density = density?;
        Some(HydraulicSpec {
            bore: bore?,
            rod: rod?,
            pump_pressure: Pressure::new::<pascal>(pump_pressure?),
            efficiency: efficiency?,
            pump_flow: VolumeRate::new::<cubic_meter_per_second>(pump_flow?),
            tube_bore: tube_bore?,
            tube_length: tube_length?,
            oil_viscosity: DynamicViscosity::new::<pascal_second>(kinematic? * density),
            oil_density: MassDensity::new::<kilogram_per_cubic_meter>(density),
            stroke: stroke?,
            lock_pressure: lock?.map(Pressure::new::<pascal>),
        })
    }

    fn electric(&mut self, stroke: Option<Length>) -> Option<ElectricSpec> {
        let force = self.need("rated_force");
        let speed = self.need("actuator_speed");
        let current = self.need("current");
        let voltage = self.need("voltage");
        let holding = self.optional("holding_force");
        Some(ElectricSpec {
            rated_force: Force::new::<newton>(force?),
            speed: Velocity::new::<meter_per_second>(speed?),
            stroke: stroke?,
            rated_current: ElectricCurrent::new::<ampere>(current?),
            supply_voltage: ElectricPotential::new::<volt>(voltage?),
            holding_force: holding?.map(Force::new::<newton>),
        })
    }

    fn linkage(&mut self) -> Option<LinkageDimensions> {
        let up = self.need_length("upper_pin_height");
        let stand_off = self.need_length("upper_pin_stand_off");
        let aft = self.need_length("lower_pin_aft");
        let above = self.need_length("lower_pin_above");
        Some(LinkageDimensions {
            hinge_height: or_default(None, "transom.hinge_height"),
            upper_pin_up_transom: up?,
            upper_pin_stand_off: stand_off?,
            lower_pin_aft: aft?,
            lower_pin_above_plate: above?,
            transom_rake: Angle::new::<degree>(0.0),
        })
    }

    fn hinge_screws(&mut self) -> Option<HingeScrews> {
        let count = self.need_count("screw_count");
        let edge_distance = self.need_length("screw_edge");
        let spacing = match self.text("screw_spacing") {
            None => Some(Spacing::Even),
            Some(word) if word.eq_ignore_ascii_case("even") => Some(Spacing::Even),
            Some(_) => self.need_length("screw_spacing").map(Spacing::Pitch),
        };
        let row_height = self.need_length("screw_row_height");
        let leaf_height = self.need_length("leaf_height");
        let pin_offset = self.need_length("hinge_pin_offset");
        let diameter = self.need_length("screw_diameter");
        let length = self.need_length("screw_length");
        Some(HingeScrews {
            count: count?,
            edge_distance: edge_distance?,
            spacing: spacing?,
            row_height: row_height?,
            leaf_height: leaf_height?,
            pin_offset: pin_offset?,
            diameter: diameter?,
            length: length?,
        })
    }

    fn bracket_screws(&mut self) -> Option<BracketScrews> {
        let count = self.need_count("bracket_screw_count");
        let across = self.need_length("bracket_screw_across");
        let up = match count {
            Some(count) if count > 2 => self.need_length("bracket_screw_up"),
            _ => {
                self.optional("bracket_screw_up").map(|up| Length::new::<meter>(up.unwrap_or(0.0)))
            }
        };
        let edge_distance = self.need_length("bracket_edge");
        let diameter = self.need_length("bracket_screw_diameter");
        let length = self.need_length("bracket_screw_length");
        Some(BracketScrews {
            count: count?,
            across: across?,
            up: up?,
            edge_distance: edge_distance?,
            diameter: diameter?,
            length: length?,
        })
    }

    /// The price of one plane, from its own or from that of a pair, with its currency from wherever it stands.
    fn price(&mut self) -> Option<Price> {
        let given = |cells: &Self, name| cells.text(name).is_some();
        let column = match (given(self, "price"), given(self, "pair_price")) {
            (true, false) => "price",
            (false, true) => "pair_price",
            (true, true) => {
                self.fault(
                    Some("price"),
                    "price and pair_price are both given".to_owned(),
                    "leave one of the two empty".to_owned(),
                );
                return None;
            }
            (false, false) => {
                let column = ["price", "pair_price"]
                    .into_iter()
                    .find(|name| self.texts.contains_key(name))?;
                self.fault(
                    Some(column),
                    "nothing is written here".to_owned(),
                    "write the price, for example 410".to_owned(),
                );
                return None;
            }
        };
        let (amount, beside) = self.money(column)?;
        let amount = if column == "pair_price" { amount / 2.0 } else { amount };
        // A sign that several currencies have says nothing.
        let beside = beside.filter(|sign| sign != "$");
        let written = self.text("currency").map(str::to_owned).or(beside);
        let Some(written) = written.or_else(|| self.units.get(column).cloned()) else {
            return Some(Price { amount, currency: String::new() });
        };
        if let Some(currency) = currency_of(&written) {
            return Some(Price { amount, currency });
        }
        self.fault(
            Some("currency"),
            format!("`{}` is not a currency", crate::units::quoted(&written)),
            "write its three letters, for example EUR".to_owned(),
        );
        None
    }

    /// What the values of a part must be to each other.
    fn check(&mut self, part: &Part, gear: &Gear) {
        self.check_linkage(gear);
        let mut too_long = |column, what: &str, length: Length, limit: &str, most: Length| {
            if length.get::<meter>() > most.get::<meter>() + 1e-9 {
                let mm = |length: Length| length.get::<millimeter>();
                self.fault(
                    Some(column),
                    format!(
                        "{what}, {:.0} mm, is more than {limit}, {:.0} mm",
                        mm(length),
                        mm(most)
                    ),
                    "correct one of the two".to_owned(),
                );
            }
        };
        let screws = &gear.hinge_screws;
        if let Support::MiddleBracket { width } = gear.support {
            let share = part.span / f64::from(gear.actuators);
            too_long("bracket_width", "the bracket", width, "its share of the span", share);
        }
        let aft = gear.linkage.lower_pin_aft;
        too_long("lower_pin_aft", "the lower pin's distance", aft, "the chord", part.chord);
        let row = screws.row_height;
        too_long("screw_row_height", "the row of screws", row, "leaf_height", screws.leaf_height);
        let gaps = f64::from(screws.count - 1);
        let row_length = match screws.spacing {
            Spacing::Even => screws.diameter * 2.0 * gaps,
            Spacing::Pitch(pitch) => pitch * gaps,
        };
        let whole = row_length + 2.0 * screws.edge_distance;
        too_long("screw_count", "the row with both edges", whole, "the span", part.span);
        let bracket = gear.bracket_screws.half_height() + screws.leaf_height;
        let up = gear.linkage.upper_pin_up_transom;
        too_long("bracket_edge", "half the bracket and the leaf", bracket, "upper_pin_height", up);
        if gear.bracket_screws.count % 2 == 1 {
            self.fault(
                Some("bracket_screw_count"),
                format!("{} is not an even number", gear.bracket_screws.count),
                "half of the screws stand in each of two columns".to_owned(),
            );
        }
    }

    /// The linkage must lift the plane at least parallel to the bottom and push it down from there.
    fn check_linkage(&mut self, gear: &Gear) {
        let range =
            Linkage::new(&gear.linkage).and_then(|linkage| linkage.deflection_range(&gear.travel));
        match range {
            Err(error) => {
                let text = error.to_string();
                let (problem, remedy) =
                    text.split_once("; ").unwrap_or((text.as_str(), "check the pins"));
                self.fault(None, format!("linkage: {problem}"), remedy.to_owned());
            }
            Ok((raised, lowered)) => {
                let (raised_deg, lowered_deg) = (raised.get::<degree>(), lowered.get::<degree>());
                if raised_deg > 0.0 || lowered_deg <= 0.0 {
                    self.fault(
                        None,
                        format!("linkage: the plane moves from {raised_deg:.1}° to {lowered_deg:.1}°, counted down from the bottom line"),
                        "it must come up at least to 0° and go down from there: check the pins, retracted_length and stroke".to_owned(),
                    );
                }
            }
        }
    }
}
