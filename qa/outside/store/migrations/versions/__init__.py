"""One module a step; `revision` and `down_revision` put them in order."""
