//! Journals that were edited, cut to their head, forged, or are none: always told, with the line.

use std::sync::LazyLock;

use sim_core::session::journal::{self, Chain, FORM, JournalError, NullSink};
use sim_core::session::replay::{self, Replayed};

use super::recorded::{rehearsed, scenario};

/// The journal of a whole session.
fn sound() -> String {
    static SOUND: LazyLock<String> = LazyLock::new(|| {
        // Letters of two and three bytes, so that edits meet them too.
        let text = scenario("01_first_calibration.ron").replace("Teasel Quay", "Mühle – 2 µm");
        rehearsed(&text, "careful", 1).journal
    });
    SOUND.clone()
}

/// What reading the bytes of a journal comes to, without replaying it.
fn read(bytes: Vec<u8>) -> Result<journal::Journal, JournalError> {
    journal::text(bytes).and_then(|text| journal::read(&text))
}

fn replayed(text: &str) -> Result<Replayed, JournalError> {
    replay::replay(text, Box::new(NullSink))
}

/// The line that an error names.
fn line_of(error: &JournalError) -> usize {
    let text = error.to_string();
    let number = text.strip_prefix("line ").and_then(|rest| rest.split(':').next());
    number.and_then(|number| number.parse().ok()).unwrap_or_else(|| panic!("no line: {text}"))
}

/// Asserts that a changed journal is told at this line.
#[track_caller]
fn assert_told(bytes: Vec<u8>, line: usize, how: &str) {
    match read(bytes) {
        Ok(journal) => panic!("line {line}, {how}: nothing was told, {}", journal.whole_bytes),
        Err(error) => assert_eq!(line_of(&error), line, "{how}: {error}"),
    }
}

/// Where each line begins and ends; its line break is the last byte.
fn lines(text: &str) -> Vec<(usize, usize)> {
    let mut at = 0;
    text.split_inclusive('\n')
        .map(|piece| {
            let from = at;
            at += piece.len();
            (from, at)
        })
        .collect()
}

#[test]
fn a_changed_byte_is_told_with_its_line() {
    let text = sound();
    let last = text.len() - 1;
    let mut changed = 0;
    for (index, (from, to)) in lines(&text).into_iter().enumerate() {
        // The hash, the space behind it, both ends and the middle of the body, the line break.
        let places = [from, from + 7, from + 15, from + 16, from + 17, (from + to) / 2, to - 2];
        let ends = [to - 1];
        for at in places.into_iter().chain(ends).filter(|&at| at != last) {
            // Every bit of one line in ten, and one bit of each place in the others.
            for bit in (0..8).filter(|bit| index % 10 == 0 || bit % 8 == (index + at) % 8) {
                let mut bytes = text.clone().into_bytes();
                bytes[at] ^= 1 << bit;
                assert_told(bytes, index + 1, &format!("bit {bit} of byte {at}"));
                changed += 1;
            }
        }
    }
    assert!(changed > 4_000, "{changed}");
}

#[test]
fn a_byte_changed_anywhere_is_told_with_its_line() {
    let text = sound();
    for (index, (from, to)) in lines(&text).into_iter().enumerate() {
        for at in (from..to).step_by(11).filter(|&at| at != text.len() - 1) {
            let mut bytes = text.clone().into_bytes();
            bytes[at] = match bytes[at] {
                b'\n' => b' ',
                byte if at % 2 == 0 && byte != b'7' => b'7',
                _ => b'\n',
            };
            assert_told(bytes, index + 1, &format!("byte {at}"));
        }
    }
}

#[test]
fn a_byte_taken_out_or_put_in_is_told_with_its_line() {
    let text = sound();
    for (index, (from, to)) in lines(&text).into_iter().enumerate() {
        for at in [[from, from + 16], [(from + to) / 2, to - 1]][index % 2] {
            if at != text.len() - 1 {
                let mut bytes = text.clone().into_bytes();
                bytes.remove(at);
                assert_told(bytes, index + 1, &format!("without byte {at}"));
            }
            for put in [b'0', b' ', b'\n', b'\r', 0, 0xff] {
                let mut bytes = text.clone().into_bytes();
                bytes.insert(at, put);
                // A line break before a line break is an empty line behind this one.
                let line = if put == b'\n' && at == to - 1 { index + 2 } else { index + 1 };
                assert_told(bytes, line, &format!("{put} before byte {at}"));
            }
        }
    }
}

#[test]
fn lines_taken_out_doubled_or_exchanged_are_told() {
    let text = sound();
    let all: Vec<&str> = text.split_inclusive('\n').collect();
    let joined = |lines: Vec<&str>| lines.concat().into_bytes();
    for at in 0..all.len() {
        let mut doubled = all.clone();
        doubled.insert(at, all[at]);
        assert_told(joined(doubled), at + 2, "doubled");
        if at + 1 < all.len() {
            let mut without = all.clone();
            without.remove(at);
            assert_told(joined(without), at + 1, "taken out");
            let mut exchanged = all.clone();
            exchanged.swap(at, at + 1);
            assert_told(joined(exchanged), at + 1, "exchanged");
        }
    }
    assert_told(joined([&all[..], &["\n"]].concat()), all.len() + 1, "an empty line behind it");
    assert_told(joined([&all[..], &all[..]].concat()), all.len() + 1, "twice");
}

#[test]
fn a_journal_saved_with_other_line_breaks_or_a_mark_in_front_is_told() {
    let text = sound();
    assert_told(text.replace('\n', "\r\n").into_bytes(), 1, "carriage returns");
    assert_told(format!("\u{feff}{text}").into_bytes(), 1, "a byte order mark");
}

#[test]
fn the_last_line_break_counts() {
    let text = sound();
    for end in ["", " ", "x", "\r"] {
        let cut = format!("{}{end}", &text[..text.len() - 1]);
        let found = replayed(&cut).unwrap();
        assert!(found.cut_short, "{end:?}");
        assert_eq!(found.whole_bytes, text[..text.len() - 1].rfind('\n').unwrap() + 1);
    }
}

#[test]
fn what_stands_behind_the_end_is_told() {
    let text = sound();
    let found = replayed(&format!("{text}ffff")).unwrap();
    assert!(found.cut_short && found.whole_bytes == text.len());
    assert_told(format!("{text}ffff\n").into_bytes(), text.lines().count() + 1, "a line behind it");
}

#[test]
fn what_is_no_journal_is_told_in_its_first_line() {
    let said = |bytes: &[u8]| read(bytes.to_vec()).unwrap_err().to_string();
    insta::assert_snapshot!(said(b""), @"the journal is empty: give a file that a session wrote");
    insta::assert_snapshot!(said(b" \n\n \n"), @"the journal is empty: give a file that a session wrote");
    insta::assert_snapshot!(said(b"no journal\n"), @"line 1: this is not the journal of a session: give a file that a session wrote");
    assert_eq!(said(b"no journal"), said(b"no journal\n"));
    assert_eq!(said(&[0xff; 5000]), said(b"no journal\n"));
    assert_eq!(said(&[0xff, b'\n', 0, 3]), said(b"no journal\n"));
    assert_eq!(said(scenario("01_first_calibration.ron").as_bytes()), said(b"no journal\n"));
    assert_eq!(said(include_bytes!("edits.rs")), said(b"no journal\n"));
}

#[test]
fn random_bytes_are_no_journal() {
    let mut stream = sim_core::noise::Stream::new(5, "random bytes");
    for _ in 0..2000 {
        let length = 20 + (stream.unit() * 300.0) as usize;
        let bytes: Vec<u8> = (0..length).map(|_| (stream.unit() * 256.0) as u8).collect();
        assert_told(bytes, 1, "random bytes");
    }
}

#[test]
fn a_journal_cut_to_its_head_is_told() {
    let text = sound();
    for count in 1..=2 {
        let head: String = text.split_inclusive('\n').take(count).collect();
        assert_eq!(line_of(&replayed(&head).unwrap_err()), count);
    }
    let head: String = text.split_inclusive('\n').take(3).collect();
    assert_eq!(replayed(&head).unwrap().session.now().0, 0);
}

/// A journal with these bodies and a chain that holds.
fn forged<'a>(bodies: impl IntoIterator<Item = &'a str>) -> String {
    let mut chain = Chain::default();
    bodies.into_iter().map(|body| chain.add(body) + "\n").collect()
}

/// The sound journal with one part of one line replaced and its whole chain made anew.
fn forgery(line: usize, from: &str, to: &str) -> String {
    let text = sound();
    let mut bodies: Vec<String> =
        text.lines().map(|line| line.split_once(' ').unwrap().1.to_owned()).collect();
    assert!(bodies[line - 1].contains(from), "{}", bodies[line - 1]);
    bodies[line - 1] = bodies[line - 1].replacen(from, to, 1);
    forged(bodies.iter().map(String::as_str))
}

/// The first line that holds a text.
fn line_with(text: &str) -> usize {
    sound().lines().position(|line| line.contains(text)).unwrap() + 1
}

#[test]
fn a_journal_of_another_version_or_form_names_the_version_that_reads_it() {
    let version = format!("version:\"{}\"", sim_core::VERSION);
    let said = |from: &str, to: &str| {
        let error = replayed(&forgery(1, from, to)).unwrap_err().to_string();
        error
            .replace(sim_core::VERSION, "[THIS]")
            .replace(&format!("format {FORM}"), "format [THIS]")
    };
    insta::assert_snapshot!(said(&version, "version:\"0.0.9\""), @"line 1: the journal was written by version 0.0.9, and this is version [THIS]: only the same version gives the same session, so replay it with version 0.0.9");
    insta::assert_snapshot!(said(&format!("form:{FORM}"), "form:9"), @"line 1: the journal has format 9, and this program reads format [THIS]: replay it with version [THIS], which wrote it");
    let first = forged([format!("Journal(form:{FORM},{version})").as_str()]);
    assert_eq!(sound().lines().next(), first.lines().next(), "a forged head is as good as ours");
}

#[test]
fn a_forged_journal_differs_at_its_next_checksum() {
    let knob = line_with("opening:0.");
    let check = knob + sound().lines().skip(knob).position(|l| l.contains("Check(")).unwrap() + 1;
    let error = replayed(&forgery(knob, "opening:0.", "opening:0.9")).unwrap_err();
    assert!(matches!(error, JournalError::Differs { line, .. } if line == check), "{error}");
    let said = error.to_string();
    let (line, rest) = said.split_once(": ").unwrap();
    assert_eq!(line, format!("line {check}"));
    insta::assert_snapshot!(rest.split_once(" of bench time: ").unwrap().1, @"the journal was written by another build, or its chain was rebuilt; it proves nothing");
    let seal = sound().lines().count();
    let entry = line_with("field:remarks");
    let error = replayed(&forgery(entry, "Nothing was", "Nothing  was")).unwrap_err();
    assert!(line_of(&error) > entry && line_of(&error) <= seal, "{error}");
}

#[test]
fn a_forged_journal_that_asks_for_the_impossible_is_told() {
    let lid = line_with("open_lid");
    let said = |line: usize, from: &str, to: &str| {
        let error = replayed(&forgery(line, from, to)).unwrap_err();
        assert_eq!(line_of(&error), line, "{error}");
        error.to_string().split_once(": ").unwrap().1.to_owned()
    };
    let act = sound().lines().nth(lid - 1).unwrap().split_once(' ').unwrap().1.to_owned();
    let tick = act.split_once("tick:").unwrap().1.split_once(',').unwrap().0.to_owned();
    let tick = format!("tick:{tick},");
    insta::assert_snapshot!(said(lid, "open_lid", "close_lid"), @"the lid is already closed");
    insta::assert_snapshot!(said(lid, "open_lid", "turn_knob(opening:NaN)"), @"the opening of the knob must be between 0 and 1 (1 is fully open), not NaN");
    insta::assert_snapshot!(said(lid, "open_lid", "fly"), @"Unexpected variant named `fly` in enum `Action`, expected one of `look`, `listen`, `open_lid`, `close_lid`, `turn_nut`, `set_washer`, `take`, `put`, `fit_gasket`, `turn_valve`, `slide_scale`, `swing_manometer`, `connect_tube`, `disconnect_tube`, `straighten_tube`, `drain_tube`, `blow_through`, `add_fluid`, `change_fluid`, `plug_sampler`, `unplug_sampler`, `plug_blower`, `switch_line`, `switch_timer`, `turn_trim`, `turn_knob`, `block_openings`, `free_openings`, `open_door`, `close_door`, `uncap_pen`, `cap_pen`, `lower_pen`, `lift_pen`, `fit_chart`, `turn_chart`, `set_pen_zero`, `tap`, `mark_chart`, `place_thermometer`, `set_barometer`, `write`, `strike`, `decide`, `report`, `ask_help`, `take_filter`, `hold_to_light`, `turn_filter`, `centre_filter`, `fold_filter`, `add_filter`, `remove_added_filter`, `set_tripper`, `fasten_tripper`, `set_dial`, `take_chart`, `leave_site`, `wait`, `take_out_plate`, `put_in_plate`, `switch_manometer`, `zero_manometer`, `change_battery`, `leave_roof`, `sign`, `clear_opening`, `tend_recorder_line`, `reset_outlet`, `change_cord`, `change_brushes`, `read_in_words`, or `mark_checklist` instead");
    let differs = said(lid, &tick, "tick:0,");
    assert!(differs.starts_with("the replay differs from the recorded session"), "{differs}");
    // Years of bench time in one line are refused at once.
    for far in ["tick:9999999999,", "tick:18446744073709551615,"] {
        insta::allow_duplicates! {
            insta::assert_snapshot!(said(lid, &tick, far), @"the journal covers more than 31 days of bench time, which no session does: it was changed; use an unchanged copy of the journal");
        }
    }
    insta::assert_snapshot!(said(lid, &tick, "tick:-1,"), @"Integer is out of bounds");
    insta::assert_snapshot!(said(2, "pass_mark: 75", "pass_mark: 5"), @"the scenario's text does not match its hash");
    let seal = sound().lines().count();
    let differs = said(seal, "signed", "left_roof");
    assert!(differs.starts_with("the replay differs from the recorded session"), "{differs}");
}

#[test]
fn forged_numbers_of_the_bench_are_told_or_replayed_but_never_fail_badly() {
    let drawn = sound().lines().nth(2).unwrap().split_once(' ').unwrap().1.to_owned();
    let numbers: Vec<&str> =
        drawn.split("\",").skip(1).filter_map(|rest| rest.split(')').next()).collect();
    assert!(numbers.len() > 20, "{numbers:?}");
    let mut told = 0;
    for number in &numbers {
        for wild in ["NaN", "inf", "-inf", "1e308", "-1e308", "0.0", "5e-324", "-1.0"] {
            let from = format!("\",{number})");
            told += usize::from(replayed(&forgery(3, &from, &format!("\",{wild})"))).is_err());
        }
    }
    // Some parameters may be zero, and what is drawn but never felt changes no bit.
    assert!(told * 10 >= numbers.len() * 8 * 8, "{told} of {}", numbers.len() * 8);
}

#[test]
fn a_bad_drawn_value_is_told_at_its_own_line() {
    let number = sound().lines().nth(2).unwrap().split("\",").nth(1).unwrap().to_owned();
    let from = format!("\",{}", number.split(')').next().unwrap());
    for (to, what) in [("\",NaN", "not a finite number"), ("\",1e308", "outside")] {
        let error = replayed(&forgery(3, &from, to)).unwrap_err();
        assert!(error.to_string().contains(what), "{error}");
        assert_eq!(line_of(&error), 3, "{error}");
    }
}

#[test]
fn a_forged_journal_of_days_upon_days_is_refused_before_a_day_goes_by() {
    let head = sound();
    let head: Vec<&str> =
        head.lines().take(3).map(|line| line.split_once(' ').unwrap().1).collect();
    let note = |day: u64| {
        let tick = day * 24 * 3600 * 20;
        format!("Clock((tick:{tick},what:left,unix_s:0,why:\"\"))")
    };
    let days: Vec<String> = (1..=10_000).map(note).collect();
    let text = forged(head.iter().copied().chain(days.iter().map(String::as_str)));
    let began = std::time::Instant::now();
    let error = replayed(&text).unwrap_err();
    assert!(began.elapsed().as_secs() < 10, "{:?}", began.elapsed());
    let limit_days = journal::LONGEST_SESSION_DAYS;
    assert_eq!(line_of(&error) as u64, 3 + limit_days + 1, "{error}");
    assert!(error.to_string().contains(&format!("{limit_days} days")), "{error}");
}

#[test]
fn no_text_from_a_journal_reaches_a_message_raw() {
    let wild = "\u{1b}[2J\u{202e}\u{2028}\u{85}";
    let version = format!("version:\"{}\"", sim_core::VERSION);
    let drawn = sound().lines().nth(2).unwrap().split("[(\"").nth(1).unwrap().to_owned();
    let name = drawn.split('"').next().unwrap();
    let forgeries = [
        forgery(1, &version, &format!("version:\"0.0.9{wild}\"")),
        forgery(1, &format!("form:{FORM},version:\""), &format!("form:9,version:\"{wild}")),
        forgery(3, &format!("[(\"{name}\","), &format!("[(\"{wild}\",NaN),(\"{name}\",")),
    ];
    for forgery in forgeries {
        let said = replayed(&forgery).unwrap_err().to_string();
        assert!(said.contains(r"\u{1b}[2J\u{202e}\u{2028}\u{85}"), "{said:?}");
        assert!(!said.chars().any(|c| wild.contains(c) && !"[2J".contains(c)), "{said:?}");
    }
}

#[test]
fn a_version_of_endless_length_makes_no_journal() {
    let version = format!("version:\"{}\"", sim_core::VERSION);
    let endless = format!("version:\"{}\"", "9".repeat(1 << 20));
    for (from, to) in [
        (version.clone(), endless.clone()),
        (format!("form:{FORM},{version}"), format!("form:9,{endless}")),
    ] {
        let error = replayed(&forgery(1, &from, &to)).unwrap_err();
        assert_eq!(error, JournalError::NotAJournal { line: 1 });
    }
}
