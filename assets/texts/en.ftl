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
ring-face-down = faces down { $angle }°
ring-face-upright = stands upright
ring-face-up = faces up { $angle }°
ring-aim-down = points down { $angle }°
ring-aim-level = points level
ring-aim-up = points up { $angle }°
ring-set-or = { $first } or { $last }
ring-set-sure = { $set }: sure
ring-set-for-now = { $sets }: { $set } for now
ring-set-near-limit = { $set } for now, close to its limit
ring-set-none-yet = { $sets }: none yet
ring-set-cannot = This spot cannot be served by this kit
ring-reason-sure = The face { $rake } ± { $plus }°, the set adds { $lift }°: the head { $aim } ± { $aim_plus }°. Chance that it points down: { $down } %.
ring-reason-none = The face { $rake } ± { $plus }°.
ring-reason-close = The face { $rake } ± { $plus }°: it hangs on where in this ± the face is. Right would be { $stretches }.
ring-reason-cannot = The face { $rake } ± { $plus }°. The kit serves a face that { $serves }.
ring-right-from-to = { $set } if the face { $from } to { $to }
ring-serves-from-to = { $from } to { $to }
ring-settle-zero = Zero the phone, then read this face again
ring-settle-read-again = Read this face again, phone close on the mark
ring-settle-finer-gauge = Read it with a finer gauge, and give its ±
ring-do-face-too-far-down = The face falls away too far for this kit. Move the mark to a place where the face stands more upright, or take a kit with larger rings.
ring-do-face-too-far-up = The face looks up too far for this kit. Move the mark to a place where the face stands more upright.
ring-do-face-in-a-gap = No set of this kit fits this face angle. Move the mark a little up or down, or take a kit with finer rings.
ring-do-old-hole = The old hole of { $old_hole } mm is larger than anything in this kit covers. Get an insert that covers it, have the bumper repaired, or move the mark.
ring-do-insert-for-material = This bumper needs an insert, and the kit sheet names none for it. Get the insert and add it to the sheet.
ring-do-limits = No set can point between { $least }° and { $greatest }°. Check the aim limits and the allowance for load.
ring-why-chosen = { $aim } ± { $plus }°: chosen
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
drill-shut-ask = The kit sheet does not give: { $field }. Fill it in.
drill-reach-not-entered = How far does the saw's own centre drill reach past the teeth? Measure it once, and type it.
drill-reaches-too-far = The saw's centre drill reaches { $reach } mm past the teeth; behind the face are { $depth } mm. Use a short centre drill or a stop.
drill-reach-makes-no-sense = { $typed } mm past the teeth cannot be. Measure from the teeth to the tip of the centre drill.
drill-caution-maker = The vehicle maker's instructions come first.
drill-caution-eyes = Wear eye protection.
drill-caution-gloves = No loose gloves or sleeves at a turning saw.
drill-caution-cold = A cold bumper is brittle: warm it before you drill.
drill-caution-dust = Fibre dust: wear a mask, and vacuum while you drill.
drill-step-confirm-from-behind = Head { $label }: confirm the mark from behind.
drill-step-pilot = Pilot { $diameter } mm through the tape, depth stop at { $stop } mm past the panel.
drill-step-pilot-thin = Thin pilot through the tape, depth stop at { $stop } mm past the panel.
drill-step-saw = Hole saw { $diameter } mm, through the tape.
drill-step-centre-stop = Depth stop on the saw's centre drill as well, or a short one: { $stop } mm past the panel.
drill-step-step-drill = Step drill to { $diameter } mm, through the tape.
drill-step-keep-old-hole = Keep the old hole of { $diameter } mm.
drill-step-cover-old-hole = The insert covers the old hole of { $diameter } mm; nothing is drilled.
drill-step-widen-old-hole = Widen the old hole from { $from } to { $to } mm with a step drill, or plug it for the saw: a saw has no centre there.
drill-step-check-edge = Check the edge for cracks and burrs.
drill-step-tape-off = Take the tape off, after the saw and not before.
drill-step-swarf = Take all swarf out of the bumper.
drill-step-file = Deburr, then file until the head goes in and lifts out with two fingers: a tight fit causes false alarms.
drill-step-touch-in = Touch in the bare edge.
drill-step-touch-in-metal = Prime and touch in the bare metal edge against rust.
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
supply-refused = { $reading }: { $typed } V is no reading of a lamp circuit, and it is not kept. Never measure on orange cables. Check the meter's range.
supply-lamp-pulsed = The lamp feed is pulsed. Use a relay or the feed that the vehicle maker names for fitting.
supply-lamp-led = An LED lamp: extra load can bring a lamp fault. Use a relay or the feed that the vehicle maker names for fitting.
supply-lamp-bus = The lamp is switched over a data bus. Use the vehicle maker's way, or a bus interface that the maker allows.
supply-lamp-not-known = It is not known how the lamp is fed. Look it up in the maker's wiring diagram before you connect.
supply-fuse-required = A fuse of { $rating } A at the take-off is required. This cannot be skipped.
supply-fuse-too-large = The fuse of { $fitted } A is too large; { $rating } A belong at the take-off.
supply-arrives-too-low = { $arrives } V arrive at the control box ({ $drop } V are lost in the lead); it needs { $least } V. Take a thicker lead.
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

