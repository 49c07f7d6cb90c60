"""What a browser says of itself, in words."""

from __future__ import annotations

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
    ("iPhone", "an iPhone"),
    ("iPad", "an iPad"),
    ("Android", "Android"),
    ("Windows", "Windows"),
    ("Macintosh", "a Mac"),
    ("CrOS", "a Chromebook"),
    ("Linux", "Linux"),
)


def browser_in_words(user_agent: str) -> str:
    """Browser and system; what is not known says so."""
    browser = next((word for mark, word in _BROWSERS if mark in user_agent), "")
    system = next((word for mark, word in _SYSTEMS if mark in user_agent), "")
    if browser and system:
        return f"{browser} on {system}"
    return browser or (f"A browser on {system}" if system else "A browser we don't know")
