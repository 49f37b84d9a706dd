"""The text of a sheet as a small tree of plain values: paragraphs, lists, quotes; words in them.

Nothing of it is markup of any kind: whatever a text holds comes out as text. What looks like HTML is
text too. A link leads to the web or to a sheet or component of the document; any other keeps its words.
"""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from markdown_it.token import Token
from markdown_it.tree import SyntaxTreeNode

from journal.pages.dossier.places import Places
from journal.pages.prose import BLOCK_LABEL
from journal.pages.view import CarView
from journal.reading.markdown import leads_outward, link_target, tokens_of
from journal.records.sheet import Block, photo_path

Node = dict[str, Any]

_GROUPS = {"em": "emphasis", "strong": "strong", "s": "emphasis"}


class ProseTree:
    """Turns the blocks of a sheet into trees for a document with these places."""

    def __init__(self, view: CarView, places: Places, day: date) -> None:
        self._view, self._places, self._day = view, places, day

    def passages(self, blocks: Sequence[Block]) -> tuple[Node, ...]:
        """The blocks in order: `label`, empty when the text is for all, and its `blocks`."""
        return tuple(
            {
                "label": BLOCK_LABEL[block.reader],
                "blocks": self._blocks(SyntaxTreeNode(tokens_of(block.text))),
            }
            for block in blocks
        )

    def _blocks(self, parent: SyntaxTreeNode) -> list[Node]:
        return [node for child in parent.children for node in self._block(child)]

    def _block(self, node: SyntaxTreeNode) -> Iterator[Node]:
        match node.type:
            case "paragraph" | "heading":
                yield {"kind": node.type, "spans": self._spans(node)}
            case "bullet_list" | "ordered_list":
                yield self._list(node)
            case "blockquote":
                yield {"kind": "quote", "blocks": self._blocks(node)}
            case "fence" | "code_block":
                yield {"kind": "code", "text": node.content.rstrip("\n")}
            case "hr":
                yield {"kind": "break"}
            case _:
                # A mark that stands for no block of ours: what it holds is shown.
                yield from self._blocks(node)

    def _list(self, node: SyntaxTreeNode) -> Node:
        return {
            "kind": "list",
            "ordered": node.type == "ordered_list",
            "start": int(node.attrs.get("start", 1)),
            "items": [self._blocks(item) for item in node.children],
        }

    def _spans(self, parent: SyntaxTreeNode) -> list[Node]:
        """The words within a node; texts that follow one another are one."""
        joined: list[Node] = []
        for span in (span for child in parent.children for span in self._span(child)):
            if span["kind"] == "text" and joined and joined[-1]["kind"] == "text":
                joined[-1] = _text(joined[-1]["text"] + span["text"])
            elif span != _text(""):
                joined.append(span)
        return joined

    def _span(self, node: SyntaxTreeNode) -> Iterator[Node]:
        match node.type:
            case "text":
                yield _text(node.content)
            case "softbreak":
                yield _text(" ")
            case "hardbreak":
                yield {"kind": "line"}
            case "code_inline":
                yield {"kind": "code", "text": node.content}
            case "em" | "strong":
                yield {"kind": _GROUPS[node.type], "spans": self._spans(node)}
            case "link":
                yield from self._link(node)
            case "image":
                yield self._picture(node)
            case _:
                yield from self._spans(node)

    def _link(self, node: SyntaxTreeNode) -> Iterator[Node]:
        token = _opening(node)
        spans = self._spans(node)
        if leads_outward(token):
            yield {"kind": "link", "url": str(token.attrs["href"]), "spans": spans}
            return
        target = link_target(token)
        name = target.rsplit("/", 1)[-1].removesuffix(".md")
        place = self._places.sheet(name).href or self._places.component(target).href
        if place is None:
            yield from spans
        else:
            yield {"kind": "lead", "to": place[1:], "spans": spans}

    def _picture(self, node: SyntaxTreeNode) -> Node:
        """A photograph in a text is named by its code; it stands with the others."""
        path = photo_path(self._day, link_target(_opening(node)))
        picture = self._view.gallery.at(path)
        if picture is None or picture.path not in self._view.pictures:
            return _text(node.content)
        code = self._places.picture_code(picture.number)
        words = f"{node.content} ({code.text})" if node.content else code.text
        if code.href is None:
            return _text(words)
        return {"kind": "lead", "to": code.href[1:], "spans": [_text(words)]}


def _opening(node: SyntaxTreeNode) -> Token:
    return node.token if node.token is not None else node.nester_tokens.opening  # type: ignore[union-attr]


def _text(text: str) -> Node:
    return {"kind": "text", "text": text}
