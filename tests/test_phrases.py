"""Patterns written over several lines say what they seem to say."""

import pkgutil
import re
from importlib import import_module

import qa


def patterns() -> list[tuple[str, re.Pattern[str]]]:
    """Every pattern of the program by the name of its module and its own."""
    modules = [import_module(found.name) for found in pkgutil.walk_packages(qa.__path__, "qa.")
               if not found.name.endswith("__main__")]  # fmt: skip
    return [
        (f"{module.__name__}.{name}", value)
        for module in modules
        for name, value in vars(module).items()
        if isinstance(value, re.Pattern) and isinstance(value.pattern, str)
    ]


def test_no_pattern_holds_the_line_break_it_was_wrapped_at() -> None:
    """A break inside an alternative makes it one that no comment can meet."""
    found = patterns()
    assert len(found) > 100
    assert [name for name, one in found if "\n" in one.pattern and not one.flags & re.VERBOSE] == []
