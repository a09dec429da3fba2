# Beds, wires, results, history, handover: everything that is no card of a check.

## The first page

welcome-title = What Holdfast is, and is not
welcome-is = Holdfast leads you through the check of a temporary pacing wire and keeps the way back in sight.
welcome-no-talk = It never talks to the generator. You turn the dials, you watch the patient, you say what you saw.
welcome-is-not = It is no monitor and no alarm, and it replaces neither your training nor an order.
welcome-example = The rules and generators in it are examples. A clinician must accept them for each patient.
welcome-done = I have read this

## Beds

pacing-checks = Pacing checks
beds-empty = No bed yet. Add one to begin.
add-bed = Add a bed
open-bed = Open
all-beds = All beds
more-beds = More beds
first-beds = First beds
back = Back
settings = Settings
due-now = due now
due-at = due { $time }
late-minutes = { $minutes } min late
late-hours = { $hours } h late
spoken-bed = { $title }: { $due }
dials-not-read-since = dials not read since { $time }
check-left-open = check open since { $time }
no-check-yet = no check yet
no-wire-yet = no wire
wire-summary = { $wire }. { $output } { $sensing }
wire-not-checked = { $wire }. No check yet.
wire-check-open = { $wire }. First check is open.
summary-margin = OUTPUT { $output } is { $multiple } × threshold { $threshold }.
summary-margin-at-most = OUTPUT { $output } is at least { $multiple } × threshold (at most { $threshold }).
summary-output = OUTPUT { $output }, capture threshold not known.
summary-sees = Sees from { $number } mV; beat signal { $signal }.
summary-sees-at-least = Sees from { $number } mV; beat signal at least { $signal }.
summary-sees-only = Sees from { $number } mV; beat signal not known.
summary-asynchronous = Asynchronous: sees no beats.

## Charts

chart-capture = Capture threshold, { $unit }, small is good
chart-capture-of = { $wire }: capture thresholds, { $unit }
chart-signal = Sensing threshold, mV, big is good
chart-words = First { $first }, last { $last } { $unit }. Set { $set }.
chart-days = { $line } From { $from } to { $to }.
check-due-in = A check is due: { $bed }

## New bed, new patient, new wire

new-bed-title = Which bed?
new-bed-line = A bed is a label. Type no name and no record number.
new-bed-done = Add this bed
bed-label-field = Bed
too-many-beds = No more than { $most } beds on one tablet. Use a bed that has no wire.
too-many-wires = No more than { $most } wires in one bed. For a new patient, tap New patient.
new-patient = New patient
new-patient-title = A new patient in { $bed }?
new-patient-line = The wires of the patient before close. The new patient starts with no wire and no history.
new-patient-also = This cannot be taken back.
new-patient-yes = Yes, a new patient
new-patient-no = No, the same patient
new-wire = New wire
new-wire-title = Which wire?
new-wire-line = Trace it by hand from the patient to the generator.
new-wire-done = Add this wire
chamber-field = Chamber
chamber-atrium = Atrium
chamber-ventricle = Ventricle
kind-field = Kind
kind-epicardial = Epicardial wire
kind-transvenous = Transvenous lead
polarity-field = Polarity
polarity-bipolar = Bipolar
polarity-unipolar = Unipolar
generator-field = Generator

## One bed

start-check = Start a pacing check
start-check-of = Check: { $wire }
resume-check = Go on with the check
resume-check-of = Go on: { $wire }
last-result = Last result
history-name = History
hand-over = Hand over
bed-title = Wires of this bed
bed-no-wire = No wire yet. Add one to begin.

## A result

wire-and = { $wire } · { $what }
screen-result = result
screen-history = history
screen-hand-over = hand over
due-on = { $date } { $time }
