"""Judges kit sheets a second time.

In:  {"schema": JSON Schema, "documents": [text, ...]}
Out: {"verdicts": [{"schema": bool, "rules": bool}, ...]}

`schema` is the answer of the jsonschema library. `rules` is about fields that
contradict each other, which JSON Schema cannot say; it is only asked of
documents that the schema takes.
"""

import json
import sys

import jsonschema


def twice(values):
    values = [v.strip() for v in values]
    return len(set(values)) < len(values)


def in_order(group, least, greatest, default=None):
    low = group.get(least)
    high = group.get(greatest, default)
    return low is None or high is None or low <= high


def fit_together(sheet):
    """Head, flange and holes; fuse and current."""
    heads, supply = sheet["heads"], sheet.get("supply") or {}
    bare = [sheet["holes"]["head"]]
    bare += [hole["diameter"] for hole in sheet["holes"].get("by_material", [])]
    every = bare + [insert["hole"] for insert in sheet.get("inserts", [])]
    body, flange = heads.get("diameter"), heads.get("flange_diameter")
    fuse, current = supply.get("fuse_amperes"), supply.get("amperes")
    return (
        (body is None or all(body <= hole for hole in every))
        and (flange is None or all(flange > hole for hole in bare))
        and (fuse is None or current is None or fuse >= current)
    )


def rules(sheet):
    rings = [r["name"] for r in sheet["rings"]]
    inserts = [i["name"] for i in sheet.get("inserts", [])]
    heads, aim, marks = sheet["heads"], sheet["aim"], sheet["mark_out"]
    totals = sheet.get("totals", [])
    combinations = [(t["ring"], t.get("insert")) for t in totals]
    materials = [h["material"] for h in sheet["holes"].get("by_material", [])]
    with_defaults = {"corner_gap_greatest": 450, "spacing_least": 150} | marks
    answers = [
        not twice(heads["labels"]),
        not twice(rings),
        not twice(inserts),
        not twice(materials),
        len(set(combinations)) == len(combinations),
        heads.get("comes_with") is None or heads["comes_with"] in rings,
        all(ring in rings for ring, _ in combinations),
        all(insert is None or insert in inserts for _, insert in combinations),
        aim["least"] <= aim["target"] <= aim["greatest"],
        in_order(with_defaults, "corner_gap_least", "corner_gap_greatest"),
        in_order(with_defaults, "spacing_least", "spacing_greatest"),
        in_order(heads.get("grip") or {}, "least", "greatest"),
        in_order(sheet.get("height") or {}, "least", "greatest"),
        in_order(sheet.get("supply") or {}, "least_volts", "greatest_volts"),
        fit_together(sheet),
        all(
            i.get("covers_old_hole") is None or i["covers_old_hole"] >= i["hole"]
            for i in sheet.get("inserts", [])
        ),
    ]
    return all(answers)


def main():
    given = json.load(sys.stdin)
    jsonschema.Draft202012Validator.check_schema(given["schema"])
    validator = jsonschema.Draft202012Validator(given["schema"])
    verdicts = []
    for text in given["documents"]:
        try:
            document = json.loads(text)
        except ValueError:
            verdicts.append({"schema": False, "rules": False})
            continue
        valid = validator.is_valid(document)
        verdicts.append({"schema": valid, "rules": valid and rules(document)})
    json.dump({"verdicts": verdicts}, sys.stdout)


main()
