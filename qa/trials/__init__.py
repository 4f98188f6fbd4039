"""Kitchen tests: what their readings say, whether they were fair, and what to test next. Pure."""
