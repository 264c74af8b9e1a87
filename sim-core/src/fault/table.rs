//! The macro that makes the faults from their table.

/// Makes from a table of faults
///
/// * the enum `Fault`, by which scenarios and journals are read and written;
/// * the enum `FaultKind`, by which a report names a cause;
/// * `TABLE`, which lists each fault once in its usual size;
/// * the ways from a fault to its declaration: a type of the fault's name and fields in the file of its
///   family.
///
/// A fault in the table without a declaration does not compile.
macro_rules! faults {
    ($(
        $(#[$doc:meta])*
        $family:ident: $fault:ident $({ $($(#[$field_doc:meta])* $field:ident: $of:ty,)+ })?,
    )+) => {
        /// A fault and its size.
        #[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub enum Fault {
            $($(#[$doc])* $fault $({ $($(#[$field_doc])* $field: $of,)+ })?,)+
        }

        /// What is wrong, whatever its size: the cause that a report can name.
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
        )]
        pub enum FaultKind {
            $($(#[$doc])* $fault,)+
        }

        impl FaultKind {
            /// Every kind, in the order of the table.
            pub const ALL: &'static [Self] = &[$(Self::$fault),+];

            /// What is known about it.
            pub const fn sheet(self) -> &'static Sheet {
                match self { $(
                    Self::$fault => {
                        const SHEET: Sheet = Sheet {
                            name: stringify!($fault),
                            ..<$family::$fault as Declared>::SHEET
                        };
                        &SHEET
                    }
                )+ }
            }
        }

        /// Every fault in its usual size (CHOSEN: a size met in the trade, small enough to be
        /// overlooked).
        const TABLE: &[Fault] = &[$({
            let $family::$fault { $($($field),+)? } = <$family::$fault as Declared>::USUAL;
            Fault::$fault { $($($field),+)? }
        }),+];

        impl Fault {
            /// Its kind: the fault without its size.
            pub const fn kind(&self) -> FaultKind {
                match self { $(Self::$fault { .. } => FaultKind::$fault,)+ }
            }

            /// The size that the trainer sets and the range in which it must lie; `None` for a fault
            /// that is there or not.
            pub fn size(&self) -> Option<Size> {
                match *self { $(
                    Self::$fault { $($($field),+)? } => $family::$fault { $($($field),+)? }.size(),
                )+ }
            }

            /// Which valve or nut it is at, where there are several.
            fn at(&self) -> Option<String> {
                match *self { $(
                    Self::$fault { $($($field),+)? } => $family::$fault { $($($field),+)? }.at(),
                )+ }
            }

            /// What it does when it begins, by its declaration.
            fn begin_as_declared(&self, site: &mut Site<'_>) {
                match *self { $(
                    Self::$fault { $($($field),+)? } => {
                        $family::$fault { $($($field),+)? }.begin(site);
                    }
                )+ }
            }

            /// How it is taken away again, by its declaration.
            fn end_as_declared(&self, site: &mut Site<'_>) {
                match *self { $(
                    Self::$fault { $($($field),+)? } => {
                        $family::$fault { $($($field),+)? }.end(site);
                    }
                )+ }
            }
        }
    };
}

pub(super) use faults;
