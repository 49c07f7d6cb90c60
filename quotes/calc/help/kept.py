"""What the figures of bench, record and books mean: for the people of the workshop."""

from __future__ import annotations

from quotes.calc.help.values import Help

BENCH: dict[str, Help] = {
    "job_state": Help("State", "What the job waits for next; bold where it waits for us."),
    "in_since": Help("In since", "The day on which the engine came in at the door."),
    "failed": Help("Failed", "Parts that stopped an engine, or were found broken."),
    "past_limit": Help("Past limit", "Parts that still ran and measured past the limit of the manual."),
    "still_sound": Help(
        "Still sound",
        "Parts taken out with nothing wrong: each says that the life is longer than what it had run.",
    ),
    "weight": Help(
        "Weight", "How much of the life stands on our own strip-downs; the rest is the catalogue's."
    ),
    "life_now": Help(
        "Life now",
        "The life that every quote reckons with today, in reference service; past it a part is due.",
    ),
    "life_proposed": Help(
        "Proposed", "The life that the evidence makes of it; it holds only once the owner has approved it."
    ),
    "range": Help("Range", "Low and high around the life, as far apart as what is known of it leaves them."),
    "shape": Help(
        "Shape", "How suddenly such parts go: near 1 at any age, from 3 on nearly all of them old and worn."
    ),
    "expected_stops": Help(
        "Expected to stop",
        "Stops that the quotes let expect, added up over what each engine really ran.",
    ),
    "seen_stops": Help("Stopped", "Engines of those that an engine fault really stopped."),
    "seen_for_expected": Help(
        "Seen for one expected",
        "1 is as we said, 2 twice as many stops; in brackets, where the true figure may lie.",
    ),
    "factor": Help(
        "The factor",
        "It multiplies every risk on every quote: above 1 our engines stop more than the trade's.",
    ),
}
BOOKS: dict[str, Help] = {
    "agreed": Help("Agreed", "The option that was accepted and the extra work accepted since, with tax."),
    "to_invoice": Help("Still to invoice", "What was agreed less what has been asked for on invoices."),
    "deposit_left": Help(
        "Not taken off yet", "Deposits taken that no invoice has taken off: they are still owed in work."
    ),
    "cost_so_far": Help(
        "Cost so far", "Parts, machine work and freight booked to the build; hours are not in it."
    ),
    "in_progress": Help(
        "Work in progress", "Cost of builds that are not invoiced yet: it is worth something, and no loss."
    ),
    "hours_quoted": Help("Hours quoted", "Standard hours of the work that was agreed."),
    "hours_worked": Help("Hours worked", "Hours clocked on the build, and those written down by hand."),
    "parts_bought": Help(
        "Parts bought", "What suppliers' bills and the shelf say the build's parts cost us."
    ),
    "job_margin": Help("Margin", "Invoiced before tax less parts, machine work and what the hours cost us."),
    "days_late": Help("By how long", "Days since the day on which the document had to be paid."),
    "in_credit": Help("In credit", "What a customer has paid and no document has used up."),
    "interest": Help(
        "Interest proposed", "What your terms ask for on what is late; nothing is added before you press."
    ),
    "debits": Help("Debits", "Everything that was put on the left side of the account up to that day."),
    "credits": Help("Credits", "Everything that was put on its right side."),
    "balance": Help(
        "Balance", "Debits less credits; over all accounts together it is zero, or something is wrong."
    ),
    "not_exported": Help(
        "Not exported", "Entries of the month that no batch has taken to the accountant yet."
    ),
    "to_pay": Help("Still to pay", "What is open of the document after payments, deposits and credit notes."),
}
