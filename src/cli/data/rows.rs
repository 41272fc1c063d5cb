//! Rows of comma-separated values, as a spreadsheet takes them.

use std::io;

/// Rows under a head as one text.
pub(in crate::cli) fn written(
    head: &[String],
    rows: impl IntoIterator<Item = Vec<String>>,
) -> Result<String, io::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(head)?;
    for row in rows {
        writer.write_record(&row)?;
    }
    let bytes = writer.into_inner().map_err(|error| error.into_error())?;
    String::from_utf8(bytes).map_err(io::Error::other)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_commas_and_quotes_stand_in_quotes() {
        let row = ["a, b", "say \"so\""].map(str::to_owned).to_vec();
        let text = written(&["x".to_owned(), "y".to_owned()], [row]).unwrap();
        // RFC 4180, rules 6 and 7 of section 2.
        assert_eq!(text, "x,y\n\"a, b\",\"say \"\"so\"\"\"\n");
    }
}
