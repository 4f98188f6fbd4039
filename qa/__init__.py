"""Levelspoon: an audience-question knowledge base and answer drafter for recipe testers."""
