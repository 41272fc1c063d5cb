//! What heels the boat: a list of named moments, like the budget of forces.

use uom::si::f64::{Length, Torque};
use uom::si::{force::newton, length::meter, torque::newton_meter};

use super::ListStudy;
use crate::balance::Point;
use crate::boat::{ListCause, WeightInput, input::weight_of};
use crate::field::{InSi, written};
use crate::sentence::duty::off_centre_texts;
use crate::units::{UnitChoice, UnitSystem};

/// What a contribution comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Cause {
    /// An item of the load table that lies off the centreline, by its name.
    Load(String),
    /// The boat's centre of gravity, given off the centreline.
    Weight,
    /// Wind from the side.
    Wind,
    /// The torque of the propellers.
    Propellers,
    /// Something asked for on top of what the boat file says.
    Asked(ListCause),
}

impl Cause {
    /// What it is, for a person.
    #[must_use]
    pub fn text(&self, units: UnitChoice) -> String {
        match self {
            Self::Load(item) => item.clone(),
            Self::Weight => "centre of gravity off the centreline".to_owned(),
            Self::Wind => "wind from the side".to_owned(),
            Self::Propellers => "torque of the propellers".to_owned(),
            Self::Asked(ListCause::Moment(_)) => "a moment, as asked".to_owned(),
            Self::Asked(ListCause::OffCentre { mass, distance }) => {
                let [heavy, far] = off_centre_texts(*mass, *distance, units);
                let side = if distance.value < 0.0 { "port" } else { "starboard" };
                format!("{heavy} at {far} to {side}")
            }
        }
    }
}

/// One moment that heels the boat, positive when it presses starboard down.
#[derive(Clone, Debug, PartialEq)]
pub struct Contribution {
    /// What it comes from.
    pub cause: Cause,
    /// Its moment with the sideways force reacted at the bottom, and at the height of the centre of gravity.
    pub moment: [Torque; 2],
    /// Where it comes from, with the equation.
    pub source: &'static str,
}

written! {
    Contribution as contribution {
        "name": contribution.cause.text(UnitSystem::default().into()),
        "moment_bottom_n_m": contribution.moment[0].in_si(),
        "moment_centre_of_gravity_n_m": contribution.moment[1].in_si(),
        "source": contribution.source,
    }
}

/// The heeling moment of a mass off the centreline or of a moment given, positive when starboard goes down.
#[must_use]
pub fn moment_of(cause: ListCause) -> Torque {
    Torque::new::<newton_meter>(cause.moment_n_m())
}

/// The sum of all contributions, for both heights of the reaction.
pub(super) fn sum(contributions: &[Contribution]) -> [Torque; 2] {
    let zero = Torque::new::<newton_meter>(0.0);
    contributions.iter().fold([zero; 2], |sum, c| [sum[0] + c.moment[0], sum[1] + c.moment[1]])
}

impl ListStudy<'_> {
    /// Everything that heels the boat, with her planes up.
    pub(super) fn contributions(&self, bare: &Point) -> Vec<Contribution> {
        let mut all = self.off_centre();
        if let Some(wind) = self.boat.wind() {
            all.push(Contribution {
                cause: Cause::Wind,
                moment: self.heights().map(|height| {
                    let arm_m = (wind.height - height).get::<meter>();
                    Torque::new::<newton_meter>(wind.force.get::<newton>() * arm_m)
                }),
                source: "wind across the boat, 1/2 rho_air V^2 C A, at its height above the sideways reaction",
            });
        }
        if let Some(torque) = self.boat.drive().propeller_torque {
            all.push(Contribution {
                cause: Cause::Propellers,
                moment: [torque * self.share_of_torque(bare); 2],
                source: "torque of the water on the propellers, P/omega at full power, less in proportion to the thrust",
            });
        }
        all.extend(self.asked.iter().map(|&cause| Contribution {
            cause: Cause::Asked(cause),
            moment: [moment_of(cause); 2],
            source: "asked for: m g y of a mass, or a moment",
        }));
        all
    }

    /// Heights above the keel at which the sideways force may be reacted.
    pub(super) fn heights(&self) -> [Length; 2] {
        [Length::new::<meter>(0.0), self.boat.weight().vcg]
    }

    /// The load table's items off the centreline, or the whole weight where totals are given.
    fn off_centre(&self) -> Vec<Contribution> {
        let contribution = |cause: Cause, moment: Torque| Contribution {
            cause,
            moment: [moment; 2],
            source: "weight off the centreline, m g y",
        };
        let mut all: Vec<Contribution> = self
            .boat
            .items_aboard()
            .into_iter()
            .map(|load| {
                let moment_n_m =
                    weight_of(load.mass).get::<newton>() * load.starboard.get::<meter>();
                contribution(Cause::Load(load.item), Torque::new::<newton_meter>(moment_n_m))
            })
            .collect();
        if matches!(self.boat.input().weight, WeightInput::Totals { .. }) {
            let added = sum(&all)[0];
            all.push(contribution(Cause::Weight, self.boat.list_moment() - added));
        }
        all.retain(|contribution| contribution.moment[0].value != 0.0);
        all
    }

    /// Share of the torque at full power: the thrust over that at top speed, never more than all.
    ///
    /// Of one propeller, torque goes nearly with thrust. All of it where the
    /// boat does not run.
    fn share_of_torque(&self, bare: &Point) -> f64 {
        match (bare.running, self.top_thrust) {
            (Some(running), Some(top)) => (running.thrust / top).value.clamp(0.0, 1.0),
            _ => 1.0,
        }
    }
}
