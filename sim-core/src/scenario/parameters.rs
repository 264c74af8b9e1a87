//! A number that a scenario may set: its name, unit, range and usual spread.

use crate::scenario::spread::Spread;

/// What is known of a number before any scenario sets it.
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
    /// What is drawn when the scenario says nothing. Serial-to-serial scatter is small but not
    /// zero, so that no bench can be learnt by heart.
    pub usual: Spread,
    /// What it is.
    pub what: &'static str,
}

impl Parameter {
    /// The name without its section.
    pub fn field(&self) -> &'static str {
        self.name.rsplit('.').next().unwrap_or(self.name)
    }

    /// Whether a value lies in the range. What is not finite never does.
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// Draws the value of the bench with this seed: from `written` if the scenario gives a spread,
    /// else from the usual one. The value is kept in the range whatever was written.
    pub fn draw(&self, written: Option<Spread>, seed: u64) -> f64 {
        let value = written.unwrap_or(self.usual).draw(seed, self.name);
        if value.is_finite() { value.clamp(self.low, self.high) } else { self.usual.centre() }
    }
}

/// Makes a section of a scenario: a struct of optional spreads, and the table of its parameters.
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
