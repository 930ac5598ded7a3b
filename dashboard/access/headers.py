"""What every answer says to the browser: load from here alone, in no frame, tell nobody, keep nothing."""

import re
from base64 import b64encode
from functools import cache
from hashlib import sha256
from pathlib import Path

from dashboard.access.doors import Door

KEPT_BY_BROWSERS = ("/static/",)  # the server's own scripts and fonts: their names change with their content
ALWAYS = {
    "referrer-policy": "no-referrer",
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}
OWN_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)


@cache
def _inline_scripts() -> str:
    """The hashes of what the server's own index.html runs inline, so that nothing else may."""
    from streamlit import file_util

    index = (Path(file_util.get_static_dir()) / "index.html").read_text("utf-8")
    found = re.findall(r"<script>(.*?)</script>", index, re.DOTALL)
    return " ".join(f"'sha256-{b64encode(sha256(one.encode()).digest()).decode()}'" for one in found)


@cache
def policy(door: Door) -> str:
    """The content security policy of the pages. Styles are written inline by the server's own scripts."""
    return "; ".join(
        (
            "default-src 'none'",
            f"script-src 'self' {_inline_scripts()}",
            "style-src 'self' 'unsafe-inline'",
            "font-src 'self' data:",
            "img-src 'self' data: blob:",
            f"connect-src 'self' {door.socket_origin}",
            "manifest-src 'self'",
            "worker-src 'self' blob:",
            "form-action 'self'",
            "frame-ancestors 'none'",
            "base-uri 'none'",
        )
    )


def safe_headers(door: Door, path: str, own: bool) -> dict[str, str]:
    """The headers of an answer. own: one of the few pages of dashboard.access, which run no script at all.

    Those hold forms: a browser told to say nothing of where it comes from would not say it of a form either.
    """
    kept = not own and path.startswith(KEPT_BY_BROWSERS)
    return (
        ALWAYS
        | {"content-security-policy": OWN_POLICY if own else policy(door)}
        | ({"referrer-policy": "same-origin"} if own else {})
        | ({} if kept else {"cache-control": "no-store"})
    )
