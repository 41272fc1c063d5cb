//! A dealer's logo: a picture file of bounded size, held whole, so that a page with it needs nothing from elsewhere.

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

/// Largest logo that is read, in bytes (256 KiB).
pub const LARGEST_LOGO_BYTES: u64 = 256 << 10;
/// The box that it is fitted into, wide and high.
const BOX: [u32; 2] = [260, 64];

/// A picture that may stand on a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Logo {
    svg: String,
    file: PathBuf,
}

impl Logo {
    /// The picture in a file.
    ///
    /// # Errors
    /// When it cannot be read, is too large, or is no PNG, JPEG or SVG: what is wrong, and what to do.
    pub fn of_file(path: &Path) -> Result<Self, [String; 2]> {
        let shown = path.display();
        let refused = |problem: String, help: &str| [problem, help.to_owned()];
        let wanted =
            "name a PNG, JPEG or SVG file of at most 256 KiB beside this file, or leave logo out";
        if !path.is_file() {
            return Err(refused(format!("{shown}: there is no such file"), wanted));
        }
        let mut bytes = Vec::new();
        File::open(path)
            .and_then(|file| file.take(LARGEST_LOGO_BYTES + 1).read_to_end(&mut bytes))
            .map_err(|error| {
                let reason = crate::error::plain_reason(&error);
                refused(format!("{shown}: cannot be read: {reason}"), wanted)
            })?;
        if bytes.len() as u64 > LARGEST_LOGO_BYTES {
            return Err(refused(format!("{shown}: larger than 256 KiB"), wanted));
        }
        Self::of_bytes(&bytes)
            .map(|svg| Self { svg, file: path.to_owned() })
            .ok_or_else(|| refused(format!("{shown}: this is no PNG, JPEG or SVG picture"), wanted))
    }

    /// The picture in some bytes as one SVG document; none where they are no PNG, JPEG or SVG.
    fn of_bytes(bytes: &[u8]) -> Option<String> {
        let kind = if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
            "png"
        } else if bytes.starts_with(b"\xff\xd8\xff") {
            "jpeg"
        } else {
            let text = std::str::from_utf8(bytes).ok()?.trim_start_matches('\u{feff}').trim_start();
            let is_svg = text.starts_with("<svg")
                || (text.starts_with("<?xml") || text.starts_with("<!")) && text.contains("<svg");
            is_svg.then_some("svg+xml")?
        };
        let [width, height] = BOX;
        // As an image within an image: nothing in it can run, or fetch anything.
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\"><image width=\"{width}\" height=\"{height}\" preserveAspectRatio=\"xMinYMid meet\" xlink:href=\"data:image/{kind};base64,{}\"/></svg>",
            STANDARD.encode(bytes)
        );
        Some(svg)
    }

    /// The file that it was read from.
    #[must_use]
    pub fn file(&self) -> &Path {
        &self.file
    }

    /// The picture as one SVG document.
    #[must_use]
    pub fn svg(&self) -> &str {
        &self.svg
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Signatures: PNG (ISO/IEC 15948) 89 50 4E 47 0D 0A 1A 0A; JPEG FF D8 FF.
    #[test]
    fn published_pictures_are_known_by_their_first_bytes() {
        let of = |bytes: &[u8]| Logo::of_bytes(bytes);
        assert!(
            of(b"\x89PNG\r\n\x1a\nrest")
                .unwrap()
                .contains("data:image/png;base64,iVBORw0KGgpyZXN0")
        );
        assert!(of(b"\xff\xd8\xff\xe0rest").unwrap().contains("data:image/jpeg;"));
        assert!(of(b"<?xml version=\"1.0\"?>\n<svg/>").unwrap().contains("data:image/svg+xml;"));
        for none in [&b"GIF89a"[..], b"<html><svg/></html>", b"", b"\x89PNG", b"\xff\xfe<\0s\0"] {
            assert_eq!(of(none), None);
        }
    }

    #[test]
    fn error_files_that_are_no_logo() {
        let folder = tempfile::tempdir().unwrap();
        let problem = |name: &str| Logo::of_file(&folder.path().join(name)).unwrap_err()[0].clone();
        assert!(problem("none.png").ends_with("none.png: there is no such file"));
        assert!(problem("").ends_with("there is no such file"));
        std::fs::write(folder.path().join("a.gif"), b"GIF89a").unwrap();
        assert!(problem("a.gif").ends_with("this is no PNG, JPEG or SVG picture"));
        let large = [b"\x89PNG\r\n\x1a\n".to_vec(), vec![0; 256 << 10]].concat();
        std::fs::write(folder.path().join("large.png"), large).unwrap();
        assert!(problem("large.png").ends_with("larger than 256 KiB"));
    }
}
