//! What is asked.

use sim_core::drill::{Asked, DrillKind, FARTHEST_EYE_MM, Question, StandardSource};
use sim_core::rig::parts::Leg;

use crate::names::name;
use crate::parse::vocabulary::LEGS;
use crate::prose::{list, sentence};

/// The question, as a sentence.
pub fn asked(question: &Question) -> String {
    match question.asked() {
        Asked::Leg(leg) => format!(
            "What does the {} leg read, in inches? Above zero is positive, below zero is negative.",
            name(LEGS, leg)
        ),
        Asked::Difference => {
            "Which pressure do both legs show together, in inches of water?".to_owned()
        }
        Asked::Pen => "What does the pen read, in chart divisions?".to_owned(),
        Asked::StationPressure => "What is the station pressure, in mmHg?".to_owned(),
        Asked::Temperature => "What is the temperature, in degrees Celsius?".to_owned(),
        Asked::ChartMean => {
            "What is the mean of the trace over the hours that have one, in chart divisions?".to_owned()
        }
        Asked::ElapsedTime => "What does the elapsed-time meter read, in minutes?".to_owned(),
        Asked::WaterAtRest(leg) => format!(
            "Is the water in the {} leg at rest at the last look? Answer `at rest` or `moving`.",
            name(LEGS, leg)
        ),
        Asked::PenAtRest => {
            "Is the pen at rest at the last look? Answer `at rest` or `moving`.".to_owned()
        }
        Asked::ValidCertificate { plate, today } => format!(
            "The plate on the calibrator says {plate}, and today is {today}. Which certificate do you \
             use, 1, 2, 3 or 4?"
        ),
        Asked::WhatIsWrong => {
            "What is loose, kinked, missing or out of its place? Name one part, or answer `nothing`."
                .to_owned()
        }
        Asked::PointFlow => {
            "What is the flow at standard conditions, in m3/min, to three decimals?".to_owned()
        }
        Asked::PointTerm => {
            "What is the corrected chart reading, to two decimals? The chart is a square-root chart."
                .to_owned()
        }
        Asked::LineVerdict => "Can the line be accepted? Answer `accept`, `range` if the points do not \
             include the range of flows, or the point that must be taken again, such as `point 3`."
            .to_owned(),
    }
}

/// When a skill is good enough, as a sentence.
pub fn standard_words(kind: DrillKind) -> String {
    let standard = kind.standard();
    let (needed, of_last) = (standard.needed, standard.of_last);
    let limit = match kind {
        DrillKind::Leg => "within half a division (0.05 in)",
        DrillKind::Difference => "within half a division for each leg (0.1 in)",
        DrillKind::Pen => "within half a division",
        DrillKind::Barometer => "within half a division (0.5 mmHg)",
        DrillKind::Thermometer => "within half a degree",
        DrillKind::ChartMean => "within half a division",
        DrillKind::ElapsedTime => "right to a tenth of a minute",
        DrillKind::PointSums => "within 0.5 %",
        DrillKind::WaterAtRest
        | DrillKind::PenAtRest
        | DrillKind::Certificate
        | DrillKind::Station
        | DrillKind::Line => "right",
    };
    let source = match standard.source {
        StandardSource::CommonPractice => {
            "that is common practice; the time and the count are chosen for this bench"
        }
        StandardSource::Chosen => "limits chosen for this bench",
    };
    format!(
        "Good enough: {needed} of the last {of_last} answers {limit}, each in at most {:.0} s ({source}).",
        standard.within_s
    )
}

/// What can be said with this question.
pub fn help(question: &Question) -> String {
    let mut forms = vec![match question.choices().as_slice() {
        [] => "Type a number.".to_owned(),
        choices => {
            let names: Vec<String> = choices.iter().map(|name| name.replace('-', " ")).collect();
            sentence(&format!("answer with one of these: {}", list(&names)))
        }
    }];
    if question.eye_moves() {
        forms.push(format!(
            "`eye level` brings your eye level with what you read; `eye 40` holds it 40 mm above, `eye \
             -40` below ({FARTHEST_EYE_MM} mm at most)."
        ));
    }
    if question.barometer_can_be_set() {
        forms.push("`set station` and `set sea level` set the barometer's index.".to_owned());
    }
    if question.can_be_read_in_words() {
        forms.push(
            "`in words` has the reading read out, for those who cannot see a scale; it is recorded."
                .to_owned(),
        );
    }
    forms.push("`again` says once more what is seen. `quit` ends the drill.".to_owned());
    forms.join("\n")
}

/// The name of a leg.
pub(super) fn leg_name(leg: Leg) -> &'static str {
    name(LEGS, &leg)
}
