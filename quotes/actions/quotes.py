"""Every write on a quote, under one roof for the pages and commands that call them."""

from quotes.actions.accepting import accept, mark_done
from quotes.actions.answers import answer, ask, decline
from quotes.actions.drafts import close_quote, keep_quote, save_draft
from quotes.actions.issuing import issue
from quotes.actions.links import NewLink, new_link, withdraw_link

__all__ = [
    "NewLink",
    "accept",
    "answer",
    "ask",
    "close_quote",
    "decline",
    "issue",
    "keep_quote",
    "mark_done",
    "new_link",
    "save_draft",
    "withdraw_link",
]
