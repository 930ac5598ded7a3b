"""The house itself: style, types, who imports whom, and what stands at the top level."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "analytics", "dashboard", "tests", "demo_data"}


def run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)


def tracked() -> list[str]:
    return run("git", "ls-files").stdout.splitlines()


@pytest.mark.parametrize(
    "words",
    [
        ("-m", "ruff", "check", "."),
        ("-m", "ruff", "format", "--check", "."),
        ("-m", "mypy"),
        ("-c", "from importlinter.cli import lint_imports_command as run; run()"),
    ],
    ids=["ruff", "format", "mypy", "import-linter"],
)
def test_is_clean(words: tuple[str, ...]) -> None:
    done = run(sys.executable, *words)
    assert done.returncode == 0, done.stdout + done.stderr


def test_top_level_holds_the_seven() -> None:
    assert {path.split("/")[0] for path in tracked() if not path.startswith(".")} == TOP


def test_nothing_is_too_long_to_be_read() -> None:
    most = {path: 300 for path in tracked() if path.endswith(".py")} | {"README.md": 249, "DEVELOPERS.md": 119}
    lines = {path: (ROOT / path).read_text(encoding="utf-8").count("\n") for path in most if (ROOT / path).exists()}
    assert {path: count for path, count in lines.items() if count > most[path]} == {}


def test_ci_runs_the_readme_command() -> None:
    commands = re.findall(r"```sh\n(.*?)\n```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()[-1] == commands[1]


def test_no_path_of_one_machine_and_no_registry_address() -> None:
    """Paths and hosts are put together here, so that this file does not hold them."""
    folders = "|".join(("work", "home/[a-z]+", "root"))
    hosts = "|".join(("pypi", "npmjs", "pythonhosted"))
    pattern = f"(^|[^A-Za-z0-9_.])/({folders})/|://[a-z.-]*({hosts})\\."
    found = run("git", "grep", "-nIE", pattern, "--", ".", ":!*.csv")
    assert found.stdout == ""


def test_roots_starts_without_what_it_does_not_need(tmp_path: Path) -> None:
    """Great Expectations, Streamlit, plotly, pandas and scipy take seconds to import."""
    code = (
        "import sys; from analytics.commands import cli; cli.main(['roots', '--salon', sys.argv[1]]);"
        "heavy = ('great_expectations', 'streamlit', 'plotly', 'pandas', 'scipy');"
        "print([name for name in heavy if name in sys.modules])"
    )
    (tmp_path / "exports").mkdir()
    (tmp_path / "salon.toml").write_text('[salon]\nname = "Small"\n', encoding="utf-8")
    (tmp_path / "exports" / "bookings.csv").write_text(
        "booking_id,client_id,starts_at,minutes,status,service,price\n", encoding="utf-8"
    )
    (tmp_path / "exports" / "menu.csv").write_text("service_id,service,kind,tax_rate,hands_on_min\n", encoding="utf-8")
    assert run(sys.executable, "-m", "analytics.commands.cli", "load", "--salon", str(tmp_path)).returncode == 0
    assert run(sys.executable, "-c", code, str(tmp_path)).stdout.splitlines()[-1] == "[]"


def test_reference_page_is_as_the_definitions_are_now() -> None:
    """python -m analytics.commands.reference writes it."""
    from analytics.commands.reference import PAGE, reference

    assert PAGE.read_text(encoding="utf-8") == reference()


def test_every_setting_has_a_meaning() -> None:
    from analytics.commands.reference import _settings

    assert not [line for line in _settings().splitlines() if line.endswith("|  |")]
