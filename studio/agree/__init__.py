"""Said against shown: the agreement check. Each rule is one file in `rules/`."""

from __future__ import annotations

from studio.agree.check import Agreement, Shown, check, check_talk

__all__ = ["Agreement", "Shown", "check", "check_talk"]
