//! Where the settings leave her above the porpoising limit, in one sentence for every output.

use uom::si::f64::Velocity;

use super::sizing::Sizing;
use crate::behaviour::drive_trim::can_be_trimmed;
use crate::boat::{Boat, degrees};
use crate::document::{Piece, Sentence, said};
use crate::flag::Flag;
use crate::size::ScheduleRow;
use crate::units::{UnitChoice, number_with_decimals};

/// The settings in each loading condition, with the boat in it.
pub(crate) struct OverLimit<'a> {
    /// The boat in each loading condition.
    pub boats: &'a [Boat],
    /// What to do at each speed in each of them.
    pub schedules: Vec<&'a [ScheduleRow]>,
    /// Whether there are planes.
    pub has_pair: bool,
    /// Units of what is written.
    pub units: UnitChoice,
}

impl<'a> OverLimit<'a> {
    /// Of the settings of a sizing.
    pub fn of(sizing: &Sizing<'a>) -> Self {
        let conditions = &sizing.suggestion.conditions;
        Self {
            boats: sizing.boats,
            schedules: conditions.iter().map(|own| own.schedule.as_slice()).collect(),
            has_pair: sizing.suggestion.pair().is_some(),
            units: sizing.units,
        }
    }

    /// All rows that are over the limit.
    fn rows(&self) -> impl Iterator<Item = &'a ScheduleRow> {
        self.schedules.iter().flat_map(|rows| rows.iter()).filter(|r| r.is_over_porpoising_limit())
    }

    /// The sentence; nothing where she trims under the limit at every speed of every table at which it is tested.
    pub fn sentence(&self) -> Option<Sentence> {
        let is_untested = |row: &&ScheduleRow| row.flags.contains(Flag::PorpoisingCurveClamped);
        if self.rows().all(|row| is_untested(&row)) {
            return None;
        }
        let tested = match self.rows().any(|row| is_untested(&row)) {
            true => "; it is not tested for all of that",
            false => "",
        };
        let most =
            self.rows().filter_map(|row| row.porpoising_margin).map(|margin| -degrees(margin));
        let most_deg = most.fold(0.0, f64::max);
        let stretches = self.stretches();
        let stretches: Vec<String> = stretches.iter().map(|ends| self.stretch(*ends)).collect();
        Some(said![
            if self.has_pair { "Set as advised" } else { "With planes up" },
            format!(
                " she trims above the limit at which models began to nod (porpoise) {}",
                listed(&stretches)
            ),
            self.loadings(),
            ", by up to ",
            Piece::quantity(number_with_decimals(most_deg, 1), "deg"),
            tested,
            ": if she does nod, ease off",
            if can_be_trimmed(&self.boats[0]) { ", and trim the drive in" } else { "" },
            match self.has_pair {
                true =>
                    "; planes further down, never past what is safe at that speed, help and may not be enough",
                false => "",
            },
            ".",
        ])
    }

    /// First and last speed of each stretch over the limit in any loading, slowest first.
    fn stretches(&self) -> Vec<[Velocity; 2]> {
        let is_alike = |a: &ScheduleRow, b: &ScheduleRow| {
            a.is_over_porpoising_limit() == b.is_over_porpoising_limit()
        };
        let runs = self.schedules.iter().flat_map(|rows| rows.chunk_by(is_alike));
        let over = runs.filter(|run| run[0].is_over_porpoising_limit());
        let mut all: Vec<[Velocity; 2]> =
            over.map(|run| [run[0].speed, run[run.len() - 1].speed]).collect();
        all.sort_by(|a, b| a[0].value.total_cmp(&b[0].value));
        let mut merged: Vec<[Velocity; 2]> = Vec::new();
        for [from, to] in all {
            match merged.last_mut().filter(|last| from <= last[1]) {
                Some(last) => last[1] = last[1].max(to),
                None => merged.push([from, to]),
            }
        }
        merged
    }

    fn stretch(&self, ends: [Velocity; 2]) -> String {
        match ends.map(|speed| self.speed(speed)) {
            [from, to] if from == to => format!("at {from}"),
            [from, to] => format!("from {from} to {to}"),
        }
    }

    fn speed(&self, speed: Velocity) -> String {
        let value = self.units.speed.value(speed);
        let decimals = usize::from((value - value.round()).abs() > 0.05);
        format!("{} {}", number_with_decimals(value, decimals), self.units.speed.symbol())
    }

    /// The loadings in which that is so, where there are several.
    fn loadings(&self) -> Sentence {
        if self.boats.len() < 2 {
            return Sentence::default();
        }
        let own = self.boats.iter().zip(&self.schedules);
        let over = own.filter(|(_, rows)| rows.iter().any(|row| row.is_over_porpoising_limit()));
        let over: Vec<&Boat> = over.map(|(boat, _)| boat).collect();
        if over.len() == self.boats.len() {
            return ", in one loading or another".into();
        }
        let names = over.iter().map(|boat| Piece::name(&boat.condition().name).into());
        said![", loaded ", Sentence::joined(names, " or ")]
    }
}

/// `at 16 kn, at 20 kn and from 24 kn to 30 kn`.
pub(crate) fn listed(all: &[String]) -> String {
    match all {
        [] => String::new(),
        [one] => one.clone(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use uom::si::angle::degree;
    use uom::si::f64::{Angle, Velocity};
    use uom::si::velocity::knot;

    use super::*;
    use crate::flag::Flags;

    /// A boat in the loadings `normal`, `light` and more.
    fn boats() -> Vec<Boat> {
        let path = format!("{}/data/boats/wren.toml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap();
        crate::input::parse_boat("wren", &text).unwrap().boat.in_all_conditions().unwrap()
    }

    fn row(speed_kn: f64, margin_deg: f64, untested: bool) -> ScheduleRow {
        let mut flags = Flags::NONE;
        flags.insert_if(untested, Flag::PorpoisingCurveClamped);
        ScheduleRow {
            speed: Velocity::new::<knot>(speed_kn),
            deflection: Angle::default(),
            largest_safe: Angle::default(),
            trim_bare: None,
            trim: None,
            resistance_ratio: None,
            porpoising_margin: Some(Angle::new::<degree>(margin_deg)),
            flags,
        }
    }

    fn said(schedules: &[&[ScheduleRow]]) -> Option<String> {
        let boats = boats();
        let schedules = schedules.to_vec();
        let units = UnitChoice::default();
        let boats = &boats[..schedules.len()];
        OverLimit { boats, schedules, has_pair: true, units }
            .sentence()
            .map(|said| said.to_string())
    }

    #[test]
    fn regression_each_stretch_over_the_limit_is_named_and_what_reads_as_nought_is_none() {
        let rows = [
            row(16.0, -0.1, false),
            row(18.0, 0.2, false),
            row(20.0, -0.9, false),
            row(22.0, -0.3, true),
            row(24.0, -0.04, false),
        ];
        let one = said(&[&rows]).unwrap();
        assert!(
            one.contains(
                "at 16 kn and from 20 kn to 22 kn, by up to 0.9 deg; it is not tested for all"
            ),
            "{one}"
        );
        assert_eq!(said(&[&rows[1..2], &rows[4..]]), None);
        // Where nobody tested the limit nothing is said of it.
        assert_eq!(said(&[&rows[3..4]]), None);
    }

    #[test]
    fn regression_stretches_of_all_loadings_are_one_and_their_loadings_are_named() {
        let first = [row(16.0, 0.4, false), row(18.0, 0.3, false), row(20.0, 0.1, false)];
        let second = [row(16.0, -0.4, false), row(18.0, -0.3, false), row(20.0, 0.1, false)];
        let both = [row(16.0, 0.4, false), row(18.0, -0.3, false), row(20.0, -0.1, false)];
        let light = said(&[&first, &second]).unwrap();
        assert!(
            light.contains("from 16 kn to 18 kn, loaded `light`, by up to 0.4 deg:"),
            "{light}"
        );
        let all = said(&[&both, &second]).unwrap();
        assert!(
            all.contains("from 16 kn to 20 kn, in one loading or another, by up to 0.4 deg:"),
            "{all}"
        );
    }
}
