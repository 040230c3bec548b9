"""Whether documents fit a JSON Schema, by the jsonschema library.

In:  {"schema": text, "documents": [text, ...]}
Out: {"faults": [[what does not fit, ...], ...]}
"""
import json
import sys

import jsonschema

asked = json.load(sys.stdin)
schema = json.loads(asked["schema"])
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)
faults = [[fault.message for fault in validator.iter_errors(json.loads(text))] for text in asked["documents"]]
json.dump({"faults": faults}, sys.stdout)
