"""Opens and makes backups with other people's programs: zipfile of Python's
standard library, and pyrage (age in Rust, its own build, called from Python).

In: { "do": "open", "file": base64, "passphrase": text or null }
Out: { "names": [...], "texts": { name: base64 }, "bad": name or null }
In: { "do": "make", "entries": [[name, base64]...], "passphrase": text or null,
      "way": "deflated" | "stored" | "streamed" }
Out: { "file": base64 }
"""

import base64
import io
import json
import sys
import zipfile


class Streamed(io.RawIOBase):
    """A pipe: what is written cannot be gone back to."""

    def __init__(self):
        self.bytes = bytearray()

    def writable(self):
        return True

    def write(self, data):
        self.bytes += bytes(data)
        return len(data)


def opened(asked):
    data = base64.b64decode(asked["file"])
    if asked["passphrase"] is not None:
        import pyrage

        data = pyrage.passphrase.decrypt(data, asked["passphrase"])
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        bad = archive.testzip()
        names = archive.namelist()
        texts = {name: base64.b64encode(archive.read(name)).decode() for name in names}
    return {"names": names, "texts": texts, "bad": bad}


def made(asked):
    way = asked["way"]
    method = zipfile.ZIP_STORED if way == "stored" else zipfile.ZIP_DEFLATED
    out = Streamed() if way == "streamed" else io.BytesIO()
    with zipfile.ZipFile(out, "w", method) as archive:
        for name, data in asked["entries"]:
            archive.writestr(name, base64.b64decode(data))
    data = bytes(out.bytes) if way == "streamed" else out.getvalue()
    if asked["passphrase"] is not None:
        import pyrage

        data = pyrage.passphrase.encrypt(data, asked["passphrase"])
    return {"file": base64.b64encode(data).decode()}


asked = json.load(sys.stdin)
json.dump({"open": opened, "make": made}[asked["do"]](asked), sys.stdout)
