# What cannot be taken, and what to do next.

no-such-position-none = { $dial } { $typed }: no such position; { $least } to { $greatest }. Look again.
no-such-position-one = { $dial } { $typed }: no such position; { $near }?
no-such-position-two = { $dial } { $typed }: no such position; { $below } or { $above }?
own-slower-than-rate = Own { $own } below RATE { $rate }? Look again, or: Something is wrong.
not-a-rate = Whole beats from 20 to 250, slowest first. Look again.
nothing-to-compare = Nothing to compare with: look again, type all three once more.
unlike-handed = Unlike what was handed over: look again, type all three once more.
read-twice = { $dial }: { $first }, then { $then }. Look again, type all three.
far-from-last = Last set { $last }; you typed { $typed }. Look again.
read-before-restore = Read the dials first.
generator-not-for-wire = This generator has no { $mode }: it cannot take this wire. Choose another.
nothing-typed = { $field }: nothing entered.
not-taken = Not taken. Tap again.
journal-fault = The record cannot be written. Restore by the dials, tell somebody, use paper.
too-long = Too long: { $most } characters at most.
bed-exists = { $label } is there already. Open it, or type another label.
end-check-first = A check is open in this bed. End it first.
other-wire-open = A check is open on the other wire. End it first.
other-wire-unread = The other wire's dials were not read. Read them first.
caution-local-rules = Local rules and the responsible clinician come first.
