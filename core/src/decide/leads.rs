//! Leads: does each one reach, with what, and how much is left over.

use serde::{Deserialize, Serialize};

use crate::kit::{KitSheet, Lead};
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Slack that lets a head be taken out for service, where none is typed (our own figure).
pub const DEFAULT_SLACK: Millimetres = Millimetres(250.0);
/// A longer route is a slip of the finger (our own figure).
pub const LONGEST_ROUTE: Millimetres = Millimetres(60_000.0);

/// Which lead.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LeadOf {
    /// Head to control box, by the head's label.
    Head(String),
    /// Display to control box.
    Display,
    /// Speaker to control box.
    Speaker,
    /// Take-off to control box.
    Supply,
}

impl LeadOf {
    fn field(&self) -> &'static str {
        match self {
            Self::Head(_) => "kit-field-leads-head-length",
            Self::Display => "kit-field-leads-display-length",
            Self::Speaker => "kit-field-leads-speaker-length",
            Self::Supply => "kit-field-leads-supply-length",
        }
    }

    /// Its name.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Head(label) => msg("lead-of-head").text("label", label.clone()),
            Self::Display => msg("lead-of-display"),
            Self::Speaker => msg("lead-of-speaker"),
            Self::Supply => msg("lead-of-supply"),
        }
    }

    fn on(&self, sheet: &KitSheet) -> Option<Lead> {
        let leads = sheet.leads.as_ref()?;
        match self {
            Self::Head(_) => leads.head.clone(),
            Self::Display => leads.display.clone(),
            Self::Speaker => leads.speaker.clone(),
            Self::Supply => leads.supply.clone(),
        }
    }
}

/// Which leads of the kit are laid.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LeadKit {
    /// The one supplied where it reaches, else what leaves least over.
    #[default]
    AsNeeded,
    /// The long ones where the kit has them: a load carrier.
    Long,
}

impl LeadKit {
    /// Both, in the order in which they are shown.
    pub const ALL: [Self; 2] = [Self::AsNeeded, Self::Long];

    /// Its words.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::AsNeeded => "lead-kit-as-needed",
            Self::Long => "lead-kit-long",
        })
    }
}

/// A route as it was measured along the way that the lead will lie.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Route {
    /// Which lead.
    pub of: LeadOf,
    /// Its stretches one after the other: spot to grommet, grommet to control box.
    pub stretches: Vec<Millimetres>,
    /// Straight distance from end to end, if it was measured: no route is shorter.
    pub straight: Option<Millimetres>,
    /// Slack that lets the head be taken out for service.
    pub slack: Millimetres,
    /// Which leads are laid.
    pub kit: LeadKit,
}

/// What reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LeadChoice {
    /// The lead of the kit.
    AsSupplied,
    /// The lead of the kit with its extension.
    WithExtension,
    /// The long lead for load carriers.
    Long,
}

/// A lead that reaches.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LeadPlan {
    /// Which lead.
    pub of: LeadOf,
    /// What is taken.
    pub choice: LeadChoice,
    /// Route and slack.
    pub needs: Millimetres,
    /// What is left over: coiled and tied, never cut.
    pub left_over: Millimetres,
}

/// Why a lead is refused.
#[derive(Clone, Debug, PartialEq)]
pub enum LeadFault {
    /// A stretch is missing, zero, negative or not a number.
    NoLength,
    /// A route that no vehicle has.
    TooLongToBeTrue {
        /// As typed.
        route: Millimetres,
    },
    /// The route is shorter than the straight line from end to end.
    ShorterThanStraight {
        /// The route.
        route: Millimetres,
        /// The straight line.
        straight: Millimetres,
    },
    /// The sheet does not give this lead's length.
    NotGiven {
        /// Key of the field.
        field: &'static str,
    },
    /// Nothing of the kit reaches.
    DoesNotReach {
        /// Which lead.
        of: LeadOf,
        /// How much is missing with the longest that the kit has.
        by: Millimetres,
    },
}

impl LeadFault {
    /// What the fitter is told: where, by how much, what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::NoLength => msg("lead-no-length"),
            Self::TooLongToBeTrue { route } => msg("lead-too-long-to-be-true").mm("route", route.0),
            Self::ShorterThanStraight { route, straight } => msg("lead-shorter-than-straight")
                .mm("route", route.0)
                .mm("straight", straight.0)
                .mm("by", straight.0 - route.0),
            Self::NotGiven { field } => msg("lead-not-given").message("field", msg(field)),
            Self::DoesNotReach { of, by } => msg("lead-does-not-reach")
                .message("of", of.message())
                .mm("by", by.0),
        }
    }
}

/// Which lead of the kit reaches: the one supplied if it does, else of
/// extension and long lead the one that leaves less over. With
/// [`LeadKit::Long`] the long lead if the kit has one.
///
/// # Errors
/// A route that cannot be, a sheet that does not say, or no lead that reaches.
pub fn plan(sheet: &KitSheet, route: &Route) -> Result<LeadPlan, LeadFault> {
    let bad = |l: &Millimetres| !l.0.is_finite() || l.0 < 0.0;
    let length: f64 = route.stretches.iter().map(|l| l.0).sum();
    if route.stretches.iter().any(bad)
        || length.is_nan()
        || length <= 0.0
        || bad(&route.slack)
        || route.straight.as_ref().is_some_and(bad)
    {
        return Err(LeadFault::NoLength);
    }
    let length = Millimetres(length);
    if length > LONGEST_ROUTE {
        return Err(LeadFault::TooLongToBeTrue { route: length });
    }
    if let Some(straight) = route.straight
        && length < straight
    {
        return Err(LeadFault::ShorterThanStraight {
            route: length,
            straight,
        });
    }
    let Some(lead) = route.of.on(sheet) else {
        let field = route.of.field();
        return Err(LeadFault::NotGiven { field });
    };
    let needs = length + route.slack;
    let extended = lead.extension.map(|by| lead.length + by);
    let offers = [
        (LeadChoice::AsSupplied, Some(lead.length)),
        (LeadChoice::WithExtension, extended),
        (LeadChoice::Long, lead.long),
    ];
    let long_only = route.kit == LeadKit::Long && lead.long.is_some();
    let wanted = |choice| !long_only || choice == LeadChoice::Long;
    let given = || {
        let given = offers.iter().filter_map(|(c, l)| l.map(|l| (*c, l)));
        given.filter(|(choice, _)| wanted(*choice))
    };
    let supplied = given().find(|(c, l)| *c == LeadChoice::AsSupplied && *l >= needs);
    let reaches = given()
        .filter(|(_, l)| *l >= needs)
        .min_by(|a, b| a.1.0.total_cmp(&b.1.0));
    match supplied.or(reaches) {
        Some((choice, has)) => Ok(LeadPlan {
            of: route.of.clone(),
            choice,
            needs,
            left_over: has - needs,
        }),
        None => {
            let longest = given().map(|(_, l)| l.0).fold(0.0, f64::max);
            Err(LeadFault::DoesNotReach {
                of: route.of.clone(),
                by: Millimetres(needs.0 - longest),
            })
        }
    }
}

impl LeadPlan {
    /// What is taken, and what is left over to be coiled.
    #[must_use]
    pub fn message(&self) -> Message {
        let key = match self.choice {
            LeadChoice::AsSupplied => "lead-as-supplied",
            LeadChoice::WithExtension => "lead-with-extension",
            LeadChoice::Long => "lead-long",
        };
        msg(key)
            .message("of", self.of.message())
            .mm("needs", self.needs.0)
            .mm("left_over", self.left_over.0)
    }
}

/// What must be so of every route.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum RouteRule {
    /// The lead leaves the cabin downward, so that water drips off outside.
    LeavesCabinDownward,
    /// Tied up to the body above anything hot or moving.
    TiedUpAboveHotAndMoving,
    /// No sharp edge.
    NoSharpEdge,
    /// The grommet is sealed after.
    GrommetSealed,
    /// What is left over is coiled and tied, not cut.
    CoiledNotCut,
}

impl RouteRule {
    /// All of them, in the order of work.
    pub const ALL: [Self; 5] = [
        Self::LeavesCabinDownward,
        Self::TiedUpAboveHotAndMoving,
        Self::NoSharpEdge,
        Self::CoiledNotCut,
        Self::GrommetSealed,
    ];

    /// What to check.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::LeavesCabinDownward => "lead-rule-downward",
            Self::TiedUpAboveHotAndMoving => "lead-rule-tied-up",
            Self::NoSharpEdge => "lead-rule-no-sharp-edge",
            Self::GrommetSealed => "lead-rule-grommet-sealed",
            Self::CoiledNotCut => "lead-rule-coiled",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::parse;

    const METAL: &str = include_str!("../../../assets/kits/metal-four.json");

    fn route(stretches: &[f64], straight: Option<f64>) -> Route {
        Route {
            of: LeadOf::Head("1".to_owned()),
            stretches: stretches.iter().map(|l| Millimetres(*l)).collect(),
            straight: straight.map(Millimetres),
            slack: DEFAULT_SLACK,
            kit: LeadKit::AsNeeded,
        }
    }

    fn planned(stretches: &[f64], straight: Option<f64>) -> Result<LeadPlan, LeadFault> {
        plan(&parse(METAL).unwrap(), &route(stretches, straight))
    }

    #[test]
    fn the_lead_supplied_is_taken_where_it_reaches_and_the_rest_is_coiled() {
        let plan = planned(&[1300.0, 700.0], Some(1500.0)).unwrap();
        assert_eq!(plan.choice, LeadChoice::AsSupplied);
        assert_eq!(plan.left_over, Millimetres(150.0));
        let wanted = msg("lead-as-supplied")
            .message("of", msg("lead-of-head").text("label", "1"))
            .mm("needs", 2250.0)
            .mm("left_over", 150.0);
        assert_eq!(plan.message(), wanted);
    }

    #[test]
    fn then_the_extension_then_the_long_lead() {
        let choice = |length| planned(&[length], None).unwrap().choice;
        assert_eq!(choice(2150.0), LeadChoice::AsSupplied);
        assert_eq!(choice(2151.0), LeadChoice::WithExtension);
        assert_eq!(choice(3651.0), LeadChoice::Long);
    }

    #[test]
    fn a_load_carrier_takes_the_long_lead_where_the_kit_has_one() {
        let sheet = parse(METAL).unwrap();
        let mut carrier = route(&[1300.0], None);
        carrier.kit = LeadKit::Long;
        let long = plan(&sheet, &carrier).unwrap();
        assert_eq!(long.choice, LeadChoice::Long);
        assert_eq!(long.left_over, Millimetres(5200.0 - 1550.0));
        carrier.of = LeadOf::Display;
        let display = plan(&sheet, &carrier).unwrap();
        assert_eq!(display.choice, LeadChoice::AsSupplied);
    }

    #[test]
    fn a_lead_that_does_not_reach_says_by_how_much() {
        let wanted = LeadFault::DoesNotReach {
            of: LeadOf::Head("1".to_owned()),
            by: Millimetres(50.0),
        };
        assert_eq!(planned(&[5000.0], None), Err(wanted));
    }

    #[test]
    fn a_route_shorter_than_the_straight_line_is_refused() {
        let wanted = LeadFault::ShorterThanStraight {
            route: Millimetres(1400.0),
            straight: Millimetres(1500.0),
        };
        assert_eq!(planned(&[900.0, 500.0], Some(1500.0)), Err(wanted));
        assert!(planned(&[1000.0, 500.0], Some(1500.0)).is_ok());
    }

    #[test]
    fn lengths_that_are_none_are_refused() {
        for wrong in [vec![], vec![0.0], vec![900.0, -1.0], vec![f64::NAN]] {
            assert_eq!(planned(&wrong, None), Err(LeadFault::NoLength), "{wrong:?}");
        }
        assert!(matches!(
            planned(&[1e6], None),
            Err(LeadFault::TooLongToBeTrue { .. })
        ));
        assert_eq!(planned(&[900.0], Some(f64::NAN)), Err(LeadFault::NoLength));
    }

    #[test]
    fn what_the_sheet_does_not_give_is_asked() {
        let mut speaker = route(&[900.0], None);
        speaker.of = LeadOf::Speaker;
        let field = "kit-field-leads-speaker-length";
        let found = plan(&parse(METAL).unwrap(), &speaker);
        assert_eq!(found, Err(LeadFault::NotGiven { field }));
    }
}
