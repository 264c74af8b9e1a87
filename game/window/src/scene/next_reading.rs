//! Which value is read from which thing, and which reading comes next in a row of the field book.

use hands::Spot;
use sim_core::field_book::{Field, FieldBook, PointNumber};
use sim_core::rig::parts::Leg;
use sim_core::scenario::setup::WorkOrder;
use sim_core::session::action::Sight;

/// What is looked at to read a thing, if there is a value to be read.
pub const fn read_at(spot: Spot) -> Option<Sight> {
    match spot {
        Spot::Thermometer => Some(Sight::Thermometer),
        Spot::Barometer => Some(Sight::Barometer),
        Spot::Leg(Leg::Left) => Some(Sight::LeftLeg),
        Spot::Leg(Leg::Right) => Some(Sight::RightLeg),
        Spot::Display => Some(Sight::Display),
        Spot::Pen | Spot::Recorder => Some(Sight::Pen),
        _ => None,
    }
}

/// The next value that is not written yet and is read from what is looked at: of the points that are
/// ordered, then of the flow check. For what belongs to no field, the next blank of the row that was begun.
pub fn first_blank(book: &FieldBook, order: &WorkOrder, looked_at: Sight) -> Option<Field> {
    type Column = fn(PointNumber) -> Field;
    let air = |points: Field, check: Field| {
        let both = [(!order.is_check_alone(), points), (order.flow_check.is_some(), check)];
        both.into_iter()
            .find_map(|(asked, field)| (asked && is_blank(book, field)).then_some(field))
    };
    let (of_point, of_check): (Column, Column) = match looked_at {
        Sight::Thermometer => return air(Field::Temperature, Field::CheckTemperature),
        Sight::Barometer => return air(Field::Pressure, Field::CheckPressure),
        Sight::LeftLeg => (Field::Up, Field::CheckUp),
        Sight::RightLeg => (Field::Down, Field::CheckDown),
        Sight::Pen | Sight::Recorder => (Field::Chart, Field::CheckChart),
        _ => (Field::DeltaH, Field::DeltaH),
    };
    let rows = |column: Column, count: usize| {
        PointNumber::all().take(count).map(column).find(|field| is_blank(book, *field))
    };
    let checked = order.flow_check.map_or(0, |check| usize::from(check.readings));
    // Whoever takes more points than are ordered writes them as well, unless a check follows.
    let points = if order.is_check_alone() {
        0
    } else if checked > 0 {
        usize::from(order.points)
    } else {
        usize::MAX
    };
    rows(of_point, points).or_else(|| rows(of_check, checked))
}

/// The reading that follows one in its row and is still blank, and the thing that it is read from; what is
/// calculated from readings has none.
pub fn next_in_row(
    book: &FieldBook,
    written: Field,
    has_display: bool,
) -> Option<(Field, Option<Spot>)> {
    let (left, right) = (Some(Spot::Leg(Leg::Left)), Some(Spot::Leg(Leg::Right)));
    let pen = Some(Spot::Pen);
    let row = match written {
        Field::Temperature | Field::Pressure => vec![
            (Field::Temperature, Some(Spot::Thermometer)),
            (Field::Pressure, Some(Spot::Barometer)),
        ],
        Field::CheckTemperature | Field::CheckPressure => vec![
            (Field::CheckTemperature, Some(Spot::Thermometer)),
            (Field::CheckPressure, Some(Spot::Barometer)),
        ],
        Field::Up(n) | Field::Down(n) | Field::DeltaH(n) | Field::Chart(n) if has_display => {
            vec![(Field::Chart(n), pen), (Field::DeltaH(n), Some(Spot::Display))]
        }
        Field::Up(n) | Field::Down(n) | Field::DeltaH(n) | Field::Chart(n) => vec![
            (Field::Chart(n), pen),
            (Field::Up(n), left),
            (Field::Down(n), right),
            (Field::DeltaH(n), None),
        ],
        Field::CheckUp(n) | Field::CheckDown(n) | Field::CheckChart(n) if !has_display => {
            vec![
                (Field::CheckChart(n), pen),
                (Field::CheckUp(n), left),
                (Field::CheckDown(n), right),
            ]
        }
        _ => return None,
    };
    let at = row.iter().position(|(field, _)| *field == written)?;
    let after = row.iter().cycle().skip(at + 1).take(row.len() - 1);
    after.copied().find(|(field, _)| is_blank(book, *field))
}

fn is_blank(book: &FieldBook, field: Field) -> bool {
    book.text(field).is_none()
}

#[cfg(test)]
mod tests {
    use hands::Spot;
    use sim_core::field_book::{Field, FieldBook, PointNumber};
    use sim_core::rig::parts::Leg;

    use super::next_in_row;

    #[test]
    fn a_row_is_read_from_pen_and_legs_and_ends_with_their_sum() {
        let book = FieldBook::default();
        let n = PointNumber::all().next().expect("a first point");
        let next = |field| next_in_row(&book, field, false);
        assert_eq!(next(Field::Chart(n)), Some((Field::Up(n), Some(Spot::Leg(Leg::Left)))));
        assert_eq!(next(Field::Up(n)), Some((Field::Down(n), Some(Spot::Leg(Leg::Right)))));
        assert_eq!(next(Field::Down(n)), Some((Field::DeltaH(n), None)));
        assert_eq!(next(Field::Pressure), Some((Field::Temperature, Some(Spot::Thermometer))));
        assert_eq!(next(Field::Remarks), None);
        let with_display = next_in_row(&book, Field::Chart(n), true);
        assert_eq!(with_display, Some((Field::DeltaH(n), Some(Spot::Display))));
    }
}
