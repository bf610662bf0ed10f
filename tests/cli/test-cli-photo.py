# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Photos by the command line, looked at by a program that shares nothing with ours: pixel for pixel the same, the
place gone, the way up kept. The photos are made here."""

import hashlib
import os
import resource
import shutil
import sqlite3
import struct
import subprocess
import zlib

import tap
from halfshaft import CLI, DemoCase

NUMBER = "A-0021"


def run(*command):
    return subprocess.run(command, check=True, capture_output=True, timeout=60).stdout


def entry(tag, kind, count, value):
    return struct.pack(">HHI", tag, kind, count) + value


def exif(orientation=6, taken=b"2026:03:10 06:41:07"):
    """Main list at 8 with make, orientation and pointers; more at 62; place at 80: 47 degrees north; texts behind."""
    main = struct.pack(">H", 4) + entry(0x010F, 2, 8, struct.pack(">I", 152)) \
        + entry(0x0112, 3, 1, struct.pack(">HH", orientation, 0)) \
        + entry(0x8769, 4, 1, struct.pack(">I", 62)) + entry(0x8825, 4, 1, struct.pack(">I", 80)) + bytes(4)
    more = struct.pack(">H", 1) + entry(0x9003, 2, 20, struct.pack(">I", 160)) + bytes(4)
    place = struct.pack(">H", 4) + entry(1, 2, 2, b"N\0\0\0") + entry(2, 5, 3, struct.pack(">I", 180)) \
        + entry(3, 2, 2, b"E\0\0\0") + entry(4, 5, 3, struct.pack(">I", 180)) + bytes(4)
    body = b"MM\0*" + struct.pack(">I", 8) + main + more + place
    body += bytes(152 - len(body)) + b"Tannery\0" + taken + b"\0"
    return body + struct.pack(">6I", 47, 1, 11, 1, 0, 1)


def segment(marker, body):
    return b"\xff" + bytes([marker]) + struct.pack(">H", len(body) + 2) + body


def told_jpeg(plain, **how):
    """As a phone writes it: Exif, XMP and IPTC with a place, a comment, and a film behind the picture."""
    return plain[:2] + segment(0xE1, b"Exif\0\0" + exif(**how)) \
        + segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0<x exif:GPSLatitude='47,11N'/>") \
        + segment(0xED, b"Photoshop 3.0\0" + b"8BIM\x04\x04\0\0\0\0\0\x0e\x1c\x02\x5a\0\x09Tanneries") \
        + segment(0xFE, b"owner: nobody") + plain[2:] + b"....ftypmp42 GPS"


def chunk(name, body):
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def told_png(plain):
    return plain[:33] + chunk(b"eXIf", exif()) + chunk(b"tEXt", b"Comment\0GPS 47,11N") \
        + chunk(b"iTXt", b"XML:com.adobe.xmp\0\0\0\0\0<x exif:GPSLatitude='47,11N'/>") + plain[33:]


def told_webp(plain):
    """The short kind wrapped into the extended one, with Exif and XMP."""
    width, height = struct.unpack("<HH", plain[26:30])
    canvas = bytes([0x0C, 0, 0, 0]) + struct.pack("<I", width - 1)[:3] + struct.pack("<I", height - 1)[:3]
    body = exif()
    xmp = b"<x exif:GPSLatitude='47,11N'/> "
    chunks = b"VP8X" + struct.pack("<I", 10) + canvas + plain[12:]
    for name, inside in ((b"EXIF", body), (b"XMP ", xmp)):
        chunks += name + struct.pack("<I", len(inside)) + inside + bytes(len(inside) % 2)
    return b"RIFF" + struct.pack("<I", len(chunks) + 4) + b"WEBP" + chunks


class Photos(DemoCase):
    def path(self, name):
        return os.path.join(self.folder, name)

    def put(self, name, data):
        with open(self.path(name), "wb") as file:
            file.write(data)
        return self.path(name)

    def paint(self, kind, shade="navy"):
        """A picture whose halves differ, so that a turn shows."""
        return run("convert", "-size", "80x48", "gradient:red-" + shade, "-fill", "white", "-draw",
                   "rectangle 0,0 39,11", "-quality", "88", kind + ":-")

    def list(self):
        return self.ask("photo", NUMBER)

    def told(self, kind):
        plain = self.paint(kind)
        return self.put("told." + kind, {"jpg": told_jpeg, "png": told_png, "webp": told_webp}[kind](plain))

    def pixels(self, path):
        return run("convert", path, "-depth", "8", "rgb:-")

    def metadata(self, path):
        """As it is told by all versions: some put a space behind the comma of a list."""
        return run("identify", "-format", "%[EXIF:*]", path).decode().replace(", ", ",")

    def test_place_is_gone(self):
        for kind in ("jpg", "png", "webp"):
            path = self.told(kind)
            out = self.path("out." + kind)
            self.ask("photo", NUMBER, path)
            self.run_cli("photo", NUMBER, "--photo", "1", "--export", out)
            self.assertEqual(self.pixels(out), self.pixels(path), kind)
            with open(out, "rb") as file:
                kept = file.read()
            for word in (b"GPS", b"47,11N", b"Tanner", b"nobody", b"ftyp"):
                self.assertNotIn(word, kept, kind)
            if kind == "jpg":
                self.assertIn("GPSLatitude=47/1,11/1,0/1", self.metadata(path))
                self.assertEqual(set(self.metadata(out).splitlines()) - {"exif:ExifOffset=38"},
                                 {"exif:Orientation=6", "exif:DateTimeOriginal=2026:03:10 06:41:07"})
            self.assertEqual(self.list()[0]["sha256"], hashlib.sha256(kept).hexdigest())
            self.assertEqual((self.list()[0]["width"], self.list()[0]["height"]), (48, 80), kind)
            self.run_cli("photo", NUMBER, "--photo", "1", "--remove")

    def test_place_on_purpose(self):
        path = self.told("jpg")
        out = self.path("out.jpg")
        added = self.ask("photo", NUMBER, path, "--keep-location")
        self.assertEqual((added[0]["told_place"], added[0]["kept_place"]), (True, True))
        self.run_cli("photo", NUMBER, "--photo", "1", "--export", out)
        with open(path, "rb") as file, open(out, "rb") as other:
            self.assertEqual(file.read(), other.read())
        with sqlite3.connect(self.book) as book:
            logged = book.execute("SELECT count(*) FROM change_log WHERE field = 'place'").fetchone()
        self.assertEqual(logged, (1,))

    def test_added_and_listed(self):
        self.run_cli("because", NUMBER, "clamp loose")
        said = self.run_cli("photo", NUMBER, self.told("jpg"), "--finding", "clamp loose", "--phase", "after",
                            "--words", "the clamp").stdout
        self.assertEqual(said, "told.jpg: added\n    the place where it was taken was left out\n")
        photo = self.list()[0]
        self.assertEqual((photo["number"], photo["name"], photo["words"], photo["phase"], photo["finding"],
                          photo["taken_at"], photo["missing"], photo["media_type"]),
                         (1, "told.jpg", "the clamp", "after", "clamp loose", "2026-03-10T10:41:07Z", False,
                          "image/jpeg"))
        self.assertIn("the clamp · clamp loose", self.run_cli("photo", NUMBER, "--list").stdout)
        self.assertEqual(self.ask("job", NUMBER)["photos"], [photo])
        self.assertIn("photo        1  ", self.run_cli("job", NUMBER).stdout)
        self.run_cli("photo", NUMBER, "--photo", "1", "--finding", "none", "--phase", "during", "--words", "")
        photo = self.list()[0]
        self.assertEqual((photo["finding"], photo["phase"], photo["words"]), (None, "during", None))
        self.run_cli("photo", NUMBER, "--photo", "1", "--remove")
        self.assertEqual(self.run_cli("photo", NUMBER).stdout, "no photos yet\n")
        self.run_cli("undo", NUMBER)
        self.assertEqual(len(self.list()), 1)

    def test_some_refused(self):
        """The good ones are in; each bad one is named with its reason."""
        good = self.put("good.jpg", self.paint("jpg"))
        bad = self.put("bad.jpg", b"no picture")
        done = self.run_cli("photo", NUMBER, good, bad, good, status=1)
        self.assertEqual(done.stdout.splitlines(), [
            "good.jpg: added",
            "not added: “bad.jpg”: The file is not a photo. Only photos are kept: JPEG, PNG or WebP.",
            "not added: “good.jpg” is on this job already, as photo 1. It was not added again."])
        self.assertIn("2 photos were not added", done.stderr)
        self.assertEqual(len(self.list()), 1)
        answers = self.run_cli("--json", "photo", NUMBER, bad, status=1).stdout
        self.assertIn('"refused"', answers)

    def refused_photo(self, path, says):
        """Within 400 MB of memory, so that nothing is unfolded on the way to the refusal. The address sanitizer alone
        wants more room than there is on earth."""
        before = self.read_bytes()
        limit = (resource.RLIM_INFINITY,) * 2 if "ASAN_OPTIONS" in os.environ else (400_000_000, 400_000_000)
        done = subprocess.run([CLI, "--book", self.book, "photo", NUMBER, path, "--now", self.now], text=True,
                              timeout=20, capture_output=True, check=False,
                              preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, limit))
        self.assertEqual(done.returncode, 1, done.stderr)
        self.assertIn(says, done.stdout)
        self.assertEqual(self.read_bytes(), before)

    def test_bombs(self):
        plain = self.paint("jpg")
        frame = plain.index(b"\xff\xc0")
        huge = plain[:frame + 5] + struct.pack(">HH", 20000, 20000) + plain[frame + 9:]
        head = struct.pack(">IIBBBBB", 20000, 20000, 8, 2, 0, 0, 0)
        flat = zlib.compress(bytes(60001) * 100, 9)
        png = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", flat) + chunk(b"IEND", b"")
        svg = b"<?xml version='1.0'?><!DOCTYPE svg [<!ENTITY a0 'ha'>" + b"".join(
            b"<!ENTITY a%d '%s'>" % (i, b"&a%d;" % (i - 1) * 10) for i in range(1, 12)) + b"]><svg>&a11;</svg>"
        for name, data, says in (("huge.jpg", huge, "20000 × 20000 pixels"), ("huge.png", png, "20000 × 20000 pixels"),
                                 ("bomb.svg", svg, "a drawing or a page of text"), ("bomb.jpg", svg, "a drawing"),
                                 ("cut.jpg", plain[:-30], "The file is cut off"),
                                 ("cut.png", self.paint("png")[:-30], "The file is cut off"),
                                 ("cut.webp", self.paint("webp")[:-30], "The file is cut off"),
                                 ("empty.jpg", b"", "is empty"), ("anim.gif", self.paint("gif"), "not a photo")):
            self.refused_photo(self.put(name, data), says)
        self.refused_photo(self.folder, "This is a folder")
        self.refused_photo(self.path("none.jpg"), "none.jpg")

    def test_usage(self):
        good = self.put("good.jpg", self.paint("jpg"))
        for words, said in (([], "say which job"), ([NUMBER, "--remove"], "say which photo"),
                            ([NUMBER, "--photo", "1"], "say what about the photo"),
                            ([NUMBER, "--photo", "1", good], "say what about the photo"),
                            ([NUMBER, good, "--list"], "do not go together"),
                            ([NUMBER, good, "--finding", "nothing"], "there is no finding “nothing”"),
                            ([NUMBER, "--camera", self.folder], "--camera takes")):
            self.assertIn(said, self.refuse("photo", *words, status=2), words)
        for words, said in ((["A-9999"], "A-9999"), ([NUMBER, "--photo", "1", "--remove"], "no photo of this job yet"),
                            (["A-0001", good], "was not added")):
            self.assertIn(said, self.refuse("photo", *words), words)

    def test_camera(self):
        camera = self.path("DCIM")
        os.mkdir(camera)
        self.run_cli("job", NUMBER, "rolling")
        self.run_cli("job", NUMBER, "on_site")
        shutil.copy(self.told("jpg"), os.path.join(camera, "IMG_1.jpg"))
        old = told_jpeg(self.paint("jpg", "green"), taken=b"2025:01:02 03:04:05")
        with open(os.path.join(camera, "IMG_0.jpg"), "wb") as file:
            file.write(old)
        found = self.ask("photo", "--camera", camera)
        self.assertEqual([(one["name"], one["job"], one["known"]) for one in found],
                         [("IMG_1.jpg", NUMBER, False), ("IMG_0.jpg", None, False)])
        self.assertIn("no job", self.run_cli("photo", "--camera", camera).stdout)
        self.assertEqual(self.run_cli("photo", "--camera", camera, "--add").stdout.splitlines()[0], "IMG_1.jpg: added")
        self.assertEqual([one["known"] for one in self.ask("photo", "--camera", camera)], [True, False])
        self.assertEqual(self.ask("photo", "--camera", camera, "--add"), [])
        self.assertEqual([(one["name"], one["visit"]) for one in self.list()], [("IMG_1.jpg", 1)])
        self.assertIn("no folder that can be read", self.refuse("photo", "--camera", self.path("nowhere")))

    def test_check_names_the_missing(self):
        self.run_cli("photo", NUMBER, self.put("a.jpg", self.paint("jpg")))
        self.assertEqual(self.ask("check")["photos"], {"count": 1, "missing": []})
        self.assertIn("1 photo, as it was added.", self.run_cli("check").stdout)
        with sqlite3.connect(self.book) as book:
            book.execute("DROP TRIGGER photo_chunk_kept")
            book.execute("DELETE FROM photo_chunk")
        self.assertEqual(self.ask("check")["photos"],
                         {"count": 1, "missing": [{"job": NUMBER, "number": 1, "name": "a.jpg"}]})
        self.assertIn("Photo 1 of A-0021 (a.jpg): its picture is missing", self.run_cli("check").stdout)
        self.assertIn("(the picture is missing)", self.run_cli("photo", NUMBER).stdout)
        self.assertIn("not in the book", self.refuse("photo", NUMBER, "--photo", "1", "--export", self.path("x.jpg")))
        self.assertFalse(os.path.exists(self.path("x.jpg")))
        self.assertEqual(self.run_cli("photo", NUMBER, self.path("a.jpg")).stdout,
                         "a.jpg: its missing picture is there again\n")
        self.assertEqual(self.ask("check")["photos"]["missing"], [])


if __name__ == "__main__":
    tap.main()
