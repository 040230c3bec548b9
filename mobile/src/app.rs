//! The root of the screens.

use dioxus::prelude::*;

use crate::driver::{AppState, Boot, Units};
use crate::parts::ToTop;
use crate::platform::Platform;
use crate::route::{Route, Step};
use crate::screens::{
    AgainScreen, Behind, Cards, Check, Corners, EditKit, Elsewhere, Faces, Fault, FleetScreen,
    GroundScreen, Holes, Jobs, Kit, Kits, Learn, Level, Loom, Marks, Measures, Opening, Parts,
    QuickKit, Restock, Rings, SettingsScreen, Sheet, SightScreen, StoreScreen, Walk, Whole, Zero,
};
use crate::shell::Shell;
use crate::texts;

/// The app on the platform that the context holds.
#[component]
pub fn App() -> Element {
    let state = use_signal(AppState::default);
    let platform = use_context::<Platform>();
    use_context_provider(|| Shell::start(platform, state));

    let now = state.read();
    if now.boot == Boot::Opening {
        return rsx! { Opening {} };
    }
    if now.boot == Boot::Elsewhere {
        return rsx! { Elsewhere {} };
    }
    let theme = now.settings.theme.class();
    texts::inches(now.settings.units == Units::MmAndInches);
    rsx! {
        // The style sheet sees it from the root.
        i { class: theme, hidden: true }
        ToTop { of: now.route.path() }
        {screen(&now)}
    }
}

fn screen(now: &AppState) -> Element {
    match (&now.route, now.open.is_some()) {
        (Route::Jobs, _) => rsx! { Jobs {} },
        (Route::Kits, _) => rsx! { Kits {} },
        (Route::NewKit, _) => rsx! { QuickKit {} },
        (Route::Kit(id), _) => rsx! { Kit { id: id.clone() } },
        (Route::EditKit(id), _) => rsx! { EditKit { id: id.clone() } },
        (Route::Again, _) => rsx! { AgainScreen {} },
        (Route::Fleet(name), _) => rsx! { FleetScreen { name: name.clone() } },
        (Route::Restock, _) => rsx! { Restock {} },
        (Route::Store, _) => rsx! { StoreScreen {} },
        (Route::Settings, _) => rsx! { SettingsScreen {} },
        (Route::Job(..), false) => rsx! { Opening {} },
        (Route::Job(_, Step::Whole), true) => rsx! { Whole {} },
        (Route::Job(_, Step::Behind), true) => rsx! { Behind {} },
        (Route::Job(_, Step::Holes), true) => rsx! { Holes {} },
        (Route::Job(_, Step::Loom), true) => rsx! { Loom {} },
        (Route::Job(_, Step::Walk), true) => rsx! { Walk {} },
        (Route::Job(_, Step::Fault), true) => rsx! { Fault {} },
        (Route::Job(_, Step::Learn), true) => rsx! { Learn {} },
        (Route::Job(_, Step::Parts), true) => rsx! { Parts {} },
        (Route::Job(_, Step::Measures), true) => rsx! { Measures {} },
        (Route::Job(_, Step::Marks), true) => rsx! { Marks {} },
        (Route::Job(_, Step::Faces), true) => rsx! { Faces {} },
        (Route::Job(_, Step::Rings), true) => rsx! { Rings {} },
        (Route::Job(_, Step::Check), true) => rsx! { Check {} },
        (Route::Job(_, Step::Sheet), true) => rsx! { Sheet {} },
        (Route::Job(_, Step::Zero), true) => rsx! { Zero {} },
        (Route::Job(_, Step::Ground), true) => rsx! { GroundScreen {} },
        (Route::Job(_, Step::Corners), true) => rsx! { Corners {} },
        (Route::Job(_, Step::Level), true) => rsx! { Level {} },
        (Route::Job(_, Step::Sight), true) => rsx! { SightScreen {} },
        (Route::Job(_, Step::Cards), true) => rsx! { Cards {} },
    }
}
