#!/usr/bin/env python3
"""Unpacks a compressed score with Python's zipfile and packs it again, the ways other programs do.

Usage: repack_mxl.py OURS.mxl FOLDER
Leaves in FOLDER: score.musicxml as it was unpacked, deflated.mxl, stored.mxl, streamed.mxl (sizes behind the data),
without-container.mxl, and two that must be refused, bomb.mxl and encrypted-flag.mxl.
"""
import io
import sys
import zipfile
import xml.etree.ElementTree as xml
from pathlib import Path


class OneWay(io.RawIOBase):
    """A stream that cannot be turned back, so that sizes are written behind the data."""

    def __init__(self, file):
        self.file = file

    def writable(self):
        return True

    def write(self, data):
        return self.file.write(data)


def pack(path, files, method, one_way=False):
    with open(path, "wb") as file, zipfile.ZipFile(OneWay(file) if one_way else file, "w", method) as archive:
        for name, content in files.items():
            archive.writestr(name, content)


def main(ours, folder):
    with zipfile.ZipFile(ours) as archive:
        if archive.testzip() is not None or archive.namelist()[0] != "mimetype":
            sys.exit("the archive is damaged")
        if archive.getinfo("mimetype").compress_type != zipfile.ZIP_STORED:
            sys.exit("its type is packed")
        container = archive.read("META-INF/container.xml")
        path = xml.fromstring(container).find("rootfiles/rootfile").get("full-path")
        score = archive.read(path)
    folder = Path(folder)
    (folder / "score.musicxml").write_bytes(score)
    # Without mimetype, as before MusicXML 4.0; with a picture beside the score and in front of it.
    files = {"META-INF/container.xml": container, "cover.png": bytes(5000), path: score}
    pack(folder / "deflated.mxl", files, zipfile.ZIP_DEFLATED)
    pack(folder / "stored.mxl", files, zipfile.ZIP_STORED)
    pack(folder / "streamed.mxl", files, zipfile.ZIP_DEFLATED, one_way=True)
    pack(folder / "without-container.mxl", {"Song/score.xml": score}, zipfile.ZIP_DEFLATED)
    pack(folder / "bomb.mxl", {"META-INF/container.xml": container, path: bytes(200_000_000)}, zipfile.ZIP_DEFLATED)
    flagged = bytearray((folder / "deflated.mxl").read_bytes())
    for signature, offset in ((b"PK\3\4", 6), (b"PK\1\2", 8)):
        at = flagged.find(signature)
        while at >= 0:
            flagged[at + offset] |= 1
            at = flagged.find(signature, at + 1)
    (folder / "encrypted-flag.mxl").write_bytes(flagged)


if __name__ == "__main__":
    main(*sys.argv[1:])
