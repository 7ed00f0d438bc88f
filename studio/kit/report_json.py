"""`report.json`: for anyone who wants to open the film at a time and count."""

from __future__ import annotations

import json
from typing import Any

from studio.kit.contents import KitContents


def report_values(contents: KitContents) -> dict[str, Any]:
    """The report's values; extras come after the fixed keys and do not replace them."""
    fixed = {
        "duration": round(contents.sheet.duration, 3),
        "fps": contents.fps,
        "chapters": [{"title": c.title, "start": c.start} for c in contents.chapters],
        "findings": [finding.as_json() for finding in contents.all_findings],
        "retakes": [retake.as_json() for retake in contents.retakes],
        "noticed": list(contents.noticed),
        "cues": [dict(cue) for cue in contents.cues],
    }
    audit = {} if contents.audit is None else {"audit": dict(contents.audit)}
    return {**fixed, **{key: value for key, value in {**audit, **contents.extras}.items() if key not in fixed}}


def report_json(contents: KitContents) -> str:
    """The same as JSON text."""
    return json.dumps(report_values(contents), ensure_ascii=False, indent=1) + "\n"
