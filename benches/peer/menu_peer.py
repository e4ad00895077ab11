"""Matching alone, as pandas and RapidFuzz do it, beside the whole audit of trencher.

    python benches/peer/menu_peer.py path/to/trencher MENU.csv [ROWS]

Both get the same components and the same catalogue names. RapidFuzz scores every component
against every name (`process.extractOne`, scorer WRatio) after the amount is taken off; nothing is
weighed, estimated or added up. trencher reads, matches, weighs, adds up and writes the whole rows.
RapidFuzz is given ROWS rows (200 unless said) and its time is scaled to the menu.
"""

import csv
import io
import re
import resource
import subprocess
import sys
import time

import pandas
from rapidfuzz import fuzz, process, utils

AMOUNT = re.compile(
    r"^\s*[\d./ ]+(?:\s*(?:g|oz|fl oz|cups?|tbsp|tsp|slices?|lb|ml)\b)?"
    r"|\s+[\d./ ]+\s*(?:g|oz|fl oz|cups?|tbsp|tsp|ml)\s*$"
)


def names(binary):
    """Names of the catalogue's foods, by way of its own rankings and library."""
    found = set()
    groups = ["fruits", "vegetables", "pulses", "grains", "protein foods", "dairy", "oils"]
    for group in groups:
        text = subprocess.run(
            [binary, "food", "rank", group, "--top", "5000", "--format", "csv"],
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        rows = list(csv.reader(io.StringIO(text)))
        at = next(i for i, name in enumerate(rows[0]) if name in ("food", "name"))
        found.update(row[at] for row in rows[1:])
    return sorted(found)


def main():
    binary, menu = sys.argv[1:3]
    rows = int(sys.argv[3]) if len(sys.argv) > 3 else 200
    frame = pandas.read_csv(menu)
    choices = [utils.default_process(name) for name in names(binary)]
    parts = frame["components"].head(rows).dropna().str.split(";").explode().str.strip()
    foods = parts.str.replace(AMOUNT, "", regex=True).map(utils.default_process)
    start, used = time.perf_counter(), time.process_time()
    # As a careful user would: every distinct text once.
    best = {
        food: process.extractOne(food, choices, scorer=fuzz.WRatio, processor=None)
        for food in foods.unique()
    }
    matched = foods.map(best)
    peer = (time.perf_counter() - start) / rows
    peer_used = (time.process_time() - used) / rows
    start, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(
        [binary, "menu", menu, "--format", "ndjson"],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        check=False,
    )
    own = (time.perf_counter() - start) / len(frame)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    own_used = (after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime) / len(frame)
    print(f"names {len(choices)}; components matched by the peer {matched.notna().sum()}")
    print(f"peer, matching alone: {1 / peer:.0f} items a second")
    print(f"trencher, whole audit: {1 / own:.0f} items a second, {peer / own:.0f} times as fast")
    print(f"by processor time: {peer_used / own_used:.0f} times (trencher used every core)")


if __name__ == "__main__":
    main()
