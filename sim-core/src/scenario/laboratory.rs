//! The laboratories that certify calibrators, and the bias that each of them has.

use super::certificate::CertificateEntry;
use super::drawn::Drawn;
use super::parameters::Parameter;
use super::setup::CertificateHeading;
use super::spread::Spread;
use super::written::Scenario;

/// By how much the flows that a laboratory certifies differ from the true ones (CHOSEN: 0.8 percent;
/// 40 CFR Part 50 App. J, 7.3, READ in a reproduced copy, asks a transfer standard to hold ±2 percent).
pub const BIAS: Parameter = Parameter {
    name: "laboratory_bias_pct",
    unit: "%",
    low: -5.0,
    high: 5.0,
    usual: Spread::Normal(0.0, 0.8),
    what: "bias of the laboratory that certified: its flows less the true ones",
};

impl CertificateEntry {
    /// The name of what is drawn for its laboratory. A laboratory has one bias, whatever it certifies;
    /// where none is named, the same one certified every paper about a calibrator.
    fn laboratory_key(&self) -> String {
        match &self.laboratory {
            Some(name) => format!("laboratory.{name}.bias_pct"),
            None => format!("laboratory_of.{}.bias_pct", self.serial),
        }
    }

    /// Whether the same laboratory made both certifications.
    pub(crate) fn is_of_same_laboratory(&self, other: &Self) -> bool {
        self.laboratory_key() == other.laboratory_key()
    }

    /// Whether the paper's numbers are simulated, and so contain the laboratory's bias. Numbers that a
    /// scenario states are what they are.
    const fn is_simulated(&self) -> bool {
        self.slope.is_none() || self.intercept.is_none()
    }

    /// Draws the bias of its laboratory into `drawn`, unless it was drawn for another of the papers.
    /// The first paper that states a spread states it for all papers of its laboratory.
    pub(crate) fn draw_laboratory(&self, papers: &[Self], seed: u64, drawn: &mut Drawn) {
        let key = self.laboratory_key();
        if drawn.get(&key).is_some() || !self.is_simulated() {
            return;
        }
        let stated = papers
            .iter()
            .filter(|paper| paper.is_of_same_laboratory(self))
            .find_map(|paper| paper.laboratory_bias_pct);
        let bias_pct = stated.unwrap_or(BIAS.usual).draw(seed, &key).clamp(BIAS.low, BIAS.high);
        drawn.push(key, bias_pct);
    }

    /// The bias of its laboratory, percent of the flow; zero where the scenario states the numbers.
    pub(crate) fn laboratory_bias_pct(&self, drawn: &Drawn) -> f64 {
        let bias_pct = drawn.get(&self.laboratory_key());
        bias_pct.filter(|_| self.is_simulated()).unwrap_or_default()
    }
}

impl Scenario {
    /// The bias in the certificate of the calibrator on the bench, percent of the flow: that of the
    /// original that is current, or else of whatever paper there is for it.
    pub(super) fn bench_bias_pct(&self, drawn: &Drawn) -> f64 {
        let own = |paper: &&CertificateEntry| paper.serial == self.work_order.calibrator_serial;
        let papers = || self.certificates.iter().filter(own);
        let originals = papers().filter(|paper| paper.heading == CertificateHeading::Original);
        let newest = originals.max_by_key(|paper| paper.date).or_else(|| papers().next());
        newest.map_or(0.0, |paper| paper.laboratory_bias_pct(drawn))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::time::Date;

    fn paper(serial: &str, laboratory: Option<&str>) -> CertificateEntry {
        let text = format!("(serial: \"{serial}\", date: \"2026-03-17\")");
        let mut paper: CertificateEntry = ron::from_str(&text).unwrap();
        paper.laboratory = laboratory.map(str::to_owned);
        paper
    }

    fn biases(papers: &[CertificateEntry], seed: u64) -> Vec<f64> {
        let mut drawn = Drawn::default();
        for paper in papers {
            paper.draw_laboratory(papers, seed, &mut drawn);
        }
        papers.iter().map(|paper| paper.laboratory_bias_pct(&drawn)).collect()
    }

    #[test]
    fn a_laboratory_has_one_bias_and_another_its_own() {
        let mut last = paper("C-1", None);
        last.date = Date::new(2025, 3, 17).unwrap();
        let papers = [
            paper("C-1", None),
            last,
            paper("C-2", None),
            paper("C-3", Some("North Ford")),
            paper("C-4", Some("North Ford")),
            paper("C-5", Some("Weir Lane")),
        ];
        let drawn = biases(&papers, 1);
        assert_eq!((drawn[0], drawn[3]), (drawn[1], drawn[4]), "{drawn:?}");
        let each = [drawn[0], drawn[2], drawn[3], drawn[5]];
        let apart = |one: f64| each.iter().filter(|&&other| (other - one).abs() < 1e-9).count();
        assert!(each.iter().all(|one| apart(*one) == 1), "{each:?}");
    }

    #[test]
    fn laboratories_scatter_by_the_usual_bias_and_a_scenario_may_state_another() {
        let papers = [paper("C-1", None)];
        let drawn: Vec<f64> = (0..400).map(|seed| biases(&papers, seed)[0]).collect();
        let mean = drawn.iter().sum::<f64>() / 400.0;
        let squares = drawn.iter().map(|one| (one - mean) * (one - mean)).sum::<f64>();
        let sd = (squares / 399.0).sqrt();
        // Three standard errors of 400 draws.
        assert!(mean.abs() < 0.12 && (sd - 0.8).abs() < 0.085, "{mean} {sd}");
        let mut stated = papers;
        stated[0].laboratory_bias_pct = Some(Spread::Fixed(-1.7));
        assert!((biases(&stated, 1)[0] + 1.7).abs() < 1e-12);
        stated[0].slope = Some(1.5);
        stated[0].intercept = Some(0.0);
        assert!(biases(&stated, 1)[0].abs() < 1e-12, "what a scenario states is what it is");
    }
}
