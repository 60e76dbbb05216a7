"""The pictures of the README: the script makes all five, each of its own screen and small enough to be looked at."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path
from unittest.mock import patch

from tests.tui.pictures import Evening, bunkhouse_job, take_pictures

ROOT = Path(__file__).parents[2]
SHOWN = {
    "day": "Enter keeps it: wall A",
    "place": "Cut list, 31 of 32 open",
    "todo": "when the staging comes down",
    "stock": "To buy",
    "find": "window sill height on wall a thirty two inches",
}
"""Something that stands on one screen only."""


def words(svg: Path) -> str:
    """The text of a picture without its styles; a space between any two words, since each style begins a text of its own."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", svg.read_text())).split())


async def test_the_script_makes_all_five(tmp_path: Path) -> None:
    """Each picture shows its screen, fetches nothing from elsewhere and is smaller than 120 kB."""
    job = bunkhouse_job(tmp_path / "bunkhouse")
    with patch("journal.books.datetime", Evening):
        made = await take_pictures(job, tmp_path, (100, 30))
    assert {path.stem: SHOWN[path.stem] in words(path) for path in made} == dict.fromkeys(SHOWN, True)
    assert all(path.stat().st_size < 120_000 for path in made)
    assert not any("url(" in path.read_text().replace("url(#", "") for path in made)


def test_the_readme_shows_all_five() -> None:
    """The README shows the five pictures that are kept, by relative path."""
    shown = re.findall(r"!\[[^\]]+\]\((tests/tui/pictures/\w+\.svg)\)", (ROOT / "README.md").read_text())
    assert shown == [f"tests/tui/pictures/{name}.svg" for name in SHOWN]
    assert all(SHOWN[Path(path).stem] in words(ROOT / path) for path in shown)
