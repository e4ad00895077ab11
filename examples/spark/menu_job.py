"""Audits menus of any size on a Spark cluster: one trencher process a partition.

    spark-submit --master spark://HOST:7077 --files path/to/trencher examples/spark/menu_job.py \\
        --menu MENU --out OUT [--key COLUMN] [--partitions N] [-- MENU OPTIONS]

MENU is any path that Spark reads: JSON lines, CSV with a header (`.csv`) or Parquet
(`.parquet`), of files or folders, with the columns of `trencher menu`: item, section, description,
components, served, energy_kcal; others are left aside. Each partition is streamed through the
binary on the worker where it lies: neither the driver nor a worker ever holds it.

OUT/rows (Parquet) holds a row for every item that could be used, with the schema ROWS below;
OUT/rejects holds every other one with why. `key` is the column named by --key, so that rows
are joined back to the menu; without it, a number that Spark gives. OUT must not be there.

The job fails when the binary fails, with the binary's own words. A task that a lost worker took
with it is done again elsewhere: every row is written once.

Needs PySpark 3.4 or later. Options after `--` go to `trencher menu`, such as `--energy 1800`.
"""

import argparse
import json
import os
import stat
import subprocess
import sys
import threading

from pyspark import SparkFiles
from pyspark.sql import SparkSession
from pyspark.sql import functions as F
from pyspark.sql.types import (
    ArrayType,
    BooleanType,
    DoubleType,
    MapType,
    StringType,
    StructField,
    StructType,
)

FIELDS = ("item", "section", "description", "components", "served", "energy_kcal")

RANGE = StructType([StructField(name, DoubleType()) for name in ("low", "likely", "high")])
GROUP = StructType(
    [
        StructField("unit", StringType()),
        StructField("amount", RANGE),
        StructField("portions", DoubleType()),
        StructField("share", DoubleType()),
    ]
)
LIMIT = StructType(
    [
        StructField("unit", StringType()),
        StructField("amount", RANGE),
        StructField("share", DoubleType()),
    ]
)
COMPONENT = StructType(
    [
        StructField("text", StringType()),
        StructField("food", StringType()),
        StructField("food_id", StringType()),
        StructField("certainty", StringType()),
        StructField("grams", DoubleType()),
        StructField("basis", StringType()),
    ]
)

# What is written for an item that could be used.
ROWS = StructType(
    [
        StructField("key", StringType(), nullable=False),
        StructField("item", StringType()),
        StructField("certainty", StringType()),
        StructField("over", ArrayType(StringType())),
        StructField("fitted_share", DoubleType()),
        StructField("held_by", StringType()),
        StructField("sodium_passes", BooleanType()),
        StructField("grams", RANGE),
        StructField("energy_kcal", RANGE),
        StructField("printed_kcal", ArrayType(DoubleType())),
        StructField("printed", StringType()),
        StructField("groups", MapType(StringType(), GROUP)),
        StructField("limits", MapType(StringType(), LIMIT)),
        StructField("components", ArrayType(COMPONENT)),
        StructField("unmatched", ArrayType(StringType())),
        StructField("without_amount", ArrayType(StringType())),
    ]
)

# What is written for one that could not.
REJECTS = StructType(
    [
        StructField("key", StringType(), nullable=False),
        StructField("row", StringType(), nullable=False),
        StructField("reason", StringType(), nullable=False),
    ]
)

# Both, as they leave a partition: one of the two is null.
EITHER = StructType([StructField("used", ROWS), StructField("reject", REJECTS)])

# 0: every row was used; 1: some were not, or not whole.
FINE = (0, 1)


def conformed(value, kind):
    """A value of the binary's JSON as Spark's schema wants it: every number a double."""
    if value is None:
        return None
    if isinstance(kind, DoubleType):
        return float(value)
    if isinstance(kind, StructType):
        return tuple(conformed(value.get(field.name), field.dataType) for field in kind.fields)
    if isinstance(kind, ArrayType):
        return [conformed(one, kind.elementType) for one in value]
    if isinstance(kind, MapType):
        return {key: conformed(one, kind.valueType) for key, one in value.items()}
    return value


def line_of(row):
    """One line for the binary, which hands the key on."""
    item = {name: row[name] for name in FIELDS if row.get(name) is not None}
    item["key"] = row["key"]
    return json.dumps(item, ensure_ascii=False).encode() + b"\n"


def found_binary():
    """The binary that `--files` brought to this worker, made runnable there."""
    path = SparkFiles.get("trencher")
    if not os.path.exists(path):
        raise RuntimeError("no binary on this worker: submit with --files path/to/trencher")
    mode = os.stat(path).st_mode
    if not mode & stat.S_IXUSR:
        os.chmod(path, mode | stat.S_IXUSR)
    return path


def audited(options):
    """What audits a partition, row by row."""

    def partition(rows):
        command = [found_binary(), "menu", "-", "--input", "ndjson", "--format", "ndjson"]
        command += ["--keyed", "--threads", "1", *options]
        run = subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE
        )
        told, failed = [], []

        def feed():
            try:
                for row in rows:
                    run.stdin.write(line_of(row))
                run.stdin.close()
            except BrokenPipeError:
                pass  # the binary ended: its own words say why
            except BaseException as error:  # told to the reading side
                failed.append(error)
                run.kill()

        def listen():
            for line in run.stderr:
                told.append(line.decode(errors="replace").rstrip())
                del told[:-20]

        helpers = [threading.Thread(target=one, daemon=True) for one in (feed, listen)]
        for helper in helpers:
            helper.start()
        try:
            for line in run.stdout:
                found = json.loads(line)
                if "reason" in found:
                    yield None, (found["key"], found["row"], found["reason"])
                    continue
                yield conformed(found, ROWS), None
        finally:
            if run.poll() is None and sys.exc_info()[0] is not None:
                run.kill()
        code = run.wait()
        for helper in helpers:
            helper.join()
        if failed:
            raise failed[0]
        if code not in FINE:
            raise RuntimeError(f"trencher menu ended with {code}: " + "\n".join(told))

    return partition


def read_menu(spark, path, key):
    """The menu with the columns that are used, all as text but lists of components."""
    plain = path.rstrip("/").lower()
    if plain.endswith(".parquet"):
        menu = spark.read.parquet(path)
    elif plain.endswith((".csv", ".csv.gz")):
        menu = spark.read.option("header", True).option("escape", '"').csv(path, multiLine=True)
    else:
        menu = spark.read.option("primitivesAsString", True).json(path)
    if "item" not in menu.columns:
        raise SystemExit(f"{path}: no column is called `item`; there are: {', '.join(menu.columns)}")
    if key and key not in menu.columns:
        raise SystemExit(f"{path}: no column is called `{key}`; there are: {', '.join(menu.columns)}")
    number = F.monotonically_increasing_id() if key is None else F.col(key)
    kept = []
    for name in FIELDS:
        if name in menu.columns:
            is_list = isinstance(menu.schema[name].dataType, ArrayType)
            kept.append(F.col(name) if is_list else F.col(name).cast("string").alias(name))
    return menu.select(number.cast("string").alias("key"), *kept)


def main(arguments):
    own, options = arguments, []
    if "--" in arguments:
        at = arguments.index("--")
        own, options = arguments[:at], arguments[at + 1 :]
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--menu", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--key")
    parser.add_argument("--partitions", type=int)
    args = parser.parse_args(own)
    spark = SparkSession.builder.appName("trencher menu").getOrCreate()
    try:
        menu = read_menu(spark, args.menu, args.key)
        if args.partitions:
            menu = menu.repartition(args.partitions)
        done = spark.createDataFrame(
            menu.rdd.map(lambda row: row.asDict()).mapPartitions(audited(options)), EITHER
        )
        # Rows and rejects come of one pass over the menu: both are in one staged table, which
        # is read again for each of the two.
        staged = args.out.rstrip("/") + "/_staged"
        done.write.mode("errorifexists").parquet(staged)
        both = spark.read.schema(EITHER).parquet(staged)
        rows = both.where(F.col("used").isNotNull()).select("used.*")
        rejects = both.where(F.col("reject").isNotNull()).select("reject.*")
        rows.write.parquet(args.out.rstrip("/") + "/rows")
        rejects.write.parquet(args.out.rstrip("/") + "/rejects")
        path = spark._jvm.org.apache.hadoop.fs.Path(staged)
        path.getFileSystem(spark._jsc.hadoopConfiguration()).delete(path, True)
        used = spark.read.parquet(args.out.rstrip("/") + "/rows").count()
        left = spark.read.parquet(args.out.rstrip("/") + "/rejects").count()
        print(f"{used} rows and {left} rejects in {args.out}")
    finally:
        spark.stop()


if __name__ == "__main__":
    main(sys.argv[1:])
