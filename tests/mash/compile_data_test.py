"""What tools/compile_data.py accepts, refuses and writes."""

import pathlib
import subprocess
import sys
import tempfile
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
TOOL = ROOT / "tools" / "compile_data.py"
DATA = (ROOT / "data" / "ingredients.toml").read_text(encoding="utf-8")


def run(text):
    with tempfile.TemporaryDirectory() as folder:
        source = pathlib.Path(folder) / "table.toml"
        out = pathlib.Path(folder) / "table.inc"
        source.write_text(text, encoding="utf-8")
        done = subprocess.run(
            [sys.executable, TOOL, "--table", "ingredient", "--in", source, "--out", out],
            capture_output=True, text=True, check=False,
        )
        written = out.read_text(encoding="utf-8") if out.exists() else None
        return done.returncode, done.stderr, written


class CompileData(unittest.TestCase):
    def refuses(self, old, new, *words):
        self.assertIn(old, DATA)
        code, error, written = run(DATA.replace(old, new, 1))
        self.assertEqual(code, 2, error)
        self.assertIsNone(written)
        for word in words:
            self.assertIn(word, error)

    def test_the_houses_table_is_accepted_with_every_row(self):
        code, error, written = run(DATA)
        self.assertEqual((code, error), (0, ""))
        self.assertEqual(written.count(".id = "), DATA.count("[[ingredient]]"))

    def test_an_unknown_key_is_refused(self):
        self.refuses("drains_slowly = true", "drains_slow = true", "drains_slow: unknown")

    def test_an_unknown_source_is_refused(self):
        self.refuses('source = "textbook" }', 'source = "hearsay" }', "hearsay")

    def test_a_missing_source_is_refused(self):
        self.refuses(', source = "textbook" }', " }", "lacks source")

    def test_a_value_outside_its_range_is_refused(self):
        self.refuses("value = 88, low = 86", "value = 98, low = 86", "maize-cracked.extract")

    def test_an_impossible_value_is_refused(self):
        self.refuses("value = 88, low = 86, high = 90", "value = 130, low = 86, high = 140",
                     "0.0 to 100.0")

    def test_a_wrong_unit_is_refused(self):
        self.refuses('unit = "Lintner"', 'unit = "WK"', "Lintner")

    def test_a_missing_field_is_refused(self):
        self.refuses('sort = "malt"\n', "", "sort: missing")

    def test_a_repeated_id_is_refused(self):
        self.refuses('id = "maize-meal"', 'id = "maize-cracked"', "stands twice")

    def test_an_unknown_standing_is_refused(self):
        self.refuses('standing = "from memory"', 'standing = "surely"', "surely")

    def test_several_faults_are_told_together(self):
        broken = DATA.replace('sort = "malt"\n', "", 1).replace("foams = true", "foams = 1", 1)
        self.assertEqual(len(run(broken)[1].splitlines()), 2)

    def test_text_that_is_no_toml_is_refused(self):
        self.assertEqual(run("[[ingredient")[0], 2)


if __name__ == "__main__":
    unittest.main()
