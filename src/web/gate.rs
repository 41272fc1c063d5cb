//! The gates for what takes a second or more: boats brought to the desk, and papers.
//!
//! A few are computed at a time, on threads of their own, so that no drag waits for them; some
//! may wait their turn, and the rest are asked to come back. Whoever goes away while waiting
//! leaves the line, and nothing of his is begun; of what has begun for him nothing more is computed.

use std::io;
use std::num::NonZero;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
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

/// One gate for boats, one for papers: whoever opens a boat does not wait for the papers of another.
pub(super) struct Gates {
    pub boats: Gate,
    pub papers: Gate,
}

impl Gates {
    /// Gates for this machine.
    pub fn new() -> io::Result<Self> {
        Ok(Self { boats: Gate::new()?, papers: Gate::new()? })
    }
}

/// Whether anybody still waits for an answer.
#[derive(Clone, Debug, Default)]
pub(super) struct Waiting(Arc<AtomicBool>);

/// Unwinds work that nobody waits for.
struct Nobody;

impl Waiting {
    /// To be called now and then by whatever works: ends it once nobody waits for it any more.
    pub fn go_on(&self) {
        if self.0.load(Ordering::Relaxed) {
            std::panic::resume_unwind(Box::new(Nobody));
        }
    }
}

/// Says that nobody waits any more, when whoever waited is gone.
struct Waits(Waiting);

impl Drop for Waits {
    fn drop(&mut self) {
        self.0.0.store(true, Ordering::Relaxed);
    }
}

/// A gate with what works behind it.
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

    /// Computes something when its turn comes. Work that has begun ends where it next asks whether it is wanted.
    pub async fn through<T: Send + 'static>(
        &self,
        work: impl FnOnce(&Waiting) -> T + Send + 'static,
    ) -> Result<T, Turned> {
        let _place = self.line.try_acquire().map_err(|_| Turned::Busy)?;
        let turn = tokio::time::timeout(PATIENCE, self.turns.clone().acquire_owned()).await;
        let turn = turn.map_err(|_| Turned::Busy)?.map_err(|_| Turned::Broken)?;
        let (tell, heard) = oneshot::channel();
        let waiting = Waiting::default();
        let _waits = Waits(waiting.clone());
        self.pool.spawn(move || {
            let _turn = turn;
            let _ = tell.send(work(&waiting));
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
    fn held() -> (std::sync::mpsc::Sender<()>, impl FnOnce(&Waiting) + Send + 'static) {
        let (end, ended) = std::sync::mpsc::channel();
        (end, move |_: &Waiting| {
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
                waiting.through(move |_| counted.fetch_add(1, Ordering::SeqCst)).await
            });
            tokio::task::yield_now().await;
            gone.abort();
            assert!(gone.await.unwrap_err().is_cancelled());
            drop(ends);
            for each in inside {
                assert_eq!(each.await.unwrap(), Ok(()));
            }
            // The gate works on, and what was left in line was never done.
            assert_eq!(gate.through(|_| 7).await, Ok(7));
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
            assert_eq!(gate.through(|_| ()).await, Err(Turned::Busy));
            drop(ends);
            for each in inside {
                assert_eq!(each.await.unwrap(), Ok(()));
            }
            assert_eq!(gate.through(|_| ()).await, Ok(()));
        });
    }

    #[test]
    fn error_work_that_fails_gives_its_turn_back() {
        runtime().block_on(async {
            let gate = Gate::new().unwrap();
            for _ in 0..3 {
                let failed = gate.through(|_| assert!(std::hint::black_box(false), "on purpose"));
                assert_eq!(failed.await, Err(Turned::Broken));
            }
            assert_eq!(gate.through(|_| 1).await, Ok(1));
        });
    }

    #[test]
    fn regression_work_for_someone_who_goes_away_ends() {
        runtime().block_on(async {
            let gate = Arc::new(Gate::new().unwrap());
            let (begun, has_begun) = std::sync::mpsc::channel();
            let asked = gate.clone();
            let gone = tokio::spawn(async move {
                let endless = move |waiting: &Waiting| loop {
                    let _ = begun.send(());
                    waiting.go_on();
                    std::thread::sleep(Duration::from_millis(1));
                };
                asked.through::<()>(endless).await
            });
            tokio::task::yield_now().await;
            has_begun.recv_timeout(Duration::from_secs(20)).unwrap();
            gone.abort();
            assert!(gone.await.unwrap_err().is_cancelled());
            // Its turn is free again, though the work would have gone on for ever.
            assert_eq!(gate.through(|_| 1).await, Ok(1));
        });
    }
}
