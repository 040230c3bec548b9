//! Where in the app the fitter is, as an address and back.

use rakeline_core::job::JobId;

/// A step of a job that has a screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Step {
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
    /// The job sheet.
    Sheet,
}

/// The steps in the order of the work.
pub const STEPS: [Step; 6] = [
    Step::Measures,
    Step::Marks,
    Step::Faces,
    Step::Rings,
    Step::Check,
    Step::Sheet,
];

impl Step {
    fn word(self) -> &'static str {
        match self {
            Self::Measures => "measures",
            Self::Marks => "marks",
            Self::Faces => "faces",
            Self::Rings => "rings",
            Self::Check => "check",
            Self::Sheet => "sheet",
        }
    }

    /// The key of its name on the path.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Measures => "step-measures",
            Self::Marks => "step-marks",
            Self::Faces => "step-faces",
            Self::Rings => "step-rings",
            Self::Check => "step-check",
            Self::Sheet => "step-sheet",
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
}

impl Route {
    /// Its path in the address.
    #[must_use]
    pub fn path(&self) -> String {
        match self {
            Self::Jobs => "/".to_owned(),
            Self::Job(id, step) => format!("/job/{}/{}", id.0, step.word()),
        }
    }

    /// The screen of a path; an unknown one is the list of jobs.
    #[must_use]
    pub fn of(path: &str) -> Self {
        let plain = path.split(['?', '#']).next().unwrap_or_default();
        let parts: Vec<&str> = plain.split('/').filter(|part| !part.is_empty()).collect();
        let ["job", id, rest @ ..] = parts.as_slice() else {
            return Self::Jobs;
        };
        let step = rest
            .first()
            .and_then(|word| STEPS.into_iter().find(|step| step.word() == *word))
            .unwrap_or(Step::Measures);
        Self::Job(JobId((*id).to_owned()), step)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_screen_comes_back_from_its_path() {
        for step in STEPS {
            let route = Route::Job(JobId("a1".to_owned()), step);
            assert_eq!(Route::of(&route.path()), route);
        }
        assert_eq!(Route::of(&Route::Jobs.path()), Route::Jobs);
    }

    #[test]
    fn an_unknown_path_is_the_list_of_jobs() {
        assert_eq!(Route::of("/elsewhere/x"), Route::Jobs);
        assert_eq!(Route::of("/?sample"), Route::Jobs);
        assert_eq!(Route::of("/job"), Route::Jobs);
    }
}
