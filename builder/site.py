"""The MkDocs plugin: the one module that knows MkDocs.

It hands MkDocs pages that exist nowhere on disk, each with a template and a context, and the order in
which they are listed. What the pages say is decided in `pages`. While the site is served, a guide with
an error shows its findings, and its other pages stay as they were when it last had none.
"""

from __future__ import annotations

from pathlib import Path, PurePosixPath
from typing import Any, Literal

from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from builder.findings import Severity
from builder.pages.book import Book, open_book
from builder.pages.render import prepare
from builder.pages.the_site import site_pages
from builder.pages.website import SITE_NAME, WebPage, plain_frame

log = get_plugin_logger(__name__)


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

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Tells a build from a preview; that it exists makes MkDocs keep the object."""
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """A site that opens from a folder has no use for a sitemap, which would carry a date."""
        config.theme.static_templates -= {"sitemap.xml"}
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Read all guides, and put their pages among the files."""
        folders = [path.parent for path in sorted(Path(config.docs_dir).glob("*/guide.yml"))]
        books = [self._book(folder) for folder in folders]
        pages = site_pages(
            books, {folder.name: self.good[folder] for folder in folders if folder in self.good}
        )
        self.pages = {}
        for page in pages:
            uri = PurePosixPath(page.path).with_suffix(".md").as_posix()
            known = files.get_file_from_path(uri)
            if known is not None:
                files.remove(known)
            text = f"---\ntemplate: {page.template}\n---\n"
            files.append(File.generated(config, uri, content=text))
            self.pages[uri] = page
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

    def _book(self, folder: Path) -> Book:
        """The guide as it stands now. A guide that did not change since is not run again."""
        book = open_book(folder, self.read.get(folder))
        self.read[folder] = book
        errors = [f for f in book.findings if f.severity is Severity.ERROR]
        if not errors:
            self.good[folder] = book
        elif not self.serving:
            told = f"{errors[0].place}: {errors[0].message} [{errors[0].check}]"
            raise PluginError(f"{told}\n`kitwright check` shows every finding of the guide.")
        return book
