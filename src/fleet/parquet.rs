//! Tables in Parquet files.

use std::fs::File;
use std::io;
use std::path::{Path, PathBuf};

use parquet::arrow::ArrowWriter;
use parquet::arrow::arrow_reader::{ParquetRecordBatchReader, ParquetRecordBatchReaderBuilder};
use parquet::basic::Compression;
use parquet::errors::ParquetError;
use parquet::file::properties::WriterProperties;

use super::source::{Place, Source, TableError, content, unreadable};
use super::{Cell, Column, ColumnKind, Line, arrow};

/// Rows that are read at a time.
const AT_A_TIME: usize = 1024;
/// Rows that are held until they are written as a group, so that memory does not grow with the table.
const ROWS_IN_A_GROUP: usize = 1 << 16;

/// A table in a Parquet file.
pub(super) struct ParquetTable {
    path: PathBuf,
    reader: ParquetRecordBatchReader,
    /// Rows of the last batch that were not given yet, the next one last.
    left: Vec<Line>,
    headings: Vec<String>,
    rows: u64,
    all: u64,
    checksum: String,
}

impl ParquetTable {
    pub fn open(path: &Path) -> Result<Self, TableError> {
        let (checksum, _) = content(path)?;
        let builder = builder(path)?;
        let headings = builder.schema().fields().iter().map(|field| field.name().clone()).collect();
        let all = u64::try_from(builder.metadata().file_metadata().num_rows()).unwrap_or(0);
        let reader = builder.build().map_err(|error| form(path, &error))?;
        Ok(Self {
            path: path.to_owned(),
            reader,
            left: Vec::new(),
            headings,
            rows: 0,
            all,
            checksum,
        })
    }
}

fn builder(path: &Path) -> Result<ParquetRecordBatchReaderBuilder<File>, TableError> {
    let file = File::open(path).map_err(|error| unreadable(path, &error))?;
    let builder = ParquetRecordBatchReaderBuilder::try_new(file);
    Ok(builder.map_err(|error| form(path, &error))?.with_batch_size(AT_A_TIME))
}

fn form(path: &Path, error: &ParquetError) -> TableError {
    TableError::Form {
        path: path.to_owned(),
        problem: format!("this is no Parquet file that can be read: {error}"),
        help: "write it anew, uncompressed or compressed by snappy, or save it as CSV".to_owned(),
    }
}

impl Source for ParquetTable {
    fn headings(&self) -> &[String] {
        &self.headings
    }

    fn next(&mut self, most: usize) -> Result<Vec<Line>, TableError> {
        let mut lines = Vec::new();
        while lines.len() < most {
            if let Some(line) = self.left.pop() {
                lines.push(line);
                continue;
            }
            let Some(batch) = self.reader.next() else { break };
            let batch = batch.map_err(|error| form(&self.path, &error.into()))?;
            self.left = arrow::lines(&batch).map_err(|fault| TableError::Form {
                path: self.path.clone(),
                problem: fault.problem,
                help: fault.remedy,
            })?;
            self.left.reverse();
        }
        self.rows += lines.len() as u64;
        Ok(lines)
    }

    fn place(&self) -> Place {
        Place { rows: self.rows, ..Place::default() }
    }

    fn go_to(&mut self, place: Place) -> Result<(), TableError> {
        let skipped = usize::try_from(place.rows).unwrap_or(usize::MAX);
        let reader = builder(&self.path)?.with_offset(skipped).build();
        self.reader = reader.map_err(|error| form(&self.path, &error))?;
        self.left.clear();
        self.rows = place.rows;
        Ok(())
    }

    fn expected(&self) -> u64 {
        self.all
    }

    fn checksum(&self) -> &str {
        &self.checksum
    }
}

/// Turns answers that stand as comma-separated values into a Parquet file, a few rows at a time.
pub(super) fn from_csv(columns: &[Column], grown: File, other: &File) -> io::Result<()> {
    let schema = arrow::schema(columns);
    let properties = WriterProperties::builder()
        .set_compression(Compression::SNAPPY)
        .set_max_row_group_row_count(Some(ROWS_IN_A_GROUP))
        .build();
    let mut writer = ArrowWriter::try_new(other, schema.clone(), Some(properties))?;
    let mut reader = csv::ReaderBuilder::new().from_reader(grown);
    let mut rows = Vec::with_capacity(AT_A_TIME);
    for record in reader.records() {
        let record = record?;
        let cells = columns.iter().zip(&record).map(|(column, text)| cell(column.kind, text));
        rows.push(cells.collect());
        if rows.len() == AT_A_TIME {
            writer.write(&arrow::batch(columns, &schema, &rows))?;
            rows.clear();
        }
    }
    writer.write(&arrow::batch(columns, &schema, &rows))?;
    writer.close()?;
    Ok(())
}

fn cell(kind: ColumnKind, text: &str) -> Cell {
    let of = |cell: Option<Cell>| cell.unwrap_or(Cell::Empty);
    match kind {
        _ if text.is_empty() => Cell::Empty,
        ColumnKind::Whole => of(text.parse().ok().map(Cell::Whole)),
        ColumnKind::Number => of(text.parse().ok().map(Cell::Number)),
        ColumnKind::Truth => of(text.parse().ok().map(Cell::Truth)),
        ColumnKind::Text => Cell::Text(text.to_owned().into()),
    }
}
