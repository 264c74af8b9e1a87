//! What two quite different pairs of hands can both do.

use std::path::Path;

use window::ui::told::Told;

use super::screen::{SAYS, Screen, pause, said};

/// Hands on the bench.
pub trait Hands {
    /// The screen that they work on.
    fn screen(&mut self) -> &mut Screen;
    /// Begins the scenario with a title.
    fn begin(&mut self, title: &str);
    /// Does something to a thing, in the words of the hand card.
    fn act(&mut self, thing: &str, words: &str);
    /// Does what has to be asked for twice.
    fn confirm(&mut self, thing: &str, words: &str);
    /// Carries a part from where it lies to the thing that stands for its place.
    fn carry(&mut self, carry: &Carry);
    /// Reads a thing and what follows it in a row of the book, and writes each value into its field. A value
    /// is asked for, by its place in the row, while its instrument is under the loupe.
    fn write_row(
        &mut self,
        thing: &str,
        fields: &[String],
        value: &mut dyn FnMut(&mut dyn Hands, usize) -> String,
    );
    /// Has the calculations done and written into the blanks.
    fn calculate(&mut self);
    /// Turns a thing by so many coarse steps.
    fn turn(&mut self, thing: &str, steps: i32);
    /// Presses a button.
    fn press(&mut self, label: &str);
    /// Writes a text into a field of the open page.
    fn write(&mut self, field: &str, text: &str);
}

/// On the button of the help that does the calculations.
pub const CALCULATE: &str = "do the calculations";

/// Carrying something somewhere.
pub struct Carry {
    /// The part.
    pub part: &'static str,
    /// Taking it, in words.
    pub take: &'static str,
    /// The thing that stands for the place.
    pub place: &'static str,
    /// Putting it there, in words.
    pub put: &'static str,
    /// The middle of the place in the scene, 1120 wide and 780 high.
    pub at: (f32, f32),
}

/// The thing with a label, if it is seen.
pub fn seen<'a>(told: &'a [Told], label: &str) -> Option<&'a Told> {
    told.iter().find(|one| one.label == label && one.seen.is_some())
}

/// The hand card's button for something, in its words: its label.
pub fn offered(told: &[Told], words: &str) -> Option<String> {
    let button = told.iter().find(|one| {
        one.label.split_once(": ").is_some_and(|(key, said)| {
            said == words && key.len() == 1 && key.chars().all(|c| c.is_ascii_digit())
        })
    });
    button.map(|one| one.label.clone())
}

/// How many acts stand in a journal.
fn acts(journal: &Path) -> usize {
    let text = std::fs::read_to_string(journal).unwrap_or_default();
    text.lines().filter(|line| line.contains(" Act(")).count()
}

/// How many acts stand in the journal, once none comes any more: a click on a thing looks at it
/// first.
pub fn lines(screen: &Screen) -> usize {
    let journal = screen.journal();
    loop {
        let count = acts(&journal);
        pause(150);
        if acts(&journal) == count {
            return count;
        }
    }
}

/// Why something cannot be done, if the bench says so: to a reader that is an alert.
fn refusal(told: &[Told]) -> String {
    let alert = told.iter().any(|one| one.label == SAYS && one.role == "Alert");
    if alert { said(told) } else { String::new() }
}

/// Waits until the journal has more acts than before: it is on disk before its effect shows.
pub fn wait_for_act(screen: &mut Screen, before: usize, what: &str) {
    let journal = screen.journal();
    let told = screen.wait_for(what, |told| acts(&journal) > before || !refusal(told).is_empty());
    let said = refusal(&told);
    assert!(said.is_empty(), "{what}: the bench says `{said}`");
}

/// Whether the journal has more acts than before, some seconds later at the latest.
pub fn act_comes(screen: &Screen, before: usize) -> bool {
    let journal = screen.journal();
    (0..60).any(|_| {
        pause(100);
        acts(&journal) > before || !refusal(&screen.told()).is_empty()
    })
}

/// The middle of what is seen of a thing, px of the screen.
pub fn middle(one: &Told) -> (i32, i32) {
    let [left, top, right, foot] = one.seen.expect("it is seen");
    (((left + right) / 2.0) as i32, ((top + foot) / 2.0) as i32)
}
