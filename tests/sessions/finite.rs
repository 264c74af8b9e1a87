//! Whether every number in a value is finite, by walking through it as if it were written down.

use serde::Serialize;
use serde::ser::{self, Impossible};
use sim_core::session::ground_truth::GroundTruth;

/// The first number that is not finite in what a value would be written as.
pub fn not_finite<T: Serialize + ?Sized>(value: &T) -> Option<String> {
    value.serialize(Walk).err().map(|NotFinite(what)| what)
}

/// The first number that is not finite in what is true at a moment. The truth is never written down;
/// naming every field makes the compiler ask about new ones.
pub fn not_finite_truth(truth: &GroundTruth) -> Option<&'static str> {
    let GroundTruth {
        speed_ratio,
        running_s,
        winding_c,
        longest_blocked_s,
        leak_mm2,
        opening,
        steady_s,
        flow_std_m3_min,
        calibrator_flow_std_m3_min,
        tilt_deg,
        zero_in,
        menisci_in,
        undisturbed_menisci_in,
        water_speed_in_s,
        orifice_inh2o,
        below_mark_mm,
        ice,
        tube_water_in,
        fluid: _,
        pen,
        pen_at_rest,
        undisturbed_pen,
        pressure_mmhg,
        temperature_c,
        barometer_mmhg,
        thermometer_c,
        thunder_since_s,
        eye_mm,
        faults,
        powered: _,
        sampler_cord_in: _,
        blower_plug: _,
        line_on: _,
        lid_open: _,
        nut_turns: _,
        washer_above: _,
        places: _,
        holder_gasket: _,
        calibrator_gasket: _,
        blocked: _,
        tube_on_tap: _,
        valve_quarters: _,
        blown_through: _,
        capped: _,
        on_paper: _,
        taps: _,
        run,
        barometer_at_station: _,
        thermometer_shaded: _,
        display,
    } = truth;
    if let Some(run) = run {
        let truth = run.truth.and_then(|truth| not_finite(&truth));
        let numbers = [
            run.deposit_kg_m2,
            run.sheet.holes_mm2,
            run.sheet.wetness,
            run.next_sheet.map_or(0.0, |sheet| sheet.holes_mm2 + sheet.wetness),
            run.trippers.iter().map(|(_, hours)| hours).sum(),
            run.dial_ahead_min,
            run.meter_min,
            run.chart_ahead_min,
            run.set_std_m3_min,
            run.gained_g.unwrap_or(0.0),
        ];
        if truth.is_some() || numbers.iter().any(|number| !number.is_finite()) {
            return Some("run");
        }
    }
    [
        (*speed_ratio, "speed_ratio"),
        (*running_s, "running_s"),
        (*winding_c, "winding_c"),
        (*longest_blocked_s, "longest_blocked_s"),
        (*leak_mm2, "leak_mm2"),
        (*opening, "opening"),
        (*steady_s, "steady_s"),
        (*flow_std_m3_min, "flow_std_m3_min"),
        (*calibrator_flow_std_m3_min, "calibrator_flow_std_m3_min"),
        (*tilt_deg, "tilt_deg"),
        (zero_in[0] + zero_in[1], "zero_in"),
        (menisci_in[0] + menisci_in[1], "menisci_in"),
        (undisturbed_menisci_in[0] + undisturbed_menisci_in[1], "undisturbed_menisci_in"),
        (*water_speed_in_s, "water_speed_in_s"),
        (*orifice_inh2o, "orifice_inh2o"),
        (*below_mark_mm, "below_mark_mm"),
        (*ice, "ice"),
        (*tube_water_in, "tube_water_in"),
        (*pen, "pen"),
        (*pen_at_rest, "pen_at_rest"),
        (*undisturbed_pen, "undisturbed_pen"),
        (*pressure_mmhg, "pressure_mmhg"),
        (*temperature_c, "temperature_c"),
        (*barometer_mmhg, "barometer_mmhg"),
        (*thermometer_c, "thermometer_c"),
        (thunder_since_s.unwrap_or(0.0), "thunder_since_s"),
        (*eye_mm, "eye_mm"),
        (display.map_or(0.0, |display| display.unsettled_in + display.label_days), "display"),
        (faults.iter().filter_map(|fault| fault.size()).map(|size| size.value).sum(), "faults"),
    ]
    .into_iter()
    .find_map(|(value, name)| (!value.is_finite()).then_some(name))
}

/// A number that is not finite.
#[derive(Debug)]
struct NotFinite(String);

impl std::fmt::Display for NotFinite {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for NotFinite {}

impl ser::Error for NotFinite {
    fn custom<T: std::fmt::Display>(message: T) -> Self {
        Self(message.to_string())
    }
}

/// Writes nothing and looks at every number.
#[derive(Clone, Copy)]
struct Walk;

type Seen = Result<(), NotFinite>;

/// Values that hold no number with a fraction.
macro_rules! ignored {
    ($($name:ident($type:ty)),*) => { $(fn $name(self, _: $type) -> Seen { Ok(()) })* };
}

impl ser::Serializer for Walk {
    type Ok = ();
    type Error = NotFinite;
    type SerializeSeq = Self;
    type SerializeTuple = Self;
    type SerializeTupleStruct = Self;
    type SerializeTupleVariant = Self;
    type SerializeMap = Impossible<(), NotFinite>;
    type SerializeStruct = Self;
    type SerializeStructVariant = Self;

    ignored! {
        serialize_bool(bool), serialize_char(char), serialize_str(&str), serialize_bytes(&[u8]),
        serialize_i8(i8), serialize_i16(i16), serialize_i32(i32), serialize_i64(i64),
        serialize_u8(u8), serialize_u16(u16), serialize_u32(u32), serialize_u64(u64),
        serialize_unit_struct(&'static str)
    }

    fn serialize_f32(self, value: f32) -> Seen {
        self.serialize_f64(f64::from(value))
    }

    fn serialize_f64(self, value: f64) -> Seen {
        if value.is_finite() { Ok(()) } else { Err(NotFinite(value.to_string())) }
    }

    fn serialize_none(self) -> Seen {
        Ok(())
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Seen {
        value.serialize(self)
    }

    fn serialize_unit(self) -> Seen {
        Ok(())
    }

    fn serialize_unit_variant(self, _: &'static str, _: u32, _: &'static str) -> Seen {
        Ok(())
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(self, _: &'static str, value: &T) -> Seen {
        value.serialize(self)
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
        value: &T,
    ) -> Seen {
        value.serialize(self)
    }

    fn serialize_seq(self, _: Option<usize>) -> Result<Self, NotFinite> {
        Ok(self)
    }

    fn serialize_tuple(self, _: usize) -> Result<Self, NotFinite> {
        Ok(self)
    }

    fn serialize_tuple_struct(self, _: &'static str, _: usize) -> Result<Self, NotFinite> {
        Ok(self)
    }

    fn serialize_tuple_variant(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<Self, NotFinite> {
        Ok(self)
    }

    fn serialize_map(self, _: Option<usize>) -> Result<Self::SerializeMap, NotFinite> {
        Err(NotFinite("a map: teach this walk about them".to_owned()))
    }

    fn serialize_struct(self, _: &'static str, _: usize) -> Result<Self, NotFinite> {
        Ok(self)
    }

    fn serialize_struct_variant(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<Self, NotFinite> {
        Ok(self)
    }
}

/// Parts of a value without names.
macro_rules! unnamed {
    ($($part:ident::$add:ident),*) => { $(
        impl ser::$part for Walk {
            type Ok = ();
            type Error = NotFinite;

            fn $add<T: Serialize + ?Sized>(&mut self, value: &T) -> Seen {
                value.serialize(*self)
            }

            fn end(self) -> Seen {
                Ok(())
            }
        }
    )* };
}

unnamed! {
    SerializeSeq::serialize_element, SerializeTuple::serialize_element,
    SerializeTupleStruct::serialize_field, SerializeTupleVariant::serialize_field
}

/// Parts of a value with names, which are told.
macro_rules! named {
    ($($part:ident),*) => { $(
        impl ser::$part for Walk {
            type Ok = ();
            type Error = NotFinite;

            fn serialize_field<T: Serialize + ?Sized>(
                &mut self,
                name: &'static str,
                value: &T,
            ) -> Seen {
                value.serialize(*self).map_err(|NotFinite(what)| NotFinite(format!("{name}: {what}")))
            }

            fn end(self) -> Seen {
                Ok(())
            }
        }
    )* };
}

named! { SerializeStruct, SerializeStructVariant }

#[test]
fn the_walk_sees_every_number() {
    #[derive(Serialize)]
    struct Deep {
        a: Vec<(f64, Option<f64>)>,
        b: Kind,
    }
    #[derive(Serialize)]
    enum Kind {
        Of { size: f64 },
    }
    let deep = |x, y, size| Deep { a: vec![(0.0, None), (x, Some(y))], b: Kind::Of { size } };
    assert_eq!(not_finite(&deep(1.0, f64::MAX, 2.0)), None);
    assert_eq!(not_finite(&deep(f64::NAN, 1.0, 2.0)).as_deref(), Some("a: NaN"));
    assert_eq!(not_finite(&deep(1.0, f64::INFINITY, 2.0)).as_deref(), Some("a: inf"));
    assert_eq!(not_finite(&deep(1.0, 2.0, f64::NEG_INFINITY)).as_deref(), Some("b: size: -inf"));
}
