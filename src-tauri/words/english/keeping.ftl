# What leaves the tablet as files, what comes back from a backup, what is erased.

export-name = Export
screen-export = export
export-nothing = This wire has no check on a patient: there is nothing to export.
export-done = Write the files
writing-still = Files are still being written. Wait a moment.
files-ask = Export the checks of this wire?
files-line = Tables (CSV), a bundle for the record system (FHIR), and one page of the newest check (PDF).
files-note = They hold no name of a patient. Whoever takes them must know whose they are.
files-being-written = The files are being written
files-written = The files are written
lie-here = They lie in this folder:
writing-goes-on = You may leave this card: it goes on meanwhile.
write-again = Write again
nothing-written = Nothing was written
not-written-full = No room on the tablet. Make room, then write again.
not-written-refused = The Exports folder takes no files. Tell whoever set up this tablet.
not-written-not-made = The files could not be made. Report it.

## Backup

keeping-name = Backup and erasure
backup-name = Backup
backup-ask = Write a backup of the whole record?
backup-line = One file holds every bed and check of this tablet. Another, empty tablet can restore from it.
backup-note = It is not locked: keep it where your unit keeps records.
backup-done = Write the backup
backup-being-written = The backup is being written
backup-written = The backup is written
lies-here = It is this file:
restore-name = Restore
restore-file = Which backup?
restore-file-line = Nothing is replaced before the file has been read and verified.
backup-file-field = Backup file
restorable-ask = Restore this backup on this tablet?
restorable-holds = Every entry was verified: { $entries } entries, { $beds ->
    [one] one bed
   *[other] { $beds } beds
}.
restorable-until = Its last entry is of { $date } { $time }. Compare the dials before you trust anything in it.
restorable-ahead = That is later than the clock of this tablet: set the clock right, or checks come due at the wrong time.
restorable-unsigned = It carries no signature: it does not say which tablet wrote it.
restore-yes = Restore
restore-no = Keep this tablet empty
not-a-backup = This file is no backup of Holdfast. Nothing was changed.
backup-newer = A newer Holdfast wrote this backup. Nothing was changed. Restore with the newer one.
backup-cut-short = This backup is cut short. Nothing was changed. Copy it again.
backup-too-long = This backup is longer than 20 MB. Nothing was changed. Tell whoever set up this tablet: it is restored with terminal restore.
backup-altered = This backup is not as it was written. Nothing was changed. Copy it again.
backup-does-not-hold = The record in this backup does not hold. Nothing was changed. Keep the file and report it.
backup-no-room = No room on the tablet for this backup. Nothing was changed. Make room first.
backup-refused = The data folder takes no files. Nothing was changed. Tell whoever set up this tablet.

## Erasure

erase-title = Who has left
erase-nothing = Nothing is kept of a patient who has left
erase-name = Erase
erase-later = Not yet
erasable-from = may be erased from { $when } on
erasable-since = may be erased since { $when }
erase-never = the rules name no time: nothing is erased
left-bed-on = Left this bed on { $date }
erase-ask = Erase what is kept of the patient who left { $bed } on { $date }?
erase-line = Every check, code and typed name of this patient goes from this tablet. This cannot be taken back.
erase-files = Their files and all backups in the Exports folder go too. Copies elsewhere do not.
erase-no-rule = The unit's rules name no time after which records are erased.
erase-not-yet = The unit's rule lets it go from { $when } on.
eraser-field = Erased by (name)
erase-yes = Erase it
erase-no = Keep it
left-as-code = { $times ->
    [one] A code of it was shown once.
   *[other] A code of it was shown { $times } times.
}
left-as-files = { $times ->
    [one] Files of it were written once.
   *[other] Files of it were written { $times } times.
}
left-as-backup = { $times ->
    [one] One backup holds it.
   *[other] { $times } backups hold it.
}
left-nothing = Nothing of it has left this tablet.
erased-name = What was erased
erased-title = Erased on this tablet
erased-nothing = Nothing has been erased on this tablet
erasing-still = An erasure is under way: it goes on once no check is open.
erased-on = erased { $when }
erased-by = { $entries ->
    [one] one entry, by { $name }
   *[other] { $entries } entries, by { $name }
}
erased-by-rule = left the bed on { $closed }; the rule keeps records { $days ->
    [one] one day
   *[other] { $days } days
}
row-had-left = had left before
row-left-as-code = had left as a code
row-left-as-files = had left as files (CSV, FHIR, PDF)
row-left-as-backup = had left in a backup
left-times = { $times ->
    [one] once
   *[other] { $times } times
}
left-last = last on { $date }
erased-more = { $count ->
    [one] One older proof stands in the record.
   *[other] { $count } older proofs stand in the record.
}
row-erase = Records erased
erase-after = { $days ->
    [one] one day after the wires are out
   *[other] { $days } days after the wires are out
}
