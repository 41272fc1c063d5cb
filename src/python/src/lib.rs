//! The library for Python: a boat and its answers, and tables of boats as Arrow.

mod boat;
mod error;
mod pool;
mod settings;
mod table;

use pyo3::prelude::*;

/// The compiled part of the package.
#[pymodule]
fn _planewright(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add("__version__", env!("CARGO_PKG_VERSION"))?;
    module.add("CAUTION", planewright::flag::CAUTION)?;
    module.add("DRAWS", planewright::doubt::DRAWS)?;
    module.add("FEWEST_DRAWS", planewright::doubt::FEWEST_DRAWS)?;
    module.add("MOST_DRAWS", planewright::schema::most::DRAWS)?;
    module.add("RUN_DRAWS", planewright::doubt::RUN_DRAWS)?;
    module.add("SEED", planewright::doubt::SEED)?;
    module.add_class::<boat::Boat>()?;
    module.add_function(wrap_pyfunction!(table::run_table, module)?)?;
    module.add_function(wrap_pyfunction!(table::size_table, module)?)?;
    module.add_function(wrap_pyfunction!(boat::flag_meanings, module)?)?;
    Ok(())
}
