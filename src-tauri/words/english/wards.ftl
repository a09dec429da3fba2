# More about one bed: what has happened, wires that are out, a bed that empties, a reading that is owed.

bed-more = More
bed-more-title = What about this bed?
happened = Shock, lead, drug
happened-title = What has happened since the last check?
happened-line = It makes a check due now on each wire of this bed.
happened-shock = A shock was given
happened-lead = A lead or wire has moved
happened-polarity = Plus and minus were swapped
happened-potassium = Potassium has changed
happened-drug = A rhythm drug has changed
happened-nothing = None of these
due-because = due now: { $why }
due-shock = a shock was given
due-no-beats = no beats in the last check
due-not-finished = check not finished
due-lead = a lead or wire has moved
due-polarity = plus and minus were swapped
due-potassium = potassium has changed
due-drug = a rhythm drug has changed
due-generator = plugged into another generator
due-dials = the dials stood elsewhere

wire-out = A wire is out
wire-out-title = Which wire is out?
wire-out-line = It leaves this bed. Its checks stay in the record of this tablet.
wire-out-done = It is out
wire-field = Wire

empty-bed = Empty or remove this bed
empty-bed-title = Empty { $bed }?
empty-bed-line = Its wires close. Their checks stay in the record of this tablet. This cannot be taken back.
empty-bed-keep = Keep it as it is
empty-bed-yes = Empty: the patient has left
remove-bed-yes = Remove the bed too
read-dials-first = The dials of this bed were not read. Read them first.

read-now = Read the dials
read-owed-title = Read the dials as they stand now
read-owed-line = Not read since { $time }.
read-owed-again = { $dial } was left at { $left }; you read { $read }. Look again. If it stands there, send it again and tell the clinician.
stands-since = Read { $time }: OUTPUT { $output }, RATE { $rate }, mV { $mv }. Not as the last check left them.
code-dials-differ = The dials do not stand as the last check left them. Do a check first.
