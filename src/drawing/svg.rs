//! A drawing as SVG.
//!
//! Presentation attributes only, no style sheets and no identifiers: a picture may stand in a page
//! whose policy forbids styles, several times over, or alone in a file. Neighbouring strokes of
//! one pen are one path: a drawing is mostly hatching and ticks, and dashes begin anew in every
//! part of a path.

use std::fmt::Write;

use super::colour::{Colour, PAPER};
use super::geometry::Point;
use super::lettering::{FONT_FAMILY, clean};
use super::sheet::{Anchor, Drawing, Form, Mark, Pen, Round};
use crate::units::number_with_decimals;

/// Families tried by a viewer that lacks the embedded one: the widths are alike.
const OTHER_FAMILIES: &str = "Verdana, sans-serif";

impl Drawing {
    /// The drawing as an SVG document of its true size, with a description for those who cannot
    /// see it.
    pub fn svg(&self, description: &str) -> String {
        let form = &self.form;
        let [wide, high] = self.size.map(|length| written(form.stepped(length) / form.steps, 3));
        let [columns, rows] = self.size.map(|length| form.number(length));
        let unit = form.unit;
        let round = match form.round {
            Round::Nothing => "",
            Round::Joins => " stroke-linejoin=\"round\"",
            Round::JoinsAndEnds => " stroke-linejoin=\"round\" stroke-linecap=\"round\"",
        };
        let mut text = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{wide}{unit}\" \
             height=\"{high}{unit}\" viewBox=\"0 0 {columns} {rows}\" font-family=\"{FONT_FAMILY}, \
             {OTHER_FAMILIES}\" fill=\"{}\"{round}>\n<title>{}</title>\n<desc>{}</desc>\n",
            form.ink.hex(),
            escaped(&self.title),
            escaped(&clean(description))
        );
        if form.on_paper {
            // Writing to a String cannot fail, here and below.
            let paper = PAPER.hex();
            let _ =
                writeln!(text, "<rect width=\"{columns}\" height=\"{rows}\" fill=\"{paper}\"/>");
        }
        form.marks(&mut text, &self.marks);
        text.push_str("</svg>\n");
        text
    }
}

impl Form {
    fn marks(&self, text: &mut String, marks: &[Mark]) {
        for run in marks.chunk_by(of_one_pen) {
            self.run(text, run);
        }
    }

    /// Strokes of one pen, or any other mark alone.
    fn run(&self, text: &mut String, run: &[Mark]) {
        let _ = match &run[0] {
            Mark::Stroke { pen, .. } => {
                let parts = run.iter().filter_map(|mark| match mark {
                    Mark::Stroke { points, .. } => Some(format!("M{}", self.points(points))),
                    _ => None,
                });
                let (pen, parts) = (self.pen(pen), parts.collect::<String>());
                writeln!(text, "<path fill=\"none\"{pen} d=\"{parts}\"/>")
            }
            Mark::Shape { points, pen, fill } => {
                let (paint, points) = (self.paint(pen.as_ref(), *fill), self.points(points));
                writeln!(text, "<polygon points=\"{points}\"{paint}/>")
            }
            Mark::Circle { centre, radius, pen, fill } => {
                let [x, y, radius] = [centre[0], centre[1], *radius].map(|v| self.number(v));
                let paint = self.paint(pen.as_ref(), *fill);
                writeln!(text, "<circle cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"{paint}/>")
            }
            Mark::Text { at, size, anchor, turn_deg, colour, text: words } => {
                let [x, y, size] = [at[0], at[1], *size].map(|v| self.number(v));
                let anchor = match anchor {
                    Anchor::Start => "",
                    Anchor::Middle => " text-anchor=\"middle\"",
                    Anchor::End => " text-anchor=\"end\"",
                };
                let turn = turn(*turn_deg, &x, &y);
                let fill = self.letter_fill(*colour);
                let words = escaped(words);
                writeln!(
                    text,
                    "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\"{fill}{anchor}{turn}>{words}</text>"
                )
            }
            Mark::Part { name, marks } => {
                let _ = writeln!(text, "<g class=\"{name}\">");
                self.marks(text, marks);
                writeln!(text, "</g>")
            }
        };
    }

    fn points(&self, points: &[Point]) -> String {
        let mut text = String::new();
        for (place, at) in points.iter().enumerate() {
            let gap = if place > 0 { " " } else { "" };
            let _ = write!(text, "{gap}{},{}", self.number(at[0]), self.number(at[1]));
        }
        text
    }

    fn paint(&self, pen: Option<&Pen>, fill: Option<Colour>) -> String {
        let fill = fill.map_or_else(|| "none".to_owned(), Colour::hex);
        format!(" fill=\"{fill}\"{}", pen.map_or_else(String::new, |pen| self.pen(pen)))
    }

    fn pen(&self, pen: &Pen) -> String {
        let dashes: Vec<String> = pen.dash.iter().map(|&dash| self.number(dash)).collect();
        let dash = if dashes.is_empty() {
            String::new()
        } else {
            format!(" stroke-dasharray=\"{}\"", dashes.join(" "))
        };
        let (colour, width) = (pen.colour.hex(), self.number(pen.width));
        format!(" stroke=\"{colour}\" stroke-width=\"{width}\"{dash}")
    }

    /// Letters in ink need no colour of their own.
    fn letter_fill(&self, colour: Colour) -> String {
        if colour == self.ink { String::new() } else { format!(" fill=\"{}\"", colour.hex()) }
    }

    /// A length in steps of the grid, as it is written.
    fn number(&self, length: f64) -> String {
        written(self.stepped(length), self.decimals)
    }

    /// A length in steps of the grid, halves rounded away from nought.
    fn stepped(&self, length: f64) -> f64 {
        let shift = 10_f64.powi(self.decimals as i32);
        (length * self.steps * shift).round() / shift
    }
}

fn of_one_pen(one: &Mark, next: &Mark) -> bool {
    match (one, next) {
        (Mark::Stroke { pen, .. }, Mark::Stroke { pen: other, .. }) => pen == other,
        _ => false,
    }
}

fn turn(turn_deg: f64, x: &str, y: &str) -> String {
    if turn_deg == 0.0 {
        String::new()
    } else {
        format!(" transform=\"rotate({} {x} {y})\"", written(turn_deg, 3))
    }
}

/// A number without noughts at its end.
fn written(value: f64, decimals: usize) -> String {
    let text = number_with_decimals(value, decimals);
    if decimals == 0 {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::INK;
    use resvg::{tiny_skia, usvg};

    const FORM: Form = Form {
        unit: "mm",
        steps: 1.0,
        decimals: 1,
        ink: INK,
        on_paper: true,
        round: Round::Nothing,
        drop: 0.36,
        halo: [1.0, 0.5],
    };

    const DASHED: Pen = Pen::dashed(Colour::grey(0), 2.0, &[3.0, 2.0]);

    fn pixels(drawing: &Drawing) -> tiny_skia::Pixmap {
        let tree = usvg::Tree::from_str(&drawing.svg(""), &usvg::Options::default()).unwrap();
        let [wide, high] = [tree.size().width(), tree.size().height()].map(|l| l.ceil() as u32);
        let mut pixels = tiny_skia::Pixmap::new(wide, high).unwrap();
        resvg::render(&tree, tiny_skia::Transform::identity(), &mut pixels.as_mut());
        pixels
    }

    #[test]
    fn regression_strokes_alike_become_one_path_and_others_stay() {
        let mut drawing = Drawing::new([12.0, 12.0], "", FORM);
        drawing.line([0.0, 0.0], [10.0, 0.0], DASHED);
        drawing.line([0.0, 5.0], [10.04, 5.0], DASHED);
        let path = "<path fill=\"none\" stroke=\"#000000\" stroke-width=\"2\" \
                    stroke-dasharray=\"3 2\" d=\"M0,0 10,0M0,5 10,5\"/>\n";
        assert!(drawing.svg("").contains(path), "{}", drawing.svg(""));
        drawing.line([0.0, 7.0], [10.0, 7.0], Pen::solid(INK, 2.0));
        assert_eq!(drawing.svg("").matches("<path").count(), 2);
    }

    /// The same picture to the last pixel, whether strokes are written together or one by one.
    #[test]
    fn regression_the_picture_stays_the_same() {
        let [mut one, mut two] = [(); 2].map(|()| Drawing::new([12.0, 12.0], "", FORM));
        for y in [0.0, 5.0] {
            one.line([0.0, y], [10.0, y], DASHED);
            two.part("alone", |two| two.line([0.0, y], [10.0, y], DASHED));
        }
        assert_eq!(two.svg("").matches("<path").count(), 2);
        assert!(pixels(&one).pixels().iter().any(|pixel| pixel.red() < 100));
        assert_eq!(pixels(&one), pixels(&two));
    }

    #[test]
    fn regression_words_cannot_become_markup() {
        let mut drawing = Drawing::new([12.0, 12.0], "a < b", FORM);
        drawing.text([1.0, 1.0], 3.0, Anchor::Middle, "</text> & \u{1} more");
        let svg = drawing.svg("<desc>");
        for text in ["<title>a &lt; b<", ">&lt;/text&gt; &amp; more<", "<desc>&lt;desc&gt;</desc>"]
        {
            assert!(svg.contains(text), "{svg}");
        }
        assert!(usvg::Tree::from_str(&svg, &usvg::Options::default()).is_ok());
    }

    #[test]
    fn regression_a_part_without_marks_is_left_out_and_others_are_named() {
        let mut drawing = Drawing::new([12.0, 12.0], "", FORM);
        drawing.part("empty", |_| ());
        drawing.part("full", |drawing| drawing.circle([4.0, 4.0], 1.0, None, Some(INK)));
        let svg = drawing.svg("");
        assert!(!svg.contains("empty") && svg.contains("<g class=\"full\">\n<circle cx=\"4\""));
    }
}
