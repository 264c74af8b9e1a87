//! Converts a moment to a position on a drawn time line, and back. Hours when nobody was there are
//! drawn short, so that the work before and after them stays legible.

use super::line::{TimeLine, WaitKind};
use crate::time::Tick;

/// Time when nobody was there is drawn shorter by this factor (CHOSEN: an hour as a minute).
const AWAY_SHORTER: f64 = 60.0;

/// The scale of a session's time line.
#[derive(Debug, Clone, PartialEq)]
pub struct TimeScale {
    pieces: Vec<Piece>,
    whole: f64,
}

/// A piece of time that is drawn at one scale.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Piece {
    from: Tick,
    to: Tick,
    /// Where it begins and ends, in ticks of time at the station.
    begins: f64,
    ends: f64,
}

impl TimeScale {
    /// The scale of a time line.
    pub fn of(line: &TimeLine) -> Self {
        let mut scale = Self { pieces: Vec::new(), whole: 0.0 };
        let mut from = Tick(0);
        for away in line.waits.iter().filter(|wait| wait.kind == WaitKind::Away) {
            scale.add(from, away.from, 1.0);
            scale.add(away.from, away.to, AWAY_SHORTER);
            from = away.to;
        }
        scale.add(from, line.end, 1.0);
        scale
    }

    fn add(&mut self, from: Tick, to: Tick, shorter: f64) {
        let begins = self.whole;
        self.whole += to.0.saturating_sub(from.0) as f64 / shorter;
        self.pieces.push(Piece { from, to, begins, ends: self.whole });
    }

    /// The fraction of the line that a minute at the station takes, 0 to 1.
    pub fn per_minute(&self) -> f64 {
        let minute = Tick::from_seconds(60).0 as f64;
        if self.whole > minute { minute / self.whole } else { 1.0 }
    }

    /// The position of a tick, 0 (the beginning) to 1 (the end).
    pub fn share(&self, tick: Tick) -> f64 {
        let piece = self.pieces.iter().rfind(|piece| piece.from <= tick);
        let Some(piece) = piece.or(self.pieces.first()).filter(|_| self.whole > 0.0) else {
            return 0.0;
        };
        let length = piece.to.0.saturating_sub(piece.from.0);
        let gone = tick.0.clamp(piece.from.0, piece.to.0) - piece.from.0;
        let part = if length == 0 { 0.0 } else { gone as f64 / length as f64 };
        (piece.begins + part * (piece.ends - piece.begins)) / self.whole
    }

    /// The tick at a position on the line.
    pub fn tick_at(&self, share: f64) -> Tick {
        let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
        let along = share * self.whole;
        let piece = self.pieces.iter().find(|piece| along <= piece.ends);
        let Some(piece) = piece.or(self.pieces.last()) else { return Tick(0) };
        let span = piece.ends - piece.begins;
        let part = if span > 0.0 { (along - piece.begins) / span } else { 0.0 };
        let length = piece.to.0.saturating_sub(piece.from.0) as f64;
        piece.from.later((part.clamp(0.0, 1.0) * length).round() as u64)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::marking::time_line::Wait;

    fn line(waits: Vec<Wait>) -> TimeLine {
        TimeLine { end: Tick(100_000), phases: Vec::new(), waits, notes: Vec::new() }
    }

    #[test]
    fn a_session_without_a_run_is_drawn_evenly_and_read_back() {
        let scale = TimeScale::of(&line(Vec::new()));
        for tick in [0, 1, 49_999, 50_000, 99_999, 100_000] {
            let share = scale.share(Tick(tick));
            assert!((share - tick as f64 / 100_000.0).abs() < 1e-12);
            assert_eq!(scale.tick_at(share), Tick(tick));
        }
        assert!((scale.per_minute() - 0.012).abs() < 1e-12);
        assert_eq!(scale.tick_at(f64::NAN), Tick(0));
        assert_eq!(scale.tick_at(7.0), Tick(100_000));
        assert!((scale.share(Tick(200_000)) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn hours_away_are_drawn_short() {
        let away = Wait { from: Tick(20_000), to: Tick(80_000), kind: WaitKind::Away };
        let at_station = Wait { from: Tick(1_000), to: Tick(9_000), kind: WaitKind::AtStation };
        let scale = TimeScale::of(&line(vec![at_station, away]));
        let (left, back) = (scale.share(Tick(20_000)), scale.share(Tick(80_000)));
        assert!((left - 20_000.0 / 41_000.0).abs() < 1e-12);
        assert!((back - left - 1_000.0 / 41_000.0).abs() < 1e-12);
        for tick in [10_000, 20_000, 50_000, 80_000, 90_000] {
            assert!(scale.tick_at(scale.share(Tick(tick))).0.abs_diff(tick) <= 1);
        }
    }

    #[test]
    fn a_session_of_no_length_has_its_only_moment() {
        let scale = TimeScale::of(&TimeLine { end: Tick(0), ..line(Vec::new()) });
        assert!(scale.share(Tick(0)).abs() < 1e-12);
        assert_eq!(scale.tick_at(0.5), Tick(0));
    }
}
