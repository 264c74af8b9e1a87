//! Sentences with values in them: said in the units that are set, and said again when others are.

use bevy::prelude::*;

use crate::ui::order::Frame;
use crate::ui::settings::Settings;

/// A sentence of the program's, in the units of the report; values in those that are set stand beside
/// them.
#[derive(Component, Debug, Clone, PartialEq, Eq)]
#[require(Text)]
pub struct InUnits(pub String);

pub struct InUnitsPlugin;

impl Plugin for InUnitsPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(Update, say.after(Frame::Show));
    }
}

fn say(settings: Res<Settings>, mut texts: Query<(Ref<InUnits>, &mut Text)>) {
    for (sentence, mut text) in &mut texts {
        if settings.is_changed() || sentence.is_changed() {
            text.set_if_neq(Text::new(settings.units.beside(&sentence.0)));
        }
    }
}
