//! For every fault, what a careful operator looks at, and how it is read on the bench.

use sim_core::fault::Fault;
use sim_core::rig::parts::{Leg, PartPlace, RigPart};
use sim_core::session::action::{Action, OnOff, Sight};
use sim_core::session::view::{
    EYE_BAROMETER_MMHG, EYE_CHART, EYE_LEG_IN, EYE_THERMOMETER_C, OrificeEdge,
};

use super::bench::Bench;
use super::probe::{Probe, number, word};
use super::run_probes;

/// The probe for a fault.
pub fn probe(fault: &Fault) -> Probe {
    match fault {
        Fault::ManometerValveLeaks { .. } => number!(
            "how far the column sinks in 15 s behind the shut left valve",
            "in",
            EYE_LEG_IN,
            sinks_in
        ),
        Fault::ManometerValveBarelyOpens { .. } | Fault::ManometerValveShut { .. } => {
            number!("how far the water dips under a breath", "in", EYE_LEG_IN, dips_in)
        }
        Fault::ManometerBubble { .. } => {
            number!("left leg above the right one, both ends open", "in", EYE_LEG_IN, |bench| {
                bench.hung();
                bench.column_in()
            })
        }
        Fault::ManometerOutOfPlumb { .. } => number!(
            "the manometer against its plumb line, as it comes to hang",
            "degrees",
            0.5,
            |bench| {
                bench.act(Action::Take { part: RigPart::Manometer });
                bench.act(Action::Put { place: PartPlace::Hook });
                bench.view().manometer.tilt_deg
            }
        ),
        Fault::ManometerScaleStuck => number!(
            "the menisci above the scale's zero after it was slid, both ends open",
            "in",
            EYE_LEG_IN,
            |bench| {
                bench.hung();
                let seen = bench.view().manometer;
                0.5 * (seen.left.meniscus_in + seen.right.meniscus_in)
            }
        ),
        Fault::ManometerUnequalBores { .. } => number!(
            "fall of the right leg less rise of the left one, fully open",
            "in",
            EYE_LEG_IN,
            |bench| {
                bench.running(310.0);
                let seen = bench.view().manometer;
                -seen.right.meniscus_in - seen.left.meniscus_in
            }
        ),
        Fault::TubeKinked => number!(
            "how far the column still falls between 15 s and 2 min after the knob was turned",
            "in",
            EYE_LEG_IN,
            creeps_in
        ),
        Fault::ManometerWrongFluid { .. }
        | Fault::TubeCracked { .. }
        | Fault::TubeLoose { .. }
        | Fault::TubeWet { .. } => {
            number!("the column, fully open", "in", EYE_LEG_IN, |bench| {
                bench.running(310.0);
                bench.column_in()
            })
        }
        Fault::OrificeNicked { .. } | Fault::OrificeFouled { .. } => {
            word!("the edge of the orifice", |bench| {
                match bench.look(Sight::Calibrator).calibrator.edge.unwrap() {
                    OrificeEdge::Sharp => "sharp",
                    OrificeEdge::Nicked => "nicked",
                    OrificeEdge::Dirty => "dirty",
                }
                .to_owned()
            })
        }
        Fault::KnobSlips { .. } => {
            number!("the knob 2 min after it was set to 0.5", "of the opening", 0.01, |bench| {
                bench.running(60.0);
                bench.act(Action::TurnKnob { opening: 0.5 });
                bench.wait(123.0);
                bench.view().calibrator.knob
            })
        }
        Fault::CalibratorGasketMissing { .. }
        | Fault::HolderGasketMissing { .. }
        | Fault::WasherBelow { .. }
        | Fault::PlateWarped { .. } => {
            number!("the tapped pen with the openings covered", "divisions", EYE_CHART, |bench| {
                bench.running(60.0);
                bench.act(Action::BlockOpenings);
                bench.wait(8.0);
                bench.tapped_pen()
            })
        }
        Fault::NutLoose { .. } => number!(
            "the tapped pen with the openings covered, after 8 min of running",
            "divisions",
            EYE_CHART,
            |bench| {
                bench.running(480.0);
                bench.act(Action::BlockOpenings);
                bench.wait(8.0);
                bench.tapped_pen()
            }
        ),
        _ => electric_and_paper(fault),
    }
}

fn electric_and_paper(fault: &Fault) -> Probe {
    match fault {
        Fault::WornBrushes { .. } => word!("the blower's sound", |bench| {
            bench.running(60.0);
            if bench.view().blower.wavering { "wavers" } else { "is even" }.to_owned()
        }),
        Fault::WanderingVoltage { .. } => number!(
            "how far the pen wanders within 2 min, nothing touched",
            "divisions",
            EYE_CHART,
            |bench| {
                bench.running(310.0);
                range(bench, 120, |bench| {
                    bench.act(Action::Tap);
                    bench.pen()
                })
            }
        ),
        Fault::BearingDrag { .. } => {
            number!("time from the switch until the rotor stands", "s", 1.0, |bench| {
                bench.running(310.0);
                bench.act(Action::SwitchLine { to: OnOff::Off });
                let mut seconds = 0.0;
                while bench.view().blower.pitch_hz > 0.0 && seconds < 300.0 {
                    bench.wait(1.0);
                    seconds += 1.0;
                }
                seconds
            })
        }
        Fault::LowVoltage { .. } => {
            number!("the column, fully open", "in", EYE_LEG_IN, |bench| {
                bench.running(310.0);
                bench.column_in()
            })
        }
        Fault::ControllerDrifts { .. } => number!(
            "the tapped pen on the controller after 45 min, filter fitted",
            "divisions",
            EYE_CHART,
            |bench| {
                bench.wait(2640.0);
                bench.on_controller(60.0);
                bench.tapped_pen()
            }
        ),
        Fault::ControllerProbeFouled { .. } | Fault::ControllerSaturates { .. } => number!(
            "the tapped pen on the controller, filter fitted",
            "divisions",
            EYE_CHART,
            |bench| {
                bench.on_controller(60.0);
                bench.tapped_pen()
            }
        ),
        Fault::PenSticks { .. } => number!(
            "how far the pen jumps when tapped after a change of flow",
            "divisions",
            EYE_CHART,
            |bench| {
                bench.running(60.0);
                bench.act(Action::TurnKnob { opening: 0.3 });
                bench.wait(60.0);
                let before = bench.pen();
                (bench.tapped_pen() - before).abs()
            }
        ),
        Fault::PenZeroOff { .. } => number!(
            "the pen's zero below the chart's, blower off, by raising it off its stop",
            "divisions",
            EYE_CHART,
            |bench| {
                bench.recorder();
                let mut raised = 0.0;
                while bench.tapped_pen() < 0.25 && raised < 8.0 {
                    bench.act(Action::SetPenZero { by: 1.0 });
                    raised += 1.0;
                }
                raised - bench.tapped_pen()
            }
        ),
        Fault::PenDry => word!("the trace behind the pen", |bench| {
            bench.running(60.0);
            if bench.view().recorder.trace.is_empty() { "none" } else { "ink" }.to_owned()
        }),
        Fault::RecorderLineLeaks { .. } | Fault::ExitOrificeBlocked { .. } => {
            number!("the tapped pen, fully open", "divisions", EYE_CHART, |bench| {
                bench.running(310.0);
                bench.tapped_pen()
            })
        }
        Fault::ChartOfAnotherRange { .. } => {
            number!("the last printed division", "divisions", 1.0, |bench| {
                bench.view().recorder.printed_to
            })
        }
        Fault::ChartClockSlow { .. } => {
            number!("the chart behind the watch after 40 min", "min", 1.0, |bench| {
                bench.recorder();
                let set = bench.view().recorder.chart_hour;
                bench.wait(2400.0);
                40.0 - (60.0 * (bench.view().recorder.chart_hour - set)).round()
            })
        }
        _ => surroundings_and_paper(fault),
    }
}

fn surroundings_and_paper(fault: &Fault) -> Probe {
    match fault {
        Fault::BarometerAtSeaLevel | Fault::BarometerOff { .. } => {
            number!("the barometer", "mmHg", EYE_BAROMETER_MMHG, |bench| {
                bench.look(Sight::Barometer).barometer.pointer_mmhg
            })
        }
        Fault::ThermometerInSun { .. } => {
            number!("the thermometer as found", "degrees Celsius", EYE_THERMOMETER_C, |bench| {
                bench.wait(600.0);
                bench.look(Sight::Thermometer).thermometer.column_c
            })
        }
        Fault::Gusts { .. } => number!(
            "how far the left leg moves within 30 s, both ends open",
            "in",
            EYE_LEG_IN,
            |bench| {
                bench.hung();
                range(bench, 30, |bench| bench.view().manometer.left.meniscus_in)
            }
        ),
        Fault::FastWeather { .. } => number!(
            "the thermometer in the shade, 35 min after arrival less on arrival",
            "degrees Celsius",
            EYE_THERMOMETER_C,
            |bench| {
                let arrival_c = bench.look(Sight::Thermometer).thermometer.column_c;
                bench.wait(2100.0);
                bench.view().thermometer.column_c - arrival_c
            }
        ),
        Fault::CertificateExpired => {
            number!("age of the certificate on top", "days", 1.0, |bench| {
                let today = bench.view().date;
                today.days_since(top(bench).date) as f64
            })
        }
        Fault::CertificateOfAnother => word!("serial number on the certificate", |bench| {
            let plate = bench.look(Sight::Calibrator).calibrator.serial.unwrap();
            let same = top(bench).serial == plate;
            if same { "the plate's" } else { "not the plate's" }.to_owned()
        }),
        Fault::CertificateActualFirst => {
            number!("the slope printed first", "", 1e-4, |bench| {
                let paper = top(bench);
                if paper.actual_first { paper.actual.slope } else { paper.standard.slope }
            })
        }
        Fault::CertificateFarFromLast => number!(
            "flow at 4 inches of water by the certificate on top",
            "m3/min",
            0.001,
            |bench| {
                let pair = top(bench).standard;
                (2.0 - pair.intercept) / pair.slope
            }
        ),
        Fault::CertificateDigitsExchanged => {
            number!("the slope on the paper on top", "", 1e-4, |bench| top(bench).standard.slope)
        }
        _ => run_probes::probe(fault),
    }
}

/// The certificate on top.
fn top(bench: &Bench) -> sim_core::scenario::setup::Certificate {
    bench.session().papers().certificates[0].clone()
}

/// Highest less lowest of what is read once a second.
fn range(bench: &mut Bench, seconds: u32, read: fn(&mut Bench) -> f64) -> f64 {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for _ in 0..seconds {
        bench.wait(1.0);
        let now = read(bench);
        (low, high) = (low.min(now), high.max(now));
    }
    high - low
}

fn dips_in(bench: &mut Bench) -> f64 {
    bench.hung();
    bench.wait(5.0);
    bench.act(Action::BlowThrough);
    bench.wait(0.4);
    0.5 * bench.column_in().abs()
}

fn sinks_in(bench: &mut Bench) -> f64 {
    bench.running(60.0);
    let stood_in = bench.view().manometer.left.meniscus_in;
    bench.act(Action::TurnValve { leg: Leg::Left, quarter_turns: -4 });
    bench.wait(15.0);
    stood_in - bench.view().manometer.left.meniscus_in
}

fn creeps_in(bench: &mut Bench) -> f64 {
    bench.running(310.0);
    bench.act(Action::TurnKnob { opening: 0.3 });
    bench.wait(15.0);
    let early_in = bench.column_in();
    bench.wait(105.0);
    early_in - bench.column_in()
}
