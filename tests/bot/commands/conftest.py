"""Standard input for the commands, made of bytes as a pipe brings them."""

import io

import pytest


class Input(io.StringIO):
    """Standard input made of bytes, as a pipe brings them."""

    def __init__(self, raw: bytes) -> None:
        super().__init__()
        self.raw = raw

    @property
    def buffer(self) -> io.BytesIO:
        return io.BytesIO(self.raw)

    def isatty(self) -> bool:
        return False


@pytest.fixture
def typed(monkeypatch):
    return lambda raw: monkeypatch.setattr("sys.stdin", Input(raw))
