//! The macro that makes [`super::Fault`] from its table.

/// Makes from a table of faults
///
/// * the enum `Fault`, which scenarios and journals are read and written by;
/// * for each fault a struct of its name and fields in the module `types`, for its declaration;
/// * the ways from a fault to its declaration.
///
/// A fault in the table without a declaration does not compile.
macro_rules! faults {
    ($(
        $(#[$doc:meta])*
        $fault:ident $({ $($(#[$field_doc:meta])* $field:ident: $of:ty,)+ })?,
    )+) => {
        /// A fault and its size.
        #[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub enum Fault {
            $($(#[$doc])* $fault $({ $($(#[$field_doc])* $field: $of,)+ })?,)+
        }

        /// A type for each fault, named after it: what is declared is declared for these.
        mod types {
            use super::{Leg, Nut};

            $(
                #[derive(Debug)]
                pub(super) struct $fault { $($(pub $field: $of,)+)? }
            )+
        }

        impl Fault {
            /// Every fault once, in its usual size.
            pub fn examples() -> impl Iterator<Item = Self> {
                [$(<types::$fault as Declared>::SHEET.usual),+].into_iter()
            }

            /// What is known about it, whatever its size.
            pub const fn sheet(&self) -> &'static Sheet {
                match self { $(
                    Self::$fault { .. } => {
                        const SHEET: Sheet = Sheet {
                            name: stringify!($fault),
                            ..<types::$fault as Declared>::SHEET
                        };
                        &SHEET
                    }
                )+ }
            }

            /// The size that the trainer sets and the range in which it must lie; `None` for a fault
            /// that is there or not.
            pub fn size(&self) -> Option<Size> {
                match *self { $(
                    Self::$fault { $($($field),+)? } => types::$fault { $($($field),+)? }.size(),
                )+ }
            }

            /// Which valve or nut it is at, where there are several.
            fn at(&self) -> Option<String> {
                match *self { $(
                    Self::$fault { $($($field),+)? } => types::$fault { $($($field),+)? }.at(),
                )+ }
            }

            /// What it does when it begins, by its declaration.
            fn begin_as_declared(&self, site: &mut Site<'_>) {
                match *self { $(
                    Self::$fault { $($($field),+)? } => {
                        types::$fault { $($($field),+)? }.begin(site);
                    }
                )+ }
            }

            /// How it is taken away again, by its declaration.
            fn end_as_declared(&self, site: &mut Site<'_>) {
                match *self { $(
                    Self::$fault { $($($field),+)? } => {
                        types::$fault { $($($field),+)? }.end(site);
                    }
                )+ }
            }
        }
    };
}

pub(super) use faults;
