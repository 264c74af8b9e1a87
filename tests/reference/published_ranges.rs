//! What is published about real samplers, against what this rig does.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::rig::RigParameters;
use sim_core::rig::flow::filter::Filter;
use sim_core::rig::flow::flow_path::Inlet;

use super::operating_points::{calibrated, station, warm_point};
use super::{number, table};

/// How far a number lies outside a range; zero inside it.
fn outside(found: f64, least: f64, most: f64) -> f64 {
    (least - found).max(found - most).max(0.0)
}

/// The inlet with so many clean filters laid on each other.
pub fn clean_filters(rig: &RigParameters, filters: u8) -> Inlet {
    let one =
        Filter::default().resistance_pa_s_m3(&rig.filter, station("sea_level_20C").temperature_k);
    Inlet { filter_pa_s_m3: Some(f64::from(filters) * one), ..Inlet::default() }
}

/// The flow of a blower without a controller at the end of a day of dust, and the deposit: the filter
/// loaded minute by minute.
fn free_day(dust_ug_m3: f64) -> (f64, f64) {
    let rig = RigParameters::default();
    let ambient = station("sea_level_20C");
    let mut filter = Filter::default();
    let mut flow_m3_min = 0.0;
    for _ in 0..288 {
        let resistance = filter.resistance_pa_s_m3(&rig.filter, ambient.temperature_k);
        let inlet = Inlet { filter_pa_s_m3: Some(resistance), ..Inlet::default() };
        flow_m3_min = warm_point(&rig, ambient, inlet).flow.flow_m3_min();
        filter.load(&rig.filter, 300.0, flow_m3_min / 60.0, dust_ug_m3 * 1e-9);
    }
    (flow_m3_min, filter.deposit_kg_m2)
}

pub fn rows() -> Vec<Row> {
    let rig = RigParameters::default();
    let sea = station("sea_level_20C");
    let [mut drop, mut deposit, mut filtered, mut standard] = [(); 4].map(|()| Worst::new());
    let face_m_s = 1.5 / 60.0 / rig.filter.exposed_area_m2;
    drop.absolute(outside(rig.filter.clean_pa_s_m * face_m_s / 1e3, 5.6, 7.2), 0.0);
    for (dust_ug_m3, grams_m2) in [(100.0, 4.0), (500.0, 20.0)] {
        let mut filter = Filter::default();
        filter.load(&rig.filter, 86_400.0, 1.13 / 60.0, dust_ug_m3 * 1e-9);
        deposit.relative(1e3 * filter.deposit_kg_m2, grams_m2);
    }
    let one = warm_point(&rig, sea, clean_filters(&rig, 1)).flow;
    filtered.absolute(outside(one.flow_m3_min(), 0.0, 1.7), 0.0);
    let open = warm_point(&rig, sea, calibrated(&rig, 0.76, 0.0)).flow;
    assert!((open.flow_std_m3_min() - 1.7).abs() < 0.02, "{}", open.flow_std_m3_min());
    standard.absolute(outside(open.plenum_suction_pa / 1e3, 0.0, 5.0), 0.0);
    let mut altitude = Worst::new();
    for [low, high] in [["0", "300"], ["600", "900"]] {
        let at = |metres: &str| {
            let rows = table("standard_atmosphere.csv");
            let row = rows
                .iter()
                .find(|row| row["z_geometric_m"] == metres)
                .expect("the height is tabulated");
            number(row, "p_mmHg")
        };
        altitude.absolute((at(low) - at(high)) * 305.0 / 300.0, 26.0);
    }
    let mut range_end = Worst::new();
    range_end.absolute(free_day(750.0).0, 1.1);
    let mut day = Worst::new();
    for row in table("free_blower_day.csv") {
        let (flow_m3_min, deposit_kg_m2) = free_day(number(&row, "conc_ug_m3"));
        day.relative(flow_m3_min, number(&row, "Q_end_m3min"));
        day.relative(1e3 * deposit_kg_m2, number(&row, "W_24h_g_m2"));
    }
    const B: &str = "40 CFR Part 50, Appendix B";
    vec![
        drop.row(
            "clean filter at 1.5 m3/min, outside 5.6 to 7.2 kPa",
            "40 CFR Part 50, Appendix B, 7.1.5",
            Mark::Published,
            "kPa",
            0.0,
        ),
        deposit.row(
            "deposit of a day at 1.13 m3/min with 100 and 500 ug/m3, 4 and 20 g/m2",
            "Advances in X-ray Analysis, abstract",
            Mark::Published,
            "relative",
            0.02,
        ),
        filtered.row(
            "free flow through a clean filter, above 1.7 m3/min",
            "40 CFR Part 50, Appendix B, 7.2.3",
            Mark::Published,
            "m3/min",
            0.0,
        ),
        standard.row(
            "drop of the transfer standard at 1.7 std m3/min, above 5 kPa",
            "40 CFR Part 50, Appendix B, 7.8.4",
            Mark::Published,
            "kPa",
            0.0,
        ),
        altitude.row(
            "fall of the pressure over 305 m, about 26 mmHg",
            B,
            Mark::FromMemory,
            "mmHg",
            1.5,
        ),
        range_end.row(
            "free flow after a day at 750 ug/m3, near the range's end of 1.1 m3/min",
            "40 CFR Part 50, Appendix B, 3.1",
            Mark::FromMemory,
            "m3/min",
            0.11,
        ),
        day.row(
            "a day of a free blower: flow and deposit",
            super::operating_points::MODEL,
            Mark::Computed,
            "relative",
            2e-3,
        ),
    ]
}

#[test]
fn the_rig_does_what_is_published_of_samplers() {
    assert_rows(&rows());
}

#[test]
fn a_second_clean_filter_is_held_at_sea_level_alone_and_a_third_nowhere() {
    let rig = RigParameters::default();
    // The flow at full voltage; the controller holds 1.13 if that is more, within one percent.
    let holds = |site: &str, filters: u8| {
        let full = warm_point(&rig, station(site), clean_filters(&rig, filters)).flow;
        full.flow_std_m3_min() >= 0.99 * 1.13
    };
    assert!(holds("sea_level_20C", 1) && holds("1600m_5C", 1));
    assert!(holds("sea_level_20C", 2));
    assert!(!holds("1600m_5C", 2));
    assert!(!holds("sea_level_20C", 3) && !holds("1600m_5C", 3));
}
