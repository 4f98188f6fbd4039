"""Settings are one record; an unknown name is a problem with a suggestion."""

from pathlib import Path

import pytest

from qa.settings import Settings, load_settings, settings_text, shipped


def test_written_settings_read_back_the_same(tmp_path: Path):
    wanted = Settings(channel='A "quoted" name, ünïcode', invented=True, region="AU", draft_from=0.8)
    (tmp_path / "levelspoon.toml").write_text(settings_text(wanted), encoding="utf-8")
    assert load_settings(tmp_path / "levelspoon.toml") == (wanted, [])


def test_no_file_means_the_defaults(tmp_path: Path):
    assert load_settings(tmp_path / "none.toml") == (Settings(), [])


@pytest.mark.parametrize(
    ("text", "says", "remedy"),
    [
        ('chanel = "x"', "unknown setting 'chanel'", "'channel'"),
        ("draft_from = 'high'", "draft_from is 'high'", "write a float"),
        ("reply_words = 9.5", "reply_words is 9.5", "write a int"),
        ("channel = ", "not TOML", "mend"),
        ("invented = 1", "invented is 1", "write a bool"),
    ],
)
def test_a_bad_setting_is_named_and_the_rest_still_holds(tmp_path: Path, text, says, remedy):
    (tmp_path / "levelspoon.toml").write_text(text, encoding="utf-8")
    settings, problems = load_settings(tmp_path / "levelspoon.toml")
    assert settings == Settings()
    assert says in problems[0].message
    assert remedy in problems[0].remedy


def test_a_whole_number_will_do_for_a_share(tmp_path: Path):
    (tmp_path / "levelspoon.toml").write_text("draft_from = 1", encoding="utf-8")
    assert load_settings(tmp_path / "levelspoon.toml")[0].draft_from == 1.0


@pytest.mark.parametrize("name", ["knowledge", "templates", "sample_comments"])
def test_what_travels_with_the_program_is_there(name):
    assert shipped(name).is_dir()
