"""A fitted forest of trees kept as plain numbers: to use it imports nothing that takes long.

The trees are the extremely randomised ones of Geurts, Ernst and Wehenkel, "Extremely randomized trees", Machine
Learning 63 (2006). Beside a weighted sum of evidence they see what only counts together: a wording that is near means
little where the most telling word is strange.

>>> both = Forest.fit([[0.0, 0.0], [0.0, 1.0], [1.0, 0.0], [1.0, 1.0]] * 10, [False, True, True, False] * 10)
>>> [round(float(p)) for p in both.of([[0.0, 1.0], [1.0, 1.0]])]
[1, 0]
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

_SEED = 20260302
_TREES = 200
# Cases that must agree in a leaf, and the share of the evidence that is looked at for each parting.
_FEWEST, _LOOKED_AT = 3, 0.4
_NO_EVIDENCE = -2  # what stands for the evidence of a leaf


@dataclass(frozen=True, slots=True)
class Forest:
    """All nodes of all trees in a row.

    Attributes:
        roots: where each tree begins.
        evidence: which piece of evidence a node parts by; below 0 for a leaf.
        limit: up to which value a case goes left.
        left, right: where it goes on.
        share: how many of a node's cases were so, 0 to 1.
    """

    roots: NDArray[np.int64]
    evidence: NDArray[np.int64]
    limit: NDArray[np.float64]
    left: NDArray[np.int64]
    right: NDArray[np.int64]
    share: NDArray[np.float64]

    @classmethod
    def fit(cls, evidence: Any, labels: Sequence[bool] | NDArray[Any]) -> Forest:
        """Fit on cases, some of which are so and some not; the same cases give the same forest.

        Raises:
            ValueError: all labels are alike.
        """
        from sklearn.ensemble import ExtraTreesClassifier

        rows, right = np.asarray(evidence, dtype=np.float32), np.asarray(labels, dtype=bool)
        if right.all() or not right.any():
            raise ValueError("a forest cannot learn from labels that are all alike: give some of each")
        model = ExtraTreesClassifier(_TREES, min_samples_leaf=_FEWEST, max_features=_LOOKED_AT, random_state=_SEED).fit(
            rows, right
        )
        trees = [one.tree_ for one in model.estimators_]
        roots = np.cumsum([0, *(tree.node_count for tree in trees)])[:-1]
        counts = np.concatenate([tree.value[:, 0, :] for tree in trees])
        return cls(
            roots=roots,
            evidence=np.concatenate([tree.feature for tree in trees]),
            limit=np.concatenate([tree.threshold for tree in trees]),
            left=np.concatenate([tree.children_left + root for tree, root in zip(trees, roots, strict=True)]),
            right=np.concatenate([tree.children_right + root for tree, root in zip(trees, roots, strict=True)]),
            share=counts[:, 1] / counts.sum(axis=1),
        )

    def of(self, evidence: Any) -> NDArray[np.float64]:
        """The probability of each case, 0 to 1: the mean of the leaves that it comes to."""
        rows = np.asarray(evidence, dtype=np.float32)
        at = np.broadcast_to(self.roots, (len(rows), len(self.roots))).copy()
        cases = np.arange(len(rows))[:, None]
        while (inner := self.evidence[at] > _NO_EVIDENCE).any():
            goes_left = rows[cases, np.maximum(self.evidence[at], 0)] <= self.limit[at]
            at = np.where(inner, np.where(goes_left, self.left[at], self.right[at]), at)
        return np.asarray(self.share[at].mean(axis=1))
