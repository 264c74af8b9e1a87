//! Drawing the numbers of one bench from a scenario and a seed.

use super::drawn::Drawn;
use super::weather::THUNDER;
use super::written::Scenario;

impl Scenario {
    /// Draws every number of the bench with this seed.
    pub fn draw(&self, seed: u64) -> Drawn {
        let mut drawn = Drawn::default();
        for (parameter, written) in self.weather.written() {
            if parameter.name != THUNDER || written.is_some() {
                drawn.push(parameter.name.to_owned(), parameter.draw(written, seed));
            }
        }
        for (parameter, written) in self.instruments.written() {
            drawn.push(parameter.name.to_owned(), parameter.draw(written, seed));
        }
        for (parameter, written) in self.run.iter().flat_map(|run| run.written()) {
            drawn.push(parameter.name.to_owned(), parameter.draw(written, seed));
        }
        if let Some(history) = &self.history {
            history.draw(self.station.date, seed, &mut drawn);
        }
        for paper in &self.certificates {
            paper.draw_laboratory(&self.certificates, seed, &mut drawn);
            paper.draw(&self.work_order.calibrator_serial, seed, &mut drawn);
        }
        drawn
    }
}
