"""A server that speaks S3, in this process, for all tests of files."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from moto.server import ThreadedMotoServer


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    one = ThreadedMotoServer(ip_address="127.0.0.1", port=0, verbose=False)
    one.start()
    _, port = one.get_host_and_port()
    yield f"http://127.0.0.1:{port}"
    one.stop()
