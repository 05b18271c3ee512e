"""The MkDocs plugin: the one module that knows MkDocs.

It hands MkDocs pages that exist nowhere on disk, each with a template and a context, and the order in
which they are listed. What the pages say is decided in `pages`. While the site is served, a guide with
an error shows its findings, and its other pages stay as they were when it last had none.
"""

from __future__ import annotations

import logging
import shutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from typing import Any, Literal

from mkdocs.commands.build import build as build_with_mkdocs
from mkdocs.config import load_config
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException, PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from builder.guide.classfile import settings
from builder.pages.book import Book, open_book
from builder.pages.chapter import part_words
from builder.pages.contexts import Link
from builder.pages.lookup import WORTH, Code
from builder.pages.render import prepare
from builder.pages.sealed_pages import Kept
from builder.pages.shelf import Shelf
from builder.pages.store import Store, key_of, sources_sign, tool_sign
from builder.pages.the_site import site_files, site_pages
from builder.pages.website import SITE_NAME, WebPage, plain_frame
from builder.plan.settings import SHOWN, Class, class_of
from builder.revisions.locate import Unknown

log = get_plugin_logger(__name__)

SIGN = "css/kitwright.css"
"""A file that every site of this tool holds, and hardly anything else."""


class NoSettings(Config):  # type: ignore[no-untyped-call]
    """The plugin takes no settings: a guide says all that there is to say."""


class KitwrightPlugin(BasePlugin[NoSettings]):  # type: ignore[no-untyped-call]
    """Guides in, pages out.

    MkDocs keeps this object for the life of `mkdocs serve`, so the last good book of each guide is here
    and nowhere else.
    """

    def __init__(self) -> None:
        self.serving = False
        self.good: dict[Path, Book] = {}
        self.read: dict[Path, Book] = {}
        self.pages: dict[str, WebPage] = {}
        self.packets: Mapping[str, bytes] = {}
        self.kept: dict[str, Kept] = {}
        self.store = Store()
        self.planting = False
        self.group: Class | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Tells a build from a preview; that it exists makes MkDocs keep the object."""
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """A site that opens from a folder has no use for a sitemap, which would carry a date."""
        config.theme.static_templates -= {"sitemap.xml"}
        own = Path(config.config_file_path).with_name("class.yml")
        if self.serving and own.is_file():
            self._read_class(own)
            config.watch = [*config.watch, str(own)]
        return config

    def _read_class(self, own: Path) -> None:
        """The class of its file; another one than before has everything counted anew."""
        try:
            group = class_of(settings(own))
        except ValueError as reason:
            raise PluginError(f"{own.name}: {reason}") from None
        if self.group is None or group.sign != self.group.sign:
            self.group, self.read, self.kept = group, {}, {}

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Read all guides, and put their pages among the files."""
        folders = [path.parent for path in sorted(Path(config.docs_dir).glob("*/guide.yml"))]
        tool_sign.cache_clear()  # while the site is served, the theme may be edited too
        shelves = [self._shelf(folder) for folder in folders]
        try:
            pages = site_pages(shelves, self.packets, self.store, planting=self.planting)
            made = site_files(shelves, _codes(shelves), self.store, planting=self.planting)
            made.append(self.store.settled())
        except Unknown as reason:
            raise PluginError(str(reason)) from None
        self.pages = {}
        for page in pages:
            uri = PurePosixPath(page.path).with_suffix(".md").as_posix()
            known = files.get_file_from_path(uri)
            if known is not None:
                files.remove(known)
            text = f"---\ntemplate: {page.template}\n---\n"
            files.append(File.generated(config, uri, content=text))
            self.pages[uri] = page
        for each in made:
            files.append(File.generated(config, each.path, content=each.content))
        for file in [f for f in files if f.src_uri.startswith(("print/", "sitemap.xml"))]:
            files.remove(file)
        beside = [file.src_uri for file in files.documentation_pages() if file.src_uri not in self.pages]
        config.nav = [*self.pages, *beside]
        return files

    def on_env(self, env: Any, *, config: MkDocsConfig, files: Files) -> Any:
        """MkDocs' environment becomes as strict as our own."""
        return prepare(env)

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """The page's own context; a Markdown page that someone put beside the guides gets a frame."""
        ours = self.pages.get(page.file.src_uri)
        if ours is None:
            context["frame"] = plain_frame(page.file.dest_uri, str(page.title or SITE_NAME))  # type: ignore[typeddict-unknown-key]
        else:
            context["frame"], context["view"] = ours.frame, ours.view  # type: ignore[typeddict-unknown-key]
        return context

    def _shelf(self, folder: Path) -> Shelf:
        """A guide with its revisions; what is sealed is read once."""
        book = self._book(folder)
        shown = self.good.get(folder) if book.has_error else book
        return Shelf(folder, book, shown, self.kept, self._class())

    def _class(self) -> Class:
        """The class that the pages are counted for."""
        return self.group or SHOWN

    def _book(self, folder: Path) -> Book:
        """The guide as it stands now. A guide that did not change since is not run again."""
        book = open_book(folder, self.read.get(folder), self._class())
        self.read[folder] = book
        if not book.has_error:
            self.good[folder] = book
        elif not self.serving:
            first = book.errors[0]
            told = f"{first.place}: {first.message} [{first.check}]"
            raise PluginError(f"{told}\n`kitwright check` shows every finding of the guide.")
        return book


def _codes(shelves: Sequence[Shelf]) -> list[Code]:
    """Every printed page of every sealed revision, with what it is worth now. Errors: Unknown."""
    from builder.packet.codes import table  # the packet's own libraries are needed for revisions alone

    found = []
    for shelf in shelves:
        title = shelf.current.guide.title if shelf.current is not None else shelf.name
        for each in table(shelf.folder) if shelf.sealed else ():
            where = f"{title}, revision {each.revision}, {part_words(each.part)}, page {each.page}"
            path = f"{shelf.name}/r{each.revision}/index.html"
            found.append(Code(mark=each.mark, worth=each.worth, told=WORTH[each.worth], where=where,
                              instead=each.instead, reasons=each.reasons,
                              link=Link(text=f"Revision {each.revision}", href=path)))  # fmt: skip
    return found


def build_site(
    config_file: Path,
    site_dir: Path,
    packets: Callable[[Path, Store], object] | None = None,
    group: Class = SHOWN,
    *,
    planting: bool = False,
    asked: str = "",
) -> str:
    """Build the whole site into a folder, or say in a sentence why not; quiet, and with no warning let by.

    The new site stands whole beside the old one before it takes its place, so that an interrupted or a
    failed build leaves the old site as it was. A folder that holds anything but a site is left alone.

    `packets` is called with a folder, and puts printed packets into it as they are to lie in the site; the
    pages then lead to them. What it raises stops the build. It may take over from the store what was printed
    before. `planting` has faults planted in copies of the guides, for the reviewer (half a minute).
    `group` is the class that the pages are counted for.
    `asked` says in some words of the caller what else decides how the site looks; where it is given, a site
    that was built from the same sources, and so asked for, is left as it is.
    """
    site_dir = site_dir.absolute()
    fresh, old, printed = (site_dir.with_name(f".{site_dir.name}.{n}") for n in ("new", "old", "packets"))
    try:
        if old.exists() and not site_dir.exists():
            old.rename(site_dir)  # an earlier build was stopped between the two steps of `_take_place`
        if not _may_be_replaced(site_dir):
            return f"{site_dir.name} holds something other than a site: name a new folder, or an empty one"
        for leftover in (fresh, old, printed):
            shutil.rmtree(leftover, ignore_errors=True)
        store = Store(site_dir)
        whole = _whole_key(config_file, asked and f"{asked}, {group.sign}")
        if whole and store.stands(whole):
            return ""
        if packets is not None:
            packets(printed, store)
        with _heard() as told:
            try:
                config = load_config(str(config_file), site_dir=str(fresh), strict=True)
                config.plugins.on_startup(command="build", dirty=False)
                plugin = config.plugins.get("kitwright")
                if not isinstance(plugin, KitwrightPlugin):
                    return f"{config_file.name} does not list the plugin kitwright"
                plugin.packets = _files_in(printed)
                plugin.store, plugin.planting, plugin.group = store, planting, group
                build_with_mkdocs(config)
            except MkDocsException as error:
                return _sentence(told[0] if told else str(error))
        if printed.exists():
            shutil.copytree(printed, fresh, dirs_exist_ok=True)
        if whole:
            store.close(fresh, whole)
        _take_place(fresh, site_dir, old)
    except OSError as error:
        return _sentence(f"the site could not be written: {error.strerror or error} ({error.filename})")
    finally:
        for each in (fresh, printed):
            shutil.rmtree(each, ignore_errors=True)
    return ""


def _whole_key(config_file: Path, asked: str) -> str:
    """The key of a whole site; empty if it cannot be known whether it would be the same."""
    if not asked or not config_file.is_file():
        return ""
    try:
        docs = config_file.parent / settings(config_file).get("docs_dir", "docs")
    except ValueError:
        return ""
    if not docs.is_dir():
        return ""
    return key_of("site", asked, sources_sign(config_file, docs))


def _files_in(folder: Path) -> dict[str, bytes]:
    """The files in a folder, by their paths from there; of those that a page shows, what is in them."""
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.suffix == ".json" else b""
        for path in files
    }


def _may_be_replaced(folder: Path) -> bool:
    """Whether a folder is missing, empty, or a site that was built before."""
    if not folder.exists():
        return True
    return folder.is_dir() and ((folder / SIGN).is_file() or not any(folder.iterdir()))


def _take_place(fresh: Path, site_dir: Path, old: Path) -> None:
    """Put the new site where the old one was. No system swaps two folders in one step."""
    if site_dir.exists():
        site_dir.rename(old)
    fresh.rename(site_dir)
    shutil.rmtree(old, ignore_errors=True)


class _Listener(logging.Handler):
    """Keeps what was warned of."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.told: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.told.append(record.getMessage())


@contextmanager
def _heard() -> Iterator[list[str]]:
    """What MkDocs warns of meanwhile, in a list and not on the screen."""
    logger = logging.getLogger("mkdocs")
    listener = _Listener()
    before = logger.propagate
    logger.addHandler(listener)
    logger.propagate = False
    try:
        yield listener.told
    finally:
        logger.removeHandler(listener)
        logger.propagate = before


def _sentence(text: str) -> str:
    """The text without the mark of a plugin and without closing white space."""
    return text.strip().removeprefix("builder.site: ")
