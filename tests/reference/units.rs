//! The factors of the units, and their round trips.

use bench_tests::{Mark, Row, Worst};
use sim_core::units::{Length, Pressure, Temperature, Volume, VolumeFlow};
use uom::si::f64 as si;
use uom::si::{pressure, volume};

use super::{number, table};

/// Rows of the qualification page.
pub fn rows() -> Vec<Row> {
    let source = "NIST SP 811, App. B (read in a reproduced copy)";
    let (mut exact, mut mercury) = (Worst::new(), Worst::new());
    for row in table("units.csv") {
        let expected = number(&row, "si_value");
        match row["unit"].as_str() {
            "inch of water conventional" => {
                exact.relative(Pressure::from_inh2o(1.0).pa(), expected);
            }
            "inch of mercury conventional" => {
                exact.relative(Pressure::from_inhg(1.0).pa(), expected);
            }
            "standard atmosphere" => exact.relative(Pressure::from_atm(1.0).pa(), expected),
            "cubic foot" => {
                exact.relative(Volume::from_ft3(1.0).m3(), expected);
                exact.relative(VolumeFlow::from_ft3_min(60.0).m3_s(), expected);
                let foot = Length::from_in(12.0).m();
                exact.relative(foot * foot * foot, expected);
            }
            "millimetre of mercury" => mercury.absolute(Pressure::from_mmhg(1.0).pa(), expected),
            // Columns of water at a real temperature: the trade's inch is the conventional one.
            "inch of water 4 degC" | "inch of water 60 degF" => {}
            other => panic!("unknown unit {other}"),
        }
    }
    let mut cross = Worst::new();
    let uom_pa = |value: si::Pressure| value.get::<pressure::pascal>();
    cross.relative(
        Pressure::from_inh2o(6.5).pa(),
        uom_pa(si::Pressure::new::<pressure::inch_of_water>(6.5)),
    );
    cross.relative(
        Pressure::from_mmhg(755.0).pa(),
        uom_pa(si::Pressure::new::<pressure::millimeter_of_mercury>(755.0)),
    );
    cross.relative(
        Pressure::from_inhg(29.92).pa(),
        uom_pa(si::Pressure::new::<pressure::inch_of_mercury>(29.92)),
    );
    cross.relative(
        Volume::from_ft3(40.0).m3(),
        si::Volume::new::<volume::cubic_foot>(40.0).get::<volume::cubic_meter>(),
    );
    vec![
        exact.row("factors of the units", source, Mark::Published, "relative", 1e-15),
        // Half a unit of the last digit that the table prints.
        mercury.row("millimetre of mercury", source, Mark::Published, "Pa", 5e-5),
        // The crate's own factors are rounded to seven digits.
        cross.row(
            "units against another library",
            "computed with the uom crate, whose factors have seven digits",
            Mark::Computed,
            "relative",
            5e-7,
        ),
    ]
}

#[test]
fn factors() {
    let rows = rows();
    bench_tests::assert_rows(&rows);
    assert_eq!(rows[0].figures, 6);
}

#[test]
fn round_trips_change_no_more_than_the_last_bits() {
    let mut worst = Worst::new();
    for step in 1..2000 {
        let typed = f64::from(step) * 0.05;
        worst.relative(Pressure::from_inh2o(typed).inh2o(), typed);
        worst.relative(Pressure::from_mmhg(typed).mmhg(), typed);
        worst.relative(VolumeFlow::from_m3_min(typed).m3_min(), typed);
        worst.relative(VolumeFlow::from_ft3_min(typed).ft3_min(), typed);
    }
    let row = worst.row("round trips", "none", Mark::CommonPractice, "relative", 1e-15);
    bench_tests::assert_rows(&[row]);
    // A temperature keeps the digits that 273.15 K leaves it.
    let mut kelvins = Worst::new();
    for step in -400..400 {
        let typed = f64::from(step) * 0.1;
        kelvins.absolute(Temperature::from_c(typed).c(), typed);
        kelvins.absolute(Temperature::from_f(typed).f(), typed);
    }
    let row = kelvins.row("temperatures", "none", Mark::CommonPractice, "degrees", 2e-13);
    bench_tests::assert_rows(&[row]);
}
