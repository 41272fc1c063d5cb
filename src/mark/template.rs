//! The 1:1 template of one side, cut over pages of plain paper.

mod foot;
mod picture;

use super::error::DrawError;
use super::paper::Paper;
use super::pen;
use super::placement::Placement;
use super::say::Say;
use super::style::FORM;
use super::tiles::{FOOT_MM, MARGIN_MM, MOST_PAGES, OVERLAP_MM, REGISTER_MM, Tiles};
use crate::boat::transom::Side;
use crate::drawing::geometry::{distance, plus, times};
use crate::drawing::{Drawing, Mark, Point, Rect, Window};
use picture::Picture;

/// Most pages for which the template reaches from the centreline to the chine.
const WHOLE_EDGE_PAGES: usize = 14;
/// Longest piece of a line that may be missing for want of a page.
const SHORTEST_LINE_MM: f64 = 15.0;

/// The pages of one side, or of both, starboard first.
///
/// # Errors
/// [`DrawError::TooManyPages`] for a plane so large that paper is no help.
pub(super) fn sheets(
    placement: &Placement,
    say: Say,
    paper: Paper,
    side: Side,
) -> Result<Vec<Drawing>, DrawError> {
    match side {
        Side::Both => {
            let mut both = sheets(placement, say, paper, Side::Starboard)?;
            both.extend(sheets(placement, say, paper, Side::Port)?);
            Ok(both)
        }
        one => one_side(placement, say, paper, one),
    }
}

fn one_side(
    placement: &Placement,
    say: Say,
    paper: Paper,
    side: Side,
) -> Result<Vec<Drawing>, DrawError> {
    let whole = Set::least(Picture::whole_edge(placement, say, side), paper);
    let set = if whole.pages.len() > WHOLE_EDGE_PAGES {
        Set::least(Picture::plane_only(placement, say, side), paper)
    } else {
        whole
    };
    if set.pages.len() > MOST_PAGES {
        return Err(DrawError::TooManyPages { pages: set.pages.len(), most: MOST_PAGES });
    }
    Ok(set.pages.iter().map(|&place| page(placement, say, &set, place)).collect())
}

/// A picture, how it is cut, and which pages carry any of it.
struct Set {
    picture: Picture,
    tiles: Tiles,
    pages: Vec<(usize, usize)>,
}

impl Set {
    /// With the pages upright or on their side, whichever prints fewer.
    fn least(picture: Picture, paper: Paper) -> Self {
        let [upright, lying] = Tiles::both_ways(picture.size_mm, paper)
            .map(|tiles| (tiles, pages_with_marks(&picture, &tiles)));
        let (tiles, pages) = if upright.1.len() <= lying.1.len() { upright } else { lying };
        Self { picture, tiles, pages }
    }

    /// `1-2 starboard`, for the list of pages that a reader of the PDF shows.
    fn label(&self, row: usize, column: usize) -> String {
        let side = if self.picture.side == Side::Port { "port" } else { "starboard" };
        format!("{} {side}", Tiles::name(row, column))
    }
}

/// Pages on which something would be missing if they were left out.
fn pages_with_marks(picture: &Picture, tiles: &Tiles) -> Vec<(usize, usize)> {
    let carries = |place: &(usize, usize)| {
        let own = tiles.own(*place);
        let window = Window { shown: own, own, shift: [0.0, 0.0] };
        // A line's end that only just reaches over a cut line is worth no page.
        let worth = |mark: &Mark| match mark {
            Mark::Stroke { points, .. } => {
                points.windows(2).any(|pair| distance(pair[0], pair[1]) > SHORTEST_LINE_MM)
            }
            _ => true,
        };
        picture.marks.iter().any(|mark| window.cut(mark).iter().any(worth))
    };
    tiles.all().into_iter().filter(carries).collect()
}

fn page(placement: &Placement, say: Say, set: &Set, (row, column): (usize, usize)) -> Drawing {
    let tiles = &set.tiles;
    let mut sheet = Drawing::new(tiles.page_mm, &set.label(row, column), FORM);
    let (tile, frame) = (tiles.tile(row, column), tiles.on_page());
    let shift = [frame.left - tile.left, frame.top - tile.top];
    let window = Window { shown: tile, own: tiles.own((row, column)), shift };
    sheet.shape(&frame.corners(), Some(pen::HATCH), None);
    cut_lines(&mut sheet, tiles, (row, column));
    for mark in &set.picture.marks {
        sheet.marks.extend(window.cut(mark));
    }
    for mark in tiles.register_marks(&set.picture.holes, set.picture.edge_mm) {
        if tile.contains(mark) {
            register(&mut sheet, plus(mark, shift));
        }
    }
    let foot = [MARGIN_MM, tiles.page_mm[1] - MARGIN_MM - FOOT_MM];
    foot::draw(&mut sheet, placement, say, set, (row, column), foot);
    sheet
}

/// Dashed lines through the register marks, along which a page is cut at its right and lower edge.
fn cut_lines(sheet: &mut Drawing, tiles: &Tiles, (row, column): (usize, usize)) {
    let Rect { left, top, right, bottom } = tiles.on_page();
    let half = 0.5 * OVERLAP_MM;
    for (neighbour, x) in [(column > 0, left + half), (column + 1 < tiles.columns, right - half)] {
        if neighbour {
            sheet.line([x, top], [x, bottom], pen::CUT);
        }
    }
    for (neighbour, y) in [(row > 0, top + half), (row + 1 < tiles.rows, bottom - half)] {
        if neighbour {
            sheet.line([left, y], [right, y], pen::CUT);
        }
    }
}

/// A diamond, which nobody takes for a hole.
fn register(sheet: &mut Drawing, at: Point) {
    let corners = [[-1.0, 0.0], [0.0, -1.0], [1.0, 0.0], [0.0, 1.0], [-1.0, 0.0]];
    sheet.open(&corners.map(|way| plus(at, times(way, REGISTER_MM))), pen::FINE);
}
