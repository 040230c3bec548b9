//! An unwinder for a link without an NDK. Nothing of it is shipped.
#![no_std]

use unwinding as _;

#[panic_handler]
fn panic(_: &core::panic::PanicInfo<'_>) -> ! {
    loop {}
}
