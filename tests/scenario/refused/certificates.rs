//! Certificates in the box.

use super::{Case, report};

/// Texts that are refused.
pub const CASES: &[Case] = &[
    ("a certificate dated tomorrow", &[("2025-11-04", "2026-04-15")]),
    (
        "a calibrator without a certificate",
        &[(
            "(serial: \"OC-318\", date: \"2025-11-04\"),",
            "(serial: \"OC-319\", date: \"2025-11-04\"),",
        )],
    ),
    (
        "a certificate of another that nobody declares",
        &[(
            "(serial: \"OC-318\", date: \"2025-11-04\"),",
            "(serial: \"OC-319\", date: \"2025-11-04\"), (serial: \"OC-318\", date: \"2025-11-04\"),",
        )],
    ),
    (
        "another that is declared but not there",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: CertificateOfAnother),",
        )],
    ),
    ("an expired certificate that nobody declares", &[("2025-11-04", "2025-04-12")]),
    (
        "an expiry that is declared but not there",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: CertificateExpired),",
        )],
    ),
    (
        "a certificate far from last year's that nobody declares",
        &[(
            "(serial: \"OC-318\", date: \"2025-11-04\"),",
            "(serial: \"OC-318\", date: \"2025-11-04\", orifice_differs_pct: Fixed(8)), (serial: \"OC-318\", date: \"2024-11-04\"),",
        )],
    ),
    (
        "a change that is declared but not there",
        &[
            (
                "(serial: \"OC-318\", date: \"2025-11-04\"),",
                "(serial: \"OC-318\", date: \"2025-11-04\"), (serial: \"OC-318\", date: \"2024-11-04\"),",
            ),
            (
                "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
                "(fault: CertificateFarFromLast),",
            ),
        ],
    ),
    (
        "a change that is declared with one certificate only",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: CertificateFarFromLast),",
        )],
    ),
    (
        "a misprint that nobody declares",
        &[(
            "(serial: \"OC-318\", date: \"2025-11-04\"),",
            "(serial: \"OC-318\", date: \"2025-11-04\", print: ActualFirst),",
        )],
    ),
    (
        "a misprint that is declared but not there",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: CertificateDigitsExchanged),",
        )],
    ),
    (
        "a slip of copying that cannot be found out",
        &[
            (
                "(serial: \"OC-318\", date: \"2025-11-04\"),",
                "(serial: \"OC-318\", date: \"2025-11-04\", print: DigitsExchanged),",
            ),
            (
                "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
                "(fault: CertificateDigitsExchanged),",
            ),
        ],
    ),
    (
        "a slope without an intercept",
        &[(
            "(serial: \"OC-318\", date: \"2025-11-04\"),",
            "(serial: \"OC-318\", date: \"2025-11-04\", slope: 1.5),",
        )],
    ),
    (
        "a correlation alone",
        &[(
            "(serial: \"OC-318\", date: \"2025-11-04\"),",
            "(serial: \"OC-318\", date: \"2025-11-04\", correlation: 0.9999),",
        )],
    ),
    (
        "a difference without effect",
        &[(
            "(serial: \"OC-318\", date: \"2025-11-04\"),",
            "(serial: \"OC-318\", date: \"2025-11-04\", slope: 1.5, intercept: 0, orifice_differs_pct: Fixed(2)),",
        )],
    ),
    (
        "two papers that contradict each other",
        &[(
            "(serial: \"OC-318\", date: \"2025-11-04\"),",
            "(serial: \"OC-318\", date: \"2025-11-04\"), (serial: \"OC-318\", date: \"2025-11-04\", slope: 1.5, intercept: 0),",
        )],
    ),
];

#[test]
fn says_what_is_wrong_and_how_to_mend_it() {
    insta::assert_snapshot!(report(CASES), @r#"
a certificate dated tomorrow
    32:28: the certificate is dated 2026-04-15, 1 day after the session on 2026-04-14; date it on or before the day of the session
a calibrator without a certificate
    15:9: calibrator `OC-318` has no certificate in the box; add a certificate with this serial number, or the fault CertificateOfAnother
    32:10: the certificate on top is for `OC-319`, and the calibrator is `OC-318`, but the fault CertificateOfAnother is not listed; add `(fault: CertificateOfAnother)` to the faults, or put another certificate on top
a certificate of another that nobody declares
    32:10: the certificate on top is for `OC-319`, and the calibrator is `OC-318`, but the fault CertificateOfAnother is not listed; add `(fault: CertificateOfAnother)` to the faults, or put another certificate on top
another that is declared but not there
    35:9: the fault CertificateOfAnother is listed, but the certificate on top is for this calibrator, `OC-318`; change `serial` of the first certificate, or remove the fault
an expired certificate that nobody declares
    32:28: the certificate on top, dated 2025-04-12, is older than a year, but the fault CertificateExpired is not listed; add `(fault: CertificateExpired)` to the faults, or put another certificate on top
an expiry that is declared but not there
    35:9: the fault CertificateExpired is listed, but the certificate on top, dated 2025-11-04, is not older than a year; change `date` of the first certificate, or remove the fault
a certificate far from last year's that nobody declares
    32:9: this certificate and the older one below it may differ by 8.0 %; add `(fault: CertificateFarFromLast)`, or make the difference smaller
a change that is declared but not there
    32:9: the fault CertificateFarFromLast is listed, but the two certificates may differ by only 0.0 %; give the first certificate `orifice_differs_pct: Fixed(8)`, or remove the fault
a change that is declared with one certificate only
    32:9: the fault CertificateFarFromLast is listed, but there is no older certificate with this serial number below; add last year's certificate, or remove the fault
a misprint that nobody declares
    32:48: the certificate on top is printed ActualFirst, but the fault CertificateActualFirst is not listed; add `(fault: CertificateActualFirst)` to the faults, or put another certificate on top
a misprint that is declared but not there
    35:9: the fault CertificateDigitsExchanged is listed, but the certificate on top is not printed DigitsExchanged; change `print` of the first certificate, or remove the fault
a slip of copying that cannot be found out
    32:9: a certificate with transposed digits is not headed as a copy; write `heading: "copy of certificate"`
    32:9: the original of this copy is not in the box; add a certificate with the same serial number and date below it, without `print`
a slope without an intercept
    32:9: slope and intercept are not given together; give both, or leave both out for a simulated certification
a correlation alone
    32:9: a correlation is given without a slope; give slope and intercept too, or leave the correlation out
a difference without effect
    32:9: orifice_differs_pct has no effect when the slope is given; leave out one of the two
two papers that contradict each other
    32:49: two certificates with the same serial number and date give different numbers; give both the same numbers, or change one date
"#);
}
