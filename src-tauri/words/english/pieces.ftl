# Words that stand alone or inside other sentences.

figure = { $text }
figure-unit = { $figure } { $unit }
local = { $text }
blank = { "" }

# As printed on the dials.
output = OUTPUT
rate = RATE
mv = mV
milli-amp = mA
volt = V
milli-volt = mV
per-minute = /min
no-unit = { "" }
asynchronous = asynchronous

atrial-wire = Atrial wire
ventricular-wire = Ventricular wire
atrial-lead = Atrial lead
ventricular-lead = Ventricular lead

## Marks

mark-example-rules = Example rules · local rules come first
mark-practice = Practice · simulated patient
mark-test-clock = Test clock · not for a patient

## Stages and clocks

stage-ready = ready
stage-own-rhythm = own rhythm
stage-sensing = sensing
stage-capture = capture
stage-set = set
stage-read = read the dials
stage-confirm = confirm
stage-done = done
stage-restore = restore
stage-trouble = trouble
stage-away = after a break
wire-and-stage = { $wire } · { $stage }
clock-in-check = in this check
clock-no-standby = No standby from the wires
clock-since-loss = Since a spike without a beat
wall-clock = clock { $time }
