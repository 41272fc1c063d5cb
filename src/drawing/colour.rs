//! Colours, ink and paper.

/// A colour as red, green and blue, 0 to 255 each (sRGB).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// Red, 0 to 255.
    pub red: u8,
    /// Green, 0 to 255.
    pub green: u8,
    /// Blue, 0 to 255.
    pub blue: u8,
}

impl Colour {
    /// A colour from its three parts, 0 to 255 each.
    pub const fn new(red: u8, green: u8, blue: u8) -> Self {
        Self { red, green, blue }
    }

    /// A grey: 0 black, 255 white.
    pub(crate) const fn grey(shade: u8) -> Self {
        Self::new(shade, shade, shade)
    }

    /// As SVG and style sheets write it.
    pub(crate) fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

/// Text, frame and everything that must be read first: deep water.
pub(crate) const INK: Colour = Colour::new(0x0A, 0x22, 0x39);
/// Text of second rank.
pub(crate) const QUIET_INK: Colour = Colour::new(0x3F, 0x54, 0x66);
/// The sheet.
pub(crate) const PAPER: Colour = Colour::grey(0xFF);
/// Shallow water: a tint behind letters and hatching.
pub(crate) const SHALLOWS: Colour = Colour::new(0xE2, 0xED, 0xF2);
/// Unsounded ground: a tint for what needs care.
pub(crate) const BUFF: Colour = Colour::new(0xF6, 0xF1, 0xE4);
/// Grid lines, and what parts things and says nothing by itself.
pub(crate) const HAIR: Colour = Colour::new(0xD3, 0xDD, 0xE3);
/// Open sea.
pub(crate) const SEA: Colour = Colour::new(0x10, 0x5F, 0x7A);
/// The port light.
pub(crate) const PORT_LIGHT: Colour = Colour::new(0x86, 0x1D, 0x2C);
/// Brass.
pub(crate) const BRASS: Colour = Colour::new(0xBF, 0x85, 0x1B);

/// Relative luminance, 0 to 1.
///
/// Source: Web Content Accessibility Guidelines 2.2 (W3C Recommendation 2023), definition of
/// "relative luminance" (from memory).
#[cfg(test)]
pub(crate) fn luminance(colour: Colour) -> f64 {
    let linear = |part: u8| {
        let s = f64::from(part) / 255.0;
        if s <= 0.04045 { s / 12.92 } else { ((s + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue)
}

/// Contrast of two colours, 1 to 21 (WCAG 2.2).
#[cfg(test)]
pub(crate) fn contrast(one: Colour, other: Colour) -> f64 {
    let [one, other] = [one, other].map(luminance);
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Known pairs, from memory: black on white 21, and #767676 on white 4.54, the lightest grey
    /// that passes; #777777 fails with 4.48.
    #[test]
    fn published_contrast_of_known_greys() {
        for (shade, printed) in [(0x00, 21.0), (0x76, 4.54), (0x77, 4.48)] {
            let found = contrast(Colour::grey(shade), PAPER);
            assert!((found - printed).abs() < 0.005, "{shade}: {found}");
        }
    }
}
