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

mark-out-loosen-raise = Raise it by { $by } mm: { $rule }.
mark-out-loosen-lower = Lower it by { $by } mm: { $rule }.
mark-out-loosen-no-drill = Make it { $by } mm shorter at each end, if that is safe behind: { $rule }.
mark-out-loosen-locked = Move it by { $by } mm: { $rule }.
mark-out-loosen-old-hole = Use a place { $by } mm from it: { $rule }.
mark-out-loosen-cannot = This cannot be changed: { $rule }.
mark-out-breaks = Head { $head }, { $by } mm off: { $rule }.
mark-out-impossible = No place for all heads. These do not go together, by { $by } mm: { $rules }.
mark-out-impossible-alone = No place for all heads between the outer edges, by { $by } mm: { $rules }.
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
mark-out-too-many-areas = { $areas } no-drill areas; at most { $greatest } can be taken. Join neighbours.
mark-out-area-not-a-number = No-drill area { $number } ({ $why }): type both ends in millimetres.
mark-out-area-zero-length = No-drill area { $number } ({ $why }) begins and ends at { $at } mm. Type where it ends.
mark-out-area-reversed = No-drill area { $number } ({ $why }) goes from { $from } back to { $to } mm, by { $by } mm. Type the left end first; left of the centre line is minus.
mark-out-area-past-edge = No-drill area { $number } ({ $why }) goes { $by } mm past the { $side } outer edge.
mark-out-areas-overlap = No-drill areas { $first } and { $second } overlap by { $by } mm. Join them or correct one end.
mark-out-lock-no-such-head = Head { $head } is locked, but there are { $heads } heads.
mark-out-lock-not-a-number = The lock of head { $head } has no figure.
mark-out-lock-past-edge = Head { $head } is locked { $by } mm past the { $side } outer edge.
mark-out-lock-twice = Head { $head } is locked at { $first } and at { $second } mm. Release one.
mark-out-locks-clash = Heads { $first } and { $second } are locked { $gap } mm apart and need { $needed } mm: { $by } mm are missing. Release one.
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

tape-mark-not-read = Head { $head }: not read yet.
tape-mark-too-far-left = Head { $head }: { $by } mm too far left (limit { $limit }).
tape-mark-too-far-right = Head { $head }: { $by } mm too far right (limit { $limit }).
tape-fits-other = Head { $head }: { $read } mm fits head { $other } ({ $planned } mm). Was the other mark read, or left and right mixed up?
tape-gap-off = A gap is { $by } mm off the plan (limit { $limit }).
tape-symmetry-off = Left and right are { $by } mm off the plan (limit { $limit }).
tape-level-off = A mark is { $by } mm off the height line (limit { $limit }).
tape-height-not-read = Head { $head }: height not read yet.

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

