//! The next run armed.

use sim_core::field_book::Field;
use sim_core::rig::parts::{FilterSide, Grip, PartPlace, Trip};
use sim_core::session::action::Action;

use super::Case;
use super::deeds::{does, puts, turns_nut};
use super::script::{Deed, Script};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "next-filter",
        breaks: |script| last_nut(script, 1),
        keeps: |script| {
            // The fresh one goes back into the folder, and the other is used.
            let held = script.last(does(Action::HoldToLight));
            script.insert(
                held,
                [Action::Put { place: PartPlace::Case }, Action::TakeFilter { grip: Grip::Edges }],
            );
            script.says(Field::NextFilterNumber, "F-26-0803");
        },
        drags: &[],
    },
    Case {
        rule: "next-filter-written",
        breaks: |script| script.says(Field::NextFilterNumber, "F-26-0801"),
        keeps: |script| script.says(Field::NextFilterNumber, " f-26-0802"),
        drags: &[],
    },
    Case {
        rule: "next-timer",
        breaks: |script| {
            // Only the on tripper is moved on: the off tripper stands where it stood for the run.
            let off = script.last(|deed| sets(deed, Trip::Off));
            script.drop_at(off);
        },
        keeps: |script| {
            let on = script.last(|deed| sets(deed, Trip::On));
            let Deed::Does(Action::SetTripper { weekday, .. }) = script.steps[on].deed else {
                return;
            };
            let late = Action::SetTripper { trip: Trip::On, weekday, hours: 0.15 };
            script.steps[on].deed = Deed::Does(late);
        },
        drags: &[],
    },
    Case {
        rule: "next-chart",
        breaks: |script| {
            let fits = script.last(does(Action::FitChart));
            script.drop_at(fits);
        },
        keeps: |script| {
            let fits = script.last(does(Action::FitChart));
            script.insert(fits + 1, [Action::TurnChart { minutes: 6.0 }]);
        },
        drags: &[],
    },
];

/// Turns the last nut of the frame by fewer quarters in the second round.
fn last_nut(script: &mut Script, quarter_turns: i8) {
    let place = script.last(turns_nut);
    let Deed::Does(Action::TurnNut { nut, .. }) = script.steps[place].deed else { return };
    script.steps[place].deed = Deed::Does(Action::TurnNut { nut, quarter_turns });
}

/// The deed sets this tripper.
fn sets(deed: &Deed, wanted: Trip) -> bool {
    matches!(deed, Deed::Does(Action::SetTripper { trip, .. }) if *trip == wanted)
}

#[test]
fn rules_of_the_run_speak_of_its_own_sheet_when_another_lies_on_the_holder() {
    let found = |change: &dyn Fn(&mut Script)| {
        let mut script = Script::careful_next();
        change(&mut script);
        let played = script.play();
        assert_eq!(played.refused, [""; 0]);
        played.findings.iter().map(|finding| finding.rule).collect::<Vec<_>>()
    };
    let folds = |deed: &Deed| matches!(deed, Deed::Does(Action::FoldFilter { .. }));
    let wrong_side = |script: &mut Script| {
        let place = script.last(folds);
        script.steps[place].deed = Deed::Does(Action::FoldFilter { out: FilterSide::Rough });
    };
    assert_eq!(found(&wrong_side), ["filter-folded"]);
    let of_the_next = |script: &mut Script| script.says(Field::FilterNumber, "F-26-0802");
    assert_eq!(found(&of_the_next), ["custody-written"]);
    // What is done to the fresh sheet is nothing that was done to the sample.
    let thumb = |script: &mut Script| {
        let takes = script.last(|deed| matches!(deed, Deed::Does(Action::TakeFilter { .. })));
        script.steps[takes].deed = Deed::Does(Action::TakeFilter { grip: Grip::Face });
    };
    assert_eq!(found(&thumb), [""; 0]);
    // With the holder bare the sample is what it was.
    let bare = |script: &mut Script| {
        let lays = script.last(puts(PartPlace::Holder));
        let lays = script.back(lays, puts(PartPlace::Holder));
        script.steps[lays].deed = Deed::Does(Action::Put { place: PartPlace::Case });
    };
    assert_eq!(found(&bare), ["next-filter"]);
}
