//! The transom of a boat file, with what stands on it.

use super::values::Values;
use crate::boat::transom::Side;
use crate::boat::{AsFitted, ObstacleInput, ObstacleKind, Strake, TransomForm, TransomInput};

impl Values<'_> {
    pub(super) fn transom(&mut self) -> Option<TransomInput> {
        let count = self.count("transom.obstacle");
        let obstacles: Vec<_> = (0..count).map(|index| self.obstacle(index)).collect();
        let count = self.count("transom.strake");
        let strakes: Vec<_> = (0..count).map(|index| self.strake(index)).collect();
        Some(TransomInput {
            beam: self.value("transom.beam"),
            deadrise: self.value("transom.deadrise"),
            form: self.choice("transom.form").map(|index| TransomForm::ALL[index]),
            middle_beam: self.value("transom.middle_beam"),
            inner_clearance: self.value("transom.inner_clearance"),
            outer_clearance: self.value("transom.outer_clearance"),
            hinge_height: self.value("transom.hinge_height"),
            chine_radius: self.value("transom.chine_radius"),
            retracted_angle: self.value("transom.retracted_angle"),
            edge_fairness: self.value("transom.edge_fairness"),
            lower_edge_radius: self.value("transom.lower_edge_radius"),
            unevenness: self.value("transom.unevenness"),
            thickness: self.value("transom.thickness"),
            waterline: self.value("transom.waterline"),
            rake: self.value("transom.rake"),
            working_height: self.value("transom.working_height"),
            obstacles: obstacles.into_iter().collect::<Option<_>>()?,
            strakes: strakes.into_iter().collect::<Option<_>>()?,
        })
    }

    fn obstacle(&mut self, index: usize) -> Option<ObstacleInput> {
        let key = |name: &str| format!("transom.obstacle[{index}].{name}");
        let kind = self.choice(&key("kind"));
        let kind = self.need(&key("kind"), kind);
        let lengths = ["off_centre", "width", "from", "to"].map(|name| self.needed(&key(name)));
        let clearance = self.value(&key("clearance"));
        let [off_centre, width, from, to] = lengths;
        Some(ObstacleInput {
            kind: ObstacleKind::ALL[kind?],
            name: self.text(&key("name")),
            off_centre: off_centre?,
            width: width?,
            from: from?,
            to: to?,
            clearance,
        })
    }

    /// A side as it was fitted.
    pub(super) fn as_fitted(&mut self, index: usize) -> Option<AsFitted> {
        let key = |name: &str| format!("as_fitted[{index}].{name}");
        let side = self.choice(&key("side"));
        let side = self.need(&key("side"), side);
        let from_chine = self.value(&key("from_chine"));
        let hinge_height = self.value(&key("hinge_height"));
        let gauge_height = self.value(&key("gauge_height"));
        let angle_up = self.value(&key("angle_up"));
        let angle_down = self.value(&key("angle_down"));
        let side = [Side::Port, Side::Starboard][side?];
        Some(AsFitted { side, from_chine, hinge_height, gauge_height, angle_up, angle_down })
    }

    fn strake(&mut self, index: usize) -> Option<Strake> {
        let [off_centre, width, depth] = ["off_centre", "width", "depth"]
            .map(|name| self.needed(&format!("transom.strake[{index}].{name}")));
        Some(Strake { off_centre: off_centre?, width: width?, depth: depth? })
    }
}
