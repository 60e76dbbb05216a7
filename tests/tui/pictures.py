"""Pictures of the five screens, from the bunkhouse's memos: python -m tests.tui.pictures FOLDER [--light] [--size 100x30].

Makes an SVG of each, and a PNG too where a Chromium is there to draw it.
"""

from __future__ import annotations

import argparse
import asyncio
import json
import re
import shutil
import subprocess
import tempfile
from datetime import date, datetime, tzinfo
from pathlib import Path
from unittest.mock import patch

from textual.pilot import Pilot

from journal.session import Session
from journal.tui.app import ReviewApp
from journal.tui.lists import PlainList
from journal.tui.place import PlaceScreen

EVENING = datetime(2026, 7, 24, 17, 30)
MEMOS = Path(__file__).parents[1] / "memos" / "demo_memos.jsonl"


class Evening(datetime):
    """The clock stands at the evening of the pictures."""

    @classmethod
    def now(cls, tz: tzinfo | None = None) -> datetime:
        return EVENING.replace(tzinfo=tz)


def bunkhouse_job(folder: Path) -> Path:
    """The bunkhouse as a job, every memo until the evening of the pictures taken."""
    with Session.open(folder) as session:
        for line in MEMOS.read_text().splitlines():
            row = json.loads(line)
            if datetime.fromisoformat(row["said_at"]) > EVENING:
                break
            session.take_typed(row["text"], datetime.fromisoformat(row["said_at"]).astimezone())
    return folder


async def settled(pilot: Pilot[None]) -> None:
    """Until every worker is done."""
    await pilot.pause(0.3)
    await pilot.app.workers.wait_for_complete()
    await pilot.pause(0.2)


async def take_pictures(job: Path, folder: Path, size: tuple[int, int], *, light: bool = False) -> list[Path]:
    """An SVG of each screen."""
    made = []
    with Session.open(job) as session:
        app = ReviewApp(session, day=date(2026, 7, 13))
        async with app.run_test(size=size) as pilot:
            if light:
                app.action_other_light()
            await settled(pilot)
            await pilot.press("down", "down", "down", "right", "enter", *"31 1/2")
            await settled(pilot)
            made.append(_save(app, folder, "day"))
            await pilot.press("escape", "2")
            await settled(pilot)
            if isinstance(app.screen, PlaceScreen):
                app.screen.show_place("lake gable")
            await settled(pilot)
            rows = app.screen.query_one("#rows", PlainList)
            rows.focus()
            rows.put_cursor(next(name for name in rows.names if name and name.startswith("piece L4")))
            await settled(pilot)
            rows.action_cursor_down()
            await settled(pilot)
            made.append(_save(app, folder, "place"))
            await pilot.press("3")
            await settled(pilot)
            await pilot.press("v", "v")
            made.append(_save(app, folder, "todo"))
            await pilot.press("4")
            await settled(pilot)
            lots = app.screen.query_one("#lots", PlainList)
            drying = [
                row.name for row in lots.rows if row.name and row.name.startswith("dry") and "15 %" in str(row.shown)
            ]
            if drying:
                lots.put_cursor(drying[0])
            app.screen._show_more()  # type: ignore[attr-defined]
            await settled(pilot)
            made.append(_save(app, folder, "stock"))
            await pilot.press("5", *"window")
            await settled(pilot)
            made.append(_save(app, folder, "find"))
    return made


def _save(app: ReviewApp, folder: Path, name: str) -> Path:
    app.clear_notifications()
    path = folder / f"{name}.svg"
    svg = app.export_screenshot(title=f"journal review: {name}")
    # no fonts from elsewhere, and no window that is not ours around the screen
    plain = re.sub(r"@font-face \{.*?\}\s*", "", svg, flags=re.DOTALL)
    path.write_text(re.sub(r"<circle [^>]*/>|<text [^>]*class=\"[^\"]*-title\".*?</text>", "", plain))
    return path


def draw_png(svg: Path) -> Path | None:
    """The PNG of an SVG, None where there is no Chromium."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if chromium is None:
        return None
    png = svg.with_suffix(".png")
    box = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg.read_text())
    width, height = (int(float(one)) for one in box.groups()) if box else (1600, 900)
    how = ["--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", f"--window-size={width},{height}"]
    subprocess.run([chromium, *how, f"--screenshot={png}", svg.absolute().as_uri()], capture_output=True, check=True)
    return png


def main() -> None:
    """Makes them."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--light", action="store_true")
    parser.add_argument("--size", default="100x30")
    given = parser.parse_args()
    width, height = map(int, given.size.split("x"))
    given.folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as place:
        job = bunkhouse_job(Path(place) / "bunkhouse")
        with patch("journal.books.datetime", Evening):
            made = asyncio.run(take_pictures(job, given.folder, (width, height), light=given.light))
    for svg in made:
        print(draw_png(svg) or svg)


if __name__ == "__main__":
    main()
