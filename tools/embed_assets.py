"""Writes the files of a folder as one C++ source, for serve/assets.hpp.

    tools/embed_assets.py FOLDER PLACEHOLDER OUT.cpp

FOLDER is the built page; where it has no index.html, PLACEHOLDER is taken. Each file comes with
its media type, a tag of its bytes and, where that is shorter, its form packed by gzip. OUT.cpp
is written only when it changes, and is the same for the same files whenever it is made.
"""

import gzip
import hashlib
import pathlib
import re
import sys

TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".ico": "image/x-icon",
    ".jpg": "image/jpeg",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".mp3": "audio/mpeg",
    ".ogg": "audio/ogg",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".wav": "audio/wav",
    ".webmanifest": "application/manifest+json",
    ".webp": "image/webp",
    ".woff2": "font/woff2",
}
# As the page's build names what it may keep for ever: "assets/name-" and eight letters of a hash.
FOR_EVER = re.compile(r"^/assets/.+-[\w-]{8}\.\w+$")
HEAD = """// Made by tools/embed_assets.py.
#include "serve/assets.hpp"

namespace lynearm::serve {

const std::vector<Asset>& embedded_assets() {
  static const std::vector<Asset> assets{
"""
TAIL = """  };
  return assets;
}

}  // namespace lynearm::serve
"""
# Every byte as it may stand in a literal: three octal digits cannot swallow the digit behind.
LETTERS = [chr(b) if 32 <= b < 127 and chr(b) not in '"\\?' else f"\\{b:03o}" for b in range(256)]


def literal(data):
    """A string_view of the bytes, in pieces of some hundred columns."""
    if not data:
        return "{}"
    lines = ("".join(LETTERS[b] for b in data[i:i + 96]) for i in range(0, len(data), 96))
    return "{" + "\n".join(f'"{line}"' for line in lines) + f", {len(data)}}}"


def entry(path, data):
    packed = gzip.compress(data, 9, mtime=0)
    fields = [literal(path.encode()), literal(TYPES[pathlib.PurePosixPath(path).suffix].encode()),
              literal(hashlib.sha256(data).hexdigest()[:20].encode()), literal(data),
              literal(packed if len(packed) < len(data) else b""),
              "true" if FOR_EVER.match(path) else "false"]
    return "{" + ",\n".join(fields) + "},\n"


def main():
    folder, placeholder, out = map(pathlib.Path, sys.argv[1:4])
    if not (folder / "index.html").is_file():
        folder = placeholder
    files = {"/" + f.relative_to(folder).as_posix(): f for f in folder.rglob("*") if f.is_file()}
    unknown = sorted(p for p in files if pathlib.PurePosixPath(p).suffix not in TYPES)
    if unknown:
        print(f"{pathlib.Path(__file__).name}: no media type known for {', '.join(unknown)}",
              file=sys.stderr)
        return 1
    # As C++ sorts them: by bytes.
    text = HEAD + "".join(entry(p, files[p].read_bytes())
                          for p in sorted(files, key=str.encode)) + TAIL
    if not out.is_file() or out.read_text(encoding="utf-8") != text:
        out.parent.mkdir(parents=True, exist_ok=True)
        out.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
