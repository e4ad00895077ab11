"""Audits a partitioned menu with PySpark: one trencher process a partition, lines in, lines out.

    python demo-data/spark_menu.py path/to/trencher menu.ndjson out.ndjson [partitions]

The menu is NDJSON, one item a line; `menu -` reads it on standard input and writes one audited
row a line, in order, with no state shared between processes. The parts are put together in their
order, so the result is what a single run writes, row for row.

Needs PySpark and a Java runtime. Invented data for trying it out: demo-data/menu.csv.
"""

import subprocess
import sys

from pyspark import SparkConf, SparkContext

# 0: every row was used; 1: some were not, and were told on standard error.
FINE = (0, 1)


def audited(binary, lines):
    """The rows of one partition."""
    text = "".join(line + "\n" for line in lines)
    if not text:
        return []
    run = subprocess.run(
        [binary, "menu", "-", "--input", "ndjson", "--format", "ndjson", "--threads", "1"],
        input=text.encode(),
        stdout=subprocess.PIPE,
        check=False,
    )
    if run.returncode not in FINE:
        raise RuntimeError(f"{binary} ended with {run.returncode}")
    return run.stdout.decode().splitlines()


def main():
    binary, menu, out = sys.argv[1:4]
    partitions = int(sys.argv[4]) if len(sys.argv) > 4 else 4
    conf = SparkConf().setMaster("local[2]").setAppName("menu")
    conf.set("spark.ui.enabled", "false")
    spark = SparkContext(conf=conf)
    spark.setLogLevel("ERROR")
    try:
        rows = spark.textFile(menu, partitions).mapPartitions(lambda part: audited(binary, part))
        count = 0
        with open(out, "w", encoding="utf-8", newline="\n") as file:
            for row in rows.toLocalIterator():
                file.write(row + "\n")
                count += 1
        print(f"{count} rows from {rows.getNumPartitions()} partitions")
    finally:
        spark.stop()


if __name__ == "__main__":
    main()
