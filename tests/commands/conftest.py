"""Salons for the tests of commands, and ways to run one."""

import shutil
from pathlib import Path

import pytest
from command_line import Run
from demo import loaded_demo
from salons import load_unchecked, write_salon

from analytics.commands.cli import main


@pytest.fixture(scope="session")
def one_visit(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The salon below, loaded once."""
    folder = write_salon(tmp_path_factory.mktemp("one_visit") / "salon")
    load_unchecked(folder)
    return folder


@pytest.fixture
def salon(one_visit: Path, tmp_path: Path) -> Path:
    """A loaded salon with one visit in March 2026."""
    return Path(shutil.copytree(one_visit, tmp_path / "salon"))


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A loaded copy of the demo salon."""
    return loaded_demo(tmp_path_factory)


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command that must succeed; what it prints."""

    def printed(*words: str) -> str:
        assert main(list(words)) == 0
        return capsys.readouterr().out

    return printed


@pytest.fixture
def stops(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command that must stop with exit status 1, nothing on stdout and one sentence on stderr: that sentence."""

    def said(*words: str) -> str:
        assert main(list(words)) == 1
        printed = capsys.readouterr()
        lines = [line for line in printed.err.splitlines() if line.strip()]
        lines = [line for line in lines if line != "There is no book yet: loading the exports."]
        assert printed.out == "" and len(lines) == 1, printed
        assert lines[0].startswith("salon-figures: ") and lines[0].endswith(".")
        return lines[0]

    return said
