"""What the page server is told, and that it listens to nobody else: no file and no environment has a say.

A file .streamlit/config.toml beside the salon or at home could open the pages to other origins, take certificates from
elsewhere or fetch a theme from the web; so such files are not even opened.
"""

import os
from typing import Any

from dashboard.access.doors import Door
from dashboard.parts.palette import theme_options

OPTIONS: dict[str, Any] = {
    "server.headless": True,
    "server.showEmailPrompt": False,
    "server.fileWatcherType": "none",
    "server.runOnSave": False,
    "server.allowRunOnSave": False,
    "server.maxUploadSize": 25,
    "server.enableStaticServing": False,
    "server.enableAgentApi": False,
    "server.enableCORS": True,
    "server.corsAllowedOrigins": [],
    "server.enableXsrfProtection": True,
    "server.xsrfCookieSameSite": "strict",
    "server.trustedUserHeaders": {"X-Salon-Login": "login"},  # a session goes on for the same sign-in alone
    "browser.gatherUsageStats": False,
    "client.allowedOrigins": [],
    "client.showErrorDetails": "none",
    "client.showErrorLinks": False,
    "client.toolbarMode": "minimal",
    "global.developmentMode": False,
    "logger.level": "warning",
    "logger.hideWelcomeMessage": True,
    "logger.enableRich": False,
    "secrets.files": [],
}


def options(doors: tuple[Door, ...]) -> dict[str, Any]:
    """Every option that is set, by its name; all others are as the server was shipped."""
    first = doors[0]
    where = {
        "server.address": first.host,
        "server.port": first.port,
        "server.allowedHosts": [door.host for door in doors],
        "browser.serverAddress": first.host,
        "browser.serverPort": first.port,
    }
    return OPTIONS | where | theme_options()


def _no_files(file_name: str) -> list[str]:  # noqa: ARG001
    return []


def set_options(doors: tuple[Door, ...]) -> None:
    """Set them in this process, before the server is made."""
    for name in [name for name in os.environ if name.startswith("STREAMLIT_")]:
        del os.environ[name]
    from streamlit import config
    from streamlit.runtime.pages_manager import PagesManager

    config.get_config_files = _no_files
    config.get_config_options(force_reparse=True, options_from_flags=options(doors))
    PagesManager.uses_pages_directory = False  # a folder of that name would be run past the roles
