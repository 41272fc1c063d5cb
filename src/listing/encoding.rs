//! Bytes of a list to text, whatever a spreadsheet saved them as: UTF-8, UTF-16 with or without a mark of its byte
//! order, or the Western European set of one byte a letter (Windows-1252, which holds Latin-1).

use encoding_rs::{Encoding, UTF_16BE, UTF_16LE, WINDOWS_1252};

use crate::error::{Lines, Unread};

/// Share of bytes of nothing on one side of each pair from which a text without a mark is taken for UTF-16.
const PAIRED: f64 = 0.3;

/// The text in some bytes.
///
/// # Errors
/// When there are more than [`crate::error::LARGEST_FILE_BYTES`] of them, or they are no text.
pub(super) fn text_in(bytes: &[u8]) -> Result<String, Unread> {
    if bytes.len() as u64 > crate::error::LARGEST_FILE_BYTES {
        return Err(Unread::TooLarge);
    }
    let not_text = |place| Unread::NotText { line: Lines::of(bytes).number(place) };
    if let Some((encoding, mark)) = Encoding::for_bom(bytes) {
        return decoded(encoding, &bytes[mark..]);
    }
    let nothing = |from: usize| {
        let all = bytes.iter().skip(from).step_by(2);
        all.filter(|&&byte| byte == 0).count() as f64 / (bytes.len() as f64 / 2.0).max(1.0)
    };
    if let Some(place) = bytes.iter().position(|&byte| byte == 0) {
        return match [nothing(0) > PAIRED, nothing(1) > PAIRED] {
            [false, true] => decoded(UTF_16LE, bytes),
            [true, false] => decoded(UTF_16BE, bytes),
            _ => Err(not_text(place)),
        };
    }
    if let Ok(text) = std::str::from_utf8(bytes) {
        return Ok(text.to_owned());
    }
    // A letter of one byte is no control character, and no byte that the set leaves free.
    let is_letter = |byte: u8| match byte {
        b'\t' | b'\n' | b'\r' | 0x0c => true,
        0..0x20 | 0x7f | 0x81 | 0x8d | 0x8f | 0x90 | 0x9d => false,
        _ => true,
    };
    match bytes.iter().position(|&byte| !is_letter(byte)) {
        Some(place) => Err(not_text(place)),
        None => Ok(WINDOWS_1252.decode_without_bom_handling(bytes).0.into_owned()),
    }
}

/// Bytes without a mark in a set of letters; refused where they are none of it, or control a terminal.
fn decoded(encoding: &'static Encoding, bytes: &[u8]) -> Result<String, Unread> {
    let (text, is_wrong) = encoding.decode_without_bom_handling(bytes);
    let is_odd = |c: char| c == '\u{fffd}' || (c.is_control() && !"\t\n\r\u{c}".contains(c));
    let place = text.find(is_odd);
    if !is_wrong && place.is_none() {
        return Ok(text.into_owned());
    }
    Err(Unread::NotText { line: Lines::of(text.as_bytes()).number(place.unwrap_or(0)) })
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "name;span\nHöhe “9” – 5 €;300\n";

    fn read(bytes: &[u8]) -> Option<String> {
        text_in(bytes).ok()
    }

    /// Letters of Windows-1252 by its published table: ö F6, “ 93, ” 94, – 96, € 80.
    #[test]
    fn published_the_same_text_in_every_set_of_letters() {
        let little: Vec<u8> = TEXT.encode_utf16().flat_map(u16::to_le_bytes).collect();
        let big: Vec<u8> = TEXT.encode_utf16().flat_map(u16::to_be_bytes).collect();
        let western = b"name;span\nH\xf6he \x939\x94 \x96 5 \x80;300\n".to_vec();
        let marked = |mark: &[u8], bytes: &[u8]| [mark, bytes].concat();
        let all = [
            TEXT.as_bytes().to_vec(),
            marked(b"\xef\xbb\xbf", TEXT.as_bytes()),
            marked(b"\xff\xfe", &little),
            marked(b"\xfe\xff", &big),
            little,
            big,
            western,
        ];
        for bytes in all {
            assert_eq!(read(&bytes).as_deref(), Some(TEXT), "{bytes:?}");
        }
    }

    #[test]
    fn error_bytes_that_are_no_text() {
        let line = |bytes: &[u8]| match text_in(bytes) {
            Err(Unread::NotText { line }) => line,
            other => panic!("{other:?}"),
        };
        assert_eq!(line(b"name\n\0\n"), 2);
        assert_eq!(line(b"name\n\xff\x01\n"), 2);
        assert_eq!(line(b"PK\x03\x04\x14\0\0\0"), 1);
        // Half of a pair that UTF-16 never writes alone.
        assert_eq!(line(b"\xff\xfea\0\n\0\x00\xd8x\0"), 2);
    }
}
