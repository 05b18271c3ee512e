"""The language server: one loop that answers an editor over a pair of streams.

It speaks the Language Server Protocol 3.17: diagnostics, hover, definition, completion. Messages are
read by a thread of their own, so that while a guide is run the next ones are known to wait: a guide is
checked when nothing else is asked.
"""

from __future__ import annotations

import queue
import sys
import threading
from collections.abc import Callable, Mapping
from typing import Any, BinaryIO

from builder.editor.complete import completions
from builder.editor.hover import hover
from builder.editor.lookup import definition
from builder.editor.positions import Positions, path_of, split, uri_of
from builder.editor.where import name_at, typing
from builder.editor.wire import (
    INTERNAL,
    INVALID_REQUEST,
    NO_METHOD,
    NOT_INITIALIZED,
    PARSE_ERROR,
    Broken,
    receive,
    send,
)
from builder.editor.workspace import Judged, Workspace
from builder.findings import Finding, Severity, on_routes
from builder.guide.files import shown

# DiagnosticSeverity of the protocol: error, warning, information.
SEVERITY = {Severity.ERROR: 1, Severity.WARNING: 2, Severity.NOTE: 3}

Message = dict[str, Any]


class Refused(Exception):
    """A request that cannot be answered, with the code of the protocol."""

    def __init__(self, code: int, message: str) -> None:
        super().__init__(message)
        self.code = code


class Server:
    """The state of one session. `answer` handles a message, `check` what is still to be checked."""

    def __init__(self, out: BinaryIO) -> None:
        self.out = out
        self.space = Workspace()
        self.positions = Positions()
        self.state = "new"  # new, ready, stopping
        self.versions: dict[str, int] = {}
        self.waiting: dict[str, None] = {}  # the guides that are still to be checked, in order
        self.told: dict[str, dict[str, list[Message]]] = {}  # guide -> address -> diagnostics
        self.requests: Mapping[str, Callable[[Message], object]] = {
            "initialize": self.initialize,
            "shutdown": self.shutdown,
            "textDocument/hover": self.hover,
            "textDocument/definition": self.definition,
            "textDocument/completion": self.completion,
        }
        self.notices: Mapping[str, Callable[[Message], None]] = {
            "textDocument/didOpen": self.opened,
            "textDocument/didChange": self.changed,
            "textDocument/didSave": self.saved,
            "textDocument/didClose": self.closed,
            "workspace/didChangeWatchedFiles": self.watched,
        }

    # -- messages -------------------------------------------------------------------------------------

    def answer(self, message: Message) -> None:
        """Handle one message; whatever goes wrong is answered and never ends the session."""
        method, id = message.get("method"), message.get("id")
        if not isinstance(method, str):
            if id is not None and "result" not in message and "error" not in message:
                self._error(id, INVALID_REQUEST, "a message without a method")
            return
        given = message.get("params")
        params: Message = given if isinstance(given, dict) else {}
        if id is None:
            notice = self.notices.get(method)
            if notice is not None and self.state == "ready":
                self._tried(notice, params)
            return
        try:
            if method not in self.requests:
                raise Refused(NO_METHOD, f"{method} is not known here")
            if (self.state == "ready") is (method == "initialize"):
                raise Refused(NOT_INITIALIZED if self.state == "new" else INVALID_REQUEST,
                              f"{method} cannot be asked now")  # fmt: skip
            result = self.requests[method](params)
        except Refused as fault:
            self._error(id, fault.code, str(fault))
        except Exception as fault:
            self._error(id, INTERNAL, f"{type(fault).__name__}: {fault}")
        else:
            send(self.out, {"id": id, "result": result})

    def _tried(self, notice: Callable[[Message], None], params: Message) -> None:
        try:
            notice(params)
        except Exception as fault:
            self._log(f"{type(fault).__name__}: {fault}")

    def _error(self, id: object, code: int, text: str) -> None:
        send(self.out, {"id": id, "error": {"code": code, "message": text}})

    def _log(self, text: str) -> None:
        send(self.out, {"method": "window/logMessage", "params": {"type": 1, "message": text}})

    # -- the session ----------------------------------------------------------------------------------

    def initialize(self, params: Message) -> object:
        """Say what can be asked. Characters are counted as the client does it best."""
        general = params.get("capabilities", {}).get("general", {})
        utf32 = "utf-32" in (general.get("positionEncodings") or ())
        self.positions = Positions(utf16=not utf32)
        self.state = "ready"
        return {
            "capabilities": {
                "positionEncoding": "utf-32" if utf32 else "utf-16",
                "textDocumentSync": {"openClose": True, "change": 2, "save": {"includeText": False}},
                "hoverProvider": True,
                "definitionProvider": True,
                "completionProvider": {"triggerCharacters": [" ", ":", "{", "[", ",", "."]},
            },
            "serverInfo": {"name": "kitwright"},
        }

    def shutdown(self, params: Message) -> object:
        """The session ends; only `exit` may follow."""
        self.state = "stopping"
        return None

    # -- documents ------------------------------------------------------------------------------------

    def opened(self, params: Message) -> None:
        """A document is on the screen."""
        document = params["textDocument"]
        self._now(document, document["text"])

    def changed(self, params: Message) -> None:
        """A document was typed in: whole, or in ranges."""
        document = params["textDocument"]
        text = self.space.open.get(path_of(document["uri"]), "")
        for change in params["contentChanges"]:
            if "range" in change:
                start = self.positions.offset(text, change["range"]["start"])
                end = self.positions.offset(text, change["range"]["end"])
                text = text[:start] + change["text"] + text[end:]
            else:
                text = change["text"]
        self._now(document, text)

    def _now(self, document: Message, text: str) -> None:
        path = path_of(document["uri"])
        if path:
            self.space.open[path] = text
            self.versions[uri_of(path)] = document.get("version", 0)
            self._wait(path)

    def _wait(self, path: str) -> None:
        for main in self.space.guides_of(path):
            self.waiting.setdefault(main)

    def saved(self, params: Message) -> None:
        """A document is on the disk now; other files may have been changed too."""
        self._wait(path_of(params["textDocument"]["uri"]))

    def watched(self, params: Message) -> None:
        """Files were changed outside the editor."""
        for path in list(self.space.open):
            self._wait(path)

    def closed(self, params: Message) -> None:
        """A document is off the screen: what the disk holds counts again."""
        path = path_of(params["textDocument"]["uri"])
        self.space.open.pop(path, None)
        self.versions.pop(uri_of(path), None)
        wanted = {main for each in self.space.open for main in self.space.guides_of(each)}
        for main in self.space.guides_of(path):
            if main in wanted:
                self.waiting.setdefault(main)
            else:
                self.space.forget(main)
                self.waiting.pop(main, None)
                self._publish(main, {})

    # -- findings -------------------------------------------------------------------------------------

    def check(self) -> None:
        """Check one guide that waits, and tell what was found."""
        main = next(iter(self.waiting), None)
        if main is None:
            return
        del self.waiting[main]
        try:
            judged = self.space.judged(main)
        except Exception as fault:
            self._log(f"{main} could not be checked: {type(fault).__name__}: {fault}")
            return
        found: dict[str, list[Message]] = {uri_of(judged.guide.file): []}
        for finding in judged.findings:
            if finding.accepted is None:
                told = self._diagnostic(finding, judged)
                found.setdefault(uri_of(finding.place.file), []).append(told)
        self._publish(main, found)

    def _publish(self, main: str, found: dict[str, list[Message]]) -> None:
        """Tell the findings of every file that has some, or had."""
        before = self.told.pop(main, {})
        if found:
            self.told[main] = found
        for uri in dict.fromkeys((*before, *found)):
            every = [each for by_uri in self.told.values() for each in by_uri.get(uri, ())]
            unique = [each for number, each in enumerate(every) if each not in every[:number]]
            params: Message = {"uri": uri, "diagnostics": unique}
            if uri in self.versions:
                params["version"] = self.versions[uri]
            send(self.out, {"method": "textDocument/publishDiagnostics", "params": params})

    def _diagnostic(self, finding: Finding, judged: Judged) -> Message:
        texts = judged.texts
        routes = f" ({on_routes(finding.routes)})" if finding.routes else ""
        lines = [finding.message + routes, finding.why, finding.mend]
        others = [(other.place, other.text) for other in finding.also]
        others += [(inner.place, f"may follow from it: {inner.message}") for inner in finding.follows]
        return {
            "range": self.positions.range(finding.place, texts),
            "severity": SEVERITY[finding.severity],
            "code": finding.check,
            "source": "kitwright",
            "message": "\n".join(line for line in lines if line),
            "relatedInformation": [
                {"location": self.positions.location(place, texts), "message": text} for place, text in others
            ],
        }

    # -- questions ------------------------------------------------------------------------------------

    def _asked(self, params: Message) -> tuple[str, str, str, int, int] | None:
        """(guide, shown name, text, line, column from 0) of a question; None if no guide is concerned."""
        path = path_of(params["textDocument"]["uri"])
        guides = self.space.guides_of(path)
        text = self.space.open.get(path)
        if not guides or text is None:
            return None
        main = next((g for g in guides if g in self.told), guides[0])
        line = max(params["position"]["line"], 0)
        lines = split(text)
        column = (
            self.positions.column(lines[line], params["position"]["character"]) if line < len(lines) else 0
        )
        return main, shown(path), text, line, column

    def hover(self, params: Message) -> object:
        """What is told of the word under the cursor."""
        asked = self._asked(params)
        if asked is None:
            return None
        main, file, text, line, column = asked
        judged = self.space.judged(main)
        told = hover(judged.guide, judged.runs, file, text, line, column)
        if told is None:
            return None
        words, place = told
        return {
            "contents": {"kind": "markdown", "value": words},
            "range": self.positions.range(place, {file: text}),
        }

    def definition(self, params: Message) -> object:
        """Where the name under the cursor is defined."""
        asked = self._asked(params)
        if asked is None:
            return None
        main, file, text, line, column = asked
        lines = split(text)
        named = name_at(lines[line], column) if line < len(lines) else None
        if named is None:
            return None
        read = self.space.read(main)
        name, start, _ = named
        if column <= start + len(name.partition(".")[0]):
            name = name.partition(".")[0]
        places = definition(read.guide, file, text, line, column, name)
        return self.positions.location(places[0], read.texts) if places else None

    def completion(self, params: Message) -> object:
        """What may be typed at the cursor."""
        asked = self._asked(params)
        if asked is None:
            return None
        main, _, text, line, column = asked
        path = path_of(params["textDocument"]["uri"])
        lines = split(text)
        offset = sum(len(each) + 1 for each in lines[:line]) + column
        found = typing("\n".join(lines), offset)
        if found is None or line >= len(lines):
            return {"isIncomplete": False, "items": []}
        items = completions(self.space.read_as(main, path, found.text), found)
        span = self.positions.span(lines[line], column - len(found.typed), column, line)
        return {
            "isIncomplete": False,
            "items": [
                {
                    "label": item.label,
                    "kind": item.kind,
                    "detail": item.detail,
                    "documentation": {"kind": "markdown", "value": item.about},
                    "sortText": f"{number:04d}",
                    "textEdit": {"range": span, "newText": item.insert},
                }
                for number, item in enumerate(items)
            ],
        }


def serve(source: BinaryIO, out: BinaryIO) -> int:
    """Answer an editor until it leaves. Returns the exit status: 0 if it took its leave, else 1."""
    inbox: queue.SimpleQueue[Message | Broken | None] = queue.SimpleQueue()
    threading.Thread(target=_listen, args=(source, inbox), daemon=True).start()
    server = Server(out)
    while True:
        while server.waiting and inbox.empty():
            server.check()
        message = inbox.get()
        if message is None:
            return 1
        if isinstance(message, Broken):
            server._error(None, PARSE_ERROR, str(message))
            if message.over:
                return 1
        elif message.get("method") == "exit":
            return 0 if server.state == "stopping" else 1
        else:
            server.answer(message)


def _listen(source: BinaryIO, inbox: queue.SimpleQueue[Message | Broken | None]) -> None:
    while True:
        try:
            message = receive(source)
        except Broken as fault:
            inbox.put(fault)
            if fault.over:
                return
            continue
        inbox.put(message)
        if message is None or message.get("method") == "exit":
            return  # nobody may wait for the stream when the program ends


def main() -> int:
    """Serve the editor that started this program."""
    out = sys.stdout.buffer
    sys.stdout = sys.stderr  # nothing else may be written between two messages
    return serve(sys.stdin.buffer, out)
