//! The body of a request, read within its limits and within those of all bodies together.

use std::future::poll_fn;
use std::pin::Pin;
use std::sync::Arc;
use std::time::Duration;

use axum::body::{Body, HttpBody};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};

/// Largest body of a request: a boat file and a stock list, each of at most 1 MiB, and what packing adds.
pub(super) const LARGEST_BODY_BYTES: usize = 4 << 20;
/// Most bytes of all bodies that are being read or answered.
const MOST_BYTES_IN_FLIGHT: usize = 32 << 20;
/// Time that a body may take to arrive.
const BODY_TIME: Duration = Duration::from_secs(15);

/// Room for bodies in flight.
#[derive(Clone, Debug)]
pub(super) struct Room(Arc<Semaphore>);

/// Why a body was not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unread {
    /// It is larger than any that is taken.
    TooLarge,
    /// It took too long.
    TooSlow,
    /// It broke off, or is not what its head says.
    Broken,
    /// Others fill the room: worth another try.
    Full,
}

/// A body that was read, with the room that it takes until it is answered.
pub(super) struct Held {
    pub bytes: Vec<u8>,
    _room: Option<OwnedSemaphorePermit>,
}

impl Room {
    pub fn new() -> Self {
        Self(Arc::new(Semaphore::new(MOST_BYTES_IN_FLIGHT)))
    }

    /// The whole body; room is taken as it arrives, so that a length that is only announced takes none.
    pub async fn read(&self, body: Body) -> Result<Held, Unread> {
        tokio::time::timeout(BODY_TIME, self.whole(body)).await.unwrap_or(Err(Unread::TooSlow))
    }

    async fn whole(&self, mut body: Body) -> Result<Held, Unread> {
        let mut held = Held { bytes: Vec::new(), _room: None };
        while let Some(frame) = poll_fn(|context| Pin::new(&mut body).poll_frame(context)).await {
            let frame = frame.map_err(|_| Unread::Broken)?;
            let Ok(data) = frame.into_data() else { continue };
            if data.is_empty() {
                continue;
            }
            if held.bytes.len() + data.len() > LARGEST_BODY_BYTES {
                return Err(Unread::TooLarge);
            }
            let count = u32::try_from(data.len()).map_err(|_| Unread::TooLarge)?;
            let room = self.0.clone().try_acquire_many_owned(count).map_err(|_| Unread::Full)?;
            match &mut held._room {
                Some(all) => all.merge(room),
                none => *none = Some(room),
            }
            held.bytes.extend_from_slice(&data);
        }
        Ok(held)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn runtime() -> tokio::runtime::Runtime {
        tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap()
    }

    #[test]
    fn error_bodies_beyond_the_room_for_all_are_sent_away_and_room_comes_back() {
        runtime().block_on(async {
            let room = Room::new();
            let whole = || Body::from(vec![b'a'; LARGEST_BODY_BYTES]);
            let mut held = Vec::new();
            for _ in 0..MOST_BYTES_IN_FLIGHT / LARGEST_BODY_BYTES {
                held.push(room.read(whole()).await.ok().unwrap());
            }
            assert_eq!(room.read(Body::from("a")).await.err(), Some(Unread::Full));
            assert!(room.read(Body::empty()).await.is_ok());
            held.pop();
            assert_eq!(room.read(whole()).await.ok().unwrap().bytes.len(), LARGEST_BODY_BYTES);
        });
    }

    #[test]
    fn error_a_body_over_its_limit_keeps_no_room() {
        runtime().block_on(async {
            let room = Room::new();
            let before = room.0.available_permits();
            let large = Body::from(vec![b'a'; LARGEST_BODY_BYTES + 1]);
            assert_eq!(room.read(large).await.err(), Some(Unread::TooLarge));
            assert_eq!(room.0.available_permits(), before);
        });
    }
}
