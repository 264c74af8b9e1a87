//! Scenario files: what is accepted, what is refused, and with which words.
