"""Mistakes in a routine of her own are told in her words, at the line where they are to be mended."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.errors import UnusableInput
from studio.series.routine import read_routine

ROUTINE = '---\ntitle: "Frogs {{{{ n }}}}"\nblanks:\n  n: 1 to 5\n---\n# Frogs\nHere are {{{{ n|words }}}} frogs.\n\n{}\n\nMany frogs!\n'
FOREIGN = re.compile(r"jinja|token|template|statement|block|\bchar\b|expression|\b(?:Div|Pow|Concat|Dict|Name)\b", re.I)


def told(body: str) -> list[str]:
    with pytest.raises(UnusableInput) as error:
        read_routine(ROUTINE.format(body), "frogs", "frogs.routine.md")
    return error.value.sentences()


@pytest.mark.parametrize(
    ("body", "sentence"),
    [
        ("{% if n > 3 %}\nMany.", "'{% if n > 3 %}' is not ended. Write '{% endif %}' where it ends."),
        (
            "{% for a in range(n) %}\nHop.",
            "'{% for a in range(n) %}' is not ended. Write '{% endfor %}' where it ends.",
        ),
        ("{% endif %}", "'{% endif %}' has no '{% if %}' before it."),
        ("{% if n > 3 %}{% endfor %}", "Write '{% endif %}' there."),
        ("{{ n words }}", "Put '|' before 'words': {{ n|words }}"),
        ('{{ n|counted "frog" }}', "Put what 'counted' is given in brackets: counted(...)."),
        ('{{ n|counted("frog) }}', "A quotation mark is missing in '{{ n|counted(\"frog) }}'."),
        ('{{ n|counted("frog" }}', "A bracket is missing in '{{ n|counted(\"frog\" }}'"),
        ("{{ n|counted(frog) }}", "There is no blank 'frog'. A word that is to be said stands in quotation marks"),
        ("{{ n", "'{{' is not closed here. Write '}}' where it ends."),
        ("{% if n = 3 %}x{% endif %}", "Write '==' for 'is the same as'"),
        ("{{ n / 2 }}", "'/' cannot be used here; '//' divides"),
        ("{{ words(n) }}", "'words' stands behind what it changes: {{ n|words }}."),
        ("{{ n.words }}", "Write '|words'."),
        ("{{ n|wrods }}", "Did you mean 'words'?"),
        ("{% if %}a{% endif %}", "'{% if %}' needs what is asked: {% if n > 3 %}."),
        ("{% if n > 3 %}a{% elif %}b{% endif %}", "'{% elif %}' needs what is asked: {% elif n > 3 %}."),
        ("{% for %}a{% endfor %}", "'{% for %}' needs what it goes through: {% for k in range(n) %}."),
        ("{% set %}", "'{% set %}' needs what it is: {% set m = n + 1 %}."),
        ("{{ }}", "There is nothing between '{{' and '}}'."),
    ],
)
def test_a_mistake_in_a_blank_is_told_with_its_line_and_what_is_missing(body: str, sentence: str) -> None:
    (only,) = told(body)
    assert only.startswith("frogs.routine.md, line 9: ") and sentence in only and not FOREIGN.search(only)


@settings(max_examples=300, deadline=None)
@given(st.lists(st.sampled_from(["{{", "}}", "{%", "%}", "{#", "#}", " if ", " else ", " endif ", " for a in ", " set ",
                                 "n", "|words", '"', "'", "(", ")", "=", "==", "+", "/", "[", "!", "frog", " ", "\n"]),
                max_size=12).map("".join))  # fmt: skip
def test_whatever_is_typed_is_read_or_told_without_a_programmers_word(body: str) -> None:
    try:
        read_routine(ROUTINE.format(body), "frogs", "frogs.routine.md")
    except UnusableInput as error:
        assert error.problems
        for problem in error.problems:
            assert problem.line and not FOREIGN.search(problem.message), problem.message
