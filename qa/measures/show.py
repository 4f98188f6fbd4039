"""The one rounding rule: to what a kitchen scale or spoon can do, and never finer than the spread."""
