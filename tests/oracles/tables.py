"""Reads exported tables as other programs do: csv of Python's standard
library, and jsonschema on the schema that comes with them.

In: { "file": base64 of the zip }
Out: { "rows": { name: [[cell...]...] }, "faults": [...], "jobs": [...] }
"""

import base64
import csv
import io
import json
import sys
import zipfile

import jsonschema

asked = json.load(sys.stdin)
rows = {}
with zipfile.ZipFile(io.BytesIO(base64.b64decode(asked["file"]))) as archive:
    for name in archive.namelist():
        if name.endswith(".csv"):
            text = archive.read(name).decode("utf-8")
            rows[name] = list(csv.reader(io.StringIO(text, newline="")))
    jobs = json.loads(archive.read("jobs.json"))
    schema = json.loads(archive.read("jobs.schema.json"))
kind = jsonschema.Draft202012Validator
kind.check_schema(schema)
faults = [fault.message for fault in kind(schema).iter_errors(jobs)]
json.dump({"rows": rows, "faults": faults, "jobs": jobs}, sys.stdout)
