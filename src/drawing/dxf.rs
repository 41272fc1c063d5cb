//! Lines, circles and texts at full size as a DXF file (release 12, letters), which every drawing
//! program and every machine shop reads; the same bytes every time.
//!
//! The group codes are those of the published DXF reference, from memory: 0 begins an entity, 8 is
//! its layer, 10/20 and 11/21 are points, 40 a radius or a height, 1 a text, 50 its turn.

use std::fmt::Write;

use super::geometry::Point;

/// A line of a layer that is not drawn whole.
const DASHED: &str = "DASHED";
const WHOLE: &str = "CONTINUOUS";

/// A layer of a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Layer {
    /// Its name, of capital letters, digits and underscores.
    pub name: &'static str,
    /// Its colour by the index of such files: 1 red, 5 blue, 7 black.
    pub colour: u8,
    /// Whether its lines are dashed.
    pub dashed: bool,
}

/// Entities in millimetres, to the right and up.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Dxf {
    layers: Vec<Layer>,
    entities: String,
}

impl Dxf {
    /// An empty drawing with these layers.
    pub fn new(layers: &[Layer]) -> Self {
        Self { layers: layers.to_vec(), entities: String::new() }
    }

    pub fn line(&mut self, layer: Layer, from: Point, to: Point) {
        self.begin("LINE", layer);
        self.point(10, from);
        self.point(11, to);
    }

    /// Lines from each point to the next, and back to the first.
    pub fn outline(&mut self, layer: Layer, corners: &[Point]) {
        for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            self.line(layer, *from, *to);
        }
    }

    pub fn circle(&mut self, layer: Layer, centre: Point, radius: f64) {
        self.begin("CIRCLE", layer);
        self.point(10, centre);
        self.number(40, radius);
    }

    /// A text from its lower left corner.
    pub fn text(&mut self, layer: Layer, at: Point, height: f64, text: &str) {
        self.begin("TEXT", layer);
        self.point(10, at);
        self.number(40, height);
        let _ = writeln!(self.entities, "1\n{}", plain(text));
    }

    /// The whole file.
    pub fn file(&self) -> String {
        let mut text = String::new();
        let _ = writeln!(text, "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009");
        let _ = writeln!(text, "9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nTABLES");
        let _ = writeln!(text, "0\nTABLE\n2\nLTYPE\n70\n2");
        let _ =
            writeln!(text, "0\nLTYPE\n2\n{WHOLE}\n70\n0\n3\nSolid line\n72\n65\n73\n0\n40\n0.0");
        let _ = writeln!(
            text,
            "0\nLTYPE\n2\n{DASHED}\n70\n0\n3\n__ __\n72\n65\n73\n2\n40\n15.0\n49\n10.0\n49\n-5.0"
        );
        let _ = writeln!(text, "0\nENDTAB\n0\nTABLE\n2\nLAYER\n70\n{}", self.layers.len());
        for layer in &self.layers {
            let kind = if layer.dashed { DASHED } else { WHOLE };
            let _ = writeln!(
                text,
                "0\nLAYER\n2\n{}\n70\n0\n62\n{}\n6\n{kind}",
                layer.name, layer.colour
            );
        }
        let _ = writeln!(text, "0\nENDTAB\n0\nENDSEC\n0\nSECTION\n2\nENTITIES");
        text.push_str(&self.entities);
        let _ = writeln!(text, "0\nENDSEC\n0\nEOF");
        text
    }

    fn begin(&mut self, kind: &str, layer: Layer) {
        let _ = writeln!(self.entities, "0\n{kind}\n8\n{}", layer.name);
    }

    fn point(&mut self, code: u32, [x, y]: Point) {
        self.number(code, x);
        self.number(code + 10, y);
        self.number(code + 20, 0.0);
    }

    fn number(&mut self, code: u32, value: f64) {
        // Never minus zero.
        let _ = writeln!(self.entities, "{code}\n{:.4}", value + 0.0);
    }
}

/// A text on one line, other letters than those of ASCII by their number.
fn plain(text: &str) -> String {
    let letters = text.chars().map(|letter| match letter {
        letter if letter.is_control() => " ".to_owned(),
        letter if letter.is_ascii() => letter.to_string(),
        letter => format!("\\U+{:04X}", u32::from(letter)),
    });
    letters.collect()
}
