//! Boats at random, as the text of their files: half of them like boats of the trade, half anything that the
//! limits of a boat file admit. What is optional is there or not, in any unit of its kind.
//!
//! A seed gives the same text on every machine, so that one boat can be tried again.

use super::writer::{Random, Writer, rows};

const GRAVITY_M_S2: f64 = 9.806_65;
const WATER_KG_M3: f64 = 1025.0;

/// A boat file.
pub struct Drawn {
    pub seed: u64,
    pub text: String,
    /// Names of its loading conditions besides that of the file.
    pub conditions: Vec<&'static str>,
    /// A speed at which she may plane.
    pub speed_m_s: f64,
}

/// The boat of a seed.
pub fn drawn(seed: u64) -> Drawn {
    let mut random = Random::new(seed);
    let is_usual = seed.is_multiple_of(2);
    let beam_m = random.scaled(if is_usual { (1.2, 5.0) } else { (0.1, 12.0) });
    let text = format!("name = \"Boat {seed}\"\n");
    let mut writer =
        Writer { random, text, is_usual, beam_m, conditions: Vec::new(), top_m_s: 0.0 };
    writer.boat();
    let Writer { mut random, text, conditions, top_m_s, .. } = writer;
    let least_m_s = (GRAVITY_M_S2 * beam_m).sqrt();
    let speed_m_s = random.between((least_m_s, top_m_s.max(1.2 * least_m_s))).clamp(0.06, 59.0);
    Drawn { seed, text, conditions, speed_m_s }
}

impl Writer {
    fn boat(&mut self) {
        let names = ["alone", "with guests", "Zuladung \u{e4}"];
        let several = self.random.below(4);
        self.conditions = names[..several.saturating_sub(1)].to_vec();
        if self.random.chance(0.2) {
            let root = rows("");
            self.any(root, root.key("for").expect("a wish"));
        }
        let (length_m, mass_kg) = self.hull();
        self.weight(length_m, mass_kg);
        self.drive(mass_kg);
        self.around();
        self.aft();
        self.wishes();
        self.conditions(length_m, mass_kg);
        self.doubts();
    }

    /// The bottom; her length and mass.
    fn hull(&mut self) -> (f64, f64) {
        let hull = rows("hull");
        let length_m = self.beam_m * self.pick((2.5, 6.0), (1.0, 15.0));
        let length_m = length_m.clamp(0.45, 49.0);
        let load = self.random.scaled(if self.is_usual { (0.2, 1.0) } else { (0.01, 3.0) });
        let mass_kg = (WATER_KG_M3 * load * self.beam_m.powi(3)).clamp(1.1, 290_000.0);
        self.open("[hull]");
        if self.random.chance(0.3) {
            self.put(hull, "overall_length", (1.13 * length_m).clamp(0.51, 59.0));
        }
        if !self.text.contains("overall_length") || self.random.chance(0.5) {
            self.put(hull, "bottom_length", length_m);
        }
        if self.random.chance(0.15) {
            self.put(hull, "overall_beam", 1.13 * self.beam_m);
        }
        if !self.text.contains("overall_beam") || self.random.chance(0.5) {
            self.put(hull, "chine_beam", self.beam_m);
        }
        match self.random.below(8) {
            0 => {}
            1 => self.text.push_str("deadrise = \"deep V\"\n"),
            _ => {
                let deadrise_deg = self.pick((8.0, 26.0), (0.0, 40.0));
                self.put(hull, "deadrise", deadrise_deg);
            }
        }
        if self.random.chance(0.2) {
            for key in ["entrance_half_angle", "transom_area_ratio"] {
                self.any(hull, hull.key(key).expect("a key"));
            }
        }
        for key in ["features", "roughness"] {
            if self.random.chance(0.15) {
                self.any(hull, hull.key(key).expect("a key"));
            }
        }
        (length_m, mass_kg)
    }

    /// Her weight in total or item by item, or how she floats.
    fn weight(&mut self, length_m: f64, mass_kg: f64) {
        let lcg_m = length_m * self.pick((0.28, 0.46), (0.02, 0.9));
        let vcg_m = self.beam_m * self.pick((0.2, 0.5), (-0.2, 1.0));
        let tcg_m = self.beam_m * self.pick((-0.03, 0.03), (-0.2, 0.2));
        if self.random.chance(0.4) {
            let items = 1 + self.random.below(8);
            for item in 0..items {
                self.item("[[load]]", item, mass_kg / items as f64, [lcg_m, vcg_m, tcg_m]);
            }
            return;
        }
        let weight = rows("weight");
        self.open("[weight]");
        self.put(weight, "mass", mass_kg);
        for (key, value, share) in [("lcg", lcg_m, 0.8), ("vcg", vcg_m, 0.8), ("tcg", tcg_m, 0.2)] {
            if self.random.chance(share) {
                self.put(weight, key, value);
            }
        }
        if self.random.chance(0.1) {
            let afloat = rows("afloat");
            let draft_m = 0.16 * self.beam_m;
            let (aft_m, forward_m) =
                (self.random.between((0.6, 1.4)), self.random.between((0.5, 1.1)));
            self.open("[afloat]");
            self.put(afloat, "draft_at_transom", (aft_m * draft_m).max(0.006));
            self.put(afloat, "draft_forward", forward_m * draft_m);
            self.put(afloat, "forward_mark", (0.6 * length_m).max(0.11));
        }
    }

    /// An item of the loads, near to where it belongs.
    fn item(&mut self, header: &str, item: usize, mass_kg: f64, [lcg_m, vcg_m, tcg_m]: [f64; 3]) {
        let load = rows("load");
        let beam_m = self.beam_m;
        self.open(header);
        self.text.push_str(&format!("item = \"item {item}\"\n"));
        self.put(load, "mass", mass_kg);
        for (key, value) in [("forward", lcg_m), ("up", vcg_m), ("starboard", tcg_m)] {
            let off = self.random.between((-0.05, 0.05)) * beam_m;
            self.put(load, key, (value + off).clamp(-2.9, 19.0));
        }
    }

    fn drive(&mut self, mass_kg: f64) {
        let drive = rows("drive");
        let coefficient = self.pick((1.5, 6.0), (0.5, 14.0));
        self.top_m_s = (coefficient * (GRAVITY_M_S2 * self.beam_m).sqrt()).clamp(0.6, 59.0);
        self.open("[drive]");
        let by_power = self.random.chance(0.5);
        if by_power {
            let power_w = mass_kg * self.random.scaled((15.0, 150.0));
            self.put(drive, "power", power_w.clamp(11.0, 1.9e7));
        }
        if !by_power || self.random.chance(0.5) {
            self.put(drive, "top_speed", self.top_m_s);
        }
        let by_itself = ["power", "top_speed", "thrust_offset", "thrust_height", "rotation"];
        let by_itself = [&by_itself[..], &["engines", "counter_rotating", "bollard_pull"]].concat();
        for row in drive.keys.iter().filter(|row| !by_itself.contains(&row.name)) {
            if self.random.chance(0.35) {
                self.any(drive, row);
            }
        }
        match self.random.below(3) {
            0 => {}
            1 => {
                let offset_m = self.beam_m * self.pick((0.0, 0.5), (-2.0, 2.0));
                self.put(drive, "thrust_offset", offset_m.clamp(-5.9, 5.9));
            }
            _ => {
                let height_m = self.beam_m * self.pick((-0.2, 0.2), (-0.5, 1.0));
                self.put(drive, "thrust_height", height_m.clamp(-3.9, 5.9));
            }
        }
        if self.random.chance(0.3) {
            let engines = 1 + self.random.below(4);
            self.text.push_str(&format!("engines = {engines}\n"));
            if self.random.chance(0.5) {
                self.text.push_str(&format!("counter_rotating = {}\n", engines / 2));
            }
        }
        if by_power && self.text.contains("engine_speed") && self.random.chance(0.5) {
            self.any(drive, drive.key("rotation").expect("a key"));
        }
    }

    /// Water, air, wind, appendages and whoever steers.
    fn around(&mut self) {
        if self.random.chance(0.5) {
            let kind = self.random.one_of(&["sea", "fresh"]);
            let water = rows("water");
            self.open("[water]");
            self.text.push_str(&format!("kind = \"{kind}\"\n"));
            self.any(water, water.key("temperature").expect("a key"));
        }
        let area_m2 = self.beam_m * self.beam_m;
        for (name, key) in
            [("air", "frontal_area"), ("wind", "side_area"), ("appendages", "drag_area")]
        {
            if self.random.chance(0.2) {
                let of_her = rows(name);
                let share = if name == "appendages" { (1e-4, 0.02) } else { (0.1, 2.0) };
                let share = self.random.scaled(share);
                self.table(name, &[key], 0.5);
                self.put(of_her, key, share * area_m2);
            }
        }
        if self.random.chance(0.15) {
            self.table("helm", &[], 0.6);
        }
    }

    /// Planes, transom, and what stands on it.
    fn aft(&mut self) {
        let planes = rows("planes");
        let has_planes = self.random.chance(0.6);
        if has_planes {
            let span_m = 0.5 * self.beam_m * self.pick((0.3, 0.7), (0.05, 1.0));
            let chord_m = self.beam_m * self.pick((0.08, 0.15), (0.01, 0.5));
            self.open("[planes]");
            self.put(planes, "span", span_m.clamp(0.006, 3.9));
            self.put(planes, "chord", chord_m.clamp(0.006, 1.9));
            if self.random.chance(0.2) {
                self.any(planes, planes.key("effectiveness").expect("a key"));
            }
        }
        if self.random.chance(0.5) {
            self.table("transom", &["beam", "form", "middle_beam"], 0.25);
            if self.random.chance(0.3) {
                let beam_m = self.beam_m * self.random.between((0.8, 1.0));
                self.put(rows("transom"), "beam", beam_m.max(0.11));
            }
            if self.random.chance(0.2) {
                let form = self.random.one_of(&["notched", "stepped", "pod"]);
                self.text.push_str(&format!("form = \"{form}\"\n"));
                let middle_m = self.beam_m * self.random.between((0.1, 0.4));
                self.put(rows("transom"), "middle_beam", middle_m.max(0.06));
            }
            for _ in 0..self.random.below(3) {
                self.table("transom.obstacle", &["off_centre", "from", "to"], 0.5);
                for (key, range) in
                    [("off_centre", (-0.4, 0.4)), ("from", (-0.2, 0.1)), ("to", (0.11, 0.4))]
                {
                    let value_m = self.beam_m * self.random.between(range);
                    self.put(rows("transom.obstacle"), key, value_m.clamp(-2.9, 5.9));
                }
            }
            if self.random.chance(0.2) {
                self.table("transom.strake", &["off_centre"], 1.0);
                let off_m = self.beam_m * self.random.between((0.05, 0.42));
                self.put(rows("transom.strake"), "off_centre", off_m);
            }
        }
        if has_planes && self.random.chance(0.05) {
            for side in ["port", "starboard"] {
                self.table("as_fitted", &["side", "gauge_height"], 0.4);
                self.text.push_str(&format!("side = \"{side}\"\n"));
            }
        }
        if self.random.chance(0.3) {
            self.table("sizing", &["smallest_aspect", "largest_aspect"], 0.4);
        }
    }

    /// What the planes are to do.
    fn wishes(&mut self) {
        let duty = rows("duty");
        let least_m_s = (GRAVITY_M_S2 * self.beam_m).sqrt();
        let top_m_s = self.top_m_s.max(1.3 * least_m_s).min(59.0);
        for _ in 0..self.random.below(4) {
            let [one, other] = [(); 2].map(|()| self.random.between((least_m_s, top_m_s)));
            let range = [("from", one.min(other)), ("to", one.max(other))];
            let kinds = ["relief", "hump-trim", "least-resistance", "porpoising-margin", "list"];
            let kind = self.random.one_of(&kinds);
            self.open("[[duty]]");
            self.text.push_str(&format!("kind = \"{kind}\"\n"));
            let (asked, speeds) = match kind {
                "relief" => ("at_least", &range[..]),
                "hump-trim" => ("at_most", &range[..]),
                "least-resistance" => ("within", &[("speed", one)][..]),
                "porpoising-margin" => ("margin", &[("up_to", one)][..]),
                _ => ("", &[("speed", one)][..]),
            };
            for &(key, speed_m_s) in speeds {
                self.put(duty, key, speed_m_s);
            }
            if asked.is_empty() {
                let [mass_kg, distance] =
                    [self.random.scaled((0.02, 0.3)), self.random.between((-0.45, 0.45))];
                self.put(duty, "mass", mass_kg * 100.0 * self.beam_m.powi(2));
                self.put(duty, "distance", distance * self.beam_m);
            } else {
                self.any(duty, duty.key(asked).expect("a key"));
            }
            if let [name, ..] = self.conditions[..]
                && self.random.chance(0.3)
            {
                self.text.push_str(&format!("condition = [\"{name}\"]\n"));
            }
        }
    }

    fn conditions(&mut self, length_m: f64, mass_kg: f64) {
        for (item, name) in self.conditions.clone().into_iter().enumerate() {
            self.open("[[condition]]");
            self.text.push_str(&format!("name = \"{name}\"\nabout = \"As it comes.\"\n"));
            let added_kg = mass_kg * self.random.between((0.02, 0.3));
            let place = [0.4 * length_m, 0.4 * self.beam_m, 0.0];
            self.item("[[condition.load]]", 100 + item, added_kg, place);
        }
    }

    /// How well she is known, and what was read.
    fn doubts(&mut self) {
        if self.random.chance(0.2) {
            let of = self.random.one_of(&["hull.chine_beam", "weight.mass", "hull.deadrise"]);
            let source = self.random.one_of(&["measured", "brochure", "guessed"]);
            self.text.push_str(&format!("\n[[tolerance]]\nof = \"{of}\"\nsource = \"{source}\"\n"));
        }
        if self.random.chance(0.1) {
            let speed_m_s = 1.6 * (GRAVITY_M_S2 * self.beam_m).sqrt();
            let trim_deg = self.random.between((2.0, 9.0));
            let seen = rows("seen");
            self.open("[[seen]]");
            self.put(seen, "speed", speed_m_s.min(59.0));
            self.put(seen, "trim", trim_deg);
        }
    }
}
