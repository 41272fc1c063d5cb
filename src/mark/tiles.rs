//! A picture at full size cut over several pages.

use super::paper::Paper;
use crate::drawing::geometry::{distance, plus};
use crate::drawing::{Point, Rect};

/// Unprinted edge of every page, which home printers need.
pub(super) const MARGIN_MM: f64 = 10.0;
/// Strip below the picture for scale lines, join map and words.
pub(super) const FOOT_MM: f64 = 50.0;
/// Width that neighbouring pages share.
pub(super) const OVERLAP_MM: f64 = 15.0;
/// Where along an overlap its two register marks stand, away from the bottom edge of the hull, and
/// between which places they may be moved for a hole, as shares of its length.
const REGISTER_AT: [(f64, [f64; 2]); 2] = [(0.15, [0.05, 0.28]), (0.60, [0.32, 0.95])];
/// Steps in which a place for a register mark is tried, as a share of the overlap.
const REGISTER_STEP: f64 = 0.01;
/// From the middle of a register mark to its corners.
pub(super) const REGISTER_MM: f64 = 4.0;
/// What a register mark keeps clear of the rim of every hole, so that it is not taken for one.
const REGISTER_CLEAR_MM: f64 = 20.0;
/// Most pages of one side.
pub(super) const MOST_PAGES: usize = 48;

/// How a picture of `size_mm` is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Tiles {
    pub page_mm: Point,
    pub columns: usize,
    pub rows: usize,
    /// Size of the picture on one page.
    tile_mm: Point,
    /// Upper left corner of the first tile in the picture's frame, so that the whole is centred.
    first_mm: Point,
}

impl Tiles {
    /// Cuts a picture in two ways: with the pages upright and on their side.
    pub fn both_ways(size_mm: Point, paper: Paper) -> [Self; 2] {
        let (short, long) = paper.upright_mm();
        [Self::cut(size_mm, [short, long]), Self::cut(size_mm, [long, short])]
    }

    fn cut(size_mm: Point, page_mm: Point) -> Self {
        let tile_mm = [page_mm[0] - 2.0 * MARGIN_MM, page_mm[1] - 2.0 * MARGIN_MM - FOOT_MM];
        let count = |axis: usize| {
            ((size_mm[axis] - OVERLAP_MM) / (tile_mm[axis] - OVERLAP_MM)).ceil().max(1.0)
        };
        let spare = |axis: usize| {
            let covered = count(axis) * (tile_mm[axis] - OVERLAP_MM) + OVERLAP_MM;
            0.5 * (size_mm[axis] - covered)
        };
        let first_mm = [spare(0), spare(1)];
        let (columns, rows) = (count(0) as usize, count(1) as usize);
        Self { page_mm, columns, rows, tile_mm, first_mm }
    }

    /// Rows and columns of all tiles, in the order of printing.
    pub fn all(&self) -> Vec<(usize, usize)> {
        (0..self.rows).flat_map(|row| (0..self.columns).map(move |column| (row, column))).collect()
    }

    /// The part of a tile up to its cut lines, which no neighbour keeps.
    pub fn own(&self, (row, column): (usize, usize)) -> Rect {
        let tile = self.tile(row, column);
        let half = |cut: bool| if cut { 0.5 * OVERLAP_MM } else { 0.0 };
        Rect {
            left: tile.left + half(column > 0),
            top: tile.top + half(row > 0),
            right: tile.right - half(column + 1 < self.columns),
            bottom: tile.bottom - half(row + 1 < self.rows),
        }
    }

    /// Row and column counted from 1: `1-2`, which is no size of paper.
    pub fn name(row: usize, column: usize) -> String {
        format!("{}-{}", row + 1, column + 1)
    }

    /// A tile in the picture's frame.
    pub fn tile(&self, row: usize, column: usize) -> Rect {
        let step = [self.tile_mm[0] - OVERLAP_MM, self.tile_mm[1] - OVERLAP_MM];
        let from =
            [self.first_mm[0] + step[0] * column as f64, self.first_mm[1] + step[1] * row as f64];
        Rect::between(from, plus(from, self.tile_mm))
    }

    /// Where the tile stands on its page.
    pub fn on_page(&self) -> Rect {
        let from = [MARGIN_MM, MARGIN_MM];
        Rect::between(from, plus(from, self.tile_mm))
    }

    /// Register marks of the whole picture: two in every overlap that two pages share, clear of the
    /// holes, of which middle and radius are given, and above the bottom edge, where paper is cut off.
    pub fn register_marks(&self, holes: &[(Point, f64)], edge_mm: f64) -> Vec<Point> {
        let mut marks = Vec::new();
        for row in 0..self.rows {
            for column in 0..self.columns {
                let tile = self.tile(row, column);
                if column + 1 < self.columns {
                    let x = tile.right - 0.5 * OVERLAP_MM;
                    marks.extend(placed(holes, edge_mm, |s| [x, tile.top + s * tile.height()]));
                }
                if row + 1 < self.rows {
                    let y = tile.bottom - 0.5 * OVERLAP_MM;
                    marks.extend(placed(holes, edge_mm, |s| [tile.left + s * tile.width(), y]));
                }
            }
        }
        marks
    }
}

/// The two marks of an overlap: each at the place nearest to its usual one that is above the bottom
/// edge and clear of all holes, or the best where none is.
fn placed(holes: &[(Point, f64)], edge_mm: f64, at: impl Fn(f64) -> Point) -> [Point; 2] {
    let room = |share: f64| {
        let is_cut_off = at(share)[1] > edge_mm - REGISTER_MM;
        let gaps = holes.iter().map(|&(hole, radius)| distance(hole, at(share)) - radius);
        let room = (gaps.fold(f64::MAX, f64::min) - REGISTER_MM).min(REGISTER_CLEAR_MM);
        if is_cut_off { room - REGISTER_CLEAR_MM } else { room }
    };
    REGISTER_AT.map(|(usual, [from, to])| {
        let steps = ((to - from) / REGISTER_STEP).round() as usize;
        let tried = (0..=steps).map(|step| from + REGISTER_STEP * step as f64);
        let better = |best: f64, share: f64| {
            let nearer = (share - usual).abs() < (best - usual).abs();
            let (own, other) = (room(share), room(best));
            if own > other || (own >= other && nearer) { share } else { best }
        };
        at(tried.fold(usual, better))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn physics_a_register_mark_moves_out_of_the_way_of_a_hole() {
        let at = |share: f64| [200.0 * share, 0.0];
        assert_eq!(placed(&[], 9.0, at), [[30.0, 0.0], [120.0, 0.0]]);
        // A hole of 6 mm at 28 mm: 20 mm, half of the hole and half of the mark are 27 mm.
        let [first, second] = placed(&[([28.0, 0.0], 3.0)], 9.0, at);
        assert!((first[0] - 56.0).abs() < 1.1 && first[0] >= 55.0 - 1e-9, "{first:?}");
        assert_eq!(second, [120.0, 0.0]);
        // Upright, with the bottom edge at 110 mm: above it.
        let [_, second] = placed(&[], 110.0, |share| [0.0, 200.0 * share]);
        assert!((second[1] - 106.0).abs() < 2.1 && second[1] <= 106.0, "{second:?}");
    }

    #[test]
    fn physics_the_tiles_cover_the_picture_and_overlap() {
        for paper in [Paper::A4, Paper::Letter] {
            for size_mm in [[90.0, 60.0], [1183.0, 260.0], [700.0, 480.0]] {
                for tiles in Tiles::both_ways(size_mm, paper) {
                    let first = tiles.tile(0, 0);
                    let last = tiles.tile(tiles.rows - 1, tiles.columns - 1);
                    assert!(first.left <= 0.0 && first.top <= 0.0);
                    assert!(last.right >= size_mm[0] && last.bottom >= size_mm[1]);
                    if tiles.columns > 1 {
                        let shared = tiles.tile(0, 0).right - tiles.tile(0, 1).left;
                        assert!((shared - OVERLAP_MM).abs() < 1e-9);
                        let (left, right) = (tiles.own((0, 0)), tiles.own((0, 1)));
                        assert!((left.right - right.left).abs() < 1e-9);
                    }
                }
            }
        }
    }
}
