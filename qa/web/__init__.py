"""The review pages: a kitchen notebook over the same workbench, on the loopback address alone.

`sheets/` builds what a page shows as frozen records, apart from any server; `routes` and `acts` are thin.
"""
