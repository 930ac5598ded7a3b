"""How the pages are started: on this machine alone, whatever the environment says."""

import os
import signal
import socket
from pathlib import Path
from typing import IO

import pytest
from filelock import FileLock
from streamlit import config

from analytics.commands.shared import start_dashboard
from analytics.stops import WorkStopped
from dashboard.access.doors import Door
from dashboard.access.options import options
from dashboard.access.vault import access_folder
from dashboard.parts.palette import DARK, LIGHT
from dashboard.start import serve
from tests.browser.serving import free_port, run


def test_the_options_keep_the_pages_on_this_machine():
    found = options((Door("127.0.0.1", 8599),))
    assert found["server.address"] == "127.0.0.1" and found["server.port"] == 8599
    assert found["server.allowedHosts"] == ["127.0.0.1"] and found["server.corsAllowedOrigins"] == []
    assert found["browser.gatherUsageStats"] is False and found["client.showErrorDetails"] == "none"
    assert found["server.fileWatcherType"] == "none" and found["server.maxUploadSize"] == 25


def test_every_option_is_one_of_the_servers():
    """A name that the server no longer knows would be passed over in silence."""
    assert set(options((Door("127.0.0.1", 8599),))) <= set(config.get_config_options())


def test_light_and_dark_are_each_their_own_set():
    found = options((Door("127.0.0.1", 8599),))
    assert found["theme.light.backgroundColor"] == LIGHT.paper
    assert found["theme.dark.backgroundColor"] == DARK.paper


@pytest.mark.skipif(os.name != "posix", reason="Ctrl+C as POSIX has it")
@pytest.mark.parametrize("network", [(), ("--on-network", "127.0.0.2")])
def test_ctrl_c_stops_them_without_a_word(tmp_path: Path, network: tuple[str, ...]):
    (tmp_path / "salon.toml").write_text('[salon]\nname = "New"\n', "utf-8")
    server = run("dashboard.start", "--salon", str(tmp_path), "--port", str(free_port()), *network)
    assert server.stdout is not None
    said = _until_the_link(server.stdout)
    server.send_signal(signal.SIGINT)
    rest, _ = server.communicate(timeout=20)
    assert server.returncode == 0 and rest == "" and "This link opens them" in said


def _until_the_link(lines: IO[str]) -> str:
    said = ""
    for line in lines:
        said += line
        if "/enter?code=" in line:
            break
    return said


def test_a_second_start_shows_a_new_link_to_the_first(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """And a port that another program holds is said."""
    with FileLock(access_folder(tmp_path) / ".running-8599.lock"):
        serve(tmp_path, None, 8599)
    assert "The pages run already" in (said := capsys.readouterr().out)
    assert "http://127.0.0.1:8599/enter?code=" in said
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(WorkStopped, match="name another port with --port"):
            serve(tmp_path, None, taken.getsockname()[1])
    with pytest.raises(WorkStopped, match="name another port with --port"):
        serve(tmp_path, None, 99999)


def test_the_pages_start_whatever_the_folder_lacks_and_say_what_they_open(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    started: list[list[str]] = []
    monkeypatch.setattr("subprocess.call", lambda command: started.append(command) or 0)
    assert start_dashboard(tmp_path, None, 8599) == 0 and len(started) == 1
    said = capsys.readouterr()
    assert f"the salon in {tmp_path.resolve()}" in said.out and "has no salon.toml" in said.err
    (tmp_path / "salon.toml").write_text('[salon]\nname = "New"\n', "utf-8")
    assert start_dashboard(tmp_path, None, 8599) == 0 and len(started) == 2
    assert "has no folder exports" in capsys.readouterr().err
