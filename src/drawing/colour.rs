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

    /// As SVG writes it.
    pub(super) fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

/// Text, frame and everything that must be read first.
pub(crate) const INK: Colour = Colour::new(0x0A, 0x22, 0x39);
/// The sheet.
pub(crate) const PAPER: Colour = Colour::grey(0xFF);
