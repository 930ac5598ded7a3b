"""The few pages that stand outside the gate: the one-time link, pairing, signing in and out. They run no script.

None of them says whose salon it is, before somebody is known.
"""

import asyncio
import secrets
import time
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from datetime import date
from html import escape
from http import HTTPStatus
from pathlib import Path

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.types import Receive, Scope

from analytics.stops import WorkStopped
from dashboard.access import passphrases
from dashboard.access.cookies import (
    LOGIN,
    PHONE,
    PHONE_FOR_S,
    login_value,
    new_login,
    phone_value,
    read_login,
    read_phone,
    set_cookie,
)
from dashboard.access.doors import Door
from dashboard.access.tickets import ENTER, PAIR, look_up, use_up
from dashboard.access.vault import Ended, Person, Phone, Vault, changed, read_vault

HERE_FOR_S = 7 * 24 * 3600  # a sign-in by the link of this machine, unless the browser is closed before
MOST_FORM_BYTES = 4000
OUTSIDE = (
    "These pages open with the link that salon-figures dashboard shows. Run it again on this machine for a new one."
)
NOT_PAIRED = "This phone is not paired. The owner shows a code for it on the page People and phones."
USED_UP = "This link was used already, or is too old. Run salon-figures dashboard again on this machine for a new one."
CODE_USED_UP = "This code was used already, or is too old. The owner shows a new one on the page People and phones."
STYLE = """body{font:1.1rem/1.5 system-ui,sans-serif;max-width:30rem;margin:12vh auto;padding:0 1.2rem;
background:#fbf9f6;color:#2b211b}label{display:block;margin:1rem 0 .2rem}input{font:inherit;width:100%;
box-sizing:border-box;padding:.6rem}button{font:inherit;padding:.6rem 1.2rem;margin-top:1.2rem;min-height:2.75rem}
@media(prefers-color-scheme:dark){body{background:#1d1916;color:#efe8e1}}"""


def _page(body: str, status: int = HTTPStatus.OK, more: str = "") -> HTMLResponse:
    head = f'<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">{more}'
    return HTMLResponse(
        f'<!doctype html><html lang="en"><head>{head}<title>Sign in</title><style>{STYLE}</style></head>'
        f"<body>{body}</body></html>",
        status_code=status,
    )


def sentence(text: str, status: int = HTTPStatus.UNAUTHORIZED) -> HTMLResponse:
    """A page that says one thing."""
    return _page(f"<p>{escape(text)}</p>", status)


def _passphrase(name: str, label: str, complete: str) -> str:
    longest = passphrases.LONGEST
    return (
        f'<label for="{name}">{escape(label)}</label><input id="{name}" name="{name}" type="password" required '
        f'maxlength="{longest}" autocomplete="{complete}">'
    )


@dataclass
class Rooms:
    """Answers of the paths that are ours. signed_in_s: how long a sign-in on the network lasts."""

    salon: Path
    signed_in_s: float
    attempts: passphrases.Attempts = field(default_factory=passphrases.Attempts)

    async def answer(self, scope: Scope, receive: Receive, door: Door) -> Response | None:
        """The answer where the path is ours, else None."""
        request = Request(scope, receive)
        known: dict[str, Callable[[Request, Door], Awaitable[Response]]] = {"/sign-out": self._sign_out}
        known |= {"/pair": self._pair, "/sign-in": self._sign_in} if door.on_network else {"/enter": self._enter}
        room = known.get(request.url.path)
        if room is None:
            return None
        if request.method not in ("GET", "POST"):
            return Response(status_code=HTTPStatus.METHOD_NOT_ALLOWED)
        return await room(request, door)

    def outside(self, scope: Scope, door: Door) -> Response:
        """What stands before the pages for whoever is not signed in."""
        request, vault = Request(scope), read_vault(self.salon)
        wants_page = "text/html" in request.headers.get("accept", "") and request.method == "GET"
        if not wants_page:
            return Response(status_code=HTTPStatus.UNAUTHORIZED)
        if not door.on_network:
            return sentence(OUTSIDE)
        phone = read_phone(vault, request.cookies.get(door.cookie(PHONE), ""))
        return sentence(NOT_PAIRED) if phone is None else _sign_in_form(vault, phone)

    async def _enter(self, request: Request, door: Door) -> Response:
        """The link of this machine: it opens once."""
        person = await asyncio.to_thread(use_up, self.salon, ENTER, request.query_params.get("code", ""))
        if person is None:
            return sentence(USED_UP)
        login = new_login(person, HERE_FOR_S)
        return _let_in({LOGIN: (login_value(read_vault(self.salon), login, door), None)}, door)

    async def _pair(self, request: Request, door: Door) -> Response:
        form = await _form(request)
        code = str(form.get("code", "")) or request.query_params.get("code", "")
        vault = read_vault(self.salon)
        ticket = look_up(vault, PAIR, code)
        person = vault.person(ticket.person) if ticket else None
        if ticket is None or person is None:
            return sentence(CODE_USED_UP)
        if request.method == "GET":
            return _pair_form(person, code)
        wrong = await self._not_theirs(person, form)
        if wrong:
            return _pair_form(person, code, wrong)
        if await asyncio.to_thread(use_up, self.salon, PAIR, code) is None:
            return sentence(CODE_USED_UP)
        phone = await asyncio.to_thread(self._keep_phone, person, str(form.get("phone", "")))
        return self._signed_in(phone, door, pairing=True)

    async def _not_theirs(self, person: Person, form: FormData) -> str:
        """Why this passphrase does not do; "" where it is theirs, or is theirs from now on."""
        given = str(form.get("passphrase", ""))
        if not person.passphrase:
            if given != str(form.get("again", "")):
                return "The two are not the same; type them once more."
            try:
                kept = await asyncio.to_thread(passphrases.hashed, given)
                await asyncio.to_thread(self._keep_passphrase, person, kept)
            except WorkStopped as stopped:
                return str(stopped)
            return ""
        return await self._wrong(person, given, person.key)

    async def _wrong(self, person: Person, given: str, who: str) -> str:
        """Why this is not their passphrase; "" where it is. Wrong ones make the next wait, by who gives them."""
        wait = self.attempts.wait_s(who)
        if wait:
            return f"Wait {wait} seconds, then try again."
        self.attempts.was_wrong(who)  # before it is looked at, so that many at once are many
        if await asyncio.to_thread(passphrases.matches, person.passphrase, given):
            self.attempts.was_right(who)
            return ""
        return "That is not the passphrase; try again."

    def _keep_passphrase(self, person: Person, kept: str) -> None:
        with changed(self.salon) as vault:
            now = vault.person(person.key)
            if now is None or now.passphrase:
                raise WorkStopped("A passphrase was chosen in the meantime; use that one.")
            vault.put(now.model_copy(update={"passphrase": kept}))

    def _keep_phone(self, person: Person, name: str) -> Phone:
        named = name.strip()[:60] or f"{person.name}'s phone"
        phone = Phone(key=secrets.token_hex(8), person=person.key, name=named, paired_on=date.today().isoformat())
        with changed(self.salon) as vault:
            vault.phones = [*vault.phones, phone]
        return phone

    async def _sign_in(self, request: Request, door: Door) -> Response:
        vault = read_vault(self.salon)
        phone = read_phone(vault, request.cookies.get(door.cookie(PHONE), ""))
        person = vault.person(phone.person) if phone else None
        if phone is None or person is None:
            return sentence(NOT_PAIRED)
        if request.method == "GET":
            return _sign_in_form(vault, phone)
        given = str((await _form(request)).get("passphrase", ""))
        wrong = await self._wrong(person, given, phone.key)  # guesses on a lost phone do not hold up the others
        return _sign_in_form(vault, phone, wrong) if wrong else self._signed_in(phone, door)

    def _signed_in(self, phone: Phone, door: Door, pairing: bool = False) -> Response:
        vault = read_vault(self.salon)
        login = new_login(phone.person, self.signed_in_s, phone.key)
        cookies: dict[str, tuple[str, float | None]] = {LOGIN: (login_value(vault, login, door), self.signed_in_s)}
        if pairing:
            cookies[PHONE] = (phone_value(vault, phone), PHONE_FOR_S)
        return _let_in(cookies, door)

    async def _sign_out(self, request: Request, door: Door) -> Response:
        """Ends the sign-in on the server too: a copy of the cookie is worth nothing afterwards."""
        login = read_login(read_vault(self.salon), request.cookies.get(door.cookie(LOGIN), ""), door)
        if login is None:
            return sentence("You are signed out.", HTTPStatus.OK)
        if request.method == "GET":
            return _page('<form method="post" action="/sign-out"><p>Sign out here?</p><button>Sign out</button></form>')
        await asyncio.to_thread(self._end, login.key, login.until)
        answer = sentence("You are signed out.", HTTPStatus.OK)
        answer.headers.append("set-cookie", set_cookie(door, LOGIN, "", 0))
        return answer

    def _end(self, login: str, until: float) -> None:
        with changed(self.salon) as vault:
            vault.ended = [*(one for one in vault.ended if one.until > time.time()), Ended(login=login, until=until)]


async def _form(request: Request) -> FormData:
    """The fields of a form that was sent; none where nothing was, or far too much."""
    size = request.headers.get("content-length", "")
    short = size.isdigit() and int(size) <= MOST_FORM_BYTES
    plain = request.headers.get("content-type", "").startswith("application/x-www-form-urlencoded")
    return await request.form() if request.method == "POST" and short and plain else FormData()


def _let_in(cookies: dict[str, tuple[str, float | None]], door: Door) -> Response:
    """The cookies, and from our own page on to the pages: after a redirect strict cookies might not be sent."""
    answer = _page('<p><a href="/">Go on to the pages</a></p>', more='<meta http-equiv="refresh" content="0; url=/">')
    for purpose, (value, seconds) in cookies.items():
        answer.headers.append("set-cookie", set_cookie(door, purpose, value, seconds))
    return answer


def _told(wrong: str) -> str:
    return f'<p role="alert">{escape(wrong)}</p>' if wrong else ""


def _pair_form(person: Person, code: str, wrong: str = "") -> Response:
    if person.passphrase:
        fields = _passphrase("passphrase", "Your passphrase", "current-password")
    else:
        fields = _passphrase("passphrase", "Choose a passphrase: a few words that only you know", "new-password")
        fields += _passphrase("again", "The same again", "new-password")
    return _page(
        f'<form method="post" action="/pair"><p>Pair this phone for {escape(person.name)}.</p>{_told(wrong)}'
        f'<input type="hidden" name="code" value="{escape(code)}"><label for="phone">What to call this phone</label>'
        f'<input id="phone" name="phone" maxlength="60" value="{escape(person.name)}\'s phone">{fields}'
        "<button>Pair</button></form>",
        HTTPStatus.UNAUTHORIZED if wrong else HTTPStatus.OK,
    )


def _sign_in_form(vault: Vault, phone: Phone, wrong: str = "") -> Response:
    person = vault.person(phone.person)
    if person is None:
        return sentence(NOT_PAIRED)
    return _page(
        f'<form method="post" action="/sign-in"><p>{escape(phone.name)}, for {escape(person.name)}</p>{_told(wrong)}'
        f"{_passphrase('passphrase', 'Passphrase', 'current-password')}<button>Sign in</button></form>",
        HTTPStatus.UNAUTHORIZED,
    )


def owner_link(door: Door, code: str) -> str:
    """The link that opens the pages on this machine, once."""
    return f"{door.origin}/enter?code={code}"
