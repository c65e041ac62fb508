"""One sweep at a time in a folder: a lock that the system gives back when a process dies, however it dies.

Between processes it is a record lock on a file in the folder (POSIX, ``fcntl``), which a process that is
killed loses; so a lock that was left behind is taken over. Workers that a process forks do not inherit it. It
does not hold between the threads of one process, so folders in use are listed here besides. A sweep on a
second machine is seen too, where the file system knows locks between machines.
"""

from __future__ import annotations

import contextlib
import errno
import fcntl
import json
import os
import socket
import threading
from pathlib import Path
from typing import Any

from libcook.arguments.quote import cut, quoted
from libcook.errors import InvalidInput, invalid

NAME = ".sweep.lock"
_ACCEPTED = "another folder is accepted, or this one when that sweep is over"
_in_use: set[tuple[int, int]] = set()  # folders of this process: device and number
os.register_at_fork(after_in_child=_in_use.clear)  # a forked process has none of its parent's locks
_one_at_a_time = threading.Lock()
# What a file system without locks says; there two processes are not told apart.
_NO_LOCKS = (errno.ENOLCK, errno.ENOTSUP, errno.EOPNOTSUPP)


class FolderLock:
    """Keeps a folder for one sweep until `release`.

    Parameters
    ----------
    folder : Path
        Must be there.

    Raises
    ------
    InvalidInput
        When another sweep is writing into it; says which process.
    """

    def __init__(self, folder: Path) -> None:
        found = os.stat(folder)
        self._key = (found.st_dev, found.st_ino)
        self._path = folder / NAME
        with _one_at_a_time:
            if self._key in _in_use:
                came = f"another sweep of this process is writing into {quoted(folder)}"
                raise invalid("to", str(folder), came, _ACCEPTED)
            _in_use.add(self._key)
        try:
            self._file = self._lock(folder)
        except BaseException:
            self._forget()
            raise

    def _lock(self, folder: Path) -> int:
        while True:
            file = os.open(self._path, os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW | os.O_CLOEXEC, 0o666)
            try:
                try:
                    fcntl.lockf(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
                except OSError as error:
                    if error.errno in (errno.EACCES, errno.EAGAIN):
                        raise self._refused(folder, file) from None
                    if error.errno not in _NO_LOCKS:
                        raise
                if self._is_there(file):  # and not one that was deleted since, by the sweep that was over
                    who = {"process": os.getpid(), "machine": socket.gethostname()}
                    os.truncate(file, 0)
                    os.write(file, json.dumps(who).encode())
                    return file
            except BaseException:
                os.close(file)
                raise
            os.close(file)

    def _is_there(self, file: int) -> bool:
        try:
            return os.path.samestat(os.fstat(file), os.lstat(self._path))
        except FileNotFoundError:
            return False

    def _refused(self, folder: Path, file: int) -> InvalidInput:
        who: Any = {}
        with contextlib.suppress(ValueError, OSError):
            who = json.loads(os.read(file, 1000))
        known = f" (process {who['process']} on {who['machine']})" if isinstance(who, dict) and who else ""
        came = f"another sweep{cut(known)} is writing into {quoted(folder)}"
        return invalid("to", str(folder), came, _ACCEPTED)

    def release(self) -> None:
        """Give the folder back."""
        with contextlib.suppress(FileNotFoundError):
            self._path.unlink()  # while it is locked: nobody else can have begun
        os.close(self._file)
        self._forget()

    def _forget(self) -> None:
        with _one_at_a_time:
            _in_use.discard(self._key)
