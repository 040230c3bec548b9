//! The suites of `cargo xtask test`, in the order they run.

use anyhow::{Result, bail};

/// One suite.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Suite {
    /// Formatting.
    Fmt,
    /// Lints, native and wasm.
    Clippy,
    /// Tests beside the code.
    Unit,
    /// Values that others published.
    Published,
    /// Whole jobs on the memory platform.
    Workflow,
    /// The core in other languages.
    Ffi,
    /// The shape of the source itself.
    Tidy,
    /// The Android package, as far as it goes without a phone.
    Android,
    /// Whole jobs in real Chromium.
    Browser,
}

impl Suite {
    /// All of them, quick and general ones first.
    pub const ALL: [Self; 9] = [
        Self::Fmt,
        Self::Clippy,
        Self::Unit,
        Self::Published,
        Self::Workflow,
        Self::Ffi,
        Self::Tidy,
        Self::Android,
        Self::Browser,
    ];

    /// As named on the command line; a test suite's name is its test target's.
    pub fn name(self) -> &'static str {
        match self {
            Self::Fmt => "fmt",
            Self::Clippy => "clippy",
            Self::Unit => "unit",
            Self::Published => "published",
            Self::Workflow => "workflow",
            Self::Ffi => "ffi",
            Self::Tidy => "tidy",
            Self::Android => "android",
            Self::Browser => "browser",
        }
    }

    /// The suite of that name.
    pub fn named(name: &str) -> Result<Self> {
        let Some(suite) = Self::ALL.into_iter().find(|suite| suite.name() == name) else {
            let names: Vec<_> = Self::ALL.into_iter().map(Self::name).collect();
            bail!("unknown suite '{name}'; there are {}", names.join(", "));
        };
        Ok(suite)
    }

    /// Whether some of its tests read or render PDFs with poppler.
    pub fn reads_pdfs(self) -> bool {
        matches!(self, Self::Workflow | Self::Browser)
    }

    /// Whether some of its tests ask a Python oracle.
    pub fn asks_python(self) -> bool {
        matches!(
            self,
            Self::Unit | Self::Published | Self::Workflow | Self::Ffi
        )
    }
}
