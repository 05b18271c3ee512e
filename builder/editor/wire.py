"""Messages over a stream: JSON-RPC 2.0 with the headers of the Language Server Protocol 3.17."""

from __future__ import annotations

from typing import Any, BinaryIO

import msgspec

MOST_BYTES = 50_000_000
"""No message of an editor is longer; a length beyond it is a broken header."""

PARSE_ERROR, INVALID_REQUEST, NO_METHOD, INTERNAL, NOT_INITIALIZED = -32700, -32600, -32601, -32603, -32002


class Broken(Exception):
    """What came is no message; `over` if what follows cannot be told apart from it either."""

    def __init__(self, why: str, over: bool) -> None:
        super().__init__(why)
        self.over = over


def receive(stream: BinaryIO) -> dict[str, Any] | None:
    """The next message; None at the end of the stream. Broken if it is none."""
    length = -1
    while True:
        line = stream.readline(10_000)
        if not line:
            return None
        if line in (b"\r\n", b"\n"):
            break
        name, _, value = line.partition(b":")
        if name.strip().lower() == b"content-length":
            digits = value.strip()
            length = int(digits) if digits.isdigit() and len(digits) < 12 else -1
    if not 0 <= length <= MOST_BYTES:
        raise Broken("a message without its length", over=True)
    body = stream.read(length)
    if len(body) < length:
        return None
    try:
        message = msgspec.json.decode(body)
    except (msgspec.DecodeError, UnicodeDecodeError) as fault:
        raise Broken(f"a message that is no JSON: {fault}", over=False) from None
    if not isinstance(message, dict):
        raise Broken("a message that is no object", over=False)
    return message


def send(stream: BinaryIO, message: dict[str, Any]) -> None:
    """Write a message and flush it."""
    body = msgspec.json.encode({"jsonrpc": "2.0", **message})
    stream.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
    stream.flush()
