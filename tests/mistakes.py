"""The bad files of fixtures/mistakes, each with what must be said of it. DEVELOPERS.md has the format."""
import glob
import os
import re
from typing import NamedTuple


class Mistake(NamedTuple):
    """A bad file, the mesh files beside it, and what the program says of it."""
    name: str
    files: dict  # bytes by file name: NAME.toml first, then the meshes
    said: str

    @property
    def toml(self):
        return self.name + ".toml"

    @property
    def of_shop(self):
        return self.name.startswith("shop_")

    def write_to(self, folder):
        """Writes the files into the folder; returns the path of the bad one."""
        for name, content in self.files.items():
            with open(os.path.join(folder, name), "wb") as file:
                file.write(content)
        return os.path.join(folder, self.toml)


def unescaped(lines):
    """The bytes of an escaped block: \\n, \\\\ and \\xHH stand for one each, the block's line ends for none."""
    one = {b"n": b"\n", b"\\": b"\\"}
    return re.sub(rb"\\(x[0-9a-f]{2}|.)",
                  lambda found: one.get(found[1]) or bytes.fromhex(found[1][1:].decode()),
                  lines.replace(b"\n", b""))


def of_section(section, path):
    """A section, without the mark it begins with."""
    name, files, said = None, {}, None
    for block in re.split(rb"^--- ", section, flags=re.M):
        head, _, lines = block.partition(b"\n")
        block_name, escaped, _ = head.decode().partition(" (escaped)")
        if name is None:
            name = block_name
            block_name += ".toml"
        if block_name == "said":
            said = lines.decode().rstrip("\n") + "\n"
        else:
            files[block_name] = unescaped(lines) if escaped else lines
    if not said:
        raise ValueError(f"{path}: {name} has no lines under --- said")
    return Mistake(name, files, said)


def read_mistakes(root):
    """All of them, by name."""
    found = []
    for path in glob.glob(os.path.join(root, "fixtures/mistakes/*.txt")):
        with open(path, "rb") as file:
            _, *sections = re.split(rb"^=== ", file.read(), flags=re.M)
        found += [of_section(section, path) for section in sections]
    return sorted(found, key=lambda mistake: mistake.name)
