//! What can be wrong with a stock list.

use std::fmt;

/// One thing wrong with a stock list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowFault {
    /// Line of the file, counted from 1.
    pub line: u64,
    /// Column, where it is one column's fault.
    pub column: Option<&'static str>,
    /// What is wrong, with the value.
    pub problem: String,
    /// What is allowed, and what to write instead.
    pub remedy: String,
}

impl fmt::Display for RowFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: ", self.line)?;
        if let Some(column) = self.column {
            write!(f, "{column}: ")?;
        }
        write!(f, "{}; {}", self.problem, self.remedy)
    }
}
