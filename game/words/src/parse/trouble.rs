//! What stands against a sentence that fits a form.

/// Why a form that fits makes nothing.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Trouble {
    /// It does not fit after all.
    Misfit,
    /// It fits, and this is to be said about it.
    Say(String),
    /// It fits, this is to be said about it, and no other form is to be tried.
    Stop(String),
}

/// The sentence is understood and nothing else, but.
pub(super) fn stop<T>(text: impl Into<String>) -> Result<T, Trouble> {
    Err(Trouble::Stop(text.into()))
}

/// The sentence is understood, but.
pub(super) fn but<T>(text: impl Into<String>) -> Result<T, Trouble> {
    Err(Trouble::Say(text.into()))
}
