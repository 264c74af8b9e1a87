//! Four certificates in a box, one of which is valid.

use super::super::bench::{self, Written};
use super::super::draw::Draw;
use super::super::drawn::{Drawn, Truth};
use super::super::error::DrawError;
use super::super::seen::{Asked, DrillLook};
use super::super::slip::DrillSlip;
use crate::scenario::Drawn as Numbers;
use crate::scenario::certificate::{CertificateEntry, CertificatePrint};
use crate::scenario::setup::{Certificate, CertificateHeading};
use crate::session::action::Sight;
use crate::time::Date;

/// What makes a certificate wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Flaw {
    OtherCalibrator,
    Expired,
    DatedAhead,
    FaultyCopy,
}

/// The usual area of the orifice, m2, and how it scatters from one to the next.
const ORIFICE_M2: (f64, f64) = (5.417e-4, 5.4e-6);

/// The question.
pub(super) fn draw(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let (bench, site) = bench::begin(draw, &Written::default())?;
    let today = site.date;
    let seed = draw.seed();
    let mut numbers = Numbers::default();
    let orifice_m2 = ORIFICE_M2.0 + ORIFICE_M2.1 * draw.normal();
    numbers.push("calibrator.orifice_cda_m2".to_owned(), orifice_m2);
    let valid = today.earlier(5 + draw.below(355) as i64);
    let good = entry(&site.serial, valid);
    let mut flaws = [
        Flaw::OtherCalibrator,
        Flaw::Expired,
        Flaw::DatedAhead,
        Flaw::FaultyCopy,
        Flaw::OtherCalibrator,
    ];
    draw.shuffle(&mut flaws);
    let mut papers = vec![(print(&good, &site.serial, seed, &mut numbers)?, None)];
    for flaw in flaws.into_iter().take(3) {
        let entry = flawed(draw, flaw, &good, today);
        let paper = print(&entry, &site.serial, seed, &mut numbers)?;
        papers.push((paper, Some(flaw)));
    }
    draw.shuffle(&mut papers);
    let right = papers.iter().position(|(_, flaw)| flaw.is_none()).unwrap_or_default();
    let choices = papers
        .iter()
        .enumerate()
        .map(|(at, (_, flaw))| ((at + 1).to_string(), slip_of(*flaw)))
        .collect();
    let view = bench.view();
    let looks = (0..papers.len() as u8)
        .map(|number| {
            let mut view = view.clone();
            view.focus = Sight::Certificate(number);
            DrillLook { at_s: 0.0, view }
        })
        .collect();
    let asked = Asked::ValidCertificate { plate: site.serial, today };
    let mut drawn = Drawn::of(bench, asked, looks, Truth::Choice { right, choices });
    drawn.certificates = Some(papers.into_iter().map(|(paper, _)| paper).collect());
    Ok(drawn)
}

/// An original of a calibrator's certificate.
fn entry(serial: &str, date: Date) -> CertificateEntry {
    CertificateEntry {
        heading: CertificateHeading::Original,
        serial: serial.to_owned(),
        date,
        slope: None,
        intercept: None,
        correlation: None,
        orifice_differs_pct: None,
        laboratory: None,
        laboratory_bias_pct: None,
        print: CertificatePrint::Plain,
    }
}

/// A certificate that must not be used.
fn flawed(draw: &mut Draw, flaw: Flaw, good: &CertificateEntry, today: Date) -> CertificateEntry {
    match flaw {
        Flaw::OtherCalibrator => {
            let date = today.earlier(5 + draw.below(355) as i64);
            entry(&neighbour(draw, &good.serial), date)
        }
        // From a day after the year to two years.
        Flaw::Expired => entry(&good.serial, today.earlier(367 + draw.below(400) as i64)),
        Flaw::DatedAhead => entry(&good.serial, today.later(1 + draw.below(340) as i64)),
        Flaw::FaultyCopy => CertificateEntry {
            heading: CertificateHeading::Copy,
            print: CertificatePrint::DigitsExchanged,
            ..good.clone()
        },
    }
}

/// A serial number that is easily taken for another: one digit differs.
fn neighbour(draw: &mut Draw, serial: &str) -> String {
    let digits = serial.len().saturating_sub(3);
    let at = digits + draw.below(3) as usize;
    let by = 1 + draw.below(8) as u8;
    serial
        .bytes()
        .enumerate()
        .map(|(index, byte)| {
            let other = if index == at { b'0' + (byte.wrapping_sub(b'0') + by) % 10 } else { byte };
            char::from(other)
        })
        .collect()
}

/// A certificate as printed, from a certification that is simulated as on the bench.
fn print(
    entry: &CertificateEntry,
    plate: &str,
    seed: u64,
    numbers: &mut Numbers,
) -> Result<Certificate, DrawError> {
    entry.draw(plate, seed, numbers);
    entry.print(|name| {
        numbers.get(name).ok_or_else(|| DrawError::new(format!("{name} was not drawn")))
    })
}

/// The slip of whoever takes a certificate.
const fn slip_of(flaw: Option<Flaw>) -> DrillSlip {
    match flaw {
        Some(Flaw::Expired) => DrillSlip::Expired,
        Some(Flaw::DatedAhead) => DrillSlip::DatedAhead,
        Some(Flaw::FaultyCopy) => DrillSlip::FaultyCopy,
        // The valid one is no slip, and is never asked for one.
        Some(Flaw::OtherCalibrator) | None => DrillSlip::OtherCalibrator,
    }
}
