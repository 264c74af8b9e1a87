//! Phase A, the certificate: the right one, current, and copied as printed.

use super::evidence::{Evidence, TraineeDecision, same_serial};
use super::occasions::measured;
use super::outcome::Outcome;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;
use crate::scenario::setup::{Certificate, CertificatePair, LONGEST_AGE_DAYS};
use crate::session::action::{Action, FaultPlace, Response, Sight};
use crate::time::{Date, Tick};

/// How far a copied number may be from the printed one: four decimals are enough, and rounding is
/// allowed.
const COPY_TOLERANCE: f64 = 6e-5;

/// The certificate is that of the calibrator in use.
///
/// The serial number on the plate, the one written from the plate and the one written from the
/// certificate must be the same. Broken by using the certificate on top, which belongs to another
/// calibrator; kept by looking further until the numbers agree, or by refusing.
pub static CERTIFICATE_SERIAL: ProcedureRule = ProcedureRule {
    id: "certificate-serial",
    title: "Use the certificate of this calibrator",
    why: "Two orifices of the same make differ by several percent.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Arrive,
    repair: Repair::RightCertificate,
    test: |evidence| {
        let plate = evidence.setup.rig.calibrator_serial.as_str();
        let mut slips = Vec::new();
        let named = evidence.book.text(Field::CertificateSerial);
        if named.is_none() && owner_of_numbers(evidence).is_none() {
            return unnamed(evidence, Field::CertificateSerial);
        }
        if let Some(paper) = named
            && !same_serial(paper, plate)
        {
            let text = format!(
                "the certificate of {paper} was used, but the plate on the calibrator says {plate}"
            );
            slips.push(Slip::at(tick_of(evidence, Field::CertificateSerial), text));
        } else if let Some(owner) = owner_of_numbers(evidence)
            && !same_serial(&owner.serial, plate)
        {
            let text = format!(
                "slope and intercept are those of {}, but the plate on the calibrator says {plate}",
                owner.serial
            );
            slips.push(Slip::at(tick_of(evidence, Field::CertificateSlope), text));
        }
        if let Some(written) = evidence.book.text(Field::CalibratorSerial)
            && !same_serial(written, plate)
        {
            let text = format!("wrote {written} from the plate, which says {plate}");
            slips.push(Slip::at(tick_of(evidence, Field::CalibratorSerial), text).mild());
        }
        if_used(evidence, Outcome::reached(slips))
    },
};

/// The certificate is not older than a year.
///
/// Dated at most 366 days before today, and not after today. Broken by a certificate of 400 days; kept
/// by one of 366 days, or by refusing the calibration.
pub static CERTIFICATE_CURRENT: ProcedureRule = ProcedureRule {
    id: "certificate-current",
    title: "Use a certificate from the last twelve months",
    why: "An orifice wears and collects dirt, so after a year its calibration is no longer reliable.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::read("40 CFR Part 50, App. B, 9.2.17"),
    phase: WorkPhase::Arrive,
    repair: Repair::RightCertificate,
    test: |evidence| {
        let written = evidence.book.text(Field::CertificateDate);
        let date = written.and_then(|text| Date::try_from(text.to_owned()).ok());
        let date = date.or_else(|| owner_of_numbers(evidence).map(|paper| paper.date));
        let Some(date) = date else { return unnamed(evidence, Field::CertificateDate) };
        let age = evidence.setup.station.date.days_since(date);
        if (0..=LONGEST_AGE_DAYS).contains(&age) {
            return Outcome::Kept;
        }
        let text = if age < 0 {
            format!("the certificate is dated {date}, which is in the future")
        } else {
            format!(
                "the certificate of {date} is {age} days old, but at most {LONGEST_AGE_DAYS} days \
                 are allowed"
            )
        };
        let slip = Slip::at(tick_of(evidence, Field::CertificateDate), text);
        if_used(evidence, Outcome::broken(slip))
    },
};

/// Serial number and date in the field book name a certificate that is in the box.
///
/// Broken by a date that is on no certificate; kept by copying it.
pub static CERTIFICATE_NAMED: ProcedureRule = ProcedureRule {
    id: "certificate-named",
    title: "Write down which certificate was used",
    why: "Anyone who checks the record must be able to find the same certificate.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Arrive,
    repair: Repair::None,
    test: |evidence| {
        let fields = [Field::CertificateSlope, Field::CertificateSerial, Field::CertificateDate];
        let Some(at) = fields.into_iter().find_map(|field| evidence.written(field)) else {
            return unnamed(evidence, Field::CertificateSerial);
        };
        if evidence.certificate_named().is_some() {
            return Outcome::Kept;
        }
        let serial = evidence.book.text(Field::CertificateSerial).unwrap_or("(none written)");
        let date = evidence.book.text(Field::CertificateDate).unwrap_or("(none written)");
        let text =
            format!("no certificate in the box has the serial number {serial} and the date {date}");
        if_used(evidence, Outcome::broken(Slip::at(at.tick(), text)))
    },
};

/// Slope and intercept are copied as printed, from the original.
///
/// Broken by 1.5318 where 1.5138 is printed, whether the trainee or a copy made the slip; kept by the
/// digits of the original, rounded to no fewer than four decimals.
pub static CERTIFICATE_COPIED: ProcedureRule = ProcedureRule {
    id: "certificate-copied",
    title: "Copy slope and intercept as the original prints them",
    why: "Two transposed digits in the slope change every flow by a percent or more, and r does not show it.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Arrive,
    repair: Repair::CopyCertificate,
    test: |evidence| {
        let Some(pair) = written_pair(evidence) else { return unwritten(evidence) };
        // Without a certificate of this calibrator there is nothing to copy; another rule says so.
        let Some(paper) = reference_paper(evidence) else { return Outcome::NotReached };
        // The pair for actual conditions breaks another rule, and so does another certificate.
        if same_pair(pair, paper.standard) || is_actual_pair(evidence, pair) {
            return Outcome::reached(copied_blindly(evidence, pair));
        }
        let other = owner_of_numbers(evidence).is_some_and(|owner| {
            !same_serial(&owner.serial, &paper.serial) || owner.date != paper.date
        });
        if other {
            return Outcome::Kept;
        }
        let text = format!(
            "wrote slope {} and intercept {}, but the {} prints {} and {}",
            pair.slope,
            pair.intercept,
            paper.heading.printed(),
            paper.standard.slope,
            paper.standard.intercept
        );
        let slip = Slip::at(tick_of(evidence, Field::CertificateSlope), text);
        let off = ((pair.slope - paper.standard.slope) / paper.standard.slope).abs();
        let small = off < 0.002 && (pair.intercept - paper.standard.intercept).abs() < 0.003;
        if_used(evidence, Outcome::broken(if small { slip.mild() } else { slip }))
    },
};

/// The slip of who wrote the numbers of a certificate without having looked at it: they can only be
/// guessed, or known from another visit.
fn copied_blindly(evidence: &Evidence<'_>, pair: CertificatePair) -> Option<Slip> {
    let at = evidence.written(Field::CertificateSlope)?;
    let prints =
        |paper: &Certificate| same_pair(pair, paper.standard) || same_pair(pair, paper.actual);
    let looked = evidence.indexed_events().take(at.index).any(|at| match at.event.action {
        Action::Look { at: Sight::Certificate(number), .. } => {
            evidence.setup.certificates.get(usize::from(number)).is_some_and(prints)
        }
        _ => false,
    });
    let text =
        "slope and intercept were written without a look at the certificate that prints them";
    (!looked).then(|| Slip::at(at.tick(), text).mild())
}

/// The pair for standard conditions is used, not the one for actual conditions.
///
/// Broken by the slope 0.95 of the pair printed first; kept by 1.51 of the standard pair.
pub static STANDARD_PAIR: ProcedureRule = ProcedureRule {
    id: "standard-pair",
    title: "Use the pair for standard conditions",
    why: "The other pair belongs to another root term: flows come out wrong by a third or more.",
    severity: Severity::Data,
    decides: Decides::Always,
    // The form is read, the algebra from memory.
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.2 and 9.3.7"),
    phase: WorkPhase::Arrive,
    repair: Repair::StandardPair,
    test: |evidence| {
        let Some(pair) = written_pair(evidence) else { return unwritten(evidence) };
        if !is_actual_pair(evidence, pair) {
            return Outcome::Kept;
        }
        let text = format!(
            "slope {} and intercept {} are the pair for actual conditions",
            pair.slope, pair.intercept
        );
        let slip = Slip::at(tick_of(evidence, Field::CertificateSlope), text);
        if_used(evidence, Outcome::broken(slip))
    },
};

/// The outcome, unless the certificates were turned away: who reports them as unusable and refuses the
/// calibration has used none of them.
fn if_used(evidence: &Evidence<'_>, outcome: Outcome) -> Outcome {
    if turned_away(evidence) { Outcome::Kept } else { outcome }
}

/// The outcome where nothing shows which certificate was used.
fn unnamed(evidence: &Evidence<'_>, field: Field) -> Outcome {
    match measured(evidence) && !turned_away(evidence) {
        true => Outcome::without(evidence, field),
        false => Outcome::NotReached,
    }
}

/// The outcome where slope or intercept of the certificate are missing or cannot be read.
fn unwritten(evidence: &Evidence<'_>) -> Outcome {
    match measured(evidence) && !turned_away(evidence) {
        true => Outcome::without_one_of(evidence, &CERTIFICATE_PAIR),
        false => Outcome::NotReached,
    }
}

/// The fields of the pair that is copied from the certificate.
pub(super) const CERTIFICATE_PAIR: [Field; 2] =
    [Field::CertificateSlope, Field::CertificateIntercept];

/// Whether the certificates were reported as unusable and the calibration was refused.
fn turned_away(evidence: &Evidence<'_>) -> bool {
    let rejected = evidence.remarks().any(|(_, remark)| {
        remark.place == FaultPlace::Certificate && remark.response == Response::Rejected
    });
    evidence.verdict() == TraineeDecision::Refused
        && (rejected || evidence.reported(FaultPlace::Certificate))
}

/// The pair in the field book.
fn written_pair(evidence: &Evidence<'_>) -> Option<CertificatePair> {
    let slope = evidence.book.number(Field::CertificateSlope)?;
    let intercept = evidence.book.number(Field::CertificateIntercept)?;
    Some(CertificatePair { slope, intercept })
}

/// The certificate with which the numbers are compared: the one named in the field book, or else the
/// newest original of this calibrator.
pub(crate) fn reference_paper<'a>(evidence: &Evidence<'a>) -> Option<&'a Certificate> {
    let plate = evidence.setup.rig.calibrator_serial.as_str();
    evidence.certificate_named().or_else(|| {
        let papers = evidence.setup.certificates.iter();
        papers
            .filter(|paper| same_serial(&paper.serial, plate))
            .max_by_key(|paper| (paper.date, !paper.is_copy()))
    })
}

/// The certificate whose standard or actual pair is in the field book; one of this calibrator first.
pub(crate) fn owner_of_numbers<'a>(evidence: &Evidence<'a>) -> Option<&'a Certificate> {
    let pair = written_pair(evidence)?;
    let plate = evidence.setup.rig.calibrator_serial.as_str();
    let owners = || {
        let papers = evidence.setup.certificates.iter();
        papers.filter(move |paper| same_pair(pair, paper.standard) || same_pair(pair, paper.actual))
    };
    owners().find(|paper| same_serial(&paper.serial, plate)).or_else(|| owners().next())
}

/// Whether a pair is the pair for actual conditions on some certificate.
pub(crate) fn is_actual_pair(evidence: &Evidence<'_>, pair: CertificatePair) -> bool {
    evidence.setup.certificates.iter().any(|paper| same_pair(pair, paper.actual))
}

/// Whether two pairs are the same as copied.
fn same_pair(one: CertificatePair, other: CertificatePair) -> bool {
    (one.slope - other.slope).abs() <= COPY_TOLERANCE
        && (one.intercept - other.intercept).abs() <= COPY_TOLERANCE
}

/// When a field was last written, or the end of the session.
fn tick_of(evidence: &Evidence<'_>, field: Field) -> Tick {
    evidence.written(field).map_or(evidence.end_tick, |at| at.tick())
}
