#!/usr/bin/env python3
"""Holds the discover document to the OpenRPC meta-schema and to what that schema cannot say.

Usage: check_discover.py PROGRAM DATA_FOLDER, where PROGRAM prints the document; or, with `-` for
PROGRAM, the document comes from standard input.
"""
import copy
import json
import pathlib
import subprocess
import sys

import jsonschema


def renamed(value, refs):
    """The same schema with its references changed by a function."""
    if isinstance(value, dict):
        return {k: refs(v) if k == "$ref" and isinstance(v, str) else renamed(v, refs)
                for k, v in value.items()}
    if isinstance(value, list):
        return [renamed(one, refs) for one in value]
    return value


def validator_of(folder):
    """One schema out of the two, which refer to each other by address; nothing is fetched."""
    read = lambda name: json.loads((folder / name).read_text())
    tools = "https://meta.json-schema.tools"
    inner = "#/definitions/draft07"

    def from_outside(ref):
        if not ref.startswith(tools):
            return ref
        return inner + ref[len(tools):].lstrip("/").lstrip("#")

    whole = renamed(read("openrpc_meta_schema_1.14.9.json"), from_outside)
    part = renamed(read("json_schema_meta_schema_1.8.0.json"), lambda ref: inner + ref[1:])
    for one in (whole, part):
        del one["$id"], one["$schema"]
    # Debian 12's jsonschema takes the description of the member "$id" for an identifier.  No schema
    # of ours has that member (see faults_of_schema).
    del part["definitions"]["JSONSchemaObject"]["properties"]["$id"]
    whole["definitions"]["draft07"] = part
    return jsonschema.Draft7Validator(whole)


def schemas_in(value, path=""):
    """Every object that stands where a schema may stand."""
    if isinstance(value, dict):
        yield path, value
        for name in ("properties", "definitions"):
            for key, inner in value.get(name, {}).items():
                yield from schemas_in(inner, f"{path}/{name}/{key}")
        for name in ("items", "additionalProperties"):
            if isinstance(value.get(name), dict):
                yield from schemas_in(value[name], f"{path}/{name}")
        for name in ("anyOf", "oneOf", "allOf"):
            for i, inner in enumerate(value.get(name, [])):
                yield from schemas_in(inner, f"{path}/{name}/{i}")


NOT_OURS = {"$id", "prefixItems", "$defs", "unevaluatedProperties", "dependentRequired"}


def faults_of_schema(where, schema):
    for path, inner in schemas_in(schema):
        for word in NOT_OURS & inner.keys():
            yield f"{where}{path}: '{word}' is not of draft 07, or not looked at"
        try:
            jsonschema.Draft7Validator.check_schema(inner)
        except jsonschema.SchemaError as error:
            yield f"{where}{path}: {error.message}"
            continue
        for sample in [inner["default"]] if "default" in inner else []:
            for error in jsonschema.Draft7Validator(inner).iter_errors(sample):
                yield f"{where}{path}: its default does not fit: {error.message}"
        for sample in inner.get("examples", []):
            for error in jsonschema.Draft7Validator(inner).iter_errors(sample):
                yield f"{where}{path}: its example {sample!r} does not fit: {error.message}"


def faults_of(document, validator):
    for error in validator.iter_errors(document):
        yield "/".join(map(str, error.absolute_path)) + ": " + error.message[:300]
    seen = set()
    for method in document.get("methods", []):
        name = method.get("name")
        if name in seen:
            yield f"{name}: described twice"
        seen.add(name)
        optional = None
        params = set()
        for param in method.get("params", []):
            if param["name"] in params:
                yield f"{name}: parameter {param['name']} twice"
            params.add(param["name"])
            if not param.get("required"):
                optional = param["name"]
            elif optional:
                yield f"{name}: required {param['name']} after optional {optional}"
            yield from faults_of_schema(f"{name}({param['name']})", param.get("schema", {}))
        yield from faults_of_schema(f"{name} result", method.get("result", {}).get("schema", {}))


def broken_copies(document):
    """Documents that must be refused: a check that finds nothing is no check.  One method with
    parameters is enough for each, and quick."""
    small = dict(document, methods=[next(m for m in document["methods"] if len(m["params"]) > 1)])

    def changed(change):
        other = copy.deepcopy(small)
        change(other)
        return other

    params = lambda d: d["methods"][0]["params"]
    yield "no info.version", changed(lambda d: d["info"].pop("version"))
    yield "unknown member", changed(lambda d: d.update(extra=1))
    yield "unknown version", changed(lambda d: d.update(openrpc="9.9.9"))
    yield "method twice", changed(lambda d: d["methods"].append(d["methods"][0]))
    yield "param without schema", changed(lambda d: params(d)[0].pop("schema"))
    yield "wrong type word", changed(lambda d: params(d)[0].update(schema={"type": "text"}))
    yield "later draft", changed(lambda d: params(d)[0].update(schema={"$defs": {}}))
    yield "default that does not fit", changed(
        lambda d: params(d)[0].update(schema={"type": "string", "default": 1}))
    yield "example that does not fit", changed(
        lambda d: params(d)[0].update(schema={"type": "string", "examples": [1]}))
    def optional_first(d):
        params(d)[0]["required"] = False
        params(d)[-1]["required"] = True
    yield "optional before required", changed(optional_first)


def main():
    program, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    text = sys.stdin.read() if program == "-" else subprocess.run(
        [program], check=True, capture_output=True, text=True).stdout
    document = json.loads(text)
    validator = validator_of(folder)
    faults = list(faults_of(document, validator))
    for fault in faults:
        print(fault)
    missed = [what for what, broken in broken_copies(document)
              if not list(faults_of(broken, validator))]
    for what in missed:
        print(f"the check did not see: {what}")
    print(f"{len(document['methods'])} methods, {len(faults)} faults, {len(missed)} blind spots")
    return 1 if faults or missed else 0


if __name__ == "__main__":
    sys.exit(main())
