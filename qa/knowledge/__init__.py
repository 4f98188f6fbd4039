"""The curated knowledge: types, syntax, checks, look-up; `load` alone reads the disk."""
