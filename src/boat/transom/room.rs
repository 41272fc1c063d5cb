//! Where a plane finds room along the bottom edge, and what stands in its way.
//!
//! A plane needs the transom free over its whole span from the bottom edge up to the working
//! height: hinge leaf, plate and the actuator with its upper bracket. What hangs below the edge
//! is in the way too: it disturbs the water that the plane works in, and the plate swings behind
//! it. A thing is taken as an upright rectangle; what of it lies below the working height,
//! measured square to the bottom edge, is projected onto that edge, and its clearance is added
//! on both sides. Two planes of a pair stand at the same distance off the centreline.
//!
//! The whole span is kept free up to the working height, which is more than a narrow actuator
//! needs: the answer errs to the safe side for things high up near a plane's end.

use uom::si::angle::radian;
use uom::si::f64::Length;
use uom::si::length::meter;

use super::conflict::{Conflict, Side, StrakeNote, Way};
use super::{Obstacle, Transom};
use crate::boat::PlanePair;

/// Slack for rounding in comparisons, metres.
const SLACK_M: f64 = 1e-9;

/// A stretch of the bottom edge on one side, measured along it from the keel outward.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Inner end.
    pub from: Length,
    /// Outer end.
    pub to: Length,
}

impl Stretch {
    /// Its length; never below zero.
    #[must_use]
    pub fn length(&self) -> Length {
        (self.to - self.from).max(Length::default())
    }
}

/// Room on one side.
#[derive(Clone, Debug, PartialEq)]
pub struct SideRoom {
    /// Stretches between the clearances that nothing stands in, inner first.
    pub free: Vec<Stretch>,
    /// Length of the longest; zero when there is none.
    pub largest: Length,
}

/// Room for a pair of planes.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// Port side.
    pub port: SideRoom,
    /// Starboard side.
    pub starboard: SideRoom,
    /// Largest span of one plane of a symmetrical pair; zero when there is no room.
    pub largest_span: Length,
    /// What makes it less than the clearances alone allow.
    pub conflicts: Vec<Conflict>,
}

/// Whether a pair fits, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// Where each plane stands, as far outboard as possible; `None` when it does not fit.
    pub position: Option<Stretch>,
    /// Span that is missing; zero when it fits.
    pub missing: Length,
    /// What stands in the way.
    pub conflicts: Vec<Conflict>,
    /// Strakes that each plane stands over, which is acceptable.
    pub strakes: Vec<StrakeNote>,
}

impl Fit {
    /// Whether it fits.
    #[must_use]
    pub const fn fits(&self) -> bool {
        self.position.is_some()
    }
}

/// A thing in the way, projected onto the bottom edge of one side with its clearance.
struct Blocked<'a> {
    obstacle: &'a Obstacle,
    from_m: f64,
    to_m: f64,
}

impl Transom {
    /// The same transom with another height kept free, e.g. for an actuator whose bracket sits higher.
    #[must_use]
    pub fn with_working_height(&self, working_height: Length) -> Self {
        Self { working_height, ..self.clone() }
    }

    /// Length between the clearances on one side, whatever stands there; zero when they overlap.
    #[must_use]
    pub fn bare_room(&self) -> Length {
        let (inner_m, outer_m) = self.between_clearances_m();
        Length::new::<meter>((outer_m - inner_m).max(0.0))
    }

    /// Room for a symmetrical pair.
    #[must_use]
    pub fn room(&self) -> Room {
        let [port, starboard] = [Side::Port, Side::Starboard].map(|side| self.side_room(side));
        let pair = largest(&common(&port.free, &starboard.free));
        let conflicts = self.conflicts(self.bare_room().max(Length::new::<meter>(SLACK_M)));
        Room { port, starboard, largest_span: pair, conflicts }
    }

    /// Where each plane of a pair of this span stands, as far outboard as the clearance and the
    /// things in the way allow; `None` when there is no room.
    #[must_use]
    pub fn position(&self, span: Length) -> Option<Stretch> {
        let fits = |stretch: &&Stretch| {
            (stretch.to - stretch.from).get::<meter>() >= span.get::<meter>() - SLACK_M
        };
        let outermost = |free: &[Stretch]| free.iter().rev().find(fits).copied();
        let stretch = if self.obstacles.is_empty() {
            outermost(&self.whole())
        } else {
            outermost(&self.free_on_both_sides())
        }?;
        Some(Stretch { from: stretch.to - span, to: stretch.to })
    }

    /// Distance of the middle of a plane off the centreline, level, where it stands.
    ///
    /// For a span that finds no room: with its outer end at the outer clearance.
    #[must_use]
    pub fn mid_span_off_centre(&self, span: Length) -> Length {
        let outer = self.half_girth() - self.outer_clearance;
        let end = self.position(span).map_or(outer, |position| position.to);
        (end - span / 2.0) * self.face_deadrise().cos()
    }

    /// Whether a pair fits, where it stands, and what is in its way.
    #[must_use]
    pub fn fits(&self, pair: PlanePair) -> Fit {
        if let Some(position) = self.position(pair.span) {
            let strakes = self.strakes_under(position);
            let missing = Length::default();
            return Fit { position: Some(position), missing, conflicts: Vec::new(), strakes };
        }
        let missing = pair.span - largest(&self.free_on_both_sides());
        let conflicts = self.conflicts(pair.span);
        Fit { position: None, missing, conflicts, strakes: Vec::new() }
    }

    /// Strakes that a plane standing there has under it, inner first.
    #[must_use]
    pub fn strakes_under(&self, position: Stretch) -> Vec<StrakeNote> {
        let slope = self.face_deadrise().cos();
        let mut notes: Vec<StrakeNote> = Vec::new();
        for &strake in &self.strakes {
            let half = strake.width / 2.0;
            let stretch = Stretch {
                from: (strake.off_centre - half) / slope,
                to: (strake.off_centre + half) / slope,
            };
            if stretch.to > position.from && stretch.from < position.to {
                notes.push(StrakeNote { strake, stretch });
            }
        }
        notes.sort_by(|a, b| {
            a.stretch.from.get::<meter>().total_cmp(&b.stretch.from.get::<meter>())
        });
        notes
    }

    /// Inner and outer end of what the clearances leave, metres along the bottom edge.
    fn between_clearances_m(&self) -> (f64, f64) {
        let outer = self.half_girth() - self.outer_clearance;
        (self.inner_clearance.get::<meter>(), outer.get::<meter>())
    }

    /// What the clearances leave.
    fn whole(&self) -> Vec<Stretch> {
        let (inner_m, outer_m) = self.between_clearances_m();
        if outer_m > inner_m { vec![stretch(inner_m, outer_m)] } else { Vec::new() }
    }

    fn free_on_both_sides(&self) -> Vec<Stretch> {
        common(&self.side_room(Side::Port).free, &self.side_room(Side::Starboard).free)
    }

    fn side_room(&self, side: Side) -> SideRoom {
        let mut free = self.whole();
        for blocked in self.blocked(side) {
            free = free
                .into_iter()
                .flat_map(|open| {
                    let (from_m, to_m) = (open.from.get::<meter>(), open.to.get::<meter>());
                    [(from_m, to_m.min(blocked.from_m)), (from_m.max(blocked.to_m), to_m)]
                })
                .filter(|(from_m, to_m)| to_m - from_m > SLACK_M)
                .map(|(from_m, to_m)| stretch(from_m, to_m))
                .collect();
        }
        let largest = largest(&free);
        SideRoom { free, largest }
    }

    /// Everything between the clearances of a side that is in the way.
    fn blocked(&self, side: Side) -> Vec<Blocked<'_>> {
        let (inner_m, outer_m) = self.between_clearances_m();
        let on_edge = |obstacle| {
            let (from_m, to_m) = self.projected_m(obstacle, side)?;
            (to_m > inner_m && from_m < outer_m).then_some(Blocked { obstacle, from_m, to_m })
        };
        self.obstacles.iter().filter_map(on_edge).collect()
    }

    /// The part of an obstacle below the working height on the bottom edge of a side, with its
    /// clearance, metres along that edge; `None` when all of it is higher.
    ///
    /// The frame of a side has its first axis along the bottom edge outward, its second square
    /// to it upward; a point `y` level and `z` high lies at `(y cos β + z sin β, z cos β − y sin β)`.
    fn projected_m(&self, obstacle: &Obstacle, side: Side) -> Option<(f64, f64)> {
        let (sin, cos) = self.face_deadrise().get::<radian>().sin_cos();
        let outward = if side == Side::Port { -1.0 } else { 1.0 };
        let middle_m = outward * obstacle.off_centre.get::<meter>();
        let half_m = 0.5 * obstacle.width.get::<meter>();
        let edge_m = middle_m.abs() * sin / cos;
        let (low_m, high_m) = (obstacle.from.get::<meter>(), obstacle.to.get::<meter>());
        let corners = [(-half_m, low_m), (half_m, low_m), (half_m, high_m), (-half_m, high_m)];
        let corners = corners.map(|(across_m, up_m)| {
            let (y_m, z_m) = (middle_m + across_m, edge_m + up_m);
            (y_m * cos + z_m * sin, z_m * cos - y_m * sin)
        });
        let (from_m, to_m) = extent_below(&corners, self.working_height.get::<meter>())?;
        let clearance_m = obstacle.clearance.get::<meter>();
        Some((from_m - clearance_m, to_m + clearance_m))
    }

    /// What keeps planes of a span off each side.
    fn conflicts(&self, span: Length) -> Vec<Conflict> {
        let span_m = span.get::<meter>();
        let (inner_m, outer_m) = self.between_clearances_m();
        let mut conflicts = Vec::new();
        if span_m > outer_m - inner_m + SLACK_M {
            conflicts.push(Conflict {
                what: "bottom edge".to_owned(),
                side: Side::Both,
                missing: Length::new::<meter>(span_m - (outer_m - inner_m)),
                way: Way::Clearances,
            });
        }
        for side in [Side::Port, Side::Starboard] {
            conflicts.extend(self.conflicts_on(side, span_m));
        }
        let pair_m = largest(&self.free_on_both_sides()).get::<meter>();
        if conflicts.is_empty() && pair_m < span_m - SLACK_M {
            conflicts.push(Conflict {
                what: "place of the pair".to_owned(),
                side: Side::Both,
                missing: Length::new::<meter>(span_m - pair_m),
                way: Way::Symmetry,
            });
        }
        conflicts
    }

    /// What keeps a plane off one side: the things beside which, on either hand, it does not
    /// fit; or, when only several together keep it off, all of them.
    fn conflicts_on(&self, side: Side, span_m: f64) -> Vec<Conflict> {
        let (inner_m, outer_m) = self.between_clearances_m();
        let short_m = span_m - self.side_room(side).largest.get::<meter>();
        let blocked = self.blocked(side);
        if short_m <= SLACK_M || outer_m <= inner_m {
            return Vec::new();
        }
        let beside_m = |thing: &Blocked<'_>| {
            let inboard_m = thing.from_m.max(inner_m) - inner_m;
            let outboard_m = outer_m - thing.to_m.min(outer_m);
            span_m - inboard_m.max(outboard_m)
        };
        let single = blocked.iter().any(|thing| beside_m(thing) > SLACK_M);
        blocked
            .iter()
            .map(|thing| (thing, if single { beside_m(thing) } else { short_m }))
            .filter(|(_, missing_m)| *missing_m > SLACK_M)
            .map(|(thing, missing_m)| Conflict {
                what: thing.obstacle.name.clone(),
                side,
                missing: Length::new::<meter>(missing_m),
                way: thing.obstacle.way(),
            })
            .collect()
    }
}

impl Obstacle {
    fn way(&self) -> Way {
        if self.from < Length::default() { Way::BelowEdge } else { Way::OnTransom }
    }
}

fn stretch(from_m: f64, to_m: f64) -> Stretch {
    Stretch { from: Length::new::<meter>(from_m), to: Length::new::<meter>(to_m) }
}

fn largest(free: &[Stretch]) -> Length {
    free.iter().map(Stretch::length).fold(Length::default(), Length::max)
}

/// The stretches that lie in both lists.
fn common(first: &[Stretch], second: &[Stretch]) -> Vec<Stretch> {
    let mut both = Vec::new();
    for a in first {
        for b in second {
            let shared = Stretch { from: a.from.max(b.from), to: a.to.min(b.to) };
            if shared.length().get::<meter>() > SLACK_M {
                both.push(shared);
            }
        }
    }
    both
}

/// Least and largest first coordinate of the part of a convex outline whose second coordinate
/// is below `height`; `None` when there is no such part.
fn extent_below(outline: &[(f64, f64)], height: f64) -> Option<(f64, f64)> {
    let next = outline.iter().cycle().skip(1);
    let mut extent: Option<(f64, f64)> = None;
    let mut take = |x: f64| {
        let (low, high) = extent.unwrap_or((x, x));
        extent = Some((low.min(x), high.max(x)));
    };
    for (a, b) in outline.iter().zip(next) {
        if a.1 < height {
            take(a.0);
        }
        if (a.1 < height) != (b.1 < height) {
            take(a.0 + (b.0 - a.0) * (height - a.1) / (b.1 - a.1));
        }
    }
    extent
}

#[cfg(test)]
mod tests;
