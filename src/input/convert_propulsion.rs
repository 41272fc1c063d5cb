//! The propulsion of a boat file: how much of the power reaches the water, and what it burns.

use super::values::Values;
use crate::boat::{EfficiencyAt, FuelKind, PropulsionInput};

impl Values<'_> {
    pub(super) fn propulsion(&mut self) -> PropulsionInput {
        let efficiency = self.value("drive.propulsive_efficiency");
        let count = self.count("drive.efficiency");
        let curve: Vec<_> = (0..count).map(|index| self.efficiency_at(index)).collect();
        if efficiency.is_some() && count > 0 {
            self.fault_at(
                "drive.propulsive_efficiency",
                "propulsive_efficiency and a curve of [[drive.efficiency]] are both given"
                    .to_owned(),
                "delete one of the two".to_owned(),
            );
        }
        let fuel = self.choice("drive.fuel");
        PropulsionInput {
            efficiency,
            efficiency_curve: curve.into_iter().flatten().collect(),
            bollard_pull: self.value("drive.bollard_pull"),
            fuel: fuel.map(|index| [FuelKind::Petrol, FuelKind::Diesel][index]),
            specific_consumption: self.value("drive.specific_consumption"),
        }
    }

    fn efficiency_at(&mut self, index: usize) -> Option<EfficiencyAt> {
        let key = |name: &str| format!("drive.efficiency[{index}].{name}");
        let speed = self.needed(&key("speed"));
        let efficiency = self.needed(&key("propulsive_efficiency"))?;
        Some(EfficiencyAt { speed: speed?, efficiency })
    }
}
