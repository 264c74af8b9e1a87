//! The pictures of a question, as the bench draws them.

use std::path::{Path, PathBuf};

use sessions::{FrontEndError, replace_files};
use sim_core::drill::Question;

/// Pixels a side of a picture through the loupe; the station is drawn in proportion.
const SIDE_PX: u32 = 620;

/// Draws a question into a folder, and says where.
pub(super) fn draw(question: &Question, folder: &Path) -> Result<Vec<PathBuf>, FrontEndError> {
    std::fs::create_dir_all(folder)
        .map_err(|error| FrontEndError::file("create", folder, &error))?;
    let mut files = Vec::new();
    for picture in paint::drill::pictures(question, SIDE_PX) {
        let number = question.number() + 1;
        let name = format!("{}-{number:03}-{}.png", question.kind(), picture.name);
        let bytes = picture.pixels.encode_png().map_err(|error| {
            FrontEndError::Wrong(format!("the picture {name} cannot be made: {error}"))
        })?;
        files.push((folder.join(name), bytes));
    }
    replace_files(&files)?;
    Ok(files.into_iter().map(|(path, _)| path).collect())
}
