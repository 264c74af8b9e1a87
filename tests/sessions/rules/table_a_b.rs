//! Arriving and stripping.

use sim_core::field_book::Field;
use sim_core::rig::parts::{BlowerPlug, Gasket, Nut, PartPlace, RigPart, TimerSwitch, WasherSeat};
use sim_core::session::action::{Action, BarometerReference, Exposure, Sight};

use super::Case;
use super::deeds::{does, look, looks, plug, puts, takes, timer, turns_nut};
use super::script::{Deed, Script};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "thunder",
        breaks: |script| thunder(script, 30.0),
        keeps: |script| {
            // Who hears it at work cuts the power and goes, whatever is left standing.
            thunder(script, 12.0);
            *script = Script::rehearsed(&script.text);
        },
        drags: &[],
    },
    Case {
        rule: "roof-edge",
        breaks: |script| script.without(looks(Sight::RoofEdge)),
        keeps: |script| {
            let first_handling = script.first(does(timer(TimerSwitch::Off)));
            script.moves(script.first(looks(Sight::RoofEdge)), first_handling);
        },
        drags: &[],
    },
    Case {
        rule: "certificate-serial",
        breaks: |script| {
            another_on_top(script);
            script.copies_top_paper();
        },
        keeps: |script| {
            another_on_top(script);
            let top = script.first(looks(Sight::Certificate(0)));
            script.insert(top + 1, [look(Sight::Certificate(1))]);
            script.says(Field::CertificateSerial, " oc-527");
        },
        drags: &[],
    },
    Case {
        rule: "certificate-current",
        breaks: |script| {
            script.with_fault("CertificateExpired");
            dated(script, "2025-10-31");
        },
        keeps: |script| dated(script, "2025-11-01"),
        drags: &[],
    },
    Case {
        rule: "certificate-named",
        breaks: |script| script.says(Field::CertificateDate, "2026-03-18"),
        keeps: |script| script.says(Field::CertificateDate, " 2026-03-17 "),
        drags: &[],
    },
    Case {
        rule: "certificate-copied",
        // Printed is 1.5159.
        breaks: |script| script.says(Field::CertificateSlope, "1.5195"),
        keeps: |script| script.says(Field::CertificateIntercept, "\u{2212}0,0168"),
        drags: &[],
    },
    Case {
        rule: "standard-pair",
        breaks: |script| {
            let actual = script.certificates()[0].actual;
            script.says(Field::CertificateSlope, &format!("{:.4}", actual.slope));
            script.says(Field::CertificateIntercept, &format!("{:.4}", actual.intercept));
        },
        keeps: |script| {
            script.on(r#"date: "2026-03-17""#, r#"date: "2026-03-17", print: ActualFirst"#);
            script.with_fault("CertificateActualFirst");
        },
        drags: &[
            ("last-line", "such a line is half as steep again as the last one"),
            ("decision-sound", "its volumes are a third off, and accepted"),
        ],
    },
    Case {
        rule: "station-pressure",
        breaks: at_sea_level,
        keeps: |script| {
            // Worked back to the station by hand.
            at_sea_level(script);
            script.says(Field::Pressure, "747");
        },
        drags: &[],
    },
    Case {
        rule: "thermometer-shaded",
        breaks: |script| {
            let place = script.first(looks(Sight::Recorder));
            script.insert(place, [Action::PlaceThermometer { at: Exposure::Sun }]);
        },
        keeps: |script| {
            // Out of the sun in time.
            let place = script.first(looks(Sight::Recorder));
            script.insert(place, [Action::PlaceThermometer { at: Exposure::Sun }]);
            let place = script.first(does(Action::UncapPen));
            script.insert(place, [Action::PlaceThermometer { at: Exposure::Shade }]);
        },
        drags: &[],
    },
    Case {
        rule: "conditions-as-read",
        breaks: |script| script.says(Field::Pressure, "743"),
        keeps: |script| script.says(Field::Pressure, "746"),
        drags: &[],
    },
    Case {
        rule: "conditions-written",
        breaks: |script| script.without(|deed| deed.field() == Some(Field::Temperature)),
        keeps: |script| script.says(Field::Temperature, "19,0"),
        drags: &[("record-judgeable", "no flow follows without a temperature")],
    },
    Case {
        rule: "dead-before-hands",
        breaks: runs_on_arrival,
        keeps: |script| {
            runs_on_arrival(script);
            script.wait(script.first(does(Action::OpenLid)), 120);
        },
        drags: &[],
    },
    Case {
        rule: "isolated",
        breaks: |script| {
            script.without(does(Action::UnplugSampler));
            script.without(does(Action::PlugSampler));
        },
        keeps: |script| {
            // In a line outlet that is switched off.
            script.without(does(plug(BlowerPlug::LineOutlet)));
            let place = script.first(does(Action::OpenLid));
            script.insert(place, [plug(BlowerPlug::LineOutlet)]);
        },
        drags: &[],
    },
    Case {
        rule: "gaskets-seated",
        breaks: |script| script.with_fault("CalibratorGasketMissing(leak_mm2: 5)"),
        keeps: |script| {
            script.with_fault("CalibratorGasketMissing(leak_mm2: 20)");
            let place = script.first(puts(PartPlace::Adapter));
            script.insert(place, [Action::FitGasket { gasket: Gasket::Calibrator }]);
        },
        drags: &[],
    },
    Case {
        rule: "washers-above",
        breaks: |script| {
            // At this flow the volume can just be lived with.
            script.on("target_flow_std_m3_min: 1.2", "target_flow_std_m3_min: 1.5");
            let place = script.first(tightens);
            script.insert(place, [washer(WasherSeat::Below)]);
        },
        keeps: |script| {
            let place = script.first(tightens);
            script.insert(place, [washer(WasherSeat::Below), washer(WasherSeat::Above)]);
        },
        drags: &[(
            "last-line",
            "the plate that a washer holds off leaks 8 mm2, which turns the line",
        )],
    },
    Case {
        rule: "nuts-snug",
        breaks: |script| loosens(script, &[(4, 3)]),
        keeps: |script| loosens(script, &[(2, 1), (4, 2)]),
        drags: &[],
    },
    Case {
        rule: "opposite-corners",
        breaks: |script| renames_nuts(script, [1, 3, 2, 4]),
        keeps: |script| renames_nuts(script, [2, 3, 4, 1]),
        drags: &[],
    },
    Case {
        rule: "filter-out",
        breaks: leaves_filter,
        keeps: |script| {
            let target = "target_flow_std_m3_min: 1.2";
            script.on(target, &format!("filter_in_place: true, {target}"));
            leaves_filter(script);
        },
        drags: &[],
    },
];

/// Thunder is heard.
pub fn thunder(script: &mut Script, minutes: f64) {
    script.on("sun_k: Fixed(6)", &format!("sun_k: Fixed(6), thunder_min: Fixed({minutes})"));
}

/// The certificate of a sister lies on top.
fn another_on_top(script: &mut Script) {
    script.on(
        r#"(serial: "OC-527""#,
        r#"(serial: "OC-572", date: "2026-02-20", orifice_differs_pct: Fixed(1.5)), (serial: "OC-527""#,
    );
    script.with_fault("CertificateOfAnother");
}

/// The certificate has another date, which is copied.
fn dated(script: &mut Script, date: &str) {
    script.on("2026-03-17", date);
    script.copies_top_paper();
}

/// The barometer is set to sea level before it is read.
fn at_sea_level(script: &mut Script) {
    let place = script.look_before(Field::Pressure, Sight::Barometer);
    script.insert(place, [Action::SetBarometer { to: BarometerReference::SeaLevel }]);
}

/// The sampler is tried before it is unplugged.
fn runs_on_arrival(script: &mut Script) {
    let off = script.first(does(timer(TimerSwitch::Off)));
    script.insert(off, [timer(TimerSwitch::On)]);
    script.wait(off + 1, 10);
}

/// The deed draws a nut up.
const fn tightens(deed: &Deed) -> bool {
    matches!(deed, Deed::Does(Action::TurnNut { quarter_turns: 1.., .. }))
}

fn washer(seat: WasherSeat) -> Action {
    Action::SetWasher { nut: nut(3), seat }
}

fn nut(number: u8) -> Nut {
    Nut::try_from(number).unwrap()
}

/// Turns nuts back before the tube goes on.
fn loosens(script: &mut Script, nuts: &[(u8, i8)]) {
    let place = script.first(does(Action::ConnectTube));
    let turns =
        nuts.iter().map(|&(number, by)| Action::TurnNut { nut: nut(number), quarter_turns: -by });
    script.insert(place, turns.collect::<Vec<_>>());
}

/// Draws the nuts of the plate up in another order: each number becomes that of its place.
fn renames_nuts(script: &mut Script, names: [u8; 4]) {
    let mut place = script.first(tightens);
    while turns_nut(&script.steps[place].deed) {
        if let Deed::Does(Action::TurnNut { nut: turned, .. }) = &mut script.steps[place].deed {
            *turned = nut(names[turned.index()]);
        }
        place += 1;
    }
}

/// The plate goes on top of the filter, which leaves a narrower range of flows.
fn leaves_filter(script: &mut Script) {
    script.opens(&[0.71, 0.57, 0.46, 0.39, 0.33, 0.25]);
    for _ in 0..2 {
        let place = script.first(takes(RigPart::Filter));
        script.drop_at(place);
        script.drop_at(place);
    }
}
