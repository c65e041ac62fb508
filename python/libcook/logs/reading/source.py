"""What a log is read from: a file, an open file, text or bytes; decoded as needed, never as a whole."""

from __future__ import annotations

import codecs
import io
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO, Any

from libcook.arguments.plain import path as read_path
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.logs.findings import Finding, count_of

_ACCEPTED = "a path, an open file or the text of a CSV is accepted"
_BLOCK = 1 << 20  # bytes


@dataclass
class Source:
    """The bytes of a log.

    Attributes
    ----------
    raw : binary file
        Can be read again from its beginning.
    encoding : str
        Of its text.
    line_ends : int
        About how many lines it has.
    quotes : bool
        Whether it holds double quotes.
    findings : list of Finding
        What was odd about its encoding.
    """

    raw: IO[bytes]
    encoding: str = "utf-8-sig"
    line_ends: int = 0
    quotes: bool = False
    findings: list[Finding] = field(default_factory=list)

    @contextmanager
    def text(self, newline: str | None = None) -> Iterator[io.TextIOWrapper]:
        """Open the text from its beginning; `newline` as for `open`."""
        self.raw.seek(0)
        # "replace" concerns UTF-16 alone: that the rest is well formed has been looked at
        opened = io.TextIOWrapper(self.raw, self.encoding, "replace", newline)
        try:
            yield opened
        finally:
            opened.detach()  # the bytes stay open

    @property
    def is_parquet(self) -> bool:
        """Whether it is a Parquet file."""
        self.raw.seek(0)
        return self.raw.read(4) == b"PAR1"


@contextmanager
def open_source(source: Any) -> Iterator[Source]:
    """Open what a call gives: a path, an open file, text of more than one line, or bytes.

    Raises
    ------
    InvalidInput
        When it is none of these, or no text.
    """
    findings: list[Finding] = []
    with _binary(source, findings) as raw:
        made = Source(raw, findings=findings)
        if not made.is_parquet:
            _look_through(made, source)
        yield made


@contextmanager
def _binary(source: Any, findings: list[Finding]) -> Iterator[IO[bytes]]:
    if hasattr(source, "read"):
        content = source.read()
        if not isinstance(content, (str, bytes)):
            raise invalid("log", source, f"reading it gave a {type(content).__name__}", _ACCEPTED)
    elif isinstance(source, (bytes, bytearray)):
        content = bytes(source)
    elif isinstance(source, str) and ("\n" in source or "\r" in source):
        content = source
    else:
        with open(_file(source), "rb") as file:
            yield file
        return
    yield io.BytesIO(content if isinstance(content, bytes) else _encoded(content, findings))


def _file(source: Any) -> Path:
    if not isinstance(source, (str, os.PathLike)):
        raise invalid("log", source, f"a {type(source).__name__} came", _ACCEPTED)
    if isinstance(source, str) and not source.strip():
        raise invalid("log", source, "an empty text", _ACCEPTED)
    text = "a path, an open file, or text of more than one line is accepted"
    path = Path(os.path.expanduser(read_path(source, "log", text)))  # an unknown home is left as it is
    if path.is_dir():
        raise invalid("log", source, f"{quoted(path)} is a folder", "a file of delimited text is accepted")
    if not path.is_file():
        came = f"there is no file {quoted(path)}" + ("" if path.is_absolute() else f" in {Path.cwd()}")
        raise invalid("log", source, came, text)
    return path


def _encoded(text: str, findings: list[Finding]) -> bytes:
    try:
        return text.encode("utf-8")
    except UnicodeEncodeError:
        halves = sum("\ud800" <= character <= "\udfff" for character in text)
        said = f"{count_of(halves, 'half', 'halves')} of characters (lone surrogates); read as '?'"
        findings.append(Finding("found", said, halves, kind="encoding"))
        return text.encode("utf-8", "replace")


def _look_through(made: Source, source: Any) -> None:
    """Tell the encoding, count the lines, and refuse what is no text; a block at a time."""
    made.raw.seek(0)
    start = made.raw.read(4)
    wide = start.startswith((b"\xff\xfe", b"\xfe\xff"))
    decoder = codecs.getincrementaldecoder("utf-8")()
    feeds = returns = 0
    is_utf8, is_text = True, not start.startswith(b"PK\x03\x04")
    made.raw.seek(0)
    while is_text and (block := made.raw.read(_BLOCK)):
        feeds, returns = feeds + block.count(b"\n"), returns + block.count(b"\r")
        made.quotes = made.quotes or b'"' in block
        is_text = wide or b"\0" not in block
        try:
            if is_utf8 and not wide:
                decoder.decode(block)
        except UnicodeDecodeError:
            is_utf8 = False
    try:
        if is_utf8 and not wide:
            decoder.decode(b"", final=True)
    except UnicodeDecodeError:
        is_utf8 = False
    made.line_ends = max(feeds, returns)
    if wide:
        made.encoding = "utf-16"
        with made.text() as opened:
            is_text = not any("\0" in block for block in iter(lambda: opened.read(_BLOCK), ""))
    elif not is_utf8:
        made.encoding = "latin-1"
        text = "the text is not UTF-8; read as Latin-1"
        made.findings.append(Finding("found", text, kind="encoding"))
    if not is_text:
        came = "the file is not text"
        raise invalid("log", source, came, "delimited text is accepted", "the spreadsheet saved as CSV")
