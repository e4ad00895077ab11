"""Matches queries to names with RapidFuzz, one query at a time on one thread.

Reads {"names": [...], "queries": [...]} from standard input and writes, for each way of
asking, {"name", "seconds", "taken"}: processor time for all queries, and the place of the
name that was taken for each.
"""

import json
import sys
import time

import rapidfuzz
from rapidfuzz import fuzz, process


def ask(name, names, queries, **how):
    start = time.process_time()
    found = [process.extractOne(query, names, **how) for query in queries]
    seconds = time.process_time() - start
    taken = [hit[2] if hit else None for hit in found]
    return {"name": f"RapidFuzz {rapidfuzz.__version__} {name}", "seconds": seconds, "taken": taken}


def main():
    request = json.load(sys.stdin)
    names, queries = request["names"], request["queries"]
    # One short round first, so that nothing is timed cold.
    ask("warm", names, queries[:20], scorer=fuzz.WRatio)
    replies = [ask("extractOne, WRatio", names, queries, scorer=fuzz.WRatio)]
    json.dump(replies, sys.stdout)


if __name__ == "__main__":
    main()
