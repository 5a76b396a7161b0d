"""Placing parts on stock: what is asked and given (`values`), `lay` and `Running`, `first_fault`, `cuts_of`."""
