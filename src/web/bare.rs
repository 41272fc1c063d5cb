//! Refusals that are made before a request is understood: with the headers of every answer, and a reason.
//!
//! A head that is broken or too large is refused by the machinery below the page, in one short
//! write without a word. That write is replaced on its way out.

use std::io::{IoSlice, Result};
use std::pin::Pin;
use std::task::{Context, Poll, ready};

use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};

use super::guard::{HEADERS, POLICY};

/// Longest refusal of that kind; a head of an answer of the page is longer.
const LONGEST: usize = 256;
/// What begins it, and what is said instead of nothing.
const REFUSALS: [(&str, &str); 3] = [
    ("HTTP/1.1 400 ", "The request cannot be read."),
    ("HTTP/1.1 414 ", "The address is too long."),
    ("HTTP/1.1 431 ", "The head of the request is too large."),
];

/// A connection on which such refusals are replaced.
pub(super) struct Dressed<Io> {
    inner: Io,
    /// What is written instead, how much of it has been, and how much it stands for.
    instead: Option<(Vec<u8>, usize, usize)>,
}

impl<Io> Dressed<Io> {
    pub const fn new(inner: Io) -> Self {
        Self { inner, instead: None }
    }
}

/// The refusal with its headers and its reason; none for any other write.
fn dressed(write: &[u8]) -> Option<Vec<u8>> {
    let text = std::str::from_utf8(write).ok().filter(|text| text.len() <= LONGEST)?;
    let (_, why) = REFUSALS.iter().find(|(start, _)| text.starts_with(start))?;
    let head = text.strip_suffix("\r\n\r\n")?;
    let (first, fields) = head.split_once("\r\n")?;
    let is_bare = fields.lines().all(|line| {
        ["connection:", "content-length: 0", "date:"].iter().any(|field| line.starts_with(field))
    });
    if !is_bare {
        return None;
    }
    let mut answer = format!("{first}\r\nconnection: close\r\ncontent-type: text/plain\r\n");
    for (name, value) in HEADERS {
        answer.push_str(&format!("{name}: {value}\r\n"));
    }
    answer.push_str(&format!(
        "content-security-policy: {POLICY}\r\ncache-control: no-store\r\ncontent-length: {}\r\n\r\n{why}",
        why.len()
    ));
    Some(answer.into_bytes())
}

impl<Io: AsyncRead + Unpin> AsyncRead for Dressed<Io> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        buffer: &mut ReadBuf<'_>,
    ) -> Poll<Result<()>> {
        Pin::new(&mut self.inner).poll_read(context, buffer)
    }
}

impl<Io: AsyncWrite + Unpin> AsyncWrite for Dressed<Io> {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        write: &[u8],
    ) -> Poll<Result<usize>> {
        let this = &mut *self;
        if this.instead.is_none() {
            this.instead = dressed(write).map(|answer| (answer, 0, write.len()));
        }
        let Some((answer, done, stands_for)) = &mut this.instead else {
            return Pin::new(&mut this.inner).poll_write(context, write);
        };
        while *done < answer.len() {
            *done += ready!(Pin::new(&mut this.inner).poll_write(context, &answer[*done..]))?;
        }
        let stands_for = *stands_for;
        this.instead = None;
        Poll::Ready(Ok(stands_for))
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        writes: &[IoSlice<'_>],
    ) -> Poll<Result<usize>> {
        match writes {
            [one] => self.poll_write(context, one),
            _ => Pin::new(&mut self.inner).poll_write_vectored(context, writes),
        }
    }

    fn is_write_vectored(&self) -> bool {
        self.inner.is_write_vectored()
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<Result<()>> {
        Pin::new(&mut self.inner).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<Result<()>> {
        Pin::new(&mut self.inner).poll_shutdown(context)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_only_bare_refusals_are_replaced() {
        let bare = b"HTTP/1.1 431 Request Header Fields Too Large\r\nconnection: close\r\ncontent-length: 0\r\n\r\n";
        let answer = String::from_utf8(dressed(bare).unwrap()).unwrap();
        assert!(answer.contains("x-content-type-options: nosniff\r\n"), "{answer}");
        assert!(answer.ends_with("\r\n\r\nThe head of the request is too large."), "{answer}");
        for other in [
            &b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\n\r\n"[..],
            b"HTTP/1.1 400 Bad Request\r\nx-content-type-options: nosniff\r\ncontent-length: 0\r\n\r\n",
            b"HTTP/1.1 400 Bad Request\r\ncontent-length: 0\r\n",
            b"HTTP/1.1 400 in a boat file",
            b"\xff",
            b"",
        ] {
            assert_eq!(dressed(other), None, "{}", String::from_utf8_lossy(other));
        }
    }
}
