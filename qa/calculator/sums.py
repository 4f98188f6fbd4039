"""All the sums over one library, in one region's measures and labels."""

from __future__ import annotations

from dataclasses import dataclass

from qa import contract
from qa.calculator import carbs, check, heat, leaven, scale, sweeten, weights
from qa.errors import InvalidMeasure
from qa.knowledge.library import Library

REGIONS = ("US", "CA", "UK", "IE", "EU", "AU", "NZ", "ZA", "JP")
_ALSO = {"GB": "UK", "USA": "US"}


@dataclass(frozen=True, eq=False)
class Sums:
    """What a tester works out on paper, from words as typed.

    Attributes:
        library: where the facts are.
        region: whose spoons, cups and labels are meant, one of REGIONS; '' if that is not known.
    """

    library: Library
    region: str = ""

    @classmethod
    def of(cls, library: Library, region: str) -> Sums:
        """For a region as somebody typed it; InvalidMeasure for one that is not known."""
        said = region.strip().upper()
        known = _ALSO.get(said, said)
        if known and known not in REGIONS:
            raise InvalidMeasure(f"no region is called {region.strip()!r}", f"there are: {', '.join(REGIONS)}")
        return cls(library, known)

    def weigh(self, words: str) -> contract.WeighShape:
        """Grams of "2 tbsp potato starch"; spoons of "100 g honey in tbsp"; other sources beside it."""
        return weights.weigh(words, self.library, self.region)

    def swap(self, words: str, use: str) -> contract.SwapShape:
        """How much of another ingredient stands in for "1 tbsp ground flax"."""
        return weights.swap(words, use, self.library, self.region)

    def carbs(self, words: str) -> contract.CarbsShape:
        """Digestible carbohydrate of a food or a label."""
        return carbs.carbs(words, self.library, self.region)

    def compare(self, first: str, second: str) -> contract.ComparedShape:
        """Whether rounding alone can explain two labels."""
        return carbs.compare(first, second, self.library, self.region)

    def leaven(self, words: str, acids: tuple[str, ...] = ()) -> contract.LeavenShape:
        """What stands in for baking powder, or what soda leaves over beside acids."""
        return leaven.leaven(words, acids, self.library, self.region)

    def sweeten(self, words: str, use: str) -> contract.SweetenShape:
        """A sweetener as sweet as an amount of sugar."""
        return sweeten.sweeten(words, use, self.library, self.region)

    def scale(
        self,
        words: str = "",
        *,
        times: float | None = None,
        pans: tuple[str, str] | None = None,
        eggs: tuple[float, float] | None = None,
        episode: str = "",
    ) -> contract.ScaleShape:
        """An amount, or an episode's recipe, times a factor."""
        return scale.scale(words, self.library, self.region, times=times, pans=pans, eggs=eggs, episode=episode)

    def check_sum(self, words: str) -> contract.CheckedShape:
        """Somebody's own sum, checked."""
        return check.check_sum(words, self.library, self.region)

    def oven(self, words: str) -> contract.HeatShape:
        """An oven setting on every scale."""
        return heat.oven(words)

    def altitude(self, words: str) -> contract.HeatShape:
        """Where water boils at an altitude."""
        return heat.altitude(words)

    def core(self, food: str) -> contract.HeatShape:
        """What authorities call a safe core temperature."""
        return heat.core(food)
