"""The sums of the trade: pure functions from measures tagged with facts to results with working."""
