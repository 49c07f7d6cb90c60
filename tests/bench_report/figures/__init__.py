"""Every figure, one a file, in the order of the report."""

from tests.bench_report.figure import Figure
from tests.bench_report.figures.eight_people import EIGHT_PEOPLE
from tests.bench_report.figures.import_prices import IMPORT_PRICES
from tests.bench_report.figures.invoice import INVOICE
from tests.bench_report.figures.journal import JOURNAL
from tests.bench_report.figures.options import OPTIONS, OPTIONS_LARGE
from tests.bench_report.figures.pages import PAGES
from tests.bench_report.figures.quote_page import QUOTE_PAGE
from tests.bench_report.figures.quote_pdf import QUOTE_PDF
from tests.bench_report.figures.read_prices import READ_PRICES
from tests.bench_report.figures.search import SEARCH
from tests.bench_report.figures.workbook import WORKBOOK

FIGURES: tuple[Figure, ...] = (
    OPTIONS,
    OPTIONS_LARGE,
    QUOTE_PDF,
    INVOICE,
    WORKBOOK,
    READ_PRICES,
    IMPORT_PRICES,
    SEARCH,
    *PAGES,
    QUOTE_PAGE,
    JOURNAL,
    EIGHT_PEOPLE,
)
