"""What tools/embed_assets.py embeds comes out byte for byte, packed or not."""

import gzip
import os
import pathlib
import subprocess
import sys
import tempfile

ROOT, COMPILER = pathlib.Path(sys.argv[1]), sys.argv[2]
PRINTER = """#include <cstdio>
#include "serve/assets.hpp"
int main() {
  for (const auto& a : lynearm::serve::embedded_assets()) {
    std::printf("%.*s|%.*s|%d|%zu|%zu\\n", int(a.path.size()), a.path.data(),
                int(a.content_type.size()), a.content_type.data(), a.for_ever, a.bytes.size(),
                a.packed.size());
    std::fwrite(a.bytes.data(), 1, a.bytes.size(), stdout);
    std::fwrite(a.packed.data(), 1, a.packed.size(), stdout);
  }
}
"""


def embed(folder, out):
    return subprocess.run([sys.executable, "-B", ROOT / "tools/embed_assets.py", folder,
                           ROOT / "src/serve/placeholder", out], check=False,
                          capture_output=True, text=True)


def read_back(printed):
    files = {}
    while printed:
        line, _, printed = printed.partition(b"\n")
        path, kind, for_ever, plain, packed = line.decode().split("|")
        plain, packed = int(plain), int(packed)
        files[path] = (kind, for_ever == "1", printed[:plain], printed[plain:plain + packed])
        printed = printed[plain + packed:]
    return files


def main():
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        page = folder / "dist"
        (page / "assets").mkdir(parents=True)
        every_byte = bytes(range(256)) + bytes(range(255, -1, -1)) + b'0"\\??/1\x007'
        sent = {"/index.html": b"<!doctype html>" + b"<p>x</p>" * 400,
                "/assets/page-3fk29dAb.js": every_byte, "/assets/page-3fk29dA.js": b"",
                "/clip.png": os.urandom(3000)}
        for path, data in sent.items():
            (page / path[1:]).write_bytes(data)
        assert embed(page, folder / "a.cpp").returncode == 0
        made = (folder / "a.cpp").stat().st_mtime_ns
        assert embed(page, folder / "a.cpp").returncode == 0
        assert (folder / "a.cpp").stat().st_mtime_ns == made, "written again without a change"

        (folder / "main.cpp").write_text(PRINTER)
        subprocess.run([COMPILER, "-std=c++20", "-I", ROOT / "src", folder / "a.cpp",
                        folder / "main.cpp", "-o", folder / "print"], check=True)
        got = read_back(subprocess.run([folder / "print"], check=True, capture_output=True).stdout)
        assert list(got) == sorted(sent, key=str.encode), list(got)
        for path, (kind, for_ever, plain, packed) in got.items():
            assert plain == sent[path], path
            assert not packed or gzip.decompress(packed) == plain, path
            assert for_ever == (path == "/assets/page-3fk29dAb.js"), path
            assert kind, path
        assert got["/index.html"][3], "a page that could be packed is not"
        assert not got["/clip.png"][3], "noise is packed"

        (page / "odd.xyz").write_text("")
        assert embed(page, folder / "b.cpp").returncode == 1, "an unknown kind passes"
        assert embed(folder / "gone", folder / "c.cpp").returncode == 0
        assert "built without its page" in (folder / "c.cpp").read_text().replace('"\n"', "")
    print("every file comes out as it went in")


if __name__ == "__main__":
    main()
