//! The option `--paper` of the commands that write a PDF.

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser as _};

use report::paper::PaperSize;

/// The option.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Args)]
pub struct PaperArgument {
    /// Paper size of the PDF.
    #[arg(
        long, value_name = "SIZE", requires = "out", ignore_case = true,
        default_value_t = PaperSize::default(),
        value_parser = PossibleValuesParser::new(PaperSize::NAMES.map(|(name, _)| name))
            .try_map(|name| name.parse::<PaperSize>()),
    )]
    pub paper: PaperSize,
}
