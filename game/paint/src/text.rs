//! Lettering: outlines of whole strings in the three styles of IBM Plex Sans, shaped once and kept.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use resvg::tiny_skia::Path;
use resvg::usvg::{self, fontdb};

/// Size at which outlines are kept.
pub const OUTLINE_SIZE: f32 = 100.0;

/// So many strings are kept; beyond it the store starts afresh.
const MOST_OUTLINES: usize = 4096;

/// A style of the type.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FontStyle {
    /// For text.
    Regular,
    /// For quiet names of things.
    Italic,
    /// For numbers on scales, and headings.
    SemiBold,
}

/// The outline of a string at [`OUTLINE_SIZE`], its baseline at y = 0 and its start at x = 0.
#[derive(Debug, Clone)]
pub struct TextOutline {
    /// The outline; `None` for a string without marks, such as a space.
    pub path: Option<Path>,
    /// How far the string reaches to the right.
    pub width: f32,
}

/// The outline of a string.
pub fn outline(style: FontStyle, text: &str) -> Arc<TextOutline> {
    static KEPT: Mutex<BTreeMap<(FontStyle, String), Arc<TextOutline>>> =
        Mutex::new(BTreeMap::new());
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    let key = (style, text.to_owned());
    if let Some(outline) = kept.get(&key) {
        return Arc::clone(outline);
    }
    if kept.len() >= MOST_OUTLINES {
        kept.clear();
    }
    let outline = Arc::new(shaped(style, text));
    kept.insert(key, Arc::clone(&outline));
    outline
}

/// Width of a string at a size.
pub fn width(style: FontStyle, size: f32, text: &str) -> f32 {
    outline(style, text).width * size / OUTLINE_SIZE
}

/// A text broken into lines not wider than `most` at a size. Its own line breaks are kept; a word wider
/// than a line is broken itself.
pub fn wrapped(style: FontStyle, size: f32, text: &str, most: f32) -> Vec<String> {
    let fits = |words: &str| width(style, size, words) <= most;
    let mut lines = Vec::new();
    for paragraph in text.lines() {
        let mut line = String::new();
        for word in paragraph.split_whitespace() {
            let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
            if fits(&longer) {
                line = longer;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            for letter in word.chars() {
                line.push(letter);
                if line.chars().count() > 1 && !fits(&line) {
                    line.pop();
                    lines.push(std::mem::replace(&mut line, letter.to_string()));
                }
            }
        }
        lines.push(line);
    }
    lines
}

/// What pictures are read with: our own three fonts, and no others.
pub fn options() -> &'static usvg::Options<'static> {
    static OPTIONS: OnceLock<usvg::Options<'static>> = OnceLock::new();
    OPTIONS.get_or_init(|| {
        let mut fonts = fontdb::Database::new();
        for face in [
            include_bytes!("../../../assets/fonts/IBMPlexSans-Regular.ttf").as_slice(),
            include_bytes!("../../../assets/fonts/IBMPlexSans-Italic.ttf").as_slice(),
            include_bytes!("../../../assets/fonts/IBMPlexSans-SemiBold.ttf").as_slice(),
        ] {
            fonts.load_font_data(face.to_vec());
        }
        usvg::Options {
            font_family: FAMILY.to_owned(),
            fontdb: Arc::new(fonts),
            ..usvg::Options::default()
        }
    })
}

const FAMILY: &str = "IBM Plex Sans";

fn shaped(style: FontStyle, text: &str) -> TextOutline {
    let (weight, slope) = match style {
        FontStyle::Regular => (400, "normal"),
        FontStyle::Italic => (400, "italic"),
        FontStyle::SemiBold => (600, "normal"),
    };
    let svg = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' width='9000' height='200'><text x='0' y='0' \
         font-family='{FAMILY}' font-size='{OUTLINE_SIZE}' font-weight='{weight}' \
         font-style='{slope}'>{}</text></svg>",
        escaped(text)
    );
    let Ok(tree) = usvg::Tree::from_str(&svg, options()) else {
        return TextOutline { path: None, width: 0.0 };
    };
    let mut builder = resvg::tiny_skia::PathBuilder::new();
    let mut width = 0.0_f32;
    collect(tree.root(), &mut builder, &mut width);
    TextOutline { path: builder.finish(), width }
}

/// Gathers the outlines of every string below a group.
fn collect(group: &usvg::Group, builder: &mut resvg::tiny_skia::PathBuilder, width: &mut f32) {
    for node in group.children() {
        match node {
            usvg::Node::Text(text) => {
                *width = width.max(text.bounding_box().right());
                collect(text.flattened(), builder, width);
            }
            usvg::Node::Group(inner) => collect(inner, builder, width),
            usvg::Node::Path(path) => {
                if let Some(placed) = path.data().clone().transform(path.abs_transform()) {
                    builder.push_path(&placed);
                }
            }
            usvg::Node::Image(_) => {}
        }
    }
}

fn escaped(text: &str) -> String {
    text.chars()
        .filter(|character| !character.is_control())
        .map(|character| match character {
            '&' => "&amp;".to_owned(),
            '<' => "&lt;".to_owned(),
            '>' => "&gt;".to_owned(),
            other => other.to_string(),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{FontStyle, width, wrapped};

    #[test]
    fn no_line_is_wider_than_it_may_be() {
        let long = "Weaver\u{2019}sHallRoofUpperDeckNorth".repeat(3);
        let text = format!("Calibrate at {long}.\n\nSign.");
        let lines = wrapped(FontStyle::Regular, 12.0, &text, 120.0);
        assert!(
            lines.iter().all(|line| width(FontStyle::Regular, 12.0, line) <= 120.0),
            "{lines:?}"
        );
        assert_eq!(lines.concat().replace(' ', ""), text.replace(['\n', ' '], ""));
        assert_eq!(lines.first().map(String::as_str), Some("Calibrate at"));
        assert_eq!(lines.iter().filter(|line| line.is_empty()).count(), 1);
    }
}
