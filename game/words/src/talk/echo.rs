//! What is said back about what was done: entries, reports, and things that change nothing to be
//! seen.

use sim_core::field_book::{Field, PointNumber, number_as_written};
use sim_core::session::action::{Action, Response, Sight, Struck};
use sim_core::session::view::View;
use sim_core::time::Date;

use crate::field_names::field_name;
use crate::printable::printable;
use crate::prose::capital;
use crate::say::say_action;

/// What is said back of an action, when nothing else tells that it was done.
pub(super) fn echo(action: &Action) -> String {
    match action {
        Action::Write { field, text } => entry(*field, text),
        Action::Report(remark) => {
            let place = remark.place.words();
            let response = match remark.response {
                Response::Repaired => "repaired",
                Response::Corrected => "corrected",
                Response::Rejected => {
                    "rejected. There is no spare in the case: if the work cannot continue without \
                     it, put everything back, write the decision, and sign"
                }
                Response::Noted => "noted",
            };
            format!("Reported: {place}, {}, {response}.", printable(&remark.words()))
        }
        Action::Decide { decision, reason } => entry(decision.field(), &decision.entry(reason)),
        Action::Strike { what } => {
            let what = match what {
                Struck::Point(number) => format!("point {}", number.number()),
                Struck::Field(field) => field_name(*field),
            };
            format!(
                "Struck out: {what}. It stays legible; what you write there now is a new reading."
            )
        }
        Action::Tap => "You tap the recorder's case.".to_owned(),
        Action::BlowThrough => "You blow gently into the tube's end.".to_owned(),
        Action::ChangeFluid { to } => format!(
            "In the van you empty the manometer, let it thaw, and fill it with {} to about its mark. The \
             bottle gives its relative density as {:.2}.",
            to.words(),
            to.relative_density()
        ),
        Action::FitGasket { .. } => "The spare gasket is fitted.".to_owned(),
        Action::FitChart => "A fresh chart is on, with the present hour under the pen.".to_owned(),
        Action::Wait { .. } => "You notice no change.".to_owned(),
        action => format!("Done: {}.", printable(&say_action(action))),
    }
}

/// What is said of a mark on the chart that the pen itself could not make.
pub(super) fn pencilled(action: &Action, view: &View) -> Option<&'static str> {
    (matches!(action, Action::MarkChart { .. }) && view.recorder.leaves_ink == Some(false))
        .then_some("The pen leaves no ink on the paper: you make the mark with a pencil.")
}

/// Several actions of one sentence in one line: the entries of a point, or taps.
pub(super) fn together(actions: &[Action]) -> Option<String> {
    if let [Action::Tap, .., Action::Tap] = actions {
        return Some(format!("You tap the recorder's case {} times.", actions.len()));
    }
    let mut number: Option<PointNumber> = None;
    let mut said = Vec::new();
    let mut doubts = Vec::new();
    for action in actions {
        let Action::Write { field, text } = action else { return None };
        let (point, name) = match field {
            Field::Up(point) => (*point, "up"),
            Field::Down(point) => (*point, "down"),
            Field::Chart(point) => (*point, "chart"),
            _ => return None,
        };
        number = Some(point);
        said.push(format!("{name} {}", printable(text)));
        doubts.extend(doubt(*field, text));
    }
    let number = number.filter(|_| said.len() > 1)?.number();
    let mut lines = vec![format!("Point {number}: {}.", said.join(", "))];
    lines.extend(doubts);
    Some(lines.join("\n"))
}

/// An entry as it stands now, and what is odd about it.
fn entry(field: Field, text: &str) -> String {
    let name = field_name(field);
    let written = format!("{}: {}", capital(&name), printable(text));
    match doubt(field, text) {
        Some(doubt) => format!("{written}\n{doubt}"),
        None => written,
    }
}

/// What is odd about an entry, which stays as it was written.
fn doubt(field: Field, text: &str) -> Option<String> {
    let shown = printable(text);
    match field {
        Field::CertificateDate => Date::try_from(text.trim().to_owned()).is_err().then(|| {
            format!("`{shown}` is not a date: write it like 2026-03-17. It stays as you wrote it.")
        }),
        field if field.is_words() => None,
        _ => number_as_written(text).is_err().then(|| {
            format!("`{shown}` is not a number: write it in digits. It stays as you wrote it.")
        }),
    }
}

/// Which readings are older than the last change of the flow.
#[derive(Debug, Default, Clone, Copy)]
pub(super) struct Stale {
    left: bool,
    right: bool,
    pen: bool,
}

impl Stale {
    /// Takes note of an action.
    pub fn after(&mut self, action: &Action) {
        match action {
            Action::Look { at: Sight::LeftLeg, .. } => self.left = false,
            Action::Look { at: Sight::RightLeg, .. } => self.right = false,
            Action::Look { at: Sight::Display, .. } => (self.left, self.right) = (false, false),
            Action::Look { at: Sight::Pen, .. } => self.pen = false,
            Action::TurnKnob { .. }
            | Action::TakeOutPlate
            | Action::PutInPlate { .. }
            | Action::BlockOpenings
            | Action::FreeOpenings
            | Action::SwitchLine { .. }
            | Action::SwitchTimer { .. }
            | Action::PlugBlower { .. }
            | Action::PlugSampler
            | Action::UnplugSampler
            | Action::TurnTrim { .. } => *self = Self { left: true, right: true, pen: true },
            _ => {}
        }
    }

    /// What is to be said about an entry.
    pub fn note(self, action: &Action) -> Option<&'static str> {
        match action {
            Action::Write { field: Field::Chart(_), .. } if self.pen => {
                Some("Note: the flow has changed since you last looked at the pen.")
            }
            Action::Write { field: Field::Up(_) | Field::Down(_) | Field::DeltaH(_), .. }
                if self.left || self.right =>
            {
                Some("Note: the flow has changed since you last looked at the manometer.")
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sim_core::session::action::{FaultKind, FaultPlace, FaultReport, SuspectedCause};

    #[test]
    fn entries_and_reports_are_said_back() {
        let write = |field, text: &str| Action::Write { field, text: text.to_owned() };
        assert_eq!(echo(&write(Field::Temperature, "11.5")), "Temperature, C: 11.5");
        let odd = echo(&write(Field::Temperature, "cold"));
        assert!(
            odd.ends_with("`cold` is not a number: write it in digits. It stays as you wrote it.")
        );
        assert!(echo(&write(Field::CertificateDate, "March")).contains("not a date"));
        let two = PointNumber::try_from(2).expect("it is so");
        let point = [
            write(Field::Up(two), "3.00"),
            write(Field::Down(two), "2.95"),
            write(Field::Chart(two), "53.5"),
        ];
        assert_eq!(together(&point).expect("it is so"), "Point 2: up 3.00, down 2.95, chart 53.5.");
        assert_eq!(together(&point[..1]), None);
        let remark = FaultReport {
            place: FaultPlace::Mounting,
            cause: SuspectedCause::Known(FaultKind::CalibratorGasketMissing),
            seen: "the flange is bare".to_owned(),
            shown_by: Vec::new(),
            response: Response::Repaired,
        };
        assert_eq!(
            echo(&Action::Report(remark)),
            "Reported: mounting, no gasket under the calibrator: the flange is bare, repaired."
        );
    }

    #[test]
    fn an_entry_older_than_the_flow_is_questioned() {
        let one = PointNumber::try_from(1).expect("it is so");
        let write = Action::Write { field: Field::Chart(one), text: "47".to_owned() };
        let mut stale = Stale::default();
        assert_eq!(stale.note(&write), None);
        stale.after(&Action::TurnKnob { opening: 0.5 });
        assert!(stale.note(&write).is_some());
        stale.after(&Action::Look { at: Sight::LeftLeg, eye_mm: 0.0 });
        assert!(stale.note(&write).is_some());
        stale.after(&Action::Look { at: Sight::Pen, eye_mm: 0.0 });
        assert_eq!(stale.note(&write), None);
    }
}
