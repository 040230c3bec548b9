//! What a vehicle is called, as typed in one line: make, model, body, years.
//! Two lines can be the same model spelt differently; they are found, and
//! never merged without being asked.

use super::years::{Piece, pieces};
use crate::text::{Message, msg};

/// Letters that are compared; more is no name.
const COMPARED: usize = 64;

/// The body of a vehicle: another has another bumper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Body {
    /// A panel van.
    Van,
    /// An estate.
    Estate,
    /// A saloon.
    Saloon,
    /// A hatchback.
    Hatchback,
    /// A coupé.
    Coupe,
    /// An open car.
    Convertible,
    /// A pick-up.
    PickUp,
    /// A bus.
    Bus,
    /// A high car for rough roads.
    Suv,
}

/// Words for bodies, as they are typed.
const BODIES: [(&str, Body); 26] = [
    ("van", Body::Van),
    ("panelvan", Body::Van),
    ("kastenwagen", Body::Van),
    ("estate", Body::Estate),
    ("wagon", Body::Estate),
    ("kombi", Body::Estate),
    ("combi", Body::Estate),
    ("break", Body::Estate),
    ("saloon", Body::Saloon),
    ("sedan", Body::Saloon),
    ("limousine", Body::Saloon),
    ("berline", Body::Saloon),
    ("hatchback", Body::Hatchback),
    ("hatch", Body::Hatchback),
    ("coupe", Body::Coupe),
    ("convertible", Body::Convertible),
    ("cabrio", Body::Convertible),
    ("cabriolet", Body::Convertible),
    ("roadster", Body::Convertible),
    ("pickup", Body::PickUp),
    ("ute", Body::PickUp),
    ("bus", Body::Bus),
    ("minibus", Body::Bus),
    ("camper", Body::Bus),
    ("suv", Body::Suv),
    ("4x4", Body::Suv),
];

impl Body {
    /// Its name.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Van => "body-van",
            Self::Estate => "body-estate",
            Self::Saloon => "body-saloon",
            Self::Hatchback => "body-hatchback",
            Self::Coupe => "body-coupe",
            Self::Convertible => "body-convertible",
            Self::PickUp => "body-pick-up",
            Self::Bus => "body-bus",
            Self::Suv => "body-suv",
        })
    }
}

/// A vehicle's name, read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct VehicleName {
    /// Make and model without spaces, case, accents.
    pub model: String,
    /// Its body, where a word for one was typed.
    pub body: Option<Body>,
    /// Size of the engine, tenths of a litre: 20 for '2.0'.
    pub engine: Option<u16>,
    /// A figure that could be a year, where a year stands beside it: part of
    /// the model, or a second year. That is to be asked.
    pub figure: Option<u16>,
    /// First and last year that was typed.
    pub years: Option<(u16, u16)>,
}

/// How alike two names are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Likeness {
    /// The same but for case, spaces, accents.
    Same,
    /// Spelt nearly alike, or one says more: to be asked.
    Alike,
    /// Another vehicle.
    Other,
}

impl VehicleName {
    /// Reads a line. Anything can stand there; what is no year, no engine
    /// and no body is part of the model's name.
    #[must_use]
    pub fn read(line: &str) -> Self {
        let mut name = Self::default();
        let mut model = String::new();
        for piece in pieces(&fold(line).replace("pick-", "pick")) {
            match piece {
                Piece::Years(first, last) => {
                    // Of two that are not joined the last is the year.
                    if let Some((first, _)) = name.years.replace((first, last)) {
                        name.figure = Some(first);
                    }
                }
                Piece::Engine(tenths) => name.engine = name.engine.or(Some(tenths)),
                Piece::Word(word) => {
                    let known = BODIES.iter().find(|(known, _)| *known == word);
                    match known {
                        Some((_, body)) if name.body.is_none() => name.body = Some(*body),
                        _ => model.push_str(&word),
                    }
                }
            }
        }
        name.model = model.chars().take(COMPARED).collect();
        name
    }

    /// A line without its years, as a text.
    #[must_use]
    pub fn without_years(line: &str) -> String {
        let figure = Self::read(line).figure.map(|figure| (figure, figure));
        let tells_years = |word: &&str| {
            let years = Self::read(word).years;
            years.is_some() && years != figure
        };
        let line = line.replace(" - ", "-").replace(" – ", "–");
        let words = line.split_whitespace().filter(|word| !tells_years(word));
        words.collect::<Vec<&str>>().join(" ")
    }

    /// A line with these years instead of its own: 'Tarn Carrier 2019-2021'.
    #[must_use]
    pub fn with_years(line: &str, (first, last): (u16, u16)) -> String {
        let model = Self::without_years(line);
        if first == last {
            format!("{model} {first}")
        } else {
            format!("{model} {first}-{last}")
        }
    }

    /// Whether nothing of a model was typed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.model.is_empty()
    }

    /// How alike the models are; years are not compared. Figures have to be
    /// the same: 3 and 5 are two models, not two spellings. Another engine,
    /// or a figure that could be a year, is asked about.
    #[must_use]
    pub fn likeness(&self, other: &Self) -> Likeness {
        if self.is_empty() || other.is_empty() {
            return Likeness::Other;
        }
        let bodies = match (self.body, other.body) {
            (Some(a), Some(b)) if a != b => return Likeness::Other,
            (a, b) if a == b => Likeness::Same,
            _ => Likeness::Alike,
        };
        let digits = |name: &str| -> String { name.chars().filter(char::is_ascii_digit).collect() };
        let models = if self.model == other.model {
            Likeness::Same
        } else if digits(&self.model) != digits(&other.model) {
            Likeness::Other
        } else {
            let (short, long) = by_length(&self.model, &other.model);
            let says_more = short.chars().count() >= 4 && long.contains(short);
            let letters = long.chars().count();
            if says_more || distance(&self.model, &other.model) <= slips(letters) {
                Likeness::Alike
            } else {
                Likeness::Other
            }
        };
        let asked = if self.engine == other.engine && self.figure == other.figure {
            Likeness::Same
        } else {
            Likeness::Alike
        };
        bodies.max(models).max(asked)
    }

    /// By how many years this is outside the other's; 0 where either is not
    /// typed.
    #[must_use]
    pub fn years_apart(&self, other: &Self) -> u16 {
        match (self.years, other.years) {
            (Some((first, last)), Some((from, to))) => {
                from.saturating_sub(last).max(first.saturating_sub(to))
            }
            _ => 0,
        }
    }
}

/// So many slips are a spelling of a name of so many letters.
fn slips(letters: usize) -> usize {
    match letters {
        0..=3 => 0,
        _ => (letters / 6).max(1),
    }
}

fn by_length<'a>(a: &'a str, b: &'a str) -> (&'a str, &'a str) {
    if a.len() <= b.len() { (a, b) } else { (b, a) }
}

/// Small letters without the accents of Europe's languages.
fn fold(line: &str) -> String {
    let mut folded = String::new();
    for letter in line.chars().take(500).flat_map(char::to_lowercase) {
        match letter {
            'à'..='æ' | 'ā' | 'ă' | 'ą' => folded.push('a'),
            'ç' | 'ć' | 'č' => folded.push('c'),
            'ď' | 'đ' => folded.push('d'),
            'è'..='ë' | 'ē' | 'ė' | 'ę' | 'ě' => folded.push('e'),
            'ì'..='ï' | 'ī' | 'į' => folded.push('i'),
            'ł' => folded.push('l'),
            'ñ' | 'ń' | 'ň' => folded.push('n'),
            'ò'..='ö' | 'ø' | 'ō' | 'ő' => folded.push('o'),
            'ř' => folded.push('r'),
            'ś' | 'š' | 'ş' => folded.push('s'),
            'ß' => folded.push_str("ss"),
            'ť' | 'ţ' => folded.push('t'),
            'ù'..='ü' | 'ū' | 'ů' | 'ű' => folded.push('u'),
            'ý' | 'ÿ' => folded.push('y'),
            'ź' | 'ż' | 'ž' => folded.push('z'),
            // What joins or turns letters without being seen is no letter.
            '\u{300}'..='\u{36f}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' => {}
            other => folded.push(other),
        }
    }
    folded
}

/// Letters to put in, take out, change or swap with their neighbour
/// (optimal string alignment).
fn distance(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for i in 1..=a.len() {
        let mut row = vec![i; b.len() + 1];
        for j in 1..=b.len() {
            let change = last[j - 1] + usize::from(a[i - 1] != b[j - 1]);
            row[j] = change.min(last[j] + 1).min(row[j - 1] + 1);
            let swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if swapped {
                row[j] = row[j].min(before[j - 2] + 1);
            }
        }
        before = std::mem::replace(&mut last, row);
    }
    last[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is typed, and what it is read as: model, engine, figure, years.
    type Read<'a> = (
        &'a str,
        &'a str,
        Option<u16>,
        Option<u16>,
        Option<(u16, u16)>,
    );

    #[test]
    fn years_engines_and_figures_are_told_apart() {
        let table: [Read; 27] = [
            (
                "Tarn Carrier 2021",
                "tarncarrier",
                None,
                None,
                Some((2021, 2021)),
            ),
            (
                "Tarn Carrier 2019-22",
                "tarncarrier",
                None,
                None,
                Some((2019, 2022)),
            ),
            (
                "Tarn Carrier 2019–2022",
                "tarncarrier",
                None,
                None,
                Some((2019, 2022)),
            ),
            (
                "Tarn Carrier 2019 - 22",
                "tarncarrier",
                None,
                None,
                Some((2019, 2022)),
            ),
            (
                "Tarn Carrier 2019/20",
                "tarncarrier",
                None,
                None,
                Some((2019, 2020)),
            ),
            (
                "Tarn Carrier 2019 to 2022",
                "tarncarrier",
                None,
                None,
                Some((2019, 2022)),
            ),
            (
                "Tarn Carrier 2022-2019",
                "tarncarrier",
                None,
                None,
                Some((2019, 2022)),
            ),
            (
                "Tarn Carrier 1998-02",
                "tarncarrier",
                None,
                None,
                Some((1998, 2002)),
            ),
            (
                "Tarn Carrier (2019-22)",
                "tarncarrier",
                None,
                None,
                Some((2019, 2022)),
            ),
            (
                "Tarn Carrier 2019-",
                "tarncarrier",
                None,
                None,
                Some((2019, 2019)),
            ),
            (
                "Tarn Carrier from 2019",
                "tarncarrier",
                None,
                None,
                Some((2019, 2019)),
            ),
            (
                "Tarn Carrier 03/2021",
                "tarncarrier",
                None,
                None,
                Some((2021, 2021)),
            ),
            (
                "Tarn Carrier 03.2021",
                "tarncarrier",
                None,
                None,
                Some((2021, 2021)),
            ),
            (
                "Tarn Carrier MY21",
                "tarncarrier",
                None,
                None,
                Some((2021, 2021)),
            ),
            (
                "Tarn Carrier '21",
                "tarncarrier",
                None,
                None,
                Some((2021, 2021)),
            ),
            ("Tarn Carrier 2.0", "tarncarrier", Some(20), None, None),
            (
                "Tarn Carrier 2,0 2021",
                "tarncarrier",
                Some(20),
                None,
                Some((2021, 2021)),
            ),
            ("Tarn Carrier 2.0TD", "tarncarriertd", Some(20), None, None),
            ("Tarn Carrier 1.6l", "tarncarrier", Some(16), None, None),
            ("Tarn Carrier 20", "tarncarrier20", None, None, None),
            ("Tarn 308", "tarn308", None, None, None),
            ("Tarn 2008", "tarn", None, None, Some((2008, 2008))),
            (
                "Tarn 2008 2021",
                "tarn",
                None,
                Some(2008),
                Some((2021, 2021)),
            ),
            (
                "Tarn 2008 2019-22",
                "tarn",
                None,
                Some(2008),
                Some((2019, 2022)),
            ),
            (
                "Tarn 2021 22 kWh",
                "tarn22kwh",
                None,
                None,
                Some((2021, 2021)),
            ),
            ("Tarn 1949", "tarn1949", None, None, None),
            ("Tarn 3-series", "tarn3series", None, None, None),
        ];
        for (line, model, engine, figure, years) in table {
            let read = VehicleName::read(line);
            assert_eq!(read.model, model, "{line}");
            assert_eq!(read.engine, engine, "{line}");
            assert_eq!(read.figure, figure, "{line}");
            assert_eq!(read.years, years, "{line}");
        }
    }

    #[test]
    fn another_engine_or_a_figure_like_a_year_is_asked_about() {
        assert_eq!(
            like("Tarn Carrier 2.0", "Tarn Carrier 1.6"),
            Likeness::Alike
        );
        assert_eq!(like("Tarn Carrier 2.0", "Tarn Carrier"), Likeness::Alike);
        assert_eq!(
            like("Tarn Carrier 2.0", "Tarn Carrier 2,0 2021"),
            Likeness::Same
        );
        assert_eq!(like("Tarn Carrier 2.0", "Tarn Carrier 20"), Likeness::Other);
        assert_eq!(like("Tarn 2008 2021", "Tarn 2008 2023"), Likeness::Same);
        assert_eq!(like("Tarn 2008 2021", "Tarn 2021"), Likeness::Alike);
        assert_eq!(like("Tarn 2008 2021", "Tarn 3008 2021"), Likeness::Other);
    }

    #[test]
    fn years_are_written_so_that_they_are_read_again() {
        for (line, years, written) in [
            (
                "Tarn Carrier van 2021",
                (2019, 2022),
                "Tarn Carrier van 2019-2022",
            ),
            ("Tarn Carrier van", (2024, 2024), "Tarn Carrier van 2024"),
            ("Tarn 2019 - 22 van", (2024, 2024), "Tarn van 2024"),
            ("Tarn 2008 2021", (2024, 2024), "Tarn 2008 2024"),
        ] {
            assert_eq!(VehicleName::with_years(line, years), written);
            assert_eq!(VehicleName::read(written).years, Some(years));
        }
    }

    fn like(a: &str, b: &str) -> Likeness {
        VehicleName::read(a).likeness(&VehicleName::read(b))
    }

    #[test]
    fn case_spaces_accents_and_years_make_no_other_model() {
        for other in [
            "tarn carrier",
            "TARN-Carrier 2021",
            "TarnCarrier",
            "Tärn Carrier",
        ] {
            assert_eq!(like("Tarn Carrier, 2023", other), Likeness::Same, "{other}");
        }
        let years = VehicleName::read("Tarn Carrier 2019-2022").years;
        assert_eq!(years, Some((2019, 2022)));
    }

    #[test]
    fn a_slip_of_the_finger_is_alike_and_never_the_same() {
        for other in ["Tarn Carier", "Tran Carrier", "Carrier", "Tarn Carrier van"] {
            assert_eq!(like("Tarn Carrier", other), Likeness::Alike, "{other}");
        }
    }

    #[test]
    fn another_figure_or_body_is_another_vehicle() {
        assert_eq!(like("Fell 308", "Fell 508"), Likeness::Other);
        assert_eq!(like("Fell 308 estate", "Fell 308 van"), Likeness::Other);
        assert_eq!(like("Fell", "Ghyll"), Likeness::Other);
        assert_eq!(like("", ""), Likeness::Other);
        assert_eq!(like("2021", "2021"), Likeness::Other);
    }

    #[test]
    fn years_apart_count_from_the_nearer_end() {
        let apart = |a: &str, b: &str| VehicleName::read(a).years_apart(&VehicleName::read(b));
        assert_eq!(apart("Tarn 2024", "Tarn 2019-2021"), 3);
        assert_eq!(apart("Tarn 2020", "Tarn 2019-2021"), 0);
        assert_eq!(apart("Tarn", "Tarn 2019"), 0);
    }

    #[test]
    fn hostile_names_are_read_to_an_end() {
        let long = "ä😀\u{202e}<b>'\";DROP".repeat(10_000);
        let name = VehicleName::read(&long);
        assert!(name.model.chars().count() <= COMPARED);
        assert_eq!(like(&long, "Tarn Carrier"), Likeness::Other);
    }
}
