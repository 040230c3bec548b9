# All words of Rakeline. Plain trade words; a message says what is wrong,
# by how much, and what to do. Sections keep to the order of the core's modules.

## Samples

sample-not-a-number = The sensor gave no usable figure. Hold on, or type the angle.
sample-zero-length = The sensor shows no gravity. Hold the phone still, or type the angle.
sample-time-went-back = A sensor reading came with an older time and was left out.

## Face angle, still window, uncertainty

## Zero the phone

## How the ground lies

## Corner angle and shape from above

## Kit sheet

## Ring set

## Look behind, drill plan, leads, supply, parts

## Mark-out

## Job

## Drawing

## Job sheet

## Screens: frame

## Screens: jobs

## Screens: measures and marks

## Screens: faces

## Screens: ring sets

## Screens: job sheet

## Screens: zero, ground, sweep, level

## Screens: kit sheets


## Platform: storage, sensors

storage-refused = This browser does not let Rakeline keep anything: it may be a private window, or site data is blocked. Open Rakeline in a normal window. Until then nothing is saved.
storage-full = The phone has no room left, so the last change is not saved. Free some room (photos, downloads); Rakeline then saves it.
storage-failed = The last change could not be saved ({ $why }). Keep this page open and try again.
storage-kept = The jobs stay on this phone until you delete them.
storage-may-be-cleared = The browser may clear the jobs when the phone runs short of room. Add Rakeline to the home screen to keep them.
storage-cannot-ask = This browser does not say whether it keeps the jobs. Add Rakeline to the home screen to be on the safe side.

motion-source-orientation = Reading the phone's orientation.
motion-source-relative-orientation = Reading the phone's orientation sensor.
motion-source-acceleration = Reading the accelerometer; its steps are coarse, so the ± is larger.
motion-permission-refused = The motion sensor is not allowed for this page. Allow motion sensors in the browser's settings for this site and tap again, or type the angle from a digital angle gauge.
motion-no-sensor = This phone gives no motion reading. Type the angle from a digital angle gauge.
motion-insecure-context = The browser gives motion readings to secure pages only. Open Rakeline at its https address or at localhost, or type the angle from a digital angle gauge.
motion-stopped = The motion sensor stopped. Tap to start it again, or type the angle.
