"""A session with the language server as an editor has it: a process of its own, spoken to over its pipes.

The client is that of the `pygls` library with the message types of `lsprotocol`, the published
definitions of the Language Server Protocol: what does not have their shape is not understood.
"""

from __future__ import annotations

import asyncio
import os
import sys
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any, TypeVar

from lsprotocol import types
from pygls.lsp.client import LanguageClient

T = TypeVar("T")
ROOT = Path(__file__).parents[2]
PATIENCE = 30.0
"""Seconds after which an answer is not coming."""


class Session:
    """One open session: what the client sent and what the server told."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.client = LanguageClient("tests", "1")
        self.told: dict[str, list[types.PublishDiagnosticsParams]] = {}
        self.logged: list[str] = []
        self._news = asyncio.Event()

        def published(params: types.PublishDiagnosticsParams) -> None:
            self.told.setdefault(params.uri, []).append(params)
            self._news.set()

        def logged(params: types.LogMessageParams) -> None:
            self.logged.append(params.message)

        self.client.feature(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)(published)
        self.client.feature(types.WINDOW_LOG_MESSAGE)(logged)

    async def begin(self, encodings: Any = None) -> types.InitializeResult:
        """Start the process and shake hands."""
        path = os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])
        await self.client.start_io(sys.executable, "-m", "builder", "edit-server", cwd=str(self.folder),
                                   env={**os.environ, "PYTHONPATH": path})  # fmt: skip
        general = types.GeneralClientCapabilities(position_encodings=encodings)
        asked = types.InitializeParams(capabilities=types.ClientCapabilities(general=general),
                                       process_id=os.getpid(), root_uri=self.folder.as_uri())  # fmt: skip
        made = await asyncio.wait_for(self.client.initialize_async(asked), PATIENCE)
        self.client.initialized(types.InitializedParams())
        return made

    async def end(self) -> int:
        """Take leave; the exit status of the process."""
        await asyncio.wait_for(self.client.shutdown_async(None), PATIENCE)
        self.client.exit(None)
        server: Any = self.client._server
        status: int = await asyncio.wait_for(server.wait(), PATIENCE)
        stop: Any = self.client.stop
        await stop()
        return status

    def uri(self, name: str) -> str:
        return (self.folder / name).as_uri()

    def open(self, name: str, text: str | None = None) -> None:
        """A document of the folder, as it is on the disk unless a text is given."""
        text = (self.folder / name).read_text("utf-8") if text is None else text
        item = types.TextDocumentItem(self.uri(name), "yaml", 1, text)
        self.client.text_document_did_open(types.DidOpenTextDocumentParams(item))

    def change(self, name: str, version: int, text: str) -> None:
        """The whole document is another."""
        self.client.text_document_did_change(types.DidChangeTextDocumentParams(
            types.VersionedTextDocumentIdentifier(version, self.uri(name)),
            [types.TextDocumentContentChangeWholeDocument(text)]))  # fmt: skip

    async def diagnostics(self, name: str, version: int | None = None) -> list[types.Diagnostic]:
        """What is told of a document, once it is told of that version of it."""

        def there() -> types.PublishDiagnosticsParams | None:
            told = self.told.get(self.uri(name), [])
            return told[-1] if told and version in (None, told[-1].version) else None

        while (found := there()) is None:
            self._news.clear()
            await asyncio.wait_for(self._news.wait(), PATIENCE)
        return list(found.diagnostics)

    def _at(self, name: str, line: int, column: int) -> tuple[types.TextDocumentIdentifier, types.Position]:
        return types.TextDocumentIdentifier(self.uri(name)), types.Position(line, column)

    async def hover(self, name: str, line: int, column: int) -> str:
        """The words of the hover; empty for none."""
        asked = types.HoverParams(*self._at(name, line, column))
        found = await asyncio.wait_for(self.client.text_document_hover_async(asked), PATIENCE)
        return found.contents.value if found and isinstance(found.contents, types.MarkupContent) else ""

    async def definition(self, name: str, line: int, column: int) -> types.Location | None:
        """Where it is defined."""
        asked = types.DefinitionParams(*self._at(name, line, column))
        found = await asyncio.wait_for(self.client.text_document_definition_async(asked), PATIENCE)
        assert found is None or isinstance(found, types.Location)
        return found

    async def completion(self, name: str, line: int, column: int) -> list[types.CompletionItem]:
        """What may be typed."""
        asked = types.CompletionParams(*self._at(name, line, column))
        found = await asyncio.wait_for(self.client.text_document_completion_async(asked), PATIENCE)
        return list(found.items) if isinstance(found, types.CompletionList) else []


def with_session(folder: Path, work: Callable[[Session], Awaitable[T]], **begin: Any) -> T:
    """Do some work in a session; the server takes its leave with status 0, and said nothing went wrong."""

    async def run() -> T:
        session = Session(folder)
        await session.begin(**begin)
        done = await work(session)
        assert await session.end() == 0
        assert session.logged == []
        return done

    return asyncio.run(run())
