//! Reading the published data that the program carries.

use serde::de::DeserializeOwned;

use super::CheckError;

/// A file of `data/published`, embedded.
pub(super) struct DataFile {
    /// Its name.
    pub name: &'static str,
    /// Its text: lines that begin with # are its scope, then a heading, then rows.
    pub text: &'static str,
}

impl DataFile {
    /// All rows.
    pub fn rows<Row: DeserializeOwned>(&self) -> Result<Vec<Row>, CheckError> {
        csv::ReaderBuilder::new()
            .comment(Some(b'#'))
            .from_reader(self.text.as_bytes())
            .deserialize()
            .collect::<Result<_, _>>()
            .map_err(|cause| CheckError::Data { file: self.name, cause })
    }

    /// The first row that satisfies a condition.
    pub fn row<Row: DeserializeOwned>(
        &self,
        wanted: &'static str,
        is_it: impl Fn(&Row) -> bool,
    ) -> Result<Row, CheckError> {
        self.rows()?.into_iter().find(is_it).ok_or(CheckError::NoRow { file: self.name, wanted })
    }
}

#[cfg(test)]
mod tests {
    use super::DataFile;
    use crate::check::CheckError;

    #[derive(Debug, serde::Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Row {
        trim_deg: f64,
    }

    #[test]
    fn error_damaged_data_names_its_file() {
        for text in ["trim_deg\ntwo\n", "trim_deg,other\n2,3\n", "other\n2\n"] {
            let error = DataFile { name: "Some.csv", text }.rows::<Row>().unwrap_err();
            assert!(matches!(error, CheckError::Data { file: "Some.csv", .. }), "{error}");
        }
        let file = DataFile { name: "Some.csv", text: "# scope\ntrim_deg\n2\n" };
        assert_eq!(file.row("2", |row: &Row| row.trim_deg == 2.0).unwrap().trim_deg, 2.0);
        let error = file.row("3 deg", |row: &Row| row.trim_deg == 3.0).unwrap_err();
        assert_eq!(error.to_string(), "the published data in Some.csv has no row for 3 deg");
    }
}
