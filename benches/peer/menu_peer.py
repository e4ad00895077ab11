"""Matches the components of a menu as pandas and RapidFuzz do it, and nothing else.

Reads {"menu": path of a CSV menu, "items": how many of its items, "names": [...]} from standard
input and writes, for each way of asking, {"name", "seconds_each", "used_each"}: time and
processor time for an item. Every distinct text is matched once, as a careful user would, after
the amount is taken off; nothing is weighed, estimated or added up.
"""

import json
import re
import sys
import time

import pandas
import rapidfuzz
from rapidfuzz import fuzz, process, utils

AMOUNT = re.compile(
    r"^\s*[\d./ ]+(?:\s*(?:g|oz|fl oz|cups?|tbsp|tsp|slices?|lb|ml)\b)?"
    r"|\s+[\d./ ]+\s*(?:g|oz|fl oz|cups?|tbsp|tsp|ml)\s*$"
)


def one_by_one(foods, names):
    return {
        food: process.extractOne(food, names, scorer=fuzz.WRatio, processor=None)
        for food in foods
    }


def all_at_once(foods, names):
    scores = process.cdist(foods, names, scorer=fuzz.WRatio, processor=None, workers=-1)
    return dict(zip(foods, scores.argmax(axis=1)))


def timed(way, frame, names):
    start, used = time.perf_counter(), time.process_time()
    parts = frame["components"].dropna().str.split(";").explode().str.strip()
    foods = parts.str.replace(AMOUNT, "", regex=True).map(utils.default_process)
    foods.map(way(foods.unique(), names))
    return (time.perf_counter() - start) / len(frame), (time.process_time() - used) / len(frame)


def main():
    request = json.load(sys.stdin)
    names = [utils.default_process(name) for name in request["names"]]
    frame = pandas.read_csv(request["menu"]).head(request["items"])
    with_versions = f"pandas {pandas.__version__}, RapidFuzz {rapidfuzz.__version__}, matching alone"
    rows = []
    for title, way in [("extractOne", one_by_one), ("cdist on every core", all_at_once)]:
        # One short round first, so that nothing is timed cold.
        timed(way, frame.head(5), names)
        seconds, used = timed(way, frame, names)
        name = f"{with_versions}, {title}"
        rows.append({"name": name, "seconds_each": seconds, "used_each": used})
    json.dump(rows, sys.stdout)


if __name__ == "__main__":
    main()
