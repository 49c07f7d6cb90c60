"""Lines that belong together, and lines that contradict each other."""

from datetime import date

from tests.imports.customer_files import as_file, customer_only, fault_of, line, read

EARLY = {"From": date(2025, 3, 1), "To": date(2025, 10, 1)}
PLAIN = {"From": None, "To": None}


def names_of(*lines: list[object]) -> list[tuple[str, int]]:
    """Each customer with the number of their engines."""
    found = read(as_file(*lines))
    assert found.faults == ()
    return [(one.name, len(one.engines)) for one in found.customers]


def test_two_lines_of_one_engine_are_two_stretches_of_service() -> None:
    engine = read(as_file(line(**EARLY), line())).customers[0].engines[0]
    assert [one.line for one in engine.segments] == [2, 3]


def test_an_engine_number_is_the_same_with_other_marks_and_case() -> None:
    assert names_of(line(**EARLY), line(Engine_number="h4 20417")) == [("Ines Karrow", 1)]


def test_the_same_number_of_another_type_is_another_engine() -> None:
    assert names_of(line(), line(Engine_type="single450")) == [("Ines Karrow", 2)]


def test_one_name_with_two_addresses_of_mail_is_two_customers() -> None:
    lines = [customer_only("Ines Karrow", E_mail=mail) for mail in ("a@x.example", "b@x.example")]
    assert names_of(*lines) == [("Ines Karrow", 0), ("Ines Karrow", 0)]


def test_a_line_with_only_the_name_finds_its_customer_wherever_it_stands() -> None:
    assert names_of(customer_only("INES  KARROW"), line()) == [("INES  KARROW", 1)]


def test_a_name_that_may_be_two_customers_is_a_fault() -> None:
    lines = [customer_only("Ines Karrow", E_mail=mail) for mail in ("a@x.example", "b@x.example")]
    fault = fault_of(*lines, customer_only("Ines Karrow"))
    assert (fault.line, fault.column) == (4, "Customer")


def test_an_engine_under_two_customers_is_a_fault() -> None:
    fault = fault_of(line(), line(Customer="Dov Marlish", E_mail="dov@x.example"))
    assert (fault.line, fault.column) == (3, "Engine number")
    assert "another customer" in fault.reason


def test_a_second_line_that_says_otherwise_is_a_fault() -> None:
    fault = fault_of(line(**PLAIN, Address="4 Tallow Yard"), line(**PLAIN, Address="5 Tallow Yard"))
    assert (fault.line, fault.column, fault.value) == (3, "Address", "5 Tallow Yard")
    assert fault.allowed == "4 Tallow Yard"


def test_a_blank_cell_contradicts_nothing() -> None:
    found = read(as_file(line(**EARLY, Address="4 Tallow Yard", Delivered="in the chassis"), line()))
    assert (found.faults, found.customers[0].address) == ((), "4 Tallow Yard")
    assert found.customers[0].engines[0].delivered == "in_chassis"


def test_history_going_backwards_is_a_fault() -> None:
    fault = fault_of(line(), line(**EARLY))
    assert (fault.line, fault.column) == (3, "From")


def test_an_engine_without_service_is_unknown_unless_it_is_said_to_be_new() -> None:
    bare = {"Used": None, "Unit": None, "Duty": None, **PLAIN}
    unknown, new = line(**bare), line(**bare, Engine_number="H4-2", History="new")
    engines = read(as_file(unknown, new)).customers[0].engines
    assert [one.history_known for one in engines] == [False, True]


def test_a_new_engine_with_service_on_another_line_is_a_fault() -> None:
    bare = {"Used": None, "Unit": None, "Duty": None, **PLAIN}
    assert fault_of(line(**bare, History="new"), line()).column == "History"
