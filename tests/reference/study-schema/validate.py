#!/usr/bin/env python3
"""Validates study files against a JSON Schema and prints one line for each: "valid" or "invalid", a tab, the file.

Usage: validate.py SCHEMA FILE...
"""
import json
import sys

import jsonschema


def refuse_constant(name):
    raise ValueError(f"{name} is not JSON")


def read(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file, parse_constant=refuse_constant)


def main(schema_path, paths):
    schema = read(schema_path)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    for path in paths:
        try:
            valid = validator.is_valid(read(path))
        except ValueError:
            valid = False
        print("valid" if valid else "invalid", path, sep="\t")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
