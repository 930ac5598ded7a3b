"""How the pages are started: on this machine alone, whatever the environment says."""

from datetime import date
from pathlib import Path

from dashboard.palette import DARK, LIGHT
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
