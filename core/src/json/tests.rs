use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_json::json;

use super::*;

/// The library that wrote the first records: what is written must stay the
/// same to the byte, and what it reads must be read alike.
fn as_before<T: Serialize>(what: &T) -> String {
    serde_json::to_value(what).unwrap().to_string()
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Kind {
    Plain,
    Of(u8),
    Two(i64, String),
    With { width: f64, so: Option<bool> },
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
enum Side {
    Left,
    Right,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Thin(f64);

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Whole {
    name: String,
    kinds: Vec<Kind>,
    sides: BTreeMap<Side, u64>,
    counted: BTreeMap<u8, Thin>,
    pair: (i32, f64),
    place: [f64; 3],
    none: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    left_out: Option<u32>,
    unit: (),
    #[serde(flatten)]
    later: serde_json::Map<String, Value>,
}

fn whole() -> Whole {
    Whole {
        name: "Ĵ \"quoted\" \\ / \u{1} \u{1f} \n\t\r \u{8}\u{c} \u{7f} \u{1F697}".to_owned(),
        kinds: vec![
            Kind::Plain,
            Kind::Of(7),
            Kind::Two(-3, String::new()),
            Kind::With {
                width: -0.0,
                so: Some(true),
            },
            Kind::With {
                width: 1.0,
                so: None,
            },
        ],
        sides: [(Side::Right, u64::MAX), (Side::Left, 0)].into(),
        counted: [(200, Thin(0.5)), (3, Thin(2.0))].into(),
        pair: (i32::MIN, 1e300),
        place: [0.1, 5e-324, -1.797e308],
        none: None,
        left_out: None,
        unit: (),
        later: json!({"new": [1, -2, 2.5, null, {"deep": "x"}]})
            .as_object()
            .unwrap()
            .clone(),
    }
}

#[test]
fn every_form_of_a_type_comes_back_the_same_and_is_written_as_before() {
    let text = write(&whole()).unwrap();
    assert_eq!(text, as_before(&whole()));
    assert_eq!(read::<Whole>(&text), Ok(whole()));
    let pretty = pretty(&to_value(&whole()).unwrap());
    assert_eq!(read::<Whole>(&pretty), Ok(whole()));
    let value: Value = serde_json::from_str(&pretty).unwrap();
    assert_eq!(pretty, serde_json::to_string_pretty(&value).unwrap());
}

#[test]
fn figures_are_written_as_before_and_read_to_the_last_bit() {
    let mut bits = 0x9e37_79b9_7f4a_7c15_u64;
    let odd = (0..20_000).map(|_| {
        bits = bits.wrapping_mul(0x5851_f42d_4c95_7f2d).wrapping_add(1);
        f64::from_bits(bits)
    });
    let near = (0..20_000).map(|i| f64::from(i - 10_000) * 0.013);
    let powers = (-330..309).map(|power| format!("1e{power}").parse().unwrap());
    let ragged = (-12..25).map(|power| 1.25 * 10_f64.powi(power));
    let all = odd.chain(near).chain(powers).chain(ragged);
    for figure in all.filter(|figure: &f64| figure.is_finite()) {
        let text = write(&figure).unwrap();
        // Where two texts are equally short and near, the other may be taken.
        if figure.abs() < 1e14 {
            assert_eq!(text, as_before(&figure), "{figure:e}");
        }
        assert_eq!(
            read::<f64>(&text).unwrap().to_bits(),
            figure.to_bits(),
            "{text}"
        );
    }
}

#[test]
fn texts_are_read_as_before_or_refused_as_before() {
    let texts = [
        "",
        " ",
        "0",
        "-0",
        "00",
        "01",
        "-",
        "1.",
        ".5",
        "1e",
        "1e+",
        "1E2",
        "-1.5e-3",
        "+1",
        "9223372036854775807",
        "9223372036854775808",
        "18446744073709551616",
        "1e999",
        "-1e999",
        "-9223372036854775808",
        "-9223372036854775809",
        "true",
        "tru",
        "truee",
        "nul",
        "NaN",
        "\"\"",
        "\"",
        "\"a",
        "\"\\",
        "\"\\x\"",
        "\"\\u12\"",
        "\"\\ud800\"",
        "\"\\ud83d\\ude97\"",
        "\"\\ud83d\\u0041\"",
        "\"\\udc00\"",
        "\"\u{1}\"",
        "\"\\u0000\"",
        "\"é\"",
        "\"\\/\"",
        "[]",
        "[1]",
        "[1,]",
        "[,]",
        "[1 2]",
        "[1",
        "[",
        "]",
        "[[],[[]]]",
        "[1]]",
        "{}",
        "{",
        "{\"a\"}",
        "{\"a\":}",
        "{\"a\":1,}",
        "{a:1}",
        "{\"a\":1,\"a\":2}",
        "{\"a\":1 \"b\":2}",
        " \r\n\t{ \"a\" : [ 1 , 2 ] } \n",
        "\u{a0}1",
        "1 1",
        "/* */1",
        "{\"a\":[1,{\"b\":[",
    ];
    for text in texts {
        let before = serde_json::from_str::<Value>(text);
        match (parse(text), before) {
            (Ok(now), Ok(before)) => assert_eq!(now, before, "{text}"),
            (Err(_), Err(_)) => {}
            (now, before) => panic!("{text}: {now:?}, before {before:?}"),
        }
    }
}

#[test]
fn a_text_cut_off_or_spoilt_anywhere_never_reads_as_something_else() {
    let text = pretty(&to_value(&whole()).unwrap());
    for at in (0..text.len()).filter(|at| text.is_char_boundary(*at)) {
        assert!(parse(&text[..at]).is_err(), "{at}");
        for spoilt in ["\"", "}", "\\", ",", "\u{0}", "e"] {
            let text = [&text[..at], spoilt, &text[at..]].concat();
            let before = serde_json::from_str::<Value>(&text).ok();
            assert_eq!(parse(&text).ok(), before, "{at} {spoilt}");
        }
    }
}

#[test]
fn the_place_where_a_text_is_wrong_is_named() {
    let place = |text: &str| parse(text).map_err(|at| (at.line, at.column)).unwrap_err();
    assert_eq!(place("{\n  \"a\": 1,\n  x\n}"), (3, 3));
    assert_eq!(place("[1, 2"), (1, 5));
    assert_eq!(place(""), (1, 0));
}

#[test]
fn a_text_of_ten_thousand_lists_inside_each_other_is_refused() {
    for open in ["[", "{\"a\":"] {
        assert!(parse(&open.repeat(10_000)).is_err());
    }
    let deep = |depth: usize| ["[".repeat(depth), "]".repeat(depth)].concat();
    for depth in [126, 127, 128, 129] {
        let before = serde_json::from_str::<Value>(&deep(depth)).is_ok();
        assert_eq!(parse(&deep(depth)).is_ok(), before, "{depth}");
    }
}

#[test]
fn what_does_not_fit_is_refused_and_named() {
    let why = |text: &str| read::<Whole>(text).unwrap_err().to_string();
    assert_eq!(why("[]"), "invalid type: a list, expected a group");
    assert_eq!(why("{}"), "missing field `name`");
    assert_eq!(
        why(r#"{"name":1}"#),
        "invalid type: a number, expected a text"
    );
    for wrong in [
        r#""no such""#,
        r#"{"of":256}"#,
        r#"{"of":-1}"#,
        r#"{"of":1.0}"#,
        r#""of""#,
        r#"{"plain":1}"#,
        r#"{"two":[1]}"#,
        r#"{"two":[1,"",2]}"#,
        r#"{"with":[1.0,null]}"#,
        r#"{"with":{"so":true}}"#,
        r#"{"plain":null,"of":1}"#,
        "7",
        "{}",
    ] {
        assert!(read::<Kind>(wrong).is_err(), "{wrong}");
    }
}

#[test]
fn a_figure_that_is_no_number_becomes_null_and_a_key_must_be_text() {
    assert_eq!(write(&[f64::NAN, f64::INFINITY]).unwrap(), "[null,null]");
    let keyed: BTreeMap<Vec<u8>, u8> = [(vec![1], 1)].into();
    assert!(write(&keyed).is_err());
}
