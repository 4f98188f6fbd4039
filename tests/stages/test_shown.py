"""What an ask leaves to the upload that it stands under."""

import pytest

from qa.pipeline import Models
from qa.records import Comment
from qa.settings import Settings
from qa.stages import clean, extract, sort
from qa.workbench import Workbench


@pytest.fixture(scope="module")
def said(tmp_path_factory):
    """A reader of comments under the demo's uploads, which are invented."""
    folder = tmp_path_factory.mktemp("shown") / "bench"
    bench = Workbench.create(folder, Settings(channel="Quillberry Test Kitchen", invented=True))
    models: Models = bench.models

    def read(text, episode):
        comment = Comment("one", text, episode=episode)
        cleaned = clean.clean([comment])
        pieces = sort.sort(cleaned, models.kinds, [""])
        (found,) = extract.extract(cleaned, pieces, [comment], bench.library, bench.settings, models.asks)
        return found.asks[0]

    return read


def test_a_bake_that_is_not_named_is_the_one_that_was_shown(said):
    assert said("how long do these keep?", "green-cookies").dish == "cookies"
    assert said("how long do these keep?", "seed-eggs").dish == "muffins"
    assert said("how long do these keep?", "").dish == ""


def test_a_bake_that_is_named_is_not_taken_for_the_one_that_was_shown(said):
    assert said("would this work for scones?", "green-cookies").dish == "scones"


def test_the_fault_that_the_title_is_about_is_that_of_its_ingredients(said):
    assert said("why did mine turn green overnight?", "green-cookies").items == ("sunflower.butter",)
    assert said("why did mine turn purple overnight?", "green-cookies").items == ()
    assert said("why did my pistachio cake turn green?", "green-cookies").items != ("sunflower.butter",)


def test_a_sum_is_about_no_dish(said):
    assert said("how many grams is a cup of oat flour?", "green-cookies").dish == ""
