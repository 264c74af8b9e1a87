//! The field book: what is written, and where.

use sim_core::field_book::{Field, PointNumber};
use sim_core::session::action::{Action, Struck};

use super::catch::Caught;
use super::deciding::decided;
use super::form::{Built, Form, Known, form, one, several};
use super::trouble::{Trouble, but};
use super::typed::as_typed;

pub(super) const FORMS: &[Form] = &[
    form(
        &["write|enter|record point <reading> <reading> <reading>"],
        &["write point 3.1 3.0 47"],
        "up, down and chart of the next free point",
        |caught, known| point(next_point(known)?, caught),
    ),
    form(
        &["write|enter|record point <number> <reading> <reading> <reading>"],
        &["write point 2 3.1 3.0 47"],
        "up, down and chart of that point",
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
            "write point 2 corrected chart reading 46.8",
        ],
        "one entry of a point",
        |caught, _| write(caught.point_field()?(caught.point()?), &caught.text()?),
    ),
    form(
        &["write|enter|record part <number> <part-field> <text>"],
        &["write part 1 chart 44", "write part 1 minutes 360"],
        "one part of a run whose flow changed a lot",
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
        |_, _| but("say what to write there, such as `write point 2 up 3.1`"),
    ),
    form(
        &["write|enter|record <field> <text>"],
        &[
            "write serial 4711",
            "write certificate serial 4711",
            "write certificate date 2026-03-17",
            "write certificate slope 1.51234",
            "write certificate intercept -0.01234",
            "write temperature 21.5",
            "write pressure 754.5",
            "write expression square root",
            "write slope 32.1",
            "write intercept 1.3",
            "write correlation 0.9998",
            "write target flow 1.13",
            "write set point 38",
            "write remarks gusty, wind from the west",
        ],
        "any other entry; a new one strikes out the old one",
        |caught, _| {
            let (field, text) = (caught.field()?, caught.text()?);
            if field.is_decision() { decided(field, &text) } else { write(field, &text) }
        },
    ),
    form(
        &["note <text>"],
        &["note gusty since ten"],
        "the same as `write remarks`",
        |caught, _| write(Field::Remarks, &caught.text()?),
    ),
    form(
        &["strike|cross out? point <number>"],
        &["strike point 3"],
        "draws a line through the point, which stays legible; then take it again",
        |caught, _| strike(Struck::Point(caught.point()?)),
    ),
    form(
        &["strike|cross out? point <number> <point-field>"],
        &["strike point 3 chart"],
        "one entry of a point",
        |caught, _| strike(Struck::Field(caught.point_field()?(caught.point()?))),
    ),
    form(
        &["strike|cross out? part <number> <part-field>"],
        &["strike part 1 minutes"],
        "one entry of a part of the run",
        |caught, _| strike(Struck::Field(caught.point_field()?(caught.point()?))),
    ),
    form(
        &["strike|cross out? check <number> <check-field>"],
        &["strike check 1 up"],
        "one entry of a reading of the check",
        |caught, _| strike(Struck::Field(caught.point_field()?(caught.point()?))),
    ),
    form(
        &["strike|cross out? <field>"],
        &["strike temperature"],
        "any other entry",
        |caught, _| strike(Struck::Field(caught.field()?)),
    ),
];

/// Strikes something out.
fn strike(what: Struck) -> Built {
    one(Action::Strike { what })
}

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
        but("every point in the book has entries: name one, as in `write point 2 3.1 3.0 47`")
    })
}
