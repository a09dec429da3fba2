# Codes between tablets: made, loaded, taken in, set beside the dials.

code-for-tablet = For another tablet
code-for-phone = For any phone
code-copy-note = For another Holdfast: with the checks before. Say the patient's name to each other. This code has none.
code-being-made = The code is being signed.
code-no-key = This tablet's key is lost: no code can be signed. See Settings, Tablets. Read the result aloud.
code-handed-since = A newer check came from another tablet. Compare the dials and do a check, then hand over.
code-signed-by = Signed by tablet

## Loading

load-handover = Load a handover
load-title = Load a handover
load-line = Scan, paste or type the code, or choose a picture of it.
load-picture = Choose a picture
load-camera = Use the camera
no-camera = No camera is given to Holdfast here: choose a picture, or scan.
load-done = Read the code
code-field = Code
code-reading-title = Reading the code
code-reading-line = A large picture can take some seconds.
code-looks = { $done } of { $of } looks done
stop-reading = Stop

not-loaded-not-a-code = That is no code of Holdfast. Scan the code again, or type the values from the other team's sheet in a new check.
not-loaded-too-long = That is longer than any code. Scan one code alone.
not-loaded-damaged = Letters are missing or not readable. Scan it again, or use a picture.
not-loaded-mangled = The scanner typed other letters than the code has. Set its keyboard country to this tablet's, or use a picture.
not-loaded-altered = The code was changed after the tablet wrote it. Do not use it. Ask the other team to show it again.
not-loaded-newer-version = Written by a newer Holdfast than this one. Read the values from the other tablet's screen.
not-loaded-practice = That code comes from practice, not from a patient. Nothing was taken.
not-loaded-care = That code comes from a patient. Practice does not take it.
not-loaded-not-a-picture = That file is no picture this tablet can read. Use PNG or JPEG.
not-loaded-picture-too-large = { $megapixels } megapixels is too large: { $most } at most. Take the picture again, smaller.
not-loaded-picture-too-long = That file is longer than 20 MB. Take the picture again, smaller.
not-loaded-no-code = No code was found in the picture. Hold the camera straight and closer, without glare.
not-loaded-interrupted = The app was closed while it read the picture. Choose it again.

## What came

arrived-unknown = Unchanged since it was written. Written by a tablet this one does not know: { $tablet }.
arrived-known = Unchanged since { $name } wrote it.
arrived-own = Unchanged. This tablet wrote it.
arrived-several = Several codes. Which one?
arrived-aside = Put it aside
arrived-take = Take it in
arrived-name = Name that tablet
arrived-note = It says which tablet wrote it, not that it is true. Say the patient's name to each other. This code has none.
say-the-name = Say the patient's name to each other. This code has none.

remark-duplicate = This check is here already.
remark-expired = Old: read { $age } ago, or its next check is past. Compare every dial, then check.
remark-ahead = Written { $age } ahead of this tablet's clock. Look at both clocks.
remark-shortened = { $facts ->
    [one] One fact did not fit into the code.
   *[other] { $facts } facts did not fit into the code.
  } Ask the other team.
remark-example-rules = Example rules: local rules come first.
remark-dials-not-read = The other team did not read the dials at the end.
remark-unknown-lines = It has lines that this version does not understand. Read them from the other tablet.
age-minutes = { $minutes } min
age-hours = { $hours } h
age-days = { $days } days

row-handed-read = Dials
row-handed-dials = Settings
row-checks-before = Checks before
handed-read = read { $time }
handed-not-read = NOT read, { $time }
handed-read-later = NOT read at its end; read { $time }, as it was left
handed-dials = OUTPUT { $output }, RATE { $rate }, mV { $mv }
flag-handed-above-limit = Capture threshold was above the other unit’s limit { $limit }: tell the clinician, look for a cause.
flag-handed-below-limit = Beat signal was below the other unit’s limit { $limit } mV: tell the clinician, check connections.
flag-handed-doubled = Capture threshold had doubled, from { $was }: tell the clinician, look for a cause.
flag-handed-signal = More than half of the beat signal was gone, from { $was } mV: tell the clinician.

## Whose is it?

take-in-line = A bed is a label. Only you know that it is the same patient.
take-in-done = Take in, compare the dials
patient-field = Patient in this bed
patient-same = The same patient
patient-new = A new patient
same-patient-first = { $bed } has wires already. Say whether it is the same patient.

## Beside the dials

compare-dials = Compare the dials
compare-title = Read each dial as it stands
compare-line = From the generator, not from a sheet.
compare-done = Compare
compare-again = Read the dials again
compared-same = The dials stand as the code says
compared-differs = The dials differ from the code
compared-not-said = The code has no dials to compare
compared-note = Nothing else of the code is proved. A check is due now.
beside-same = as the code says
beside-differs = DIFFERS: the code says { $said }
beside-other-unit = not compared: the code says { $said }
beside-not-said = not in the code
margin-unknown = not known here
other-unit-no-margin = mA and V are never compared: no margin is known on this generator. Check now.
margin-now-below-rule = OUTPUT { $output } is { $multiple } × the threshold { $threshold }, below the rule: call the clinician.
margin-now-lost = OUTPUT { $output } is below the threshold { $threshold }: spikes may make no beat. Look at the patient, call now.
margin-now-untried = OUTPUT { $output } was never shown to capture; threshold at most { $threshold }. Look at the patient, call now.
margin-now-may-be-below = OUTPUT { $output } is at least { $multiple } × the threshold (at most { $threshold }); the rule asks for more: call the clinician.
sees-now-blind = mV { $number } is above the signal { $signal }: own beats may not be seen. Call the clinician.
sees-now-asynchronous = Asynchronous: own beats are not seen. Ask who ordered it.
handed-not-compared = Handed over { $time }: dials not compared yet
due-arrived = handed over from another tablet
history-from = from { $tablet }

## Tablets

tablets = Tablets
tablets-none = No other tablet has a name here yet. Load one of its codes, then name it.
this-tablet = This tablet: { $tablet }
tablet-since = since { $date }
key-gone = This tablet's key is gone. Codes cannot be signed until somebody makes a new one; others will not know it.
key-damaged = This tablet's key is damaged. Codes cannot be signed until somebody makes a new one; others will not know it.
key-not-written = A key could not be written. Is the disk full? Try again.
key-being-made = This tablet's key is being made.
make-key = Make a new key
forget-title = Forget { $name }?
forget-line = Its codes are then those of a tablet this one does not know. What was taken in stays.
forget-yes = Forget it
tablet-name-title = What is that tablet called?
tablet-name-line = Its own Settings, Tablets must show { $tablet }. Compare every letter.
tablet-name-field = Name, for instance the unit
tablet-name-done = They are the same
tablet-name-taken = Another tablet is called { $name }.
too-many-tablets = No more than { $most } tablets. Forget one first.
