//! Reading the input of a session line by line.

use std::io::BufRead;

use crate::error::FrontEndError;

/// What was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InputLine {
    /// A line.
    Line,
    /// A line too long to be one, skipped.
    TooLong,
    /// Nothing more.
    End,
}

/// Longest line of input, bytes.
const LONGEST_LINE: usize = 64 * 1024;

/// Reads one line, whatever bytes it holds, without keeping more than a line's worth.
///
/// # Errors
///
/// When the input cannot be read.
pub fn read_line(input: &mut dyn BufRead, line: &mut String) -> Result<InputLine, FrontEndError> {
    let mut bytes = Vec::new();
    let mut too_long = false;
    loop {
        let chunk = input
            .fill_buf()
            .map_err(|error| FrontEndError::Wrong(format!("cannot read the input: {error}")))?;
        if chunk.is_empty() {
            if bytes.is_empty() && !too_long {
                return Ok(InputLine::End);
            }
            break;
        }
        let end = chunk.iter().position(|&byte| byte == b'\n');
        let taken = end.map_or(chunk.len(), |at| at + 1);
        if bytes.len() + taken > LONGEST_LINE {
            too_long = true;
            bytes.clear();
        } else if !too_long {
            bytes.extend_from_slice(chunk.get(..taken).unwrap_or_default());
        }
        input.consume(taken);
        if end.is_some() {
            break;
        }
    }
    if too_long {
        return Ok(InputLine::TooLong);
    }
    line.push_str(&String::from_utf8_lossy(&bytes));
    Ok(InputLine::Line)
}
