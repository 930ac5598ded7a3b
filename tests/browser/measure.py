"""How long every page is and how much stands on it: python -m tests.browser.measure LINK [PAGE …].

LINK: the link that salon-figures dashboard shows; it opens the pages once. Prints, per page and width: its height, the
words and numbers that can be seen with everything folded, and where the first thing to tap or fill in ends (all in px
from the top; 0 where there is none). No test: figures to hold a change against.
"""

import sys

from playwright.sync_api import Browser

from dashboard.page import pages
from tests.browser.chromium import address, browser, settle
from tests.browser.screenshots import WIDTHS
from tests.browser.serving import sign_in

MEASURED = """() => {
  const main = document.querySelector('.stMainBlockContainer');
  const foot = document.querySelector('.st-key-foot');
  const scroll = Math.max(...[...document.querySelectorAll('.stMain, .stMainBlockContainer')].map(e => e.scrollHeight));
  const text = main.innerText;
  const answer = document.querySelector('h1.answer').getBoundingClientRect().bottom;
  const ends = [...main.querySelectorAll('button, a, input, summary')]
    .filter(e => e.offsetParent && !e.closest('.st-key-filters') && !(foot && foot.contains(e)))
    .map(e => e.getBoundingClientRect().bottom).filter(e => e > answer);
  return {
    height: scroll,
    words: text.split(/\\s+/).filter(w => /\\p{L}/u.test(w)).length,
    numbers: (text.match(/[0-9][0-9.,]*/g) || []).length,
    answer: Math.round(answer),
    action: Math.round(ends.length ? Math.min(...ends) : 0),
  };
}"""


def measured(running: Browser, base: str, name: str, look: str) -> dict[str, int]:
    """What one page measures at one width: height, words, numbers, ends of its answer and of its first action."""
    page = running.new_page(viewport={"width": WIDTHS[look], "height": 844})
    page.goto(address(base, name))
    settle(page)
    page.wait_for_timeout(1500)  # pictures take their height once they are drawn
    found: dict[str, int] = page.evaluate(MEASURED)
    page.close()
    return found


def main() -> None:
    """Every page of a running salon, or those named."""
    base, names = sign_in(sys.argv[1]), sys.argv[2:] or list(pages())
    print(f"{'page':12} {'look':7} {'height':>7} {'words':>6} {'numbers':>8} {'answer':>7} {'action':>7}")
    with browser() as running:
        for name in names:
            for look in WIDTHS:
                found = measured(running, base, name, look)
                print(f"{name:12} {look:7} " + " ".join(
                    f"{found[key]:>{wide}}" for key, wide in
                    (("height", 7), ("words", 6), ("numbers", 8), ("answer", 7), ("action", 7))
                ))  # fmt: skip


if __name__ == "__main__":
    main()
