//! What was done when: the phases of the work, the waits, the readings and the findings.

use sim_core::field_book::Field;
use sim_core::marking::Marks;
use sim_core::procedure::{Phase, Severity};
use sim_core::session::action::{Action, Sight};
use sim_core::session::signed::Signed;
use sim_core::time::Tick;

use super::words::{Together, together};

/// A session laid out in time.
#[derive(Debug, Clone, PartialEq)]
pub struct TimeLine {
    /// What was worked at, one after the other; together they cover the session.
    pub spans: Vec<Span>,
    /// Waits that were asked for.
    pub waits: Vec<(Tick, Tick)>,
    /// When a reading was written.
    pub readings: Vec<Tick>,
    /// When a finding was made, in the order and with the numbers of the findings.
    pub findings: Vec<(Tick, Severity)>,
    /// When the site was left to the run, if it was, and when the trainee was back.
    pub away: Option<(Tick, Tick)>,
    /// When the session ended.
    pub end: Tick,
}

/// A time of work in one phase.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// The phase.
    pub phase: Phase,
    /// From when on.
    pub from: Tick,
    /// Until when.
    pub to: Tick,
}

/// All that was done in one phase.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhaseTime {
    /// The phase.
    pub phase: Phase,
    /// When it was first begun.
    pub first: Tick,
    /// Time spent in it, s.
    pub spent_s: f64,
    /// Of that, time that was waited, s.
    pub waited_s: f64,
    /// Readings written in it.
    pub readings: usize,
    /// Findings made in it.
    pub findings: usize,
}

impl TimeLine {
    /// The time line of a session.
    pub fn of(signed: &Signed, marks: &Marks) -> Self {
        let moments = &signed.moments;
        let action_at = |wanted: &dyn Fn(&Action) -> bool| {
            moments.iter().rposition(|moment| wanted(&moment.action))
        };
        let last_reading = action_at(
            &|action| matches!(action, Action::Write { field, .. } if is_at_point(*field)),
        );
        let left = action_at(&|action| *action == Action::LeaveSite);
        let mut spans: Vec<Span> = Vec::new();
        for (index, moment) in moments.iter().enumerate() {
            let side = Side {
                points_read: last_reading.is_some_and(|last| index > last),
                back: left.is_some_and(|left| index > left),
            };
            let before = spans.last().map_or(Phase::Arrive, |span| span.phase);
            let phase = phase_of(&moment.action, side).unwrap_or(before);
            if let Some(last) = spans.last_mut() {
                last.to = moment.tick;
            }
            if spans.last().is_none_or(|span| span.phase != phase) {
                let from = if spans.is_empty() { Tick(0) } else { moment.tick };
                spans.push(Span { phase, from, to: moment.tick });
            }
        }
        if let Some(last) = spans.last_mut() {
            last.to = signed.end_tick;
        }
        spans.retain(|span| span.from < span.to);
        let away = left.and_then(|left| {
            let from = moments.get(left)?.tick;
            let to = moments.get(left + 1).map_or(signed.end_tick, |moment| moment.tick);
            Some((from, to))
        });
        let waits = moments.iter().filter_map(|moment| match moment.action {
            Action::Wait { seconds } => {
                let ticks = (seconds / sim_core::time::TICK_SECONDS).round().max(0.0) as u64;
                Some((moment.tick, moment.tick.later(ticks).min(signed.end_tick)))
            }
            _ => None,
        });
        let findings = together(&marks.findings);
        let mark = |one: &Together<'_>| (one.finding.tick, one.finding.severity);
        Self {
            spans,
            waits: waits.collect(),
            readings: marks.readings.iter().map(|reading| reading.tick).collect(),
            findings: findings.iter().map(mark).collect(),
            away,
            end: signed.end_tick,
        }
    }

    /// Each phase that was worked at, in the order of the work, with what happened in it.
    pub fn phases(&self) -> Vec<PhaseTime> {
        let mut phases: Vec<Phase> = self.spans.iter().map(|span| span.phase).collect();
        phases.sort_unstable();
        phases.dedup();
        phases.into_iter().filter_map(|phase| self.phase(phase)).collect()
    }

    fn phase(&self, phase: Phase) -> Option<PhaseTime> {
        let spans: Vec<&Span> = self.spans.iter().filter(|span| span.phase == phase).collect();
        let within = |from: Tick, to: Tick| -> f64 {
            let shared = |span: &&Span| span.to.min(to).seconds_since(span.from.max(from));
            spans.iter().map(shared).sum()
        };
        let holds = |tick: Tick| {
            // What is done at the very end belongs to the last span.
            spans.iter().any(|span| {
                (span.from..span.to).contains(&tick) || tick == span.to && tick == self.end
            })
        };
        let away_s = self.away.map_or(0.0, |(from, to)| within(from, to));
        Some(PhaseTime {
            phase,
            first: spans.first()?.from,
            spent_s: within(Tick(0), self.end) - away_s,
            waited_s: self.waits.iter().map(|&(from, to)| within(from, to)).sum(),
            readings: self.readings.iter().filter(|&&tick| holds(tick)).count(),
            findings: self.findings.iter().filter(|&&(tick, _)| holds(tick)).count(),
        })
    }

    /// Minutes on the bench at a tick: the time away counts for nothing.
    pub fn minutes_at(&self, tick: Tick) -> f64 {
        let away_s = self.away.map_or(0.0, |(from, to)| tick.min(to).seconds_since(from));
        (tick.seconds() - away_s) / 60.0
    }

    /// Minutes on the bench in all.
    pub fn minutes(&self) -> f64 {
        self.minutes_at(self.end)
    }
}

/// Which side of the points and of the run an action lies on: much is done on the way there and
/// undone on the way back.
#[derive(Debug, Clone, Copy)]
struct Side {
    points_read: bool,
    back: bool,
}

/// Whether a reading at a point stands in a field.
const fn is_at_point(field: Field) -> bool {
    matches!(field, Field::Up(_) | Field::Down(_) | Field::Chart(_))
}

/// The phase that an action belongs to; `None` for what belongs to every phase.
fn phase_of(action: &Action, side: Side) -> Option<Phase> {
    let there = |phase| Some(if side.points_read { Phase::Restore } else { phase });
    match action {
        Action::Look { at, .. } => looked(*at),
        Action::PlaceThermometer { .. } | Action::SetBarometer { .. } => Some(Phase::Arrive),
        Action::Write { field, .. } => Some(written(*field)),
        Action::TakeFilter { .. } | Action::FoldFilter { .. } | Action::TakeChart if side.back => {
            Some(Phase::Recover)
        }
        _ if side.back => None,
        Action::HoldToLight
        | Action::TurnFilter
        | Action::CentreFilter
        | Action::SetTripper { .. }
        | Action::FastenTripper { .. }
        | Action::SetDial { .. }
        | Action::TurnTrim { .. }
        | Action::LeaveSite => Some(Phase::Load),
        Action::TakeFilter { .. } if side.points_read => Some(Phase::Load),
        Action::OpenLid
        | Action::TurnNut { .. }
        | Action::SetWasher { .. }
        | Action::Take { .. }
        | Action::Put { .. }
        | Action::FitGasket { .. }
        | Action::UnplugSampler
        | Action::TakeFilter { .. } => there(Phase::Strip),
        Action::TurnValve { .. }
        | Action::SlideScale { .. }
        | Action::SwingManometer { .. }
        | Action::ConnectTube
        | Action::DisconnectTube
        | Action::StraightenTube
        | Action::DrainTube
        | Action::BlowThrough => there(Phase::Manometer),
        Action::PlugBlower { .. }
        | Action::SwitchLine { .. }
        | Action::SwitchTimer { .. }
        | Action::PlugSampler
        | Action::UncapPen
        | Action::LowerPen
        | Action::BlockOpenings
        | Action::FreeOpenings
        | Action::SetPenZero { .. } => there(Phase::Power),
        Action::TurnKnob { .. } | Action::MarkChart { .. } => there(Phase::Points),
        Action::CloseLid | Action::CapPen | Action::LiftPen => there(Phase::Power),
        _ => None,
    }
}

const fn looked(at: Sight) -> Option<Phase> {
    match at {
        Sight::WorkOrder
        | Sight::Certificate(_)
        | Sight::Sky
        | Sight::RoofEdge
        | Sight::Barometer
        | Sight::Thermometer => Some(Phase::Arrive),
        _ => None,
    }
}

const fn written(field: Field) -> Phase {
    match field {
        Field::CalibratorSerial
        | Field::CertificateSerial
        | Field::CertificateDate
        | Field::CertificateSlope
        | Field::CertificateIntercept
        | Field::Temperature
        | Field::Pressure => Phase::Arrive,
        Field::Up(_) | Field::Down(_) | Field::Chart(_) => Phase::Points,
        Field::DeltaH(_)
        | Field::PointFlow(_)
        | Field::ChartTerm(_)
        | Field::Expression
        | Field::Slope
        | Field::Intercept
        | Field::Correlation
        | Field::Decision
        | Field::Remarks => Phase::Sums,
        Field::TargetFlow | Field::SetPoint => Phase::SetPoint,
        Field::FilterNumber | Field::MeterBefore | Field::StartChart => Phase::Load,
        Field::EndChart | Field::MeterAfter | Field::Custody => Phase::Recover,
        Field::RunMinutes
        | Field::MeanChart
        | Field::PartChart(_)
        | Field::PartMinutes(_)
        | Field::RunPressure
        | Field::RunTemperature
        | Field::RunFlow
        | Field::Volume
        | Field::Concentration
        | Field::Validity => Phase::Volume,
    }
}

/// A phase in a few words.
pub const fn phase_name(phase: Phase) -> &'static str {
    match phase {
        Phase::Arrive => "arrive",
        Phase::Strip => "strip and mount",
        Phase::Manometer => "manometer",
        Phase::Power => "power and leaks",
        Phase::Points => "points",
        Phase::Restore => "restore",
        Phase::Sums => "sums",
        Phase::SetPoint => "set point",
        Phase::Load => "load and arm",
        Phase::Recover => "recover",
        Phase::Volume => "volume",
    }
}
