//! The stock list: planes on the shelf, with their actuators, and what each can do on a boat.
//!
//! [`read_stock`] reads a list; [`assess()`] looks at one part on one boat,
//! and [`rank()`] puts the whole shelf in order for it.

pub mod assess;
pub mod columns;
pub mod compare;
mod convert;
mod loads;
pub mod part;
pub mod rank;
mod read;
mod row;
mod starter;

pub use assess::{Assessment, assess};
pub use columns::COLUMNS;
pub use loads::{LoadsAsked, PartLoads, PlaneLoads, Planes, StrokeRow};
pub use part::{BracketScrews, Gear, HingeScrews, Part, Price, Spacing, Supply};
pub use rank::{Judged, JudgedGear, Ranked, Ranking, Shelf, Standing, rank, rank_for};
pub use read::{StockList, parse_stock, read_stock, text_of_list};
pub use row::RowFault;
pub use starter::starter_stock;
