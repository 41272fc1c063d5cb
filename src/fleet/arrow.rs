//! Tables as Arrow arrays: the rows of a batch, and the batch of some answers.

use std::sync::Arc;

use arrow_array::cast::AsArray;
use arrow_array::types::{
    Float32Type, Float64Type, Int8Type, Int16Type, Int32Type, Int64Type, UInt8Type, UInt16Type,
    UInt32Type, UInt64Type,
};
use arrow_array::{
    Array, ArrayRef, ArrowPrimitiveType, BooleanArray, Float64Array, Int64Array, RecordBatch,
    StringArray, UInt64Array,
};
use arrow_schema::{DataType, Field, Schema, SchemaRef};
use arrow_select::take::take;

use super::columns::{Heading, Use};
use super::{Cell, Column, ColumnKind, Fleet, Line, Value};
use crate::boat::Fault;

/// Rows whose answers are put into one batch.
const ROWS_IN_A_BATCH: usize = 8192;

/// The rows of a batch.
///
/// # Errors
/// If a column is of a type that holds neither numbers nor words.
pub fn lines(batch: &RecordBatch) -> Result<Vec<Line>, Fault> {
    lines_with(batch, |_| true)
}

/// The same of the columns that are read; the others are empty.
fn lines_with(batch: &RecordBatch, is_read: impl Fn(usize) -> bool) -> Result<Vec<Line>, Fault> {
    let fields = batch.schema();
    let columns = fields.fields().iter().zip(batch.columns()).enumerate();
    let read = columns.map(|(place, (field, array))| {
        if !is_read(place) {
            return Ok(vec![Value::Empty; batch.num_rows()]);
        }
        values(array.as_ref()).ok_or_else(|| Fault {
            key: "table".to_owned(),
            problem: format!("the column `{}` is of the type {}", field.name(), array.data_type()),
            remedy: "make it one of numbers (float64) or of words (string)".to_owned(),
        })
    });
    let read: Vec<Vec<Value>> = read.collect::<Result<_, _>>()?;
    let mut columns: Vec<_> = read.into_iter().map(Vec::into_iter).collect();
    let row = |_| Ok(columns.iter_mut().map(|c| c.next().unwrap_or(Value::Empty)).collect());
    Ok((0..batch.num_rows()).map(row).collect())
}

/// The values of a column of numbers.
fn numbers<T: ArrowPrimitiveType>(array: &dyn Array, plain: fn(T::Native) -> f64) -> Vec<Value> {
    let value = |x: Option<T::Native>| x.map_or(Value::Empty, |x| Value::Number(plain(x)));
    array.as_primitive::<T>().iter().map(value).collect()
}

/// The values of a column; none where it is of another type.
// Counts beyond 2^53 are no quantity of a boat.
#[allow(clippy::cast_precision_loss)]
fn values(array: &dyn Array) -> Option<Vec<Value>> {
    let text =
        |value: Option<&str>| value.map_or(Value::Empty, |text| Value::Text(text.to_owned()));
    Some(match array.data_type() {
        DataType::Null => vec![Value::Empty; array.len()],
        DataType::Float64 => numbers::<Float64Type>(array, |x| x),
        DataType::Float32 => numbers::<Float32Type>(array, f64::from),
        DataType::Int8 => numbers::<Int8Type>(array, f64::from),
        DataType::Int16 => numbers::<Int16Type>(array, f64::from),
        DataType::Int32 => numbers::<Int32Type>(array, f64::from),
        DataType::Int64 => numbers::<Int64Type>(array, |x| x as f64),
        DataType::UInt8 => numbers::<UInt8Type>(array, f64::from),
        DataType::UInt16 => numbers::<UInt16Type>(array, f64::from),
        DataType::UInt32 => numbers::<UInt32Type>(array, f64::from),
        DataType::UInt64 => numbers::<UInt64Type>(array, |x| x as f64),
        DataType::Utf8 => array.as_string::<i32>().iter().map(text).collect(),
        DataType::LargeUtf8 => array.as_string::<i64>().iter().map(text).collect(),
        DataType::Utf8View => array.as_string_view().iter().map(text).collect(),
        DataType::Dictionary(..) => {
            let dictionary = array.as_any_dictionary();
            let words = values(dictionary.values().as_ref())?;
            let keys = dictionary.normalized_keys();
            let keyed = |(place, key): (usize, &usize)| match array.is_null(place) {
                true => Value::Empty,
                false => words.get(*key).cloned().unwrap_or(Value::Empty),
            };
            keys.iter().enumerate().map(keyed).collect()
        }
        _ => return None,
    })
}

/// The schema of some columns of answers; every one may be empty but the first, the number of the row.
#[must_use]
pub fn schema(columns: &[Column]) -> SchemaRef {
    let field = |(place, column): (usize, &Column)| {
        let kind = match column.kind {
            ColumnKind::Whole => DataType::Int64,
            ColumnKind::Number => DataType::Float64,
            ColumnKind::Text => DataType::Utf8,
            ColumnKind::Truth => DataType::Boolean,
        };
        let unit = (!column.unit.is_empty()).then(|| ("unit".to_owned(), column.unit.clone()));
        Field::new(&column.name, kind, place > 0).with_metadata(unit.into_iter().collect())
    };
    Arc::new(Schema::new(columns.iter().enumerate().map(field).collect::<Vec<_>>()))
}

/// Answers as a batch of the schema of their columns.
///
/// # Panics
/// If a row has not these columns.
#[must_use]
pub fn batch(columns: &[Column], schema: &SchemaRef, rows: &[Vec<Cell>]) -> RecordBatch {
    let arrays = columns.iter().enumerate().map(|(place, column)| -> ArrayRef {
        let cells = rows.iter().map(|row| &row[place]);
        match column.kind {
            ColumnKind::Whole => Arc::new(Int64Array::from_iter(cells.map(|cell| match cell {
                Cell::Whole(count) => i64::try_from(*count).ok(),
                _ => None,
            }))),
            ColumnKind::Number => Arc::new(Float64Array::from_iter(cells.map(|cell| match cell {
                Cell::Number(number) => Some(*number),
                _ => None,
            }))),
            ColumnKind::Text => Arc::new(StringArray::from_iter(cells.map(|cell| match cell {
                Cell::Text(text) => Some(text.as_ref()),
                _ => None,
            }))),
            ColumnKind::Truth => Arc::new(BooleanArray::from_iter(cells.map(|cell| match cell {
                Cell::Truth(truth) => Some(*truth),
                _ => None,
            }))),
        }
    });
    RecordBatch::try_new(schema.clone(), arrays.collect()).expect("columns as the schema has them")
}

impl Fleet {
    /// The schema of the answers about rows of a schema: what is kept has the type that it has there.
    #[must_use]
    pub fn schema(&self, of: &Schema) -> SchemaRef {
        let own = schema(self.columns());
        let kept = self.kept().map(|place| Arc::new(of.field(place).clone().with_nullable(true)));
        let all = own.fields().iter().take(1).cloned().chain(kept);
        let rest = own.fields().iter().skip(1 + self.kept().count()).cloned();
        Arc::new(Schema::new(all.chain(rest).collect::<Vec<_>>()))
    }

    /// The answers of the rows of a batch, the first of which has this number, as batches.
    ///
    /// # Errors
    /// If a column that is a key of a boat file holds neither numbers nor words.
    ///
    /// # Panics
    /// If the columns of the batch are not those that the question was made ready for.
    pub fn batches(&self, first: u64, rows: &RecordBatch) -> Result<Vec<RecordBatch>, Fault> {
        let schema = self.schema(&rows.schema());
        let lines = self.lines_of(rows)?;
        let numbered = (first..).step_by(ROWS_IN_A_BATCH).zip(lines.chunks(ROWS_IN_A_BATCH));
        let one = |(begin, lines)| {
            let answers = self.answers(begin, lines);
            let own = batch(self.columns(), &self::schema(self.columns()), &answers);
            let places = answers.iter().map(|row| match row[0] {
                Cell::Whole(number) => Some(number - first),
                _ => None,
            });
            let places = UInt64Array::from_iter(places);
            let mut columns = own.columns().to_vec();
            for (column, place) in columns.iter_mut().skip(1).zip(self.kept()) {
                *column = take(rows.column(place), &places, None).expect("rows of the batch");
            }
            RecordBatch::try_new(schema.clone(), columns).expect("columns as the schema has them")
        };
        Ok(numbered.map(one).collect())
    }

    /// Places of the columns that are kept.
    fn kept(&self) -> impl Iterator<Item = usize> + '_ {
        let all = self.headings.iter().enumerate();
        all.filter(|(_, heading)| heading.is_kept).map(|(place, _)| place)
    }

    /// The rows of a batch; what is only kept is not read.
    fn lines_of(&self, rows: &RecordBatch) -> Result<Vec<Line>, Fault> {
        let is_read = |heading: &Heading| !matches!(heading.used, Use::Nothing);
        lines_with(rows, |place| is_read(&self.headings[place]))
    }
}
