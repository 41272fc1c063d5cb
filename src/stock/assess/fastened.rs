//! What holds a plane when no part is chosen: screws and linkage alone, whatever moves it.

use uom::si::f64::{Angle, Force, Velocity};

use super::bolts::ThroughBolts;
use super::borne::{Bearer, Check, judged_speeds};
use super::fastenings::{Fastenings, Screws};
use super::flow::{Flow, Flows};
use super::{AssessError, Settings};
use crate::balance::Settings as BalanceSettings;
use crate::boat::{Boat, PlanePair};
use crate::plane::linkage::Linkage;
use crate::size::{no_condition, safe_deflections};

/// What holds a plane, with what is to be said of its hinge and its bracket screws.
#[derive(Clone, Debug, PartialEq)]
pub struct Fastened {
    /// Hinge screws and bracket screws, each where it is worst off.
    pub checks: [Check; 2],
    /// Bolts in the place of the screws that do not bear the slamming load.
    pub bolts: ThroughBolts,
    /// What slamming puts on one plate at the most.
    pub plate_load: Force,
    /// What it then asks of one actuator standing still, at the most.
    pub push: Force,
}

impl Fastenings {
    /// What they bear on a boat in some loading conditions, at the deflection that the boat file
    /// and a safe run allow.
    ///
    /// # Errors
    /// As [`super::strength`].
    pub fn on(&self, boats: &[Boat], settings: &Settings) -> Result<Fastened, AssessError> {
        let pair = PlanePair { span: self.span, chord: self.chord };
        let linkage = Linkage::new(&self.dimensions)?;
        let mut checks = Vec::new();
        let mut slamming = Vec::new();
        let (mut plate_load, mut push) = (Force::default(), Force::default());
        for boat in boats {
            let flows = Flows::new(boat, pair, settings.load_factor, settings.trim_load);
            let usable = boat.sizing().largest_deflection;
            let speeds = judged_speeds(boat);
            let safe = safe_deflections(boat, &BalanceSettings::default(), pair, &speeds);
            for (speed, safe) in speeds.into_iter().zip(safe) {
                let flow = flows.anyway(speed);
                let deflection = usable.min(safe);
                let [steady, design] = self.loads(&linkage, settings, &flow, deflection)?;
                checks.push(checked(speed, deflection, [&steady, &design]));
                let load = flow.design(deflection)?;
                plate_load = plate_load.max(load.force);
                let all = linkage.push_for(load.hinge_moment, deflection)?;
                push = push.max(all / f64::from(self.actuators));
                slamming.push(design);
            }
        }
        let worst = |all: [Check; 2], one: [Check; 2]| [0, 1].map(|i| all[i].worse(one[i]));
        let checks = checks.into_iter().reduce(worst).ok_or_else(no_condition)?;
        let verdicts = checks.map(|check| check.verdict());
        let bolts = ThroughBolts::of_screws(self, verdicts, &slamming)?;
        Ok(Fastened { checks, bolts, plate_load, push })
    }

    /// The screws under the expected and under the design load.
    fn loads(
        &self,
        linkage: &Linkage,
        settings: &Settings,
        flow: &Flow,
        deflection: Angle,
    ) -> Result<[Screws; 2], AssessError> {
        let screws = |load| self.screws(linkage, settings, load, deflection);
        Ok([screws(&flow.expected(deflection)?.total)?, screws(&flow.design(deflection)?)?])
    }
}

fn checked(speed: Velocity, deflection: Angle, loads: [&Screws; 2]) -> [Check; 2] {
    let check = |bearer, [steady, slamming]: [Option<f64>; 2]| Check {
        bearer,
        steady,
        slamming,
        speed,
        deflection,
    };
    [
        check(Bearer::HingeScrews, loads.map(Screws::hinge_share)),
        check(Bearer::BracketScrews, loads.map(Screws::bracket_share)),
    ]
}
