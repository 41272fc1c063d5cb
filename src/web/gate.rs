//! The gate for what takes a second or more: papers, and how sure they are.
//!
//! A few are computed at a time, on threads of their own, so that no drag waits for them; some
//! may wait their turn, and the rest are asked to come back. Whoever goes away while waiting
//! leaves the line, and nothing of his is begun.

use std::io;
use std::num::NonZero;
use std::sync::Arc;
use std::time::Duration;

use rayon::{ThreadPool, ThreadPoolBuilder};
use tokio::sync::{Semaphore, oneshot};

/// Requests that may be inside or in line; one more is sent away.
pub(super) const MOST_IN_LINE: usize = 12;
/// Longest wait for one's turn.
const PATIENCE: Duration = Duration::from_secs(40);

/// Why nothing was computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Turned {
    /// Too many are in line, or the line moves too slowly: worth another try.
    Busy,
    /// The program failed.
    Broken,
}

/// The gate with what works behind it.
pub(super) struct Gate {
    line: Semaphore,
    turns: Arc<Semaphore>,
    pool: ThreadPool,
}

impl Gate {
    /// A gate for this machine: one core stays free for the sliders.
    pub fn new() -> io::Result<Self> {
        let cores = std::thread::available_parallelism().map_or(2, NonZero::get);
        let pool = ThreadPoolBuilder::new()
            .num_threads((cores - 1).max(1))
            // Whoever waits for the answer sees that none comes.
            .panic_handler(|_| ())
            .build()
            .map_err(io::Error::other)?;
        let turns = Arc::new(Semaphore::new((cores / 4).max(1)));
        Ok(Self { line: Semaphore::new(MOST_IN_LINE), turns, pool })
    }

    /// Computes something when its turn comes. Work that has begun is finished, even if nobody waits for it any more.
    pub async fn through<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Result<T, Turned> {
        let _place = self.line.try_acquire().map_err(|_| Turned::Busy)?;
        let turn = tokio::time::timeout(PATIENCE, self.turns.clone().acquire_owned()).await;
        let turn = turn.map_err(|_| Turned::Busy)?.map_err(|_| Turned::Broken)?;
        let (tell, heard) = oneshot::channel();
        self.pool.spawn(move || {
            let _turn = turn;
            let _ = tell.send(work());
        });
        heard.await.map_err(|_| Turned::Broken)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering};

    fn runtime() -> tokio::runtime::Runtime {
        tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap()
    }

    /// Work that goes on until it is told to end.
    fn held() -> (std::sync::mpsc::Sender<()>, impl FnOnce() + Send + 'static) {
        let (end, ended) = std::sync::mpsc::channel();
        (end, move || {
            let _ = ended.recv();
        })
    }

    #[test]
    fn regression_whoever_goes_away_in_line_is_never_begun() {
        runtime().block_on(async {
            let gate = Arc::new(Gate::new().unwrap());
            let turns = gate.turns.available_permits();
            let mut ends = Vec::new();
            let mut inside = Vec::new();
            for _ in 0..turns {
                let (end, work) = held();
                ends.push(end);
                let gate = gate.clone();
                inside.push(tokio::spawn(async move { gate.through(work).await }));
            }
            tokio::task::yield_now().await;
            let begun = Arc::new(AtomicUsize::new(0));
            let (counted, waiting) = (begun.clone(), gate.clone());
            let gone = tokio::spawn(async move {
                waiting.through(move || counted.fetch_add(1, Ordering::SeqCst)).await
            });
            tokio::task::yield_now().await;
            gone.abort();
            assert!(gone.await.unwrap_err().is_cancelled());
            drop(ends);
            for each in inside {
                assert_eq!(each.await.unwrap(), Ok(()));
            }
            // The gate works on, and what was left in line was never done.
            assert_eq!(gate.through(|| 7).await, Ok(7));
            assert_eq!(begun.load(Ordering::SeqCst), 0);
        });
    }

    #[test]
    fn error_one_too_many_is_sent_away_at_once() {
        runtime().block_on(async {
            let gate = Arc::new(Gate::new().unwrap());
            let mut ends = Vec::new();
            let mut inside = Vec::new();
            for _ in 0..MOST_IN_LINE {
                let (end, work) = held();
                ends.push(end);
                let gate = gate.clone();
                inside.push(tokio::spawn(async move { gate.through(work).await }));
            }
            tokio::task::yield_now().await;
            assert_eq!(gate.through(|| ()).await, Err(Turned::Busy));
            drop(ends);
            for each in inside {
                assert_eq!(each.await.unwrap(), Ok(()));
            }
            assert_eq!(gate.through(|| ()).await, Ok(()));
        });
    }

    #[test]
    fn error_work_that_fails_gives_its_turn_back() {
        runtime().block_on(async {
            let gate = Gate::new().unwrap();
            for _ in 0..3 {
                let failed = gate.through(|| assert!(std::hint::black_box(false), "on purpose"));
                assert_eq!(failed.await, Err(Turned::Broken));
            }
            assert_eq!(gate.through(|| 1).await, Ok(1));
        });
    }
}
