"""The sums of the books: balanced entries, open items and their age, interest and storage, margin."""
