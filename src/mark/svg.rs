//! A sheet as SVG, one user unit per millimetre.

use std::fmt::Write;

use super::ink::{Anchor, Fill, Mark, Pen, Sheet};
use crate::chart::FONT_FAMILY;
use crate::units::number_with_decimals;

/// The sheet as an SVG document of its true size.
pub(super) fn svg(sheet: &Sheet, description: &str) -> String {
    let (wide, high) = (number(sheet.width_mm), number(sheet.height_mm));
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}mm\" height=\"{high}mm\" \
         viewBox=\"0 0 {wide} {high}\" role=\"img\" font-family=\"{FONT_FAMILY}, sans-serif\">\n\
         <title>{}</title>\n<desc>{}</desc>\n\
         <rect width=\"{wide}\" height=\"{high}\" fill=\"#fff\"/>\n",
        escaped(&sheet.title),
        escaped(description)
    );
    for mark in &sheet.marks {
        // Writing to a String cannot fail.
        let _ = writeln!(text, "{}", element(mark));
    }
    text.push_str("</svg>\n");
    text
}

fn element(mark: &Mark) -> String {
    match mark {
        Mark::Line { from, to, pen } => format!(
            "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"{}/>",
            number(from[0]),
            number(from[1]),
            number(to[0]),
            number(to[1]),
            paint(Some(*pen), None)
        ),
        Mark::Path { points, closed, pen, fill } => {
            let kind = if *closed { "polygon" } else { "polyline" };
            let points: Vec<String> =
                points.iter().map(|p| format!("{},{}", number(p[0]), number(p[1]))).collect();
            format!("<{kind} points=\"{}\"{}/>", points.join(" "), paint(*pen, *fill))
        }
        Mark::Circle { centre, radius_mm, pen, fill } => format!(
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>",
            number(centre[0]),
            number(centre[1]),
            number(*radius_mm),
            paint(*pen, *fill)
        ),
        Mark::Text { at, size_mm, anchor, turn_deg, text } => {
            let (x, y) = (number(at[0]), number(at[1]));
            let anchor = match anchor {
                Anchor::Start => "",
                Anchor::Middle => " text-anchor=\"middle\"",
                Anchor::End => " text-anchor=\"end\"",
            };
            let turn = if *turn_deg == 0.0 {
                String::new()
            } else {
                format!(" transform=\"rotate({} {x} {y})\"", number(*turn_deg))
            };
            let size = number(*size_mm);
            let text = escaped(text);
            format!("<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\"{anchor}{turn}>{text}</text>")
        }
    }
}

fn paint(pen: Option<Pen>, fill: Option<Fill>) -> String {
    let fill = fill.map_or_else(|| "none".to_owned(), |Fill(grey)| shade(grey));
    let stroke = pen.map_or_else(String::new, |pen| {
        let dashes: Vec<String> = pen.dash_mm.iter().map(|&dash| number(dash)).collect();
        let dash = if dashes.is_empty() {
            String::new()
        } else {
            format!(" stroke-dasharray=\"{}\"", dashes.join(" "))
        };
        let width = number(pen.width_mm);
        format!(" stroke=\"{}\" stroke-width=\"{width}\"{dash}", shade(pen.grey))
    });
    format!(" fill=\"{fill}\"{stroke}")
}

fn shade(grey: u8) -> String {
    format!("#{grey:02x}{grey:02x}{grey:02x}")
}

fn number(value: f64) -> String {
    let text = number_with_decimals(value, 3);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
