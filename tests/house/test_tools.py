"""The checks of the house find what they are for: each fault is provoked.

usage: test_tools.py SOURCE_ROOT
"""
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(sys.argv[1])
sys.path.insert(0, str(ROOT / "tools"))
import check_book  # noqa: E402
import check_layers  # noqa: E402
import check_words  # noqa: E402
import make_sources  # noqa: E402
import tongues  # noqa: E402


class Tree:
    """A folder with the files given as path = text."""

    def __init__(self, files):
        self.files = files

    def __enter__(self):
        self.home = tempfile.TemporaryDirectory()
        root = Path(self.home.name)
        for name, text in self.files.items():
            path = root / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return root

    def __exit__(self, *_):
        self.home.cleanup()


def layer_faults(files):
    with Tree(files) as root:
        return check_layers.faults_of(root)


def word_faults(files):
    with Tree(files) as root:
        return check_words.faults_of(root)


class Book(unittest.TestCase):
    HEAD = "id,figure,value,low,high,unit,origin,source,note\n"

    def faults(self, row):
        files = {"data/crops.csv": self.HEAD + row + "\n",
                 "docs/sources.d/a.md": "- **[KNOTT]** A handbook.\n"}
        with Tree(files) as root:
            return check_book.faults_of(root)

    def test_sources_are_known_and_what_is_read_names_one(self):
        self.assertEqual(self.faults("a,b,1,1,1,d,book,KNOTT,"), [])
        self.assertEqual(self.faults("a,b,1,1,1,d,guess,,judged"), [])
        (fault,) = self.faults("a,b,1,1,1,d,guess,KNOT,")
        self.assertIn("crops.csv:2: a b: no entry [KNOT]", fault)
        (fault,) = self.faults("a,b,1,0.7125,1.3,d,guess,,")
        self.assertIn("a guess with low 0.7125", fault)
        self.assertEqual(self.faults("a,b,1,0.712,1250,d,guess,,"), [])
        (fault,) = self.faults("a,b,1,1,1,d,book,,")
        self.assertIn("without a source", fault)
        (fault,) = self.faults("a,b,1,1,1,d,yours,,")
        self.assertIn("no figure of yours", fault)


class Fish(unittest.TestCase):
    """The table of fish, with one line of it changed."""

    def made(self, old, new):
        text = (ROOT / "data/fish.csv").read_text(encoding="utf-8")
        self.assertIn(old, text)
        with Tree({"fish.csv": text.replace(old, new, 1)}) as root:
            return subprocess.run(
                [sys.executable, str(ROOT / "tools/make_fish.py"),
                 str(root / "fish.csv"), str(root / "out.c")],
                capture_output=True, text=True)

    def test_faults_of_the_table_stop_the_build(self):
        self.assertEqual(self.made("Nile tilapia", "Nile fish").returncode, 0)
        for old, new, words in [
                ("nile-tilapia,ration,5,", "nile-tilapia,ration,0.5,",
                 "rising"),
                ("nile-tilapia,efficiency,,0.657", "nile-tilapia,efficiency,,x",
                 "not a number"),
                ("nile-tilapia,efficiency,,0.657",
                 "nile-tilapia,efficiency,,0.9", "do not rise"),
                ("nile-tilapia,efficiency", "nile-tilapia,eficiency",
                 "unknown"),
                ("nile-tilapia,upkeep_rise", "nile-tilapia,upkeep_degc",
                 "told twice")]:
            done = self.made(old, new)
            self.assertEqual(done.returncode, 1, new)
            self.assertIn(words, done.stderr)


class Layers(unittest.TestCase):
    def test_downward_is_right_and_upward_is_named_with_its_line(self):
        files = {"base/a.h": "", "farm/b.h": '#include "base/a.h"\n'}
        self.assertEqual(layer_faults(files), [])
        files["base/c.c"] = '/* c */\n#include "farm/b.h"\n'
        (fault,) = layer_faults(files)
        self.assertIn("base/c.c:2:", fault)
        self.assertIn("may not lean on farm/", fault)

    def test_neighbours_without_a_row_are_refused(self):
        (fault,) = layer_faults({"sums/a.h": "",
                                 "plan/b.c": '#include "sums/a.h"\n'})
        self.assertIn("plan/ may not lean on sums/", fault)

    def test_a_circle_within_a_layer_is_told(self):
        (fault,) = layer_faults({"base/a.h": '#include "base/b.h"\n',
                                 "base/b.h": '#include "base/c.h"\n',
                                 "base/c.h": '#include "base/a.h"\n'})
        self.assertIn("a circle: base/a.h -> base/b.h -> base/c.h", fault)

    def test_vendor_headers_are_pinned(self):
        self.assertEqual(layer_faults({"json/a.c": "#include <jansson.h>\n",
                                       "base/b.c": "#include <csv.h>\n"}), [])
        (fault,) = layer_faults({"cli/a.c": "#include <jansson.h>\n"})
        self.assertIn("<jansson.h> belongs to json/", fault)
        (fault,) = layer_faults({"cli/a.c": "#include <zlib.h>\n"})
        self.assertIn("no row of VENDOR", fault)
        (fault,) = layer_faults({"base/a.c": "#include <cmocka.h>\n"})
        self.assertIn("no row of VENDOR", fault)

    def test_lower_layers_do_not_touch_the_machine(self):
        (fault,) = layer_faults({"plan/a.c": "#include <unistd.h>\n"})
        self.assertIn("only from desk/ upward", fault)
        self.assertEqual(layer_faults({"desk/a.c": "#include <unistd.h>\n"}),
                         [])

    def test_what_does_not_exist_is_told(self):
        (fault,) = layer_faults({"base/a.c": '#include "base/gone.h"\n'})
        self.assertIn("does not exist", fault)
        (fault,) = layer_faults({"attic/a.c": ""})
        self.assertIn("no row of the table", fault)


class Words(unittest.TestCase):
    def test_each_word_is_found_where_it_is_refused(self):
        wrong = {
            "src/farm/a.c": "int *p = malloc(4);",
            "src/cli/a.c": "free(p);",
            "src/base/a.c": "strcpy(a, b);",
            "src/plan/a.c": 'printf("x");',
            "src/sim/a.c": "fputs(x, stderr);",
            "src/work/a.c": "time(NULL);",
            "docs/a.md": "a path: /" + "home/somebody/x",
            "tests/a.c": "/* TO" + "DO */",
        }
        for name, line in wrong.items():
            with self.subTest(name):
                faults = word_faults({name: "/* first */\n" + line + "\n"})
                self.assertEqual(len(faults), 1, faults)
                self.assertIn(f"{name}:2:", faults[0])

    def test_what_only_looks_alike_passes(self):
        right = ('/* malloc(1), printf(1) */\nint f(void)\n{\n'
                 '    g("free(x)");\n    snprintf(a, 1, "b");\n'
                 "    run.free_places(1);\n    lifetime(3);\n}\n")
        self.assertEqual(word_faults({"src/farm/a.c": right}), [])
        self.assertEqual(word_faults({"src/cli/a.c": '/* a */\nprintf("b");\n',
                                      "src/base/b.c": "/* b */\nfree(p);\n"}),
                         [])

    def test_a_file_says_first_what_it_is_for(self):
        (fault,) = word_faults({"src/base/a.c": "int a;\n"})
        self.assertIn("first line", fault)


class Sources(unittest.TestCase):
    FILES = {
        "docs/sources.d/water.md": "- **[B2]** Second.\n- **[A1]** First,\n"
                                   "  told in two lines.\n",
        "src/nature/a.c": "/* x\n * Source: [A1] chapter 3; [B2] table 1. */\n",
    }

    def test_entries_are_sorted_under_their_subject(self):
        with Tree(self.FILES) as root:
            text, faults = make_sources.assemble(root)
        self.assertEqual(faults, [])
        self.assertIn("## Water\n\n- **[A1]** First,\n  told in two lines.\n"
                      "- **[B2]** Second.\n", text)

    def test_a_key_without_an_entry_and_a_key_told_twice_are_faults(self):
        files = dict(self.FILES)
        files["src/nature/b.h"] = "/* Source: [C3] somewhere. */\n"
        files["docs/sources.d/air.md"] = "- **[A1]** Another.\n"
        with Tree(files) as root:
            _, faults = make_sources.assemble(root)
        self.assertEqual(len(faults), 2, faults)
        self.assertIn("[A1]", faults[0])
        self.assertIn("b.h:1: [C3]", faults[1])


class Tongues(unittest.TestCase):
    def test_a_text_is_read_as_c_reads_it(self):
        with Tree({"x.c": 'say(a, is ? "one \\"x\\"" : "two " /* and */\n'
                          '    "three");\nsay_n(a, n, "%d tray", "%d trays");'
                          ' SAY("in a " \\\n "macro"); say(a, name);'}) as root:
            self.assertEqual(
                list(tongues.sentences_of_code(root / "x.c")),
                [('one "x"', None), ("two three", None),
                 ("%d tray", "%d trays"), ("in a macro", None)])

    def test_conversions_may_change_their_order_only(self):
        def fault(one, *said, several=None, forms=2):
            return tongues.fault_of(one, several, list(said), forms)

        self.assertIsNone(fault("%s of %.1f kg", "%2$.1f kg: %1$s"))
        self.assertIsNone(fault("%d %% of %s", "%d %% de %s"))
        self.assertIsNone(fault("%.*f m", "%.*f m"))
        self.assertIsNone(fault("%d tray", "una", "%d x", several="%d trays"))
        self.assertTrue(fault("%s of %.1f kg", "%.1f kg: %s"))
        self.assertTrue(fault("%s", "%d"))
        self.assertTrue(fault("%lld", "%d"))
        self.assertTrue(fault("%s", "s"))
        self.assertTrue(fault("; %s", ";%s "))
        self.assertTrue(fault("%d tray", "una", "x", several="%d trays"))
        self.assertTrue(fault("%d tray", "%d x", several="%d trays"))
        self.assertTrue(fault("a", ""))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
