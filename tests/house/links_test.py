"""Each relative link in our Markdown leads to a file that is there, and to a heading in it."""

import pathlib
import re
import sys
import tempfile
import urllib.parse

import tree

LINK = re.compile(r"\]\(\s*<?([^)\s>]+)>?(?:\s+\"[^\"]*\")?\s*\)")
FENCE = re.compile(r"^(```|~~~).*?^\1", re.MULTILINE | re.DOTALL)
CODE = re.compile(r"`[^`\n]*`")
HEADING = re.compile(r"^#{1,6}\s+(.*?)\s*#*$", re.MULTILINE)


def headings(text):
    """The anchors that a Markdown page offers: lower case, hyphens for spaces, no punctuation."""
    found = set()
    for title in HEADING.findall(FENCE.sub("", text)):
        title = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", title).lower()
        found.add(re.sub(r"[^\w\- ]", "", title).strip().replace(" ", "-"))
    return found


def faults_of(root):
    found = []
    for file in tree.files(root):
        if file.suffix != ".md":
            continue
        text = tree.text(file)
        prose = CODE.sub("", FENCE.sub("", text))
        for link in LINK.findall(prose):
            if re.match(r"[a-z][a-z0-9+.-]*:", link):
                continue
            path, _, anchor = urllib.parse.unquote(link).partition("#")
            target = (file.parent / path).resolve() if path else file
            where = f"{file.relative_to(root)}: link to {link}"
            if not target.exists():
                found.append(f"{where}: no such file")
            elif not target.resolve().is_relative_to(root.resolve()):
                found.append(f"{where}: leads out of the repository")
            elif anchor and target.suffix == ".md" and anchor not in headings(tree.text(target)):
                found.append(f"{where}: no such heading")
    return found


def prove_itself():
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder).resolve()
        (root / "docs").mkdir()
        (root / "docs" / "b.md").write_text("# Two words, `code`\n")
        page = root / "a.md"
        page.write_text("[b](docs/b.md) [c](docs/b.md#two-words-code) [d](https://example.org/x) "
                        "`[e](gone.md)`\n```\n[f](gone.md)\n```\n")
        tree.prove(faults_of(root) == [], f"it finds fault with a clean page: {faults_of(root)}")
        for planted in ("[x](gone.md)", "![x](docs/gone.png)", "[x](docs/b.md#gone)", "[x](../)"):
            page.write_text(planted)
            tree.prove(len(faults_of(root)) == 1, f"a planted link passes: {planted}")


def main():
    root = pathlib.Path(sys.argv[1]).resolve()
    prove_itself()
    pages = [f for f in tree.files(root) if f.suffix == ".md"]
    tree.tell(faults_of(root), f"{len(pages)} pages, each link leads somewhere")


if __name__ == "__main__":
    main()
