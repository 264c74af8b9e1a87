//! The certificates in the box, as a scenario gives them.

use serde::{Deserialize, Serialize};

use crate::calibration::{AirConditions, SumError};
use crate::scenario::certify::{Certification, certify};
use crate::scenario::drawn::Drawn;
use crate::scenario::parameters::Parameter;
use crate::scenario::setup::{Certificate, CertificateHeading, CertificatePair};
use crate::scenario::spread::Spread;
use crate::time::Date;
use crate::units::{Pressure, Temperature};

/// One certificate or copy. The first in the list lies on top.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "Paper", deny_unknown_fields)]
pub struct CertificateEntry {
    /// What is printed at its top.
    #[serde(default)]
    pub heading: CertificateHeading,
    /// Serial number of the calibrator it is for.
    pub serial: String,
    /// When it was made.
    pub date: Date,
    /// Slope at standard conditions; if left out, a certification is simulated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slope: Option<f64>,
    /// Intercept at standard conditions; given with the slope or not at all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub intercept: Option<f64>,
    /// Correlation coefficient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub correlation: Option<f64>,
    /// How much larger the certified orifice's area is than that of the calibrator on the bench,
    /// percent. If left out, 0 for the same serial number, and [`OTHER_SERIAL`] for another.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub orifice_differs_pct: Option<Spread>,
    /// The laboratory that certified it. Papers of one laboratory share its bias; where none is named,
    /// so do all papers about one calibrator.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub laboratory: Option<String>,
    /// The bias of that laboratory, percent of the flow; if left out, see
    /// [`BIAS`](super::laboratory::BIAS).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub laboratory_bias_pct: Option<Spread>,
    /// How it is printed.
    #[serde(default)]
    pub print: CertificatePrint,
}

/// How a certificate is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename = "Print")]
pub enum CertificatePrint {
    /// The standard-conditions pair first, with every digit right.
    #[default]
    Plain,
    /// The actual-conditions pair above the standard one.
    ActualFirst,
    /// Two neighbouring digits of the standard slope transposed, as by a careless copyist.
    DigitsExchanged,
}

/// How the orifices of two serial numbers differ, percent of area (CHOSEN).
pub const OTHER_SERIAL: Spread = Spread::Uniform(1.5, 4.0);

/// Conditions in the laboratory that certifies (CHOSEN).
pub const LAB: [Parameter; 2] = [
    Parameter {
        name: "lab_pressure_mmhg",
        unit: "mmHg",
        low: 600.0,
        high: 800.0,
        usual: Spread::Uniform(745.0, 762.0),
        what: "pressure of the laboratory",
    },
    Parameter {
        name: "lab_temperature_k",
        unit: "K",
        low: 280.0,
        high: 310.0,
        usual: Spread::Uniform(293.0, 297.0),
        what: "temperature of the laboratory",
    },
];

impl CertificateEntry {
    /// The stem of the names of everything drawn for it. Two papers about one certification, such as
    /// an original and its copy, share their numbers.
    fn stem(&self) -> String {
        format!("certification.{}.{}", self.serial, self.date)
    }

    /// Draws its certification into `drawn`, unless another paper about the same one already did. A
    /// certification that is impossible is not drawn, and building the bench then reports what is
    /// missing.
    pub(crate) fn draw(&self, bench_serial: &str, seed: u64, drawn: &mut Drawn) {
        let stem = self.stem();
        if drawn.get(&format!("{stem}.slope")).is_some() {
            return;
        }
        let lab = |parameter: &Parameter| {
            parameter.usual.draw(seed, &format!("{stem}.{}", parameter.name))
        };
        let [pressure, temperature] = &LAB;
        let lab = AirConditions::new(
            Pressure::from_mmhg(lab(pressure)),
            Temperature::from_k(lab(temperature)),
        );
        let Ok(certification) =
            lab.and_then(|lab| self.certification(bench_serial, lab, seed, drawn))
        else {
            return;
        };
        drawn.push(format!("{stem}.slope"), certification.standard.slope);
        drawn.push(format!("{stem}.intercept"), certification.standard.intercept);
        drawn.push(format!("{stem}.actual_slope"), certification.actual.slope);
        drawn.push(format!("{stem}.actual_intercept"), certification.actual.intercept);
        drawn.push(format!("{stem}.correlation"), certification.correlation);
    }

    /// The certification, as given or simulated.
    fn certification(
        &self,
        bench_serial: &str,
        lab: AirConditions,
        seed: u64,
        drawn: &Drawn,
    ) -> Result<Certification, SumError> {
        if let (Some(slope), Some(intercept)) = (self.slope, self.intercept) {
            let correlation = self.correlation.unwrap_or(USUAL_CORRELATION);
            return Ok(Certification::stated(
                CertificatePair { slope, intercept },
                correlation,
                lab,
            ));
        }
        let stem = self.stem();
        let usual = if self.serial == bench_serial { Spread::Fixed(0.0) } else { OTHER_SERIAL };
        let differs = self.orifice_differs_pct.unwrap_or(usual);
        let differs_pct = differs.draw(seed, &format!("{stem}.orifice_differs_pct"));
        let bench = drawn.get("calibrator.orifice_cda_m2").unwrap_or_default();
        let orifice_cda_m2 = bench * (1.0 + differs_pct / 100.0);
        let certified = certify(orifice_cda_m2, lab, seed, &format!("{stem}.timing"))?;
        Ok(certified.with_bias(self.laboratory_bias_pct(drawn)))
    }

    /// The certificate as printed, from the numbers drawn for it.
    pub(crate) fn print<E>(
        &self,
        value: impl Fn(&str) -> Result<f64, E>,
    ) -> Result<Certificate, E> {
        let stem = self.stem();
        let value = |name: &str| value(&format!("{stem}.{name}"));
        let slope = printed(value("slope")?);
        let slope = match self.print {
            CertificatePrint::DigitsExchanged => exchange_digits(slope),
            CertificatePrint::Plain | CertificatePrint::ActualFirst => slope,
        };
        Ok(Certificate {
            heading: self.heading,
            serial: self.serial.clone(),
            date: self.date,
            standard: CertificatePair { slope, intercept: printed(value("intercept")?) },
            actual: CertificatePair {
                slope: printed(value("actual_slope")?),
                intercept: printed(value("actual_intercept")?),
            },
            correlation: (value("correlation")? * 1e5).floor() / 1e5,
            actual_first: self.print == CertificatePrint::ActualFirst,
        })
    }
}

/// The correlation that is printed when the scenario gives a slope without one.
const USUAL_CORRELATION: f64 = 0.9999;

/// Rounds to the five decimals that a certificate prints.
fn printed(value: f64) -> f64 {
    (value * 1e5).round() / 1e5
}

/// Transposes the first two neighbouring decimals that differ, from the second decimal on. The slope
/// changes by up to 6 %, and looks as likely as the right one.
fn exchange_digits(slope: f64) -> f64 {
    let whole = (slope * 1e5).round();
    let mut place = 100.0;
    while place >= 1.0 {
        let low = (whole / place).floor() % 10.0;
        let high = (whole / (10.0 * place)).floor() % 10.0;
        if (low - high).abs() > 0.5 {
            return (whole + (low - high) * 9.0 * place) / 1e5;
        }
        place /= 10.0;
    }
    // Four equal digits in a row: raise the second decimal instead, like a slip of the pen.
    (whole + 1000.0) / 1e5
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_careless_copyist_exchanges_two_digits() {
        for (right, copied) in [
            (1.51318, 1.53118),
            (1.52218, 1.52128),
            (1.52221, 1.52212),
            (1.49876, 1.48976),
            (1.55555, 1.56555),
        ] {
            let got = exchange_digits(right);
            assert!((got - copied).abs() < 1e-9, "{right} was copied as {got}, not {copied}");
        }
    }
}
