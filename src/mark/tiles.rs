//! A picture at full size cut over several pages.

use super::ink::Point;
use super::paper::Paper;

/// Unprinted edge of every page, which home printers need.
pub(super) const MARGIN_MM: f64 = 10.0;
/// Strip below the picture for scale lines, join map and words.
pub(super) const FOOT_MM: f64 = 34.0;
/// Width that neighbouring pages share.
pub(super) const OVERLAP_MM: f64 = 15.0;
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
    /// Cuts a picture, with the pages upright or on their side, whichever takes fewer.
    pub fn of(size_mm: Point, paper: Paper) -> Self {
        let (short, long) = paper.upright_mm();
        let lying = Self::cut(size_mm, [long, short]);
        let upright = Self::cut(size_mm, [short, long]);
        if upright.pages() <= lying.pages() { upright } else { lying }
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

    pub const fn pages(&self) -> usize {
        self.columns * self.rows
    }

    /// Row letter and column number: `A2`.
    pub fn name(&self, row: usize, column: usize) -> String {
        let letter = char::from_u32('A' as u32 + row as u32).unwrap_or('?');
        format!("{letter}{}", column + 1)
    }

    /// Upper left and lower right corner of a tile in the picture's frame.
    pub fn tile(&self, row: usize, column: usize) -> (Point, Point) {
        let step = [self.tile_mm[0] - OVERLAP_MM, self.tile_mm[1] - OVERLAP_MM];
        let from = [
            self.first_mm[0] + step[0] * column as f64,
            self.first_mm[1] + step[1] * row as f64,
        ];
        (from, [from[0] + self.tile_mm[0], from[1] + self.tile_mm[1]])
    }

    /// Where the tile stands on its page.
    pub fn on_page(&self) -> (Point, Point) {
        ([MARGIN_MM, MARGIN_MM], [MARGIN_MM + self.tile_mm[0], MARGIN_MM + self.tile_mm[1]])
    }

    /// Register marks of the whole picture: two in every overlap that two pages share.
    pub fn register_marks(&self) -> Vec<Point> {
        let mut marks = Vec::new();
        for row in 0..self.rows {
            for column in 0..self.columns {
                let (from, to) = self.tile(row, column);
                if column + 1 < self.columns {
                    let x = to[0] - 0.5 * OVERLAP_MM;
                    marks.extend([0.12, 0.88].map(|s| [x, from[1] + s * self.tile_mm[1]]));
                }
                if row + 1 < self.rows {
                    let y = to[1] - 0.5 * OVERLAP_MM;
                    marks.extend([0.12, 0.88].map(|s| [from[0] + s * self.tile_mm[0], y]));
                }
            }
        }
        marks
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn physics_the_tiles_cover_the_picture_and_overlap() {
        for paper in [Paper::A4, Paper::Letter] {
            for size_mm in [[90.0, 60.0], [1183.0, 260.0], [700.0, 480.0]] {
                let tiles = Tiles::of(size_mm, paper);
                let (first, _) = tiles.tile(0, 0);
                let (_, last) = tiles.tile(tiles.rows - 1, tiles.columns - 1);
                assert!(first[0] <= 0.0 && first[1] <= 0.0);
                assert!(last[0] >= size_mm[0] && last[1] >= size_mm[1]);
                if tiles.columns > 1 {
                    let shared = tiles.tile(0, 0).1[0] - tiles.tile(0, 1).0[0];
                    assert!((shared - OVERLAP_MM).abs() < 1e-9);
                }
            }
        }
    }
}
