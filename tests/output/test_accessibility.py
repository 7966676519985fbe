"""The HTML sheet passes axe-core, an automated accessibility check, in a real browser.

Skipped where there is no Chromium or no axe-core: `npm install --no-save axe-core` in the checkout brings the latter.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from garmentc.host import DiskHost
from garmentc.output.sheet.files import sheet_files
from garmentc.pipeline import compile_spec

BROWSER = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
AXE = Path("node_modules/axe-core/axe.min.js")
RUN = """
axe.run(document, {resultTypes: ["violations"]}).then(found => {
  const told = document.createElement("pre");
  told.id = "axe-found";
  told.textContent = JSON.stringify({passes: found.passes.map(rule => rule.id),
    violations: found.violations.map(rule => [rule.id, rule.nodes.map(node => node.html)])});
  document.body.append(told);
});
"""
pytestmark = pytest.mark.skipif(BROWSER is None or not AXE.exists(), reason="needs Chromium and axe-core")


def checked(html: str, folder: Path) -> dict[str, Any]:
    """What axe finds on a page; the scripts are only in the copy that is checked."""
    page = folder / "sheet.html"
    scripts = f"<script>{AXE.read_text(encoding='utf-8')}</script><script>{RUN}</script>"
    page.write_text(html.replace("</body>", f"{scripts}</body>"), encoding="utf-8")
    words = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--virtual-time-budget=60000"]
    done = subprocess.run(
        [str(BROWSER), *words, f"--user-data-dir={folder}/profile", "--dump-dom", page.as_uri()],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    told = re.search(r'<pre id="axe-found">(.*?)</pre>', done.stdout, re.DOTALL)
    assert told is not None, done.stderr[-500:]
    found: dict[str, Any] = json.loads(unescape(told[1]))
    return found


def sheet(garment: str = "tern") -> str:
    chart = "specs/sizes/women-en13402.yaml"
    made = compile_spec(DiskHost(), f"specs/{garment}.garment", sizes=chart, only=["88"]).made
    return dict(sheet_files(made[0]))["sheet.html"].decode()


@pytest.mark.parametrize("garment", ["tern", "plover", "avocet"])
def test_a_sheet_has_no_violation_and_its_pictures_and_boxes_are_seen(garment: str, tmp_path: Path) -> None:
    found = checked(sheet(garment), tmp_path)
    assert found["violations"] == []
    assert {"svg-img-alt", "label", "color-contrast", "heading-order"} <= set(found["passes"])


def test_what_a_screen_reader_could_not_tell_would_be_found(tmp_path: Path) -> None:
    broken = re.sub(r'(<svg class="pic" role="img") aria-label="[^"]*"', r"\1", sheet(), count=1)
    assert [rule for rule, _ in checked(broken, tmp_path)["violations"]] == ["svg-img-alt"]
