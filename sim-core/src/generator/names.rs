//! Invented stations. No such place is meant.

use super::dice::Dice;

const FIRST: [&str; 40] = [
    "Agrimony",
    "Alder",
    "Bilberry",
    "Bracken",
    "Bryony",
    "Burdock",
    "Campion",
    "Chervil",
    "Clover",
    "Comfrey",
    "Cornel",
    "Cowslip",
    "Dewberry",
    "Dogwood",
    "Fennel",
    "Figwort",
    "Foxtail",
    "Gorse",
    "Harebell",
    "Hornbeam",
    "Knapweed",
    "Lovage",
    "Mallow",
    "Medlar",
    "Milkwort",
    "Mugwort",
    "Nettle",
    "Oxlip",
    "Plantain",
    "Quince",
    "Ragwort",
    "Rowan",
    "Sainfoin",
    "Sedge",
    "Sorrel",
    "Speedwell",
    "Tansy",
    "Valerian",
    "Willow",
    "Yarrow",
];

/// Sites that may stand anywhere.
const ANYWHERE: [&str; 16] = [
    "Bakery",
    "Bus Garage",
    "Clinic",
    "Creamery",
    "Fire Station",
    "Foundry",
    "Grain Store",
    "Laundry",
    "Library",
    "Market Hall",
    "Post Office",
    "Print Shop",
    "Pump House",
    "School",
    "Substation",
    "Town Hall",
];

/// Sites of high country.
const HIGH: [&str; 8] = [
    "Lift House",
    "Lookout",
    "Mast",
    "Observatory",
    "Pass Hut",
    "Plateau Farm",
    "Ranger Post",
    "Saddle",
];

/// The name of a station.
pub(super) fn station(dice: Dice, elevation_m: f64) -> String {
    let first = dice.one_of("station", &FIRST).unwrap_or("Alder");
    let kind = if elevation_m > 700.0 {
        dice.one_of("building", &HIGH)
    } else {
        dice.one_of("building", &ANYWHERE)
    };
    format!("{first} {}", kind.unwrap_or("School"))
}
