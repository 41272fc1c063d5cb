//! Threads that belong to this process: those of the process it was forked from are not there.

use std::sync::{Arc, Mutex, PoisonError};

use rayon::{ThreadPool, ThreadPoolBuilder};

/// The threads, and the process that they belong to.
static POOL: Mutex<Option<(u32, Arc<ThreadPool>)>> = Mutex::new(None);

/// Does some work on all cores, or as many as the variable RAYON_NUM_THREADS says.
pub fn on_all_cores<T: Send>(work: impl FnOnce() -> T + Send) -> T {
    pool().install(work)
}

fn pool() -> Arc<ThreadPool> {
    let own = std::process::id();
    let mut known = POOL.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((process, pool)) = known.as_ref()
        && *process == own
    {
        return pool.clone();
    }
    // Dropping the other one would wait for threads that were never forked.
    if let Some(other) = known.take() {
        std::mem::forget(other);
    }
    let pool = ThreadPoolBuilder::new().build().expect("a thread for each core");
    let pool = Arc::new(pool);
    *known = Some((own, pool.clone()));
    pool
}
