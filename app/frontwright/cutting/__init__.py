"""Placing parts on stock: an `Order` in (`values`), a checked `Plan` out by `lay` or, watched, by `Running`.

`first_fault` holds any plan against its order; `missing_sentences` says why a part found no place.
"""

from frontwright.cutting.asking import BadOrder, missing_sentences
from frontwright.cutting.checker import first_fault
from frontwright.cutting.worker import Running, lay

__all__ = ["BadOrder", "Running", "first_fault", "lay", "missing_sentences"]
