//! The standard output as commands see it.

use std::io::{self, Write};

use sessions::printable_lines;

/// So many bytes wait at most before they are handed over.
const MOST_HELD: usize = 64 * 1024;

/// Takes what a command has to say, makes it safe for a terminal, and hands it over in large pieces.
///
/// Writing never fails. A command therefore does its work to the end and knows its answer even when
/// the reader has gone away or the disk is full. [`flush`](Write::flush) says whether everything
/// arrived: a command that waits for an answer to what it said calls it after each thing said, and
/// `main` calls it at the end.
#[derive(Debug)]
pub struct Output<W: Write> {
    to: W,
    held: Vec<u8>,
    failed: Option<io::Error>,
}

impl<W: Write> Output<W> {
    /// An output that hands everything over to `to`.
    pub const fn new(to: W) -> Self {
        Self { to, held: Vec::new(), failed: None }
    }

    /// Hands over what is held, except the beginning of a character of which the rest is to come.
    fn hand_over(&mut self) {
        let whole = match std::str::from_utf8(&self.held) {
            Ok(text) => text.len(),
            Err(error) if error.error_len().is_none() => error.valid_up_to(),
            // Nothing here writes anything but text; if it did, it would be shown as far as it is text.
            Err(_) => self.held.len(),
        };
        let rest = self.held.split_off(whole);
        let whole = std::mem::replace(&mut self.held, rest);
        if self.failed.is_none() {
            let text = String::from_utf8_lossy(&whole);
            self.failed = self.to.write_all(printable_lines(&text).as_bytes()).err();
        }
    }
}

impl<W: Write> Write for Output<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.held.extend_from_slice(bytes);
        if self.held.len() >= MOST_HELD {
            self.hand_over();
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.hand_over();
        if self.failed.is_none() {
            self.failed = self.to.flush().err();
        }
        match &self.failed {
            None => Ok(()),
            // It is said every time: what got lost stays lost.
            Some(error) => Err(match error.raw_os_error() {
                Some(code) => io::Error::from_raw_os_error(code),
                None => io::Error::new(error.kind(), error.to_string()),
            }),
        }
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use std::io::{self, Write};

    use super::{MOST_HELD, Output};

    /// Takes so many bytes and then no more.
    struct Room(usize);

    impl Write for Room {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            let taken = bytes.len().min(self.0);
            self.0 -= taken;
            if taken == 0 { Err(io::ErrorKind::BrokenPipe.into()) } else { Ok(taken) }
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn a_command_is_not_stopped_by_an_output_that_fails_and_its_end_says_so() {
        let mut out = Output::new(Room(3));
        for _ in 0..3 {
            out.write_all(&[b'x'; MOST_HELD]).unwrap();
        }
        for _ in 0..2 {
            assert_eq!(out.flush().unwrap_err().kind(), io::ErrorKind::BrokenPipe);
        }
        assert!(out.held.is_empty(), "what cannot be delivered is not kept");
    }

    #[test]
    fn what_is_said_arrives_safe_to_print() {
        let mut arrived = Vec::new();
        let mut out = Output::new(&mut arrived);
        let title = "title\u{202e}";
        write!(out, "{title}\u{1b}[2J ½ ").unwrap();
        // A character may come in two pieces.
        let (first, second) = "½\n".as_bytes().split_at(1);
        out.write_all(first).unwrap();
        out.flush().unwrap();
        out.write_all(second).unwrap();
        out.flush().unwrap();
        assert_eq!(String::from_utf8(arrived).unwrap(), "title\\u{202e}\\u{1b}[2J ½ ½\n");
    }
}
