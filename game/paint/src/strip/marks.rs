//! The upper part of the strip: phases, waits, and the row of readings, remarks and findings.

use content::names::phase_name;
use sim_core::marking::time_line::{NoteKind, WaitKind};
use sim_core::procedure::Severity;

use super::layout::{EDGE, MARKS, PHASES, StripScale, TimelineStrip, WAITS};
use crate::canvas::{Canvas, Lettering, LineWeight, TextAlign, rect_path};
use crate::palette::{CAUTION, CAUTION_WASH, COPPER, HAND_INK, INK, INK_SOFT, PAGE, PAPER_SHADE};
use crate::text::{self, FontStyle};

/// Draws them, and says where they end.
pub fn draw(canvas: &mut Canvas, strip: &TimelineStrip<'_>, sheet: &StripScale) -> f32 {
    let unit = sheet.unit;
    let top = EDGE * unit;
    phases(canvas, strip, sheet, top);
    let waits_at = top + PHASES * unit;
    waits(canvas, strip, sheet, waits_at);
    let row = waits_at + WAITS * unit;
    notes(canvas, strip, sheet, row + 0.5 * MARKS * unit);
    row + MARKS * unit
}

fn phases(canvas: &mut Canvas, strip: &TimelineStrip<'_>, sheet: &StripScale, top: f32) {
    let height = PHASES * sheet.unit;
    sheet.name(canvas, top + 0.5 * height, "phases");
    let set = Lettering::new(FontStyle::Regular, sheet.size(), INK).align(TextAlign::Middle);
    for (number, span) in strip.line.phases.iter().enumerate() {
        let (from, to) = (sheet.x(span.from), sheet.x(span.to));
        let wide = (to - from).max(1.0);
        let fill = if number % 2 == 0 { PAPER_SHADE } else { PAGE };
        canvas.rect(
            (from, top),
            (wide, height),
            fill.color(),
            Some((INK.color(), LineWeight::THIN)),
        );
        let name = phase_name(span.phase);
        if text::width(FontStyle::Regular, sheet.size(), name) + 6.0 * sheet.unit <= wide {
            let at = (0.5 * (from + to), top + 0.5 * height + 0.35 * sheet.size());
            canvas.text(at, name, set);
        }
    }
}

fn waits(canvas: &mut Canvas, strip: &TimelineStrip<'_>, sheet: &StripScale, top: f32) {
    let height = WAITS * sheet.unit;
    sheet.name(canvas, top + 0.5 * height, "waits");
    for wait in &strip.line.waits {
        let (from, to) = (sheet.x(wait.from), sheet.x(wait.to));
        let (at, size) =
            ((from, top + 2.0 * sheet.unit), ((to - from).max(1.0), height - 3.0 * sheet.unit));
        let Some(path) = rect_path(at, size) else { continue };
        let gap = match wait.kind {
            WaitKind::AtStation => 5.0,
            WaitKind::Away => 2.5,
        };
        canvas.hatch(&path, -45.0, gap * sheet.unit, INK_SOFT.color(), LineWeight::FINE);
        canvas.stroke(&path, INK_SOFT.color(), LineWeight::FINE);
    }
}

/// Readings are strokes, remarks are flags, the decision is a square, findings are triangles: filled if
/// they are about safety or decided the result.
fn notes(canvas: &mut Canvas, strip: &TimelineStrip<'_>, sheet: &StripScale, y: f32) {
    let unit = sheet.unit;
    sheet.name(canvas, y, "events");
    let (left, right) = (sheet.left(), sheet.right());
    canvas.line(
        (left, y + 8.0 * unit),
        (right, y + 8.0 * unit),
        INK_SOFT.color(),
        LineWeight::FINE,
    );
    let ink = INK.color();
    // Findings are drawn on top.
    for of_findings in [false, true] {
        for note in &strip.line.notes {
            let x = sheet.x(note.tick);
            match note.what {
                NoteKind::Finding(_) if !of_findings => {}
                NoteKind::Reading(_) | NoteKind::Remark(_) | NoteKind::Decision if of_findings => {}
                NoteKind::Reading(_) => {
                    let (from, to) = ((x, y + 1.0 * unit), (x, y + 8.0 * unit));
                    canvas.mark(from, to, COPPER.color(), LineWeight(1.6 * unit));
                }
                NoteKind::Remark(_) => {
                    canvas.line((x, y - 7.0 * unit), (x, y + 8.0 * unit), ink, LineWeight::THIN);
                    let flag = [
                        (x, y - 8.0 * unit),
                        (x + 8.0 * unit, y - 5.0 * unit),
                        (x, y - 2.0 * unit),
                    ];
                    canvas.polygon(&flag, HAND_INK.color(), Some((ink, LineWeight::FINE)));
                }
                NoteKind::Decision => {
                    let (at, side) = ((x - 4.0 * unit, y - 1.0 * unit), 8.0 * unit);
                    canvas.rect(at, (side, side), PAGE.color(), Some((ink, LineWeight::MEDIUM)));
                }
                NoteKind::Finding(number) => {
                    let finding = strip.marks.findings.get(number);
                    let safety =
                        |severity| matches!(severity, Severity::Critical | Severity::Safety);
                    let grave = finding.is_some_and(|one| safety(one.severity) || one.decisive);
                    let half = 5.5 * unit;
                    let shape = [
                        (x, y - 8.0 * unit),
                        (x + half, y + 2.0 * unit),
                        (x - half, y + 2.0 * unit),
                    ];
                    let (fill, edge) =
                        if grave { (CAUTION, CAUTION) } else { (CAUTION_WASH, COPPER) };
                    canvas.polygon(&shape, fill.color(), Some((edge.color(), LineWeight::THIN)));
                }
            }
        }
    }
}
