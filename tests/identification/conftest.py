import pytest

from tests.identification.command_line import FEATURES, MATRIX, OBSERVATIONS


@pytest.fixture
def files(tmp_path):
    """The three files of a small table; `files(features=…)` writes another text instead."""

    def write(**texts) -> list[str]:
        words = []
        for name, text in {"features": FEATURES, "matrix": MATRIX, "observations": OBSERVATIONS, **texts}.items():
            path = tmp_path / f"{name}.csv"
            path.write_bytes(text if isinstance(text, bytes) else text.encode())
            words += [f"--{name}", str(path)]
        return words

    return write
