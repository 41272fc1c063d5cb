//! Where a label fits without touching anything.

use crate::drawing::geometry::{
    clip_segment, distance, minus, plus, polygon_contains, segments_cross, times,
};
use crate::drawing::{Point, Rect, TextBlock};

/// Clear distance wanted around a label, CSS pixels; the first that fits wins.
const CLEARANCES_PX: [f64; 3] = [10.0, 6.0, 3.0];

/// Distance between two places tried for a label, CSS pixels.
const SEARCH_STEP_PX: f64 = 6.0;

/// Air around the label of a single point, CSS pixels.
const BESIDE_CLEARANCE_PX: f64 = 4.0;

/// Length of a leader hidden by the mark it leads to, CSS pixels.
const MARK_REACH_PX: f64 = 10.0;

/// Least distance of a label from the frame, CSS pixels.
const FRAME_CLEARANCE_PX: f64 = 5.0;

/// Everything a label must not touch.
#[derive(Default)]
pub(super) struct Obstacles {
    segments: Vec<(Point, Point)>,
    boxes: Vec<Rect>,
}

/// A label with its place.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Placed {
    pub block: TextBlock,
    pub rect: Rect,
    /// Whether it reads upwards.
    pub turned: bool,
}

impl Obstacles {
    pub fn add_line(&mut self, line: &[Point]) {
        self.segments.extend(line.windows(2).map(|pair| (pair[0], pair[1])));
    }

    pub fn add_box(&mut self, rect: Rect) {
        self.boxes.push(rect);
    }

    /// Whether a rectangle touches nothing.
    pub fn clear(&self, rect: &Rect) -> bool {
        !self.boxes.iter().any(|other| rect.overlaps(other))
            && !self.segments.iter().any(|(a, b)| clip_segment(rect, *a, *b).is_some())
    }

    /// The first of these centres where the block stays clear inside `within`.
    ///
    /// The place found becomes an obstacle itself.
    pub fn place(
        &mut self,
        block: &TextBlock,
        turned: bool,
        within: &Rect,
        centres: &[Point],
    ) -> Option<Placed> {
        let (width, height) =
            if turned { (block.height(), block.width) } else { (block.width, block.height()) };
        for clearance in CLEARANCES_PX {
            for centre in centres {
                let rect = Rect::around(*centre, width, height);
                let with_air = rect.grown(clearance);
                if within.holds(&rect.grown(FRAME_CLEARANCE_PX)) && self.clear(&with_air) {
                    self.add_box(rect);
                    let block = block.clone();
                    return Some(Placed { block, rect, turned });
                }
            }
        }
        None
    }

    /// The clear place beside a point whose leader crosses the fewest lines.
    ///
    /// A place inside one of the `shunned` areas counts as two lines more: the
    /// name of a point must not seem to belong to an area the point is not in.
    /// The place found and its leader become obstacles themselves.
    pub fn place_beside(
        &mut self,
        block: &TextBlock,
        within: &Rect,
        point: Point,
        shunned: &[Vec<Point>],
    ) -> Option<Placed> {
        let penalty = |rect: &Rect| {
            let inside = |area: &Vec<Point>| polygon_contains(area, rect.centre());
            if shunned.iter().any(inside) { 2 } else { 0 }
        };
        let rect = places_around(point, block)
            .into_iter()
            .map(|centre| Rect::around(centre, block.width, block.height()))
            .filter(|rect| within.holds(&rect.grown(FRAME_CLEARANCE_PX)))
            .filter(|rect| self.clear(&rect.grown(BESIDE_CLEARANCE_PX)))
            .filter_map(|rect| Some((self.leader_crossings(&rect, point)? + penalty(&rect), rect)))
            .min_by_key(|(cost, _)| *cost)
            .map(|(_, rect)| rect)?;
        self.add_box(rect);
        let (from, to) = leader(&rect, point);
        self.add_line(&[from, to]);
        Some(Placed { block: block.clone(), rect, turned: false })
    }

    /// How many lines a leader crosses; `None` when it runs over a box.
    fn leader_crossings(&self, rect: &Rect, point: Point) -> Option<usize> {
        let (from, to) = leader(rect, point);
        let seen = (1.0 - MARK_REACH_PX / distance(from, to)).max(0.0);
        let end = plus(from, times(minus(to, from), seen));
        let over_a_box = |b: &Rect| clip_segment(b, from, end).is_some();
        if self.boxes.iter().any(over_a_box) {
            return None;
        }
        let crossed = |segment: &&(Point, Point)| segments_cross(**segment, (from, end));
        Some(self.segments.iter().filter(crossed).count())
    }
}

/// The line from the nearest edge of a label to the point it names.
pub(super) fn leader(rect: &Rect, point: Point) -> (Point, Point) {
    let nearest = [point[0].clamp(rect.left, rect.right), point[1].clamp(rect.top, rect.bottom)];
    (nearest, point)
}

/// Points inside a polygon, those near `ideal` first.
pub(super) fn places_inside(polygon: &[Point], bounds: &Rect, ideal: Point) -> Vec<Point> {
    let mut places = Vec::new();
    let columns = (bounds.width() / SEARCH_STEP_PX) as usize;
    let rows = (bounds.height() / SEARCH_STEP_PX) as usize;
    for column in 0..=columns {
        for row in 0..=rows {
            let place = [
                bounds.left + column as f64 * SEARCH_STEP_PX,
                bounds.top + row as f64 * SEARCH_STEP_PX,
            ];
            if polygon_contains(polygon, place) {
                places.push(place);
            }
        }
    }
    places.sort_by(|a, b| distance(*a, ideal).total_cmp(&distance(*b, ideal)));
    places
}

/// Points above and below a horizontal line, from right to left.
pub(super) fn places_along(y: f64, block: &TextBlock, within: &Rect) -> Vec<Point> {
    let off = block.height() / 2.0 + 1.0;
    let columns = (within.width() / SEARCH_STEP_PX) as usize;
    [-off - 3.0, off + 9.0]
        .iter()
        .flat_map(|side| {
            (0..=columns)
                .map(move |column| [within.right - column as f64 * SEARCH_STEP_PX, y + side])
        })
        .collect()
}

/// Points around a point in eight directions, the nearest first.
fn places_around(point: Point, block: &TextBlock) -> Vec<Point> {
    let (half_width, half_height) = (block.width / 2.0, block.height() / 2.0);
    let sides = [
        (1.0, -1.0),
        (1.0, 1.0),
        (-1.0, -1.0),
        (-1.0, 1.0),
        (0.0, -1.0),
        (0.0, 1.0),
        (1.0, 0.0),
        (-1.0, 0.0),
    ];
    (1..=9)
        .flat_map(|ring| {
            let off = 4.0 + 9.0 * f64::from(ring);
            sides.map(|(right, down)| {
                [point[0] + right * (off + half_width), point[1] + down * (off + half_height)]
            })
        })
        .collect()
}

/// Moves boxes along a line just so far that none overlap, keeping their order.
///
/// `wanted` holds the wanted middle and the height of each; all must fit between
/// `top` and `bottom`. The sum of squared moves is the least possible without
/// the two ends (method of pooled neighbours). Returns the middles in the order given.
pub(super) fn spread(wanted: &[(f64, f64)], top: f64, bottom: f64) -> Vec<f64> {
    struct Pool {
        start: f64,
        height: f64,
        count: usize,
    }
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by(|a, b| wanted[*a].0.total_cmp(&wanted[*b].0));
    let total: f64 = wanted.iter().map(|(_, height)| height).sum();
    let lowest_start = |height: f64| (bottom - height).max(top);
    let mut pools: Vec<Pool> = Vec::new();
    for &i in &order {
        let (middle, height) = wanted[i];
        let mut pool = Pool {
            start: (middle - height / 2.0).clamp(top, lowest_start(height)),
            height,
            count: 1,
        };
        while let Some(above) = pools.pop_if(|above| above.start + above.height > pool.start) {
            // Starts each member would give the pool, averaged by count.
            let count = above.count + pool.count;
            let mean = (above.start * above.count as f64
                + (pool.start - above.height) * pool.count as f64)
                / count as f64;
            let height = above.height + pool.height;
            pool = Pool { start: mean.clamp(top, lowest_start(height.min(total))), height, count };
        }
        pools.push(pool);
    }
    let mut middles = vec![0.0; wanted.len()];
    let mut members = order.into_iter();
    for pool in pools {
        let mut y = pool.start;
        for i in members.by_ref().take(pool.count) {
            middles[i] = y + wanted[i].1 / 2.0;
            y += wanted[i].1;
        }
    }
    middles
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn physics_boxes_with_room_stay_and_crowded_ones_share_the_move() {
        assert_eq!(spread(&[(50.0, 10.0), (20.0, 10.0)], 0.0, 100.0), [50.0, 20.0]);
        // Two at one height part evenly; a third far away stays.
        assert_eq!(
            spread(&[(50.0, 10.0), (50.0, 10.0), (90.0, 10.0)], 0.0, 100.0),
            [45.0, 55.0, 90.0]
        );
        assert_eq!(spread(&[(99.0, 10.0), (98.0, 10.0)], 0.0, 100.0), [95.0, 85.0]);
    }

    proptest! {
        #[test]
        fn physics_spread_boxes_never_overlap(
            wanted in prop::collection::vec((-50.0..150.0_f64, 4.0..12.0_f64), 0..8)
        ) {
            let middles = spread(&wanted, 0.0, 100.0);
            let mut boxes: Vec<(f64, f64)> = middles
                .iter()
                .zip(&wanted)
                .map(|(middle, (_, height))| (middle - height / 2.0, middle + height / 2.0))
                .collect();
            boxes.sort_by(|a, b| a.0.total_cmp(&b.0));
            for pair in boxes.windows(2) {
                prop_assert!(pair[0].1 <= pair[1].0 + 1e-9);
            }
            for (start, end) in boxes {
                prop_assert!(start >= -1e-9 && end <= 100.0 + 1e-9);
            }
        }
    }

    #[test]
    fn physics_a_label_finds_the_gap_or_nothing() {
        let sheet = Rect::around([50.0, 50.0], 100.0, 100.0);
        let block = TextBlock::wrapped("abc", 12.0, 90.0);
        let mut obstacles = Obstacles::default();
        obstacles.add_line(&[[0.0, 70.0], [100.0, 70.0]]);
        let places = places_inside(&sheet.corners(), &sheet, [50.0, 70.0]);
        let placed = obstacles.place(&block, false, &sheet, &places).expect("room");
        assert!(placed.rect.bottom < 70.0 || placed.rect.top > 70.0);
        for y in 0..10 {
            let y = f64::from(y) * 10.0;
            obstacles.add_line(&[[0.0, y], [100.0, y]]);
        }
        assert_eq!(obstacles.place(&block, false, &sheet, &places), None);
    }
}
