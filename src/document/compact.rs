//! A picture in fewer letters, to be embedded in a page.

use std::borrow::Cow;
use std::fmt::Write as _;

/// What a stroke of the drawing engine begins with.
const STROKE: &str = "<polyline fill=\"none\" ";

/// The same picture with neighbouring strokes of one colour and width as one path.
///
/// A chart is mostly hatching and ticks, each a line of its own with all its attributes. Dashes
/// begin anew in every part of a path, as they do in every line.
pub(super) fn compact(svg: &str) -> String {
    let mut text = String::with_capacity(svg.len());
    let mut open: Option<String> = None;
    for line in svg.lines() {
        let bare = bare(line);
        let stroke = stroke(&bare);
        match (&open, stroke) {
            (Some(last), Some((attributes, points))) if last == attributes => {
                let _ = write!(text, "M{points}");
            }
            (_, Some((attributes, points))) => {
                close(&mut text, open.is_some());
                let _ = write!(text, "<path fill=\"none\" {attributes} d=\"M{points}");
                open = Some(attributes.to_owned());
            }
            (_, None) => {
                close(&mut text, open.take().is_some());
                text.push_str(&bare);
                text.push('\n');
            }
        }
    }
    close(&mut text, open.is_some());
    text
}

fn close(text: &mut String, is_open: bool) {
    if is_open {
        text.push_str("\"/>\n");
    }
}

/// A line of the picture without attributes that say what is so anyway; words are left alone.
fn bare(line: &str) -> Cow<'_, str> {
    let is_drawn =
        ["<poly", "<circle", "<rect", "<text x="].iter().any(|tag| line.starts_with(tag));
    if is_drawn { Cow::Owned(line.replace(" opacity=\"1\"", "")) } else { Cow::Borrowed(line) }
}

/// Attributes and points of a stroke that stands alone on its line.
fn stroke(line: &str) -> Option<(&str, &str)> {
    let inner = line.strip_prefix(STROKE)?.strip_suffix("\"/>")?;
    let (attributes, points) = inner.split_once(" points=\"")?;
    let points = points.trim_end();
    let plain = |letter: char| letter.is_ascii_digit() || matches!(letter, ' ' | ',' | '.' | '-');
    (points.chars().all(plain) && points.contains(' ')).then_some((attributes, points))
}

/// A picture as the address of an image: only what an address cannot hold is escaped.
pub(super) fn address(svg: &str) -> String {
    let mut text = "data:image/svg+xml,".to_owned();
    for byte in compact(svg).bytes() {
        match byte {
            b'"' => text.push('\''),
            b'\'' | b'%' | b'#' | b'<' | b'>' | b'&' | 0..32 | 127.. => {
                let _ = write!(text, "%{byte:02X}");
            }
            _ => text.push(char::from(byte)),
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    const TWO: &str = "<polyline fill=\"none\" opacity=\"1\" stroke=\"#000000\" stroke-width=\"2\" points=\"0,0 10,0 \"/>\n<polyline fill=\"none\" opacity=\"1\" stroke=\"#000000\" stroke-width=\"2\" points=\"0,5 10,5 \"/>\n";

    #[test]
    fn regression_strokes_alike_become_one_path_and_others_stay() {
        assert_eq!(
            compact(TWO),
            "<path fill=\"none\" stroke=\"#000000\" stroke-width=\"2\" d=\"M0,0 10,0M0,5 10,5\"/>\n"
        );
        let other = TWO.replacen("\"2\"", "\"3\"", 1);
        assert_eq!(compact(&other).matches("<path").count(), 2);
        assert_eq!(compact("<text>\n<polyline \n"), "<text>\n<polyline \n");
    }

    /// The rasteriser of the charts is the judge: the same picture to the last pixel but for the
    /// edges where strokes meet.
    #[test]
    fn regression_the_picture_stays_the_same() {
        use resvg::{tiny_skia, usvg};
        let whole = |body: &str| {
            format!(
                "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"12\" height=\"12\">\n<g stroke-dasharray=\"3 2\">\n{body}</g>\n</svg>\n"
            )
        };
        let drawn = |svg: &str| {
            let tree = usvg::Tree::from_str(svg, &usvg::Options::default()).unwrap();
            let mut pixels = tiny_skia::Pixmap::new(12, 12).unwrap();
            resvg::render(&tree, tiny_skia::Transform::identity(), &mut pixels.as_mut());
            pixels
        };
        let before = drawn(&whole(TWO));
        assert!(before.pixels().iter().any(|pixel| pixel.alpha() > 0));
        assert_eq!(before, drawn(&compact(&whole(TWO))));
    }

    #[test]
    fn regression_no_picture_breaks_out_of_its_attribute() {
        let found = address("<text a=\"1\">it's “5 %” & more #2\n</text>");
        assert!(found.starts_with("data:image/svg+xml,%3Ctext a='1'%3Eit%27s "));
        assert!(found.is_ascii() && !found.contains(['"', '<', '>', '#', '&', '\n']));
        assert!(found.contains("5 %25%E2%80%9D %26 more %232%0A"));
    }
}
