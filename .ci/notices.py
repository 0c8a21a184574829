#!/usr/bin/env python3
"""Prints the notices that go with a release: every library in the program, with its license texts.

    python3 .ci/notices.py x86_64-unknown-linux-gnu > THIRD-PARTY.txt
    python3 .ci/notices.py wasm32-unknown-unknown page > PLANNER.txt

The first has the libraries of the engine in the planner page too; the second, for the page itself, those alone.

Ends with 1 if the license of a library cannot be told: then there is nothing to pass on.
"""

import json
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
TEXTS = re.compile(r"(licen[sc]e|copying|notice|unlicense|copyright)", re.IGNORECASE)
LINE = "-" * 100
# What the planner page is compiled for.
WEB = "wasm32-unknown-unknown"
# Our own license files hold the standard texts: for a package that names a license and holds no text.
STANDARD = {"MIT": "LICENSE-MIT", "Apache-2.0": "LICENSE-APACHE"}


def metadata(target):
    command = ["cargo", "metadata", "--locked", "--format-version", "1", "--filter-platform", target]
    return json.loads(subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.PIPE).stdout)


def linked(found, root):
    """The packages that the root is built from, without what only tests or build scripts use."""
    packages = {package["id"]: package for package in found["packages"]}
    nodes = {node["id"]: node for node in found["resolve"]["nodes"]}
    waiting = [key for key, package in packages.items() if package["name"] == root]
    seen = set(waiting)
    while waiting:
        for needed in nodes[waiting.pop()]["deps"]:
            normal = any(kind["kind"] is None for kind in needed["dep_kinds"])
            if normal and needed["pkg"] not in seen:
                seen.add(needed["pkg"])
                waiting.append(needed["pkg"])
    others = [packages[key] for key in seen if packages[key]["source"] is not None]
    return sorted(others, key=lambda package: (package["name"], package["version"]))


def standard_text(package):
    named = re.split(r"\s+(?:OR|AND)\s+|/|[()]", package["license"] or "")
    for license_name, file in STANDARD.items():
        if license_name in named:
            text = (ROOT / file).read_text(encoding="utf-8")
            holders = ", ".join(package["authors"]) or f"the authors of {package['name']}"
            return text.replace("2026 the bucketline maintainers", holders)
    sys.exit(f"notices: {package['name']} {package['version']} holds no license text that could be passed on")


def texts_of(package):
    folder = Path(package["manifest_path"]).parent
    files = sorted(file for file in folder.iterdir() if file.is_file() and TEXTS.match(file.name))
    files = [file for file in files if file.suffix.lower() not in (".rs", ".spdx")]
    if package["license_file"] and folder / package["license_file"] not in files:
        files.append(folder / package["license_file"])
    texts = [file.read_text(encoding="utf-8", errors="replace") for file in files]
    return texts or [standard_text(package)]


def main(target, root):
    packages = linked(metadata(target), root)
    if root == "bucketline":
        known = {package["id"] for package in packages}
        packages += [one for one in linked(metadata(WEB), "page") if one["id"] not in known]
        packages.sort(key=lambda package: (package["name"], package["version"]))
    owners, texts = {}, {}
    for package in packages:
        for text in texts_of(package):
            # Copies of one text differ in line ends and indents.
            key = " ".join(text.split())
            texts.setdefault(key, text.replace("\r\n", "\n").strip("\n"))
            name = f"{package['name']} {package['version']}"
            if name not in owners.setdefault(key, []):
                owners[key].append(name)
    print("bucketline is built with the work of others, listed here with their license texts.\n")
    for package in packages:
        license_named = package["license"] or package["license_file"]
        print(f"{package['name']} {package['version']}: {license_named}")
    fonts = sorted((ROOT / "crates").glob("*/assets/*-LICENSE.txt"))
    for font in fonts:
        name = font.name.removesuffix("-LICENSE.txt")
        print(f"{name}, the typeface of the charts: OFL-1.1")
        texts[name] = font.read_text(encoding="utf-8").strip("\n")
        owners[name] = [name]
    for key, names in owners.items():
        print(f"\n{LINE}\n{', '.join(names)}\n{LINE}\n\n{texts[key]}")


if __name__ == "__main__":
    if len(sys.argv) not in (2, 3):
        sys.exit("usage: notices.py TARGET [PACKAGE], such as x86_64-unknown-linux-gnu")
    main(sys.argv[1], sys.argv[2] if len(sys.argv) == 3 else "bucketline")
