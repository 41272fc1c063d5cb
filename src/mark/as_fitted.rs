//! As fitted against as planned: the form to fill in, and what the differences do.

mod judged;

use std::fmt::Write;

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::torque::newton_meter;
use uom::si::velocity::knot;

use super::placement::Placement;
use super::say::{Say, SheetUnits};
use crate::balance::Settings;
use crate::behaviour::list::{ListStudy, SettingPoint};
use crate::boat::transom::Side;
use crate::boat::{AsFitted, Boat, Fault};
use crate::document::{Block, Column, Table};
use crate::field::{InSi, written};
use crate::plane::effect::dead_band;
use crate::units::number_with_decimals;

/// Difference of the planes, degrees, from which it is worth an hour's work; chosen here: half a
/// degree is 2 mm at the end of a chord of 225 mm.
const WORTH_DEG: f64 = 0.5;

/// The form, to be filled in and read back.
#[must_use]
pub fn form(placement: &Placement, units: SheetUnits) -> String {
    let say = Say(if units == SheetUnits::Inches { units } else { SheetUnits::Millimetres });
    let (raised, lowered) = placement.travel;
    let rows = [
        (
            "from_chine",
            say.length(placement.edge() - placement.outer),
            "outer end to the chine, along the edge",
        ),
        (
            "hinge_height",
            say.length(placement.hinge.height),
            "hinge line above the edge, mean of both ends",
        ),
        (
            "gauge_height",
            say.length(placement.gauge.trailing_edge),
            "trailing edge above the bottom line, plane up, mid-span",
        ),
        ("angle_up", say.angle(-raised), "above the bottom line at the upper stop"),
        ("angle_down", say.angle(lowered), "below the bottom line at the lower stop"),
    ];
    let mut text = format!(
        "# As fitted: {}. The figures are those planned: take the sign # away and write what was\n\
         # measured on the finished boat. Angles: an inclinometer on the plate, its reading on the bottom\n\
         # taken off. `planewright mark BOAT --as-fitted THIS-FILE` tells what the differences do; copied\n\
         # into the boat file they count in every answer.\n",
        placement.boat
    );
    for side in ["port", "starboard"] {
        let _ = writeln!(text, "\n[[as_fitted]]\nside = \"{side}\"");
        for (key, planned, meaning) in &rows {
            let _ = writeln!(text, "# {key} = \"{planned}\"  # {meaning}");
        }
    }
    text
}

/// A plane where both switches stand at half of their travel.
#[derive(Clone, Debug, PartialEq)]
pub struct AsFittedAnswer {
    /// What was measured.
    pub sides: Vec<AsFitted>,
    /// Angles of the stops, up negative, port first: as measured, else as planned.
    pub stops: [(Angle, Angle); 2],
    /// Deflections from which each plane works, port first.
    pub dead_bands: [Angle; 2],
    /// The boat at cruise with both actuators at half travel; none where she does not plane there.
    pub half: Option<SettingPoint>,
    /// The same with both planes at the mean of the two.
    pub even: Option<SettingPoint>,
}

written! {
    AsFittedAnswer as told {
        "answer": "as-fitted",
        "upper_stop_deg": told.stops.map(|stop| stop.0.get::<degree>()),
        "lower_stop_deg": told.stops.map(|stop| stop.1.get::<degree>()),
        "works_from_deg": told.dead_bands.map(|band| band.get::<degree>()),
        "half_travel": told.half,
        "half_travel_even": told.even,
        "hinge_height_m": told.sides.iter().map(|side| side.hinge_height.in_si()).collect::<Vec<_>>(),
    }
}

impl AsFittedAnswer {
    /// What a boat does with a pair that was planned so and fitted so.
    ///
    /// # Errors
    /// As [`ListStudy::new`].
    pub fn of(boat: &Boat, placement: &Placement, sides: &[AsFitted]) -> Result<Self, Fault> {
        let on = |side: Side| sides.iter().find(|one| one.side == side);
        let (pair, planned) = (placement.pair, placement.hinge.height);
        let stops = [Side::Port, Side::Starboard].map(|side| {
            let (raised, lowered) = placement.travel;
            let own = on(side);
            let up = own.and_then(|one| one.up(pair.chord, planned)).map_or(raised, |up| -up);
            (up, own.and_then(|one| one.angle_down).unwrap_or(lowered))
        });
        let dead_bands = [Side::Port, Side::Starboard].map(|side| {
            let height = on(side).and_then(|one| one.hinge_height).unwrap_or(planned);
            dead_band(height, pair.chord)
        });
        let study = ListStudy::new(boat, &Settings::default(), &[])?.with_planes([pair, pair]);
        let cruise = boat.drive().cruise();
        let none = Angle::default();
        let half = stops.map(|(up, down)| (0.5 * (up + down)).max(none));
        let mean = 0.5 * (half[0] + half[1]);
        Ok(Self {
            sides: sides.to_vec(),
            stops,
            dead_bands,
            half: study.with_setting(cruise, half)?,
            even: study.with_setting(cruise, [mean, mean])?,
        })
    }

    /// Deepest stop less the other, starboard deeper positive, and the same of the upper stops.
    fn apart(&self) -> [Angle; 2] {
        let [port, starboard] = self.stops;
        [starboard.0 - port.0, starboard.1 - port.1]
    }

    /// The answer for a person.
    #[must_use]
    pub fn blocks(&self, placement: &Placement, units: SheetUnits) -> Vec<Block> {
        let say = Say(units);
        let mut blocks = vec![
            Block::Section(format!("As fitted: {}", placement.boat)),
            Block::Table(self.table(placement, say)),
        ];
        let out = judged::judged(placement, &self.sides, say);
        blocks.push(Block::Points(self.points(&out, say)));
        blocks.push(Block::Paragraph(
            "Copied into the boat file, [[as_fitted]] counts in every answer: the mean of both hinge \
             heights, of both outer ends and of both upper stops, and the lower stop that is reached \
             first."
                .to_owned(),
        ));
        blocks
    }

    fn table(&self, placement: &Placement, say: Say) -> Table {
        let (raised, lowered) = placement.travel;
        let on = |side: Side| self.sides.iter().find(|one| one.side == side);
        let [port, starboard] = [on(Side::Port), on(Side::Starboard)];
        let length = |one: Option<&AsFitted>, of: fn(&AsFitted) -> Option<Length>| {
            one.and_then(of).map_or_else(|| "-".to_owned(), |length| say.length(length))
        };
        let angle = |one: Option<&AsFitted>, of: fn(&AsFitted) -> Option<Angle>| {
            one.and_then(of).map_or_else(|| "-".to_owned(), |angle| say.angle(angle))
        };
        let row = |name: &str, planned: Length, of: fn(&AsFitted) -> Option<Length>| {
            [name.to_owned(), say.length(planned), length(port, of), length(starboard, of)]
        };
        let turned = |name: &str, planned: Angle, of: fn(&AsFitted) -> Option<Angle>| {
            [name.to_owned(), say.angle(planned), angle(port, of), angle(starboard, of)]
        };
        let rows = [
            row("outer end to the chine", placement.edge() - placement.outer, |one| one.from_chine),
            row("hinge line above the edge", placement.hinge.height, |one| one.hinge_height),
            row("gauge height, plane up", placement.gauge.trailing_edge, |one| one.gauge_height),
            turned("upper stop, up", -raised, |one| one.angle_up),
            turned("lower stop, down", lowered, |one| one.angle_down),
        ];
        let column = |index: usize| rows.iter().map(|row| row[index].clone()).collect();
        Table {
            columns: ["measure", "planned", "port", "starboard"]
                .into_iter()
                .enumerate()
                .map(|(index, name)| Column::words(name, column(index)))
                .collect(),
            ..Table::default()
        }
    }

    /// What is out first, then what the planes do.
    fn points(&self, out: &[String], say: Say) -> Vec<String> {
        let [upper, lower] = self.apart();
        let deg = |angle: Angle| number_with_decimals(angle.get::<degree>().abs(), 1);
        let deeper = |angle: Angle| if angle > Angle::default() { "starboard" } else { "port" };
        let mut points = out.to_vec();
        let worst = upper.abs().max(lower.abs());
        if worst.get::<degree>() < 0.05 {
            points.push("Both planes move alike.".to_owned());
        } else {
            points.push(format!(
                "At the upper stop {} stands {} deg deeper, at the lower stop {} by {} deg.",
                deeper(upper),
                deg(upper),
                deeper(lower),
                deg(lower)
            ));
        }
        points.push(format!(
            "The planes work from {} (port) and {} (starboard) down.",
            say.angle(self.dead_bands[0]),
            say.angle(self.dead_bands[1])
        ));
        points.extend(self.at_half(say));
        let least = self.stops[0].1.min(self.stops[1].1);
        if least.get::<degree>() < 15.0 - 0.05 {
            points.push(format!(
                "{} is the most that both planes give; the tests went to 15 deg.",
                say.angle(least)
            ));
        }
        points.push(if worst.get::<degree>() > WORTH_DEG {
            "That is worth an hour: set the upper bracket of the plane that is out to the gauge \
             height, or, where the holes stand, let each indicator show its own degrees."
                .to_owned()
        } else if out.is_empty() {
            format!(
                "Less than {WORTH_DEG} deg apart: nothing to be done. Set the indicators by these angles."
            )
        } else {
            format!(
                "The planes stand less than {WORTH_DEG} deg apart, but what is out above is set right \
                 before the first run."
            )
        });
        points
    }

    /// What the boat does with both switches at half travel.
    fn at_half(&self, say: Say) -> Option<String> {
        let (half, even) = (self.half.as_ref()?, self.even.as_ref()?);
        let running = half.point.running.as_ref()?;
        let moment = half.planes.map(|moment| moment.get::<newton_meter>());
        let largest =
            moment.iter().fold(0.0_f64, |most, x| if x.abs() > most.abs() { *x } else { most });
        let trim =
            even.point.running.as_ref().map_or(Angle::default(), |even| running.trim - even.trim);
        Some(format!(
            "At {} kn with both actuators at half travel: port {}, starboard {} down, lift of the pair {} \
             N; the two together press {} down by {} N m at the most{}, and the trim is {} deg from that \
             of planes that stand alike. A difference of the hinges is not counted in it.",
            number_with_decimals(half.point.speed.get::<knot>(), 0),
            say.angle(half.setting[0]),
            say.angle(half.setting[1]),
            number_with_decimals(running.plane_lift.get::<uom::si::force::newton>(), 0),
            if largest > 0.0 { "starboard" } else { "port" },
            number_with_decimals(largest.abs(), 0),
            list_words(half, largest),
            number_with_decimals(trim.get::<degree>().abs(), 2)
        ))
    }
}

/// The list that a moment makes by itself, roughly; nothing where the bottom has no stiffness by
/// the estimate.
fn list_words(half: &SettingPoint, moment_n_m: f64) -> String {
    let stiffness = half.heel.stiffness_per_degree.into_iter().flatten();
    let ends: Vec<f64> =
        stiffness.map(|one| one.get::<newton_meter>()).filter(|&one| one > 0.0).collect();
    let lists = ends.iter().map(|stiffness| moment_n_m.abs() / stiffness);
    match lists.reduce(f64::max) {
        Some(list_deg) => format!(
            ", about {} deg of list by itself (rough: half or twice of it)",
            number_with_decimals(list_deg, 1)
        ),
        None => String::new(),
    }
}
