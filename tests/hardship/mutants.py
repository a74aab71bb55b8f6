#!/usr/bin/env python3
"""Valid seasons with something changed: never a crash, and never silence about a file that means something else.

A mutant is refused with exit 1 and a message, or answered; then inputs.json shows the hash of what was read, and unless
the change says nothing (a comment, a blank, another spelling of the same number) the numbers or the settings differ.
By hand, 2,000 mutants: tests/hardship/mutants.py build-release/src/cli/quartercut --mutants 2000
"""
import collections
import concurrent.futures
import csv
import io
import json
import pathlib
import random
import re
import shutil
import sys
import tomllib

import hardship
from hardship import DONE, INPUT, NEXT_YEAR, SEASON, SmallSeason, need

EXTRA = """
[comparison]
segment = "25 m"
[loss_counts]
file = "losses.csv"
[weather]
file = "weather.csv"
in_swath = ["swathed"]
swathed = "cut"
"""
LOSSES = "field,method,when,seeds,tray_area_ft2,tsw_g,cut_width_ft,discharge_width_ft\n" + "".join(
    f"Field {f},{m},{w},{n},1,3.5,33,6\n" for f in (1, 2) for m in ("swathed", "standing")
    for w, n in (("before", 4), ("header", 9), ("machine", 14)))
WEATHER = "date,rain_mm,gust_km_h\n" + "".join(f"2025-09-{d:02d},{d % 4},{20 + d}\n" for d in range(1, 11))
NUMBER = re.compile(rb"-?\d+(?:\.\d+)?")
WORD = re.compile(rb"[A-Za-z_]{3,}")

program = None


def flip(draw, text):
    at = draw.randrange(len(text))
    return text[:at] + bytes([draw.randrange(256)]) + text[at + 1:]


def insert(draw, text):
    at = draw.randrange(len(text) + 1)
    return text[:at] + draw.choice([b"\0", b"\xff", b"\n", b",", b'"', b"[", b"{", b"-", b"9", b" ", b"#", b"e5"]) + text[at:]


def cut_out(draw, text):
    at = draw.randrange(len(text))
    return text[:at] + text[at + draw.choice([1, 1, 2, 7, 60]):]


def cut_off(draw, text):
    return text[:draw.randrange(len(text))]


def other_number(draw, text):
    found = list(NUMBER.finditer(text))
    at = draw.choice(found)
    value = at.group()
    new = draw.choice([b"0", b"-" + value, value + b"0", b"1e308", b"nan", b"", b"-9999", value[:-1] + b"7", b"1e-300",
                       b"999999999999999999999", value.replace(b".", b","), b"0x10", b"1_000", b"inf"])
    return text[:at.start()] + new + text[at.end():]


def other_word(draw, text):
    at, to = draw.choice(list(WORD.finditer(text))), draw.choice(list(WORD.finditer(text)))
    new = draw.choice([to.group(), at.group()[:-1], at.group().upper(), at.group() + b"s", b"", b"<b>", "é".encode()])
    return text[:at.start()] + new + text[at.end():]


def on_lines(change):
    def mutate(draw, text):
        lines = text.splitlines(keepends=True)
        change(draw, lines)
        return b"".join(lines)
    mutate.__name__ = change.__name__
    return mutate


@on_lines
def line_lost(draw, lines):
    del lines[draw.randrange(len(lines))]


@on_lines
def line_twice(draw, lines):
    at = draw.randrange(len(lines))
    lines.insert(at, lines[at])


@on_lines
def lines_exchanged(draw, lines):
    a, b = draw.randrange(len(lines)), draw.randrange(len(lines))
    lines[a], lines[b] = lines[b], lines[a]


@on_lines
def line_shortened(draw, lines):
    at = draw.randrange(len(lines))
    lines[at] = lines[at][:draw.randrange(len(lines[at]))] + b"\n"


@on_lines
def head_changed(draw, lines):
    cells = lines[0].rstrip(b"\n").split(b",")
    at = draw.randrange(len(cells))
    cells[at] = draw.choice([b"", cells[0], cells[-1], cells[at] + b"_x", b"yield", b" " + cells[at], cells[at].upper()])
    lines[0] = b",".join(cells) + b"\n"


@on_lines
def column_lost(draw, lines):
    at = draw.randrange(lines[0].count(b",") + 1)
    for i, line in enumerate(lines):
        cells = line.rstrip(b"\n").split(b",")
        del cells[at:at + 1]
        lines[i] = b",".join(cells) + b"\n"


def line_ends(draw, text):
    return draw.choice([text.replace(b"\n", b"\r\n"), text.replace(b"\n", b"\r"), b"\xef\xbb\xbf" + text,
                        text.decode("latin-1").encode("utf-16"), text.rstrip(b"\n"), text + b"\n\n", b""])


EVERYWHERE = [flip, insert, cut_out, cut_off, other_number, other_number, other_number, other_word, other_word, line_lost,
              line_twice, lines_exchanged, line_ends]
TABLES = EVERYWHERE + [line_shortened, head_changed, column_lost]
FILES = {"season.toml": (EVERYWHERE, 3), "yield.csv": (TABLES, 2), "tickets.csv": (TABLES, 2),
         "fields.geojson": (EVERYWHERE, 1), "methods.geojson": (EVERYWHERE, 1), "losses.csv": (TABLES, 1),
         "weather.csv": (TABLES, 1)}


def number_or_text(cell):
    try:
        return float(cell)
    except ValueError:
        return re.sub(r"s\b", "", cell.strip())


def table_of(words):
    """Capitals, line ends and a plural are no matter: the program reads names with either."""
    words = words.replace("\r\n", "\n").replace("\r", "\n").lower()
    rows = [[number_or_text(cell) for cell in row] for row in csv.reader(io.StringIO(words))]
    return [row for row in rows if row]


def without_machine(rows):
    """There is one machine: a ticket that does not name it says the same."""
    where = [at for at in range(len(rows[0])) if {row[at] for row in rows[1:] if len(row) == len(rows[0])} == {"a"}]
    return [row[:where[0]] + row[where[0] + 1:] for row in rows] if len(where) == 1 else rows


def without_widths(rows):
    """Only behind the machine is grain of the whole cut in the width of the discharge."""
    return [row if "machine" in row else row[:6] for row in rows]


def features(words):
    """Names, methods and corners. GDAL reads a feature that calls itself otherwise, and members in capitals."""
    def kept(value):
        if isinstance(value, dict):
            return {key: kept(member) for key, member in value.items()
                    if key in ("features", "geometry", "coordinates", "properties", "name", "cut", "method", "block")}
        return [kept(member) for member in value] if isinstance(value, list) else value
    return json.dumps(kept(json.loads(words.lower(), strict=False)), sort_keys=True)


def meaning(name, text):
    """What a file says, as other readers take it; None where they cannot read it."""
    try:
        words = text.decode("utf-8-sig", "replace" if name.endswith(".geojson") else "strict")
        if name.endswith(".toml"):
            return json.dumps(tomllib.loads(words), sort_keys=True, default=str)
        if name.endswith(".geojson"):
            return features(words)
        rows = table_of(words)
        rows = {"tickets.csv": without_machine, "losses.csv": without_widths}.get(name, list)(rows)
        # Names of columns are told in messages where they are not known; what counts is which cells stand below.
        return json.dumps(sorted(json.dumps(row) for row in rows[1:]))
    except (ValueError, csv.Error, IndexError, RecursionError):
        return None


def one_row_differs(old, new):
    """A record that cleaning takes out, or whose gap is filled from its neighbours, and the corner of an area outside the
    field may change and nothing follows."""
    old, new = old.splitlines(), new.splitlines()
    return len(old) == len(new) and sum(a != b for a, b in zip(old, new)) == 1 and old[0] == new[0]


def answer_of(results):
    """The numbers, the settings and what the page tells of the weather, without hashes, sizes and numbers of rows."""
    numbers = json.loads((results / "comparison.json").read_text(), parse_constant=no_constant)
    inputs = json.loads((results / "inputs.json").read_text(), parse_constant=no_constant)
    hashes = {i["path"]: i["sha256"] for i in inputs.pop("inputs")}
    page = (results / "report.html").read_text()
    weather = re.findall(r'<section id="weather".*?</section>', page, re.DOTALL)
    return json.dumps([numbers, inputs, weather], sort_keys=True), hashes


def no_constant(word):
    raise hardship.Fault(f"the results hold {word}")


class Base:
    def __init__(self, folder):
        self.folder = folder
        SmallSeason(length_m=100.0).write(folder, SEASON + NEXT_YEAR + EXTRA)
        fields = folder / "fields.geojson"
        fields.write_text(fields.read_text().replace('"properties":{', '"properties":{"cut": "2025-09-01",'))
        (folder / "losses.csv").write_text(LOSSES)
        (folder / "weather.csv").write_text(WEATHER)
        said = self.compare(folder)
        need(said.code == DONE, f"the season without a change: {said!r}")
        self.texts = {name: (folder / name).read_bytes() for name in FILES}
        self.answer, self.hashes = answer_of(folder / "results")
        shutil.rmtree(folder / "results")

    @staticmethod
    def compare(folder):
        return program.run("compare", folder / "season.toml", "--formats", "geojson", "--jobs", 1, timeout=60)

    def mutant(self, number, seed):
        """The file changed, how, and its text."""
        draw = random.Random(f"{seed} {number}")
        name = draw.choices(list(FILES), [weight for _, weight in FILES.values()])[0]
        while True:
            how = draw.choice(FILES[name][0])
            text = how(draw, self.texts[name])
            if draw.random() < 0.1 and text:
                text = draw.choice(FILES[name][0][:5])(draw, text)
            if text != self.texts[name]:
                return name, how.__name__, text

    def fault_of(self, number, seed):
        """(what was done, how it ended, what is wrong with that)"""
        name, how, text = self.mutant(number, seed)
        there = self.folder.parent / f"mutant-{number}"
        shutil.copytree(self.folder, there)
        (there / name).write_bytes(text)
        try:
            return f"{name}, {how}", *self.judge(there, name, text)
        except hardship.Fault as fault:
            return f"{name}, {how}", "fault", str(fault)
        finally:
            shutil.rmtree(there)

    def judge(self, there, name, text):
        said = self.compare(there)
        if said.code == INPUT:
            need("quartercut: " in said.err and not (there / "results").exists(), f"refused without a word: {said!r}")
            return "refused", None
        need(said.code == DONE, f"{said!r}")
        answer, hashes = answer_of(there / "results")
        need(hashes.get(name) not in (None, self.hashes[name]) or name not in hashes and answer != self.answer,
             "inputs.json does not show that the file is another one")
        if answer != self.answer:
            return "answered otherwise", None
        if meaning(name, text) == meaning(name, self.texts[name]):
            return "says the same", None
        if name in ("yield.csv", "methods.geojson") and one_row_differs(self.texts[name], text):
            return "not used", None
        return "silent", first_difference(self.texts[name], text)


def first_difference(old, new):
    at = next((i for i, (a, b) in enumerate(zip(old, new)) if a != b), min(len(old), len(new)))
    return f"{old[max(0, at - 60):at + 40]!r} -> {new[max(0, at - 60):at + 40]!r}"


def mutants(given):
    def no_crash_no_silence(folder):
        base = Base(folder / "base")
        ends = collections.Counter()
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            outcomes = pool.map(lambda n: (n, *base.fault_of(n, given.seed)), range(given.mutants))
            bad = []
            for number, what, end, why in outcomes:
                ends[end] += 1
                if why:
                    bad.append(f"mutant {number} ({what}), {end}: {why}")
        for line in bad:
            print("  " + line, flush=True)
        need(not bad, f"{len(bad)} of {given.mutants} mutants; {dict(ends)}")
        need(ends["refused"] and ends["answered otherwise"], f"one-sided: {dict(ends)}")
        return f"{given.mutants} mutants: {dict(ends)}"
    return no_crash_no_silence


def main():
    global program
    given = hardship.arguments(__doc__, mutants=2000)
    if given.short:
        given.mutants = 60
    program = hardship.Program(given.program)
    return hardship.run_checks([mutants(given)])


if __name__ == "__main__":
    sys.exit(main())
