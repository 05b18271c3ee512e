"""The manifest of a sealed revision: what it is, and the SHA-256 of every file of it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping

import msgspec

NAME = "manifest.json"
FORMAT = 1


class Signed(msgspec.Struct, frozen=True):
    """A signature that held when the revision was sealed."""

    name: str
    role: str
    reason: str
    content: str


class Manifest(msgspec.Struct, frozen=True):
    """`content` is the sign of all that the guide says, `safety` of what guards against harm. `before` is
    the seal of the revision before, so that none can be put in another's place. `files` are the SHA-256 by
    path within the revision. `seal` is the SHA-256 of all the rest of the manifest."""

    guide: str
    number: int
    dated: str
    by: str
    summary: str
    content: str
    safety: str
    before: str
    files: Mapping[str, str]
    signed: tuple[Signed, ...] = ()
    format: int = FORMAT
    seal: str = ""


def digest(data: bytes) -> str:
    """The SHA-256 of a file (FIPS 180-4), in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def sealed(manifest: Manifest) -> Manifest:
    """The manifest with its own seal."""
    return msgspec.structs.replace(manifest, seal=_seal(manifest))


def _seal(manifest: Manifest) -> str:
    return digest(msgspec.json.encode(msgspec.structs.replace(manifest, seal="")))


def intact(manifest: Manifest) -> bool:
    """Whether nothing in the manifest itself was altered."""
    return manifest.seal == _seal(manifest)


def encode(manifest: Manifest) -> bytes:
    """The manifest as JSON."""
    return msgspec.json.format(msgspec.json.encode(manifest), indent=1) + b"\n"


def decode(data: bytes) -> Manifest:
    """The manifest of a file. Errors: ValueError, which names what is wrong."""
    return msgspec.json.decode(data, type=Manifest)


def sign_of(lines: Iterable[str]) -> str:
    """A short sign of some lines: the first 12 hexadecimal digits of their SHA-256."""
    return digest("\n".join(lines).encode())[:12]
