//! Where in the app the fitter is, as an address and back.

use rakeline_core::job::JobId;

/// A step of a job that has a screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Step {
    /// The whole job: every step.
    Whole,
    /// What is behind the bumper.
    Behind,
    /// Half widths.
    Measures,
    /// The mark-out.
    Marks,
    /// Face angles.
    Faces,
    /// Ring sets.
    Rings,
    /// Checked before the drill.
    Check,
    /// Holes, one by one.
    Holes,
    /// Leads and supply.
    Loom,
    /// Obstacle learn.
    Learn,
    /// Walk test and function check.
    Walk,
    /// The job sheet.
    Sheet,
    /// Parts and quote; beside the path.
    Parts,
    /// Find the fault; beside the path.
    Fault,
    /// Zero the phone.
    Zero,
    /// How the ground lies.
    Ground,
    /// Corner angles and shape from above.
    Corners,
    /// The camera level.
    Level,
    /// What the heads will see.
    Sight,
    /// Measuring from photos.
    Cards,
}

/// Steps beside the path: each comes from one on it and goes back there.
pub const BESIDE: [Step; 8] = [
    Step::Parts,
    Step::Fault,
    Step::Zero,
    Step::Ground,
    Step::Corners,
    Step::Level,
    Step::Sight,
    Step::Cards,
];

/// The steps in the order of the work.
pub const STEPS: [Step; 12] = [
    Step::Whole,
    Step::Behind,
    Step::Measures,
    Step::Marks,
    Step::Faces,
    Step::Rings,
    Step::Check,
    Step::Holes,
    Step::Loom,
    Step::Learn,
    Step::Walk,
    Step::Sheet,
];

impl Step {
    fn word(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::Behind => "behind",
            Self::Measures => "measures",
            Self::Marks => "marks",
            Self::Faces => "faces",
            Self::Rings => "rings",
            Self::Check => "check",
            Self::Holes => "holes",
            Self::Loom => "loom",
            Self::Learn => "learn",
            Self::Walk => "walk",
            Self::Fault => "fault",
            Self::Parts => "parts",
            Self::Sheet => "sheet",
            Self::Zero => "zero",
            Self::Ground => "ground",
            Self::Corners => "corners",
            Self::Level => "level",
            Self::Sight => "sight",
            Self::Cards => "cards",
        }
    }

    /// The key of its name on the path.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Whole => "step-whole",
            Self::Behind => "step-behind",
            Self::Measures => "step-measures",
            Self::Marks => "step-marks",
            Self::Faces => "step-faces",
            Self::Rings => "step-rings",
            Self::Check => "step-check",
            Self::Holes => "step-holes",
            Self::Loom => "step-loom",
            Self::Learn => "step-learn",
            Self::Walk => "step-walk",
            Self::Fault => "step-fault",
            Self::Parts => "step-parts",
            Self::Sheet => "step-sheet",
            Self::Zero => "step-zero",
            Self::Ground => "step-ground",
            Self::Corners => "step-corners",
            Self::Level => "step-level",
            Self::Sight => "step-sight",
            Self::Cards => "step-cards",
        }
    }

    /// The step of the path that it belongs to.
    #[must_use]
    pub fn on_path(self) -> Self {
        match self {
            Self::Zero | Self::Ground | Self::Corners | Self::Level => Self::Faces,
            Self::Sight => Self::Rings,
            Self::Cards => Self::Check,
            Self::Fault => Self::Walk,
            on_path => on_path,
        }
    }
}

/// A screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Route {
    /// The list of jobs.
    Jobs,
    /// A step of a job.
    Job(JobId, Step),
    /// The kit sheets.
    Kits,
    /// A new kit sheet, typed quickly.
    NewKit,
    /// A kit sheet.
    Kit(KitId),
    /// A kit sheet in the full editor.
    EditKit(KitId),
    /// Models that were fitted before.
    Again,
    /// A fleet, by its name.
    Fleet(String),
    /// What to buy again.
    Restock,
    /// Workshop and look.
    Settings,
    /// Storage and backup.
    Store,
}

/// Name of a kit sheet in the store, or of a sample.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct KitId(pub String);

impl Route {
    /// Its path in the address.
    #[must_use]
    pub fn path(&self) -> String {
        match self {
            Self::Jobs => "/".to_owned(),
            Self::Job(id, step) => format!("/job/{}/{}", id.0, step.word()),
            Self::Kits => "/kits".to_owned(),
            Self::NewKit => "/kits/new".to_owned(),
            Self::Kit(id) => format!("/kit/{}", id.0),
            Self::EditKit(id) => format!("/kit/{}/edit", id.0),
            Self::Again => "/again".to_owned(),
            Self::Fleet(name) => format!("/fleet/{name}"),
            Self::Restock => "/parts".to_owned(),
            Self::Settings => "/settings".to_owned(),
            Self::Store => "/storage".to_owned(),
        }
    }

    /// The screen of a path; an unknown one is the list of jobs.
    #[must_use]
    pub fn of(path: &str) -> Self {
        let plain = path.split(['?', '#']).next().unwrap_or_default();
        let parts: Vec<&str> = plain.split('/').filter(|part| !part.is_empty()).collect();
        let kit = |id: &str| KitId(id.to_owned());
        match parts.as_slice() {
            ["job", id, rest @ ..] => {
                let mut steps = STEPS.into_iter().chain(BESIDE);
                let step = rest
                    .first()
                    .and_then(|word| steps.find(|step| step.word() == *word))
                    .unwrap_or(Step::Measures);
                Self::Job(JobId((*id).to_owned()), step)
            }
            ["kits"] => Self::Kits,
            ["kits", "new"] => Self::NewKit,
            ["kit", id] => Self::Kit(kit(id)),
            ["kit", id, "edit"] => Self::EditKit(kit(id)),
            ["again"] => Self::Again,
            ["fleet", name] => Self::Fleet((*name).to_owned()),
            ["parts"] => Self::Restock,
            ["settings"] => Self::Settings,
            ["storage"] => Self::Store,
            _ => Self::Jobs,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_screen_comes_back_from_its_path() {
        for step in STEPS.into_iter().chain(BESIDE) {
            let route = Route::Job(JobId("a1".to_owned()), step);
            assert_eq!(Route::of(&route.path()), route);
        }
        let kit = KitId("k1".to_owned());
        for route in [
            Route::Jobs,
            Route::Kits,
            Route::NewKit,
            Route::Kit(kit.clone()),
            Route::EditKit(kit),
            Route::Again,
            Route::Fleet("f1".to_owned()),
            Route::Restock,
            Route::Settings,
            Route::Store,
        ] {
            assert_eq!(Route::of(&route.path()), route);
        }
    }

    #[test]
    fn an_unknown_path_is_the_list_of_jobs() {
        assert_eq!(Route::of("/elsewhere/x"), Route::Jobs);
        assert_eq!(Route::of("/?sample"), Route::Jobs);
        assert_eq!(Route::of("/job"), Route::Jobs);
    }
}
