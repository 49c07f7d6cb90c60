"""Why a document can't be issued as an electronic invoice: the rule that is broken and the field to mend."""

from __future__ import annotations


class EInvoiceFault(Exception):
    """`rule` is that of EN 16931 (such as BR-CO-9) or "XSD"; `field` says in words what to mend."""

    def __init__(self, rule: str, field: str, text: str) -> None:
        self.rule, self.field, self.text = rule, field, text
        super().__init__(f"{rule}: {field}: {text}")
