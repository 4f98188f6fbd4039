"""The commands for the trade's sums beside `weigh` and `swap`."""

from __future__ import annotations

from typing import Annotated

import typer

from qa.cli.commands import _AMOUNTS, At, Json, _bench, _print, app
from qa.errors import InvalidMeasure, LevelspoonError

Region = Annotated[
    str,
    typer.Option(
        "--region", help="Whose spoons and labels: US, CA, UK, IE, EU, AU, NZ, ZA, JP; the channel's if left out."
    ),
]


def _words(words: list[str]) -> str:
    return " ".join(words)


@app.command(context_settings=_AMOUNTS)
def carbs(
    words: Annotated[
        list[str],
        typer.Argument(
            help='A food ("2 tbsp psyllium husk"), a label ("14 g carbs 38 g fibre per 100 g"), '
            'or: compare "3 g per 15 g" "2 g per 7 g".',
            metavar="WORDS...",
        ),
    ],
    region: Region = "",
    at: At = None,
    json: Json = False,
) -> None:
    """Digestible carbohydrate of a food or a label, by region; whether rounding alone can explain two labels."""
    from qa.cli import printed_sums

    sums = _bench(at, starter=True).sums(region)
    if words[0] == "compare":
        if len(words) != 3:
            raise InvalidMeasure(
                f"compare takes two labels, not {len(words) - 1}", 'like: carbs compare "3 g per 15 g" "2 g per 7 g"'
            )
        compared = sums.compare(words[1], words[2])
        _print(compared, printed_sums.compared(compared), json)
        return
    found = sums.carbs(_words(words))
    _print(found, printed_sums.carbs(found), json)


@app.command(context_settings=_AMOUNTS)
def leaven(
    words: Annotated[str, typer.Argument(help='For example "1 tsp baking powder" or "1/4 tsp soda".')],
    acids: Annotated[
        list[str] | None,
        typer.Option("--with", help='An acid beside the soda, "1/2 tsp cream of tartar"; may be repeated.'),
    ] = None,
    region: Region = "",
    at: At = None,
    json: Json = False,
) -> None:
    """What stands in for baking powder; what soda leaves over beside its acids, and how that shows."""
    from qa.cli import printed_sums

    found = _bench(at, starter=True).sums(region).leaven(words, tuple(acids or ()))
    _print(found, printed_sums.leaven(found), json)


@app.command(context_settings=_AMOUNTS)
def sweeten(
    words: Annotated[str, typer.Argument(help='The sugar in the recipe, for example "1 cup sugar".')],
    use: Annotated[str, typer.Option("--with", help="The sweetener to use instead.")],
    region: Region = "",
    at: At = None,
    json: Json = False,
) -> None:
    """Equal sweetness as a range, the bulk that goes missing, the energy saved."""
    from qa.cli import printed_sums

    found = _bench(at, starter=True).sums(region).sweeten(words, use)
    _print(found, printed_sums.sweeten(found), json)


@app.command(context_settings=_AMOUNTS)
def scale(
    words: Annotated[str, typer.Argument(help='An amount, for example "500 g flour"; may be left out.')] = "",
    times: Annotated[float | None, typer.Argument(help="The factor, for example 1.5.")] = None,
    pan: Annotated[str, typer.Option("--pan", help='The recipe\'s pan: "20 cm round", "9x13 inch".')] = "",
    to: Annotated[str, typer.Option("--to", help="Your pan.")] = "",
    eggs: Annotated[float | None, typer.Option("--eggs", help="Eggs in the recipe.")] = None,
    have: Annotated[float | None, typer.Option("--have", help="Eggs on hand.")] = None,
    episode: Annotated[str, typer.Option("--episode", help="Scale the recipe of this episode.")] = "",
    region: Region = "",
    at: At = None,
    json: Json = False,
) -> None:
    """An amount, or an episode's recipe, times a factor: a number, from pan to pan, or by the eggs on hand."""
    from qa.cli import printed_sums

    if bool(pan) != bool(to):
        raise InvalidMeasure("one pan alone gives no factor", 'give both, like --pan "20 cm round" --to "23 cm round"')
    if (eggs is None) != (have is None):
        raise InvalidMeasure("one count of eggs alone gives no factor", "give both, like --eggs 3 --have 2")
    number, amount = _factor(words, times)
    found = (
        _bench(at, starter=True)
        .sums(region)
        .scale(
            amount,
            times=number,
            pans=(pan, to) if pan else None,
            eggs=(eggs, have) if eggs is not None and have is not None else None,
            episode=episode,
        )
    )
    _print(found, printed_sums.scale(found), json)


def _factor(words: str, times: float | None) -> tuple[float | None, str]:
    """The factor and the amount; with a recipe the factor may stand alone ("scale 2 --episode ID")."""
    if times is None:
        try:
            return float(words.replace(",", ".")), ""
        except ValueError:
            pass
    return times, words


@app.command(context_settings=_AMOUNTS)
def heat(
    words: Annotated[str, typer.Argument(help='An oven setting: "350 F", "180 C", "gas mark 4".')] = "",
    altitude: Annotated[str, typer.Option("--altitude", help='Where does water boil there: "1500m", "5000 ft".')] = "",
    core: Annotated[
        str, typer.Option("--core", help="What authorities call a safe core of a food: poultry, egg, all.")
    ] = "",
    at: At = None,
    json: Json = False,
) -> None:
    """Oven settings on every scale; boiling points by altitude; safe core temperatures by authority."""
    from qa.cli import printed_sums

    if sum(map(bool, (words, altitude, core))) != 1:
        raise LevelspoonError(
            "one question at a time", 'like: heat "350 F", heat --altitude 1500m, heat --core poultry'
        )
    sums = _bench(at, starter=True).sums()
    found = sums.oven(words) if words else sums.altitude(altitude) if altitude else sums.core(core)
    _print(found, printed_sums.heat(found), json)


@app.command("check-sum", context_settings=_AMOUNTS)
def check_sum(
    words: Annotated[
        list[str], typer.Argument(help='For example "500 g flour and 350 g water is 70 %".', metavar="WORDS...")
    ],
    region: Region = "",
    at: At = None,
    json: Json = False,
) -> None:
    """Check somebody's own sum: right or not, the line of working, the right figure."""
    from qa.cli import printed_sums

    found = _bench(at, starter=True).sums(region).check_sum(_words(words))
    _print(found, printed_sums.checked(found), json)
