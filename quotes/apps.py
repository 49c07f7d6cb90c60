"""The app that holds the site and what the workshop promises."""

from django.apps import AppConfig


class QuotesConfig(AppConfig):
    name = "quotes"
    verbose_name = "Quotes"

    def ready(self) -> None:
        from quotes import checks  # noqa: F401 - registers the checks of the set-up
        from quotes.actions.audit.cards import listen_to_cards
        from quotes.actions.audit.telling import listen
        from quotes.documents.speech import speak

        listen()
        speak()
        listen_to_cards()
