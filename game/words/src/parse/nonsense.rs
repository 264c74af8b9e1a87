//! Everything that is no sentence is answered, with what to say instead.

use super::not_understood::{LONGEST_SENTENCE, NotUnderstood};
use super::said::{examples, said};

#[test]
fn what_is_not_understood_says_what_and_what_is_near() {
    for (sentence, message) in [
        ("", "You said nothing. Say `help` for the list of sentences."),
        (" \t ", "You said nothing. Say `help` for the list of sentences."),
        ("please", "You said nothing. Say `help` for the list of sentences."),
        (
            "opn left valve",
            "`opn` is not understood here. Did you mean `open left valve`? \
             Say `help` for the list of sentences.",
        ),
        (
            "open left valv",
            "`valv` is not understood here. Did you mean `open left valve`? \
             Say `help` for the list of sentences.",
        ),
        ("xyzzy", "`xyzzy` is not understood here. Say `help` for the list of sentences."),
        (
            "connect",
            "The sentence stops too early. Did you mean `connect tube`? Say `help` for the list of \
             sentences.",
        ),
        ("wait 5", "Say how long, with its unit: `wait 30 s` or `wait 5 min`."),
        ("wait -5 min", "Time only runs forward: say `wait 5 min`."),
        ("wait 3 h", "You can wait 2 h at most at a time: say `wait 2 h` again for more."),
        ("tighten nut 7", "There is no nut 7: the four nuts are 1, 2, 3 and 4."),
        ("tighten nut 1.5", "There is no nut 1.5."),
        ("tighten nut 1 by 99 turns", "396 quarter turns is too far: turn by 12 at most."),
        ("open left valve by 40 turns", "160 quarter turns is too far: turn by 4 at most."),
        (
            "zero manometer",
            "That is done by eye: with the tube off the pressure tap, say `read both legs`, then slide \
             the scale until both read zero: `slide scale up 0.1`.",
        ),
        (
            "turn knob to 40",
            "The knob goes from 0 to 1, or from 0 % to 100 %: say `turn knob to 40 %`.",
        ),
        ("write point 13 up 3", "There is no point 13: the field book has points 1 to 12."),
        ("look at certificate 0", "There is no certificate 0: the first one is 1."),
    ] {
        let error = said(sentence).expect_err(sentence);
        assert_eq!(error.to_string(), message, "{sentence}");
    }
}

#[test]
fn anything_at_all_is_answered() {
    let long = "open the left valve ".repeat(500);
    assert_eq!(said(&long), Err(NotUnderstood::TooLong));
    assert_eq!(said(&"ß".repeat(10_000)), Err(NotUnderstood::TooLong));
    let longest = format!("write remarks {}", "é".repeat(LONGEST_SENTENCE - 14));
    assert!(said(&longest).is_ok());
    for sentence in [
        "½",
        "''s",
        "\"",
        "5°",
        "°5",
        "-",
        "+.",
        "…",
        "漢字 を 書く",
        "\u{0}\u{7f}",
        "İ",
        "ﬁt chart",
        "tighten nut 99999999999999999999",
        "tighten nut -1",
        "tighten nut 1 by 1e309 turns",
        "turn knob to nan",
        "turn knob to inf",
        "turn knob to -0.1",
        "write point",
        "write",
        "wait 1e308 h",
        "turn trim back 1e308 turns",
        "look at left leg from 1e308 cm above",
        "turn knob to 1/0",
        "write point 0 1 1 1",
        "tap 0 times",
        "tap 1e9 times",
        "report",
        "report tube",
        "report tube wet",
        "mark chart",
        "help me",
        "?",
        "'s",
        "🙂 open lid",
    ] {
        let error = said(sentence).expect_err(sentence);
        assert!(!error.to_string().is_empty());
    }
    for sentence in examples() {
        for (at, _) in sentence.char_indices() {
            let _ = said(&sentence[..at]);
        }
    }
}

#[test]
fn words_thrown_together_are_answered() {
    let words: Vec<&str> = examples().flat_map(|sentence| sentence.split(' ')).collect();
    // A linear congruential generator (Knuth's MMIX constants) is random enough to mix words.
    let mut state: u64 = 1;
    let mut next = |below: usize| {
        state = state.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        (state >> 33) as usize % below
    };
    let mut understood = 0;
    for _ in 0..2000 {
        let count = 1 + next(6);
        let sentence: Vec<&str> = (0..count).map(|_| words[next(words.len())]).collect();
        understood += usize::from(said(&sentence.join(" ")).is_ok());
    }
    assert!(understood < 200, "nonsense is understood too readily: {understood} of 2000");
}

#[test]
fn a_refused_word_cannot_steer_the_terminal() {
    for (sentence, shown) in [
        ("sing\u{1b}[2J", "`sing\\u{1b}[2j` is not understood"),
        ("\u{202e}sing", "`\\u{202e}sing` is not understood"),
        ("open \u{7}lid", "`\\u{7}lid` is not understood"),
    ] {
        let message = said(sentence).expect_err(sentence).to_string();
        assert!(message.starts_with(shown), "{message:?}");
    }
}
