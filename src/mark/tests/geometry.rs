//! The PDFs are read back and measured.

use std::collections::BTreeMap;

use lopdf::content::Content;
use lopdf::{Document, Object};
use uom::si::f64::Length;
use uom::si::length::millimeter;

use super::fixtures::{boat_with_edge, built, inches, pair, part};
use crate::boat::transom::Side;
use crate::mark::tiles::{FOOT_MM, MARGIN_MM};
use crate::mark::{Paper, Placement, SheetUnits, drawing_dxf, drawing_pdf, template_pdf};

const MM_PER_PT: f64 = 25.4 / 72.0;
type Point = [f64; 2];

/// What is drawn on a page, millimetres from its upper left corner.
#[derive(Default)]
struct Drawn {
    /// The page's label.
    name: String,
    size_mm: Point,
    segments: Vec<(Point, Point)>,
    /// Middle and radius.
    circles: Vec<(Point, f64)>,
}

fn number(object: &Object) -> f64 {
    f64::from(object.as_float().expect("an operand that is a number"))
}

/// Reads straight strokes and closed curves of every page, whatever transforms they stand under.
fn read(pdf: &[u8]) -> Vec<Drawn> {
    let document = Document::load_mem(pdf).expect("a sound PDF");
    let pages: BTreeMap<u32, _> = document.get_pages();
    let names = labels(&document);
    let read = pages.into_values().map(|page| read_page(&document, page));
    read.zip(names.into_iter().chain(std::iter::repeat(String::new())))
        .map(|(page, name)| Drawn { name, ..page })
        .collect()
}

/// Labels of the pages, in order; none when the PDF has none.
fn labels(document: &Document) -> Vec<String> {
    let catalog = document.catalog().expect("a catalogue");
    let Ok(labels) = catalog.get(b"PageLabels") else { return Vec::new() };
    let resolved = |object: &Object| document.dereference(object).expect("an object").1.clone();
    let tree = resolved(labels);
    let numbers = tree.as_dict().and_then(|tree| tree.get(b"Nums")).expect("a number tree");
    let numbers = resolved(numbers);
    let pairs = numbers.as_array().expect("pairs").chunks(2);
    pairs
        .map(|pair| {
            let label = resolved(&pair[1]);
            let prefix = label.as_dict().and_then(|label| label.get(b"P")).expect("a prefix");
            String::from_utf8_lossy(prefix.as_str().expect("a string")).into_owned()
        })
        .collect()
}

fn read_page(document: &Document, page: lopdf::ObjectId) -> Drawn {
    let dictionary = document.get_dictionary(page).expect("a page");
    let media = dictionary.get(b"MediaBox").and_then(Object::as_array).expect("a media box");
    let high_pt = number(&media[3]);
    let mut drawn =
        Drawn { size_mm: [number(&media[2]) * MM_PER_PT, high_pt * MM_PER_PT], ..Drawn::default() };
    let bytes = document.get_page_content(page);
    let content = Content::decode(&bytes).expect("sound operators");
    let mut matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];
    let mut kept = Vec::new();
    let mut path: Vec<Point> = Vec::new();
    let mut curves = 0;
    for operation in content.operations {
        let values: Vec<f64> =
            operation.operands.iter().filter_map(|o| o.as_float().ok()).map(f64::from).collect();
        let place = |m: &[f64; 6], x: f64, y: f64| {
            let (u, v) = (m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]);
            [u * MM_PER_PT, (high_pt - v) * MM_PER_PT]
        };
        match operation.operator.as_str() {
            "q" => kept.push(matrix),
            "Q" => matrix = kept.pop().expect("a matching q"),
            "cm" => matrix = product(&values, &matrix),
            "m" => {
                path = vec![place(&matrix, values[0], values[1])];
                curves = 0;
            }
            "l" => path.push(place(&matrix, values[0], values[1])),
            "c" => {
                path.push(place(&matrix, values[4], values[5]));
                curves += 1;
            }
            "S" | "s" => {
                if curves == 4 {
                    drawn.circles.push(circle(&path));
                } else if curves == 0 {
                    drawn.segments.extend(path.windows(2).map(|ends| (ends[0], ends[1])));
                }
            }
            _ => {}
        }
    }
    drawn
}

/// The matrix that applies `first`, then `then`.
fn product(first: &[f64], then: &[f64; 6]) -> [f64; 6] {
    let (a, b) = (first, then);
    [
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    ]
}

fn circle(path: &[Point]) -> (Point, f64) {
    let extent = |axis: usize| {
        let values = path.iter().map(|point| point[axis]);
        (values.clone().fold(f64::MAX, f64::min), values.fold(f64::MIN, f64::max))
    };
    let ((left, right), (top, bottom)) = (extent(0), extent(1));
    ([0.5 * (left + right), 0.5 * (top + bottom)], 0.25 * (right - left + bottom - top))
}

fn long(segment: &(Point, Point)) -> f64 {
    (segment.0[0] - segment.1[0]).hypot(segment.0[1] - segment.1[1])
}

fn placement() -> Placement {
    let boat = built(boat_with_edge(inches(46.0), 18.0));
    Placement::new(&boat, pair(24.0, 9.0), Some(&part())).expect("room")
}

fn template(paper: Paper, side: Side) -> Vec<Drawn> {
    read(&template_pdf(&placement(), SheetUnits::Millimetres, paper, side).expect("a template"))
}

fn mm(length: Length) -> f64 {
    length.get::<millimeter>()
}

#[test]
fn physics_the_scale_lines_of_every_page_are_true() {
    for (paper, sides) in [(Paper::A4, [210.0, 297.0]), (Paper::Letter, [215.9, 279.4])] {
        for page in template(paper, Side::Both) {
            let mut size = page.size_mm;
            size.sort_by(f64::total_cmp);
            assert!((size[0] - sides[0]).abs() < 0.1 && (size[1] - sides[1]).abs() < 0.1);
            let foot = page.size_mm[1] - MARGIN_MM - FOOT_MM + 1.0;
            let level = |segment: &&(Point, Point)| {
                segment.0[1] > foot && (segment.0[1] - segment.1[1]).abs() < 0.01
            };
            // Nothing else in the strip at the foot is as long as either line.
            let lengths: Vec<f64> =
                page.segments.iter().filter(level).map(long).filter(|&x| x > 60.0).collect();
            assert_eq!(lengths.len(), 2, "{lengths:?}");
            assert!((lengths[0] - 100.0).abs() < 0.2, "{lengths:?}");
            assert!((lengths[1] - 101.6).abs() < 0.2, "{lengths:?}");
        }
    }
}

/// Pages of a template with their names, joined by their register marks alone.
struct Joined {
    segments: Vec<(Point, Point)>,
    /// Circles.
    circles: Vec<(Point, f64)>,
    registers: Vec<Point>,
}

/// From the middle of a register mark to its corners.
const REGISTER_MM: f64 = 4.0;

/// Middles of the diamonds, each found by the side from its left corner to the upper one.
fn registers(page: &Drawn) -> Vec<Point> {
    let is_side = |(left, top): &&(Point, Point)| {
        let (right, up) = (top[0] - left[0], left[1] - top[1]);
        (right - REGISTER_MM).abs() < 1e-2 && (up - REGISTER_MM).abs() < 1e-2
    };
    let middle = |(left, top): &(Point, Point)| [top[0], left[1]];
    let mut places: Vec<Point> = page.segments.iter().filter(is_side).map(middle).collect();
    places.sort_by(|a, b| (a[0] + 0.001 * a[1]).total_cmp(&(b[0] + 0.001 * b[1])));
    places
}

/// Where `next` lies to `page` when the marks of the overlap between them are laid on each
/// other; `axis` 0 for the page at the right, 1 for the page below.
fn step(page: &Drawn, next: &Drawn, axis: usize) -> Point {
    let edge = |drawn: &Drawn, far: bool| {
        let picture = [drawn.size_mm[0] - MARGIN_MM, drawn.size_mm[1] - MARGIN_MM - FOOT_MM];
        let strip = if far { picture[axis] - 7.5 } else { 17.5 };
        let marks = registers(drawn).into_iter();
        marks.filter(|mark| (mark[axis] - strip).abs() < 0.05).collect::<Vec<_>>()
    };
    let (here, there) = (edge(page, true), edge(next, false));
    assert!(here.len() == 2 && there.len() == 2, "{here:?} {there:?}");
    let steps = [0, 1].map(|mark| [0, 1].map(|i| here[mark][i] - there[mark][i]));
    for i in [0, 1] {
        assert!((steps[0][i] - steps[1][i]).abs() < 0.02, "the marks do not fit: {steps:?}");
    }
    steps[0]
}

fn joined(pages: Vec<Drawn>) -> Joined {
    let place = |name: &str| {
        let name = name.split(' ').next().unwrap_or_default();
        let (row, column) = name.split_once('-').expect("row and column");
        let number = |text: &str| text.parse::<usize>().expect("a number");
        (number(row), number(column))
    };
    let pages: BTreeMap<(usize, usize), Drawn> =
        pages.into_iter().map(|page| (place(&page.name), page)).collect();
    let first = *pages.keys().next_back().expect("pages");
    let mut origins = BTreeMap::from([(first, [0.0, 0.0])]);
    while origins.len() < pages.len() {
        let known = origins.len();
        for (&(row, column), page) in &pages {
            for (axis, other) in [(0, (row, column + 1)), (1, (row + 1, column))] {
                let Some(next) = pages.get(&other) else { continue };
                let way = step(page, next, axis);
                if let Some(&[x, y]) = origins.get(&(row, column)) {
                    origins.entry(other).or_insert([x + way[0], y + way[1]]);
                } else if let Some(&[x, y]) = origins.get(&other) {
                    origins.insert((row, column), [x - way[0], y - way[1]]);
                }
            }
        }
        assert!(origins.len() > known, "a page depends on no other");
    }
    let mut all = Joined { segments: vec![], circles: vec![], registers: vec![] };
    for (key, page) in &pages {
        let [dx, dy] = origins[key];
        let shift = |point: Point| [point[0] + dx, point[1] + dy];
        all.segments.extend(page.segments.iter().map(|s| (shift(s.0), shift(s.1))));
        all.registers.extend(registers(page).into_iter().map(shift));
        all.circles.extend(page.circles.iter().map(|&(middle, radius)| (shift(middle), radius)));
    }
    all
}

/// Keel and chine: the outermost crosses of 8 mm.
fn keel_and_chine(joined: &Joined, outward: f64) -> (Point, Point) {
    let level =
        |s: &&(Point, Point)| (s.0[1] - s.1[1]).abs() < 1e-3 && (long(s) - 8.0).abs() < 1e-3;
    let middle = |s: &(Point, Point)| [0.5 * (s.0[0] + s.1[0]), s.0[1]];
    let mut crosses: Vec<Point> = joined.segments.iter().filter(level).map(middle).collect();
    crosses.sort_by(|a, b| (outward * a[0]).total_cmp(&(outward * b[0])));
    (crosses[0], crosses[crosses.len() - 1])
}

#[test]
fn physics_joined_by_their_marks_the_pages_show_the_placement() {
    let placement = placement();
    for (paper, side) in [
        (Paper::A4, Side::Starboard),
        (Paper::A4, Side::Port),
        (Paper::Letter, Side::Starboard),
        (Paper::Letter, Side::Port),
    ] {
        let outward = if side == Side::Port { -1.0 } else { 1.0 };
        let joined = joined(template(paper, side));
        let (keel, chine) = keel_and_chine(&joined, outward);
        let edge = outward * (chine[0] - keel[0]);
        assert!((edge - mm(placement.edge())).abs() < 0.1 && (chine[1] - keel[1]).abs() < 0.1);
        let mut seen = vec![false; placement.holes.len()];
        for (middle, radius) in &joined.circles {
            let along = outward * (middle[0] - keel[0]);
            let up = keel[1] - middle[1];
            let hole = placement.holes.iter().position(|hole| {
                (mm(hole.along) - along).hypot(mm(hole.up) - up) < 0.1
                    && (0.5 * mm(hole.metric_drill_sold().expect("a drill")) - radius).abs() < 0.01
            });
            seen[hole.unwrap_or_else(|| panic!("no hole at {along:.2}, {up:.2}"))] = true;
        }
        assert!(seen.iter().all(|&seen| seen), "every hole is on some page");
        assert!(joined.registers.len() > 2);
        for mark in &joined.registers {
            for (hole, radius) in &joined.circles {
                let gap = (mark[0] - hole[0]).hypot(mark[1] - hole[1]) - radius - REGISTER_MM;
                assert!(gap > 20.0 - 0.1, "a register mark {gap:.1} mm from a hole");
            }
        }
    }
}

#[test]
fn physics_the_drawing_is_to_its_scale() {
    let placement = placement();
    let bytes = drawing_pdf(&placement, SheetUnits::Millimetres, Paper::A4).expect("a drawing");
    let pages = read(&bytes);
    assert_eq!(pages.len(), 1);
    // The bottom edge is drawn twice, port and starboard, to one of the usual scales.
    let edge = mm(placement.edge());
    let scales = [8.0, 10.0, 12.0, 15.0, 20.0];
    let found = scales.into_iter().filter(|scale| {
        let to_scale = pages[0].segments.iter().filter(|s| (long(s) - edge / scale).abs() < 0.01);
        let slope = |s: &&(Point, Point)| {
            let turn = ((s.1[1] - s.0[1]) / (s.1[0] - s.0[0])).atan().to_degrees();
            (turn.abs() - 18.0).abs() < 0.01
        };
        to_scale.filter(slope).count() >= 2
    });
    assert_eq!(found.count(), 1);
}

#[test]
fn regression_the_same_bytes_every_time() {
    let placement = placement();
    let units = SheetUnits::Inches;
    let make = || template_pdf(&placement, units, Paper::Letter, Side::Both).expect("a template");
    assert_eq!(make(), make());
    let draw = || drawing_pdf(&placement, units, Paper::Letter).expect("a drawing");
    assert_eq!(draw(), draw());
}

/// The file is read by another library than the one that writes it.
#[test]
fn physics_every_hole_of_the_dxf_is_where_the_placement_has_it() {
    let placement = placement();
    let text = drawing_dxf(&placement);
    let read = dxf::Drawing::load(&mut text.as_bytes()).expect("a sound file");
    let circles: Vec<_> = read
        .entities()
        .filter_map(|entity| match &entity.specific {
            dxf::entities::EntityType::Circle(circle) => {
                Some((entity.common.layer.clone(), circle.center.clone(), circle.radius))
            }
            _ => None,
        })
        .collect();
    assert_eq!(circles.len(), 2 * placement.holes.len());
    // By hand: turned through the deadrise of 18 deg.
    let (sin, cos) = 18.0_f64.to_radians().sin_cos();
    for hole in &placement.holes {
        let (along, up) = (mm(hole.along), mm(hole.up));
        let radius = 0.5 * mm(hole.metric_drill_sold().expect("a drill"));
        for side in [-1.0, 1.0] {
            let [x, y] = [side * (along * cos - up * sin), along * sin + up * cos];
            let is_it = |(_, centre, own): &&(String, dxf::Point, f64)| {
                (centre.x - x).hypot(centre.y - y) < 0.001 && (own - radius).abs() < 0.001
            };
            let layer = &circles.iter().find(is_it).expect("the hole").0;
            assert!(layer.starts_with("HOLES") || layer == "LEAD_THROUGH", "{layer}");
        }
    }
    let names = read.layers().map(|layer| layer.name.clone()).collect::<Vec<_>>();
    for layer in ["BOTTOM_EDGE", "CENTRELINE", "HINGE_LEAF", "BRACKET", "NAMES"] {
        assert!(names.iter().any(|name| name == layer), "{layer}: {names:?}");
    }
}
