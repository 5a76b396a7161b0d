"""The sheets as they will come out: the pages of a PDF under each other, each fitted into the view."""

from __future__ import annotations

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QKeyEvent, QPainter, QPaintEvent, QPen, QResizeEvent, QWheelEvent
from PySide6.QtPdf import QPdfDocument
from PySide6.QtWidgets import QAbstractScrollArea, QFrame, QWidget

from frontwright.window.theme import Theme

GAP = 12
KEPT = 6  # pictures of pages kept at a time
ZOOMS = (1.0, 1.4, 2.0, 3.0)


class Preview(QAbstractScrollArea):
    """Shows bytes of a PDF; only pages in sight are painted. Ctrl and the wheel, or + and -, come closer."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._document = QPdfDocument(self)
        self._pictures: dict[tuple[int, QSize], QImage] = {}
        self._zoom = 0
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setAccessibleName("preview of the chosen sheets")

    @property
    def pages(self) -> int:
        """How many pages there are."""
        return self._document.pageCount()

    def show_pdf(self, data: bytes) -> None:
        """Show these bytes from their first page; no bytes show nothing."""
        old, self._document = self._document, QPdfDocument(self)
        old.deleteLater()
        buffer = QBuffer(self._document)
        buffer.setData(QByteArray(data))
        if data:
            buffer.open(QIODevice.OpenModeFlag.ReadOnly)
            self._document.load(buffer)
        self._pictures.clear()
        self._lay()
        self.verticalScrollBar().setValue(0)

    def zoom(self, step: int) -> None:
        """Come closer (1) or go back (-1)."""
        self._zoom = min(max(0, self._zoom + step), len(ZOOMS) - 1)
        self._lay()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Plus, Qt.Key.Key_Minus):
            self.zoom(1 if event.key() == Qt.Key.Key_Plus else -1)
        else:
            super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom(1 if event.angleDelta().y() > 0 else -1)
        else:
            super().wheelEvent(event)

    def _size(self, page: int) -> QSize:
        """How large a page is drawn: whole in the view, or so many times that."""
        points, gap = self._document.pagePointSize(page), self._theme.px(GAP)
        room = self.viewport().size()
        scale = min((room.width() - 2 * gap) / points.width(), (room.height() - 2 * gap) / points.height())
        scale = max(0.05, scale * ZOOMS[self._zoom])
        return QSize(round(points.width() * scale), round(points.height() * scale))

    def _places(self) -> list[QRectF]:
        """Where each page lies, the first at the top, before scrolling."""
        places, y, gap = list[QRectF](), float(self._theme.px(GAP)), self._theme.px(GAP)
        for page in range(self.pages):
            size = self._size(page)
            x = max(float(gap), (self.viewport().width() - size.width()) / 2)
            places.append(QRectF(x, y, size.width(), size.height()))
            y += size.height() + gap
        return places

    def _lay(self) -> None:
        places = self._places()
        gap, room = self._theme.px(GAP), self.viewport().size()
        whole = places[-1].bottom() + gap if places else 0
        widest = max((place.right() + gap for place in places), default=0.0)
        for bar, need, have in (
            (self.verticalScrollBar(), whole, room.height()),
            (self.horizontalScrollBar(), widest, room.width()),
        ):
            bar.setRange(0, max(0, round(need) - have))
            bar.setPageStep(have)
            bar.setSingleStep(self._theme.px(40))
        self.viewport().update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self.viewport())
        colours = self._theme.palette
        painter.fillRect(self.viewport().rect(), colours.ground)
        moved = QPointF(-self.horizontalScrollBar().value(), -self.verticalScrollBar().value())
        for page, place in enumerate(self._places()):
            seen = place.translated(moved)
            if seen.intersects(QRectF(self.viewport().rect())):
                painter.drawImage(seen, self._picture(page, place))
                painter.setPen(QPen(colours.rule, max(1, self._theme.px(1))))
                painter.drawRect(seen)
        painter.end()

    def _picture(self, page: int, place: QRectF) -> QImage:
        dots = (place.size() * self.devicePixelRatioF()).toSize()
        if (page, dots) not in self._pictures:
            while len(self._pictures) >= KEPT:
                del self._pictures[next(iter(self._pictures))]
            sheet = QImage(dots, QImage.Format.Format_RGB32)
            sheet.fill(0xFFFFFFFF)  # paper is white, whatever the colours of the window
            painter = QPainter(sheet)
            painter.drawImage(0, 0, self._document.render(page, dots))
            painter.end()
            self._pictures[page, dots] = sheet
        return self._pictures[page, dots]
