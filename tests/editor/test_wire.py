"""Messages over a stream, whole and broken; and a server that no message brings down."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from typing import Any

import pytest

from builder.editor.server import Server, serve
from builder.editor.wire import Broken, receive, send
from tests.editor.session import ROOT


def framed(*messages: Any) -> bytes:
    out = b""
    for message in messages:
        body = message if isinstance(message, bytes) else json.dumps({"jsonrpc": "2.0", **message}).encode()
        out += b"Content-Length: %d\r\n\r\n" % len(body) + body
    return out


def answers(raw: bytes) -> list[Any]:
    stream = io.BytesIO(raw)
    found = []
    while (message := receive(stream)) is not None:
        found.append(message)
    return found


def test_a_message_is_read_as_it_was_sent() -> None:
    stream = io.BytesIO()
    send(stream, {"id": 1, "result": "größe"})
    # the base protocol of LSP 3.17: a header of ASCII, an empty line, UTF-8 whose length counts bytes
    assert stream.getvalue().startswith(
        b"Content-Length: %d\r\n\r\n{" % len(stream.getvalue().partition(b"\r\n\r\n")[2])
    )
    stream.seek(0)
    assert receive(stream) == {"jsonrpc": "2.0", "id": 1, "result": "größe"}
    assert receive(stream) is None


@pytest.mark.parametrize(
    ("raw", "over"),
    [(b"Content-Length: x\r\n\r\n{}", True), (b"\r\n{}", True), (b"Content-Length: 2\r\n\r\n[]", False),
     (b"Content-Length: 2\r\n\r\n{:", False), (b"Content-Length: 99999999999\r\n\r\n{}", True)],
)  # fmt: skip
def test_what_is_no_message_is_told(raw: bytes, over: bool) -> None:
    with pytest.raises(Broken) as told:
        receive(io.BytesIO(raw))
    assert told.value.over is over


def test_other_headers_and_small_letters_are_read() -> None:
    raw = b'Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length: 8\r\n\r\n{"a": 1}'
    assert receive(io.BytesIO(raw)) == {"a": 1}


def test_a_message_that_is_cut_off_ends_the_stream() -> None:
    assert receive(io.BytesIO(b"Content-Length: 99\r\n\r\n{}")) is None


INIT = {"id": 1, "method": "initialize", "params": {"capabilities": {}}}
LEAVE = ({"id": 9, "method": "shutdown"}, {"method": "exit"})


def session(*messages: Any) -> tuple[int, list[Any]]:
    out = io.BytesIO()
    status = serve(io.BytesIO(framed(*messages)), out)
    return status, answers(out.getvalue())


@pytest.mark.parametrize(
    ("messages", "code"),
    [
        # the codes of JSON-RPC 2.0, section 5.1, and of LSP 3.17 (ServerNotInitialized)
        (({"id": 2, "method": "textDocument/hover", "params": {}},), -32002),
        ((INIT, {"id": 2, "method": "no/such"}), -32601),
        ((INIT, {"id": 2, "method": "textDocument/hover", "params": {}}), -32603),
        ((INIT, {"id": 2, "method": "textDocument/hover", "params": []}), -32603),
        ((INIT, {**INIT, "id": 2}), -32600),
        ((INIT, {"id": 2}), -32600),
        ((INIT, b"{:"), -32700),
    ],
)
def test_what_cannot_be_answered_is_refused_with_its_code(messages: tuple[Any, ...], code: int) -> None:
    initialized = INIT in messages
    status, told = session(*messages, *(LEAVE if initialized else ({"method": "exit"},)))
    assert [each["error"]["code"] for each in told if "error" in each] == [code]
    assert status == (0 if initialized else 1)


@pytest.mark.parametrize(
    "message",
    [
        {"method": "textDocument/didOpen", "params": {}},
        {"method": "textDocument/didChange", "params": {"textDocument": {"uri": "file:///a.yml"}}},
        {"method": "textDocument/didOpen", "params": {"textDocument": {"uri": 3, "text": []}}},
    ],
)
def test_a_notice_that_cannot_be_understood_is_logged(message: Any) -> None:
    status, told = session(INIT, message, *LEAVE)
    assert status == 0
    assert [each["method"] for each in told if "method" in each] == ["window/logMessage"]


def test_notices_that_nobody_knows_are_left_aside() -> None:
    status, told = session(
        INIT, {"method": "$/cancelRequest", "params": {"id": 1}}, {"method": "no/such"}, *LEAVE
    )
    assert status == 0 and [each["id"] for each in told] == [1, 9]


def test_an_editor_that_goes_without_leave() -> None:
    assert session(INIT)[0] == 1


def test_the_process_ends_with_its_stream() -> None:
    """No thread may keep the program from ending, and nothing but messages is written."""
    for messages, status in (((INIT, *LEAVE), 0), ((INIT,), 1)):
        command = [sys.executable, "-m", "builder", "edit-server"]
        ran = subprocess.run(command, input=framed(*messages), cwd=ROOT, capture_output=True, timeout=60,
                             check=False)  # fmt: skip
        assert ran.returncode == status and ran.stderr == b""
        assert [each["id"] for each in answers(ran.stdout)][0] == 1


def test_a_fault_of_the_server_itself_is_told_and_the_session_goes_on() -> None:
    out = io.BytesIO()
    server = Server(out)
    server.answer(INIT)
    server.space.judged = None  # type: ignore[method-assign,assignment]
    server.space.open["/a/guide.yml"] = "title: A\n"
    asked = {"textDocument": {"uri": "file:///a/guide.yml"}, "position": {"line": 0, "character": 1}}
    server.answer({"id": 2, "method": "textDocument/hover", "params": asked})
    server.waiting["/a/guide.yml"] = None
    server.check()
    told = answers(out.getvalue())
    assert told[1]["error"]["code"] == -32603
    assert told[2]["method"] == "window/logMessage" and "could not be checked" in told[2]["params"]["message"]
