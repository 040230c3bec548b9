# All words of Rakeline. Plain trade words; a message says what is wrong,
# by how much, and what to do. Sections keep to the order of the core's modules.

## Samples

sample-not-a-number = The sensor gave no usable figure. Hold on, or type the angle.
sample-zero-length = The sensor shows no gravity. Hold the phone still, or type the angle.
sample-time-went-back = A sensor reading came with an older time and was left out.

sample-saturated = A blow, or the sensor's range ended. Hold the phone still; if this stays, type the angle.
sample-converted-from-g = This sensor counts in g. Converted to m/s².
sample-turned-round = This sensor points down at rest. Turned round.

check-line-off = { $typed } mm is { $by } mm off the { $drawn } mm as drawn (more than { $most } mm). Measure the long line below the cards, or print again at 100 %.
check-line-inches = { $typed } mm cannot be the line. If that was inches, type { $inches } mm.
check-line-true = Printed at full size.
check-line-short = { $by } mm short: the sheet is at { $percent } %. Photos count it in; a template printed this way must not be used.
check-line-long = { $by } mm long: the sheet is at { $percent } %. Photos count it in; a template printed this way must not be used.

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
level-looks-away = The camera looks { $by }° up or down (more than { $limit }°). Hold it upright behind the vehicle.
level-line-too-short = Draw the line longer: lay its ends on two far points.
budget-noise = noise of the reading
budget-rounding = rounding of the sensor
budget-zeroing = the phone's own error
budget-gauge = the gauge's ±
budget-contact = where the phone touches the face
budget-seating = how it sits from one reading to the next
budget-ground = how the ground lies
budget-turn = the corner angle
budget-vehicles = the spread from vehicle to vehicle
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
budget-shrink-vehicles = This face was measured on earlier vehicles: reading it on this one would shrink the ±.

## Zero the phone

phone-not-zeroed = phone not zeroed
phone-zeroed = phone zeroed
refused-other-phone = The marks of this job were read by { $before }; this is { $now }. Go on with that phone, or read all marks again.
refused-phone-changed = The case or feet of the phone changed since marks of this job were read. Put them back as they were, or read all marks again.

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

ground-is-level = ground looks level
ground-is-board = ground by the board
ground-is-bay = bay { $name }
ground-is-sill = ground by the sill
ground-nose-up = nose { $angle }° up
ground-nose-down = nose { $angle }° down
ground-right-up = right { $angle }° up
ground-left-up = left { $angle }° up
ground-figures = { $nose } ± { $nose_plus }°, { $lean } ± { $lean_plus }°
load-out-of-range = { $typed }° cannot be an allowance for load. Type 0 to { $greatest }°.
round-flat = flat
round-rounded = rounded
round-tight = tightly rounded
round-measured = rounded, radius { $radius } mm

ground-not-flat = The phone leans { $lean }°: lay it flat on the board, screen up, top edge forward.
ground-not-turned = The phone was not moved between the two readings. Turn it end for end on the board and read again.
ground-no-reading = Read the board both ways round first.
sill-too-steep = Along the sill it reads { $slope }° (more than { $limit }°): that is no ground. Lay the long edge along the sill.
ground-too-steep = The ground slopes { $slope }° (more than { $limit }°). Move the vehicle to flatter ground.

## Corner angle and shape from above

corner-not-known = corner angle not known
corner-straight = looks straight back
corner-left = turned { $angle }° to the left
corner-right = turned { $angle }° to the right
turn-out-of-range = A corner angle of { $typed }° is { $by }° more than { $greatest }°: that is round the corner. Type it again, or leave it out.
entry-tape-place = { $typed } mm is no place for the sweep. Type 20 to 2000 mm, minus for left.
along-mark = Mark { $label }: { $straight } mm straight, { $along } ± { $plus } mm along the face
along-station = Tape { $along } mm: { $straight } ± { $plus } mm straight, { $corner }
mirror-pair = { $left } and { $right }: { $what }
drawing-plan-title = The bumper from above with its marks
drawing-from-centre = from the centre line
drawing-head-to-head = head to head
drawing-along-face = along the face
drawing-straight = straight
drawing-corner-angles = corner angle
drawing-row-ground = { $mm } mm above the ground
drawing-feet-title = The back of the phone with three feet
drawing-feet-camera = camera
drawing-feet-tape = masking tape
drawing-feet-paint = protects the paint
drawing-round-title = The face from the side, with the phone on it
drawing-level-title = Level and plumb over the picture
level-end = level { $angle }° ± { $plus }°
plumb-end = plumb { $angle }° ± { $plus }°
level-line-end = { $angle }° ± { $plus }°
level-line-level = The line runs level
level-line-right-high = The line is { $angle }° high on the right
level-line-left-high = The line is { $angle }° high on the left
level-too-many-photos = A job keeps { $most } level photos. Take one out first.
level-not-stored = The photo was not kept. { $why }
level-photo-gone = This photo is no longer on this phone.

sweep-no-azimuth = This sensor gives no direction about the vertical. Type the corner angles instead.
sweep-too-short = A sweep needs the centre, at least one place beside it, and the centre again.
sweep-not-closed = The sweep has to start and end on the centre. Put the phone on the centre again.
sweep-closing-too-far = Back on the centre the phone was { $closing }° off (more than { $limit }°). Keep away from magnets, go slower, sweep again.
sweep-turned-too-far = At { $along } mm the face is turned by { $turn }°, { $by }° more than { $greatest }°: that is round the corner. Leave this place out.
sweep-same-place = Two places of the sweep are one: { $first } and { $second } mm are { $by } mm too near ({ $least } mm apart at least). Correct one.
shape-out-of-range = { $along } mm along the face is { $by } mm beyond { $greatest } mm. Correct this tape figure.
shape-turned-too-far = At { $along } mm the corner angle is { $turn }°, { $by }° past { $greatest }°: the face would fold back. Correct the angle or the tape figure.
shape-no-figure = A place or a corner angle of the shape has no figure. Type it again.
cards-no-shape = The photos give no shape from above. { $why }
tape-photos-none = No photo has measured these marks yet. Take photos of the mark cards first.
tape-photos-no-centre = No card stood on the centre line, so the photos cannot see whether all marks are shifted. Put the centre card on it and take the photos again, or lay the tape.
tape-photos-left = Not sure enough from the photos: { $marks }. Lay the tape at these.
tape-photos-not-sure = { $label } (± { $plus } mm, more than { $limit })

## Kit sheet

kit-group-sheet = The kit itself
kit-word-plastic = Plastic
kit-word-fibre = Fibre
kit-word-metal = Metal
kit-word-display = Display
kit-word-speaker = Speaker
kit-word-both = Both
kit-word-beep = Beep
kit-word-light = Light
kit-word-nothing = Nothing
kit-word-one-way = One-way
kit-word-two-way = Two-way
kit-word-yes = Yes
kit-word-no = No

kit-unit-mm = mm
kit-unit-deg = °
kit-unit-ms = ms
kit-unit-v = V
kit-unit-a = A
kit-unit-hz = Hz
kit-unit-khz = kHz
kit-unit-count = pieces
kit-fault-document-too-large = This file has { $kilobytes } kB; a kit sheet has at most 1000 kB. Choose another file.
kit-fault-not-json = This file cannot be read as a kit sheet: line { $line }, column { $column } is not JSON.
kit-fault-not-a-kit-sheet = This file is not a kit sheet: it does not begin with "rakeline_kit".
kit-fault-version = This kit sheet has version { $found }; this app reads version 1. Update the app, or export the sheet again.
kit-fault-units = { $at }: the sheet is in { $found }. Give all lengths in millimetres.
kit-fault-missing = { $at } is missing. Fill it in.
kit-fault-not-a-number = { $at }: a number belongs here.
kit-fault-inches = { $at }: this is in inches. Give millimetres.
kit-fault-not-whole = { $at }: a whole number belongs here.
kit-fault-not-text = { $at }: a text belongs here.
kit-fault-empty = { $at } is empty. Fill it in.
kit-fault-too-long = { $at } is too long: at most { $longest } characters.
kit-fault-not-a-switch = { $at }: yes or no belongs here.
kit-fault-not-one-of = { $at }: only one of these fits: { $allowed }.
kit-fault-not-a-list = { $at }: a list belongs here.
kit-fault-not-a-group = { $at }: a group of fields belongs here.
kit-fault-too-few = { $at }: at least { $least } is needed.
kit-fault-too-many = { $at }: at most { $most } fit.
kit-fault-negative = { $at }: { $value } is below zero. Give the size without a sign.
kit-fault-too-small = { $at }: { $value } is too small; the least is { $limit } { $unit }.
kit-fault-looks-like-inches = { $at }: { $value } mm is too small. If it is in inches, give { $millimetres } mm.
kit-fault-too-great = { $at }: { $value } is too much; the most is { $limit } { $unit }.
kit-fault-twice = { $at }: { $value } is there twice. Give each its own name.
kit-fault-unknown-ring = { $at }: the sheet has no ring { $name }. Name one that it has, or add it.
kit-fault-unknown-insert = { $at }: the sheet has no insert { $name }. Name one that it has, or add it.
kit-fault-least-above-greatest = { $at }: the least, { $least } { $unit }, is above the greatest, { $greatest } { $unit }. Change one of them.
kit-fault-target-outside = { $at }: the target { $target }° lies outside { $least }° to { $greatest }°.
kit-fault-head-wider = { $at }: the head of { $head } mm does not go into the hole of { $hole } mm, by { $by } mm. Read both off the leaflet again.
kit-fault-flange-in-hole = { $at }: a flange of { $flange } mm does not cover the hole of { $hole } mm. Read both off the leaflet again.
kit-fault-fuse-below-current = { $at }: a fuse of { $fuse } A blows at the kit's own { $current } A. Read both off the leaflet again.
kit-fault-covers-less = { $at }: it covers { $covers } mm, less than its own hole of { $hole } mm.
kit-fault-other = This kit sheet cannot be read: { $detail }
kit-field-sheet = The file
kit-at-entry = { $field } (entry { $number })
kit-field-name = Name of the kit
kit-field-units = Unit
kit-field-note = Note
kit-field-heads = Heads
kit-field-heads-labels = Labels of the heads, left to right seen from behind
kit-field-heads-comes-with = Ring that the head comes with
kit-field-heads-bare-lift = What the bare head adds
kit-field-heads-diameter = Diameter of the head
kit-field-heads-flange-diameter = Diameter of the flange
kit-field-heads-grip = Panel thickness that the head grips
kit-field-heads-grip-least = Thinnest panel that the head grips
kit-field-heads-grip-greatest = Thickest panel that the head grips
kit-field-heads-depth = Depth of the head behind the face
kit-field-heads-connector-diameter = Diameter of the connector
kit-field-heads-connector-length = Length of the connector
kit-field-heads-bend = Room for the bend of the lead
kit-field-heads-colours = Colours supplied
kit-field-rings = Rings
kit-field-rings-name = Name of the ring
kit-field-rings-lift = What the ring adds
kit-field-rings-thickness = Thickness of the ring
kit-field-rings-paintable = The ring may be painted
kit-field-rings-comes-off = How the ring comes off
kit-field-rings-seats = How the ring seats
kit-field-inserts = Inserts
kit-field-inserts-name = Name of the insert
kit-field-inserts-lift = What the insert adds
kit-field-inserts-hole = Hole for the insert
kit-field-inserts-needed-for = Materials that need the insert
kit-field-inserts-covers-old-hole = Largest old hole that the insert covers
kit-field-totals = Measured totals
kit-field-totals-ring = Ring of a measured total
kit-field-totals-insert = Insert of a measured total
kit-field-totals-lift = Measured total
kit-field-aim = Aim limits
kit-field-aim-least = Least aim
kit-field-aim-greatest = Greatest aim
kit-field-aim-target = Aim to be near to
kit-field-lift-tolerance = Tolerance of what a ring or insert adds
kit-field-mark-out = Mark-out limits
kit-field-mark-out-inner = Inner limit: the heads nearest the centre line sit within
kit-field-mark-out-corner-gap-least = Least corner gap
kit-field-mark-out-corner-gap-greatest = Greatest corner gap
kit-field-mark-out-spacing-least = Least spacing
kit-field-mark-out-spacing-greatest = Greatest spacing
kit-field-mark-out-odd-head-within = Odd head within this of the centre line
kit-field-mark-out-clearance = Clearance to a no-drill area
kit-field-holes = Holes
kit-field-holes-head = Hole for a head
kit-field-holes-by-material = Holes in other materials
kit-field-holes-by-material-material = Material
kit-field-holes-by-material-diameter = Hole in that material
kit-field-holes-pilot = Pilot drill
kit-field-leads = Leads
kit-field-leads-head = Lead of a head
kit-field-leads-head-length = Length of a head's lead
kit-field-leads-head-extension = Extension of a head's lead
kit-field-leads-head-long = Long lead of a head
kit-field-leads-display = Lead of the display
kit-field-leads-display-length = Length of the display's lead
kit-field-leads-display-extension = Extension of the display's lead
kit-field-leads-display-long = Long lead of the display
kit-field-leads-speaker = Lead of the speaker
kit-field-leads-speaker-length = Length of the speaker's lead
kit-field-leads-speaker-extension = Extension of the speaker's lead
kit-field-leads-speaker-long = Long lead of the speaker
kit-field-leads-supply = Supply lead
kit-field-leads-supply-length = Length of the supply lead
kit-field-leads-supply-extension = Extension of the supply lead
kit-field-leads-supply-long = Long supply lead
kit-field-control-box = Control box
kit-field-control-box-sockets = Sockets of the control box
kit-field-control-box-sockets-label = Label of the socket
kit-field-control-box-sockets-takes = What goes into the socket
kit-field-control-box-zone-shift = Zone shift
kit-field-control-box-zone-shift-how = How the zone shift is set
kit-field-control-box-zone-shift-distance = How far the zone shift moves the near zone out
kit-field-supply = Supply
kit-field-supply-least-volts = Least supply voltage
kit-field-supply-greatest-volts = Greatest supply voltage
kit-field-supply-amperes = Current of the kit
kit-field-supply-fuse-amperes = Fuse at the take-off
kit-field-volume = Volume
kit-field-volume-place = Where the volume is set
kit-field-volume-how = How the volume is set
kit-field-volume-steps = Steps of the volume
kit-field-output = Display or speaker
kit-field-output-kind = Display, speaker or both
kit-field-output-note = Note on display or speaker
kit-field-obstacle-learn = Obstacle learn
kit-field-obstacle-learn-cycles = Cycles of the obstacle learn
kit-field-obstacle-learn-silent = How long the last cycle stays silent
kit-field-obstacle-learn-confirmed-by = What confirms a cycle
kit-field-obstacle-learn-last-beeps = Whether the last cycle beeps as well
kit-field-obstacle-learn-ends-with = What confirms the end
kit-field-obstacle-learn-shortest-dwell = Shortest time in reverse that counts
kit-field-obstacle-learn-longest-gap = Longest pause between two cycles
kit-field-obstacle-learn-tone-hertz = Tone of the kit
kit-field-obstacle-learn-cleared-by = How what was learned is cleared
kit-field-sensing = Range and beam
kit-field-sensing-rated-range = Rated range
kit-field-sensing-frequency-kilohertz = Frequency
kit-field-sensing-beam-across = Beam width across
kit-field-sensing-beam-upright = Beam width up and down
kit-field-sensing-beam-way = Beam widths one-way or two-way
kit-field-sensing-ringing = Ringing time
kit-field-height = Height above ground
kit-field-height-least = Lowest height above ground
kit-field-height-greatest = Greatest height above ground
kit-field-paint-limit = Greatest thickness of paint
kit-field-rakeline-kit = Version of the sheet
quick-name = Name of the kit
quick-labels = Labels of the heads, left to right seen from behind
quick-hole = Hole for a head, mm
quick-depth = Depth behind the face, mm
quick-rings = What the rings add, °, the fitted one first
quick-insert-lift = What the insert adds, °
quick-insert-hole = Hole for the insert, mm
quick-inner = Inner limit, mm
quick-corner-gap = Least corner gap, mm
quick-least-aim = Least aim, °
quick-greatest-aim = Greatest aim, °
quick-target-aim = Aim to be near to, °
quick-cycles = Cycles of the obstacle learn
quick-silent-seconds = Silence at the end, s
quick-lead-length = Length of a head's lead, mm
quick-list-unclear = { $at }: is this one figure or two? Put a space between rings, and a point in one figure.

## Ring set

ring-set-ring = Ring { $ring }
ring-set-ring-insert = Ring { $ring } with insert { $insert }
ring-set-none = No ring
ring-face-down = faces down { $angle }°
ring-face-upright = stands upright
ring-face-up = faces up { $angle }°
ring-aim-down = points down { $angle }°
ring-aim-level = points level
ring-aim-up = points up { $angle }°
ring-set-or = { $first } or { $last }
ring-set-sure = { $set }: sure
ring-set-for-now = { $sets }: { $set } for now
ring-set-of-many = { $set } for now
ring-set-others = Close call: { $sets } may be right too.
ring-set-near-limit = { $set } for now, close to its limit
ring-set-none-yet = { $sets }: none yet
ring-set-cannot = This spot cannot be served by this kit
ring-reason-sure = Measured: { $rake } ± { $plus }°, the set adds { $lift }°: the head { $aim } ± { $aim_plus }°. Chance that it points down: { $down } %.
ring-reason-none = Measured: { $rake } ± { $plus }°.
ring-reason-close = Measured: { $rake } ± { $plus }°. Which set is right hangs on where in this ± the face is: { $stretches }.
ring-reason-cannot = Measured: { $rake } ± { $plus }°. The kit serves: { $serves }.
ring-right-from-to = { $set } is right from { $from } to { $to }
ring-serves-from-to = { $from } to { $to }
ring-settle-zero = zero the phone and read again
ring-settle-read-again = press the phone close on the mark and read again
ring-settle-ground = say how the ground lies, for most of the ± is that
ring-settle-read-here = read the face on this vehicle
ring-settle-finer-gauge = read it with a finer gauge and give its ±
ring-do-face-too-far-down = The face falls away too far for this kit. Move the mark to a place where the face stands more upright, or take a kit with larger rings.
ring-do-face-too-far-up = The face looks up too far for this kit. Move the mark to a place where the face stands more upright.
ring-do-face-in-a-gap = No set of this kit fits this face angle. Move the mark a little up or down, or take a kit with finer rings.
ring-do-old-hole = The old hole of { $old_hole } mm is larger than anything in this kit covers. Get an insert that covers it, have the bumper repaired, or move the mark.
ring-do-insert-for-material = This bumper needs an insert, and the kit sheet names none for it. Get the insert and add it to the sheet.
ring-do-limits = No set can point between { $least }° and { $greatest }°. Check the aim limits and the allowance for load.
ring-do-allow-insert = No ring alone serves this face angle; with an insert for its lift it would. Choose 'Also for its lift' above, or move the mark.
ring-why-chosen = { $aim } ± { $plus }°: chosen
ring-why-by-rule = { $aim } ± { $plus }°: by the rule
ring-points-down-chance = Chance that it points down: { $down } %.
ring-why-material = { $aim } ± { $plus }°: this bumper needs its insert; straight in the panel it causes false alarms
ring-why-insert-not-needed = { $aim } ± { $plus }°: no insert is needed here
ring-why-old-hole = { $aim } ± { $plus }°: covers { $covers } mm, the old hole has { $old_hole } mm
ring-why-too-low = { $aim } ± { $plus }°: may point { $by }° too low
ring-why-too-high = { $aim } ± { $plus }°: may point { $by }° too high
ring-why-more-parts = { $aim } ± { $plus }°: would do, with more parts
ring-why-larger-hole = { $aim } ± { $plus }°: would do, with a larger hole of { $hole } mm
ring-why-further = { $aim } ± { $plus }°: would do, but is further from { $target }°
ring-why-adds-more = { $aim } ± { $plus }°: would do, but adds more
ring-pair-same = Left and right get the same: { $set }.
ring-pair-take = { $set } fits both sides, so take it at both (alone: left { $left }, right { $right }).
ring-pair-differ = Left and right differ: left { $left }, right { $right }. Check that the bumper sits straight before you go on.
ring-pair-not-yet = One side has no ring set yet.
ring-by-hand-no-reason = Say why you take another set than the one shown.
ring-by-hand-not-on-sheet = { $set } is not on this kit sheet.

## Look behind, drill plan, leads, supply, parts

behind-crash-beam = crash beam
behind-airbag-or-crash-sensor = airbag or crash sensor
behind-radar = radar
behind-wiring = wiring
behind-fuel-or-vapour = fuel or vapour line
behind-hot-parts = hot parts
behind-foam = foam
behind-ridge-or-step = ridge or step under the flange
behind-other = { $words }
drill-shut-not-looked = Nobody has looked behind this spot yet. Look, and answer what is there.
drill-shut-something-there = Behind this spot: { $what }. Do not drill here. Move the mark, and keep the place as a no-drill area.
drill-shut-foam-not-seen = There is foam, and what is behind it was not seen. Look behind the foam first.
drill-shut-foam-seen = Clear the foam from outside, look again, and answer 'seen and clear'.
drill-shut-could-not-see = It could not be seen what is behind this spot. Take off what hides it, or use an inspection camera. Not seen means not drilled.
drill-shut-depth-not-measured = The depth behind this spot is not measured. Measure it from behind, and type it.
drill-shut-depth-makes-no-sense = { $typed } mm behind the face cannot be. Measure it again, and type it.
drill-shut-too-shallow = Head, connector and bend need { $needs } mm; there are { $depth } mm, { $by } mm too few. Move the mark.
drill-shut-connector = The connector has { $connector } mm and does not pass the hole of { $hole } mm. Check the kit sheet.
drill-shut-grip = The panel has { $panel } mm; the head grips { $least } to { $greatest } mm. Check the kit, or move the mark.
drill-shut-no-drill = This mark lies in the no-drill area from { $from } to { $to } mm ({ $what }). Move it.
drill-shut-ring-set-open = The ring set is not settled, and the hole hangs on it. Settle it first.
drill-shut-old-hole = The old hole has { $old_hole } mm; this set covers { $covers } mm, { $by } mm too few. Take an insert that covers it, have the bumper repaired, or move the mark.
drill-shut-old-hole-asked = An old hole is at this mark. Type how wide it is, below.
drill-shut-panel-needs-insert = This panel needs an insert: straight in it the head gives false alarms. Take a set with its insert.
drill-shut-typed-wrong = { $what }: { $wrong }
drill-typed-old-hole = Old hole
drill-typed-panel = Thickness of the panel
drill-typed-depth = Depth behind this mark
drill-shut-ask = The kit sheet does not give: { $field }. Fill it in.
drill-reach-not-entered = How far does the saw's own centre drill reach past the teeth? Measure it once, and type it.
drill-reaches-too-far = The saw's centre drill reaches { $reach } mm past the teeth; behind the face are { $depth } mm. Use a short centre drill or a stop.
drill-reach-makes-no-sense = { $typed } mm past the teeth cannot be. Measure from the teeth to the tip of the centre drill.
drill-step-reach-not-entered = How far past the panel is the step drill's tip when the hole has its size? Measure it once, and type it.
drill-step-reaches-too-far = The step drill's tip is { $reach } mm past the panel; behind the face are { $depth } mm. Take a shorter step drill, or move the mark.
drill-step-reach-makes-no-sense = { $typed } mm past the panel cannot be. Measure from the step that has the hole's size to the tip.
drill-caution-maker = The vehicle maker's instructions come first.
drill-caution-eyes = Wear eye protection.
drill-caution-gloves = No loose gloves or sleeves at a turning saw.
drill-caution-cold = A cold bumper is brittle: warm it before you drill.
drill-caution-dust = Fibre dust: wear a mask, and vacuum while you drill.
drill-step-confirm-from-behind = Head { $label }: confirm the mark from behind.
drill-step-measure-panel = Measure how thick the panel is: the head grips { $least } to { $greatest } mm.
drill-step-pilot = Pilot { $diameter } mm through the tape, depth stop at { $stop } mm past the panel.
drill-step-pilot-thin = Thin pilot through the tape, depth stop at { $stop } mm past the panel.
drill-step-saw = Hole saw { $diameter } mm, through the tape.
drill-step-centre-stop = Depth stop on the saw's centre drill as well, or a short one: { $stop } mm past the panel.
drill-step-step-drill = Step drill to { $diameter } mm, through the tape.
drill-step-keep-old-hole = Keep the old hole of { $diameter } mm; nothing is drilled.
drill-step-cover-old-hole = The insert covers the old hole of { $diameter } mm; nothing is drilled.
drill-step-widen-old-hole = Widen the old hole from { $from } to { $to } mm with a step drill: a saw has no centre there.
drill-step-plug-old-hole = Plug the old hole of { $from } mm, then saw { $to } mm through the plug: without it the saw has no centre.
drill-step-check-edge = Check the edge for cracks and burrs.
drill-step-tape-off = Take the tape off, after the saw and not before.
drill-step-swarf = Take all swarf out of the bumper.
drill-step-file = Deburr, then file until the head goes in and lifts out with two fingers: a tight fit causes false alarms.
drill-step-touch-in = Touch in the bare edge.
drill-step-touch-in-metal = Prime and touch in the bare metal edge against rust.
drill-step-comes-off = Take ring { $ring } off the head first.
drill-step-comes-off-how = Take ring { $ring } off the head first. { $how }
drill-step-seats = How ring { $ring } seats: { $how }
drill-step-arrow-up = { $set }, arrow up. Upside down it points { $twice }° lower.
drill-step-press-edge = Press the head in at its edge only, never on the middle.
drill-step-clicked-and-tugged = Clicked home, and tugged.
lead-of-head = Lead of head { $label }
lead-of-display = Lead of the display
lead-of-speaker = Lead of the speaker
lead-of-supply = Supply lead
lead-no-length = A length is missing or not above zero. Measure along the way that the lead will lie.
lead-too-long-to-be-true = { $route } mm is longer than any vehicle. Check the figure.
lead-shorter-than-straight = The route of { $route } mm is { $by } mm shorter than the straight line of { $straight } mm. Measure along the way that the lead will lie.
lead-not-given = The kit sheet does not give: { $field }. Fill it in, or measure the lead.
lead-does-not-reach = { $of } is { $by } mm too short, with all that the kit has. Move the control box, or get a longer lead.
lead-as-supplied = { $of }: reaches. Needs { $needs } mm, { $left_over } mm are left over: coil and tie them, never cut.
lead-with-extension = { $of }: reaches with the extension. Needs { $needs } mm, { $left_over } mm are left over: coil and tie them, never cut.
lead-long = { $of }: take the long lead. Needs { $needs } mm, { $left_over } mm are left over: coil and tie them, never cut.
lead-kit-title = Leads that are laid
lead-kit-as-needed = As they reach
lead-kit-long = Long ones: load carrier
lead-rule-downward = The lead leaves the cabin downward, so that water drips off outside.
lead-rule-tied-up = Tied up to the body, above anything hot or moving.
lead-rule-no-sharp-edge = No sharp edge anywhere on the way.
lead-rule-coiled = What is left over is coiled and tied, not cut.
lead-rule-grommet-sealed = The grommet is sealed.
supply-reading-on = Reverse on
supply-reading-off = Reverse off
supply-reading-earth = Earth drop
supply-too-low = { $reading }: { $typed } V is { $by } V under { $limit } V. Check the take-off and the battery before you go on.
supply-on-too-high = { $reading }: { $typed } V is { $by } V over { $limit } V. Check the charging system and the take-off.
supply-off-too-high = { $reading }: { $typed } V where at most { $limit } V belong. This feed is not switched by reverse. Find another.
supply-earth-too-high = { $reading }: { $typed } V is { $by } V over { $limit } V. Clean the earth point, or take another factory one.
supply-swapped = { $reading }: { $typed } V is below zero. The meter's leads are swapped.
supply-looks-like-twenty-four = { $reading }: { $typed } V. Is this a 24 V vehicle? Then choose 24 V, and check that the kit takes it.
supply-refused = { $reading }: { $typed } V is no reading of a lamp circuit, and it does not count. Never measure on orange cables. Check the meter's range.
supply-lamp-pulsed = The lamp feed is pulsed. Use a relay or the feed that the vehicle maker names for fitting.
supply-lamp-led = An LED lamp: extra load can bring a lamp fault. Use a relay or the feed that the vehicle maker names for fitting.
supply-lamp-bus = The lamp is switched over a data bus. Use the vehicle maker's way, or a bus interface that the maker allows.
supply-lamp-not-known = It is not known how the lamp is fed. Look it up in the maker's wiring diagram before you connect.
supply-fuse-required = A fuse of { $rating } A at the take-off is required. This cannot be skipped.
supply-fuse-too-small = A fuse of { $fitted } A blows at the kit's own { $current } A; { $rating } A belong at the take-off.
supply-fuse-too-large = The fuse of { $fitted } A is too large; { $rating } A belong at the take-off.
supply-arrives-too-low = { $arrives } V arrive at the control box ({ $drop } V are lost in the lead); it needs { $least } V. Take a thicker lead.
supply-too-high-for-kit = { $typed } V at the take-off; this kit takes at most { $greatest } V, { $by } V too many. Do not connect it: fit a converter that the kit's maker allows, or take another kit.
supply-kit-takes-less = This kit takes at most { $limit } V; the vehicle has { $nominal } V. Do not connect it: fit a converter that the kit's maker allows, or take another kit.
supply-kit-needs-more = This kit needs at least { $limit } V; the vehicle has { $nominal } V. Take another kit.
supply-caution-maker = The vehicle maker's wiring instructions come first.
supply-caution-earth-point = Earth at a factory earth point that serves no airbag.
supply-caution-meter = A meter, not a test lamp, near data and airbag circuits.
supply-caution-orange = Orange cables are high voltage: do not touch them.
supply-caution-trailer = With a trailer plug: fit the mute, so that the trailer does not sound the kit.
part-kit = Kit { $kit }
part-ring = Ring { $name } ({ $kit })
part-insert = Insert { $name } ({ $kit })
part-extension = Extension, { $of } ({ $kit })
part-long-lead = Long lead, { $of } ({ $kit })
part-lead-head = head
part-lead-display = display
part-lead-speaker = speaker
part-lead-supply = supply
part-fuse = Fuse { $rating } A
part-other = { $words }

## Mark-out

mark-out-left = left
mark-out-right = right

mark-out-plan-symmetric = Same both sides
mark-out-plan-even = Equal gaps
mark-out-plan-wide = As wide as it goes

mark-out-sides-same = Left and right are the same.
mark-out-sides-differ = Left and right differ by up to { $by } mm.
mark-out-gaps-equal = All gaps are { $gap } mm.
mark-out-gaps-from-to = Gaps from { $least } to { $greatest } mm.
mark-out-width = { $width } mm from the first head to the last.
mark-out-leaves-corners = Leaves { $left } mm at the left corner and { $right } mm at the right one.
mark-out-binds = Head { $head } is held by: { $rule }.
mark-out-binds-nearly = Head { $head } has { $room } mm left to: { $rule }.
mark-out-trades-width = { $by } mm narrower than '{ $plan }'.
mark-out-trades-evenness = Gaps { $by } mm less even than '{ $plan }'.
mark-out-trades-symmetry = { $by } mm less the same on both sides than '{ $plan }'.
mark-out-proposed = '{ $plan }' is proposed.
mark-out-nothing-proposed = Your choice: the widest plan is { $wider } mm wider than the one that is the same on both sides ({ $from } mm or more is not decided for you).

mark-out-rule-head-count = { $heads } marks, one a head
mark-out-rule-figure = a figure for every mark
mark-out-rule-sides = half the heads on each side of the centre line
mark-out-rule-inner = heads nearest the centre line at most { $limit } mm from it
mark-out-rule-corner-gap-least = corner gap at least { $limit } mm
mark-out-rule-corner-gap-greatest = corner gap at most { $limit } mm
mark-out-rule-spacing-least = spacing at least { $limit } mm
mark-out-rule-spacing-greatest = spacing at most { $limit } mm
mark-out-rule-odd-head-within = middle head at most { $limit } mm from the centre line
mark-out-rule-no-drill = no-drill area { $from } to { $to } mm ({ $why })
mark-out-rule-no-drill-gone = a no-drill area that is no longer there
mark-out-rule-locked = head { $head } locked at { $at } mm
mark-out-rule-locked-gone = a lock that is no longer there
mark-out-rule-old-hole = the old hole at { $at } mm used again
mark-out-rule-old-hole-gone = an old hole that is no longer there

mark-out-head = { $head }
mark-out-at-heads = { $count ->
    [one] at head { $heads }
   *[other] at heads { $heads }
}
mark-out-loosen-raise = Raise it by { $by } mm, needed { $at }: { $rule }.
mark-out-loosen-lower = Lower it by { $by } mm, needed { $at }: { $rule }.
mark-out-loosen-no-drill = Make it { $by } mm shorter at each end, if that is safe behind, needed { $at }: { $rule }.
mark-out-loosen-locked = Unlock it, or move it by { $by } mm, needed { $at }: { $rule }.
mark-out-loosen-old-hole = Use a place { $by } mm from it, needed { $at }: { $rule }.
mark-out-loosen-cannot = This cannot be changed ({ $by } mm, { $at }): { $rule }.
mark-out-breaks = Head { $head }, { $by } mm off: { $rule }.
mark-out-impossible = No place for all heads. These do not go together, by { $by } mm { $at }: { $rules }.
mark-out-impossible-alone = No place for all heads between the outer edges, by { $by } mm { $at }: { $rules }.
mark-out-no-single-way = More than one thing stands in the way. First: { $change }

mark-out-heads-out-of-range = { $heads } heads: { $least } to { $greatest } can be marked out.
mark-out-half-not-a-number = Centre line to outer edge, { $side }: type a figure in millimetres.
mark-out-half-not-positive = Centre line to outer edge, { $side }: { $typed } mm is no length. Type it again, above 0.
mark-out-half-too-wide = Centre line to outer edge, { $side }: { $typed } mm is { $by } mm more than { $greatest }. Measure from the centre line, in millimetres.
mark-out-half-inches = Centre line to outer edge, { $side }: { $typed } mm is too little. If that is inches, it is { $inches } mm.
mark-out-half-below-gap = Centre line to outer edge, { $side }: { $typed } mm leaves no place beside the corner gap of { $gap } mm; { $by } mm are missing.
mark-out-halves-differ = Left { $left } and right { $right } mm differ by { $by } mm, more than { $limit }. Is the centre line right?
mark-out-limit-out-of-range = { $typed } mm is outside { $least } to { $greatest } mm: { $which }.
mark-out-limits-crossed = These two cross by { $by } mm: { $least }; { $greatest }.
mark-out-clearance = clearance of a hole from a no-drill area
mark-out-hole-radius = hole radius
mark-out-too-many-areas = { $areas } no-drill areas are { $by } more than can be taken ({ $greatest }). Join neighbours, or take one away.
mark-out-area-not-a-number = No-drill area { $number } ({ $why }): type both ends in millimetres.
mark-out-area-zero-length = No-drill area { $number } ({ $why }) begins and ends at { $at } mm. Type where it ends.
mark-out-area-reversed = No-drill area { $number } ({ $why }) goes from { $from } back to { $to } mm, by { $by } mm. Type the left end first; left of the centre line is minus.
mark-out-area-past-edge = No-drill area { $number } ({ $why }) goes { $by } mm past the { $side } outer edge.
mark-out-area-named = { $why }, { $from } to { $to } mm
mark-out-areas-overlap = Two no-drill areas overlap by { $by } mm: { $first }; { $second }. Join them or correct one end.
mark-out-lock-no-such-head = Head { $head } is locked, but there are { $heads } heads.
mark-out-lock-not-a-number = The lock of head { $head } has no figure.
mark-out-lock-past-edge = Head { $head } is locked { $by } mm past the { $side } outer edge.
mark-out-lock-twice = Head { $head } is locked at { $first } and at { $second } mm. Release one.
mark-out-locks-clash = Heads { $head } and { $other_head } are locked { $gap } mm apart and need { $needed } mm: { $by } mm are missing. Release one.
mark-out-too-many-old-holes = { $holes } old holes to use again, but { $heads } heads.
mark-out-old-hole-not-a-number = Old hole { $number }: type its place in millimetres.
mark-out-old-hole-twice = Old hole { $number } is at the same place as old hole { $other }. Take one out.
mark-out-old-hole-past-edge = Old hole { $number } is { $by } mm past the { $side } outer edge.

no-drill-plate = number plate
no-drill-lamp = lamp
no-drill-tow-hitch = tow hitch cut-out
no-drill-crash-beam-bracket = crash beam bracket
no-drill-exhaust = exhaust
no-drill-old-hole = old hole
no-drill-ridge = ridge under the flange
no-drill-radar = radar
no-drill-wiring = wiring
no-drill-face-angle = face angle that no ring serves
no-drill-other = { $words }

tape-unread = The tape is not read back at every mark yet.
tape-mark-not-read = Head { $head }: not read yet.
tape-mark-too-far-left = Head { $head }: { $by } mm too far left (limit { $limit }).
tape-mark-too-far-right = Head { $head }: { $by } mm too far right (limit { $limit }).
tape-fits-other = Head { $head }: { $read } mm fits head { $other_head } ({ $planned } mm). Was the other mark read, or left and right mixed up?
tape-gap-off = The gap between heads { $head } and { $other_head } is { $by } mm off the plan (limit { $limit }).
tape-symmetry-off = Heads { $head } and { $other_head }: left and right are { $by } mm off the plan (limit { $limit }).
tape-level-too-high = Head { $head }: { $by } mm too high, measured from the line (limit { $limit }).
tape-level-too-low = Head { $head }: { $by } mm too low, measured from the line (limit { $limit }).
tape-level-other-side = Head { $head }: { $read } mm from the line, but { $planned } mm is planned. Minus is below the line. Was the minus forgotten, or is the mark on the wrong side of the line?
tape-gap-is = Gaps { $by } mm off the plan (limit { $limit })
tape-symmetry-is = Left against right { $by } mm off the plan (limit { $limit })
tape-level-is = Height { $by } mm off the line (limit { $limit })
tape-height-not-read = Head { $head }: height not read yet.

## Obstacle learn

learn-procedure-all-beep = { $cycles } times into reverse, a beep each time. After the last beep stay in reverse: nothing for { $silent } s.
learn-procedure-last-silent = { $cycles } times into reverse. The first { $before } beep; the last stays silent for { $silent } s.
learn-procedure-no-beeps = { $cycles } times into reverse. The last time stay in reverse for { $silent } s. This kit does not beep for each.
learn-asks-cycles = The kit sheet does not say how it learns. Type how often and how long, from the kit's leaflet.
learn-asks-last-beep = Does the kit beep the last time as well, before its silence? See its leaflet.
learn-ways-both = Taps and microphone
learn-ways-hand = Taps only
learn-ways-microphone = Microphone only
learn-ways-both-proof = You tap in and out, the phone hears the beeps. Proof: every beep and the silence.
learn-ways-hand-proof = You tap and you listen. It is kept as 'by hand, not confirmed'.
learn-ways-microphone-proof = The phone counts beeps by their pauses; in and out are not seen, and beeps of one time in reverse may count as two. It is kept as 'by sound alone, not confirmed'.
learn-learned = Learned
learn-by-hand = By hand, not confirmed
learn-by-sound = By sound alone, not confirmed
learn-why-cancelled = Stopped before the end
learn-why-too-fast = Too fast: in reverse for { $dwell } s only
learn-why-too-slow = Too slow: the pause was too long
learn-why-no-beep = No beep at cycle { $cycle }
learn-why-beep-in-quiet = A beep after { $after } s of the quiet time
learn-why-left-reverse = Out of reverse before the end
learn-why-no-end = The kit's sign at the end did not come
learn-why-microphone-lost = The microphone stopped
learn-why-too-loud = Too loud to hear the kit
learn-why-tone-on = The kit sounded on without a pause, for { $lasted } s
learn-do-cancelled = The box may have counted. Do the learn again from the start, or clear it.
learn-do-too-fast = Stay in reverse for at least { $least } s each time. Start again.
learn-do-too-slow = Go on within { $longest } s. Start again.
learn-do-no-beep = Is the box powered in reverse, and does it see the object? Start again.
learn-do-beep-in-quiet = Something else was seen, or the box did not count all of them. Clear the area, stand still, start again.
learn-do-left-reverse = Stay in reverse until the phone says so. Start again.
learn-do-no-end = Start again. If it stays away, see the kit's leaflet.
learn-do-microphone-lost = Another app took the microphone. Close it and start again, or count by taps.
learn-do-tone-on = It sees something in its stop zone, and did not learn. Clear the area; if only the object is left, it is too near to be learnt: see the kit's leaflet. Start again.
learn-do-too-loud = Fan and radio off, windows shut. Start again, or count by taps.
learn-interrupted-hidden = Interrupted: the app was left or the phone locked
learn-interrupted-asleep = Interrupted: the phone slept
learn-interrupted-killed = Interrupted: the app was ended
learn-interrupted-no-sound = Interrupted: the microphone gave no sound for half a second
learn-doubt-not-tapped = { $tapped ->
    [0] A beep was heard before the first tap.
    [one] A beep was heard out of reverse, after 1 tap.
   *[other] A beep was heard out of reverse, after { $tapped } taps.
}
learn-doubt-microphone-lost = The microphone stopped during the run.
learn-doubt-too-loud = It was too loud to hear in the quiet time.
learn-doubt-gap = Sound was missing in the quiet time.
learn-doubt-end-early = The sign of the end came { $by } s too early.
learn-doubt-reverse-not-seen = In and out of reverse were not seen: beeps of one time in reverse may have counted as two.
learn-say-again = Next: { $next } of { $cycles }.
learn-say-last = The next is the last. Then stay in reverse and keep still.
learn-say-learned = Learned.
learn-say-by-hand = Done, as counted. Not confirmed.
learn-say-failed = Stop. Not learned. Look at the phone.
learn-listened-at = Listened at { $hertz } Hz.
learn-by-tap = tap
learn-by-key = key
learn-by-ear = by ear
learn-proof-summary = { $confirmed } of { $asked } cycles confirmed, { $ways }; { $beeps ->
    [one] 1 beep
   *[other] { $beeps } beeps
} heard; quiet for { $reached } s of { $silent } s.
learn-proof-summary-counted = { $confirmed } of { $asked } cycles counted, { $ways }; no beep heard; quiet for { $reached } s of { $silent } s.
## What it will see

air-celsius-outside = { $typed } °C is outside { $least } to { $greatest } °C by { $by }. Type the air's temperature at the vehicle.
air-celsius-fahrenheit = { $typed } °C is too warm (at most { $greatest } °C). If Fahrenheit was meant: { $celsius } °C.
air-celsius-no-figure = "{ $typed }" is no temperature. Type °C, for example 12.
air-humidity-outside = { $typed } % humidity is outside { $least } to { $greatest } % by { $by }. Type what the weather report says.
air-humidity-no-figure = "{ $typed }" is no humidity. Type %, for example 60.
air-pressure-outside = { $typed } hPa is outside { $least } to { $greatest } hPa by { $by }. At the sea it is about 1013 hPa.
air-pressure-no-figure = "{ $typed }" is no air pressure. Type hPa, for example 1013.
coverage-no-beam = The sheet's frequency and beam widths make no beam. Mend them on the kit sheet: 10 to 500 kHz, widths 1 to 180°.
coverage-no-range = A rated range of { $typed } mm does not reach beyond the test pole itself. Type the sheet's range, for example 1600.
coverage-no-ringing = The ringing time is no time. Type the sheet's, for example 1.2 ms.
coverage-no-marks = Nothing to show yet: the marks come first. Type both half widths and plan them.
coverage-faces-in = Head { $label } faces into the vehicle and sees nothing behind it. Look at its corner angle and ring.
object-wheel-radius = A tread radius of { $typed } mm is no spare wheel's ({ $least } to { $greatest } mm). Measure from the middle to the tread.
object-out-of-range = { $typed } mm is not on the vehicle (0 to { $greatest } mm). Measure from the bumper's rearmost point, height from the ground.
object-figure-missing = Type where it sits: behind the bumper and above the ground.
object-radius-missing = Type the radius of its tread.
object-not-seen = No head is likely to see it: nothing to do now. Listen for it in the walk test all the same.
object-shift-first = First set the zone shift ({ $shift } mm). The object reaches { $reach } mm behind the bumper, so the shift clears it by { $by } mm, and the heads go on hearing everything beyond.
object-shift-too-short = First try the zone shift, its farthest step: it gives { $shift } mm, the object reaches { $reach } mm, { $by } mm short. What still sounds then goes to obstacle learn.
object-shift-not-given = First look for a zone shift on the control box: the sheet gives none. It has to move the zone beyond { $reach } mm; the heads go on hearing everything there.
object-learn-second = Only if it still sounds: obstacle learn. The box then ignores echoes like this one, so what stands just behind or beside it may be lost. A new walk test follows.
object-learn-not-given = If it still sounds: the sheet gives no obstacle learn. Take the object off, move it, or ask the kit's maker.
assumed-range = Rated range { $range } mm: assumed, the sheet gives none
assumed-way = Beam widths one-way: assumed, the sheet does not say
assumed-straight = Bumper straight from above: assumed, no sweep was made
assumed-height-sheet = Heads { $height } mm above the ground: middle of the sheet's range, not measured
assumed-height = Heads { $height } mm above the ground: assumed, not measured
assumed-aim = Aim { $aim }° at { $heads }: the sheet's target, no ring set taken there yet
assumed-turn = Corner angle 0° at { $heads }: assumed, not read
typical-frequency = { $kilohertz } kHz: typical of such heads, the sheet gives none
typical-across = Beam { $angle }° across: typical of such heads, the sheet gives none
typical-upright = Beam { $angle }° up and down: typical of such heads, the sheet gives none
typical-ringing = Ringing { $millis } ms: typical of such heads, the sheet gives none

sight-above-title = From above: squares behind the vehicle, by what sees them
sight-side-title = From the side: squares behind the vehicle, by what sees a bar lying across
sight-metres = { $metres } m
sight-share = { $percent } % of the squares { $near } to { $far } m behind are seen
sight-no-share = Every square { $near } to { $far } m behind is inside the too-close zone
sight-gap = Largest gap: { $wide } x { $deep } mm, from { $from } to { $to }, beginning { $behind } m behind the bumper
sight-no-gap = No gap in these squares
sight-weakest = Weakest between { $left } and { $right }: { $across }, { $behind } m behind, { $spare }
sight-too-close = Nearer than { $near } mm a head still rings and hears nothing: { $squares ->
    [one] 1 square of { $cell } mm is left out
   *[other] { $squares } squares of { $cell } mm are left out
}
sight-spare = { $db } dB to spare
sight-short = { $db } dB short
sight-no-echo = no echo at all
sight-ground = Head { $label } { $aim }: { $what }
sight-ground-more = ground { $db } dB stronger than pointing level
sight-ground-less = ground { $db } dB weaker than pointing level
sight-ground-same = ground as when pointing level
sight-ground-none = its main beam does not meet the ground
sight-probe-seen = sees it, { $spare }
sight-probe-not = does not see it, { $spare }
sight-probe-near = too close, { $range } mm: it still rings
sight-probe-behind = it is behind this head's face
sight-calibrated = Calibrated: the test pole (75 mm tube) straight ahead at { $range } mm, in air of 20 °C and 50 %, is just seen. Everything else follows by computation.
sight-air = { $day }: { $celsius } °C, { $humidity } %, { $pressure } hPa. Sound goes { $speed } m/s and loses { $alpha } dB a metre.
sight-air-typed = Air as typed
sight-air-assumed = Air not typed, so assumed
sight-air-but-one = Air as typed, { $one } assumed
sight-air-but-two = Air as typed, { $one } and { $other } assumed
sight-air-celsius = temperature
sight-air-humidity = humidity
sight-air-pressure = pressure
sight-winter = Winter
sight-summer = Summer
sight-aim-known = Aims are known to ± { $plus }° or better where a ring set is taken
sight-kerb-loss = Kerb: as a wall less { $db } dB, assumed
object-seen-by = Seen by { $heads }.
object-too-close-for = Inside the too-close zone of { $heads }: a head that still rings may sound for it or not.
sight-why = A prediction by computation, not a promise. It is for the workshop; the walk test behind the vehicle shows what is so. Look behind you all the same.
sight-computing = Computing…
sight-again = Compute again
sight-unreadable = The prediction came back broken. Compute again; if it stays so, load the app anew.
sight-heads = Which heads
sight-together = All
sight-standing = What stands there
sight-pole = Pole
sight-wall = Wall
sight-kerb = Kerb
sight-legend-well = seen, 6 dB or more to spare
sight-legend-just = just seen
sight-legend-not = not seen
sight-legend-near = too close to hear
sight-legend-counted = counted squares
sight-legend-gap = largest gap
sight-legend-weakest = weakest between heads
sight-legend-asked = place asked about
sight-legend-head = head, where it points
sight-tilts-differ = they differ: { $heads }. Moving this sets all alike.
sight-nudge-choose = Choose one head above to move its mark and see the map follow.
sight-nudge-why = This moves the mark itself: its face is to be read anew, as is the tape. 'Undo' takes it back.
sight-nudge-left = { $by } mm left
sight-nudge-right = { $by } mm right
sight-nudge-stops = { $step } would not go: { $why }
sight-probe-ask = Tap a place, or hold it, to hear which head sees it there.
sight-ask-keys = Places behind the vehicle: tap one, or move with the arrow keys
sight-aim-all = Aim of all heads:
sight-aim-of = Aim of head { $label }:
sight-lower = { $angle }° lower
sight-higher = { $angle }° higher
sight-as-is = as it is now
sight-from-side = From the side
sight-side-why = A bar of the pole's size lies across in each square. What lies on the ground below the heads is seen worst.
sight-air-title = Air
sight-today = As typed
sight-air-type = Type the day's air
air-celsius = Temperature, °C
air-humidity = Humidity, %
air-pressure = Air pressure, hPa
object-title = On the back of the vehicle
object-none = Nothing
object-tow-ball = Tow ball
object-spare-wheel = Spare wheel
object-behind = Its middle behind the bumper
object-height = Its middle above the ground
object-across = From the centre line, minus is left
object-radius = Radius of the tread
sight-based = What this stands on
step-sight = What it will see
step-cards = Photos
back-to-rings = Back to the ring sets
workshop-only = For the workshop
workshop-title = Workshop's file
workshop-why = Not on the customer's page, and not printed with it.

## Job

behind-too-many-photos = A job keeps { $most } photos of the look behind. Take one out first.
behind-photo-bumper = Look behind, whole bumper, { $when }
behind-photo-head = Look behind, head { $label }, { $when }
learn-object-fixed-tow-bar = fixed tow bar
learn-object-removable-tow-bar = removable tow bar
learn-object-spare-wheel = spare wheel
learn-object-rack = rack
learn-shift-enough = The zone shift was enough; nothing had to be learned
learn-shift-not-enough = The zone shift was not enough.
learn-shift-not-tried = The zone shift was not tried.
learn-ignores-nothing = Nothing learned
learn-ignores = The box ignores: { $object }
learn-ignores-perhaps = Not confirmed that the box ignores: { $object }
learn-ignores-not-known = Not known what the box ignores
learn-ignores-tested = Not known what the box ignores; walk-tested since, { $when }
learn-ignores-cleared = Cleared: the box ignores nothing
learn-customer = The parking aid now ignores the { $object }, and whatever else stood there. If the { $object } comes off, moves or changes, the kit has to learn again.
learn-customer-perhaps = The parking aid was taught to ignore the { $object }; that was not confirmed. If the { $object } comes off, moves or changes, the kit has to learn again.
learn-customer-not-known = It is not known what the parking aid ignores. Do not rely on it before it was tested.
learn-customer-tested = It is not known what the parking aid ignores. What it sees was measured after that, on { $when }: see the walk test.
learn-cleared-by = To clear it: { $how }
learn-cleared-not-given = How it is cleared is not given on the kit sheet: see the kit's leaflet.
refused-learn-not-on = No obstacle learn is on.
refused-learn-on = An obstacle learn is on already.
refused-learn-gate = First see that everything before the learn is so.
refused-learn-no-proof = That is no proof of a learn: kept runs stay as they are.
refused-learn-object = First say what the kit is to ignore.

behind-not-looked = not looked yet
behind-seen-and-clear = Seen and clear
behind-could-not-see = Could not see
behind-something = Something there
behind-something-is = there is { $what }
behind-headline-none = Look behind before anything is drilled
behind-headline-clear = Seen and clear behind every head
behind-headline-shut = The drill stays shut at: { $labels }
entry-length-outside = { $typed } mm cannot be here; more than 0 and at most { $greatest } mm. Measure again.
entry-not-volts = "{ $typed }" is no voltage. Type volts, such as 12.4.
entry-not-amperes = "{ $typed }" is no fuse rating. Type amperes, such as 2.
refused-no-spot = This kit has no such head.
refused-face-not-read = Read the face here first.
refused-seated-before-hole = There is no hole here yet, so no head can sit.
refused-other-hole = A hole of { $drilled } mm is drilled here; that set needs { $needs } mm. Take a set with the same hole.
set-needs-other-hole = { $set } goes in here now. { $why } Or read the face again.
refused-already-drilled = A hole is drilled already, so this cannot change any more.
refused-mark-locked = Mark { $label } is locked. Unlock it first, then move it.
refused-mark-drilled = The hole at mark { $label } is drilled, so this mark cannot move.
refused-cautions-first = Read the cautions and press 'All of this is so' first.
refused-confirm-first = Confirm this mark from behind first.
ring-taken-pair = { $set } goes in here, so that left and right are the same.
ring-taken-by-hand = { $set }, taken by hand: { $reason }
ring-pair-of = Heads { $left_label } and { $right_label }: { $what }
hole-saw = Drill { $diameter } mm, stop at { $stop }
hole-step-drill = Step drill to { $diameter } mm, stop at { $stop }
hole-keep = Keep the old hole of { $diameter } mm
hole-widen = Widen the old hole to { $diameter } mm
hole-cover = Drill nothing: the insert covers the old hole of { $diameter } mm
hole-drilled = Hole of { $diameter } mm made at { $when }
hole-shut = Do not drill: { $why }
hole-shut-plain = Do not drill
hole-why-not-looked = nobody has looked behind
hole-why-could-not-see = could not see behind
hole-why-something-there = something is behind
hole-why-foam = foam is behind
hole-why-depth = depth not measured
hole-why-too-shallow = too shallow
hole-why-no-drill = no-drill area
hole-why-ring-set = ring set not settled
hole-why-old-hole = the old hole is too large for this set
hole-why-old-hole-asked = an old hole without a size
hole-why-insert = this panel needs an insert
hole-why-typed-wrong = a size is typed wrong
hole-why-kit-sheet = the kit sheet does not say enough
hole-why-reach = the saw's centre drill
hole-why-step-reach = the step drill
hole-why-marks = the marks do not fit what you measured
hole-why-not-read = the face is not read
hole-why-below = see below
hole-not-read = The face at mark { $label } is not read. The ring set decides the hole.
holes-headline = { $parts }
holes-count-made = { $holes ->
    [one] one hole made
   *[other] { $holes } holes made
}
holes-count-open = { $holes } ready to drill
holes-count-shut = { $holes } not to be drilled
loom-grommet-missing = Type how far it is from the grommet to the control box.
loom-drop = { $drop } V are lost in this lead at { $celsius } °C, there and back; { $arrives } V arrive.
loom-open-leads = Not measured: { $leads }.
loom-open-cautions = The cautions at the supply are not read and heeded.
loom-open-readings = Supply readings are missing.
loom-open-lamp = How the reversing lamp is fed is not said.
loom-open-fuse = The fuse at the take-off is not fitted.
loom-open-rules = The route is not checked.
loom-headline-trouble = { $troubles ->
    [one] One thing to put right
   *[other] { $troubles } things to put right
}
loom-headline-open = Leads and supply: still open
loom-headline-done = Leads reach, supply is right
part-no-words = Say what the part is.
quote-not-money = "{ $typed }" is no amount. Type it as 12 or 12.50.
quote-not-minutes = "{ $typed }" is no working time. Type whole minutes, at most { $most }.
quote-total = Total { $total }
quote-title = Quote: parking sensors
quote-for = For
quote-parts = Parts and time
quote-part = Part
quote-count = Pieces
quote-each = Each
quote-sum = Sum
quote-time = Working time
quote-time-is = { $minutes } minutes at { $hour } an hour: { $time }
quote-sum-total = Total
quote-notes = Notes
quote-open = No price yet: { $count } x { $part }
quote-note-behind = What is behind the bumper is seen only when it is looked at; what stands there may change parts and time.
quote-too-much = The total is larger than can be counted. Check the prices.

plan-by-hand = Moved by hand
plan-as-before = As on the earlier vehicle
marks-by-hand = These marks were moved by hand and keep every rule.
marks-by-hand-broken = These marks were moved by hand and do not keep every rule.
marks-as-before = These marks are where they were on the earlier vehicle and keep every rule.
marks-as-before-broken = These marks are where they were on the earlier vehicle and do not keep every rule.
offset-left = { $mm } mm left
offset-right = { $mm } mm right
offset-centre = on the centre line
entry-offset-too-far = { $typed } mm from the centre line is by { $by } mm beyond any bumper ({ $greatest } mm). Measure again.
gap-from-to = { $left } to { $right }
refused-not-in-list = That entry is not in the list any more.
limit-inner = Inner heads within
limit-corner-gap-least = Corner gap at least
limit-corner-gap-greatest = Corner gap at most
limit-spacing-least = Spacing at least
limit-spacing-greatest = Spacing at most
limit-odd-head-within = Middle head within
limit-clearance = Clear of no-drill areas by
row-line-too-far = { $typed } mm from the line is { $by } mm more than a bumper has ({ $greatest } mm). Measure again from the line across.
row-height-outside = { $typed } mm above the ground is { $by } mm outside { $least } to { $greatest } mm. Measure again from the ground.
row-too-low = { $height } mm above the ground is { $by } mm too low for this kit ({ $least } to { $greatest } mm). Move the row up.
row-too-high = { $height } mm above the ground is { $by } mm too high for this kit ({ $least } to { $greatest } mm). Move the row down.
agreed-here = Here
agreed-phone = By phone
agreed-message = By message
agreed-no-name = Type who agreed.

literal = { $text }
budget-greatest = Greatest part: { $part }. { $shrink }
with-plus-minus = { $words } ± { $plus }°
entry-not-a-length = "{ $typed }" is no length. Type millimetres, such as 880.
entry-not-an-angle = "{ $typed }" is no angle. Type degrees, such as 4.2.
entry-face-too-steep = { $typed }° is no bumper face; { $greatest }° is the most. Read the gauge again.
entry-gauge-plus-minus = ± { $typed }° cannot be. Type what the gauge's maker states, more than 0 and at most 10.
half-width-not-positive = { $typed } mm cannot be. Measure from the centre line straight out to the outer edge.
half-width-inches = { $typed } mm is too short for a bumper. If that was inches, type { $inches } mm or { $typed } in.
half-width-centimetres = { $typed } mm is too short for a bumper. If that was centimetres, type { $centimetres } mm or { $typed } cm.
half-width-too-small = { $typed } mm is { $by } mm short of the narrowest vehicle ({ $least } mm). Measure again.
half-width-looks-full = { $typed } mm looks like the full width. Half of it is { $half } mm.
half-width-too-large = { $typed } mm is { $by } mm more than the widest vehicle has ({ $greatest } mm). Measure again.
half-widths-first = Type both half widths first.
half-widths-differ = The { $side } side is { $by } mm longer. Is the centre line right? If it is { $shift } mm off, both sides are equal.
side-left = left
side-right = right
refused-no-marks = There are no marks yet. Type the two half widths and show the marks first.
refused-no-such-spot = There is no spot { $asked }: the kit has { $heads } heads.
refused-no-reading = There is no reading at mark { $label } to take back.
refused-mark-count = { $marks } marks for { $heads } heads cannot be.
readings-lost = { $readings ->
    [one] The mark moved, so the reading at mark { $labels } is void.
   *[other] The marks moved, so the readings at marks { $labels } are void.
}
faces-up-word = faces up
faces-down-word = faces down
faces-level = stands upright
rings-headline = { $parts }
rings-count-sure = { $spots } sure
rings-count-close = { $spots ->
    [one] one close call
   *[other] { $spots } close calls
}
rings-count-none = { $spots } cannot be served
rings-count-open = { $spots } not read
record-not-a-record = Its text is broken off, or no job of this app ({ $why }).
record-newer = It was written by a newer version (format { $version }; this one knows { $known }). Update the app to open it.
record-not-written = This job cannot be stored as it is ({ $why }). Take back the last step.
record-of-another-job = It stands in the place of another job; it says it is { $id }.
record-damaged = Something in it does not fit: { $why }

## Walk test and function check

walk-nothing = Nothing
walk-far = Slow beeps
walk-middle = Quick beeps
walk-near = Steady tone
walk-caution-engine = Engine off, or not ready to drive; park brake on.
walk-caution-still = Wheels chocked on both sides.
walk-caution-side = The pole is held from the side, never from behind it.
walk-caution-nobody = Nobody between vehicle and wall, nobody at the pedals but who sits there for it.
walk-caution-feed = Reverse needs the engine? Then not by the engine: the control box's trigger is fed from a fused supply, the lamp circuit disconnected, by whoever is licensed to.
walk-caution-maker = The vehicle maker's instructions and the rules of this workshop come first.
walk-no-width = The points follow from the width: type the two half widths first.
walk-range-no-range = The sheet's rated range of { $range } mm is no range (above 0, up to { $greatest } mm). Put it right on the kit sheet.
walk-no-room = From { $nearest } mm, the nearest row, to { $farthest } mm, the last, there is no room for points. Check rated range and ringing time on the kit sheet.
walk-point = { $across }, { $behind } mm behind
walk-point-behind-object = just behind what was learned: { $across }, { $behind } mm behind
walk-point-left-of-object = beside what was learned, to the left: { $across }, { $behind } mm behind
walk-point-right-of-object = beside what was learned, to the right: { $across }, { $behind } mm behind
walk-limit-own = our own figure
walk-limit-typed = typed by the fitter
walk-limit-second-hand = our default, quoted second hand, not confirmed
walk-share-no-figure = '{ $typed }' is no share. Type per cent, above 0 and up to 100.
walk-share-half-done = Half done: something sounded at { $seen } of the { $of } points tried ({ $share } %)
walk-share-reached = Seen at { $seen } of { $of } points: { $share } %, { $least } % are asked
walk-share-missed = Seen at only { $seen } of { $of } points: { $share } %, { $least } % are asked
walk-share-source = The share that is asked: { $from }. The one in ISO 17386 is not known to us.
walk-time-start-up = From switching on
walk-time-latency = From the pole being there
walk-time-no-figure = { $time }: '{ $typed }' is no time. Type milliseconds.
walk-time-within = { $time } to the sound: { $measured } ms, within { $greatest } ms ({ $from }).
walk-time-over = { $time } to the sound: { $measured } ms, { $by } ms over { $greatest } ms ({ $from }).
walk-time-limit-no-figure = '{ $typed }' is no limit. Type milliseconds, above 0 and up to { $greatest }; until then our default holds.
walk-object-no-name = Say what the control box learned to ignore.
walk-no-longer-seen = The pole was seen before the learn and is not any more: { $point }. { $what } is ignored, and this with it.
walk-not-seen-at-object = The pole is not seen near { $what }, which is ignored: { $point }.
walk-miss = Missed, though it should be seen: { $point }
walk-surprise = Seen, though it should not be: { $point }
walk-headline-not-done = Walk test: not done
walk-headline-half-done = Walk test half done: { $done } of { $of } points
walk-headline-void-learn = Something was learned since: the walk test does not count any more
walk-headline-void-moved = A mark moved since: the walk test does not count any more
heads-swapped = Heads { $label } and { $other } are swapped: each lead is in the other's socket. Change the plugs over.
heads-in-other-socket = Head { $label } answers as head { $other }: its lead is in that socket. Put it where it belongs.
head-answers-nothing = Head { $label } does not answer
head-answers-sound = Head { $label } answers; the kit does not show which
head-answers-itself = Head { $label } answers as itself
heads-answer-themselves = Heads { $labels } answer as themselves
head-answers-other = Head { $label } answers as head { $other }
refused-walk-gate = First everything that has to be so behind the vehicle: read it and press 'All of this is so'.
refused-walk-not-started = Start the walk test first.
refused-no-such-point = The walk test has no such point.

## A fault: symptoms and findings

symptom-constant-alarm = Sounds all the time
symptom-wet-alarm = Sounds when it rains or freezes
symptom-one-side = Sounds on one side, or for the wrong one
symptom-sees-ground = Sounds for the ground
symptom-misses-middle = Misses a pole behind the middle
symptom-dead-head = A head does not answer
symptom-late-warning = Warns late
symptom-loaded-alarm = Sounds with load or trailer
finding-points-up = Seen from the side, the head points level or up
finding-ring-right = The ring is the right one, thick edge down
finding-head-up = The head's arrow is up
finding-panel-metal = The panel is metal (a magnet, or the sound of it)
finding-insert-there = The insert is there
finding-sits-free = The head sits without force, nothing presses on it
finding-paint-thin = Paint on the head is one thin coat, the gap round it open
finding-object-there = Something fixed sticks out behind (tow bar, spare wheel, step, bracket)
finding-goes-without-object = The fault goes when that is off
finding-only-loaded = The fault comes only with load or trailer
finding-only-rough-ground = It sounds over gravel or grass, not over smooth ground
finding-plug-right = The plug is in its own socket and clicked
finding-wiggle-changes = Moving plug or lead changes the fault
finding-stays-with-head = Two heads' plugs changed over: the fault stays at the same place in the bumper
finding-goes-unplugged = The fault goes when this head's plug is out
finding-volts-enough = Enough volts at the control box while the fault is there
finding-goes-on-steady-feed = The fault goes on a steady fused feed (by whoever is licensed to)
finding-feed-pulsed = The reversing lamp is an LED's, checked, or switched by a control unit
finding-water-seen = Water, green or ice in a plug, behind the head or on its face
finding-goes-when-dry = The fault goes when the head is dry and thawed
finding-learned-same = What the control box learned to ignore is there as it was then
finding-height-right = The heads' height is inside the sheet's range
finding-spacing-right = The middle heads are no further apart than the sheet allows
fitted-ring-outside = A ring that adds { $typed }° cannot be (0 to { $greatest }°). Type what stands on the kit sheet.

## Find the fault

cause-aim-below-level = A head points below level
cause-ring-wrong = A ring is upside down or the wrong one
cause-metal-without-insert = Head in metal without its insert
cause-tight-fit = A head is squeezed
cause-thick-paint = Paint too thick, or across the gap
cause-head-upside-down = A head sits upside down
cause-object-in-field = Something fixed stands in the field
cause-load = The load lowers the rear
cause-socket = Plug out, or in another head's socket
cause-supply-drop = Too few volts arrive
cause-pulsed-feed = The lamp's feed is pulsed
cause-loose-connector = A loose connector
cause-water = Water or ice
cause-learned-wrong = What it learned to ignore does not fit any more
cause-height-outside = Heads too high or too low
cause-gap-between = Middle heads too far apart
cause-aim-too-high = A head points too far up
cause-head-broken = The head itself is broken
suspect-at-heads = { $cause }: { $labels }
check-aim-below-level = Read the panel a hand's breadth left and right of the head, add the ring as seen from the side. Never rest the phone on a head.
check-ring-wrong = Look from the side: the ring's thick edge is below, its number the one on the sheet.
check-metal-without-insert = Hold a magnet to the panel; look past the flange for the insert.
check-tight-fit = Turn the head with two fingers: it must give and spring back.
check-thick-paint = Look along the head: its gap must be open all round. Measure the paint where there is a gauge.
check-head-upside-down = Look for the arrow: up.
check-object-in-field = Take it off, or hang a thick blanket over it, and try again.
check-load = Try it empty. Measure at the wheel arch how far the rear sinks loaded.
check-socket = Approach each head on its own, left to right, and see which answers.
check-supply-drop = Meter at the control box while the fault is there, earth lead on the box's own earth.
check-pulsed-feed = Watch the feed on a meter or scope, or look whether the lamp is an LED. A steady fused feed for a try: by whoever is licensed to.
check-loose-connector = Move plug and lead, from head to box, while somebody listens.
check-water = Pull the plug: dry, bright, no green. Dry the head's face and try again.
check-learned-wrong = Is what it learned still there, in its place? Nothing else stood there then? Else clear it and learn again.
check-height-outside = Measure from the ground to the heads.
check-gap-between = Measure between the two middle heads.
check-aim-too-high = Read the panel a hand's breadth left and right of the head, add the ring as seen from the side.
check-head-broken = Change the plugs of two heads over: does the fault stay at the same place in the bumper?
evidence-prior = How often it is met at all
evidence-elsewhere = { $said }; half, for what it does is not at this head
evidence-fits = Fits: { $symptom }
evidence-does-not-fit = Does not fit: { $symptom }
evidence-found-yes = At the car, { $place }: so. { $question }
evidence-found-no = At the car, { $place }: not so. { $question }
evidence-at-head = head { $label }
evidence-at-vehicle = the vehicle
evidence-aim-found = Head { $label }, found beside it: { $aim } ± { $plus }°
evidence-aim-planned = Head { $label }, by this job: { $aim } ± { $plus }°
evidence-no-set-serves = Head { $label }: no set of this kit serves the face there
evidence-ring-lowers = Head { $label }: the ring is seen upside down
evidence-ring-lifts = Head { $label }: the ring is seen the right way up
evidence-ring-by-hand = Head { $label }: the set was taken by hand, against the rule
evidence-aim-differs = Head { $label }: planned { $planned }, found { $found }
evidence-seated = Head { $label }: 'arrow up, clicked, tugged' was said
evidence-not-seated = Head { $label }: 'arrow up, clicked, tugged' was said of others, not of it
evidence-turned-over = Head { $label }: it lowers as much as it should lift
evidence-load = Lowest head { $label } { $aim }; loaded it points { $lower }° lower
evidence-height-low = Heads at { $height } mm, the sheet says { $least } to { $greatest } mm: too low
evidence-height-high = Heads at { $height } mm, the sheet says { $least } to { $greatest } mm: too high
evidence-height-right = Heads at { $height } mm, inside { $least } to { $greatest } mm
evidence-not-metal = By this job the panel is not metal
evidence-metal-no-insert-found = Head { $label }: metal, and no insert found
evidence-metal-no-insert = Head { $label }: metal, and its set has no insert
evidence-metal-insert = Head { $label }: metal, and its set has an insert
evidence-metal = The panel is metal
evidence-metal-small-hole = Head { $label }: metal, and its hole is too small for an insert
evidence-metal-kit-without = Metal, and this kit has no insert
evidence-panel-thick = Head { $label }: the panel is { $panel } mm thick, the head grips up to { $greatest } mm
evidence-depth-short = Head { $label }: { $depth } mm deep behind, { $needs } mm are needed
evidence-presses = Head { $label }: behind it { $what }
evidence-hole-small = Head { $label }: hole { $hole } mm, { $needs } mm are needed
evidence-hole-right = Head { $label }: hole { $hole } mm, as needed ({ $needs } mm)
evidence-paint-thick = Head { $label }: { $paint } mm of paint, { $limit } mm at most
evidence-paint-thin = Head { $label }: { $paint } mm of paint, within { $limit } mm
evidence-earth-right = Earth loses { $volts } V: right
evidence-volts-below-sheet = { $volts } V in reverse, the kit needs { $least } V
evidence-volts-right = { $volts } V in reverse: right
evidence-lamp-pulsed = The lamp's feed is pulsed
evidence-lamp-bus = The lamp is switched by a control unit
evidence-lamp-led = The lamp is an LED
evidence-lamp-plain = The lamp has a plain switched feed
evidence-starts-late = From switching on it takes { $by } ms too long
evidence-all-silent = No head answers
evidence-tow-bar-said = A tow bar or rack was said to be there
evidence-no-tow-bar-said = No tow bar, it was said at the survey
evidence-tow-hitch = A tow hitch is recorded
evidence-tow-ball = A tow ball is recorded behind
evidence-spare-wheel = A spare wheel is recorded behind
evidence-object-learned = { $what } was learned, so it should be ignored
evidence-learned = { $what } was learned: a change of it shows
evidence-learn-not-known = A learn failed or was broken off: what it ignores is not known
evidence-nothing-learned = Nothing was learned in this job
evidence-gap-wide = The middle heads are { $spacing } mm apart, { $greatest } mm at most
evidence-gap-right = The middle heads are { $spacing } mm apart, within { $greatest } mm
evidence-limit-changed = The limit there was widened for this job
evidence-lead-reaches = Head { $label }: the lead reaches with slack
evidence-route-kept = The lead leaves the cabin downward, the grommet is sealed
evidence-ground-more = Predicted: head { $label } picks up { $db } dB more of the ground than pointing level
evidence-ground-less = Predicted: head { $label } picks up { $db } dB less of the ground than pointing level
evidence-ground-loaded = Predicted: { $lower }° lower with load, head { $label } picks up { $db } dB more of the ground
evidence-weakest-place = Predicted, weakest between heads { $left } and { $right }: { $across }, { $behind } m behind, { $spare }
evidence-object-heard = Predicted: heard by { $heads }
evidence-object-near = Predicted: inside the too-close zone of { $heads }
evidence-object-not-heard = Predicted: no head hears it where it sits
evidence-walk-middle = Walk test: missed in the middle, seen at the sides
evidence-walk-far = Walk test: the last row is missed, nearer ones are seen
evidence-walk-all-seen = Walk test: seen everywhere
evidence-walk-all-near = Walk test: a steady tone at every point
evidence-walk-side = Walk test: missed on this side, seen on the other
unknown-aim = where head { $label } points: its face was not read
unknown-ring = which ring head { $label } has
unknown-ring-seen = how the ring of head { $label } sits: it was not looked at
unknown-arrow = which way the arrow of head { $label } is
unknown-load-aim = where the heads point, so how much load they bear
unknown-load = by how much the loaded rear sinks
unknown-height = how high the heads sit, or what the sheet allows
unknown-metal = whether the panel is metal
unknown-insert = whether the insert of head { $label } is there
unknown-hole = how large the hole of head { $label } is
unknown-sits-free = whether head { $label } sits without force
unknown-paint = how thick the paint on head { $label } is
unknown-earth = how much the earth point loses
unknown-volts = how many volts arrive in reverse
unknown-lamp = how the reversing lamp is fed
unknown-object = whether something fixed stands behind
unknown-learned-same = whether { $what } is as it was when it was learned
unknown-learned = whether anything was learned
unknown-gap = how far apart the middle heads are
unknown-function = which head answers when head { $label } is approached
unknown-route = whether the route keeps water out
unknown-object-place = where it sits: type it at 'What it will see', then it is known which heads hear it
unknown-predicted-aim = where the middle heads point: the prediction takes the sheet's aim
unknown-walk = where a pole is seen: no walk test
diagnosis-no-symptom = Say what the system does: then the causes come in order.
diagnosis-symptoms-only = There are no readings of this vehicle: the order goes by what it does and how often a cause is met. Each answer sharpens it.
diagnosis-answers-only = There are no readings of this vehicle: the order goes by what it does and what was found.
diagnosis-all-ruled-out = Something speaks against every cause. Check the answers, or what the system does.
diagnosis-two-alike = Close: { $first }, or { $second }. Make the cheaper check first.
diagnosis-by-record = In order, by this job and what was found.
contradiction-object = Nothing sticks out behind, and the fault goes without it: both cannot be. Look again.
contradiction-load = It sounds with load, and not only with load: then the load is not the cause, or not the only one. Try it empty, on level ground.
contradiction-ground = It sounds for the ground, and on smooth ground too: it is not the gravel alone. Try on a clean, dry floor.
contradiction-constant-load = It sounds all the time, and only with load: both cannot be. Unload it and switch reverse on.
contradiction-constant-late = It sounds all the time, and it warns late: both cannot be at one time. Say the one that is there now; note when the other comes.
contradiction-water = It goes when it is dry, and no water was seen: both can hardly be. Look into the plugs and behind the head again while it is wet.
contradiction-feed = It goes on a steady feed, though the feed is neither pulsed nor low: one of the three is wrong. Measure at the control box once more while the fault is there.
contradiction-head-both = Head { $label } is dead and sounds all the time: both cannot be. Pull its plug: does the sound stop?
contradiction-walk-saw-all = It misses the middle, and the walk test saw every point: something changed since. Walk it again.
contradiction-never-sounds = It sounds all the time, and nothing ever sounded in the walk test or the function check: something changed since. Switch reverse on with nobody behind, and listen.
contradiction-all-answer = A head does not answer, and every head answered in the function check: something changed since, or it comes and goes. Go from head to head again.
contradiction-head-answers = Head { $label } is dead, and it answered in the function check: something changed since, or it comes and goes. Approach it again, and move its lead.
contradiction-metal-on-plastic = The panel was found to be metal, this job's record says plastic. A magnet tells; put the record right at the look behind, the hole and the insert hang on it.
contradiction-plastic-on-metal = This job's record says metal, the panel was found not to be. A magnet tells; put the record right at the look behind.
contradiction-tow-bar = 'No tow bar' was said of this vehicle, and a tow ball or a tow hitch stands in its record. Look below the bumper, and behind its cover.
contradiction-nothing-learned = What was learned was asked about, and by this job's record nothing is learned. Was it taught outside this job? Say so at the walk test.
contradiction-learned-gone = { $what } was learned, and nothing is there, or no tow bar is: then the box ignores a place where a child may stand. Clear the learn, then walk the test again.
contradiction-lamp-plain = The lamp's feed was found to be pulsed or an LED's, this job's record says a plain lamp. Look at the lamp, and measure the feed again.
contradiction-lamp-pulsed = The lamp's feed was found to be plain, this job's record says LED, pulsed or switched by a unit. Measure the feed again.
contradiction-volts = Enough volts were found, and the reading in this job's record is too low. Measure again at the control box while the fault is there, and type it.
contradiction-height = The heads' height was answered otherwise than it was recorded: { $height } mm, the sheet allows { $least } to { $greatest } mm. Measure from the ground to a head's middle.
contradiction-spacing = The middle heads' spacing was answered otherwise than it was marked: { $spacing } mm, the sheet allows { $greatest } mm. Lay the tape from middle to middle.
contradiction-insert = Head { $label }: an insert is in this job's record, none was found. What was found counts more. Take the ring off and look.
contradiction-arrow = Head { $label }: 'arrow up' is in this job's record, it was found down. What was found counts more. Turn it, then approach it again.
contradiction-ring = Head { $label }: the ring was found right, and seen from the side it lowers the head. Look from the side once more: the thick edge belongs down.
contradiction-aim = Head { $label }: what was seen from the side and the angle read beside it say different things. Read the panel on both sides again; the reading counts more.
contradiction-paint = Head { $label }: the paint was found thin, and its measured thickness is over the limit. Measure it again.
contradiction-plug = Head { $label }: its plug was found right, and head { $other } answered in the function check. Follow the lead from the head to its socket.

## Same again: from earlier jobs of the model

before-from = from job { $day }
before-from-colleague = from a colleague's job { $day }
before-from-theirs = from job { $day } of { $who }
before-from-jobs = from { $jobs } jobs, the best of { $day }
before-too-late = This job has its marks already. Earlier jobs can only be taken over before that: start a new job with 'Same again'.
before-halves-first = The two half widths come first: type them, then the marks can go where they were.
before-half-off = Centre to the { $side } edge: { $measured } mm here, { $before } mm before. Off by { $by } mm, { $allowed } mm is normal.
before-face-off = Head { $label } { $read } here, { $before } before. Off by { $by }°, { $allowed }° is normal.
before-opens-marks = So this is another bumper, perhaps a facelift. Open again: marks, face angles, ring sets. Places, leads and minutes stay. Measure again first if a tape may have slipped.
before-still-holds = Its areas to keep clear of, height of the row and limits still stand here. Drop them unless you see them on this vehicle.
before-drop-bumper = Drop the earlier bumper's
before-opens-faces = So this face is another. Open again: all face angles and ring sets. Marks, areas, places and leads stay.
before-compare-halves = From earlier jobs. Type both half widths: they are compared before anything counts.
before-halves-agree = { $faces ->
    [one] The half widths agree with the earlier vehicles. Read one face more: if it agrees too, the others count as measured before.
   *[other] The half widths agree with the earlier vehicles. Read { $faces } faces: if they agree too, the others count as measured before.
}
before-halves-agree-some = { $faces ->
    [one] The half widths agree with the earlier vehicles. Read one face more: if it agrees too, those known count as measured before. Read also { $labels }: nothing earlier is known there.
   *[other] The half widths agree with the earlier vehicles. Read { $faces } faces: if they agree too, those known count as measured before. Read also { $labels }: nothing earlier is known there.
}
before-halves-agree-all = The half widths agree with the earlier vehicles. Read every face here: too little is known earlier at these marks.
before-marks-anew = The marks cannot go where they were: { $why } They are planned anew.
before-marks-from = { $more ->
    [0] Marks { $from }, for half widths that agree.
    [one] Marks { $from } and one more, for half widths that agree.
   *[other] Marks { $from } and { $more } more, for half widths that agree.
}
before-agrees = This vehicle agrees with the earlier ones. Faces that were not read here count as measured before, with their own ±.
before-from-which = Which jobs
before-never = Seen and done anew on this vehicle, every time: the look behind, cautions, the customer's agreement, walk test, obstacle learn, readings at the supply.
body-van = van
body-estate = estate
body-saloon = saloon
body-hatchback = hatchback
body-coupe = coupé
body-convertible = open car
body-pick-up = pick-up
body-bus = bus
body-suv = off-roader
told-bumper = Behind the bumper
told-head = Behind head { $label }
told-behind = { $place }: { $what }
told-depth = { $place }: { $depth } mm of room
told-volts-on = Supply point with reverse on: { $volts } V
told-volts-off = Supply point with reverse off: { $volts } V
told-volts-earth = From the earth point to the battery: { $volts } V
told-set = Head { $label } had { $set }
told-lamp-plain = Reversing lamp: a bulb on a plain feed
told-lamp-pulsed = Reversing lamp: a pulsed feed
told-lamp-led = Reversing lamp: LED
told-lamp-bus = Reversing lamp: switched by a control unit
told-lamp-not-known = Reversing lamp: how it is fed was not found out
told-visit = It came back: { $why }
told-visit-done = It came back: { $why } Done: { $done }
told-fault = A fault was looked for; likeliest: { $cause }
told-came-back = { $times ->
    [one] It came back once
   *[other] It came back { $times } times
}
again-line-marks = Half widths and marks
again-line-faces = Face angles
again-line-no-drill = Areas to keep clear of
again-line-places = Control box, grommet, supply point
again-line-leads = Leads
again-line-quote = Minutes and parts
again-only-came-back = Every job of this model came back. What it says may be wrong: compare with care.
again-came-back-left = { $jobs ->
    [one] One job came back and does not count.
   *[other] { $jobs } jobs came back and do not count.
}
again-other-bumper = { $jobs ->
    [one] One job has another bumper under the same name (half width { $by } mm off) and does not count.
   *[other] { $jobs } jobs have another bumper under the same name (half width up to { $by } mm off) and do not count.
}
again-other-marks = { $jobs ->
    [one] One job has other marks or another number of heads. It does not count.
   *[other] { $jobs } jobs have other marks or another number of heads. They do not count.
}
again-many = { $jobs } jobs of one bumper; the best { $counted } count.
again-not-handed-over = The best job is not handed over yet: it was never proved by a walk test and a customer.
again-years-apart = { $years ->
    [one] One year beyond what was fitted: it may be a facelift. The half widths and two faces will show.
   *[other] { $years } years beyond what was fitted: it may be a facelift. The half widths and two faces will show.
}
again-halves = Centre to edge: { $left } mm left, { $right } mm right
again-marks = Marks: { $marks }
again-centre = Centre line then: { $how }
again-row = Row { $from_line } mm from the line across
again-limit = { $limit } { $value } mm for this bumper
again-face = Head { $label } { $face }
again-face-spread = Head { $label } { $face } (spread { $between }° over { $vehicles } vehicles)
again-area = { $from } to { $to }: { $why }
again-place = Control box: { $words }
again-place-cabin = Control box in the cabin: { $words }
again-place-grommet = Grommet: { $words }
again-place-supply = Supply point: { $words }
again-route-head = Head { $label } to the grommet: { $typed }
again-route-display = Display lead: { $typed }
again-route-speaker = Speaker lead: { $typed }
again-route-supply = Supply lead: { $typed }
again-straight-head = Head { $label } straight to the grommet: { $typed }
again-straight = Straight line of a lead: { $typed }
again-route-shared = Grommet to control box: { $typed }
again-slack = Slack: { $typed }
again-minutes = { $median } minutes (from { $least } to { $greatest })
again-part = { $count } × { $part }
again-part-range = { $count } × { $part } (from { $least } to { $greatest })
again-kinds = { $kinds } kinds under this name, as wide but with other faces. Head { $label }: { $which }. They are not mixed. Choose the one that this vehicle looks like; its own faces will show.
again-kind = { $jobs ->
    [one] { $face } in one job
   *[other] { $face } in { $jobs } jobs
}
again-kind-unread = { $jobs ->
    [one] not read in one job
   *[other] not read in { $jobs } jobs
}
fleet-begun = { $begun } of { $count } vehicles begun
fleet-came-back = Came back
fleet-done = Handed over
fleet-seated = { $done } of { $heads } heads in
fleet-holes = { $done } of { $heads } holes made
fleet-faces = { $done } of { $heads } faces known
fleet-marks = Marks are set
fleet-open = Just begun
passed-too-large = The file is { $bytes } bytes; what a colleague passes on is at most { $most }. Nothing was kept.
passed-not-one = This is no 'same again' file, or it is broken off. Nothing was kept. Ask for it again.
passed-version = The file is of format { $found }; this app reads { $known }. Nothing was kept. Bring both apps to the same version.
passed-wrong = The file cannot be right: { $place }. Nothing was kept. Ask for it again.
passed-at-lessons = it has no jobs or too many
passed-at-kit = its kit sheet breaks the rules
passed-at-heads = it has not one mark and face a head
passed-at-halves = no vehicle has such half widths
passed-at-marks = its marks do not stand on the bumper in order
passed-at-faces = no bumper has such a face angle
passed-at-areas = an area to keep clear of is not on the bumper
passed-at-words = its words are too long or of another kind
passed-at-parts = its parts or minutes are out of all measure
passed-at-told = what it tells beforehand cannot be
passed-at-name = a vehicle in it has no name
pass-nothing = There is nothing to pass on: none of these jobs has marks and a face that was read.
pass-no-kit-name = Without the customer's and the workshop's words the kit sheet has no name. Give it another name, then pass it on.
pass-no-name = Without the customer's words the vehicle has no name. Type make and model in the job, then pass it on.

## Drawing

learn-line-title = The run along time: reverse, beeps, quiet time
learn-line-heard = heard
learn-line-reverse = reverse
learn-line-seconds = s
learn-line-quiet = quiet
learn-line-reached = { $seconds } s

drawing-side-title = Arrow up the head points { $right }°, upside down { $wrong }°
drawing-side-right = Arrow up
drawing-side-wrong = Not so

drawing-bumper-title = { $heads ->
    [0] The bumper from behind with its centre line and half widths
   *[other] The bumper from behind with { $heads } marks and their spacings
}
drawing-face-title = The face from the side against the ground
drawing-face-bumper = bumper
drawing-face-level = level
drawing-face-ground = ground

drawing-walk-title = Walk test from above, { $points } points behind the bumper
drawing-walk-gate-title = From above: vehicle chocked, the pole held from the side, nobody between vehicle and wall

## Job sheet

sheet-kept-clear = Kept clear: { $why }, { $from } to { $to }
sheet-check = Check before drilling
sheet-check-tape-name = Tape read back
sheet-check-tape = within the limits, { $when }
sheet-check-tape-open = not done
sheet-check-behind-name = Seen from behind
sheet-check-behind = clear at { $labels }
sheet-check-behind-open = not recorded
sheet-check-agreed-name = Positions
sheet-check-agreed-open = customer's agreement not recorded

sheet-title = Job sheet: parking sensors
sheet-particulars = Job
sheet-job = Job
sheet-job-issue = { $id }, issue { $issue }
sheet-job-draft = { $id }, not issued yet
sheet-date = Date
sheet-date-zone = { $date } (UTC { $offset }, { $zone })
sheet-name = Name
sheet-not-given = not given
sheet-kit = Kit sheet
sheet-marks = Marks
sheet-half-widths = Centre to outer edge
sheet-half-widths-are = left { $left } mm, right { $right } mm
sheet-plan = Mark-out
sheet-tape = Tape on the marks
sheet-centre = Centre line found by
sheet-row = Height of the marks
sheet-row-above = { $mm } mm above { $line }
sheet-row-below = { $mm } mm below { $line }
sheet-row-on = on { $line }
row-line-swage = the swage line
row-line-shut = the shut line
row-line-top-edge = the top edge
row-line-other = another line
row-line-words = the line '{ $words }'
row-line-not-said = the line across
sheet-row-height = { $line }; { $height } mm above the ground
sheet-tape-on = on, { $when }
sheet-tape-not-yet = not yet
sheet-heads = Heads
sheet-head = Head
sheet-position = From centre
sheet-face = Face
sheet-ring = Ring set
sheet-aim = Aim
sheet-not-measured = not measured
sheet-ground = Angles are against the ground under the vehicle: { $how }.
sheet-angles = How the angles were measured
sheet-phone = Phone
sheet-phone-named = { $name }, { $how }
sheet-phone-zeroed = zeroed { $day }, readings fitted within { $spread }°
sheet-contact = Phone on the face
sheet-contact-is = { $feet }; face: { $round }
sheet-readings = Readings
sheet-readings-held = { $readings }, held
sheet-readings-typed = { $readings }, typed (gauge ± { $plus }°)
sheet-readings-before = { $vehicles ->
    [one] one earlier vehicle
   *[other] { $vehicles } earlier vehicles
}
sheet-greatest-part = Most of its ±
sheet-no-part = none
sheet-ground-by-eye = taken as level by eye (± { $plus }°)
sheet-ground-board = measured with a board, { $nose }, { $lean }
sheet-ground-bay = bay "{ $name }", measured { $measured }, { $nose }, { $lean }
sheet-ground-sill = along the sill, { $nose }; the lean is taken as level by eye (± { $plus }°)
sheet-ground-gauge = the gauge was zeroed on a board beside the wheels
sheet-gauge-on-board = At { $labels } the gauge was zeroed on a board beside the wheels.
sheet-nose-up = nose up { $angle }° ± { $plus }°
sheet-nose-down = nose down { $angle }° ± { $plus }°
sheet-right-up = right side up { $angle }° ± { $plus }°
sheet-right-down = right side down { $angle }° ± { $plus }°
sheet-plus-minus = ± is the 95 % interval.
sheet-straight = Positions are straight, as seen from behind.
sheet-not-done = Not done or not settled
sheet-open-marks = The marks are not planned.
sheet-open-faces = The face is not read at: { $labels }.
sheet-open-before = Face angles from earlier vehicles of the model, not read on this one: { $labels }.
sheet-open-close-call = Head { $label }: the ring set is for now; it is not settled.
sheet-open-cannot = Head { $label }: no ring set of this kit serves this spot.
sheet-open-unzeroed = The phone was not zeroed at { $labels }: these face angles carry its own error (± { $plus }°).
sheet-open-behind = What lies behind is not confirmed at: { $labels }. Look before you drill.
sheet-cautions = Cautions
sheet-mm = { $mm } mm
sheet-behind = Look behind
sheet-photo = Photo: { $photo }
sheet-behind-what = What is behind
sheet-holes = Holes and heads
sheet-hole = Hole
sheet-sits = Head
sheet-hole-not-made = not made
sheet-hole-made = { $diameter } mm, { $how }
sheet-hole-saw = sawn
sheet-hole-step-drill = step drill
sheet-hole-kept = old hole kept
sheet-hole-widened = old hole widened
sheet-hole-covered = old hole under the insert
sheet-photo-column = Photo
sheet-photo-none = none
sheet-photo-taken = { $when }
sheet-position-plus = { $position } ± { $plus } mm
sheet-position-unread = { $position }, not read back
sheet-position-why = ± of a position: the limit to which the tape was read back, or the 95 % interval of the photos.
sheet-seated = arrow up, clicked home, tugged, { $when }
sheet-not-seated = not in
sheet-hole-unseen = The mark was not confirmed from behind at: { $labels }.
sheet-head-line = Head { $label }: { $what }
sheet-loom = Leads and supply
sheet-volts = { $reading }: { $volts } V, as it should be
sheet-lamp-plain = The reversing lamp is a bulb on a plain feed.
sheet-parts = Parts used
sheet-open-look = Nobody has answered what is behind at: { $labels }.
sheet-open-hidden = It could not be seen what is behind at: { $labels }. Not drilled there.
sheet-open-holes = No hole is recorded at: { $labels }.
sheet-open-seated = Whether the head is clicked home is not recorded at: { $labels }.
sheet-learn = Obstacle learn
sheet-learn-attempt = Run { $number }, { $when }, { $object }: { $outcome }
sheet-learn-cleared = Cleared { $when }
sheet-for-customer = For the customer: { $line }
sheet-learn-cycle = Cycle
sheet-learn-in = In
sheet-learn-out = Out
sheet-learn-by = Said by
sheet-learn-beeps = Beeps
sheet-open-learn = It is not known what the control box ignores: the last obstacle learn did not come to its end.
sheet-open-learn-by-hand = The obstacle learn was not confirmed: it was counted by hand or by sound alone.
sheet-open-loom = Leads and supply are not recorded.
clock-went-back = The phone's clock went back by { $minutes } minutes during this job. Times on this sheet may be off.
caution-maker = The vehicle maker's instructions, local rules and licensed practice come before this sheet.
caution-behind = Never drill where you have not seen what lies behind: crash beam, airbag or crash sensor, high-voltage (orange) cables, fuel lines, radar, wiring.
caution-hot = Exhausts stay hot. Let them cool, and route nothing near them.
caution-raised = Never reach under a vehicle that stands on a jack alone. Use stands or ramps.
caution-aid = A parking aid helps; it does not see everything. The driver looks and answers for the manoeuvre.

sheet-walk = Walk test
sheet-walk-when = Walked { $when }, with a pole, the vehicle at rest.
sheet-walk-key = Cross: nothing sounded. One ring: slow beeps. Two rings: quick beeps. Disc: steady tone.
sheet-walk-not-seen = Nothing sounded: { $point }
sheet-walk-ignored = The control box was taught to ignore: { $what }. If that changes, it must learn again.
sheet-walk-caution = Measured with a pole on this day. The system is an aid; the driver still has to look.
sheet-open-heads-check = Heads were not all approached one by one.

## Template and mark cards

template-title = Full-size template: { $job }
template-sheet = Sheet { $sheet } of { $of }
template-scale = Print at 100 %, not fitted to the page. Measure both bars: each is { $length } mm.
template-straight = Straight distances: the shape from above is not measured. On a curved face they come out too near the centre; check with a tape.
template-along = Distances along the face, by the shape from above. Lay it on the face.
template-bar = { $length } mm
template-up = up
template-height = Height of the marks: hold this line level
template-line-above = You measured from { $line }: { $mm } mm above the marks
template-line-below = You measured from { $line }: { $mm } mm below the marks
template-centre = centre line
template-cut = Cut here. Lay it on sheet { $before }, cross on cross.
template-lay = Sheet { $next } starts here
template-mm = { $mm } mm { $side } straight
template-mm-along = { $mm } mm { $side } along the face
template-hole = hole { $mm } mm
cards-title = Mark cards
cards-check = Print at 100 %, not fitted to the page. Measure this line, drawn { $length } mm long, and enter what it measures. Cut the cards along the dashed lines.
cards-card = Mark card { $card }
cards-tip = Tip on the mark
template-file = template { $job }
cards-file = mark cards
cards-why = Stuck on with the tip on each mark, they let photos measure where the marks are.
cards-print = Print the mark cards
cards-how-1 = Print at 100 %, not fitted to the page, on stiff paper.
cards-how-2 = Measure the long line below the cards with a steel rule, to half a millimetre. Measure again on every new print.
cards-how-3 = Cut along the dashed lines, stick each card on with its tip on the mark.
cards-line = Check line as printed on { $paper }
cards-line-note = mm; drawn 250 mm
pdf-failed = The PDF could not be made ({ $why }). Your job is kept. Try again; if it fails again, print from the screen.

## Screens: frame

app-name = Rakeline
app-line = Parking sensors that point level, first time
opening = Rakeline is opening
saved = saved
saving = saving
not-saved = not saved
save-again = Save again
left-not-saved = A job that you left is not saved yet. It goes along with the next change, or opens when you leave this one. { $why }
leave-not-saved = This job is not saved yet. It stays open. Save again before you leave.
undo = Undo
redo = Redo
notice-hide = Hide this message
back-to-jobs = All jobs
path-of-the-job = Path of the job
stage-done = done
stage-due = to do
stage-shut = something comes first
step-behind = Behind
step-measures = Measures
step-marks = Marks
step-faces = Faces
step-rings = Rings
step-holes = Holes
step-loom = Loom
step-parts = Parts
step-walk = Walk test
step-fault = Fault
step-sheet = Sheet
trouble-stopped = Rakeline stopped on a fault of its own. The job is safe up to the last 'saved'.
trouble-reload = Open it again

## Screens: jobs

jobs-title = Jobs
jobs-empty-title = No jobs yet
jobs-empty-why = Start one behind the car. Nothing has to be typed but two half widths.
jobs-empty-1 = Type the two half widths and get the marks.
jobs-empty-2 = Hold the phone against each mark. It reads the face by itself.
jobs-empty-3 = See the ring set for each head: sure, or a close call.
jobs-empty-4 = Print the job sheet.
start-job = Start a job
start-with-kit = With { $kit }
open-sample = Look at the sample job
job-of-day = Job of { $when }
job-progress = { $read } of { $heads } faces read · { $when }
job-deleted = Job deleted.
delete = Delete
delete-job = Delete { $job }
deleted-jobs = { $jobs ->
    [one] One deleted job
   *[other] { $jobs } deleted jobs
}
bring-back = Bring back
record-kept = A stored job cannot be read. It is kept as it is, under { $key }. Take in a backup to bring it back: choose 'Take the later ones'.
record-kept-newer = This job was stored by a newer version of Rakeline. It is kept whole, under { $key }, and goes into every backup. Update Rakeline to open it.
record-glimpse = { $about }, started { $started }, last changed { $changed }
record-twice = This job is among the deleted ones and among the others. Open it and look which is right before you delete one for good.
job-not-here = That job is not on this phone.
job-lost = { $job }, last changed { $when }, was saved here, but its record is gone from the browser's storage. Bring it back from a backup.
job-lost-forget = Take it off the list
pictures-bereft = { $photos ->
    [one] One photo is here whose job is gone: this browser lost its records. Take in a backup to bring the job back. Until then the photo stays.
   *[other] { $photos } photos are here whose jobs are gone: this browser lost its records. Take in a backup to bring the jobs back. Until then the photos stay.
}
pictures-bereft-erase = Delete them for good
to-store = Storage and backup
list-search = Search
list-search-note = Customer, plate, vehicle, its number (VIN), kit, serial number, name, or a day: mar 2026, 2026-03-12
list-filter = Filter and order
list-standing = How it stands
list-kit = Kit
list-order = Order
list-all = All
list-between = Between two days
list-from = From
list-to = To
list-upside-down = The first day is after the last one, so no job fits. Change one of them.
list-found = { $found } of { $all } jobs
list-open = Show all jobs
list-more = { $more } more
sort-changed = Last changed first
sort-started = Last started first
sort-customer = By customer
sort-plate = By number plate
sort-vehicle = By vehicle
deleted-days = A deleted job can come back for { $days } days. Then it goes for good, with its pictures.
deleted-since = Deleted { $when }
erase = For good
erase-job = Delete { $job } for good
erase-all = Delete all of these for good
erase-jobs = { $jobs ->
    [one] Delete this job for good, with its pictures? Nothing brings it back but a backup.
   *[other] Delete { $jobs } jobs for good, with their pictures? Nothing brings them back but a backup.
}
erase-customer = { $jobs ->
    [one] Delete the one job of { $customer } for good, with its pictures? Nothing brings it back but a backup.
   *[other] Delete all { $jobs } jobs of { $customer } for good, with their pictures? Nothing brings them back but a backup.
}
erase-customer-unreadable = { $asked } { $records ->
    [one] One stored job cannot be read and may be this customer's too: it stays.
   *[other] { $records } stored jobs cannot be read and may be this customer's too: they stay.
}
erase-pictures = { $photos ->
    [one] Delete this photo for good? It comes back with a backup only.
   *[other] Delete these { $photos } photos for good? They come back with a backup only.
}
erase-yes = Delete for good
erase-no = Keep
erase-busy = One of these jobs is just being saved. Wait a moment, then try again.
erased = { $jobs ->
    [one] One job is deleted for good.
   *[other] { $jobs } jobs are deleted for good.
}

## Storage

store-title = Storage and backup
store-jobs = { $jobs ->
    [0] No job on this phone
    [one] One job on this phone
   *[other] { $jobs } jobs on this phone
}
room-title = Room
room-left = In use: { $used } MB. Room is left for about { $photos } more photos.
room-short = Room runs short: { $used } MB in use, left for about { $photos } more photos. Free some room on the phone (films, downloads), or make a backup and delete old jobs for good.
room-unknown = This browser does not say how much room is left.
backup-title = Backup
backup-why = One file with every job, its photos and job sheets. Keep it where this phone is not: on a computer, on a stick. Only who knows the passphrase can open it. It is also the way to another phone.
backup-last = Last backup: { $when }
backup-none-yet = No backup was made yet.
backup-passphrase = Passphrase
backup-passphrase-note = Some words that you will still know in years, 10 signs or more. Write it down: without it nobody can open the backup, not even you.
backup-short = The passphrase needs { $least } signs or more.
backup-make = Make a backup
backup-of = What goes into it
backup-of-all = Everything
backup-of-more = Offer older jobs too ({ $more })
backup-going = { $done } of { $all } records packed
backup-looking = { $percent } % of the backup looked through
backup-taking = { $percent } % of the backup taken in
backup-stop = Stop
backup-stopped = Stopped.
backup-open-title = Without a passphrase
backup-open-warning = A backup without a passphrase can be read by everybody who gets the file: names, plates and photos of all customers. Make it only for a place that is locked itself.
backup-open-make = Make it without a passphrase
backup-made = { $name } is among the downloads: { $jobs ->
    [one] one job
   *[other] { $jobs } jobs
}, { $photos ->
    [one] one photo
   *[other] { $photos } photos
}. Move it to another place than this phone.
backup-handed-over = { $name } was handed to the app that you chose: { $jobs ->
    [one] one job
   *[other] { $jobs } jobs
}, { $photos ->
    [one] one photo
   *[other] { $photos } photos
}. Look there that it arrived.
backup-not-sent = You chose no app for { $name }, so there is no backup. Make it again and choose where it goes.
backup-made-missing = { $made } { $missing ->
    [one] One photo is gone from this phone and so not in it.
   *[other] { $missing } photos are gone from this phone and so not in it.
}
backup-file = rakeline-{ $day }
backup-file-job = rakeline-job-{ $job }-{ $day }
backup-never = There is no backup of these jobs yet. If this phone breaks, they are gone. Make one
backup-old = The last backup is { $days } days old, and jobs were changed since. Make one
backup-too-many = { $entries } records, papers and pictures are more than one backup holds ({ $limit }). Back up jobs one by one, or delete old ones for good first.
backup-not-written = The backup could not be written to its end. { $why }
backup-not-locked = The backup could not be locked ({ $why }). None was made.
backup-interrupted = The backup was interrupted. Start it again.
backup-not-read = The file cannot be read ({ $why }). Copy it to this phone again.
backup-armoured = This backup was turned into text. Turn it back into a file with the program that did it.
backup-other-key = This file is locked for a key, not with a passphrase: it is no backup of Rakeline.
backup-wants-passphrase = This backup is locked. Type its passphrase.
backup-wrong-passphrase = This passphrase does not open the backup. Mind capitals and spaces.
backup-too-much-work = This file asks for more work to open than a phone can do. It was not made by Rakeline.
backup-newer-lock = This file is locked in a way that this version does not know. Update the app.
backup-damaged = This backup is damaged or not complete. Copy it here again, or take an older one.
backup-not-ours = This file is no backup of Rakeline.
backup-newer = This backup was made by a newer version (format { $version }). Update the app, then take it in.
backup-not-text = It is not the text that it should be.
backup-no-picture = It is no picture.
backup-bad-picture = Its name is none of a picture.
backup-bad-settings = These are no settings that this version can read. They are left out.
backup-bad-id = Its name is none of a job.
backup-job-twice = It is in this backup twice, among the jobs and among the deleted ones. Only the first one is taken in.
backup-too-large-here = its { $mb } MB are more than the { $most } MB that this app can take in on Android. Take in backups of single jobs, or use Rakeline in the browser
zip-not-a-zip = This file is no backup: it is no zip.
zip-cut-short = This backup ends too early. Copy it here again.
zip-bad-name = Something in this file has a name that no backup has: { $name }. Nothing was taken in.
zip-twice = This file holds { $name } twice. Nothing was taken in.
zip-too-many = This file holds more than { $most } entries. Nothing was taken in.
zip-too-large = { $name } in this file is larger than anything in a backup. Nothing was taken in.
zip-bomb = { $name } in this file would unpack to far more than it is. Nothing was taken in.
zip-method = { $name } in this file is packed or locked in a way that backups are not. Nothing was taken in.
zip-damaged = { $name } in this file is damaged. Nothing was taken in.
zip-directory = This file's list of contents does not fit what is in it. Nothing was taken in.
restore-title = Take in a backup
restore-why = From this phone or another one. You see first what it brings; nothing here is overwritten without being asked.
restore-choose = Choose the file
restore-file = { $name }, { $kb } kB
restore-passphrase = Passphrase of this backup
restore-passphrase-note = Leave it empty for a backup without one.
restore-look = See what it brings
restore-close = Leave it
restore-new = { $jobs ->
    [one] One job that is not here
   *[other] { $jobs } jobs that are not here
}
restore-same = { $jobs ->
    [one] One job is here already, the same
   *[other] { $jobs } jobs are here already, the same
}
restore-newer-there = { $jobs ->
    [one] One job that was changed later in the backup
   *[other] { $jobs } jobs that were changed later in the backup
}
restore-newer-here = { $jobs ->
    [one] One job that was changed later here: it stays as it is here
   *[other] { $jobs } jobs that were changed later here: they stay as they are here
}
restore-deleted-here = { $jobs ->
    [one] One job that was deleted here: it stays deleted
   *[other] { $jobs } jobs that were deleted here: they stay deleted
}
restore-unreadable-here = { $jobs ->
    [one] One job whose record here cannot be read: the backup can bring it back
   *[other] { $jobs } jobs whose records here cannot be read: the backup can bring them back
}
restore-newer-version = { $jobs ->
    [one] One job that a newer version of Rakeline wrote: taken in, it opens only after an update
   *[other] { $jobs } jobs that a newer version of Rakeline wrote: taken in, they open only after an update
}
restore-differs = { $job }: here changed { $here } ({ $read_here } faces read), in the backup { $there } ({ $read_there } faces read)
restore-differs-in = { $job }: here changed { $here } ({ $read_here } faces read), in the backup { $there } ({ $read_there } faces read). They differ in: { $parts }
part-particulars = name and particulars
part-typed = what was typed
part-marks = marks
part-faces = face angles
part-photos = photos
part-sheets = job sheets
restore-one = { $job }, changed { $when }
restore-only = { $job }
restore-newer-record = Job { $id }, written by a newer version; it is kept whole
restore-photos = { $photos ->
    [one] One photo
   *[other] { $photos } photos
}
restore-kits = { $kits ->
    [one] One kit sheet
   *[other] { $kits } kit sheets
}
restore-passed = { $files ->
    [one] One file of a colleague
   *[other] { $files } files of colleagues
}
restore-fleets = { $fleets ->
    [one] One fleet
   *[other] { $fleets } fleets
}
restore-settings = Settings of the workshop and the phone
restore-settings-differ = The settings of the workshop differ (prices, tools, bays, letterhead and the like). This phone's own zeroing stays in any case.
restore-kit-differs = Kit sheet { $kit } differs
restore-which-others = Settings and kit sheets that differ
restore-keep-my-others = Leave mine
restore-take-others = Take the backup's
restore-others-kept = What is replaced is put by and goes into no list; jobs keep the kit sheet that they were fitted with.
restore-odd = { $name } cannot be taken in: { $why }
restore-foreign = { $files ->
    [one] One file in it is none of Rakeline's and is left out.
   *[other] { $files } files in it are none of Rakeline's and are left out.
}
restore-which = Jobs that were changed later in the backup
restore-keep-mine = Leave mine
restore-take-newer = Take the later ones
restore-older-kept = Of a job that is replaced, the one here is put by: see 'Put by' below.
restore-take = Take it in
restore-nothing = It brings nothing that is not here.
restore-not-kept = What came so far is kept. Then it could not go on: { $why }
restore-broken-off = Not all was taken in. { $why } Choose the file again to go on: what is here already is not taken twice.
restore-half = { $name } was not taken in to its end. Choose it again: what is here already is not taken twice.
restore-half-leave = Leave it as it is
restore-wait = A backup is being taken in. Wait until it is done.
restored = Taken in: { $new ->
    [one] one new job
   *[other] { $new } new jobs
}, { $newer ->
    [0] none replaced
    [one] one replaced by its later version
   *[other] { $newer } replaced by their later version
}, { $photos ->
    [one] one photo
   *[other] { $photos } photos
}.
restored-changed = { $restored } { $changed ->
    [one] One thing was changed here since it was shown, so it was left out. Choose the file again to see it.
   *[other] { $changed } things were changed here since they were shown, so they were left out. Choose the file again to see them.
}
put-by-title = Put by
put-by-why = Jobs as they were before the vehicle came again, or before a backup's took their place. They stay until their job is deleted for good.
put-by-show = Show them
put-by-none = Nothing is put by.
put-by-visit = As it was before a visit, last changed { $when }
put-by-restored = As it was before a backup's took its place, last changed { $when }
put-by-unreadable = { $key } cannot be read. It stays.
put-by-own = Keep as a job of its own
put-by-own-job = Keep { $job } as it was as a job of its own
export-title = For other programs
export-why = Jobs, face angles, readings and parts as tables (CSV) and as JSON, in one zip. Everybody who gets the file can read it.
export-make = Save tables
export-file = rakeline-tables-{ $day }
export-left-out = { $jobs ->
    [one] One job is not in these tables: its record cannot be read.
   *[other] { $jobs } jobs are not in these tables: their records cannot be read.
}
check-store-title = Check
check-store-why = Reads every stored job and says whether it is whole. What can be put right is put right; nothing is deleted.
check-store = Check every job
check-store-going = { $read } of { $all } read
check-whole = { $count ->
    [0] No job is stored.
    [one] The one stored job is whole.
   *[other] All { $count } stored jobs are whole.
}
check-mended = { $count ->
    [one] One entry of the list was out of date. It is put right.
   *[other] { $count } entries of the list were out of date. They are put right.
}
check-unreadable = { $count ->
    [one] One record cannot be read. It is kept as it is; the list of jobs names it.
   *[other] { $count } records cannot be read. They are kept as they are; the list of jobs names them.
}
check-lost = { $count ->
    [one] One record is gone. The list of jobs names it; bring it back from a backup.
   *[other] { $count } records are gone. The list of jobs names them; bring them back from a backup.
}
check-pictures = { $count ->
    [one] One picture is gone or empty. Bring it back from a backup.
   *[other] { $count } pictures are gone or empty. Bring them back from a backup.
}
erase-customer-title = Delete all of a customer
erase-customer-why = When a customer asks for it: every job of that name goes for good, deleted ones too.
erase-who = Customer
erase-nobody = Choose
erase-who-jobs = { $customer } ({ $jobs })
erase-customer-ask = Delete all of this customer
elsewhere-title = Open in another tab
elsewhere-why = Rakeline is open in another tab or window of this browser. Two at once could overwrite each other's changes, so only one works at a time. Nothing is lost: all that was shown as saved is there.
elsewhere-unsaved = The last change of the job that was open here could not be saved. It is kept here as long as this page stays open.
elsewhere-here = Work here
kit-none = The kit sheet could not be read, so no job was started.
sample-job-name = Sample: Tarn Carrier
sample-vehicle = Tarn Carrier van, 2023 (invented)
sample-customer = Fell & Ghyll Deliveries (invented)
sample-plate = SAMPLE 1

## Screens: same again, fleet

to-again = Same again
again-line = From earlier jobs of the model
again-hint = { $jobs ->
    [one] One job of this model was done before, on { $day }. A job can start from it.
   *[other] { $jobs } jobs of this model were done before, the last on { $day }. A job can start from them.
}
again-hint-go = See what they teach
again-title = Which model?
again-why = Models that you or a colleague fitted before, the last one first.
again-empty = No job has a vehicle's name yet. Type make, model and year in a job ('Customer, vehicle, plate'); the next one of that model then starts here.
again-vehicle = Vehicle
again-vehicle-note = Make, model, body, year. Case and spaces do not matter; other spellings are asked about.
again-none-like = Nothing like it was fitted before. Start a job as usual.
again-group = { $jobs ->
    [one] One job · { $day }
   *[other] { $jobs } jobs · last { $day }
}
again-group-theirs = { $jobs ->
    [one] One job, a colleague's · { $day }
   *[other] { $jobs } jobs, { $theirs } of colleagues · last { $day }
}
again-alike = Spelt nearly like it: is it the same?
again-more = { $models } more models: type a few letters.
again-nameless = { $jobs ->
    [one] One job has no vehicle's name and cannot be found here.
   *[other] { $jobs } jobs have no vehicle's name and cannot be found here.
}
again-back-to-models = Back to the models
again-reading = Reading the earlier jobs…
again-not-read = { $jobs ->
    [one] One job of this model could not be read and is left out.
   *[other] { $jobs } jobs of this model could not be read and are left out.
}
again-teaches-nothing = These jobs teach nothing yet: none has marks and a face that was read.
again-counts = { $jobs ->
    [one] One job counts.
   *[other] { $jobs } jobs count, taken together.
}
again-newest = { $jobs } jobs of this model; the newest { $read } were read.
again-alike-too = { $jobs ->
    [one] '{ $vehicle }' has one job: is it the same model?
   *[other] '{ $vehicle }' has { $jobs } jobs: is it the same model?
}
again-count-too = Same model, count it too
again-told = Worth knowing beforehand
again-take-line = { $line }: left out. Take it
again-leave-line = { $line }: taken. Leave it out
again-start = Take it all, start the job
again-start-some = Take { $lines }: start the job
again-start-none = Take only the kit, start the job
again-into = Take it all into this job
again-into-some = Take { $lines } into this job
again-into-none = Take nothing, back to the job
again-into-why = For the job you came from, { $job }: no second one is begun.
again-into-kit = The earlier jobs had the kit { $kit }, this one has { $own }. It keeps its own: compare rings and holes.
again-into-heads = The earlier jobs had the kit { $kit }, with another number of heads than { $own }. Half widths, marks and faces do not come along.
again-kit = Kit: { $kit }
again-kinds-which = Which kind this vehicle is
again-pictures = Photos of the look behind
again-pictures-why = Earlier vehicles. This one is looked at anew before each hole.
again-start-why = Nothing of it counts as seen.
fleet-of = Several vehicles
fleet-of-why = Each vehicle gets its own job, started from all before it. One list of parts for all.
fleet-count = How many vehicles
fleet-start = Start the first of them
fleet-count-wrong = '{ $typed }' is no number of vehicles from 1 to { $most }.
fleets-title = Fleets in work
fleet-line = Fleet
fleet-next = Next vehicle
fleet-ended = The fleet is off the list; its jobs stay.
fleet-nothing-known = The jobs of this fleet teach nothing yet. Finish the first one's marks and faces.
fleet-not-here = That fleet is not on this phone.
fleet-end = Take this fleet off the list; its jobs stay
fleet-vehicle = Vehicle { $number }
fleet-no-plate = no plate typed yet
fleet-parts = Parts for all
fleet-parts-expected = { $vehicles ->
    [one] For one vehicle as the first job took; it is not decided on itself yet.
   *[other] For { $vehicles } vehicles as the first job took; they are not decided on themselves yet.
}
passed-title = From colleagues
passed-why = A colleague's file holds what their jobs on a model teach, without their customers.
passed-file = { $jobs ->
    [one] One job { $who }
   *[other] { $jobs } jobs { $who }
}
passed-remove = Remove
passed-removed = Removed.
passed-bring = Bring in a colleague's file
passed-already-here = That file is here already.
passed-kept = { $jobs ->
    [one] One job brought in, marked as theirs.
   *[other] { $jobs } jobs brought in, marked as theirs.
}
pass-title = Pass this on to a colleague
pass-why = The file holds measures, marks, face angles, areas, places, leads, parts and minutes. Customer, plate, vehicle number, serial number, photos and times of day stay here, and so do words that name any of them. Names go along only if you say so.
pass-model = Make, model and body in the file
pass-model-note = Years go along as each job has them.
pass-left-out = Left out, since a customer or a name that stays here holds it too: { $words }. Is it the make or the model? Then type it above.
pass-say = Say that it comes from { $name }
pass-save = Make the file

## Screens: measures and marks

loosen-by-unlocking = Mark { $label } is locked where it leaves no place.
loosen-unlock = Unlock mark { $label }
loosen-limit = { $limit } { $value } mm for this job
taken-title = How the tape lies
taken-straight = Straight across
taken-along = Along the face
taken-no-shape = Distances along the face need the shape from above. Sweep it first, or measure straight across.
taken-beyond-shape = { $typed } mm lies beyond the shape from above, which is known to { $end } mm on this side. Sweep to the outer edge, or measure straight across.
taken-is-straight = mm along, { $straight } mm ± { $plus } straight
taken-sweep = Sweep the shape from above
taken-place-straight = { $place } straight across: the shape from above ends before this mark
taken-check = Figures along the face: lay the tape on it.
centre-line-title = Where the centre line is
centre-line-why = Tap how you found it. It stands on the marks, the job sheet and the template.
centre-by = Centre line: { $how }
centre-by-striker = striker or lock
centre-by-plate = plate holes
centre-by-full-width = half of the full width
full-width = Full width
full-width-note = mm, edge to edge
full-width-halve = Halve it
full-width-looks-half = { $typed } mm looks like half a width. Type the full width from outer edge to outer edge, { $least } mm or more.
full-width-outside = { $typed } mm is { $by } mm outside { $least } to { $greatest } mm. Measure again from outer edge to outer edge.
centre-line-striker = At the striker of the boot or the lock of the doors: drop a plumb line to the bumper.
centre-line-plate = Half way between the holes of the number plate, if the plate sits in a recess that is central.
centre-line-half = Half of the full width from outer edge to outer edge, straight. Check it against one of the others.
impossible-what-to-do = Change a limit or an area below, or measure again. The last marks stay as they were.
keep-clear = { $areas ->
    [0] Plate, lamps, tow hitch, old holes
    [one] One area to keep clear of, old holes
   *[other] { $areas } areas to keep clear of, old holes
}
keep-clear-why = Marks stay clear of what you enter here. Places count from the centre line.
area-from-to = { $from } to { $to }
area-why = What is there
area-what = In your words
area-from = From
area-to = To
area-add = Keep clear of it
no-drill-something-else = Something else
offset-note = minus or L is left
take-away = Take away
old-holes = Old holes a head reuses
old-hole-at = From the centre line
old-hole-add = Use it
row-title = Height of the row
row-why = Measure up or down from a line that runs true across (swage line, shut line, top edge), never from the ground. The height above the ground is held against the kit sheet once.
row-line-title = Measured from
row-line-what = Which line
row-from-line = From the line
row-from-line-note = mm, minus is down
row-height = Above ground
row-height-note = mm, once
row-take = Keep this height
row-drop = Forget this height
limits-title = Limits for this job
limits-why = From the kit sheet. Change one only with a reason of your own.
limit-now = now { $now } mm
limit-none = none set now
limit-change = Change
limits-from-sheet = Back to the kit sheet's limits
move-a-mark = Move a mark
move-done = Done moving
pick-title = Pick a mark-out
other-plans = Other mark-outs
plan-take = Take '{ $plan }'
plan-taken = This one is on the drawing.
gaps-title = Head to head
card-straight = From the centre line, straight
card-along = From the centre line, along the face
card-along-caption = Each mark from the centre line, along the face, in millimetres
card-gaps-along = Head to head, along the face
card-plus = ± { $plus } mm
card-not-reached = the shape from above ends before it
mark-at = Mark { $label }: { $place }
move-by = Move by millimetres
move-step = { $by }
move-to = To
move-there = Move it
mark-lock = Lock this mark
mark-unlock = Unlock this mark
solve-rest = Solve the marks that are not locked
solve-again = Solve all marks again
move-this-mark = Keep { $mm } mm each way clear of this spot, solve again
step-check = Check
check-title = Tape read back
check-ready = Ready: every mark is where it belongs
check-ready-across = Ready left to right: the height is not checked
check-done = Checked. Marks are where they belong
check-done-across = Checked left to right. The height is not
check-why = Lay the tape again from the centre line and type what it reads. A mark may be { $mark } mm off, a gap { $gap } mm, left against right { $symmetry } mm, the height { $level } mm.
tape-limits-title = Limits of this check
tape-limits-why = The app's own unless you change one for this job. Typed tape and photos are held against the same limits.
tape-limits-from-app = Back to the app's limits
tape-limit-mark = A mark may be off
tape-limit-gap = A gap may be off
tape-limit-symmetry = Left against right may be off
tape-limit-level = The height may be off
tape-limit-outside = { $typed } mm is { $by } mm outside { $least } to { $greatest } mm. A tape is not read finer, and more is seen from behind.
tape-limit-changed = { $limit } { $now } mm in this job (the app says { $app } mm).
check-photos = Take what the photos measured
check-photos-why = Fills in what the photos know well enough. It is then held against the plan as a tape reading is.
check-take = Marks are checked
tape-reads = Tape at { $label }
tape-from-line = From line at { $label }
tape-good = good, { $off } mm off
tape-off = { $off } mm off
behind-title = Seen from behind
behind-why = Tap a mark once you have seen that nothing is behind it.
behind-clear = Mark { $label } is seen from behind and clear
behind-clear-short = clear
behind-open-short = not seen
agreed-title = Customer agrees to the positions
agreed-why = Holes are drilled once. Show the marks or a photo first.
agreed-name = Who agrees
agreed-by = { $name } agreed ({ $how }), { $when }.
agreed-not = Take the agreement back

measures-title = Centre line to outer edge
measures-why = Straight across, as seen from behind. The outer edge is where the face turns into the side.
half-left = Left
half-right = Right
in-mm = mm
show-marks = Show the marks
show-marks-again = Show the marks again
particulars = Customer, vehicle, plate
particulars-why = Any time before the job sheet.
job-name = What you call this job
particular-customer = Customer
particular-vehicle = Vehicle
particular-plate = Plate
particular-vin = Vehicle number (VIN)
particular-odometer = Odometer
particular-odometer-note = With its unit, as it stands.
particular-vehicle-note = Make, model, body, year.
particular-fitter = Fitter
particular-kit-serial = Serial number of the kit
no-marks-title = No marks yet
no-marks-why = Two half widths give the marks. Faces are read at the marks.
to-measures = To the half widths
tape-on = Tape is on, read the faces
marks-caption = Each mark from the centre line, straight, in millimetres
marks-straight = Millimetres from the centre line, straight. A tape laid along a round face reads more.
left-of-centre = left
right-of-centre = right
on-centre = on the centre line
marks-stale = The half widths were changed after these marks were made.
marks-stale-first = The half widths were changed after these marks were made. Type them as they were, or solve all marks again.
marks-broken-first = The marks do not keep every rule. { $why } Solve all marks again, move the mark, or change what you entered.
full-size-title = Template at full size
full-size-why = Sheets to lay on the bumper: centre line, height, and every hole with its cross. Print them at 100 %.
full-size-print = Print at full size
full-size-making = Making the sheets: { $percent } %
full-size-stop = Stop
paper = Paper
paper-a4 = A4
paper-letter = Letter

## Screens: faces

faces-title = Mark { $label }: back of the phone on the face
faces-why = Top edge up. It reads by itself, sounds, and goes on to the next mark.
spots = Marks
spot-read = Mark { $label }, { $face }
spot-open = Mark { $label }, not read
read-again = Read { $label } again
read-face-of = Read mark { $label }
read-the-face = Read the face
see-rings = See the ring sets
reading-starting = Waiting for the sensor
reading-on-last-mark = Taken. Go to mark { $label }.
reading-moving = Hold still on the mark
reading-settling = Reading, hold still
reading-off = Every face is read
reading-waits = Tap 'Read the face' at the mark
spot-down = ↓ { $angle }
spot-up = ↑ { $angle }
type-a-gauge = Type the angle instead
type-a-gauge-why = From a digital angle gauge held upright against the face.
which-way = Which way the face looks
faces-down = Faces down
faces-up = Faces up
face-angle = Face angle
in-degrees = degrees
gauge-plus-minus = Gauge ±
gauge-plus-minus-note = 0.3 if left empty
take-typed = Take it for mark { $label }

## Screens: ring sets

ring-by-hand = Take another set by hand
ring-by-hand-reason = Why
ring-by-hand-note = kept on the job sheet
ring-take = { $set }
ring-goes-in = goes in
rings-inserts = Inserts
rings-inserts-needed = Only where needed
rings-inserts-lift = Also for its lift
ring-by-rule = Take the set that the rule gives again

rings-swap = Rings can be swapped after drilling. Holes and spots cannot.
ring-not-read = Not read yet
rings-settled-by = To settle close calls: { $ways }.
ring-why = Why, and the other sets
marks-why-here = Why here
ring-every-set = Every set
budget-title = What the ± is made of
to-sheet = To the job sheet

## Screens: obstacle learn

learn-why = So that a tow bar or a spare wheel behind the vehicle does not sound all the time. Whatever else stands there then is ignored as well.
learn-to-start = Start the run
learn-listen = Listen first
learn-again = Start again
learn-again-gate = All of this is so: start again
learn-once-more = Learn once more
learn-done = Put the result away
learn-kept-soon = It is kept as soon as it is sure that the last tap was no slip.
learn-undo = Take the last count back
learn-cleared = It is cleared
learn-attempts = { $count ->
    [one] 1 run before
   *[other] { $count } runs before
}
learn-do-learned = Now the walk test: go round the object and see that the rest is still seen.
learn-do-by-hand = Nobody heard it but you. Walk round the object and see what is still seen.
learn-do-by-sound = The beeps were heard, in and out were not seen. Walk round the object and see what is still seen.
learn-shift-first = First: move the near zone out
learn-shift-offer = It moves the near zone out by { $distance } mm and ignores nothing. { $how }
learn-shift-say-enough = Is enough
learn-shift-say-not-enough = Not enough
learn-shift-say-not-tried = Not tried
learn-what = What is to be ignored
learn-what-else = Something else
learn-what-keep = Take it
learn-last-beeps = It beeps too
learn-last-silent = It stays silent
learn-counting = How to count
learn-ear-starts = The microphone starts…
learn-ear-listens = listening
learn-ear-heard = heard
learn-ear-none = Count by taps: it is kept as 'by hand, not confirmed'.
learn-ear-tone = A beep at { $hertz } Hz. Was it the kit?
learn-ear-take-tone = Yes, this tone
learn-gate-heeded = Before the run: all of this is so
learn-gate-picture = From above: nobody and nothing behind the vehicle but the object, wheels chocked
learn-gate-why = What stands behind during the run is ignored from then on.
learn-gate-area = Behind it is clear beyond the kit's range, but for the object
learn-gate-area-range = Behind it is clear beyond { $metres } m, the kit's range, but for the object
learn-gate-nobody = Nobody behind or beside the vehicle
learn-gate-brake = Foot on the brake all the time
learn-gate-park = Park brake on
learn-gate-chocks = Wheels chocked on both sides
learn-gate-ignition = Ignition as the vehicle's maker says; engine off where reverse works without
learn-gate-air = Engine on: door open to fresh air
learn-run-of = Cycle { $cycle } of { $cycles }
learn-run-ready = Into reverse when you are ready
learn-run-engaged = In reverse. Wait for the beep.
learn-run-heard = Heard. Now out.
learn-run-released = Out. Now in again.
learn-run-last-next = The next is the last. Then stay in.
learn-run-last-beep = Wait for the beep, then tap 'It beeped'.
learn-run-quiet = Stay in reverse. Keep still.
learn-run-checking = Quiet time over, checking the sound
learn-run-tone = Listening from { $lowest } to { $highest } Hz
learn-run-any-tone = Listening from { $lowest } to { $highest } Hz: the first beep in reverse gives the kit's tone
learn-run-closing = Quiet time over. Wait for the kit's sign.
learn-run-by-hand = Counted by hand, not confirmed
learn-run-in = In reverse
learn-run-in-last = In reverse, the last time
learn-run-out = Out
learn-run-it-beeped = It beeped
learn-run-it-beeped-last = It beeped: the quiet time runs
learn-run-sign-came = The sign came
learn-run-stop = Stop
learn-asked-times = times into reverse, the last one included
learn-asked-milliseconds = in milliseconds: 4000 is 4 s
step-learn = Obstacle learn
to-learn = To the obstacle learn

## Screens: job sheet

print-sheet = Issue and print

## Screens: zero, ground, sweep, level

step-zero = Zero the phone
step-ground = Ground
step-corners = Corner angles
step-level = Camera level
back-to-faces = To the faces
stop-reading = Stop
renew = zero again
rests-on = What the angles rest on
zero-the-phone = Zero the phone
rings-to-ground = How the ground lies
zero-title = Zero the phone
zero-why = Four readings on one upright wall find this phone's own error. Half a minute; it then holds for every job.
zero-start = Start on the wall
zero-again = Zero it again
zero-tables = Two more on a table
zero-none = Not zeroed: ± 4.5° of every angle is this phone's own error.
zero-put-back = Put back what was known before
zero-pose-number = Reading { $number } of { $of }
zero-listen = Two rising notes: taken. Two low notes: not taken. A soft tick: it still moves.
zero-before = Before
zero-before-up = read { $off }° too far up
zero-before-down = read { $off }° too far down
zero-after = Now
zero-after-is = ± { $plus }°
zero-spread = Readings fit within
zero-spread-is = { $spread }°
zero-age = Zeroed
zero-age-is = { $days ->
    [0] today
    [one] yesterday
   *[other] { $days } days ago
}
feet-title = Feet on the phone
feet-on = Three feet on
feet-off = No feet
feet-help = Why feet, and where
feet-why = Three stick-on feet, higher than the camera bump, make the phone stand on a round face as a head does: ± 0.4° in place of ± 1.4° on a usual face. Keep them on for zeroing. Masking tape under them protects the paint.
phone-profile = Name and case of this phone
phone-name = Name of this phone
phone-case = Case
phone-case-note = Empty for none. Another case asks for zeroing again.
voice-title = Spoken prompts
voice-on = Say it aloud
voice-off = Tones only
ground-why = Angles count against the ground the vehicle stands on.
looks-level = The ground looks level
board-start = Measure with a board
board-more = One more place of the board
board-where = A straight board along the vehicle beside its wheels, on the same ground.
board-forward = Phone flat on the board, screen up, top edge to the front of the vehicle.
board-turned = Same place, turned end for end.
bay-name = Name of this bay
bay-save = Save as a bay
bay-forget = Forget { $name }
bay-old = measured more than a year ago
bay-no-name = Type a name for the bay first.
bays-title = Saved bays
ground-gauge = A digital angle gauge
ground-gauge-why = Zero the gauge on the board beside the wheels: its figures are then against the ground, and nothing of the ground is left in the ±.
gauge-level = Reads against level
gauge-board = Zeroed on the board
sill-title = By the sill, the poor way
sill-why = Sills are not made level: ± 2° stays, and the lean is not known.
sill-start = Read with the phone on the sill
sill-hold = Long edge along the sill, top edge to the front of the vehicle.
sill-angle = Nose up along the sill
sill-note = degrees, minus for nose down
sill-take = Take it
load-title = What it carries
load-why = A loaded rear points lower. { $allowance }° is added to the least aim.
load-car = A car
load-carrier = A load carrier
load-own = My own figure
load-own-figure = Added to the least aim
load-own-take = Take it
corners-title = Corner angles
corners-why = How far the face turns away from straight back at each mark. It counts where the ground slopes, and gives the shape from above.
corners-swept = corner angles swept
corners-open = corner angles, roundness
corners-type = Type them instead
corners-type-why = From straight back, plus to the right, minus to the left. ± 6° by eye. Empty: not known.
corner-of = Mark { $label }
corners-take = Take these
sweep-start = Sweep left to right
sweep-places = Where the sweep stops
sweep-places-why = Lay a tape along the face, 0 on the centre line. Plus to the right, minus to the left.
sweep-no-places = Type where the sweep stops: places out to the outer edge on both sides.
sweep-place = Place { $number }
sweep-place-note = { $place } mm if left empty
sweep-on-centre = Back of the phone on the centre line.
sweep-at-left = { $along } mm left on the tape.
sweep-at-right = { $along } mm right on the tape.
sweep-centre-again = On the centre line again.
sweep-closed = Back on the centre it was { $closing }° off; that is spread over the sweep.
sweep-drop = Take the sweep out
along-title = Along the face and straight
along-why = A tape laid along the face reads more than straight across.
round-title = How round the face is, up and down
round-read = Find it by two readings
round-above = 30 mm above the mark.
round-below = 30 mm below the mark.
level-open = camera level
level-title = Camera level
level-why = Stand square behind the vehicle. Level runs with the ground it stands on.
level-live = Live picture
level-hold-upright = Hold the phone upright
reading-taken = Taken. Go on as asked.
level-take = Take a photo
level-choose = Choose a picture
level-again = Ask for the camera again
level-close = Back to the live picture
level-photo = The photo
level-photo-of = Photo of { $when }
level-reading-photo = Reading the photo
level-no-attitude = A picture from a file: level is not known in it
level-lay = Draw a line along the swage line, the tape or the heads
level-lay-why = One drag draws it, the next moves its nearer end.
level-drop = Take this photo out
repeats-pooled = { $readings ->
    [one] One reading at mark { $label }
   *[other] { $readings } readings at mark { $label }, pooled
}
read-once-more = Read once more
take-last-out = Take the last out
reading-taken-out = The last reading was taken out.
reading-of = Reading { $number }: { $face }
reading-of-taken-out = Reading { $number } was taken out.
take-out = Take out
take-out-reading = Take out { $reading }
readings-taken-out = All readings were taken out.
read-all-again = Read all marks again with this phone
say-next-mark = Mark { $label }.
say-all-read = Every mark is read.
say-zeroed = The phone is zeroed.
say-ground-read = The ground is read.
say-swept = The sweep is closed.

## Screens: kit sheets

to-kits = Kit sheets
to-restock = Parts to buy
kits-title = Kit sheets
kits-own = Your kits
kits-samples = Samples
kits-empty = None yet. Type a quick sheet in about two minutes, or bring in a file.
kit-row = { $heads } heads, { $rings } rings · { $jobs ->
    [0] no job uses it
    [one] one job uses it
   *[other] { $jobs } jobs use it
}
kit-open-file = Bring in a file
kit-type-quick = Type a quick sheet
kit-type-full = Type a full sheet
kit-type-full-on = Go on with the full sheet
kit-type-full-on-with = Go on with the full sheet: { $kit }
kit-file-refused = This file was not brought in. Nothing was changed.
kit-more-faults = And { $more } more.
kit-file-not-read = The file could not be read: { $why }
kit-already-there = { $name } is here already, just the same. Nothing was changed.
kit-brought-in = { $name } is brought in.
kit-brought-in-renamed = { $was } is taken by another sheet, so this one is called { $name }.
kit-not-here = That kit sheet is not on this phone.
kit-is-sample = A sample with invented figures. Copy it to change it.
kit-edit = Edit every field
kit-copy = Make a copy
kit-save-file = Save as a file
kit-copied = This is the copy.
kit-deleted = { $kit } is deleted.
kit-kept-next = Kept. The next job starts with it.
kit-use-next = Start the next job with it
kit-used-title = Jobs
kit-used-none = No job uses it.
kit-used-as-it-stands = { $job }: just as it stands here
kit-used-as-it-was = { $job }: as it was when fitted; changed here since
kit-not-given = Not given: { $groups }. What needs it asks then.
kit-name-taken = Another sheet is called { $name }. Give this one its own name.
kit-marks-went = The marks do not fit this kit, so they are gone. Show the marks again.
kit-edit-title = Every field of the sheet
kit-edit-why = What is not given stays empty; what needs it asks then.
kit-edit-keep = Keep the sheet
kit-edit-leave = Back to the sheet
kit-edit-unkept = Changed and not kept on the sheet yet. It stays here until you keep it or throw it away.
kit-edit-throw = Throw the changes away
kit-edit-wrong-so-far = Does not fit together:
kit-edit-not-kept = Not kept yet:
kit-entry-add = Add to: { $list }
kit-entry-take = Take out: { $entry }
kit-unit-or-empty = { $unit }, or leave it empty
kit-or-empty = or leave it empty
kit-needed = needed
kit-of-job = Kit: { $kit }. Take another
kit-fixed = Kit: { $kit }. A hole is drilled, so it stays.
kit-pick-why = The last kit is taken first. It can be changed until the first hole.
quick-title = Quick sheet
quick-page = Part { $page } of { $pages }
quick-group-heads = Heads and hole
quick-group-rings = Rings and insert
quick-group-aim = Where a head may point
quick-group-marks = Where heads may sit
quick-group-rest = Lead and obstacle learn
quick-to-rings = On to the rings
quick-to-aim = On to the aim
quick-to-marks = On to the marks
quick-to-rest = On to lead and learn
quick-keep = Keep the sheet
quick-back-heads = Back to the heads
quick-back-rings = Back to the rings
quick-back-aim = Back to the aim
quick-back-marks = Back to the marks
quick-note-name = what it says on the box
quick-note-labels = such as 1 2 3 4
quick-note-rings = with a space between
quick-note-may-be-empty = may stay empty
quick-note-aim = degrees above level
asked-title = The kit sheet does not say
asked-why = Measure it on the kit in the box. It goes on the sheet.
asked-keep = Put it on the sheet

## Screens: behind, holes, loom, parts

behind-look-why = Answer once for the bumper. Only 'seen and clear' opens the drill.
behind-what = What is behind the bumper
behind-which = What is there
behind-foam-seen = Behind the foam it is clear
behind-foam-why = Foam is cleared from outside, and only after it was seen what is behind it.
behind-other-words = Something else
behind-other-keep = Add it
behind-depth = Free depth
behind-panel = Panel thickness
behind-material = What the panel is made of
behind-exceptions = Heads that are different
behind-head-own = { $label }: { $what }
behind-head-as-bumper = { $label }: as the bumper, { $what }
behind-as-bumper = Same as the bumper again
behind-what-here = What is behind this head
behind-photo-take = Take a photo
behind-photo-choose = Choose a photo
behind-photo-out = The photo is taken out.
to-behind = Look behind
to-holes = To the holes
to-loom = To leads and supply
to-parts = Parts and quote
all-of-this-is-so = All of this is so
holes-why = Nothing is drilled before it is answered.
hole-confirm = Mark { $label } is confirmed from behind
hole-is-drilled = Hole { $label } is drilled
hole-confirmed = Confirmed from behind
hole-not-confirmed = Not confirmed from behind yet
hole-steps = Step by step
hole-more-why = { $more ->
    [one] And one thing more
   *[other] And { $more } things more
}
hole-old = An old hole is here
hole-old-size = Old hole at { $label }, across
head-sits = Head { $label } sits: arrow up, clicked home, tugged
head-seated = Arrow up, clicked home, tugged
head-how-it-goes-in = How the head goes in
head-not-seated = The head is not in yet
head-unseat = It does not sit after all
tool-reach = Centre drill past the saw's teeth
tool-reach-note = mm, kept for the next jobs
tool-step-reach = Step drill's tip past the panel
tool-step-reach-note = mm, when the hole has its size
tool-celsius = Bumper, °C
tool-celsius-note = may stay empty
loom-leads = Leads
loom-leads-why = Along the way that the lead will lie.
place-grommet = Where the grommet is
place-supply = Supply point: where the feed is taken
place-note = In a few words; the next vehicle of the model starts from them.
place-as-before = As on an earlier vehicle. Look whether it is so on this one.
loom-grommet-to-box = Grommet to control box
loom-slack = Slack at the head
loom-slack-note = 250 if left empty
loom-spot-to-grommet = Head { $label } to the grommet
loom-route-of = { $lead }, all the way
loom-straight = { $lead }: straight line
loom-straight-fold = Check it against the straight line
loom-straight-note = mm from end to end; no way is shorter
loom-rules-keep = The whole route is so
loom-rules-kept = The route is checked.
supply-title = Supply
supply-heed = All of this is so at the supply
cautions-heeded = Read and heeded.
supply-system = The vehicle's supply
supply-12 = 12 V
supply-24 = 24 V
lamp-title = How the reversing lamp is fed
lamp-plain = Bulb, plain feed
lamp-pulsed = Pulsed, lamp-out check
lamp-led = LED lamp
lamp-bus = Over a data bus
lamp-not-known = Not known
supply-volts = { $reading }, volts
in-volts = volts on the meter
supply-fine = as it should be
supply-section = Supply lead, mm²
square-mm = { $size }
fuse-label = Fuse at the take-off, A
fuse-from-sheet = { $rating } A by the kit sheet
fuse-from-current = { $rating } A: the next blade fuse for the kit's current; the sheet gives no fuse
fuse-from-default = { $rating } A; the kit sheet gives none
fuse-is-fitted = A fuse of { $rating } A is fitted at the take-off.
fuse-fit = The fuse is fitted at the take-off
quote-why = Parts as decided now, and working time.
quote-unpriced = { $parts ->
    [one] One part has no price yet.
   *[other] { $parts } parts have no price yet.
}
quote-minutes = Working time
quote-minutes-note = minutes
quote-an-hour = Price of an hour
took-title = { $jobs ->
    [one] One earlier job of the model took:
   *[other] { $jobs } earlier jobs of the model took, as median:
}
took-why = It fills the quote as far as this vehicle is not decided yet. Change what does not fit.
quote-print = Print the quote
quote-price-note = price of one
part-line = { $count } × { $part }
part-another = Another part
part-add = Add the part
part-drop = Take it off
restock-title = Parts to buy
restock-headline = { $parts ->
    [0] Nothing to buy
    [one] One part to buy
   *[other] { $parts } parts to buy
}
restock-empty = Parts stand here once a hole is made.
restock-done = All bought again
restock-bought = All of it is bought again and off the list.


## Screens: walk test and fault

to-walk = To the walk test
to-fault = Something sounds wrong: find the fault
start-fault = Find a fault on a vehicle that is not here
walk-heed = All of this is so
walk-sheet-print = Print a page to walk by
walk-sheet-print-grid = Print the page for all squares of 0.1 m
walk-sheet-file = walk test { $job }
walk-sheet-file-grid = walk test squares { $job }
walk-sheet-title = Walk test: where the pole goes
walk-sheet-job = { $job }
walk-sheet-number = No.
walk-sheet-figure = { $number }
walk-sheet-across = From the centre line
walk-sheet-behind = Behind the bumper
walk-sheet-nothing = Nothing
walk-sheet-slow = Slow beeps
walk-sheet-quick = Quick beeps
walk-sheet-steady = Steady tone
walk-sheet-box = [   ]
walk-sheet-square = [ ]
walk-sheet-from-to = { $first } to { $last }
walk-sheet-column = { $letter } { $across }
walk-sheet-columns = Middle of each column: { $columns }.
walk-sheet-squares-key = Write into each square what sounds at its middle: 0 nothing, S slow beeps, Q quick beeps, T steady tone.
walk-sheet-after-learn = After the learn of { $what }: begin just behind and beside it. What is not seen there any more is told to the customer.
walk-sheet-how = Pole of about 75 mm, 1 m long, upright, held from the side. Tick what sounds at each place, then tap it into the job.
walk-start-nine = Walk the nine points
walk-start-grid = All squares of 0.1 m
walk-start-grid-of = Instead: all { $points } squares of 0.1 m. It finds small gaps.
walk-how = A pole, about 75 mm thick and 1 m long, upright, at nine places behind the vehicle. One tap a place: what sounds there.
walk-point-of = Point { $number } of { $of }
walk-carry = Carry the pole there: { $seconds } s
walk-listen = Listen now: { $seconds } s
walk-lead = Lead me by voice
walk-lead-off = Stop the voice
walk-lead-why = It says each place, gives time to carry the pole, then to listen. It says it again until a tap comes; nothing is taken for granted.
walk-say-point = Point { $number }: { $point }.
walk-say-listen = Pole there? What sounds?
walk-other-point = Another point, or anew
walk-anew = Walk it again
walk-what-sounds = What sounds there
walk-no-promise = This is what was heard with this pole today, no promise. The driver still has to look.
walk-predicted-fold = Against the prediction (stays with the workshop)
walk-predicted-why = The prediction is computed and stands on what is assumed: no promise, and not on the customer's sheet.
walk-predicted-agrees = All { $points } points as predicted.
walk-predicted-seen = should be seen
walk-predicted-not-seen = should not be seen
walk-column-point = Point
walk-column-measured = Measured
walk-column-predicted = Predicted
workshop-walk-title = For the workshop: walk test against the prediction
walk-assumed = Assumed:
walk-limits = The share that is asked, and times
walk-time-most = { $time }: at most
walk-time-most-note = ms; { $greatest } if left empty: { $from }
walk-share-field = Least share, per cent
walk-share-note = 85 if left empty, our own figure
in-ms = ms
walk-object-first = First: where is the { $object }? The walk test then begins beside it.
walk-learned-fold = Was something taught to be ignored?
walk-learned-why = A tow ball, a spare wheel. Its walk test starts just behind and beside it; one from before does not count any more.
walk-object-what = What it is
walk-object-width = How wide
walk-object-reach = How far it sticks out
walk-object-across = Its middle
walk-object-across-note = mm from the centre line, L or R; empty: in the middle
walk-object-keep = That is where it is
walk-object-learned = The control box has learned it
walk-learn-cleared = That was cleared
heads-title = Each head on its own
heads-why = The pole in front of one head, held from the side, from left to right; the others free. Swapped plugs show by which head answers.
heads-open = open
heads-shows = is { $label }
heads-sounds = sounds
heads-silent = silent
heads-which = Pole in front of head { $label }: which answers?
heads-answer = The head that answers
heads-shows-as = Head { $label } answers
heads-sounds-only = It sounds, not which
heads-none = None of them
heads-anew = Begin the function check again
fault-title = Find the fault
fault-does = What does it do?
where-does = Where: { $symptom }
where-not-known = Not known
where-left = Left
where-right = Right
fault-causes = Causes, the likeliest first
fault-others = { $causes } less likely causes
fault-order = How the order comes about
fault-order-why = Each cause has points: 10 more make it ten times likelier, 10 fewer a tenth. What is looked at directly weighs 25 to 30, what is measured 20 to 25, what a plan or a test says less. The weights are our own judgement.
fault-points = Why: { $points } points
fault-for = Speaks for it
fault-against = Speaks against it
fault-not-known = Not known
fault-evidence = { $said } ({ $points })
fault-yes = Yes
fault-no = No
fault-pass = Later
fault-unknown = Not known
fault-asked-at = Head { $label }: { $question }
fault-answers = All questions, { $answers } answered
fault-at-one-head = At one head
fault-to-walk = To the walk test
fault-clear = Clear symptoms and answers
fault-more = Loaded rear
fitted-title = Where does a fitted head point?
fitted-why = Read the panel a hand's breadth to each side of the head, then look at its ring from the side. Never rest a phone on a head.
fitted-which = Which head
fitted-left = Panel left of it
fitted-right = Panel right of it
fitted-sign = degrees; down is -
fitted-read = Read it with the phone
fitted-read-again = Read it again
fitted-panel-drop = Take it out
fitted-hold-left = Hold the phone's back flat on the panel, a hand's breadth left of the head
fitted-hold-right = Now a hand's breadth right of the head
beside-other-phone = The marks of this job, or the panel beside its heads, were read with another phone, case or feet. Go on with those, type what a gauge shows, or take the older readings out.
fitted-ring = Its ring adds
fitted-lifts = Ring's thick edge below: it lifts
fitted-lowers = Thick edge above: it lowers
fitted-aim = It { $aim }
fitted-drop = Take this out
paint-on = Paint on this head
rear-sinks = The loaded rear sinks by

## Platform: storage, sensors

camera-refused = The camera is not allowed for this page. Allow it in the browser's settings for this site, or choose a picture from a file.
camera-none = No camera answers; another app may hold it. Close that app, or choose a picture from a file.
camera-not-yet = The live picture has not begun yet. Wait a moment and take the photo again.
camera-not-a-picture = This file is no picture that can be kept. Choose a JPEG, PNG or WebP.
camera-failed = The camera failed ({ $why }). Choose a picture from a file.

microphone-refused = The microphone is not allowed for this page. Allow it in the browser's settings for this site, or count by taps.
microphone-taken = Another app or a call holds the microphone. Close it and start again, or count by taps.
microphone-none = This phone gives no microphone. Count by taps.
microphone-insecure-context = The browser gives the microphone to secure pages only (https, or localhost). Open Rakeline there, or count by taps.
microphone-ended = The microphone was switched off or pulled out. Start again, or count by taps.
microphone-failed = The microphone failed ({ $why }). Start again, or count by taps.
hearing-silent = The microphone gives nothing but silence. Switch it on in the phone's settings, take the cover off, or count by taps.
hearing-clipping = The sound is too loud for the microphone. Hold the phone further from the speaker.
hearing-tone-on = A tone at { $hertz } Hz sounds without a pause. While it does, no silence is heard and no further beep. Clear the area behind, or switch off what sounds.
hearing-too-noisy = Too noisy by { $short } dB to hear a beep for sure. Switch off blower, radio and engine, close the doors, or hold the phone nearer to the kit's speaker.

storage-refused = This browser does not let Rakeline keep anything: it may be a private window, or site data is blocked. Open Rakeline in a normal window. Until then nothing is saved.
storage-full = The phone has no room left, so the last change is not saved. Free some room (photos, downloads), then tap 'Save again'.
storage-failed = The last change could not be saved ({ $why }). Keep this page open and try again.
storage-kept = The jobs stay on this phone until you delete them.
storage-may-be-cleared = The browser may clear the jobs when the phone runs short of room. Add Rakeline to the home screen to keep them.
storage-cannot-ask = This browser does not say whether it keeps the jobs. Add Rakeline to the home screen to be on the safe side.

motion-source-orientation = Reading the phone's orientation.
motion-source-relative-orientation = Reading the phone's orientation sensor.
motion-source-acceleration = Reading the accelerometer; its steps are coarse, so the ± is larger.
motion-permission-refused = The motion sensor is not allowed for this page. Allow motion sensors in the browser's settings for this site, then tap 'Read the face'. Or type the angle from a digital angle gauge.
motion-no-sensor = This phone gives no motion reading. Type the angle from a digital angle gauge.
motion-insecure-context = The browser gives motion readings to secure pages only. Open Rakeline at its https address or at localhost, or type the angle from a digital angle gauge.
motion-stopped = The motion sensor stopped. Tap 'Read the face' to start it again, or type the angle.


## Platform: worker, files

work-stopped = The part of Rakeline that makes sheets and reads photos stopped ({ $why }). Your job is safe. Try again: it starts anew.
share-saved = Saved among your downloads: { $name }
share-no-taker = No app on this phone takes { $name }. Install one that does (files, mail, printing) and share again.
share-failed = { $name } could not be saved ({ $why }). Try again, or allow downloads for this site.

# What the kit sheet says at a step
kit-says-heads = { $count ->
    [one] One head: { $labels }.
   *[other] { $count } heads: { $labels }.
}
kit-says-rings = Rings: { $rings }.
kit-says-inserts = Inserts: { $inserts }.
kit-says-colours = Heads come in: { $colours }.
kit-says-socket = Socket { $label }: { $takes }
kit-says-socket-open = Socket { $label }: the kit sheet does not say what goes in.
kit-says-shift = The kit sheet: the near zone moves out by { $distance } mm.
kit-says-note = The kit sheet: { $note }
kit-says-volume-at = Volume, by the kit sheet: { $place }
kit-says-volume-steps = Volume steps: { $steps }.
kit-says-paint-limit = All paint on a head together: at most { $limit } mm.
kit-says-not-painted = Not to be painted: { $rings }.
kit-says-ring-seats = Ring { $ring }: { $how }

# The steps of a whole fitting: what, why, how, caution
steps-too-long = This step file is longer than { $most } kB. Choose the file that came with the app.
steps-not-read = This is no step file: { $why }
steps-version = This step file has version { $found }; the app reads version { $wanted }.
steps-count = This step file has { $found } steps; it may have 1 to { $most }.
steps-name = '{ $name }' is no name of a step: lower-case letters and hyphens, 40 at most.
steps-after = Step '{ $name }' waits for '{ $missing }', which does not stand before it.
steps-twice = Step '{ $name }' stands twice in the file.

ask-sensors-there = Sensors there already?
ask-tow-bar = Tow bar, rack or spare wheel at the back?
ask-painted = Heads painted?
ask-bumper-off = Bumper comes off?
ask-assistance = Radar or camera near this bumper?
ask-load-carrier = Load carrier or pick-up?
ask-raised = Vehicle raised for the work?
ask-trim = Trim or roof lining opened?

stage-survey = Survey
stage-box = Control box
stage-behind = Look behind
stage-marks = Mark-out
stage-faces = Face angles
stage-rings = Ring sets
stage-check = Check
stage-paint = Paint
stage-holes = Holes
stage-loom = Loom and heads
stage-warn = Display, speaker
stage-prove = Prove it
stage-hand-over = Hand over

s-raised = Vehicle on ramps or stands
s-raised-why = A jack lifts; it does not hold.
s-raised-how = Firm level ground, wheels chocked, stands at the maker's points, push the vehicle once before you go under.
s-raised-caution = Never reach under a vehicle that stands on a jack alone.
s-damage = Photos of damage that is there
s-damage-why = What was there before you came is on record, with its time.
s-damage-how = Both bumper corners, the middle, the lamps. Wipe the dirt off first.
s-lamps-before = Lamps and reverse signal work
s-lamps-before-why = A fault found now is not yours later.
s-lamps-before-how = Rear, brake, indicator, fog, number plate, reversing lamps; reverse in and out twice.
s-sensors-there = What is there already
s-sensors-there-why = Old holes and an old control box change the mark-out and the supply.
s-sensors-there-how = Makers' sensors: ask the maker's workshop before you add to them. Note holes, loom, box.
s-assistance-before = Driver-assistance scan before
s-assistance-before-why = Shows which faults were stored before the bumper was touched.
s-assistance-before-how = Read all control units, save the report, write its number here.
s-assistance-before-caution = Radar behind a bumper sees through paint and plastic of one thickness: no head, filler or paint in front of it. The maker's instructions say where it is.
s-camera-zones = Radar and camera zones near the bumper
s-camera-zones-why = Nothing is drilled, painted or filled where a radar looks through or a camera looks out.
s-camera-zones-how = From the maker's instructions: where each one sits, and the zone around it. Keep the zones clear in the mark-out.
s-camera-zones-caution = A radar that looks through new paint, filler or a head may brake for nothing, or not at all.
s-kit-complete = Kit complete
s-kit-complete-why = A missing ring is cheaper before the first hole.
s-kit-complete-how = Heads, rings, inserts, leads, box, supply lead, display or speaker against the leaflet.
s-usual-load = How the vehicle is usually loaded
s-usual-load-why = A rear that sinks under its load points the heads down: false alarms come with it.
s-usual-load-how = Ask what it carries on most days; a carrier that is always full is read loaded, or the allowance is set.
s-colour = Colour of the bumper
s-colour-why = The paint is ordered before the heads are needed.
s-colour-how = Colour code from the vehicle's plate, and whether heads and rings get it or stay black.
s-quote = Parts, time, price
s-quote-why = Agreed before the work, nobody argues after it.
s-quote-how = Fill in prices and minutes; the total is worked out.

s-box-place = Place for the control box
s-box-place-why = Dry, reachable, and every lead reaches it.
s-box-place-how = In the boot at the side, upright, plugs down, away from jack and cargo. Hold it there before you fix it.
s-box-place-cabin = Place for the control box, inside the cabin
s-box-place-cabin-why = A tray gets washed out; a box there drowns.
s-box-place-cabin-how = Behind the rear wall or seat, upright, plugs down. Long leads or an extension from the sheet.
s-grommet = Grommet for the loom
s-grommet-why = Water follows a lead: outside it must drop off before the body.
s-grommet-how = The factory's grommet first. Leads leave the cabin downward and hang in a loop outside.
s-grommet-caution = A new hole through the body: know what lies behind it, deburr, prime, and never through a seam or a crash member.

s-look-behind = Look behind the bumper
s-look-behind-why = A hole cannot be moved, and what lies behind decides where it may be.
s-look-behind-how = Lamp, mirror or phone from below and through the openings; measure the depth at each mark.
s-look-behind-caution = Airbag or crash sensors, crash beam, high-voltage (orange) leads, fuel and vapour lines, radar, hot exhaust: do not drill there.

s-face-first = Read the face angles before the bumper comes off
s-face-first-why = Off the vehicle the bumper hangs and twists; angles read there are wrong.
s-face-first-how = Mark out and read first, then take it off by the maker's instructions.
s-mark-out = Marks
s-mark-out-why = Even, the same both sides, clear of corners and of what lies behind.
s-mark-out-how = Two half widths and the marks are there; keep-clear areas shape them.
s-tape = Tape on the marks
s-tape-why = The cross is drawn on tape, the paint stays clean, the saw does not skid.
s-tape-how = Masking tape across the mark, the cross on it, the tape again over the edge to be sawn.

s-face-angles = Face angles at the marks
s-face-angles-why = Ring sets differ by a few degrees; by eye nobody sees that.
s-face-angles-how = Phone against each mark, hands off for a moment. It goes on by itself.
s-ring-sets = Ring set of each head
s-ring-sets-why = A head that looks at the ground gives false alarms.
s-ring-sets-how = Take what the app says is sure; settle a close call before painting.

s-tape-read-back = Tape read back
s-tape-read-back-why = The last chance to find a slip is before the drill.
s-tape-read-back-how = Read every mark from the centre line and type what the tape says.
s-agreement = Customer agrees to the positions
s-agreement-why = It is the customer's bumper.
s-agreement-how = Show the marks on the bumper or send a picture; name and way are kept.

s-paint = Heads and rings painted together
s-paint-why = One colour, one edge; a head taken apart leaks.
s-paint-how = Degrease, thin primer for plastic, one thin coat, head and ring put together, never taken apart. Colour code here.
s-paint-caution = Spray outside or with extraction and the right mask, away from flame and sparks. A thick coat deafens a head.
s-paint-cured = Paint cured
s-paint-cured-why = Soft paint sticks in the hole and tears.
s-paint-cured-how = The tin says how long at which temperature; correct the minutes by it.

s-bumper-away = Bumper off
s-bumper-away-why = Angles are read by then; what lies behind is open to see.
s-bumper-away-how = By the maker's instructions: ignition off, plugs released and noted, a second pair of hands, laid on a cloth.
s-bumper-away-caution = Leads of airbag and crash sensors: isolate and wait as the maker says. An orange lead is high voltage: hands off.
s-holes = Holes
s-holes-why = Each hole follows its own plan, with the depth stop set.
s-holes-how = Pilot, saw, tape off, file, touch in: the holes screen leads hole by hole.
s-holes-caution = Eye protection. No loose gloves or sleeves at a turning saw. Second pair of eyes behind, hands away.
s-primer-dry = Primer on the edges is dry
s-primer-dry-why = Bare metal under a head rusts where nobody sees it.
s-primer-dry-how = The tin says how long; correct the minutes by it.

s-loom-laid = Loom laid before the heads
s-loom-laid-why = With heads in, a lead is pulled by its head.
s-loom-laid-how = From the box to each hole, labels at both ends, away from edges.
s-loom-laid-caution = Cold exhaust only. Nothing near hot or moving parts, tow ball, tailgate hinges.
s-leads-reach = Leads reach
s-leads-reach-why = A lead too short is found now, not with the bumper on.
s-leads-reach-how = Type the route lengths; the sheet's leads are compared with slack for service.
s-heads-in = Heads in, right way up
s-heads-in-why = Upside down, a head looks down by twice its ring angle.
s-heads-in-how = Arrow up, press at the edge until it clicks, never on the middle.
s-lead-joined = Leads joined in the hand
s-lead-joined-why = A plug joined blind behind the bumper leaks or works loose.
s-lead-joined-how = Bring the lead out of the hole, join it until it seals, tug, push both back.
s-slack = Slack at every head
s-slack-why = The next fitter takes a head out without taking the bumper off.
s-slack-how = A hand's breadth of lead behind each head, in a loop that cannot rattle.
s-tied-up = Leads tied up to the body
s-tied-up-why = What hangs gets torn off, or melts.
s-tied-up-how = Every hand's breadth, above anything hot or moving, not to fuel or brake lines.
s-tied-up-caution = Never tie to brake, fuel or high-voltage (orange) lines.
s-surplus = Surplus coiled and clipped
s-surplus-why = A sensor lead that is cut or shortened measures wrong.
s-surplus-how = Coil it loosely in the dry and clip it. Sensor leads are never cut.
s-head-out-and-in = Each head out and back by hand once
s-head-out-and-in-why = A head that jams in its hole rings on: false alarms.
s-head-out-and-in-how = Two fingers, no tool. If it sticks, file the edge and touch it in.
s-sockets = Sockets by label
s-sockets-why = Two swapped leads show the obstacle on the wrong side.
s-sockets-how = Read the label at the box against the label of the head, one by one.
s-main-plug = Main plug home and secured
s-main-plug-why = A plug that works loose comes back as a warranty case.
s-main-plug-how = Push until it latches, tug, tie the loom a hand's breadth away.
s-supply = Supply, earth, fuse
s-supply-why = A weak supply or a pulsed lamp feed makes the box drop out.
s-supply-how = Type the volts with reverse in and out and at the earth point; fuse at the take-off.
s-supply-caution = A meter, not a test lamp. Never into orange, airbag or data circuits. Earth at a point that serves no airbag.
s-grommet-sealed = Grommet sealed
s-grommet-sealed-why = A wet boot is found in winter, by the customer.
s-grommet-sealed-how = Sealant around leads and edge, loop outside hanging lower than the hole.

s-bumper-back = Bumper on again
s-bumper-back-why = A bumper that hangs turns every head with it.
s-bumper-back-how = Loom first, nothing pinched; all clips and screws by the maker's instructions, plugs home, gaps the same left and right.
s-bumper-back-caution = Plugs of lamps, radar and crash sensors home before the ignition is switched on.
s-trim-off = Trim and pillar: maker's drawing first
s-trim-off-why = Curtain airbags lie where a speaker would look good.
s-trim-off-how = Look up the drawing. If an airbag is near: isolate the battery and wait as the maker says.
s-trim-off-caution = No screw, lead or box across or in front of an airbag, and check every screw's length. Airbag work is for those licensed to.
s-display-place = Display, high in the middle at the rear
s-display-place-why = The driver looks back or in the mirror; a display there is seen.
s-display-place-how = Hold it, sit in the driver's seat, look over the shoulder and in the mirror. Then fix it.
s-speaker-place = Speaker on the rear pillar
s-speaker-place-why = The sound comes from where the obstacle is.
s-speaker-place-how = Clear of curtain airbag, roof wiring and glass; screws no longer than the trim is deep.
s-speaker-place-caution = Curtain airbag and roof wiring: the maker's drawing first.
s-no-wire-seen = No wire to be seen
s-no-wire-seen-why = A wire that shows is what the customer remembers.
s-no-wire-seen-how = Look from every seat, doors and tailgate open and shut.
s-volume = Volume set
s-volume-why = Too loud is switched off; too soft is not heard.
s-volume-how = By the sheet. Without a setting a speaker is softened with felt over it, never opened.

s-self-test = Control box self-test
s-self-test-why = The box finds a dead head by itself at every start.
s-self-test-how = Ignition on, reverse in, parking brake on. Listen and write down what it says.
s-zone-shift = Near zone shifted for tow bar or wheel
s-zone-shift-why = Shifting hides less than learning: tried first.
s-zone-shift-how = By the sheet; then see whether the tow bar is still reported.
s-obstacle-learn = Obstacle learn
s-obstacle-learn-why = The box must ignore what is always there, and nothing else.
s-obstacle-learn-how = The phone counts, times and listens, and keeps the proof.
s-obstacle-learn-caution = What stands behind is ignored from then on. Nobody and nothing behind but the object.
s-walk-test = Walk test
s-walk-test-why = Shows what it sees and what it does not, before the customer finds out.
s-walk-test-how = Nine points with a pole; the head that answers is noted.
s-walk-test-caution = Engine off or not ready to drive, park brake, chocks, nobody between vehicle and wall.
s-lamps-after = Lamps and reverse signal after
s-lamps-after-why = The reversing lamp feed was touched.
s-lamps-after-how = All rear lamps, no bulb warning, reverse in and out twice.
s-assistance-after = Driver-assistance scan after
s-assistance-after-why = Shows that nothing new is stored, or what has to be calibrated.
s-assistance-after-how = Read all control units again, compare with the first report, write the number.
s-assistance-after-caution = Radar or camera moved: calibration by the maker's instructions before the vehicle is handed over.

s-bumper-after = Photos of the bumper after
s-bumper-after-why = The other half of the photos from before.
s-bumper-after-how = The same places, the same distance.
s-head-photos = A photo of each finished head
s-head-photos-why = Shows which way up, how flush, in which ring.
s-head-photos-how = All in one go, left to right; each is named by its label.
s-tidy = Tidy
s-tidy-why = Swarf scratches, and swarf inside rusts.
s-tidy-how = Swarf out of bumper and boot, fingerprints off, tools counted.
s-talk = Hand-over talk
s-talk-why = A customer who knows what it cannot see does not trust it too far.
s-talk-how = What it does not see (thin, soft, low, high, very near), ice and dirt, jet wash at a distance, a new tow bar means learning again, warranty.
s-talk-caution = A parking aid does not make reversing safe: the driver looks.
s-sheet = Job sheet
s-sheet-why = What was done, measured and agreed, on paper.
s-sheet-how = Issue it, share or print it.

step-skip-no-reason = Say why it is skipped: the job sheet says so too.
step-fuse-not-skipped = The fuse at the take-off is not fitted. It cannot be left out, and so this step is not skipped.
paint-waits = Do not paint yet: the ring is not settled at { $labels }. Ring and head are painted together.
step-wants-photo = photo
step-wants-words = a few words
step-after = First: { $first }
step-gate-not-skipped = This one can't be skipped: people can be hurt.
step-skipped-line = { $step }: not done, { $why }
step-open-line = Not recorded: { $steps }.
wait-minutes = A wait takes 1 to { $most } minutes.
wait-runs = A wait runs here already.
wait-none = No wait runs here.
wait-left = { $minutes }:{ $seconds } to go
wait-over = { $minutes ->
    [0] Time is up
    [one] Time has been up for a minute
   *[other] Time has been up for { $minutes } minutes
}
wait-holds = { $step }: { $left }. Wait, or end the wait by hand.
heads-paint-first = First: { $step }. Start its wait or tick it under All steps, or skip it there with a reason.
wait-clock-jumped = The phone's clock went back behind the start: nobody knows how long it has been. Start the wait again.
wait-clock-doubt = { $minutes ->
    [one] The phone's clock went back during this job: a minute may be missing.
   *[other] The phone's clock went back during this job: up to { $minutes } minutes may be missing.
}
spent-too-much = A stage takes { $most } minutes at most.
standing-quoted = Quoted
standing-parts = Waiting for parts
standing-paint = Waiting for paint
standing-in-work = In work
standing-done = Done
standing-came-back = Came back
visit-no-reason = Say why the vehicle came again.
visit-too-many = This job has { $most } visits; start a new job for the vehicle.
visit-none = There is no visit to write to.
photo-too-many = A job holds { $most } photos. Take out what nobody needs.
photo-not-there = This photo is not in the job any more.
photo-notes-full = { $most } notes are drawn on this photo; take one back first.
photo-note-outside = That lies outside the picture.
photo-no-words = Type the words first.
sheet-logo = The workshop's logo
sheet-photo-missing = photo not on this phone
sheet-page = { $page } / { $pages }
sheet-more-lines = and { $left } more in the workshop's file
sheet-more-rows = { $left ->
    [one] and one more line in the workshop's file
   *[other] and { $left } more lines in the workshop's file
}
sheet-more-photos = { $left ->
    [one] and one more photo in the workshop's file
   *[other] and { $left } more photos in the workshop's file
}
sheet-shortened = What ends in … is shortened here and stands whole in the workshop's file.

customer-title = Parking sensors: your vehicle
customer-what = What was fitted
customer-ignored = What it was taught to ignore
customer-limits = What it cannot do
customer-limit-driver = It helps; it does not make reversing safe. You look, and you answer for the manoeuvre.
customer-limit-unseen = It may not see what is thin, soft, low, hanging, moving fast, or very near the bumper.
customer-limit-near = A child or an animal can be missed. Walk round the vehicle if you have not seen the ground behind it.
customer-limit-weather = Ice, dirt, heavy rain and noise of compressed air can make it miss things or sound without reason.
customer-care = How to care for it
customer-care-wash = Keep a jet washer well away from the heads; wipe them with a soft cloth.
customer-care-ice = Take off ice and snow by hand. Do not scrape.
customer-care-tow-bar = Tow bar, rack or load changed at the back: have it learn again.
customer-care-back = False alarms or silence: come back; how it was fitted is on record.
customer-open-agreed = The positions were not confirmed by you in writing.
customer-open-behind = Not every position is recorded as seen from behind before drilling.
customer-open-walk = It was not tested by walking behind the vehicle: what it sees of yours is not on record.
customer-open-walk-half = The test by walking behind the vehicle was not finished.
customer-open-learn = It ignores nothing that stands behind: a tow bar, rack or wheel there can make it sound.
customer-open-back = The vehicle came back; the work is not finished.
sheet-date-plain = Date
sheet-head-photo = Head { $label }
sheet-photos = Photos
sheet-photo-before = Before, { $when }
sheet-photo-after = After, { $when }
sheet-step-photo = { $what }, { $when }
sheet-written-before = { $words } (from an earlier vehicle, not ended on this one)
sheet-written = Written down
sheet-minutes = Working time
sheet-minutes-all = All
sheet-minutes-are = { $minutes } min
sheet-visits = Visits
sheet-visit = { $when }, after sheet { $sheet }: { $why } { $done }
sheet-steps = Steps not done or closed together
sheet-as-usual = Done as usual, closed together: { $steps }

step-whole = All steps
whole-open = { $steps ->
    [0] Every step is done or said
    [one] One step is open
   *[other] { $steps } steps are open
}
whole-why = Only what applies to this vehicle is listed. Skip with a reason: the job sheet says so.
whole-survey = Questions about this vehicle
whole-survey-answered = { $answered } of { $all } answered
whole-survey-why = Each answer shows or hides steps. What can hurt counts as yes until you say no.
whole-stands = { $how }
whole-standing = How the job stands
whole-visit = Came again { $when }: { $why }
whole-visit-done = What was found and done
whole-came-why = The file stays as it was handed over; the visit is added to it.
whole-came-label = Why the vehicle comes again
whole-came = Add the visit
whole-stage = { $open ->
    [0] done
   *[other] { $open } open
}{ $minutes ->
    [0] {""}
   *[other] , { $minutes } min
}
whole-usual = Done as usual
whole-usual-why = Closes the plain steps of this stage. Gates, values and photos stay open.
whole-minutes = Minutes (counted; correct them here)
whole-go = On to: { $step }
step-skipped = skipped
step-skipped-why = Skipped: { $why }
step-missing = Still to record: { $what }
step-words = Write down
step-why-how = Why and how
step-skip-why = Skip: why
step-skip = Skip this step
step-go = Go there
step-done = Done
step-reopen = Open it again
wait-until = Until { $time }
wait-rings = { $what }: the wait is over.
wait-end = End the wait
wait-minutes-label = Wait, minutes
wait-start = Start the wait
yes = Yes
no = No
settings-title = Workshop
settings-kept = Kept on this phone
to-settings = Workshop and look
look-title = Look
look-paper = Paper
look-dark = Dark
look-sunlight = Sunlight
look-why = Sunlight is white and black with thick lines, for a screen in the sun.
new-jobs-title = What new jobs start with
new-jobs-kit-why = A new job takes the kit sheet used last, or the one chosen among the kit sheets.
new-jobs-kit = Kit of the next job: { $kit }
new-jobs-kits = To the kit sheets
new-jobs-limits-why = Limits that your workshop wants instead of the kit sheet's. Empty: the sheet's counts.
letter-title = Head of the job sheet
letter-why = Stands on every printed sheet. Leave empty what you don't want there.
letter-name = Workshop
letter-address = Street and town
letter-reach = Telephone or mail
letter-licence = Licence or registration
sheet-files-title = As a file
sheet-pdf-customer = PDF for the customer
sheet-pdf-customer-why = One page in plain words: what was fitted, what it cannot see, how to care for it.
sheet-pdf-workshop = PDF for the workshop
sheet-pdf-workshop-why = The whole file with every figure, its ± and what was not done.
sheet-json = Data for other programs (JSON)
sheet-json-why = The whole file in figures and words, for a workshop's own system. Holds the customer's data.
issues-title = Issued earlier
issues-why = Each number as it was handed out; the paper and the letterhead are today's.
issue-line = Number { $number }, { $when }
issue-customer = For the customer
issue-workshop = For the workshop
issue-of = { $what }, number { $number }
issue-not-kept = Number { $number } was issued before the app kept each issue. Look for the file that was handed out.
sheet-file = Job sheet { $job } { $number }
sheet-file-customer = Job sheet { $job } { $number } for the customer
sheet-file-workshop = Job sheet { $job } { $number } for the workshop
sheet-foot = Job { $id } · Rakeline { $version }

## For scripts and other languages

ffi-not-still = These readings hold no moment of rest. Keep the phone still for about two seconds and hand over all readings of that time.
ffi-no-reading = There is no reading of this face. Read it with the phone or type it off a gauge.
ffi-not-a-figure = A figure is missing or is no number.
ffi-learn-not-given = The kit sheet does not say how its obstacle learn goes. Add cycles, quiet time and whether the last cycle beeps, from the kit's leaflet.

## Measuring from photos: what is seen

photo-card = Card { $card }
photo-a-card = A card
photo-card-cut = { $card } is cut by the edge of the photo: step back, or aim at it.
photo-card-blurred = { $card } is blurred: hold still, closer, in better light.
photo-card-glare = { $card } shines: stand a little to the side, or shade it.
photo-card-small = { $card } is too small in the photo: go closer.
photo-card-covered = { $card } is partly covered or creased: clear it and press it flat.
photo-card-unread = { $card } can't be read: wipe it, go closer, in better light.
photo-card-twice = { $card } is there more than once: use each card number once.
photo-card-wrong-job = { $card } has no mark in this job: take it off, or use the card with the mark's number.
photo-card-mirrored = { $card } is mirrored: switch off the mirror of the camera, use the main camera.

photo-file-too-large = This file has { $size } MB; at most { $limit } MB are taken. Choose the photo itself, not a film, or take it with fewer megapixels.
photo-too-many-pixels = This picture is { $size } pixels large; at most { $limit } million pixels are taken. Set the camera to fewer megapixels and take it again.
photo-empty = There is no picture in this file. Choose another one, or take the photo again.
photo-heic = This is a HEIC or AVIF file, or a film. Set the camera to JPEG ('most compatible') and take the photo again.
photo-other-type = This file is no photo that can be read. Choose a JPEG, PNG or WebP.
photo-cut-short = This photo is not complete: the file ends too early. Copy it again, or take the photo again.
photo-damaged = This photo is damaged ({ $why }). Copy it again, or take the photo again.
photo-failed = The photo could not be read ({ $why }). Try again, or take the photo again.
solve-how-many = { $photos ->
    [0] No photo: take one to { $most } photos.
   *[other] { $photos } photos: measure with { $most } at most.
}
solve-too-few-cards = { $cards ->
    [0] No mark card can be measured on: stand a card on every mark.
   *[other] Only one mark card is seen: two or more are needed.
}
solve-card-twice = Card { $card } is in photo { $photo } more than once: use each card number once.
solve-mirrored = Photo { $photo } is mirrored: switch off the mirror of the camera, use the main camera.
solve-not-joined = Photo { $photo } shows no card that the other photos show: take it again with two or more of the same cards in it.
solve-does-not-fit = The photos do not fit together (off by { $left } pixels). Was a card moved, or a photo edited? Leave the cards as they are and take all photos anew.
solve-not-as-taken = Photo { $photo } is not as a camera takes it: cropped, edited, a screenshot or a photo of a photo. Take it anew with the camera, better three: left, middle, right.
solve-card-off-curve = Card { $card } does not fit the others: is it from another print, or not flat on the face? Put it right and take the photos anew.
solve-too-few-marks = { $marks ->
    [0] No card of this job's marks is seen: use the cards with the marks' numbers.
   *[other] Only one mark has its card: two or more are needed.
}
solve-out-of-order = Card { $card } is not at its place in the row: card 1 stands on the leftmost mark.
solve-check-line = The check line reads { $typed } mm instead of { $drawn } mm: print the sheet anew at 100 %.
solve-no-straight = Straight distances need the cards on the left and the right mark of a pair.
plane-plate-size = { $typed } mm is no side of a number plate: { $least } to { $most } mm.
plane-not-flat = These four taps are not the corners of one flat thing: tap upper left, upper right, lower right, lower left.
plane-length = A taped length is from { $least } to { $most } mm.
plane-too-uncertain = Over this distance the ± would be { $expanded } mm, more than { $most } mm: the bumper is not flat. Use mark cards.

# Photos at steps and of finished heads.
photo-at = Taken { $when }
photo-not-stored = The photo that you took is not stored yet. { $why }
photo-store-again = Save the photo again
photo-give-up = Give the photo up
photo-job-gone = A photo came for a job that is not among the jobs any more. Bring the job back and take the photo again.
photo-job-unread = A photo came for a job that can't be read. { $why }
photo-copy-only = The photo is kept as its copy. The original found no place. { $why }
photo-draw = Draw on it
photo-smaller = Small again
head-photos = Photos of the finished heads: { $taken } of { $heads }
head-photos-why = One photo a head shows for years how it was left. It stands on the job sheet under the head's number.
head-photo-take = Photograph head { $label }
head-photo-again = Head { $label } again
note-tools = What to draw
note-arrow = Arrow
note-circle = Circle
note-words = Words
note-arrow-from = Tap where the arrow begins.
note-arrow-to = Now tap what it points at.
note-circle-middle = Tap the middle of the circle.
note-circle-edge = Now tap how far it reaches.
note-words-label = Words on the photo
note-words-where = Type the words, then tap where they stand.
note-back = Take the last one back
photos-title = Photos
photos-copies = Keep a copy
photos-originals = Copy and original
units-title = Lengths
units-mm = Millimetres
units-inches = mm and inches
units-why = Typed and kept in millimetres; inches stand beside them to read. A field also takes inches: 34 in.
photos-why = The copy is large enough for the screen and the job sheet. Originals take about ten times the room on the phone. Where a photo was taken is never kept.
logo-choose = Choose a logo
logo-drop = Take the logo off

## Measuring from photos of mark cards
cards-measure-title = Measure from photos
cards-measure-why = A mark card stands with its tip on each mark. The photos give the distances in millimetres, each with its ±, on a curved bumper too. Laying no tape.
cards-from-check = With mark cards on the marks, photos measure spacing, left against right and height without a tape.
cards-to = Measure from photos
cards-back = Back to the check
cards-take = Take a photo
cards-take-more = One more photo
cards-shoot-1 = Stick a card on each mark, tip on the mark; one more card on the centre mark if you can.
cards-shoot-2 = Take three photos from about two metres: from the left, from the middle, from the right, all cards in each.
cards-shoot-3 = Main camera, no zoom, no flash. Hold still. Do not crop or send the photos through another app.
guide-start = Live view that names the cards it sees
guide-from-left = Now from the left, about two metres away
guide-from-middle = Now from the middle
guide-from-right = Now from the right
guide-from-more = The set is whole; one more from where a card is soft
guide-looking = Looking for cards …
guide-missing = Not in the picture: { $cards }.
guide-ready = All cards are well seen. Hold still and keep it.
guide-look = Look again
guide-shoot = Keep this picture
guide-stop = Close live view
guide-coarse = A live picture has fewer pixels than a photo: 'Take a photo' gives the smaller ±.
cards-full = Six photos are solved together; take one out for another.
cards-too-many-photos = At most { $most } photos are solved together. Take one out first.
cards-looking = Looking for cards: { $percent } %
cards-solving = Solving the photos together …
cards-centring = Looking for the middle of the head …
cards-not-centred = No round edge stands out there: the tap counts as it is, ± 2 pixels. Tap it again, or take a sharper photo.
cards-stop = Stop
cards-stopped = Stopped. Nothing was changed.
cards-again = Try again
cards-busy = Sheets are being made. Try again when they are done.
cards-unreadable = The answer could not be read. Try again.
cards-photo = Photo { $photo }
cards-larger = Larger, tap in it
cards-card-good = { $card }: good
cards-card-soft = { $card }: soft, it counts with a larger ±. Hold still, in better light.
cards-card-small = { $card }: small in the photo, it counts with a larger ±. Go closer.
cards-centre-card = Card { $card } on the centre mark
cards-none-seen = No card is seen in this photo. Are the cards in it, upright and lit? Short distances can be measured by a flat thing below.
cards-missing = Not seen in any photo yet: { $cards }.
cards-all-on-plan = All marks are where they should be
cards-some-off = { $off ->
    [one] One mark is off the plan
   *[other] { $off } marks are off the plan
}
cards-measured = Measured
cards-at-left = { $at } mm left ± { $plus }
cards-at-right = { $at } mm right ± { $plus }
cards-mark-no-straight = seen; straight distances need the card of its mirror mark too
cards-on-plan = on the plan within ± { $plus } mm
cards-left-of-plan = { $by } mm too far left ± { $plus }
cards-right-of-plan = { $by } mm too far right ± { $plus }
cards-zero-centre = Counted from the card on the centre mark.
cards-zero-halves = No card stands on the centre mark: the marks are compared with each other; a shift of all of them does not show. Put one more card on the centre mark to see it.
cards-distances = Distances
cards-gap = { $left } to { $right }: straight { $straight } mm ± { $straight_plus }; through the air { $chord } ± { $chord_plus }; along the face { $along } ± { $along_plus }
cards-gap-no-straight = { $left } to { $right }: through the air { $chord } mm ± { $chord_plus }; along the face { $along } ± { $along_plus }
cards-evenness = Largest gap less smallest: { $by } mm ± { $plus }
cards-symmetry = Left against right, at most: { $by } mm ± { $plus }
cards-head = Head { $label }: { $at }; { $above } mm above the marks ± { $plus }
cards-below-line = Mark { $label }: { $by } mm below the line ± { $plus }
cards-above-line = Mark { $label }: { $by } mm above the line ± { $plus }
cards-edited = Photo { $photo } was cropped or edited: it counts with a larger ±. Better take it anew.
cards-shape = Shape from above
cards-shape-why = The cards show how far the face is turned at each mark. This can check typed or swept corner angles, or stand in for them.
cards-corner = { $label }: { $angle }
cards-shape-checks = It only checks; corner angles come from what was typed or swept.
cards-shape-counts = It counts: corner angles and distances along the face come from the photos.
cards-shape-take = Use this shape
cards-shape-drop = Use typed or swept angles again
cards-keep = Keep it with the figures
cards-kept = Kept for the check and the job sheet
cards-taps = Fitted heads and a line
cards-taps-why = Choose what to tap, tap near it in the photo, then exactly in the magnifier. A head's tap moves to the middle of its round edge, and the head is placed on the face between the cards. A line, tapped at two or more places, gives each mark's height.
cards-head-of = Head { $label }
cards-line-of = A line across
cards-line-out = Take the line out
cards-tap-head = Tap the middle of head { $label }
cards-tap-line = Tap the line, left and right of the marks
cards-magnifier = Magnifier
cards-magnifier-why = Tap exactly here; the place is set by this tap.
flat-title = Without cards: a short distance
flat-why = By one flat thing of known size beside it. A bumper is bent: the ± grows quickly, and beyond 10 mm no figure is told.
flat-width = Plate's width, or the taped length
flat-height = Plate's height
flat-a4 = A4 sheet, lying
flat-letter = Letter sheet, lying
flat-card = Bank card
flat-plate = Number plate
flat-taped = Taped length
flat-corner-1 = Tap its upper left corner
flat-corner-2 = Tap its upper right corner
flat-corner-3 = Tap its lower right corner
flat-corner-4 = Tap its lower left corner
flat-tape-from = Tap where the taped length begins
flat-tape-to = Tap where the taped length ends
flat-from = Tap where the distance begins
flat-to = Tap where the distance ends
flat-found = { $by } mm ± { $plus }
