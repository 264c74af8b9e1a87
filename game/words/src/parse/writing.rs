//! The field book: what is written, and where.

use sim_core::field_book::{Field, PointNumber};
use sim_core::session::action::{Action, Struck};

use super::catch::Caught;
use super::deciding::decided;
use super::entries::Entries;
use super::form::{Built, Form, Known, form, one, several};
use super::trouble::{Trouble, but, stop};
use super::typed::as_typed;
use crate::field_names::field_name;

pub(super) const FORMS: &[Form] = &[
    form(
        &["write|enter|record|note|log|copy|put|jot|fill down|in? <entries>", "<entries>"],
        &[
            "write point 1 up 3.3 down 3.3 chart 57.5",
            "write check 1 up 1.65 down 1.6 chart 39",
            "write slope 32.1, intercept 1.3, correlation 0.9998",
        ],
        "several entries at once, in any order, with or without units",
        |caught, _| all_entries(caught.entries()?),
    ),
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
        &["note in|under remarks that? <text>", "note <text>", "remark|remarks <text>"],
        &["note gusty since ten"],
        "the same as `write remarks`",
        |caught, _| write(Field::Remarks, &caught.text()?),
    ),
    form(
        &["strike|cross|scratch|delete|erase|void|remove out? point <number>"],
        &["strike point 3"],
        "draws a line through the point, which stays legible; then take it again",
        |caught, _| strike(Struck::Point(caught.point()?)),
    ),
    form(
        &[
            "strike|cross|scratch|delete|erase|void|remove out? point <number> <point-field>",
            "strike|cross|scratch|delete|erase|void|remove out? <point-field> point <number>",
        ],
        &["strike point 3 chart"],
        "one entry of a point",
        |caught, _| strike(Struck::Field(caught.point_field()?(caught.point()?))),
    ),
    form(
        &["strike|cross|scratch|delete|erase|void|remove out? part <number> <part-field>"],
        &["strike part 1 minutes"],
        "one entry of a part of the run",
        |caught, _| strike(Struck::Field(caught.point_field()?(caught.point()?))),
    ),
    form(
        &["strike|cross|scratch|delete|erase|void|remove out? check <number> <check-field>"],
        &["strike check 1 up"],
        "one entry of a reading of the check",
        |caught, _| strike(Struck::Field(caught.point_field()?(caught.point()?))),
    ),
    form(
        &["strike|cross|scratch|delete|erase|void|remove out? <field>"],
        &["strike temperature"],
        "any other entry",
        |caught, _| strike(Struck::Field(caught.field()?)),
    ),
    form(&["strike|cross|scratch out?", "strike|cross|scratch it|that out?"], &[], "", |_, _| {
        but(
            "say what to strike out: `strike point 3`, `strike point 3 chart` or `strike temperature`",
        )
    }),
    form(&["expression is|was for? <text>", "use expression for? <text>"], &[], "", |caught, _| {
        write(Field::Expression, &caught.text()?)
    }),
];

/// Writes several entries, unless one has no value or two are for the same place.
fn all_entries(entries: Entries) -> Built {
    if let Some(name) = entries.lacking.first() {
        return stop(format!(
            "say what to write for `{name}`, such as `write point 2 up 3.1 down 3.0`"
        ));
    }
    let written = entries.written;
    let twice = written
        .iter()
        .enumerate()
        .find(|(at, (field, _))| written.iter().take(*at).any(|(other, _)| other == field));
    if let Some((_, (field, _))) = twice {
        let name = field_name(*field);
        return stop(format!("there are two values for {name}: say which one to write"));
    }
    several(written.into_iter().map(|(field, text)| Action::Write { field, text }).collect())
}

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
