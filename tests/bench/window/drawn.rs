//! The pictures of the scene change without a frame in which they are missing or out of place.

use std::collections::BTreeMap;

use bevy::ecs::message::MessageCursor;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::prelude::*;
use hands::Spot;
use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart};
use sim_core::session::action::{Action, OnOff};
use window::desk::ActRequest;
use window::scene::panel::ScenePanel;

use super::harness::Bench;

/// Images in the scene's panel, with the size at which each is laid out, whole pixels.
fn pictures(bench: &mut Bench) -> BTreeMap<Entity, (AssetId<Image>, UVec2)> {
    let world = bench.app.world_mut();
    let mut panels = world.query_filtered::<&Children, With<ScenePanel>>();
    let children: Vec<Entity> = panels.single(world).expect("a panel").iter().collect();
    let mut images = world.query::<(&ImageNode, &ComputedNode)>();
    children
        .into_iter()
        .filter_map(|child| {
            let (image, node) = images.get(world, child).ok()?;
            let size = node.size();
            Some((
                child,
                (image.image.id(), UVec2::new(size.x.round() as u32, size.y.round() as u32)),
            ))
        })
        .collect()
}

#[test]
fn a_changed_picture_is_handed_over_and_laid_out_in_the_same_frame() {
    let mut bench = Bench::at_work((1280, 800), 100);
    for action in [
        Action::UnplugSampler,
        Action::OpenLid,
        Action::PlugBlower { into: BlowerPlug::LineOutlet },
        Action::SwitchLine { to: OnOff::On },
    ] {
        bench.app.world_mut().write_message(ActRequest(action));
        bench.rest(3);
    }
    let mut cursor = MessageCursor::<AssetEvent<Image>>::default();
    let mut before = pictures(&mut bench);
    cursor.clear(bench.app.world().resource::<Messages<AssetEvent<Image>>>());
    let mut changes = 0;
    for _ in 0..60 {
        bench.rest(1);
        let after = pictures(&mut bench);
        let events = bench.app.world().resource::<Messages<AssetEvent<Image>>>();
        let added: Vec<AssetId<Image>> = cursor
            .read(events)
            .filter_map(|event| match event {
                AssetEvent::Added { id } | AssetEvent::Modified { id } => Some(*id),
                _ => None,
            })
            .collect();
        for (entity, (image, laid)) in &after {
            if before.get(entity).is_some_and(|(old, _)| old == image) {
                continue;
            }
            changes += 1;
            assert!(added.contains(image), "the screen hears of a new picture a frame too late");
            let images = bench.app.world().resource::<Assets<Image>>();
            let size = images.get(*image).expect("the picture").size();
            assert_eq!(size, *laid, "a picture is laid out in the place of the one before");
        }
        before = after;
    }
    assert!(changes > 10, "the rotor turns and the air goes: {changes} changes");
}

#[test]
fn what_is_in_the_hand_is_drawn_without_a_pointer() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Manometer);
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.view().mounting.place(RigPart::Manometer), PartPlace::Hand);
    let world = bench.app.world_mut();
    let mut texts = world.query::<(&Text, &ComputedNode, &UiGlobalTransform)>();
    let named = texts.iter(world).any(|(text, node, place)| {
        text.0 == "manometer" && node.size().x > 0.0 && place.translation.y > 300.0
    });
    assert!(named, "nothing is drawn at the hand");
}
