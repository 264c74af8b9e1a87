//! The field book: what is written, and where.

use sim_core::field_book::{Field, PointNumber, number_as_written};
use sim_core::session::action::Action;

use super::catch::Caught;
use super::form::{Built, Form, Known, Trouble, but, form, one, several};
use super::sentence::unquoted;

pub(super) const FORMS: &[Form] = &[
    form(
        &["write|enter|record point <reading> <reading> <reading>"],
        &["write point 3.1 3.0 47"],
        "up, down, chart of the next free point",
        |caught, known| point(next_point(known)?, caught),
    ),
    form(
        &["write|enter|record point <number> <reading> <reading> <reading>"],
        &["write point 2 3.1 3.0 47"],
        "up, down, chart of that point",
        |caught, _| point(caught.point()?, caught),
    ),
    form(
        &[
            "write|enter|record point <number> <point-field> <text>",
            "write|enter|record <point-field> point <number> <text>",
        ],
        &[
            "write point 2 up 3.1",
            "write point 2 down 3.0",
            "write point 2 sum 6.1",
            "write point 2 chart 47",
            "write point 2 flow 1.36",
            "write point 2 chart term 46.8",
        ],
        "one entry of a point",
        |caught, _| write(caught.point_field()?(caught.point()?), &caught.text()?),
    ),
    form(
        &["write|enter|record part <number> <part-field> <text>"],
        &["write part 1 chart 44", "write part 1 minutes 360"],
        "one part of a run in which the flow changed much",
        |caught, _| write(caught.point_field()?(caught.point()?), &caught.text()?),
    ),
    form(
        &["write|enter|record check <number> <check-field> <text>"],
        &["write check 1 up 1.65", "write check 1 down 1.6", "write check 1 chart 39"],
        "one reading of a flow check",
        |caught, _| write(caught.point_field()?(caught.point()?), &caught.text()?),
    ),
    form(
        &["write|enter|record point <number> <point-field>", "write|enter|record <field>"],
        &[],
        "",
        |_, _| but("say what is to be written there, such as `write point 2 up 3.1`"),
    ),
    form(
        &["write|enter|record <field> <text>"],
        &[
            "write serial 4711",
            "write certificate serial 4711",
            "write certificate date 2026-03-17",
            "write certificate slope 2.04567",
            "write certificate intercept -0.01234",
            "write temperature 21.5",
            "write pressure 754.5",
            "write expression square root",
            "write slope 32.1",
            "write intercept 1.3",
            "write correlation 0.9998",
            "write decision accepted",
            "write target flow 1.13",
            "write set point 38",
            "write remarks gusty, wind from the west",
        ],
        "any other entry; a new one strikes out the old",
        |caught, _| write(caught.field()?, &caught.text()?),
    ),
    form(
        &["note <text>"],
        &["note gusty since ten"],
        "the same as `write remarks`",
        |caught, _| write(Field::Remarks, &caught.text()?),
    ),
    form(
        &["accept calibration|line|it?"],
        &["accept calibration"],
        "writes the decision",
        |_, _| write(Field::Decision, "accepted"),
    ),
    form(
        &["accept calibration|line|it? because <text>"],
        &["accept calibration because all points lie on the line"],
        "with the reason",
        |caught, _| write(Field::Decision, &format!("accepted: {}", caught.said()?)),
    ),
    form(
        &["refuse|reject calibration|line|it? because <text>"],
        &["refuse calibration because the points scatter"],
        "with the reason",
        |caught, _| write(Field::Decision, &format!("refused: {}", caught.said()?)),
    ),
    form(&["refuse|reject calibration|line|it?"], &[], "", |_, _| {
        but("say why: `refuse calibration because the points scatter`")
    }),
];

/// Writes one entry.
fn write(field: Field, text: &str) -> Built {
    one(Action::Write { field, text: as_typed(field, text) })
}

/// Writes the two legs and the pen of a point.
fn point(point: PointNumber, caught: &Caught) -> Built {
    let fields = [Field::Up(point), Field::Down(point), Field::Chart(point)];
    let written = fields.into_iter().zip(caught.texts());
    several(written.map(|(field, text)| Action::Write { field, text: text.to_owned() }).collect())
}

/// The point after the last that has anything written.
fn next_point(known: &Known) -> Result<PointNumber, Trouble> {
    let last = known.book.points().last().map_or(0, |point| point.number());
    PointNumber::try_from(last.saturating_add(1)).or_else(|_| {
        but("every point of the book is written: name one, as in `write point 2 3.1 3.0 47`")
    })
}

/// What is written in a field for what was said: the text itself, without the unit that is printed
/// beside the field.
pub(crate) fn as_typed(field: Field, text: &str) -> String {
    let units: &[&str] = match field {
        Field::Temperature | Field::RunTemperature | Field::CheckTemperature => {
            &["degrees celsius", "degrees c", "degrees", "deg c", "°c", "°", "c"]
        }
        Field::Pressure | Field::RunPressure | Field::CheckPressure => &["mmhg", "mm hg", "mm"],
        Field::MeterBefore | Field::MeterAfter | Field::RunMinutes | Field::PartMinutes(_) => {
            &["minutes", "minute", "min"]
        }
        Field::Volume => &["std m3", "m3", "m³"],
        Field::Concentration => &["ug/std m3", "ug/m3", "µg/m³", "µg/m3"],
        Field::Up(_) | Field::Down(_) | Field::CheckUp(_) | Field::CheckDown(_) => {
            &["inches", "inch", "in"]
        }
        Field::CheckDifference => &["percent", "%"],
        Field::DeltaH(_) => &["inches of water", "inches", "inh2o", "in"],
        Field::Chart(_)
        | Field::SetPoint
        | Field::StartChart
        | Field::EndChart
        | Field::MeanChart
        | Field::PartChart(_)
        | Field::CheckChart(_) => &["divisions", "division"],
        Field::PointFlow(_)
        | Field::TargetFlow
        | Field::RunFlow
        | Field::CheckFlow
        | Field::CheckLineFlow => &["std m3/min", "m3/min", "m³/min"],
        _ => &[],
    };
    let bare = units.iter().find_map(|unit| {
        let at = text.len().checked_sub(unit.len())?;
        let (number, end) = (text.get(..at)?, text.get(at..)?);
        let is_number = number_as_written(number).is_ok();
        (is_number && end.to_lowercase() == *unit).then(|| number.trim().to_owned())
    });
    bare.unwrap_or_else(|| unquoted(text).to_owned())
}
