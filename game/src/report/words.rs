//! The debrief in words, for a terminal or a screen reader.

use std::io::{self, Write};

use sim_core::field_book::Field;
use sim_core::marking::compared::compare;
use sim_core::marking::{FaultVerdict, MarkPartName, Marks, ReadingJudged, RunJudged, Standing};
use sim_core::procedure::{ProcedureFinding, RuleSource, Severity, SourceMark};
use sim_core::session::ending::Ending;
use sim_core::time::{Tick, TimeOfDay};

use super::figures::{Figures, OWN, REDONE, TRUE};
use crate::commands::session_files::Ended;

/// The caution that stands on every report.
pub const CAUTION: &str = "A training aid, not a procedure: the site's own rules, the instrument's \
own instructions, local codes and licensed practice come first.";

/// Writes the whole debrief.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_debrief(out: &mut dyn Write, ended: &Ended) -> io::Result<()> {
    let Ended { signed, head, marks, costs } = ended;
    let station = &signed.setup.station;
    writeln!(out, "Debrief: {}, {}", station.name, station.date)?;
    let (minutes, how) = (signed.end_tick.seconds() / 60.0, ending(signed.ended));
    writeln!(out, "{how} after {minutes:.0} min on the bench, seed {}.", signed.source.seed)?;
    writeln!(out)?;
    write_marks(out, marks, station.start)?;
    super::cost_words::write_costs(out, costs)?;
    write_decided(out, &Figures::of(marks, &compare(signed), costs))?;
    writeln!(out, "\n{CAUTION}")?;
    writeln!(out, "Program {}, scenario {}", sim_core::VERSION, signed.source.sha256)?;
    writeln!(out, "Head of the journal {head}")
}

/// Writes result, parts, findings, faults and readings. `start` is the time at the first tick.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_marks(out: &mut dyn Write, marks: &Marks, start: TimeOfDay) -> io::Result<()> {
    writeln!(out, "{}", result(marks))?;
    writeln!(out)?;
    for part in &marks.parts {
        writeln!(out, "  {:<10} {:5.1} of {:3.0}", part_name(part.name), part.got, part.weight)?;
        for reason in &part.reasons {
            writeln!(out, "             - {reason}")?;
        }
    }
    writeln!(out, "  {:<10} {:5.1} of 100, {:.0} needed", "total", marks.total, marks.pass_mark)?;
    if let Some(error) = marks.set_point_flow_error_pct {
        writeln!(
            out,
            "\nFlow at the ordered set point by the own line: {error:+.2} % off the true one."
        )?;
    }
    if let Some(run) = &marks.run {
        write_run(out, run)?;
    }
    write_findings(out, &marks.findings, start)?;
    write_faults(out, marks, start)?;
    write_readings(out, &marks.readings, start)
}

/// Writes what was decided and what was true.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_decided(out: &mut dyn Write, figures: &Figures) -> io::Result<()> {
    writeln!(out, "\nDecided and true           {OWN:>12} {REDONE:>16} {TRUE:>10}")?;
    for (row, unit, [own, redone, truth]) in figures.rows([OWN, REDONE, TRUE]) {
        let line = format!("  {row:<24} {own:>12} {redone:>16} {truth:>10}  {unit}");
        writeln!(out, "{}", line.trim_end())?;
    }
    writeln!(out, "Figures")?;
    for (row, unit, [value]) in figures.rows(["value"]) {
        writeln!(out, "  {}", format!("{row:<50} {value:>10}  {unit}").trim_end())?;
    }
    Ok(())
}

/// The run as written against what it truly drew.
fn write_run(out: &mut dyn Write, run: &RunJudged) -> io::Result<()> {
    let truth = &run.truth;
    writeln!(
        out,
        "\nThe run: {:.1} standard m3 in {:.1} min, {:.3} m3/min in the mean ({:.3} to {:.3}).",
        truth.volume_std_m3,
        truth.powered_min,
        truth.mean_flow_std_m3_min,
        truth.lowest_std_m3_min,
        truth.highest_std_m3_min,
    )?;
    if truth.starts > 1 {
        writeln!(out, "  The power came {} times.", truth.starts)?;
    }
    match run.volume_std_m3.zip(run.error_pct) {
        Some((volume, error)) => {
            writeln!(out, "  Volume as written: {volume} m3, {error:+.2} % off the true one.")?;
        }
        None => writeln!(out, "  No volume was written.")?,
    }
    if let Some(error) = run.perfect_trace_error_pct {
        writeln!(out, "  By the own line and the trace read perfectly: {error:+.2} %.")?;
    }
    Ok(())
}

fn write_findings(
    out: &mut dyn Write,
    findings: &[ProcedureFinding],
    start: TimeOfDay,
) -> io::Result<()> {
    if findings.is_empty() {
        return writeln!(out, "\nNo findings.");
    }
    writeln!(out, "\nFindings")?;
    for Together { finding, points } in together(findings) {
        let time = start.after(finding.tick);
        let points = match points_words(&points) {
            words if words.is_empty() => words,
            words => format!(", {words}"),
        };
        writeln!(out, "  {time}{points}  [{}] {}", severity(finding.severity), finding.title)?;
        writeln!(out, "      {}", finding.evidence)?;
        writeln!(out, "      Why: {}", finding.why)?;
        writeln!(out, "      Source: {}", source(finding))?;
    }
    Ok(())
}

/// Findings that say the same, once.
#[derive(Debug, Clone)]
pub struct Together<'a> {
    /// The first of them.
    pub finding: &'a ProcedureFinding,
    /// The points at which it was found, in order.
    pub points: Vec<u8>,
}

/// Findings of one rule that show the same, each once, with every point at which they were made.
pub fn together(findings: &[ProcedureFinding]) -> Vec<Together<'_>> {
    let mut groups: Vec<Together<'_>> = Vec::new();
    for finding in findings {
        let same = |group: &&mut Together<'_>| {
            (group.finding.rule, &group.finding.evidence) == (finding.rule, &finding.evidence)
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.points.extend(finding.point),
            None => {
                groups.push(Together { finding, points: finding.point.into_iter().collect() });
            }
        }
    }
    groups
}

/// `point 2`, `points 2, 3, 5`, or nothing.
pub fn points_words(points: &[u8]) -> String {
    let names: Vec<String> = points.iter().map(u8::to_string).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => format!("point {one}"),
        many => format!("points {}", many.join(", ")),
    }
}

fn write_faults(out: &mut dyn Write, marks: &Marks, start: TimeOfDay) -> io::Result<()> {
    if marks.faults.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nFaults")?;
    for fault in &marks.faults {
        let when = reported(fault.reported, start);
        writeln!(out, "  {}: {} ({when})", fault.what, verdict(fault.verdict))?;
    }
    Ok(())
}

fn write_readings(
    out: &mut dyn Write,
    readings: &[ReadingJudged],
    start: TimeOfDay,
) -> io::Result<()> {
    if readings.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nReadings                        written     seen  off, divisions")?;
    for reading in readings {
        let time = start.after(reading.tick);
        let name = field_name(reading.field);
        let (written, seen) = (reading.written, reading.seen);
        let off = off(reading);
        writeln!(out, "  {time} {name:<20} {written:8.2} {seen:8.2} {off:>6}")?;
    }
    Ok(())
}

/// How far a reading is off in divisions: plus when more was written than was to be seen.
pub fn off(reading: &ReadingJudged) -> String {
    let less = reading.written.abs() < reading.seen.abs();
    let value = if less { -reading.off_divisions } else { reading.off_divisions };
    let hundredths = (100.0 * value).round() / 100.0;
    if hundredths == 0.0 { "0.00".to_owned() } else { format!("{hundredths:+.2}") }
}

/// `passed` or `not yet`, and by how much.
pub fn result(marks: &Marks) -> String {
    let word = if marks.passed { "Passed" } else { "Not yet" };
    let standing = match marks.standing {
        Standing::Worked => "",
        Standing::RightlyStopped => " The work was rightly stopped.",
        Standing::BrokenOff => " The work was broken off.",
    };
    let (got, needed) = (marks.total, marks.pass_mark);
    match &marks.gate {
        Some(gate) => {
            let though = if got >= needed { "in spite of" } else { "with" };
            let (title, shown) = (gate.title, &gate.evidence);
            format!(
                "{word}, {though} {got:.1} marks of {needed:.0} needed: a must was missed: {title} \
                 ({shown}).{standing}"
            )
        }
        None => format!("{word}: {got:.1} of 100, {needed:.0} needed.{standing}"),
    }
}

/// The source of a finding, with its mark.
pub fn source(finding: &ProcedureFinding) -> String {
    source_words(finding.source)
}

/// A source with its mark, said once.
pub fn source_words(source: RuleSource) -> String {
    match source.mark {
        SourceMark::Memory if !source.text.contains("from memory") => {
            format!("{} (from memory)", source.text)
        }
        SourceMark::Memory | SourceMark::Read | SourceMark::Practice => source.text.to_owned(),
    }
}

/// How a session ended, in words.
pub const fn ending(ending: Ending) -> &'static str {
    match ending {
        Ending::Signed => "Signed",
        Ending::TimeOut => "The time ran out",
        Ending::LeftRoof => "The roof was left",
        Ending::Broken => "Broken off by an error of the program",
    }
}

/// A part's name.
pub const fn part_name(part: MarkPartName) -> &'static str {
    match part {
        MarkPartName::Safety => "safety",
        MarkPartName::Readings => "readings",
        MarkPartName::Fit => "fit",
        MarkPartName::Procedure => "procedure",
        MarkPartName::Judgement => "judgement",
        MarkPartName::Record => "record",
    }
}

/// A severity's name.
pub const fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Critical => "safety, critical",
        Severity::Safety => "safety",
        Severity::Data => "data",
        Severity::Practice => "practice",
    }
}

/// What became of a fault, in words.
pub fn verdict(verdict: FaultVerdict) -> String {
    // The names of the verdicts are plain words joined by underscores.
    serde_json::to_value(verdict)
        .ok()
        .and_then(|value| value.as_str().map(|name| name.replace('_', " ")))
        .unwrap_or_default()
}

/// When a fault was reported.
pub fn reported(tick: Option<Tick>, start: TimeOfDay) -> String {
    tick.map_or_else(|| "not reported".to_owned(), |tick| format!("reported {}", start.after(tick)))
}

/// A field's name in words.
pub fn field_name(field: Field) -> String {
    let plain = match field {
        Field::CalibratorSerial => "calibrator serial",
        Field::CertificateSerial => "certificate serial",
        Field::CertificateDate => "certificate date",
        Field::CertificateSlope => "certificate slope",
        Field::CertificateIntercept => "certificate intercept",
        Field::Temperature => "temperature, C",
        Field::Pressure => "pressure, mmHg",
        Field::Expression => "expression",
        Field::Slope => "slope",
        Field::Intercept => "intercept",
        Field::Correlation => "correlation",
        Field::Decision => "decision",
        Field::TargetFlow => "target flow, m3/min",
        Field::SetPoint => "set point, chart",
        Field::CheckTemperature => "check temperature, C",
        Field::CheckPressure => "check pressure, mmHg",
        Field::CheckFlow => "check flow, m3/min",
        Field::CheckLineFlow => "check line flow, m3/min",
        Field::CheckDifference => "check difference, %",
        Field::CheckOutcome => "check outcome",
        Field::CheckUp(reading) => return format!("check {} up, in", reading.number()),
        Field::CheckDown(reading) => return format!("check {} down, in", reading.number()),
        Field::CheckChart(reading) => return format!("check {} chart", reading.number()),
        Field::FilterNumber => "filter number",
        Field::MeterBefore => "meter before, min",
        Field::StartChart => "start chart",
        Field::EndChart => "end chart",
        Field::MeterAfter => "meter after, min",
        Field::RunMinutes => "run minutes",
        Field::MeanChart => "mean chart",
        Field::RunPressure => "run pressure, mmHg",
        Field::RunTemperature => "run temperature, C",
        Field::RunFlow => "run flow, m3/min",
        Field::Volume => "volume, m3",
        Field::Concentration => "concentration, ug/m3",
        Field::Validity => "validity",
        Field::Custody => "custody",
        Field::NextFilterNumber => "next filter number",
        Field::PartChart(part) => return format!("part {} chart", part.number()),
        Field::PartMinutes(part) => return format!("part {} minutes", part.number()),
        Field::Remarks => "remarks",
        Field::Up(point) => return format!("point {} up, in", point.number()),
        Field::Down(point) => return format!("point {} down, in", point.number()),
        Field::DeltaH(point) => return format!("point {} dH, in", point.number()),
        Field::Chart(point) => return format!("point {} chart", point.number()),
        Field::PointFlow(point) => return format!("point {} flow", point.number()),
        Field::ChartTerm(point) => return format!("point {} term", point.number()),
    };
    plain.to_owned()
}
