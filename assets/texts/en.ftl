# All words of Rakeline. Plain trade words; a message says what is wrong,
# by how much, and what to do. Sections keep to the order of the core's modules.

## Samples

sample-not-a-number = The sensor gave no usable figure. Hold on, or type the angle.
sample-zero-length = The sensor shows no gravity. Hold the phone still, or type the angle.
sample-time-went-back = A sensor reading came with an older time and was left out.

sample-saturated = A blow, or the sensor's range ended. Hold the phone still; if this stays, type the angle.
sample-converted-from-g = This sensor counts in g. Converted to m/s².
sample-turned-round = This sensor points down at rest. Turned round.

## Face angle, still window, uncertainty

still-no-samples = No reading came from the sensor in { $seconds } s. Check that motion is allowed, or type the angle.
still-sensor-stopped = The sensor stopped during the reading. Read again, or type the angle.
still-hand-moves = The phone kept moving: it swung by { $spread }° in { $seconds } s. Press it on and read again.
still-too-noisy = The reading stayed uncertain by ± { $reached }° after { $seconds } s, ± { $asked }° is asked. Switch off the engine, press the phone on, read again.
still-too-few = Only { $samples } readings came in { $seconds } s. Hold longer, or type the angle.
face-not-a-bumper = { $rake }° is not a bumper face (more than { $limit }°). Is the phone's back on the face, top edge up?
face-unzeroed = This phone is not zeroed: ± { $share }° of the ± is its own error. Zero the phone, or treat close calls as open.
face-typed-not-a-number = Type the angle as a figure in degrees.
face-typed-no-accuracy = Type the gauge's ± as a figure above 0, up to { $limit }°.
repeats-outlier = Reading { $which } stands apart by { $off }°. It still counts: read once more, or take it out.
repeats-contradict = The two readings are { $apart }° apart. Read once more.
mirror-differs = Left { $left }° and right { $right }° differ by { $apart }° (more than { $limit }°). Read both again; the bumper may sit crooked.
budget-noise = noise of the reading
budget-rounding = rounding of the sensor
budget-zeroing = the phone's own error
budget-gauge = the gauge's ±
budget-contact = where the phone touches the face
budget-seating = how it sits from one reading to the next
budget-ground = how the ground lies
budget-turn = the corner angle
budget-shrink-noise = Most of the ± is noise: hold longer, engine off.
budget-shrink-rounding = Most of the ± is rounding by this sensor: a finer source, or a typed gauge, would shrink it.
budget-shrink-zeroing = Most of the ± is this phone's own error: zero the phone.
budget-shrink-zeroing-again = Most of the ± is what zeroing left: zero again with the two table poses.
budget-shrink-gauge = Most of the ± is the gauge's own: a finer gauge would shrink it.
budget-shrink-contact = Most of the ± is where the phone touches the rounded face: stick three feet on, and set the face's roundness.
budget-shrink-contact-feet = Most of the ± is where the phone sits on the rounded face: place it on the mark with care.
budget-shrink-seating = Most of the ± is how the phone sits: read this spot again, three times in all.
budget-shrink-ground = Most of the ± is the ground: lay the board beside the wheels once, or pick a saved bay.
budget-shrink-ground-board = Most of the ± is the ground: measure it again with the board, both ways round.
budget-shrink-turn = Most of the ± is the corner angle on this slope: type it, or sweep left to right.

## Zero the phone

zero-pose-back-upright = Back of the phone flat on the wall, top edge up.
zero-pose-back-upside-down = Same place, back on the wall, top edge down.
zero-pose-screen-in = Same place, screen on the wall, top edge up. Listen for the tone.
zero-pose-screen-in-upside-down = Same place, screen on the wall, top edge down. Listen for the tone.
zero-pose-table = On its back on a table.
zero-pose-table-turned = Same place on the table, turned end for end.
zero-table-buys = Two more readings on a table bring the phone's own error from { $without }° down to { $with }°.
zero-bad-not-upright = The phone was turned { $by }° to the side. Hold its edge upright and read again.
zero-bad-wrong-way-up = The top edge points the wrong way. Turn the phone round and read again.
zero-bad-wrong-side = The other side of the phone is asked for. Turn it over and read again.
zero-bad-surface-leans = This surface is off by { $by }°. Take an upright wall and a level table.
zero-bad-moved = The phone moved while it was read (± { $by }°). Press it on and read again.
zero-bad-same-twice = The phone was not moved since the reading before. Turn it as shown and read again.
zero-bad-other-source = This reading comes from another sensor than the ones before. Start again.
zero-too-few = At least three wall readings are needed: back upright, back upside down, screen in.
zero-not-one-surface = The readings do not fit one flat surface: { $left }° is left over. Start again on one flat place.
zero-not-a-phone = The readings ask for an error that no phone has. Check each pose and start again.

zero-renew-phone = Zeroed was { $profile }, not this phone. Zero this phone.
zero-renew-case = The phone's case changed since it was zeroed. Zero it again.
zero-renew-feet = The feet on the phone changed since it was zeroed. Zero it again.
zero-renew-age = Zeroed { $days } days ago. Zero the phone again.

## How the ground lies

ground-not-flat = The phone leans { $lean }°: lay it flat on the board, screen up, top edge forward.
ground-no-reading = Read the board both ways round first.
ground-too-steep = The ground slopes { $slope }° (more than { $limit }°). Move the vehicle to flatter ground.

## Corner angle and shape from above

sweep-no-azimuth = This sensor gives no direction about the vertical. Type the corner angles instead.
sweep-too-short = A sweep needs the centre, at least one place beside it, and the centre again.
sweep-not-closed = The sweep has to start and end on the centre. Put the phone on the centre again.
sweep-closing-too-far = Back on the centre the phone was { $closing }° off (more than { $limit }°). Keep away from magnets, go slower, sweep again.
sweep-turned-too-far = At { $along } mm the face is turned by { $turn }°: that is round the corner. Leave this place out.
sweep-same-place = Two places of the sweep are the same on the tape. Correct one.
shape-out-of-range = A tape figure goes beyond 3000 mm or a corner angle beyond 90°. Correct it.

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

