"""What pip asks to make a package of this folder (PEP 517 and 660): the kit, with lessons, their texts and the bundled runs inside it.

Standard library only: nothing has to be fetched to build it, and nothing is left behind in the folder.
"""

import tomllib
from base64 import urlsafe_b64encode
from email.message import Message
from hashlib import sha256
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from kit.bootstrap.places import CHECKOUT
from kit.bootstrap.requirements import GROUPS, requirements, stated

# Folder in the checkout: where it lies in the package (places.py), and endings of what only its makers need.
PARTS = {"kit": ("kit", ()), "lessons": ("kit/shipped/lessons", ()), "datasets": ("kit/shipped/datasets", (".py",))}
TAG = "py3-none-any"


def build_wheel(wheel_directory, config_settings=None, metadata_directory=None, *, checkout=CHECKOUT):
    """Write the whole kit as a wheel into that folder; its file name."""
    found = ((place, path.read_bytes()) for folder, (inside, unwanted) in PARTS.items() for place, path in packed(checkout / folder, inside, unwanted))
    return write_wheel(Path(wheel_directory), dict(found), checkout)


def build_editable(wheel_directory, config_settings=None, metadata_directory=None, *, checkout=CHECKOUT):
    """A wheel with nothing but a line that leads back to this folder, for `pip install -e`; its file name."""
    return write_wheel(Path(wheel_directory), {"twin-vessels.pth": f"{checkout}\n".encode()}, checkout)


def packed(folder, inside, unwanted):
    """(place in the package, path) of every file in `folder`, but for what a machine or an editor left there."""
    for path in sorted(folder.rglob("*")):
        parts = path.relative_to(folder).parts
        left = "__pycache__" in parts or path.name.endswith(".part") or any(part.startswith(".") for part in parts)
        if path.is_file() and not left and path.suffix not in unwanted:
            yield "/".join((inside, *parts)), path


def write_wheel(folder, files, checkout):
    """A wheel of `files` ({place: bytes}) by the binary distribution format 1.0; the same bytes for the same files."""
    project = tomllib.loads((checkout / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    named = f"{project['name'].replace('-', '_')}-{project['version']}"
    about = f"{named}.dist-info"
    files |= {
        f"{about}/METADATA": metadata(project, checkout).encode(),
        f"{about}/WHEEL": f"Wheel-Version: 1.0\nGenerator: twin-vessels\nRoot-Is-Purelib: true\nTag: {TAG}\n".encode(),
        f"{about}/licenses/LICENSE": (checkout / "LICENSE").read_bytes(),
    }
    record = [f"{place},sha256={urlsafe_b64encode(sha256(held).digest()).decode().rstrip('=')},{len(held)}\n" for place, held in files.items()]
    files[f"{about}/RECORD"] = "".join([*record, f"{about}/RECORD,,\n"]).encode()
    with ZipFile(folder / f"{named}-{TAG}.whl", "w", ZIP_DEFLATED) as wheel:
        for place, held in files.items():
            entry = ZipInfo(place)
            entry.compress_type, entry.external_attr = ZIP_DEFLATED, 0o100644 << 16
            wheel.writestr(entry, held)
    return f"{named}-{TAG}.whl"


def metadata(project, checkout):
    """Core metadata 2.4: what pyproject.toml and requirements.txt say."""
    made = Message()
    lines = [("Metadata-Version", "2.4"), ("Name", project["name"]), ("Version", project["version"]), ("Summary", project["description"])]
    lines += [("License-Expression", project["license"]), ("License-File", "LICENSE"), ("Requires-Python", project["requires-python"])]
    lines += [("Requires-Dist", each) for each in requirements("lab", checkout)]
    for extra in GROUPS["test"][1:]:
        lines += [("Provides-Extra", extra), *(("Requires-Dist", f"{each}; extra == '{extra}'") for each in stated(extra, checkout))]
    for name, value in lines:
        made[name] = value
    return made.as_string()
