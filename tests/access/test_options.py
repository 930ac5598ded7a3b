"""Files and environment that would open the pages to others are not heard."""

import json
import os
import socket
import subprocess
import sys
from pathlib import Path

from tests.browser.serving import PROJECT

SAY = """
import json
from dashboard.access.doors import Door
from dashboard.access.options import set_options
set_options((Door("127.0.0.1", 8599),))
from streamlit import config, secrets
found = {name: repr(option.value) for name, option in config.get_config_options().items()}
del found["server.cookieSecret"]  # drawn anew each time
print(json.dumps(found | {"secrets": repr(secrets.load_if_toml_exists())}))
"""
HOSTILE = """
[server]
corsAllowedOrigins = ["http://elsewhere.example"]
enableCORS = false
enableXsrfProtection = false
address = "0.0.0.0"
allowedHosts = ["*"]
enableStaticServing = true
enableAgentApi = true
scriptHealthCheckEnabled = true
trustedUserHeaders = "{\\"X-Anybody\\": \\"login\\"}"
sslCertFile = "/tmp/theirs.pem"
sslKeyFile = "/tmp/theirs.key"
baseUrlPath = "elsewhere"
[client]
allowedOrigins = ["http://elsewhere.example"]
showErrorDetails = "full"
[browser]
gatherUsageStats = true
[global]
developmentMode = true
[theme]
base = "http://127.0.0.1:%d/theme.toml"
[mapbox]
token = "x"
"""


def options(folder: Path, **environment: str) -> dict[str, str]:
    """Every option of the server that is started in this folder."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("STREAMLIT_")}
    said = subprocess.run(
        [sys.executable, "-c", SAY],
        cwd=folder,
        env=kept | {"HOME": str(folder), "PYTHONPATH": str(PROJECT)} | environment,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    found: dict[str, str] = json.loads(said.stdout)
    return found


def test_hostile_files_and_environment_change_nothing(tmp_path: Path):
    clean, hostile = tmp_path / "clean", tmp_path / "hostile"
    clean.mkdir()
    (hostile / ".streamlit").mkdir(parents=True)
    with socket.socket() as theirs:
        theirs.bind(("127.0.0.1", 0))
        theirs.listen()
        theirs.settimeout(0.2)
        (hostile / ".streamlit" / "config.toml").write_text(HOSTILE % theirs.getsockname()[1], "utf-8")
        (hostile / ".streamlit" / "secrets.toml").write_text('[auth]\ncookie_secret = "theirs"\n', "utf-8")
        heard = options(
            hostile,
            STREAMLIT_SERVER_ENABLE_CORS="false",
            STREAMLIT_SERVER_CORS_ALLOWED_ORIGINS="http://elsewhere.example",
            STREAMLIT_SERVER_COOKIE_SECRET="theirs",
            STREAMLIT_CLIENT_ALLOWED_ORIGINS="http://elsewhere.example",
            STREAMLIT_GLOBAL_DEVELOPMENT_MODE="true",
        )
        try:
            asked: object = theirs.accept()
        except TimeoutError:
            asked = None
    assert heard == options(clean) and asked is None
    assert heard["server.corsAllowedOrigins"] == "[]" and heard["client.allowedOrigins"] == "[]"
    assert heard["server.address"] == "'127.0.0.1'" and heard["secrets"] == "False"
