//! From the first look to the signature and back to the list.

use sim_core::field_book::Field;
use window::desk::Seen;

use super::harness::Bench;

#[test]
fn the_book_is_signed_only_on_the_second_asking_and_then_marked() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    bench.click("refused");
    bench.click("write the decision");
    assert_eq!(bench.written(Field::Decision).as_deref(), Some("refused"));
    bench.click("sign the field book");
    assert!(bench.on_screen().contains("press once more to sign"));
    // Doing something else takes the hand off the pen.
    bench.click("accepted");
    assert!(!bench.on_screen().contains("press once more to sign"));
    bench.click("sign the field book");
    bench.click("sign the field book");
    bench.rest(8);
    let shown = bench.on_screen();
    assert!(shown.contains("Debrief") && shown.contains("Not passed"), "{shown}");
    assert!(shown.contains("Journal, head of its chain"), "{shown}");
    assert!(!bench.app.world().contains_resource::<Seen>(), "the session is off the desk");
    bench.click("back to the scenarios");
    bench.rest(4);
    let shown = bench.on_screen();
    assert!(shown.contains("First calibration"), "{shown}");
    assert!(!shown.contains("Go on with"), "a signed session is not gone on with");
}

#[test]
fn a_report_needs_a_place_words_and_what_was_done() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    bench.click("report it");
    assert!(bench.said().contains("where it is"), "{}", bench.said());
    bench.click("tube");
    bench.click("report it");
    assert!(bench.said().contains("what is wrong"), "{}", bench.said());
    bench.click("what is wrong, in your words");
    bench.type_text("kinked");
    bench.click("put right");
    bench.click("report it");
    assert!(bench.on_screen().contains("tube: kinked (put right)"));
}
