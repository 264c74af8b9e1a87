//! The numbers that a scenario may set: name, unit, range and usual spread of each.

use crate::scenario::spread::Spread;

/// A number that a scenario may set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parameter {
    /// Its path in a scenario, such as `calibrator.orifice_cda_m2`. Its random stream bears the
    /// same name.
    pub name: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// The lowest value that makes sense.
    pub low: f64,
    /// The highest value that makes sense.
    pub high: f64,
    /// What is drawn when the scenario does not set it. Unit-to-unit scatter is small but not zero,
    /// so that nobody can learn a bench by heart.
    pub usual: Spread,
    /// What it is.
    pub what: &'static str,
}

impl Parameter {
    /// The name without its section.
    pub fn field(&self) -> &'static str {
        self.name.rsplit('.').next().unwrap_or(self.name)
    }

    /// Whether a value is in the range. A value that is not finite never is.
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// Draws the value for the bench with this seed: from `written` if the scenario gives a spread,
    /// otherwise from the usual one. The value is kept in the range whatever the scenario says.
    pub fn draw(&self, written: Option<Spread>, seed: u64) -> f64 {
        let value = written.unwrap_or(self.usual).draw(seed, self.name);
        if value.is_finite() { value.clamp(self.low, self.high) } else { self.usual.centre() }
    }
}

/// Defines a section of a scenario: a struct of optional spreads, and the table of its parameters.
macro_rules! section {
    (
        $(#[$doc:meta])*
        $section:ident in $prefix:literal {
            $( $field:ident [$unit:literal] $low:literal to $high:literal usual $usual:expr,
               $what:literal; )+
        }
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
        #[serde(deny_unknown_fields, default)]
        pub struct $section {
            $(
                #[doc = concat!($what, ", ", $unit, ".")]
                #[serde(skip_serializing_if = "Option::is_none")]
                pub $field: Option<Spread>,
            )+
        }

        impl $section {
            /// Its parameters, in the order of the fields.
            pub const PARAMETERS: &'static [Parameter] = &[
                $( Parameter {
                    name: concat!($prefix, ".", stringify!($field)),
                    unit: $unit,
                    low: $low,
                    high: $high,
                    usual: $usual,
                    what: $what,
                }, )+
            ];

            /// What the scenario gives for each parameter, in the order of the fields.
            fn written(&self) -> Vec<Option<Spread>> {
                vec![ $( self.$field, )+ ]
            }
        }
    };
}
pub(crate) use section;
