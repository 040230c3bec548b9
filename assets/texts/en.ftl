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

