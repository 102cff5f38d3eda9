"""Changes of a register: proposed by one expert, agreed to by another, in force from then on, and never overwritten.

    nouns.py       RegisterChange: a row as it was and as it is to be, who proposed it, who agreed
    overlay.py     the rows of a pack with the changes in force laid over them; the pack itself stays as it was loaded
    judging.py     what the checks of packs say of a change: errors refuse it, warnings are shown with it
    reading.py     an expert's words -> the change they mean
    parting.py     several changes in one message, and the reason that goes with them
    finding_rows.py  the change they mean -> the row of the pack
    words.py       a change as a difference, in words
    exporting.py   the changed rows as CSV, for whoever keeps the pack

The store keeps them in knowledge/stored_changes.py.
"""
