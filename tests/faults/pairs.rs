//! Two faults at a time: the careful operator passes and finds both, or the pair is listed as one that
//! hides itself.
//!
//! One seed is had here; `STEADY_DRAW_PAIR_SEEDS` asks for more.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use sim_core::fault::{Fault, FaultKind, FaultPlace};
use sim_core::marking::{FaultVerdict, mark};
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::ended_session::EndedSession;

use super::bench;

/// Asks for more seeds.
const SEEDS: &str = "STEADY_DRAW_PAIR_SEEDS";

/// A fault that hides others, or is hidden by them.
struct Hides {
    one: FaultKind,
    others: fn(&Fault) -> bool,
    why: &'static str,
}

/// The pairs that hide themselves.
const HIDDEN: &[Hides] = &[
    Hides {
        one: FaultKind::Gusts,
        others: |other| {
            kind(other, FaultKind::DisplayZeroDrifts) || kind(other, FaultKind::DisplayBatteryLow)
        },
        why: "a display that gusts shake cannot be told from one whose zero drifts",
    },
    Hides {
        one: FaultKind::GroundFaultTrips,
        others: |other| kind(other, FaultKind::ManometerFrozen),
        why: "nothing runs, and the work ends before it is seen whether the ice thaws",
    },
    Hides {
        one: FaultKind::TubeLoose,
        others: |other| {
            kind(other, FaultKind::DisplayZeroDrifts) || kind(other, FaultKind::DisplayBatteryLow)
        },
        why: "for another zero the tube comes off and is pushed on firmly, before it was seen to be loose",
    },
    Hides {
        one: FaultKind::PenSticks,
        others: Fault::belongs_to_run,
        why: "a pen that sticks through a run draws a trace of which no mean is the mean of the flow",
    },
    Hides {
        one: FaultKind::PenDry,
        others: Fault::belongs_to_run,
        why: "a run without a trace cannot be worked out",
    },
    Hides {
        one: FaultKind::ControllerDrifts,
        others: |other| other.belongs_to_run() || kind(other, FaultKind::BearingDrag),
        why: "its screw is trimmed until the pen is right, and nobody is there while it drifts on",
    },
    Hides {
        one: FaultKind::ControllerProbeFouled,
        others: |other| kind(other, FaultKind::ControllerDrifts),
        why: "one lets too much air through and the other too little, and the flow comes out as set",
    },
    Hides {
        one: FaultKind::LowVoltage,
        others: |other| {
            matches!(other.place(), FaultPlace::Blower | FaultPlace::FlowController)
                || kind(other, FaultKind::WanderingVoltage)
        },
        why: "blower and controller cannot be judged on low mains, nor low mains by a blower that is \
              not sound",
    },
    Hides {
        one: FaultKind::ExitOrificeBlocked,
        others: |other| {
            matches!(
                other.kind(),
                FaultKind::LowVoltage
                    | FaultKind::ManometerWrongFluid
                    | FaultKind::WornBrushes
                    | FaultKind::RecorderLineLeaks
            )
        },
        why: "both show in the line alone: together they leave it where it was, or where neither alone \
              would move it",
    },
    Hides {
        one: FaultKind::ManometerWrongFluid,
        others: |other| kind(other, FaultKind::LowVoltage),
        why: "less air and a taller column: the column stands where it is expected",
    },
    Hides {
        one: FaultKind::ManometerScaleStuck,
        others: |other| kind(other, FaultKind::ManometerUnequalBores),
        why: "without a zero nobody can say which leg moves further",
    },
    Hides {
        one: FaultKind::WornBrushes,
        others: |other| kind(other, FaultKind::WanderingVoltage),
        why: "both are heard as a wavering sound, and one report is made of it",
    },
    Hides {
        one: FaultKind::PowerCut,
        others: |other| kind(other, FaultKind::TimerGains),
        why: "both show as a dial that is not at the time of day",
    },
    Hides {
        one: FaultKind::PenZeroOff,
        others: |other| kind(other, FaultKind::RecorderLineLeaks),
        why: "the zero is seen and set; that the line is still wrong afterwards is put down to it",
    },
    Hides {
        one: FaultKind::FilterUpsideDown,
        others: |other| {
            matches!(
                other.kind(),
                FaultKind::FilterTorn | FaultKind::FilterPinholes | FaultKind::FilterWet
            )
        },
        why: "a sheet that is put away is not turned over",
    },
    Hides {
        one: FaultKind::FilterTorn,
        others: |other| kind(other, FaultKind::FilterPinholes),
        why: "nobody looks for pinholes in a torn sheet",
    },
    Hides {
        one: FaultKind::ChartSlips,
        others: |other| kind(other, FaultKind::ChartClockSlow),
        why: "the hour under the pen is off by both together, and is put down to the larger",
    },
    Hides {
        one: FaultKind::BrushesNotRunIn,
        others: |other| {
            matches!(
                other.kind(),
                FaultKind::WornBrushes | FaultKind::WanderingVoltage | FaultKind::LowVoltage
            )
        },
        why: "both are heard as a wavering sound or weaken the blower, and one report is made of it",
    },
];

/// Whether a fault is of this kind.
fn kind(fault: &Fault, of: FaultKind) -> bool {
    fault.kind() == of
}

/// The entry that covers a pair.
fn listed(one: &Fault, other: &Fault) -> Option<usize> {
    HIDDEN.iter().position(|hides| {
        kind(one, hides.one) && (hides.others)(other)
            || kind(other, hides.one) && (hides.others)(one)
    })
}

/// A careful session on a bench.
fn careful(text: &str, seed: u64) -> Option<EndedSession> {
    let mut session = Session::begin_unrecorded(text, seed).ok()?;
    rehearse(&mut session, by_name("careful", seed).unwrap().as_mut()).unwrap();
    Some(session.open().unwrap())
}

/// What went wrong in a session: a fault that was not found, a false alarm, no pass. Once the work was
/// rightly stopped, what would have shown later may be missed.
fn wrong(ended: &EndedSession) -> Option<String> {
    let evidence = ended.evidence();
    let marks = mark(&evidence);
    let stopped = marks.passed && evidence.rightly_stopped();
    let told = marks.faults.iter().filter(|judged| match judged.verdict {
        FaultVerdict::Found | FaultVerdict::CauseOpen | FaultVerdict::NeverShowed => false,
        FaultVerdict::Missed => !stopped,
        _ => true,
    });
    let mut told: Vec<String> =
        told.map(|judged| format!("{}: {:?}", judged.what, judged.verdict)).collect();
    if !marks.passed {
        told.push(format!("{:.1} of {:.0} marks", marks.total, marks.of));
    }
    (!told.is_empty()).then(|| told.join("; "))
}

#[test]
fn the_careful_one_finds_both_of_two_faults_or_the_pair_is_listed() {
    let seeds = std::env::var(SEEDS).ok().and_then(|seeds| seeds.parse().ok()).unwrap_or(1);
    let all: Vec<Fault> = Fault::examples().collect();
    let mut pairs = Vec::new();
    for (index, one) in all.iter().enumerate() {
        // A box holds the papers of one story.
        let papers =
            |other: &Fault| [one, other].iter().all(|f| f.place() == FaultPlace::Certificate);
        let others = all.iter().skip(index + 1).filter(|other| !papers(other));
        pairs.extend(others.map(|other| (one, other)));
    }
    // Where a fault alone is not always found, no pair with it can be.
    let alone = |fault: &Fault, seed| {
        careful(&bench::faulty(fault), seed).is_some_and(|ended| wrong(&ended).is_none())
    };
    let found: Vec<Vec<bool>> =
        all.iter().map(|fault| (1..=seeds).map(|seed| alone(fault, seed)).collect()).collect();
    let place = |fault: &Fault| all.iter().position(|other| other == fault).unwrap();
    let (next, had) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let against: Mutex<Vec<String>> = Mutex::default();
    let needed: Mutex<Vec<bool>> = Mutex::new(vec![false; HIDDEN.len()]);
    let hunt = || {
        while let Some((one, other)) = pairs.get(next.fetch_add(1, Ordering::Relaxed)) {
            let text = bench::both(one, other);
            for seed in 1..=seeds {
                let at = seed as usize - 1;
                if !found[place(one)][at] || !found[place(other)][at] {
                    continue;
                }
                // Some pairs cannot be on one bench, and the scenario's check says so.
                let Some(ended) = careful(&text, seed) else { break };
                had.fetch_add(1, Ordering::Relaxed);
                let Some(told) = wrong(&ended) else { continue };
                match listed(one, other) {
                    Some(entry) => needed.lock().unwrap()[entry] = true,
                    None => {
                        let names = format!("{} and {}, seed {seed}", one.name(), other.name());
                        against.lock().unwrap().push(format!("{names}: {told}"));
                    }
                }
            }
        }
    };
    std::thread::scope(|scope| {
        scope.spawn(hunt);
        scope.spawn(hunt);
    });
    let against = against.into_inner().unwrap();
    assert!(against.is_empty(), "{}", against.join("\n"));
    for (hides, needed) in HIDDEN.iter().zip(needed.into_inner().unwrap()) {
        assert!(needed, "no pair needs the entry: {}", hides.why);
    }
    let had = had.into_inner();
    assert!(had > 1_100, "{had} pairs");
}
