//! Faults of the papers in the box. The scenario prints them; nothing of the rig is wrong.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Corrected, Noted, Rejected};
use crate::fault::{Fault, FaultPlace, Onset};

/// Every one of them.
pub(super) const ALL: &[&Sheet] =
    &[&EXPIRED, &OF_ANOTHER, &ACTUAL_FIRST, &FAR_FROM_LAST, &DIGITS_EXCHANGED];

/// A paper that is not used.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::Certificate,
    arises: Arises::FromTheStart,
    title: "",
    right: &[Rejected],
    cause: "",
    sign: "",
    check: "",
    usual: Fault::CertificateExpired,
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const EXPIRED: Sheet = Sheet {
    name: "CertificateExpired",
    title: "a certificate out of date",
    cause: "The yearly recalibration was missed, or last year's paper was left on top.",
    sign: "Its date lies more than a year back.",
    check: "Read the date; look for a later paper below it.",
    ..SHEET
};

pub(in crate::fault) const OF_ANOTHER: Sheet = Sheet {
    name: "CertificateOfAnother",
    title: "another calibrator's certificate",
    cause: "The papers of two calibrators were exchanged.",
    sign: "The serial number on the paper is not that on the calibrator's plate.",
    check: "Read both, letter by letter; look for the right paper below.",
    usual: Fault::CertificateOfAnother,
    ..SHEET
};

pub(in crate::fault) const ACTUAL_FIRST: Sheet = Sheet {
    name: "CertificateActualFirst",
    title: "the actual-conditions pair printed first",
    right: &[Noted, Corrected],
    cause: "The laboratory prints the pair for actual conditions above that for standard ones.",
    sign: "The first slope is near 0.95, not near 1.5.",
    check: "Read what each pair is for.",
    usual: Fault::CertificateActualFirst,
    ..SHEET
};

pub(in crate::fault) const FAR_FROM_LAST: Sheet = Sheet {
    name: "CertificateFarFromLast",
    title: "a certificate far from last year's",
    cause: "Either the orifice has changed within the year or the laboratory has erred: nobody on \
            a roof can tell which.",
    sign: "Slope and intercept give another flow than those of last year's paper at the same \
           column: dust and wear take some percent in a year, this is more.",
    check: "Work out the flow at 4 inches of water by both papers.",
    usual: Fault::CertificateFarFromLast,
    ..SHEET
};

pub(in crate::fault) const DIGITS_EXCHANGED: Sheet = Sheet {
    name: "CertificateDigitsExchanged",
    title: "digits exchanged in a certificate's copy",
    right: &[Rejected, Corrected],
    cause: "Somebody copied the paper by hand and exchanged two digits of the slope.",
    sign: "The paper is headed as a copy, and its slope is not that of the original.",
    check: "Compare it with the original, digit by digit.",
    usual: Fault::CertificateDigitsExchanged,
    ..SHEET
};
