"""Products of sparse rows with many others, fast: the columns that many rows share are multiplied densely."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]

# A column that more than one row in a hundred has makes a sparse product slower than a dense one.
_COMMON = 0.01
# At most so many dense columns, the commonest, which bounds the memory.
_MOST_COMMON = 2_000


class Products:
    """Rows to multiply others with.

    >>> from scipy.sparse import csr_matrix
    >>> Products(csr_matrix([[1.0, 0.0], [0.5, 0.5]])).of(csr_matrix([[0.0, 1.0]])).tolist()
    [[0.0, 0.5]]
    """

    def __init__(self, rows: Any) -> None:
        """Set the columns apart once."""
        from scipy.sparse import csc_matrix

        having = np.diff(csc_matrix(rows).indptr)
        most = np.argsort(-having, kind="stable")[:_MOST_COMMON]
        self._common = np.zeros(len(having), dtype=bool)
        self._common[most[having[most] > _COMMON * rows.shape[0]]] = True
        dense, rare = self._parts(rows)
        self._dense, self._rare = np.ascontiguousarray(dense.T), rare.T.tocsr()

    def of(self, rows: Any) -> Floats:
        """The product of each of these rows with each row that was given first."""
        dense, rare = self._parts(rows)
        product: Floats = dense @ self._dense
        product += (rare @ self._rare).toarray()
        return product

    def _parts(self, rows: Any) -> tuple[Floats, Any]:
        """The common columns as a full matrix and the others as a sparse one."""
        columns = rows.tocsc()
        return columns[:, self._common].toarray().astype(np.float32), columns[:, ~self._common].tocsr()
