"""Groups that are written with a sign."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.script.reader import read


@pytest.mark.parametrize("sign", ["×", "*", "x", "times"])
def test_so_many_times_so_many_is_read_with_any_sign(sign: str) -> None:
    """3 × 2 = 6, three groups of two (3.OA.A.1 of the CCSSM)."""
    for product, wrong in ((6, 0), (7, 1)):
        found = check(read(f"---\ntitle: Pads\n---\n3 {sign} 2 = {product}.\n"))
        assert [statement.values for statement in found.statements] == [(3, 2, product)]
        assert len(found.errors) == wrong


@pytest.mark.parametrize("sign", ["÷", "/", "divided by"])
def test_a_division_is_left_alone(sign: str) -> None:
    assert not check(read(f"---\ntitle: Pads\n---\n6 {sign} 2 = 3.\n")).errors
