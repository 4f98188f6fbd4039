"""Group: topics that a tester recognises, from what was asked of what; and a general grouping of texts."""

from qa.stages.group.texts import group_texts
from qa.stages.group.topics import group, topic_id

__all__ = ["group", "group_texts", "topic_id"]
