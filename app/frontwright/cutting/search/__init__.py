"""Laying parts on pieces in two dimensions: `run`; `prepare` before it, at leisure, spares it the compiling."""

from frontwright.cutting.search.prepare import prepare
from frontwright.cutting.search.run import run

__all__ = ["prepare", "run"]
