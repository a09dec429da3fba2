# A patient on the way, from the question where to until the names are said on arrival.

transport-now = Transport
transport-resume = Go on with the transport
transport-since = transport since { $time }
on-the-way-to = on the way to { $place }
leaving-for = leaving for { $place }
end-transport-first = A transport is open in this bed. End it first.
no-check-on-the-way = No threshold is sought while a transport is open. Check on arrival.
no-check-in-vehicle = In a vehicle no threshold is sought. Check on arrival.
stage-transport = transport
stage-arrival = arrival
transport-stop = Stop the transport
transport-no-stop = Not from here: go on with this card.

## Before leaving

ask-destination = Where does the patient go?
destination-field = Place
target-field = Kind
target-unit = Another unit
target-theatre = Theatre
target-imaging = Imaging, no MRI
target-hospital = Another hospital
target-mri = MRI, or not sure
destination-done = This place
mri-title = Stop: no MRI with connected temporary wires
mri-line = Ask the clinician and whoever is responsible for MRI safety.
mri-other = Another place, no MRI
transport-close = Close: nobody was moved
ask-pads = Are the pads on the patient, plugged in?
ask-pads-line = Pads first, before all else. Standby pacing is on the bed.
pads-yes = Pads on, plugged in
pads-no = Not yet
carry-title = Within reach on the way: is every line true?
carry-standby = Standby pacing, charged
carry-battery = Spare battery, right type
carry-cable = Spare cable
carry-box = Second generator, or none here
carry-monitor = Monitor with pulse trace, charged
carry-gloves = Gloves; bare pins insulated
not-ready-title = Not yet
not-ready-line = Nobody leaves without pads and spares. Ask the clinician.

## The dials, once per change of hands

transport-read = { $wire }: read the three dials together
transport-read-line = From the dials, not from memory or paper. Turn none.
margin-same = The dials stand as last known
margin-differs = Unlike what was known
margin-first = Read for the first time
margin-below-rule = Below the unit's rule: call.
margin-blind = mV { $number } is above the signal { $signal }. Call.
way-margin-unknown = On this box the threshold is not known.
way-other-unit = mA and V are never compared: on this box the threshold is not known.
way-margin-lost = OUTPUT { $output } is below threshold { $threshold }: perhaps no beats. Call.
way-margin-untried = OUTPUT { $output } was not tried; threshold at most { $threshold }. Call.
number-untried = mV { $number } not tried; signal at least { $signal }.
way-asynchronous = Asynchronous: own beats are not seen.
margin-read-again = Put right: read again
margin-stays = It stays: clinician told
margin-go-on = Both teams have seen it
ask-initials = Who hands over, who takes over?
ask-initials-line = Initials, no names.
initials-from-field = Hands over
initials-to-field = Takes over
initials-done = Handed over

## Capture and pulse

ask-capture-and-pulse = Before the bed moves: capture and pulse?
ask-capture-and-pulse-line = Each spike makes a beat, or own beats; a pulse with each.
capture-pulse-yes = Yes, with a pulse
capture-pulse-no = A spike without a beat
ask-on-the-way = On the way to { $place }
on-the-way-line = After each change of bed or vehicle: say so.
no-threshold-line = No threshold on the way.
last-look = Capture and pulse last seen { $time }.
way-changed = Bed, vehicle or team changed
way-arrived = Arrived
ask-change = What has changed?
change-bed = Another bed or trolley
change-into = Into a vehicle
change-out = Out of the vehicle
change-team = Another team takes over
ask-unchanged = Dials unchanged, capture and pulse?
unchanged-yes = Unchanged, with a pulse
dial-changed = A dial stands elsewhere

## Arrival

ask-names = Say the patient's name to each other
ask-names-line = Wristband, then both teams read the dials.
names-yes = Same patient
ask-arrived = Capture and pulse, here?
ask-arrived-line = Pads stay on. A pacing check is due now.
