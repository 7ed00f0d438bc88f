"""The kit: everything that goes with the film, written into the kit's folder.

`write_parts(contents, folder)` writes all files but the film. A new output is one new module with a function from
`KitContents` to text or bytes, and one line in `parts.py`.
"""

from studio.kit.contents import KitContents
from studio.kit.parts import write_parts

__all__ = ["KitContents", "write_parts"]
