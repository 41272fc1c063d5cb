//! What can be wrong with a stock list.

use std::fmt;

/// Lines that are named one by one; of more only the first and the last.
const MOST_NAMED: usize = 6;

/// One thing wrong with a stock list, in one line or alike in several.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowFault {
    /// Lines of the file, counted from 1, in order; at least one.
    pub lines: Vec<u64>,
    /// Column, where it is one column's fault.
    pub column: Option<&'static str>,
    /// What is wrong in the first of the lines, with the value.
    pub problem: String,
    /// What is allowed, and what to write instead.
    pub remedy: String,
}

impl RowFault {
    /// Puts faults of one kind together: those of the same column whose sentences differ in the values alone.
    #[must_use]
    pub(super) fn grouped(faults: Vec<Self>) -> Vec<Self> {
        let mut groups: Vec<Self> = Vec::new();
        for fault in faults {
            let alike = |group: &&mut Self| {
                group.column == fault.column
                    && without_values(&group.problem) == without_values(&fault.problem)
            };
            match groups.iter_mut().find(alike) {
                Some(group) => group.lines.extend(fault.lines),
                None => groups.push(fault),
            }
        }
        groups
    }

    /// `line 4`, `lines 4, 6 and 9`, `lines 4 to 15`, `12 lines from 4 to 30`.
    fn place(&self) -> String {
        match self.lines.as_slice() {
            [] => String::new(),
            [line] => format!("line {line}"),
            [first, last] => format!("lines {first} and {last}"),
            [first, .., last] if last - first + 1 == self.lines.len() as u64 => {
                format!("lines {first} to {last}")
            }
            [rest @ .., last] if self.lines.len() <= MOST_NAMED => {
                let rest: Vec<String> = rest.iter().map(u64::to_string).collect();
                format!("lines {} and {last}", rest.join(", "))
            }
            [first, .., last] => format!("{} lines from {first} to {last}", self.lines.len()),
        }
    }
}

/// A sentence without what stands in quotation marks.
fn without_values(sentence: &str) -> String {
    sentence.split('`').step_by(2).collect::<Vec<_>>().join("`")
}

impl fmt::Display for RowFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: ", self.place())?;
        if let Some(column) = self.column {
            write!(f, "{column}: ")?;
        }
        write!(f, "{}", self.problem)?;
        match self.lines.len() {
            0 | 1 => {}
            2 => write!(f, ", and alike in the other line")?,
            more => write!(f, ", and alike in {} more lines", more - 1)?,
        }
        write!(f, "; {}", self.remedy)
    }
}
