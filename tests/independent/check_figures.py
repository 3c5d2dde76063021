#!/usr/bin/env python3
"""Holds the program's figures against their schema, with a JSON Schema validator that is not ours.

  check_figures.py SCHEMA JSON [CSV]

The schema must itself be one of JSON Schema 2020-12, describe every key and name the unit of every figure; the JSON must
be valid by it; and the CSV must hold the same figures, each under its JSON Pointer (RFC 6901) and with the schema's unit.
"""
import csv
import json
import sys

import jsonschema

faults = []


def resolve(schema, root):
    """The schema behind references and behind `this or null`."""
    while True:
        if "$ref" in schema:
            schema = root["$defs"][schema["$ref"].rsplit("/", 1)[1]]
        elif "anyOf" in schema:
            schema = schema["anyOf"][0]
        else:
            return schema


def check_described(schema, root, path, seen):
    if "$ref" not in schema and "anyOf" not in schema and id(schema) in seen:
        return
    seen.add(id(schema))
    whole = resolve(schema, root)
    if "description" not in schema and "description" not in whole and not path.endswith("/*"):
        faults.append(f"{path}: no description")
    if "object" in str(whole.get("type")):
        for key, member in whole.get("properties", {}).items():
            check_described(member, root, f"{path}/{key}", seen)
        if isinstance(whole.get("additionalProperties"), dict):
            check_described(whole["additionalProperties"], root, f"{path}/*", seen)
        elif whole.get("additionalProperties") is not False:
            faults.append(f"{path}: allows keys that nobody has described")
    elif whole.get("type") == "array":
        check_described(whole["items"], root, f"{path}/*", seen)
    elif "unit" not in whole:
        faults.append(f"{path}: no unit")


def unit_at(pointer, root):
    """The schema's unit of a figure, and the measure named on the way to it."""
    schema, measure = root, None
    for part in pointer.split("/")[1:]:
        part = part.replace("~1", "/").replace("~0", "~")
        schema = resolve(schema, root)
        if schema.get("type") == "array":
            schema = schema["items"]
        elif part in schema.get("properties", {}):
            schema = schema["properties"][part]
        else:
            schema = schema["additionalProperties"]
            measure = part
    whole = resolve(schema, root)
    return whole.get("unit"), measure, "object" in str(whole.get("type"))


def measures_beside(figures, pointer):
    """The measures named in the maps on the way to a figure, or in the need beside it."""
    here, named = figures, []
    for part in pointer.split("/")[1:-1]:
        here = here[int(part)] if isinstance(here, list) else here[part]
        if isinstance(here, dict):
            named += [here.get("measure")] + [(here.get("need") or {}).get("measure")]
    return [name for name in named if name]


def leaves(node, path=""):
    if isinstance(node, dict):
        for key, member in node.items():
            yield from leaves(member, f"{path}/{key.replace('~', '~0').replace('/', '~1')}")
    elif isinstance(node, list):
        for i, item in enumerate(node):
            yield from leaves(item, f"{path}/{i}")
    else:
        yield path, node


def as_cell(value):
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    return value if isinstance(value, str) else None


def check_rows(figures, rows, schema):
    told = list(leaves(figures))
    if [path for path, _ in told] != [row["path"] for row in rows]:
        faults.append("the CSV does not hold the figures of the JSON in their order")
        return
    for (path, value), row in zip(told, rows):
        cell = as_cell(value)
        if row["value"] != cell if cell is not None else float(row["value"]) != value:
            faults.append(f"{path}: {value!r} in the JSON, {row['value']!r} in the CSV")
        unit, measure, is_object = unit_at(path, schema)
        if value is None and is_object and row["unit"] == "none":
            continue
        if unit in ("of_measure", "of_measure_or_amount"):
            known = measure or (measures_beside(figures, path) or [None])[-1]
            allowed = {known} | ({"amount"} if unit == "of_measure_or_amount" or value is None else set())
        else:
            allowed = {unit}
        if row["unit"] not in allowed:
            faults.append(f"{path}: counted in {row['unit']}, by the schema in {' or '.join(map(str, allowed))}")


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        schema = json.load(file)
    with open(sys.argv[2], encoding="utf-8") as file:
        figures = json.load(file, parse_constant=lambda word: faults.append(f"{word} is no number of JSON"))
    jsonschema.Draft202012Validator.check_schema(schema)
    check_described(schema, schema, "", set())
    for error in jsonschema.Draft202012Validator(schema).iter_errors(figures):
        faults.append(f"{error.json_path}: {error.message[:200]}")
    if len(sys.argv) > 3:
        with open(sys.argv[3], encoding="utf-8", newline="") as file:
            check_rows(figures, list(csv.DictReader(file)), schema)
    for fault in faults[:40]:
        print(fault)
    return 1 if faults else 0


sys.exit(main())
