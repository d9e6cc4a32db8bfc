"""Every command keeps the contract: help, exit codes, streams, manual page.

usage: contract.py LEAT SOURCE_ROOT
"""
import os
import re
import subprocess
import sys
import tempfile
import unittest

LEAT = os.path.abspath(sys.argv[1])
ROOT = sys.argv[2]


def run(*words, **more):
    return subprocess.run([LEAT, *words], capture_output=True, text=True,
                          timeout=60, **more)


def command_names():
    """The names that the overview lists under "Commands"."""
    listed = run("help").stdout.split("\nCommands\n")[1].split("\n\n")[0]
    return [line.split()[0] for line in listed.splitlines()]


class Contract(unittest.TestCase):
    def test_the_overview_comes_in_three_ways(self):
        overview = run("help")
        self.assertEqual(overview.returncode, 0)
        self.assertIn("help", command_names())
        self.assertEqual(run().stdout, overview.stdout)
        self.assertEqual(run("--help").stdout, overview.stdout)

    def test_help_of_each_command_shows_how_to_call_it(self):
        for name in command_names():
            with self.subTest(name):
                told = run("help", name)
                self.assertEqual(told.returncode, 0)
                self.assertEqual(told.stderr, "")
                self.assertIn(f"\n  leat {name}", told.stdout)
                self.assertIn("For example\n  leat ", told.stdout)
                self.assertEqual(run(name, "--help").stdout, told.stdout)
                self.assertEqual(run(name, "--nonsense", "--help").stdout,
                                 told.stdout)

    def test_examples_call_commands_that_exist(self):
        names = set(command_names())
        for name in names:
            told = run("help", name).stdout.split("For example\n")[1]
            for line in told.splitlines():
                self.assertIn(line.split()[1], names, line)

    def test_examples_give_only_options_that_the_help_names(self):
        for name in command_names():
            head, told = run("help", name).stdout.split("For example\n")
            for option in re.findall(r"--[a-z-]+", told):
                self.assertIn(option, head, name)

    def test_help_fits_a_screen_of_100_columns(self):
        for name in command_names():
            for line in run("help", name).stdout.split("\n\n", 2)[-1].splitlines():
                self.assertLessEqual(len(line), 100, line)

    def test_an_unknown_option_is_a_usage_error_on_stderr(self):
        for name in command_names():
            with self.subTest(name):
                told = run(name, "--nonsense")
                self.assertEqual(told.returncode, 2)
                self.assertEqual(told.stdout, "")
                self.assertTrue(told.stderr.startswith("leat: "), told.stderr)
                self.assertIn(f"leat help {name}", told.stderr)

    def test_the_limits_that_an_option_names_are_taken(self):
        told = run("plan", "/nowhere/at/all", "--moves", "9223372036854775807")
        self.assertEqual(told.returncode, 1)
        self.assertIn("there is no such folder", told.stderr)
        told = run("plan", "/nowhere/at/all", "--moves", "9223372036854775808")
        self.assertEqual(told.returncode, 2)
        self.assertIn("from 1 to 9223372036854775807, not", told.stderr)

    def test_a_folder_without_a_name_is_told(self):
        for name in ("check", "plan", "foresee", "jobs"):
            told = run(name, "")
            self.assertEqual(told.returncode, 1)
            self.assertIn('"" is not a folder', told.stderr)

    def test_an_unknown_command_is_named_with_its_neighbour(self):
        told = run("hlep")
        self.assertEqual(told.returncode, 2)
        self.assertIn("did you mean help?", told.stderr)

    def test_the_version_is_the_one_of_the_build(self):
        with open(os.path.join(ROOT, "meson.build"), encoding="utf-8") as file:
            version = re.search(r"version: '([0-9.]+)'", file.read()).group(1)
        self.assertEqual(run("--version").stdout, f"leat {version}\n")
        self.assertEqual(run("version").stdout, f"leat {version}\n")

    def test_a_full_disk_is_an_error(self):
        with open("/dev/full", "w", encoding="utf-8") as full:
            told = subprocess.run([LEAT, "help"], stdout=full, text=True,
                                  stderr=subprocess.PIPE, timeout=60)
        self.assertEqual(told.returncode, 3)
        self.assertIn("cannot write the output", told.stderr)

    def test_a_reader_who_leaves_is_no_error(self):
        reader, writer = os.pipe()
        os.close(reader)
        told = subprocess.run([LEAT, "help"], stdout=writer, text=True,
                              stderr=subprocess.PIPE, timeout=60)
        os.close(writer)
        self.assertEqual((told.returncode, told.stderr), (0, ""))

    def test_closed_streams_do_no_harm(self):
        told = subprocess.run(["sh", "-c", '"$1" help >&-', "sh", LEAT],
                              stderr=subprocess.PIPE, text=True, timeout=60)
        self.assertEqual(told.returncode, 3)
        self.assertIn("cannot write the output", told.stderr)
        told = subprocess.run(["sh", "-c", '"$1" help <&- 2>&-', "sh", LEAT],
                              stdout=subprocess.PIPE, text=True, timeout=60)
        self.assertEqual(told.returncode, 0)

    def test_control_characters_do_not_reach_the_terminal(self):
        evil = "\x1b[31m\nx"
        calls = [(evil,), ("-" + evil,), ("help", evil), ("sum", evil),
                 ("sum", "day-length", evil + "=1"),
                 ("sum", "day-length", "latitude_deg=" + evil)]
        for name in command_names():
            calls += [(name, evil), (name, evil, evil), (name, "--" + evil),
                      (name, "x", "key=" + evil), (name, "x", evil + "=1"),
                      (name, "x", "--today", evil), (name, "x", "--week", evil)]
        for call in calls:
            with self.subTest(call):
                with tempfile.TemporaryDirectory() as here:
                    told = run(*call, cwd=here, stdin=subprocess.DEVNULL)
                for text in (told.stdout, told.stderr):
                    self.assertNotIn("\x1b", text)
                    self.assertNotIn("\nx", text)

    def test_help_comes_however_it_is_asked_for(self):
        overview = run("help").stdout
        self.assertEqual(run("-h").stdout, overview)
        self.assertEqual(run("-h").returncode, 0)
        for name in command_names():
            for call in ([name, "-h"], [name, "farm", "-h"], ["help", name]):
                told = run(*call)
                self.assertEqual(told.returncode, 0)
                self.assertEqual(told.stdout, run(name, "--help").stdout)

    def test_a_command_begun_is_guessed_and_a_strange_one_lists_them_all(self):
        self.assertIn("did you mean foresee?", run("fore").stderr)
        self.assertIn("did you mean jobs?", run("job").stderr)
        told = run("xylophone")
        self.assertEqual(told.returncode, 2)
        for name in command_names():
            self.assertIn(f" {name}", told.stderr)

    def test_the_manual_page_is_current(self):
        with open(os.path.join(ROOT, "man/leat.1"), encoding="utf-8") as file:
            self.assertEqual(file.read(), run("manual").stdout,
                             "make it anew: leat manual > man/leat.1")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
