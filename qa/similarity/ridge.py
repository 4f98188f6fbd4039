"""Ridge regression on the likeness of rows, with the scores each row, or group of rows, gets when it is left out."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64] | NDArray[np.float32]


def dual(kernel: Floats, wanted: Floats, ridge: float | Floats) -> Floats:
    """The weight of each row of the kernel in every score; `ridge` may differ from row to row."""
    from scipy.linalg import cho_factor, cho_solve

    solution: Floats = cho_solve(cho_factor(_system(kernel, ridge), overwrite_a=True), wanted)
    return solution


def dual_and_left_out(
    kernel: Floats, wanted: Floats, ridge: float | Floats, *groupings: Sequence[Hashable]
) -> tuple[Floats, ...]:
    """The weights as `dual` gives them, then for each grouping the rows' scores by a model fitted without their group.

    The scores follow in closed form: for the rows G of a group the left-out residual is inv(inverse[G, G]) @
    weights[G], where inverse is that of the system (ridge regression's leave-one-out identity).

    >>> weights, left_out = dual_and_left_out(np.eye(2), np.array([[1.0], [0.0]]), 1.0, ["a", "b"])
    >>> left_out.tolist()
    [[0.0], [0.0]]
    """
    inverse = _inverse(_system(kernel, ridge))
    weights = inverse @ wanted
    return (weights, *(_left_out(inverse, weights, wanted, groups) for groups in groupings))


def _inverse(system: Floats) -> Floats:
    """The inverse by Cholesky factors, half the work of the general one."""
    from scipy.linalg import cho_factor, get_lapack_funcs

    factor, lower = cho_factor(system, lower=True, overwrite_a=True)
    potri: Any = get_lapack_funcs("potri", (factor,))
    half, singular = potri(factor, lower=lower, overwrite_c=True)
    if singular:
        raise np.linalg.LinAlgError("the likeness of the rows is singular: give a ridge above 0")
    half = np.tril(half)
    half += np.tril(half, -1).T
    return np.asarray(half)


def _left_out(inverse: Floats, weights: Floats, wanted: Floats, groups: Sequence[Hashable]) -> Floats:
    scores = np.zeros_like(weights)
    rows_of: dict[Hashable, list[int]] = {}
    for row, group in enumerate(groups):
        rows_of.setdefault(group, []).append(row)
    for rows in rows_of.values():
        scores[rows] = wanted[rows] - np.linalg.solve(inverse[np.ix_(rows, rows)], weights[rows])
    return scores


def _system(kernel: Floats, ridge: float | Floats) -> Floats:
    system = kernel.copy()
    system[np.diag_indices_from(system)] += ridge
    return system
