# Stage 1: same patient, order, the list, read the dials, first look.

ask-same-patient = Same patient as at the last check, { $date } { $time }?
same-patient-yes = Same patient
same-patient-no = New patient

ask-order = Is there an order, and may you do this check?
ask-order-line = Is a clinician on call? Local rules and the responsible clinician come first.
order-yes = Yes, all of it
order-no = No

ask-accept = These numbers are examples. Who accepts them for this patient?
accept-field = Clinician who accepts them
accept-yes = Accepted: go on
accept-no = Practice only
clinician-field = Clinician's name

## The list

list-intro = Is every line true?
list-all-true = All true
list-not-true = One is not true
ask-which-line = Which line is not true?
line-order = Ordered, assessed for it, clinician on call
line-acceptance = A clinician accepts the example rules
line-mode = Single-chamber pacing, mode known, not triggered
line-age = Patient is { $years } or older
line-ecg = ECG on, with pacing detection
line-extra-beats = No runs of extra beats, VT or VF since the last check, or a clinician agrees
line-vehicle = Not in a vehicle
line-connections = Connections tight, battery good
line-gloves = Gloves on, unused wires insulated
line-temperature = Above 36 °C and potassium normal, or a clinician agrees
line-pulse-trace = Pulse trace on the monitor
line-standby = Standby pacing at the bedside
line-wire-traced = Wire, port and chamber traced by hand
blocked = No pacing check now
blocked-reason = Not true: { $line }
blocked-put-right = Put right: look again
blocked-close = Close this check

ask-pulse-trace = Is there a pulse trace?
ask-pulse-trace-line = Arterial line or pleth, not the ECG number.
pulse-trace-yes = Pulse trace there
pulse-trace-no = No pulse trace

ask-standby = Is standby pacing at the bedside?
ask-standby-clinician = Standby pacing and a clinician at the bedside?
standby-clinician-line = Own beats are sought down to { $limit }/min: only with a clinician there.
ask-standby-line = With a spare battery and a spare cable, within reach?
standby-yes = At the bedside
standby-no = Not here

ask-right-wire = { $wire }: traced by hand from the skin to this port?
ask-right-wire-other = Any other wire stays connected and keeps its output; a ventricular one paces on demand.
right-wire-yes = Traced by hand
right-wire-no = Not traced

read-the-dials = Read the three dials
read-the-dials-line = As they stand now. Turn none of them.
read-done = Dials read
choose-asynchronous = Asynchronous

## First look

ask-first-look = What does the monitor show?
first-look-atrium-line = A P wave after each atrial spike? Turn no dial.
first-look-line = Look at the pulse trace too. Turn no dial.
seen-every-beat-paced = Every beat paced
seen-only-own = Only own beats
seen-both = Both, paced and own
seen-spikes-without-beats = Spikes without beats

first-maximum-reason = Spikes without beats: OUTPUT to maximum in one act.
ask-connections = Are wire, cable and generator connected tightly?
connections-pulse = No own beats with a pulse: say No pulse
connections-line = Gloves on for a bare wire or pin.
call-line = Call now: the found OUTPUT made no beats.
connections-done = Tight, and called

ask-atrium = What is the atrial rhythm?
atrium-p-waves = P waves
atrium-fibrillation = Fibrillation or flutter
atrium-no-p-waves = No P waves

ask-asynchronous-ordered = Found asynchronous. Ordered for today?
asynchronous-ordered-line = Asynchronous pacing does not look for own beats.
asynchronous-ordered-yes = Ordered today
asynchronous-ordered-no = Not ordered
ordered-by-field = Ordered by
asynchronous-off-reason = From asynchronous back to a number. OUTPUT stays.
ask-paced-on-time = Is each beat paced on time, or marked as sensed?
paced-on-time-yes = On time or sensed
pauses-seen = Pauses
asynchronous-on-reason = Pauses: asynchronous again. Call.
