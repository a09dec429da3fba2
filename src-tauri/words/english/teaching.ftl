# Educators, their PINs, and what they sign a learner off for. Items after published competency forms (COMP, CDHA).

sign-off = Sign-off
roster-title = Who is signed off, who is due
roster-empty = Nobody is signed off on this tablet.
more-learners = More people
to-sign = Sign off
educators = Educators
check-signed-file = Check a signed file
check-signed-file-line = A sign-off that came from another tablet. Nothing is kept until you say so.
signed-file-field = Choose the signed file
items-met = { $met } of { $of } items met
partly-in-practice = partly in practice, not at a bed
run-out-on = Ran out on { $date }
due-by = Due by { $date }
signed-until = until { $date }
signed-without-end = signed, no end named
nothing-signed = not signed
learner-title = Signed off: { $name }
newest-entry = Newest entry
earlier-entry = Earlier entry
later-entry = Later entry
by-educator = by { $name }
by-educator-not-vouched = by { $name }, not vouched for
in-practice = in practice · { $said }
no-sign-off-rule = The rules name no time after which a sign-off runs out.
sign-off-rule = By the unit’s rules a sign-off runs out after { $months } months.
sign-off-rule-example = Example rule, from memory: a sign-off runs out after { $months } months.
row-sign-off = A sign-off runs out
rule-months = after { $months } months

## Items

item-parts = Names the parts: generator, cable, wires, dials
item-indications = Says why this patient is paced
item-wires = Insulates, labels and secures the wires
item-exit-site = Keeps the exit site clean
item-modes = Explains the mode in use
item-marks = Reads the pace and sense marks
item-battery = Checks battery and spares
item-sensing-or-capture = Tells sensing from capture
item-emergency = Knows emergency asynchronous pacing
item-sensing-test = Does the sensing test in order
how-observed = Observed
how-demonstrated = Demonstrated
how-explained = Explained
met-yes = Met
met-not = Not met
how-field = How was it shown?
met-field = Met?
override-field = Why, if you say otherwise than the judge
remark-field = Remark, if any
override-needs-reason = You say otherwise than the judge. Write why, then go on.
not-passed-field = Why it is met, though the run was not passed
not-passed-needs-reason = Not passed. Write why it is met, then go on.
reason-missing = No reason stands at “{ $item }”. Go back to it and write why.
run-not-passed = The practice run was not passed.
judge-found = The judge of the practice run: { $found }
shown-met = { $how }, met
shown-not-met = { $how }, not met

## A signed paper

signed-title = Sign-off: { $name }
revoked-title = A sign-off was taken back
vouched-title = { $name } is vouched for
save-as-file = Save as a file
revoke = Take back
row-signed-by = Signed by
row-key = Fingerprint of the key
row-signed-on = Signed on
row-entry = Entry taken back
row-key-of-other = Key vouched for
row-work = Seen at
row-vouched = Vouched for
row-enrolled = Enrolled
revoked-by = Taken back by { $name } on { $date }: { $reason }
not-vouched-flag = Nobody vouches for this educator. A second educator or the unit’s approver can.
before-enrolment = Dated before this educator was enrolled: a clock stood wrong. Ask them.
retired-flag = This key is not used any more: a new PIN took its place. What it signed stands.
file-disk-full = Not saved: the tablet has no room. Make room, then save again.
file-entry-damaged = Not saved: what is kept of this entry is damaged. Keep the record and report it.
file-not-written = Not saved: { $why }. Try again.
file-is-at = Saved as { $file }
file-none = Not saved as a file yet.
enrolled-on = on { $date }
work-supervised = a supervised check, { $date }
work-practice = a practice run, { $exercise }, { $date }
work-not-passed = a practice run, { $exercise }, { $date }: not passed

## Educators

vouched-by = vouched for by { $name }
vouched-by-approver = vouched for by { $name }, { $role }
not-vouched = not vouched for
educators-empty = No educator on this tablet. The first one vouches for nobody and is vouched for by nobody.
enrol = Add an educator
signs-elsewhere = signs on another tablet
educator-title = Educator: { $name }
educator-note = A signature shows who signed and that nothing was changed. It protects against a careless hand, not against somebody who has the tablet’s files.
vouch-for = Vouch for this educator
vouch-as-approver = Vouch as the unit’s approver
new-pin = Let them choose a new PIN

## The form

to-sign-title = What did you see the learner do?
nothing-to-sign = No ended check and no judged practice run on this tablet.
draft-go-on = Go on with the half-filled form
draft-first = A form is half filled. Go on with it, or put it aside.
sign-this = Sign
check-ended = ended { $date }, { $time }
who-is-learner = Who is the learner?
learner-line = Name or initials. The patient and the bed are not written down.
learner-field = Learner
next-step = Next
item-of = { $name } · item { $number } of { $of }
all-items = All items
not-this-time = Not this time
not-looked-at = not looked at
to-the-pin = Sign with your PIN
other-learner = Change the learner
no-item-looked-at = No item was looked at. Mark one at least.
not-for-oneself = Nobody signs for themselves. Another educator signs.
sign-off-too-long = The names and reasons are too long together. Shorten some.

## PINs

enrol-title = Add an educator
enrol-line = Until a second educator or the unit’s approver vouches, each signature says so.
pin-not-found-again = 6 to 12 digits. Nobody can look a PIN up again.
enrol-done = Add
educator-name-field = Name
new-pin-field = New PIN
new-pin-again-field = The same PIN again
educator-known = { $name } is an educator here already. Take the full name, or another.
too-many-educators = No more than { $most } educators on one tablet.
vouch-title = Who vouches for { $name }?
vouch-line = You know this person, and that they may sign people off.
vouch-done = Vouch
vouched-first = Nobody vouches for { $name } yet, so { $name } cannot vouch for another.
approver-line = { $name } let the unit’s rules in on this tablet. They type their name here, as it stands.
not-the-approver = Only { $name }, who let the unit’s rules in here, does this.
file-vouch-line = The key { $key } stands in the file. Ask them for theirs and compare.
renew-title = A new PIN for { $name }
renew-line = You sign that it is the same person. They type the new PIN.
renew-done = Set the new PIN
sign-title = Sign with your PIN
sign-counts = { $name }: { $met } of { $all } items met
sign-line = You sign what you saw. Local rules and the unit’s own assessment come first.
sign-done = Sign
revoke-title = Take back the sign-off of { $name }?
revoke-line = It stays to be read, with this beside it.
revoke-done = Take back
educator-field = Educator
pin-field = PIN
pin-not-digits = A PIN is digits only, 6 to 12 of them.
pin-short =
    { $least ->
        [one] A PIN has 1 digit or more.
       *[other] A PIN has { $least } digits or more.
    }
pin-long =
    { $most ->
        [one] A PIN has 1 digit at most.
       *[other] A PIN has { $most } digits at most.
    }
pins-differ = The two PINs are not the same. Type both again.
pin-wrong = Not this educator’s PIN. Nothing was signed, nothing is lost.
pin-wrong-wait = Not this educator’s PIN. Nothing is lost. { $wait }
pin-wait-seconds =
    { $seconds ->
        [one] Try again in 1 second.
       *[other] Try again in { $seconds } seconds.
    }
pin-wait-minutes =
    { $minutes ->
        [one] Try again in 1 minute.
       *[other] Try again in { $minutes } minutes.
    }
pin-could-not = The tablet could not do it. Nothing is lost. Try again.
pin-cut-off = Holdfast was closed before it was signed. Nothing is lost. Type the PIN again.
pin-working = Looking at the PIN
pin-working-line = This takes a moment. It goes on while you look after a bed.
clock-before-enrolment = The tablet’s clock stands before you were enrolled, { $date }. Have the clock set, then sign.

## A file from another tablet

signed-file-unchanged = Unchanged since it was signed.
signed-file-too-long = Too long to be a signed file. Choose the file that the other tablet saved.
signed-file-not-ours = No signed file of Holdfast, or cut short. Have it saved and brought again.
signed-file-altered = Changed after it was signed. Do not rely on it; have it saved and brought again.
signed-file-newer = Signed by a newer Holdfast. Look at it on a tablet as new as that one.
educator-unknown = { $name } is not known on this tablet: who signed is not proven.
same-name-other-key = An educator called { $name } is known here with another key. Ask who signed.
ahead-of-clock = Dated ahead of this tablet’s clock: one of the two clocks stands wrong.
revoked-here = Taken back on this tablet.
keep-here = Keep in this roster
signed-here-already = This paper stands in the roster already.
