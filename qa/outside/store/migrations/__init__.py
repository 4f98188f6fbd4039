"""Steps that bring an older store to the present one. An old step is never edited; a new one is added."""
