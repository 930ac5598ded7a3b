"""How the pages are started: on this machine alone, whatever the environment says."""

from datetime import date
from pathlib import Path

import pytest

from analytics.commands.shared import start_dashboard
from analytics.stops import WorkStopped
from dashboard.parts.palette import DARK, LIGHT
from dashboard.start import command


def test_the_flags_keep_the_pages_on_this_machine():
    flags = command(Path("salon"), date(2026, 11, 1), 8599)
    for flag in (
        "--server.address=127.0.0.1",
        "--server.port=8599",
        "--browser.gatherUsageStats=false",
        "--server.allowedHosts=127.0.0.1",
        "--server.xsrfCookieSameSite=strict",
        "--client.showErrorDetails=none",
        "--client.showErrorLinks=false",
        "--server.fileWatcherType=none",
        "--server.maxUploadSize=25",
    ):
        assert flag in flags
    assert flags[flags.index("--") :] == ["--", "--salon", "salon", "--today", "2026-11-01"]


def test_light_and_dark_are_each_their_own_set():
    flags = command(Path("salon"), None, 8599)
    assert f"--theme.light.backgroundColor={LIGHT.paper}" in flags
    assert f"--theme.dark.backgroundColor={DARK.paper}" in flags
    assert "--today" not in flags


def test_the_pages_start_where_nothing_can_be_loaded_yet(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    """One of them takes exports. Without settings there is no salon to start."""
    started: list[list[str]] = []
    monkeypatch.setattr("subprocess.call", lambda command: started.append(command) or 0)
    with pytest.raises(WorkStopped, match=r"has no salon\.toml"):
        start_dashboard(tmp_path, None, 8599)
    (tmp_path / "salon.toml").write_text('[salon]\nname = "New"\n', "utf-8")
    assert start_dashboard(tmp_path, None, 8599) == 0 and len(started) == 1
    assert "has no folder exports" in capsys.readouterr().err
