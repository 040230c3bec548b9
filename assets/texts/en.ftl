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
ring-set-or = { $first } or { $last }
ring-set-sure = { $set }: sure
ring-set-for-now = { $sets }: { $set } for now
ring-set-near-limit = { $set } for now, close to its limit
ring-set-none-yet = { $sets }: none yet
ring-set-cannot = This spot cannot be served by this kit
ring-reason-sure = Face angle { $rake }° ± { $plus }°, the set adds { $lift }°: aim { $aim }° ± { $aim_plus }°. Chance that it points down: { $down } %.
ring-reason-none = Face angle { $rake }° ± { $plus }°.
ring-reason-close = Face angle { $rake }° ± { $plus }°: it hangs on where in this ± the face is. { $stretches }.
ring-reason-cannot = Face angle { $rake }° ± { $plus }°. The kit serves { $serves }.
ring-right-from-to = { $set } is right from { $from }° to { $to }°
ring-serves-from-to = { $from }° to { $to }°
ring-settle-zero = Zero the phone, then read this face again
ring-settle-read-again = Read this face again, phone close on the mark
ring-settle-finer-gauge = Read it with a finer gauge, and give its ±
ring-do-face-too-far-down = The face falls away too far for this kit. Move the mark to a place where the face stands more upright, or take a kit with larger rings.
ring-do-face-too-far-up = The face looks up too far for this kit. Move the mark to a place where the face stands more upright.
ring-do-face-in-a-gap = No set of this kit fits this face angle. Move the mark a little up or down, or take a kit with finer rings.
ring-do-old-hole = The old hole of { $old_hole } mm is larger than anything in this kit covers. Get an insert that covers it, have the bumper repaired, or move the mark.
ring-do-insert-for-material = This bumper needs an insert, and the kit sheet names none for it. Get the insert and add it to the sheet.
ring-do-limits = No set can point between { $least }° and { $greatest }°. Check the aim limits and the allowance for load.
ring-why-chosen = aim { $aim }° ± { $plus }°: chosen
ring-why-material = aim { $aim }° ± { $plus }°: this bumper needs its insert; straight in the panel it causes false alarms
ring-why-insert-not-needed = aim { $aim }° ± { $plus }°: no insert is needed here
ring-why-old-hole = aim { $aim }° ± { $plus }°: covers { $covers } mm, the old hole has { $old_hole } mm
ring-why-too-low = aim { $aim }° ± { $plus }°: may point { $by }° too low
ring-why-too-high = aim { $aim }° ± { $plus }°: may point { $by }° too high
ring-why-more-parts = aim { $aim }° ± { $plus }°: would do, with more parts
ring-why-larger-hole = aim { $aim }° ± { $plus }°: would do, with a larger hole of { $hole } mm
ring-why-further = aim { $aim }° ± { $plus }°: would do, but is further from { $target }°
ring-why-adds-more = aim { $aim }° ± { $plus }°: would do, but adds more
ring-pair-same = Left and right get the same: { $set }.
ring-pair-take = { $set } fits both sides, so take it at both (alone: left { $left }, right { $right }).
ring-pair-differ = Left and right differ: left { $left }, right { $right }. Check that the bumper sits straight before you go on.
ring-pair-not-yet = One side has no ring set yet.
ring-by-hand-no-reason = Say why you take another set than the one shown.
ring-by-hand-not-on-sheet = { $set } is not on this kit sheet.

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

