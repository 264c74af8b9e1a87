//! The true flow for each chart reading of a rig.

/// Pairs of the chart reading of a fault-free recorder and the true flow, for one rig at the pressure
/// and temperature of the session.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TrueResponse {
    pairs: Vec<(f64, f64)>,
}

impl TrueResponse {
    /// A response from pairs (chart divisions, standard m3/min) in any order. Pairs that are not finite
    /// are left out, and of several pairs with the same chart reading the first is kept.
    pub fn new(pairs: impl IntoIterator<Item = (f64, f64)>) -> Self {
        let mut pairs: Vec<(f64, f64)> = pairs
            .into_iter()
            .filter(|(chart, flow)| chart.is_finite() && flow.is_finite())
            .collect();
        pairs.sort_by(|one, other| one.0.total_cmp(&other.0));
        pairs.dedup_by(|later, earlier| later.0 <= earlier.0);
        Self { pairs }
    }

    /// The true flow at a chart reading, standard m3/min, by linear interpolation.
    ///
    /// `None` outside the range of the pairs: a response is not extrapolated.
    pub fn flow_at_chart(&self, chart: f64) -> Option<f64> {
        self.pairs.windows(2).find_map(|pair| match *pair {
            [(low, flow_low), (high, flow_high)] if (low..=high).contains(&chart) => {
                Some(flow_low + (flow_high - flow_low) * (chart - low) / (high - low))
            }
            _ => None,
        })
    }

    /// The chart reading at a true flow, by linear interpolation; the inverse of
    /// [`Self::flow_at_chart`].
    pub fn chart_at_flow(&self, flow: f64) -> Option<f64> {
        self.pairs.windows(2).find_map(|pair| match *pair {
            [(low, flow_low), (high, flow_high)]
                if flow_high > flow_low && (flow_low..=flow_high).contains(&flow) =>
            {
                Some(low + (high - low) * (flow - flow_low) / (flow_high - flow_low))
            }
            _ => None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn interpolates_inside_and_refuses_outside() {
        let response = TrueResponse::new([(50.0, 1.5), (40.0, 1.2), (40.0, 9.0), (f64::NAN, 1.0)]);
        let middle = response.flow_at_chart(45.0).unwrap();
        assert!((middle - 1.35).abs() < 1e-12, "{middle}");
        assert!((response.flow_at_chart(40.0).unwrap() - 1.2).abs() < 1e-12);
        assert!((response.chart_at_flow(1.35).unwrap() - 45.0).abs() < 1e-12);
        assert_eq!(response.chart_at_flow(1.6), None);
        assert_eq!(response.flow_at_chart(39.9), None);
        assert_eq!(response.flow_at_chart(50.1), None);
        assert_eq!(response.flow_at_chart(f64::NAN), None);
    }
}
