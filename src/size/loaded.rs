//! The boat in each of the loading conditions that are asked about, and which duties hold in which.

use std::sync::OnceLock;

use uom::si::{torque::newton_meter, velocity::meter_per_second};

use super::generate::generated;
use crate::balance::forces::Prism;
use crate::balance::sweep::planing_start;
use crate::balance::{Hump, Settings};
use crate::boat::{Boat, Duty, Fault, Measure};
use crate::schema::most;

/// The boat in one loading condition.
pub(crate) struct Loaded<'a> {
    pub boat: &'a Boat,
    pub prism: Prism,
    hump: OnceLock<Option<Hump>>,
}

impl<'a> Loaded<'a> {
    /// The boat in each of some conditions.
    pub fn all(boats: &'a [Boat], settings: &Settings) -> Vec<Self> {
        boats.iter().map(|boat| Self::new(boat, Prism::new(boat, settings))).collect()
    }

    /// The boat in one condition, with the prism that stands for her.
    pub fn new(boat: &'a Boat, prism: Prism) -> Self {
        Self { boat, prism, hump: OnceLock::new() }
    }

    /// Her hump with planes up, looked for once; none where she runs nowhere and is bow-up nowhere.
    pub fn hump(&self) -> Option<&Hump> {
        self.hump.get_or_init(|| Hump::of_prism(self.boat, &self.prism)).as_ref()
    }

    /// Speed of the hump, m/s; the start of planing where she has none.
    pub fn hump_speed_m_s(&self) -> f64 {
        let start = || planing_start(self.boat).get::<meter_per_second>();
        self.hump().map_or_else(start, Hump::speed_m_s)
    }

    /// What the condition is called.
    pub fn name(&self) -> &'a str {
        &self.boat.condition().name
    }

    /// Heeling moment of her own weight off the centreline, to whichever side.
    pub fn own_list_n_m(&self) -> f64 {
        self.boat.list_moment().get::<newton_meter>().abs()
    }
}

/// A duty with the conditions in which it holds.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Held {
    pub duty: Duty,
    /// Indices in the list of conditions.
    pub loaded: Vec<usize>,
}

/// The duties asked for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Asking {
    pub duties: Vec<Held>,
    /// Whether they were generated from the boat.
    pub generated: bool,
}

impl Asking {
    /// The duties of the boat file that hold in any of the conditions, or those generated for each
    /// condition; checked.
    pub fn of(loaded: &[Loaded<'_>], settings: &Settings) -> Result<Self, Fault> {
        if !settings.method.is_full_balance() {
            return Err(Fault {
                key: "method".to_owned(),
                problem: "the 1964 cases know no planes".to_owned(),
                remedy: "size with the full method".to_owned(),
            });
        }
        match loaded.first() {
            None => Err(no_condition()),
            Some(first) if first.boat.gives_duties() => Self::given(loaded, first.boat),
            Some(_) => Ok(Self::generated(loaded)),
        }
    }

    fn given(loaded: &[Loaded<'_>], boat: &Boat) -> Result<Self, Fault> {
        let mut duties = Vec::new();
        for (index, asked) in boat.input().duties.iter().enumerate() {
            let held_in = indices_of(loaded, |name| asked.holds_in(name));
            if !held_in.is_empty() {
                check_speed(boat, index, &asked.duty)?;
                duties.push(Held { duty: asked.duty, loaded: held_in });
            }
        }
        let count = duties.iter().map(|held| held.loaded.len()).sum();
        if let Some([problem, remedy]) = most::too_many(most::DUTIES_IN_CONDITIONS, count) {
            return Err(Fault { key: "duty[0].kind".to_owned(), problem, remedy });
        }
        Ok(Self { duties, generated: false })
    }

    /// Those generated for each condition by itself; one that is the same in several stands once.
    fn generated(loaded: &[Loaded<'_>]) -> Self {
        let mut duties: Vec<Held> = Vec::new();
        for (index, own) in loaded.iter().enumerate() {
            for duty in generated(own) {
                match duties.iter_mut().find(|held| held.duty == duty) {
                    Some(held) => held.loaded.push(index),
                    None => duties.push(Held { duty, loaded: vec![index] }),
                }
            }
        }
        Self { duties, generated: true }
    }
}

/// Nothing can be said of a boat in no loading condition.
pub(crate) fn no_condition() -> Fault {
    Fault {
        key: "condition".to_owned(),
        problem: "no loading condition is asked about".to_owned(),
        remedy: "name one, or ask about all".to_owned(),
    }
}

fn indices_of(loaded: &[Loaded<'_>], holds: impl Fn(&str) -> bool) -> Vec<usize> {
    (0..loaded.len()).filter(|&index| holds(loaded[index].name())).collect()
}

/// Every duty must hold in the planing range, which starts at the same speed in every condition.
fn check_speed(boat: &Boat, index: usize, duty: &Duty) -> Result<(), Fault> {
    let start = planing_start(boat);
    let Some((key, speed)) = duty.speeds().slowest_given() else { return Ok(()) };
    if speed >= start * (1.0 - 1e-9) {
        return Ok(());
    }
    Err(Fault {
        key: format!("duty[{index}].{key}"),
        problem: format!(
            "{} is below the planing range, which starts at {} (Cv 1) for this beam",
            Measure::Speed(speed),
            Measure::Speed(start)
        ),
        remedy: format!("give at least {}", Measure::Speed(start)),
    })
}
