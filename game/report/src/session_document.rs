//! The report of a session as a document: every section in its order.

use super::document::Document;
use super::sections::{
    costs, decided, faults, findings, head, history, limits, one_picture, provenance, readings,
    time,
};
use super::session::SessionReport;

impl SessionReport<'_> {
    /// The report, to be set as a page or as a PDF.
    pub fn document(&self) -> Document {
        let session = &self.ended.session;
        let station = &session.setup.station;
        let sections = [
            head::head(self),
            one_picture::one_picture(self),
            decided::decided(self),
            history::history(self),
            findings::findings(self),
            costs::costs(self),
            faults::faults(self),
            time::time(self),
            readings::readings(self),
            limits::limits(),
            provenance::provenance(self),
        ];
        Document {
            title: format!("{}: {}", self.scenario, station.name),
            footer: format!(
                "Steady Draw {}. {}, {}, seed {}.",
                sim_core::VERSION,
                station.name,
                station.date,
                session.source.seed
            ),
            blocks: sections.concat(),
        }
    }
}
