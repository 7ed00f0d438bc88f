"""The one-way flow: a room imports only rooms on its left."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import studio

ROOT = Path(studio.__file__).parent
FLOW = [
    "script", "talk", "pictures", "stage", "agree", "suggest", "listen", "timing", "captions", "film", "audit",
    "handout", "kit", "series",
]  # fmt: skip
# Rooms side by side: what stands on the right of these and is not fed by them.
APART = {"listen": {"talk", "script", "pictures"}, "pictures": {"script"}}


def imported_rooms(path: Path) -> set[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    names = [node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    names += [alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names]
    return {name.split(".")[1] for name in names if name.startswith("studio.") and name.split(".")[1] in FLOW}


def test_no_room_imports_one_on_its_right() -> None:
    wrong = [
        f"{path.relative_to(ROOT)} imports {other}"
        for index, room in enumerate(FLOW)
        for path in (ROOT / room).rglob("*.py")
        for other in imported_rooms(path)
        if FLOW.index(other) > index or (room in APART and other != room and other not in APART[room])
    ]
    assert not wrong


def test_help_loads_no_model_and_no_video_library() -> None:
    code = (
        "import sys; from studio.cli import main\n"
        "try: main(['--help'])\n"
        "except SystemExit: pass\n"
        "heavy = {'numpy', 'scipy', 'PIL', 'av', 'moviepy', 'faster_whisper', 'ctranslate2', 'lark', 'yaml', 'jinja2',"
        " 'typst', 'pydub'}\n"
        "sys.exit(', '.join(heavy & set(sys.modules)) or 0)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
