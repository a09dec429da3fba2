# The record on the tablet: what stands against it, and who does what next.

record-in-use = Holdfast already runs with this record. Use that one, or close it first.
record-held = Another program holds the record. Not recorded. Tap again.
record-disk-full = No room on the tablet. Not recorded. Restore by the dials, use paper.
record-room-short = The tablet is nearly full. End this check, then make room.
screen-kept-lit = A pacing check is open
data-needs-folder = --data needs a folder after it
argument-unknown = { $argument } is not known; --data FOLDER is
the-data-folder = the data folder
record-read-only = The record in { $folder } cannot be written. Whoever set up this tablet: let Holdfast write there.
record-no-folder = Not reached: { $folder } ({ $why }). Whoever set up this tablet: name another.
record-missing = The record has gone from { $folder }. Put journal.sqlite3 back, or name an empty folder.
record-none = No record of Holdfast is in { $folder }. Name the folder that holds journal.sqlite3.
record-not-ours = The file journal.sqlite3 in { $folder } is no record of Holdfast. It is left as it is. Name another folder.
record-newer = A newer Holdfast wrote the record in { $folder }: format { $found }, here { $known }. Nothing was changed. Start the newer one.
record-unknown-version = Format { $found } of the record in { $folder } is not known here. Nothing was changed. Keep the folder and report it.
record-altered = Something other than Holdfast changed the record in { $folder }: { $what }. Keep the folder and report it.
record-broken = The record in { $folder } does not hold from entry { $entry } on. Keep the folder, use paper, report it.
record-shortened = The record in { $folder } ends at entry { $has }; it once held { $had }. Keep the folder, use paper, report it.
record-damaged = The record in { $folder } is damaged. Keep the folder, use paper, report it.
record-not-started = Holdfast cannot start here: { $why }. Use paper, report it.
record-no-clock = This device gives no clock: Holdfast cannot start here. Use paper, report it.
