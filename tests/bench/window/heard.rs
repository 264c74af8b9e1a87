//! What somebody hears who works by a screen reader: how the tree is put together, what is announced, and
//! what the loupe tells with and without readings in words.

use accesskit::{Action as Asked, Role};
use sim_core::session::action::Action;

use super::harness::Bench;
use super::listener::{Heard, Listener};

const SIZE: (u32, u32) = (1280, 800);

/// What something lies in, of those that a reader comes to.
fn above(tree: &[Heard], index: usize) -> Option<&Heard> {
    let depth = tree[index].depth();
    tree[..index].iter().rev().find(|one| one.depth() < depth)
}

/// That everything with one of these roles lies in something with one of those.
fn lies_in(tree: &[Heard], inner: &[Role], outer: &[Role]) -> usize {
    let mut count = 0;
    for (index, one) in tree.iter().enumerate().filter(|(_, one)| inner.contains(&one.role)) {
        let holder = above(tree, index).map(|above| above.role);
        assert!(holder.is_some_and(|role| outer.contains(&role)), "{one:?} lies in {holder:?}");
        count += 1;
    }
    count
}

#[test]
fn tabs_tables_and_choices_lie_in_what_holds_them() {
    let mut person = Listener::at(Bench::at_work(SIZE, 100));
    person.click("points");
    let tree = person.tree();
    assert_eq!(lies_in(&tree, &[Role::Tab], &[Role::TabList]), 7);
    let chosen: Vec<&Heard> = tree.iter().filter(|one| one.chosen == Some(true)).collect();
    assert!(matches!(chosen[..], [one] if one.name == "points" && one.role == Role::Tab));
    assert!(lies_in(&tree, &[Role::Row], &[Role::Table]) > 7);
    let cells = [Role::Cell, Role::ColumnHeader, Role::RowHeader];
    assert!(lies_in(&tree, &cells, &[Role::Row]) > 40);
    assert!(tree.iter().any(|one| one.role == Role::TabPanel && one.name == "page: points"));
    person.click("remarks");
    let tree = person.tree();
    assert!(lies_in(&tree, &[Role::RadioButton], &[Role::RadioGroup]) > 15);
    assert!(tree.iter().any(|one| one.role == Role::Heading && one.name == "Report a fault"));
    let place = "weather and roof";
    person.click(place);
    let weather = person.find(|one| one.name == place && one.role == Role::RadioButton);
    assert_eq!(weather.and_then(|one| one.chosen), Some(true));
}

#[test]
fn things_come_in_the_order_in_which_they_are_shown() {
    let mut person = Listener::at(Bench::at_work(SIZE, 100));
    person.click("air");
    let tree = person.tree();
    let at = |name: &str| {
        let found = tree.iter().position(|one| one.name == name);
        found.unwrap_or_else(|| panic!("{name} is not there"))
    };
    let order = ["the station", "sky", "barometer", "pen's zero screw", "loupe", "watch"];
    let order = order.map(&at);
    assert!(order.is_sorted(), "{order:?}");
    let order = ["field book", "order", "remarks", "page: air", "Air temperature, \u{b0}C"];
    let order = order.map(&at);
    assert!(order.is_sorted(), "{order:?}");
    let named = ["Air temperature, \u{b0}C", "Station pressure, mmHg"].map(at);
    assert!(named.is_sorted(), "{named:?}");
}

#[test]
fn refusals_deeds_entries_and_waits_are_announced() {
    let mut person = Listener::at(Bench::at_work(SIZE, 100));
    person.act("lid of the shelter", "open the lid");
    let said = person.announced();
    assert!(said.contains("Done: open the lid. lid of the shelter: open."), "{said}");
    person.act("hold-down frame", "take the hold-down frame");
    let said = person.announced();
    assert!(said.contains("You cannot do that now"), "{said}");
    person.act("hold-down frame", "take the hold-down frame");
    let said = person.announced();
    assert!(said.contains("You cannot do that now"), "the same once more is not said: {said}");
    person.click("air");
    person.write("Station pressure, mmHg", "761.5");
    let said = person.announced();
    assert!(said.contains("Written: Station pressure, mmHg: 761.5."), "{said}");
    person.wait("10 s");
    person.rest(2);
    let said = person.announced();
    assert!(said.contains("Time passes, 10 seconds"), "{said}");
    assert!(said.contains("The time has passed: it is 08:3"), "{said}");
}

#[test]
fn a_field_is_set_by_a_reader_and_written_when_it_is_left() {
    let mut person = Listener::at(Bench::at_work(SIZE, 100));
    person.click("air");
    person.set("Station pressure, mmHg", "758.5");
    person.focus("Air temperature, \u{b0}C");
    let said = person.announced();
    assert!(said.contains("Written: Station pressure, mmHg: 758.5."), "{said}");
    assert_eq!(person.value("Station pressure, mmHg"), "758.5");
}

/// The manometer on its hook with its valves open, and the left leg looked at.
fn at_leg(person: &mut Listener) {
    person.act("manometer", "take the manometer");
    person.act("manometer", "hang the manometer on its hook");
    for valve in ["left valve", "right valve"] {
        person.act(valve, "open the valve fully");
    }
    person.act("left leg of the manometer", "read it at eye level");
}

#[test]
fn without_words_the_loupe_says_what_is_looked_at_and_which_way_it_moves() {
    let mut person = Listener::at(Bench::at_work(SIZE, 100));
    at_leg(&mut person);
    person.rest(200);
    let loupe = person.value("loupe");
    assert_eq!(loupe, "the left leg of the manometer, the water is still, eye at level");
    person.turn("loupe", 2);
    assert!(person.value("loupe").ends_with("eye 20 mm above level"), "{}", person.value("loupe"));
    person.turn("loupe", -3);
    assert!(person.value("loupe").ends_with("eye 10 mm below level"), "{}", person.value("loupe"));
    person.act("tube", "blow gently into it and watch the water");
    person.act("left leg of the manometer", "read it at eye level");
    let mut ways = Vec::new();
    for _ in 0..60 {
        person.rest(5);
        ways.push(person.value("loupe"));
    }
    for way in ["rising", "falling"] {
        assert!(ways.iter().any(|said| said.contains(way)), "it is never {way}: {ways:?}");
    }
    let (tree, said) = (person.text(), person.announced());
    assert!(!tree.contains("meniscus") && !said.contains("meniscus"), "a reading is told: {said}");
}

#[test]
fn a_reading_in_words_is_said_each_time_and_logged() {
    let mut person = Listener::at(Bench::at_work(SIZE, 100));
    person.click("F2 settings");
    person.click("Readings in words: off");
    person.click("close");
    at_leg(&mut person);
    for _ in 0..2 {
        person.announced();
        person.act("left leg of the manometer", "read it at eye level");
        let said = person.announced();
        assert!(said.contains("You read: Left leg: the bottom of the meniscus is"), "{said}");
    }
    person.act("left leg of the manometer", "look at it from slightly above");
    assert!(person.announced().contains("Your eye is 20 mm above it"));
    let read = person.done().into_iter().filter(|action| *action == Action::ReadInWords).count();
    assert_eq!(read, 4, "each reading stands in the journal");
}

#[test]
fn a_sitting_that_does_not_allow_words_says_so() {
    let mut person = Listener::at(Bench::at("26_sitting.ron", SIZE, 100));
    person.click("F2 settings");
    person.click("Readings in words: off");
    person.click("close");
    person.announced();
    person.act("barometer", "read the barometer");
    let said = person.announced();
    assert!(said.contains("this scenario does not allow readings in words"), "{said}");
}

#[test]
fn nothing_under_a_sheet_is_come_to() {
    let mut person = Listener::at(Bench::at_work(SIZE, 100));
    person.click("F2 settings");
    let tree = person.tree();
    let dialog = tree.iter().position(|one| one.role == Role::Dialog).expect("the sheet");
    for (index, one) in tree.iter().enumerate().filter(|(_, one)| one.can(Asked::Focus)) {
        assert!(index > dialog && one.depth() > tree[dialog].depth(), "{one:?} lies under it");
    }
}
