"""A file held against the records: what it adds, and that it adds nothing twice."""

from decimal import Decimal

from hypothesis import assume, given
from hypothesis import strategies as st

from quotes.calc.intake.customer_plan import CustomerKept, CustomersPlan, EngineKept, plan_customers
from quotes.calc.intake.given_customers import CustomerGiven
from tests.imports.customer_files import as_file, customer_only, line, read

INES = CustomerKept(1, "Ines Karrow", "ines@karrow.example", "")
PAST = (Decimal(4100), "mi", "sprint", "refresh", None, None)
PLAIN = {"From": None, "To": None}


def plan(
    *lines: list[object], customers: tuple[CustomerKept, ...] = (), engines: tuple[EngineKept, ...] = ()
) -> CustomersPlan:
    found = read(as_file(*lines))
    assert found.faults == ()
    return plan_customers(found.customers, customers, engines)


def engine(*segments: object, owner: CustomerKept = INES) -> EngineKept:
    return EngineKept(7, owner.pk, owner.name, "four600", "h4 20417", segments)  # type: ignore[arg-type]


def test_into_empty_records_everything_is_added() -> None:
    found = plan(line())
    assert (found.new_customers, found.new_engines, found.new_segments) == (1, 1, 1)
    assert [one.word for one in found.customers] == ["added"]


def test_what_is_there_already_is_unchanged() -> None:
    found = plan(line(**PLAIN), customers=(INES,), engines=(engine(PAST),))
    assert found.adds_nothing
    assert [(one.word, one.engines[0].word) for one in found.customers] == [("unchanged", "unchanged")]


def test_a_known_customer_with_a_new_engine_is_matched() -> None:
    found = plan(line(Engine_number="H4-9"), customers=(INES,), engines=(engine(PAST),))
    assert [(one.word, one.engines[0].word) for one in found.customers] == [("matched", "added")]
    assert found.new_customers == 0


def test_service_after_the_known_service_is_added() -> None:
    lines = [line(**PLAIN), line(**PLAIN, Used="350")]
    found = plan(*lines, customers=(INES,), engines=(engine(PAST),))
    assert [segment.amount for segment in found.customers[0].engines[0].new_segments] == [350]


def test_an_older_file_with_less_service_takes_nothing_away() -> None:
    later = (Decimal(350), "mi", "sprint", "refresh", None, None)
    assert plan(line(**PLAIN), customers=(INES,), engines=(engine(PAST, later),)).adds_nothing


def test_another_past_than_in_the_records_is_a_contradiction_and_not_added_on_top() -> None:
    found = plan(line(**PLAIN, Used="4200"), customers=(INES,), engines=(engine(PAST),))
    assert [(one.line, one.key, one.value) for one in found.contradictions] == [(2, "amount", "4200")]
    assert found.new_segments == 0


def test_an_engine_kept_for_somebody_else_is_a_contradiction() -> None:
    other = CustomerKept(2, "Dov Marlish", "", "")
    found = plan(line(), customers=(INES, other), engines=(engine(PAST, owner=other),))
    assert [(one.key, "Dov Marlish" in one.reason) for one in found.contradictions] == [("number", True)]
    assert [(one.word, one.engines[0].word) for one in found.customers] == [("refused", "refused")]


def test_a_name_that_two_known_customers_bear_is_a_contradiction() -> None:
    two = (
        CustomerKept(1, "Ines Karrow", "a@x.example", ""),
        CustomerKept(2, "ines karrow", "b@x.example", ""),
    )
    assert [one.key for one in plan(customer_only("Ines Karrow"), customers=two).contradictions] == ["name"]


def test_a_customer_known_without_mail_is_told_by_the_telephone() -> None:
    known = (CustomerKept(1, "Ines Karrow", "", "+1 555-0104"),)
    found = plan(customer_only("Ines Karrow", E_mail="i@x.example", Telephone="1 5550104"), customers=known)
    assert found.new_customers == 0
    assert found.customers[0].stays == ("telephone", "e-mail")


def test_another_mail_is_another_customer_even_at_the_same_telephone() -> None:
    known = (CustomerKept(1, "Ines Karrow", "a@x.example", "555 0104"),)
    found = plan(customer_only("Ines Karrow", E_mail="b@x.example", Telephone="555 0104"), customers=known)
    assert found.new_customers == 1


def test_a_bare_name_means_the_customer_known_by_the_bare_name() -> None:
    known = (CustomerKept(1, "Ines Karrow", "a@x.example", ""), CustomerKept(2, "Ines Karrow", "", ""))
    found = plan(customer_only("Ines Karrow"), customers=known)
    assert found.customers[0].kept == known[1]


def test_what_the_file_says_otherwise_is_named_and_not_taken() -> None:
    known = (CustomerKept(1, "Ines Karrow", "ines@karrow.example", "", address="4 Tallow Yard"),)
    found = plan(
        customer_only("Ines Karrow", E_mail="INES@karrow.example", Address="5 Tallow Yard"), customers=known
    )
    assert found.customers[0].stays == ("address", "e-mail")
    assert found.adds_nothing


def taken_in(
    found: CustomersPlan, customers: list[CustomerKept]
) -> tuple[list[CustomerKept], list[EngineKept]]:
    """The records after a plan was carried out, worked out apart from the code under test."""
    after = list(customers)
    engines: list[EngineKept] = []
    for one in found.customers:
        kept = one.kept or as_kept(one.given, len(after) + 1)
        if one.kept is None:
            after.append(kept)
        for each in one.engines:
            past = each.kept.segments if each.kept else ()
            past += tuple(segment.content for segment in each.new_segments)
            engines.append(
                EngineKept(len(engines), kept.pk, kept.name, each.given.type_code, each.given.number, past)
            )
    return after, engines


def as_kept(one: CustomerGiven, pk: int) -> CustomerKept:
    return CustomerKept(pk, one.name, one.email, one.telephone)


blank = {"Engine_type": None, "Engine_number": None, "Used": None, "Unit": None, "Duty": None, **PLAIN}
mails = st.sampled_from([None, "a@x.example", "b@x.example"])
telephones = st.sampled_from([None, "555 1", "555 2"])
names = st.sampled_from(["Ines Karrow", "INES karrow", "Dov Marlish"])
numbers = st.sampled_from([None, "H4-1", "H4-2", "h4 1"])
amounts = st.sampled_from([None, "100", "200"])


@st.composite
def one_line(draw: st.DrawFn) -> list[object]:
    changes = dict(blank, Customer=draw(names), E_mail=draw(mails), Telephone=draw(telephones))
    if number := draw(numbers):
        changes |= {"Engine_type": "four600", "Engine_number": number}
        if amount := draw(amounts):
            changes |= {"Used": amount, "Unit": "mi", "Duty": "sprint"}
    return line(**changes)


kept = st.lists(
    st.tuples(names, mails, telephones).map(lambda three: CustomerKept(0, *(text or "" for text in three))),
    max_size=4,
)


@given(st.lists(one_line(), min_size=1, max_size=7), kept)
def test_the_same_file_once_more_adds_nothing(lines: list[list[object]], known: list[CustomerKept]) -> None:
    customers = [
        CustomerKept(pk, one.name, one.email, one.telephone) for pk, one in enumerate(known, start=1)
    ]
    found = read(as_file(*lines))
    assume(not found.faults)
    first = plan_customers(found.customers, customers, [])
    assume(not first.contradictions)
    after, engines = taken_in(first, customers)
    again = plan_customers(found.customers, after, engines)
    assert again.contradictions == ()
    assert again.adds_nothing
