//! From runs to measurements: two-way runs are averaged.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Power, Velocity, VolumeRate};

use super::read::Log;
use super::row::{Direction, LogRow};
use crate::units::quoted;

/// Largest difference of deflection within a pair, degrees; the indicator is not read finer.
const SAME_DEFLECTION_DEG: f64 = 1.0;
/// Largest difference of engine speed within a pair, as a share. Common practice, no source.
const SAME_THROTTLE: f64 = 0.03;
/// Largest difference of speed within a pair, as a share: more is no current but another throttle.
const SAME_RUN: f64 = 0.35;

/// How a measurement came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Averaged {
    /// One run: current and wind are in it.
    OneRun,
    /// The mean of both directions.
    BothWays,
}

/// What one run, or one pair, measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Measurement {
    /// Lines of the log it comes from.
    pub lines: Vec<u64>,
    /// How it came about.
    pub averaged: Averaged,
    /// Speed.
    pub speed: Velocity,
    /// Running trim as read.
    pub trim: Angle,
    /// Mean deflection of the planes.
    pub deflection: Angle,
    /// Shaft power of all engines.
    pub power: Option<Power>,
    /// Fuel flow of all engines.
    pub fuel: Option<VolumeRate>,
    /// Notes written beside its runs.
    pub notes: Vec<String>,
}

/// All measurements of a log.
#[derive(Clone, Debug, PartialEq)]
pub struct Pairing {
    /// In the order of the log, a pair where its first run stands.
    pub measurements: Vec<Measurement>,
    /// What looks wrong with pairs, as sentences.
    pub warnings: Vec<String>,
}

impl Measurement {
    /// Its lines for a sentence: `line 4`, `lines 4 and 5`.
    #[must_use]
    pub fn lines_text(&self) -> String {
        let numbers: Vec<String> = self.lines.iter().map(u64::to_string).collect();
        match numbers.split_last() {
            Some((last, [])) => format!("line {last}"),
            Some((last, rest)) => format!("lines {} and {last}", rest.join(", ")),
            None => String::new(),
        }
    }
}

/// Averages the two-way runs of a log; the mean of a direction first, then that of both.
///
/// A steady current along the course adds to the speed over the ground one way
/// and takes from it the other, so that it is not in the mean; the speeds are
/// averaged, not the times.
#[must_use]
pub fn measurements(log: &Log) -> Pairing {
    let mut pairing = Pairing { measurements: Vec::new(), warnings: Vec::new() };
    let mut done: Vec<&str> = Vec::new();
    for row in &log.rows {
        let Some((name, _)) = &row.pair else {
            pairing.measurements.push(mean(&[vec![row]], Averaged::OneRun));
            continue;
        };
        if done.contains(&name.as_str()) {
            continue;
        }
        done.push(name);
        let of = |way: Direction| -> Vec<&LogRow> {
            let same = |row: &&LogRow| {
                row.pair.as_ref().is_some_and(|(other, run)| other == name && *run == way)
            };
            log.rows.iter().filter(same).collect()
        };
        pairing.take(name, of(Direction::Out), of(Direction::Back));
    }
    pairing
}

impl Pairing {
    fn take(&mut self, name: &str, out: Vec<&LogRow>, back: Vec<&LogRow>) {
        let all: Vec<&LogRow> = out.iter().chain(&back).copied().collect();
        let problem = if out.is_empty() || back.is_empty() {
            Some("has runs in one direction only")
        } else {
            unlike(&all)
        };
        match problem {
            None => self.measurements.push(mean(&[out, back], Averaged::BothWays)),
            Some(problem) => {
                let name = quoted(name);
                self.warnings.push(format!(
                    "pair {name} {problem}: its runs are taken one by one, with a wider error"
                ));
                let each = all.iter().map(|row| mean(&[vec![*row]], Averaged::OneRun));
                self.measurements.extend(each);
            }
        }
    }
}

/// Why runs are not of one pair.
fn unlike(rows: &[&LogRow]) -> Option<&'static str> {
    let range = |value: &dyn Fn(&LogRow) -> Option<f64>| {
        let values = || rows.iter().filter_map(|row| value(row));
        let least = values().fold(f64::INFINITY, f64::min);
        let largest = values().fold(f64::NEG_INFINITY, f64::max);
        (least, largest)
    };
    let share = |(least, largest): (f64, f64)| largest / least - 1.0;
    let (least, largest) = range(&|row| Some(row.deflection.get::<degree>()));
    if largest - least > SAME_DEFLECTION_DEG {
        Some("was run with the planes at different angles")
    } else if share(range(&|row| row.rpm)) > SAME_THROTTLE {
        Some("was run at different engine speeds")
    } else if share(range(&|row| Some(row.speed.value))) > SAME_RUN {
        Some("was run at speeds too far apart for a current")
    } else {
        None
    }
}

/// The mean of the means of some groups of runs.
fn mean(groups: &[Vec<&LogRow>], averaged: Averaged) -> Measurement {
    let of = |value: &dyn Fn(&LogRow) -> f64| {
        let group = |rows: &Vec<&LogRow>| {
            rows.iter().map(|row| value(row)).sum::<f64>() / rows.len() as f64
        };
        groups.iter().map(group).sum::<f64>() / groups.len() as f64
    };
    let rows = || groups.iter().flatten();
    // Where one run lacks it, the mean would be of one direction.
    let optional = |value: &dyn Fn(&LogRow) -> Option<f64>| {
        let all = rows().all(|row| value(row).is_some());
        all.then(|| of(&|row| value(row).unwrap_or_default()))
    };
    let mut lines: Vec<u64> = rows().map(|row| row.line).collect();
    lines.sort_unstable();
    let si = |value| uom::si::f64::Velocity { value, ..Velocity::default() };
    Measurement {
        lines,
        averaged,
        speed: si(of(&|row| row.speed.value)),
        trim: Angle { value: of(&|row| row.trim.value), ..Angle::default() },
        deflection: Angle { value: of(&|row| row.deflection.value), ..Angle::default() },
        power: optional(&|row| row.power.map(|power| power.value))
            .map(|value| Power { value, ..Power::default() }),
        fuel: optional(&|row| row.fuel.map(|fuel| fuel.value))
            .map(|value| VolumeRate { value, ..VolumeRate::default() }),
        notes: rows().filter_map(|row| row.note.clone()).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::parse_log;
    use approx::assert_relative_eq;

    fn pairing(lines: &str) -> Pairing {
        let head = "speed (kn),trim (deg),deflection (deg),rpm,pair,direction\n";
        measurements(&parse_log("log.csv", &format!("{head}{lines}")).unwrap())
    }

    #[test]
    fn physics_a_steady_current_is_not_in_the_mean_of_both_ways() {
        // 20 kn through the water in a current of 1.5 kn; three runs, two of them the same way.
        let found = pairing("21.5,4.0,0,,A,out\n18.5,4.2,0,,A,back\n21.5,4.0,0,,A,out\n");
        assert!(found.warnings.is_empty());
        let [pair] = &found.measurements[..] else { panic!("one pair") };
        let knot = crate::units::factor::M_S_PER_KNOT;
        assert_relative_eq!(pair.speed.value / knot, 20.0, max_relative = 1e-12);
        assert_relative_eq!(pair.trim.get::<degree>(), 4.1, max_relative = 1e-12);
        assert_eq!(pair.lines_text(), "lines 2, 3 and 4");
    }

    #[test]
    fn error_runs_that_are_no_pair_count_one_by_one() {
        for (lines, problem) in [
            ("21,4,0,,A,out\n", "has runs in one direction only"),
            ("21,4,0,,A,out\n20,4,5,,A,back\n", "was run with the planes at different angles"),
            ("21,4,0,3000,A,out\n20,4,0,3300,A,back\n", "was run at different engine speeds"),
            ("30,4,0,,A,out\n20,4,0,,A,back\n", "was run at speeds too far apart for a current"),
        ] {
            let found = pairing(lines);
            let expected =
                format!("pair A {problem}: its runs are taken one by one, with a wider error");
            assert_eq!(found.warnings, [expected]);
            assert!(found.measurements.iter().all(|m| m.averaged == Averaged::OneRun));
        }
    }
}
