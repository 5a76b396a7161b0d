"""Printing: the bytes of a sheet, as they were previewed and saved, laid on the printer's paper at full size."""

from __future__ import annotations

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF, QRectF, QSize, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QWidget

_DOTS = 300  # to the inch: finer than a line of 0.25 mm needs, and a page still fits in memory
_POINTS = 72


def ask_printer(parent: QWidget, name: str) -> QPrinter | None:
    """The printer that a person chose; None where none was."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(name)
    dialog = QPrintDialog(printer, parent)
    return printer if dialog.exec() == QPrintDialog.DialogCode.Accepted else None


def print_pdf(data: bytes, printer: QPrinter) -> int:
    """Print a PDF page by page at its own size; returns the number of pages. ValueError where it cannot be read."""
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    document = QPdfDocument()
    document.load(buffer)
    if document.status() is not QPdfDocument.Status.Ready or not document.pageCount():
        raise ValueError("these sheets cannot be read")
    printer.setFullPage(True)
    painter = QPainter()
    for number in range(document.pageCount()):
        size = document.pagePointSize(number)
        _lay_page(printer, size)
        if number == 0:
            painter.begin(printer)
        else:
            printer.newPage()
        _paint_page(painter, printer, document, number, size)
    painter.end()
    return document.pageCount()


def _lay_page(printer: QPrinter, size: QSizeF) -> None:
    upright = size.height() >= size.width()
    short = size if upright else size.transposed()
    printer.setPageSize(QPageSize(short, QPageSize.Unit.Point))
    way = QPageLayout.Orientation.Portrait if upright else QPageLayout.Orientation.Landscape
    printer.setPageOrientation(way)


def _paint_page(painter: QPainter, printer: QPrinter, document: QPdfDocument, number: int, size: QSizeF) -> None:
    dots = QSize(round(size.width() * _DOTS / _POINTS), round(size.height() * _DOTS / _POINTS))
    picture = document.render(number, dots)
    scale = printer.resolution() / _POINTS
    painter.drawImage(QRectF(QPointF(0, 0), size * scale), picture)
