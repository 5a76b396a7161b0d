"""Frontwright: the workbook for new doors, drawer fronts and facings on old cabinets."""

__version__ = "0.1.0"
