//! Faults of the certificates in the box. The scenario prints them; nothing on the rig is wrong.

use super::declared::{Declared, Site};
use super::remedy::{PutRight, Remedy};
use super::report::FaultPlace;
use super::report::Response::{Corrected, Noted, Rejected};
use super::sheet::{Arises, Sheet};

/// A certificate that must not be used.
const UNUSABLE: Sheet = Sheet {
    arises: Arises::FromTheStart,
    right: &[Rejected],
    ..Sheet::of(FaultPlace::Certificate)
};

pub(super) struct CertificateExpired;

impl Declared for CertificateExpired {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "an expired certificate",
        in_short: "the certificate on top is more than a year old",
        cause: "The yearly recalibration was missed, or last year's certificate was left on top.",
        sign: "Its date is more than a year ago.",
        check: "Read the date, and look for a later certificate below it.",
        put_right: PutRight::RightCertificateUsed,
        remedy: Remedy::RightCertificate,
        ..UNUSABLE
    };

    fn begin(&self, _site: &mut Site<'_>) {}
}

pub(super) struct CertificateOfAnother;

impl Declared for CertificateOfAnother {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "another calibrator's certificate",
        in_short: "the certificate on top belongs to another calibrator",
        cause: "The certificates of two calibrators were exchanged.",
        sign: "The serial number on the certificate is not the one on the calibrator's plate.",
        check: "Compare both character by character, and look for the right certificate below.",
        put_right: PutRight::RightCertificateUsed,
        remedy: Remedy::RightCertificate,
        ..UNUSABLE
    };

    fn begin(&self, _site: &mut Site<'_>) {}
}

pub(super) struct CertificateActualFirst;

impl Declared for CertificateActualFirst {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "the actual-conditions pair printed first",
        right: &[Noted, Corrected],
        in_short: "the certificate on top prints its actual-conditions pair first",
        cause: "The laboratory prints the slope and intercept for actual conditions above those for \
                standard conditions.",
        sign: "The first slope is near 0.95 instead of 1.5.",
        check: "Read which conditions each pair is for.",
        put_right: PutRight::RightCertificateUsed,
        remedy: Remedy::StandardPair,
        contradicts: &["CertificateDigitsExchanged"],
        ..UNUSABLE
    };

    fn begin(&self, _site: &mut Site<'_>) {}
}

pub(super) struct CertificateFarFromLast;

impl Declared for CertificateFarFromLast {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "a certificate far from last year's",
        in_short: "the certificate on top is far from last year's below it",
        cause: "Either the orifice has changed during the year or the laboratory has made an error; \
                nobody can tell which in the field.",
        sign: "At the same pressure drop, its slope and intercept give a flow that is further from \
               last year's than a transfer standard may move in a year, which is 2 percent.",
        check: "Work out the flow at 4 inches of water from both certificates.",
        contradicts: &["CertificateExpired"],
        ..UNUSABLE
    };

    fn begin(&self, _site: &mut Site<'_>) {}
}

pub(super) struct CertificateDigitsExchanged;

impl Declared for CertificateDigitsExchanged {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "transposed digits in a copied certificate",
        right: &[Rejected, Corrected],
        in_short: "the certificate on top is a copy with two digits of the slope transposed; \
                   the original lies below",
        cause: "Somebody copied the certificate by hand and transposed two digits of the slope.",
        sign: "The certificate is headed as a copy, and its slope is not that of the original.",
        check: "Compare it with the original digit by digit.",
        put_right: PutRight::RightCertificateUsed,
        remedy: Remedy::CopyCertificate,
        ..UNUSABLE
    };

    fn begin(&self, _site: &mut Site<'_>) {}
}
