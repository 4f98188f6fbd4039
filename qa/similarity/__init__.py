"""How alike two texts are, from 0 to 1, and a matcher of texts to targets built on it. Knows nothing of baking."""

from qa.similarity.matcher import Match, Matcher
from qa.similarity.score import likeness, likeness_matrix
from qa.similarity.views import Views, text_views

__all__ = ["Match", "Matcher", "Views", "likeness", "likeness_matrix", "text_views"]
