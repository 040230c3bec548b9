//! Pictures from the test.

use std::cell::{Cell, RefCell};

use rakeline_core::units::Degrees;

use crate::platform::{Camera, CameraFault, LocalFuture, Picture, PictureFrom};

/// A scripted camera.
#[derive(Default)]
pub struct MemoryCamera {
    fault: RefCell<Option<CameraFault>>,
    next: RefCell<Option<Picture>>,
    runs: Cell<bool>,
    angle: Cell<f64>,
    shown: Cell<usize>,
    file_fault: RefCell<Option<CameraFault>>,
}

impl MemoryCamera {
    /// Every request from now on fails.
    pub fn fail(&self, fault: CameraFault) {
        self.fault.replace(Some(fault));
    }

    /// The picture that comes next, from the camera or a file.
    pub fn gives(&self, picture: Picture) {
        self.next.replace(Some(picture));
    }

    /// The file chosen next is refused.
    pub fn refuses_file(&self, fault: CameraFault) {
        self.file_fault.replace(Some(fault));
    }

    /// Pictures that the screen can show at the moment.
    #[must_use]
    pub fn shown(&self) -> usize {
        self.shown.get()
    }

    /// Whether the live picture runs.
    #[must_use]
    pub fn runs(&self) -> bool {
        self.runs.get()
    }

    /// Turns the screen.
    pub fn turn_screen(&self, angle: Degrees) {
        self.angle.set(angle.0);
    }

    fn ok(&self) -> Result<(), CameraFault> {
        self.fault.borrow().clone().map_or(Ok(()), Err)
    }
}

impl Camera for MemoryCamera {
    fn live(&self, _element: &str) -> LocalFuture<'_, Result<(), CameraFault>> {
        Box::pin(async {
            self.ok()?;
            self.runs.set(true);
            Ok(())
        })
    }

    fn stop(&self) {
        self.runs.set(false);
    }

    fn photo(&self) -> LocalFuture<'_, Result<Picture, CameraFault>> {
        Box::pin(async {
            self.ok()?;
            self.next.take().ok_or(CameraFault::NotYet)
        })
    }

    fn choose(&self, _from: PictureFrom) -> LocalFuture<'_, Result<Option<Picture>, CameraFault>> {
        Box::pin(async {
            match self.file_fault.take() {
                Some(fault) => Err(fault),
                None => Ok(self.next.take()),
            }
        })
    }

    fn smaller(&self, picture: &Picture, most: u32) -> LocalFuture<'_, Option<Picture>> {
        let longer = picture.width.max(picture.height);
        let scaled = |side: u32| {
            let side = u64::from(side) * u64::from(most.min(longer)) / u64::from(longer.max(1));
            u32::try_from(side).unwrap_or(u32::MAX)
        };
        let copy = Picture {
            // Shorter, as a smaller picture's file is.
            bytes: if longer > most {
                picture.bytes.iter().take(1_000).copied().collect()
            } else {
                picture.bytes.clone()
            },
            width: scaled(picture.width),
            height: scaled(picture.height),
        };
        Box::pin(async move { Some(copy) })
    }

    fn show(&self, bytes: &[u8]) -> Option<String> {
        self.shown.set(self.shown.get() + 1);
        Some(format!("memory:{}", bytes.len()))
    }

    fn hide(&self) {
        self.shown.set(0);
    }

    fn screen_angle(&self) -> Degrees {
        Degrees(self.angle.get())
    }
}
