"""The kind of work that the name of a service speaks of: a proposal, to be confirmed by whoever wrote the menu."""

from functools import cache

from analytics.definitions.tables import SERVICE_KINDS
from analytics.intake.meaning.words import VALUES
from analytics.intake.meaning.words.spelling import BETWEEN, plain

OTHER = "other"
SHORTEST_PART = 5  # letters of a word that counts within a longer one

MORE = {
    "root_touch_up": "root roots ansatz uitgroei racine racines repousse ricrescita raiz raices regrowth nachwuchs",
    "full_colour": "colour color farbe farben farbung kleuring kleuren verven coloration couleur colore tinte tinta",
    "lightening": "highlights lowlights strahnen blondierung blonderen meches balayage decoloration mechas colpi "
    "schiariture decolorazione lightening bleach foils babylights aufhellung",
    "toner": "toner toning gloss glossing tonung patine tonalizzante matizador matiz",
    "cut": "cut haircut trim fringe knippen knipbeurt pony coupe frange schneiden haarschnitt schnitt taglio frangia "
    "corte flequillo",
    "styling": "dry blow styling fohnen stylen brushing coiffage piega acconciatura peinado secado hochstecken updo "
    "opsteken waschen wash set",
    "treatment": "treatment mask care masker verzorging soin masque kur pflege maschera trattamento mascarilla "
    "tratamiento behandeling",
}
"""Words of names in six languages (general; which kind a mixed name is, decides the order of KINDS)."""

KINDS = ("root_touch_up", "lightening", "toner", "full_colour", "cut", "treatment", "styling")
"""The first kind that a name speaks of: a cut with a blow-dry is a cut, a colour of the roots is a root touch-up."""


def kind_named(name: str) -> str:
    """'Ansatz färben' -> 'root_touch_up'; 'other' where the name speaks of none."""
    whole = plain(name).strip()
    exact = next((kind for kind in SERVICE_KINDS if whole in _listed(kind)), None)
    if exact:
        return exact
    tokens = [token for token in BETWEEN.split(whole) if token]
    return next((kind for kind in KINDS if any(_speaks(token, kind) for token in tokens)), OTHER)


def proposed_kind(word: str, name: str) -> str | None:
    """The kind that a menu's own word for it speaks of, made more exact by the name; None where neither says any."""
    by_word, by_name = kind_named(word), kind_named(name)
    if by_word == OTHER or (by_word == "full_colour" and by_name in ("root_touch_up", "toner", "lightening")):
        by_word = by_name
    return None if by_word == OTHER else by_word


def _speaks(token: str, kind: str) -> bool:
    return any(token == word or (len(word) >= SHORTEST_PART and word in token) for word in MORE[kind].split())


@cache
def _listed(kind: str) -> frozenset[str]:
    return frozenset(plain(word) for word in VALUES["services.kind"].get(kind, ()))
