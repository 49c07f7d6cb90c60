"""What a browser says of itself, in words."""

from __future__ import annotations

from catalogue.calc.said import say, to_say

# In this order: most browsers also name those they descend from.
_BROWSERS = (
    ("Edg", "Edge"),
    ("OPR/", "Opera"),
    ("SamsungBrowser/", "Samsung Internet"),
    ("Firefox/", "Firefox"),
    ("FxiOS/", "Firefox"),
    ("CriOS/", "Chrome"),
    ("Chrome/", "Chrome"),
    ("Version/", "Safari"),
)
_SYSTEMS = (
    ("iPhone", to_say("an iPhone")),
    ("iPad", to_say("an iPad")),
    ("Android", "Android"),
    ("Windows", "Windows"),
    ("Macintosh", to_say("a Mac")),
    ("CrOS", to_say("a Chromebook")),
    ("Linux", "Linux"),
)


def browser_in_words(user_agent: str) -> str:
    """Browser and system; what is not known says so."""
    browser = next((word for mark, word in _BROWSERS if mark in user_agent), "")
    system = next((word for mark, word in _SYSTEMS if mark in user_agent), "")
    if browser and system:
        return say("{browser} on {system}", browser=browser, system=say(system))
    if system:
        return say("A browser on {system}", system=say(system))
    return browser or say("A browser we don't know")
