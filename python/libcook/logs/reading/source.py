"""What a log is read from: a file, an open file, text or bytes; decoded as needed, never as a whole."""

from __future__ import annotations

import codecs
import io
import os
import re
import zipfile
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
_LOOKED_AT = 4096  # bytes that tell the encoding
_ZIP = b"PK\x03\x04"
_JSON = re.compile(r'\s*(\{\s*"|\[\s*[\[{])')


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

    @property
    def is_workbook(self) -> bool:
        """Whether it is a workbook (.xlsx)."""
        self.raw.seek(0)
        return self.raw.read(4) == _ZIP


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
        if made.is_workbook:
            _check_workbook(made.raw, source)
        elif not made.is_parquet:
            _refuse_packed(made.raw, source)
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
    elif isinstance(source, str) and ("\n" in source or "\r" in source or _JSON.match(source)):
        content = source
    else:
        with open(_file(source), "rb") as file:
            yield file
        return
    yield io.BytesIO(content if isinstance(content, bytes) else _encoded(content, findings))


def _check_workbook(raw: IO[bytes], source: Any) -> None:
    """Refuse archives that are no workbook."""
    accepted = "a workbook (.xlsx) or delimited text is accepted"
    meant = "the spreadsheet saved as CSV"
    try:
        with zipfile.ZipFile(raw) as archive:
            names = archive.namelist()
    except (zipfile.BadZipFile, ValueError, OSError, NotImplementedError) as error:
        came = f"the file is a workbook or archive that is damaged or cut short ({quoted(str(error))})"
        raise invalid("log", source, came, accepted, meant) from None
    if any(name.startswith("xl/") for name in names):
        return
    if "mimetype" in names:
        raise invalid("log", source, "the file is a document of another kind than .xlsx", accepted, meant)
    raise invalid(
        "log", source, f"the file is an archive of {count_of(len(names), 'file')}", "unpack it first"
    )


def _refuse_packed(raw: IO[bytes], source: Any) -> None:
    raw.seek(0)
    start = raw.read(8)
    if start.startswith(b"\xd0\xcf\x11\xe0"):
        accepted = "a workbook (.xlsx) or delimited text is accepted"
        raise invalid(
            "log", source, "the file is a workbook of the old kind (.xls)", accepted, "it saved as CSV"
        )
    if start.startswith(b"\x1f\x8b"):
        raise invalid("log", source, "the file is packed (gzip)", "unpack it first")


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
    start = made.raw.read(_LOOKED_AT)
    wide = _wide_encoding(start)
    decoder = codecs.getincrementaldecoder("utf-8")()
    feeds = returns = 0
    is_utf8, is_text = True, True
    made.raw.seek(0)
    while is_text and (block := made.raw.read(_BLOCK)):
        feeds, returns = feeds + block.count(b"\n"), returns + block.count(b"\r")
        made.quotes = made.quotes or b'"' in block
        is_text = bool(wide) or b"\0" not in block
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
        made.encoding = wide
        with made.text() as opened:
            is_text = not any("\0" in block for block in iter(lambda: opened.read(_BLOCK), ""))
        if is_text and wide != "utf-16":
            text = "the text is UTF-16 without a byte-order mark; read as it looks"
            made.findings.append(Finding("found", text, kind="encoding"))
    elif not is_utf8:
        made.encoding = "latin-1"
        text = "the text is not UTF-8; read as Latin-1"
        made.findings.append(Finding("found", text, kind="encoding"))
    if not is_text:
        came = "the file is not text"
        raise invalid("log", source, came, "delimited text is accepted", "the spreadsheet saved as CSV")


def _wide_encoding(start: bytes) -> str:
    """Tell UTF-16 by its mark, or by zeros in every second place; empty where it is none."""
    if start.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "utf-16"
    evens, odds = start[0::2].count(0), start[1::2].count(0)
    half = len(start) / 2
    if odds > 0.8 * half and evens < 0.05 * half:
        return "utf-16-le"
    return "utf-16-be" if evens > 0.8 * half and odds < 0.05 * half else ""
