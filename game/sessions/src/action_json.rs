//! An action as one line of JSON, as other programs send it.

use sim_core::session::action::Action;

/// The action that a line of JSON asks for.
///
/// # Errors
///
/// What is wrong with the line, and what an action looks like.
pub fn action_from_json(line: &str) -> Result<Action, String> {
    serde_json::from_str(line).map_err(|error| {
        // There is one line only, and a script counts its own.
        let what = error.to_string();
        let what = what.split(" at line ").next().unwrap_or_default();
        let column = error.column();
        format!(
            "this is not an action (at column {column}): {what}; write an action as \
             \"open_lid\" or {{\"turn_knob\":{{\"opening\":0.5}}}}"
        )
    })
}
