#!/usr/bin/env python3
"""Writes text files into one C++ source, as functions that give them back.

usage: embed_texts.py OUT.cpp NAMESPACE NAME=FILE...

Each NAME becomes `std::string_view NAME()`, declared by whoever calls it. A text is cut into
literals of a few kilobytes, because compilers need not take longer ones (the standard asks for
65536 characters), and put together once, when it is first asked for.
"""

import pathlib
import sys

PIECE = 8000  # bytes of a literal, well under what any compiler must take


def literal(piece):
    """As a string literal; bytes outside printable ASCII in octal, which ends after three."""
    shown = []
    for byte in piece:
        if byte == 0x0A:
            shown.append("\\n")
        elif byte in b'"\\?':  # a question mark could begin a trigraph
            shown.append("\\" + chr(byte))
        elif 0x20 <= byte < 0x7F:
            shown.append(chr(byte))
        else:
            shown.append(f"\\{byte:03o}")
    return '"' + "".join(shown) + '"'


def function(name, text):
    pieces = [text[i : i + PIECE] for i in range(0, len(text), PIECE)]
    rows = "".join(f"      {{{literal(piece)}, {len(piece)}}},\n" for piece in pieces)
    return (
        f"std::string_view {name}() {{\n"
        f"  static const std::string whole = joined({{\n{rows}  }});\n"
        "  return whole;\n}\n"
    )


def main():
    out, namespace, *texts = sys.argv[1:]
    parts = [
        "// Made by tools/embed_texts.py.\n",
        "#include <initializer_list>\n#include <string>\n#include <string_view>\n\n",
        f"namespace {namespace} {{\n",
    ]
    read = []
    for text in texts:
        name, path = text.split("=", 1)
        read.append((name, pathlib.Path(path).read_bytes()))
        parts.append(f"std::string_view {name}();\n")
    parts.append(
        "namespace {\n"
        "std::string joined(std::initializer_list<std::string_view> pieces) {\n"
        "  std::string whole;\n"
        "  for (const std::string_view piece : pieces) whole += piece;\n"
        "  return whole;\n}\n"
        "}  // namespace\n\n"
    )
    parts.extend(function(name, text) + "\n" for name, text in read)
    parts.append(f"}}  // namespace {namespace}\n")
    target = pathlib.Path(out)
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text("".join(parts), encoding="utf-8")


if __name__ == "__main__":
    main()
