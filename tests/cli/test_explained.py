"""`ask --explain` for people: every step is named, silence with its reason."""

from typer.testing import CliRunner

from qa.cli.commands import app

RUN = CliRunner()


def told(text: str) -> str:
    result = RUN.invoke(app, ["ask", "--explain", text])
    assert result.exit_code == 0, result.output
    return result.output


def test_every_step_of_an_answered_comment_is_shown() -> None:
    words = told("THANKS! &quot;how many grams is 3 tbsp of ground flaxseed?&quot;")
    for part in ("entities", "language en", "Split", "question", "ground flaxseed: flax, ground, 3", "Ask 1: weight",
                 "answered by", "Worked out:", "So: drafted", "21 g"):  # fmt: skip
        assert part in words
    assert "{" not in words


def test_silence_has_its_reason() -> None:
    assert "Nothing is asked." in told("what a lovely loaf, thank you")
    health = told("I take warfarin, is a spoonful of flaxseed a day safe for me?")
    assert "silent, health" in health
    assert "So: needs you (health" in health
