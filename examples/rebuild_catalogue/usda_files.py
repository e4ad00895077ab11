#!/usr/bin/env python3
"""Turns USDA's public downloads into the files that `rebuild_catalogue` reads.

usage: usda_files.py SURVEY_FOLDER FPED.csv SR_FOLDER OUT_FOLDER

SURVEY_FOLDER  FoodData Central, "Survey Foods (FNDDS)" as CSV, unpacked: food.csv,
               food_nutrient.csv, food_portion.csv, input_food.csv, nutrient.csv,
               survey_fndds_food.csv, wweia_food_category.csv
FPED.csv       the table of equivalents per 100 g of the Food Patterns Equivalents Database,
               saved as CSV with its own headings
SR_FOLDER      SR28 as ASCII, unpacked: FOOD_DES.txt, WEIGHT.txt
OUT_FOLDER     gets the seven files that DEVELOPERS.md describes

Only Python's standard library is used. Nothing is changed but names of columns; a file or column
that is missing is named, and nothing is written then.
"""
import csv
import sys
from pathlib import Path


def table(path):
    with open(path, newline="", encoding="utf-8-sig") as file:
        return list(csv.DictReader(file))


def sr(path):
    """Rows of SR28's text files: fields between ^, texts in ~."""
    with open(path, encoding="latin-1") as file:
        return [[field.strip("~") for field in line.rstrip("\r\n").split("^")] for line in file]


def write(path, header, rows):
    with open(path, "w", newline="", encoding="utf-8") as file:
        csv.writer(file, lineterminator="\n").writerows([header, *rows])


def survey(folder):
    """Foods, nutrients, portions and ingredients of FNDDS."""
    code = {r["fdc_id"]: r["food_code"] for r in table(folder / "survey_fndds_food.csv")}
    category = {r["fdc_id"]: r.get("wweia_category_code") or r.get("wweia_category_number") or ""
                for r in table(folder / "survey_fndds_food.csv")}
    names = {r.get("wweia_food_category") or r.get("wweia_food_category_code"): r["wweia_food_category_description"]
             for r in table(folder / "wweia_food_category.csv")}
    foods = [(code[r["fdc_id"]], r["description"], "", category[r["fdc_id"]], names.get(category[r["fdc_id"]], ""))
             for r in table(folder / "food.csv") if r["fdc_id"] in code]

    title = {r["id"]: f'{r["name"]} ({r["unit_name"].lower()})' for r in table(folder / "nutrient.csv")}
    short = {"Energy (kcal)": "Energy (kcal)", "Protein (g)": "Protein (g)",
             "Carbohydrate, by difference (g)": "Carbohydrate (g)", "Total lipid (fat) (g)": "Total Fat (g)",
             "Total Sugars (g)": "Sugars, total (g)", "Alcohol, ethyl (g)": "Alcohol (g)",
             "Fatty acids, total saturated (g)": "Fatty acids, total saturated (g)",
             "Fiber, total dietary (g)": "Fiber, total dietary (g)", "Sodium, Na (mg)": "Sodium (mg)",
             "Potassium, K (mg)": "Potassium (mg)", "Calcium, Ca (mg)": "Calcium (mg)", "Iron, Fe (mg)": "Iron (mg)",
             "Magnesium, Mg (mg)": "Magnesium (mg)", "Vitamin A, RAE (ug)": "Vitamin A, RAE (mcg_RAE)",
             "Vitamin C, total ascorbic acid (mg)": "Vitamin C (mg)", "Water (g)": "Water (g)",
             "Vitamin E (alpha-tocopherol) (mg)": "Vitamin E (alpha-tocopherol) (mg)"}
    columns = list(dict.fromkeys(short.values()))
    values = {}
    for r in table(folder / "food_nutrient.csv"):
        name = short.get(title.get(r["nutrient_id"], ""))
        if name and r["fdc_id"] in code:
            values.setdefault(code[r["fdc_id"]], {})[name] = r["amount"]
    nutrients = [(c, *[values.get(c, {}).get(n, "") for n in columns]) for c, *_ in foods]

    portions = [(code[r["fdc_id"]], r["seq_num"], r["portion_description"], r["gram_weight"])
                for r in table(folder / "food_portion.csv") if r["fdc_id"] in code]
    ingredients = [(code[r["fdc_id"]], r["seq_num"], r.get("sr_code") or r["fdc_id_of_input_food"], r["sr_description"],
                    r["gram_weight"], "") for r in table(folder / "input_food.csv") if r["fdc_id"] in code]
    return foods, (columns, nutrients), portions, ingredients


def main():
    if len(sys.argv) != 5:
        sys.exit(__doc__)
    folder, fped, sr_folder, out = map(Path, sys.argv[1:])
    try:
        foods, (columns, nutrients), portions, ingredients = survey(folder)
        equivalents = table(fped)
        if not equivalents:
            sys.exit(f"{fped}: no rows")
        heads = list(equivalents[0])
        sr_foods = [(r[0], r[1], r[2], r[7], r[8]) for r in sr(sr_folder / "FOOD_DES.txt")]
        sr_measures = [(r[0], r[2], r[3], r[4]) for r in sr(sr_folder / "WEIGHT.txt")]
    except (OSError, KeyError, IndexError) as error:
        sys.exit(f"cannot read: {error!r}; see the head of this script for the files and their names")
    out.mkdir(parents=True, exist_ok=True)
    write(out / "fndds_foods.csv", ["food_code", "description", "also", "category_code", "category"], foods)
    write(out / "fndds_nutrients_per_100g.csv", ["food_code", *columns], nutrients)
    write(out / "fndds_portions.csv", ["food_code", "seq", "measure", "grams"], portions)
    write(out / "fndds_ingredients.csv",
          ["food_code", "seq", "ingredient_code", "ingredient", "grams", "moisture_change_pct"], ingredients)
    # FPED's first two columns are the food's code and its description, whatever their headings.
    write(out / "fped_per_100g.csv", ["food_code", "description", *heads[2:]],
          [list(r.values()) for r in equivalents])
    write(out / "sr28_foods.csv", ["ndb", "group_code", "description", "refuse_description", "refuse_pct"], sr_foods)
    write(out / "sr28_measures.csv", ["ndb", "amount", "measure", "grams"], sr_measures)


if __name__ == "__main__":
    main()
