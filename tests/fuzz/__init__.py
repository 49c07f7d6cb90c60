"""Bad input at scale: every address, form, file and command is given what nobody would type.

`make fuzz` runs it over a demo workshop; `test_pages_every_address.py` is its slice in the gate.
"""
