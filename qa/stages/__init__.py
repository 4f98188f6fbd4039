"""The stages, each pure with one public verb; only `pipeline` knows their order."""
