"""HTML as a browser would take it apart."""

from html.parser import HTMLParser


class Reader(HTMLParser):
    """Keeps the text, the elements and what is still open."""

    def __init__(self):
        super().__init__()
        self.open, self.text, self.elements = [], "", []

    @classmethod
    def of(cls, fragment):
        reader = cls()
        reader.feed(fragment)
        reader.close()
        return reader

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))
        if tag not in ("br", "line", "polyline", "rect"):
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag not in ("line", "polyline", "rect"):
            assert self.open.pop() == tag

    def handle_data(self, data):
        self.text += data
