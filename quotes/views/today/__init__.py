"""Today: what each person has to do, and the owner's first steps."""
