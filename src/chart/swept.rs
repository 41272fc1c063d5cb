//! What a sweep answers: one number against the first key that is varied, a line for each value of the others.

use super::running::own::{OwnChart, capital, words};
use super::running::{caution, from_nought};
use super::{Axis, LineChart, LineStyle, Rule, Series, Symbol};
use crate::balance::TRIM_FLOOR_DEG;
use crate::boat::Fault;
use crate::field::as_data;
use crate::flag::{Flag, Standing};
use crate::fleet::vary::Varied;
use crate::fleet::{Cell, Column, Value};

/// Lines that one chart still shows apart.
const MOST_LINES: usize = 12;
/// Name of the marks of points outside what was tested.
const UNTESTED: &str = "outside what was tested";
/// Marks of a kind at most, so that they do not hide the lines.
const MOST_MARKS: usize = 60;

/// Least spread of values, as a share of the largest, that an axis of its own shows.
const LEAST_SPREAD: f64 = 0.01;
/// Key of a speed that is varied.
const SPEED: &str = "run.speed";

/// Whether values all lie so far above nought that an axis from there would hide how they differ.
fn is_told_apart_by_its_own_scale([low, high]: [f64; 2]) -> bool {
    low > 0.5 * high && high - low > LEAST_SPREAD * high
}

/// A sweep with its answers.
#[derive(Clone, Copy, Debug)]
pub struct Swept<'a> {
    /// What the charts are about: boat, loading, planes.
    pub subtitle: &'a str,
    /// Whose equations it was computed with.
    pub model: &'a str,
    /// The keys that are varied; the first that is a number is drawn against.
    pub varied: &'a [Varied],
    /// The columns of the answers.
    pub columns: &'a [Column],
    /// The answers.
    pub rows: &'a [Vec<Cell>],
}

/// A chart for each of some columns of numbers.
///
/// # Errors
/// If no key with numbers is varied, or there would be more lines than a chart shows apart.
pub fn swept_charts(swept: &Swept<'_>, drawn: &[Column]) -> Result<Vec<OwnChart>, Fault> {
    let refused = |problem: &str, remedy: &str| Fault {
        key: "run.charts".to_owned(),
        problem: problem.to_owned(),
        remedy: remedy.to_owned(),
    };
    let is_number = |one: &&Varied| one.values.iter().all(|v| matches!(v, Value::Number(_)));
    let x = swept.varied.iter().find(is_number).ok_or_else(|| {
        refused("only words are varied, and nothing is drawn against words", "vary a number too")
    })?;
    let lines = swept.lines(x);
    if lines.len() > MOST_LINES {
        let problem = format!("the charts would have {} lines", lines.len());
        let remedy = format!(
            "vary less, or ask at fewer speeds and deflections: at most {MOST_LINES} lines"
        );
        return Err(refused(&problem, &remedy));
    }
    drawn.iter().map(|drawn| swept.chart(x, &lines, drawn)).collect()
}

/// Rows of the answers that make one line, and its name.
struct Line {
    name: String,
    rows: Vec<usize>,
}

impl Swept<'_> {
    fn place(&self, column: &str) -> Option<usize> {
        self.columns.iter().position(|known| known.name == column)
    }

    /// Columns whose values tell one line from another: the other keys, and what is asked at.
    fn telling(&self, x: &Varied) -> Vec<usize> {
        let others = self.varied.iter().filter(|one| one.key != x.key).map(Varied::heading);
        let mut places: Vec<usize> = others.filter_map(|heading| self.place(&heading)).collect();
        // They stand between what is kept and the outcome.
        let asked =
            self.place("outcome").map_or(0..0, |outcome| outcome.saturating_sub(2)..outcome);
        let is_x = |place: usize| x.key.strip_prefix("run.") == Some(&self.columns[place].key);
        let differs = |&place: &usize| {
            self.rows
                .iter()
                .any(|row| row[place] != self.rows[0][place] && row[place] != Cell::Empty)
        };
        places.extend(asked.filter(|&place| !is_x(place)).filter(differs));
        places
    }

    /// Whether planes come into it: down in a run, or sized.
    fn has_planes_down(&self) -> bool {
        let Some(place) = self.columns.iter().position(|column| column.key == "deflection") else {
            return true;
        };
        self.rows
            .iter()
            .any(|row| matches!(row[place], Cell::Number(deflection) if deflection > 0.0))
    }

    fn lines(&self, x: &Varied) -> Vec<Line> {
        let telling = self.telling(x);
        let mut lines: Vec<Line> = Vec::new();
        for (place, row) in self.rows.iter().enumerate() {
            // A row with a fault may not say at which speed: it is on no line.
            let name: Vec<String> =
                telling.iter().map(|&column| self.said(column, &row[column])).collect();
            let name = name.join(", ");
            match lines.iter_mut().find(|line| line.name == name) {
                Some(line) => line.rows.push(place),
                None => lines.push(Line { name, rows: vec![place] }),
            }
        }
        lines
    }

    /// A value with its unit: `400 mm`.
    fn said(&self, column: usize, cell: &Cell) -> String {
        let value = match cell {
            Cell::Number(number) => as_data(*number).to_string(),
            Cell::Text(text) => text.to_string(),
            _ => "none".to_owned(),
        };
        format!("{value} {}", self.columns[column].unit).trim_end().to_owned()
    }

    fn chart(&self, x: &Varied, lines: &[Line], drawn: &Column) -> Result<OwnChart, Fault> {
        let y_place = self.place(&drawn.name);
        let number = |row: usize, place: Option<usize>| match place.map(|p| &self.rows[row][p]) {
            Some(Cell::Number(number)) => *number,
            _ => f64::NAN,
        };
        let x_place = self.place(&x.heading());
        let point = |&row: &usize| (number(row, x_place), number(row, y_place));
        let mut series: Vec<Series> = lines
            .iter()
            .map(|line| Series::new(line.name.clone(), line.rows.iter().map(point).collect()))
            .collect();
        if let [only] = series.as_mut_slice() {
            only.label = words(&drawn.key);
        }
        let against = if x.key == SPEED { "Speed" } else { &x.key };
        let title = capital(&format!(
            "{} against {}",
            words(&drawn.key),
            against.replace("Speed", "speed")
        ));
        let mut axis = Axis::new(capital(&words(&drawn.key)), drawn.unit.clone());
        let values = || series.iter().flat_map(|line| &line.points).map(|point| point.1);
        let is_whole = values().all(f64::is_finite);
        let ends = values()
            .filter(|y| y.is_finite())
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], y| [low.min(y), high.max(y)]);
        if ends[0] >= 0.0 && !is_told_apart_by_its_own_scale(ends) {
            axis = from_nought(axis, &series);
        }
        let mut chart = LineChart::new(title, Axis::new(against, x.unit.clone()), axis);
        chart.subtitle = Some(self.subtitle.to_owned());
        let gap = if is_whole {
            ""
        } else {
            "A line has a gap where there is no balance or a row has a fault. "
        };
        chart.footnote = Some(format!("{gap}{}", caution(self.model, self.has_planes_down())));
        if drawn.key == "trim" {
            chart.floors.push(Rule::new("least safe trim, 2°", TRIM_FLOOR_DEG));
        }
        let marks = self.untested(lines, point);
        if !marks.is_empty() {
            let style = LineStyle { symbol: Some(Symbol::Cross), ..LineStyle::nth(series.len()) };
            series.push(Series::new(UNTESTED, marks).styled(style));
        }
        chart.series = series;
        let stem = format!("{}-against-{}", drawn.key, x.key).replace([' ', '_', '.'], "-");
        Ok(OwnChart { stem: stem.to_lowercase(), chart })
    }

    /// The points of which a flag says that they are outside what was tested, each by itself.
    fn untested(&self, lines: &[Line], point: impl Fn(&usize) -> (f64, f64)) -> Vec<(f64, f64)> {
        let Some(flags) = self.place("flags") else { return Vec::new() };
        let is_untested = |word: &str| {
            let flag = Flag::ALL.iter().find(|flag| flag.word() == word);
            flag.is_some_and(|flag| flag.standing() == Standing::Untested)
        };
        let has_one = |row: &&usize| match &self.rows[**row][flags] {
            Cell::Text(words) => words.split(' ').any(is_untested),
            _ => false,
        };
        let all: Vec<(f64, f64)> =
            lines.iter().flat_map(|line| &line.rows).filter(has_one).map(point).collect();
        let all: Vec<_> = all.into_iter().filter(|(_, y)| y.is_finite()).collect();
        let step = all.len().div_ceil(MOST_MARKS).max(1);
        // A missing value keeps each point by itself.
        all.into_iter().step_by(step).flat_map(|mark| [mark, (f64::NAN, f64::NAN)]).collect()
    }
}
