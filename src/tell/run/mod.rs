//! A run told: how the boat runs, speed by speed.
//!
//! Each part is a function of a [`RunText`], so that whoever prints it can choose.

mod before_planing;
mod drive_trim;
mod estimates;
mod forces;
mod in_short;
mod models;
mod notes;
mod particulars;
mod second_opinion;
mod short_form;
mod tables;

pub use before_planing::before_planing;
pub use drive_trim::drive_trims;
pub use estimates::estimates;
pub use forces::forces;
pub use in_short::in_short;
pub use models::models;
pub use notes::flags;
pub use particulars::{particulars, particulars_from};
pub use second_opinion::{second_opinion, second_opinion_sentence};
pub use short_form::short_form;
pub use tables::{attitude, planes, porpoising, resistance, side_by_side, table};

use crate::balance::opinions::Opinion;
use crate::balance::sensitivity::Sensitivity;
use crate::balance::series::SecondOpinion;
use crate::balance::sweep::Set;
use crate::balance::{Balance, BeforePlaning, Outcome, Point, Settings};
use crate::behaviour::drive_trim::DriveTrims;
use crate::boat::Boat;
use crate::error::FileWarning;
use crate::flag::Flag;
use crate::units::UnitChoice;

/// A boat swept over speeds and deflections, with what else was found out about her.
#[derive(Clone, Copy, Debug)]
pub struct RunText<'a> {
    /// The boat in one loading condition.
    pub boat: &'a Boat,
    /// How the balances were computed.
    pub settings: &'a Settings,
    /// Units of the output.
    pub units: UnitChoice,
    /// For each deflection: the points by speed.
    pub sets: &'a [Set],
    /// The same by every other lift model; empty where that was not asked for.
    pub opinions: &'a [Opinion],
    /// The pre-planing regression beside the lift models; without rows where there is none.
    pub before_planing: &'a BeforePlaning,
    /// What a tank series says beside what is computed, planes up; without rows where that was not asked for.
    pub second_opinion: &'a SecondOpinion,
    /// Effect of the estimates on the boat with her planes up.
    pub sensitivities: &'a [Sensitivity],
    /// What trimming the drive does, where that was asked for.
    pub drive_trims: Option<&'a DriveTrims>,
    /// Values of the file that look unusual.
    pub warnings: &'a [FileWarning],
    /// Whether nothing can be said about planes, which stands above all of this.
    pub is_silent: bool,
}

impl<'a> RunText<'a> {
    /// Every point by the lift model chosen.
    pub fn points(&self) -> impl Iterator<Item = &'a Point> + use<'a> {
        self.sets.iter().flat_map(|set| &set.points)
    }

    /// Every point by every model shown, the one chosen first.
    fn all_points(&self) -> impl Iterator<Item = &'a Point> + use<'a> {
        self.points().chain(self.opinions.iter().flat_map(|opinion| opinion.sets.iter().flatten()))
    }

    /// All flags raised at any point, in order.
    #[must_use]
    pub fn flags(&self) -> Vec<Flag> {
        let all =
            self.all_points().fold(self.before_planing.flags, |all, point| all.union(point.flags));
        all.iter().collect()
    }

    /// All outcomes at any point but running, in order of first appearance.
    #[must_use]
    pub fn outcomes(&self) -> Vec<Outcome> {
        let mut outcomes = Vec::new();
        for point in self.all_points() {
            if point.outcome != Outcome::Running && !outcomes.contains(&point.outcome) {
                outcomes.push(point.outcome);
            }
        }
        outcomes
    }

    fn balance(&self) -> Balance {
        Balance::of(self.boat, self.settings)
    }
}
