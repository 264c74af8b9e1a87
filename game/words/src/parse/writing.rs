//! The field book: what is written, and where.

use sim_core::field_book::{Field, PointNumber};
use sim_core::session::action::Action;

use super::catch::Caught;
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
            "write decision accepted",
            "write target flow 1.13",
            "write set point 38",
            "write remarks gusty, wind from the west",
        ],
        "any other entry; a new one strikes out the old one",
        |caught, _| write(caught.field()?, &caught.text()?),
    ),
    form(
        &["note <text>"],
        &["note gusty since ten"],
        "the same as `write remarks`",
        |caught, _| write(Field::Remarks, &caught.text()?),
    ),
    form(
        &["accept calibration? line?", "accept it"],
        &["accept calibration line"],
        "writes the decision",
        |_, _| write(Field::Decision, "accepted"),
    ),
    form(
        &["accept calibration? line? because <text>", "accept it because <text>"],
        &["accept calibration line because all points lie on it"],
        "with the reason",
        |caught, _| write(Field::Decision, &format!("accepted: {}", caught.said()?)),
    ),
    form(
        &["refuse|reject calibration? line? because <text>", "refuse|reject it because <text>"],
        &["refuse calibration line because the points scatter"],
        "with the reason",
        |caught, _| write(Field::Decision, &format!("refused: {}", caught.said()?)),
    ),
    form(&["refuse|reject calibration? line?", "refuse|reject it"], &[], "", |_, _| {
        but("say why: `refuse calibration line because the points scatter`")
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
        but("every point in the book has entries: name one, as in `write point 2 3.1 3.0 47`")
    })
}
