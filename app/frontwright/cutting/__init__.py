"""Placing parts on stock: an `Order` in (`values`), a checked `Plan` out by `lay` or, watched, by `Running`.

`first_fault` holds any plan against its order; `cuts_of` turns a layout into the cuts that make it.
"""

from frontwright.cutting.asking import BadOrder, missing_sentences
from frontwright.cutting.checker import first_fault
from frontwright.cutting.cuts import cuts_of, rows_of
from frontwright.cutting.worker import Running, lay

__all__ = ["BadOrder", "Running", "cuts_of", "first_fault", "lay", "missing_sentences", "rows_of"]
