"""Units, values with spread, amounts as people write them, and the one rounding rule."""
